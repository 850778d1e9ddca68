//! What a text costs without sockets and without a disk: one after the other, in this
//! process and on one thread, on a journal that costs nothing. For looking closely:
//!
//! ```text
//! perf record -g target/release/deps/suite-… within done
//! valgrind --tool=callgrind target/release/deps/suite-… within done 200
//! ```

use std::sync::Arc;

use lapwing::clock::{ClockMode, WallClock};
use lapwing::service::{Body, Incoming, Service};

use super::client::Text;
use super::nothing::Nothing;
use super::server::{cpu_s, fill};

/// How many texts are sent where it isn't said.
const TEXTS: u64 = 20_000;
const SQUADS: usize = 8;
const SWIMMERS: usize = 8;

/// Sends one kind of text, or each.
pub fn within(words: &[String]) {
    let texts = words.iter().find_map(|word| word.parse().ok()).unwrap_or(TEXTS);
    let kinds = [Text::Again, Text::Done, Text::Test];
    let is_meant = |text: &Text| words.contains(&format!("{text:?}").to_lowercase());
    let meant: Vec<Text> = match kinds.iter().any(&is_meant) {
        true => kinds.into_iter().filter(is_meant).collect(),
        false => kinds.into(),
    };
    println!("| text | CPU µs within |");
    println!("| --- | --- |");
    for text in meant {
        println!("| {text:?} | {:.1} |", cost_us(text, texts));
    }
}

fn cost_us(text: Text, texts: u64) -> f64 {
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().unwrap();
    runtime.block_on(async {
        let journal = Arc::new(Nothing::default());
        let service = Service::open(journal, Arc::new(WallClock), ClockMode::Wall).unwrap();
        fill(&service, SQUADS, SWIMMERS).await;
        let begun = cpu_s("self");
        for number in 0..texts {
            let incoming = Incoming {
                channel: "messages".into(),
                id: Some(format!("w-{number}")),
                from: format!("swimmer{}", number as usize % (SQUADS * SWIMMERS)),
                room: None,
                sent_at: None,
                body: Body::Text(text.words(number)),
            };
            let answer = service.receive(incoming).await.unwrap();
            let answer = serde_json::to_vec(&answer).unwrap();
            assert!(text.is_answered(&answer), "{}", String::from_utf8_lossy(&answer));
        }
        (cpu_s("self") - begun) * 1e6 / texts as f64
    })
}
