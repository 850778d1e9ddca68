//! A sample of all that is said of plans that wait for the coach's yes.

use lapwing::reply::*;

use super::parts::{metres, name};
use super::samples::plans;

pub fn waiting() -> Vec<WaitingLine> {
    let line = |who, distance, sessions, hard| WaitingLine {
        who: name(who),
        distance: metres(distance),
        sessions,
        hard,
    };
    vec![line("heron", 2400, 2, 1), line("teal", 900, 1, 0)]
}

/// Every one of them.
pub fn approvals() -> Vec<ApprovalReply> {
    let names = |list: &[&str]| list.iter().map(|one| name(one)).collect::<Vec<_>>();
    let answered = Answered {
        given: names(&["heron", "teal"]),
        lowered: names(&["teal"]),
        untold: names(&["heron"]),
        stopped: names(&["wren"]),
    };
    let list = |wanted, waiting| ApprovalReply::List { wanted, waiting };
    let given = |lowered| {
        let plan = Box::new(plans().remove(1));
        ApprovalReply::ToSwimmer(PlanLetter::Given { plan, lowered })
    };
    let sent_back = |told| ApprovalReply::SentBack { who: name("heron"), told };
    let one = Answered { given: names(&["heron"]), ..Answered::default() };
    vec![
        ApprovalReply::Wish { wanted: true, answered: Answered::default() },
        ApprovalReply::Wish { wanted: false, answered: answered.clone() },
        list(true, waiting()),
        list(true, waiting().split_off(1)),
        list(true, vec![]),
        list(false, vec![]),
        ApprovalReply::Given(answered),
        ApprovalReply::Given(one),
        sent_back(true),
        sent_back(false),
        ApprovalReply::Waits { planned: true },
        ApprovalReply::Waits { planned: false },
        given(false),
        given(true),
        ApprovalReply::ToSwimmer(PlanLetter::SentBack { planned: true }),
        ApprovalReply::ToSwimmer(PlanLetter::SentBack { planned: false }),
        ApprovalReply::ToSwimmer(PlanLetter::WaitsAgain),
    ]
}
