//! Answers that are put together from several words.

use jiff::civil::Date;

use super::super::small::{clock, difference, first_upper};
use crate::message::Pick;
use crate::reply::{HoldLine, RankLine, TotalLine, Voice};
use crate::swim::Trial;
use crate::units::{Centis, Distance, Equipment, Stroke, Unit};

/// So many of a ranking are named.
const NAMED: usize = 12;

// What is told, and in which order.
impl Voice {
    /// `200 free`, `a test`
    pub(super) fn swum_what(self, distance: Option<u32>, stroke: Option<Stroke>) -> String {
        let stroke = stroke.map(|stroke| self.stroke(stroke).to_owned());
        let parts: Vec<String> =
            distance.map(|distance| distance.to_string()).into_iter().chain(stroke).collect();
        match parts.is_empty() {
            true => self.timed_swim().to_owned(),
            false => self.test_over(&parts.join(" ")),
        }
    }

    /// `Wed 4 Mar`, `2 to 8 Mar`
    pub(super) fn days_from(self, from: Date, to: Date) -> String {
        if from == to { self.day(from) } else { self.span(from, to) }
    }

    /// How far off a time somebody is.
    pub(super) fn gap_to(self, best: &Trial, to: Centis, each: Option<(u32, Centis)>) -> String {
        let best_is = format!("{} ({})", self.trial(best), self.day(best.on));
        match best.time.less(to) {
            Some(by) => {
                let each = each.map(|(piece, each)| self.each_piece(&difference(each), piece));
                self.off(&difference(by), &to.short(), &best_is, &each.unwrap_or_default())
            }
            None => self.there_already(&to.short(), &best_is),
        }
    }

    /// What a time is for each piece of it.
    pub(super) fn pace_of(
        self,
        distance: Distance,
        time: Centis,
        pieces: &[(u32, Centis)],
        best: Option<Centis>,
    ) -> String {
        let each: Vec<String> =
            pieces.iter().map(|(piece, each)| self.per_piece(&each.short(), *piece)).collect();
        let best = best.map(|best| self.best_now(&best.short())).unwrap_or_default();
        let (distance, time) = (distance.amount(), time.short());
        self.pace_is(&each.join(", "), distance, &time, &best)
    }

    /// What was swum, beside what was swum before.
    pub(super) fn versus(
        self,
        last: &Trial,
        before: Option<&Trial>,
        best: Option<&Trial>,
    ) -> String {
        let last_is = self.trial(last);
        let Some(before) = before else { return self.first_like_it(&last_is) };
        let day = self.day(before.on);
        let than = format!("{} ({day})", self.trial(before));
        let said = match (last.time.less(before.time), before.time.less(last.time)) {
            (Some(by), _) => self.slower_than(&difference(by), &than),
            (_, Some(by)) => self.faster_than(&difference(by), &than),
            _ => self.the_same_as(&than),
        };
        let is_best = best.is_none_or(|best| last.time < best.time);
        let best = match best.filter(|best| best.time < before.time && !is_best) {
            Some(best) => format!(" {}", self.best_is(&best.time.short())),
            None if is_best => format!(" {}", self.it_is_best()),
            None => String::new(),
        };
        format!("{last_is}: {said}.{best}")
    }

    /// Who of all.
    pub(super) fn ranked(
        self,
        pick: Pick,
        distance: u32,
        on: Option<Date>,
        below: Option<Centis>,
        lines: &[RankLine],
        of: usize,
    ) -> String {
        let on = on.map(|on| self.day(on));
        let below = below.map(Centis::short);
        if lines.is_empty() {
            return self.none_of(pick, distance, on.as_deref(), below.as_deref(), of);
        }
        let one = |line: &RankLine| match line.before {
            Some(before) => {
                let sign = if line.time < before { '-' } else { '+' };
                let by = line.time.max(before).less(line.time.min(before)).map(difference);
                let by = by.unwrap_or_default();
                format!("{} {} ({sign}{by})", line.who, line.time.short())
            }
            None => format!("{} {}", line.who, line.time.short()),
        };
        let named: Vec<String> = lines.iter().take(NAMED).map(one).collect();
        let head = self.ranking(pick, distance, on.as_deref(), below.as_deref());
        let gains = matches!(pick, Pick::Better | Pick::Worse | Pick::Under);
        let count =
            if gains { format!(" {}", self.so_many_of(lines.len(), of)) } else { String::new() };
        format!("{head}{count}: {}.", named.join(", "))
    }

    /// How far and how long a night's set is.
    pub(super) fn totals(self, on: Date, lanes: &[TotalLine]) -> Vec<String> {
        let one = |line: &TotalLine| {
            let unit = if line.unit == Unit::Yard { "yd" } else { "m" };
            let far = format!("{}{unit}", line.amount);
            let ends = line.ends.map(clock);
            let total = self.total_of(&far, line.minutes, ends.as_deref());
            match line.lane {
                Some(lane) => format!("{}: {total}", self.lane(lane)),
                None => first_upper(&total),
            }
        };
        let mut lines: Vec<String> = lanes.iter().map(one).collect();
        if let Some(last) = lines.last_mut() {
            *last = format!("{last} ({})", self.day(on));
        }
        lines.into_iter().map(|line| format!("{line}.")).collect()
    }

    /// `L3: 8x50 in 52 on 1:05`
    pub(super) fn holds(self, line: &HoldLine) -> String {
        let hold = line.hold.map(Centis::to_tenth).map(Centis::short);
        let Some(hold) = hold else { return self.rests(line) };
        let on = line.on.map(|on| format!(" {} {on}", self.on())).unwrap_or_default();
        let said = match line.count {
            Some(count) => self.hold_in(&hold, &format!("{count}x{}", line.distance), &on),
            None => self.hold_in(&hold, &line.distance.to_string(), &on),
        };
        self.of_line(line, &said)
    }

    /// `L3: 13 s rest (in at 52 on 1:05)`
    pub(super) fn rests(self, line: &HoldLine) -> String {
        let on = line.on.map(|on| on.to_string()).unwrap_or_default();
        let hold = line.hold.map(Centis::to_tenth);
        let rest = hold.zip(line.on).and_then(|(hold, on)| on.rest_after(hold));
        let said = match (hold, rest) {
            (Some(hold), Some(rest)) => self.rest_is(&difference(rest), &hold.short(), &on),
            (Some(hold), None) => self.no_rest(&hold.short(), &on),
            (None, _) => self.leaves_every(&on),
        };
        self.of_line(line, &said)
    }

    pub(super) fn of_line(self, line: &HoldLine, said: &str) -> String {
        match (&line.who, line.lane) {
            (Some(who), _) => format!("{who}: {said}"),
            (None, Some(lane)) => format!("{}: {said}", self.lane(lane)),
            (None, None) => first_upper(said),
        }
    }

    /// Which kit a night's set asks for.
    pub(super) fn kit_of(self, day: &str, asked: &[Equipment], kit: &[Equipment]) -> String {
        let named = |kit: &[Equipment]| {
            let names: Vec<String> =
                kit.iter().map(|one| self.equipment(*one).to_owned()).collect();
            self.all_of(&names)
        };
        let all = asked.iter().all(|one| kit.contains(one));
        match (asked.is_empty(), kit.is_empty()) {
            (false, _) if all => self.kit_yes(&named(asked), day),
            (_, true) => self.kit_none(day),
            (true, false) => self.kit_is(&named(kit), day),
            (false, false) => self.kit_other(&named(asked), &named(kit), day),
        }
    }

    /// Whether a test is on that night.
    pub(super) fn test_on(self, on: Date, called: Option<(Date, Distance)>) -> String {
        match called {
            Some((day, distance)) if day == on => self.test_is_on(distance.amount(), &self.day(on)),
            Some((day, distance)) => {
                self.test_is_later(&self.day(on), distance.amount(), &self.day(day))
            }
            None => self.no_test_on(&self.day(on)),
        }
    }
}
