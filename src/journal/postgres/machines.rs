//! Which machines serve: each tells the others that it is there, and takes itself off the
//! list when it ends. Nothing that is stored hangs on it.

use super::line::{Line, Trouble};
use crate::journal::Machine;

/// Tells that one is there, takes those off the list that are long gone, and lists the
/// others of whom it is known that they were there within three seconds (ours: six looks).
const TELL: &str = "
    with told as (
        insert into lapwing.machine (name, address, key, seen)
        values ($1, $2, $3, clock_timestamp())
        on conflict (name) do update set seen = excluded.seen
    ), gone as (
        delete from lapwing.machine where seen < clock_timestamp() - interval '1 hour'
    )
    select name, address, key from lapwing.machine
    where name <> $1 and seen > clock_timestamp() - interval '3 s'";

const LEAVE: &str = "delete from lapwing.machine where name = $1";

/// Tells that this one is there; gives all that are, itself among them.
///
/// # Errors
/// The line is gone, or the role may not.
pub(super) async fn tell(line: &Line, own: &Machine) -> Result<Vec<Machine>, Trouble> {
    let rows = line.within(line.client.query(TELL, &[&own.name, &own.address, &own.key])).await?;
    let others =
        rows.iter().map(|row| Machine { name: row.get(0), address: row.get(1), key: row.get(2) });
    Ok(others.chain([own.clone()]).collect())
}

/// Takes this one off the list.
///
/// # Errors
/// As [`tell`].
pub(super) async fn leave(line: &Line, own: &Machine) -> Result<(), Trouble> {
    line.within(line.client.execute(LEAVE, &[&own.name])).await.map(drop)
}
