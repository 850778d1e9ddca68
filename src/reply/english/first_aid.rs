//! The first act for each kind of danger: what first-aid bodies teach the public
//! to do first, never what may be wrong.
//!
//! Each first part fits one SMS of 160 characters with a number to call of up to
//! four digits. Sources stand beside each; ERC is the European Resuscitation
//! Council, RCUK the Resuscitation Council UK, IFRC the International Federation of
//! Red Cross and Red Crescent Societies. All from memory of the guidelines named,
//! to be read against them by a first-aider before the words are changed.

use crate::message::Danger;
use crate::reply::phrases::first_upper;

/// To the one who is in danger.
pub fn own(danger: Danger, call: &str) -> String {
    let upper = first_upper(call);
    match danger {
        // ERC 2021 and 2025, first aid, stroke: call at once, note the time, nothing
        // by mouth.
        Danger::Stroke => format!(
            "{upper} now, even if it passes; note when it began. Out of the water, sit, don't eat \
             or drink. Tell the lifeguard, don't stay alone."
        ),
        // ERC 2021 and 2025, first aid, chest pain: sit, rest, call. NHS: call even if
        // in doubt.
        Danger::Heart => format!(
            "Stop. Out of the water now, sit down and rest, {call} now. Tell the lifeguard, don't \
             stay alone, don't drive."
        ),
        // ERC 2021: a position that eases breathing, most often upright.
        Danger::Breath => format!(
            "Stop. Out of the water now, sit upright, {call} now. Loosen what is tight. Tell the \
             lifeguard, don't stay alone."
        ),
        // NHS and RCUK, asthma attack: a puff every 30 to 60 s, up to ten, then call.
        Danger::Asthma => format!(
            "Out of the water now, sit upright, reliever inhaler: a puff each 30-60 s, up to 10. \
             None there, or no better: {call}. Tell the lifeguard."
        ),
        // ERC 2021, drowning: whoever breathed water in is seen by a clinician; IFRC
        // 2020: sit up, keep warm.
        Danger::Water => format!(
            "Stop. Out of the water now, sit upright, keep warm, {call} now, even if it eases. \
             Tell the lifeguard, don't stay alone."
        ),
        // ERC 2021 and 2025, choking: cough, five back blows, five abdominal thrusts.
        Danger::Choking => format!(
            "Cough hard. If you can't: let someone give 5 blows between the shoulder blades, then \
             5 thrusts under the ribs; {call}. Tell the lifeguard."
        ),
        // ERC 2021 and 2025, life-threatening bleeding: firm direct pressure.
        Danger::Bleeding => format!(
            "Out of the water now. Press hard on it with a cloth and don't let go, lie down, {call} now. Nosebleed: lean on, pinch. Tell the lifeguard."
        ),
        // RCUK 2021, anaphylaxis: adrenaline at once, call, lie flat, don't stand.
        Danger::Allergy => format!(
            "Adrenaline pen now if you have one, then {call}. Lie down, legs up; hard to breathe: sit. Don't stand. Out of the water, tell the lifeguard."
        ),
        // ERC 2021, spinal injury: keep still, restrict movement; IFRC 2020.
        Danger::Spine => format!(
            "Keep still, don't turn or bend your neck. Let someone tell the lifeguard and {call} \
             now. In the water: float and let them hold your head."
        ),
        // IFRC 2020 and epilepsy societies: after a fit in or by the water call.
        Danger::Seizure => format!(
            "Stop. Out of the water now and stay out, lie on your side, {call} now. Tell the \
             lifeguard, don't stay alone, don't drive."
        ),
        // ERC 2021 and 2025, hypoglycaemia: 15 to 20 g of sugar by mouth, again after
        // 15 minutes.
        Danger::Sugar => format!(
            "Out of the water now. If low: sugar now (juice, sweets), test again in 15 min. No better, drowsy: {call}. Tell the lifeguard, don't drive."
        ),
        // NICE NG232 and NHS, head injury: with these signs call at once.
        Danger::HeadSigns => format!(
            "Stop. Out of the water, keep still, {call} now. Don't stay alone, don't sleep it off, \
             don't drive. Tell the lifeguard."
        ),
        // ERC 2021, poisoning; NHS: don't make yourself sick; out into the fresh air.
        Danger::Poison => format!(
            "{upper} now; say what, how much, when. Fumes: everybody out into fresh air. Don't be \
             sick on purpose, don't stay alone. Tell the lifeguard."
        ),
        // IFRC 2020 and NHS, hypothermia: dry, wrapped, warmed slowly.
        Danger::Cold => format!(
            "Out of the water and wind, wet things off, wrap up, head too. No hot bath. Shaking won't stop, slurred, sleepy: {call}. Tell the lifeguard."
        ),
        // ERC 2021 and 2025, heat stroke: cool at once, cold water to the body.
        Danger::Heat => format!(
            "Out of the heat now, lie down, {call}. Cool down at once: cold water, wet cloths, a \
             fan. Tell the lifeguard, don't stay alone."
        ),
        // NHS, bleeding or fewer movements in pregnancy: ring the maternity unit at
        // once.
        Danger::Pregnancy => format!(
            "Out of the water now, lie on your side, ring your maternity unit now. Heavy bleeding, \
             strong pain, faint: {call}. Tell the lifeguard."
        ),
        // ERC 2021 and 2025, syncope: lie flat, legs raised; NHS: after exertion call.
        Danger::Faint => format!(
            "Stop. Out of the water now, lie down, legs up, {call} now. Tell the lifeguard, don't \
             stay alone, don't drive."
        ),
        // RCUK 2021, basic life support: shout for help, call.
        Danger::Unspecific | Danger::Unconscious => format!(
            "Stop. Out of the water now, shout for the lifeguard, {call} now. Don't stay alone. \
             Not breathing: press hard and fast on the chest."
        ),
        // NHS, head injury and concussion; Concussion in Sport Group 2022: out, watched.
        Danger::Head => format!(
            "Out of the water now and tell the lifeguard. Don't stay alone; drowsy, sick, a bad \
             headache: {call}."
        ),
        // ERC 2021: sit or lie down before a faint.
        Danger::Dizzy => format!(
            "Out of the water now, sit down, tell the lifeguard, don't stay alone. If it stays or \
             there is chest pain or trouble breathing: {call} now."
        ),
    }
}

/// To whoever is with the one in danger. Sources as above, and where they differ.
pub fn beside(danger: Danger, call: &str) -> String {
    match danger {
        // ERC 2021 and 2025, drowning: out, five breaths first, then 30 presses and two
        // breaths, a defibrillator; breathing: on the side.
        Danger::Unconscious => format!(
            "Get them out of the water now, shout for the lifeguard, {call}. Not breathing: 5 breaths, 30 presses, 2 breaths, and on; AED. Else: on side."
        ),
        Danger::Choking => format!(
            "5 hard blows between the shoulder blades, then 5 thrusts under the ribs, in turn; \
             {call}. Passes out: press on the chest. Tell the lifeguard."
        ),
        Danger::Water => format!(
            "Get them out of the water now, tell the lifeguard, {call}, even if they seem fine. Sit them up, warm. Not breathing: 5 breaths, then CPR."
        ),
        Danger::Bleeding => format!(
            "Get them out of the water now, tell the lifeguard, {call}. Press hard on it with a \
             cloth, don't let go; lie them down. Stay with them."
        ),
        Danger::Allergy => format!(
            "Their adrenaline pen now, outer thigh, then {call}. Lie them down, legs up; hard to \
             breathe: sit. Don't let them stand. Tell the lifeguard."
        ),
        Danger::Spine => format!(
            "Keep head and neck still, don't lift them out: float them, hold the head in line, tell \
             the lifeguard, {call} now. Stay with them."
        ),
        // Epilepsy societies and IFRC 2020: hold the head up in the water, don't
        // restrain, time it, on the side afterwards.
        Danger::Seizure => format!(
            "Hold their face above water, tell the lifeguard, {call} now. Out: clear space, don't \
             hold them down, time it; then on their side."
        ),
        Danger::Stroke => format!(
            "Get them out of the water now, tell the lifeguard, {call} now; note when it began. Sit \
             them down, no food or drink. Stay with them."
        ),
        Danger::Heart => format!(
            "Get them out of the water now, tell the lifeguard, {call} now. Sit them down, keep \
             them still, fetch the AED. Stay with them."
        ),
        Danger::Asthma => format!(
            "Get them out of the water now, tell the lifeguard. Sit up, reliever inhaler: a puff \
             each 30-60 s, up to 10. None, or no better: {call} now."
        ),
        Danger::Breath => format!(
            "Get them out of the water now, tell the lifeguard, {call} now. Sit them upright, loosen \
             what is tight. Stay with them."
        ),
        Danger::Sugar => format!(
            "Get them out of the water now. Awake: sugar now (juice, sweets). Drowsy: nothing by \
             mouth, on their side, {call} now. Tell the lifeguard."
        ),
        Danger::HeadSigns => format!(
            "Get them out of the water with head and neck still, tell the lifeguard, {call} now. \
             Don't leave them, don't let them go home alone."
        ),
        Danger::Poison => format!(
            "{} now; say what, how much, when. Fumes: everybody out into fresh air. Don't make them \
             sick. Tell the lifeguard, stay with them.",
            first_upper(call)
        ),
        Danger::Cold => format!(
            "Get them out of the water and wind, tell the lifeguard, {call} now. Lie them down, wet things off, wrap them, head too. No hot bath."
        ),
        Danger::Heat => format!(
            "Get them out of the heat now, {call} now. Cool them at once: cold water over the body, \
             wet cloths, a fan. Tell the lifeguard, stay with them."
        ),
        Danger::Pregnancy => format!(
            "Get them out of the water now, lie them on their side, ring the maternity unit; bleeding, strong pain, faint: {call}. Tell the lifeguard."
        ),
        Danger::Faint => format!(
            "Get them out of the water now, tell the lifeguard, {call} now. Lie them down, legs up; \
             not breathing: CPR. Stay with them."
        ),
        Danger::Unspecific => format!(
            "Get them out of the water now, tell the lifeguard, {call}. Stay with them. Not \
             breathing: 5 breaths, then press hard and fast on the chest."
        ),
        Danger::Head | Danger::Dizzy => format!(
            "Get them out of the water now and tell the lifeguard. Stay with them; if it grows or \
             they are drowsy or sick, {call}."
        ),
    }
}

/// What it looks like, for an alert.
pub fn named(danger: Danger) -> &'static str {
    match danger {
        Danger::Unconscious => "not answering or not breathing",
        Danger::Choking => "choking",
        Danger::Water => "water breathed in or trouble in the water",
        Danger::Bleeding => "heavy bleeding",
        Danger::Allergy => "swelling or a reaction to food or a sting",
        Danger::Spine => "neck or back hurt, or no feeling",
        Danger::Seizure => "a fit",
        Danger::Stroke => "face, arm, speech or sight",
        Danger::Heart => "chest, arm, jaw or heartbeat",
        Danger::Asthma => "trouble breathing, needs an inhaler",
        Danger::Breath => "trouble breathing",
        Danger::Sugar => "blood sugar",
        Danger::HeadSigns => "a knock to the head, with bad signs",
        Danger::Poison => "poison, fumes or tablets",
        Danger::Cold => "chilled through",
        Danger::Heat => "overheated",
        Danger::Pregnancy => "a danger in pregnancy",
        Danger::Faint => "fainted or nearly",
        Danger::Unspecific => "help is needed",
        Danger::Head => "a knock to the head",
        Danger::Dizzy => "dizzy",
    }
}
