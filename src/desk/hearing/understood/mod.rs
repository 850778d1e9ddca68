//! What was read, in the contract's form, with what the text left out filled in from the
//! swimmer's history, the squad's zone and the clock.

mod asked;
mod changes;
mod fields;
mod filled_in;
mod squad;
mod swims;
mod words;

use serde_json::{Value, json};

use self::fields::Fields;
use self::filled_in::Reader;
use self::words::{approval, cut_fields, lane_results, limits, next, profile, regular, strings};
use crate::desk::decision::view::View;
use crate::desk::decision::words_for_deck;
use crate::desk::evening::{results_by_lane, set_blocks};
use crate::message::{About, Ask, Kind, Message, Name, SquadFilter, Statement};
use crate::units::{Course, SendOff, Stroke};

/// One entry a statement, in the order typed; one a swimmer for a lane's.
pub fn all(view: &View<'_>, message: &Message) -> Vec<Value> {
    let read = |statement: &Statement| Reader::of(view, statement).read(statement);
    let each = message.statements.iter().flat_map(|statement| match &statement.kind {
        Kind::LaneResults(results) => match results_by_lane::by_swimmer(view, results) {
            Ok(told) => told.iter().map(read).collect(),
            Err(_) => vec![read(statement)],
        },
        Kind::Change(edits) => {
            let reader = Reader::of(view, statement);
            changes::entries(edits)
                .into_iter()
                .map(|fields| reader.entry_of(statement, "cut", fields))
                .collect()
        }
        _ => vec![read(statement)],
    });
    each.collect()
}

/// The same, each with whether it stores something, where it does not say so itself:
/// what is read before the grammar is.
pub fn with_stores(mut understood: Vec<Value>, stores: bool) -> Vec<Value> {
    for one in understood.iter_mut().filter_map(Value::as_object_mut) {
        one.entry("stores").or_insert(Value::Bool(stores));
    }
    understood
}

impl Reader<'_> {
    fn read(&self, statement: &Statement) -> Value {
        let (kind, fields) = self.kind(&statement.kind);
        self.entry_of(statement, kind, fields)
    }

    fn entry_of(&self, statement: &Statement, kind: &str, fields: Fields) -> Value {
        // Words for those on deck name nobody.
        let who =
            statement.who.as_ref().filter(|_| !words_for_deck::is_for_deck(self.view, statement));
        // A guardian's words are of somebody else too, named or not.
        let ward = self
            .view
            .ward()
            .filter(|ward| self.view.me() == Some(*ward) && statement.kind.nature().is_personal);
        let who = who.or(ward).map(Name::to_string);
        let stores = statement.kind.nature().stores;
        let whole = Fields::default().with("kind", kind).with("stores", stores).with("who", who);
        // `who` stands here even for all.
        let mut whole = whole.merge(fields).0;
        if kind == "tell" {
            whole.entry("who").or_insert(Value::Null);
        }
        Value::Object(whole)
    }

    fn kind(&self, kind: &Kind) -> (&'static str, Fields) {
        let none = Fields::default;
        match kind {
            Kind::Test(test) => ("test", self.test(test)),
            Kind::TimedTest(test) => {
                let (course, distance) = self.length(test.distance, test.course);
                let fields = none()
                    .with("duration_s", test.duration.seconds())
                    .with("distance", test.distance.amount)
                    .with("unit", distance.map(|d| d.unit().name()))
                    .with("stroke", test.stroke.unwrap_or(Stroke::Free).name())
                    .with("course", course.name())
                    .with("on", self.past(test.on, course));
                ("timed_test", fields)
            }
            Kind::SetResult(set) => ("set_result", self.set_result(set)),
            Kind::Done(done) => ("done", self.done(done)),
            Kind::Missed { on } => ("missed", none().with("on", self.past(*on, self.course))),
            Kind::Ill { .. } => ("ill", none()),
            Kind::Better => ("better", none()),
            Kind::Away { from, until } => (
                "away",
                none()
                    .with("from", from.and_then(|from| self.future(from)))
                    .with("until", self.future(*until)),
            ),
            Kind::Pain(pain) => {
                ("pain", none().with("where", pain.place.clone()).with("level", pain.level))
            }
            Kind::Faint => ("faint", none()),
            Kind::Plan(wish) => ("plan", self.plan(wish)),
            Kind::Next(wish) => ("next", next(wish)),
            Kind::Swap { days } => (
                "swap",
                none().with_list("days", days.iter().filter_map(|day| self.future(*day)).collect()),
            ),
            Kind::SwapResults { names, on, distance } => (
                "swap",
                none()
                    .with("who", strings(names))
                    .with("on", self.past_if_said(*on))
                    .with("distance", distance.map(|length| length.amount)),
            ),
            Kind::Shorter => ("shorter", none()),
            Kind::Easier => ("easier", none()),
            Kind::Harder => ("harder", none()),
            Kind::Again => ("again", none()),
            Kind::More => ("more", none()),
            Kind::Targets { distances } => (
                "targets",
                none().with_list("distances", distances.iter().map(|one| one.amount).collect()),
            ),
            Kind::OwnTargets { holds } => ("own_target", self.own_targets(holds)),
            Kind::Predict { distance } => ("predict", self.with_length(none(), *distance)),
            Kind::Race { distance, on, goal } => {
                let fields = self.with_length(none(), *distance).with("on", self.future(*on));
                let goal = goal
                    .as_ref()
                    .and_then(|goal| self.settled(goal, *distance, self.course, Stroke::Free));
                ("race", fields.with("goal_s", goal))
            }
            Kind::Trend => ("trend", none()),
            Kind::Best => ("best", none()),
            Kind::Tonight => ("tonight", none()),
            Kind::Board => ("board", none()),
            Kind::Log => ("log", none()),
            Kind::Swimmer => ("swimmer", none()),
            Kind::Compare { names } => ("compare", none().with("who", strings(names))),
            Kind::Profile(change) => ("profile", profile(change)),
            // Who comes is a question about the night.
            Kind::Squad { filter: Some(SquadFilter::Expected), on } => {
                ("tonight", none().with("on", on.and_then(|on| self.future(on))))
            }
            Kind::Squad { filter, on } => (
                "squad",
                none()
                    .with("filter", filter.map(SquadFilter::name))
                    .with("on", on.and_then(|on| self.future(on))),
            ),
            Kind::Entry(entry) => ("entry", self.entry(entry)),
            Kind::RelayLeg(leg) => {
                let (course, distance) = self.length(leg.distance, None);
                let stroke = leg.stroke.unwrap_or(Stroke::Free);
                let fields = none()
                    .with("count", leg.count)
                    .with("distance", leg.distance.amount)
                    .with("unit", distance.map(|distance| distance.unit().name()))
                    .with("stroke", stroke.name())
                    .with("leg", leg.leg)
                    .with("time_s", self.settled(&leg.time, leg.distance, course, stroke));
                ("relay", fields.with("on", self.past(leg.on, course)))
            }
            Kind::Entries => ("entries", none()),
            Kind::Meet { on, course } => (
                "meet",
                none().with("on", self.future(*on)).with("course", course.map(Course::name)),
            ),
            Kind::Lanes { count } => ("lanes", none().with("count", *count)),
            Kind::TestNight { distance, on } => {
                let fields = match distance {
                    Some(distance) => self.with_length(none(), *distance),
                    None => none(),
                };
                ("test_night", fields.with("on", on.and_then(|on| self.future(on))))
            }
            Kind::Regular(said) => regular(said),
            Kind::Approval(said) => approval(*said),
            Kind::Limits(said) => limits(said),
            Kind::Pin { lane } => ("pin", none().with("lane", *lane)),
            Kind::Apart { names, apart } => {
                ("apart", none().with("who", strings(names)).with("apart", *apart))
            }
            Kind::Here { names, all_but, on } => self.here(names, *all_but, *on),
            Kind::Absent { names, on } => (
                "absent",
                none()
                    .with("who", strings(names))
                    .with("on", self.view.evening_meant(*on).ok().map(|on| on.to_string())),
            ),
            Kind::Tell { text } => ("tell", none().with("text", text.clone())),
            Kind::Note { text } => ("note", none().with("text", text.clone())),
            Kind::Focus { text } => ("focus", none().with("text", text.clone())),
            Kind::Attend { coming, late_min, on } => (
                "attend",
                none()
                    .with("in", *coming)
                    .with("late_min", *late_min)
                    .with("on", self.view.night_meant(*on).map(|on| on.to_string())),
            ),
            Kind::Slot(slot) => ("slot", self.slot(slot)),
            Kind::Shut { days, on } => ("shut", self.nights(days, *on)),
            Kind::Reopen { days, on } => ("reopen", self.nights(days, *on)),
            Kind::LaneGone => ("lane_gone", none()),
            Kind::LaneResults(results) => ("lane_results", lane_results(results)),
            Kind::Cut(cut) => ("cut", cut_fields(cut)),
            Kind::Hold { week } => ("hold", none().with("week", week.word())),
            Kind::Release => ("release", none()),
            Kind::Welfare => ("welfare", none()),
            Kind::Set(set) => {
                let fields = none().with("on", set.on.and_then(|day| self.future(day)));
                let fields = fields.with("blocks", set_blocks::blocks(&set.lines, self.course));
                let lanes = set.lanes.iter().map(|own| {
                    let fields = none().with("lanes", own.lanes.clone()).with("count", own.count);
                    fields.with("send_off_s", own.send_off.map(SendOff::seconds)).0
                });
                ("set", fields.with_list::<Value>("lanes", lanes.map(Value::Object).collect()))
            }
            Kind::Join { code, name } => {
                ("join", none().with("code", code.clone()).with("name", name.to_string()))
            }
            Kind::Fix(fix) => ("fix", self.fix(fix)),
            Kind::Help { topic } => ("help", none().with("topic", topic.clone())),
            Kind::People(said) => self.people(said),
            Kind::Undo => ("undo", none()),
            Kind::Yes => ("yes", none()),
            Kind::No => ("no", none()),
            Kind::Why => ("why", none()),
            Kind::Stop => ("stop", none()),
            Kind::Start => ("start", none()),
            Kind::Forget => ("forget", none()),
            // What is on, when, and who comes, in whatever words.
            Kind::Ask(Ask { about: About::Evening { .. } | About::Turnout { .. }, text }) => {
                ("tonight", none().with("text", text.clone()))
            }
            Kind::Ask(Ask { about: About::NextTest, text }) => {
                ("test_night", none().with("text", text.clone()))
            }
            // What was swum, in whatever words.
            Kind::Ask(Ask { about: About::Swum { .. } | About::SetOf { .. }, text }) => {
                ("log", none().with("text", text.clone()))
            }
            Kind::Ask(Ask { about: About::Results { gains: true, .. }, text }) => (
                "squad",
                none().with("filter", SquadFilter::Improving.name()).with("text", text.clone()),
            ),
            Kind::Ask(Ask { about: About::Parts(question), text }) => asked::asked(question, text),
            Kind::Ask(ask) => ("ask", none().with("text", ask.text.clone())),
            Kind::Leaves { at, on } => (
                "leaves",
                none()
                    .with("at", at.map(|at| at.strftime("%H:%M").to_string()))
                    .with("on", on.and_then(|day| self.future(day))),
            ),
            Kind::Maybe { on } => ("maybe", none().with("on", on.and_then(|day| self.future(day)))),
            Kind::Back { on } => ("back", none().with("on", on.and_then(|day| self.future(day)))),
            Kind::Tired => ("tired", none()),
            Kind::Goal { distance, stroke, time, by } => (
                "race",
                self.with_length(none(), *distance)
                    .with("stroke", stroke.map(Stroke::name))
                    .with("on", by.and_then(|by| self.future(by)))
                    .with("goal_s", time.readings.first().map(|time| time.seconds())),
            ),
            Kind::Ability { unbroken, most } => (
                "ability",
                none()
                    .with("unbroken", unbroken.map(|length| length.amount))
                    .with("most", most.map(|length| length.amount)),
            ),
            Kind::Quiet { from } => {
                ("quiet", none().with("from", from.strftime("%H:%M").to_string()))
            }
            Kind::Restate { says, changed } => {
                match says.get(*changed).map(|one| &one.kind) {
                    // Of these nothing is put right but what they say now.
                    Some(kind @ (Kind::Attend { .. } | Kind::Away { .. } | Kind::Pain(_))) => {
                        self.kind(kind)
                    }
                    Some(kind) => ("fix", self.kind(kind).1),
                    None => ("fix", none()),
                }
            }
            Kind::Move { names, lane, by } => {
                ("move", none().with("who", strings(names)).with("lane", *lane).with("by", *by))
            }
            Kind::SwapLanes { names } => ("swap_lanes", none().with("who", strings(names))),
            Kind::LaneOrder { lane, names } => {
                ("order", none().with("lane", *lane).with("who", strings(names)))
            }
            Kind::DrawnAs { lanes } => {
                let each = lanes.iter().map(|(_, names)| json!(strings(names))).collect();
                ("draw", none().with_list::<Value>("lanes", each))
            }
            Kind::Gap { seconds } => ("gap", none().with("seconds", *seconds)),
            Kind::NamesInRooms { shown } => ("names_in_rooms", none().with("shown", *shown)),
            Kind::LaneOf { lane } => ("tonight", none().with("lane", *lane)),
            // Told entry by entry.
            Kind::Change(edits) => {
                ("cut", changes::entries(edits).into_iter().next().unwrap_or_default())
            }
            Kind::Choose { word } => ("choose", none().with("word", word.clone())),
        }
    }
}
