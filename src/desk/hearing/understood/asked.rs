//! Questions that were taken apart, under the contract's nearest kind.

use super::fields::Fields;
use super::words::strings;
use crate::message::{Of, Pick, Question, Sought, SquadFilter};

/// The kind and its fields.
pub fn asked(question: &Question, text: &str) -> (&'static str, Fields) {
    let fields = Fields::default();
    let (kind, fields) = match question.sought {
        Sought::Meaning => {
            let topic = question.terms.first().map(|term| term.name());
            ("help", fields.with("topic", topic))
        }
        Sought::Best => {
            let distance = question.length.map(|length| length.amount);
            ("best", fields.with("distance", distance))
        }
        Sought::Us | Sought::Data | Sought::Converted | Sought::Sum | Sought::Lengths => {
            ("ask", fields)
        }
        Sought::Gap if question.times.is_empty() => match &question.of {
            Of::Named(names) => ("compare", fields.with("who", strings(names))),
            _ => ("ask", fields),
        },
        Sought::Gap => ("best", fields),
        Sought::Pace | Sought::Hold | Sought::Targets => {
            let distances = question.length.map(|length| length.amount).into_iter().collect();
            ("targets", fields.with_list("distances", distances))
        }
        Sought::Time | Sought::Stored | Sought::Swum | Sought::LastSwum => ("log", fields),
        Sought::Versus => ("trend", fields),
        Sought::Ranked(Pick::Better) => {
            ("squad", fields.with("filter", SquadFilter::Improving.name()))
        }
        Sought::Untested => ("squad", fields.with("filter", SquadFilter::Overdue.name())),
        Sought::Silent => ("squad", fields.with("filter", SquadFilter::Silent.name())),
        Sought::Ranked(_) | Sought::Average => ("squad", fields),
        Sought::Came | Sought::LastCame | Sought::Goal => ("swimmer", fields),
        Sought::TestNight => ("test_night", fields),
        Sought::Count
        | Sought::Total
        | Sought::Rest
        | Sought::Kit
        | Sought::Room
        | Sought::Standing
        | Sought::Lane
        | Sought::Evening => ("tonight", fields),
    };
    (kind, fields.with("text", text.to_owned()))
}
