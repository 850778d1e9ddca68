//! The texts that come every week.

use jiff::civil::{Date, Time};

use super::small::clock;
use crate::history::Unasked;
use crate::message::Name;
use crate::reply::{DigestReply, NoteReply, Trend, Voice, WeeklyRefusal, WeeklyReply, carried};
use crate::swim::Trial;

// What is told, and in which order.
impl Voice {
    /// Whatever is said about them.
    pub(super) fn weekly(self, reply: &WeeklyReply) -> Vec<String> {
        let when = |day, at: Time| format!("{} {}", self.weekday(day), clock(at));
        match reply {
            WeeklyReply::Digest(digest) => self.digest(digest),
            WeeklyReply::Note(note) => self.weekly_note(note),
            WeeklyReply::DigestWish { wanted: true, counts, day, at } => {
                vec![self.digest_comes(&when(*day, *at), *counts)]
            }
            WeeklyReply::DigestWish { counts, .. } => vec![self.digest_ends(*counts).to_owned()],
            WeeklyReply::NoteWish { wanted: true, day, at } => {
                vec![self.note_comes(&when(*day, *at))]
            }
            WeeklyReply::NoteWish { .. } => vec![self.note_ends().to_owned()],
        }
    }

    /// The squad's week, what needs looking at first.
    fn digest(self, reply: &DigestReply) -> Vec<String> {
        let days = self.span(reply.from, reply.to);
        let mut lines = vec![self.week_of(&reply.squad, &days, reply.came.len())];
        for (who, troubles) in &reply.open {
            let open: Vec<String> = troubles.iter().map(|trouble| self.open(trouble)).collect();
            lines.push(format!("{who}: {}.", open.join(", ")));
        }
        lines.extend(reply.waiting.iter().map(|one| self.waits_for_yes(&self.waiting(one))));
        if !reply.tests.is_empty() {
            let test = |(who, trial, trend): &(Name, Trial, Trend)| {
                format!("{who} {}", self.with_trend(trial, *trend))
            };
            let tests: Vec<String> = reply.tests.iter().map(test).collect();
            lines.push(self.tested(&tests.join("; ")));
        }
        let mut named = |names: &[Name], said: &dyn Fn(&str) -> String| {
            if !names.is_empty() {
                let names: Vec<&str> = names.iter().map(Name::as_str).collect();
                lines.push(said(&names.join(", ")));
            }
        };
        named(&reply.improving, &|names| self.getting_faster(names));
        named(&reply.fading, &|names| self.getting_slower(names));
        named(&reply.silent, &|names| self.not_heard_from(names));
        named(&reply.overdue, &|names| self.tests_overdue(names));
        named(&reply.due_next, &|names| self.tests_fall_due(names));
        if !reply.nights.is_empty() {
            let night = |(on, test): &(Date, Option<crate::units::Distance>)| match test {
                Some(far) => self.night_of_test(&self.day(*on), far.amount()),
                None => self.day(*on),
            };
            let nights: Vec<String> = reply.nights.iter().map(night).collect();
            lines.push(self.nights_ahead(&nights.join(", ")));
        }
        // A long list, so last.
        if !reply.came.is_empty() {
            let times: Vec<String> =
                reply.came.iter().map(|(who, days)| format!("{who} {days}")).collect();
            lines.push(self.came(&times.join(", ")));
        }
        if lines.len() == 1 && reply.came.is_empty() {
            lines = vec![self.quiet_week().to_owned()];
        }
        lines
    }

    /// A swimmer's own week; nothing in it asks for more effort.
    fn weekly_note(self, reply: &NoteReply) -> Vec<String> {
        let days = self.span(reply.from, reply.to);
        let mut head = self.your_week(&days, reply.days, reply.metres);
        if let Some(who) = &reply.who {
            head = format!("{who}: {head}");
        }
        let mut lines = vec![head];
        if reply.careful {
            lines.push(self.go_carefully().to_owned());
        }
        for (trial, trend) in &reply.tests {
            lines.push(format!("{}.", self.with_trend(trial, *trend)));
        }
        for (set, held) in &reply.sets {
            let shape = format!("{}x{}", set.count, set.distance.amount());
            lines.push(self.you_held(&shape, *held, set.count));
        }
        lines.extend(reply.focus.as_ref().map(|focus| self.focus(&carried(focus))));
        if reply.test_due {
            lines.push(self.test_is_due().to_owned());
        }
        if let Some((on, starts)) = reply.next_night {
            let starts = starts.map_or_else(String::new, |at| format!(" {}", clock(at)));
            lines.push(self.next_night(&format!("{}{starts}", self.day(on))));
        }
        lines.push(self.to_end_notes().to_owned());
        lines
    }

    /// `2 to 8 Mar`
    pub(super) fn span(self, from: Date, to: Date) -> String {
        let first = match from.month() == to.month() {
            true => from.day().to_string(),
            false => self.short_day(from),
        };
        self.days_to(&first, &self.short_day(to))
    }

    /// `200 free 3:12, faster`
    fn with_trend(self, trial: &Trial, trend: Trend) -> String {
        let test = self.trial(trial);
        self.trend(trend).map_or(test.clone(), |trend| format!("{test}, {trend}"))
    }
}

// In which words.
impl Voice {
    /// The squad's week, and how many swam in it.
    fn week_of(self, squad: &str, days: &str, swam: usize) -> String {
        let swam = self.count(swam, ["swam"; 2], ["persona nado", "personas nadaron"]);
        format!("{squad}, {days}: {swam}.")
    }

    /// From a day to another.
    fn days_to(self, from: &str, to: &str) -> String {
        say!(self, "{from} to {to}", "{from} al {to}", [from, to])
    }

    /// The tests of the week.
    fn tested(self, list: &str) -> String {
        say!(self, "Tested: {list}.", "Tests: {list}.", [list])
    }

    /// Who swam how often.
    fn came(self, list: &str) -> String {
        say!(self, "Days swum: {list}.", "Dias nadados: {list}.", [list])
    }

    /// Who is getting faster.
    fn getting_faster(self, names: &str) -> String {
        say!(self, "Improving: {names}.", "Mejorando: {names}.", [names])
    }

    /// Who is getting slower.
    fn getting_slower(self, names: &str) -> String {
        say!(self, "Fading: {names}.", "Empeorando: {names}.", [names])
    }

    /// Who was not heard from.
    fn not_heard_from(self, names: &str) -> String {
        say!(self, "Not heard from: {names}.", "Sin noticias de: {names}.", [names])
    }

    /// Whose test is overdue.
    fn tests_overdue(self, names: &str) -> String {
        say!(self, "Test overdue: {names}.", "Test atrasado: {names}.", [names])
    }

    /// Whose test falls due.
    fn tests_fall_due(self, names: &str) -> String {
        say!(
            self,
            "Test due this coming week: {names}.",
            "Les toca test esta semana: {names}.",
            [names]
        )
    }

    /// The nights ahead.
    fn nights_ahead(self, list: &str) -> String {
        say!(self, "Nights ahead: {list}.", "Proximas sesiones: {list}.", [list])
    }

    /// A night on which a distance is tested.
    fn night_of_test(self, day: &str, distance: u32) -> String {
        format!("{day} (test {distance})")
    }

    /// Nothing happened.
    fn quiet_week(self) -> &'static str {
        self.pick(
            "A quiet week: nobody swam, nothing to tell.",
            "Semana tranquila: nadie nado, nada que contar.",
        )
    }

    /// What they swam in their week.
    fn your_week(self, days: &str, swims: usize, metres: u32) -> String {
        let far = if metres > 0 { format!(", {metres}m") } else { String::new() };
        say!(
            self,
            "Your week, {days}: swam on {swims}{far}.",
            "Tu semana, {days}: nadaste {swims}{far}.",
            [days, swims = self.count(swims, ["day", "days"], ["dia", "dias"]), far]
        )
    }

    /// What they held of a set.
    fn you_held(self, set: &str, held: u16, of: u16) -> String {
        say!(
            self,
            "{set}: held {held} of {of}.",
            "{set}: mantuviste {held} de {of}.",
            [set, held, of]
        )
    }

    /// They are to go carefully.
    fn go_carefully(self) -> &'static str {
        self.pick(
            "Go easy for now, and stop if it hurts.",
            "De momento con calma, y para si duele.",
        )
    }

    /// A test is due.
    fn test_is_due(self) -> &'static str {
        self.pick(
            "A test is due when you feel fresh.",
            "Toca un test cuando te sientas con fuerzas.",
        )
    }

    /// The end of a note that nobody need answer.
    fn to_end_notes(self) -> &'static str {
        self.pick("WEEKLY OFF ends these notes.", "Para no recibirla: SEMANAL NO.")
    }

    /// When the digest comes, and the count with it.
    fn digest_comes(self, when: &str, counts: bool) -> String {
        let counts = if counts {
            self.pick(
                ", and the count of who comes on squad nights",
                ", y quien viene cada noche de equipo",
            )
        } else {
            ""
        };
        say!(
            self,
            "The week's digest comes {when}{counts}. DIGEST OFF ends it.",
            "El resumen de la semana llega {when}{counts}. RESUMEN NO lo quita.",
            [when, counts]
        )
    }

    /// The digest comes no more; the count may.
    fn digest_ends(self, counts: bool) -> &'static str {
        if counts {
            self.pick(
                "No weekly digest any more; the count on squad nights still comes. DIGEST shows \
                 the week.",
                "Ya no llega el resumen; quien viene cada noche si. RESUMEN muestra la semana.",
            )
        } else {
            self.pick(
                "No weekly digest and no counts any more. DIGEST shows the week.",
                "Ya no llegan ni el resumen ni quien viene. RESUMEN muestra la semana.",
            )
        }
    }

    /// When the note comes.
    fn note_comes(self, when: &str) -> String {
        say!(
            self,
            "A note of your week comes {when} when you swam. WEEKLY OFF ends it, WEEKLY shows it \
             now.",
            "La nota de tu semana llega {when} si nadaste. SEMANAL NO la quita, SEMANAL la \
             muestra ya.",
            [when]
        )
    }

    /// The note comes no more.
    fn note_ends(self) -> &'static str {
        self.pick(
            "No weekly note any more. WEEKLY shows your week.",
            "Ya no llega la nota semanal. SEMANAL muestra tu semana.",
        )
    }

    /// The word that shows all of a text that nobody asked for.
    pub fn shown_whole(self, what: Unasked) -> &'static str {
        match what {
            Unasked::Count => {
                self.pick("SQUAD TONIGHT shows it all.", "EQUIPO HOY lo muestra todo.")
            }
            Unasked::Digest => self.pick("DIGEST shows it all.", "RESUMEN lo muestra todo."),
            Unasked::Note => self.pick("WEEKLY shows it all.", "SEMANAL lo muestra todo."),
            Unasked::Advice => self.pick("WEEKLY shows your sets.", "SEMANAL muestra tus series."),
        }
    }

    /// Why a wish was not taken.
    pub(super) fn weekly_refusal(self, why: WeeklyRefusal) -> &'static str {
        match why {
            WeeklyRefusal::Minor => self.pick(
                "Weekly notes are for grown-ups. ME shows how you are doing.",
                "La nota semanal es para mayores de edad. YO muestra como vas.",
            ),
            WeeklyRefusal::TheirsToSay => self.pick(
                "A weekly note is the swimmer's own to ask for: WEEKLY ON, from their telephone.",
                "La nota semanal la pide cada cual desde su telefono: SEMANAL SI.",
            ),
            WeeklyRefusal::QuietHours => self.pick(
                "Nothing is sent unasked between 20:00 and 08:00. Like this: digest sun 18:00",
                "Entre las 20:00 y las 08:00 no se envia nada sin pedirlo. Asi: resumen dom 18:00",
            ),
        }
    }
}
