//! Shots of a real group, read from a table with a line for each arrow.

use std::ops::Range;
use std::path::Path;

use target::Impact;
use units::{Dimension, Unit, UnitError, parse_si};

use crate::Files;
use crate::source::{Place, Source, Sources};
use crate::{ImpactsError, Problem, Report, ScenarioError as E};

/// Farthest a shot may lie from the aim, m. Chosen: beyond any group, so that
/// a unit mixed up is noticed.
const FARTHEST: f64 = 10.0;
/// Fewest shots of a group.
const FEWEST: usize = 2;
/// Mark of UTF-8 that some programs put at the start of a file.
const BYTE_ORDER_MARK: char = '\u{feff}';

/// An axis of the face: the names of its columns, the first as positive.
struct Axis {
    names: [&'static str; 2],
}

const AXES: [Axis; 2] = [Axis { names: ["left", "right"] }, Axis { names: ["up", "down"] }];

/// A column that gives one axis.
#[derive(Clone, Copy)]
struct Column {
    at: usize,
    name: &'static str,
    sign: f64,
    unit: Option<&'static Unit>,
}

/// Reads the places of shots from a table: a line for each, under a line of
/// names such as `left [in], up [in]`.
///
/// Columns may stand in any order, and others beside them; `right` and `down`
/// count as negative. A unit stands in the column's name or in each field.
/// Commas, semicolons or tabs part the fields; a decimal comma goes with the
/// latter two. Blank lines and lines that begin with `#` are passed over.
///
/// # Errors
/// A [`Report`] with every problem found, each with its place.
pub fn read_impacts(path: &Path, files: &Files<'_>) -> Result<Vec<Impact>, Report> {
    let mut table =
        Table { sources: Sources::default(), file: 0, separator: ',', problems: Vec::new() };
    let shots = match files(path) {
        Ok(text) => {
            let source = Source { path: path.to_owned(), text: text.clone(), named_at: None };
            table.file = table.sources.add(source);
            table.read(&text)
        }
        Err(error) => {
            let reason = error.kind();
            let error = E::Unreadable { path: path.display().to_string(), reason };
            table.problems.push(Problem { error, place: None, also: None });
            Vec::new()
        }
    };
    if table.problems.is_empty() {
        Ok(shots)
    } else {
        Err(Report { sources: table.sources, problems: table.problems })
    }
}

/// A field and where it stands.
type Field<'t> = (&'t str, Range<usize>);

struct Table {
    sources: Sources,
    file: usize,
    separator: char,
    problems: Vec<Problem>,
}

impl Table {
    fn problem(&mut self, span: Range<usize>, error: impl Into<E>) {
        let error = error.into();
        let place: Place = self.sources.place(self.file, span);
        self.problems.push(Problem { error, place: Some(place), also: None });
    }

    fn read(&mut self, text: &str) -> Vec<Impact> {
        let mut lines = lines(text);
        let Some((head, span)) = lines.next() else {
            self.problem(0..0, ImpactsError::Few { count: 0, least: FEWEST });
            return Vec::new();
        };
        self.separator = [';', '\t'].into_iter().find(|&mark| head.contains(mark)).unwrap_or(',');
        let head = self.fields(head, span.start);
        let columns = AXES.map(|axis| self.column(&axis, &head, &span));
        let [Some(left), Some(up)] = columns else { return Vec::new() };
        let mut shots = Vec::new();
        let mut end = span.end;
        for (line, span) in lines {
            end = span.end;
            let fields = self.fields(line, span.start);
            if fields.len() > head.len() {
                let (count, columns) = (fields.len(), head.len());
                self.problem(span, ImpactsError::Wide { count, columns });
                continue;
            }
            let places = [left, up].map(|column| self.place(column, &fields, &span));
            if let [Some(left), Some(up)] = places {
                shots.push(Impact { left, up });
            }
        }
        if self.problems.is_empty() && shots.len() < FEWEST {
            self.problem(end..end, ImpactsError::Few { count: shots.len(), least: FEWEST });
        }
        shots
    }

    /// The fields of a line that starts at a byte of the file.
    fn fields<'t>(&self, line: &'t str, start: usize) -> Vec<Field<'t>> {
        let mut at = start;
        let field = |part: &'t str| {
            let inside = part.trim_matches([' ', '\t', '"']);
            let from = at + (part.len() - part.trim_start_matches([' ', '\t', '"']).len());
            at += part.len() + self.separator.len_utf8();
            (inside, from..from + inside.len())
        };
        line.split(self.separator).map(field).collect()
    }

    /// The column of an axis.
    fn column(&mut self, axis: &Axis, head: &[Field], line: &Range<usize>) -> Option<Column> {
        let mut found = None;
        for (at, (text, span)) in head.iter().enumerate() {
            let (name, symbol) = named(text);
            let Some(which) = axis.names.iter().position(|known| name.eq_ignore_ascii_case(known))
            else {
                continue;
            };
            let name = axis.names[which];
            if found.is_some() {
                self.problem(span.clone(), ImpactsError::Twice { name });
                return None;
            }
            let unit = symbol.map(|symbol| (symbol, Dimension::Length.unit(symbol)));
            if let Some((symbol, None)) = unit {
                let allowed: Vec<_> =
                    Dimension::Length.units().iter().map(|unit| unit.symbol).collect();
                let cause = UnitError::UnknownUnit {
                    unit: symbol.to_owned(),
                    dimension: Dimension::Length,
                    allowed: allowed.join(", "),
                };
                self.problem(
                    span.clone(),
                    E::Quantity { key: name.to_owned(), cause, meant: None },
                );
                return None;
            }
            let sign = if which == 0 { 1.0 } else { -1.0 };
            found = Some(Column { at, name, sign, unit: unit.and_then(|(_, unit)| unit) });
        }
        if found.is_none() {
            let names = head.iter().map(|(text, _)| (*text).to_owned()).collect();
            let [name, other] = axis.names;
            self.problem(line.clone(), ImpactsError::Column { name, other, found: names });
        }
        found
    }

    /// The place along one axis that a line gives, m.
    fn place(&mut self, column: Column, fields: &[Field], line: &Range<usize>) -> Option<f64> {
        let Column { name, sign, unit, .. } = column;
        let Some((text, span)) = fields.get(column.at).filter(|(text, _)| !text.is_empty()) else {
            let span = fields.get(column.at).map_or(line.clone(), |(_, span)| span.clone());
            self.problem(span, ImpactsError::Empty { name });
            return None;
        };
        let decimal = if self.separator == ',' || text.contains('.') {
            (*text).to_owned()
        } else {
            text.replacen(',', ".", 1)
        };
        // A bare number is in the column's unit.
        let bare = decimal.parse::<f64>().ok().filter(|value| value.is_finite());
        let read = match (bare, unit) {
            (Some(value), Some(unit)) => Ok(unit.to_si(value)),
            _ => parse_si(Dimension::Length, &decimal),
        };
        match read {
            Ok(value) if value.abs() <= FARTHEST => Some(sign * value),
            Ok(_) => {
                let (key, value) = (name.to_owned(), (*text).to_owned());
                let allowed = format!("-{FARTHEST} m to {FARTHEST} m");
                self.problem(span.clone(), E::OutOfRange { key, value, allowed });
                None
            }
            Err(UnitError::NoUnit { .. }) => {
                self.problem(span.clone(), ImpactsError::Bare { name, number: decimal });
                None
            }
            Err(UnitError::NoNumber { .. } | UnitError::NotFinite { .. }) => {
                let text = (*text).to_owned();
                self.problem(span.clone(), ImpactsError::Number { name, text });
                None
            }
            Err(cause) => {
                let key = name.to_owned();
                self.problem(span.clone(), E::Quantity { key, cause, meant: None });
                None
            }
        }
    }
}

/// The lines that say something, and where.
fn lines(text: &str) -> impl Iterator<Item = (&str, Range<usize>)> {
    let start = if text.starts_with(BYTE_ORDER_MARK) { BYTE_ORDER_MARK.len_utf8() } else { 0 };
    let mut at = start;
    let all = text[start..].split('\n').map(move |line| {
        let from = at;
        at += line.len() + 1;
        let line = line.trim_end();
        (line, from..from + line.len())
    });
    all.filter(|(line, _)| {
        let said = line.trim_matches([' ', '\t', ',', ';']);
        !said.is_empty() && !said.starts_with('#')
    })
}

/// The name of a column and its unit: `left [in]` or `left (in)`.
fn named(text: &str) -> (&str, Option<&str>) {
    let Some(open) = text.find(['[', '(']) else { return (text, None) };
    let unit = text[open + 1..].trim_end_matches([']', ')', ' ']).trim();
    (text[..open].trim(), Some(unit).filter(|unit| !unit.is_empty()))
}
