//! One more row for a table.

use std::path::Path;

use units::Style;

use super::column::{Column, Holds, Value, find};
use super::kind::Kind;
use super::mistake::TableMistake as Mistake;
use super::sheet::Sheet;
use crate::Report;
use crate::source::Source;
use crate::text::{neat, quantity};

/// The whole text of a table with one more row of values, written like
/// `("mass", "425 gr")`. A new table gets its head first, in the units of the
/// style; an old one keeps every byte, and its own columns, units and separator;
/// a column of the user's own may be filled too. The table reads with the row in
/// it, or none is given.
///
/// # Errors
/// Every mistake of the values, of the file, and of the two together.
pub fn with_row(
    kind: Kind,
    path: &Path,
    old: Option<&[u8]>,
    values: &[(String, String)],
    style: Style,
) -> Result<Vec<u8>, Report> {
    let columns = kind.columns();
    let mut sheet = Sheet::new(columns);
    let said = old.filter(|bytes| !bytes.iter().all(u8::is_ascii_whitespace));
    let mut whole = said.map_or_else(
        || {
            let heads = columns.iter().map(|column| column.head(style == Style::Metric));
            (heads.collect::<Vec<_>>().join(",") + "\n").into_bytes()
        },
        <[u8]>::to_vec,
    );
    let Some(read) = sheet.open(path, Ok(whole.clone())) else { return Err(sheet.report()) };
    sheet.rows::<()>(&read, 0);
    let pairs: Vec<String> = values.iter().map(|(name, value)| format!("{name}={value}")).collect();
    let path_with_row = format!("{} with the new row", path.display());
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
        let written = match column
            .map(|column| (column, column.read(&key, head.unit(), &head.hours(value))))
        {
            Some((Column { holds: Holds::Amount(dimension, ..), .. }, Ok(Value::Number(si)))) => {
                let si = if turned { -si } else { si };
                match head.unit() {
                    Some(unit) => neat(unit.of_si(si)),
                    None if turned => quantity(si, &dimension.units()[0]),
                    None => head.hours(value).into_owned(),
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
    if !sheet.problems.is_empty() {
        return Err(sheet.report());
    }
    if !whole.ends_with(b"\n") {
        whole.push(b'\n');
    }
    whole.extend_from_slice(row.join(&mark.to_string()).as_bytes());
    whole.push(b'\n');
    match kind.mistakes(Path::new(&path_with_row), whole.clone()) {
        Some(report) => Err(report),
        None => Ok(whole),
    }
}

fn quoted(cell: &str, mark: char) -> String {
    // A leading hash would make the row a remark.
    if cell.contains([mark, '"', '\n', '\r']) || cell.starts_with('#') {
        format!("\"{}\"", cell.replace('"', "\"\""))
    } else {
        cell.to_owned()
    }
}
