//! The first act for each kind of danger: what first-aid bodies teach the public
//! to do first, never what may be wrong.
//!
//! Each fits one SMS of 160 characters, or the 153 of the first of several where the
//! number to call has up to four digits. Sources stand beside each; ERC is the
//! European Resuscitation Council, RCUK the Resuscitation Council UK, IFRC the
//! International Federation of Red Cross and Red Crescent Societies. The guidelines
//! named are from memory where they were not at hand; the words were read once
//! against published teaching, and should be again before they are changed.

use super::small::first_upper;
use crate::message::Danger;
use crate::reply::{Voice, carried};

impl Voice {
    /// To the one who is in danger.
    pub(super) fn first_aid(self, danger: Danger, call: &str) -> String {
        let upper = first_upper(call);
        match danger {
            // ERC 2021 and 2025, first aid, stroke: signs, call at once. NHS and the American
            // Heart Association: when it began. St John and Red Cross: nothing by mouth.
            Danger::Stroke => say!(
                self,
                "{upper} now, even if it passes; note when it began. Out of the water, sit, don't \
                 eat or drink. Tell the lifeguard, don't stay alone.",
                "{upper} ya, aunque se pase; apunta cuando empezo. Sal del agua, siéntate, no \
                 comas ni bebas. Avisa al socorrista, que alguien se quede contigo.",
                [upper]
            ),
            // IFRC 2020, chest pain: sit, rest, call. NHS: call even if in doubt. ERC 2021
            // has an early aspirin for adults: left to whoever answers the call, as this is
            // also for racing hearts, minors and those whose blood is thinned.
            Danger::Heart => say!(
                self,
                "Stop. Out of the water now, sit down and rest, {call} now. Tell the lifeguard, \
                 don't stay alone, don't drive.",
                "Para. Sal del agua ya, siéntate y descansa, {call} ya. Avisa al socorrista, que \
                 alguien se quede contigo, no conduzcas.",
                [call]
            ),
            // IFRC 2020, breathing difficulties: the position that eases it, most often upright.
            Danger::Breath => say!(
                self,
                "Stop. Out of the water now, sit upright, {call} now. Loosen what is tight. Tell \
                 the lifeguard, don't stay alone.",
                "Para. Sal del agua ya, siéntate con la espalda recta, {call} ya. Afloja lo que \
                 apriete. Avisa al socorrista, que alguien se quede contigo.",
                [call]
            ),
            // NHS and Asthma + Lung UK: a puff every 30 to 60 s, up to ten; call at once if it
            // gets worse or there is no inhaler.
            Danger::Asthma => say!(
                self,
                "Out of the water, sit up, reliever inhaler: a puff each 30-60 s, up to 10. None, \
                 no relief, hard to talk: {call} now. Tell the lifeguard.",
                "Sal del agua, siéntate, inhalador de rescate: un puff cada 30-60 s, hasta 10. Si \
                 no hay, no ayuda o te cuesta hablar: {call}. Avisa al socorrista.",
                [call]
            ),
            // ERC 2025, first aid, and St John, drowning: whoever breathed water in is seen
            // by a clinician; IFRC 2020: sit up, keep warm.
            Danger::Water => say!(
                self,
                "Stop. Out of the water now, sit upright, keep warm, {call} now, even if it \
                 eases. Tell the lifeguard, don't stay alone.",
                "Para. Sal del agua ya, siéntate, abrigate, {call} ya, aunque mejore. Avisa al \
                 socorrista, que alguien se quede contigo.",
                [call]
            ),
            // ERC 2021, basic life support, and 2025, first aid, choking: cough; five blows on
            // the back, five thrusts.
            Danger::Choking => say!(
                self,
                "Cough hard. If you can't: let someone give 5 blows between the shoulder blades, \
                 then 5 thrusts under the ribs; {call}. Tell the lifeguard.",
                "Tose fuerte. Si no puedes: que te den 5 golpes entre los omoplatos y 5 \
                 compresiones bajo las costillas; {call}. Avisa al socorrista.",
                [call]
            ),
            // ERC 2021 and 2025, life-threatening bleeding: firm direct pressure. NHS,
            // nosebleed: sit, lean forward, pinch.
            Danger::Bleeding => say!(
                self,
                "Out of the water. Press a cloth hard on the wound, don't let go, lie down, \
                 {call} now. Nose: sit, lean forward, pinch. Tell the lifeguard.",
                "Sal del agua. Aprieta fuerte la herida con un paño sin soltar, tumbate, {call}. \
                 Nariz: siéntate, inclinate adelante, pinzala. Avisa al socorrista.",
                [call]
            ),
            // RCUK 2021, anaphylaxis: adrenaline into the outer thigh at once, call, lie, don't
            // stand, again after 5 minutes.
            Danger::Allergy => say!(
                self,
                "Adrenaline pen, if any, outer thigh; {call} now. Out of the water, lie, legs up; \
                 hard to breathe: sit. Don't stand. 5 min no better: again.",
                "Adrenalina en el muslo ya, si tienes; {call}. Sal del agua, tumbate, piernas en \
                 alto; sin aire: siéntate. No te levantes. 5 min sin mejora: otra.",
                [call]
            ),
            // ERC 2021, spinal injury: keep still, restrict movement; IFRC 2020.
            Danger::Spine => say!(
                self,
                "Keep still, don't turn or bend your neck. {upper} now, let someone tell the \
                 lifeguard. In the water: float and let them hold your head.",
                "No te muevas, no gires el cuello. {upper} ya y que alguien avise al socorrista. \
                 En el agua: flota y que te sujeten la cabeza.",
                [upper]
            ),
            // Epilepsy Foundation, Epilepsy Society: after a fit in or by the water call; no
            // driving. Royal Life Saving Australia: hold the face of one in the water up.
            Danger::Seizure => say!(
                self,
                "Stop. Out of the water, lie on your side, {call} now. Tell the lifeguard, don't \
                 stay alone or drive. Someone else: hold their face up.",
                "Para. Sal del agua, tumbate de lado, {call} ya. Avisa al socorrista, no te \
                 quedes a solas ni conduzcas. Si es otra persona: su cara fuera del agua.",
                [call]
            ),
            // ERC 2021 and 2025, hypoglycaemia: 15 to 20 g of sugar by mouth, again after
            // 15 minutes.
            Danger::Sugar => say!(
                self,
                "Out of the water. Low or unsure: sugar now (juice, sweets), test in 15 min. No \
                 better, drowsy, sick: {call}. Tell the lifeguard, don't drive.",
                "Sal del agua ya. Si esta bajo o no lo sabes: azucar ya (zumo, dulces), mide en \
                 15 min. Si no mejora, vomitos o sueño: {call}. Avisa al socorrista.",
                [call]
            ),
            // NICE NG232 and NHS, head injury: with these signs call at once.
            Danger::HeadSigns => say!(
                self,
                "Stop. Out of the water, keep still, {call} now. Don't stay alone, don't sleep it \
                 off, don't drive. Tell the lifeguard.",
                "Para. Sal del agua, no muevas el cuello, {call} ya. Que alguien se quede \
                 contigo, no te eches a dormir ni conduzcas. Avisa al socorrista.",
                [call]
            ),
            // Centers for Disease Control, chlorine: out into fresh air, off with what is wet;
            // NHS, carbon monoxide and fumes: call.
            Danger::Fumes => say!(
                self,
                "Everybody out into fresh air now, away from it. {upper} now, tell the lifeguard. \
                 Don't go back in or stay alone. In the eyes: rinse.",
                "Todos fuera ya, al aire libre, lejos de ello. {upper} ya, avisa al socorrista. \
                 No vuelvas a entrar, no te quedes a solas. En los ojos: agua.",
                [upper]
            ),
            // IFRC 2020 and NHS, poisoning: call, say what; don't make yourself sick.
            Danger::Poison => say!(
                self,
                "{upper} now; say what, how much, when. Don't be sick on purpose, no food or \
                 drink, don't stay alone. Out of the water, tell the lifeguard.",
                "{upper} ya: di qué, cuanto y cuando. No provoques el vomito, no comas ni bebas, \
                 no te quedes a solas. Fuera del agua, avisa al socorrista.",
                [upper]
            ),
            // IFRC 2020 and NHS, hypothermia: call, dry, wrapped, head covered, not alone.
            Danger::Cold => say!(
                self,
                "Out of the water and wind, {call} now. Wet things off, wrap up, head too. No hot \
                 bath. Don't stay alone, don't drive. Tell the lifeguard.",
                "Sal del agua y del viento, {call} ya. Ropa seca, abrigate, tapa la cabeza. Sin \
                 baño caliente ni frotar. No te quedes a solas. Avisa al socorrista.",
                [call]
            ),
            // ERC 2021 and 2025, heat stroke: cool at once, cold water to the body.
            Danger::Heat => say!(
                self,
                "Out of the heat now, lie down, {call}. Cool down at once: cold water, wet \
                 cloths, a fan. Tell the lifeguard, don't stay alone.",
                "Sal del calor ya, tumbate, {call}. Enfriate ya: agua fria, paños mojados, aire. \
                 Avisa al socorrista, que alguien se quede contigo.",
                [call]
            ),
            // NHS, bleeding or fewer movements in pregnancy: ring the maternity unit at
            // once.
            Danger::Pregnancy => say!(
                self,
                "Out of the water now, lie on your side, ring your maternity unit now. Heavy \
                 bleeding, strong pain, faint: {call}. Tell the lifeguard.",
                "Sal del agua ya, tumbate de lado, llama ya a tu maternidad. Mucha sangre, dolor \
                 fuerte o desmayo: {call}. Avisa al socorrista.",
                [call]
            ),
            // ERC 2021, presyncope, and NHS, fainting: lie flat, legs raised; after exertion
            // call.
            Danger::Faint => say!(
                self,
                "Stop. Out of the water now, lie down, legs up, {call} now. Tell the lifeguard, \
                 don't stay alone, don't drive.",
                "Para. Sal del agua ya, tumbate, piernas en alto, {call} ya. Avisa al socorrista, \
                 que alguien se quede contigo, no conduzcas.",
                [call]
            ),
            // RCUK 2021, basic life support: shout for help, call.
            Danger::Unspecific | Danger::Unconscious => say!(
                self,
                "Stop. Out of the water now, shout for the lifeguard, {call} now. Don't stay \
                 alone. Someone not breathing: press hard and fast on their chest.",
                "Para. Sal del agua ya, pide ayuda a gritos, {call} ya. Que alguien se quede \
                 contigo. Si otra persona no respira: comprime fuerte y rapido su pecho.",
                [call]
            ),
            // NHS, head injury: not alone, signs to call for. Consensus of the Concussion in
            // Sport Group, Amsterdam 2022: out, watched; neck pain, double vision.
            Danger::Head => say!(
                self,
                "Out of the water now, tell the lifeguard. Don't stay alone or drive. Drowsy, \
                 confused, sick, bad headache, neck pain, odd sight: {call}.",
                "Sal del agua ya, avisa al socorrista. No te quedes a solas ni conduzcas. Sueño, \
                 vomitos, confusion, fuerte dolor de cabeza o cuello: {call}.",
                [call]
            ),
            // ERC 2021, presyncope: sit or lie down.
            Danger::Dizzy => say!(
                self,
                "Out of the water now, sit down, tell the lifeguard, don't stay alone. If it \
                 stays or there is chest pain or trouble breathing: {call} now.",
                "Sal del agua ya, siéntate, avisa al socorrista y que alguien se quede contigo. \
                 Si sigue, o dolor de pecho o falta de aire: {call} ya.",
                [call]
            ),
        }
    }

    /// `call 999`; without a number, that of the emergency services.
    pub(super) fn call(self, number: Option<&str>) -> String {
        match number {
            Some(number) => {
                say!(self, "call {number}", "llama al {number}", [number = carried(number)])
            }
            None => say!(self, "call the emergency number", "llama a emergencias"),
        }
    }

    /// What it looks like, for an alert.
    pub(super) fn danger_named(self, danger: Danger) -> &'static str {
        match danger {
            Danger::Unconscious => {
                self.pick("not answering or not breathing", "no responde o no respira")
            }
            Danger::Choking => self.pick("choking", "atragantamiento"),
            Danger::Water => self.pick(
                "water breathed in or trouble in the water",
                "agua respirada o apuros en el agua",
            ),
            Danger::Bleeding => self.pick("heavy bleeding", "mucha sangre"),
            Danger::Allergy => self.pick(
                "swelling or a reaction to food or a sting",
                "hinchazon o reaccion a comida o picadura",
            ),
            Danger::Spine => self.pick(
                "neck or back hurt, or no feeling",
                "cuello o espalda, o falta de sensibilidad",
            ),
            Danger::Seizure => self.pick("a fit (seizure)", "convulsiones"),
            Danger::Stroke => self.pick(
                "face, arm, speech, sight or sudden headache",
                "cara, brazo, habla, vista o dolor de cabeza subito",
            ),
            Danger::Heart => {
                self.pick("chest, arm, jaw or heartbeat", "pecho, brazo, mandibula o latido")
            }
            Danger::Asthma => self
                .pick("trouble breathing, needs an inhaler", "falta de aire, necesita inhalador"),
            Danger::Breath => self.pick(
                "trouble breathing, or a swollen calf",
                "falta de aire o pantorrilla hinchada",
            ),
            Danger::Sugar => self.pick("blood sugar", "azucar en sangre"),
            Danger::HeadSigns => self.pick(
                "a knock to the head, with bad signs",
                "golpe en la cabeza, con signos de alarma",
            ),
            Danger::Fumes => self.pick("fumes or gas", "gases o humo"),
            Danger::Poison => self.pick("poison or tablets", "veneno o pastillas"),
            Danger::Cold => self.pick("chilled through", "helado de frio"),
            Danger::Heat => self.pick("overheated", "demasiado calor"),
            Danger::Pregnancy => self.pick("a danger in pregnancy", "peligro en el embarazo"),
            Danger::Faint => self.pick("fainted or nearly", "desmayo o casi"),
            Danger::Unspecific => self.pick("help is needed", "hace falta ayuda"),
            Danger::Head => self.pick("a knock to the head", "golpe en la cabeza"),
            Danger::Dizzy => self.pick("dizzy", "mareo"),
        }
    }
}
