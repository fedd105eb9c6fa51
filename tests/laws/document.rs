//! Each table of each document says the same on a terminal, on a page, in CSV
//! and in JSON.

use clothyard_tests::{answers, document, provenance, tuned};
use report::{Cell, Document, Kind, Subject, Table};
use serde_json::Value;
use study::Shots;
use units::{Role, Style};

/// Documents of every kind that needs no long flight.
fn documents(style: Style) -> Vec<Document> {
    let provenance = provenance();
    let subject = Subject { title: "Invented", build: None, provenance: &provenance };
    let recipe = clothyard_tests::recipe::Simple::new();
    let arrow = study::fly_one(&recipe, &[10.0, 20.0], false).unwrap();
    let story = study::watch_push(&recipe).unwrap();
    let marks = study::marks(&recipe, &clothyard_tests::marks::plan()).unwrap();
    let mut all = vec![
        report::arrow(&arrow, style).unwrap(),
        report::flight(&arrow.states, arrow.built.mass.mass(), style).unwrap(),
        report::push(&story, &subject, style).unwrap(),
        report::marks(&marks, &subject, &[], style).unwrap(),
    ];
    let answers = [
        answers::square_ends(),
        answers::one_perfect(),
        answers::three_builds(),
        answers::on_a_face(),
        answers::swept(),
        answers::side_by_side(true),
        tuned::single(),
        tuned::bladed(),
    ];
    all.extend(answers.iter().map(|answer| document(answer, style).unwrap()));
    all
}

/// Numbers of a cell in SI, as files order them.
fn numbers(cell: &Cell) -> Vec<f64> {
    match cell {
        Cell::Quantity(_, si) => vec![*si],
        Cell::Estimate(_, e) => vec![e.value, e.low, e.high],
        Cell::Banded(_, b) => vec![b.value, b.low, b.high],
        Cell::Band(_, low, high) => vec![*low, *high],
        Cell::Count(count) => vec![*count as f64],
        Cell::Shots(Shots::Each(n) | Shots::MoreThan(n)) => vec![f64::from(*n)],
        Cell::Word(_) | Cell::None(_) => Vec::new(),
    }
}

fn role(cell: &Cell) -> Option<Role> {
    match cell {
        Cell::Quantity(role, _)
        | Cell::Estimate(role, _)
        | Cell::Banded(role, _)
        | Cell::Band(role, ..) => Some(*role),
        _ => None,
    }
}

/// Every number in a text, without its thousands' commas.
fn read(text: &str) -> Vec<f64> {
    let text = text.replace(',', "");
    let pieces = text.split(|c: char| !(c.is_ascii_digit() || "+-.e".contains(c)));
    pieces.filter_map(|piece| piece.parse().ok()).collect()
}

fn close(shown: f64, full: f64) -> bool {
    (shown - full).abs() <= 4e-16 * full.abs()
}

/// What is shown lies within the rounding of what is held.
fn rounded(shown: f64, full: f64) -> bool {
    let text = format!("{shown}");
    let places = text.split_once('.').map_or(0, |(_, part)| part.len());
    let half = 0.5 * 10_f64.powi(-i32::try_from(places).unwrap());
    // A number spelled with fewer places than its neighbours lost only zeros.
    (shown - full).abs() <= half.max(0.05 * full.abs()) * (1.0 + 1e-9)
}

fn displayed(cell: &Cell, style: Style) -> Vec<f64> {
    let unit = |si: f64| role(cell).map_or(si, |role| role.value(si, style));
    numbers(cell).into_iter().map(unit).collect()
}

fn holds_same_in_csv(table: &Table, style: Style) {
    let csv = table.csv(style);
    let mut reader = csv::Reader::from_reader(csv.as_bytes());
    let rows: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
    assert_eq!(rows.len(), table.rows().len(), "{}", table.name());
    for (cells, row) in table.all_rows().zip(rows) {
        let mut fields = row.iter();
        for (column, cell) in table.all_columns().zip(cells) {
            let wide = match column.kind {
                Kind::Words | Kind::Counts(_) | Kind::Quantities(_) => 1,
                Kind::Bands(_) | Kind::Shots => 2,
                Kind::Estimates(_) | Kind::Bandeds(_) => 3,
                Kind::Own => 4,
            };
            let own: Vec<&str> = fields.by_ref().take(wide).collect();
            if let Cell::Word(word) = cell {
                assert_eq!(own[0], word);
                continue;
            }
            let found: Vec<f64> = own.iter().filter_map(|field| field.parse().ok()).collect();
            let wanted = displayed(cell, style);
            assert_eq!(found.len(), wanted.len(), "{} {}: {own:?}", table.name(), column.head);
            assert!(found.iter().zip(&wanted).all(|(a, b)| a == b), "{own:?} {wanted:?}");
        }
    }
}

fn holds_same_in_json(table: &Table) {
    let json: Value = serde_json::from_str(&table.json().unwrap()).unwrap();
    let rows = json.as_array().unwrap();
    assert_eq!(rows.len(), table.rows().len(), "{}", table.name());
    fn all(value: &Value, out: &mut Vec<f64>) {
        match value {
            Value::Number(number) => out.push(number.as_f64().unwrap()),
            Value::Array(values) => values.iter().for_each(|value| all(value, out)),
            Value::Object(map) => map.values().for_each(|value| all(value, out)),
            _ => {}
        }
    }
    for (cells, row) in table.all_rows().zip(rows) {
        let row = row.as_object().unwrap();
        assert_eq!(row.len(), cells.len(), "{}: two columns share a key", table.name());
        for (cell, value) in cells.into_iter().zip(row.values()) {
            if let Cell::Word(word) = cell {
                assert_eq!(value, word);
            }
            let mut found = Vec::new();
            all(value, &mut found);
            let held = numbers(cell);
            assert_eq!(found.len(), held.len(), "{}", table.name());
            // Reading JSON back may cost the last bit of a number.
            assert!(found.iter().zip(&held).all(|(a, b)| close(*a, *b)), "{}", table.name());
        }
    }
}

/// A page and a terminal show the cells of the table itself, rounded.
fn shows_same(table: &Table, style: Style) {
    let html = table.html(style);
    let document = roxmltree::Document::parse(&html).unwrap();
    let rows = document.descendants().filter(|node| node.has_tag_name("tr")).skip(1);
    let text = |node: roxmltree::Node| -> String {
        let words = node.descendants().filter(roxmltree::Node::is_text);
        words.filter_map(|node| node.text()).collect::<String>().replace('\u{a0}', " ")
    };
    let terminal = table.terminal(100_000, style);
    let lines: Vec<&str> = terminal.lines().collect();
    let first = lines.iter().position(|line| line.starts_with("---")).unwrap() + 1;
    for (at, (cells, row)) in table.rows().iter().zip(rows).enumerate() {
        let shown: Vec<String> =
            row.children().filter(roxmltree::Node::is_element).map(text).collect();
        assert_eq!(shown.len(), cells.len());
        for (cell, shown) in cells.iter().zip(&shown) {
            let wanted = displayed(cell, style);
            match cell {
                Cell::Word(word) => assert_eq!(shown, word),
                _ => {
                    let found = read(shown);
                    assert!(found.len() >= wanted.len(), "{}: {shown} {wanted:?}", table.name());
                    for (a, b) in found.iter().zip(&wanted) {
                        assert!(rounded(*a, *b) || close(*a, *b), "{}: {shown} {b}", table.name());
                    }
                    let line = lines[first + at];
                    let value = shown.split(' ').next().unwrap();
                    assert!(line.contains(value), "{}: {value} in {line}", table.name());
                }
            }
        }
    }
}

#[test]
fn law_every_table_holds_the_same_cells_in_every_medium() {
    let (mut tables, mut cells) = (0, 0);
    for style in [Style::Archery, Style::Metric] {
        for document in documents(style) {
            for table in document.tables() {
                holds_same_in_csv(table, style);
                holds_same_in_json(table);
                if table.columns().len() > 1 && !table.rows().is_empty() {
                    shows_same(table, style);
                }
                tables += 1;
                cells += table.rows().len() * table.columns().len();
            }
        }
    }
    assert!(tables > 200 && cells > 10_000, "{tables} tables, {cells} cells");
}
