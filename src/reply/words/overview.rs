//! The squad at a glance: who needs looking at before who swam what.

use super::small::shown_pace;
use crate::message::{Name, SquadFilter};
use crate::reply::{Flag, SquadReply, SquadRow, Trend, Voice};
use crate::units::{Pace, Unit};

// What is told, and in which order.
impl Voice {
    /// A head, then a line a swimmer; in a large squad those who need looking at
    /// first.
    pub(in crate::reply) fn squad(self, reply: &SquadReply) -> Vec<String> {
        if let Some(night) = &reply.night {
            return self.night(night);
        }
        let mut lines = vec![self.squad_head(reply)];
        let ends_by_release = |row: &SquadRow| row.open.iter().any(super::people::needs_release);
        let release = reply.swimmers.iter().any(ends_by_release).then(|| self.may_release());
        match reply.filter {
            _ if reply.swimmers.len() <= A_LINE_EACH => {
                lines.extend(reply.swimmers.iter().map(|row| self.row(row)));
                lines.extend(release.map(str::to_owned));
            }
            None => {
                lines.extend(self.groups(&reply.swimmers));
                lines.extend(release.map(str::to_owned));
                lines.extend(reply.swimmers.iter().map(|row| self.row(row)));
            }
            Some(SquadFilter::Hurt) => {
                lines.extend(reply.swimmers.iter().map(|row| self.row(row)));
                lines.extend(release.map(str::to_owned));
            }
            Some(filter) => lines.extend(self.packed(filter, &reply.swimmers)),
        }
        lines
    }

    /// `Dusk: 40 swimmers, 3 hurt, 14 overdue.`, `Dusk: 14 due a test.`
    fn squad_head(self, reply: &SquadReply) -> String {
        if let Some(filter) = reply.filter {
            return format!("{}: {}.", reply.squad, self.asked_for(filter, reply.swimmers.len()));
        }
        let mut head = format!("{}: {}", reply.squad, self.swimmers(reply.swimmers.len()));
        for flag in [Flag::Hurt, Flag::Overdue, Flag::Silent] {
            match reply.swimmers.iter().filter(|row| row.flags.contains(&flag)).count() {
                0 => {}
                number => head.push_str(&format!(", {number} {}", self.flagged(flag))),
            }
        }
        format!("{head}.")
    }

    /// A line a group, the most urgent first.
    fn groups(self, rows: &[SquadRow]) -> Vec<String> {
        let flagged = |flag| move |row: &SquadRow| row.flags.contains(&flag);
        let going = |trend| move |row: &SquadRow| row.trend == trend && !row.trend_across;
        let named = |group, of: &dyn Fn(&SquadRow) -> bool| -> Option<String> {
            let names: Vec<&Name> =
                rows.iter().filter(|row| of(row)).map(|row| &row.swimmer).collect();
            let list = names.iter().map(|name| name.as_str()).collect::<Vec<_>>().join(", ");
            (!names.is_empty()).then(|| format!("{}: {list}.", self.group(group)))
        };
        let hurt: Vec<String> =
            rows.iter().filter(|row| flagged(Flag::Hurt)(row)).map(|row| self.hurt(row)).collect();
        let hurt = (!hurt.is_empty())
            .then(|| format!("{}: {}.", self.group(Group::Hurt), hurt.join("; ")));
        let others = [
            named(Group::Silent, &flagged(Flag::Silent)),
            named(Group::Slower, &going(Trend::Down)),
            named(Group::Faster, &going(Trend::Up)),
            named(Group::Overdue, &|row| {
                row.flags.contains(&Flag::Overdue) && row.last_test.is_some()
            }),
            named(Group::Untested, &|row| row.last_test.is_none()),
        ];
        std::iter::once(hurt).chain(others).flatten().collect()
    }

    /// `heron shoulder 4 since 3 Mar`
    fn hurt(self, row: &SquadRow) -> String {
        let open: Vec<String> = row.open.iter().map(|trouble| self.open(trouble)).collect();
        format!("{} {}", row.swimmer, open.join(", ")).trim_end().to_owned()
    }

    /// Those asked for one behind the other, each with what was asked.
    fn packed(self, filter: SquadFilter, rows: &[SquadRow]) -> Vec<String> {
        let (known, untested): (Vec<&SquadRow>, Vec<&SquadRow>) =
            rows.iter().partition(|row| row.last_test.is_some() || filter == SquadFilter::Silent);
        let list = |rows: &[&SquadRow], with: &dyn Fn(&SquadRow) -> Option<String>| {
            let one = |row: &&SquadRow| match with(row) {
                Some(what) => format!("{} {what}", row.swimmer),
                None => row.swimmer.to_string(),
            };
            rows.iter().map(one).collect::<Vec<_>>().join(", ")
        };
        let tested_on = |row: &SquadRow| row.last_test.as_ref().map(|it| self.short_day(it.on));
        let seen_on = |row: &SquadRow| row.last_seen.map(|day| self.short_day(day));
        let time = |row: &SquadRow| row.last_test.as_ref().map(|trial| self.trial(trial));
        let pace = |row: &SquadRow| {
            let pace = Pace::new(row.critical_per_100_s?, Unit::Metre).ok()?;
            Some(shown_pace(pace))
        };
        let said = match filter {
            SquadFilter::Silent => list(&known, &seen_on),
            SquadFilter::Improving | SquadFilter::Fading => list(&known, &time),
            SquadFilter::Pace => format!("{} {}", self.by_pace(), list(&known, &pace)),
            _ => list(&known, &tested_on),
        };
        let mut lines = Vec::new();
        lines.extend((!known.is_empty()).then(|| format!("{said}.")));
        let head = self.group(Group::Untested);
        let names = list(&untested, &|_| None);
        lines.extend((!untested.is_empty()).then(|| format!("{head}: {names}.")));
        lines
    }
}

// In which words.
impl Voice {
    /// The head of a group.
    fn group(self, group: Group) -> &'static str {
        match group {
            Group::Hurt => self.pick("HURT", "MOLESTIAS"),
            Group::Silent => self.pick("Not heard from", "Sin noticias"),
            Group::Slower => self.pick("Slower", "Mas lentos"),
            Group::Faster => self.pick("Faster", "Mas rapidos"),
            Group::Overdue => self.pick("Test due", "Test pendiente"),
            Group::Untested => self.pick("No test yet", "Aun sin test"),
        }
    }

    /// How many there are of those asked for; nobody, for nought.
    fn asked_for(self, filter: SquadFilter, number: usize) -> String {
        let number = match number {
            0 => say!(self, "nobody", "nadie"),
            number => number.to_string(),
        };
        match filter {
            SquadFilter::Overdue => {
                say!(self, "{number} due a test", "{number} con test pendiente", [number])
            }
            SquadFilter::Hurt => {
                say!(self, "{number} hurt or ill", "{number} con molestias", [number])
            }
            SquadFilter::Silent => {
                say!(self, "{number} not heard from", "{number} sin noticias", [number])
            }
            SquadFilter::Improving => say!(
                self,
                "{number} really faster than the test before",
                "{number} de verdad mas rapido que en el test anterior",
                [number]
            ),
            SquadFilter::Fading => say!(
                self,
                "{number} really slower than the test before",
                "{number} de verdad mas lento que en el test anterior",
                [number]
            ),
            SquadFilter::Owed => {
                say!(self, "{number} still owed the test", "{number} sin hacer el test", [number])
            }
            SquadFilter::Expected => say!(self, "{number} coming", "{number} vienen", [number]),
            SquadFilter::Races => say!(
                self,
                "{number} with a race to come",
                "{number} con carrera a la vista",
                [number]
            ),
            SquadFilter::Pace => say!(self, "{number} by pace", "{number} por ritmo", [number]),
        }
    }

    /// Before paces, fastest first.
    fn by_pace(self) -> &'static str {
        self.pick("Critical pace per 100:", "Ritmo critico por 100:")
    }
}

/// Up to so many have a line each; more are named in groups first (ours: what
/// two SMS parts hold).
const A_LINE_EACH: usize = 7;

/// Those of a squad who are named together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Group {
    /// In pain, ill or stopped.
    Hurt,
    /// Not heard from.
    Silent,
    /// Slower than before.
    Slower,
    /// Faster than before.
    Faster,
    /// Due a test.
    Overdue,
    /// Without any test.
    Untested,
}
