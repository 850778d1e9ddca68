//! What lists: rules, letters, versions, completions; in words and as JSON.

use super::program::{Running, lapwing, printed, refused};
use super::{dusk, json, text};

#[test]
fn rules_are_listed_with_the_numbers_in_force() {
    let dir = tempfile::tempdir().unwrap();
    let usual = printed(lapwing(dir.path(), &["rules"]));
    assert!(usual.lines().any(|line| line.starts_with("retest-after = ")), "{usual}");
    assert!(usual.contains("    source: "), "{usual}");
    let data = dir.path().join("lapwing-data");
    std::fs::create_dir(&data).unwrap();
    std::fs::write(data.join("rules.toml"), "ramp-week = 5\n").unwrap();
    let own = printed(lapwing(dir.path(), &["rules", "ramp-week"]));
    assert!(own.starts_with("ramp-week = 5 percent (") && own.contains(", usually "), "{own}");
    let all = json(dir.path(), &["rules", "--json"]);
    let one = all.as_array().unwrap().iter().find(|one| one["rule"] == "ramp-week").unwrap();
    assert_eq!(one["value"], 5.0);
    let (least, most) = (one["least"].as_f64().unwrap(), one["most"].as_f64().unwrap());
    assert!(least <= 5.0 && 5.0 <= most && !one["source"].as_str().unwrap().is_empty());
    let none = refused(lapwing(dir.path(), &["rules", "no-such-rule"]));
    assert!(none.contains("no rule `no-such-rule`"), "{none}");
}

#[test]
fn a_simulation_heeds_the_numbers_in_force() {
    let dir = tempfile::tempdir().unwrap();
    let arguments = ["simulate", "--swimmers", "2", "--weeks", "10"];
    let usual = printed(lapwing(dir.path(), &arguments));
    let data = dir.path().join("lapwing-data");
    std::fs::create_dir(&data).unwrap();
    std::fs::write(data.join("rules.toml"), "retest-after = 28\n").unwrap();
    assert_ne!(printed(lapwing(dir.path(), &arguments)), usual);
    std::fs::write(data.join("rules.toml"), "ramp-weak = 5\n").unwrap();
    let said = refused(lapwing(dir.path(), &arguments));
    assert!(said.contains("line 1") && said.contains("did you mean `ramp-week`?"), "{said}");
}

#[test]
fn a_letter_is_listed_and_shown() {
    let dir = tempfile::tempdir().unwrap();
    dusk(dir.path());
    text(dir.path(), "+15550101", "shoulder hurts 7");
    let _server = Running::serve(dir.path());
    let listed = json(dir.path(), &["outbox", "--json"]);
    let letters = listed.as_array().unwrap();
    assert!(letters.iter().all(|one| one["to"] == "…100"), "{listed}");
    let numbers = letters.iter().map(|one| one["number"].as_str().unwrap());
    let show = |number: &str| printed(lapwing(dir.path(), &["outbox", "show", number]));
    let number = numbers.into_iter().find(|one| show(one).contains("shoulder")).unwrap();
    let shown = show(number);
    assert!(shown.contains("to +15550100\n") && shown.contains("heron"), "{shown}");
    assert!(shown.contains("waiting") && shown.contains("shoulder"), "{shown}");
    let whole = json(dir.path(), &["outbox", "show", number, "--json"]);
    assert_eq!(whole["to"], "+15550100");
    assert!(whole["text"].as_str().unwrap().contains("shoulder"));
    let none = refused(lapwing(dir.path(), &["outbox", "show", "9999-0"]));
    assert!(none.contains("no letter 9999-0"), "{none}");
}

#[test]
fn versions_and_completions() {
    let dir = tempfile::tempdir().unwrap();
    let version = env!("CARGO_PKG_VERSION");
    let told = printed(lapwing(dir.path(), &["version"]));
    assert!(told.starts_with(&format!("lapwing {version}\njournal format ")), "{told}");
    assert_eq!(json(dir.path(), &["version", "--json"])["version"], version);
    for shell in ["bash", "zsh", "fish"] {
        let script = printed(lapwing(dir.path(), &["completions", shell]));
        assert!(script.contains("check-config") && script.contains("lapwing"), "{shell}");
    }
    // The shell itself takes it.
    let script = printed(lapwing(dir.path(), &["completions", "bash"]));
    let file = dir.path().join("completions.bash");
    std::fs::write(&file, script).unwrap();
    let ask = format!(
        "source '{}' && COMP_WORDS=(lapwing squ) COMP_CWORD=1 && _lapwing lapwing squ lapwing && \
         echo \"${{COMPREPLY[*]}}\"",
        file.display()
    );
    let output = std::process::Command::new("bash").args(["-c", &ask]).output().unwrap();
    assert_eq!(String::from_utf8(output.stdout).unwrap().trim(), "squad");
}

#[test]
fn quiet_says_warnings_alone_and_loud_says_more() {
    let dir = tempfile::tempdir().unwrap();
    let said = |arguments: &[&str]| {
        let output = lapwing(dir.path(), arguments).output().unwrap();
        assert!(output.status.success());
        String::from_utf8(output.stderr).unwrap()
    };
    assert!(said(&["rules"]).contains("numbers of your own"));
    assert_eq!(said(&["rules", "-q"]), "");
    assert_eq!(said(&["-q", "rules"]), "");
    dusk(dir.path());
    // The log of the store, which says nothing at its usual level.
    let logged = |more: &[&str]| said(&[&["squad", "list"], more].concat()).contains("DEBUG");
    assert!(logged(&["-vv"]) && !logged(&[]));
    let both = lapwing(dir.path(), &["rules", "-q", "-v"]).output().unwrap();
    assert_eq!(both.status.code(), Some(2));
}
