//! What stands in a notebook of arrows, in the words in which it was written.

use std::path::Path;

use super::batch::{Batch, RULE, STAGES};
use super::column::{Columns, Value};
use super::settle::{CORRECTION, settle};
use super::sheet::{Row, Sheet, read};
use super::{Opened, Table};
use crate::Report;

/// What stands of an arrow at a stage.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Standing {
    /// Its name or number.
    pub arrow: String,
    /// The stage.
    pub stage: &'static str,
    /// Columns and their cells as written, corrections in place; none is blank.
    pub cells: Vec<(&'static str, String)>,
}

/// Reads what stands of each arrow at each stage, in the order in which they first appear,
/// for whoever corrects it; a table of heads alone says of none.
///
/// # Errors
/// Every mistake of the file.
pub fn standing(path: &Path, bytes: Opened) -> Result<Table<Standing>, Report> {
    read(path, bytes, 0, |sheet: &mut Sheet, rows| {
        let settled = settle(sheet, rows, &RULE);
        let own = [Batch::Arrow.at(), Batch::Stage.at()];
        let stands = |row: &Row<Batch>| {
            let stage = row.meaning(Batch::Stage, &STAGES).unwrap_or_default();
            let cells = sheet.columns.iter().enumerate().filter(|(place, column)| {
                let blank = row.cells[*place].0 == Value::Blank;
                !blank && !own.contains(place) && column.name != CORRECTION.name
            });
            Some(Standing {
                arrow: row.text(Batch::Arrow)?.to_owned(),
                stage: STAGES.iter().find(|(_, of)| *of == stage).map_or("", |(word, _)| word),
                cells: cells
                    .map(|(place, column)| (column.name, sheet.written(row, place)))
                    .collect(),
            })
        };
        settled.rows.iter().filter_map(stands).collect()
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn exact_what_stands_is_what_was_written_last() -> Result<(), Report> {
        let book = "arrow;stage;mass [gr];spine [in];note;correction\n1;raw;305,2;0.341;a \"b\";\n\
                    2;raw;306;;;\n1;raw;;0.338;;yes\n2;raw;;;;void\n1;cut;270.1 gr;;\"c;d\";\n";
        let found = standing(Path::new("arrows.csv"), Ok(book.as_bytes().to_vec()))?.found;
        let said: Vec<_> = found.iter().map(|of| (of.arrow.as_str(), of.stage)).collect();
        assert_eq!(said, [("1", "raw"), ("1", "cut")]);
        let cell = |name, text: &str| (name, text.to_owned());
        let raw = [cell("mass", "305,2"), cell("spine", "0.338"), cell("note", "a \"b\"")];
        assert_eq!(found[0].cells, raw);
        assert_eq!(found[1].cells, [cell("mass", "270.1 gr"), cell("note", "c;d")]);
        Ok(())
    }
}
