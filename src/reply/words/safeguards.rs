//! Who looks after whom.

use crate::history::{CareKind, ReadWhat, Role};
use crate::message::Name;
use crate::reply::{CareDone, CareLetter, CareRefusal, RecordLine, SeenLine, Voice, carried};

// What is told, and in which order.
impl Voice {
    /// Something done.
    pub(super) fn care_done(self, done: &CareDone) -> Vec<String> {
        match done {
            CareDone::Seen { who, times, latest } => {
                let one = |line: &SeenLine| {
                    let (day, role) = (self.short_day(line.on), self.was_in_squad(line.role));
                    format!("{day} {role}: {}", self.occasion(line.what))
                };
                let first = self.seen_times(who, *times);
                std::iter::once(first).chain(latest.iter().map(one)).collect()
            }
            CareDone::Records { accidents, disclosures, to_minors, years, latest } => {
                let one = |line: &RecordLine| {
                    let day = self.short_day(line.on);
                    format!("{day} {}", self.kept_apart(line.who.as_ref(), &line.what))
                };
                let first = self.records_kept(*accidents, *disclosures, *to_minors, *years);
                std::iter::once(first).chain(latest.iter().map(one)).collect()
            }
            done => vec![self.cared(done)],
        }
    }
}

// In which words.
impl Voice {
    /// Something done that is told in one line.
    fn cared(self, done: &CareDone) -> String {
        match done {
            CareDone::OfficerNamed { opens: true } => say!(
                self,
                "Stored: the welfare officer is told by text. The squad is open to joiners now.",
                "Guardado: se lo decimos por mensaje. El equipo ya esta abierto."
            ),
            CareDone::OfficerNamed { opens: false } => say!(
                self,
                "Stored: the welfare officer is told by text.",
                "Guardado: se lo decimos por mensaje."
            ),
            CareDone::EmergencyNumberKept { number } => say!(
                self,
                "Stored. Whoever is in danger is told to call {number}.",
                "Guardado. A quien esté en peligro se le dice que llame al {number}.",
                [number]
            ),
            CareDone::HelplineKept => say!(
                self,
                "Stored. Whoever writes of harm or fear is told this helpline.",
                "Guardado. Quien escriba de daño o miedo recibe este telefono."
            ),
            CareDone::GuardianAsked { who } => say!(
                self,
                "Asked: once they answer YES, they read along with {who}.",
                "Preguntado: cuando responda SI, lee los mensajes de {who}.",
                [who]
            ),
            CareDone::GuardianAgreed { who } => say!(
                self,
                "Thank you, your consent for {who} is stored. You get a copy of all texts; danger \
                 and pain at any hour, the rest from 8:00 to 20:00. Local rules come first.",
                "Gracias, guardamos tu permiso para {who}. Recibes copia de todo; peligro y dolor \
                 a cualquier hora, lo demas de 8:00 a 20:00. Mandan las normas de tu lugar.",
                [who]
            ),
            CareDone::GuardianEnded { who } => say!(
                self,
                "Stored: you get no more texts about {who}, and {who} gets none from us.",
                "Guardado: ya no te escribimos sobre {who}, ni a {who}.",
                [who]
            ),
            CareDone::GuardianReleases { who } => say!(
                self,
                "Stored. With a clinician's word too, the coach can release {who}.",
                "Guardado. Con la palabra de un medico, el entrenador puede dar paso a {who}.",
                [who]
            ),
            CareDone::Seen { .. } | CareDone::Records { .. } => String::new(),
        }
    }

    /// Why something was not done.
    pub(super) fn care_refusal(self, why: &CareRefusal) -> String {
        match why {
            CareRefusal::NoOfficer => say!(
                self,
                "This squad opens once the club has named its welfare officer: please ask the \
                 coach. Until then nothing but danger and pain is answered here.",
                "Este equipo abre cuando el club nombre a su responsable de bienestar. Pregunta \
                 al entrenador; hasta entonces se responde a peligro y a dolor."
            ),
            CareRefusal::AskBirthYear => say!(
                self,
                "First the year you were born: text BORN and the year. Under 18, please ask a \
                 parent to join you.",
                "Primero, el año en que naciste: escribe NACIDO y el año. Si tienes menos de 18, \
                 pide a tu madre o padre que se una."
            ),
            CareRefusal::AskParent => say!(
                self,
                "Please ask a parent to join you: text GUARDIAN and their number. Until they \
                 agree we store no training from you.",
                "Pide a tu madre o padre que se una: escribe TUTOR y su numero. Hasta que acepte \
                 no guardamos tus entrenos."
            ),
            CareRefusal::ParentTexts => say!(
                self,
                "Please ask your parent to text that for you from their phone.",
                "Pide a tu madre o padre que lo escriba desde su telefono."
            ),
            CareRefusal::CoachSetsAge => say!(
                self,
                "That year makes you a grown-up: please ask the coach to text it.",
                "Con ese año eres mayor de edad: pide al entrenador que lo escriba."
            ),
            CareRefusal::CoachNamesGuardian => say!(
                self,
                "Please ask the coach to text that number for you.",
                "Pide al entrenador que escriba ese numero."
            ),
            CareRefusal::NoSecondAdult { who } => say!(
                self,
                "Not sent: {who} is under 18, and a guardian and a second adult must read along. \
                 Add GUARDIAN {who} and their number, or invite an assistant.",
                "Sin enviar: {who} es menor y lo han de leer su tutor y otro adulto. Escribe \
                 TUTOR {who} y el numero, o invita a un ayudante.",
                [who]
            ),
            CareRefusal::StopNeeds { who, clinician, guardian } => {
                let what = match (clinician, guardian) {
                    (true, true) => self.pick(
                        "a clinician's word and the guardian's RELEASE",
                        "la palabra de un medico y la del tutor",
                    ),
                    (true, false) => self.pick(
                        "a clinician's word (text CLEARED BY THE DOCTOR)",
                        "la palabra de un medico",
                    ),
                    _ => self.pick(
                        "the guardian's RELEASE, texted from their phone",
                        "la palabra del tutor, desde su telefono",
                    ),
                };
                say!(
                    self,
                    "{who} is under 18 and stays stopped. Still to come: {what}.",
                    "{who} es menor y sigue en pausa. Aun hace falta: {what}.",
                    [who, what]
                )
            }
            CareRefusal::OfficerOnly => say!(
                self,
                "That is for the welfare officer.",
                "Eso es para responsables de bienestar."
            ),
            CareRefusal::OfficerApart => say!(
                self,
                "The welfare officer must be someone other than the coach.",
                "Responsable de bienestar ha de ser otra persona, no el entrenador."
            ),
        }
    }

    /// How often a swimmer's health was seen by others.
    fn seen_times(self, who: &Name, times: usize) -> String {
        match times {
            0 => say!(
                self,
                "Nobody else has read of {who}'s health here.",
                "Nadie mas ha leido aqui sobre la salud de {who}.",
                [who]
            ),
            1 => say!(
                self,
                "{who}'s health was read once by others:",
                "La salud de {who} la ha leido alguien una vez:",
                [who]
            ),
            times => say!(
                self,
                "{who}'s health was read {times} times by others, latest first:",
                "La salud de {who} se ha leido {times} veces, la ultima primero:",
                [who, times]
            ),
        }
    }

    /// An occasion on which it was seen.
    fn occasion(self, what: ReadWhat) -> &'static str {
        match what {
            ReadWhat::Alert => self.pick("warned by us", "recibio un aviso"),
            ReadWhat::Board => self.pick("looked at the board", "miro la pizarra"),
            ReadWhat::Card => self.pick("asked for the card", "pidio la ficha"),
            ReadWhat::Squad => self.pick("asked for the squad", "pidio el equipo"),
        }
    }

    /// What someone is in the squad; for `None` they have left.
    pub(super) fn was_in_squad(self, role: Option<Role>) -> &'static str {
        match role {
            Some(Role::Coach) => self.pick("coach", "entrenador"),
            Some(Role::Assistant) => self.pick("assistant", "ayudante"),
            Some(Role::Swimmer) => self.pick("swimmer", "nadador"),
            Some(Role::Guardian) => self.pick("guardian", "tutor"),
            Some(Role::WelfareOfficer) => self.pick("welfare officer", "bienestar"),
            None => self.pick("someone who left", "alguien que se fue"),
        }
    }

    /// How much is kept apart, and for how long.
    fn records_kept(
        self,
        accidents: usize,
        disclosures: usize,
        to_minors: usize,
        years: u16,
    ) -> String {
        say!(
            self,
            "Kept apart, {years} years: {accidents} of accidents, {disclosures} of worries, \
             {to_minors} texts to minors.",
            "Guardado aparte, {years} años: {accidents} de accidentes, {disclosures} de \
             preocupaciones, {to_minors} mensajes a menores.",
            [years, accidents, disclosures, to_minors]
        )
    }

    /// A record that is kept apart.
    fn kept_apart(self, who: Option<&Name>, what: &CareKind) -> String {
        let who = who.map_or(self.pick("someone", "alguien"), Name::as_str);
        match what {
            CareKind::Accident { words } => format!("{who}: {}", carried(words)),
            CareKind::Disclosure { .. } => {
                say!(self, "{who} wrote of harm or fear", "{who} escribio de daño o miedo", [who])
            }
            CareKind::Overruled { by } => say!(
                self,
                "{who}'s stop lifted on the word of {by}",
                "parada de {who} levantada bajo la palabra de {by}",
                [who, by = carried(by)]
            ),
            CareKind::ToMinor { words } => {
                say!(self, "to {who}: {words}", "a {who}: {words}", [who, words = carried(words)])
            }
        }
    }

    /// What someone is asked who has just joined a squad with minors.
    pub(super) fn ask_birth_year(self) -> &'static str {
        self.pick(
            "What year were you born? Text BORN and the year. Under 18, a parent joins you: text \
             GUARDIAN and their number.",
            "¿En que año naciste? Escribe NACIDO y el año. Con menos de 18, tu madre o padre se \
             une: escribe TUTOR y su numero.",
        )
    }

    /// What goes to others.
    pub fn care_letter(self, letter: &CareLetter) -> String {
        match letter {
            CareLetter::Disclosure { by, squad } => say!(
                self,
                "Welfare, {squad}: {by} has just written of harm or fear. Nobody else is told and \
                 the words are kept nowhere. Please speak with them today, by your club's \
                 procedure.",
                "Bienestar, {squad}: {by} acaba de escribir de daño o miedo. Nadie mas lo sabe y \
                 las palabras no se guardan. Habla hoy con esa persona, segun el protocolo del \
                 club.",
                [squad, by]
            ),
            CareLetter::NowOfficer { squad } => say!(
                self,
                "You are now welfare officer of {squad}: you alone hear when someone writes of \
                 harm or fear. Text HELPLINE and a number to set one, RECORDS for what is kept.",
                "Ahora eres responsable de bienestar de {squad}: nadie mas sabe si alguien \
                 escribe de daño o miedo. LINEA DE AYUDA y un numero la fija; PARTES dice que se \
                 guarda.",
                [squad]
            ),
            CareLetter::AskGuardian { who, squad } => say!(
                self,
                "{squad}, a swim squad: {who} names you as parent or guardian. May {who} text \
                 with us, and you read along? Danger and pain come at any hour, the rest \
                 8:00-20:00. YES or NO.",
                "{squad}, un equipo de natacion: {who} te nombra madre, padre o tutor. ¿Puede \
                 escribir con nosotros y lees tu? Peligro y dolor a cualquier hora, lo demas \
                 8:00-20:00. SI o NO.",
                [squad, who]
            ),
            CareLetter::GuardianAgreed { who } => say!(
                self,
                "{who}'s guardian agreed and reads along.",
                "El tutor de {who} ha aceptado y lee sus mensajes.",
                [who]
            ),
            CareLetter::GuardianReleases { who } => say!(
                self,
                "{who}'s guardian agrees that the stop be lifted.",
                "El tutor de {who} acepta que termine la pausa.",
                [who]
            ),
            CareLetter::ToGuardian { who, what } => {
                say!(self, "{who}, just now: {what}", "{who}, ahora mismo: {what}", [who, what])
            }
            CareLetter::CopyOf { who, words } => say!(
                self,
                "Copy, {who}: {words}",
                "Copia, {who}: {words}",
                [who, words = carried(words)]
            ),
            CareLetter::OfAge { who } => say!(
                self,
                "{who} is 18 or over by the year of birth: from now on no texts are copied to a \
                 guardian.",
                "{who} ya es mayor de edad por su año: desde ahora no se copia nada a un tutor.",
                [who]
            ),
        }
    }
}
