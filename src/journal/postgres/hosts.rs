//! Which of an address's servers a line leads to: the first, in their order, that answers
//! and does what the line is for. Who keeps us waiting keeps nobody from the others: a
//! server that stands still takes connections and says nothing.

use std::time::Duration;

use tokio::task::JoinSet;
use tokio::time::timeout;
use tokio_postgres::config::{Host, TargetSessionAttrs};
use tokio_postgres::tls::MakeTlsConnect;
use tokio_postgres::{Client, Config, Connection, Error, Socket};
use tokio_postgres_rustls::MakeRustlsConnect;

use super::DatabaseUrl;
use super::line::{Trouble, Use};

/// For how long a server alone is asked before the next one is asked too (ours).
const HEAD_START: Duration = Duration::from_millis(500);

/// A line, and what carries it.
type Connected =
    (Client, Connection<Socket, <MakeRustlsConnect as MakeTlsConnect<Socket>>::Stream>);

/// Connects to one of them.
///
/// # Errors
/// None of them answers and does what it is for.
pub(super) async fn connect(
    url: &DatabaseUrl,
    tls: &MakeRustlsConnect,
    what_for: Use,
) -> Result<Connected, Trouble> {
    let mut asked = JoinSet::new();
    let mut refusals = Vec::new();
    let mut others = each(&url.config()).into_iter();
    loop {
        if let Some(mut config) = others.next() {
            config.target_session_attrs(match what_for {
                Use::Reading => TargetSessionAttrs::Any,
                Use::Writing => TargetSessionAttrs::ReadWrite,
            });
            let tls = tls.clone();
            asked.spawn(async move { config.connect(tls).await });
        }
        let answered = match others.len() {
            0 => asked.join_next().await,
            _ => timeout(HEAD_START, asked.join_next()).await.ok().flatten(),
        };
        match answered {
            Some(Ok(Ok(connected))) => return Ok(connected),
            Some(Ok(Err(error))) => refusals.push(error),
            Some(Err(broken)) => return Err(Trouble::Lost(format!("the database: {broken}"))),
            None if others.len() == 0 => return Err(weighed(&refusals)),
            None => {}
        }
    }
}

/// What it means that each refused: if one was only away, it may come back.
fn weighed(refusals: &[Error]) -> Trouble {
    let mut troubles: Vec<Trouble> = refusals.iter().map(Trouble::of).collect();
    let lost = troubles.iter().position(|trouble| matches!(trouble, Trouble::Lost(_)));
    match troubles.is_empty() {
        true => Trouble::Lost("the database: its address names no server".into()),
        false => troubles.swap_remove(lost.unwrap_or_default()),
    }
}

/// What to connect by to each of the servers, in their order.
fn each(all: &Config) -> Vec<Config> {
    let one = |(at, host): (usize, &Host)| {
        let mut one = Config::new();
        match host {
            Host::Tcp(name) => one.host(name),
            Host::Unix(folder) => one.host_path(folder),
        };
        if let Some(address) = all.get_hostaddrs().get(at) {
            one.hostaddr(*address);
        }
        if let Some(port) = all.get_ports().get(at).or(all.get_ports().first()) {
            one.port(*port);
        }
        all.get_user().map(|user| one.user(user));
        all.get_password().map(|password| one.password(password));
        all.get_dbname().map(|name| one.dbname(name));
        all.get_options().map(|options| one.options(options));
        all.get_application_name().map(|name| one.application_name(name));
        all.get_connect_timeout().map(|time| one.connect_timeout(*time));
        all.get_tcp_user_timeout().map(|time| one.tcp_user_timeout(*time));
        all.get_keepalives_interval().map(|time| one.keepalives_interval(time));
        all.get_keepalives_retries().map(|times| one.keepalives_retries(times));
        one.ssl_mode(all.get_ssl_mode())
            .ssl_negotiation(all.get_ssl_negotiation())
            .channel_binding(all.get_channel_binding())
            .keepalives(all.get_keepalives())
            .keepalives_idle(all.get_keepalives_idle());
        one
    };
    all.get_hosts().iter().enumerate().map(one).collect()
}

#[cfg(test)]
mod tests {
    use tokio_postgres::config::SslMode;

    use super::*;
    use crate::hidden::Hidden;

    #[test]
    fn each_server_is_asked_as_if_it_were_alone() {
        let more = "/squads?options=-c%20work_mem%3D4MB&channel_binding=require\
                    &keepalives_retries=3&keepalives_interval=2";
        let hosts = ["db1.example.org:5433", "db2.example.org", "[::1]:5434"];
        let config = |hosts: &str| {
            let url: DatabaseUrl = format!("postgres://heron@{hosts}{more}").parse().unwrap();
            url.with_password(Some(&Hidden::new("plover-9"))).config()
        };
        // Our own machine wants no TLS where it is alone.
        let alone = hosts.map(|host| config(host).ssl_mode(SslMode::Require).clone());
        assert_eq!(each(&config(&hosts.join(","))), alone);
    }
}
