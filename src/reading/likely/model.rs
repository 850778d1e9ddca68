//! The weights, and what they make of a text.

use std::cell::OnceCell;
use std::sync::LazyLock;

use super::Class;
use super::feature::features;
use super::linear::Linear;
use super::telling::{LONGEST, Tellings, tellings};
use crate::language::Language;
use crate::message::Kind;
use crate::reading::frame::Clause;

/// What an unlikely kind costs at most, in nats.
const MOST: f32 = 2.5;

/// The weights of one language.
#[derive(Debug, Default)]
pub struct Weights(Linear);

/// How likely each kind is by a text's words alone.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Likely {
    /// By [`Class::ALL`]'s order, each for itself: a text may say several things.
    odds: Vec<f32>,
    /// What was looked at in it.
    features: Vec<String>,
    /// All that it may tell together, looked for only when asked.
    tellings: OnceCell<Tellings>,
}

impl Weights {
    /// Those of `language`.
    pub fn of(language: Language) -> &'static Weights {
        match language {
            Language::English => &ENGLISH,
            Language::Spanish => &SPANISH,
        }
    }

    /// Reads a table: a line a feature, `feature class:weight class:weight`.
    fn load(table: &'static str) -> Self {
        let lines = table.lines().filter(|line| !line.starts_with('#'));
        let at = |name: &str| Class::by_name(name).map(|class| class as u16);
        Weights(Linear::load(lines, Class::ALL.len(), at))
    }

    /// What the words of a text say of its kind.
    pub fn likely(&self, c: &Clause<'_, '_>) -> Likely {
        if self.0.is_empty() {
            return Likely::default();
        }
        let features = features(c);
        let sums = self.0.sums(&features);
        let odds =
            sums.iter().zip(&self.0.bias).map(|(sum, bias)| 1.0 / (1.0 + (-sum - bias).exp()));
        Likely { odds: odds.collect(), features, tellings: OnceCell::new() }
    }
}

impl Likely {
    /// What the text that a stretch is of tells, the likeliest first; nothing of a
    /// longer one than anybody types.
    pub fn tellings(&self, stretch: &Clause<'_, '_>) -> &Tellings {
        self.tellings.get_or_init(|| match stretch.whole() {
            whole if whole.len() <= LONGEST => tellings(&whole),
            _ => vec![],
        })
    }

    /// What the words' model looked at in the text.
    pub fn features(&self) -> &[String] {
        &self.features
    }

    /// How likely a kind is, 0 to 1; a half where nothing is known.
    pub fn of(&self, class: Class) -> f32 {
        self.odds.get(class as usize).copied().unwrap_or(0.5)
    }

    /// What a statement costs for its words, in nats.
    pub fn cost(&self, kind: &Kind) -> f32 {
        if self.odds.is_empty() {
            return 0.7;
        }
        // What is put right is of its own kind too, where no other is as likely: `el
        // izquierdo` behind a pain. Not so a swim: whatever has a figure is like one.
        let anew = match kind {
            Kind::Restate { says, changed } => says
                .get(*changed)
                .filter(|one| !one.kind.is_swum())
                .and_then(|one| Class::of(&one.kind)),
            _ => None,
        };
        let likeliest = |class: &Class| self.odds.iter().all(|other| *other <= self.of(*class));
        let classes = Class::of(kind).into_iter().chain(anew.filter(likeliest));
        let costs = classes.map(|class| (-self.of(class).ln()).min(MOST));
        costs.min_by(f32::total_cmp).unwrap_or(0.7)
    }

    /// The kinds, the likeliest first, and how likely each is.
    pub fn ranked(&self) -> Vec<(Class, f32)> {
        let mut odds: Vec<_> = Class::ALL.iter().copied().zip(self.odds.iter().copied()).collect();
        odds.sort_by(|one, other| other.1.total_cmp(&one.1));
        odds
    }
}

static ENGLISH: LazyLock<Weights> =
    LazyLock::new(|| Weights::load(include_str!("../../../grammar/weights/english.txt")));

static SPANISH: LazyLock<Weights> =
    LazyLock::new(|| Weights::load(include_str!("../../../grammar/weights/spanish.txt")));
