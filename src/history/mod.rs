//! Who is known and what has happened: events, and the fold from events to
//! squads and swimmers.
//!
//! An event is a fact in the past tense. The fold holds no rule and cannot
//! fail: whatever was decided, was decided when the event was made.

mod ahead;
mod alarm;
mod approval;
mod attendance;
mod belonging;
mod board;
mod calendar;
mod cow_map;
mod earlier;
mod emergency;
mod erasure;
mod evening;
mod event;
mod event_parts;
mod fold;
mod lanes;
mod ledger;
mod meets;
mod member;
mod offices;
mod putting_right;
mod readiness;
mod rights;
mod safeguards;
mod sessions_told;
mod sets_put_right;
mod setting;
mod squad;
mod strangers;
mod strangers_asked;
mod subject;
mod swimmer;
mod test_night;
mod timetable;
mod unasked;
mod window;

pub use ahead::{Ahead, RaceNamed, TakenBack, ToldFor};
pub use alarm::Called;
pub use approval::PlanWaiting;
pub use attendance::{Attendance, NIGHT_ENDS, Presence, STOPS_FOR_TODAY, Turnout};
pub use belonging::{Guest, Invitation};
pub use board::BoardOpen;
pub use calendar::CalendarOpen;
pub use cow_map::CowMap;
pub use earlier::{DrawnEarlier, OrderEarlier, SetEarlier, VersionEarlier};
pub use emergency::emergency_number_of;
pub use erasure::Gone;
pub use evening::{EveningBy, EveningKept, LaneKept, SendOffSaid, SetSource};
pub use event::{Event, Stamped};
pub use event_parts::{
    Before, MainOf, ProfileSetting, PutRight, QuestionKept, Reasons, SwappedTest, TestKept,
    TroubleKind,
};
pub use fold::Touched;
pub use lanes::Parting;
pub use ledger::{Kept, Ledger};
pub use meets::{FlyingLeg, RaceEntry};
pub use member::Member;
pub use offices::{Confirmation, Pending, StopKept, Unnamed};
pub use putting_right::Moved;
pub use readiness::Readiness;
pub use rights::{Right, Role};
pub use safeguards::{AgeGroup, CareKind, CareRecord, Guard, HealthRead, ReadWhat, Safeguards};
pub use sets_put_right::SetPutRight;
pub use setting::Setting;
pub use squad::{Squad, SquadId};
pub use strangers::{Stranger, Strangers, Waiting};
pub use strangers_asked::StrangersAsked;
pub use swimmer::{Swimmer, TroubleKept};
pub use timetable::{Night, SlotSaid, Timetable, TimetableChange};
pub use unasked::{DaysSpoken, DigestWish, SaidAt, Told, Unasked};
pub use window::Dropped;
