//! Three sessions that a good coach would set, typed in trade notation.
//!
//! Common practice, no source: sessions, send-offs and the times of their parts
//! as coaches write them. The swimming and resting agree to the second. Where
//! the yardstick counts three or four changes of a minute, we count one for
//! every change of block, and half a minute more where the kit changes, which
//! is our rule for all sessions; its 30 s between three rounds we count behind
//! each of them.

use serde_json::Value;

use crate::squad::{CODE, Talk};

struct Session {
    test: &'static str,
    typed: &'static str,
    amount: u64,
    /// Swimming and resting, in seconds.
    swum_s: u64,
    /// As printed, with the changes as the yardstick counts them.
    printed_s: u64,
    /// The difference that our way of counting makes.
    counted_otherwise_s: u64,
}

const fn clock(minutes: u64, seconds: u64) -> u64 {
    minutes * 60 + seconds
}

const SESSIONS: [Session; 3] = [
    Session {
        test: "400 test 9:20",
        typed: "warm up 4x50 easy on 1:50, drills 4x25 drill fins on 1:15, 4x25 drill on 1:00, \
                build set 4x25 build on :55, main 2x(3x50 hold 1:10 on 1:35, 50 easy on 2:15), \
                2x50 hold 1:20 on 1:40, swim down 100 easy on 3:00",
        amount: 1100,
        swum_s: clock(40, 20),
        printed_s: clock(43, 20),
        // Five changes for three, two of them with fins.
        counted_otherwise_s: 2 * 60 + 2 * 30,
    },
    Session {
        test: "400 test 6:10",
        typed: "warm up 200 easy on 4:20, 100 back easy on 2:10, drills 4x50 drill fins on 1:20, \
                build set 4x50 build on 1:05, main 3x(4x100 hold 1:39 on 1:55) rest 30, \
                3x100 pull buoy hold 1:46 on 2:00, 4x25 on :45, swim down 200 easy on 4:30",
        amount: 2500,
        // The rest behind the last round.
        swum_s: clock(53, 40) + 30,
        printed_s: clock(57, 40),
        // Five for four; fins on and off, buoy on and off.
        counted_otherwise_s: 30 + 60 + 4 * 30,
    },
    Session {
        test: "100 test 1:04 dive",
        typed: "warm up 200 easy on 4:30, 100 kick on 2:30, 100 drill easy on 2:00, \
                drills 4x50 drill on 1:20, build set 4x25 build on :50, \
                main 2x(6x25 hold 16.5 on 1:00, 50 hold 33 on 3:00, 150 easy on 4:00), \
                6x25 kick on :50, swim down 200 easy on 4:30",
        amount: 1750,
        swum_s: clock(53, 10),
        printed_s: clock(57, 10),
        // Five for four.
        counted_otherwise_s: 60,
    },
];

fn number(value: &Value, field: &str) -> u64 {
    value[field].as_u64().unwrap()
}

#[test]
fn durations_of_the_yardstick() {
    for session in SESSIONS {
        let mut talk = Talk::opened(true, false);
        talk.hears("heron", &format!("join {CODE} heron"));
        talk.hears("heron", session.test);
        let heard = talk.hears("coach", session.typed);
        let result = heard.result;
        assert_eq!(result["kind"], "session", "{}: {}", session.typed, heard.text);
        assert_eq!(number(&result, "distance"), session.amount, "{}", session.typed);
        let (all, changes) = (number(&result, "duration_s"), number(&result, "change_over_s"));
        assert_eq!(all - changes, session.swum_s, "{}", session.typed);
        assert_eq!(all, session.printed_s + session.counted_otherwise_s, "{}", session.typed);
        // What they wrote stands: nobody's send-off had to be longer.
        assert!(!heard.text.contains("needs"), "{}", heard.text);
    }
}
