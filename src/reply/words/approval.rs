//! Plans that wait for the coach's yes.

use crate::message::Name;
use crate::reply::{Answered, ApprovalRefusal, ApprovalReply, PlanLetter, Voice, WaitingLine};

// What is told, and in which order.
impl Voice {
    /// Whatever is said about them.
    pub(super) fn approval(self, reply: &ApprovalReply) -> Vec<String> {
        match reply {
            ApprovalReply::Wish { wanted, answered } => {
                let mut lines = vec![self.plans_wait(*wanted).to_owned()];
                lines.extend(self.answered(answered));
                lines
            }
            ApprovalReply::List { wanted, waiting } if waiting.is_empty() => {
                vec![self.none_waits(*wanted).to_owned()]
            }
            ApprovalReply::List { waiting, .. } => {
                let mut lines = vec![self.how_many_wait(waiting.len())];
                lines.extend(waiting.iter().map(|one| format!("{}.", self.waiting(one))));
                lines
            }
            ApprovalReply::Given(answered) => self.answered(answered),
            ApprovalReply::SentBack { who, told } => vec![self.was_sent_back(who.as_str(), *told)],
            ApprovalReply::Waits { planned } => vec![self.yours_waits(*planned).to_owned()],
            ApprovalReply::ToSwimmer(PlanLetter::Given { plan, lowered }) => {
                let mut lines = vec![self.coach_says_yes(*lowered).to_owned()];
                lines.extend(self.plan(plan));
                lines
            }
            ApprovalReply::ToSwimmer(PlanLetter::SentBack { planned }) => {
                vec![self.yours_sent_back(*planned).to_owned()]
            }
            ApprovalReply::ToSwimmer(PlanLetter::WaitsAgain) => {
                vec![self.yours_waits_again().to_owned()]
            }
        }
    }

    /// `heron: 2400m, 3 sessions, 1 hard`
    pub(super) fn waiting(self, line: &WaitingLine) -> String {
        let distance = line.distance.to_string();
        self.waiting_line(line.who.as_str(), &distance, line.sessions, line.hard)
    }

    /// What became of those that waited, what needs looking at first.
    fn answered(self, answered: &Answered) -> Vec<String> {
        let said = |names: &[Name], said: &dyn Fn(&str) -> String| {
            let listed: Vec<&str> = names.iter().map(Name::as_str).collect();
            (!names.is_empty()).then(|| said(&listed.join(", ")))
        };
        let lines = [
            said(&answered.stopped, &|names| self.wait_on(names)),
            said(&answered.given, &|names| self.went_out(names)),
            said(&answered.lowered, &|names| self.were_lowered(names)),
            said(&answered.untold, &|names| self.not_told(names)),
        ];
        lines.into_iter().flatten().collect()
    }
}

// In which words.
impl Voice {
    /// Plans wait from now on, or no longer.
    fn plans_wait(self, wanted: bool) -> &'static str {
        if wanted {
            self.pick(
                "Plans wait for your yes from now on; easy ones go out at once. SQUAD WAITING \
                 lists them, APPROVE ALL sends them, APPROVE PLANS OFF ends it.",
                "Los planes esperan tu si desde ahora; los suaves salen ya. EQUIPO EN ESPERA los \
                 muestra, APRUEBA TODOS los envia, APROBAR PLANES NO lo quita.",
            )
        } else {
            self.pick(
                "Plans go out at once from now on, by the rules.",
                "Desde ahora los planes salen al momento, segun las reglas.",
            )
        }
    }

    /// How many wait, and what to text.
    fn how_many_wait(self, number: usize) -> String {
        let plans =
            self.count(number, ["plan waits", "plans wait"], ["plan espera", "planes esperan"]);
        say!(
            self,
            "{plans} for the coach's yes (APPROVE ALL, APPROVE HERON, APPROVE HERON NO):",
            "{plans} el si del entrenador (APRUEBA TODOS, APRUEBA HERON, APRUEBA HERON NO):",
            [plans]
        )
    }

    /// None waits; and whether any would.
    fn none_waits(self, wanted: bool) -> &'static str {
        if wanted {
            self.pick("No plan waits for a yes.", "Ningun plan espera un si.")
        } else {
            self.pick(
                "No plan waits: plans go out at once. APPROVE PLANS ON has them wait for the \
                 coach.",
                "Ningun plan espera: salen al momento. Con APROBAR PLANES SI esperan al \
                 entrenador.",
            )
        }
    }

    /// One that waits, in a list that says so.
    fn waiting_line(self, who: &str, distance: &str, sessions: usize, hard: usize) -> String {
        let sessions = self.count(sessions, ["session", "sessions"], ["sesion", "sesiones"]);
        let hard = self.count(hard, ["hard"; 2], ["dura", "duras"]);
        format!("{who}: {distance}, {sessions}, {hard}")
    }

    /// Before such lines where the list is of more.
    pub(super) fn waits_for_yes(self, line: &str) -> String {
        say!(self, "Plan waits, {line}.", "Plan en espera, {line}.", [line])
    }

    /// Whose went out.
    fn went_out(self, names: &str) -> String {
        say!(self, "Sent: the week of {names}.", "Enviada la semana de {names}.", [names])
    }

    /// Whose was lowered first.
    fn were_lowered(self, names: &str) -> String {
        say!(
            self,
            "Made lower first, as something came up since: {names}.",
            "Antes rebajada, por lo que surgio desde entonces: {names}.",
            [names]
        )
    }

    /// Who can't be told by text.
    fn not_told(self, names: &str) -> String {
        say!(
            self,
            "No text can go to {names}: NEXT follows the plan all the same.",
            "No puede salir mensaje a {names}: SIGUIENTE va con el plan igual.",
            [names]
        )
    }

    /// Whose wait on, as they may not swim.
    fn wait_on(self, names: &str) -> String {
        say!(
            self,
            "Not sent, as they are stopped and may not swim until released: {names}.",
            "Sin enviar, no puede nadar hasta que lo liberes: {names}.",
            [names]
        )
    }

    /// A plan was sent back.
    fn was_sent_back(self, who: &str, told: bool) -> String {
        match told {
            true => say!(
                self,
                "The week of {who} doesn't go out, and {who} is told.",
                "La semana de {who} no sale, y {who} lo sabe por mensaje.",
                [who]
            ),
            false => say!(
                self,
                "The week of {who} doesn't go out. No text can go to {who}.",
                "La semana de {who} no sale. No puede salir mensaje a {who}.",
                [who]
            ),
        }
    }

    /// The sender's own plan waits.
    fn yours_waits(self, planned: bool) -> &'static str {
        if planned {
            self.pick(
                "Your coach looks at that week first; then it comes by text. Till then NEXT goes \
                 on with your last plan, and PLAN EASY comes at once.",
                "Tu entrenador mira esa semana primero; luego te llega por mensaje. Hasta \
                 entonces SIGUIENTE va con tu ultimo plan, y PLAN SUAVE sale ya.",
            )
        } else {
            self.pick(
                "Your coach looks at that week first; then it comes by text. Till then NEXT gives \
                 easy sessions, and PLAN EASY comes at once.",
                "Tu entrenador mira esa semana primero; luego te llega por mensaje. Hasta \
                 entonces SIGUIENTE da sesiones suaves, y PLAN SUAVE sale ya.",
            )
        }
    }

    /// Before their plan, once it goes out.
    fn coach_says_yes(self, lowered: bool) -> &'static str {
        if lowered {
            self.pick(
                "Your coach says yes to your week, made lower for what came up since:",
                "Tu entrenador dice si a tu semana, rebajada por lo que surgio desde entonces:",
            )
        } else {
            self.pick("Your coach says yes to your week:", "Tu entrenador dice si a tu semana:")
        }
    }

    /// Their plan was sent back.
    fn yours_sent_back(self, planned: bool) -> &'static str {
        if planned {
            self.pick(
                "Your coach would like another week for you than that one: have a word together. \
                 NEXT goes on with your last plan.",
                "Tu entrenador prefiere otra semana para ti: habladlo. SIGUIENTE va con tu ultimo \
                 plan.",
            )
        } else {
            self.pick(
                "Your coach would like another week for you than that one: have a word together. \
                 NEXT gives easy sessions till then.",
                "Tu entrenador prefiere otra semana para ti: habladlo. SIGUIENTE da sesiones \
                 suaves hasta entonces.",
            )
        }
    }

    /// The yes to their plan was taken back.
    fn yours_waits_again(self) -> &'static str {
        self.pick(
            "Your coach looks at your week once more, so please don't go by it yet. NEXT shows \
             what to swim till then.",
            "Tu entrenador mira tu semana otra vez: no la sigas por ahora. SIGUIENTE muestra que \
             nadar hasta entonces.",
        )
    }

    /// Why it was not done.
    pub(super) fn approval_refusal(self, why: &ApprovalRefusal) -> String {
        match why {
            ApprovalRefusal::NothingWaits { who } => say!(
                self,
                "No plan of {who} waits for a yes. SQUAD WAITING lists those that do.",
                "Ningun plan de {who} espera un si. EQUIPO EN ESPERA muestra los que esperan.",
                [who]
            ),
            ApprovalRefusal::AfterYes => self.harder_sessions_after_yes().to_owned(),
        }
    }
}
