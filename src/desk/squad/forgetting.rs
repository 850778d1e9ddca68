//! `forget me`: what is erased, and what outlives it without a name.

use crate::desk::decision::desk::Desk;
use crate::desk::decision::questions_back::ask_yes;
use crate::desk::decision::refusing::{Stopped, refused};
use crate::history::{Event, Unnamed};
use crate::message::{Kind, Message, Name, Statement};
use crate::reply::{Asks, OkReply, Outcome, RefusedWhy};

impl Desk<'_> {
    /// Keeps, without a name, a stop that is to hold though they are forgotten. That
    /// they want no texts is kept where they are erased: it holds in every squad.
    pub fn outlives(&mut self, who: &Name) {
        let Some(swimmer) = self.swimmer(who) else { return };
        let stop = swimmer.stop_kept(self.now());
        let kept = stop.zip(swimmer.address.as_ref());
        if let Some((stop, own)) = kept {
            let of = Unnamed::of(&self.squad.id.0, own);
            self.record(Event::StopOutlives { of, stop });
        }
    }
}

/// `forget me`: asked about, then erased for good.
pub fn forget(desk: &mut Desk<'_>, statement: &Statement) -> Result<Outcome, Stopped> {
    if statement.who.as_ref().is_some_and(|who| !desk.is_mine(who)) {
        return Err(refused("coach_only", RefusedWhy::CoachOnly));
    }
    let who =
        desk.me().cloned().ok_or_else(|| refused("not_a_swimmer", RefusedWhy::NotASwimmer))?;
    if !desk.confirmed {
        let statement = Statement { who: desk.speaker.clone(), kind: Kind::Forget };
        return Err(ask_yes(desk, Asks::Forget, &Message { statements: vec![statement] }));
    }
    desk.outlives(&who);
    desk.record(Event::Forgotten { who });
    Ok(Outcome::Ok(OkReply::Forgotten))
}
