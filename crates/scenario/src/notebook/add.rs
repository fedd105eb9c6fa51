//! One more row for a notebook.

use units::Style;

use super::book::{Book, Column, Kind};
use super::mistake::{Mistake, NotebookMistake, NotebookReport};
use super::sheet::{Cell, Sheet, cell, lines, short};

/// The text to append to a notebook for one more row of values, written like
/// `("mass", "425 gr")`. A new notebook gets its head first, in the units of
/// the style; an old one keeps its own columns, units and separator.
///
/// # Errors
/// Every mistake of the values and, for an old notebook, of the file.
pub fn add_row(
    book: Book,
    old: Option<&[u8]>,
    file: &str,
    values: &[(String, String)],
    style: Style,
) -> Result<String, NotebookReport> {
    let mut text = String::new();
    let written = old.filter(|bytes| !bytes.iter().all(u8::is_ascii_whitespace));
    let mut sheet = if let Some(bytes) = written {
        let mut sheet = Sheet::read(book, bytes);
        // A head alone is fine here.
        sheet.mistakes.retain(|m| m.what != NotebookMistake::NoRows);
        if !bytes.ends_with(b"\n") {
            text.push('\n');
        }
        sheet
    } else {
        let head = head(book, style);
        text.push_str(&head);
        let mut sheet = Sheet::read(book, head.as_bytes());
        sheet.mistakes.clear();
        sheet
    };
    // Where the new row will stand.
    let line = lines(&[written.unwrap_or_default(), text.as_bytes()].concat());
    let columns = book.columns();
    let mut cells = vec![String::new(); sheet.heads.len()];
    for (name, value) in values {
        let place = book.find(name).and_then(|column| {
            let at =
                |h: &Option<super::sheet::Head>| h.as_ref().is_some_and(|h| h.column == column);
            sheet.heads.iter().position(at).map(|at| (at, column))
        });
        let Some((at, column)) = place else {
            let what = NotebookMistake::UnknownColumn { near: None, allowed: there(&sheet) };
            sheet.mistakes.push(Mistake { line, column: Some((0, name.clone())), what });
            continue;
        };
        let unit = sheet.heads[at].as_ref().and_then(|head| head.unit);
        match cell(&columns[column], None, value.trim()) {
            Ok(Cell::Number(si)) if matches!(columns[column].kind, Kind::Quantity { .. }) => {
                cells[at] = match unit {
                    Some(unit) => short(unit.of_si(si)),
                    None => value.trim().to_owned(),
                };
            }
            Ok(_) => value.trim().clone_into(&mut cells[at]),
            Err(what) => {
                let head = sheet.heads[at].as_ref().map_or("", |head| &head.text).to_owned();
                sheet.mistakes.push(Mistake { line, column: Some((at + 1, head)), what });
            }
        }
    }
    for (at, head) in sheet.heads.clone().iter().enumerate() {
        let Some(head) = head else { continue };
        let given = values.iter().any(|(name, _)| book.find(name) == Some(head.column));
        if columns[head.column].needed && !given {
            let why = "every row needs it".to_owned();
            let place = Some((at + 1, head.text.clone()));
            sheet.mistakes.push(Mistake {
                line,
                column: place,
                what: NotebookMistake::Blank { why },
            });
        }
    }
    let mark = char::from(sheet.delimiter);
    let row: Vec<String> = cells.iter().map(|cell| quoted(cell, mark)).collect();
    text.push_str(&row.join(&mark.to_string()));
    text.push('\n');
    sheet.finish(file, text)
}

/// The head of a new notebook.
fn head(book: Book, style: Style) -> String {
    let one = |column: &Column| match column.kind {
        Kind::Quantity { units, .. } => {
            format!("{} [{}]", column.name, units[usize::from(style == Style::Metric)])
        }
        _ => column.name.to_owned(),
    };
    let names: Vec<String> = book.columns().iter().map(one).collect();
    names.join(",") + "\n"
}

/// The columns that a file has.
fn there(sheet: &Sheet) -> String {
    let names: Vec<&str> = sheet.heads.iter().flatten().map(|head| head.text.as_str()).collect();
    names.join(", ")
}

fn quoted(cell: &str, mark: char) -> String {
    // A leading hash would make the row a comment.
    if cell.contains([mark, '"', '\n', '\r']) || cell.starts_with('#') {
        format!("\"{}\"", cell.replace('"', "\"\""))
    } else {
        cell.to_owned()
    }
}
