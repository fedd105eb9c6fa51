//! Points, inserts and nocks that were weighed, one to a row.

use std::path::Path;

use units::Dimension::Mass;
use workbench::{LoosePart, PartKind};

use super::column::{Holds, columns, may, need, words};
use super::sheet::read;
use super::{Opened, Table, TableMistake};
use crate::Report;

const KINDS: [(&str, PartKind); 3] =
    [("point", PartKind::Point), ("insert", PartKind::Insert), ("nock", PartKind::Nock)];
const YES: [(&str, bool); 1] = [("yes", true)];

columns! { Parts {
    Part need("part", &["kind", "what"], Holds::Word(&words(&KINDS)));
    Name need("name", &["number", "no", "no.", "#", "id", "label"], Holds::Text);
    Mass may("mass", &["weight"], Holds::Amount(Mass, 1e-5, 0.1, ["gr", "gr"]));
    Correction may("correction", &["corrects"], Holds::Word(&words(&YES)));
} }

/// Reads loose parts, in the order in which they first appear; a correction is a new row
/// over an old one.
///
/// # Errors
/// Every mistake of the file.
pub fn parts(path: &Path, bytes: Opened) -> Result<Table<LoosePart>, Report> {
    read(path, bytes, 1, |sheet, rows| {
        let mut found: Vec<(usize, LoosePart)> = Vec::new();
        for row in rows {
            let (Some(kind), Some(name)) =
                (row.meaning(Parts::Part, &KINDS), row.text(Parts::Name))
            else {
                continue;
            };
            let new = LoosePart { kind, name: name.to_owned(), mass: row.get(Parts::Mass) };
            let corrects = row.meaning(Parts::Correction, &YES).is_some();
            match found.iter_mut().find(|(_, old)| old.kind == kind && old.name == name) {
                Some((line, _)) if !corrects => {
                    let mistake = TableMistake::NameTwice(name.to_owned(), *line, true);
                    sheet.tell_cell(row, Parts::Name, mistake);
                }
                Some((_, old)) => old.mass = new.mass.or(old.mass),
                None => found.push((row.line, new)),
            }
        }
        found.into_iter().map(|(_, part)| part).collect()
    })
}
