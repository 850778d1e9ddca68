//! Worked sessions and weeks, printed for a coach's eye.

use lapwing::coaching::{SessionWish, WeekWish, next_session, week};

use crate::swimmers::*;

#[test]
fn print_some() {
    let returner = {
        let mut facts = heron();
        facts.minutes = 45;
        facts.sessions_a_week = 2;
        facts.tests.push(free_test(400, "9:20", MONDAY.yesterday().unwrap()));
        facts
    };
    let triathlete = {
        let mut facts = seasoned(heron(), 2400);
        facts.tests.push(free_test(400, "6:10", MONDAY.yesterday().unwrap()));
        facts
    };
    let sprinter = {
        let mut facts = seasoned(heron(), 1800);
        facts.tests.push(free_test(100, "1:04", MONDAY.yesterday().unwrap()));
        facts
    };
    for facts in [&returner, &triathlete, &sprinter, &heron()] {
        println!("{}", show(&next_session(facts, &SessionWish::default()).unwrap()));
        let planned = week(facts, &WeekWish::default()).unwrap();
        println!("WEEK {:?} {} {:?}", planned.kind, planned.distance(), planned.rules);
        for session in &planned.sessions {
            print!("{}", show(session));
        }
        println!("=====");
    }
}
