//! Tables as CSV: one row of heads with units, numbers unrounded.

use study::Shots;
use units::{Role, Style};

use super::{Cell, Column, Kind, Known, Table};
use crate::gate;

/// Tables of one name, one below the other.
pub(super) fn sheet(tables: &[&Table], style: Style) -> String {
    // Tables of one name may leave out a column that has nothing to say; each
    // row goes under the heads it has.
    let mut columns: Vec<&Column> = Vec::new();
    for table in tables {
        for column in table.all_columns() {
            if !columns.iter().any(|known| known.head == column.head) {
                columns.push(column);
            }
        }
    }
    let known: Vec<(bool, bool)> = columns.iter().map(|column| asked(tables, column)).collect();
    let every = columns.iter().zip(&known);
    let mut out = line(every.flat_map(|(column, known)| {
        [heads(column, style), known_heads(column, *known, style)].concat()
    }));
    for table in tables {
        let places: Vec<Option<usize>> = columns
            .iter()
            .map(|column| table.all_columns().iter().position(|own| own.head == column.head))
            .collect();
        for (number, row) in table.all_rows().iter().enumerate() {
            let every = columns.iter().zip(&places).zip(&known);
            let fields = every.flat_map(|((column, place), known)| {
                if let Some(at) = place {
                    let of = table.known(number, *at);
                    let known = known_fields(*known, &row[*at], of, style);
                    return [fields(column.kind, &row[*at], style), known].concat();
                }
                let heads = [heads(column, style), known_heads(column, *known, style)];
                vec![String::new(); heads.concat().len()]
            });
            out.push_str(&line(fields));
        }
    }
    out
}

/// Whether some cell of a column has a band that its own fields do not show,
/// and whether some word does not stand everywhere.
fn asked(tables: &[&Table], column: &Column) -> (bool, bool) {
    let mut found = (false, false);
    for table in tables {
        let Some(at) = table.all_columns().iter().position(|own| own.head == column.head) else {
            continue;
        };
        for row in 0..table.all_rows().len() {
            match table.known(row, at) {
                Known::Band(..) | Known::Usual(..) => {
                    found.0 |= !matches!(column.kind, Kind::Bandeds(_));
                }
                Known::Stands(_) => found.1 = true,
                _ => {}
            }
        }
    }
    found
}

fn known_heads(column: &Column, (band, stands): (bool, bool), style: Style) -> Vec<String> {
    let head = &column.head;
    let unit = match column.unit(style) {
        "" | "number" | "points" | "shots" | "count" => "1",
        unit => unit,
    };
    let own = column.kind == Kind::Own;
    let ends = [" band05", " band95"];
    let ends =
        ends.map(|end| if own { format!("{head}{end}") } else { format!("{head}{end} [{unit}]") });
    let mut heads = if band { ends.to_vec() } else { Vec::new() };
    if stands {
        heads.push(format!("{head} stands [%]"));
    }
    heads
}

fn known_fields(
    (band, stands): (bool, bool),
    cell: &Cell,
    known: Known,
    style: Style,
) -> Vec<String> {
    let mut fields = Vec::new();
    if band {
        fields.extend(match (known.ends(), cell) {
            (
                Some((low, high)),
                Cell::Quantity(role, _)
                | Cell::Estimate(role, _)
                | Cell::Banded(role, _)
                | Cell::Band(role, ..),
            ) => [low, high].map(|si| endless(role.value(si, style))),
            (Some((low, high)), Cell::Shots(_)) => [low, high].map(endless),
            _ => [const { String::new() }; 2],
        });
    }
    if stands {
        fields.push(match known {
            Known::Stands(share) => Role::Percent.value(share, style).to_string(),
            _ => String::new(),
        });
    }
    fields
}

/// An end of a band; one that may be more than was looked for is no number.
fn endless(end: f64) -> String {
    if end.is_infinite() { "more".to_owned() } else { end.to_string() }
}

fn line(fields: impl Iterator<Item = String>) -> String {
    let fields: Vec<String> = fields.map(|field| gate::csv(&field)).collect();
    fields.join(",") + "\n"
}

fn heads(column: &Column, style: Style) -> Vec<String> {
    let head = &column.head;
    let unit = |role: Role| match role.symbol(style) {
        "" => "1",
        symbol => symbol,
    };
    let three = |ends: [&str; 3], unit: &str| {
        ends.map(|end| format!("{head}{end} [{unit}]").trim_start().to_owned()).to_vec()
    };
    match column.kind {
        Kind::Words => vec![head.clone()],
        Kind::Counts(_) => vec![format!("{head} [1]")],
        Kind::Quantities(role) => vec![format!("{head} [{}]", unit(role))],
        Kind::Estimates(role) => three(["", " low95", " high95"], unit(role)),
        Kind::Bandeds(role) => three(["", " low", " high"], unit(role)),
        Kind::Bands(role) => {
            [" low", " high"].map(|end| format!("{head}{end} [{}]", unit(role))).to_vec()
        }
        Kind::Shots => vec![format!("{head} [1]"), format!("{head} at least")],
        Kind::Own => ["", " low", " high", " unit"].map(|end| format!("{head}{end}")).to_vec(),
    }
}

fn fields(kind: Kind, cell: &Cell, style: Style) -> Vec<String> {
    let number = |role: &Role, si: f64| role.value(si, style).to_string();
    let mut fields = match cell {
        Cell::Word(word) => vec![word.clone()],
        Cell::Count(count) => vec![count.to_string()],
        Cell::Quantity(role, si) => vec![number(role, *si)],
        Cell::Estimate(role, e) => [e.value, e.low, e.high].map(|si| number(role, si)).to_vec(),
        Cell::Banded(role, b) => [b.value, b.low, b.high].map(|si| number(role, si)).to_vec(),
        Cell::Band(role, low, high) => [*low, *high].map(|si| number(role, si)).to_vec(),
        Cell::Shots(Shots::Each(n)) => vec![n.to_string(), "no".to_owned()],
        Cell::Shots(Shots::MoreThan(n)) => vec![n.to_string(), "yes".to_owned()],
        Cell::None(_) => Vec::new(),
    };
    let wide = match kind {
        Kind::Words | Kind::Counts(_) | Kind::Quantities(_) => 1,
        Kind::Bands(_) | Kind::Shots => 2,
        Kind::Estimates(_) | Kind::Bandeds(_) => 3,
        Kind::Own => 4,
    };
    if kind == Kind::Own {
        if let Cell::Band(..) = cell {
            fields.insert(0, String::new());
        }
        fields.resize(3, String::new());
        if let Cell::Quantity(role, _)
        | Cell::Estimate(role, _)
        | Cell::Banded(role, _)
        | Cell::Band(role, ..) = cell
        {
            fields.push(role.symbol(style).to_owned());
        }
    }
    fields.resize(wide, String::new());
    fields
}
