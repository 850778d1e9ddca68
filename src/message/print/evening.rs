//! The timetable and changes to a set, in words that are read back the same.

use super::parts::{Words, course, equipment, sure};
use crate::message::{Cut, Edit, EditWhat, ForLanes, Kind, Scope, Slot, Statement, TypedSet};
use crate::units::weekday_word;

pub(super) fn slot(slot: &Slot) -> Words {
    Words::of("slot")
        .each(slot.days.iter().map(|day| weekday_word(*day)))
        .maybe(slot.on.as_ref())
        .maybe(slot.starts.map(|at| format!("{:02}:{:02}", at.hour(), at.minute())))
        .maybe(slot.minutes.map(|minutes| format!("{minutes}min")))
        .maybe(slot.lanes.map(|lanes| format!("lanes {lanes}")))
        .maybe(slot.course.map(course))
}

pub(super) fn cut(cut: &Cut) -> Words {
    let only_send_off = *cut == Cut { send_off: cut.send_off, ..Cut::default() };
    Words::default()
        .maybe(only_send_off.then_some("all lanes"))
        .maybe(cut.lane.map(|lane| format!("lane {lane}")))
        .maybe(cut.minutes_left.map(|minutes| format!("{minutes}min left")))
        .maybe(cut.ends.map(|at| format!("finish at {:02}:{:02}", at.hour(), at.minute())))
        .maybe(cut.skip_round.then_some("skip round"))
        .maybe(cut.count.map(|count| format!("make it {count}")))
        .maybe(cut.send_off.map(|send_off| format!("on {}", sure(send_off.time()))))
}

/// What some lanes swim otherwise: `lane 3 4 make it 8 on 2:30`.
pub(super) fn for_lanes(own: &ForLanes) -> String {
    let each: Vec<String> = own.lanes.iter().map(ToString::to_string).collect();
    let words = Words::of(&format!("lane {}", each.join(" ")))
        .maybe(own.count.map(|count| format!("make it {count}")))
        .maybe(own.send_off.map(|send_off| format!("on {}", sure(send_off.time()))));
    words.to_string()
}

/// One change to a set, in words.
pub(super) fn edit(edit: &Edit) -> String {
    let whom = match (edit.lanes.as_slice(), edit.names.as_slice()) {
        ([], []) => String::new(),
        (lanes, []) => {
            let each: Vec<String> = lanes.iter().map(ToString::to_string).collect();
            format!("lane {} ", each.join(" "))
        }
        (_, names) => {
            let each: Vec<String> = names.iter().map(ToString::to_string).collect();
            format!("{} ", each.join(" "))
        }
    };
    let scope = match edit.scope {
        Scope::Main => String::new(),
        Scope::LastRepeats(count) => format!("last {count}: "),
        Scope::FromRepeat(number) => format!("from number {number}: "),
        Scope::Odd => "odd ones: ".to_owned(),
        Scope::Even => "even ones: ".to_owned(),
        Scope::Line(number) => format!("line {number}: "),
        Scope::SwimDown => "swim-down: ".to_owned(),
        Scope::WarmUp => "warm-up: ".to_owned(),
        Scope::Rest => "the rest: ".to_owned(),
    };
    let set = |set: &TypedSet| Statement { who: None, kind: Kind::Set(set.clone()) }.to_string();
    let what = match &edit.what {
        EditWhat::Drop => "left out".to_owned(),
        EditWhat::Distance(far) => far.to_string(),
        EditWhat::Count(count) => format!("{count} of them"),
        EditWhat::More(count) => format!("{count} more"),
        EditWhat::SendOff(send_off) => format!("on {send_off}"),
        EditWhat::SendOffBy(seconds) => format!("{seconds:+} s"),
        EditWhat::Rest(rest) => format!("rest {}", rest.short()),
        EditWhat::Stroke(stroke) => stroke.to_string(),
        EditWhat::Kit(kit) => kit.iter().map(|one| equipment(*one)).collect::<Vec<_>>().join(" "),
        EditWhat::Level(level) => level.name().to_owned(),
        EditWhat::Target(time) => format!("hold {}", time.short()),
        EditWhat::Instead(one) => format!("{} instead", set(one)),
        EditWhat::Add(one) => format!("{} as well", set(one)),
        EditWhat::Pause(time) => format!("{} s more before the next", time.seconds()),
        EditWhat::MoveOn => "on to the next part".to_owned(),
        EditWhat::Restart => "from here again".to_owned(),
        EditWhat::SkipRound => "without the last round".to_owned(),
        EditWhat::Resume => "go on".to_owned(),
    };
    format!("{whom}{scope}{what}")
}
