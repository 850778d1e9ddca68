//! Section 5 of the grammar: what is asked for and put right.

use nom::Parser;
use nom::branch::alt;
use nom::bytes::complete::take_while_m_n;
use nom::character::complete::satisfy;
use nom::combinator::{map, opt, recognize, value};
use nom::multi::many1;
use nom::sequence::{preceded, terminated};

use super::approval::approve;
use super::evening::{
    absent, apart, attend, cut, focus, here, hold, lane_results, lanes, late, note, release,
    reopen, shut, slot, squad, tell, test_night,
};
use super::lexical::{date, duration, equipment, figure, length, mile, name, number};
use super::limits::{kit, limit};
use super::meets::{race_entry, relay};
use super::people::people;
use super::profile::profile;
use super::regular::{digest, weekly_note};
use crate::message::combinators::{
    Parsed, after, digits, each_after_space, one_of, space, whole, word,
};
use crate::message::syntax::{Extent, Item, Said, Verb};
use crate::message::{Kind, WeekKind};
use crate::units::Course;

/// `command = plan / next / swap / targets / own-target / predict / race / compare / profile / squad / lanes / test-night / apart / here / absent / tell / note / focus / digest / weekly-note / approve / attend / late / slot / shut / reopen / lane-results / cut / hold / release / limit / kit / away / join / fix / was / help / no / race-entry / relay / people / one-word`
pub fn command(input: &str) -> Parsed<'_, Said> {
    let asked = alt((plan, next, swap, targets, own_target, predict, race, compare, profile));
    let coach = alt((
        alt((limit, kit)),
        squad,
        map(lanes, |count| Said::Command(Verb::Lanes, count)),
        test_night,
        apart,
        here,
        absent,
        tell,
        note,
        focus,
        alt((digest, weekly_note, approve)),
        attend,
        late,
        slot,
        shut,
        reopen,
        lane_results,
        cut,
        hold,
        release,
    ));
    alt((asked, coach, away, join, fix, was, help, no, race_entry, relay, people, one_word))
        .parse(input)
}

/// `one-word = "shorter" / "easier" / "harder" / "again" / "more" / "trend" / "best" / "log" / "me" / "my-lane" / "squad-board" / "undo" / "yes" / "why" / "forget" / "entries" / "lane-gone"`
pub fn one_word(input: &str) -> Parsed<'_, Said> {
    let table = &[
        ("shorter", Kind::Shorter),
        ("easier", Kind::Easier),
        ("harder", Kind::Harder),
        ("again", Kind::Again),
        ("more", Kind::More),
        ("trend", Kind::Trend),
        ("best", Kind::Best),
        ("log", Kind::Log),
        ("me", Kind::Swimmer),
        ("my-lane", Kind::Tonight),
        ("squad-board", Kind::Board),
        ("undo", Kind::Undo),
        ("yes", Kind::Yes),
        ("why", Kind::Why),
        ("forget", Kind::Forget),
        ("entries", Kind::Entries),
        ("lane-gone", Kind::LaneGone),
    ];
    map(one_of(table), Said::Whole).parse(input)
}

/// `plan = "plan" *( SP plan-part )`
pub fn plan(input: &str) -> Parsed<'_, Said> {
    let parts = preceded(word("plan"), each_after_space(plan_part));
    map(parts, |parts| Said::Command(Verb::Plan, parts)).parse(input)
}

/// `plan-part = week-kind / duration / sessions / date`
pub fn plan_part(input: &str) -> Parsed<'_, Item> {
    alt((map(week_kind, Item::Week), duration, sessions, date)).parse(input)
}

/// `week-kind = "easy" / "normal" / "hard"`
pub fn week_kind(input: &str) -> Parsed<'_, WeekKind> {
    one_of(&[("easy", WeekKind::Easy), ("normal", WeekKind::Normal), ("hard", WeekKind::Hard)])
        .parse(input)
}

/// `sessions = 1*2DIGIT SP "times"`
pub fn sessions(input: &str) -> Parsed<'_, Item> {
    map(terminated(digits(1, 2), (space, word("times"))), |(count, _)| Item::Count(count))
        .parse(input)
}

/// `next = "next" *( SP next-part )`
pub fn next(input: &str) -> Parsed<'_, Said> {
    let parts = preceded(word("next"), each_after_space(next_part));
    map(parts, |parts| Said::Command(Verb::Next, parts)).parse(input)
}

/// `next-part = duration / length / figure / equipment / without / "open"`
pub fn next_part(input: &str) -> Parsed<'_, Item> {
    alt((
        duration,
        map(length, Item::Length),
        map(figure, Item::Figure),
        map(equipment, Item::Equipment),
        without,
        value(Item::Course(Course::OpenWater), word("open")),
    ))
    .parse(input)
}

/// `without = "without" 1*( SP equipment )`
pub fn without(input: &str) -> Parsed<'_, Item> {
    let kit = many1(preceded(space, equipment));
    map(preceded(word("without"), kit), Item::Without).parse(input)
}

/// `swap = "swap" SP ( date SP date / name SP name *( SP swap-part ) )`
pub fn swap(input: &str) -> Parsed<'_, Said> {
    let days = map((date, preceded(space, date)), |(one, other)| vec![one, other]);
    let names = (name, preceded(space, name), each_after_space(swap_part));
    let results = map(names, |(one, other, parts)| {
        [Item::Name(one), Item::Name(other)].into_iter().chain(parts).collect()
    });
    map(after("swap", alt((days, results))), |parts| Said::Command(Verb::Swap, parts)).parse(input)
}

/// `swap-part = date / length / number`
pub fn swap_part(input: &str) -> Parsed<'_, Item> {
    let bare = map(number, |(amount, _)| Item::Length(Extent { amount, unit: None }));
    alt((date, map(length, Item::Length), bare)).parse(input)
}

/// `targets = "targets" *( SP target-for )`
pub fn targets(input: &str) -> Parsed<'_, Said> {
    let parts = preceded(word("targets"), each_after_space(target_for));
    map(parts, |parts| Said::Command(Verb::Targets, parts)).parse(input)
}

/// `target-for = length / figure`
pub fn target_for(input: &str) -> Parsed<'_, Item> {
    alt((map(length, Item::Length), map(figure, Item::Figure))).parse(input)
}

/// `own-target = "own-target" ( SP "no" / 1*( SP target-for ) )`
pub fn own_target(input: &str) -> Parsed<'_, Said> {
    let none = map(preceded(space, word("no")), |_| Vec::new());
    let holds = many1(preceded(space, target_for));
    map(preceded(word("own-target"), alt((none, holds))), |parts| {
        Said::Command(Verb::OwnTarget, parts)
    })
    .parse(input)
}

/// `predict = "predict" SP ( length / mile / number )`
pub fn predict(input: &str) -> Parsed<'_, Said> {
    let bare = map(number, |(amount, _)| Item::Length(Extent { amount, unit: None }));
    let far = alt((map(length, Item::Length), mile, bare));
    map(after("predict", far), |far| Said::Command(Verb::Predict, vec![far])).parse(input)
}

/// `race = "race" 1*( SP race-part )`
pub fn race(input: &str) -> Parsed<'_, Said> {
    let parts = preceded(word("race"), many1(preceded(space, race_part)));
    map(parts, |parts| Said::Command(Verb::Race, parts)).parse(input)
}

/// `race-part = length / mile / date / goal / number`
pub fn race_part(input: &str) -> Parsed<'_, Item> {
    let bare = map(number, |(amount, _)| Item::Length(Extent { amount, unit: None }));
    alt((map(length, Item::Length), mile, date, goal, bare)).parse(input)
}

/// `goal = "goal" SP figure`
pub fn goal(input: &str) -> Parsed<'_, Item> {
    map(after("goal", figure), Item::Goal).parse(input)
}

/// `compare = "compare" SP name 1*( SP name )`
pub fn compare(input: &str) -> Parsed<'_, Said> {
    let all = (after("compare", name), many1(preceded(space, name)));
    map(all, |(first, mut rest)| {
        rest.insert(0, first);
        Said::Command(Verb::Compare, rest.into_iter().map(Item::Name).collect())
    })
    .parse(input)
}

/// `away = "away" SP "until" SP date`
pub fn away(input: &str) -> Parsed<'_, Said> {
    let until = after("away", after("until", date));
    map(until, |until| Said::Command(Verb::Away, vec![until])).parse(input)
}

/// `join = "join" SP code SP name`
pub fn join(input: &str) -> Parsed<'_, Said> {
    map((after("join", code), preceded(space, name)), |(code, name)| {
        Said::Command(Verb::Join, vec![Item::Code(code), Item::Name(name)])
    })
    .parse(input)
}

/// `code = 6*12( ALPHA / DIGIT / "-" )`
pub fn code(input: &str) -> Parsed<'_, String> {
    let good = |c: char| c.is_ascii_alphanumeric() || c == '-';
    map(whole(take_while_m_n(6, 12, good)), str::to_ascii_uppercase).parse(input)
}

/// `fix = "fix" 1*( SP fix-part )`
pub fn fix(input: &str) -> Parsed<'_, Said> {
    let parts = preceded(word("fix"), many1(preceded(space, fix_part)));
    map(parts, |parts| Said::Command(Verb::Fix, parts)).parse(input)
}

/// `fix-part = name / length / date / figure / instead`
pub fn fix_part(input: &str) -> Parsed<'_, Item> {
    let (named, far) = (map(name, Item::Name), map(length, Item::Length));
    alt((named, far, date, map(figure, Item::Figure), instead)).parse(input)
}

/// `instead = "instead" SP figure`
pub fn instead(input: &str) -> Parsed<'_, Item> {
    map(after("instead", figure), Item::Instead).parse(input)
}

/// `was = "was" SP ( name / figure )`
pub fn was(input: &str) -> Parsed<'_, Said> {
    let right = alt((map(name, Item::Name), map(figure, Item::Figure)));
    map(after("was", right), |right| Said::Command(Verb::Was, vec![right])).parse(input)
}

/// `no = "no" [ SP figure ]`
pub fn no(input: &str) -> Parsed<'_, Said> {
    let correction = opt(preceded(space, map(figure, Item::Figure)));
    map(preceded(word("no"), correction), |right| {
        Said::Command(Verb::No, right.into_iter().collect())
    })
    .parse(input)
}

/// `help = "help" [ SP topic ]`
pub fn help(input: &str) -> Parsed<'_, Said> {
    let about = opt(preceded(space, topic));
    map(preceded(word("help"), about), |topic| {
        Said::Command(Verb::Help, topic.map(Item::Topic).into_iter().collect())
    })
    .parse(input)
}

/// `topic = ALPHA *19( ALPHA / "-" )`
pub fn topic(input: &str) -> Parsed<'_, String> {
    let begins = satisfy(|c| c.is_ascii_alphabetic());
    let rest = take_while_m_n(0, 19, |c: char| c.is_ascii_alphabetic() || c == '-');
    map(whole(recognize((begins, rest))), str::to_ascii_lowercase).parse(input)
}
