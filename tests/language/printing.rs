//! print → parse → print is the identity for every tree that a text can have.
//!
//! The strategies make each kind of statement over its whole range; what no text
//! can say (a distance of 45 in no unit beside `done`) is asked about by the
//! parser and so left out here, each with its reason.

use std::collections::BTreeSet;

use jiff::civil::{Date, Time, Weekday};
use lapwing::language::Language;
use lapwing::message::*;
use lapwing::session::{Limit, Part};
use lapwing::units::*;
use proptest::collection::vec;
use proptest::option::of;
use proptest::prelude::*;
use proptest::sample::{select, subsequence};
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;
use rand::seq::IndexedRandom;
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;
use strum::{VariantArray, VariantNames};

proptest! {
    #![proptest_config(ProptestConfig { cases: 4000, ..ProptestConfig::default() })]

    #[test]
    fn a_printed_tree_is_read_back(message in message()) {
        let printed = message.to_string();
        match parse(&printed, Language::English) {
            Reading::Understood(read) => {
                prop_assert_eq!(&read, &message, "{}", printed);
                prop_assert_eq!(read.to_string(), printed);
            }
            other => prop_assert!(false, "{}: {:?}", printed, other),
        }
    }
}

/// A kind that notation can say is printed here and shown in the corpus; what only a reader of
/// free text makes is neither.
#[test]
fn every_kind_is_printed_and_in_the_corpus() {
    const SPOKEN: &[&str] = &[
        "Ask",
        "Leaves",
        "Maybe",
        "Back",
        "Tired",
        "Goal",
        "Ability",
        "Quiet",
        "Restate",
        "Move",
        "SwapLanes",
        "LaneOrder",
        "DrawnAs",
        "Change",
        "Gap",
        "NamesInRooms",
        "LaneOf",
    ];
    let notation: BTreeSet<&str> =
        Kind::VARIANTS.iter().copied().filter(|kind| !SPOKEN.contains(kind)).collect();
    let kinds = |message: Message| -> Vec<&'static str> {
        message.statements.iter().map(|one| (&one.kind).into()).collect()
    };
    let (mut runner, messages) = (TestRunner::deterministic(), message());
    // As many as it takes: another kind moves what each of the others is drawn by.
    let mut printed: BTreeSet<&str> = BTreeSet::new();
    for _ in 0..20_000 {
        if printed == notation {
            break;
        }
        printed.extend(kinds(messages.new_tree(&mut runner).unwrap().current()));
    }
    assert_eq!(printed, notation);
    let shown: BTreeSet<&str> =
        read_in_the_corpus().into_iter().flat_map(|(_, message)| kinds(message)).collect();
    assert_eq!(shown, notation);
}

/// Each message of the corpus with what it may say.
fn read_in_the_corpus() -> Vec<(String, Message)> {
    let mut all = Vec::new();
    for (text, language) in crate::corpus::texts() {
        match parse(&text, language) {
            Reading::Understood(message) => all.push((text, message)),
            Reading::Unsure { options, .. } => {
                all.extend(options.into_iter().map(|one| (text.clone(), one.message)));
            }
            Reading::NotUnderstood { .. } => {}
        }
    }
    all
}

/// What is read in each message of the corpus prints to a text that reads alike.
#[test]
fn the_corpus_is_read_back() {
    let all = read_in_the_corpus();
    for (text, message) in &all {
        let printed = message.to_string();
        let read = parse(&printed, Language::English);
        assert_eq!(read, Reading::Understood(message.clone()), "{text:?} printed as {printed:?}");
    }
    assert!(all.len() > 600, "{}", all.len());
}

/// The corpus's texts with words of one another, and characters changed: what
/// is still understood is still read back.
#[test]
fn mutants_of_the_corpus_are_read_back() {
    const SEED: u64 = 7;
    let texts = crate::corpus::texts();
    let mut chance = ChaCha8Rng::seed_from_u64(SEED);
    let mut understood = 0;
    for _ in 0..20_000 {
        let (text, language) = texts.choose(&mut chance).unwrap();
        let other = &texts.choose(&mut chance).unwrap().0;
        let mut words: Vec<&str> = text.split(' ').collect();
        for _ in 0..chance.random_range(1..=3) {
            let word = *other.split(' ').collect::<Vec<_>>().choose(&mut chance).unwrap();
            let at = chance.random_range(0..words.len());
            match chance.random_range(0..4) {
                0 => words.insert(at, word),
                1 => words[at] = word,
                2 if words.len() > 1 => drop(words.remove(at)),
                _ => words.push(word),
            }
        }
        let mut mutant = words.join(if chance.random_bool(0.1) { "  " } else { " " });
        if chance.random_bool(0.3) {
            let mut characters: Vec<char> = mutant.chars().collect();
            let new = *['1', '5', ':', '.', ',', 'x', '@', '(', ')', ';', '/']
                .choose(&mut chance)
                .unwrap();
            characters.insert(chance.random_range(0..=characters.len()), new);
            mutant = characters.into_iter().collect();
        }
        let Reading::Understood(message) = parse(&mutant, *language) else { continue };
        understood += 1;
        // A topic is kept in the words of the language that it was asked in.
        let topic = |one: &Statement| matches!(one.kind, Kind::Help { topic: Some(_) });
        if *language != Language::English && message.statements.iter().any(topic) {
            continue;
        }
        let printed = message.to_string();
        let read = parse(&printed, Language::English);
        assert_eq!(
            read,
            Reading::Understood(message),
            "seed {SEED}: {mutant:?} printed as {printed:?}"
        );
    }
    assert!(understood > 2000, "{understood}");
}

fn message() -> BoxedStrategy<Message> {
    // Free text takes all that follows it, so it stands last; a lone name and
    // the words that opt out or in stand alone.
    let several = (vec(statement(), 0..3), of(free())).prop_map(|(mut statements, last)| {
        statements.extend(last);
        statements
    });
    let alone = prop_oneof![
        name().prop_map(|who| Statement { who: Some(who), kind: Kind::Swimmer }),
        select(vec![Kind::Stop, Kind::Start]).prop_map(|kind| Statement { who: None, kind }),
    ];
    prop_oneof![
        9 => several
            .prop_filter("a text says something", |all| !all.is_empty())
            .prop_filter("one illness is told once", |all| {
                all.iter().filter(|one| matches!(one.kind, Kind::Ill { .. })).count() < 2
            }),
        1 => alone.prop_map(|one| vec![one]),
    ]
    .prop_map(|statements| Message { statements })
    .boxed()
}

fn statement() -> BoxedStrategy<Statement> {
    let said = prop_oneof![swum(), felt(), asked(), evening(), set()];
    (of(name()), said)
        .prop_map(|(who, kind)| match kind {
            // These are never someone else's, or name their person themselves.
            Kind::Choose { .. } | Kind::Welfare | Kind::Swimmer | Kind::Join { .. } => {
                Statement { who: None, kind }
            }
            Kind::People(ref said) if *said != People::Leave => Statement { who: None, kind },
            Kind::Regular(ref said)
                if !matches!(said, Regular::Note | Regular::NoteWanted { .. }) =>
            {
                Statement { who: None, kind }
            }
            // A plan is always somebody's, and the option nobody's.
            Kind::Approval(Approval::Given | Approval::SentBack) => {
                Statement { who: who.or_else(|| Name::new("heron").ok()), kind }
            }
            Kind::Approval(_) => Statement { who: None, kind },
            // Whoever stands before it is the one who is here.
            Kind::Here { .. } => Statement { who: None, kind },
            Kind::Limits(Limits::Barred { all: true, .. } | Limits::Allowed { all: true, .. }) => {
                Statement { who: None, kind }
            }
            // A lane is nobody by name.
            Kind::LaneResults(_) => Statement { who: None, kind },
            // A lane is always somebody's, and so is a leg.
            kind @ (Kind::Pin { .. } | Kind::RelayLeg(_)) => {
                Statement { who: who.or_else(|| Name::new("heron").ok()), kind }
            }
            kind => Statement { who, kind },
        })
        .boxed()
}

fn free() -> BoxedStrategy<Statement> {
    let text = "[a-zé0-9,.!?;:'&%/()+-][a-zé0-9 ,.!?;:'&%/()+-]{0,30}"
        .prop_map(|text| text.split_whitespace().collect::<Vec<_>>().join(" "))
        .prop_filter("a colon at the start belongs to the verb", |text| !text.starts_with(':'));
    (of(name()), text, 0..3)
        .prop_map(|(who, text, verb)| {
            let kind = match verb {
                0 => Kind::Tell { text },
                1 => Kind::Note { text },
                _ => Kind::Focus { text },
            };
            Statement { who, kind }
        })
        .boxed()
}

fn name() -> impl Strategy<Value = Name> {
    "[a-zéß鳥][a-z0-9_é-]{1,18}"
        .prop_filter("our own name is read over", |name| name != "lapwing")
        .prop_map(|name| Name::new(&name).unwrap())
}

fn length() -> impl Strategy<Value = Length> {
    (1u32..=100_000, of(unit())).prop_map(|(amount, unit)| Length { amount, unit })
}

fn unit() -> impl Strategy<Value = Unit> {
    select(vec![Unit::Metre, Unit::Yard])
}

fn centis() -> impl Strategy<Value = Centis> {
    prop_oneof![1u32..20_000, 1u32..=Centis::GREATEST.hundredths()]
        .prop_map(|hundredths| Centis::new(hundredths).unwrap())
}

/// A time with the readings of one of its spellings.
fn typed() -> BoxedStrategy<TypedTime> {
    let two = |first: u32, second: u32| TypedTime {
        readings: vec![Centis::new(first).unwrap(), Centis::new(second).unwrap()],
        tenths: !first.is_multiple_of(100),
    };
    prop_oneof![
        centis().prop_map(TypedTime::sure),
        (1u32..900).prop_map(|s| TypedTime {
            readings: vec![Centis::new(s * 100).unwrap()],
            tenths: true
        }),
        (1u32..=99).prop_map(move |number| two(number * 100, number * 6000)),
        (1u32..=99, 0u32..60).prop_map(move |(minutes, seconds)| {
            two(minutes * 6000 + seconds * 100, (minutes * 100 + seconds) * 100)
        }),
        (1u32..9, 1u32..60).prop_map(move |(minutes, seconds)| {
            two(minutes * 6000 + seconds * 100, minutes * 100 + seconds)
        }),
        (9u32..=99, 1u32..60).prop_map(move |(seconds, decimals)| {
            two(seconds * 100 + decimals, seconds * 6000 + decimals * 100)
        }),
        (1u32..24, 0u32..60, 0u32..60).prop_map(move |(hours, minutes, seconds)| {
            two(
                hours * 360_000 + minutes * 6000 + seconds * 100,
                hours * 6000 + minutes * 100 + seconds,
            )
        }),
    ]
    .boxed()
}

fn limits() -> impl Strategy<Value = Kind> {
    let what = vec![
        Limit::Kit(Equipment::Fins),
        Limit::Kit(Equipment::PullBuoy),
        Limit::Stroke(Stroke::Back),
        Limit::Stroke(Stroke::Fly),
        Limit::BreastKick,
        Limit::Dives,
        Limit::TumbleTurns,
    ];
    let what = subsequence(what, 1..=3).prop_map(|mut what| {
        what.sort_unstable();
        what
    });
    let kit = subsequence(Equipment::ALL.to_vec(), 1..=5);
    prop_oneof![
        (what.clone(), any::<bool>()).prop_map(|(what, all)| Limits::Barred { what, all }),
        (what, any::<bool>()).prop_map(|(what, all)| Limits::Allowed { what, all }),
        kit.prop_map(|kit| Limits::Kit { kit }),
    ]
    .prop_map(Kind::Limits)
}

fn own_targets() -> impl Strategy<Value = Kind> {
    // A figure that is a distance people repeat is not taken for a time.
    let time = select(vec!["38.5", "1:01", "1:34.2", "3:05"]).prop_map(|time| TypedTime {
        tenths: time.contains('.'),
        ..TypedTime::sure(time.parse().unwrap())
    });
    let far = (select(vec![25, 50, 100, 200]), of(unit()));
    let hold = (far, time).prop_map(|((amount, unit), time)| (Length { amount, unit }, time));
    vec(hold, 0..3).prop_map(|holds| Kind::OwnTargets { holds })
}

fn regular() -> impl Strategy<Value = Kind> {
    let minutes =
        (0i8..=23, 0i8..=11).prop_map(|(hour, five)| Time::constant(hour, five * 5, 0, 0));
    let when = (of(weekday()), of(minutes))
        .prop_filter("something is said", |(day, at)| day.is_some() || at.is_some());
    prop_oneof![
        Just(Regular::Digest),
        any::<bool>().prop_map(|wanted| Regular::DigestWanted { wanted }),
        when.prop_map(|(day, at)| Regular::digest_at(day, at)),
        Just(Regular::Note),
        any::<bool>().prop_map(|wanted| Regular::NoteWanted { wanted }),
    ]
    .prop_map(Kind::Regular)
}

fn approval() -> impl Strategy<Value = Kind> {
    prop_oneof![
        any::<bool>().prop_map(|wanted| Approval::Wanted { wanted }),
        select(vec![Approval::Waiting, Approval::All, Approval::Given, Approval::SentBack]),
    ]
    .prop_map(Kind::Approval)
}

fn weekday() -> impl Strategy<Value = Weekday> {
    (1i8..=7).prop_map(|day| Weekday::from_monday_one_offset(day).unwrap())
}

fn weekdays() -> impl Strategy<Value = Vec<Weekday>> {
    subsequence((1i8..=7).collect::<Vec<_>>(), 0..=7).prop_map(|days| {
        days.into_iter().map(|day| Weekday::from_monday_one_offset(day).unwrap()).collect()
    })
}

fn day() -> BoxedStrategy<Day> {
    prop_oneof![
        select(vec![Day::Today, Day::Yesterday, Day::Tomorrow]),
        weekday().prop_map(Day::On),
        weekday().prop_map(Day::Last),
        (1u8..=31, 1u8..=12).prop_map(|(day, month)| Day::Slashed(day, month)),
        (1u8..=12, 1u8..=31).prop_map(|(month, day)| Day::Slashed(month, day)),
        (1u8..=31, 1u8..=12, 2000i16..=2199).prop_map(|(d, m, y)| Day::SlashedYear(d, m, y)),
        (1u8..=28, 1u8..=12).prop_map(|(day, month)| Day::DayMonth(day, month)),
        (2000i16..=2199, 1i8..=12, 1i8..=28)
            .prop_map(|(y, m, d)| Day::Full(Date::new(y, m, d).unwrap())),
    ]
    .boxed()
}

/// One day that is no weekday by its name, as timetables keep it.
fn single_day() -> impl Strategy<Value = Day> {
    day().prop_filter("a weekday stands among the days", |day| !matches!(day, Day::On(_)))
}

fn stroke() -> impl Strategy<Value = Stroke> {
    select(Stroke::ALL.to_vec())
}

fn course() -> impl Strategy<Value = Course> {
    select(Course::ALL.to_vec())
}

fn kit() -> impl Strategy<Value = Vec<Equipment>> {
    subsequence(Equipment::ALL.to_vec(), 0..=5)
}

fn rpe() -> impl Strategy<Value = Rpe> {
    (0u8..=100).prop_map(|tenths| Rpe::from_tenths(tenths).unwrap())
}

fn send_off() -> impl Strategy<Value = SendOff> {
    (5u32..=3600).prop_map(|seconds| SendOff::new(seconds).unwrap())
}

fn swum() -> BoxedStrategy<Kind> {
    prop_oneof![test(), timed_test(), set_result(), done()].boxed()
}

fn test() -> BoxedStrategy<Kind> {
    let start = select(vec![Start::Push, Start::Dive, Start::Water]);
    let how = (of(stroke()), of(course()), of(day()), of(start), any::<bool>());
    // Splits make up the time, and then it has one reading.
    let splits = vec((100u32..100_000).prop_map(|h| Centis::new(h).unwrap()), 2..6);
    (length(), typed(), how, of(splits))
        .prop_map(|(distance, mut time, (stroke, course, on, start, meet), splits)| {
            let splits = splits.unwrap_or_default();
            if let Some(sum) = splits.iter().copied().reduce(|one, other| one + other) {
                time = TypedTime::sure(sum);
            }
            Kind::Test(Test { distance, time, stroke, course, on, splits, start, meet })
        })
        .boxed()
}

fn timed_test() -> BoxedStrategy<Kind> {
    (1u32..1000, length(), of(stroke()), of(course()), of(day()))
        .prop_map(|(minutes, distance, stroke, course, on)| {
            let duration = Centis::from_whole_seconds(minutes * 60).unwrap();
            Kind::TimedTest(TimedTest { duration, distance, stroke, course, on })
        })
        .boxed()
}

fn set_result() -> BoxedStrategy<Kind> {
    let set = (1u16..=12, length(), of(stroke()), of(send_off()), of(centis()), of(centis()));
    let told = (vec(of(typed()), 12), of(typed()), 0u16..=12, 0u16..=12, 0..4);
    let felt = (kit(), of(rpe()), of(30u16..=250), of(1u16..=99), of(day()));
    (set, told, felt)
        .prop_map(|(set, told, felt)| {
            let (count, distance, stroke, send_off, rest, target) = set;
            let (mut times, mut average, made, of, way) = told;
            let (equipment, rpe, heart_rate, strokes, on) = felt;
            times.truncate(usize::from(count));
            let (of, made) = (of.clamp(1, count), made.min(of.clamp(1, count)));
            // A set tells its times, its average or how many were made.
            let (made, of) = match way {
                0 => (Some(made), Some(of)),
                1 => (Some(made), None),
                2 => (None, None),
                _ => {
                    average = average.or_else(|| Some(TypedTime::sure(Centis::new(4800).unwrap())));
                    times.clear();
                    (None, None)
                }
            };
            Kind::SetResult(SetResult {
                count,
                distance,
                stroke,
                send_off,
                rest,
                target,
                times,
                average,
                made,
                of,
                equipment,
                rpe,
                heart_rate,
                strokes,
                on,
            })
        })
        .boxed()
}

fn done() -> BoxedStrategy<Kind> {
    let sport = select(vec![Sport::Run, Sport::Ride, Sport::Gym, Sport::Other]);
    (of(length()), of(1u16..=4000), of(centis()), of(rpe()), of(day()), of(sport), any::<bool>())
        .prop_map(|(mut distance, lengths, duration, rpe, on, sport, shortened)| {
            // Lengths of a pool, or a distance; and only where it was swimming.
            let lengths = lengths.filter(|_| distance.is_none() && sport.is_none());
            // A bare number under 100, or beside another sport, is asked about.
            if let Some(far) = &mut distance
                && (far.amount < 100 || sport.is_some())
            {
                far.unit = far.unit.or(Some(Unit::Metre));
            }
            Kind::Done(Done {
                distance,
                lengths,
                duration,
                rpe,
                on,
                sport,
                activity: None,
                shortened,
            })
        })
        .boxed()
}

fn felt() -> BoxedStrategy<Kind> {
    let place = select(vec![
        "shoulder", "elbow", "wrist", "hand", "arm", "neck", "head", "ear", "rib", "hip", "groin",
        "thigh", "knee", "calf", "ankle", "foot", "leg", "back", "body",
    ]);
    let illness = select(vec![Illness::Cold, Illness::Fever, Illness::Stomach]);
    prop_oneof![
        (place, of(0u8..=10))
            .prop_map(|(place, level)| Kind::Pain(Pain { place: place.to_owned(), level })),
        of(illness).prop_map(|what| Kind::Ill { what }),
        of(day()).prop_map(|on| Kind::Missed { on }),
        day().prop_map(|until| Kind::Away { from: None, until }),
        select(vec![Kind::Better, Kind::Faint, Kind::Welfare]),
    ]
    .boxed()
}

fn asked() -> BoxedStrategy<Kind> {
    let week = select(vec![WeekKind::Easy, WeekKind::Normal, WeekKind::Hard]);
    let plan = (of(week), of(10u16..=240), of(1u8..=14), of(day())).prop_map(
        |(week, minutes, sessions, on)| Kind::Plan(PlanWish { week, minutes, sessions, on }),
    );
    let next = (of(10u16..=240), of(length()), kit(), kit(), any::<bool>()).prop_map(
        |(minutes, mut distance, with, without, open_water)| {
            // A bare number under 100 may be minutes, and is asked about.
            if let Some(far) = distance.as_mut().filter(|far| far.amount < 100) {
                far.unit = far.unit.or(Some(Unit::Metre));
            }
            Kind::Next(NextWish { minutes, distance, with, without, open_water })
        },
    );
    let word = select(vec![
        Kind::Shorter,
        Kind::Easier,
        Kind::Harder,
        Kind::Again,
        Kind::More,
        Kind::Trend,
        Kind::Best,
        Kind::Tonight,
        Kind::Board,
        Kind::Log,
        Kind::Swimmer,
        Kind::Undo,
        Kind::Yes,
        Kind::No,
        Kind::Why,
        Kind::Forget,
    ]);
    let topic = select(vec!["test", "plan", "next", "targets", "set", "squad", "lanes"]);
    let choice = select(vec!["25m", "50m", "1500", "test", "free", "open", "3:12", "47.2", "x"]);
    let fix = (of(typed()), of(name()), of(day()), of(length()))
        .prop_filter("says what is right", |(time, was, ..)| time.is_some() || was.is_some())
        .prop_map(|(time, was, on, mut distance)| {
            // Without a time a bare number would be one.
            if let (Some(far), None) = (&mut distance, &time) {
                far.unit = far.unit.or(Some(Unit::Metre));
            }
            Kind::Fix(Fix { time, was, on, distance, ..Fix::default() })
        });
    let entry = (length(), of(stroke()), of(day()), of(typed()), any::<bool>()).prop_map(
        |(distance, stroke, on, time, scratched)| {
            let time = time.filter(|_| !scratched);
            Kind::Entry(Entry { distance, stroke, on, time, scratched })
        },
    );
    let leg = (2u8..=10, length(), of(stroke()), of(day()), 1u8..=10, typed()).prop_map(
        |(count, distance, stroke, on, leg, time)| {
            let leg = leg.min(count);
            Kind::RelayLeg(RelayLeg { count, distance, stroke, on, leg, time })
        },
    );
    let meet = (day(), of(course())).prop_map(|(on, course)| Kind::Meet { on, course });
    let start = select(vec![Start::Push, Start::Dive, Start::Water]);
    let begun = (of(start), any::<bool>())
        .prop_filter("says something", |(start, meet)| start.is_some() || *meet)
        .prop_map(|(start, meet)| Kind::Fix(Fix { start, meet, ..Fix::default() }));
    prop_oneof![
        plan,
        next,
        word,
        profile(),
        fix,
        begun,
        entry,
        Just(Kind::Entries),
        leg,
        meet,
        (day(), day()).prop_map(|(one, other)| Kind::Swap { days: [one, other] }),
        (name(), name(), of(day()), of(length())).prop_map(|(one, other, on, distance)| {
            Kind::SwapResults { names: [one, other], on, distance }
        }),
        // A second figure that is no whole length would be a time to hold.
        vec((1u32..=60, of(unit())), 0..4).prop_map(|lengths| Kind::Targets {
            distances: lengths
                .into_iter()
                .map(|(lengths, unit)| Length { amount: lengths * 25, unit })
                .collect(),
        }),
        own_targets(),
        length().prop_map(|distance| Kind::Predict { distance }),
        (length(), day(), of(typed())).prop_map(|(distance, on, goal)| Kind::Race {
            distance,
            on,
            goal
        }),
        vec(name(), 2..4).prop_map(|names| Kind::Compare { names }),
        ("[A-Z0-9][A-Z0-9-]{4,10}[A-Z0-9]", name())
            .prop_map(|(code, name)| Kind::Join { code, name }),
        people().prop_map(Kind::People),
        of(topic).prop_map(|topic| Kind::Help { topic: topic.map(str::to_owned) }),
        choice.prop_map(|word| Kind::Choose { word: word.to_owned() }),
    ]
    .boxed()
}

fn people() -> BoxedStrategy<People> {
    let office =
        select(vec![Office::Coach, Office::Assistant, Office::Guardian, Office::WelfareOfficer]);
    let guess = (of(length()), typed()).prop_map(|(distance, time)| Guess { distance, time });
    prop_oneof![
        ("\\+[0-9]{5,15}|@[a-z]{1,8}:[a-z]{2,8}\\.net", of(office), of(name()))
            .prop_map(|(to, office, name)| People::Invite { to, office, name }),
        name().prop_map(|to| People::HandOver { to }),
        name().prop_map(|name| People::Remove { name }),
        (name(), of(guess)).prop_map(|(name, guess)| People::Add { name, guess }),
        "[A-Z0-9][A-Z0-9-]{4,10}[A-Z0-9]".prop_map(|code| People::Claim { code }),
        select(vec![People::Leave, People::Squads]),
    ]
    .boxed()
}

fn profile() -> BoxedStrategy<Kind> {
    let none = ProfileChange::default;
    prop_oneof![
        course().prop_map(move |one| ProfileChange { course: Some(one), ..none() }),
        weekdays()
            .prop_filter("some day", |days| !days.is_empty())
            .prop_map(move |days| ProfileChange { days, ..none() }),
        (1u8..=14).prop_map(move |count| ProfileChange { sessions: Some(count), ..none() }),
        (10u16..=240).prop_map(move |count| ProfileChange { minutes: Some(count), ..none() }),
        (1900i16..=2099).prop_map(move |year| ProfileChange { born: Some(year), ..none() }),
        unit().prop_map(move |unit| ProfileChange { units: Some(unit), ..none() }),
        select(Language::ALL.to_vec())
            .prop_map(move |language| ProfileChange { language: Some(language), ..none() }),
    ]
    .prop_map(Kind::Profile)
    .boxed()
}

fn evening() -> BoxedStrategy<Kind> {
    let week = select(vec![WeekKind::Easy, WeekKind::Normal, WeekKind::Hard]);
    let filter = select(vec![
        SquadFilter::Improving,
        SquadFilter::Fading,
        SquadFilter::Hurt,
        SquadFilter::Silent,
        SquadFilter::Improving,
        SquadFilter::Pace,
        SquadFilter::Expected,
        SquadFilter::Owed,
        SquadFilter::Races,
    ]);
    let time = (0i8..24, 0i8..60).prop_map(|(hour, minute)| Time::new(hour, minute, 0, 0).unwrap());
    let slot =
        (weekdays(), of(single_day()), of(time), of(10u16..=240), of(1u8..=20), of(course()))
            .prop_filter("some day", |(days, on, ..)| !days.is_empty() || on.is_some())
            .prop_map(|(days, on, starts, minutes, lanes, course)| {
                Kind::Slot(Slot { days, starts, minutes, lanes, on, course })
            });
    let shut = (weekdays(), of(single_day()))
        .prop_filter("some day", |(days, on)| !days.is_empty() || on.is_some())
        .prop_map(|(days, on)| Kind::Shut { days, on });
    let reopen = (weekdays(), of(single_day()))
        .prop_filter("some day", |(days, on)| !days.is_empty() || on.is_some())
        .prop_map(|(days, on)| Kind::Reopen { days, on });
    let cut = (of(1u16..=999), of(1u8..=9), of(1u16..=100), of(send_off()), any::<bool>())
        .prop_filter("changes something", |(left, lane, count, send_off, skip)| {
            left.is_some() || count.is_some() || *skip || (lane.is_some() && send_off.is_some())
        })
        .prop_map(|(minutes_left, lane, count, send_off, skip_round)| {
            Kind::Cut(Cut { minutes_left, ends: None, lane, count, send_off, skip_round })
        });
    let lane_results =
        (1u8..=9, of(length()), vec(of(typed()), 1..5)).prop_map(|(lane, distance, times)| {
            Kind::LaneResults(LaneResults { lane, distance, times })
        });
    prop_oneof![
        lane_results,
        of(filter).prop_map(|filter| Kind::Squad { filter, on: None }),
        single_day()
            .prop_map(|on| Kind::Squad { filter: Some(SquadFilter::Expected), on: Some(on) }),
        of(1u8..=20).prop_map(|count| Kind::Lanes { count }),
        of((length(), of(day()))).prop_map(|called| {
            let (distance, on) = called.map_or((None, None), |(far, on)| (Some(far), on));
            Kind::TestNight { distance, on }
        }),
        of(1u8..=9).prop_map(|lane| Kind::Pin { lane }),
        regular(),
        limits(),
        (vec(name(), 2..4), any::<bool>()).prop_map(|(names, apart)| Kind::Apart { names, apart }),
        (vec(name(), 0..3), any::<bool>(), of(single_day()))
            .prop_map(|(names, all_but, on)| Kind::Here { names, all_but, on }),
        (vec(name(), 1..3), of(single_day())).prop_map(|(names, on)| Kind::Absent { names, on }),
        (any::<bool>(), of(day())).prop_map(|(coming, on)| Kind::Attend {
            coming,
            late_min: None,
            on
        }),
        (1u16..=999, of(day())).prop_map(|(minutes, on)| Kind::Attend {
            coming: true,
            late_min: Some(minutes),
            on
        }),
        slot,
        shut,
        reopen,
        Just(Kind::LaneGone),
        (0i8..24, 0i8..60).prop_map(|(hour, minute)| {
            let ends = Time::new(hour, minute, 0, 0).ok();
            Kind::Cut(Cut { ends, ..Cut::default() })
        }),
        cut,
        week.prop_map(|week| Kind::Hold { week }),
        Just(Kind::Release),
        approval(),
    ]
    .boxed()
}

fn set() -> BoxedStrategy<Kind> {
    let part = select(<Part as VariantArray>::VARIANTS);
    let pieces = || vec(piece(4), 1..4);
    // `5/12 8x50` says how many were made.
    let on = day().prop_filter("made", |day| !matches!(day, Day::Slashed(..)));
    (of(on), of(part.clone()), pieces(), vec((part, pieces()), 0..3))
        .prop_map(|(on, part, pieces, more)| {
            let mut lines = vec![SetLine { part, pieces }];
            lines.extend(
                more.into_iter().map(|(part, pieces)| SetLine { part: Some(part), pieces }),
            );
            Kind::Set(TypedSet { on, lines, lanes: vec![] })
        })
        .boxed()
}

fn piece(depth: usize) -> BoxedStrategy<SetPiece> {
    let item = item().prop_map(SetPiece::Item);
    if depth == 0 {
        return item.boxed();
    }
    let rounds = (1u16..=50, vec(piece(depth - 1), 1..3), of(centis()))
        .prop_map(|(times, pieces, rest)| SetPiece::Rounds(Rounds { times, pieces, rest }));
    prop_oneof![4 => item, 1 => rounds].boxed()
}

fn item() -> BoxedStrategy<SetItem> {
    let effort = prop_oneof![
        of(0u8..=99).prop_map(Effort::Descend),
        of(0u8..=99).prop_map(Effort::Ascend),
        select(vec![
            Effort::Build,
            Effort::NegativeSplit,
            Effort::Even,
            Effort::BestAverage,
            Effort::ImOrder,
        ]),
    ];
    let comment = "[a-z0-9é][a-z0-9é ,;.:()-]{0,15}[a-z0-9é]"
        .prop_map(|text| text.split_whitespace().collect::<Vec<_>>().join(" "));
    let times = (of(send_off()), of(centis()), of(centis()), of(length()));
    let how =
        (of(stroke()), of(select(Level::ALL.to_vec())), kit(), vec(effort, 0..2), of(comment));
    (1u16..=100, length(), times, how)
        .prop_map(|(count, distance, times, how)| {
            let (send_off, rest, target, pace_of) = times;
            let (stroke, level, equipment, effort, comment) = how;
            SetItem {
                count,
                distance,
                stroke,
                send_off,
                rest,
                target,
                pace_of,
                level,
                equipment,
                effort,
                comment,
            }
        })
        .boxed()
}
