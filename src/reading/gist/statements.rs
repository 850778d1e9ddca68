//! The statements of one kind that what is left of a text makes.

use super::slots::Slots;
use super::{coming, evening, one_changed, repeats, swum, timed};
use crate::message::{About, Ask, Kind, NextWish, PlanWish, Statement, WeekKind};
use crate::reading::frame::of_words;
use crate::reading::likely::{Stands, Telling};
use crate::reading::piece::Item;
use crate::reading::situation::Role;

/// They are, if it can be made of what is there.
pub fn statements(slots: &mut Slots<'_, '_, '_>, telling: Telling) -> Option<Vec<Statement>> {
    let coach = slots.c.sit.role == Role::Coach;
    let own = |kind: Kind| Some(vec![Statement { who: None, kind }]);
    match telling {
        Telling::Test if coach => timed::tests_of_many(slots),
        Telling::Test => timed::test(slots),
        Telling::SetResult if coach => repeats::of_many(slots),
        Telling::SetResult => repeats::of_one(slots),
        Telling::Done => swum::done(slots),
        Telling::Missed => own(Kind::Missed { on: slots.past_day() }),
        Telling::In => coming::attend(slots, true),
        Telling::Out => coming::attend(slots, false),
        Telling::Away => coming::away(slots),
        Telling::Here if coach => coming::register(slots, false),
        Telling::Absent if coach => coming::register(slots, true),
        Telling::Pain => slots.pain(),
        Telling::Ill => {
            let who = slots.who()?;
            Some(vec![Statement { who, kind: Kind::Ill { what: slots.illness() } }])
        }
        Telling::Tired => of_one(slots, Kind::Tired),
        Telling::Better => of_one(slots, Kind::Better),
        Telling::Fix => fixed(slots),
        Telling::Undo => own(Kind::Undo),
        Telling::Easier => of_one(slots, Kind::Easier),
        Telling::Harder => of_one(slots, Kind::Harder),
        Telling::Shorter => of_one(slots, Kind::Shorter),
        Telling::Again => of_one(slots, Kind::Again),
        Telling::Hold if coach => {
            let who = Some(slots.who()??);
            Some(vec![Statement { who, kind: Kind::Hold { week: WeekKind::Easy } }])
        }
        Telling::Release if coach => {
            Some(vec![Statement { who: Some(slots.who()??), kind: Kind::Release }])
        }
        Telling::Trend => of_one(slots, Kind::Trend),
        Telling::Best => of_one(slots, Kind::Best),
        Telling::Log => of_one(slots, Kind::Log),
        Telling::Plan => of_one(slots, Kind::Plan(PlanWish::default())),
        Telling::Next => of_one(slots, Kind::Next(NextWish::default())),
        Telling::Why => own(Kind::Why),
        Telling::Tonight => own(Kind::Tonight),
        Telling::Targets => {
            let distances = slots.distance().into_iter().collect();
            of_one(slots, Kind::Targets { distances })
        }
        Telling::Predict => {
            let distance = slots.distance()?;
            of_one(slots, Kind::Predict { distance })
        }
        Telling::Race => swum::race(slots),
        Telling::Squad | Telling::Swimmer | Telling::Compare => evening::squad(slots),
        Telling::TestNight if coach => {
            let on = slots.coming_days(Stands::On).first().copied();
            own(Kind::TestNight { distance: slots.distance(), on })
        }
        Telling::Lanes if coach => own(Kind::Lanes { count: evening::lane_count(slots) }),
        Telling::Move if coach => evening::moves(slots),
        Telling::Change if coach => evening::change(slots),
        Telling::Slot if coach => evening::slot(slots),
        Telling::Shut if coach => evening::shut(slots),
        Telling::Note if coach => evening::note(slots),
        Telling::Tell if coach => evening::tell(slots),
        Telling::Ask => own(of_words(slots.c).unwrap_or_else(|| {
            let text = slots.c.typed(0, slots.c.len()).to_owned();
            Kind::Ask(Ask { about: About::Other, text })
        })),
        _ => None,
    }
}

/// Of whom the text is about.
fn of_one(slots: &mut Slots<'_, '_, '_>, kind: Kind) -> Option<Vec<Statement>> {
    let who = match slots.c.people().is_empty() {
        true => None,
        false => slots.who()?,
    };
    Some(vec![Statement { who, kind }])
}

/// What was said last with one thing changed.
fn fixed(slots: &mut Slots<'_, '_, '_>) -> Option<Vec<Statement>> {
    let before = match slots.c.sit.before.as_slice() {
        [said] => one_changed::anew(slots.c, said),
        _ => None,
    };
    let Some(anew) = before else { return swum::fixed(slots) };
    for (at, piece) in slots.c.pieces.iter().enumerate() {
        slots.used[at] |= matches!(piece.item, Item::Figure(_) | Item::Day(_));
    }
    let kind = match anew.kind {
        Kind::Undo => Kind::Undo,
        _ => Kind::Restate { says: vec![anew], changed: 0 },
    };
    Some(vec![Statement { who: None, kind }])
}
