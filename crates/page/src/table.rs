//! A field for a table: text to type or paste, which the page's script turns into a grid
//! that a thumb can fill and that takes cells of a spreadsheet under any heads.

use maud::{Markup, html};
use scenario::measured::{Kind, KnownCells, KnownColumn, SUMS, impact_columns, shot_columns};
use serde_json::{Map, Value, json};
use units::Dimension;

/// What hours of the clock have in the place of a unit.
const HOURS: &str = "o'clock";

/// Tables that commands and questions read, each as a grid shows it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Table {
    /// Shafts as they were measured before they are built.
    Shafts,
    /// Arrows to sort into sets or to turn nocks of.
    Dozen,
    /// Run-out along shafts that are to be cut.
    Runout,
    /// Middle, nock end and point end of shafts that are to be cut.
    Three,
    /// Readings of end faces.
    Faces,
    /// Points, inserts and nocks to pair.
    Parts,
    /// Shots with nocks turned.
    Turns,
    /// Where the shots of a group hit.
    Group,
    /// What was seen of shots and sight.
    Marks,
}

/// A table: its columns, what a row is, whether rows are counted, and the columns that a
/// grid begins with beside those that are needed.
struct Says {
    columns: fn() -> Vec<KnownColumn>,
    row: &'static str,
    counted: bool,
    begin: &'static [&'static str],
}

impl Table {
    /// All of them.
    pub const ALL: [Self; 9] = [
        Self::Shafts,
        Self::Dozen,
        Self::Runout,
        Self::Three,
        Self::Faces,
        Self::Parts,
        Self::Turns,
        Self::Group,
        Self::Marks,
    ];

    fn says(self) -> Says {
        let says = |columns, row, counted, begin| Says { columns, row, counted, begin };
        match self {
            Self::Shafts => says(
                || Kind::Batch.known(),
                "shaft",
                true,
                &["mass", "length", "spine", "stiff side", "run-out", "run-out high"],
            ),
            Self::Dozen => says(
                || Kind::Batch.known(),
                "arrow",
                true,
                &["mass", "spine", "stiff side", "length", "balance", "tip wobble", "tip high"],
            ),
            Self::Runout => says(|| Kind::Profile.known(), "reading", false, &[]),
            Self::Three => says(
                || Kind::Three.known(),
                "shaft",
                true,
                &[
                    "stock",
                    "middle",
                    "middle high",
                    "nock end",
                    "nock end high",
                    "point end",
                    "point end high",
                ],
            ),
            Self::Faces => says(
                || Kind::Faces.known(),
                "reading",
                false,
                &["stage", "reading", "step", "across", "radius"],
            ),
            Self::Parts => says(|| Kind::Parts.known(), "part", false, &["mass"]),
            Self::Turns => says(|| Kind::Turns.known(), "shot", false, &[]),
            Self::Group => says(impact_columns, "shot", false, &[]),
            Self::Marks => says(shot_columns, "shot", false, &["mark", "speed"]),
        }
    }

    /// The columns that its reader knows.
    pub fn columns(self) -> Vec<KnownColumn> {
        (self.says().columns)()
    }

    /// The columns that a grid begins with, beside those that are needed.
    pub fn begins(self) -> &'static [&'static str] {
        self.says().begin
    }

    /// Columns, units and words for the script.
    fn data(self) -> String {
        let says = self.says();
        let mut dimensions = Map::new();
        let columns: Vec<Value> = self
            .columns()
            .iter()
            .map(|column| {
                let begin = column.needed || says.begin.contains(&column.name);
                json!({ "name": column.name, "also": column.also, "against": column.against,
                    "needed": column.needed, "begin": begin, "cells": cells(column.cells, &mut dimensions) })
            })
            .collect();
        json!({ "row": says.row, "counted": says.counted, "columns": columns, "units": dimensions,
            "sums": SUMS })
        .to_string()
    }
}

/// What cells hold, and the dimensions that are named so far with their units.
fn cells(cells: KnownCells, dimensions: &mut Map<String, Value>) -> Value {
    match cells {
        KnownCells::Amount { dimension, low, usual, unsaid } => {
            let name = format!("{dimension:?}");
            if !dimensions.contains_key(&name) {
                let symbols: Vec<&str> = dimension.units().iter().map(|unit| unit.symbol).collect();
                let spelled: Map<String, Value> = dimension
                    .spellings()
                    .iter()
                    .map(|(said, symbol)| ((*said).to_owned(), json!(symbol)))
                    .collect();
                dimensions.insert(name.clone(), json!({ "symbols": symbols, "spelled": spelled }));
            }
            // A sign is typed where a length goes both ways; an angle goes round.
            let signed = low < 0.0 && dimension != Dimension::Angle;
            let mut usual = usual.to_vec();
            if usual.contains(&HOURS) {
                usual = vec![HOURS, "deg"];
            }
            json!({ "is": "amount", "of": name, "usual": usual, "signed": signed, "unsaid": unsaid,
                "positive": low > 0.0, "round": dimension == Dimension::Angle })
        }
        KnownCells::Whole => json!({ "is": "whole" }),
        KnownCells::Text => json!({ "is": "text" }),
        KnownCells::Words(words) => json!({ "is": "word", "words": words }),
    }
}

/// The field `name`, its label, what an invented table looks like and what was sent.
pub(crate) fn field(
    name: &str,
    label: &str,
    table: Table,
    example: Option<&str>,
    sent: &str,
) -> Markup {
    let id = format!("f-{name}");
    let needed: Vec<&str> =
        table.columns().iter().filter(|column| column.needed).map(|column| column.name).collect();
    html! {
        div.tabled {
            label for=(id) { (label) }
            textarea.table id=(id) name=(name) rows="7" spellcheck="false" autocapitalize="off"
                aria-describedby=(format!("t-{name}")) data-columns=(table.data())
                data-example=[example] {
                "\n" (sent)
            }
            p.hint id=(format!("t-{name}")) {
                "One " (table.says().row) " a line below a line of heads, each with its unit; needed: "
                (needed.join(", ")) ". Paste it from a spreadsheet, heads and all."
            }
            @if let Some(example) = example {
                details.plain { summary { "An invented one, to see how it looks" } pre.said { (example) } }
            }
        }
    }
}
