//! Cautions: what to do first, never what may be wrong.

use super::English;
use crate::message::Name;
use crate::reply::phrases::{Care, Illness, Much, Spare, first_upper};

impl Care for English {
    fn danger_of(&self, who: &Name) -> Vec<String> {
        vec![
            "Get them out of the water now, tell the lifeguard, call the emergency number. \
             Stay with them."
                .into(),
            format!("Stored for {who}: no swimming until a clinician clears it and you release."),
        ]
    }

    fn stopped_of(&self, who: &Name) -> String {
        format!(
            "{who} is stopped: no swimming until a clinician has cleared it; then text RELEASE \
             {who}."
        )
    }

    fn danger(&self) -> &'static [&'static str] {
        &[
            "Stop. Out of the water now and tell the lifeguard. Chest pain, fainting or trouble \
             breathing: call the emergency number now. Don't stay alone.",
            "No more swimming until a clinician has cleared it and your coach releases you. Your \
             coach is told.",
        ]
    }

    fn stopped(&self) -> &'static str {
        "You are stopped: no swimming until a clinician has cleared it and your coach releases \
         you. If it comes back: out, tell the lifeguard, emergency number."
    }

    fn welfare(&self) -> &'static [&'static str] {
        &[
            "Thank you for telling us. You are believed and it is not your fault. In danger now: \
             call the emergency number.",
            "This is not kept with your training and not shown to your coach. We can't promise \
             to keep a secret; please talk to someone you trust or a helpline today.",
        ]
    }

    fn effort(&self) -> &'static str {
        "Swim hard only with others there. Chest pain, dizzy or faint: stop, out, get help."
    }

    fn open_water(&self) -> &'static str {
        "Open water: never alone, bright cap and float, the venue's rules, mind the cold. Chest \
         pain, dizzy or faint: stop, get help."
    }

    fn breath_hold(&self) -> &'static str {
        "No breath-holding: it can make you pass out without warning and drown. Breathe whenever \
         you want to; we set no such lengths."
    }

    fn pain(&self, place: &str, level: u8, much: Much) -> String {
        let place_first = first_upper(place);
        match much {
            Much::Little => {
                format!("{place_first} pain {level} of 10 noted: no paddles, and stop if it grows.")
            }
            Much::Some => format!(
                "{place_first} pain noted: leave out what hurts, {}. Your next session is lowered.",
                spare(Spare::of(place))
            ),
            Much::TooMuch => format!(
                "{place_first} pain {level} of 10: stop for today. Rest it; your next session is \
                 lowered."
            ),
        }
    }

    fn after_pain(&self, again: bool) -> &'static str {
        if again {
            "That is twice in two weeks: have a clinician look at it. Your coach is told."
        } else {
            "Pain that lasts or wakes you: see a clinician. Text BETTER when it has gone."
        }
    }

    fn ill(&self, illness: Illness) -> &'static str {
        match illness {
            Illness::Stomach => {
                "Stay out of the water until 48 hours after it has stopped (14 days if a doctor \
                 found a parasite). Get well soon."
            }
            Illness::Fever => {
                "No swimming with a fever or a bad chest; two clear days first. Get well soon."
            }
            Illness::Other => "Rest up; no hard swimming. Get well soon.",
        }
    }

    fn after_illness(&self) -> &'static str {
        "Text BETTER when you are; you will start again gently. If it lasts, see a clinician."
    }
}

fn spare(spare: Spare) -> &'static str {
    match spare {
        Spare::Arms => "no paddles, no fly, no board",
        Spare::Back => "no fly, no hard dolphin kick",
        Spare::BreastKick => "no breaststroke kick",
        Spare::Feet => "no fins, gentle kick",
        Spare::Neck => "use a snorkel",
        Spare::Hard => "swim easy",
        Spare::Water => "stay out of the water until it has settled",
    }
}
