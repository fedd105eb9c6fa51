//! A table as read: heads bound to columns, cells to values, every mistake.

use std::marker::PhantomData;
use std::ops::Range;
use std::path::Path;

use units::Quantity;

use super::column::{Column, Columns, Holds, Value, wanted};
use super::head::{BareNumbers, Head, heads, known};
use super::names::{find, named, nearest, split_head};
use super::scan::{Record, rows};
use super::{Opened, Table, TableMistake as Mistake};
use crate::report::Problems;
use crate::source::{Place, Source, Sources};
use crate::{Problem, Report, ScenarioError as E};

/// What parts the cells of a row.
const SEPARATORS: [char; 3] = [',', ';', '\t'];
/// Most columns and rows. Chosen: more than a sheet shows, more than an archer
/// shoots in years.
const MOST_COLUMNS: usize = 256;
const MOST_ROWS: usize = 100_000;
/// Mark of UTF-8 that some programs put at the start of a file.
const BYTE_ORDER_MARK: char = '\u{feff}';

/// A table that is being read.
#[derive(Debug)]
pub(super) struct Sheet {
    pub(super) columns: &'static [Column],
    pub(super) separator: char,
    pub(super) heads: Vec<Head>,
    /// The row of the heads.
    pub(super) place: Place,
    pub(super) sources: Sources,
    pub(super) problems: Problems,
    /// Rows without a reading: line and why.
    left_out: Vec<String>,
}

/// One row: by the order of the kind's columns, each with the place of its cell.
#[derive(Debug, Clone)]
pub(super) struct Row<C> {
    pub(super) line: usize,
    pub(super) place: Place,
    pub(super) cells: Vec<(Value, Place)>,
    /// Which of them are not to be asked about.
    pub(super) sure: Vec<bool>,
    /// Cells under heads of the user's own: which head, text, place.
    pub(super) own: Vec<(usize, String, Place)>,
    of: PhantomData<C>,
}

/// Reads a table of at least so many rows; `make` puts them together.
pub(super) fn read<C: Columns, T>(
    path: &Path,
    bytes: Opened,
    least: usize,
    make: impl FnOnce(&mut Sheet, &[Row<C>]) -> Vec<T>,
) -> Result<Table<T>, Report> {
    let mut sheet = Sheet::new(C::ALL);
    let Some(text) = sheet.open(path, bytes) else { return Err(sheet.report()) };
    let rows: Vec<Row<C>> = sheet.rows(&text, least);
    let found = make(&mut sheet, &rows);
    if sheet.problems.is_empty() {
        Ok(Table { found, passed_over: sheet.own(), left_out: sheet.left_out, text })
    } else {
        Err(sheet.report())
    }
}

impl Sheet {
    pub(super) fn new(columns: &'static [Column]) -> Self {
        let (place, separator) = (Place { file: 0, start: 0, end: 0 }, ',');
        let (heads, sources, problems) = (Vec::new(), Sources::default(), Problems::default());
        Self { columns, separator, heads, place, sources, problems, left_out: Vec::new() }
    }

    /// The text of a file, if it is text.
    pub(super) fn open(&mut self, path: &Path, bytes: Opened) -> Option<String> {
        let bytes = bytes.map_err(|error| {
            let (path, reason) = (path.display().to_string(), error.kind());
            let error = E::Unreadable { path, reason };
            self.problems.push(Problem { error, place: None, also: None, again: Vec::new() });
        });
        let bytes = bytes.ok()?;
        let sound = std::str::from_utf8(&bytes).map_or_else(|e| e.valid_up_to(), str::len);
        let mut text = String::from_utf8_lossy(&bytes[..sound]).into_owned();
        if text.starts_with(BYTE_ORDER_MARK) {
            text.drain(..BYTE_ORDER_MARK.len_utf8());
        }
        if !text.contains('\n') {
            // Line ends of old.
            text = text.replace('\r', "\n");
        }
        self.sources.add(Source { path: path.to_owned(), text: text.clone(), named_at: None });
        if sound < bytes.len() {
            self.tell(self.at(text.len()..text.len()), None, Mistake::NotUtf8);
            return None;
        }
        Some(text)
    }

    /// The rows below the heads.
    pub(super) fn rows<C>(&mut self, text: &str, least: usize) -> Vec<Row<C>> {
        let columns = self.columns;
        // What parts most heads that are columns; at a tie, most heads.
        let parted = SEPARATORS.iter().rev().map(|mark| {
            let rows = rows(text, *mark);
            (*mark, heads(columns, &rows), rows)
        });
        let best = parted.max_by_key(|(_, at, rows)| rows.get(*at).map(|row| known(columns, row)));
        let (separator, at, rows) = best.unwrap_or_default();
        self.separator = separator;
        self.left_out =
            rows[..at].iter().map(|row| format!("line {} (a title)", row.line)).collect();
        let Some((head, rows)) = rows[at..].split_first() else {
            self.tell(self.at(0..0), None, Mistake::NoHead(self.names()));
            return Vec::new();
        };
        self.place = self.at(head.span.clone());
        for (what, count, most) in
            [("columns", head.cells.len(), MOST_COLUMNS), ("rows", rows.len(), MOST_ROWS)]
        {
            if count > most {
                self.tell(self.place, None, Mistake::TooMany(what, count, most));
                return Vec::new();
            }
        }
        self.bind(head);
        let end = rows.last().unwrap_or(head).span.end;
        let below = rows.first().is_some_and(|first| self.takes_units(first));
        let mut read = Vec::new();
        for row in &rows[usize::from(below)..] {
            match self.idle(row) {
                Some(why) => self.left_out.push(format!("line {} ({why})", row.line)),
                None => read.push(self.row(row)),
            }
        }
        if read.len() < least && self.problems.is_empty() {
            self.tell(self.at(end..end), None, Mistake::Few(read.len(), least));
        }
        read
    }

    /// Everything that is wrong, in the order of the file.
    pub(super) fn report(self) -> Report {
        self.problems.report(self.sources)
    }

    fn at(&self, span: Range<usize>) -> Place {
        self.sources.place(0, span)
    }

    /// A head with its letter, as spreadsheets show it.
    pub(super) fn key(&self, at: usize) -> String {
        let letter = |at: usize| char::from(b'A' + u8::try_from(at % 26).unwrap_or(0));
        let first = (at >= 26).then(|| letter(at / 26 - 1)).map(String::from);
        let letters = first.unwrap_or_default() + &letter(at).to_string();
        let head = self.heads.get(at).map_or("", |head| head.text.as_str());
        if head.is_empty() { letters } else { format!("{letters} ({head})") }
    }

    /// The heads, and below the names of the columns there may be.
    pub(super) fn said(&self) -> String {
        self.heads.iter().map(|head| head.text.as_str()).collect::<Vec<_>>().join(", ")
    }

    fn names(&self) -> String {
        self.columns.iter().map(|column| column.name).collect::<Vec<_>>().join(", ")
    }

    pub(super) fn problem(&mut self, place: Place, error: E) {
        let problem = Problem { error, place: Some(place), also: None, again: Vec::new() };
        self.problems.push_alike(problem);
    }

    /// Tells of a place, under a head if one is named.
    pub(super) fn tell(&mut self, place: Place, head: Option<usize>, mistake: Mistake) {
        let at = head.map(|at| format!("column {}", self.key(at)));
        self.problem(place, E::Table { at, mistake });
    }

    pub(super) fn head_of(&self, column: usize) -> Option<usize> {
        self.heads.iter().position(|head| head.column == Some(column))
    }

    /// Notes something of the table that is passed over.
    pub(super) fn leave_out(&mut self, what: String) {
        self.left_out.push(what);
    }

    pub(super) fn tell_row<C>(&mut self, row: &Row<C>, mistake: Mistake) {
        self.tell(row.place, None, mistake);
    }

    pub(super) fn tell_cell<C: Columns>(&mut self, row: &Row<C>, column: C, mistake: Mistake) {
        self.tell_at(row, column.at(), mistake);
    }

    /// The same of a column by its place.
    pub(super) fn tell_at<C>(&mut self, row: &Row<C>, at: usize, mistake: Mistake) {
        self.tell(row.cells[at].1, self.head_of(at), mistake);
    }

    /// A cell of a row as it is written, by the place of its column.
    pub(super) fn written<C>(&self, row: &Row<C>, at: usize) -> String {
        let place = row.cells[at].1;
        let text = self.sources.0[place.file].text[place.start..place.end].trim();
        let quoted = text.strip_prefix('"').and_then(|rest| rest.strip_suffix('"'));
        quoted.map_or_else(|| text.to_owned(), |inside| inside.replace("\"\"", "\""))
    }

    /// Tells of a cell that is blank, though its row needs it.
    pub(super) fn need<C: Columns>(&mut self, row: &Row<C>, column: C, who: &str) {
        match self.head_of(column.at()) {
            None => self.lacks(&[column.at()], who),
            Some(_) if row.blank(column) => {
                self.tell_cell(row, column, Mistake::Blank(who.to_owned()));
            }
            Some(_) => {}
        }
    }

    /// Whether the table has one of some columns; tells of it if not.
    pub(super) fn has_one_of<C: Columns>(&mut self, columns: &[C]) -> bool {
        let at: Vec<usize> = columns.iter().map(|column| column.at()).collect();
        let has = at.iter().any(|at| self.head_of(*at).is_some());
        if !has {
            self.lacks(&at, "");
        }
        has
    }

    /// Tells, once, that a table has none of some columns.
    fn lacks(&mut self, columns: &[usize], who: &str) {
        let Column { against, .. } = self.columns[columns[0]];
        let names = columns.iter().map(|at| self.columns[*at].name);
        let also = against.iter().copied().take(usize::from(columns.len() == 1));
        let names = names.chain(also).collect::<Vec<_>>().join(" or ");
        let told = |problem: &Problem| match &problem.error {
            E::Table { mistake: Mistake::Missing(told, ..), .. } => *told == names,
            _ => false,
        };
        // Without heads that is told already.
        if self.heads.is_empty() || self.problems.iter().any(told) {
            return;
        }
        let who = if who.is_empty() { String::new() } else { format!(", and {who} needs it") };
        let head = self.columns[columns[0]].head(false);
        self.tell(self.place, None, Mistake::Missing(names, who, head, self.said()));
    }

    /// Binds the heads to columns.
    fn bind(&mut self, row: &Record) {
        for (at, cell) in row.cells.iter().enumerate() {
            let (place, (named, symbol)) =
                (self.at(cell.span.clone()), named(self.columns, &cell.text));
            let first = named.and_then(|(column, _)| self.head_of(column));
            self.heads.push(Head {
                text: cell.text.to_string(),
                column: named.map(|(column, _)| column).filter(|_| first.is_none()),
                bare: BareNumbers::Unsaid,
                against: named.is_some_and(|(_, against)| against),
                wrong: cell.open || first.is_some(),
                filled: false,
            });
            if cell.open {
                self.tell(place, Some(at), Mistake::OpenQuote);
            } else if let Some(first) = first {
                self.tell(place, Some(at), Mistake::Twice(self.key(first)));
            } else if let Some((column, _)) = named {
                if let (Some(symbol), Holds::Amount(dimension, ..)) =
                    (symbol, self.columns[column].holds)
                    && BareNumbers::of(dimension, symbol) == Some(BareNumbers::Hours)
                {
                    self.heads[at].bare = BareNumbers::Hours;
                    continue;
                }
                match self.columns[column].unit(&format!("column {}", self.key(at)), symbol) {
                    Ok(unit) => {
                        self.heads[at].bare = unit.map_or(BareNumbers::Unsaid, BareNumbers::In);
                    }
                    Err(error) => {
                        self.heads[at].wrong = true;
                        self.problem(place, error);
                    }
                }
            }
        }
        // A name that is nearly that of a column not there is a slip, not a
        // column of the user's own.
        let absent = |at: &usize| self.head_of(*at).is_none();
        let absent: Vec<_> =
            (0..self.columns.len()).filter(absent).map(|at| &self.columns[at]).collect();
        for (at, cell) in row.cells.iter().enumerate() {
            let own = self.heads[at].column.is_none() && !self.heads[at].wrong;
            let near = nearest(&absent, split_head(&cell.text).0);
            if let Some(near) = near.filter(|_| own && !cell.text.is_empty()) {
                self.heads[at].column = find(self.columns, near).map(|(column, _)| column);
                self.heads[at].wrong = true;
                let place = self.at(cell.span.clone());
                self.tell(place, Some(at), Mistake::Unknown(Some(near), self.names()));
            }
        }
        for at in 0..self.columns.len() {
            if self.columns[at].needed && self.head_of(at).is_none() {
                self.lacks(&[at], "");
            }
        }
    }

    fn row<C>(&mut self, row: &Record) -> Row<C> {
        let end = self.at(row.span.end..row.span.end);
        let mut cells = vec![(Value::Blank, end); self.columns.len()];
        let mut own = Vec::new();
        let last = row.cells.iter().rposition(|cell| !cell.text.is_empty());
        // Cells of a row that is too long may stand under the wrong heads.
        let long = last.is_some_and(|last| last >= self.heads.len());
        if long {
            let mistake = Mistake::Long(row.cells.len(), self.heads.len(), self.separator == ',');
            self.tell(self.at(row.span.clone()), None, mistake);
        }
        for (at, cell) in row.cells.iter().enumerate().take(self.heads.len()) {
            let place = self.at(cell.span.clone());
            self.heads[at].filled |= !cell.text.is_empty();
            if cell.open {
                self.tell(place, Some(at), Mistake::OpenQuote);
            }
            let head = &self.heads[at];
            let Some(column) = head.column else {
                if !cell.text.is_empty() && !long && !cell.open {
                    own.push((at, cell.text.to_string(), place));
                }
                continue;
            };
            let key = format!("column {}", self.key(at));
            cells[column] =
                match self.columns[column].read(&key, head.unit(), &head.hours(&cell.text)) {
                    _ if long || cell.open || head.wrong => (Value::Wrong, place),
                    Ok(Value::Number(si)) if head.against => (Value::Number(-si), place),
                    Ok(value) => (value, place),
                    Err(error) => {
                        self.problem(place, error);
                        (Value::Wrong, place)
                    }
                };
        }
        for (at, (value, place)) in cells.iter().enumerate() {
            if let (true, Value::Blank, false) = (wanted(self.columns, at, &cells), value, long)
                && let Some(head) = self.head_of(at)
            {
                self.tell(*place, Some(head), Mistake::Blank("every row".to_owned()));
            }
        }
        let (place, sure) = (self.at(row.span.clone()), vec![false; cells.len()]);
        Row { line: row.line, place, cells, sure, own, of: PhantomData }
    }
}

impl<C: Columns> Row<C> {
    fn value(&self, column: C) -> &Value {
        &self.cells[column.at()].0
    }

    /// A quantity; none where it is blank or wrong.
    pub(super) fn get<Q: Quantity>(&self, column: C) -> Option<Q> {
        let holds = column.column().holds;
        debug_assert!(matches!(holds, Holds::Amount(d, ..) if d == Q::DIMENSION), "{holds:?}");
        self.si(column).map(Q::from_si)
    }

    /// The same in SI, whatever it measures.
    pub(super) fn si(&self, column: C) -> Option<f64> {
        if let Value::Number(si) = self.value(column) { Some(*si) } else { None }
    }

    pub(super) fn whole(&self, column: C) -> Option<u32> {
        if let Value::Whole(value) = self.value(column) { Some(*value) } else { None }
    }

    pub(super) fn text(&self, column: C) -> Option<&str> {
        if let Value::Text(text) = self.value(column) { Some(text) } else { None }
    }

    /// What a word means; the column's own words come from the same meanings.
    pub(super) fn meaning<T: Copy>(&self, column: C, meanings: &[(&str, T)]) -> Option<T> {
        let Value::Word(said) = self.value(column) else { return None };
        let found = meanings.iter().find(|(word, _)| word == said);
        debug_assert!(found.is_some(), "{} has no word {said}", column.column().name);
        found.map(|(_, meaning)| *meaning)
    }

    pub(super) fn blank(&self, column: C) -> bool {
        *self.value(column) == Value::Blank
    }
}
