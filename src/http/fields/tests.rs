use super::*;

const WHOLE: &str = r#"{ "id": "gw-1", "from": "+15550101", "text": "200 test 3:12", "room": null,
    "sent_at": "2026-03-02T19:05:00Z", "later": [1e999, {}] }"#;

fn read(body: &str) -> Result<Fields, (u16, String)> {
    Fields::of_json(body.as_bytes(), b"gw-1")
        .map_err(|problem| (problem.status().as_u16(), format!("{problem:?}")))
}

/// The status that a body with this change is answered with.
fn status_of(from: &str, to: &str) -> u16 {
    assert!(WHOLE.contains(from), "{from}");
    read(&WHOLE.replacen(from, to, 1)).err().map_or(200, |(status, _)| status)
}

#[test]
fn a_whole_message_is_read_and_unknown_fields_passed_over() {
    let expected = Fields {
        id: "gw-1".to_owned(),
        from: "+15550101".to_owned(),
        text: "200 test 3:12".to_owned(),
        room: None,
        sent_at: Some("2026-03-02T19:05:00Z".parse().unwrap()),
    };
    assert_eq!(read(WHOLE), Ok(expected));
    let least = r#"{"id":"gw-1","from":"a","text":""}"#;
    assert_eq!(read(least).map(|fields| fields.text), Ok(String::new()));
}

#[test]
fn what_is_no_json_is_found_before_what_is_no_field() {
    for body in ["", "hello", "{\"id\": 5, ", "{\"id\":5,}", "{} {}", "\u{FEFF}{}"] {
        assert_eq!(read(body).map_err(|(status, _)| status), Err(400), "{body}");
    }
    let broken = Fields::of_json(b"{\"id\":\"\xFF\"}", b"gw-1");
    assert_eq!(broken.map_err(|problem| problem.status().as_u16()), Err(400));
}

#[test]
fn an_id_unlike_the_header_is_a_bad_request_before_any_form() {
    assert_eq!(status_of("gw-1", "gw-2"), 400);
    assert_eq!(status_of("gw-1", "gw.2"), 400);
    assert_eq!(status_of("\"gw-1\", \"from\": \"+15550101\"", "\"gw-2\", \"from\": 5"), 400);
}

#[test]
fn missing_wrong_and_ill_formed_fields_are_unprocessable() {
    for (from, to) in [
        ("\"id\": \"gw-1\",", ""),
        ("\"gw-1\"", "5"),
        ("\"gw-1\"", "null"),
        ("\"from\": \"+15550101\",", ""),
        ("\"+15550101\"", "\"\""),
        ("\"+15550101\"", "\"a b\""),
        ("\"+15550101\"", "\"a\\u200b\""),
        ("\"+15550101\"", "15550101"),
        ("\"200 test 3:12\"", "null"),
        ("\"200 test 3:12\"", "[]"),
        ("\"200 test 3:12\"", "\"\\ud83c\""),
        ("\"room\": null", "\"room\": 5"),
        ("\"room\": null", "\"room\": \"\""),
        ("\"room\": null", "\"from\": \"b\""),
        ("\"2026-03-02T19:05:00Z\"", "1772478300"),
        ("\"2026-03-02T19:05:00Z\"", "\"yesterday\""),
    ] {
        assert_eq!(status_of(from, to), 422, "{to}");
    }
    for body in ["[]", "null", "5", r#"["gw-1","+15550101","hi",null,null]"#] {
        assert_eq!(read(body).map_err(|(status, _)| status), Err(422), "{body}");
    }
}

#[test]
fn lengths_count_characters_and_are_bounded() {
    for (form, letter, longest) in [
        (message_id as fn(&str) -> Result<&str, NotAField>, "x", 256),
        (address, "é", 128),
        (room_id, "é", 256),
    ] {
        assert!(form(&letter.repeat(longest)).is_ok());
        assert!(form(&letter.repeat(longest + 1)).is_err());
        assert!(form("").is_err());
    }
    for id in ["a.b", "a b", "é", "a\n", "\u{7f}"] {
        assert_eq!(message_id(id), Err(NotAField::Id));
    }
    assert_eq!(address("@heron:example.org"), Ok("@heron:example.org"));
}

// Source: RFC 3339 sections 5.6 and 5.8.
#[test]
fn instants_are_those_of_rfc_3339() {
    let same = |a: &str, b: &str| assert_eq!(instant(a), Ok(b.parse().unwrap()), "{a}");
    same("1985-04-12T23:20:50.52Z", "1985-04-12T23:20:50.52Z");
    same("1996-12-19T16:39:57-08:00", "1996-12-20T00:39:57Z");
    same("1937-01-01T12:00:27.87+00:20", "1937-01-01T11:40:27.87Z");
    same("1985-04-12t23:20:50z", "1985-04-12T23:20:50Z");
    same("1985-04-12T23:20:50-00:00", "1985-04-12T23:20:50Z");
    for word in [
        "",
        "1985-04-12",
        "1985-04-12T23:20Z",
        "1985-04-12T23:20:50",
        "1985-04-12T23:20:50+08",
        "1985-04-12T23:20:50.Z",
        "1985-02-30T23:20:50Z",
        "1985-04-12T24:20:50Z",
        "1985-04-12T23:20:50Z[UTC]",
        "1985-04-12T23:20:50+08:00[Asia/Manila]",
        "19850412T232050Z",
        "é985-04-12T23:20:50Z",
        "9999-12-31T23:59:59-12:00",
    ] {
        assert_eq!(instant(word), Err(NotAField::SentAt), "{word}");
    }
}
