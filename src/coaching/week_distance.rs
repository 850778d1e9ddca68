//! A week's distance dealt out to its sessions.
//!
//! Knows how much each could hold and how much is wanted; not what they are for.

use super::Refusal;
use crate::session::Session;

/// The days of a week, each with what its session could hold at most.
pub(super) struct Draft<T> {
    days: Vec<(T, u32)>,
}

impl<T: Copy> Draft<T> {
    /// Tries each day's session without a limit of the week.
    pub fn of(
        days: Vec<T>,
        write: &impl Fn(T, Option<u32>) -> Result<Session, Refusal>,
    ) -> Result<Self, Refusal> {
        let days = days.into_iter().map(|day| Ok((day, write(day, None)?.amount())));
        Ok(Self { days: days.collect::<Result<_, Refusal>>()? })
    }

    /// What the week could hold.
    pub fn room(&self) -> u32 {
        self.days.iter().map(|(_, most)| most).sum()
    }

    /// Sessions that make up `wanted`, never more, each in proportion to what it
    /// could hold; fewer of them where each would be under `shortest`.
    pub fn filled(
        mut self,
        wanted: u32,
        shortest: u32,
        step: u32,
        write: &impl Fn(T, Option<u32>) -> Result<Session, Refusal>,
    ) -> Result<Vec<Session>, Refusal> {
        while self.days.len() > 1 && (wanted as usize) < shortest as usize * self.days.len() {
            self.days.pop();
        }
        let mut sessions: Vec<Session> = Vec::with_capacity(self.days.len());
        let (mut left, mut room) = (wanted, self.room().max(1));
        for (day, most) in &self.days {
            let share = u64::from(left) * u64::from(*most) / u64::from(room.max(1));
            let aim = match u32::try_from(share).unwrap_or(u32::MAX) {
                _ if sessions.len() + 1 == self.days.len() => left,
                small if small < 400 => small,
                long => long / step * step,
            };
            let session = write(*day, Some(aim))?;
            left = left.saturating_sub(session.amount());
            room = room.saturating_sub(*most);
            sessions.push(session);
        }
        // What the last days could not hold the others may, with fewer drills.
        for (session, (day, _)) in sessions.iter_mut().zip(&self.days) {
            if left >= step {
                let longer = write(*day, Some(session.amount() + left))?;
                if longer.amount() > session.amount() {
                    left = left.saturating_sub(longer.amount() - session.amount());
                    *session = longer;
                }
            }
        }
        Ok(sessions)
    }
}
