//! Cautions: the first sentence says what to do, and none says what may be
//! wrong. We advise; we do not diagnose.

use super::words;
use crate::message::Name;
use crate::reply::{Alert, CautionKind, CautionReply};

/// A caution, on its own.
pub fn caution(reply: &CautionReply) -> Vec<String> {
    match (&reply.kind, &reply.about) {
        (CautionKind::Danger, Some(who)) => vec![
            "Get them out of the water now, tell the lifeguard, call the emergency number. \
             Stay with them."
                .into(),
            stopped(who),
        ],
        (CautionKind::HeadKnock | CautionKind::Dizzy, Some(who)) => vec![
            "Get them out of the water now and tell the lifeguard. Stay with them; if it grows \
             or they are drowsy or sick, call the emergency number."
                .into(),
            stopped(who),
        ],
        (CautionKind::Stopped, Some(who)) => vec![stopped(who)],
        (kind, _) => own(kind),
    }
}

fn stopped(who: &Name) -> String {
    format!(
        "{who} is stopped: no swimming until a clinician has cleared it; then text RELEASE {who}."
    )
}

/// What a coach is told unasked.
pub fn alert(alert: &Alert) -> String {
    let who = alert.who.as_ref().map_or_else(|| "Someone in the squad".to_owned(), Name::to_string);
    match &alert.kind {
        CautionKind::Pain { place, level, again } => {
            let again = if *again { ", the second report in two weeks" } else { "" };
            format!("{who}: {place} pain {level} of 10{again}. The next session is lowered.")
        }
        CautionKind::HeadKnock => format!(
            "ALERT {who} reports a knock to the head. Stopped until a clinician clears it and you \
             text RELEASE {who}."
        ),
        _ => format!(
            "ALERT {who} reports faintness, chest pain or trouble breathing. Make sure help is \
             there. Stopped until a clinician clears it and you text RELEASE {who}."
        ),
    }
}

fn own(kind: &CautionKind) -> Vec<String> {
    let lines: &[&str] = match kind {
        CautionKind::Danger => &[
            "Stop. Out of the water now and tell the lifeguard. Chest pain, fainting or trouble \
             breathing: call the emergency number now. Don't stay alone.",
            "No more swimming until a clinician has cleared it and your coach releases you. Tell \
             your coach.",
        ],
        CautionKind::HeadKnock => &[
            "Out of the water now and tell the lifeguard. Don't stay alone; drowsy, sick, a bad \
             headache: call the emergency number.",
            "No more swimming until a clinician has cleared it and your coach releases you. Tell \
             your coach.",
        ],
        CautionKind::Dizzy => &[
            "Out of the water now, sit down, tell the lifeguard, don't stay alone. If it stays or \
             there is chest pain or trouble breathing: emergency number now.",
            "No more swimming until a clinician has cleared it and your coach releases you. Tell \
             your coach.",
        ],
        CautionKind::Stopped => {
            &["You are stopped: no swimming until a clinician has cleared it and your coach \
             releases you. If it comes back: out, tell the lifeguard, emergency number."]
        }
        CautionKind::Pain { place, level, again } => return pain(place, *level, *again),
        CautionKind::Ill { fever, stomach } => return ill(*fever, *stomach),
        CautionKind::Welfare => &[
            "Thank you for telling us. You are believed and it is not your fault. In danger now: \
             call the emergency number.",
            "This is not kept with your training and not shown to your coach. We can't promise \
             to keep a secret; please talk to someone you trust or a helpline today.",
        ],
        CautionKind::Effort => {
            &["Swim hard only with others there. Chest pain, dizzy or faint: stop, out, get help."]
        }
        CautionKind::OpenWater => {
            &["Open water: never alone, bright cap and float, the venue's rules, mind the cold. \
             Chest pain, dizzy or faint: stop, get help."]
        }
        CautionKind::BreathHold => {
            &["No breath-holding: it can make you pass out without warning and drown. Breathe \
             whenever you want to; we set no such lengths."]
        }
    };
    lines.iter().map(|line| (*line).to_owned()).collect()
}

fn pain(place: &str, level: u8, again: bool) -> Vec<String> {
    let mut lines = vec![match level {
        0..=2 => format!(
            "{} pain {level} of 10 noted: no paddles, and stop if it grows.",
            words::first_upper(place)
        ),
        3..=5 => format!(
            "{} pain noted: leave out what hurts, {}. Your next session is lowered.",
            words::first_upper(place),
            spare(place)
        ),
        _ => format!(
            "{} pain {level} of 10: stop for today. Rest it; your next session is lowered.",
            words::first_upper(place)
        ),
    }];
    if again {
        lines.push(
            "That is twice in two weeks: have a clinician look at it, and tell your coach.".into(),
        );
    } else {
        lines.push(
            "Pain that lasts or wakes you: see a clinician. Text BETTER when it has gone.".into(),
        );
    }
    lines
}

/// What to swim so as to spare it (common practice, no source).
fn spare(place: &str) -> &'static str {
    match place {
        "shoulder" | "elbow" | "wrist" | "arm" => "no paddles, no fly, no board",
        "knee" | "groin" | "hip" => "no breaststroke kick",
        "back" => "no fly, no hard dolphin kick",
        "neck" => "use a snorkel",
        "ear" | "eye" => "stay out of the water until it has settled",
        "ankle" | "foot" | "calf" => "no fins, gentle kick",
        _ => "swim easy",
    }
}

fn ill(fever: bool, stomach: bool) -> Vec<String> {
    let first = if stomach {
        "Stay out of the water until 48 hours after it has stopped (14 days if a doctor found a \
         parasite). Get well soon."
    } else if fever {
        "No swimming with a fever or a bad chest; two clear days first. Get well soon."
    } else {
        "Rest up; no hard swimming. Get well soon."
    };
    vec![
        first.into(),
        "Text BETTER when you are; you will start again gently. If it lasts, see a clinician."
            .into(),
    ]
}
