//! Plans that wait for the coach's yes.

use super::{Outcome, Trouble};
use crate::message::syntax::Item;
use crate::message::{Approval, Kind, Name, Statement};

/// The statement that `approve` and its parts make. A name may stand before it
/// or behind it.
pub fn approve(who: Option<Name>, parts: &[Item]) -> Outcome<Vec<Statement>> {
    let (who, said) = match (who, parts) {
        (None, []) => (None, Approval::Waiting),
        (None, [Item::Switch(wanted)]) => (None, Approval::Wanted { wanted: *wanted }),
        (None, [Item::Everyone]) => (None, Approval::All),
        (None, [Item::Name(who)]) => (Some(who.clone()), Approval::Given),
        (None, [Item::Name(who), Item::Switch(false)]) => (Some(who.clone()), Approval::SentBack),
        (Some(who), []) => (Some(who), Approval::Given),
        (Some(who), [Item::Switch(false)]) => (Some(who), Approval::SentBack),
        _ => return Err(Trouble::Senseless),
    };
    Ok(vec![Statement { who, kind: Kind::Approval(said) }])
}
