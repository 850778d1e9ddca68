//! The repeats, as one way of taking the numbers and words fills them.

use super::Timed;
use super::subset::Subset;
use super::token::{COMMA, Role, Token, Which};

/// What a word about which repeats costs that nothing is told of.
pub const IDLE: f32 = 0.7;

/// One repeat of a way that is tried.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Slot {
    /// Nothing was said of it.
    Unsaid,
    /// It was not made.
    Missed,
    /// It was held, at whatever it was.
    Held,
    /// Its time.
    Swum(Timed),
}

/// How a text ends early.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Open {
    /// Who swam stopped, or says how many were left.
    pub stopped: bool,
    /// The repeats are still being swum.
    pub so_far: bool,
}

/// The repeats, as one way fills them.
#[derive(Debug, Clone)]
pub struct Row<'t> {
    pub tokens: &'t [Token],
    pub roles: &'t [Role],
    pub slots: Vec<Slot>,
    pub cursor: usize,
    /// How many were told one after the other without a word about which they are.
    pub plain: usize,
    /// The first of them.
    pub first: Option<Slot>,
    /// The last of them, where nothing but it was told since a word or a mark.
    pub lone: Option<Slot>,
    pub all: Option<Slot>,
    pub others: Option<(Slot, Option<u32>)>,
    /// What is told of the last ones, put at the end once all else stands.
    pub ends: Vec<(u32, Vec<Slot>)>,
    /// What is told of those that are excepted, likewise.
    pub excepted: Vec<(Subset, Vec<Slot>)>,
    /// A word about which repeats stands there of which nothing is told.
    pub idle: bool,
    /// A number of repeats of which nothing is told.
    pub counted: Option<usize>,
    pub cost: f32,
}

impl<'t> Row<'t> {
    /// The least cost of this way and what it tells of each repeat; nothing where it does
    /// not come out below `limit`.
    pub fn of(
        tokens: &'t [Token],
        roles: &'t [Role],
        total: usize,
        open: Open,
        limit: f32,
    ) -> Option<(f32, Vec<Slot>)> {
        let row = Row {
            tokens,
            roles,
            slots: vec![Slot::Unsaid; total],
            cursor: 0,
            plain: 0,
            first: None,
            lone: None,
            all: None,
            others: None,
            ends: Vec::new(),
            excepted: Vec::new(),
            idle: false,
            counted: None,
            cost: 0.0,
        };
        row.best(0, open, limit)
    }

    /// The best of the ways to go on from a place.
    fn best(self, at: usize, open: Open, limit: f32) -> Option<(f32, Vec<Slot>)> {
        if self.cost >= limit {
            return None;
        }
        if at >= self.tokens.len() {
            return self.close(open).filter(|(cost, _)| *cost < limit);
        }
        let mut best: Option<(f32, Vec<Slot>)> = None;
        for (row, next) in self.ways(at) {
            let limit = best.as_ref().map_or(limit, |(known, _)| *known);
            if let Some(found) = row.best(next, open, limit) {
                best = Some(found);
            }
        }
        best
    }

    /// The ways to take what stands at a place, each with where it ends.
    fn ways(&self, at: usize) -> Vec<(Self, usize)> {
        let mut ways = Vec::new();
        match self.tokens.get(at) {
            Some(Token::Word(Which::Except)) => ways.extend(self.except(at)),
            Some(Token::Break(_) | Token::Word(Which::Then | Which::To)) | None => {
                let mut row = self.clone();
                row.lone = None;
                ways.push((row, at + 1));
            }
            _ => {}
        }
        if let Some((subset, next)) = self.subset(at) {
            ways.extend(self.ahead(&subset, next));
            let mut row = self.clone();
            row.cost += match subset {
                Subset::Next(count) if count as usize == self.slots.len() => 0.1,
                Subset::All => 0.1,
                Subset::Next(count) => {
                    row.counted = Some(count as usize);
                    row.idle = true;
                    IDLE
                }
                _ => {
                    row.idle = true;
                    IDLE
                }
            };
            ways.push((row, next));
        }
        if let Some((told, next)) = self.values(at) {
            ways.extend(self.behind(&told, next));
            let mut row = self.clone();
            if row.plainly(&told, at).is_some() {
                ways.push((row, next));
            }
        }
        if ways.is_empty() {
            ways.push((self.clone(), at + 1));
        }
        ways
    }

    /// A subset with what is told of it behind it.
    fn ahead(&self, subset: &Subset, at: usize) -> Option<(Self, usize)> {
        let (at, apart) = self.apart(at);
        let many = self.many(subset);
        let (told, mut next) = self.listed(at, many).or_else(|| self.values(at))?;
        let listed = if many > 1 && told.len() == many { many } else { 1 };
        // Times behind the first of several are told of what follows.
        if listed < told.len() {
            next = at + listed;
        }
        let mut row = self.clone();
        row.cost += apart;
        row.assign(subset, told.get(..listed)?)?;
        Some((row, next))
    }

    /// Something told, with the subset that it is told of behind it.
    fn behind(&self, told: &[Slot], at: usize) -> Option<(Self, usize)> {
        let (at, apart) = self.apart(at);
        let (subset, next) = self.subset(at)?;
        if told.len() != 1 && told.len() != self.many(&subset) {
            return None;
        }
        let mut row = self.clone();
        // `died on the last one, 52`: slow, and not missed.
        let (behind, _) = self.apart(next);
        if told == [Slot::Missed] && matches!(self.roles.get(behind), Some(Role::Time(_))) {
            row.cost += IDLE;
        }
        // Which one it was is said before it, as a rule.
        let one = matches!(&subset, Subset::Places(places) if places.len() == 1);
        row.cost += apart + if one { 0.4 } else { 0.05 };
        row.assign(&subset, told)?;
        Some((row, next))
    }

    /// `all but the last two`, `menos el sexto que fue 52`.
    fn except(&self, at: usize) -> Vec<(Self, usize)> {
        let (from, _) = self.apart(at + 1);
        let Some((subset, next)) = self.subset(from) else { return vec![] };
        let mut ways = Vec::new();
        let (behind, apart) = self.apart(next);
        let many = self.many(&subset);
        if let Some((told, end)) = self.listed(behind, many).or_else(|| self.values(behind)) {
            let mut row = self.clone();
            // What is told of them comes next, whatever stands between; `all but 6 was 55`
            // is the sixth.
            let by_number = matches!(subset, Subset::Next(_));
            row.cost += apart / 3.0 + if by_number { IDLE } else { 0.0 };
            let listed = if told.len() == self.many(&subset) { told.len() } else { 1 };
            let end = if listed < told.len() { behind + listed } else { end };
            row.excepted.push((subset.clone(), told.into_iter().take(listed).collect()));
            row.lone = None;
            ways.push((row, end));
        }
        let mut row = self.clone();
        row.cost += 0.4;
        row.excepted.push((subset, vec![Slot::Missed]));
        row.lone = None;
        ways.push((row, next));
        ways
    }

    /// Past marks and little words, with what it costs to read across them.
    pub fn apart(&self, mut at: usize) -> (usize, f32) {
        let mut cost = 0.0;
        loop {
            cost += match self.tokens.get(at) {
                Some(Token::Break(more)) => *more,
                Some(Token::Word(Which::To)) => 0.0,
                Some(Token::Word(Which::Then)) => 0.3,
                // `the last one, 52`
                Some(Token::Number(_)) if self.roles.get(at) == Some(&Role::Nothing) => 0.1,
                _ => return (at, cost),
            };
            at += 1;
        }
    }

    /// So many times from a place on, with commas and `and` between.
    fn listed(&self, at: usize, many: usize) -> Option<(Vec<Slot>, usize)> {
        let mut told = Vec::new();
        let mut next = at;
        while told.len() < many {
            match (self.roles.get(next)?, self.tokens.get(next)?) {
                (Role::Time(time), _) => told.push(Slot::Swum(*time)),
                (_, Token::Break(cost)) if *cost <= COMMA && !told.is_empty() => {}
                _ => return None,
            }
            next += 1;
        }
        (many > 1).then_some((told, next))
    }

    /// What is told at a place: times one behind the other, or a word for one.
    fn values(&self, at: usize) -> Option<(Vec<Slot>, usize)> {
        match self.tokens.get(at)? {
            Token::Word(Which::Missed) => Some((vec![Slot::Missed], at + 1)),
            Token::Word(Which::Held) => Some((vec![Slot::Held], at + 1)),
            _ => {
                let time = |role: &Role| match role {
                    Role::Time(time) => Some(Slot::Swum(*time)),
                    _ => None,
                };
                let told: Vec<Slot> = self.roles.iter().skip(at).map_while(time).collect();
                let next = at + told.len();
                (!told.is_empty()).then_some((told, next))
            }
        }
    }

    /// Puts what was told where the next unsaid ones are.
    fn plainly(&mut self, told: &[Slot], at: usize) -> Option<()> {
        let listed = |at: usize| matches!(self.roles.get(at), Some(Role::Time(_)));
        match told {
            [Slot::Held] => return Some(()),
            // A word of missing says so of one repeat among times only.
            [Slot::Missed] if !(at > 0 && listed(at - 1) && listed(at + 1)) => {
                self.lone = Some(Slot::Missed);
                self.cost += 0.2;
                return Some(());
            }
            _ => {}
        }
        for slot in told {
            while self.slots.get(self.cursor).is_some_and(|slot| *slot != Slot::Unsaid) {
                self.cursor += 1;
            }
            *self.slots.get_mut(self.cursor)? = *slot;
            self.cursor += 1;
            self.plain += 1;
            self.first = self.first.or(Some(*slot));
        }
        // A number beside it that is no time parts a list, and leaves none alone.
        let number = |at: usize| matches!(self.tokens.get(at), Some(Token::Number(_)));
        let alone = told.len() == 1 && !number(at + 1) && !at.checked_sub(1).is_some_and(number);
        self.lone = told.first().copied().filter(|_| alone);
        Some(())
    }

    /// Puts what was told of some of them; nothing where there are not so many.
    pub fn assign(&mut self, subset: &Subset, told: &[Slot]) -> Option<()> {
        let first = *told.first()?;
        self.lone = None;
        match subset {
            Subset::First(count) | Subset::Next(count) => {
                if matches!(subset, Subset::First(_)) {
                    self.cursor = 0;
                }
                for number in 0..*count as usize {
                    let slot = told.get(number).copied().unwrap_or(first);
                    let there = self.slots.get_mut(self.cursor)?;
                    if *there != Slot::Unsaid {
                        return None;
                    }
                    *there = slot;
                    self.cursor += 1;
                }
            }
            Subset::Last(count) => {
                let slots = (0..*count as usize).map(|at| told.get(at).copied().unwrap_or(first));
                self.ends.push((*count, slots.collect()));
            }
            Subset::Places(places) => {
                for (number, place) in places.iter().enumerate() {
                    let slot = told.get(number).copied().unwrap_or(first);
                    *self.slots.get_mut(place.checked_sub(1)? as usize)? = slot;
                }
            }
            Subset::Until(place) => {
                let until = *place as usize;
                self.slots.get_mut(self.cursor..until).filter(|some| !some.is_empty())?.fill(first);
                self.cursor = until;
            }
            Subset::Others(count) if told.len() == 1 => self.others = Some((first, *count)),
            Subset::Others(_) => return self.assign(&Subset::Next(told.len() as u32), told),
            Subset::All => self.all = Some(first),
        }
        Some(())
    }
}
