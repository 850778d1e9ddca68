//! Gateways of the settings file: their own field names, tokens, limits and
//! secrets, with the program as it is installed.

use std::fs;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::{TcpListener, TcpStream};
use std::process::Stdio;
use std::sync::mpsc;
use std::time::Duration;

use super::program::{Running, lapwing, printed, refused, with_input};

const SETTINGS: &str = r#"
[[gateway]]
name = "forms"
token_env = "FORMS_TOKEN"
limit = 3
fields = { from = "From", text = "Body", id = "MessageSid" }

[gateway.send]
url = "http://127.0.0.1:PORT/send"
allow_private = true
authorization_env = "FORMS_KEY"
fields = { dest = "{to}", body = "{text}", dcs = "{coding}" }
secrets = { password = "FORMS_PASSWORD" }
"#;

const SECRETS: [(&str, &str); 3] = [
    ("FORMS_TOKEN", "tok-8f3b1"),
    ("FORMS_KEY", "Bearer key-77d02"),
    ("FORMS_PASSWORD", "pass-c4e19"),
];

/// The first line and the body of what was sent, and the status of its answer.
fn ask(url: &str, request: &str) -> String {
    let mut stream = TcpStream::connect(url.trim_start_matches("http://")).unwrap();
    stream.set_read_timeout(Some(Duration::from_secs(20))).unwrap();
    stream.write_all(request.as_bytes()).unwrap();
    let mut said = String::new();
    stream.read_to_string(&mut said).unwrap();
    said
}

fn form(path: &str, body: &str) -> String {
    format!(
        "POST {path} HTTP/1.1\r\nhost: a\r\nconnection: close\r\n\
         content-type: application/x-www-form-urlencoded\r\ncontent-length: {}\r\n\r\n{body}",
        body.len()
    )
}

/// The far end's address for sending; hands over each request it gets.
fn far_end() -> (u16, mpsc::Receiver<String>) {
    let listener = TcpListener::bind("127.0.0.1:0").unwrap();
    let port = listener.local_addr().unwrap().port();
    let (tell, told) = mpsc::channel();
    std::thread::spawn(move || {
        for stream in listener.incoming() {
            let mut stream = BufReader::new(stream.unwrap());
            let (mut head, mut length) = (String::new(), 0);
            loop {
                let mut line = String::new();
                stream.read_line(&mut line).unwrap();
                let small = line.to_ascii_lowercase();
                if let Some(number) = small.strip_prefix("content-length:") {
                    length = number.trim().parse().unwrap();
                }
                head.push_str(&line);
                if line.trim().is_empty() {
                    break;
                }
            }
            let mut body = vec![0; length];
            stream.read_exact(&mut body).unwrap();
            let answer = b"HTTP/1.1 202 Accepted\r\ncontent-length: 0\r\nconnection: close\r\n\r\n";
            stream.get_mut().write_all(answer).unwrap();
            tell.send(head + &String::from_utf8(body).unwrap()).unwrap();
        }
    });
    (port, told)
}

/// In by its own field names, deduplicated by its own id, limited by itself; out
/// in its own form; and however much is logged, no secret, text or number is.
#[test]
fn a_gateway_speaks_in_its_own_words_and_its_secrets_stay_hidden() {
    let dir = tempfile::tempdir().unwrap();
    let (port, told) = far_end();
    let file = dir.path().join("l.toml");
    fs::write(&file, SETTINGS.replace("PORT", &port.to_string())).unwrap();
    let added =
        printed(lapwing(dir.path(), &["squad", "add", "Dusk", "--coach", "+15550100", "--ready"]));
    let code = added.lines().last().unwrap().strip_prefix("join ").unwrap().to_owned();
    // Else the week's summary goes out beside the alarm, from Sunday evening to Monday evening.
    let coach = lapwing(dir.path(), &["chat", "--as", "+15550100"]);
    assert!(with_input(coach, "digest off\n").status.success());
    let mut serve =
        lapwing(dir.path(), &["serve", "--config", "l.toml", "--listen", "127.0.0.1:0"]);
    let log = fs::File::create(dir.path().join("log")).unwrap();
    serve.envs(SECRETS).env("RUST_LOG", "trace");
    // Half of the log goes by the pipe that tells when it listens.
    let server = Running::start_logging(serve, log);
    let path = "/v1/plain/tok-8f3b1";
    let say = |body: &str| ask(&server.url, &form(path, body));

    let joined = say(&format!("From=%2B15550101&Body=join+{code}+heron&MessageSid=S1"));
    assert!(joined.starts_with("HTTP/1.1 200"), "{joined}");
    let body = "From=%2B15550101&Body=200+test+3%3A12+felt+dizzy+%E2%86%92&MessageSid=S2";
    let alarm = say(body);
    assert!(alarm.starts_with("HTTP/1.1 200"), "{alarm}");
    let again = say(body);
    assert_eq!(again.split_once("\r\n\r\n").unwrap().1, alarm.split_once("\r\n\r\n").unwrap().1);
    let fourth = say("From=%2B15550102&Body=help");
    assert!(fourth.starts_with("HTTP/1.1 429") && fourth.contains("retry-after: "), "{fourth}");
    let ours = ask(&server.url, &form("/v1/plain/tok-8f3b", "from=%2B15550101&text=help"));
    assert!(ours.starts_with("HTTP/1.1 404"), "{ours}");

    // That heron has joined, and the alarm, which waits for no other letter.
    let two = [(); 2].map(|()| told.recv_timeout(Duration::from_secs(20)).unwrap());
    let sent = two.iter().find(|sent| sent.contains("ALERT")).unwrap();
    assert!(sent.starts_with("POST /send HTTP/1.1"), "{sent}");
    assert!(sent.to_ascii_lowercase().contains("authorization: bearer key-77d02"), "{sent}");
    let body = sent.split_once("\r\n\r\n").unwrap().1;
    assert!(
        body.contains("dest=%2B15550100&") && body.contains("&dcs=0") || body.contains("dcs=0&")
    );
    assert!(body.contains("password=pass-c4e19"), "{body}");
    assert!(told.recv_timeout(Duration::from_secs(1)).is_err(), "the repeat alarmed again");

    let said = server.stopped();
    let log = fs::read_to_string(dir.path().join("log")).unwrap() + &said;
    assert!(log.contains("/v1/plain/{token}"), "nothing was logged: {log}");
    for hidden in ["tok-8f3b1", "key-77d02", "pass-c4e19", "15550101", "15550100", "dizzy", "heron"]
    {
        assert!(!log.contains(hidden), "{hidden} is in the log");
    }
}

/// All faults of a gateway at once, secrets that are missing too; the other
/// commands need no secrets.
#[test]
fn a_gateways_faults_are_told_at_once() {
    let dir = tempfile::tempdir().unwrap();
    let check = |settings: &str, secrets: &[(&str, &str)]| {
        fs::write(dir.path().join("l.toml"), settings).unwrap();
        let mut command = lapwing(dir.path(), &["check-config", "--config", "l.toml"]);
        command.envs(secrets.iter().copied());
        command
    };
    let sound = SETTINGS.replace("PORT", "8080");
    let said = printed(check(&sound, &SECRETS));
    assert!(said.contains("gateway forms: takes and sends texts"), "{said}");
    let said = refused(check(&sound, &SECRETS[..1]));
    assert!(said.contains("FORMS_KEY is not set") && said.contains("FORMS_PASSWORD is not set"));
    assert!(said.contains("line 11") && said.contains("line 13"), "{said}");
    let mut listed =
        lapwing(dir.path(), &["squad", "add", "A", "--coach", "a", "--config", "l.toml"]);
    assert!(listed.stdout(Stdio::null()).status().unwrap().success());
    let spoilt = sound
        .replace("\"forms\"", "\"Forms 1\"")
        .replace("Body", "Body\", txet = \"T")
        .replace("http:", "gopher:")
        .replace("{text}", "{words}")
        .replace("FORMS_PASSWORD", "pass-c4e19");
    let said = refused(check(&spoilt, &SECRETS));
    for words in [
        "a-z, 0-9",
        "is it `text`?",
        "http or https",
        "no {words}",
        "holds {text}",
        "not the secret",
    ] {
        assert!(said.contains(words), "{words}: {said}");
    }
    assert!(!said.contains("c4e19"), "{said}");
}
