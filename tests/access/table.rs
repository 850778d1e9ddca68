//! The table: a text a line, and what each role is answered.

use std::fs;

use crate::squads::ROLES;

const FILE: &str = "tests/access/table.txt";

/// One request and its answers, role by role.
pub struct Row {
    pub text: String,
    pub answers: Vec<String>,
}

pub fn rows() -> Vec<Row> {
    let file = fs::read_to_string(FILE).unwrap();
    let rows: Vec<Row> = file
        .lines()
        .filter(|line| !line.starts_with('#') && !line.trim().is_empty())
        .map(|line| {
            let (text, answers) = line.split_once('|').unwrap();
            let answers = answers.split_whitespace().map(str::to_owned).collect();
            Row { text: text.trim().to_owned(), answers }
        })
        .collect();
    assert!(!rows.is_empty());
    rows
}

/// Writes the answers found, for review.
pub fn write(rows: &[Row]) {
    let file = fs::read_to_string(FILE).unwrap();
    let mut left = rows.iter();
    let mut out = String::new();
    for line in file.lines() {
        if line.starts_with('#') || line.trim().is_empty() {
            out.push_str(line);
        } else {
            let row = left.next().unwrap();
            out.push_str(&format!("{:<42}|", row.text));
            for (role, answer) in ROLES.iter().zip(&row.answers) {
                out.push_str(&format!(" {answer:<width$}", width = role.len()));
            }
        }
        out = out.trim_end_matches(' ').to_owned();
        out.push('\n');
    }
    fs::write(FILE, out).unwrap();
}
