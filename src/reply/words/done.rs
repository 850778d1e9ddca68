//! Acknowledgements: that something is done.

use jiff::civil::Date;

use super::small::joined;
use crate::message::Name;
use crate::reply::{CareRefusal, OkReply, Set, Voice};
use crate::units::{Level, Unit};

impl Voice {
    /// Something done.
    pub(in crate::reply) fn ok(self, reply: &OkReply) -> Vec<String> {
        let line = match reply {
            OkReply::Joined { name, squad, ask_readiness, questions, minors, closed } => {
                let mut lines = vec![self.welcome(name, squad)];
                if *closed {
                    lines.push(self.care_refusal(&CareRefusal::NoOfficer));
                    return lines;
                }
                if *minors {
                    lines.push(self.ask_birth_year().to_owned());
                    return lines;
                }
                lines.extend(ask_readiness.then(|| self.readiness(*questions).to_owned()));
                lines.extend(questions.then(|| self.readiness_question(1).to_owned()));
                lines.extend(self.first_steps().map(str::to_owned));
                return lines;
            }
            OkReply::More { lines } => return lines.clone(),
            OkReply::Timetable(lines) => return self.timetable(lines),
            OkReply::Shut(nights) => return nights.iter().map(|night| self.shut(night)).collect(),
            OkReply::Attend(reply) => {
                let lanes = reply.lanes.iter().flat_map(|lanes| self.lanes_changed(lanes));
                return std::iter::once(self.attends(reply)).chain(lanes).collect();
            }
            OkReply::LanesChanged(reply) => return self.lanes_changed(reply),
            OkReply::SetFixed(reply) => return self.set_fixed(reply),
            OkReply::HeatOf(reply) => self.heat_of(reply),
            OkReply::Leg { who, leg } => self.leg(who.as_ref(), leg),
            OkReply::Entered(reply) => return self.entered(reply),
            OkReply::Meet(reply) => return self.meet(reply),
            OkReply::Entries(meets) => return self.meets(meets),
            OkReply::Begun(reply) => return self.begun(reply),
            OkReply::Weekly(reply) => return self.weekly(reply),
            OkReply::Approval(reply) => return self.approval(reply),
            OkReply::TestNight(reply) => return self.test_night(reply),
            OkReply::OwnTargets(reply) => return self.set_by_coach(reply),
            OkReply::Limits(reply) => return self.limited(reply),
            OkReply::Register(reply) => return self.register(reply),
            OkReply::SetChanged(reply) => return self.set_changed(reply),
            OkReply::Care(done) => return self.care_done(done),
            OkReply::Office(done) => return self.offices(done),
            OkReply::Known(known) => return self.known(known),
            OkReply::GivenToDeck => self.given_to_deck().to_owned(),
            OkReply::Silent => return Vec::new(),
            OkReply::Away { from, until } => self.away(*from, *until),
            OkReply::Better { from } => self.better(*from),
            OkReply::NotTonight { who, on, done } => self.not_tonight(who.as_ref(), *on, *done),
            OkReply::Able { of, ability } => self.able(of.as_ref(), ability),
            OkReply::Released { who, on_word, cleared } => self.released(who, *on_word, *cleared),
            OkReply::ReadinessAnswered { clear } => self.readiness_answered(*clear),
            OkReply::Told { who, number, left_out } => self.told(who.as_ref(), *number, left_out),
            OkReply::Profile(set) => say!(
                self,
                "Stored: {set}.",
                "Guardado: {set}.",
                [set = set.iter().map(|one| self.setting(one)).collect::<Vec<_>>().join(", ")]
            ),
            OkReply::Belonging(done) => self.belongs(done),
            OkReply::Board { url, hours } => say!(
                self,
                "{url} - your board for {hours} hours. It is yours alone: don't pass it on.",
                "{url} - tu pizarra, {hours} horas. Es tuya y de nadie mas: no la pases.",
                [url, hours]
            ),
            OkReply::Undone { what } => {
                say!(self, "Undone: {what}.", "Deshecho: {what}.", [what = self.taken_back(what)])
            }
            OkReply::Fixed { who, trial, before } => say!(
                self,
                "Put right: {who}{trial} (was {before}), {day}.",
                "Corregido: {who}{trial} (antes {before}), {day}.",
                [
                    who = who.as_ref().map_or_else(String::new, |who| format!("{who} ")),
                    trial = self.trial(trial),
                    before = before.short(),
                    day = self.short_day(trial.on)
                ]
            ),
            OkReply::ResultsSwapped { now: [(one, first), (other, second)] } => say!(
                self,
                "Swapped: {one} {trial} and {other} {second}. SWAP again takes it back.",
                "Cambiado: {one} {trial} y {other} {second}. CAMBIA otra vez lo deshace.",
                [one, trial = self.trial(first), other, second = self.trial(second)]
            ),
            OkReply::Moved { to } => say!(self, "Moved to {to}.", "Pasado a {to}.", [to]),
            OkReply::Missed { on } => say!(
                self,
                "{day} missed, noted. No catching up: just take the next one.",
                "Anotado: {day} sin nadar. No hace falta recuperarlo, ve al siguiente.",
                [day = self.day(*on)]
            ),
            OkReply::Swapped { days } => say!(
                self,
                "Swapped. Your days now: {days}.",
                "Cambiado. Tus dias ahora: {days}.",
                [days = self.days_and_hard_ones(days)]
            ),
            OkReply::Race { on, distance } => say!(
                self,
                "Race {distance} on {day} noted. A 400 test tells what to expect of it.",
                "Anotado: carrera de {distance} el {day}.",
                [distance, day = self.day(*on)]
            ),
            OkReply::Pinned { who, lane: Some(lane) } => say!(
                self,
                "{who} swims in L{lane} from now on.",
                "{who} nada en la C{lane} desde ahora.",
                [who, lane]
            ),
            OkReply::Pinned { who, lane: None } => {
                say!(self, "{who} is placed by pace again.", "{who} va otra vez por ritmo.", [who])
            }
            OkReply::Parted { names, apart } => {
                let names: Vec<String> = names.iter().map(ToString::to_string).collect();
                let share = if *apart {
                    self.pick("share no lane", "no comparten")
                } else {
                    self.pick("may share a lane", "pueden compartir")
                };
                say!(
                    self,
                    "{names} {share} from now on.",
                    "{names} {share} calle desde ahora.",
                    [names = self.all_of(&names), share]
                )
            }
            OkReply::NamesInRooms { shown: true } => say!(
                self,
                "The chat may now hear who swims in which lane and what it swims; nothing else of \
                 anyone. NO NAMES IN THE CHAT ends it.",
                "El chat puede oir quien nada en que calle y que nada; nada mas de nadie. SIN \
                 NOMBRES EN EL CHAT lo termina."
            ),
            OkReply::NamesInRooms { shown: false } => {
                say!(self, "No names in the chat any more.", "Ya no hay nombres en el chat.")
            }
            OkReply::Remarked { of: None, text } => {
                say!(self, "Noted: {text}.", "Anotado: {text}.", [text])
            }
            OkReply::Remarked { of: Some(who), text } => {
                say!(self, "Noted for {who}: {text}.", "Anotado para {who}: {text}.", [who, text])
            }
            OkReply::Tired { of: None } => say!(
                self,
                "Noted, and sleep comes first. If you swim today or tomorrow: easy, and a step \
                 shorter. NEXT shows it.",
                "Anotado; dormir va primero. Si nadas hoy o mañana: suave, y un paso menos. \
                 SIGUIENTE lo muestra."
            ),
            OkReply::Tired { of: Some(who) } => say!(
                self,
                "Noted: {who} is tired. Today and tomorrow easy, and a step shorter.",
                "Anotado: {who} arrastra cansancio. Hoy y mañana suave, y un paso menos.",
                [who]
            ),
            OkReply::NotKnown => say!(
                self,
                "I don't know that; your coach may. I know NEXT, TARGETS, BEST, TREND, LOG, WHY.",
                "Eso no lo sé; preguntale a tu coach. Sé de SIGUIENTE, OBJETIVOS, MARCAS, \
                 PROGRESO, REGISTRO."
            ),
            OkReply::Noted { who } => say!(self, "Noted for {who}.", "Anotado para {who}.", [who]),
            OkReply::Held { who } => say!(
                self,
                "{who} swims easy until you text RELEASE {who}.",
                "{who} va en suave hasta que escribas LIBERA {who}.",
                [who]
            ),
            OkReply::ClearanceNoted { stopped: false } => say!(
                self,
                "Noted, and your coach is told. Start gently, within what they allowed; what hurts \
                 or ails you stays lowered until you text BETTER.",
                "Anotado, y tu entrenador lo sabe. Empieza suave, con lo que te permiten; lo que \
                 duele o va mal sigue rebajado hasta que escribas MEJOR."
            ),
            OkReply::ClearanceNoted { stopped: true } => say!(
                self,
                "Noted, and your coach is told. No swimming until your coach releases you by text.",
                "Anotado, y tu entrenador lo sabe. Fuera del agua hasta que te dé paso por mensaje."
            ),
            OkReply::ContactKept => say!(
                self,
                "Stored. It is shown to your coach if you are in danger, and nowhere else.",
                "Guardado. Lo ve tu entrenador si hay peligro, y nadie mas."
            ),
            OkReply::Greeting => say!(
                self,
                "Hello! Text NEXT for a session, HELP for what else to say.",
                "Hola. Escribe SIGUIENTE para un entreno, AYUDA para lo demas."
            ),
            OkReply::Thanks => say!(
                self,
                "You're welcome. See you at the pool.",
                "De nada. Nos vemos en la piscina."
            ),
            OkReply::Chat => say!(
                self,
                "Nothing in that for me to keep. If there was, text it again; HELP shows how.",
                "Nada de eso se guarda. Si habia algo, escribelo otra vez; AYUDA dice como."
            ),
            OkReply::LeftAlone => {
                say!(self, "Left as it was; nothing stored.", "Se queda como estaba; sin guardar.")
            }
            OkReply::Forgotten => say!(
                self,
                "Erased: your texts and results are gone and you are out of the squad. Accident \
                 and welfare records stay, apart, for the club's stated time.",
                "Borrado: mensajes y resultados, y ya no estas en el equipo. Los partes de \
                 accidente y bienestar quedan aparte el tiempo que el club indica."
            ),
            OkReply::OptedOut => say!(
                self,
                "Lapwing: no more texts to you. Text START to have them again.",
                "Lapwing: ya no recibiras mensajes. Escribe START para volver a recibirlos."
            ),
            OkReply::OptedIn => say!(
                self,
                "Lapwing: texts are on again. Text HELP for what to say.",
                "Lapwing: vuelves a recibir mensajes. AYUDA dice qué puedes escribir."
            ),
        };
        vec![line]
    }

    /// Words were passed on: to one, to all, or to all but some.
    fn told(self, who: Option<&Name>, number: usize, left_out: &[Name]) -> String {
        match who {
            Some(who) => say!(self, "Passed on to {who}.", "Enviado a {who}.", [who]),
            None if left_out.is_empty() => say!(
                self,
                "Passed on to {number} swimmers.",
                "Enviado a {number} nadadores.",
                [number]
            ),
            None => say!(
                self,
                "Passed on to {number} swimmers. Under 18, without a guardian and a second adult \
                 to read along, so not to: {left_out}.",
                "Enviado a {number} nadadores. Menores sin tutor y otro adulto que lo lean, asi \
                 que sin enviar: {left_out}.",
                [number, left_out = joined(left_out)]
            ),
        }
    }

    /// `Mon 2 Mar and Thu 5 Mar (hard)`
    fn days_and_hard_ones(self, days: &[(Date, bool)]) -> String {
        let one = |(on, hard): &(Date, bool)| {
            let day = self.day(*on);
            if *hard { format!("{day} ({})", self.level(Level::Hard)) } else { day }
        };
        self.all_of(&days.iter().map(one).collect::<Vec<_>>())
    }

    /// A setting, as stored.
    fn setting(self, set: &Set) -> String {
        match set {
            Set::Course(course) => self.course(*course).to_owned(),
            Set::Days(days) => self.weekdays(days),
            Set::Sessions(sessions) => say!(
                self,
                "{sessions} sessions a week",
                "{sessions} entrenos por semana",
                [sessions]
            ),
            Set::Minutes(minutes) => {
                say!(self, "{minutes} min a session", "{minutes} min por entreno", [minutes])
            }
            Set::Born(year) => say!(self, "born {year}", "nacimiento {year}", [year]),
            Set::Language(language) => {
                say!(self, "language {language}", "idioma {language}", [language])
            }
            Set::Units(Unit::Metre) => say!(self, "metres", "metros"),
            Set::Units(Unit::Yard) => say!(self, "yards", "yardas"),
        }
    }
}
