use super::*;

/// A published vector: (secret, id, timestamp, body, signature).
type Vector = (&'static str, &'static str, i64, &'static str, &'static str);

// Source: `standard-webhooks/standard-webhooks`, the test suites of its
// JavaScript library (first) and of its Rust library (second).
const VECTORS: [Vector; 2] = [
    (
        "whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw",
        "msg_p5jXN8AQM9LWM0D4loKWxJek",
        1_614_265_330,
        r#"{"test": 2432232314}"#,
        "v1,g0hM9SsE+OTPJTGt/tmIKtSyZlE3uFJELVlNIOLJ1OE=",
    ),
    (
        "whsec_C2FVsBQIhrscChlQIMV+b5sSYspob7oD",
        "msg_27UH4WbU6Z5A5EzD8u03UvzRbpk",
        1_649_367_553,
        r#"{"email":"test@example.com","username":"test_user"}"#,
        "v1,tZ1I4/hDygAJgO5TYxiSd6Sd0kDW6hPenDe+bTa3Kkw=",
    ),
];

fn secret(word: &str) -> Secret {
    word.parse().ok().unwrap()
}

fn at(second: i64) -> Timestamp {
    Timestamp::from_second(second).unwrap()
}

/// What the first vector's receiver says to other headers, or to another hour.
fn verdict(timestamp: &str, signatures: &str, now: i64) -> Result<(), NotSigned> {
    let (word, id, _, body, _) = VECTORS[0];
    let envelope = Envelope { id: id.as_bytes(), timestamp, signatures, body: body.as_bytes() };
    verify(&[secret(word)], &envelope, at(now))
}

#[test]
fn published_vectors_hold_both_ways() {
    for (word, id, second, body, signature) in VECTORS {
        let secret = secret(word);
        assert_eq!(sign(&secret, id.as_bytes(), at(second), body.as_bytes()), signature);
        let timestamp = second.to_string();
        let envelope = Envelope {
            id: id.as_bytes(),
            timestamp: &timestamp,
            signatures: signature,
            body: body.as_bytes(),
        };
        assert_eq!(verify(&[secret], &envelope, at(second)), Ok(()));
    }
}

#[test]
fn any_changed_part_breaks_the_signature() {
    let (word, id, second, body, signature) = VECTORS[0];
    let timestamp = second.to_string();
    let whole = Envelope {
        id: id.as_bytes(),
        timestamp: &timestamp,
        signatures: signature,
        body: body.as_bytes(),
    };
    let later = (second + 1).to_string();
    let changed = [
        Envelope { id: b"msg_p5jXN8AQM9LWM0D4loKWxJel", ..whole },
        Envelope { timestamp: &later, ..whole },
        Envelope { body: br#"{"test":2432232314}"#, ..whole },
    ];
    for envelope in changed {
        let refused = verify(&[secret(word)], &envelope, at(second));
        assert_eq!(refused, Err(NotSigned::Signature));
    }
    let other = secret(VECTORS[1].0);
    assert_eq!(verify(&[other], &whole, at(second)), Err(NotSigned::Signature));
    assert_eq!(verify(&[], &whole, at(second)), Err(NotSigned::Signature));
}

#[test]
fn five_minutes_either_way_and_no_more() {
    let (_, _, second, _, signature) = VECTORS[0];
    let timestamp = second.to_string();
    for (now, expected) in [
        (second + 300, Ok(())),
        (second - 300, Ok(())),
        (second + 301, Err(NotSigned::Tolerance)),
        (second - 301, Err(NotSigned::Tolerance)),
    ] {
        assert_eq!(verdict(&timestamp, signature, now), expected, "{}", now - second);
    }
}

#[test]
fn timestamps_that_are_no_numbers_are_refused() {
    let (_, _, second, _, signature) = VECTORS[0];
    for timestamp in
        ["", "hello", "+1614265330", "-1614265330", "1614265330.0", "16142653300000000000"]
    {
        assert_eq!(verdict(timestamp, signature, second), Err(NotSigned::Timestamp), "{timestamp}");
    }
}

#[test]
fn one_signature_that_holds_is_enough() {
    let (_, _, second, _, signature) = VECTORS[0];
    let timestamp = second.to_string();
    let tag = &signature["v1,".len()..];
    let wrong = VECTORS[1].4;
    let holds = |signatures: &str| verdict(&timestamp, signatures, second) == Ok(());

    assert!(holds(&format!("{wrong} v2,{tag} {signature} v1,")));
    for none in [
        String::new(),
        "v1,".to_owned(),
        signature[..8].to_owned(),
        signature[..signature.len() - 1].to_owned(),
        tag.to_owned(),
        format!("v2,{tag}"),
        format!("v1a,{tag}"),
        format!("{signature}AAAA"),
        wrong.to_owned(),
    ] {
        assert!(!holds(&none), "{none}");
    }
}

#[test]
fn an_old_and_a_new_secret_may_live_side_by_side() {
    let (old, id, second, body, signature) = VECTORS[0];
    let timestamp = second.to_string();
    let envelope = Envelope {
        id: id.as_bytes(),
        timestamp: &timestamp,
        signatures: signature,
        body: body.as_bytes(),
    };
    let both = [Secret::generate().unwrap(), secret(old)];
    assert_eq!(verify(&both, &envelope, at(second)), Ok(()));
}

/// Another implementation takes what we sign, and we take what it signs. It
/// reads the machine's clock itself, so this test must too.
#[test]
fn the_reference_library_agrees() {
    let ours = Secret::generate().unwrap();
    let theirs = standardwebhooks::Webhook::new(&ours.reveal()).unwrap();
    let now = Timestamp::now();
    let body = r#"{"text":"200 test 3:12, så där"}"#;

    let signature = sign(&ours, b"gw-1", now, body.as_bytes());
    let mut headers = hyper::HeaderMap::new();
    headers.insert("webhook-id", "gw-1".parse().unwrap());
    headers.insert("webhook-timestamp", now.as_second().to_string().parse().unwrap());
    headers.insert("webhook-signature", signature.parse().unwrap());
    theirs.verify(body.as_bytes(), &headers).unwrap();

    let signed = theirs.sign("gw-2", now.as_second(), body.as_bytes()).unwrap();
    let timestamp = now.as_second().to_string();
    let envelope =
        Envelope { id: b"gw-2", timestamp: &timestamp, signatures: &signed, body: body.as_bytes() };
    assert_eq!(verify(&[ours], &envelope, now), Ok(()));
}
