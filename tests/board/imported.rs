//! What is brought along: our own tables back again, whole or not at all.

use std::process::Command;

use lapwing::clock::ClockMode;
use lapwing::import::List;
use lapwing::service::{Bringing, BroughtIn, Taking};

use super::club::Club;

async fn bring(club: &Club, list: List, text: &str) -> BroughtIn {
    let bringing = Bringing { squad: None, list, text: text.to_owned() };
    club.service.bring(&bringing).await.unwrap()
}

fn take(club: &Club, file: &str) -> String {
    let taking = Taking { squad: None, swimmer: None, file: file.into() };
    club.service.taken(&taking).unwrap()
}

/// A squad of three with tests of every sort.
async fn dusk() -> Club {
    let club = Club::open(ClockMode::Wall).await;
    club.squad("Dusk", "coach", false).await;
    for who in ["heron", "teal", "wren"] {
        club.say("coach", &format!("add {who}")).await;
    }
    for text in [
        "heron 200 test 3:12.5",
        "heron 400 test 6:52 splits 1:40 1:44 1:45 1:43",
        "teal 100 breast test 1:41.25",
        "wren 50 test 44.1 dive",
        "wren 1500 test 31:10 on 20 feb",
    ] {
        club.say("coach", text).await;
    }
    club
}

/// An empty squad.
async fn dawn() -> Club {
    let club = Club::open(ClockMode::Wall).await;
    club.squad("Dawn", "other", false).await;
    club
}

#[tokio::test(flavor = "multi_thread")]
async fn our_own_tables_come_back_as_they_were() {
    let (dusk, dawn) = (dusk().await, dawn().await);
    let (members, tests) = (take(&dusk, "members.csv"), take(&dusk, "tests.csv"));
    assert_eq!(tests.lines().count(), 6, "{tests}");
    let stored = |new, known| BroughtIn::Stored { new, known };
    assert_eq!(bring(&dawn, List::Members, &members).await, stored(3, 0));
    assert_eq!(bring(&dawn, List::Tests, &tests).await, stored(5, 0));
    assert_eq!(take(&dawn, "tests.csv"), tests);
    assert_eq!(take(&dawn, "members.csv"), members);
    // Once more, nothing is new.
    assert_eq!(bring(&dawn, List::Tests, &tests).await, stored(0, 5));
    assert_eq!(bring(&dawn, List::Members, &members).await, stored(0, 3));
    // What was brought is coached from.
    assert!(dawn.say("other", "heron").await.contains("6:52"));
    // A guest's history becomes a telephone's own as any guest's does.
    assert!(take(&dawn, "everything.jsonl").contains(r#""guest":true"#));
    let dawn = dawn.restarted(ClockMode::Wall).await;
    assert_eq!(take(&dawn, "tests.csv"), tests);
}

#[tokio::test(flavor = "multi_thread")]
async fn with_a_fault_nothing_is_stored_and_every_fault_is_told() {
    let club = dusk().await;
    let before = take(&club, "tests.csv");
    let table = "swimmer,on,distance,unit,course,stroke,time_s\n\
        heron,2026-02-01,100,m,25m,free,88.1\n\
        plover,2026-02-01,100,m,25m,free,88.1\n\
        teal,2026-04-01,100,m,25m,free,88.1\n\
        wren,2026-02-01,100,m,25m,free,8.1\n\
        wren,2026-02-01,100,m,25m,swum,88\n";
    let BroughtIn::Faulty(faults) = bring(&club, List::Tests, table).await else { panic!() };
    let told: Vec<String> = faults.iter().map(ToString::to_string).collect();
    assert_eq!(told.len(), 4, "{told:?}");
    for (told, begins) in told.iter().zip([
        "line 3, swimmer: nobody of the squad is called `plover`",
        "line 4, on: 2026-04-01 is still to come",
        "line 5, time_s: nobody swims",
        "line 6, stroke: ",
    ]) {
        assert!(told.starts_with(begins), "{told}");
    }
    assert_eq!(take(&club, "tests.csv"), before);
    let members = "swimmer\nplover\ncoach\nhelp\nher0n\n";
    let BroughtIn::Faulty(faults) = bring(&club, List::Members, members).await else { panic!() };
    let told: Vec<String> = faults.iter().map(ToString::to_string).collect();
    assert!(
        told.iter().any(|one| one == "line 4, swimmer: `help` is a word that texts begin with"),
        "{told:?}"
    );
    assert!(
        told.iter().any(|one| one == "line 5, swimmer: `her0n` looks like another's"),
        "{told:?}"
    );
    assert!(!take(&club, "members.csv").contains("plover"));
}

/// Another's CSV reader reads our tables, writes them as spreadsheets do, and they come
/// back as they were.
///
/// `LAPWING_REFERENCE_PYTHON=target/reference/bin/python cargo test --test board -- --ignored`
#[tokio::test(flavor = "multi_thread")]
#[ignore = "wants Python (tests/run reference)"]
async fn a_table_comes_back_through_a_spreadsheet() {
    let (dusk, dawn) = (dusk().await, dawn().await);
    let (members, tests) = (take(&dusk, "members.csv"), take(&dusk, "tests.csv"));
    let file = dusk.folder().join("tests.csv");
    std::fs::write(&file, &tests).unwrap();
    let python = std::env::var("LAPWING_REFERENCE_PYTHON").unwrap();
    let written =
        Command::new(python).arg("tests/board/rewrite_table.py").arg(&file).output().unwrap();
    assert!(written.status.success(), "{}", String::from_utf8_lossy(&written.stderr));
    let rewritten = String::from_utf8(written.stdout).unwrap();
    assert!(rewritten.starts_with('\u{feff}') && rewritten.contains(';'), "{rewritten}");
    assert!(matches!(
        bring(&dawn, List::Members, &members).await,
        BroughtIn::Stored { new: 3, .. }
    ));
    assert_eq!(bring(&dawn, List::Tests, &rewritten).await, BroughtIn::Stored { new: 5, known: 0 });
    assert_eq!(take(&dawn, "tests.csv"), tests);
}
