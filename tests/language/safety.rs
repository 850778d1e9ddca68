//! Words of danger and of harm: what must alarm, what must be asked, what must
//! leave everyone in peace.
//!
//! Source of the warning signs: patient pages of hospitals on heart attack and
//! syncope; swimming-induced pulmonary oedema as reviewed in the literature
//! (sudden breathlessness, cough with pink or bloody froth). Wordings: ours.

use lapwing::language::Language;
use lapwing::message::{Danger, Kind, Reading, is_opt_in, is_opt_out, parse};
use lapwing::reading::health::{Alarm, Alarms, alarms};

fn read(text: &str) -> Alarms {
    alarms(text, &|_| false)
}

/// All texts that are not read as they should be, at once.
#[track_caller]
fn all(texts: &[&str], meant: impl Fn(&Alarms) -> bool) {
    let misread = texts.iter().map(|text| (text, read(text))).filter(|(_, one)| !meant(one));
    let misread: Vec<String> = misread
        .map(|(text, one)| format!("{text:?}: {:?}, gear {}", one.danger, one.gear))
        .collect();
    assert!(misread.is_empty(), "{}", misread.join("\n"));
}

/// Known for certain, and of a kind for which this holds.
fn sure(alarms: &Alarms, of: impl Fn(Danger) -> bool) -> bool {
    alarms.danger.as_ref().is_some_and(|one: &Alarm| one.sure && of(one.danger))
}

/// Asked about in one word.
fn asked(alarms: &Alarms) -> bool {
    alarms.danger.as_ref().map_or(alarms.gear, |one| !one.sure)
}

#[test]
fn emergencies() {
    all(
        &[
            "chest pain",
            "My CHEST hurts",
            "pressure in chest",
            "chets hurt",
            "tight chest after 400",
            "i fainted",
            "feinted at the wall",
            "faitned",
            "felt faint",
            "passed out in the shower",
            "blacked out",
            "greyed out a bit",
            "collapsed on deck",
            "unconcious",
            "had a fit",
            "having a seizure",
            "cant breathe",
            "can't breathe",
            "cant breath",
            "can not breathe",
            "couldn't get my breath",
            "still out of breath after 20min",
            "still short of breath",
            "breathles",
            "heart was racing",
            "heart keeps skipping",
            "racing heart",
            "palpitations",
            "palpitatons",
            "left arm feels numb",
            "pain in my left arm",
            "jaw pain",
            "coughing up blood",
            "coughed some pink blood",
            "pink froth",
            "crackly breathing",
            "gurgling when i breathe",
            "asthma attack",
            "inhaler not helping",
            "my throat is swelling",
            "tunnel vision",
            "hypo",
            "drowning",
            "dunnock fainted",
            "200 test 3:12 chest pain",
            "ｃｈｅｓｔ ｐａｉｎ",
            "no puedo respirar",
            "me desmayé",
            "dolor en el pecho",
            "palpitaciones",
        ],
        |one| sure(one, Danger::is_grave),
    );
}

#[test]
fn knocks_and_dizziness() {
    all(
        &[
            "hit my head on the wall",
            "head knock",
            "banged my head",
            "concussion",
            "concused",
            "knocked his head",
            "swam head into the wall",
            "golpe en la cabeza",
        ],
        |one| sure(one, Danger::is_of_head),
    );
    all(
        &[
            "dizzy",
            "dizy",
            "dizzzy",
            "felt a bit dizzy",
            "light headed",
            "lightheaded",
            "woozy",
            "mareada",
            "vértigo",
        ],
        |one| sure(one, |danger| danger == Danger::Dizzy),
    );
}

#[test]
fn harmless_phrases_are_asked_about() {
    all(
        &[
            "chest strap slipped",
            "out of breath",
            "short of breath after the 400",
            "chest press 3x10",
            "deep end chest high",
            "the faint line is hard to see",
            "banda de pecho rota",
        ],
        asked,
    );
    // The grave word beside a harmless phrase still counts.
    all(&["chest strap on, felt dizzy"], |one| sure(one, |danger| danger == Danger::Dizzy));
    all(&["chest strap off because of chest pain"], |one| sure(one, Danger::is_grave));
}

#[test]
fn nothing_to_fear() {
    all(
        &[
            "",
            "dead",
            "dying lol",
            "cooked",
            "toast",
            "200 test 3:12",
            "paint the wall",
            "saint",
            "taint",
            "the wall clock",
            "fit again",
            "getting fit",
            "best fit",
            "heart rate 150",
            "hr 150",
            "chess club",
            "arms and legs",
            "cold",
            "sore shoulder",
            "200 pecho marca 3:40",
            "breathe every 3",
            "headed home",
            "feeling light",
            "chest infection",
            "stop",
            "black fins",
            "left arm drill",
            "not dizzy today",
            "never fainted",
            "dad had a stroke in 1998",
        ],
        |one| one.danger.is_none(),
    );
}

#[test]
fn harm_and_fear() {
    for text in [
        "i dont want to go home",
        "I don't want to go home",
        "scared of coach",
        "coach keeps texting me",
        "i want to die",
        "thinking of suicide",
        "sucide",
        "he touches me, told me not to tell",
        "self harm",
        "my dad hits me",
        "no quiero ir a casa",
        "me pega",
    ] {
        assert!(read(text).harm.is_some(), "{text}");
    }
    for text in [
        "dying",
        "want to go home early tonight",
        "hit the wall",
        "killed it",
        "that set killed me",
        "coach texted me the set",
        "secret training",
        "my watch is dead",
        "touch the wall",
    ] {
        let read = read(text);
        assert_eq!((read.harm, read.danger), (None, None), "{text}");
    }
}

#[test]
fn a_test_beside_danger_is_still_read() {
    let Reading::Understood(message) = parse("200 test 3:12 felt dizzy", Language::English) else {
        panic!("not read");
    };
    let kinds: Vec<&Kind> = message.statements.iter().map(|one| &one.kind).collect();
    assert!(matches!(kinds[..], [Kind::Test(_), Kind::Faint]), "{kinds:?}");
}

#[test]
fn opting_is_a_whole_text() {
    for text in [
        "STOP",
        "stop.",
        " Stop please! ",
        "UNSUBSCRIBE",
        "opt-out",
        "opt out",
        "quit",
        "end",
        "cancel",
        "REVOKE",
        "stopall",
        "arret",
        "baja",
    ] {
        assert!(is_opt_out(text), "{text}");
    }
    for text in [
        "had to stop at 6",
        "quit after 5",
        "end of set",
        "STOP for 2 wks",
        "cancel tue",
        "stop the set",
        "",
        "please",
    ] {
        assert!(!is_opt_out(text), "{text}");
    }
    assert!(is_opt_in("START") && is_opt_in("unstop") && !is_opt_in("start slower"));
}
