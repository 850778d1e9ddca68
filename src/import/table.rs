//! A table as text (RFC 4180): columns by their names, in any order; separated by
//! semicolons where a spreadsheet wrote them so.

use csv::{Reader, ReaderBuilder, StringRecord};

use super::Fault;

/// The rows that could be read, and all that is wrong in the others.
#[derive(Debug, Clone, PartialEq)]
pub struct Read<T> {
    /// What was read.
    pub rows: Vec<Line<T>>,
    /// What was not.
    pub faults: Vec<Fault>,
}

/// What a line of a table says.
#[derive(Debug, Clone, PartialEq)]
pub struct Line<T> {
    /// Its number in the file, counted from 1.
    pub number: u64,
    /// What it says.
    pub says: T,
}

/// Which columns there are; the first so many must be there.
pub struct Columns {
    /// All of them.
    pub all: &'static [&'static str],
    /// How many must be there.
    pub needed: usize,
}

/// A line, cell by cell.
pub struct Cells<'r> {
    number: u64,
    header: &'r [String],
    cells: &'r StringRecord,
    faults: &'r mut Vec<Fault>,
}

/// Reads a table line by line; lines without anything in them are passed over.
pub fn read<T>(
    text: &str,
    columns: &Columns,
    line: impl Fn(&mut Cells<'_>) -> Option<T>,
) -> Read<T> {
    let mut read = Read { rows: Vec::new(), faults: Vec::new() };
    // Spreadsheets put a mark of the byte order before the text; and lines are counted
    // by what ends them all.
    let text = text.trim_start_matches('\u{feff}').replace("\r\n", "\n");
    let mut reader = reader(&text);
    let header: Vec<String> = match reader.headers() {
        Ok(header) => header.iter().map(str::to_owned).collect(),
        Err(broken) => {
            read.faults.push(Fault::of_line(1, broken.to_string()));
            return read;
        }
    };
    read.faults.extend(unfit(&header, columns));
    if !read.faults.is_empty() {
        return read;
    }
    for record in reader.records() {
        let cells = match record {
            Ok(cells) => cells,
            Err(broken) => {
                let line = broken.position().map_or(1, csv::Position::line);
                read.faults.push(Fault::of_line(line, broken.to_string()));
                continue;
            }
        };
        let number = cells.position().map_or(1, csv::Position::line);
        if cells.iter().all(str::is_empty) {
            continue;
        }
        if cells.len() != header.len() {
            let why =
                format!("it has {} cells, and there are {} columns", cells.len(), header.len());
            read.faults.push(Fault::of_line(number, why));
            continue;
        }
        let mut cells = Cells { number, header: &header, cells: &cells, faults: &mut read.faults };
        if let Some(says) = line(&mut cells) {
            read.rows.push(Line { number, says });
        }
    }
    read
}

fn reader(text: &str) -> Reader<&[u8]> {
    let first = text.lines().next().unwrap_or_default();
    let semicolons = first.contains(';') && !first.contains(',');
    ReaderBuilder::new()
        .delimiter(if semicolons { b';' } else { b',' })
        .trim(csv::Trim::All)
        .flexible(true)
        .from_reader(text.as_bytes())
}

/// What is wrong with the columns: unknown ones, missing ones, one twice.
fn unfit(header: &[String], columns: &Columns) -> Vec<Fault> {
    let all = || columns.all.join(", ");
    let unknown = header.iter().filter(|name| !columns.all.contains(&name.as_str()));
    let unknown = unknown.map(|name| {
        Fault::of_column(1, name, format!("there is no such column; there are {}", all()))
    });
    let stood = |at: usize, name: &String| header.iter().take(at).any(|before| before == name);
    let twice = header.iter().enumerate().filter(|(at, name)| stood(*at, name));
    let twice = twice.map(|(_, name)| Fault::of_column(1, name, "the column is there twice"));
    let needed = columns.all.iter().take(columns.needed);
    let missing = needed.filter(|name| !header.iter().any(|one| one == *name));
    let missing = missing.map(|name| Fault::of_column(1, name, "the column is missing"));
    unknown.chain(twice).chain(missing).collect()
}

impl<'r> Cells<'r> {
    /// What `reads` makes of a cell; none, and a fault, where it makes nothing of it.
    pub fn needs<T>(
        &mut self,
        column: &str,
        reads: impl FnOnce(&str) -> Result<T, String>,
    ) -> Option<T> {
        match self.cell(column) {
            "" => self.fault(column, "nothing is said".to_owned()),
            cell => match reads(cell) {
                Ok(read) => Some(read),
                Err(why) => self.fault(column, why),
            },
        }
    }

    /// The same of a cell that may be empty, or whose column may not be there; none,
    /// and a fault, where something is said and nothing can be made of it.
    pub fn may<T>(
        &mut self,
        column: &str,
        reads: impl FnOnce(&str) -> Result<T, String>,
    ) -> Option<Option<T>> {
        match self.cell(column) {
            "" => Some(None),
            _ => self.needs(column, reads).map(Some),
        }
    }

    fn cell(&self, column: &str) -> &'r str {
        let at = self.header.iter().position(|name| name == column);
        at.and_then(|at| self.cells.get(at)).unwrap_or_default()
    }

    fn fault<T>(&mut self, column: &str, why: String) -> Option<T> {
        self.faults.push(Fault::of_column(self.number, column, why));
        None
    }
}
