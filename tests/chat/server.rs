//! A server that a chat is set up with, on a free port; and the chat's own
//! incoming webhook, which keeps what it gets.

use std::net::SocketAddr;
use std::sync::{Arc, Mutex};

use axum::extract::State;
use axum::routing::post;
use axum::{Json, Router};
use lapwing::clock::WallClock;
use lapwing::http::{self, Chat, Door, Inlet, Limits, Reception};
use lapwing::outbox::{
    Carrier, Courier, Destination, Format, Gateway, Patience, Routes, Siren, Value as Field,
};
use lapwing::service::Service;
use lapwing::signing::Secret;
use reqwest::{Client, RequestBuilder, Response};
use serde_json::Value;
use tokio::net::TcpListener;
use tokio_util::sync::CancellationToken;

pub const TOKEN: &str = "k8w1qx3z5t7n9b2m4v6c8l0p1r";
pub const DIRECT_TOKEN: &str = "p1r8l0c6v4m2b9n7t5z3xq1w8k";

pub struct Server {
    address: SocketAddr,
    client: Client,
    pub courier: Arc<Courier>,
    pub siren: Arc<Siren>,
    posted: Arc<Mutex<Vec<Value>>>,
}

impl Server {
    /// With the chat `club`; its people can be texted alone if it `reaches`
    /// them.
    pub async fn start(service: &Arc<Service>, reaches: bool) -> Server {
        let posted = Arc::new(Mutex::new(vec![]));
        let keep = |State(posted): State<Arc<Mutex<Vec<Value>>>>, Json(body): Json<Value>| async move {
            posted.lock().unwrap().push(body);
            "ok"
        };
        let hook = Router::new().route("/hooks/7", post(keep)).with_state(Arc::clone(&posted));
        let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
        let url = format!("http://{}/hooks/7", listener.local_addr().unwrap());
        tokio::spawn(async move { axum::serve(listener, hook).await.unwrap() });

        let field =
            |name: &str, words: &str| (name.to_owned(), Field::Template(words.parse().unwrap()));
        let fields = vec![
            field("text", "{text}"),
            field("channel", "@{handle}"),
            field("username", "lapwing"),
        ];
        let manner =
            Gateway { format: Format::Json, fields, authorization: None, opted_out: vec![] };
        let to = Destination::new(&url, true, None).unwrap();
        let carrier = Carrier::new(to, manner, Patience::default()).unwrap();
        let routes = Arc::new(match reaches {
            true => Routes::default().and(&Chat::prefix("club"), carrier),
            false => Routes::default(),
        });
        let courier = Courier::new(Arc::clone(service), Arc::new(WallClock), Arc::clone(&routes));
        let siren = Siren::new(Arc::clone(service), Arc::new(WallClock), routes);

        let token = |word: &str| word.parse().ok().unwrap();
        let chat = Chat {
            name: "club".to_owned(),
            token: token(TOKEN),
            direct_token: Some(token(DIRECT_TOKEN)),
            also_called: vec![],
            called: "lapwing".to_owned(),
            reaches,
        };
        let stopping = CancellationToken::new();
        let door = Door {
            reception: Reception::new(Arc::clone(service), Limits::default(), stopping.clone()),
            secrets: [Secret::generate().unwrap()].into(),
            inlets: [Inlet::plain(token("wren-7"))].into(),
            chats: [chat].into(),
            clock: Arc::new(WallClock),
            limit: None,
        };
        let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
        let address = listener.local_addr().unwrap();
        tokio::spawn(http::serve(listener, http::router(door), Limits::default(), stopping));
        let client = lapwing::tls::client(lapwing::tls::Trust::None).no_proxy().build().unwrap();
        Server { address, client, courier, siren, posted }
    }

    pub fn post(&self, chat: &str) -> RequestBuilder {
        self.client.post(format!("http://{}/v1/chat/{chat}", self.address))
    }

    pub async fn json(&self, body: &Value) -> Value {
        answer(self.post("club").json(body).send().await.unwrap()).await
    }

    pub async fn form(&self, fields: &[(&str, &str)]) -> Value {
        let mut url: reqwest::Url = "http://form/".parse().unwrap();
        url.query_pairs_mut().extend_pairs(fields);
        let request = self
            .post("club")
            .header("content-type", "application/x-www-form-urlencoded")
            .body(url.query().unwrap().to_owned());
        answer(request.send().await.unwrap()).await
    }

    /// What the chat's incoming webhook has got since the last call.
    pub async fn posted(&self) -> Vec<Value> {
        self.siren.cry_due().await;
        self.courier.deliver_due().await;
        std::mem::take(&mut self.posted.lock().unwrap())
    }
}

/// That it is an answer; gives it.
pub async fn answer(response: Response) -> Value {
    assert_eq!(response.status(), 200);
    assert_eq!(response.headers()["content-type"], "application/json");
    response.json().await.unwrap()
}
