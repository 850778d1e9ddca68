//! Acknowledgements, questions, refusals, help.

use super::English;
use crate::coaching::{RefusalReason, Rule};
use crate::message::{Doubt, Name, Wants};
use crate::reply::phrases::{
    Answers, Approvals, Belongings, Care, Limited, Offices, Safeguards, Timetables, Weeklies,
    Words, canonical, first_upper, quoted,
};
use crate::reply::{Asks, OkReply, RefusedWhy, Set, Topic, Unread, Withdrawn};
use crate::swim::why::Explanation;
use crate::units::{Pace, Start, Unit};

impl Answers for English {
    fn welcome(&self, name: &Name, squad: &str) -> String {
        format!("Welcome to {squad}, {name}!")
    }

    fn readiness(&self, questions: bool) -> &'static str {
        if questions {
            "Plans stay easy until three health questions are answered; results count from the \
             start."
        } else {
            "Until your coach has cleared you, plans stay easy: tell your coach of any heart, \
             chest, fainting or breathing trouble, medicine, or a long break."
        }
    }

    fn readiness_question(&self, question: u8) -> &'static str {
        match question {
            1 => {
                "1 of 3: have you been out of regular exercise for three months or more? YES or NO."
            }
            2 => {
                "2 of 3: any heart, chest, fainting or breathing trouble, or medicine for one? YES \
                 or NO."
            }
            _ => {
                "3 of 3: has anyone told you not to swim hard, or is there a reason not to? YES or NO."
            }
        }
    }

    fn first_steps(&self) -> [&'static str; 2] {
        [
            "Swim 200 or 400 at an even pace when you are ready, then text: 200 test 3:12",
            "HELP shows what else to text. Pool rules and lifeguards come first.",
        ]
    }

    fn of_day(&self, what: &str, day: &str) -> String {
        format!("{what} of {day}")
    }

    fn session_taken_back(&self) -> &'static str {
        "session"
    }

    fn register_taken_back(&self) -> &'static str {
        "register"
    }

    fn squad_set_taken_back(&self) -> &'static str {
        "set"
    }

    fn evening_taken_back(&self, what: &Withdrawn) -> &'static str {
        match what {
            Withdrawn::SetChange(_) => "change to the set",
            Withdrawn::Lanes(_) => "change of lanes",
            Withdrawn::Shut(_) => "pool shut, night",
            Withdrawn::Night(_) => "change to the night",
            Withdrawn::Timetable => "the change to every week's nights",
            Withdrawn::Digest => "your wish for the weekly digest",
            Withdrawn::Note => "the wish for the weekly note",
            _ => self.change_taken_back(),
        }
    }

    fn as_before(&self, trial: &str) -> String {
        format!("{trial} stands again")
    }

    fn results_taken_back(&self, number: usize, names: &str) -> String {
        format!("{number} results: {names}")
    }

    fn repeat_put_right(&self, number: usize, was: &str, now: &str) -> String {
        format!("number {number} now {now} (was {was})")
    }

    fn change_taken_back(&self) -> &'static str {
        "your last change"
    }

    fn done_so(&self, reply: &OkReply) -> String {
        match reply {
            OkReply::Profile(set) => {
                format!("Stored: {}.", set.iter().map(setting).collect::<Vec<_>>().join(", "))
            }
            OkReply::Belonging(done) => self.belongs(done),
            OkReply::Board { url, hours } => {
                format!("{url} - your board for {hours} hours. It is yours alone: don't pass it on.")
            }
            OkReply::Undone { what } => format!("Undone: {}.", self.taken_back(what)),
            OkReply::Fixed { who, trial, before } => format!(
                "Put right: {}{} (was {}), {}.",
                who.as_ref().map_or_else(String::new, |who| format!("{who} ")),
                self.trial(trial),
                before.short(),
                self.short_day(trial.on)
            ),
            OkReply::ResultsSwapped { now: [(one, first), (other, second)] } => format!(
                "Swapped: {} {} and {} {}. SWAP again takes it back.",
                one,
                self.trial(first),
                other,
                self.trial(second)
            ),
            OkReply::Told { who: Some(who), .. } => format!("Passed on to {who}."),
            OkReply::Told { number, left_out, .. } if left_out.is_empty() => {
                format!("Passed on to {number} swimmers.")
            }
            OkReply::Told { number, left_out, .. } => format!(
                "Passed on to {number} swimmers. Under 18, without a guardian and a second adult to read along, \
                 so not to: {}.",
                left_out.iter().map(Name::as_str).collect::<Vec<_>>().join(", ")
            ),
            OkReply::Moved { to } => format!("Moved to {to}."),
            OkReply::Missed { on } => {
                format!("{} missed, noted. No catching up: just take the next one.", self.day(*on))
            }
            OkReply::Away { from, until } => {
                let from = from.map_or(String::new(), |from| format!(" from {}", self.day(from)));
                format!("Away{from} until {}, noted. You will start again gently.", self.day(*until))
            }
            OkReply::Better { from: Some(from) } => format!(
                "Good to hear. Clear days first: no training before {}, then a gentle start.",
                self.day(*from)
            ),
            OkReply::Better { from: None } => {
                "Good to hear. The next session starts gently; text NEXT for it.".to_owned()
            }
            OkReply::Swapped { days } => {
                format!("Swapped. Your days now: {}.", self.days_and_hard_ones(days))
            }
            OkReply::Race { on, distance } => {
                format!(
                    "Race {distance} on {} noted. A 400 test tells what to expect of it.",
                    self.day(*on)
                )
            }
            OkReply::Pinned { who, lane: Some(lane) } => {
                format!("{who} swims in L{lane} from now on.")
            }
            OkReply::Pinned { who, lane: None } => {
                format!("{who} is placed by pace again.")
            }
            OkReply::Parted { names, apart } => {
                let names: Vec<String> = names.iter().map(ToString::to_string).collect();
                let share = if *apart { "share no lane" } else { "may share a lane" };
                format!("{} {share} from now on.", self.all_of(&names))
            }
            OkReply::NamesInRooms { shown: true } => {
                "The chat may now hear who swims in which lane and what it swims; nothing else \
                 of anyone. NO NAMES IN THE CHAT ends it."
                    .into()
            }
            OkReply::NamesInRooms { shown: false } => "No names in the chat any more.".into(),
            OkReply::NotTonight { who, on, done } => {
                let (day, who) = (self.day(*on), who.as_ref().map(Name::as_str));
                match (who, done) {
                    (None, true) => format!("You have told what you swam on {day}: that was it."),
                    (Some(who), true) => format!("{who} is done for {day}."),
                    (None, false) => format!("You are down as out on {day}. Text IN if you come."),
                    (Some(who), false) => format!("{who} is down as out on {day}."),
                }
            }
            OkReply::Remarked { of: None, text } => format!("Noted: {text}."),
            OkReply::Remarked { of: Some(who), text } => format!("Noted for {who}: {text}."),
            OkReply::Able { of, ability } => {
                let of = of.as_ref().map_or_else(String::new, |who| format!(" for {who}"));
                let unbroken = ability.unbroken.map(|far| {
                    format!(
                        "{far} without a stop, noted{of}: no repeat is longer, and the first test \
                         neither. It grows step by step."
                    )
                });
                let most = ability.most.map(|far| format!("At most {far} a session, noted{of}."));
                unbroken.into_iter().chain(most).collect::<Vec<_>>().join(" ")
            }
            OkReply::Tired { of: None } => {
                "Noted, and sleep comes first. If you swim today or tomorrow: easy, and a step \
                 shorter. NEXT shows it."
                    .to_owned()
            }
            OkReply::Tired { of: Some(who) } => {
                format!("Noted: {who} is tired. Today and tomorrow easy, and a step shorter.")
            }
            OkReply::NotKnown => {
                "I don't know that; your coach may. I know NEXT, TARGETS, BEST, TREND, LOG, WHY."
                    .to_owned()
            }
            OkReply::Noted { who } => format!("Noted for {who}."),
            OkReply::Held { who } => format!("{who} swims easy until you text RELEASE {who}."),
            OkReply::Released { who, on_word: true, .. } => format!(
                "{who} is released, on your word that a clinician has cleared it; the next \
                 sessions start gently. If nobody has, keep {who} out of the water."
            ),
            OkReply::ClearanceNoted => {
                "Noted, and your coach is told. No swimming until your coach releases you by text."
                    .to_owned()
            }
            OkReply::Released { who, cleared: true, .. } => {
                format!("{who} is released and cleared: sessions may get harder, gently at first.")
            }
            OkReply::ReadinessAnswered { clear: true } => {
                "Thank you, noted: you may swim hard when a session says so. If any of it changes, \
                 tell your coach first."
                    .to_owned()
            }
            OkReply::ReadinessAnswered { clear: false } => {
                "Thank you. Plans stay easy until your coach releases you: please talk to your \
                 coach and, if in doubt, a clinician. Results count all the same."
                    .to_owned()
            }
            OkReply::ContactKept => {
                "Stored. It is shown to your coach if you are in danger, and nowhere else."
                    .to_owned()
            }
            OkReply::Released { who, .. } => {
                format!("{who} is released; the next sessions start gently.")
            }
            OkReply::Greeting => {
                "Hello! Text NEXT for a session, HELP for what else to say.".to_owned()
            }
            OkReply::Thanks => "You're welcome. See you at the pool.".to_owned(),
            OkReply::EverybodyOut { here: 0 } => {
                "Everybody out of the water first, and count heads. Nothing stored. When you are \
                 back: 12 LEFT fits the set to the time."
                    .to_owned()
            }
            OkReply::EverybodyOut { here } => format!(
                "Everybody out of the water first, and count heads: {here} on the register (HERE \
                 lists them). Nothing stored. When you are back: 12 LEFT fits the set to the time."
            ),
            OkReply::LeftAlone => "Left as it was; nothing stored.".to_owned(),
            OkReply::Forgotten => {
                "Erased: your texts and results are gone and you are out of the squad. Accident and \
                 welfare records stay, apart, for the club's stated time."
                    .to_owned()
            }
            OkReply::OptedOut => {
                "Lapwing: no more texts to you. Text START to have them again.".to_owned()
            }
            OkReply::OptedIn => {
                "Lapwing: texts are on again. Text HELP for what to say.".to_owned()
            }
            OkReply::Attend(_)
            | OkReply::Shut(_)
            | OkReply::Timetable(_)
            | OkReply::Care(_)
            | OkReply::Office(_)
            | OkReply::Joined { .. }
            | OkReply::More { .. }
            | OkReply::Register(_)
            | OkReply::SetChanged(_)
            | OkReply::LanesChanged(_)
            | OkReply::SetFixed(_)
            | OkReply::HeatOf(_)
            | OkReply::TestNight(_)
            | OkReply::Begun(_)
            | OkReply::Entered(_)
            | OkReply::Leg { .. }
            | OkReply::Meet(_)
            | OkReply::Entries(_)
            | OkReply::GivenToDeck
            | OkReply::Known(_)
            | OkReply::Weekly(_)
            | OkReply::Approval(_)
            | OkReply::Limits(_)
            | OkReply::OwnTargets(_)
            | OkReply::Silent => String::new(),
        }
    }

    fn ask(&self, asks: &Asks) -> String {
        match asks {
            Asks::Doubt(doubt) => self::doubt(doubt),
            Asks::Implausible { distance, time } => {
                let pace = Pace::of(*distance, *time);
                format!(
                    "{} in {} is {} per 100: is that right? Nothing stored yet.",
                    distance,
                    time.short(),
                    pace
                )
            }
            Asks::Impossible { distance, time } => {
                format!(
                    "I read {distance} in {}, and nobody swims that. Nothing stored: what was the \
                     time? Text it like this: 200 test 3:12",
                    time.short()
                )
            }
            Asks::AnyDanger => {
                "Any chest pain, faintness, head knock or trouble breathing?".to_owned()
            }
            Asks::TwoReadings { distance, one, other } => {
                format!("{distance}: {} or {}? Nothing stored yet.", one.short(), other.short())
            }
            Asks::ImpossiblePair { new, old } => format!(
                "{} is at a faster pace than the {} of {}: is that right? Nothing stored yet.",
                self.trial(new),
                self.trial(old),
                self.short_day(old.on)
            ),
            Asks::TellAll { text, number } => format!("Send {} to all {number}? It can't be taken back.", quoted(text)),
            Asks::PassOn => "I don't know that. Pass it on to your coach?".to_owned(),
            Asks::Of { who, asks } => format!("{who}: {}", self.ask(asks)),
            Asks::WhoIs { name } => format!("No {name} here. Who is meant? Nothing stored yet."),
            Asks::WhoElse { name } => format!("No {name} here, so not marked: who is it?"),
            Asks::Readiness { question } => self.readiness_question(*question).to_owned(),
            Asks::NoTexts { away_until: Some(until) } => {
                format!(
                    "Away until {}: noted. No texts at all either, until you text START?",
                    self.day(*until)
                )
            }
            Asks::NoTexts { away_until: None } => {
                "Do you want no more texts, until you text START?".to_owned()
            }
            Asks::Leave { squad } => format!(
                "Leave {squad}? No more texts; your results stay with the squad. To erase them too, \
                 text FORGET ME instead."
            ),
            Asks::Remove { name } => {
                format!("Take {name} out of the squad? The results stay with it.")
            }
            Asks::AnotherPerson { name } => {
                format!("Is {name} another person on this phone?")
            }
            Asks::TakeBack { what, singly: true } => format!(
                "Undo {}? A name takes back theirs alone.",
                self.taken_back(what)
            ),
            Asks::TakeBack { what, singly: false } => {
                format!("Undo {}?", self.taken_back(what))
            }
            Asks::WhichPerson => "Who is it? Nothing stored yet.".to_owned(),
            Asks::SayWho { names } => {
                let names: Vec<String> = names.iter().map(Name::to_string).collect();
                format!("Who is it, {}? Nothing stored; begin with the name.", self.one_of(&names))
            }
            Asks::WhichSquad => "Which squad is that for? Nothing stored yet.".to_owned(),
            Asks::Forget => {
                "Leave the squad and erase all your texts, tests, sets and sessions? It can't be undone."
                    .to_owned()
            }
        }
    }

    fn text_one_of(&self, options: &str) -> String {
        format!("Text {options}.")
    }

    fn text_again(&self) -> &'static str {
        "Text it again."
    }

    fn option(&self, option: &str) -> String {
        option.to_uppercase()
    }

    fn refusal(&self, why: &RefusedWhy) -> String {
        match why {
        RefusedWhy::Coaching(reason) => coaching(reason),
        RefusedWhy::CoachOnly => "That one is for the coach. HELP shows what you can text.".into(),
        RefusedWhy::HealthOtherwise => {
            "Not passed on: of health tell your coach yourself. To me, text SHOULDER HURTS 4 or ILL."
                .into()
        }
        RefusedWhy::NobodyReads => {
            "I can pass nothing on: your coach takes no texts. Please ask your coach yourself.".into()
        }
        RefusedWhy::NotAMember => {
            "Lapwing, a swim squad's coaching assistant. You are in no squad here: ask the coach \
             for the code and text, say, JOIN CODE heron. STOP for no texts."
                .into()
        }
        RefusedWhy::NotASwimmer => {
            "You don't swim in this squad. Name a swimmer (heron 200 test 3:12) or JOIN with the \
             code."
                .into()
        }
        RefusedWhy::BadCode => {
            "No squad opens with that code, or no longer. Ask your coach.".into()
        }
        RefusedWhy::NameTaken => "Someone here has that name; join with another.".into(),
        RefusedWhy::AlreadyIn => "That number is in the squad already.".into(),
        RefusedWhy::SquadFull => "This squad is full. Ask your coach.".into(),
        RefusedWhy::ManyAskedIn => {
            "Many are asked in and have not answered: wait until some have.".into()
        }
        RefusedWhy::LastCoach => {
            "A squad needs a coach: HAND OVER to an assistant first, then LEAVE.".into()
        }
        RefusedWhy::NotOnDeck { name } => {
            format!("{name} is no assistant or coach here; INVITE one with the number first.")
        }
        RefusedWhy::Care(why) => self.care_refusal(why),
        RefusedWhy::Office(why) => self.office_refusal(why),
        RefusedWhy::Future { on } => {
            format!(
                "{} has not come yet; nothing stored. For today just leave the day out.",
                self.day(*on)
            )
        }
        RefusedWhy::NoNight { on } => {
            format!("No squad night on {}. To set one: slot tue 2000-2100 4 lanes", self.day(*on))
        }
        RefusedWhy::NightShut { on, next } => {
            let next = next.as_ref().map(|night| format!(" {}", self.next_night(&self.night_line(night))));
            format!("The pool is shut on {}.{}", self.day(*on), next.unwrap_or_default())
        }
        RefusedWhy::Unlikely { distance, time } => format!(
            "{distance} in {} does not look right; nothing changed. Text it like this: fix 3:14",
            time.short()
        ),
        RefusedWhy::NoSet => {
            "Nothing is set for tonight. Text the set (set 4x50 easy, 8x50 on 1:15, 100 easy) or \
             PLAN TONIGHT."
                .into()
        }
        RefusedWhy::NoBoard => "The board needs the server: it is not running.".into(),
        RefusedWhy::NoSetYet => {
            "No set for tonight yet. NEXT gives you a session of your own.".into()
        }
        RefusedWhy::NoLane { lane } => format!("There is no lane {lane} tonight."),
        RefusedWhy::LaneOrder { lane, names } => format!(
            "Lane {lane} tonight: {}. Text one result for each in that order, x for who did not \
             swim. Nothing stored.",
            names.iter().map(Name::as_str).collect::<Vec<_>>().join(", ")
        ),
        RefusedWhy::NamesOfMinors => {
            "Some of this squad are under 18: their names stay out of the chat.".into()
        }
        RefusedWhy::NoMainSet => "Tonight's set has no main set to change.".into(),
        RefusedWhy::NoRounds => {
            "Tonight's set has no rounds. MAKE IT 6 says how many repeats.".into()
        }
        RefusedWhy::NotLaned { name } => {
            format!("{name} is in no lane tonight. Nothing changed.")
        }
        RefusedWhy::LaneCount => "How many lanes? Text, say, LANES 4.".into(),
        RefusedWhy::NobodyThere => {
            "Nobody to put into lanes. Say who is here: HERE heron teal".into()
        }
        RefusedWhy::NobodyToTest => {
            "Nobody comes that night, so no heats. Say who is here: HERE heron teal".into()
        }
        RefusedWhy::Nothing => "There is nothing of yours to do that with.".into(),
        RefusedWhy::NoTest => "No test to work from yet. Swim one and text: 200 test 3:12".into(),
        RefusedWhy::NoQuestion => "No question is open. HELP shows what to text.".into(),
        RefusedWhy::Distance => "That distance can't be swum in your pool.".into(),
        RefusedWhy::SetNames { name } => format!("That reads as a set with {name} in it; nothing changed. A result is texted like \
             this: {name} 400 test 6:50"),
        RefusedWhy::CoachLimit => "That is your coach's word: it is lifted from the deck.".into(),
        RefusedWhy::SquadLimit { limits } => self.holds_for_all(limits),
        RefusedWhy::LimitsFree => {
            "Free is what barred strokes are swum as, so it stays in. What is left out? \
             Say, NO FLY, NO FINS or NO DIVES."
                .into()
        }
        RefusedWhy::Weekly(why) => self.weekly_refusal(*why).to_owned(),
        RefusedWhy::Approval(why) => self.approval_refusal(why),
        RefusedWhy::NotYet => "I read that but can't do it yet; nothing stored.".into(),
        RefusedWhy::Private => "That is for a private text, not for this room.".into(),
    }
    }

    fn read_but(&self, understood: &str, what: &str) -> String {
        format!("I read {understood}, but {what}")
    }

    fn unread(&self, rest: &Unread) -> String {
        match rest {
            Unread::Words(words) => format!("I can't read {}.", quoted(words)),
            Unread::Prose { call, .. } => {
                let call = self.call(call.as_deref());
                format!(
                    "I can't read that. Hurt or unwell: out of the water, lifeguard, {call}. Worried or unsafe: text WORRIED, the welfare officer alone is told."
                )
            }
            other => self.but(other),
        }
    }

    fn but(&self, rest: &Unread) -> String {
        match rest {
            Unread::Empty => "that text was empty.".to_owned(),
            Unread::TooLong => "that is too long for me.".to_owned(),
            Unread::Unsaid => "I can't read all of that.".to_owned(),
            Unread::NotText => "that was no text I can read.".to_owned(),
            Unread::Words(words) | Unread::Prose { words, .. } => format!("not {}.", quoted(words)),
        }
    }

    fn like_this(&self, example: &str) -> String {
        format!("Nothing stored. Text it like this: {example}")
    }

    fn for_a_swimmer(&self) -> &'static [&'static str] {
        &[
            "Text: 200 test 3:12 | 8x50 on 1:15 held 48 48 49 50 49 49 50 51 | done 1500 45min \
             rpe 6 | next | plan | targets | pool 25m",
            "in | out | 10 late | shoulder hurts 4 | ill | better | undo | fix 3:14 | why | more. HELP TEST, SET, PLAN, \
             PAIN for more. Danger: emergency number. STOP for no texts.",
        ]
    }

    fn for_a_coach(&self) -> &'static [&'static str] {
        &[
            "Coach: squad | heron | heron 200 test 3:12 | 200 test: heron 3:12, \
             teal 2:58 | focus heron: long exhale | keep heron easy | release heron | undo",
            "HELP EVENING, LANES, REGISTER, TEST NIGHT, RESULTS, PEOPLE or TIMETABLE for more; HELP \
             TEST, SET, PLAN, PAIN. Danger: emergency number. STOP for no texts.",
        ]
    }

    fn for_a_room(&self) -> &'static [&'static str] {
        &[
            "Say my name first: 200 test 3:12 | 4x50 on 1:15 held 48 48 49 50 | targets",
            "Plans, health and anything of your own: text me privately, HELP.",
        ]
    }

    fn for_a_stranger(&self) -> &'static [&'static str] {
        &["Lapwing, a swim squad's coaching assistant. Ask the coach for the squad's code, then \
           text: JOIN CODE heron (your own name for heron). In danger: emergency number. STOP for \
           no texts."]
    }

    fn not_stored(&self, asked: &str) -> String {
        format!("Not stored, as it was never answered: {asked}")
    }

    fn nobody_told(&self) -> &'static str {
        "Your coach takes no texts: tell your coach yourself."
    }

    fn for_who_opted_out(&self) -> &'static [&'static str] {
        &["Lapwing, a swim squad's coaching assistant. You get no texts from it, save answers to \
           danger. START to have them again; for anything else ask your coach."]
    }

    fn on_topic(&self, topic: Topic) -> &'static [&'static str] {
        match topic {
            Topic::Test => &[
                "A test: distance, the word test, the time. 200 test 3:12 | test 400 back 7:05.2 \
                 yesterday | 100 test 1:20 25yd. A wrong one: undo, or fix 3:14.",
            ],
            Topic::Set => &[
                "A set: 8x50 on 1:15 held 48 48 49 50 x 49 50 51 (x is a missed one), or: 6x100 on \
                 2:30 avg 1:37",
            ],
            Topic::Done => &["A session: done 1500 45min rpe 6. Other training: ran 50min rpe 5."],
            Topic::Plan => &[
                "plan | plan easy week | plan 3x week 45min | next | next 30min no fins | shorter | \
                 easier | why",
            ],
            Topic::Pain => {
                &["Text shoulder hurts 4 (0 to 10), or ill; better when it has gone. Chest pain, \
                   fainting, trouble breathing: out, tell the lifeguard, emergency number, now."]
            }
            Topic::Profile => &["pool 25m, 50m or 25yd | born 1981 | days tue thu | language es"],
            Topic::Squad => &[
                "squad | squad overdue | squad hurt | heron | compare heron teal | keep heron easy | \
                   release heron | approve plans on. HELP EVENING, LANES, REGISTER for the night.",
            ],
            Topic::Register => &[
                "For yourself: in | out | 10 late",
                "here heron teal | all here bar wren | absent wren | who is in | here shows the \
                 register",
            ],
            Topic::Timetable => &[
                "slot tue 2000-2100 4 lanes | 3 lanes tonight | thu at 50m | pool shut thu | slot",
            ],
            Topic::Evening => &[
                "plan tue | set 4x50 easy, 8x50 on 1:15, 4x25 easy | tonight",
                "While it is swum: 12 left | L1 make it 6 | L2 on 1:15 | skip last round. My lane \
                 tells a swimmer hers.",
            ],
            Topic::Results => &[
                "200 test: heron 3:12, teal 2:58 | A lane in its order, x for none: L2 200 test 3:12 3:20 x",
                "fix heron tue 200 3:21 | swap heron teal tue 200 | that was teal | undo",
            ],
            Topic::TestNight => {
                &["test night 400 thu | test night | squad owed | L2 400 test 6:50 7:05 x"]
            }
            Topic::People => &[
                "invite +15550123 assistant kestrel | add robin 2:20 | hand over to kestrel | \
                 remove kestrel | leave",
                "Robin, once with a phone of her own: claim CODE-1 | squads",
            ],
            Topic::Lanes => &[
                "lanes 4 | heron lane 2 | heron any lane | apart heron teal | together heron teal | \
                 lanes. Lane 1 is the fastest.",
            ],
            Topic::Fix => &["undo takes back your last result | fix 3:14 | that was teal"],
        }
    }

    fn explanation(&self, explanation: &Explanation) -> String {
        format!(
            "{}: {}; {}. Source: {}. Sure: {}.",
            first_upper(explanation.number),
            explanation.formula,
            explanation.with,
            explanation.source,
            explanation.sureness
        )
    }

    fn why_set(&self, set: &str, target: &str, from: &str, rest_s: Option<u32>) -> String {
        let rest = rest_s.map_or_else(String::new, |rest| format!("; {rest} s rest to keep it up"));
        format!("{set}: {target} is {from}{rest}.")
    }

    fn pace_of_coach(&self) -> &'static str {
        "the time that your coach set"
    }

    fn pace_of_share(&self, percent: u32, critical: &str) -> String {
        format!("{percent} % of your critical speed, about {critical} per 100")
    }

    fn pace_of_race(&self, distance: &str, time: &str, pushed: bool) -> String {
        let pushed = if pushed { " from a push" } else { "" };
        format!("the pace of your race, {distance} in {time}{pushed}")
    }

    fn pace_of_test(&self, trial: &str, began: Option<Start>) -> String {
        match began {
            Some(Start::Dive) => format!("the pace of your {trial} (a dive), from a push"),
            _ => format!("the even pace of your {trial}"),
        }
    }

    fn rule(&self, rule: &Rule) -> String {
        let number =
            rule.number.map_or_else(String::new, |one| format!(" {} {}", one.value, one.unit));
        format!("{} ({}{number}; {})", self.sentence(rule.reason), rule.id, rule.source)
    }
}

fn setting(set: &Set) -> String {
    match set {
        Set::Course(course) => English.course(*course).to_owned(),
        Set::Days(days) => English.weekdays(days),
        Set::Sessions(sessions) => format!("{sessions} sessions a week"),
        Set::Minutes(minutes) => format!("{minutes} min a session"),
        Set::Born(year) => format!("born {year}"),
        Set::Language(language) => format!("language {language}"),
        Set::Units(Unit::Metre) => "metres".to_owned(),
        Set::Units(Unit::Yard) => "yards".to_owned(),
    }
}

fn doubt(doubt: &Doubt) -> String {
    match doubt {
        Doubt::Spelling { typed, meant } => {
            format!("{}: did you mean {meant}? Nothing stored yet.", quoted(typed))
        }
        Doubt::Mile => "A mile: 1500 m or 1650 yd? Nothing stored yet.".to_owned(),
        Doubt::Splits { sum, time } => format!(
            "The splits add up to {}, not {}. Which is right? Nothing stored yet.",
            sum.short(),
            time.short()
        ),
        Doubt::TimesCount { given, repeats } => format!(
            "{given} times for {repeats} repeats. {given} if you swam {given}, X if the rest were \
             missed. Nothing stored yet."
        ),
        Doubt::Figure { typed } => format!(
            "What is {} there? Please say it with its unit: 45min, 200m, 1:05. Nothing stored yet.",
            quoted(typed)
        ),
        Doubt::TestOrSession => "Was that a test or a session done? Nothing stored yet.".to_owned(),
        Doubt::Meant { says } => {
            format!("I read: {}. Right? Nothing stored yet.", canonical(says))
        }
        Doubt::Missing { wants } => format!("{} Nothing stored yet.", missing(*wants)),
        Doubt::Digits { typed } => {
            format!("Is {} a number? Please use 0-9.", quoted(typed))
        }
    }
}

fn missing(wants: Wants) -> &'static str {
    match wants {
        Wants::Distance => "How far was that?",
        Wants::Time => "What was the time?",
        Wants::Times => "What were the times, or the average?",
        Wants::HowFar => "How far was it, or how long?",
        Wants::Whose => "Whose are these? Put each name before its time.",
        Wants::Who => "Who do you mean?",
        Wants::Day => "Which day?",
        Wants::Coming => "In or out?",
        Wants::HowLate => "How many minutes late?",
        Wants::Lane => "Which lane?",
        Wants::Set => "What shall they swim?",
        Wants::Which => "Which do you mean?",
    }
}

fn coaching(reason: &RefusalReason) -> String {
    match reason {
        RefusalReason::Stopped => {
            "No session: you are stopped until a clinician has cleared it and your coach releases \
             you."
                .into()
        }
        RefusalReason::TooShort { least_minutes } => {
            format!(
                "Too short for a warm-up, something and a swim-down: {least_minutes} min at least."
            )
        }
        RefusalReason::NotPlanned => {
            "Nothing is planned on those days; text PLAN for a week first.".into()
        }
        RefusalReason::NotHarder => "Not harder now: the rules hold it where it is.".into(),
    }
}
