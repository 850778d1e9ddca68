//! The first act for each kind of danger: what first-aid bodies teach the public
//! to do first, never what may be wrong.
//!
//! Each fits one SMS of 160 characters, or the 153 of the first of several where the
//! number to call has up to four digits. Sources stand beside each; ERC is the
//! European Resuscitation Council, RCUK the Resuscitation Council UK, IFRC the
//! International Federation of Red Cross and Red Crescent Societies. The guidelines
//! named are from memory where they were not at hand; the words were read once
//! against published teaching, and should be again before they are changed.

use crate::message::Danger;
use crate::reply::phrases::first_upper;

/// To the one who is in danger.
pub fn own(danger: Danger, call: &str) -> String {
    let upper = first_upper(call);
    match danger {
        // ERC 2021 and 2025, first aid, stroke: signs, call at once. NHS and the American
        // Heart Association: when it began. St John and Red Cross: nothing by mouth.
        Danger::Stroke => format!(
            "{upper} now, even if it passes; note when it began. Out of the water, sit, don't eat \
             or drink. Tell the lifeguard, don't stay alone."
        ),
        // IFRC 2020, chest pain: sit, rest, call. NHS: call even if in doubt. ERC 2021
        // has an early aspirin for adults: left to whoever answers the call, as this is
        // also for racing hearts, minors and those whose blood is thinned.
        Danger::Heart => format!(
            "Stop. Out of the water now, sit down and rest, {call} now. Tell the lifeguard, don't \
             stay alone, don't drive."
        ),
        // IFRC 2020, breathing difficulties: the position that eases it, most often upright.
        Danger::Breath => format!(
            "Stop. Out of the water now, sit upright, {call} now. Loosen what is tight. Tell the \
             lifeguard, don't stay alone."
        ),
        // NHS and Asthma + Lung UK: a puff every 30 to 60 s, up to ten; call at once if it
        // gets worse or there is no inhaler.
        Danger::Asthma => format!(
            "Out of the water, sit up, reliever inhaler: a puff each 30-60 s, up to 10. None, \
             no relief, hard to talk: {call} now. Tell the lifeguard."
        ),
        // ERC 2025, first aid, and St John, drowning: whoever breathed water in is seen
        // by a clinician; IFRC 2020: sit up, keep warm.
        Danger::Water => format!(
            "Stop. Out of the water now, sit upright, keep warm, {call} now, even if it eases. \
             Tell the lifeguard, don't stay alone."
        ),
        // ERC 2021, basic life support, and 2025, first aid, choking: cough; five blows on
        // the back, five thrusts.
        Danger::Choking => format!(
            "Cough hard. If you can't: let someone give 5 blows between the shoulder blades, then \
             5 thrusts under the ribs; {call}. Tell the lifeguard."
        ),
        // ERC 2021 and 2025, life-threatening bleeding: firm direct pressure. NHS,
        // nosebleed: sit, lean forward, pinch.
        Danger::Bleeding => format!(
            "Out of the water. Press a cloth hard on the wound, don't let go, lie down, \
             {call} now. Nose: sit, lean forward, pinch. Tell the lifeguard."
        ),
        // RCUK 2021, anaphylaxis: adrenaline into the outer thigh at once, call, lie, don't
        // stand, again after 5 minutes.
        Danger::Allergy => format!(
            "Adrenaline pen, if any, outer thigh; {call} now. Out of the water, lie, legs up; \
             hard to breathe: sit. Don't stand. 5 min no better: again."
        ),
        // ERC 2021, spinal injury: keep still, restrict movement; IFRC 2020.
        Danger::Spine => format!(
            "Keep still, don't turn or bend your neck. {upper} now, let someone tell the \
             lifeguard. In the water: float and let them hold your head."
        ),
        // Epilepsy Foundation, Epilepsy Society: after a fit in or by the water call; no
        // driving. Royal Life Saving Australia: hold the face of one in the water up.
        Danger::Seizure => format!(
            "Stop. Out of the water, lie on your side, {call} now. Tell the lifeguard, don't \
             stay alone or drive. Someone else: hold their face up."
        ),
        // ERC 2021 and 2025, hypoglycaemia: 15 to 20 g of sugar by mouth, again after
        // 15 minutes.
        Danger::Sugar => format!(
            "Out of the water. Low or unsure: sugar now (juice, sweets), test in 15 min. No \
             better, drowsy, sick: {call}. Tell the lifeguard, don't drive."
        ),
        // NICE NG232 and NHS, head injury: with these signs call at once.
        Danger::HeadSigns => format!(
            "Stop. Out of the water, keep still, {call} now. Don't stay alone, don't sleep it off, \
             don't drive. Tell the lifeguard."
        ),
        // Centers for Disease Control, chlorine: out into fresh air, off with what is wet;
        // NHS, carbon monoxide and fumes: call.
        Danger::Fumes => format!(
            "Everybody out into fresh air now, away from it. {upper} now, tell the lifeguard. \
             Don't go back in or stay alone. In the eyes: rinse."
        ),
        // IFRC 2020 and NHS, poisoning: call, say what; don't make yourself sick.
        Danger::Poison => format!(
            "{upper} now; say what, how much, when. Don't be sick on purpose, no food or \
             drink, don't stay alone. Out of the water, tell the lifeguard."
        ),
        // IFRC 2020 and NHS, hypothermia: call, dry, wrapped, head covered, not alone.
        Danger::Cold => format!(
            "Out of the water and wind, {call} now. Wet things off, wrap up, head too. No hot \
             bath. Don't stay alone, don't drive. Tell the lifeguard."
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
        // ERC 2021, presyncope, and NHS, fainting: lie flat, legs raised; after exertion
        // call.
        Danger::Faint => format!(
            "Stop. Out of the water now, lie down, legs up, {call} now. Tell the lifeguard, don't \
             stay alone, don't drive."
        ),
        // RCUK 2021, basic life support: shout for help, call.
        Danger::Unspecific | Danger::Unconscious => format!(
            "Stop. Out of the water now, shout for the lifeguard, {call} now. Don't stay \
             alone. Someone not breathing: press hard and fast on their chest."
        ),
        // NHS, head injury: not alone, signs to call for. Consensus of the Concussion in
        // Sport Group, Amsterdam 2022: out, watched; neck pain, double vision.
        Danger::Head => format!(
            "Out of the water now, tell the lifeguard. Don't stay alone or drive. Drowsy, \
             confused, sick, bad headache, neck pain, odd sight: {call}."
        ),
        // ERC 2021, presyncope: sit or lie down.
        Danger::Dizzy => format!(
            "Out of the water now, sit down, tell the lifeguard, don't stay alone. If it stays or \
             there is chest pain or trouble breathing: {call} now."
        ),
    }
}

/// To whoever is with the one in danger. Sources as above, and where they differ.
pub fn beside(danger: Danger, call: &str) -> String {
    match danger {
        // RCUK and St John, drowning: five breaths first, then 30 presses and two
        // breaths, a defibrillator; breathing: on the side. ERC 2021, basic life
        // support: gasping is not breathing.
        Danger::Unconscious => format!(
            "Shout for the lifeguard, get them out, {call}. Not breathing, or gasping: 5 \
             breaths, then 30 presses, 2 breaths, again; AED. Else on side."
        ),
        Danger::Choking => format!(
            "Can't cough: 5 hard blows between the shoulder blades, then 5 thrusts under the \
             ribs, in turn; {call}. Passes out: CPR. Tell the lifeguard."
        ),
        // NHS and RNLI: call, reach or throw, don't go in.
        Danger::Water => format!(
            "Shout for the lifeguard, {call}, even if they seem fine. Reach or throw, don't \
             jump in. Out: sit, warm. Not breathing: 5 breaths, then CPR."
        ),
        Danger::Bleeding => format!(
            "Out of the water; press a cloth hard on the wound, don't let go. Tell the \
             lifeguard, {call}. Lie them down. Nose: sit, lean forward, pinch."
        ),
        Danger::Allergy => format!(
            "Their adrenaline pen in outer thigh now, {call}. Lie them down, legs up; hard to \
             breathe: sit. They mustn't stand. 5 min no better: 2nd pen."
        ),
        // Delphi guideline on spinal injury in water (Scandinavian Journal of Trauma,
        // Resuscitation and Emergency Medicine, 2024): the airway goes before the spine.
        Danger::Spine => format!(
            "Keep head and neck still, tell the lifeguard, {call} now. In water: float face \
             up, hold the head in line. Not breathing: out at once, CPR."
        ),
        // Royal Life Saving Australia: face up in the water, out once it stops, look for
        // breathing. Epilepsy Foundation: don't restrain, on the side afterwards.
        Danger::Seizure => format!(
            "In water: hold their face up, out once jerking stops. Tell the lifeguard, {call} \
             now. Don't hold them down. Then on side; not breathing: CPR."
        ),
        Danger::Stroke => format!(
            "Get them out of the water now, tell the lifeguard, {call} now; note when it began. Sit \
             them down, no food or drink. Stay with them."
        ),
        Danger::Heart => format!(
            "Get them out of the water now, tell the lifeguard, {call} now. Sit them down, \
             send for the AED, stay. Not breathing, or gasping: CPR."
        ),
        Danger::Asthma => format!(
            "Out of the water, tell the lifeguard. Sit up, reliever inhaler: a puff each \
             30-60 s, up to 10. None, no relief, hard to talk: {call} now."
        ),
        Danger::Breath => format!(
            "Get them out of the water now, tell the lifeguard, {call} now. Sit them upright, loosen \
             what is tight. Stay with them."
        ),
        Danger::Sugar => format!(
            "Out of the water, tell the lifeguard. Awake: sugar now (juice, sweets). Drowsy: \
             nothing by mouth, on side. Drowsy, sick, no better: {call}."
        ),
        Danger::HeadSigns => format!(
            "Get them out of the water with head and neck still, tell the lifeguard, {call} \
             now. Stay. Drowsy or sick: on their side. Not breathing: CPR."
        ),
        Danger::Fumes => format!(
            "Everybody out into fresh air now, don't go in after them. {} now, tell the \
             lifeguard. Drowsy: on side. Not breathing: CPR.",
            first_upper(call)
        ),
        Danger::Poison => format!(
            "{} now; say what, how much, when. Don't make them sick. Drowsy: on side. Not \
             breathing: CPR. Tell the lifeguard, stay with them.",
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
            "Get them out of the water now, tell the lifeguard, {call} now. Lie them down, \
             legs up. Not breathing, or gasping: CPR. Stay with them."
        ),
        Danger::Unspecific => format!(
            "Get them out of the water, shout for the lifeguard, {call}. Stay. Not breathing, \
             or gasping: 5 breaths, press hard and fast on the chest."
        ),
        Danger::Head | Danger::Dizzy => format!(
            "Get them out of the water now, sit them down, tell the lifeguard. Stay. Worse, \
             drowsy, confused, sick, bad headache or chest pain: {call}."
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
        Danger::Seizure => "a fit (seizure)",
        Danger::Stroke => "face, arm, speech, sight or sudden headache",
        Danger::Heart => "chest, arm, jaw or heartbeat",
        Danger::Asthma => "trouble breathing, needs an inhaler",
        Danger::Breath => "trouble breathing, or a swollen calf",
        Danger::Sugar => "blood sugar",
        Danger::HeadSigns => "a knock to the head, with bad signs",
        Danger::Fumes => "fumes or gas",
        Danger::Poison => "poison or tablets",
        Danger::Cold => "chilled through",
        Danger::Heat => "overheated",
        Danger::Pregnancy => "a danger in pregnancy",
        Danger::Faint => "fainted or nearly",
        Danger::Unspecific => "help is needed",
        Danger::Head => "a knock to the head",
        Danger::Dizzy => "dizzy",
    }
}
