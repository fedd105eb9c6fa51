//! A document for a terminal.

use std::fmt::Write as _;

use units::Style;

use super::cell::{Spelled, USUAL};
use super::{Document, Part, Table};
use crate::safety::{CautionText, FIRST, FIRST_SHORT};
use crate::show::count;

/// The document as lines of at most `width` characters.
pub(super) fn document(of: &Document, width: usize) -> String {
    let mut pieces: Vec<String> = Vec::new();
    if !of.title.is_empty() {
        pieces.push(paragraph(&of.title, width));
    }
    if !of.cautions.is_empty() {
        pieces.push(cautions(&of.cautions, width));
    }
    if !of.lead.is_empty() {
        pieces.push(paragraph(&of.lead, width));
    }
    pieces.extend(of.parts.iter().filter_map(|part| piece(part, width, of.style)));
    if let Some((origin, flown)) = of.origin.as_ref().and_then(|o| Some((o, o.flown?))) {
        let flown = count(flown as u64);
        let text = format!("{flown} flights flown, seed {}.", origin.provenance.seed);
        pieces.push(paragraph(&text, width));
    }
    pieces.join("\n")
}

/// Most lines of a short answer, with one left for where the rest is. Chosen: what a small
/// window shows.
const LINES: usize = 24;

/// What the mark at a number says.
const TRUST: &str =
    "* At the usual values, but hardly anything that may be gives it: trust the brackets.";

/// Fewest rows to which a table is cut for that.
const FEWEST: usize = 3;

/// The short answer as lines of at most `width` characters: what to mind, and the
/// sentences without empty lines between them. Tables lose rows before it grows too long,
/// and say so.
pub(super) fn short(of: &Document, width: usize) -> String {
    let longest = of.short_tables().into_iter().map(|table| table.rows().len()).max();
    let told = |most: usize| short_with(of, width, most);
    let tries = (FEWEST..=longest.unwrap_or(0)).rev();
    let fits = |text: &String| text.lines().count() <= LINES;
    tries.map(told).find(fits).unwrap_or_else(|| told(FEWEST))
}

fn short_with(of: &Document, width: usize, most: usize) -> String {
    let mut out = match of.title.as_str() {
        "" => String::new(),
        title => paragraph(title, width),
    };
    if !of.cautions.is_empty() {
        // The first danger of this arrow in full, all else in a line.
        let first = of.cautions.iter().position(|of| of.danger);
        let text = |(at, of): (usize, &'_ CautionText)| {
            if first == Some(at) { of.full.clone() } else { of.short.clone() }
        };
        let texts: Vec<String> = of.cautions.iter().enumerate().map(text).collect();
        out += &if first.is_some() {
            marked(&texts, width)
        } else {
            let texts: Vec<String> = (0..)
                .zip(&texts)
                .map(
                    |(at, text)| {
                        if at == 0 { format!("{FIRST_SHORT} {text}") } else { text.clone() }
                    },
                )
                .collect();
            each(&texts, width)
        };
    }
    if !out.is_empty() {
        out.push('\n');
    }
    for part in &of.short {
        let Part::Table(rows) = part else {
            out += &piece(part, width, of.style).unwrap_or_default();
            continue;
        };
        out += &table(&rows.clone().at_most(most.min(rows.rows().len())), width, of.style);
        let left = rows.rows().len().saturating_sub(most);
        if left > 0 {
            let _ = writeln!(out, "... and {left} more");
        }
        if out.contains(USUAL) {
            out += &paragraph(TRUST, width);
        }
    }
    out.trim_end().to_owned() + "\n"
}

/// What to mind, each with a mark in front.
pub(super) fn cautions(of: &[CautionText], width: usize) -> String {
    marked(of.iter().map(|of| &of.full), width)
}

fn marked<T: AsRef<str>>(of: impl IntoIterator<Item = T>, width: usize) -> String {
    paragraph(FIRST, width) + &each(of, width)
}

fn each<T: AsRef<str>>(of: impl IntoIterator<Item = T>, width: usize) -> String {
    let mut out = String::new();
    for caution in of {
        for (place, line) in wrap(caution.as_ref(), width - 2).into_iter().enumerate() {
            out.push_str(if place == 0 { "! " } else { "  " });
            out.push_str(&line);
            out.push('\n');
        }
    }
    out
}

/// What a part says; none for a part that a terminal does not show.
fn piece(part: &Part, width: usize, style: Style) -> Option<String> {
    Some(match part {
        Part::Head(text) => flat(text).to_uppercase() + "\n",
        Part::Small(text) | Part::Say(text) | Part::Note(text) => paragraph(text, width),
        Part::List(items) => items.iter().map(|item| paragraph(item, width)).collect(),
        Part::Claim { claim, finding, why } => {
            let text = format!("The trade says: {claim} The computation {finding}. {why}");
            paragraph(&text, width)
        }
        Part::Table(of) => table(of, width, style),
        Part::Verbatim(text) => text.clone(),
        Part::Data(_) | Part::Figure(_) | Part::Fold(..) | Part::Page(_) => return None,
    })
}

fn paragraph(text: &str, width: usize) -> String {
    wrap(text, width).join("\n") + "\n"
}

/// A column ready to print.
struct Shaped {
    width: usize,
    head: Vec<String>,
    unit: String,
    cells: Vec<String>,
}

/// The table as lines of at most `width` characters where that is possible.
/// Columns that do not fit go into a further table below that repeats the
/// first column.
pub(super) fn table(of: &Table, width: usize, style: Style) -> String {
    let shaped: Vec<Shaped> = (0..of.columns().len()).map(|at| shape(of, at, style)).collect();
    let mut out = String::new();
    let mut next = 1;
    // A table of one column is a piece too.
    while next < shaped.len() || out.is_empty() {
        let mut used = vec![0];
        let mut wide = shaped[0].width;
        while next < shaped.len() && (used.len() == 1 || wide + 2 + shaped[next].width <= width) {
            wide += 2 + shaped[next].width;
            used.push(next);
            next += 1;
        }
        if !out.is_empty() {
            out.push('\n');
        }
        let part: Vec<&Shaped> = used.iter().map(|&at| &shaped[at]).collect();
        write_columns(&mut out, &part);
    }
    out
}

fn shape(of: &Table, at: usize, style: Style) -> Shaped {
    let column = of.columns()[at];
    let line = |row: Vec<Spelled>| {
        let Some(cell) = row.into_iter().nth(at) else { return String::new() };
        let mut text = flat(&cell.value);
        if let Some([low, high]) = cell.ends {
            let _ = write!(text, " [{low}, {high}]");
        }
        if let Some([low, high]) = cell.band {
            let _ = write!(text, " ({low} to {high})");
        }
        text + &cell.unit
    };
    let cells: Vec<String> = of.spelled(style).into_iter().map(line).collect();
    let unit = column.unit(style);
    let data = cells.iter().map(|cell| cell.chars().count()).max().unwrap_or(0);
    let word = column.head.split(' ').map(|word| word.chars().count()).max().unwrap_or(0);
    let width = data.max(word).max(unit.chars().count());
    Shaped { width, head: wrap(&column.head, width), unit: unit.to_owned(), cells }
}

fn write_columns(out: &mut String, part: &[&Shaped]) {
    let tall = part.iter().map(|column| column.head.len()).max().unwrap_or(0);
    let row = |out: &mut String, cell: &dyn Fn(&Shaped) -> String| {
        let cells: Vec<String> =
            part.iter().map(|c| format!("{:>width$}", cell(c), width = c.width)).collect();
        out.push_str(cells.join("  ").trim_end());
        out.push('\n');
    };
    for line in 0..tall {
        // Heads stand on what is below them, so short ones start lower.
        row(out, &|column| {
            (line + column.head.len())
                .checked_sub(tall)
                .map_or_else(String::new, |at| column.head[at].clone())
        });
    }
    if part.iter().any(|column| !column.unit.is_empty()) {
        row(out, &|column| column.unit.clone());
    }
    row(out, &|column| "-".repeat(column.width));
    for at in 0..part.first().map_or(0, |column| column.cells.len()) {
        row(out, &|column| column.cells[at].clone());
    }
}

/// A text on one line: a name may hold line ends.
fn flat(text: &str) -> String {
    text.replace(['\n', '\t'], " ")
}

/// Breaks a text at spaces into lines of at most `width` characters; a longer
/// word keeps a line of its own.
fn wrap(text: &str, width: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split([' ', '\n', '\t']).filter(|word| !word.is_empty()) {
        match lines.last_mut() {
            Some(line) if line.chars().count() + 1 + word.chars().count() <= width => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}
