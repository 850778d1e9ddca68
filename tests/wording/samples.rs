//! A sample of every outcome, and of every variant inside it.

use std::collections::BTreeMap;

use jiff::civil::{Weekday, date, time as clock};
use lapwing::coaching::lanes::{
    Entrant, Evening, Gap, KnownPace, LaneRepeat, Moved, OneMove, Shortfall, draw,
};
use lapwing::coaching::test_night;
use lapwing::coaching::{
    Ability, After, Change, Goal, NextSet, Outlook, PaceFrom, Phase, Promise, Race, Realism,
    RefusalReason, RuleId, SetFeedback, Split, Trouble, WeekKind, rules,
};
use lapwing::history::{Before, FlyingLeg, Guest, Invitation, PutRight, Role};
use lapwing::language::Language;
use lapwing::message::{Danger, Doubt, Kind, Name, SquadFilter, Statement, Wants};
use lapwing::reply::*;
use lapwing::session::{Limit, Part};
use lapwing::swim::critical_speed::Basis;
use lapwing::swim::prediction::{Prediction, PredictionBasis, Reach};
use lapwing::swim::set::{SetAnalysis, Shape, analyse};
use lapwing::swim::why::{self, Explanation};
use lapwing::units::{
    Centis, Course, Equipment, Lane, Level, Pace, Rpe, Seconds, Start, Stroke, Unit, Weekdays,
};
use strum::VariantArray;

use super::approval::{approvals, waiting};
use super::evening::{changes, evenings, lanes_changed};
use super::parts::*;
use super::{care, offices};

/// All outcomes, each with what it is a sample of.
pub fn outcomes() -> Vec<(String, Outcome)> {
    let named = |kind: &str, list: Vec<Outcome>| {
        let mut numbered = Numbered::default();
        let name = |one: &Outcome| match variant(one) {
            Some(variant) => format!("{kind} {variant}"),
            None => kind.to_owned(),
        };
        list.into_iter().map(|one| (numbered.next(name(&one)), one)).collect::<Vec<_>>()
    };
    [
        named("test", tests().into_iter().map(Outcome::Test).collect()),
        named("targets", targets().into_iter().map(Outcome::Targets).collect()),
        named("set", sets().into_iter().map(Outcome::Set).collect()),
        named("done", done().into_iter().map(Outcome::Done).collect()),
        named("prediction", predictions().into_iter().map(Outcome::Prediction).collect()),
        named("evening", evenings().into_iter().map(Outcome::Evening).collect()),
        named("session", sessions().into_iter().map(Outcome::Session).collect()),
        named("plan", plans().into_iter().map(Outcome::Plan).collect()),
        named("caution", cautions().into_iter().map(Outcome::Caution).collect()),
        named("squad", squads().into_iter().map(Outcome::Squad).collect()),
        named("swimmer", swimmers().into_iter().map(Outcome::Swimmer).collect()),
        named("lanes", lanes().into_iter().map(Outcome::Lanes).collect()),
        named("ok", oks().into_iter().map(Outcome::Ok).collect()),
        named(
            "known",
            super::questions::known()
                .into_iter()
                .map(|known| Outcome::Ok(OkReply::Known(known)))
                .collect(),
        ),
        named(
            "belonging",
            belongings().into_iter().map(|done| Outcome::Ok(OkReply::Belonging(done))).collect(),
        ),
        named("question", questions().into_iter().map(Outcome::Question).collect()),
        named("refused", refusals().into_iter().map(Outcome::Refused).collect()),
        named("not understood", unread().into_iter().map(Outcome::NotUnderstood).collect()),
        named("help", helps().into_iter().map(Outcome::Help).collect()),
        named("why", std::iter::once(why()).chain(why_main()).map(Outcome::Help).collect()),
        named("captured", captures()),
        named("kept", offices::kept()),
        named("compared", vec![Outcome::Compared(compared())]),
        named(
            "mixed",
            vec![Outcome::Mixed(vec![
                Outcome::Caution(CautionReply { kind: danger(Danger::Heart), about: None }),
                Outcome::Ok(OkReply::Better { from: None }),
            ])],
        ),
    ]
    .concat()
}

/// Numbers samples within their variant, so that a new one moves no other's number.
#[derive(Default)]
pub struct Numbered(BTreeMap<String, usize>);

impl Numbered {
    /// The name with the next number of its own.
    pub fn next(&mut self, name: String) -> String {
        let count = self.0.entry(name.clone()).or_default();
        *count += 1;
        format!("{name} {count}")
    }
}

/// What kind of its outcome a sample is, where that has kinds.
fn variant(outcome: &Outcome) -> Option<&'static str> {
    Some(match outcome {
        Outcome::Ok(OkReply::Known(known)) => known.into(),
        Outcome::Ok(OkReply::Belonging(done)) => done.into(),
        Outcome::Ok(OkReply::Office(done)) => done.into(),
        Outcome::Ok(done) => done.into(),
        Outcome::Caution(caution) => (&caution.kind).into(),
        Outcome::Question(question) => (&question.asks).into(),
        Outcome::Refused(RefusedReply { why: RefusedWhy::Office(why), .. }) => why.into(),
        Outcome::Refused(refused) => (&refused.why).into(),
        Outcome::NotUnderstood(reply) => (&reply.rest).into(),
        Outcome::Help(help) => help.into(),
        _ => return None,
    })
}

fn compared() -> Vec<SwimmerReply> {
    let of = |who: &str, best: &str| SwimmerReply {
        row: row(who, Trend::Flat, vec![]),
        bests: vec![trial(200, best, MONDAY)],
        ..swimmers().remove(1)
    };
    vec![of("heron", "3:12"), of("teal", "2:58")]
}

/// Several swimmers' results in one text.
fn captures() -> Vec<Outcome> {
    let of = |who: &str| name(who);
    let tests = || {
        ["heron", "teal", "wren", "siskin", "dunnock"]
            .into_iter()
            .zip(tests())
            .map(|(who, reply)| Outcome::Test(TestReply { swimmer: of(who), other: true, ..reply }))
    };
    let waits = |who: &str| {
        Outcome::Question(QuestionReply {
            asks: Asks::Of {
                who: of(who),
                asks: Box::new(Asks::Implausible { distance: metres(200), time: time("1:58") }),
            },
            options: vec!["yes".into(), "no".into()],
            until: "2026-03-02T21:00:00Z".parse().unwrap(),
        })
    };
    let sets = |all: Vec<SetReply>| {
        all.into_iter().map(|reply| Outcome::Set(SetReply { other: true, ..reply })).collect()
    };
    vec![
        Outcome::Captured(tests().collect()),
        Outcome::Captured(tests().take(2).chain([waits("siskin"), waits("dunnock")]).collect()),
        Outcome::Captured(
            tests().take(2).chain(["a", "b", "c"].map(|_| waits("siskin"))).collect(),
        ),
        Outcome::Captured(
            offices::kept().into_iter().chain(done().into_iter().map(Outcome::Done)).collect(),
        ),
        Outcome::Captured(sets(self::sets())),
        Outcome::Captured(lane_of_sets()),
    ]
}

/// A lane's sets of the night: three held all, one lost some.
fn lane_of_sets() -> Vec<Outcome> {
    let all = sets();
    let of = |who: &str, reply: &SetReply| {
        let lane = Lane::new(2).ok();
        Outcome::Set(SetReply { swimmer: name(who), other: true, lane, ..reply.clone() })
    };
    let held = all.iter().find(|one| one.feedback.analysis.is_some_and(|a| a.missed == 0));
    let held = held.unwrap();
    vec![of("heron", held), of("teal", held), of("wren", held), of("siskin", &all[1])]
}

pub fn tests() -> Vec<TestReply> {
    let plain = TestReply {
        swimmer: name("heron"),
        other: false,
        trial: trial(200, "3:12", MONDAY),
        personal_best: true,
        best_before: None,
        targets: usual_targets(),
        critical: critical(Basis::OneTest),
        test_next: Some(metres(400)),
        next: Some(pace_session()),
        dropped: None,
        start_taken: None,
        farther: false,
        goal: None,
        repeat: false,
    };
    let best = |text: &str| Some(time(text));
    vec![
        plain.clone(),
        TestReply {
            best_before: best("3:14.5"),
            critical: critical(Basis::Curve),
            test_next: None,
            next: Some(easy_session()),
            ..plain.clone()
        },
        TestReply { best_before: best("3:10"), other: true, ..plain.clone() },
        TestReply { start_taken: Some(Start::Push), next: None, ..plain.clone() },
        TestReply { start_taken: Some(Start::Dive), next: None, ..plain.clone() },
        TestReply { start_taken: Some(Start::Water), next: None, ..plain.clone() },
        TestReply { farther: true, next: None, ..plain.clone() },
        TestReply { goal: Some(time("3:15")), next: None, ..plain.clone() },
        TestReply { goal: Some(time("3:10")), next: None, ..plain.clone() },
        TestReply { goal: Some(time("3:12")), next: None, ..plain.clone() },
        TestReply { best_before: best("3:12"), next: None, ..plain.clone() },
        TestReply {
            dropped: Some(repeat(7, 50, Level::Hard)),
            best_before: best("3:14"),
            ..plain.clone()
        },
        TestReply { other: true, next: None, ..plain.clone() },
        TestReply {
            trial: yards(Stroke::Back),
            targets: targets_to_a_half_and_more(),
            critical: critical(Basis::None),
            next: None,
            ..plain.clone()
        },
        TestReply {
            targets: vec![],
            critical: critical(Basis::None),
            test_next: None,
            next: None,
            ..plain.clone()
        },
        TestReply { repeat: true, ..plain },
    ]
}

pub fn targets() -> Vec<TargetsReply> {
    [Basis::OneTest, Basis::Curve, Basis::None]
        .map(|basis| TargetsReply {
            trial: trial(200, "3:12", MONDAY),
            targets: usual_targets(),
            own: if basis == Basis::Curve { usual_targets() } else { vec![] },
            critical: critical(basis),
        })
        .to_vec()
}

pub fn sets() -> Vec<SetReply> {
    let times = |texts: &[&str]| texts.iter().map(|text| text.parse().ok()).collect::<Vec<_>>();
    let reply = |what, analysis: Option<SetAnalysis>, shape: Option<Shape>| SetReply {
        swimmer: name("heron"),
        other: false,
        set: repeat(8, 50, Level::Hard),
        lane: None,
        feedback: SetFeedback {
            analysis,
            shape,
            change: NextSet { what, set: repeat(6, 50, Level::Hard) },
            slower_is_fine: false,
            rules: vec![],
        },
        promised: true,
        replaced: None,
        repeat: false,
    };
    let faded = analyse(time("48"), &times(&["48", "48", "48", "48", "49", "49", "50", "x"]));
    let held = analyse(time("48"), &times(&["48", "48", "47", "48"]));
    let one = Shape { fade: None, ..held.shape.unwrap() };
    let mut all: Vec<SetReply> =
        Change::VARIANTS.iter().map(|&what| reply(what, Some(faded), faded.shape)).collect();
    all.push(reply(Change::MoreRepeats, Some(held), held.shape));
    all.push(SetReply { other: true, ..reply(Change::Same, Some(faded), faded.shape) });
    let not_ours =
        SetReply { promised: false, ..reply(Change::MoreRepeats, Some(held), held.shape) };
    all.push(not_ours);
    let replaced = Some(repeat(6, 100, Level::Hard));
    all.push(SetReply { replaced, ..reply(Change::MoreRepeats, Some(held), held.shape) });
    all.push(SetReply { other: true, ..reply(Change::Same, None, None) });
    let mut slow = reply(Change::Same, None, Some(one));
    slow.feedback.slower_is_fine = true;
    all.push(slow);
    let mut faster = reply(
        Change::Same,
        Some(held),
        held.shape.map(|shape| Shape { fade: Some(Seconds::new(-0.4)), ..shape }),
    );
    all.push(SetReply { repeat: true, ..faster.clone() });
    faster.set.target = None;
    faster.feedback.change.set.target = None;
    all.push(faster);
    all
}

pub fn done() -> Vec<DoneReply> {
    let whole = DoneReply {
        swimmer: name("heron"),
        distance: Some(metres(1500)),
        duration: Some(time("45:00")),
        rpe: Some(Rpe::from_tenths(60).unwrap()),
        on: MONDAY,
        load: Some(270),
        week: Some(metres(4200)),
        eased: None,
        elsewhere: false,
        repeat: false,
    };
    vec![
        whole.clone(),
        DoneReply { distance: None, duration: None, rpe: None, week: None, ..whole.clone() },
        DoneReply { repeat: true, ..whole.clone() },
        DoneReply { eased: Some(RuleId::CutShort), ..whole.clone() },
        DoneReply { eased: Some(RuleId::HighEffort), ..whole.clone() },
        DoneReply { distance: None, week: None, elsewhere: true, ..whole },
    ]
}

pub fn predictions() -> Vec<PredictionReply> {
    let near = Prediction {
        distance: metres(1500),
        time: time("26:52"),
        low: time("26:10"),
        high: time("27:35"),
        basis: PredictionBasis::Curve(1.075),
        made_from: vec![trial(400, "6:50", MONDAY)],
        reach: Reach::Within,
    };
    let mut far = near.clone();
    far.made_from.push(trial(200, "3:12", MONDAY));
    far.reach = Reach::Beyond(7.5);
    let race = |goal: Option<Realism>, weeks_left| {
        let goal = goal.map(|verdict| Goal {
            time: time("26:00"),
            chance: 0.3,
            verdict,
            gain_percent: 3.2,
        });
        let split = |at, text| Split { at: metres(at), time: time(text) };
        let splits =
            if goal.is_some() { vec![split(100, "1:44"), split(200, "3:28")] } else { vec![] };
        let outlook = Outlook {
            expected: time("26:30"),
            goal,
            weeks_left,
            splits,
            taper_from: date(2026, 12, 7),
            prediction: near.clone(),
            phase: Phase::Build,
        };
        let prediction = near.clone();
        PredictionReply { prediction, race: Some((date(2026, 12, 20), outlook)) }
    };
    vec![
        PredictionReply { prediction: near.clone(), race: None },
        PredictionReply { prediction: far, race: None },
        race(None, 1),
        race(Some(Realism::Likely), 9),
        race(Some(Realism::Possible), 9),
        race(Some(Realism::FarOff), 9),
    ]
}

pub fn sessions() -> Vec<SessionReply> {
    vec![
        SessionReply {
            session: pace_session(),
            caution: Some(CautionKind::Effort),
            lane: Some(2),
            unseen: false,
            on_squad_night: false,
            changed: None,
            waits: None,
            if_well: true,
            unheard: None,
            after_yes: false,
        },
        SessionReply {
            session: easy_session(),
            caution: None,
            lane: None,
            unseen: true,
            on_squad_night: true,
            changed: Some((MONDAY, News::Trouble)),
            waits: None,
            if_well: false,
            unheard: Some(MONDAY),
            after_yes: true,
        },
        SessionReply {
            session: session_of_everything(),
            caution: Some(CautionKind::OpenWater),
            lane: None,
            unseen: false,
            on_squad_night: false,
            changed: None,
            waits: Some(Promise::Set { set: repeat(7, 50, Level::Hard) }),
            if_well: true,
            unheard: None,
            after_yes: false,
        },
    ]
}

pub fn plans() -> Vec<PlanReply> {
    let plan = |kind, asked, sessions: Vec<_>| PlanReply {
        starts: MONDAY,
        kind,
        asked,
        distance: metres(2200),
        sessions,
        changed: vec![],
        waits: None,
        rules: vec![],
    };
    let changed = |news| (MONDAY, news);
    let all_news = [
        News::Away,
        News::Better,
        News::Break,
        News::Corrected,
        News::Done,
        News::Elsewhere,
        News::Limits,
        News::Profile,
        News::Race,
        News::Set,
        News::Shut,
        News::SquadSet,
        News::Test,
        News::Tired,
        News::Trouble,
        News::Wish,
    ];
    vec![
        PlanReply {
            changed: all_news.map(changed).to_vec(),
            waits: Some(Promise::Test),
            ..plan(WeekKind::Normal, None, vec![easy_session()])
        },
        plan(WeekKind::Easy, Some(WeekKind::Hard), vec![easy_session()]),
        plan(WeekKind::Normal, None, vec![pace_session(), easy_session()]),
        plan(WeekKind::Hard, Some(WeekKind::Normal), vec![pace_session(), easy_session()]),
        plan(WeekKind::Taper, Some(WeekKind::Easy), vec![easy_session()]),
        plan(WeekKind::Return, None, vec![easy_session()]),
    ]
}

/// The places of the grammar, and one that it doesn't know.
const PLACES: [&str; 21] = [
    "shoulder",
    "elbow",
    "wrist",
    "hand",
    "arm",
    "neck",
    "head",
    "ear",
    "eye",
    "rib",
    "hip",
    "groin",
    "thigh",
    "knee",
    "calf",
    "ankle",
    "foot",
    "leg",
    "back",
    "lower back",
    "body",
];

/// A danger where no number is known.
fn danger(danger: Danger) -> CautionKind {
    CautionKind::Danger { danger, call: None }
}

pub fn cautions() -> Vec<CautionReply> {
    let mine = |kind| CautionReply { kind, about: None };
    let theirs = |kind| CautionReply { kind, about: Some(name("heron")) };
    let pain = |place: &str, level, again| {
        mine(CautionKind::Pain { place: place.to_owned(), level: Some(level), again })
    };
    let ill = |fever, stomach| mine(CautionKind::Ill { fever, stomach });
    let mut all = vec![
        mine(CautionKind::Easing),
        mine(CautionKind::Gentle),
        mine(CautionKind::Afraid),
        mine(CautionKind::MaySwim { worries: true }),
        mine(CautionKind::MaySwim { worries: false }),
        mine(CautionKind::WhereHelpIs { call: None }),
        mine(CautionKind::WhereHelpIs { call: Some("999".into()) }),
        mine(CautionKind::Dive),
        mine(CautionKind::Alone),
        mine(CautionKind::EverybodyOut { here: 0 }),
        mine(CautionKind::EverybodyOut { here: 18 }),
        mine(CautionKind::Clinician),
        mine(CautionKind::Low { call: None, helpline: None }),
        mine(CautionKind::Low {
            call: Some("999".into()),
            helpline: Some("Nightline 0800 1111".into()),
        }),
        mine(CautionKind::DoneToday),
        theirs(CautionKind::DoneToday),
        mine(CautionKind::Stopped),
        theirs(CautionKind::Stopped),
        mine(CautionKind::Welfare {
            officer: false,
            of_another: false,
            call: None,
            helpline: None,
        }),
        mine(CautionKind::Welfare {
            officer: true,
            of_another: true,
            call: Some("999".into()),
            helpline: None,
        }),
        mine(CautionKind::Welfare {
            officer: true,
            of_another: false,
            call: Some("999".into()),
            helpline: Some("Nightline 0800 1111".into()),
        }),
        mine(CautionKind::Effort),
        mine(CautionKind::OpenWater),
        mine(CautionKind::BreathHold),
        ill(false, false),
        ill(true, false),
        ill(false, true),
        pain("shoulder", 2, false),
        pain("shoulder", 7, true),
        pain("knee", 8, false),
    ];
    for one in Danger::ALL {
        let called = CautionKind::Danger { danger: one, call: Some("999".into()) };
        let beside = CautionKind::Beside { danger: one, unnamed: one.is_grave(), call: None };
        all.extend([mine(danger(one)), theirs(danger(one)), mine(called.clone()), theirs(called)]);
        all.push(mine(beside));
    }
    all.extend(PLACES.map(|place| pain(place, 4, false)));
    let unsaid = CautionKind::Pain { place: "knee".into(), level: None, again: false };
    all.extend([mine(unsaid.clone()), theirs(unsaid)]);
    for (level, again) in [(2, false), (4, false), (7, true)] {
        let place = "shoulder".to_owned();
        all.push(theirs(CautionKind::Pain { place, level: Some(level), again }));
    }
    for (fever, stomach) in [(false, false), (true, false), (false, true)] {
        all.push(theirs(CautionKind::Ill { fever, stomach }));
    }
    all
}

fn row(who: &str, trend: Trend, flags: Vec<Flag>) -> SquadRow {
    SquadRow {
        swimmer: name(who),
        guest: None,
        last_test: (trend != Trend::Unknown).then(|| trial(200, "3:12", MONDAY)),
        critical_per_100_s: (trend != Trend::Unknown).then_some(109.07),
        trend,
        trend_across: trend == Trend::Up,
        race: None,
        flags,
        last_seen: Some(MONDAY),
        open: vec![],
        last_heard: Some(MONDAY),
    }
}

pub fn squads() -> Vec<SquadReply> {
    let at_a_glance = SquadReply {
        squad: "Tuesday lanes".into(),
        swimmers: vec![
            row("heron", Trend::Up, vec![]),
            row("teal", Trend::Flat, vec![Flag::Overdue, Flag::Silent]),
            row("wren", Trend::Down, vec![Flag::Hurt]),
            row("dunnock", Trend::Unknown, vec![]),
        ]
        .into_iter()
        .chain(guests())
        .collect(),
        filter: None,
        night: None,
    };
    let many = |filter| SquadReply { swimmers: large_squad(), filter, ..at_a_glance.clone() };
    let filters = [
        SquadFilter::Overdue,
        SquadFilter::Hurt,
        SquadFilter::Silent,
        SquadFilter::Improving,
        SquadFilter::Fading,
        SquadFilter::Pace,
        SquadFilter::Owed,
        SquadFilter::Races,
    ];
    let nobody = SquadReply {
        swimmers: vec![],
        filter: Some(SquadFilter::Improving),
        ..at_a_glance.clone()
    };
    let tonight = |night| SquadReply { night: Some(night), ..at_a_glance.clone() };
    vec![
        at_a_glance.clone(),
        tonight(night()),
        tonight(NightReply { coming: vec![], perhaps: vec![], out: vec![], ..night() }),
        nobody,
        many(None),
    ]
    .into_iter()
    .chain(filters.map(|filter| many(Some(filter))))
    .collect()
}

/// More than have a line each.
fn large_squad() -> Vec<SquadRow> {
    let trends = [Trend::Up, Trend::Flat, Trend::Down, Trend::Unknown];
    let flags = [vec![], vec![Flag::Overdue], vec![Flag::Silent]];
    let names = ["teal", "wren", "dunnock", "siskin", "plover", "curlew", "snipe", "avocet"];
    let hurt = SquadRow { open: troubles(), ..row("heron", Trend::Up, vec![Flag::Hurt]) };
    let others = names
        .iter()
        .enumerate()
        .map(|(at, who)| row(who, trends[at % trends.len()], flags[at % flags.len()].clone()));
    std::iter::once(hurt).chain(others).collect()
}

pub fn swimmers() -> Vec<SwimmerReply> {
    let latest = vec![trial(400, "6:50", MONDAY), trial(200, "3:12", MONDAY)];
    vec![
        SwimmerReply {
            row: SquadRow { open: troubles(), ..row("heron", Trend::Up, vec![Flag::Hurt]) },
            bests: latest.clone(),
            latest,
            put_right: vec![
                (trial(200, "3:12", MONDAY), put_right(None, Before::Time(time("3:21")))),
                (trial(400, "6:50", MONDAY), put_right(Some("teal"), Before::Of(name("wren")))),
            ],
            own_targets: usual_targets(),
            limits: (LIMITS.to_vec(), Some(vec![Equipment::Fins])),
            focus: Some("codo alto".into()),
            legs: vec![(MONDAY, flying_leg())],
            race: Some(Race {
                on: date(2026, 12, 20),
                distance: metres(1500),
                stroke: Stroke::Free,
                goal: None,
            }),
            over: vec![(troubles()[0].clone(), MONDAY)],
            notes: vec![(MONDAY, "ask about the move".into())],
            page: None,
        },
        SwimmerReply {
            row: row("dunnock", Trend::Unknown, vec![]),
            bests: vec![],
            latest: vec![],
            put_right: vec![],
            own_targets: vec![],
            limits: (vec![], None),
            focus: None,
            legs: vec![],
            race: None,
            over: vec![],
            notes: vec![],
            page: Some(OwnPage { url: "https://squad.example.org/me/abc".into(), hours: 12 }),
        },
    ]
}

pub fn belongings() -> Vec<Belonging> {
    let kestrel = || name("kestrel");
    let squad = || "Dusk".to_owned();
    let guest = |guess: Option<f64>, code: Option<&str>| Belonging::GuestAdded {
        name: name("robin"),
        guess: guess.map(|per_100| Pace::new(per_100, Unit::Metre).unwrap()),
        code: code.map(str::to_owned),
    };
    vec![
        Belonging::Invited { name: Some(kestrel()), role: Role::Assistant },
        Belonging::Invited { name: None, role: Role::WelfareOfficer },
        Belonging::Invited { name: Some(name("heron")), role: Role::Swimmer },
        Belonging::Declined,
        Belonging::InAs { role: Role::Assistant, squad: squad() },
        Belonging::InAs { role: Role::WelfareOfficer, squad: squad() },
        Belonging::NeedsName { code: "K7WQ2ABC".into() },
        Belonging::HandedOver { to: kestrel() },
        Belonging::Left { squad: squad() },
        Belonging::Removed { name: kestrel() },
        guest(Some(140.0), Some("K7WQ2ABC")),
        guest(None, Some("K7WQ2ABC")),
        guest(Some(140.0), None),
        Belonging::Squads { names: vec![squad()], here: squad() },
        Belonging::Squads { names: vec![squad(), "Dawn".into()], here: squad() },
        Belonging::Taken { squad: squad() },
    ]
}

/// A guest's card with and without a guess at their pace.
fn guests() -> Vec<SquadRow> {
    let guess = Pace::new(140.0, Unit::Metre).unwrap();
    [None, Some(guess)]
        .map(|guess| SquadRow {
            guest: Some(Guest { guess }),
            ..row("robin", Trend::Unknown, vec![])
        })
        .into()
}

/// The texts to someone who is asked in.
pub fn invitations() -> Vec<Invitation> {
    let until = "2026-03-16T21:00:00Z".parse().unwrap();
    [
        (Role::Swimmer, None),
        (Role::Swimmer, Some("heron")),
        (Role::Coach, Some("kestrel")),
        (Role::Assistant, Some("kestrel")),
        (Role::Guardian, None),
        (Role::WelfareOfficer, None),
    ]
    .map(|(role, called)| Invitation { role, name: called.map(name), until })
    .into()
}

fn put_right(by: Option<&str>, was: Before) -> PutRight {
    PutRight { cause: 7, by: by.map(name), on: MONDAY, was }
}

/// All that can be open of someone.
pub fn troubles() -> Vec<Trouble> {
    let since = MONDAY;
    vec![
        Trouble::Pain { since, place: "shoulder".into(), level: Some(4) },
        Trouble::Pain { since, place: "knee".into(), level: None },
        Trouble::Ill { since, fever: false },
        Trouble::Ill { since, fever: true },
        Trouble::Mending { since, after: After::Away },
        Trouble::Mending { since, after: After::Ill { fever: true } },
        Trouble::Faint { since },
        Trouble::Held { since },
        Trouble::Asked { since, place: Some("groin".into()) },
        Trouble::Asked { since, place: None },
    ]
}

pub fn oks() -> Vec<OkReply> {
    let heron = || name("heron");
    let joined = |ask_readiness, questions| OkReply::Joined {
        name: heron(),
        squad: "Tuesday lanes".into(),
        ask_readiness,
        questions,
        minors: false,
        closed: false,
    };
    let mut all = vec![
        joined(true, true),
        joined(true, false),
        joined(false, false),
        OkReply::Joined {
            name: heron(),
            squad: "Tuesday lanes".into(),
            ask_readiness: false,
            questions: false,
            minors: true,
            closed: false,
        },
        OkReply::Joined {
            name: heron(),
            squad: "Tuesday lanes".into(),
            ask_readiness: true,
            questions: false,
            minors: true,
            closed: true,
        },
        OkReply::Profile(settings()),
        OkReply::Board {
            url: "https://squad.example.org/board/r7wptsfvxh7q34q6cuqjdh3e3r".into(),
            hours: 12,
        },
        undone(0..5),
        undone(5..9),
        undone(9..13),
        OkReply::Undone { what: vec![(Some(heron()), withdrawn().remove(0))] },
        OkReply::Undone { what: vec![(None, Withdrawn::Change)] },
        OkReply::Entered(entry_reply(None, EntryTime::Swum(trial(100, "1:05.3", MONDAY)))),
        OkReply::Entered(entry_reply(Some(heron()), EntryTime::Given(time("1:05")))),
        OkReply::Entered(entry_reply(
            Some(heron()),
            EntryTime::Converted { time: time("1:06.9"), from: trial(100, "1:05.3", MONDAY) },
        )),
        OkReply::Entered(entry_reply(Some(heron()), EntryTime::Predicted(time("1:07.2")))),
        OkReply::Entered(EntryReply { on: None, ..entry_reply(None, EntryTime::None) }),
        OkReply::Entered(EntryReply { scratched: true, ..entry_reply(None, EntryTime::None) }),
        OkReply::Leg { who: Some(name("teal")), leg: flying_leg() },
        OkReply::Leg { who: None, leg: flying_leg() },
        OkReply::Meet(a_meet(0)),
        OkReply::Meet(a_meet(8)),
        OkReply::Entries(vec![a_meet(2), MeetReply { on: None, ..a_meet(1) }]),
        OkReply::Entries(vec![]),
        OkReply::Begun(BegunReply {
            tests: vec![(None, trial(100, "1:04", MONDAY))],
            start: Start::Dive,
            targets: usual_targets(),
        }),
        OkReply::Begun(BegunReply {
            tests: vec![
                (Some(heron()), trial(100, "1:04", MONDAY)),
                (Some(name("teal")), trial(100, "1:14", MONDAY)),
            ],
            start: Start::Push,
            targets: vec![],
        }),
        OkReply::Begun(BegunReply {
            tests: vec![(Some(heron()), trial(100, "1:14", MONDAY))],
            start: Start::Water,
            targets: vec![],
        }),
        OkReply::Fixed { who: None, trial: trial(200, "3:12", MONDAY), before: time("3:21") },
        OkReply::Fixed {
            who: Some(name("heron")),
            trial: trial(200, "3:12", MONDAY),
            before: time("3:21"),
        },
        OkReply::Moved { to: heron() },
        OkReply::Timetable(vec![]),
        OkReply::Timetable(nights()),
        OkReply::Shut(shut_nights()),
        OkReply::ResultsSwapped {
            now: [
                (heron(), trial(200, "2:58", MONDAY)),
                (name("teal"), trial(200, "3:12", MONDAY)),
            ],
        },
        OkReply::Told { who: Some(heron()), number: 1, left_out: vec![] },
        OkReply::Told { who: None, number: 24, left_out: vec![] },
        OkReply::Told { who: None, number: 22, left_out: vec![heron(), heron()] },
        OkReply::Attend(attend(true, None)),
        OkReply::Attend(attend(false, None)),
        OkReply::Attend(AttendReply { who: Some(heron()), ..attend(true, Some(10)) }),
        OkReply::Attend(AttendReply { perhaps: true, ..attend(true, None) }),
        OkReply::Attend(AttendReply {
            leaves: Some(clock(19, 45, 0, 0)),
            lanes: Some(Box::new(lanes_changed()[0].clone())),
            ..attend(true, None)
        }),
        OkReply::LanesChanged(lanes_changed()[0].clone()),
        OkReply::LanesChanged(lanes_changed()[1].clone()),
        OkReply::LanesChanged(lanes_changed()[2].clone()),
        OkReply::LanesChanged(lanes_changed()[3].clone()),
        OkReply::SetFixed(Box::new(SetFixedReply {
            swum: SetReply { other: true, ..sets()[0].clone() },
            changes: vec![(3, Some(time("48")), Some(time("44"))), (8, None, Some(time("50")))],
        })),
        OkReply::HeatOf(heat_of()),
        OkReply::HeatOf(HeatOfReply {
            expected: None,
            counter: None,
            counts_for: None,
            ..heat_of()
        }),
        OkReply::NotTonight { who: None, on: MONDAY, done: false },
        OkReply::NotTonight { who: None, on: MONDAY, done: true },
        OkReply::NotTonight { who: Some(heron()), on: MONDAY, done: false },
        OkReply::NotTonight { who: Some(heron()), on: MONDAY, done: true },
        OkReply::SetChanged(changes()[0].clone()),
        OkReply::SetChanged(changes()[1].clone()),
        OkReply::SetChanged(changes()[2].clone()),
        OkReply::Register(register()),
        OkReply::Register(RegisterReply { listed: true, stopped: vec![heron()], ..register() }),
        OkReply::Register(RegisterReply { stopped: vec![heron(), name("teal")], ..register() }),
        OkReply::Register(RegisterReply { left_out: vec![name("plover")], ..register() }),
        OkReply::Register(RegisterReply { here: vec![], stopped: vec![], ..register() }),
        OkReply::Belonging(Belonging::Declined),
        OkReply::Missed { on: MONDAY },
        OkReply::Away { from: None, until: date(2026, 11, 20) },
        OkReply::Away { from: Some(date(2026, 11, 3)), until: date(2026, 11, 20) },
        OkReply::Remarked { of: None, text: "leaving at 19:45".into() },
        OkReply::Remarked { of: Some(heron()), text: "goal 3:00".into() },
        OkReply::Able {
            of: None,
            ability: Ability { unbroken: Some(metres(50)), most: Some(metres(1200)) },
        },
        OkReply::Able {
            of: Some(heron()),
            ability: Ability { unbroken: Some(metres(50)), most: None },
        },
        OkReply::Tired { of: None },
        OkReply::Tired { of: Some(heron()) },
        OkReply::NotKnown,
        OkReply::Better { from: None },
        OkReply::Better { from: Some(date(2026, 3, 5)) },
        OkReply::Swapped { days: vec![(MONDAY, false), (date(2026, 3, 5), true)] },
        OkReply::Race { on: date(2026, 12, 20), distance: metres(1500) },
        OkReply::Pinned { who: heron(), lane: Lane::new(2).ok() },
        OkReply::Pinned { who: heron(), lane: None },
        OkReply::TestNight(test_night()),
        OkReply::Weekly(WeeklyReply::Digest(Box::new(digest()))),
        OkReply::Weekly(WeeklyReply::Digest(Box::new(DigestReply {
            came: vec![],
            open: vec![],
            waiting: vec![],
            tests: vec![],
            improving: vec![],
            fading: vec![],
            silent: vec![],
            overdue: vec![],
            due_next: vec![],
            nights: vec![],
            ..digest()
        }))),
        OkReply::Weekly(WeeklyReply::Note(Box::new(weekly_note()))),
        OkReply::Weekly(WeeklyReply::Note(Box::new(NoteReply {
            who: Some(name("wren")),
            days: 1,
            metres: 0,
            tests: vec![],
            sets: vec![],
            focus: None,
            careful: true,
            test_due: false,
            next_night: None,
            ..weekly_note()
        }))),
        OkReply::OwnTargets(OwnTargetsReply {
            who: name("heron"),
            own: usual_targets(),
            tested: vec![],
        }),
        OkReply::OwnTargets(OwnTargetsReply {
            who: name("heron"),
            own: vec![],
            tested: usual_targets(),
        }),
        limits(Some("heron"), false, LIMITS.to_vec(), None),
        limits(None, false, LIMITS.to_vec(), None),
        limits(None, true, vec![Limit::Kit(Equipment::Paddles)], None),
        limits(Some("heron"), false, vec![], None),
        limits(None, false, vec![], None),
        limits(None, true, vec![], None),
        limits(None, false, vec![], Some(vec![Equipment::Fins, Equipment::Board])),
        digest_wish(true, true),
        digest_wish(false, true),
        digest_wish(false, false),
        note_wish(true),
        note_wish(false),
        OkReply::TestNight(TestNightReply {
            on: date(2026, 2, 26),
            heats: vec![],
            stopped: vec![],
            soon: vec![],
            easy: vec![],
            owed: vec![heron(), name("wren")],
            catch_up: Some(date(2026, 3, 5)),
            ..test_night()
        }),
        OkReply::Parted { names: vec![heron(), name("teal")], apart: true },
        OkReply::Parted { names: vec![heron(), name("teal")], apart: false },
        OkReply::NamesInRooms { shown: true },
        OkReply::NamesInRooms { shown: false },
        OkReply::Noted { who: heron() },
        OkReply::Held { who: heron() },
        OkReply::Released { who: heron(), on_word: false, cleared: false },
        OkReply::Released { who: heron(), on_word: false, cleared: true },
        OkReply::ReadinessAnswered { clear: true },
        OkReply::ReadinessAnswered { clear: false },
        OkReply::ContactKept,
        OkReply::Released { who: heron(), on_word: true, cleared: false },
        OkReply::ClearanceNoted { stopped: true },
        OkReply::ClearanceNoted { stopped: false },
        OkReply::More { lines: vec!["4x50 48".into()] },
        OkReply::Greeting,
        OkReply::Thanks,
        OkReply::Chat,
        OkReply::LeftAlone,
        OkReply::Forgotten,
        OkReply::OptedOut,
        OkReply::OptedIn,
        OkReply::Silent,
        OkReply::GivenToDeck,
        OkReply::Known(super::questions::known().remove(0)),
    ];
    all.extend(approvals().into_iter().map(OkReply::Approval));
    all.extend(care::done().into_iter().map(OkReply::Care));
    all.extend(offices::done().into_iter().map(OkReply::Office));
    all
}

fn nights() -> Vec<NightLine> {
    let tuesday = NightLine {
        when: When::Every(Weekday::Tuesday),
        starts: Some("20:00".into()),
        ends: Some("21:00".into()),
        lanes: Some(4),
        course: None,
        shut: false,
    };
    let on = date(2026, 3, 5);
    vec![
        tuesday.clone(),
        NightLine { lanes: Some(1), course: Some(Course::Long50m), ..tuesday.clone().at(on) },
        NightLine { starts: None, ends: None, lanes: None, ..tuesday },
        NightLine::shut(on),
    ]
}

fn shut_nights() -> Vec<ShutReply> {
    let on = date(2026, 3, 5);
    let to = date(2026, 3, 10);
    let bare = ShutReply { on, set: None, plans: 0, hard_plans: 0, next: None };
    let next = nights().into_iter().next().map(|night| night.at(to));
    let of = |set, plans, hard_plans| ShutReply { set, plans, hard_plans, ..bare.clone() };
    vec![
        bare.clone(),
        ShutReply { next, ..of(Some(SetFate::Moved { to, hard: true }), 2, 1) },
        of(Some(SetFate::Moved { to, hard: false }), 1, 0),
        of(Some(SetFate::LeftOut { hard: true }), 0, 0),
        of(Some(SetFate::LeftOut { hard: false }), 0, 0),
    ]
}

fn attend(coming: bool, late_min: Option<u16>) -> AttendReply {
    AttendReply {
        who: None,
        on: MONDAY,
        coming,
        late_min,
        perhaps: false,
        leaves: None,
        lanes: None,
    }
}

fn night() -> NightReply {
    NightReply {
        on: MONDAY,
        coming: vec![(name("heron"), None), (name("teal"), Some(10))],
        perhaps: vec![name("swift")],
        out: vec![name("wren")],
        unsaid: vec![name("dunnock")],
    }
}

/// Two lanes as drawn first, then with all that there may be to say of them.
pub fn lanes() -> Vec<LanesReply> {
    let at = |handle: &str, pace: Option<f64>, guessed: bool| {
        let pace = pace.map(|seconds| Pace::new(seconds, Unit::Metre).unwrap());
        let known_pace = match pace {
            None => KnownPace::Unknown,
            Some(pace) if guessed => KnownPace::Guessed(pace),
            Some(pace) => KnownPace::Tested(pace),
        };
        Entrant { name: handle.to_owned(), known_pace }
    };
    let repeat = |count, distance| LaneRepeat {
        count,
        distance: metres(distance),
        level: Level::Threshold,
        send_off: None,
    };
    let lane = |number| Lane::new(number).unwrap();
    let mut evening = Evening {
        swimmers: vec![
            at("heron", Some(104.0), false),
            at("teal", Some(101.5), false),
            at("wren", Some(125.0), false),
        ],
        lanes: lane(3),
        capacity: 8,
        gap: Gap::Five,
        course: Course::Short25m,
        set: vec![repeat(1, 50), repeat(1, 100)],
        pins: std::collections::BTreeMap::from([
            ("teal".to_owned(), lane(1)),
            ("heron".to_owned(), lane(1)),
        ]),
        apart: vec![],
        stretch_s: 0,
    };
    let plain = LanesReply {
        on: MONDAY,
        lanes: draw(&evening).unwrap().lanes,
        moved: vec![],
        relaxed: vec![],
        advice: None,
        stopped: vec![],
        done: vec![],
        careful: vec![],
        focus: vec![],
    };
    evening.swimmers.extend([at("dunlin", Some(130.0), true), at("robin", None, false)]);
    evening.set = vec![repeat(8, 50)];
    evening.gap = Gap::Ten;
    evening.pins.insert("wren".to_owned(), lane(3));
    evening.stretch_s = 15;
    let moved =
        |handle: &str, from, to| Moved { name: handle.to_owned(), from: lane(from), to: lane(to) };
    let full = LanesReply {
        lanes: draw(&evening).unwrap().lanes,
        moved: vec![moved("heron", 2, 1), moved("wren", 3, 2), moved("dunlin", 3, 2)],
        relaxed: vec![Shortfall::Room { stretch_s: 15 }],
        stopped: vec![name("siskin")],
        done: vec![name("knot")],
        careful: vec![name("wren"), name("dunlin")],
        focus: vec![(name("wren"), "exhale before turning your head".to_owned())],
        ..plain.clone()
    };
    let pair = |one: &str, other: &str| (one.to_owned(), other.to_owned());
    let gave_way = vec![
        Shortfall::NoLane { name: "heron".to_owned(), lane: lane(4) },
        Shortfall::TooMany { present: 27, capacity: 9 },
        Shortfall::LaneFull { lane: lane(2), pinned: 9 },
        Shortfall::Apart { give_up: vec![pair("heron", "teal"), pair("teal", "wren")] },
        Shortfall::Lapped { longest: metres(300), stretch_s: 0 },
    ];
    let advice = OneMove { name: "wren".to_owned(), from: lane(2), to: lane(3), mends: false };
    vec![
        plain.clone(),
        full,
        LanesReply { advice: Some(advice), careful: vec![name("teal")], ..plain.clone() },
        LanesReply {
            relaxed: gave_way,
            stopped: vec![name("siskin"), name("dunnock")],
            done: vec![name("knot"), name("ruff")],
            ..plain
        },
    ]
}

fn register() -> RegisterReply {
    RegisterReply {
        on: MONDAY,
        here: vec![name("heron"), name("teal")],
        absent: vec![name("wren")],
        unmarked: vec![name("siskin"), name("dunnock")],
        stopped: vec![],
        left_out: vec![],
        listed: false,
        lanes: None,
    }
}

pub fn settings() -> Vec<Set> {
    let mut all: Vec<Set> = Course::ALL.map(Set::Course).to_vec();
    let days: Weekdays = [
        Weekday::Monday,
        Weekday::Tuesday,
        Weekday::Wednesday,
        Weekday::Thursday,
        Weekday::Friday,
        Weekday::Saturday,
        Weekday::Sunday,
    ]
    .into_iter()
    .collect();
    all.extend([
        Set::Days(days),
        Set::Sessions(3),
        Set::Minutes(45),
        Set::Born(1981),
        Set::Language(Language::English),
        Set::Language(Language::Spanish),
        Set::Units(Unit::Metre),
        Set::Units(Unit::Yard),
    ]);
    all
}

fn undone(which: std::ops::Range<usize>) -> OkReply {
    OkReply::Undone { what: withdrawn()[which].iter().map(|one| (None, one.clone())).collect() }
}

pub fn withdrawn() -> Vec<Withdrawn> {
    vec![
        Withdrawn::Test(trial(200, "3:12", MONDAY)),
        Withdrawn::Set(repeat(8, 50, Level::Hard)),
        Withdrawn::Session(MONDAY),
        Withdrawn::Register(MONDAY),
        Withdrawn::SquadSet(MONDAY),
        Withdrawn::SetChange(MONDAY),
        Withdrawn::Lanes(MONDAY),
        Withdrawn::Shut(MONDAY),
        Withdrawn::Night(MONDAY),
        Withdrawn::Timetable,
        Withdrawn::Digest,
        Withdrawn::Note,
        Withdrawn::PutRight(trial(200, "3:12", MONDAY)),
        Withdrawn::SetPutRight(repeat(8, 50, Level::Hard)),
        Withdrawn::Change,
    ]
}

pub fn questions() -> Vec<QuestionReply> {
    let whose = |names: &[&str]| {
        let set = || Withdrawn::Set(repeat(8, 50, Level::Hard));
        names.iter().map(|one| (Some(name(one)), set())).collect()
    };
    let ask = |asks, options: &[&str]| QuestionReply {
        asks,
        options: options.iter().map(|option| (*option).to_owned()).collect(),
        until: "2026-03-02T21:00:00Z".parse().unwrap(),
    };
    let yes_no = ["yes", "no"];
    let (distance, one) = (metres(200), time("1:21"));
    let (new, old) = (trial(400, "6:10", MONDAY), trial(200, "3:12", MONDAY));
    let mut all: Vec<QuestionReply> = doubts()
        .into_iter()
        .map(|doubt| {
            let options: &[&str] = match doubt {
                Doubt::Spelling { .. } => &yes_no,
                Doubt::Mile => &["1500m", "1650yd"],
                Doubt::TimesCount { .. } => &["7", "x"],
                Doubt::TestOrSession => &["test", "done"],
                _ => &[],
            };
            ask(Asks::Doubt(doubt), options)
        })
        .collect();
    all.extend([
        ask(Asks::Implausible { distance, time: one }, &yes_no),
        ask(Asks::Impossible { distance, time: one }, &[]),
        ask(Asks::AnyDanger, &yes_no),
        ask(Asks::TwoReadings { distance, one, other: time("3.12") }, &["1:21", "3.12"]),
        ask(Asks::ImpossiblePair { new, old }, &yes_no),
        ask(Asks::TellAll { text: "pool shut on thursday".into(), number: 24 }, &yes_no),
        ask(
            Asks::Of {
                who: name("heron"),
                asks: Box::new(Asks::Implausible { distance, time: time("1:58") }),
            },
            &yes_no,
        ),
        ask(Asks::WhoIs { name: name("herom") }, &["heron"]),
        ask(Asks::WhoIs { name: name("te") }, &["teal", "wren", "heron"]),
        ask(Asks::WhoIs { name: name("nobody") }, &[]),
        ask(Asks::WhoElse { name: name("herom") }, &["heron"]),
        ask(Asks::WhoElse { name: name("nobody") }, &[]),
        ask(Asks::Readiness { question: 1 }, &yes_no),
        ask(Asks::Readiness { question: 2 }, &yes_no),
        ask(Asks::Readiness { question: 3 }, &yes_no),
        ask(Asks::Forget, &yes_no),
        ask(Asks::NoTexts { away_until: None }, &yes_no),
        ask(Asks::NoTexts { away_until: Some(date(2026, 3, 16)) }, &yes_no),
        ask(Asks::Leave { squad: "Dusk".into() }, &yes_no),
        ask(Asks::Remove { name: name("kestrel") }, &yes_no),
        ask(Asks::TakeBack { what: whose(&["heron", "teal"]), singly: true }, &yes_no),
        ask(
            Asks::TakeBack {
                what: whose(&["heron", "teal", "wren", "siskin", "dunnock"]),
                singly: true,
            },
            &yes_no,
        ),
        ask(Asks::TakeBack { what: whose(&["heron"]), singly: false }, &yes_no),
        ask(Asks::AnotherPerson { name: name("teal") }, &yes_no),
        ask(Asks::WhichPerson, &["heron", "teal"]),
        ask(Asks::SayWho { names: vec![name("heron"), name("teal")] }, &[]),
        ask(Asks::WhichSquad, &["Dusk", "Dawn"]),
        ask(Asks::PassOn, &yes_no),
    ]);
    all
}

pub fn doubts() -> Vec<Doubt> {
    vec![
        Doubt::Spelling { typed: "téstó".into(), meant: "test".into() },
        Doubt::Mile,
        Doubt::Splits { sum: time("6:41"), time: time("6:50") },
        Doubt::TimesCount { given: 7, repeats: 8 },
        Doubt::Figure { typed: "45".into() },
        Doubt::TestOrSession,
        Doubt::Digits { typed: "٣:١٢".into() },
        Doubt::Meant { says: vec![Statement { who: None, kind: Kind::Better }] },
        Doubt::Either {
            first: vec![Statement { who: None, kind: Kind::Better }],
            second: vec![Statement { who: None, kind: Kind::Missed { on: None } }],
        },
        Doubt::Missing { wants: Wants::Distance },
    ]
}

pub fn refusals() -> Vec<RefusedReply> {
    let coaching = [
        RefusalReason::Stopped,
        RefusalReason::TooShort { least_minutes: 15 },
        RefusalReason::NotHarder,
        RefusalReason::NotPlanned,
    ]
    .map(RefusedWhy::Coaching);
    let others = [
        RefusedWhy::CoachOnly,
        RefusedWhy::OthersSwims,
        RefusedWhy::NotAMember,
        RefusedWhy::NotASwimmer,
        RefusedWhy::BadCode,
        RefusedWhy::NameTaken,
        RefusedWhy::AlreadyIn,
        RefusedWhy::SquadFull,
        RefusedWhy::ManyAskedIn,
        RefusedWhy::LastCoach,
        RefusedWhy::NotOnDeck { name: name("heron") },
        RefusedWhy::Future { on: date(2026, 12, 20) },
        RefusedWhy::NoNight { on: date(2026, 3, 5) },
        RefusedWhy::NightShut { on: date(2026, 3, 5), next: None },
        RefusedWhy::NightShut { on: date(2026, 3, 5), next: nights().into_iter().nth(1) },
        RefusedWhy::Unlikely { distance: metres(200), time: time("0:31") },
        RefusedWhy::NoSet,
        RefusedWhy::NoSetYet,
        RefusedWhy::NoBoard,
        RefusedWhy::NoLane { lane: 4 },
        RefusedWhy::LaneOrder { lane: 2, names: vec![name("heron"), name("teal"), name("wren")] },
        RefusedWhy::NoMainSet,
        RefusedWhy::NothingOfPart { part: Part::SwimDown },
        RefusedWhy::NamesOfMinors,
        RefusedWhy::NoRounds,
        RefusedWhy::NotLaned { name: name("heron") },
        RefusedWhy::LaneCount,
        RefusedWhy::NobodyThere,
        RefusedWhy::NobodyToTest,
        RefusedWhy::Nothing,
        RefusedWhy::NoTest,
        RefusedWhy::NoQuestion,
        RefusedWhy::Distance,
        RefusedWhy::NotYet,
        RefusedWhy::CoachLimit,
        RefusedWhy::SquadLimit { limits: LIMITS[..2].to_vec() },
        RefusedWhy::LimitsFree,
        RefusedWhy::SetNames { name: name("heron") },
        RefusedWhy::Weekly(WeeklyRefusal::Minor),
        RefusedWhy::Weekly(WeeklyRefusal::TheirsToSay),
        RefusedWhy::Weekly(WeeklyRefusal::QuietHours),
        RefusedWhy::Approval(ApprovalRefusal::NothingWaits { who: name("heron") }),
        RefusedWhy::Approval(ApprovalRefusal::AfterYes),
        RefusedWhy::Private,
        RefusedWhy::HealthOtherwise,
        RefusedWhy::NobodyReads,
    ];
    coaching
        .into_iter()
        .chain(others)
        .chain(care::refusals().into_iter().map(RefusedWhy::Care))
        .chain(offices::refusals().into_iter().map(RefusedWhy::Office))
        .map(|why| RefusedReply { rule: "sample".into(), why })
        .collect()
}

pub fn unread() -> Vec<NotUnderstoodReply> {
    let reply = |understood: &[&str], rest| NotUnderstoodReply {
        understood: understood.iter().map(|one| (*one).to_owned()).collect(),
        rest,
        example: "200 test 3:12".into(),
    };
    vec![
        reply(&[], Unread::Empty),
        reply(&[], Unread::TooLong),
        reply(&[], Unread::NotText),
        reply(&[], Unread::Unsaid),
        reply(&[], Unread::Words("blorp 🏊 and a tale that goes on for longer than forty".into())),
        reply(&[], Unread::Prose { words: "my goggles are full of ghosts".into(), call: None }),
        reply(&[], Unread::Prose { words: "the moon is wet".into(), call: Some("999".into()) }),
        reply(&["8x50"], Unread::Words("blorp".into())),
        reply(&["8x50", "1500"], Unread::Words("blorp".into())),
    ]
}

pub fn helps() -> Vec<HelpReply> {
    let mut all = vec![
        HelpReply::Swimmer,
        HelpReply::Coach,
        HelpReply::Room,
        HelpReply::Stranger,
        HelpReply::OptedOut,
    ];
    all.extend(Topic::VARIANTS.iter().copied().map(HelpReply::Topic));
    all.extend([HelpReply::Us, HelpReply::Data]);
    all.extend(super::answers::meanings());
    all
}

/// Everything that can be explained, with every rule.
pub fn why() -> HelpReply {
    let without = vec![Limit::Kit(Equipment::Fins), Limit::BreastKick];
    HelpReply::Why {
        main: None,
        of_change: false,
        explanations: explanations(),
        rules: rules().to_vec(),
        without,
    }
}

/// Every kind of pace that a main set can be swum at, explained.
pub fn why_main() -> Vec<HelpReply> {
    let critical = Pace::new(98.0, Unit::Metre).unwrap();
    let test = trial(200, "3:12", MONDAY);
    let from = [
        (PaceFrom::Coach, None),
        (PaceFrom::CriticalSpeed { percent: 97.6, critical }, None),
        (PaceFrom::Race { distance: metres(1500), time: time("24:30") }, None),
        (PaceFrom::Race { distance: metres(100), time: time("1:06") }, None),
        (PaceFrom::Test(test), None),
        (PaceFrom::Test(test), Some((trial(200, "3:11", MONDAY), Start::Dive))),
    ];
    let set = repeat(6, 50, Level::Sprint);
    let why = |(from, as_swum)| HelpReply::Why {
        main: Some(Box::new(WhyMain { set: set.clone(), from, as_swum })),
        of_change: true,
        explanations: vec![],
        rules: vec![],
        without: vec![],
    };
    from.map(why).into()
}

/// Every explanation that a reply can be asked for, by every basis.
fn explanations() -> Vec<Explanation> {
    let faded = [Some(time("48")), None];
    let target = usual_targets()[0];
    let mut all = vec![
        why::even_pace(metres(200), time("3:12"), &target),
        why::set(time("48"), &analyse(time("48"), &faded)),
        why::prediction(&predictions()[0].prediction),
    ];
    all.extend(
        [Basis::OneTest, Basis::Curve]
            .iter()
            .flat_map(|basis| why::critical_speed(&critical(*basis))),
    );
    all
}

/// What coaches are told unasked.
pub fn alerts() -> Vec<Alert> {
    let of = |who: Option<&str>, kind| Alert { who: who.map(name), by: None, contact: None, kind };
    let pain = |again| CautionKind::Pain { place: "shoulder".into(), level: Some(7), again };
    let unsaid = CautionKind::Pain { place: "knee".into(), level: None, again: true };
    let mut all = vec![
        of(Some("heron"), unsaid),
        of(Some("heron"), pain(false)),
        of(Some("heron"), pain(true)),
        of(None, danger(Danger::Dizzy)),
        Alert { by: Some(name("teal")), ..of(None, danger(Danger::Unspecific)) },
        Alert { contact: Some("+1 555 0123".into()), ..of(Some("heron"), danger(Danger::Heart)) },
        Alert { by: Some(name("teal")), ..of(Some("heron"), danger(Danger::Head)) },
    ];
    all.extend(Danger::ALL.map(|one| of(Some("heron"), danger(one))));
    all
}

fn digest() -> DigestReply {
    DigestReply {
        squad: "Tuesday lanes".into(),
        from: date(2026, 2, 23),
        to: date(2026, 3, 1),
        came: vec![(name("teal"), 3), (name("heron"), 1)],
        open: vec![(name("wren"), troubles())],
        waiting: waiting(),
        tests: vec![
            (name("teal"), trial(200, "3:12", MONDAY), Trend::Up),
            (name("heron"), trial(400, "6:50", MONDAY), Trend::Unknown),
        ],
        improving: vec![name("siskin")],
        fading: vec![name("plover")],
        silent: vec![name("curlew")],
        overdue: vec![name("snipe"), name("avocet")],
        due_next: vec![name("dunnock")],
        nights: vec![(date(2026, 3, 3), None), (date(2026, 3, 5), Some(metres(400)))],
    }
}

fn weekly_note() -> NoteReply {
    NoteReply {
        who: None,
        from: date(2026, 2, 23),
        to: date(2026, 3, 1),
        days: 3,
        metres: 5400,
        tests: vec![(trial(200, "3:12", MONDAY), Trend::Up)],
        sets: vec![(repeat_of_note(), 6)],
        focus: Some("exhale before turning your head".into()),
        careful: false,
        test_due: true,
        next_night: Some((date(2026, 3, 3), Some(clock(20, 0, 0, 0)))),
    }
}

fn repeat_of_note() -> lapwing::session::Repeat {
    super::parts::repeat(8, 50, Level::Hard)
}

const LIMITS: [Limit; 5] = [
    Limit::Kit(Equipment::Paddles),
    Limit::Stroke(Stroke::Fly),
    Limit::BreastKick,
    Limit::Dives,
    Limit::TumbleTurns,
];

fn limits(
    who: Option<&str>,
    all: bool,
    limits: Vec<Limit>,
    kit: Option<Vec<Equipment>>,
) -> OkReply {
    let set_changed = all.then_some(date(2026, 3, 5));
    OkReply::Limits(LimitsReply { who: who.map(name), all, limits, kit, set_changed })
}

fn digest_wish(wanted: bool, counts: bool) -> OkReply {
    let (day, at) = (Weekday::Sunday, clock(18, 0, 0, 0));
    OkReply::Weekly(WeeklyReply::DigestWish { wanted, counts, day, at })
}

fn note_wish(wanted: bool) -> OkReply {
    let (day, at) = (Weekday::Sunday, clock(18, 0, 0, 0));
    OkReply::Weekly(WeeklyReply::NoteWish { wanted, day, at })
}

fn heat_of() -> HeatOfReply {
    HeatOfReply {
        on: date(2026, 3, 5),
        distance: metres(400),
        heat: 1,
        of: 3,
        lane: Lane::new(2).unwrap(),
        expected: Some(time("6:10")),
        counter: Some("wren".into()),
        counts_for: Some((2, "teal".into())),
    }
}

fn test_night() -> TestNightReply {
    let birds =
        ["heron", "teal", "wren", "robin", "plover", "dunlin", "siskin", "snipe", "dunnock"];
    let entrants = birds.iter().zip(1..).map(|(bird, place)| test_night::Entrant {
        name: (*bird).to_owned(),
        expected: (place < 9).then(|| Centis::from_whole_seconds(340 + 12 * place).unwrap()),
    });
    let distance = metres(400);
    TestNightReply {
        on: date(2026, 3, 5),
        distance,
        heats: test_night::heats(entrants.collect(), Lane::new(4).unwrap(), distance),
        stopped: vec![name("swift")],
        soon: vec![(1, name("dipper")), (3, name("siskin")), (3, name("teal"))],
        easy: vec![name("grebe"), name("coot")],
        owed: vec![],
        catch_up: None,
    }
}

fn entry_reply(who: Option<Name>, time: EntryTime) -> EntryReply {
    let line = EntryLine { who, distance: metres(100), stroke: Stroke::Free, time };
    EntryReply { on: Some(date(2026, 12, 20)), course: Course::Long50m, line, scratched: false }
}

fn flying_leg() -> FlyingLeg {
    FlyingLeg {
        distance: metres(50),
        stroke: Stroke::Free,
        course: Course::Short25m,
        time: time("29.8"),
        leg: 2,
    }
}

fn a_meet(entries: usize) -> MeetReply {
    let birds = ["heron", "teal", "wren", "siskin", "dunnock", "plover", "curlew", "snipe"];
    let times =
        [EntryTime::Given(time("1:05")), EntryTime::Predicted(time("1:07.25")), EntryTime::None];
    let line = |(bird, time): (&&str, &EntryTime)| EntryLine {
        who: Some(name(bird)),
        distance: metres(100),
        stroke: Stroke::Free,
        time: *time,
    };
    MeetReply {
        on: Some(date(2026, 12, 20)),
        course: Course::Short25m,
        lines: birds.iter().zip(times.iter().cycle()).take(entries).map(line).collect(),
    }
}
