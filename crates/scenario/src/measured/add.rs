//! One more row for a table.

use std::path::Path;

use units::Style;

use super::column::{Column, Holds, Value};
use super::hand::Hand;
use super::head::{BareNumbers, Head};
use super::kind::Kind;
use super::likely::likely;
use super::mistake::TableMistake as Mistake;
use super::names::find;
use super::noted::{Doubt, Noted, changed, of, spoken};
use super::settle::{CORRECTION, settle};
use super::sheet::{Row, Sheet};
use crate::source::{Place, Source};
use crate::text::{neat, quantity};
use crate::{Problem, Report, ScenarioError as E};

/// The whole text of a table with one more row of values, written like
/// `("mass", "425 gr")`, and what that changed. A new table gets its head first, in the units
/// of the style; an old one keeps every byte, and its own columns, units, separator, decimal
/// mark and line ends, but that a correction gets a head behind the others where there is
/// none; a column of the user's own may be filled too. The table reads with the row in it, or
/// none is given; what was odd in it before is named, and stops no new row.
///
/// # Errors
/// Every mistake of the values, of the file, and of the two together; and a value that is
/// unlike the others or that hardly any has, unless it is noted as sure.
pub fn with_row(
    kind: Kind,
    path: &Path,
    old: Option<&[u8]>,
    values: &[(String, String)],
    style: Style,
) -> Result<Noted, Report> {
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
    let rows = sheet.rows::<()>(&read, 0);
    let hand = Hand::of(&sheet, &rows, &whole);
    let before = settle(&mut sheet, &rows, &kind.rule());
    let corrects = values.iter().any(|(name, _)| {
        find(columns, name).is_some_and(|(at, _)| columns[at].name == CORRECTION.name)
    });
    if corrects && !sheet.heads.is_empty() && sheet.head_of(place_of(columns)).is_none() {
        // A byte-order mark is in the file, not in the text.
        let end = sheet.place.end + (whole.len() - read.len());
        let head = hand.head(CORRECTION.name);
        whole.splice(end..end, head.bytes());
        sheet.heads.push(Head {
            text: CORRECTION.name.to_owned(),
            column: Some(place_of(columns)),
            bare: BareNumbers::Unsaid,
            against: false,
            wrong: false,
            filled: true,
        });
    }
    let keys = kind.rule().places(columns);
    let cells = cells(&mut sheet, values, hand, |at| !corrects || keys.contains(&at));
    if !sheet.problems.is_empty() {
        return Err(sheet.report());
    }
    if !whole.ends_with(b"\n") {
        whole.extend_from_slice(hand.end.as_bytes());
    }
    let row = hand.row(&cells);
    whole.extend_from_slice(row.as_bytes());
    let named = format!("{} with the new row", path.display());
    let mut noted = Noted {
        text: whole.clone(),
        of: Vec::new(),
        said: Vec::new(),
        new: false,
        void: false,
        doubts: Vec::new(),
    };
    // The table once more, its new row last.
    let mut all = Sheet::new(columns);
    let Some(text) = all.open(Path::new(&named), Ok(whole.clone())) else {
        return Err(all.report());
    };
    let begins = text.len() - row.len();
    let rows = all.rows::<()>(&text, 0);
    let after = settle(&mut all, &rows, &kind.rule());
    if let Some(new) = rows.last().filter(|new| new.place.start >= begins) {
        let changes = changed((&sheet, &before), (&all, &after), new, &kind.rule());
        (noted.said, noted.new, noted.void) = changes;
        noted.of = of(&all, new, &kind.rule());
    }
    // What is asked about where the reader of the kind does not ask.
    if !matches!(kind, Kind::Batch | Kind::Parts) {
        for row in &after.rows {
            likely(&mut all, row, false, &[]);
        }
    }
    let doubts = all.problems.iter().filter(|problem| doubt(problem)).cloned();
    let mut asked: Vec<Problem> = doubts.collect();
    let wrong = kind.mistakes(Path::new(&named), whole);
    asked.extend(
        wrong.iter().flat_map(|wrong| wrong.problems().iter().filter(|p| doubt(p)).cloned()),
    );
    let new = |problem: &Problem| problem.place.is_some_and(|place| place.start >= begins);
    for problem in asked.iter().filter(|problem| !new(problem)) {
        let told = |at: &Doubt| noted.doubts.contains(at);
        if let Some(odd) = odd(&all, &after.rows, problem, kind).filter(|odd| !told(odd)) {
            noted.doubts.push(odd);
        }
    }
    let left = wrong.and_then(|wrong| wrong.without(|problem| doubt(problem) && !new(problem)));
    match left {
        Some(wrong) => Err(wrong),
        None if asked.iter().any(new) => {
            all.problems.keep(|problem| doubt(problem) && new(problem));
            Err(all.report())
        }
        None => Ok(noted),
    }
}

/// The column of corrections.
fn place_of(columns: &[Column]) -> usize {
    columns.iter().position(|column| column.name == CORRECTION.name).unwrap_or_default()
}

/// Whether a mistake is none, but something to be asked about.
fn doubt(problem: &Problem) -> bool {
    let E::Table { mistake, .. } = &problem.error else { return false };
    matches!(mistake, Mistake::FarOff(..) | Mistake::Unlikely(..) | Mistake::Unsound(_))
}

/// The entry that a doubt is of.
fn odd(sheet: &Sheet, rows: &[Row<()>], problem: &Problem, kind: Kind) -> Option<Doubt> {
    let is = |place: Place| problem.place == Some(place);
    let cell = |row: &Row<()>| row.cells.iter().position(|(_, place)| is(*place));
    let (row, at) = rows.iter().find_map(|row| Some((row, cell(row)?)))?;
    Some(Doubt {
        of: of(sheet, row, &kind.rule()),
        column: sheet.columns[at].name,
        said: spoken(sheet, row, at)?,
        why: problem.error.to_string(),
    })
}

/// The cells of a new row, by the heads of the table.
fn cells(
    sheet: &mut Sheet,
    values: &[(String, String)],
    hand: Hand,
    wanted: impl Fn(usize) -> bool,
) -> Vec<Option<String>> {
    let columns = sheet.columns;
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
        let written = match column
            .map(|column| (column, column.read(&key, head.unit(), &head.hours(value))))
        {
            Some((Column { holds: Holds::Amount(dimension, ..), .. }, Ok(Value::Number(si)))) => {
                let si = if turned { -si } else { si };
                match head.unit() {
                    Some(unit) => hand.number(neat(unit.of_si(si))),
                    None if turned => hand.number(quantity(si, &dimension.units()[0])),
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
        let needed = sheet.heads[at].column.is_some_and(|at| columns[at].needed && wanted(at));
        if needed && cell.is_none() {
            let place = sheet.sources.place(row, given.len()..given.len());
            sheet.tell(place, Some(at), Mistake::Blank("every row".to_owned()));
        }
    }
    cells
}
