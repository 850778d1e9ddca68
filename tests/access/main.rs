//! Who may ask for what, and what nobody is told: every role against every kind
//! of request, about themselves and about others, of their own squad and of another,
//! in private and in a room. The table is `table.txt`.

#![expect(clippy::unwrap_used, reason = "a test that can't go on has failed")]

mod kinds;
#[path = "../care/opened.rs"]
mod opened;
mod squads;
mod table;

use squads::{Heard, ROLES, Squads};
use table::Row;

/// What each role is answered stands in the table; and nothing that is said
/// tells what is not for it.
#[test]
fn every_role_is_answered_as_the_table_says() {
    let squads = Squads::open();
    let rewrite = std::env::var_os("REWRITE_ACCESS").is_some();
    let (mut wrong, mut rows, mut cases) = (Vec::new(), Vec::new(), 0);
    for row in table::rows() {
        let mut answers = Vec::new();
        for (at, role) in ROLES.iter().enumerate() {
            let private = squads.ask(role, None, &row.text);
            let in_room = squads.ask(role, Some("room"), &row.text);
            cases += 2;
            let found = match private.mark == in_room.mark {
                true => private.mark.to_string(),
                false => format!("{}{}", private.mark, in_room.mark),
            };
            let expected = row.answers.get(at).map_or("", String::as_str);
            if !rewrite && found != expected {
                wrong.push(format!("{} from {role}: {found}, not {expected}", row.text));
            }
            for (heard, room) in [(private, false), (in_room, true)] {
                wrong.extend(squads.leaks(role, &row.text, room, &heard).into_iter().map(
                    |needle| format!("{} from {role} (in a room: {room}) tells {needle}", row.text),
                ));
            }
            answers.push(found);
        }
        rows.push(Row { text: row.text, answers });
    }
    if rewrite {
        table::write(&rows);
    }
    println!("{cases} requests by {} roles", ROLES.len());
    assert!(wrong.is_empty(), "{} of {cases}:\n{}", wrong.len(), wrong.join("\n"));
}

/// A new kind of request fails here until the table has a row for it.
#[test]
fn the_table_has_every_kind_of_request() {
    let asked: Vec<&str> = table::rows().iter().flat_map(|row| kinds::of_text(&row.text)).collect();
    let missing: Vec<_> = kinds::all().into_iter().filter(|kind| !asked.contains(kind)).collect();
    assert!(missing.is_empty(), "no row asks for {missing:?}");
    for (_, example, _) in lapwing::message::EXAMPLES {
        for kind in kinds::of_text(example) {
            assert!(asked.contains(&kind), "{example}: no row asks for {kind}");
        }
    }
}

/// The page is for those on deck, is of one squad, and tells no number.
#[test]
fn the_page_is_for_those_on_deck() {
    let squads = Squads::open();
    for role in ROLES {
        let page = squads.page(role);
        assert_eq!(page.is_some(), ["coach", "assistant"].contains(&role), "{role}");
        let Some(page) = page else { continue };
        let all = format!("{page:?}");
        assert!(all.contains("groin") && all.contains("zebra"), "{all}");
        let heard = Heard { mark: '+', aloud: String::new(), all, letters: vec![] };
        assert_eq!(squads.leaks(role, "", false, &heard), Vec::<&str>::new(), "{role}");
    }
}

/// Of two on one telephone neither is shown under the other's name.
#[test]
fn one_of_two_is_not_told_of_the_other() {
    let squads = Squads::open();
    for text in ["siskin", "siskin best", "siskin log", "siskin trend", "siskin targets"] {
        let heard = squads.ask("shared", None, text);
        assert!(heard.all.contains("5:05.5") || text == "siskin targets", "{text}: {}", heard.all);
        assert!(!heard.all.contains("5:25.5") && !heard.all.contains("325.5"), "{}", heard.all);
    }
}

/// What is private about a swimmer reaches only those on deck.
#[test]
fn letters_of_health_go_to_those_on_deck() {
    let squads = Squads::open();
    for text in ["groin hurts 8", "felt dizzy", "chest pain", "doctor says im cleared"] {
        for (to, _) in squads.ask("swimmer", None, text).letters {
            let on_deck = [squads::address("coach"), squads::address("assistant")];
            assert!(on_deck.contains(&to.as_str()), "{text} is told to {to}");
        }
    }
}

/// Whoever left is told nothing more.
#[test]
fn access_ends_at_once() {
    let mut squads = Squads::open();
    for (text, answer) in [("leave", "yes"), ("remove heron", "yes")] {
        let who = if text == "leave" { "assistant" } else { "coach" };
        squads.tell(who, text);
        squads.tell(who, answer);
    }
    for role in ["assistant", "swimmer"] {
        for text in ["squad", "wren", "wren 200 test 3:00", "me", "best", "next", "why", "more"] {
            assert_eq!(squads.ask(role, None, text).mark, '-', "{role}: {text}");
        }
    }
    assert!(squads.dusk.former.keys().any(|name| name.as_str() == "heron"));
}
