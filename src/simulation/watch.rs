//! Looks for broken rules in plans, from outside: by the plans alone.

use jiff::civil::Date;

use crate::coaching::{Facts, Week, WeekKind, is_hard};

/// So long out of the water is a break (common practice, no source).
const BREAK_DAYS: i32 = 10;

/// How often each rule was found broken, and the weeks looked at.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Broken {
    /// Weeks looked at.
    pub weeks: u32,
    /// Sessions looked at.
    pub sessions: u32,
    /// Weeks over 1.15 times the largest of the four before.
    pub ramp: u32,
    /// Hard sessions on days next to each other.
    pub hard_days: u32,
    /// A fourth week of work without an easy one.
    pub easy_weeks: u32,
    /// Weeks after an easy one below the old distance, where that was swum.
    pub comebacks: u32,
    /// Sessions that don't fit their minutes or their pool.
    pub fits: u32,
    /// Repeats whose target is not under their send-off.
    pub send_offs: u32,
    /// Hard sessions while pain or illness was open.
    pub raised: u32,
    /// Hard sessions for whom no swim was told of for ten days and more.
    pub returns: u32,
    seen: Vec<Seen>,
    last_hard: Option<Date>,
}

/// A week that was looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Seen {
    starts: Date,
    kind: WeekKind,
    distance: u32,
}

impl Seen {
    fn is_work(&self) -> bool {
        matches!(self.kind, WeekKind::Normal | WeekKind::Hard)
    }

    /// True if what was told of its seven days is most of it.
    fn was_swum(&self, facts: &Facts) -> bool {
        let within = |day: Date| (0..7).contains(&(day - self.starts).get_days());
        let swims = facts.swims.iter().filter(|swim| within(swim.on));
        let far: u32 = swims.filter_map(|swim| Some(swim.distance?.amount())).sum();
        far * 4 >= self.distance * 3
    }
}

impl Broken {
    /// Looks at `week`, planned from `facts`.
    pub fn look_at(&mut self, facts: &Facts, week: &Week) {
        let this = Seen { starts: week.starts, kind: week.kind, distance: week.distance() };
        self.weeks += 1;
        if this.is_work() {
            let four = self.seen.iter().rev().take(4);
            let base = four.filter(|week| week.is_work()).map(|week| week.distance).max();
            self.ramp += u32::from(base.is_some_and(|base| this.distance * 100 > base * 115));
            let running = self.seen.iter().rev().take_while(|week| week.is_work()).count();
            self.easy_weeks += u32::from(running >= 3);
            if let [.., work, Seen { kind: WeekKind::Easy, .. }] = self.seen.as_slice() {
                let held = work.is_work() && work.was_swum(facts);
                self.comebacks += u32::from(held && this.distance < work.distance);
            }
        }
        let last = facts.swims.iter().map(|swim| swim.on).max();
        let away = last.is_some_and(|last| (week.starts - last).get_days() >= BREAK_DAYS);
        for session in &week.sessions {
            self.sessions += 1;
            let lines = || session.blocks.iter().flat_map(|block| &block.repeats);
            let in_time = session.duration_s() <= u32::from(facts.minutes) * 60;
            let in_pool = lines().all(|line| line.distance.fits(facts.course));
            self.fits += u32::from(!in_time || !in_pool);
            let late = lines().filter(|line| {
                line.target.zip(line.send_off).is_some_and(|(target, on)| target >= on.time())
            });
            self.send_offs += u32::try_from(late.count()).unwrap_or(u32::MAX);
            if is_hard(session) {
                self.raised += u32::from(!facts.open.is_empty());
                self.returns += u32::from(away);
                let close = self.last_hard.is_some_and(|last| (session.on - last).get_days() < 2);
                self.hard_days += u32::from(close);
                self.last_hard = Some(session.on);
            }
        }
        self.seen.push(this);
    }

    /// All that was found broken.
    pub fn total(&self) -> u32 {
        self.ramp
            + self.hard_days
            + self.easy_weeks
            + self.comebacks
            + self.fits
            + self.send_offs
            + self.raised
            + self.returns
    }

    /// Adds what another looked at.
    pub fn add(&mut self, other: &Broken) {
        self.weeks += other.weeks;
        self.sessions += other.sessions;
        self.ramp += other.ramp;
        self.hard_days += other.hard_days;
        self.easy_weeks += other.easy_weeks;
        self.comebacks += other.comebacks;
        self.fits += other.fits;
        self.send_offs += other.send_offs;
        self.raised += other.raised;
        self.returns += other.returns;
    }
}
