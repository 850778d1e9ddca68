//! `lapwing send`: one signed text to a server, as a program would send it.

use std::time::Duration;

use jiff::Timestamp;
use reqwest::header::CONTENT_TYPE;
use reqwest::{StatusCode, Url};
use serde_json::json;

use super::arguments::Send;
use super::console::{Harmless, print};
use super::keys::{self, Source};
use super::run::{Failed, Outcome};
use super::settings::Settings;
use crate::digest;
use crate::http::ProblemBody;
use crate::service::{Answer, Via};
use crate::signing::{Secret, sign};
use crate::tls::{self, Trust};

/// How long the server may take.
const PATIENCE: Duration = Duration::from_secs(30);

/// Bytes of randomness in an id we make.
const ID_LENGTH: usize = 12;

/// Sends it and prints what is answered.
pub async fn run(settings: &Settings, asked: Send) -> Outcome {
    let (secret, source) = keys::signing_secret(&settings.data)?;
    let client = client_for(&asked.url)?;
    let url = with_path(asked.url.clone());
    let answer = post(&client, url, (&secret, &source), asked).await?;
    for reply in answer.replies.iter().filter(|reply| reply.via == Via::Answer) {
        print(Harmless(&reply.text))?;
    }
    Ok(())
}

async fn post(
    client: &reqwest::Client,
    url: Url,
    (secret, source): (&Secret, &Source),
    asked: Send,
) -> Result<Answer, Failed> {
    let id = asked.id.clone().map_or_else(made_id, Ok)?;
    let body = json!({
        "id": id,
        "from": asked.from,
        "text": asked.text.join(" "),
        "room": asked.room,
        "sent_at": asked.sent_at,
    })
    .to_string();
    let now = Timestamp::now();
    let response = client
        .post(url)
        .header(CONTENT_TYPE, "application/json")
        .header("webhook-id", &id)
        .header("webhook-timestamp", now.as_second())
        .header("webhook-signature", sign(secret, id.as_bytes(), now, body.as_bytes()))
        .body(body)
        .timeout(PATIENCE)
        .send()
        .await
        .map_err(|failed| unanswered(&failed, &asked.url, &id))?;
    let status = response.status();
    if status.is_success() {
        return Ok(response.json().await?);
    }
    let problem = response.json::<ProblemBody>().await.map(|problem| problem.detail);
    let problem = problem.unwrap_or_else(|_| "the server says no more".into());
    let cure = match status {
        StatusCode::UNAUTHORIZED if problem.contains("clock") => {
            "; set this machine's clock, or the server's".to_owned()
        }
        StatusCode::UNAUTHORIZED => format!(
            "; the server has another secret than the one {source}: name the folder that it serves \
             with --data, or give its secret in LAPWING_SECRET"
        ),
        StatusCode::NOT_FOUND => "; is it a Lapwing that answers there? See --url".to_owned(),
        _ => String::new(),
    };
    Err(format!("{status}: {problem}{cure}").into())
}

/// Why there was no answer, and what to do about it.
fn unanswered(failed: &reqwest::Error, url: &Url, id: &str) -> String {
    if failed.is_connect() {
        return format!(
            "no server answers at {url}: start one with `lapwing serve`, or say where it is with \
             --url or LAPWING_URL"
        );
    }
    format!(
        "the server at {url} was lost before it answered; the text may be stored: send it again \
         with --id {id}"
    )
}

/// A client for this address. Without TLS no certificates are asked for, and a
/// server on this machine is never sought through a proxy.
fn client_for(url: &Url) -> reqwest::Result<reqwest::Client> {
    let trust = if url.scheme() == "https" { Trust::System } else { Trust::None };
    let builder = tls::client(trust).redirect(reqwest::redirect::Policy::none());
    let here = url.host_str().is_some_and(|host| {
        let host = host.trim_matches(['[', ']']);
        host == "localhost" || host.parse().is_ok_and(|ip: std::net::IpAddr| ip.is_loopback())
    });
    if here { builder.no_proxy().build() } else { builder.build() }
}

/// The messages' address, where only the server's was given.
fn with_path(mut url: Url) -> Url {
    if url.path() == "/" {
        url.set_path("/v1/messages");
    }
    url
}

fn made_id() -> Result<String, getrandom::Error> {
    let mut bytes = [0; ID_LENGTH];
    getrandom::fill(&mut bytes)?;
    Ok(format!("send-{}", digest::hex(&bytes)))
}
