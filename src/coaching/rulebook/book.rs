//! The rules with the numbers in force.

use std::fmt;

use super::rule::{Number, Rule};
use super::table::{RULES, RuleId};

/// The rules with the numbers in force: the standard ones, or a coach's own.
#[derive(Debug, Clone, PartialEq)]
pub struct Rulebook {
    numbers: Vec<f64>,
}

impl RuleId {
    /// Its row.
    #[expect(clippy::indexing_slicing, reason = "the ids are made from the rows")]
    pub fn rule(self) -> &'static Rule {
        &RULES[self as usize]
    }

    /// Its name in plans, in `why` and in a coach's file.
    pub fn id(self) -> &'static str {
        self.rule().id
    }
}

impl fmt::Display for RuleId {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(self.id())
    }
}

impl Default for Rulebook {
    fn default() -> Self {
        Self {
            numbers: RULES
                .iter()
                .map(|rule| rule.number.map_or(0.0, |number| number.value))
                .collect(),
        }
    }
}

impl Rulebook {
    /// The number in force for a rule; nought for a rule without one.
    #[expect(clippy::indexing_slicing, reason = "a number a row, of which the ids are made")]
    pub fn number(&self, id: RuleId) -> f64 {
        self.numbers[id as usize]
    }

    /// The rule with that id and the number in force; `None` if there is none.
    pub fn in_force(&self, id: &str) -> Option<Rule> {
        let (rule, value) = RULES.iter().zip(&self.numbers).find(|(row, _)| row.id == id)?;
        let number = rule.number.map(|number| Number { value: *value, ..number });
        Some(Rule { number, ..*rule })
    }

    /// Puts `number` in force for the row at `index`.
    pub(super) fn set(&mut self, index: usize, number: f64) {
        if let Some(in_force) = self.numbers.get_mut(index) {
            *in_force = number;
        }
    }

    /// A number that counts whole things: days, sets, swims.
    pub(in crate::coaching) fn whole(&self, id: RuleId) -> i64 {
        self.number(id).round() as i64
    }

    /// A percentage as a share of one.
    pub(in crate::coaching) fn share(&self, id: RuleId) -> f64 {
        self.number(id) / 100.0
    }
}

/// Every rule, in the order a coach would read them.
pub fn rules() -> &'static [Rule] {
    RULES
}

/// The rule with that id.
pub fn rule(id: &str) -> Option<&'static Rule> {
    RULES.iter().find(|rule| rule.id == id)
}
