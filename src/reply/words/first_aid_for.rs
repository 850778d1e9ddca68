//! The first act for whoever is with the one in danger. How long each may be and what
//! the sources' names stand for is said in `first_aid`; sources as there, and here where
//! they differ.

use super::small::first_upper;
use crate::message::Danger;
use crate::reply::Voice;

impl Voice {
    /// To whoever is with the one in danger.
    pub(super) fn first_aid_for(self, danger: Danger, call: &str) -> String {
        match danger {
            // RCUK and St John, drowning: five breaths first, then 30 presses and two
            // breaths, a defibrillator; breathing: on the side. ERC 2021, basic life
            // support: gasping is not breathing.
            Danger::Unconscious => say!(
                self,
                "Shout for the lifeguard, get them out, {call}. Not breathing, or gasping: 5 \
                 breaths, then 30 presses, 2 breaths, again; AED. Else on side.",
                "Grita al socorrista, sacale del agua, {call}. Si no respira o boquea: 5 soplos \
                 boca a boca, 30 compresiones y 2, y sigue; DEA. Si respira: de lado.",
                [call]
            ),
            Danger::Choking => say!(
                self,
                "Can't cough: 5 hard blows between the shoulder blades, then 5 thrusts under the \
                 ribs, in turn; {call}. Passes out: CPR. Tell the lifeguard.",
                "Si no puede toser: 5 golpes fuertes entre los omoplatos, luego 5 compresiones \
                 bajo las costillas; {call}. Si se desmaya: RCP. Avisa al socorrista.",
                [call]
            ),
            // NHS and RNLI: call, reach or throw, don't go in.
            Danger::Water => say!(
                self,
                "Shout for the lifeguard, {call}, even if they seem fine. Reach or throw, don't \
                 jump in. Out: sit, warm. Not breathing: 5 breaths, then CPR.",
                "Grita al socorrista, {call}, aunque se vea bien. Tiende o lanza algo, no te \
                 tires. Fuera: sentado, abrigado. Si no respira: 5 boca a boca y RCP.",
                [call]
            ),
            Danger::Bleeding => say!(
                self,
                "Out of the water; press a cloth hard on the wound, don't let go. Tell the \
                 lifeguard, {call}. Lie them down. Nose: sit, lean forward, pinch.",
                "Fuera del agua, aprieta fuerte la herida con un paño sin soltar. Avisa al \
                 socorrista, {call}. Que se tumbe. Nariz: sentado, hacia delante, pinzala.",
                [call]
            ),
            Danger::Allergy => say!(
                self,
                "Adrenaline pen in their outer thigh now, {call}, tell the lifeguard. Lie, legs \
                 up; hard to breathe: sit; not stand. 5 min no better: again.",
                "Su adrenalina en el muslo ya, {call}, avisa al socorrista. Que se tumbe, piernas \
                 en alto; sin aire: sentado, no de pie. 5 min sin mejora: otra.",
                [call]
            ),
            // Delphi guideline on spinal injury in water (Scandinavian Journal of Trauma,
            // Resuscitation and Emergency Medicine, 2024): the airway goes before the spine.
            Danger::Spine => say!(
                self,
                "Keep head and neck still, tell the lifeguard, {call} now. In water: float face \
                 up, hold the head in line. Not breathing: out at once, CPR.",
                "Que no mueva cabeza ni cuello, avisa al socorrista, {call} ya. En el agua: boca \
                 arriba, sujeta su cabeza en linea. Si no respira: fuera ya, RCP.",
                [call]
            ),
            // Royal Life Saving Australia: face up in the water, out once it stops, look for
            // breathing. Epilepsy Foundation: don't restrain, on the side afterwards.
            Danger::Seizure => say!(
                self,
                "In water: hold their face up, out once jerking stops. Tell the lifeguard, {call} \
                 now. Don't hold them down. Then on side; not breathing: CPR.",
                "En el agua: mantén su cara fuera; sacalo al parar. Avisa al socorrista, {call} \
                 ya. No sujetes, aparta objetos. Luego de lado; si no respira: RCP.",
                [call]
            ),
            Danger::Stroke => say!(
                self,
                "Get them out of the water now, tell the lifeguard, {call} now; note when it \
                 began. Sit them down, no food or drink. Stay with them.",
                "Que salga del agua ya, avisa al socorrista, {call} ya; apunta cuando empezo. \
                 Sentado, sin comer ni beber. Quédate a su lado.",
                [call]
            ),
            Danger::Heart => say!(
                self,
                "Get them out of the water now, tell the lifeguard, {call} now. Sit them down, \
                 send for the AED, stay. Not breathing, or gasping: CPR.",
                "Que salga del agua ya, avisa al socorrista, {call} ya. Sentado y quieto, que \
                 traigan el DEA. Quédate a su lado. Si no respira o boquea: RCP.",
                [call]
            ),
            Danger::Asthma => say!(
                self,
                "Out of the water, tell the lifeguard. Sit up, reliever inhaler: a puff each \
                 30-60 s, up to 10. None, no relief, hard to talk: {call} now.",
                "Fuera del agua, avisa al socorrista. Sentado, inhalador de rescate: un puff cada \
                 30-60 s, hasta 10. Si no hay, no ayuda o no puede hablar: {call}.",
                [call]
            ),
            Danger::Breath => say!(
                self,
                "Get them out of the water now, tell the lifeguard, {call} now. Sit them upright, \
                 loosen what is tight. Stay with them.",
                "Que salga del agua ya, avisa al socorrista, {call} ya. Sentado, afloja lo que \
                 apriete. Quédate a su lado.",
                [call]
            ),
            Danger::Sugar => say!(
                self,
                "Out of the water, tell the lifeguard. Awake: sugar now (juice, sweets). Drowsy: \
                 nothing by mouth, on side. Drowsy, sick, no better: {call}.",
                "Fuera del agua, avisa al socorrista. Si responde: azucar (zumo, dulces). Con \
                 sueño: nada en la boca, de lado. Sueño, vomitos o no mejora: {call}.",
                [call]
            ),
            Danger::HeadSigns => say!(
                self,
                "Get them out of the water with head and neck still, tell the lifeguard, {call} \
                 now. Stay. Drowsy or sick: on their side. Not breathing: CPR.",
                "Que salga del agua sin mover cabeza ni cuello, avisa al socorrista, {call} ya. \
                 Quédate a su lado. Con sueño o vomitos: de lado. Si no respira: RCP.",
                [call]
            ),
            Danger::Fumes => say!(
                self,
                "Everybody out into fresh air now, don't go in after them. {call} now, tell the \
                 lifeguard. Drowsy: on side. Not breathing: CPR.",
                "Todos fuera ya, al aire libre, no entres por nadie. {call} ya, avisa al \
                 socorrista. Con sueño: de lado. Si no respira: RCP.",
                [call = first_upper(call)]
            ),
            Danger::Poison => say!(
                self,
                "{call} now; say what, how much, when. Don't make them sick. Drowsy: on side. Not \
                 breathing: CPR. Tell the lifeguard, stay with them.",
                "{call} ya: di qué, cuanto y cuando. No le hagas vomitar. Con sueño: de lado. Si \
                 no respira: RCP. Avisa al socorrista, quédate a su lado.",
                [call = first_upper(call)]
            ),
            Danger::Cold => say!(
                self,
                "Get them out of the water and wind, tell the lifeguard, {call} now. Lie them \
                 down, wet things off, wrap them, head too. No hot bath.",
                "Que salga del agua y del viento, avisa al socorrista, {call} ya. Tumbado, ropa \
                 seca, con mantas, cabeza tapada. Sin frotar ni baño caliente.",
                [call]
            ),
            Danger::Heat => say!(
                self,
                "Get them out of the heat now, {call} now. Cool them at once: cold water over the \
                 body, wet cloths, a fan. Tell the lifeguard, stay with them.",
                "Que salga del calor ya, {call} ya. Enfrialo ya: agua fria por el cuerpo, paños, \
                 aire. Avisa al socorrista, quédate a su lado.",
                [call]
            ),
            Danger::Pregnancy => say!(
                self,
                "Get them out of the water now, lie them on their side, ring the maternity unit; \
                 bleeding, strong pain, faint: {call}. Tell the lifeguard.",
                "Que salga del agua ya, tumbada de lado, llama a su maternidad; mucha sangre, \
                 dolor fuerte o desmayo: {call}. Avisa al socorrista.",
                [call]
            ),
            Danger::Faint => say!(
                self,
                "Get them out of the water now, tell the lifeguard, {call} now. Lie them down, \
                 legs up. Not breathing, or gasping: CPR. Stay with them.",
                "Que salga del agua ya, avisa al socorrista, {call} ya. Tumbado, piernas en alto. \
                 Si no respira o boquea: RCP. Quédate a su lado.",
                [call]
            ),
            Danger::Unspecific => say!(
                self,
                "Get them out of the water, shout for the lifeguard, {call}. Stay. Not breathing, \
                 or gasping: 5 breaths, press hard and fast on the chest.",
                "Que salga del agua ya, avisa al socorrista, {call}. Quédate a su lado. Si no \
                 respira o boquea: 5 soplos y comprime fuerte y rapido el pecho.",
                [call]
            ),
            Danger::Head | Danger::Dizzy => say!(
                self,
                "Get them out of the water now, sit them down, tell the lifeguard. Stay. Worse, \
                 drowsy, confused, sick, bad headache or chest pain: {call}.",
                "Que salga del agua ya y se siente, avisa al socorrista. Quédate a su lado. Si va \
                 a mas, o con sueño, vomitos, confusion o dolor de pecho: {call}.",
                [call]
            ),
        }
    }
}
