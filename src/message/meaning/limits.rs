//! What somebody can't or may not do.

use super::{Outcome, Trouble};
use crate::message::syntax::{Item, Verb};
use crate::message::{Kind, Limits, Name, Statement};

/// The statement that `limit`, `allow` or `kit` and its parts make.
pub fn command(who: Option<Name>, verb: Verb, parts: &[Item]) -> Outcome<Vec<Statement>> {
    let all = parts.contains(&Item::Everyone);
    if all && who.is_some() {
        return Err(Trouble::Senseless);
    }
    let limited = |part: &Item| match part {
        Item::Limited(limit) => Some(*limit),
        _ => None,
    };
    let mut what: Vec<_> = parts.iter().filter_map(limited).collect();
    what.sort_unstable();
    what.dedup();
    let said = match verb {
        Verb::Limit => Limits::Barred { what, all },
        Verb::Allow => Limits::Allowed { what, all },
        _ => {
            let kit = |part: &Item| match part {
                Item::Equipment(kit) => Some(*kit),
                _ => None,
            };
            let mut kit: Vec<_> = parts.iter().filter_map(kit).collect();
            kit.sort_unstable();
            kit.dedup();
            Limits::Kit { kit }
        }
    };
    Ok(vec![Statement { who, kind: Kind::Limits(said) }])
}
