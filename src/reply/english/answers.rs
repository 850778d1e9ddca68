//! Acknowledgements, questions, refusals, help.

use super::{people, words};
use crate::coaching::RefusalReason;
use crate::message::Doubt;
use crate::reply::{
    Asks, HelpReply, NotUnderstoodReply, OkReply, QuestionReply, RefusedReply, RefusedWhy, Set,
    Topic, Unread, Withdrawn,
};
use crate::units::{Pace, Unit};

/// Something done.
pub fn ok(reply: &OkReply) -> Vec<String> {
    let one = match reply {
        OkReply::Joined { name, squad, ask_readiness } => {
            return joined(name.as_str(), squad, *ask_readiness);
        }
        OkReply::Profile(set) => {
            format!("Stored: {}.", set.iter().map(setting).collect::<Vec<_>>().join(", "))
        }
        OkReply::Undone { what } => {
            let what: Vec<String> = what.iter().map(withdrawn).collect();
            format!("Undone: {}.", words::list(&what))
        }
        OkReply::Fixed { trial, before } => format!(
            "Put right: {} (was {}), {}.",
            words::trial(trial),
            before.short(),
            words::short_day(trial.on)
        ),
        OkReply::Moved { to } => format!("Moved to {to}."),
        OkReply::Missed { on } => {
            format!("{} missed, noted. No catching up: just take the next one.", words::day(*on))
        }
        OkReply::Away { until } => {
            format!("Away until {}, noted. You will start again gently.", words::day(*until))
        }
        OkReply::Better => {
            "Good to hear. The next session starts gently; text NEXT for it.".to_owned()
        }
        OkReply::Swapped { days } => {
            let days: Vec<String> = days
                .iter()
                .map(|(day, hard)| {
                    format!("{}{}", words::day(*day), if *hard { " (hard)" } else { "" })
                })
                .collect();
            format!("Swapped. Your days now: {}.", words::list(&days))
        }
        OkReply::Race { on, distance } => format!("Race {distance} on {} noted.", words::day(*on)),
        OkReply::Noted { who } => format!("Noted for {who}."),
        OkReply::Held { who } => format!("{who} swims easy until you text RELEASE {who}."),
        OkReply::Released { who } => format!("{who} is released; the next sessions start gently."),
        OkReply::More { lines } => return lines.clone(),
        OkReply::LeftAlone => "Left as it was; nothing stored.".to_owned(),
        OkReply::Forgotten { who } => {
            format!(
                "{who} is out of the squad and all your results are gone from it. The raw texts \
                 stay in the club's store: ask the club to erase those."
            )
        }
        OkReply::OptedOut => {
            "Lapwing: no more texts to you. Text START to have them again.".to_owned()
        }
        OkReply::OptedIn => "Lapwing: texts are on again. Text HELP for what to say.".to_owned(),
        OkReply::Silent => return Vec::new(),
    };
    vec![one]
}

fn joined(name: &str, squad: &str, ask_readiness: bool) -> Vec<String> {
    let mut lines = vec![format!("Welcome to {squad}, {name}!")];
    if ask_readiness {
        lines.push(
            "Until your coach has cleared you, plans stay easy: tell your coach of any heart, \
             chest, fainting or breathing trouble, medicine, or a long break."
                .into(),
        );
    }
    lines.push(
        "Swim 200 or 400 at an even pace when you are ready, then text: 200 test 3:12".into(),
    );
    lines.push("HELP shows what else to text. Pool rules and lifeguards come first.".into());
    lines
}

fn withdrawn(record: &Withdrawn) -> String {
    match record {
        Withdrawn::Test(trial) => {
            format!("{} of {}", words::trial(trial), words::short_day(trial.on))
        }
        Withdrawn::Set(set) => format!("{}x{}", set.count, set.distance.amount()),
        Withdrawn::Session(on) => format!("session of {}", words::short_day(*on)),
        Withdrawn::Change => "your last change".to_owned(),
    }
}

fn setting(set: &Set) -> String {
    match set {
        Set::Course(course) => words::course(*course).to_owned(),
        Set::Days(days) => days.iter().map(words::weekday).collect::<Vec<_>>().join(" "),
        Set::Sessions(sessions) => format!("{sessions} sessions a week"),
        Set::Minutes(minutes) => format!("{minutes} min a session"),
        Set::Born(year) => format!("born {year}"),
        Set::Language(language) => format!("language {language}"),
        Set::Units(Unit::Metre) => "metres".to_owned(),
        Set::Units(Unit::Yard) => "yards".to_owned(),
    }
}

/// Something to be settled by a word.
pub fn question(reply: &QuestionReply) -> Vec<String> {
    let options = reply.options.iter().map(|option| option.to_uppercase()).collect::<Vec<_>>();
    let ask = match &reply.asks {
        Asks::Doubt(doubt) => self::doubt(doubt),
        Asks::Implausible { distance, time } => {
            let pace = Pace::of(*distance, *time);
            format!(
                "{} in {} is {} per 100: is that right? Nothing stored yet.",
                distance,
                time.short(),
                people::shown_pace_exact(pace)
            )
        }
        Asks::Impossible { distance, time } => {
            return vec![format!(
                "I read {distance} in {}, and nobody swims that. Nothing stored: what was the \
                 time? Text it like this: 200 test 3:12",
                time.short()
            )];
        }
        Asks::TwoReadings { distance, one, other } => {
            format!("{distance}: {} or {}? Nothing stored yet.", one.short(), other.short())
        }
        Asks::ImpossiblePair { new, old } => format!(
            "{} is at a faster pace than your {} of {}: is that right? Nothing stored yet.",
            words::trial(new),
            words::trial(old),
            words::short_day(old.on)
        ),
        Asks::WhoIs { name } => format!("No {name} here. Who is meant? Nothing stored yet."),
        Asks::Forget => {
            "Leave, and take all your tests, sets and sessions out of the squad? It can't be undone.".to_owned()
        }
    };
    vec![format!("{ask} Text {}.", or(&options))]
}

fn doubt(doubt: &Doubt) -> String {
    match doubt {
        Doubt::Spelling { typed, meant } => {
            format!("`{typed}`: did you mean {meant}? Nothing stored yet.").replace('`', "'")
        }
        Doubt::Mile => "A mile: 1500 m or 1650 yd? Nothing stored yet.".to_owned(),
        Doubt::Splits { sum, time } => format!(
            "The splits add up to {}, not {}. Which is right? Nothing stored yet.",
            sum.short(),
            time.short()
        ),
        Doubt::TimesCount { given, repeats } => format!(
            "{given} times for {repeats} repeats: put x for a missed one. Nothing stored yet."
        ),
        Doubt::Figure { typed } => {
            format!("{}: which is meant? Nothing stored yet.", gsm(typed))
        }
        Doubt::TestOrSession => "A test or a session? Nothing stored yet.".to_owned(),
        Doubt::Digits { typed } => {
            format!("Is '{}' a number? Please text it in 0-9.", gsm(typed))
        }
    }
}

fn or(options: &[String]) -> String {
    match options {
        [] => "it again".to_owned(),
        [one] => one.clone(),
        [head @ .., last] => format!("{} or {last}", head.join(", ")),
    }
}

/// Something not done.
pub fn refused(reply: &RefusedReply) -> Vec<String> {
    let one = match &reply.why {
        RefusedWhy::Coaching(reason) => coaching(reason),
        RefusedWhy::CoachOnly => "That one is for the coach. HELP shows what you can text.".into(),
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
        RefusedWhy::AlreadyJoined { name } => format!("You are in already, as {name}."),
        RefusedWhy::GuardianFirst => {
            "This squad has swimmers under 18. Text BORN and your year of birth; a swimmer under \
             18 asks a parent or guardian to join first."
                .into()
        }
        RefusedWhy::Future { on } => {
            format!(
                "{} has not come yet; nothing stored. For today just leave the day out.",
                words::day(*on)
            )
        }
        RefusedWhy::Unlikely { distance, time } => format!(
            "{distance} in {} does not look right; nothing changed. Text it like this: fix 3:14",
            time.short()
        ),
        RefusedWhy::Nothing => "There is nothing of yours to do that with.".into(),
        RefusedWhy::NoTest => "No test to work from yet. Swim one and text: 200 test 3:12".into(),
        RefusedWhy::NoQuestion => "No question is open. HELP shows what to text.".into(),
        RefusedWhy::Distance => "That distance can't be swum in your pool.".into(),
        RefusedWhy::NotYet => "I read that but can't do it yet; nothing stored.".into(),
        RefusedWhy::Private => "That is for a private text, not for this room.".into(),
    };
    vec![one]
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

/// Something that could not be read.
pub fn not_understood(reply: &NotUnderstoodReply) -> Vec<String> {
    let read = if reply.understood.is_empty() {
        String::new()
    } else {
        format!("I read {}, but ", words::list(&reply.understood))
    };
    let what = match &reply.rest {
        Unread::Empty => "that text was empty".to_owned(),
        Unread::TooLong => "that is too long for me".to_owned(),
        Unread::NotText => "that was no text I can read".to_owned(),
        Unread::Words(words) => format!("not '{}'", gsm(&short(words))),
    };
    let mut first = format!("{read}{what}.");
    if reply.understood.is_empty() && matches!(reply.rest, Unread::Words(_)) {
        first = format!("I can't read {}.", what.trim_start_matches("not "));
    }
    vec![
        words::first_upper(&first),
        format!("Nothing stored. Text it like this: {}", reply.example),
    ]
}

/// The first words of what was typed.
fn short(text: &str) -> String {
    const MOST: usize = 40;
    if text.chars().count() <= MOST {
        text.to_owned()
    } else {
        format!("{}...", text.chars().take(MOST).collect::<String>())
    }
}

/// What was typed, with what SMS can't carry in its own alphabet as `?`.
fn gsm(text: &str) -> String {
    text.chars()
        .map(|c| {
            if crate::reply::alphabet(c.encode_utf8(&mut [0; 4])) == crate::reply::Alphabet::Gsm7 {
                c
            } else {
                '?'
            }
        })
        .collect()
}

/// Help.
pub fn help(reply: &HelpReply) -> Vec<String> {
    let lines: &[&str] = match reply {
        HelpReply::Swimmer => &[
            "Text me: 200 test 3:12 | 8x50 on 1:15 held 48 48 49 50 49 49 50 51 | done 1500 45min \
             rpe 6 | next | plan | plan easy week | targets | pool 25m",
            "shoulder hurts 4 | ill | better | undo | fix 3:14 | why | more. HELP TEST, SET, PLAN, \
             PAIN for more. STOP for no texts.",
        ],
        HelpReply::Coach => &[
            "Coach: squad | squad overdue | heron | heron 200 test 3:12 | 200 test: heron 3:12, \
             teal 2:58 | focus heron: long exhale | heron easy | release heron | undo",
            "HELP TEST, SET, PLAN, PAIN for more. STOP for no texts.",
        ],
        HelpReply::Stranger => &[
            "Lapwing, a swim squad's coaching assistant. Ask the coach for the squad's code, then \
             text: JOIN CODE heron (your own name for heron). STOP for no texts.",
        ],
        HelpReply::Topic(topic) => self::topic(*topic),
        HelpReply::Why(lines) => return lines.clone(),
    };
    lines.iter().map(|line| (*line).to_owned()).collect()
}

fn topic(topic: Topic) -> &'static [&'static str] {
    match topic {
        Topic::Test => {
            &["A test: distance, the word test, the time. 200 test 3:12 | test 400 back 7:05.2 \
             yesterday | 100 test 1:20 25yd. A wrong one: undo, or fix 3:14."]
        }
        Topic::Set => {
            &["A set: 8x50 on 1:15 held 48 48 49 50 x 49 50 51 (x is a missed one), or: 6x100 on \
             2:30 avg 1:37"]
        }
        Topic::Done => &["A session: done 1500 45min rpe 6. Other training: ran 50min rpe 5."],
        Topic::Plan => {
            &["plan | plan easy week | plan 3x week 45min | next | next 30min no fins | shorter | \
             easier | why"]
        }
        Topic::Pain => {
            &["Text shoulder hurts 4 (0 to 10), or ill; better when it has gone. Chest pain, \
             fainting, trouble breathing: out, tell the lifeguard, emergency number, now."]
        }
        Topic::Profile => &["pool 25m, 50m or 25yd | born 1981 | days tue thu | 45min sessions"],
        Topic::Squad => {
            &["squad | squad overdue | squad hurt | heron | compare heron teal | heron easy | \
             release heron"]
        }
        Topic::Fix => &["undo takes back your last result | fix 3:14 | that was teal"],
    }
}
