//! Points, inserts and nocks that were weighed, one to a row.

use std::path::Path;

use units::Dimension::Mass;
use workbench::{LoosePart, PartKind};

use super::column::{Holds, columns, may, need, words};
use super::far_off::far_off;
use super::likely::{INSERT_MASS, NOCK_MASS, POINT_MASS, asked, unlikely};
use super::settle::{CORRECTION, Rule, settle};
use super::sheet::{Row, read};
use super::{Opened, Table, TableMistake};
use crate::Report;

const KINDS: [(&str, PartKind); 3] =
    [("point", PartKind::Point), ("insert", PartKind::Insert), ("nock", PartKind::Nock)];
/// One row of a part.
pub(super) const RULE: Rule = Rule { keys: &[("part", ""), ("name", "")], repeats: false };

columns! { Parts {
    Part need("part", &["kind", "what"], Holds::Word(&words(&KINDS)));
    Name need("name", &["number", "no", "no.", "#", "id", "label"], Holds::Text);
    Mass may("mass", &["weight", "wt"], Holds::Amount(Mass, 1e-5, 0.1, ["gr", "gr"]));
} and CORRECTION }

/// Reads loose parts, in the order in which they first appear; a correction is a new row
/// over an old one.
///
/// # Errors
/// Every mistake of the file.
pub fn parts(path: &Path, bytes: Opened) -> Result<Table<LoosePart>, Report> {
    read(path, bytes, 1, |sheet, rows| {
        let settled = settle(sheet, rows, &RULE);
        let mut found: Vec<(LoosePart, &Row<Parts>)> = Vec::new();
        for row in &settled.rows {
            let (Some(kind), Some(name)) =
                (row.meaning(Parts::Part, &KINDS), row.text(Parts::Name))
            else {
                continue;
            };
            found
                .push((LoosePart { kind, name: name.to_owned(), mass: row.get(Parts::Mass) }, row));
        }
        for (_, kind) in KINDS {
            let ends = match kind {
                PartKind::Point => POINT_MASS,
                PartKind::Insert => INSERT_MASS,
                PartKind::Nock => NOCK_MASS,
            };
            let of_kind = || found.iter().enumerate().filter(|(_, (part, _))| part.kind == kind);
            let masses = of_kind().filter_map(|(at, (part, _))| Some((part.mass?.si(), at)));
            for far in far_off(masses.collect()) {
                let mistake = TableMistake::FarOff(far.times, far.others);
                asked(sheet, found[far.line].1, Parts::Mass, mistake);
            }
            for (_, (_, row)) in of_kind() {
                unlikely(sheet, row, Parts::Mass, ends);
            }
        }
        found.into_iter().map(|(part, _)| part).collect()
    })
}
