//! The lines of a word list.

/// Each spelling of a list with its class and its meaning.
pub fn rows(list: &'static str) -> Vec<(&'static str, &'static str, &'static str)> {
    let mut class = "";
    let mut rows = Vec::new();
    for line in list.lines().map(str::trim).filter(|line| !line.starts_with('#')) {
        if let Some(name) = line.strip_prefix('[').and_then(|line| line.strip_suffix(']')) {
            class = name;
        } else if let Some((value, spellings)) = line.split_once('=') {
            let each = spellings.split(',').map(str::trim).filter(|one| !one.is_empty());
            rows.extend(each.map(|spelling| (class, value.trim(), spelling)));
        }
    }
    rows
}
