//! One decision a statement, applied together or not at all.

use serde_json::Value;

use crate::desk::board::page_address;
use crate::desk::decision::decided::{in_order, stops_all};
use crate::desk::decision::desk::Desk;
use crate::desk::decision::questions_back::{self, with_name};
use crate::desk::decision::refusing::{Stopped, refused, unread};
use crate::desk::decision::view::View;
use crate::desk::evening::{
    answers, attend, change_set, coach_set, lanes, register, reopening, results_by_lane,
    test_night, timetable,
};
use crate::desk::hearing::capture::is_capture;
use crate::desk::hearing::{pausing, rooms, understood};
use crate::desk::plans::{approval, limits, meets, sessions};
use crate::desk::questions::{self, help};
use crate::desk::safety::{care, welfare};
use crate::desk::squad::{broadcast, forgetting, joining, membership, overview, profile};
use crate::desk::swims::{
    own_targets, putting_right, relay, remarks, sessions_done, set_put_right, set_results,
    taking_back, targets, test_results,
};
use crate::desk::unasked::regular;
use crate::history::{Attendance, Event, QuestionKept, Right};
use crate::message::{
    About, Day, Kind, LaneResults, Message, Name, PlanWish, Sought, Statement, Turn,
};
use crate::reply::{Asks, Outcome, QuestionReply, RefusedWhy, Unread};

impl Desk<'_> {
    /// Decides every statement, those about danger and health first. If one of
    /// the others can't be done, none of them is, or none of that swimmer's in a
    /// coach's text about several; a danger text is never undone by what stands
    /// beside it.
    pub fn apply(&mut self, message: &Message) -> (Vec<Value>, Outcome) {
        let message = &self.spoken(message);
        self.read.extend(message.statements.iter().cloned());
        let understood = understood::all(self, message);
        let turn = |one: &Statement| one.kind.nature().turn;
        let (urgent, others): (Vec<_>, Vec<_>) =
            (0..).zip(&message.statements).partition(|(_, one)| turn(one) <= Turn::Health);
        let mut outcomes: Vec<(usize, Outcome)> = Vec::new();
        let (danger, health): (Vec<_>, Vec<_>) =
            urgent.into_iter().partition(|(_, one)| turn(one) == Turn::Danger);
        for (at, statement) in danger {
            outcomes.push((at, self.statement(statement, message)));
        }
        let rest: Vec<&Statement> = health.iter().chain(&others).map(|(_, one)| *one).collect();
        if let Some(question) = self.which_person(&rest) {
            let outcomes = outcomes.into_iter().map(|(_, one)| one).chain([question]);
            return (understood, Outcome::of_all(outcomes.collect()));
        }
        for (at, statement) in health {
            outcomes.push((at, self.statement(statement, message)));
        }
        let mut others = others;
        others.sort_by_key(|(_, statement)| turn(statement));
        if let Some(groups) = self.by_swimmer(&others) {
            outcomes.extend(self.each_alone(groups, Self::statement));
            return (understood, in_order(outcomes, is_capture(&message.statements)));
        }
        let several = others.len() > 1;
        let before = several.then(|| self.mark());
        let safe = outcomes.len();
        for (at, statement) in others {
            let outcome = self.statement(statement, message);
            let stops = stops_all(&outcome);
            let asks = matches!(outcome, Outcome::Question(_));
            outcomes.push((at, outcome));
            if stops && let Some(before) = before {
                let question = self.asked_last().filter(|_| asks);
                self.back_to(before);
                outcomes.drain(safe..outcomes.len() - 1);
                question.into_iter().for_each(|question| self.record(question));
                break;
            }
        }
        (understood, in_order(outcomes, false))
    }

    /// The question that a statement asked on its way, to outlive the rest.
    pub fn asked_last(&self) -> Option<Event> {
        self.events.iter().rev().find(|event| matches!(event, Event::QuestionAsked { .. })).cloned()
    }

    pub fn statement(&mut self, statement: &Statement, message: &Message) -> Outcome {
        if let Err(held) = self.danger_first(statement) {
            return *held;
        }
        let done = match &statement.kind {
            Kind::Swimmer if self.is_no_name(statement) => {
                let typed = statement.who.as_ref().map(Name::to_string).unwrap_or_default();
                Err(Box::new(unread(Unread::Words(typed))))
            }
            Kind::Test(test) => test_results::test(self, statement, test, message),
            Kind::TimedTest(test) => test_results::timed_test(self, statement, test, message),
            Kind::SetResult(set) => set_results::set(self, statement, set, message),
            Kind::Done(done) => sessions_done::done(self, statement, done),
            Kind::Missed { on } => sessions_done::missed(self, statement, *on),
            Kind::Away { from, until } => sessions_done::away(self, statement, *from, *until),
            Kind::Pain(pain) => care::pain(self, statement, pain),
            Kind::Ill { what } => care::ill(self, statement, *what),
            Kind::Better => care::better(self, statement),
            Kind::Faint => care::faint(self, statement),
            Kind::Welfare => Ok(welfare::welfare(self)),
            Kind::Hold { .. } => care::hold(self, statement),
            Kind::Release => care::release(self, statement),
            Kind::Plan(wish) => match self.plans_for_squad(statement, wish) {
                Some(day) => coach_set::plan(self, wish, day),
                None => sessions::plan(self, statement, wish),
            },
            Kind::Next(wish) => sessions::next(self, statement, wish),
            Kind::Tonight => answers::tonight(self, statement),
            Kind::Board => page_address::open(self),
            Kind::Shorter => self.stepped(statement, sessions::Step::Shorter),
            Kind::Easier => self.stepped(statement, sessions::Step::Easier),
            Kind::Harder => self.stepped(statement, sessions::Step::Harder),
            Kind::Again => sessions::again(self, statement),
            Kind::Targets { distances } => targets::targets(self, statement, distances),
            Kind::Predict { distance } => targets::predict(self, statement, *distance),
            Kind::Race { distance, on, goal } => {
                sessions::race(self, statement, *distance, *on, goal.as_ref())
            }
            Kind::Swap { days } => sessions::swap(self, statement, days),
            Kind::Squad { filter, on } => overview::squad(self, *filter, *on),
            Kind::Swimmer | Kind::Best | Kind::Log => overview::swimmer(self, statement),
            Kind::Trend => page_address::trend_told(self, statement),
            Kind::Profile(change) => profile::change(self, statement, change),
            Kind::Focus { text } => overview::focus(self, statement, text),
            Kind::Note { text } => overview::note(self, statement, text),
            Kind::Join { code, name } => joining::join(self, code, name),
            Kind::Help { topic } => Ok(help::help(self, topic.as_deref())),
            Kind::Why => help::why(self),
            Kind::More => help::more(self),
            Kind::People(said) => membership::people(self, statement, said),
            Kind::Undo => taking_back::undo(self, statement),
            Kind::SwapResults { names, on, distance } => {
                putting_right::swap(self, names, *on, *distance)
            }
            Kind::Fix(fix) => putting_right::fix(self, statement, fix),
            Kind::Ask(ask) => questions::ask(self, statement, ask),
            Kind::Leaves { at, on } => attend::leaves(self, statement, *at, *on),
            Kind::Maybe { on } => attend::perhaps(self, statement, *on),
            Kind::Ability { unbroken, most } => remarks::ability(self, statement, *unbroken, *most),
            Kind::Tired => remarks::tired(self, statement),
            Kind::Back { .. } | Kind::Goal { .. } | Kind::Quiet { .. } => {
                remarks::of_swimmer(self, statement)
            }
            Kind::Move { names, lane, by } => lanes::moved(self, names, *lane, *by),
            Kind::SwapLanes { names } => lanes::swapped(self, names),
            Kind::LaneOrder { lane, names } => lanes::ordered(self, *lane, names),
            Kind::DrawnAs { lanes: drawn } => lanes::drawn_as(self, drawn),
            Kind::Gap { seconds } => lanes::gap(self, *seconds),
            Kind::NamesInRooms { shown } => rooms::names(self, *shown),
            Kind::Change(edits) => change_set::change(self, edits),
            Kind::LaneOf { lane } => answers::lane(self, *lane),
            Kind::Restate { says, .. } => self.restated(says),
            Kind::Yes | Kind::Choose { .. } => Err(refused("no_question", RefusedWhy::NoQuestion)),
            Kind::No => questions_back::no(self),
            Kind::Forget => forgetting::forget(self, statement),
            Kind::Stop => pausing::stop(self),
            Kind::Start => Ok(pausing::start(self)),
            Kind::Here { names, all_but, on } => {
                register::here(self, statement, names, *all_but, *on)
            }
            Kind::Absent { names, on } => register::absent(self, statement, names, *on),
            Kind::LaneResults(results) => self.lane_results(results),
            Kind::Cut(cut) => change_set::cut(self, cut),
            Kind::Entry(entry) => meets::entry(self, statement, entry),
            Kind::RelayLeg(leg) => relay::leg(self, statement, leg, message),
            Kind::Entries => meets::entries(self, statement),
            Kind::Meet { on, course } => meets::meet(self, *on, *course),
            Kind::Lanes { count } => lanes::draw(self, *count),
            Kind::TestNight { distance, on } => test_night::test_night(self, *distance, *on),
            Kind::Pin { lane } => lanes::pin(self, statement, *lane),
            Kind::Apart { names, apart } => lanes::apart(self, names, *apart),
            Kind::Tell { text } => broadcast::tell(self, statement, text),
            Kind::OwnTargets { holds } => own_targets::own_targets(self, statement, holds),
            Kind::Limits(said) => limits::limits(self, statement, said),
            Kind::Regular(said) => regular::regular(self, statement, said),
            Kind::Approval(said) => approval::approval(self, statement, *said),
            Kind::Slot(slot) => timetable::slot(self, slot),
            Kind::Shut { days, on } => timetable::shut(self, days, *on),
            Kind::Reopen { days, on } => reopening::reopen(self, days, *on),
            Kind::LaneGone => lanes::lane_gone(self),
            Kind::Compare { names } => overview::compare(self, names),
            Kind::Attend { coming, late_min, on } => {
                let attendance = Attendance { late_min: *late_min, ..Attendance::whole(*coming) };
                attend::attend(self, statement, attendance, *on)
            }
            Kind::Set(set) => coach_set::set(self, statement, set),
        };
        // A refusal on the way is an outcome like any other.
        let outcome = done.unwrap_or_else(|stopped| self.kindly(statement, *stopped));
        let outcome = self.kept_while_out(outcome, statement.who.is_some());
        if let Outcome::Question(reply @ QuestionReply { asks: Asks::WhoIs { name }, .. }) =
            &outcome
        {
            let choices =
                reply.options.iter().filter_map(|option| with_name(message, name, option));
            self.ask(reply, choices.collect());
        }
        outcome
    }

    /// `L2 200 test 3:12 3:20 x`, `L2 48 49 51`: each swimmer's figure by itself.
    fn lane_results(&mut self, results: &LaneResults) -> Result<Outcome, Stopped> {
        let statements = results_by_lane::by_swimmer(self, results)?;
        let message = Message { statements };
        let placed: Vec<_> = (0..).zip(&message.statements).collect();
        let groups = placed.into_iter().map(|one| vec![one]).collect();
        Ok(in_order(self.each_alone(groups, Self::statement), true))
    }

    /// What was said last, as it should have been: the one is taken back, the other taken in.
    /// Where the other is asked about first, the one stays as it is until that is answered.
    fn restated(&mut self, says: &[Statement]) -> Result<Outcome, Stopped> {
        if let Some(put_right) = set_put_right::restated(self, says) {
            return put_right;
        }
        let cause = taking_back::to_take_back(self)?;
        let before = self.mark();
        self.record(Event::Undone { cause });
        let done = self.events.len();
        let (_, outcome) = self.apply(&Message { statements: says.to_vec() });
        let asks = |event: &Event| {
            matches!(event, Event::QuestionAsked { .. } | Event::QuestionQueued { .. })
        };
        let only_asks = self.events.iter().skip(done).all(asks);
        if matches!(outcome, Outcome::Question(_)) && only_asks {
            let since = self.back_to(before);
            since.into_iter().skip(1).for_each(|event| self.record(restating(event)));
        }
        Ok(outcome)
    }

    /// A step easier, shorter or harder: of whoever swims their next session, of a coach who
    /// doesn't the squad's set, by its repeats.
    fn stepped(&mut self, statement: &Statement, step: sessions::Step) -> Result<Outcome, Stopped> {
        let of_squad = statement.who.is_none() && !self.swims() && self.may(Right::RunEvening);
        let set = self.squad.set_in_force(self.night_shown(), self.now());
        match of_squad && set.is_some() {
            true => change_set::stepped(self, step),
            false => sessions::changed(self, statement, step),
        }
    }
}

/// The same question, of which an answer takes back what it stands for.
fn restating(event: Event) -> Event {
    let anew = |mut question: QuestionKept| {
        for choice in &mut question.choices {
            let says = std::mem::take(&mut choice.message.statements);
            let kind = Kind::Restate { says, changed: 0 };
            choice.message.statements = vec![Statement { who: None, kind }];
        }
        question
    };
    match event {
        Event::QuestionAsked { address, question } => {
            Event::QuestionAsked { address, question: anew(question) }
        }
        event => event,
    }
}

impl View<'_> {
    /// True for a word that was taken for a name, and is nobody's.
    pub fn is_no_name(&self, statement: &Statement) -> bool {
        statement.kind == Kind::Swimmer
            && !self.may(Right::SeeSquad)
            && statement.who.as_ref().is_some_and(|who| !self.squad.swimmers.contains_key(who))
    }

    /// The night that whoever runs the evening wants planned for the squad.
    fn plans_for_squad(&self, statement: &Statement, wish: &PlanWish) -> Option<Day> {
        wish.on.filter(|_| statement.who.is_none() && self.may(Right::RunEvening))
    }
}

impl View<'_> {
    /// A refusal that says what a swimmer may ask instead, where they asked what others swim.
    fn kindly(&self, statement: &Statement, stopped: Outcome) -> Outcome {
        let swims = self.swims() || self.ward().is_some();
        match &stopped {
            Outcome::Refused(reply)
                if reply.why == RefusedWhy::CoachOnly
                    && swims
                    && asks_of_swims(&statement.kind) =>
            {
                *refused("coach_only", RefusedWhy::OthersSwims)
            }
            _ => stopped,
        }
    }
}

/// True of a question of what somebody swims.
const fn asks_of_swims(kind: &Kind) -> bool {
    match kind {
        Kind::Swimmer | Kind::Best | Kind::Log | Kind::Trend | Kind::Compare { .. } => true,
        Kind::Ask(ask) => match &ask.about {
            About::Results { .. } => true,
            About::Parts(question) => matches!(
                question.sought,
                Sought::Time
                    | Sought::Versus
                    | Sought::Gap
                    | Sought::Best
                    | Sought::Average
                    | Sought::Ranked(_)
                    | Sought::LastSwum
            ),
            _ => false,
        },
        _ => false,
    }
}
