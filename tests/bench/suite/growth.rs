//! What grows with a squad and with a text, at sizes that show how: without sockets and
//! disk, on one thread, each asked for some times and the middle one taken. For looking
//! closely, one column and one size of it, so many times:
//!
//! ```text
//! valgrind --tool=callgrind target/release/deps/suite-… growth prose 4090 20
//! valgrind --tool=callgrind target/release/deps/suite-… growth lanes 1000 5
//! ```

use std::sync::Arc;
use std::time::{Duration, Instant};

use jiff::Timestamp;
use lapwing::clock::{ClockMode, WallClock};
use lapwing::service::{Body, Incoming, NewSquad, Service};

use super::nothing::Nothing;

/// How often each is asked for.
const TIMES: usize = 9;
const SQUADS: [usize; 3] = [30, 300, 1_000];
const TEXTS: [usize; 4] = [300, 512, 2_048, 4_090];
const LANES: &str = "\"kind\":\"lanes\"";
/// What the coach puts.
const SET: &str = "set 200 easy on 5:00, 3x(4x50 hold 400 pace on 1:30, 50 easy on 1:45), 200 easy";

/// A squad of so many, each with a history, on an evening of theirs.
struct Evening {
    service: Arc<Service>,
    at: Timestamp,
}

/// Both tables, or what one column of one of them costs at one size.
pub fn growth(words: &[String]) {
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().unwrap();
    runtime.block_on(async {
        let [column, size, times] = words else {
            squads().await;
            texts().await;
            return;
        };
        let (size, times) = (size.parse().unwrap(), times.parse().unwrap());
        println!("{column} {size}: {:.3} ms", closely(column, size, times).await);
    });
}

/// The mean of so many.
async fn closely(column: &str, size: usize, times: usize) -> f64 {
    let kind = TEXT_KINDS.iter().find(|(name, _)| *name == column);
    let evening = Evening::of(if kind.is_some() { 30 } else { size }).await;
    let token = evening.token().await;
    let begun = Instant::now();
    for count in 0..times {
        match (kind, column) {
            (Some((_, text)), _) => drop(evening.say("swimmer3", &text(size)).await),
            (None, "lanes") => {
                drop(evening.say("coach", &format!("lanes {}", 5 + count % 2)).await)
            }
            (None, "page") => drop(evening.service.board(&token).await.unwrap()),
            (None, text) => drop(evening.say("coach", text).await),
        }
    }
    begun.elapsed().as_secs_f64() * 1e3 / times as f64
}

/// A column of the table of texts: its name, and a text of so many bytes.
type TextKind = (&'static str, fn(usize) -> String);

const TEXT_KINDS: [TextKind; 6] = [
    ("notation", notation),
    ("prose", prose),
    ("lines", lines),
    ("word", word),
    ("times", times),
    ("commas", commas),
];

async fn squads() {
    println!(
        "| squad of | `lanes 6` ms | `lanes 5` with a set ms | the page's data ms | `set` ms | `squad` ms | `done` µs |"
    );
    println!("| --- | --- | --- | --- | --- | --- | --- |");
    for size in SQUADS {
        let evening = Evening::of(size).await;
        let token = evening.token().await;
        let mut lanes = Vec::new();
        for count in 0..TIMES {
            lanes.push(evening.timed("coach", &format!("lanes {}", 5 + count % 2), LANES).await);
        }
        let mut set = Vec::new();
        for _ in 0..3 {
            set.push(evening.timed("coach", SET, "\"lane\"").await);
        }
        let mut with_set = Vec::new();
        for count in 0..TIMES {
            with_set.push(evening.timed("coach", &format!("lanes {}", 5 + count % 2), LANES).await);
        }
        let mut boards = Vec::new();
        for _ in 0..TIMES {
            let begun = Instant::now();
            let board = evening.service.board(&token).await.unwrap().unwrap();
            boards.push(begun.elapsed());
            assert_eq!(board.tested.len(), size);
        }
        let mut squad = Vec::new();
        for _ in 0..TIMES {
            squad.push(evening.timed("coach", "squad", "\"squad\"").await);
        }
        let mut done = Vec::new();
        for number in 0..99 {
            let text = format!("done {} 50min rpe 5", 1_000 + number * 25);
            done.push(
                evening.timed(&format!("swimmer{}", number % size), &text, "\"stores\":true").await,
            );
        }
        println!(
            "| {size} | {:.2} | {:.2} | {:.2} | {:.2} | {:.2} | {:.0} |",
            middle_ms(lanes),
            middle_ms(with_set),
            middle_ms(boards),
            middle_ms(set),
            middle_ms(squad),
            middle_ms(done) * 1e3,
        );
    }
}

async fn texts() {
    let names: Vec<String> = TEXT_KINDS.iter().map(|(name, _)| format!("{name} ms")).collect();
    println!("| bytes | {} |", names.join(" | "));
    println!("| --- |{}", " --- |".repeat(names.len()));
    let evening = Evening::of(30).await;
    for bytes in TEXTS {
        let mut row = Vec::new();
        for (_, kind) in TEXT_KINDS {
            let text = kind(bytes);
            let mut times = Vec::new();
            for _ in 0..TIMES {
                times.push(evening.timed("swimmer3", &text, "").await);
            }
            row.push(format!("{:.2}", middle_ms(times)));
        }
        println!("| {bytes} | {} |", row.join(" | "));
    }
}

/// Statements one after the other, as somebody brings a history.
fn notation(bytes: usize) -> String {
    repeated(bytes, ", ", |number| format!("done {} {}min rpe 6", 1_000 + number * 25, 30 + number))
}

/// A long message in somebody's own words.
fn prose(bytes: usize) -> String {
    const SAID: [&str; 5] = [
        "so i swam a bit over a mile this morning and the water was lovely",
        "then did four fifties in about 48 each with a breather after the second",
        "my shoulder felt fine all week so i might try the long set on thursday",
        "the second lane was packed again so we left ten seconds apart",
        "and i ended with an easy 200 before the kids came in",
    ];
    repeated(bytes, " ", |number| SAID[number % SAID.len()].to_owned())
}

/// What a coach copies from a sheet: a line a swimmer.
fn lines(bytes: usize) -> String {
    repeated(bytes, "\n", |number| {
        format!("heron{} 200 {}:{:02}", number % 30, 2 + number % 2, number % 60)
    })
}

/// Figures without an end, each of which may be many things.
fn times(bytes: usize) -> String {
    repeated(bytes, " ", |number| format!("{}.{}", 40 + number % 20, number % 10))
}

/// Words parted as often as they can be: each stretch of them may say something.
fn commas(bytes: usize) -> String {
    const SAID: [&str; 6] = ["did 200", "but not 3:12", "teal", "and 48s", "next", "on monday"];
    repeated(bytes, ", ", |number| SAID[number % SAID.len()].to_owned())
}

/// Nothing that could be a word.
fn word(bytes: usize) -> String {
    "a".repeat(bytes)
}

fn repeated(bytes: usize, between: &str, piece: impl Fn(usize) -> String) -> String {
    let mut text = String::new();
    for number in 0.. {
        let next = piece(number);
        if text.len() + between.len() + next.len() > bytes {
            break;
        }
        if number > 0 {
            text.push_str(between);
        }
        text.push_str(&next);
    }
    text
}

fn middle_ms(mut times: Vec<Duration>) -> f64 {
    times.sort_unstable();
    times[times.len() / 2].as_secs_f64() * 1e3
}

impl Evening {
    async fn of(size: usize) -> Evening {
        let journal = Arc::new(Nothing::default());
        let service = Service::open(journal, Arc::new(WallClock), ClockMode::Message).unwrap();
        service.show_boards_at("http://127.0.0.1");
        let squad = NewSquad::of_grown_ups("Dusk", "coach");
        let code = service.add_squad(squad).await.unwrap().code;
        // The evening before, a Monday.
        let at = "2031-03-03T18:40:00Z".parse().unwrap();
        let mut evening = Evening { service, at };
        for swimmer in 0..size {
            let (from, spread) = (format!("swimmer{swimmer}"), swimmer * 7919 % 97);
            let (minutes, seconds) = (2 + spread / 60, spread % 60);
            for text in [
                format!("join {code} heron{swimmer}"),
                format!("200 test {minutes}:{seconds:02}"),
                format!("400 test {}:{seconds:02}", 2 * minutes + 1),
                format!("8x50 on 1:15 held 48 48 48 49 49 49 50 {}", 50 + swimmer % 3),
                format!("done {} 45min rpe 5", 1_500 + swimmer % 9 * 100),
            ] {
                evening.say(&from, &text).await;
            }
        }
        evening.say("coach", "slot tue 1830-1930 6 lanes").await;
        evening.at = "2031-03-04T18:40:00Z".parse().unwrap();
        evening
    }

    /// What opens the squad's page.
    async fn token(&self) -> String {
        let page = self.say("coach", "board").await;
        let (_, token) = page.split_once("/board/").unwrap();
        token.chars().take_while(char::is_ascii_alphanumeric).collect()
    }

    /// Says a text; gives the answer.
    async fn say(&self, from: &str, text: &str) -> String {
        let incoming = Incoming {
            channel: "chat".into(),
            id: None,
            from: from.into(),
            room: None,
            sent_at: Some(self.at),
            body: Body::Text(text.into()),
        };
        let answer = self.service.receive(incoming).await.unwrap();
        serde_json::to_string(&answer).unwrap()
    }

    /// Says a text, whose answer must hold these words; gives how long that took.
    async fn timed(&self, from: &str, text: &str, holds: &str) -> Duration {
        let begun = Instant::now();
        let answer = self.say(from, text).await;
        let took = begun.elapsed();
        assert!(answer.contains(holds), "{text}: {answer}");
        took
    }
}
