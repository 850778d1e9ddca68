//! What was read, in the contract's form, with all filled in that the profile,
//! the squad's zone and the clock say.

use jiff::civil::{Date, Weekday};
use serde_json::{Map, Value, json};

use super::bench::Desk;
use super::lane_order;
use super::passing_on;
use super::resolve::{self, Settled, Toward};
use super::results::swum_on;
use super::set_blocks;
use super::speaking;
use crate::message::{
    Approval, Cut, Day, Done, Entry, Fix, Kind, LaneResults, Length, Limits, Message, Name,
    NextWish, People, PlanWish, ProfileChange, Regular, SetResult, Slot, Sport, SquadFilter,
    Statement, Test, TypedTime, WeekKind, only_answers,
};
use crate::session::Limit;
use crate::units::{Centis, Course, Distance, SendOff, Stroke};

/// One entry a statement, in the order typed; one a swimmer for a lane's.
pub fn all(desk: &Desk<'_>, message: &Message) -> Vec<Value> {
    let read = |statement: &Statement| Reader::of(desk, statement).read(statement);
    let each = message.statements.iter().flat_map(|statement| match &statement.kind {
        Kind::LaneResults(results) => match lane_order::by_swimmer(desk, results) {
            Ok(told) => told.iter().map(read).collect(),
            Err(_) => vec![read(statement)],
        },
        _ => vec![read(statement)],
    });
    each.collect()
}

/// Fills in what a statement leaves out.
struct Reader<'a> {
    desk: &'a Desk<'a>,
    about: Option<Name>,
    course: Course,
    today: Date,
}

/// Fields in the making; absent values are left out.
#[derive(Default)]
struct Fields(Map<String, Value>);

impl Fields {
    fn with(mut self, name: &str, value: impl Into<Value>) -> Self {
        let value = value.into();
        if !value.is_null() {
            self.0.insert(name.to_owned(), value);
        }
        self
    }

    fn with_list<T: Into<Value>>(self, name: &str, list: Vec<T>) -> Self {
        if list.is_empty() { self } else { self.with(name, list) }
    }
}

impl<'a> Reader<'a> {
    fn of(desk: &'a Desk<'a>, statement: &Statement) -> Self {
        let about = statement.who.as_ref().or_else(|| desk.me()).cloned();
        let course = about.as_ref().map_or(desk.squad.course, |name| desk.course_of(name));
        Self { desk, about, course, today: desk.today }
    }

    fn read(&self, statement: &Statement) -> Value {
        let (kind, fields) = self.kind(&statement.kind);
        // Words for those on deck name nobody.
        let who = statement.who.as_ref().filter(|_| !passing_on::is_for_deck(self.desk, statement));
        // A guardian's words are of somebody else too, named or not.
        let ward = self
            .desk
            .ward()
            .filter(|ward| self.desk.me() == Some(*ward) && speaking::is_personal(&statement.kind));
        let who = who.or(ward).map(Name::to_string);
        let stores = !only_answers(&statement.kind);
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
            Kind::Squad { filter, on } => (
                "squad",
                none()
                    .with("filter", filter.map(filter_word))
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
            Kind::Here { names, all_but, on } => (
                "here",
                none()
                    .with_list("who", strings(names))
                    .with("all_but", all_but.then_some(true))
                    .with("on", self.desk.evening_meant(*on).ok().map(|on| on.to_string())),
            ),
            Kind::Absent { names, on } => (
                "absent",
                none()
                    .with("who", strings(names))
                    .with("on", self.desk.evening_meant(*on).ok().map(|on| on.to_string())),
            ),
            Kind::Tell { text } => ("tell", none().with("text", text.clone())),
            Kind::Note { text } => ("note", none().with("text", text.clone())),
            Kind::Focus { text } => ("focus", none().with("text", text.clone())),
            Kind::Attend { coming, late_min, on } => (
                "attend",
                none()
                    .with("in", *coming)
                    .with("late_min", *late_min)
                    .with("on", self.desk.night_meant(*on).map(|on| on.to_string())),
            ),
            Kind::Slot(slot) => ("slot", self.slot(slot)),
            Kind::Shut { days, on } => ("shut", self.nights(days, *on)),
            Kind::Reopen { days, on } => ("reopen", self.nights(days, *on)),
            Kind::LaneGone => ("lane_gone", none()),
            Kind::LaneResults(results) => ("lane_results", lane_results(results)),
            Kind::Cut(cut) => ("cut", cut_fields(cut)),
            Kind::Hold { week } => ("hold", none().with("week", week_word(*week))),
            Kind::Release => ("release", none()),
            Kind::Welfare => ("welfare", none()),
            Kind::Set(set) => {
                let fields = none().with("on", set.on.and_then(|day| self.future(day)));
                ("set", fields.with("blocks", set_blocks::blocks(&set.lines, self.course)))
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
                    Some(kind @ (Kind::Attend { .. } | Kind::Pain(_))) => self.kind(kind),
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
            Kind::Change(edits) => ("change", none().with("edits", json!(edits))),
            Kind::Choose { word } => ("choose", none().with("word", word.clone())),
        }
    }

    /// Nights by weekday, with the date of the one that is meant.
    fn nights(&self, days: &[Weekday], on: Option<Day>) -> Fields {
        let one = match days {
            [day] => on.or(Some(Day::On(*day))),
            _ => on,
        };
        Fields::default()
            .with_list("days", days.iter().map(|day| weekday(*day)).collect())
            .with("on", one.and_then(|day| self.future(day)))
    }

    fn test(&self, test: &Test) -> Fields {
        let (course, distance) = self.length(test.distance, test.course);
        let stroke = test.stroke.unwrap_or(Stroke::Free);
        Fields::default()
            .with("distance", test.distance.amount)
            .with("unit", distance.map(|d| d.unit().name()))
            .with("stroke", stroke.name())
            .with("time_s", self.settled(&test.time, test.distance, course, stroke))
            .with("course", course.name())
            .with("on", self.past(test.on, course))
            .with_list("splits_s", test.splits.iter().map(|split| split.seconds()).collect())
            .with("start", test.start.map(|start| json!(start)))
            .with("meet", test.meet.then_some(true))
    }

    fn set_result(&self, set: &SetResult) -> Fields {
        let stroke = set.stroke.unwrap_or(Stroke::Free);
        let one = |typed: &TypedTime| self.settled(typed, set.distance, self.course, stroke);
        self.with_length(Fields::default().with("count", set.count), set.distance)
            .with("send_off_s", set.send_off.map(SendOff::seconds))
            .with("rest_s", set.rest.map(Centis::seconds))
            .with("target_s", set.target.map(Centis::seconds))
            .with_list("times_s", self.times(set, stroke))
            .with("average_s", set.average.as_ref().and_then(one))
            .with("made", set.made)
            .with("of", set.of)
            .with("stroke", stroke.name())
            .with_list("equipment", set.equipment.iter().map(|kit| kit.name()).collect())
            .with("rpe", set.rpe.map(|rpe| rpe.value()))
            .with("heart_rate", set.heart_rate)
            .with("strokes", set.strokes)
            .with("on", self.past(set.on, self.course))
    }

    fn times(&self, set: &SetResult, stroke: Stroke) -> Vec<Value> {
        let (_, Some(distance)) = self.length(set.distance, None) else { return Vec::new() };
        let target = self.about.as_ref().filter(|_| !set.times.is_empty()).and_then(|name| {
            let facts = self.desk.facts(name)?;
            let on = swum_on(self.desk, set.on, self.course).ok()?;
            self.desk.set_swum(name, on, &facts, set, distance).0.target
        });
        resolve::times(&set.times, distance, stroke, target)
            .into_iter()
            .map(|time| json!(time.map(Centis::seconds)))
            .collect()
    }

    fn done(&self, done: &Done) -> Fields {
        let fields = match done.distance {
            // Metres run are not metres swum, so no unit of the pool's.
            Some(length) if done.sport.is_some() => Fields::default()
                .with("distance", length.amount)
                .with("unit", length.unit.map(|unit| unit.name())),
            Some(length) => self.with_length(Fields::default(), length),
            None => done
                .lengths
                .and_then(|count| resolve::lengths(count, self.course))
                .map_or_else(Fields::default, |length| self.with_length(Fields::default(), length)),
        };
        fields
            .with("duration_s", done.duration.map(Centis::seconds))
            .with("rpe", done.rpe.map(|rpe| rpe.value()))
            .with("on", self.past(done.on, self.course))
            .with("sport", done.activity.as_deref().or(done.sport.map(sport_word)))
    }

    fn entry(&self, entry: &Entry) -> Fields {
        let stroke = entry.stroke.unwrap_or(Stroke::Free);
        let on = entry.on.and_then(|day| self.future(day));
        let next = || self.desk.squad.next_meet(self.today, self.desk.now());
        let time = entry.time.as_ref();
        self.with_length(Fields::default(), entry.distance)
            .with("stroke", stroke.name())
            .with("on", on.or_else(|| next().map(|on| on.to_string())))
            .with(
                "time_s",
                time.and_then(|time| self.settled(time, entry.distance, self.course, stroke)),
            )
            .with("scratched", entry.scratched.then_some(true))
    }

    fn plan(&self, wish: &PlanWish) -> Fields {
        Fields::default()
            .with("week", wish.week.map(week_word))
            .with("minutes", wish.minutes)
            .with("sessions", wish.sessions)
            .with("on", wish.on.and_then(|day| self.future(day)))
    }

    fn slot(&self, slot: &Slot) -> Fields {
        Fields::default()
            .with_list("days", slot.days.iter().map(|day| weekday(*day)).collect())
            .with("starts", slot.starts.map(|time| time.strftime("%H:%M").to_string()))
            .with("minutes", slot.minutes)
            .with("lanes", slot.lanes)
            .with("on", slot.on.and_then(|day| self.future(day)))
            .with("course", slot.course.map(Course::name))
    }

    fn fix(&self, fix: &Fix) -> Fields {
        let time = fix.time.as_ref().and_then(|typed| match fix.distance {
            Some(length) => self.settled(typed, length, self.course, Stroke::Free),
            None => typed.readings.first().map(|time| time.seconds()),
        });
        Fields::default()
            .with("time_s", time)
            .with("who", fix.was.as_ref().map(Name::to_string))
            .with("on", self.past_if_said(fix.on))
            .with("distance", fix.distance.map(|length| length.amount))
            .with("start", fix.start.map(|start| json!(start)))
            .with("meet", fix.meet.then_some(true))
    }

    fn people(&self, said: &People) -> (&'static str, Fields) {
        let none = Fields::default;
        let called = |name: &Option<Name>| name.as_ref().map(Name::to_string);
        match said {
            People::Invite { to, office, name } => (
                "invite",
                none()
                    .with("to", to.clone())
                    .with("role", office.map(|office| json!(office)))
                    .with("name", called(name)),
            ),
            People::HandOver { to } => ("hand_over", none().with("who", to.to_string())),
            People::Remove { name } => ("remove", none().with("who", name.to_string())),
            People::Leave => ("leave", none()),
            People::Add { name, guess } => {
                let fields = none().with("who", name.to_string());
                let Some(guess) = guess else { return ("add", fields) };
                let length = guess.distance.unwrap_or(Length { amount: 100, unit: None });
                let time = self.settled(&guess.time, length, self.course, Stroke::Free);
                ("add", self.with_length(fields, length).with("time_s", time))
            }
            People::Claim { code } => ("claim", none().with("code", code.clone())),
            People::Squads => ("squads", none()),
        }
    }

    fn length(&self, length: Length, said: Option<Course>) -> (Course, Option<Distance>) {
        let course = resolve::course(said, length, self.course);
        (course, resolve::distance(length, course))
    }

    fn with_length(&self, fields: Fields, length: Length) -> Fields {
        let (_, distance) = self.length(length, None);
        fields
            .with("distance", length.amount)
            .with("unit", distance.map(|distance| distance.unit().name()))
    }

    fn own_targets(&self, holds: &[(Length, TypedTime)]) -> Fields {
        let one = |(far, time): &(Length, TypedTime)| {
            let time = self.settled(time, *far, self.course, Stroke::Free);
            json!({ "distance": far.amount, "time_s": time })
        };
        Fields::default().with_list("targets", holds.iter().map(one).collect())
    }

    fn settled(
        &self,
        typed: &TypedTime,
        length: Length,
        course: Course,
        stroke: Stroke,
    ) -> Option<f64> {
        let distance = resolve::distance(length, course)?;
        resolve::time(typed, distance, stroke).map(Settled::likelier).map(Centis::seconds)
    }

    fn past(&self, day: Option<Day>, course: Course) -> Option<String> {
        let Some(day) = day else { return Some(self.desk.day_swum().to_string()) };
        resolve::day(day, self.today, course.unit(), Toward::Past).map(|date| date.to_string())
    }

    fn past_if_said(&self, day: Option<Day>) -> Option<String> {
        day.and_then(|day| self.past(Some(day), self.course))
    }

    fn future(&self, day: Day) -> Option<String> {
        resolve::day(day, self.today, self.course.unit(), Toward::Future)
            .map(|date| date.to_string())
    }
}

impl Fields {
    fn merge(mut self, other: Fields) -> Self {
        self.0.extend(other.0);
        self
    }
}

fn next(wish: &NextWish) -> Fields {
    Fields::default()
        .with("minutes", wish.minutes)
        .with("distance", wish.distance.map(|length| length.amount))
        .with_list("with", wish.with.iter().map(|kit| kit.name()).collect())
        .with_list("without", wish.without.iter().map(|kit| kit.name()).collect())
        .with("open_water", wish.open_water.then_some(true))
}

/// `no paddles`: what is left out or not, of whom.
fn limits(said: &Limits) -> (&'static str, Fields) {
    let fields = |what: &[Limit], allowed: bool, all: bool| {
        let all = all.then_some(true);
        Fields::default().with("what", json!(what)).with("allowed", allowed).with("all", all)
    };
    match said {
        Limits::Barred { what, all } => ("limit", fields(what, false, *all)),
        Limits::Allowed { what, all } => ("limit", fields(what, true, *all)),
        Limits::KitChanged { have, lack } => {
            let some = |kit: &[crate::units::Equipment]| (!kit.is_empty()).then(|| json!(kit));
            ("kit", Fields::default().with("equipment", some(have)).with("without", some(lack)))
        }
        Limits::Kit { kit } => ("kit", Fields::default().with("equipment", json!(kit))),
    }
}

/// `digest` or `weekly`: whether it is wanted, and when.
fn regular(said: &Regular) -> (&'static str, Fields) {
    let none = Fields::default;
    match said {
        Regular::Digest => ("digest", none()),
        Regular::DigestWanted { wanted } => ("digest", none().with("wanted", *wanted)),
        Regular::DigestAt { day, at } => {
            let day = match day {
                Some(Day::On(day)) => Some(weekday(*day)),
                _ => None,
            };
            let at = at.map(|at| at.strftime("%H:%M").to_string());
            ("digest", none().with("wanted", true).with("day", day).with("at", at))
        }
        Regular::Note => ("weekly", none()),
        Regular::NoteWanted { wanted } => ("weekly", none().with("wanted", *wanted)),
    }
}

/// `approve`: whether plans wait at all, or the yes or no to those that do.
fn approval(said: Approval) -> (&'static str, Fields) {
    let fields = Fields::default();
    let fields = match said {
        Approval::Waiting => fields,
        Approval::Wanted { wanted } => fields.with("wanted", wanted),
        Approval::All => fields.with("all", true).with("approved", true),
        Approval::Given => fields.with("approved", true),
        Approval::SentBack => fields.with("approved", false),
    };
    ("approve", fields)
}

fn profile(change: &ProfileChange) -> Fields {
    Fields::default()
        .with("course", change.course.map(Course::name))
        .with_list("days", change.days.iter().map(|day| weekday(*day)).collect())
        .with("sessions", change.sessions)
        .with("minutes", change.minutes)
        .with("born", change.born)
        .with("units", change.units.map(|unit| unit.name()))
        .with("language", change.language.map(|language| language.code()))
}

/// As typed: whose they are is not settled.
fn lane_results(results: &LaneResults) -> Fields {
    Fields::default()
        .with("lane", results.lane)
        .with("distance", results.distance.map(|distance| distance.amount))
        .with("results", results.times.len())
}

fn cut_fields(cut: &Cut) -> Fields {
    Fields::default()
        .with("minutes_left", cut.minutes_left)
        .with("ends", cut.ends.map(|at| at.strftime("%H:%M").to_string()))
        .with("lane", cut.lane)
        .with("count", cut.count)
        .with("send_off_s", cut.send_off.map(SendOff::seconds))
        .with("skip_round", cut.skip_round.then_some(true))
}

fn strings(names: &[Name]) -> Vec<String> {
    names.iter().map(Name::to_string).collect()
}

fn week_word(week: WeekKind) -> &'static str {
    match week {
        WeekKind::Easy => "easy",
        WeekKind::Normal => "normal",
        WeekKind::Hard => "hard",
    }
}

fn sport_word(sport: Sport) -> &'static str {
    match sport {
        Sport::Run => "run",
        Sport::Ride => "ride",
        Sport::Gym => "gym",
        Sport::Other => "other",
    }
}

fn filter_word(filter: SquadFilter) -> &'static str {
    match filter {
        SquadFilter::Overdue => "overdue",
        SquadFilter::Hurt => "hurt",
        SquadFilter::Silent => "silent",
        SquadFilter::Improving => "improving",
        SquadFilter::Fading => "fading",
        SquadFilter::Pace => "pace",
        SquadFilter::Expected => "expected",
        SquadFilter::Owed => "owed",
        SquadFilter::Races => "races",
    }
}

fn weekday(day: jiff::civil::Weekday) -> &'static str {
    use jiff::civil::Weekday::*;
    match day {
        Monday => "mon",
        Tuesday => "tue",
        Wednesday => "wed",
        Thursday => "thu",
        Friday => "fri",
        Saturday => "sat",
        Sunday => "sun",
    }
}
