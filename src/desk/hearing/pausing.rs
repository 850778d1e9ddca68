//! A word of stopping within a longer text: a pause, or a question, and an
//! opt-out only if that is what was meant.

use jiff::ToSpan;
use jiff::civil::Date;
use serde_json::Value;

use super::understood;
use crate::desk::decision::desk::Desk;
use crate::desk::decision::questions_back::ask_yes;
use crate::desk::decision::refusing::Stopped;
use crate::desk::decision::view::View;
use crate::desk::swims::sessions_done;
use crate::history::Event;
use crate::message::{self, Day, Kind, Message, Pause, Statement};
use crate::reply::{Asks, OkReply, Outcome};

impl Desk<'_> {
    /// `stop for 2 weeks`: they are away until then, and are asked whether they
    /// want no texts either.
    pub fn pause(&mut self, text: &str) -> Option<(Vec<Value>, Outcome)> {
        let until = match message::pause(text, self.language())? {
            Pause::Days(days) => Day::Full(self.today.checked_add(i64::from(days).days()).ok()?),
            Pause::Until(day) => day,
        };
        let away = Statement { who: None, kind: Kind::Away { from: None, until } };
        let understood = understood::all(self, &Message { statements: vec![away.clone()] });
        let away_until = match sessions_done::away(self, &away, None, until) {
            Ok(Outcome::Ok(OkReply::Away { until, .. })) => Some(until),
            // A coach who doesn't swim has no sessions to be away from.
            _ => None,
        };
        let understood = if away_until.is_some() { understood } else { vec![] };
        Some((understood, *ask(self, away_until)))
    }
}

/// `stop` in a longer text is asked about; the answer `yes` opts out.
pub fn stop(desk: &mut Desk<'_>) -> Result<Outcome, Stopped> {
    // A `yes` to a misspelt `stop` is one, too.
    if !desk.answered {
        return Err(ask(desk, None));
    }
    desk.record(Event::OptedOut { address: desk.asked.from.to_owned() });
    Ok(Outcome::Ok(OkReply::OptedOut))
}

/// `start`, where it opts nobody in: they get texts already, or it stands in a
/// longer text.
pub fn start(view: &View<'_>) -> Outcome {
    Outcome::Ok(if view.is_opted_out() { OkReply::Silent } else { OkReply::OptedIn })
}

fn ask(desk: &mut Desk<'_>, away_until: Option<Date>) -> Stopped {
    let stop = Message { statements: vec![Statement { who: None, kind: Kind::Stop }] };
    ask_yes(desk, Asks::NoTexts { away_until }, &stop)
}
