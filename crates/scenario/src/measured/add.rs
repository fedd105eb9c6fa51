//! One more row for a table.

use std::path::Path;

use units::Style;

use super::column::{Column, Holds, Value, find};
use super::sheet::Sheet;
use super::{Kind, TableMistake as Mistake};
use crate::Report;
use crate::source::Source;
use crate::text::{neat, quantity};

/// The text to append to a table for one more row of values, written like
/// `("mass", "425 gr")`. A new table gets its head first, in the units of the
/// style; an old one keeps its own columns, units and separator, and a column of
/// the user's own may be filled too.
///
/// # Errors
/// Every mistake of the values and, for an old table, of the file.
pub fn add_row(
    kind: Kind,
    path: &Path,
    old: Option<Vec<u8>>,
    values: &[(String, String)],
    style: Style,
) -> Result<String, Report> {
    let columns = kind.columns();
    let mut sheet = Sheet::new(columns);
    let mut text = String::new();
    let old = old.filter(|bytes| !bytes.iter().all(u8::is_ascii_whitespace)).unwrap_or_else(|| {
        let heads = columns.iter().map(|column| column.head(style == Style::Metric));
        text = heads.collect::<Vec<_>>().join(",") + "\n";
        text.clone().into_bytes()
    });
    if !old.ends_with(b"\n") {
        text.push('\n');
    }
    let Some(read) = sheet.open(path, Ok(old)) else { return Err(sheet.report()) };
    sheet.rows::<()>(&read, 0);
    let pairs: Vec<String> = values.iter().map(|(name, value)| format!("{name}={value}")).collect();
    let (path, given) = (Path::new("the new row").to_owned(), pairs.join(" "));
    let row = sheet.sources.add(Source { path, text: given.clone(), named_at: None });
    let mut cells: Vec<Option<String>> = vec![None; sheet.heads.len()];
    let mut start = 0;
    for ((name, value), pair) in values.iter().zip(&pairs) {
        let place = sheet.sources.place(row, start + name.len() + 1..start + pair.len());
        start += pair.len() + 1;
        let meant = find(columns, name);
        let at = sheet.heads.iter().position(|head| match meant {
            Some((column, _)) => head.column == Some(column),
            None => head.column.is_none() && head.text.eq_ignore_ascii_case(name),
        });
        let Some(at) = at else {
            sheet.tell(place, None, Mistake::Unknown(None, sheet.said()));
            continue;
        };
        if cells[at].is_some() {
            sheet.tell(place, Some(at), Mistake::Twice(sheet.key(at)));
        }
        let (head, key) = (&sheet.heads[at], format!("column {}", sheet.key(at)));
        let column = head.column.map(|at| columns[at]);
        let turned = meant.is_some_and(|(_, against)| against != head.against);
        let written = match column.map(|column| (column, column.read(&key, None, value))) {
            Some((Column { holds: Holds::Amount(dimension, ..), .. }, Ok(Value::Number(si)))) => {
                let si = if turned { -si } else { si };
                match head.unit {
                    Some(unit) => neat(unit.of_si(si)),
                    None if turned => quantity(si, &dimension.units()[0]),
                    None => value.clone(),
                }
            }
            Some((_, Err(error))) => {
                sheet.problem(place, error);
                String::new()
            }
            _ => value.clone(),
        };
        cells[at] = Some(written);
    }
    for (at, cell) in cells.iter().enumerate() {
        let needed = sheet.heads[at].column.is_some_and(|column| columns[column].needed);
        if needed && cell.is_none() {
            let place = sheet.sources.place(row, given.len()..given.len());
            sheet.tell(place, Some(at), Mistake::Blank("every row".to_owned()));
        }
    }
    let mark = sheet.separator;
    let row: Vec<String> =
        cells.iter().map(|cell| quoted(cell.as_deref().unwrap_or(""), mark)).collect();
    text.push_str(&row.join(&mark.to_string()));
    text.push('\n');
    if sheet.problems.is_empty() { Ok(text) } else { Err(sheet.report()) }
}

fn quoted(cell: &str, mark: char) -> String {
    // A leading hash would make the row a remark.
    if cell.contains([mark, '"', '\n', '\r']) || cell.starts_with('#') {
        format!("\"{}\"", cell.replace('"', "\"\""))
    } else {
        cell.to_owned()
    }
}
