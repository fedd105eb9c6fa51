//! Points, inserts and nocks that were weighed, one to a row.

use std::path::Path;

use units::Dimension::Mass;
use workbench::{LoosePart, PartKind};

use super::column::{Holds, columns, may, need, words};
use super::far_off::far_off;
use super::sheet::read;
use super::{Opened, Table, TableMistake};
use crate::Report;

const KINDS: [(&str, PartKind); 3] =
    [("point", PartKind::Point), ("insert", PartKind::Insert), ("nock", PartKind::Nock)];
const YES: [(&str, bool); 1] = [("yes", true)];

columns! { Parts {
    Part need("part", &["kind", "what"], Holds::Word(&words(&KINDS)));
    Name need("name", &["number", "no", "no.", "#", "id", "label"], Holds::Text);
    Mass may("mass", &["weight", "wt"], Holds::Amount(Mass, 1e-5, 0.1, ["gr", "gr"]));
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
        // Of each part, the row that weighs it.
        let mut weighed: Vec<Option<usize>> = Vec::new();
        for (at, row) in rows.iter().enumerate() {
            let (Some(kind), Some(name)) =
                (row.meaning(Parts::Part, &KINDS), row.text(Parts::Name))
            else {
                continue;
            };
            let new = LoosePart { kind, name: name.to_owned(), mass: row.get(Parts::Mass) };
            let corrects = row.meaning(Parts::Correction, &YES).is_some();
            let here = new.mass.map(|_| at);
            match found.iter().position(|(_, old)| old.kind == kind && old.name == name) {
                Some(old) if !corrects => {
                    let mistake = TableMistake::NameTwice(name.to_owned(), found[old].0, true);
                    sheet.tell_cell(row, Parts::Name, mistake);
                }
                Some(old) => {
                    weighed[old] = here.or(weighed[old]);
                    let part = &mut found[old].1;
                    part.mass = new.mass.or(part.mass);
                }
                None => {
                    weighed.push(here);
                    found.push((row.line, new));
                }
            }
        }
        for (_, kind) in KINDS {
            let of_kind = found.iter().zip(&weighed).filter(|((_, part), _)| part.kind == kind);
            let masses = of_kind.filter_map(|((_, part), at)| Some((part.mass?.si(), (*at)?)));
            for far in far_off(masses.collect()) {
                let mistake = TableMistake::FarOff(far.times, far.others);
                sheet.tell_cell(&rows[far.line], Parts::Mass, mistake);
            }
        }
        found.into_iter().map(|(_, part)| part).collect()
    })
}
