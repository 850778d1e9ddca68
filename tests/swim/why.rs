//! Every explanation, as it stands, beside the number it explains.

use lapwing::swim::critical_speed::estimate;
use lapwing::swim::prediction::predict;
use lapwing::swim::set::analyse;
use lapwing::swim::{even_pace, why};
use lapwing::units::{Course, Start, Stroke};

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
    let set = analyse(time("48"), &times("48 48 48 48 49 49 50 50"));
    let race = predict(&[test, longer], today, free, pool, metres("1500")).unwrap();
    let far = predict(&[test], today, free, pool, metres("1500")).unwrap();
    let all = [
        why::even_pace(test.distance, test.time, &piece),
        why::even_pace(metres("100"), time("1:04"), &dived),
        why::critical_speed(&one).unwrap(),
        why::critical_speed(&two).unwrap(),
        why::set(time("48"), &set),
        why::prediction(&race),
        why::prediction(&far),
    ];
    let text: Vec<String> = all.iter().map(ToString::to_string).collect();
    insta::assert_snapshot!(text.join("\n\n"));
    assert_eq!(why::critical_speed(&estimate(&[], today, free, pool)), None);
}
