//! Who is connected, and who may connect too: so many in all and from one address.
//! Where all places are taken, whoever has been longest about to say something gives
//! way; nobody who is being answered does.

use std::collections::HashMap;
use std::io;
use std::net::IpAddr;
use std::pin::Pin;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::task::{Context, Poll};
use std::time::{Duration, Instant};

use tokio::io::{AsyncRead, AsyncWrite, ReadBuf};
use tokio_util::sync::CancellationToken;

/// How long whoever says nothing keeps their place at least where others wait
/// (ours: a packet lost once comes again within that).
const GRACE: Duration = Duration::from_secs(1);

/// Files that are kept for what is no connection: the log, the store, letters out.
const KEPT_FILES: u64 = 256;
/// More are never taken, however many files may be open.
const MOST: usize = 10_000;
/// Fewer are never enough.
const LEAST: usize = 32;

/// An address that somebody connects from.
pub trait Peer {
    /// The machine it is of, where there are several.
    fn machine(&self) -> Option<IpAddr>;
}

impl Peer for std::net::SocketAddr {
    fn machine(&self) -> Option<IpAddr> {
        Some(self.ip())
    }
}

impl Peer for tokio::net::unix::SocketAddr {
    fn machine(&self) -> Option<IpAddr> {
        None
    }
}

/// How many connections may be open at once.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Places {
    /// In all.
    pub all: usize,
    /// From one address.
    pub from_one: usize,
}

impl Places {
    /// As many as so many open files allow; one address gets three quarters of them.
    pub fn within(open_files: u64) -> Places {
        let spare = open_files.saturating_sub(KEPT_FILES).max(open_files / 2);
        let all = usize::try_from(spare).unwrap_or(MOST).clamp(LEAST, MOST);
        Places { all, from_one: all * 3 / 4 }
    }
}

/// Everybody who is connected.
#[derive(Debug)]
pub(super) struct Connections {
    places: Places,
    open: Mutex<Open>,
}

#[derive(Debug, Default)]
struct Open {
    seats: HashMap<u64, Arc<Seat>>,
    from: HashMap<IpAddr, usize>,
    next: u64,
}

/// One connection.
#[derive(Debug)]
pub(super) struct Seat {
    state: Mutex<SeatState>,
    /// Cancelled where it has to give way.
    pub give_way: CancellationToken,
    from: Option<IpAddr>,
}

#[derive(Debug, Clone, Copy)]
struct SeatState {
    /// A request of theirs is whole and being answered.
    is_answered: bool,
    /// Since when they could say something.
    since: Instant,
    /// Since when they have begun to.
    begun: Option<Instant>,
}

/// Held while somebody is connected.
pub(super) struct Seated {
    pub seat: Arc<Seat>,
    number: u64,
    connections: Arc<Connections>,
}

impl Connections {
    /// Nobody yet, in so many places.
    pub(super) fn new(places: Places) -> Arc<Connections> {
        Arc::new(Connections { places, open: Mutex::default() })
    }

    /// A place for whoever connects from there; none where all are taken by others
    /// who are being answered.
    pub(super) fn admit(self: &Arc<Self>, from: Option<IpAddr>) -> Option<Seated> {
        let mut open = self.open();
        let theirs = from.and_then(|from| open.from.get(&from).copied()).unwrap_or_default();
        if theirs >= self.places.from_one {
            open.make_way(|seat| seat.from == from)?;
        } else if open.seats.len() >= self.places.all {
            open.make_way(|_| true)?;
        }
        let number = open.next;
        open.next += 1;
        let state = SeatState { is_answered: false, since: Instant::now(), begun: None };
        let give_way = CancellationToken::new();
        let seat = Arc::new(Seat { state: Mutex::new(state), give_way, from });
        open.seats.insert(number, Arc::clone(&seat));
        if let Some(from) = from {
            *open.from.entry(from).or_default() += 1;
        }
        drop(open);
        Some(Seated { seat, number, connections: Arc::clone(self) })
    }

    /// Cuts those who began to say something so long ago and have not ended: so many at
    /// most, and of more those who began first.
    pub(super) fn cut_half_said(&self, patience: Duration, at_most: usize) {
        let open = self.open();
        let begun = |seat: &Arc<Seat>| {
            let state = *seat.state();
            let begun = state.begun.filter(|_| !state.is_answered && !seat.give_way.is_cancelled());
            begun.filter(|begun| begun.elapsed() > patience)
        };
        let mut over: Vec<(Instant, &Arc<Seat>)> =
            open.seats.values().filter_map(|seat| Some((begun(seat)?, seat))).collect();
        if over.len() > at_most {
            over.select_nth_unstable_by_key(at_most, |(begun, _)| *begun);
            over.truncate(at_most);
        }
        over.into_iter().for_each(|(_, seat)| seat.give_way.cancel());
    }

    fn open(&self) -> MutexGuard<'_, Open> {
        self.open.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl Open {
    /// Lets whoever of these has waited longest give way.
    fn make_way(&mut self, of_these: impl Fn(&Seat) -> bool) -> Option<()> {
        let waiting =
            self.seats.iter().filter(|(_, seat)| of_these(seat)).filter_map(|(at, seat)| {
                let state = *seat.state();
                let waits = !state.is_answered && state.since.elapsed() >= GRACE;
                waits.then_some((state.since, *at))
            });
        let (_, longest) = waiting.min()?;
        self.leave(longest)?.give_way.cancel();
        Some(())
    }

    fn leave(&mut self, number: u64) -> Option<Arc<Seat>> {
        let seat = self.seats.remove(&number)?;
        if let Some(from) = seat.from
            && let Some(count) = self.from.get_mut(&from)
        {
            *count -= 1;
            if *count == 0 {
                self.from.remove(&from);
            }
        }
        Some(seat)
    }
}

impl Drop for Seated {
    fn drop(&mut self) {
        self.connections.open().leave(self.number);
    }
}

impl Seat {
    fn state(&self) -> MutexGuard<'_, SeatState> {
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// A request is whole.
    pub(super) fn is_heard(&self) {
        let mut state = self.state();
        (state.is_answered, state.begun) = (true, None);
    }

    /// It is answered; another may come.
    pub(super) fn is_answered(&self) {
        *self.state() = SeatState { is_answered: false, since: Instant::now(), begun: None };
    }

    fn says_something(&self) {
        let mut state = self.state();
        if !state.is_answered {
            state.begun.get_or_insert_with(Instant::now);
        }
    }
}

/// A connection of which is noticed when something is said.
pub(super) struct Watched<Io> {
    io: Io,
    seat: Arc<Seat>,
}

impl<Io> Watched<Io> {
    /// This one, of whoever has that seat.
    pub(super) fn new(io: Io, seat: Arc<Seat>) -> Self {
        Watched { io, seat }
    }
}

impl<Io: AsyncRead + Unpin> AsyncRead for Watched<Io> {
    fn poll_read(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
        into: &mut ReadBuf<'_>,
    ) -> Poll<io::Result<()>> {
        let before = into.filled().len();
        let read = Pin::new(&mut self.io).poll_read(context, into);
        if into.filled().len() > before {
            self.seat.says_something();
        }
        read
    }
}

impl<Io: AsyncWrite + Unpin> AsyncWrite for Watched<Io> {
    fn poll_write(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
        bytes: &[u8],
    ) -> Poll<io::Result<usize>> {
        Pin::new(&mut self.io).poll_write(context, bytes)
    }

    fn poll_flush(mut self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<io::Result<()>> {
        Pin::new(&mut self.io).poll_flush(context)
    }

    fn poll_shutdown(mut self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<io::Result<()>> {
        Pin::new(&mut self.io).poll_shutdown(context)
    }

    fn poll_write_vectored(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
        bytes: &[io::IoSlice<'_>],
    ) -> Poll<io::Result<usize>> {
        Pin::new(&mut self.io).poll_write_vectored(context, bytes)
    }

    fn is_write_vectored(&self) -> bool {
        self.io.is_write_vectored()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn from(last: u8) -> Option<IpAddr> {
        Some(IpAddr::from([127, 0, 0, last]))
    }

    #[test]
    fn places_are_within_the_files_that_may_be_open() {
        assert_eq!(Places::within(1024), Places { all: 768, from_one: 576 });
        assert_eq!(Places::within(64).all, 32);
        assert_eq!(Places::within(1_000_000).all, MOST);
    }

    #[test]
    fn who_says_nothing_gives_way_and_who_is_answered_does_not() {
        let connections = Connections::new(Places { all: 3, from_one: 2 });
        let seats: Vec<Seated> =
            [1, 1, 2].into_iter().map(|at| connections.admit(from(at)).unwrap()).collect();
        let came = |at: Instant| seats.iter().for_each(|one| one.seat.state().since = at);
        // All have just come, however long this machine takes.
        came(Instant::now() + 60 * GRACE);
        assert!(connections.admit(from(3)).is_none());
        came(Instant::now() - GRACE);
        seats[0].seat.is_heard();
        let fourth = connections.admit(from(1)).unwrap();
        assert!(seats[1].seat.give_way.is_cancelled(), "the other of the same address");
        fourth.seat.is_heard();
        let _fifth = connections.admit(from(3)).unwrap();
        assert!(seats[2].seat.give_way.is_cancelled() && !seats[0].seat.give_way.is_cancelled());
        drop(seats);
        assert_eq!(connections.open().from.len(), 2);
    }

    #[test]
    fn of_many_half_said_those_go_first_that_began_first() {
        let connections = Connections::new(Places { all: 9, from_one: 9 });
        let seats: Vec<Seated> = (0..6).map(|_| connections.admit(None).unwrap()).collect();
        let long_ago = |at: u32| Instant::now() - (10 + at) * GRACE;
        for (at, seated) in (0..).zip(&seats[..5]) {
            seated.seat.state().begun = Some(long_ago(at));
        }
        // Answered, and about to be: neither is cut.
        seats[4].seat.is_heard();
        seats[5].seat.says_something();
        let cut = || -> Vec<bool> {
            connections.cut_half_said(GRACE, 2);
            seats.iter().map(|one| one.seat.give_way.is_cancelled()).collect()
        };
        assert_eq!(cut(), [false, false, true, true, false, false]);
        assert_eq!(cut(), [true, true, true, true, false, false]);
    }
}
