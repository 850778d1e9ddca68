//! Cautions: what to do first, never what may be wrong.

use super::{English, first_aid};
use crate::message::{Danger, Name};
use crate::reply::carried;
use crate::reply::phrases::{Care, Illness, Soreness, Spare, first_upper};

impl Care for English {
    fn first_aid(&self, danger: Danger, call: &str) -> String {
        first_aid::own(danger, call)
    }

    fn first_aid_for(&self, danger: Danger, call: &str) -> String {
        first_aid::beside(danger, call)
    }

    fn call(&self, number: Option<&str>) -> String {
        match number {
            Some(number) => format!("call {}", carried(number)),
            None => "call the emergency number".to_owned(),
        }
    }

    fn danger_named(&self, danger: Danger) -> &'static str {
        first_aid::named(danger)
    }

    fn name_whom(&self) -> &'static str {
        "Text the swimmer's name with it, say HERON FAINTED, and she is stopped until you release her."
    }

    fn until_another_is_cleared(&self) -> &'static str {
        "No more swimming for them until a clinician has cleared it. Tell the coach."
    }

    fn stopped_of(&self, who: &Name) -> String {
        format!(
            "{who} is stopped: no swimming until a clinician has cleared it; then text RELEASE \
             {who}."
        )
    }

    fn until_cleared(&self) -> &'static str {
        "No more swimming until a clinician has cleared it and your coach releases you. Tell your \
         coach."
    }

    fn stopped(&self) -> &'static str {
        "You are stopped: no swimming until a clinician has cleared it and your coach releases \
         you. If it comes back: out, tell the lifeguard, emergency number."
    }

    // NHS, urgent help: call for an overdose or a grave wound, stay with someone.
    // Mental Health First Aid guidelines on suicide: stay, listen, put means away.
    fn welfare(&self, of_another: bool, call: &str) -> String {
        match of_another {
            false => format!(
                "Thank you for telling us. You are believed and it is not your fault. Danger, hurt \
                 or took something: {call}. Stay with someone you trust."
            ),
            true => format!(
                "Thank you for telling us. Stay with them and listen; put pills, blades out of \
                 reach. Danger, hurt or took something: {call}. Tell an adult."
            ),
        }
    }

    fn after_welfare(&self, officer: bool, helpline: Option<&str>) -> String {
        let told = match officer {
            true => {
                "We can't promise to keep a secret: the welfare officer is told that you wrote, your \
                 coach is not."
            }
            false => {
                "We can't promise to keep a secret; this is not kept, nor shown to your coach."
            }
        };
        match helpline {
            Some(helpline) => {
                format!("Talk to someone you trust today, or call {}. {told}", carried(helpline))
            }
            None => format!("{told} Talk to someone, or a helpline, today."),
        }
    }

    fn effort(&self) -> &'static str {
        "Never swim hard alone. Chest pain, dizzy or faint: stop, out, get help."
    }

    fn open_water(&self) -> &'static str {
        "Open water: never alone, bright cap and float, the venue's rules, mind the cold. Chest \
         pain, dizzy or faint: stop, get help."
    }

    fn breath_hold(&self) -> &'static str {
        "No breath-holding: it can make you pass out without warning and drown. Breathe whenever \
         you want to; we set no such lengths."
    }

    fn easing(&self) -> [&'static str; 2] {
        [
            "Thank you for telling us. Please ask your midwife, doctor or another clinician how to \
             swim now; until then keep it easy and comfortable.",
            "Your sessions stay easy. Your words are not stored and not shown to your coach; tell \
             your coach yourself if you like.",
        ]
    }

    fn gentle(&self) -> [&'static str; 2] {
        [
            "Thank you for telling us. That is one for a doctor or another clinician, or someone \
             you trust; please talk to one of them soon.",
            "Your words are not stored and not shown to your coach. We set swims and give no \
             advice on weight or food.",
        ]
    }

    fn clinician(&self) -> [&'static str; 2] {
        [
            "Thank you for telling us. Ask whoever treats you, or a pharmacist, how to swim with it; until then keep it easy, by feel, and sit out what you like.",
            "Your words are not stored and not shown to your coach; tell your coach yourself if you like.",
        ]
    }

    fn low(&self, call: &str, helpline: Option<&str>) -> Vec<String> {
        let helpline = helpline.map(|to| format!(", or call {}", carried(to)));
        vec![
            "I'm sorry it is hard just now. You are not alone with it: please talk to someone you trust or your doctor, today if you can."
                .to_owned(),
            format!("Your words are not stored and not shown to your coach. If you think of harming yourself: {call}{}.", helpline.as_deref().unwrap_or(", or a helpline")),
        ]
    }

    fn may_swim(&self) -> &'static str {
        "We can't say yes to that. If anything is wrong, stay out and ask a clinician; with chest \
         pain, fainting or trouble breathing call the emergency number."
    }

    fn dive(&self) -> &'static str {
        "Dives: where the pool allows them, with your coach there and the depth checked, never \
         alone. Sprints from a push do the same work."
    }

    fn alone(&self) -> &'static str {
        "Never swim alone: a lifeguard or another person watching, every time. If nobody is \
         there, leave it for another day."
    }

    fn cleared_alert(&self, who: &Name) -> String {
        format!(
            "{who} says a clinician has cleared it. If you are content with that, text RELEASE \
             {who}; until then {who} stays stopped."
        )
    }

    fn not_ready_alert(&self, who: &Name) -> String {
        format!(
            "{who} has answered the health questions, not all with a clear no. Plans stay easy \
             until you have talked and text RELEASE {who}."
        )
    }

    fn contact(&self, contact: &str) -> String {
        format!("Emergency contact: {contact}.")
    }

    fn pain(&self, place: &str, level: Option<u8>) -> String {
        let place_first = first_upper(place);
        let of_ten = of_ten(level);
        match Soreness::of(level) {
            Soreness::Light => {
                format!("{place_first} pain{of_ten} noted: no paddles, and stop if it grows.")
            }
            Soreness::Felt => format!(
                "{place_first} pain noted: leave out what hurts, {}. Your next session is lowered.",
                self.spare(Spare::of(place))
            ),
            Soreness::Severe => format!(
                "{place_first} pain{of_ten}: stop for today. Rest it; your next session is \
                 lowered."
            ),
        }
    }

    fn pain_of(&self, who: &Name, place: &str, level: Option<u8>) -> String {
        let of_ten = of_ten(level);
        match Soreness::of(level) {
            Soreness::Light => {
                format!("{who}: {place} pain{of_ten} noted. No paddles; out if it grows.")
            }
            Soreness::Felt => format!(
                "{who}: {place} pain{of_ten} noted. Leave out what hurts, {}. The next session is \
                 lowered.",
                self.spare(Spare::of(place))
            ),
            Soreness::Severe => format!(
                "{who}: {place} pain{of_ten}. Out for today and rest it; the next session is \
                 lowered."
            ),
        }
    }

    fn spare(&self, spare: Spare) -> &'static str {
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

    fn after_pain(&self, again: bool) -> &'static str {
        if again {
            "That is twice in two weeks: have a clinician look at it, and tell your coach."
        } else {
            "Pain that lasts or wakes you: see a clinician. Text BETTER when it has gone."
        }
    }

    fn after_pain_of(&self, who: &Name, again: bool) -> String {
        match again {
            true => "That is twice in two weeks: a clinician should look at it.".to_owned(),
            false => format!(
                "Pain that lasts or wakes them: a clinician. Text {} BETTER when it has gone.",
                who.as_str().to_uppercase()
            ),
        }
    }

    fn ill(&self, illness: Illness) -> &'static str {
        match illness {
            Illness::Stomach => {
                "Stay out of the water until 48 hours after it has stopped (14 days if a doctor \
                 found a parasite). Get well soon."
            }
            Illness::Fever => {
                "No swimming with a fever or a bad chest; four clear days first. Get well soon."
            }
            Illness::Other => "Rest up; no hard swimming. Get well soon.",
        }
    }

    fn after_illness(&self) -> &'static str {
        "Text BETTER when you are; you will start again gently. If it lasts, see a clinician."
    }

    fn ill_of(&self, who: &Name, illness: Illness) -> String {
        match illness {
            Illness::Stomach => format!(
                "{who} stays out of the water until 48 hours after it has stopped (14 days if a \
                 doctor found a parasite)."
            ),
            Illness::Fever => {
                format!("{who}: no swimming with a fever or a bad chest; four clear days first.")
            }
            Illness::Other => {
                format!("{who}: rest, no hard swimming. The next session is lowered.")
            }
        }
    }

    fn after_illness_of(&self, who: &Name) -> String {
        format!(
            "Text {} BETTER when it is over; the start is gentle then. If it lasts: a clinician.",
            who.as_str().to_uppercase()
        )
    }

    fn done_for_today(&self) -> &'static str {
        "You are done for today: no lane and no set. Text BETTER when it is over."
    }

    fn done_for_today_of(&self, who: &Name) -> String {
        format!("{who} is done for today: no lane and no set.")
    }

    fn someone(&self) -> &'static str {
        "Someone in the squad"
    }

    fn as_told_by(&self, who: &str, by: &Name) -> String {
        format!("{who} (text from {by})")
    }

    fn pain_alert(&self, who: &str, place: &str, level: Option<u8>, again: bool) -> String {
        let of_ten = of_ten(level);
        let again = if again { ", the second report in two weeks" } else { "" };
        format!("{who}: {place} pain{of_ten}{again}. The next session is lowered.")
    }

    fn danger_alert(&self, who: &str, danger: Danger, stopped: Option<&Name>) -> String {
        format!(
            "ALERT {who}: {}. Make sure help is there. {}",
            first_aid::named(danger),
            until_released(stopped)
        )
    }
}

/// ` 4 of 10`, where a level was said.
fn of_ten(level: Option<u8>) -> String {
    level.map(|level| format!(" {level} of 10")).unwrap_or_default()
}

fn until_released(stopped: Option<&Name>) -> String {
    let release = stopped.map(|who| format!(" and you text RELEASE {who}")).unwrap_or_default();
    format!("No swimming until a clinician has cleared it{release}.")
}
