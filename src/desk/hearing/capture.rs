//! Many results in one text: each swimmer's stand by themselves.
//!
//! "Several results in one text are several records, applied together or not
//! at all" holds for what is told of one person, and for a text that can't be
//! read. A coach's text about several is as many reports on one sheet: what is
//! in doubt about one swimmer waits, and the others' results are stored.

use crate::desk::decision::decided::stops_all;
use crate::desk::decision::desk::Desk;
use crate::desk::decision::questions_back::of_whom;
use crate::desk::decision::view::View;
use crate::history::{Event, QuestionKept, Right};
use crate::message::{Kind, Message, Name, SetResult, Statement};
use crate::reply::Outcome;

/// Statements with their places in the text.
type Placed<'m> = Vec<(usize, &'m Statement)>;

impl View<'_> {
    /// The statements by swimmer, in the order named; `None` where they are all
    /// of one, or where the sender speaks for none of them. What somebody says of
    /// themselves holds, whatever they may not say of others beside it.
    pub fn by_swimmer<'m>(&self, statements: &Placed<'m>) -> Option<Vec<Placed<'m>>> {
        let mut groups: Vec<(Option<&Name>, Placed<'m>)> = Vec::new();
        for (at, statement) in statements {
            let who = statement.who.as_ref();
            match groups.iter_mut().find(|(of, _)| *of == who) {
                Some((_, group)) => group.push((*at, statement)),
                None => groups.push((who, vec![(*at, statement)])),
            }
        }
        let own = |who: &Option<&Name>| who.is_none_or(|who| self.is_mine(who));
        let may = self.may(Right::SpeakForOthers) || groups.iter().any(|(who, _)| own(who));
        let several = groups.len() > 1 && may;
        several.then(|| groups.into_iter().map(|(_, group)| told_once(group)).collect())
    }
}

impl Desk<'_> {
    /// Decides each swimmer's statements together or not at all, and whatever
    /// becomes of the others'. What is asked about them is asked one by one.
    /// `decide` decides one statement of a message.
    pub fn each_alone(
        &mut self,
        groups: Vec<Placed<'_>>,
        decide: fn(&mut Self, &Statement, &Message) -> Outcome,
    ) -> Vec<(usize, Outcome)> {
        let mut all = Vec::new();
        let mut asked: Vec<QuestionKept> = Vec::new();
        for group in groups {
            let before = self.mark();
            let statements = group.iter().map(|(_, statement)| (*statement).clone()).collect();
            let own = Message { statements };
            let mut outcomes = Vec::with_capacity(group.len());
            for (at, statement) in group {
                let outcome = decide(self, statement, &own);
                if !stops_all(&outcome) {
                    outcomes.push((at, outcome));
                    continue;
                }
                let question =
                    self.back_to(before).into_iter().rev().find_map(|event| match event {
                        Event::QuestionAsked { question, .. } => Some(question),
                        _ => None,
                    });
                outcomes.clear();
                match (outcome, &statement.who) {
                    (Outcome::Question(reply), Some(who)) => {
                        let reply = of_whom(reply, who);
                        asked.extend(question.map(|question| QuestionKept {
                            asks: self.voice().question(&reply).join(" "),
                            about: Some(who.clone()),
                            ..question
                        }));
                        outcomes.push((at, Outcome::Question(reply)));
                    }
                    (other, _) => {
                        asked.extend(question);
                        outcomes.push((at, other));
                    }
                }
                break;
            }
            all.extend(outcomes);
        }
        let address = self.asked.from.to_owned();
        let mut asked = asked.into_iter();
        if let Some(question) = asked.next() {
            // One from an earlier text waits again, behind what is asked now.
            let earlier = self.open_question().filter(|open| open.about.is_some()).cloned();
            self.record(Event::QuestionAsked { address: address.clone(), question });
            for question in asked.chain(earlier) {
                self.record(Event::QuestionQueued { address: address.clone(), question });
            }
        }
        all
    }
}

/// `lane 3 all made it, knot did 4`: what is said of one swimmer replaces, for them,
/// what was said of all.
fn told_once(group: Placed<'_>) -> Placed<'_> {
    let sets: Vec<Option<&SetResult>> = group
        .iter()
        .map(|(_, statement)| match &statement.kind {
            Kind::SetResult(set) => Some(set),
            _ => None,
        })
        .collect();
    let told_over = |at: usize| {
        let all = sets.get(at).copied().flatten().filter(|set| set.made == Some(set.count));
        let over = |all: &SetResult| {
            let later = sets.iter().skip(at + 1).flatten();
            later.into_iter().any(|one| (one.distance, one.stroke) == (all.distance, all.stroke))
        };
        all.is_some_and(over)
    };
    let over: Vec<bool> = (0..group.len()).map(told_over).collect();
    let kept = group.into_iter().zip(over).filter(|(_, over)| !over);
    kept.map(|(one, _)| one).collect()
}

/// True for a text of several swimmers' results, to be answered in brief.
pub fn is_capture(statements: &[Statement]) -> bool {
    let results = statements.iter().filter(|one| {
        matches!(
            one.kind,
            Kind::Test(_)
                | Kind::TimedTest(_)
                | Kind::SetResult(_)
                | Kind::Done(_)
                | Kind::RelayLeg(_)
        )
    });
    let mut names: Vec<&Name> = results.filter_map(|one| one.who.as_ref()).collect();
    names.sort_unstable();
    names.dedup();
    names.len() > 1
}
