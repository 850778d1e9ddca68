//! Where a request stops short: refused, or not understood.

use crate::coaching::{self, RefusalReason};
use crate::reply::{
    CautionKind, CautionReply, NotUnderstoodReply, OfficeRefusal, Outcome, RefusedReply,
    RefusedWhy, Unread,
};

/// What a request comes to where it stops short: a question or a refusal.
pub type Stopped = Box<Outcome>;

/// A refusal.
pub fn refused(rule: impl Into<String>, why: RefusedWhy) -> Stopped {
    Box::new(Outcome::Refused(RefusedReply { rule: rule.into(), why }))
}

/// A refusal that has to do with offices, names or stops.
pub fn turned_down(rule: &str, why: OfficeRefusal) -> Stopped {
    refused(rule, RefusedWhy::Office(why))
}

/// A rule's refusal: a stop is a caution, the rest are refusals by id.
pub fn refusal(refusal: coaching::Refusal) -> Stopped {
    match refusal.reason {
        RefusalReason::Stopped => {
            Box::new(Outcome::Caution(CautionReply { kind: CautionKind::Stopped, about: None }))
        }
        reason => refused(refusal.rule, RefusedWhy::Coaching(reason)),
    }
}

/// What was not read, where nothing else of the text was either.
pub fn unread(rest: Unread) -> Outcome {
    Outcome::NotUnderstood(NotUnderstoodReply {
        understood: vec![],
        rest,
        example: "200 test 3:12".to_owned(),
    })
}
