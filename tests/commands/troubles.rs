//! What is said when something does not work: the cause, and the cure.

use std::io::{Read, Write};
use std::net::{TcpListener, TcpStream};

use tokio::net::TcpSocket;

use super::program::{Running, lapwing, printed, refused};
use super::{dusk, text};

#[test]
fn a_port_in_use() {
    let dir = tempfile::tempdir().unwrap();
    let taken = TcpListener::bind("127.0.0.1:0").unwrap();
    let address = taken.local_addr().unwrap().to_string();
    let said = refused(lapwing(dir.path(), &["serve", "--listen", &address]));
    assert!(said.contains(&format!("another program listens on {address}")), "{said}");
    assert!(said.contains("--listen ADDR:PORT"), "{said}");
}

#[test]
fn a_server_that_is_down() {
    let dir = tempfile::tempdir().unwrap();
    drop(Running::serve(dir.path()));
    // A port that nobody else gets, and on which nobody listens.
    let taken = TcpSocket::new_v4().unwrap();
    taken.bind(([127, 0, 0, 1], 0).into()).unwrap();
    let url = format!("http://{}", taken.local_addr().unwrap());
    let said =
        refused(lapwing(dir.path(), &["send", "--from", "+15550101", "--url", &url, "help"]));
    assert!(said.contains("no server answers at") && said.contains("lapwing serve"), "{said}");
    assert!(said.contains("--url"), "{said}");
}

#[test]
fn a_wrong_secret() {
    let dir = tempfile::tempdir().unwrap();
    let server = Running::serve(dir.path());
    let send = |data: &str| {
        let arguments =
            ["send", "--from", "+15550101", "--url", &server.url, "--data", data, "help"];
        lapwing(dir.path(), &arguments)
    };
    printed(send("lapwing-data"));
    let other = tempfile::tempdir().unwrap();
    drop(Running::serve(other.path()));
    let theirs = other.path().join("lapwing-data");
    let said = refused(send(theirs.to_str().unwrap()));
    assert!(said.contains("another secret than the one in") && said.contains("--data"), "{said}");
    assert!(said.contains("LAPWING_SECRET") && !said.contains("whsec_"), "{said}");
}

#[test]
fn a_national_number() {
    let dir = tempfile::tempdir().unwrap();
    let said = |coach: &str| {
        let output = lapwing(dir.path(), &["squad", "add", "Dusk", "--coach", coach]).output();
        let output = output.unwrap();
        assert_eq!(output.status.code(), Some(2), "{coach}");
        String::from_utf8(output.stderr).unwrap()
    };
    let national = said("02079460000");
    assert!(national.contains("national number") && national.contains("+44"), "{national}");
    assert!(said("+44 20 7946 0000").contains("`+442079460000`"));
    assert!(said("00442079460000").contains("`+442079460000`"));
    assert!(said("%2B442079460000").contains("`+442079460000`"));
}

/// Whoever is asked in by text could not answer from it either.
#[test]
fn a_national_number_in_a_text() {
    let dir = tempfile::tempdir().unwrap();
    dusk(dir.path());
    for wish in [
        "invite 07700900123 assistant kestrel",
        "second contact 07700 900123",
        "welfare officer 00447700900123",
    ] {
        let said = text(dir.path(), "+15550100", wish);
        assert!(said.contains("begins with 0") && said.contains("+15550123"), "{wish}: {said}");
    }
    assert_eq!(printed(lapwing(dir.path(), &["squad", "staff"])), "coach +15550100\n");
    assert!(text(dir.path(), "+15550100", "second contact +15550130").contains("Stored"));
}

#[test]
fn a_plus_that_is_not_encoded() {
    let dir = tempfile::tempdir().unwrap();
    let server = Running::serve(dir.path());
    let token = std::fs::read_to_string(dir.path().join("lapwing-data/plain-token")).unwrap();
    let ask = |from: &str| {
        let mut stream = TcpStream::connect(("127.0.0.1", server.port())).unwrap();
        let path = format!("/v1/plain/{}?from={from}&text=help", token.trim());
        write!(stream, "GET {path} HTTP/1.1\r\nhost: x\r\nconnection: close\r\n\r\n").unwrap();
        let mut answer = String::new();
        stream.read_to_string(&mut answer).unwrap();
        answer
    };
    let said = ask("+15550101");
    assert!(said.starts_with("HTTP/1.1 422 "), "{said}");
    assert!(said.contains("begins with a space") && said.contains("%2B"), "{said}");
    assert!(ask("%2B15550101").starts_with("HTTP/1.1 200 "));
}

#[test]
fn a_folder_in_use() {
    let dir = tempfile::tempdir().unwrap();
    let _server = Running::serve(dir.path());
    let said = refused(lapwing(dir.path(), &["serve", "--listen", "127.0.0.1:0"]));
    assert!(said.contains("is in use by process") && said.contains("stop that first"), "{said}");
}
