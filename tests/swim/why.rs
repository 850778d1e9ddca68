//! Every explanation, as it stands, beside the number it explains.

use lapwing::swim::conversion::{Method, convert};
use lapwing::swim::critical_speed::estimate;
use lapwing::swim::levels::Band;
use lapwing::swim::load::{Load, Week, balance};
use lapwing::swim::next_test::next_test;
use lapwing::swim::points::{BaseTimes, Event};
use lapwing::swim::prediction::predict;
use lapwing::swim::real_change::Change;
use lapwing::swim::set::analyse;
use lapwing::swim::splits::pacing;
use lapwing::swim::stroke_efficiency::StrokeEfficiency;
use lapwing::swim::{Category, even_pace, why};
use lapwing::units::{Course, Level, Rpe, Start, Stroke};

use crate::support::{day, metres, time, times, trial};

#[test]
fn explanations() {
    let (today, free, pool) = (day("2026-03-02"), Stroke::Free, Course::Short25m);
    let test = trial("200", "3:12", "2026-03-02");
    let longer = trial("400", "6:44", "2026-02-16");
    let one = estimate(&[test], today, free, pool);
    let two = estimate(&[test, longer], today, free, pool);
    let piece = even_pace::target(test.distance, test.time, metres("50"), Start::Push).unwrap();
    let dived = even_pace::target(metres("100"), time("1:04"), metres("25"), Start::Dive).unwrap();
    let threshold = Band::of(Level::Threshold);
    let set = analyse(time("48"), &times("48 48 48 48 49 49 50 50"));
    let splits: Vec<_> = times("1:10 1:16 1:18 1:16").into_iter().flatten().collect();
    let older = trial("200", "3:20", "2026-01-05");
    let race = predict(&[test, longer], today, free, pool, metres("1500")).unwrap();
    let far = predict(&[test], today, free, pool, metres("1500")).unwrap();
    let yards = "100yd".parse().unwrap();
    let converted =
        convert(yards, time("50"), free, Course::Short25yd, Course::Long50m, Method::TurnRule)
            .unwrap();
    let swum = Load::of(Rpe::from_tenths(50).unwrap(), time("1:00:00"));
    let week = [swum, Load::REST, swum, Load::REST, swum, Load::REST, Load::REST];
    let table = BaseTimes::shipped();
    let event =
        Event { category: Category::Men, course: Course::Long50m, stroke: free, amount: 50 };
    let base = table.base(event).unwrap();
    let scored = table.points(event, time("25.5")).unwrap();
    let counted = StrokeEfficiency::of(metres("50"), time("48"), 40).unwrap();
    let all = [
        why::even_pace(test.distance, test.time, &piece),
        why::even_pace(metres("100"), time("1:04"), &dived),
        why::critical_speed(&one).unwrap(),
        why::critical_speed(&two).unwrap(),
        why::level(&threshold, one.pace().unwrap(), metres("100")).unwrap(),
        why::next_test(&next_test(&[test], today, free, pool).unwrap()),
        why::set(time("48"), &set),
        why::pacing(&pacing(&splits).unwrap()),
        why::change(&older, &test, &Change::between(&older, &test).unwrap()),
        why::prediction(&race),
        why::prediction(&far),
        why::conversion(yards, time("50"), Course::Short25yd, Course::Long50m, &converted),
        why::week(&Week::of(week)),
        why::week(&Week::of([swum; 7])),
        why::balance(&balance(&[swum; 30]).unwrap()),
        why::points(table, base, time("25.5"), scored),
        why::stroke_efficiency(metres("50"), time("48"), 40, &counted),
    ];
    let text: Vec<String> = all.iter().map(ToString::to_string).collect();
    insta::assert_snapshot!(text.join("\n\n"));
    assert_eq!(why::critical_speed(&estimate(&[], today, free, pool)), None);
}
