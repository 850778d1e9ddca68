//! Calendars that last: opened from a page, had by whoever has their address.

use std::sync::Arc;

use super::boards::token;
use super::{Failure, Service};
use crate::desk::board::{self, CalendarSeen, CalendarWish};
use crate::export::{File, written};
use crate::history::StrangersAsked;

impl Service {
    /// What there is of the calendar of whoever has this page; `None` where the token
    /// opens none.
    ///
    /// # Errors
    /// [`Failure::Unavailable`] where it can't be told now.
    pub async fn calendar_seen(
        self: &Arc<Self>,
        page: &str,
    ) -> Result<Option<CalendarSeen>, Failure> {
        self.calendar_wished(page, CalendarWish::Look).await
    }

    /// Opens it under a new address, and gives that, whole.
    ///
    /// # Errors
    /// [`Failure::Unavailable`] where it can't be stored now.
    pub async fn open_calendar(
        self: &Arc<Self>,
        page: &str,
    ) -> Result<Option<(CalendarSeen, String)>, Failure> {
        let (Some(base), Some(token)) = (self.boards_at.get(), token()) else {
            return Err(Failure::Unavailable);
        };
        let seen = self.calendar_wished(page, CalendarWish::Open(&token)).await?;
        Ok(seen.map(|seen| (seen, format!("{base}/calendar/{token}.ics"))))
    }

    /// Shuts it.
    ///
    /// # Errors
    /// As [`open_calendar`](Self::open_calendar).
    pub async fn shut_calendar(
        self: &Arc<Self>,
        page: &str,
    ) -> Result<Option<CalendarSeen>, Failure> {
        self.calendar_wished(page, CalendarWish::Shut).await
    }

    async fn calendar_wished(
        self: &Arc<Self>,
        page: &str,
        wish: CalendarWish<'_>,
    ) -> Result<Option<CalendarSeen>, Failure> {
        let opened = self
            .opened(page, |squad, asked, open| board::calendar(squad, asked, open, wish))
            .await?;
        Ok(opened.map(|opened| opened.shown))
    }

    /// The calendar under an address, as of now; `None` for one that was never open,
    /// that is shut, or whose owner may no longer see it.
    ///
    /// # Errors
    /// [`Failure::Unavailable`] where it can't be read now.
    pub fn calendar(&self, token: &str) -> Result<Option<String>, Failure> {
        let digest = board::calendar_digest(token);
        self.by_door(&digest, |_, squad, now, wall| {
            let Some(open) = squad.calendar_by(&digest) else { return Ok(None) };
            let nobody = StrangersAsked::default();
            let asked = self.looking(&open.address, now, wall, &nobody);
            let Some(whose) = board::whose_calendar(squad, &asked, open) else { return Ok(None) };
            let text = written(squad, &whose, File::Calendar, now);
            text.map(Some).map_err(|error| self.failed(&error))
        })
    }
}
