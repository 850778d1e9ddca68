//! A database on what could be another machine: whom we believe to be it, and how it
//! knows us.

use super::*;

use std::fs;
use std::net::TcpListener;

use lapwing::hidden::Hidden;
use lapwing::journal::DatabaseUrl;

use crate::home::open;
use crate::server::Server;

/// What the certificates are: two who sign, one who is `localhost`.
const KINDS: &str = "
[req]
distinguished_name = name
[name]
[signs]
basicConstraints = critical, CA:TRUE
[serves]
basicConstraints = critical, CA:FALSE
subjectAltName = DNS:localhost
";

/// A key and its certificate, signed by another's or by itself.
fn certify(server: &Server, name: &str, kind: &str, by: &[&str]) {
    let file = |end: &str| server.folder().join(format!("{name}.{end}")).display().to_string();
    let (key, certificate) = (file("key"), file("pem"));
    let ask = [
        "req",
        "-x509",
        "-newkey",
        "ec",
        "-pkeyopt",
        "ec_paramgen_curve:P-256",
        "-nodes",
        "-days",
        "2",
        "-subj",
        "/CN=heron",
        "-config",
        "kinds",
        "-extensions",
        kind,
        "-keyout",
        &key,
        "-out",
    ];
    let by = by.iter().copied();
    let arguments: Vec<&str> =
        ["req"].into_iter().chain(by).chain(ask.into_iter().skip(1)).collect();
    server.run("/usr/bin/openssl", &arguments, Path::new(&certificate));
}

#[test]
#[ignore = "wants PostgreSQL's server"]
fn a_database_is_believed_by_its_certificate_and_knows_us_by_the_password() {
    let port = TcpListener::bind("127.0.0.1:0").unwrap().local_addr().unwrap().port();
    let server = Server::begin_on(port, |server| {
        fs::write(server.folder().join("kinds"), KINDS).unwrap();
        certify(server, "ca", "signs", &[]);
        certify(server, "other", "signs", &[]);
        certify(server, "own", "serves", &["-CA", "ca.pem", "-CAkey", "ca.key"]);
        let rules = server.folder().join("data/pg_hba.conf");
        let others = fs::read_to_string(&rules).unwrap();
        fs::write(&rules, format!("hostssl all teal all scram-sha-256\n{others}")).unwrap();
        "listen_addresses = 'localhost'\nssl = on\nssl_cert_file = '../own.pem'\n\
         ssl_key_file = '../own.key'"
            .to_owned()
    });
    server.sql("postgres", "create role teal login superuser password 'plover-9'");
    server.sql("postgres", "create database squads");
    let url = |who: &str, host: &str, roots: &str| -> DatabaseUrl {
        let roots = server.folder().join(roots).display().to_string();
        let url = format!("postgres://{who}@{host}:{port}/squads?sslmode=verify-full");
        format!("{url}&sslrootcert={roots}").parse().unwrap()
    };
    let password =
        |word: &str| url("teal", "localhost", "ca.pem").with_password(Some(&Hidden::new(word)));
    open(&url("heron", "localhost", "ca.pem")).unwrap().close();
    open(&password("plover-9")).unwrap().close();
    for (refused, why) in [
        (url("heron", "localhost", "other.pem"), "certificate"),
        (url("heron", "127.0.0.1", "ca.pem"), "certificate"),
        (url("heron", "localhost", "missing.pem"), "missing.pem"),
        (password("wren-7"), "password authentication failed"),
        (url("teal", "localhost", "ca.pem"), "password"),
    ] {
        let said = open(&refused).err().unwrap().to_string();
        assert!(said.contains(why) && !said.contains("wren-7"), "{said}");
    }
}
