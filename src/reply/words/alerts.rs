//! What a coach is told unasked: pain, danger, who may not swim hard yet.

use crate::message::{Danger, Name};
use crate::reply::{Alert, CautionKind, Voice};

// What is told, and in which order.
impl Voice {
    /// What a coach is told unasked.
    pub fn alert(self, alert: &Alert) -> String {
        let who = match (&alert.who, &alert.by) {
            (Some(who), None) => who.to_string(),
            (Some(who), Some(by)) => self.as_told_by(who.as_str(), by),
            (None, None) => self.someone().to_owned(),
            (None, Some(by)) => self.as_told_by(self.someone(), by),
        };
        let who = who.as_str();
        let contact =
            alert.contact.as_ref().map(|to| format!(" {}", self.contact(to))).unwrap_or_default();
        match &alert.kind {
            CautionKind::Pain { place, level, again } => {
                self.pain_alert(who, place, *level, *again)
            }
            CautionKind::Danger { danger, .. } | CautionKind::Beside { danger, .. } => {
                self.danger_alert(who, *danger, alert.who.as_ref()) + &contact
            }
            _ => self.danger_alert(who, Danger::Unspecific, alert.who.as_ref()) + &contact,
        }
    }
}

// In which words.
impl Voice {
    /// To the coach: a swimmer says that a clinician has cleared them.
    pub fn cleared_alert(self, who: &Name, stopped: bool) -> String {
        if !stopped {
            return say!(
                self,
                "{who} says a clinician is content that they swim. They are not stopped; start \
                 them gently.",
                "{who} dice que un médico deja que nade. No está en pausa; que empiece suave.",
                [who]
            );
        }
        say!(
            self,
            "{who} says a clinician has cleared it. If you are content with that, text RELEASE \
             {who}; until then {who} stays stopped.",
            "{who} dice que un médico lo ha autorizado. Si te parece bien, escribe LIBERA {who}; \
             hasta entonces sigue en pausa.",
            [who]
        )
    }

    /// In an alert, for a swimmer whom we don't know.
    fn someone(self) -> &'static str {
        self.pick("Someone in the squad", "Alguien del equipo")
    }

    /// In an alert, `who` as another's text has it.
    fn as_told_by(self, who: &str, by: &Name) -> String {
        say!(self, "{who} (text from {by})", "{who} (lo escribe {by})", [who, by])
    }

    /// Tells a coach of pain, of that level if one was said, perhaps `again`.
    fn pain_alert(self, who: &str, place: &str, level: Option<u8>, again: bool) -> String {
        let of_ten = self.of_ten(level);
        let again = if again {
            self.pick(", the second report in two weeks", ", segundo aviso en dos semanas")
        } else {
            ""
        };
        say!(
            self,
            "{who}: {pain}{of_ten}{again}. The next session is lowered.",
            "{who}: {pain}{of_ten}{again}. El proximo entreno sera mas ligero.",
            [who, pain = self.pain_in(place), of_ten, again]
        )
    }

    /// Tells a coach of a danger of this kind.
    fn danger_alert(self, who: &str, danger: Danger, stopped: Option<&Name>) -> String {
        say!(
            self,
            "ALERT {who}: {danger}. Make sure help is there. {until}",
            "ALERTA {who}: {danger}. Asegurate de que tenga ayuda. {until}",
            [who, danger = self.danger_named(danger), until = self.until_released(stopped)]
        )
    }

    /// To the coach: a swimmer's answers to the questions on joining leave
    /// something to be asked.
    pub fn not_ready_alert(self, who: &Name) -> String {
        say!(
            self,
            "{who} has answered the health questions, not all with a clear no. Plans stay easy \
             until you have talked and text RELEASE {who}.",
            "{who} ha respondido a las preguntas de salud, no a todas con un no claro. Todo suave \
             hasta que habléis y escribas LIBERA {who}.",
            [who]
        )
    }

    /// In a danger alert: whom to call.
    fn contact(self, contact: &str) -> String {
        say!(self, "Emergency contact: {contact}.", "Contacto de emergencia: {contact}.", [contact])
    }

    fn until_released(self, stopped: Option<&Name>) -> String {
        let release = stopped
            .map(|who| say!(self, " and you text RELEASE {who}", " y escribas LIBERA {who}", [who]))
            .unwrap_or_default();
        say!(
            self,
            "No swimming until a clinician has cleared it{release}.",
            "Fuera del agua hasta que lo autorice un médico{release}.",
            [release]
        )
    }
}
