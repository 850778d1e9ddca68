//! Where a server listens, and why it can't.

use std::io::{self, ErrorKind};
use std::net::SocketAddr;

use tokio::net::{TcpListener, TcpSocket};

/// So many may have connected before they are taken (ours; the system may allow fewer).
/// Whoever comes beyond that tries again after a second. The usual 128 come within some
/// milliseconds where many begin anew at once.
const WAITING: u32 = 4_096;

/// Listens there; `flag` names what would name another place.
///
/// # Errors
/// In words, with the cure.
pub async fn bind(address: &str, flag: &str) -> Result<TcpListener, String> {
    let told = |failed: io::Error| refusal(address, flag, &failed);
    let places: Vec<SocketAddr> = tokio::net::lookup_host(address).await.map_err(told)?.collect();
    let mut refused = None;
    for place in places {
        match listen(place) {
            Ok(listener) => return Ok(listener),
            Err(failed) => refused = Some(failed),
        }
    }
    Err(told(refused.unwrap_or_else(|| ErrorKind::InvalidInput.into())))
}

fn listen(place: SocketAddr) -> io::Result<TcpListener> {
    let socket = if place.is_ipv4() { TcpSocket::new_v4() } else { TcpSocket::new_v6() }?;
    // Or an address stays taken for a minute after whoever had it has gone.
    #[cfg(unix)]
    socket.set_reuseaddr(true)?;
    socket.bind(place)?;
    socket.listen(WAITING)
}

/// Whether a server could listen there if nobody else did.
///
/// # Errors
/// As [`bind`].
pub async fn try_out(address: &str, flag: &str) -> Result<(), String> {
    let told = |failed: io::Error| refusal(address, flag, &failed);
    let places: Vec<SocketAddr> = tokio::net::lookup_host(address).await.map_err(told)?.collect();
    let mut refused = None;
    for place in places {
        match TcpListener::bind((place.ip(), 0)).await {
            Ok(_) => return Ok(()),
            Err(failed) => refused = Some(failed),
        }
    }
    Err(told(refused.unwrap_or_else(|| ErrorKind::InvalidInput.into())))
}

/// True if it listens on all addresses of this machine.
pub fn is_everywhere(listener: &TcpListener) -> bool {
    listener.local_addr().is_ok_and(|place| place.ip().is_unspecified())
}

fn refusal(address: &str, flag: &str, failed: &io::Error) -> String {
    match failed.kind() {
        ErrorKind::AddrInUse => format!(
            "another program listens on {address}, perhaps another `lapwing serve`: stop that one, \
             or name another place with {flag} ADDR:PORT"
        ),
        ErrorKind::PermissionDenied => format!(
            "only the administrator may listen on {address}: name a port of 1024 or more with {flag}"
        ),
        ErrorKind::AddrNotAvailable => format!(
            "{address} is no address of this machine: name 127.0.0.1 for this machine alone, or \
             0.0.0.0 for whoever reaches it, with {flag}"
        ),
        _ => format!(
            "can't listen on {address}: {failed}; it is to be ADDR:PORT, as in 127.0.0.1:7373, and \
             {flag} names it"
        ),
    }
}

#[cfg(all(test, target_os = "linux"))]
mod tests {
    use std::net::TcpStream;
    use std::time::Duration;

    use super::*;

    #[tokio::test]
    async fn hundreds_connect_before_any_is_taken() {
        let listener = bind("127.0.0.1:0", "--listen").await.unwrap();
        let place = listener.local_addr().unwrap();
        let patience = Duration::from_secs(60);
        let connected: Result<Vec<TcpStream>, _> =
            (0..300).map(|_| TcpStream::connect_timeout(&place, patience)).collect();
        assert_eq!(connected.unwrap().len(), 300);
    }
}
