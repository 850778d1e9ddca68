//! An application service's paths, over real sockets. What a real homeserver
//! makes of it is `tests/matrix/run`'s business.

use std::net::SocketAddr;
use std::sync::Arc;

use lapwing::hidden::Hidden;
use lapwing::http::{self, Limits, Reception};
use lapwing::matrix::{Account, Appservice, Homeserver, registration, router};
use lapwing::service::Service;
use lapwing::tls::{self, Trust};
use reqwest::{Client, Method, Response};
use serde_json::{Value, json};
use tokio::net::{TcpListener, TcpSocket};
use tokio_util::sync::CancellationToken;

use super::club::Club;

struct Server {
    address: SocketAddr,
    client: Client,
    stopping: CancellationToken,
    /// Where its homeserver would be: nobody listens there, nor can anybody else.
    _nowhere: TcpSocket,
}

fn account() -> Account {
    Account {
        localpart: "lapwing".to_owned(),
        server: "localhost".to_owned(),
        called: "lapwing".to_owned(),
        as_token: Hidden::new("as-7"),
        hs_token: Hidden::new("hs-7"),
    }
}

impl Server {
    /// Before a homeserver that is not there.
    async fn start(service: &Arc<Service>) -> Server {
        let client = tls::client(Trust::None).no_proxy().build().unwrap();
        let nowhere = TcpSocket::new_v4().unwrap();
        nowhere.bind(([127, 0, 0, 1], 0).into()).unwrap();
        let base = format!("http://{}/", nowhere.local_addr().unwrap()).parse().unwrap();
        let homeserver = Homeserver::new(client.clone(), base, account());
        let stopping = CancellationToken::new();
        let reception = Reception::new(Arc::clone(service), Limits::default(), stopping.clone());
        let paths = router(Appservice::new(homeserver, reception, None));
        let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
        let address = listener.local_addr().unwrap();
        let closing = CancellationToken::new();
        tokio::spawn(http::serve(listener, paths, Limits::default(), closing));
        Server { address, client, stopping, _nowhere: nowhere }
    }

    async fn ask(&self, method: Method, path: &str, token: Option<&str>, body: &str) -> Response {
        let url = format!("http://{}/_matrix/app/v1/{path}", self.address);
        let request = self.client.request(method, url).body(body.to_owned());
        let request = match token {
            Some(token) => request.bearer_auth(token),
            None => request,
        };
        request.send().await.unwrap()
    }

    async fn tells(&self, number: &str, events: Value) -> u16 {
        let body = json!({ "events": events }).to_string();
        let path = format!("transactions/{number}");
        self.ask(Method::PUT, &path, Some("hs-7"), &body).await.status().as_u16()
    }
}

async fn server() -> (Club, Server) {
    let club = Club::coached_by("@coach:localhost").await;
    let server = Server::start(&club.service).await;
    (club, server)
}

#[tokio::test(flavor = "multi_thread")]
async fn only_the_homeserver_is_heard() {
    let (_club, server) = server().await;
    for (method, path) in [(Method::PUT, "transactions/1"), (Method::POST, "ping")] {
        for (token, status, code) in
            [(None, 401, "M_UNAUTHORIZED"), (Some("hs-8"), 403, "M_FORBIDDEN")]
        {
            let answer = server.ask(method.clone(), path, token, "{\"events\":[]}").await;
            assert_eq!(answer.status(), status);
            assert_eq!(answer.json::<Value>().await.unwrap()["errcode"], code);
        }
        let answer = server.ask(method, path, Some("hs-7"), "{\"events\":[]}").await;
        assert_eq!(answer.status(), 200);
        assert_eq!(answer.json::<Value>().await.unwrap(), json!({}));
    }
    let unfit = server.ask(Method::PUT, "transactions/2", Some("hs-7"), "[").await;
    assert_eq!(unfit.status(), 400);
    let nobody = server.ask(Method::GET, "users/@x:localhost", Some("hs-7"), "").await;
    assert_eq!(nobody.status(), 404);
}

/// What can't be done now is told so, to come again; what concerns nobody is
/// taken whatever it is.
#[tokio::test(flavor = "multi_thread")]
async fn what_cant_be_done_now_comes_again() {
    let (club, server) = server().await;
    let said = json!({ "type": "m.room.message", "room_id": "!r:localhost", "event_id": "$1",
        "sender": "@ann:localhost", "content": { "msgtype": "m.text", "body": "lapwing help" } });
    assert_eq!(server.tells("1", json!([said])).await, 503);
    let invited = json!({ "type": "m.room.member", "room_id": "!r:localhost",
        "sender": "@ann:localhost", "state_key": "@lapwing:localhost",
        "content": { "membership": "invite" } });
    assert_eq!(server.tells("1", json!([invited])).await, 503);
    let nothing = json!([{ "type": "m.reaction" }, 7, { "type": "m.room.message" }]);
    assert_eq!(server.tells("2", nothing).await, 200);
    assert!(club.service.undelivered().unwrap().is_empty());
    server.stopping.cancel();
    assert_eq!(server.tells("3", json!([])).await, 503);
}

#[tokio::test(flavor = "multi_thread")]
async fn a_transaction_may_hold_a_hundred_long_events() {
    let (_club, server) = server().await;
    let event = json!({ "type": "m.reaction", "content": { "body": "x".repeat(60_000) } });
    assert_eq!(server.tells("1", json!(vec![event.clone(); 100])).await, 200);
    assert_eq!(server.tells("2", json!(vec![event; 200])).await, 413);
}

#[test]
fn the_registration_names_us_alone() {
    let yaml = registration(&account(), "http://127.0.0.1:7373");
    for line in [
        "url: 'http://127.0.0.1:7373'",
        "as_token: 'as-7'",
        "hs_token: 'hs-7'",
        "sender_localpart: 'lapwing'",
        "      regex: '^\\@lapwing\\:localhost$'",
        "  rooms: []",
    ] {
        assert!(yaml.lines().any(|one| one == line), "{yaml}");
    }
}
