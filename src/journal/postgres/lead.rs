//! Which of several processes leads: whoever holds an advisory lock. Nothing that is
//! stored hangs on it.

use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, RecvTimeoutError};
use std::time::Duration;

use super::line::{Line, Trouble, Use};
use super::machines;
use super::shared::Shared;
use crate::journal::Machine;

/// Names the lock: `lapw` in ASCII, and a number.
const LOCK: (i32, i32) = (0x6c61_7077, 2);

/// How often it is asked for, or looked whether we still have it (ours).
const LOOK: Duration = Duration::from_millis(500);

/// Cuts the line of whoever has the lock and has not looked after it for five seconds, ten
/// times as long as it should be (ours): its process or its machine stands still.
const FREE: &str = "
    select pg_terminate_backend(pid) from pg_locks join pg_stat_activity using (pid)
    where locktype = 'advisory' and classid = $1::int4::oid and objid = $2::int4::oid
        and objsubid = 2 and granted
        and database = (select oid from pg_database where datname = current_database())
        and state = 'idle' and state_change < clock_timestamp() - interval '5 s'";

/// Seeks to lead, and to go on leading, until the other end of `ended` is gone.
pub(super) fn run(shared: &Shared, leads: &AtomicBool, ended: &Receiver<()>) {
    let mut line: Option<Line> = None;
    let mut refused = false;
    loop {
        let led = leads.load(Ordering::Acquire);
        // Who can't write leads nobody.
        let able = shared.queue.refusal().is_none();
        let leads_now = able && look(shared, &mut line, led).unwrap_or_default();
        shared.saw(match (&line, shared.own.get()) {
            (Some(_), Some(own)) if !refused => tell(shared, &mut line, own, &mut refused),
            _ => vec![],
        });
        if !leads_now && (led || !able) {
            line = None;
        }
        leads.store(leads_now, Ordering::Release);
        if leads_now && !led {
            tracing::info!("this process leads: it sends what is to be sent");
            if let Some(follower) = shared.follower() {
                follower.begin_to_lead();
            }
        }
        if led && !leads_now {
            tracing::warn!("this process leads no more");
        }
        if ended.recv_timeout(LOOK) != Err(RecvTimeoutError::Timeout) {
            leads.store(false, Ordering::Release);
            if let (Some(line), Some(own)) = (line, shared.own.get().cloned()) {
                // Who is not taken off the list is off it in some seconds.
                let _ = shared.run(async move { machines::leave(&line, &own).await });
            }
            return;
        }
    }
}

/// Whether we lead now.
fn look(shared: &Shared, line: &mut Option<Line>, led: bool) -> Result<bool, ()> {
    let held = match line.take() {
        Some(line) => line,
        None => shared.open_line(Use::Writing).map_err(drop)?,
    };
    let looked = shared.run(async move {
        let leads = if led {
            held.within(held.client.query_one("select true", &[])).await
        } else {
            ask(&held).await
        };
        (held, leads)
    });
    let (held, leads) = looked.map_err(drop)?;
    let leads = leads.map_err(drop)?.get(0);
    *line = Some(held);
    Ok(leads)
}

/// Tells the others that this one serves; gives all that do. `refused` where it may not.
fn tell(
    shared: &Shared,
    line: &mut Option<Line>,
    own: &Machine,
    refused: &mut bool,
) -> Vec<Machine> {
    let Some(held) = line.take() else { return vec![] };
    let own = own.clone();
    let told = shared.run(async move {
        let told = machines::tell(&held, &own).await;
        (held, told)
    });
    let Ok((held, told)) = told else { return vec![] };
    *line = Some(held);
    told.unwrap_or_else(|trouble| {
        if let Trouble::Refused(why) = trouble {
            tracing::warn!(%why, "the other machines can't be told of this one");
            *refused = true;
        }
        vec![]
    })
}

async fn ask(line: &Line) -> Result<tokio_postgres::Row, Trouble> {
    let asked = line.client.query_one("select pg_try_advisory_lock($1, $2)", &[&LOCK.0, &LOCK.1]);
    let got = line.within(asked).await?;
    if !got.get::<_, bool>(0) {
        let freed = line.client.query(FREE, &[&LOCK.0, &LOCK.1]);
        if !line.within(freed).await?.is_empty() {
            tracing::warn!("whoever led had stopped: its lock is freed");
        }
    }
    Ok(got)
}
