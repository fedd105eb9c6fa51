//! A document as JSON: numbers in SI, each with its unit.

use serde::Serialize;
use serde::ser::{SerializeMap, Serializer};
use serde_json::value::{RawValue, to_raw_value};
use study::Shots;
use units::Role;

use super::{Cell, Document, Known, Part, Table};
use crate::{Provenance, ReportError, gate};

/// What is written, in this order.
#[derive(Serialize)]
struct Whole<'a> {
    title: &'a str,
    question: &'a str,
    cautions: Vec<&'a str>,
    answer: &'a str,
    #[serde(skip_serializing_if = "Option::is_none")]
    flights: Option<usize>,
    said: Vec<&'a str>,
    tables: Tables<'a>,
    #[serde(skip_serializing_if = "Option::is_none")]
    provenance: Option<&'a Provenance>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    read: Vec<Read<'a>>,
}

/// A file that was read beside the scenario.
#[derive(Serialize)]
struct Read<'a> {
    name: &'a str,
    text: &'a str,
}

/// Tables by name, those of one name joined.
struct Tables<'a>(Vec<(&'a str, Vec<Box<RawValue>>)>);

pub(super) fn document(of: &Document) -> Result<String, ReportError> {
    let mut tables: Vec<(&str, Vec<Box<RawValue>>)> = Vec::new();
    for table in of.tables() {
        let rows = rows(table)?;
        match tables.iter_mut().find(|(name, _)| *name == table.name()) {
            Some((_, known)) => known.extend(rows),
            None => tables.push((table.name(), rows)),
        }
    }
    let mut said = Vec::new();
    of.each(&mut |part| match part {
        Part::Say(text) | Part::Note(text) => said.push(text.as_str()),
        Part::Claim { claim, finding, why } => said.extend([claim.as_str(), finding, why]),
        _ => {}
    });
    let origin = of.origin.as_ref();
    let read = origin.map_or(&[][..], |origin| &origin.read);
    let whole = Whole {
        title: &of.title,
        question: of.kind,
        cautions: of.cautions.iter().map(|of| of.full.as_str()).collect(),
        answer: &of.lead,
        flights: origin.and_then(|origin| origin.flown),
        said,
        tables: Tables(tables),
        provenance: origin.map(|origin| &origin.provenance),
        read: read.iter().map(|(name, text)| Read { name, text }).collect(),
    };
    let mut text = serde_json::to_string_pretty(&whole).map_err(ReportError::Json)?;
    text.push('\n');
    Ok(gate::json(&text))
}

/// The rows of one table.
pub(super) fn table(of: &Table) -> Result<String, ReportError> {
    serde_json::to_string_pretty(&rows(of)?).map_err(ReportError::Json)
}

/// Each row on a line of its own.
fn rows(table: &Table) -> Result<Vec<Box<RawValue>>, ReportError> {
    let keys: Vec<String> = table.all_columns().iter().map(|column| key(&column.head)).collect();
    let row = |(at, cells): (usize, &Vec<Cell>)| {
        let of = |(column, cell)| Of(cell, table.known(at, column));
        let cells = cells.iter().enumerate().map(of).collect();
        to_raw_value(&Row(&keys, cells)).map_err(ReportError::Json)
    };
    table.all_rows().iter().enumerate().map(row).collect()
}

/// A head as a key: "gain in R50" becomes `gain_in_r50`.
fn key(head: &str) -> String {
    let mut key = String::new();
    for letter in head.chars() {
        if letter.is_alphanumeric() {
            key.extend(letter.to_lowercase());
        } else if letter != '\'' && !key.is_empty() && !key.ends_with('_') {
            key.push('_');
        }
    }
    let key = key.trim_end_matches('_');
    if key.is_empty() { "of".to_owned() } else { key.to_owned() }
}

struct Row<'a>(&'a [String], Vec<Of<'a>>);

/// A cell, and what is not known of it.
struct Of<'a>(&'a Cell, Known);

impl Serialize for Tables<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_map(self.0.iter().map(|(name, rows)| (name, rows)))
    }
}

impl Serialize for Row<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_map(self.0.iter().zip(&self.1))
    }
}

impl Serialize for Of<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let known = match self.1 {
            Known::Unasked => Vec::new(),
            Known::Certain => vec![("certain", Field::True)],
            Known::Band(low, high) => vec![("band", Field::Ends(low, high))],
            Known::Usual(low, high) => {
                vec![("band", Field::Ends(low, high)), ("at", Field::Text("usual values"))]
            }
            Known::Stands(share) => vec![("stands", Field::Number(share))],
        };
        let fields = match self.0 {
            Cell::Word(word) if !matches!(self.1, Known::Stands(_)) => {
                return serializer.serialize_str(word);
            }
            Cell::Count(count) => return serializer.serialize_u64(*count),
            Cell::Word(word) => vec![("value", Field::Text(word))],
            Cell::None(why) => vec![("none", Field::Text(why))],
            Cell::Quantity(role, si) => vec![value(*si), unit(*role)],
            Cell::Estimate(role, e) => {
                vec![value(e.value), unit(*role), ("interval", Field::Ends(e.low, e.high))]
            }
            Cell::Banded(role, b) if known.is_empty() => {
                vec![value(b.value), unit(*role), ("band", Field::Ends(b.low, b.high))]
            }
            Cell::Banded(role, b) => vec![value(b.value), unit(*role)],
            Cell::Band(role, low, high) => {
                vec![unit(*role), ("ends", Field::Ends(*low, *high))]
            }
            Cell::Shots(shots) => {
                let (key, count) = match shots {
                    Shots::Each(count) => ("each", *count),
                    Shots::MoreThan(count) => ("more_than", *count),
                };
                vec![(key, Field::Whole(count)), ("unit", Field::Text("shots"))]
            }
        };
        let mut map = serializer.serialize_map(None)?;
        for (key, field) in fields.into_iter().chain(known) {
            match field {
                Field::Number(number) => map.serialize_entry(key, &number)?,
                Field::Whole(number) => map.serialize_entry(key, &number)?,
                Field::Text(text) => map.serialize_entry(key, text)?,
                Field::Ends(low, high) => map.serialize_entry(key, &[low, high])?,
                Field::True => map.serialize_entry(key, &true)?,
            }
        }
        map.end()
    }
}

/// What stands under a key of a cell.
enum Field<'a> {
    Number(f64),
    Whole(u32),
    Text(&'a str),
    /// Two ends; one that is endless is written as null.
    Ends(f64, f64),
    True,
}

fn value(si: f64) -> (&'static str, Field<'static>) {
    ("value", Field::Number(si))
}

/// The SI symbol of a role, "1" for a pure number.
fn unit(role: Role) -> (&'static str, Field<'static>) {
    let si = role.dimension().units()[0].symbol;
    ("unit", Field::Text(if si.is_empty() { "1" } else { si }))
}
