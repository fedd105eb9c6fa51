//! From bytes to cells, each checked against its column.

use units::{Dimension, Unit, parse_si};

use super::book::{Book, Column, Kind, plain};
use super::mistake::{Mistake, NotebookMistake, NotebookReport, letter};

/// One cell, as its column means it.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Cell {
    Blank,
    /// A quantity in SI, or a whole number.
    Number(f64),
    Text(String),
    /// A cell with a mistake, which is told already.
    Wrong,
}

/// One row.
#[derive(Debug, Clone)]
pub(crate) struct Row {
    pub(crate) line: usize,
    /// By the order of the kind's columns.
    pub(crate) cells: Vec<Cell>,
}

/// A column as the file has it.
#[derive(Debug, Clone)]
pub(crate) struct Head {
    /// Which of the kind's columns.
    pub(crate) column: usize,
    pub(crate) unit: Option<&'static Unit>,
    pub(crate) text: String,
}

/// A notebook read so far, with its mistakes.
#[derive(Debug)]
pub(crate) struct Sheet {
    pub(crate) book: Book,
    pub(crate) rows: Vec<Row>,
    /// The columns of the file; none for one that is not known.
    pub(crate) heads: Vec<Option<Head>>,
    pub(crate) delimiter: u8,
    pub(crate) mistakes: Vec<Mistake>,
}

impl Sheet {
    /// Reads the cells of a notebook.
    pub(crate) fn read(book: Book, bytes: &[u8]) -> Self {
        let mut sheet = Self {
            book,
            rows: Vec::new(),
            heads: Vec::new(),
            delimiter: b',',
            mistakes: Vec::new(),
        };
        let bytes = bytes.strip_prefix(b"\xEF\xBB\xBF").unwrap_or(bytes);
        let text = match std::str::from_utf8(bytes) {
            Ok(text) => text,
            Err(at) => {
                let line = lines(&bytes[..at.valid_up_to()]);
                sheet.tell(line, None, NotebookMistake::NotUtf8);
                return sheet;
            }
        };
        sheet.delimiter = delimiter(text);
        let mut reader = csv::ReaderBuilder::new()
            .delimiter(sheet.delimiter)
            .has_headers(false)
            .flexible(true)
            .comment(Some(b'#'))
            .trim(csv::Trim::All)
            .from_reader(text.as_bytes());
        let mut headed = false;
        let mut last = 1;
        for record in reader.records() {
            // Text was checked, and rows may have any length: nothing else fails.
            let Ok(record) = record else { continue };
            // The reader's position is that of the line before blank lines.
            let line = record.position().map_or(1, |at| line_of(text, at.byte()));
            last = line;
            if record.iter().all(str::is_empty) {
                continue;
            }
            if headed {
                sheet.row(line, &record);
            } else {
                sheet.head(line, &record);
                headed = true;
            }
        }
        if !headed {
            sheet.tell(1, None, NotebookMistake::NoHead { allowed: book.names() });
        } else if sheet.rows.is_empty() {
            sheet.tell(last, None, NotebookMistake::NoRows);
        }
        sheet
    }

    /// The rows, or every mistake.
    pub(crate) fn finish<T>(mut self, file: &str, found: T) -> Result<T, NotebookReport> {
        if self.mistakes.is_empty() {
            return Ok(found);
        }
        self.mistakes.sort_by_key(|m| (m.line, m.column.as_ref().map_or(0, |c| c.0)));
        Err(NotebookReport { file: file.to_owned(), mistakes: self.mistakes })
    }

    pub(crate) fn tell(
        &mut self,
        line: usize,
        column: Option<(usize, String)>,
        what: NotebookMistake,
    ) {
        self.mistakes.push(Mistake { line, column, what });
    }

    /// Tells of the cell of a kind's column.
    pub(crate) fn tell_cell(&mut self, line: usize, column: usize, what: NotebookMistake) {
        let place = self.heads.iter().position(|h| h.as_ref().is_some_and(|h| h.column == column));
        let place = match place {
            Some(at) => self.heads[at].as_ref().map(|head| (at + 1, head.text.clone())),
            None => None,
        };
        let what = match (&place, what) {
            // A column that is not there cannot be blank: it is missing.
            (None, NotebookMistake::Blank { why }) => NotebookMistake::Blank {
                why: format!(
                    "\"{}\" has no column here, and {why}",
                    self.book.columns()[column].name
                ),
            },
            (_, what) => what,
        };
        self.tell(line, place, what);
    }

    fn head(&mut self, line: usize, record: &csv::StringRecord) {
        for (at, text) in record.iter().enumerate() {
            let place = Some((at + 1, text.to_owned()));
            let (name, unit) = split_head(text);
            let Some(column) = self.book.find(name) else {
                if !text.is_empty() {
                    let (near, allowed) = (self.near(name), self.book.names());
                    self.tell(line, place, NotebookMistake::UnknownColumn { near, allowed });
                }
                self.heads.push(None);
                continue;
            };
            let first =
                self.heads.iter().position(|h| h.as_ref().is_some_and(|h| h.column == column));
            if let Some(first) = first {
                let first = letter(first + 1);
                self.tell(line, place, NotebookMistake::ColumnTwice { first });
                self.heads.push(None);
                continue;
            }
            let unit = self.unit(line, place.as_ref(), self.book.columns()[column].kind, unit);
            self.heads.push(Some(Head { column, unit, text: text.to_owned() }));
        }
        for (column, Column { name, needed, .. }) in self.book.columns().iter().enumerate() {
            let there = self.heads.iter().flatten().any(|head| head.column == column);
            if *needed && !there {
                let name = (*name).to_owned();
                self.tell(line, None, NotebookMistake::MissingColumn { name });
            }
        }
    }

    fn unit(
        &mut self,
        line: usize,
        place: Option<&(usize, String)>,
        kind: Kind,
        unit: Option<&str>,
    ) -> Option<&'static Unit> {
        let (Some(unit), Kind::Quantity { dimension, .. }) = (unit, kind) else { return None };
        let found = dimension.unit(unit);
        if found.is_none() {
            self.tell(line, place.cloned(), wrong_unit(unit, dimension));
        }
        found
    }

    fn near(&self, name: &str) -> Option<String> {
        let name = plain(name);
        self.book
            .columns()
            .iter()
            .map(|c| (strsim::damerau_levenshtein(&plain(c.name), &name), c.name))
            .filter(|(distance, _)| *distance <= 2.max(name.len() / 3))
            .min()
            .map(|(_, name)| name.to_owned())
    }

    fn row(&mut self, line: usize, record: &csv::StringRecord) {
        let columns = self.book.columns();
        let mut cells = vec![Cell::Blank; columns.len()];
        for (at, text) in record.iter().enumerate() {
            if text.is_empty() {
                continue;
            }
            if at >= self.heads.len() {
                let place = Some((at + 1, "no head".to_owned()));
                self.tell(line, place, NotebookMistake::Beyond { value: text.to_owned() });
                continue;
            }
            let Some(head) = self.heads[at].clone() else { continue };
            cells[head.column] = match cell(&columns[head.column], head.unit, text) {
                Ok(cell) => cell,
                Err(what) => {
                    self.tell(line, Some((at + 1, head.text)), what);
                    Cell::Wrong
                }
            };
        }
        for (column, Column { needed, .. }) in columns.iter().enumerate() {
            let headed = self.heads.iter().flatten().any(|head| head.column == column);
            if *needed && headed && cells[column] == Cell::Blank {
                let why = "every row needs it".to_owned();
                self.tell_cell(line, column, NotebookMistake::Blank { why });
            }
        }
        self.rows.push(Row { line, cells });
    }
}

impl Row {
    pub(crate) fn number(&self, column: usize) -> Option<f64> {
        if let Cell::Number(value) = self.cells[column] { Some(value) } else { None }
    }

    pub(crate) fn text(&self, column: usize) -> Option<&str> {
        if let Cell::Text(text) = &self.cells[column] { Some(text) } else { None }
    }

    pub(crate) fn blank(&self, column: usize) -> bool {
        self.cells[column] == Cell::Blank
    }
}

/// A cell as its column means it.
pub(crate) fn cell(
    column: &Column,
    unit: Option<&'static Unit>,
    text: &str,
) -> Result<Cell, NotebookMistake> {
    match column.kind {
        Kind::Text => Ok(Cell::Text(text.to_owned())),
        Kind::Word(words) => {
            let word = text.to_lowercase();
            if words.contains(&word.as_str()) {
                return Ok(Cell::Text(word));
            }
            Err(NotebookMistake::UnknownWord { value: text.to_owned(), allowed: words.join(", ") })
        }
        Kind::Whole { high } => match text.parse::<u32>() {
            Ok(value) if value <= high => Ok(Cell::Number(value.into())),
            Ok(_) => Err(NotebookMistake::OutOfRange {
                value: text.to_owned(),
                low: "0".to_owned(),
                high: high.to_string(),
            }),
            Err(_) => Err(NotebookMistake::NotANumber { value: text.to_owned() }),
        },
        Kind::Quantity { dimension, low, high, units } => {
            let (si, shown) = quantity(column, dimension, unit, units[0], text)?;
            if (low..=high).contains(&si) {
                return Ok(Cell::Number(si));
            }
            let end = |si: f64| format!("{} {}", short(shown.of_si(si)), shown.symbol);
            Err(NotebookMistake::OutOfRange { value: end(si), low: end(low), high: end(high) })
        }
    }
}

/// A quantity in SI and the unit it was written in.
fn quantity(
    column: &Column,
    dimension: Dimension,
    unit: Option<&'static Unit>,
    usual: &'static str,
    text: &str,
) -> Result<(f64, &'static Unit), NotebookMistake> {
    let text = &pointed(text)?;
    // The sign that word processors put for a minus.
    let text = &text.replace('\u{2212}', "-");
    if let Ok(value) = text.parse::<f64>() {
        if !value.is_finite() {
            return Err(NotebookMistake::NotANumber { value: text.clone() });
        }
        return match unit {
            Some(unit) => Ok((unit.to_si(value), unit)),
            None => Err(NotebookMistake::NoUnit {
                value: text.clone(),
                name: column.name.to_owned(),
                unit: usual,
            }),
        };
    }
    if !text.starts_with(|c: char| c.is_ascii_digit() || "+-.".contains(c)) {
        return Err(NotebookMistake::NotANumber { value: text.clone() });
    }
    let si = parse_si(dimension, text)?;
    let symbol = text.trim_start_matches(|c: char| c.is_ascii_digit() || "+-.".contains(c)).trim();
    Ok((si, dimension.unit(symbol).unwrap_or(&dimension.units()[0])))
}

/// A number with a decimal point where a comma stood.
fn pointed(text: &str) -> Result<String, NotebookMistake> {
    let (commas, points) = (text.matches(',').count(), text.matches('.').count());
    if commas > 1 || points > 1 || (commas == 1 && points == 1) {
        return Err(NotebookMistake::TwoMarks { value: text.to_owned() });
    }
    Ok(text.replace(',', "."))
}

fn wrong_unit(unit: &str, dimension: Dimension) -> NotebookMistake {
    let allowed: Vec<&str> =
        dimension.units().iter().map(|unit| unit.symbol).filter(|s| !s.is_empty()).collect();
    NotebookMistake::Unit { unit: unit.to_owned(), dimension, allowed: allowed.join(", ") }
}

/// A number with at most six figures.
pub(crate) fn short(value: f64) -> String {
    if value == 0.0 {
        return "0".to_owned();
    }
    let step = 10_f64.powf(value.abs().log10().floor() - 5.0);
    let rounded = (value / step).round() * step;
    let text = format!("{rounded:.9}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// `mass [gr]` or `mass (gr)` as name and unit.
fn split_head(text: &str) -> (&str, Option<&str>) {
    for (open, close) in [('[', ']'), ('(', ')')] {
        if let Some((name, rest)) = text.split_once(open)
            && let Some((unit, _)) = rest.split_once(close)
        {
            return (name.trim(), Some(unit.trim()).filter(|unit| !unit.is_empty()));
        }
    }
    (text, None)
}

/// What stands between cells: the most frequent of three in the first line
/// that is no comment.
fn delimiter(text: &str) -> u8 {
    let head = text.lines().find(|line| !line.trim().is_empty() && !line.starts_with('#'));
    let count = |mark: u8| head.map_or(0, |line| line.bytes().filter(|b| *b == mark).count());
    let mut best = b',';
    for mark in [b';', b'\t'] {
        if count(mark) > count(best) {
            best = mark;
        }
    }
    best
}

/// Lines of a text, one more than it has line ends.
pub(crate) fn lines(bytes: &[u8]) -> usize {
    bytes.split(|byte| *byte == b'\n').count()
}

/// The line of the first cell at or after a byte.
fn line_of(text: &str, byte: u64) -> usize {
    let at = usize::try_from(byte).unwrap_or(text.len()).min(text.len());
    let bytes = text.as_bytes();
    let mut line = lines(&bytes[..at]);
    // Blank lines and comments before the record belong to it, as far as the
    // reader is concerned.
    let mut rest = &bytes[at..];
    while let Some(end) = rest.iter().position(|b| *b == b'\n') {
        let first = rest[..end].iter().find(|b| !b.is_ascii_whitespace());
        if first.is_some_and(|b| *b != b'#') {
            break;
        }
        line += 1;
        rest = &rest[end + 1..];
    }
    line
}
