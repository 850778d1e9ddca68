//! What was taken back or put right.

use super::trials::of_another;
use crate::message::Name;
use crate::reply::shorthand::line_shorthand;
use crate::reply::{SetFixedReply, SetReply, Voice, Withdrawn};
use crate::units::Centis;

// What is told, and in which order.
impl Voice {
    /// All that was taken back.
    pub(super) fn taken_back(self, records: &[(Option<Name>, Withdrawn)]) -> String {
        let names = records.iter().filter_map(|(whose, _)| whose.as_ref());
        let mut names: Vec<&str> = names.map(Name::as_str).collect();
        let all_named = names.len() == records.len();
        names.dedup();
        if records.len() > MOST_TAKEN_BACK && all_named {
            return self.results_taken_back(records.len(), &names.join(", "));
        }
        let what = |record: &Withdrawn| match record {
            Withdrawn::Test(trial) => self.of_day(&self.trial(trial), &self.short_day(trial.on)),
            Withdrawn::Set(set) => format!("{}x{}", set.count, set.distance.amount()),
            Withdrawn::Session(on) => self.of_day(self.session_taken_back(), &self.short_day(*on)),
            Withdrawn::Register(on) => {
                self.of_day(self.register_taken_back(), &self.short_day(*on))
            }
            Withdrawn::SquadSet(on) => {
                self.of_day(self.squad_set_taken_back(), &self.short_day(*on))
            }
            Withdrawn::SetChange(on)
            | Withdrawn::Lanes(on)
            | Withdrawn::Shut(on)
            | Withdrawn::Night(on) => {
                self.of_day(self.evening_taken_back(record), &self.short_day(*on))
            }
            Withdrawn::Timetable | Withdrawn::Digest | Withdrawn::Note => {
                self.evening_taken_back(record).to_owned()
            }
            Withdrawn::PutRight(trial) => {
                self.as_before(&self.of_day(&self.trial(trial), &self.short_day(trial.on)))
            }
            Withdrawn::SetPutRight(set) => {
                self.as_before(&format!("{}x{}", set.count, set.distance.amount()))
            }
            Withdrawn::Change => self.change_taken_back().to_owned(),
        };
        let one = |(whose, record): &(Option<Name>, Withdrawn)| match whose {
            Some(whose) => format!("{whose} {}", what(record)),
            None => what(record),
        };
        self.all_of(&records.iter().map(one).collect::<Vec<_>>())
    }

    /// What is another in a set that was put right, and what it comes to.
    pub(super) fn set_fixed(self, reply: &SetFixedReply) -> Vec<String> {
        let time = |time: Option<Centis>| time.map_or_else(|| "x".to_owned(), Centis::short);
        let changes = reply.changes.iter();
        let changes = changes
            .map(|(number, was, now)| self.repeat_put_right(*number, &time(*was), &time(*now)));
        let what = line_shorthand(&reply.swum.set, self);
        let what = of_another(reply.swum.other, &reply.swum.swimmer, &what);
        let said = self.all_of(&changes.collect::<Vec<_>>());
        let first = if said.is_empty() { format!("{what}.") } else { format!("{what}: {said}.") };
        let told = SetReply { other: false, ..reply.swum.clone() };
        std::iter::once(first).chain(self.set(&told)).collect()
    }
}

// In which words.
impl Voice {
    /// What was taken back of a day.
    fn of_day(self, what: &str, day: &str) -> String {
        say!(self, "{what} of {day}", "{what} del {day}", [what, day])
    }

    /// A session, among what was taken back.
    fn session_taken_back(self) -> &'static str {
        self.pick("session", "entreno")
    }

    /// A register, among what was taken back.
    fn register_taken_back(self) -> &'static str {
        self.pick("register", "lista")
    }

    /// The set of a night, among what was taken back.
    fn squad_set_taken_back(self) -> &'static str {
        self.pick("set", "la serie")
    }

    /// Other things of the squad, among what was taken back.
    fn evening_taken_back(self, what: &Withdrawn) -> &'static str {
        match what {
            Withdrawn::SetChange(_) => self.pick("change to the set", "el cambio de la serie"),
            Withdrawn::Lanes(_) => self.pick("change of lanes", "el cambio de calles"),
            Withdrawn::Shut(_) => self.pick("pool shut, night", "piscina cerrada, turno"),
            Withdrawn::Night(_) => self.pick("change to the night", "el cambio del turno"),
            Withdrawn::Timetable => self.pick(
                "the change to every week's nights",
                "el cambio de los turnos de cada semana",
            ),
            Withdrawn::Digest => {
                self.pick("your wish for the weekly digest", "lo dicho del resumen semanal")
            }
            Withdrawn::Note => {
                self.pick("the wish for the weekly note", "lo dicho de la nota semanal")
            }
            _ => self.change_taken_back(),
        }
    }

    /// A test that stands again as it was.
    fn as_before(self, trial: &str) -> String {
        say!(self, "{trial} stands again", "{trial} vale otra vez", [trial])
    }

    /// More results than are told one by one, and of whom.
    fn results_taken_back(self, number: usize, names: &str) -> String {
        say!(self, "{number} results: {names}", "{number} resultados: {names}", [number, names])
    }

    /// One repeat of a set, as it was and as it is; `x` for a missed one.
    fn repeat_put_right(self, number: usize, was: &str, now: &str) -> String {
        say!(
            self,
            "number {number} now {now} (was {was})",
            "el {number} ahora {now} (antes {was})",
            [number, now, was]
        )
    }

    /// A change of what had been stored, among what was taken back.
    fn change_taken_back(self) -> &'static str {
        self.pick("your last change", "tu ultimo cambio")
    }
}

/// So many results are taken back one by one in words (ours: what one SMS part holds).
const MOST_TAKEN_BACK: usize = 4;
