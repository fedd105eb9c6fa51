//! Every table of every answer holds the same cells on the terminal, on the
//! page, as CSV and as JSON: each form is read back. Files hold the numbers
//! bit by bit, people's forms to half of the last decimal shown.

use std::collections::HashMap;
use std::sync::LazyLock;

use clothyard_tests::documents;
use report::{Cell, Column, Kind, Table};
use roxmltree::{Document, Node};
use serde_json::Value;
use serde_json::value::RawValue;
use study::Shots;
use units::{Role, Style};

/// Every document in both styles, told once for all laws.
static ALL: LazyLock<[(Style, Vec<report::Document>); 2]> =
    LazyLock::new(|| [Style::Archery, Style::Metric].map(|style| (style, documents::all(style))));

/// Calls `check` with every table of every document.
fn each_table(check: impl Fn(&Table, Style)) {
    for (style, documents) in ALL.iter() {
        let tables: Vec<&Table> = documents.iter().flat_map(report::Document::tables).collect();
        assert!(tables.len() > 100, "{}", tables.len());
        for table in tables {
            check(table, *style);
        }
    }
}

/// The role and the numbers of a cell: the value, then the ends, as it has them.
fn numbers(cell: &Cell) -> Option<(Role, Vec<f64>)> {
    match cell {
        Cell::Quantity(role, si) => Some((*role, vec![*si])),
        Cell::Estimate(role, e) => Some((*role, vec![e.value, e.low, e.high])),
        Cell::Banded(role, b) => Some((*role, vec![b.value, b.low, b.high])),
        Cell::Band(role, low, high) => Some((*role, vec![*low, *high])),
        Cell::Word(_) | Cell::Count(_) | Cell::Shots(_) | Cell::None(_) => None,
    }
}

/// The role that a column names the unit of.
fn role(column: &Column) -> Option<Role> {
    match column.kind {
        Kind::Quantities(role)
        | Kind::Estimates(role)
        | Kind::Bandeds(role)
        | Kind::Bands(role) => Some(role),
        Kind::Words | Kind::Counts(_) | Kind::Shots | Kind::Own => None,
    }
}

#[test]
fn law_a_cell_is_what_its_column_says() {
    each_table(|table, _| {
        let names: Vec<&str> =
            table.all_columns().iter().map(|column| column.head.as_str()).collect();
        let mut once = names.clone();
        once.sort_unstable();
        once.dedup();
        assert_eq!(once.len(), names.len(), "{}: {names:?}", table.name());
        // What people read is in the files too.
        assert!(!table.columns().is_empty() && table.columns().len() <= names.len());
        for row in table.all_rows() {
            assert_eq!(row.len(), names.len(), "{}", table.name());
            for (column, cell) in table.all_columns().iter().zip(row) {
                if let (Some(said), Some((held, _))) = (role(column), numbers(cell)) {
                    assert_eq!(said, held, "{}, {}", table.name(), column.head);
                }
            }
        }
    });
}

#[test]
fn law_json_holds_the_cells_of_every_table() {
    each_table(|table, _| {
        let json = table.json().unwrap();
        let rows: Vec<Value> = serde_json::from_str(&json).unwrap();
        let raw: Vec<HashMap<String, Box<RawValue>>> = serde_json::from_str(&json).unwrap();
        assert_eq!(rows.len(), table.rows().len(), "{}", table.name());
        for ((found, raw), cells) in rows.iter().zip(raw).zip(table.all_rows()) {
            let found = found.as_object().unwrap();
            assert_eq!(found.len(), cells.len(), "{}: a key stands twice", table.name());
            for ((key, found), cell) in found.iter().zip(cells) {
                let same = is_json(found, raw[key].get(), cell);
                assert!(same, "{}: {found} is not {cell:?}", table.name());
            }
        }
    });
}

fn is_json(found: &Value, raw: &str, cell: &Cell) -> bool {
    match cell {
        Cell::Word(word) => found == word,
        Cell::Count(count) => found.as_u64() == Some(*count),
        Cell::Shots(Shots::Each(count)) => found["each"].as_u64() == Some((*count).into()),
        Cell::Shots(Shots::MoreThan(count)) => found["more_than"].as_u64() == Some((*count).into()),
        Cell::None(why) => found["none"] == *why,
        _ => {
            let Some((role, numbers)) = numbers(cell) else { return false };
            let unit = role.dimension().units()[0].symbol;
            found["unit"] == if unit.is_empty() { "1" } else { unit } && exact(raw) == numbers
        }
    }
}

/// The numbers of a cell as they are written: read as text, since the reader
/// of JSON may lose the last bit.
fn exact(raw: &str) -> Vec<f64> {
    let fields: HashMap<String, Box<RawValue>> = serde_json::from_str(raw).unwrap();
    let texts = ["value", "interval", "band", "ends"].iter().filter_map(|key| fields.get(*key));
    let numbers = texts.flat_map(|text| text.get().trim_matches(['[', ']']).split(','));
    numbers.map(|number| number.trim().parse().unwrap()).collect()
}

#[test]
fn law_csv_holds_the_cells_of_every_table() {
    each_table(|table, style| {
        let lines: Vec<Vec<String>> = csv::ReaderBuilder::new()
            .has_headers(false)
            .from_reader(table.csv(style).as_bytes())
            .deserialize()
            .map(Result::unwrap)
            .collect();
        assert_eq!(lines.len(), table.rows().len() + 1, "{}", table.name());
        for (line, cells) in lines[1..].iter().zip(table.all_rows()) {
            assert_eq!(line.len(), lines[0].len(), "{}", table.name());
            let mut rest = line.as_slice();
            let mut heads = lines[0].as_slice();
            for (column, cell) in table.all_columns().iter().zip(cells) {
                let wide = match column.kind {
                    Kind::Words | Kind::Counts(_) | Kind::Quantities(_) => 1,
                    Kind::Bands(_) | Kind::Shots => 2,
                    Kind::Estimates(_) | Kind::Bandeds(_) => 3,
                    Kind::Own => 4,
                };
                let (mine, more) = rest.split_at(wide);
                let (head, further) = heads.split_at(wide);
                assert!(head[0].starts_with(&column.head), "{}: {}", table.name(), head[0]);
                if let Some(unit) = role(column).map(|role| role.symbol(style)) {
                    let unit = format!(" [{}]", if unit.is_empty() { "1" } else { unit });
                    assert!(head.iter().all(|head| head.ends_with(&unit)), "{head:?}");
                }
                assert!(is_csv(mine, cell, style), "{}: {mine:?} is not {cell:?}", table.name());
                (rest, heads) = (more, further);
            }
            assert!(rest.is_empty());
        }
    });
}

fn is_csv(found: &[String], cell: &Cell, style: Style) -> bool {
    match cell {
        Cell::Word(word) => found[0] == *word,
        Cell::Count(count) => found[0] == count.to_string(),
        Cell::Shots(Shots::Each(count)) => found[..2] == [count.to_string(), "no".to_owned()],
        Cell::Shots(Shots::MoreThan(count)) => found[..2] == [count.to_string(), "yes".to_owned()],
        Cell::None(_) => found.iter().all(String::is_empty),
        _ => {
            let Some((role, numbers)) = numbers(cell) else { return false };
            let numbers: Vec<f64> = numbers.iter().map(|si| role.value(*si, style)).collect();
            let read: Vec<f64> = found.iter().filter_map(|field| field.parse().ok()).collect();
            let own = found.len() < 4 || found[3] == role.symbol(style);
            read == numbers && own
        }
    }
}

/// A cell as it was read: what stands first, and its ends.
type Seen = (String, Option<(String, String)>);

#[test]
fn law_page_and_terminal_hold_the_cells_of_every_table() {
    each_table(|table, style| {
        let page = on_page(table, style);
        let lines = on_terminal(table, style);
        assert_eq!(page.len(), table.rows().len(), "{}", table.name());
        assert_eq!(page, lines, "{}", table.name());
        for (seen, cells) in page.iter().zip(table.rows()) {
            assert_eq!(seen.len(), cells.len(), "{}", table.name());
            for ((seen, cell), column) in seen.iter().zip(cells).zip(table.columns()) {
                let own = column.kind == Kind::Own;
                assert!(is_shown(seen, cell, own, style), "{}: {seen:?}, {cell:?}", table.name());
            }
        }
    });
}

fn is_shown((first, ends): &Seen, cell: &Cell, own: bool, style: Style) -> bool {
    let bare = first.replace(',', "");
    match cell {
        Cell::Word(word) => first == word.trim(),
        Cell::Count(count) => bare == count.to_string(),
        Cell::Shots(Shots::Each(count)) => bare == count.to_string(),
        Cell::Shots(Shots::MoreThan(count)) => bare == format!(">{count}"),
        Cell::None("") => first == "-",
        Cell::None(why) => first == why,
        _ => {
            let Some((role, numbers)) = numbers(cell) else { return false };
            let unit = role.symbol(style);
            let first = match first.strip_suffix(unit) {
                Some(first) if own => first.trim_end(),
                _ if own => return false,
                _ => first,
            };
            let texts: Vec<&str> = match (ends, first.split_once(" to ")) {
                (Some((low, high)), None) => vec![first, low, high],
                (None, Some((low, high))) => vec![low, high],
                (None, None) => vec![first],
                (Some(_), Some(_)) => return false,
            };
            texts.len() == numbers.len()
                && texts.iter().zip(numbers).all(|(text, si)| near(text, role.value(si, style)))
        }
    }
}

/// Whether a text is a number to half of its last decimal. A number without
/// decimals may have lost zeros behind the point, not before it.
fn near(text: &str, value: f64) -> bool {
    let Ok(shown) = text.parse::<f64>() else { return false };
    let (mantissa, exponent) = text.split_once('e').unwrap_or((text, "0"));
    let places = mantissa.split_once('.').map_or(0, |(_, places)| places.len());
    let power = exponent.parse::<i32>().unwrap() - i32::try_from(places).unwrap();
    (shown - value).abs() <= 0.5 * 10_f64.powi(power) * (1.0 + 1e-9)
}

fn on_page(table: &Table, style: Style) -> Vec<Vec<Seen>> {
    let html = table.html(style);
    let page = Document::parse(&html).unwrap();
    let inside = |node: Node| -> String {
        let text: String =
            node.descendants().filter_map(|n| n.text().filter(|_| n.is_text())).collect();
        text.replace('\u{A0}', " ")
    };
    let cell = |node: Node| -> Seen {
        let small = node.children().find(|child| child.has_tag_name("small"));
        let ends = small.map(|small| {
            // An interval of chance stands in brackets, a band does not.
            let text = inside(small).replace(['[', ']'], "");
            let (low, high) = text.split_once(" to ").or(text.split_once(", ")).unwrap();
            (low.to_owned(), high.to_owned())
        });
        let all = inside(node);
        // A unit of the cell's own stands after the interval.
        let first = small.map_or(all.clone(), |small| all.replacen(&inside(small), "", 1));
        (first.split_whitespace().collect::<Vec<_>>().join(" "), ends)
    };
    let body = page.descendants().find(|node| node.has_tag_name("tbody")).unwrap();
    let rows = body.children().filter(|node| node.has_tag_name("tr"));
    rows.map(|row| row.children().filter(Node::is_element).map(cell).collect()).collect()
}

/// The table of a terminal read back; one too wide stands in pieces, each of
/// which repeats the first column.
fn on_terminal(table: &Table, style: Style) -> Vec<Vec<Seen>> {
    let text = table.terminal(80, style);
    let mut rows: Vec<Vec<Seen>> = vec![Vec::new(); table.rows().len()];
    for piece in text.split("\n\n") {
        let lines: Vec<&str> = piece.lines().collect();
        let rule = lines.len() - table.rows().len() - 1;
        let under = lines[rule];
        assert!(under.bytes().all(|b| b"- ".contains(&b)), "{piece}");
        let mut from = 0;
        for (column, dashes) in under.split("  ").enumerate() {
            let to = from + dashes.chars().count();
            for (row, line) in rows.iter_mut().zip(&lines[rule + 1..]) {
                let cell: String = line.chars().skip(from).take(to - from).collect();
                if column > 0 || row.is_empty() {
                    row.push(apart(cell.trim()));
                }
            }
            from = to + 2;
        }
    }
    rows
}

/// "1.2 [1.0, 1.4] in" as its parts, the unit with the value.
fn apart(cell: &str) -> Seen {
    let parts = cell.split_once(" [").and_then(|(first, rest)| {
        let (ends, unit) = rest.split_once(']')?;
        Some((format!("{first}{unit}"), ends.split_once(", ")?))
    });
    match parts {
        Some((first, (low, high))) => (first, Some((low.to_owned(), high.to_owned()))),
        None => (cell.split_whitespace().collect::<Vec<_>>().join(" "), None),
    }
}
