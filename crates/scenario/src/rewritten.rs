//! A scenario written out as a file of its own: what was said, with part files
//! taken in, and no defaults.

use std::fmt::Write as _;

use crate::Scenario;
use crate::entry::{Entry, Layer, Origin};
use crate::resolved::{Line, write, write_step};
use crate::schema::{Id, TABLES};
use crate::settle::Settled;
use crate::written::quoted;

/// What the two builds are called when one is held beside a scenario without
/// builds.
const PINNED: &str = "pinned";
const NOW: &str = "now";

impl Scenario {
    /// The scenario as a file that asks the same of the same builds; `how`
    /// tells in a line where it comes from.
    ///
    /// With another scenario, the build counted there stands before all others, for
    /// comparison.
    pub fn written(&self, how: &str, beside: Option<(&Self, usize)>) -> String {
        let mut out = format!("# {how}\n");
        let pinned = beside.and_then(|(other, at)| other.builds.get(at));
        let all: Vec<&Settled> = pinned.into_iter().chain(&self.builds).collect();
        // What all builds share stands above them.
        let shared = |id: Id, written: &str| {
            all.iter().all(|b| b.layer.entries.get(&id).is_some_and(|e| e.written == written))
        };
        let there =
            |table: &str, layer: &Layer| layer.tables.get(table).is_some_and(|mark| !mark.none);
        let everywhere = |table: &str| all.iter().all(|build| there(table, &build.layer));
        let top = self.common.entries.iter().filter(|(id, _)| !id.built());
        let first = all.first().into_iter().flat_map(|build| said(&build.layer));
        let mut lines: Vec<Line> = top
            .chain(first.filter(|(id, entry)| shared(**id, &entry.written)))
            .map(|(id, entry)| Line::said(*id, entry))
            .collect();
        lines.sort_by_key(Line::id);
        write(&mut out, "", &lines);
        // A table may be all that says a thing is there.
        let bare = |lines: &[Line], table: &str| !lines.iter().any(|l| l.id().table() == table);
        for table in TABLES.iter().filter(|table| bare(&lines, table.path)) {
            let here = if table.in_build {
                table.optional && !all.is_empty() && everywhere(table.path)
            } else {
                there(table.path, &self.common)
            };
            if here {
                let _ = write!(out, "\n[{}]\n", table.path);
            }
        }
        for (at, build) in all.iter().enumerate() {
            let name = match (&build.name, pinned) {
                (_, Some(_)) if at == 0 => self.free_name(),
                (Some(name), _) => name.clone(),
                (None, Some(_)) => NOW.to_owned(),
                (None, None) => continue,
            };
            let _ = write!(out, "\n[[build]]\nname = {}\n", quoted(&name));
            let own = said(&build.layer).filter(|(id, e)| !shared(**id, &e.written));
            let own: Vec<Line> = own.map(|(id, entry)| Line::said(*id, entry)).collect();
            write(&mut out, "build.", &own);
            for table in TABLES.iter().filter(|table| table.optional && bare(&own, table.path)) {
                if there(table.path, &build.layer) && !everywhere(table.path) {
                    let _ = write!(out, "\n[build.{}]\n", table.path);
                }
            }
        }
        for step in &self.steps {
            write_step(&mut out, step, None);
        }
        self.clues.iter().for_each(|clue| clue.write(&mut out));
        out
    }

    /// A name for the pinned build that no other one has.
    fn free_name(&self) -> String {
        let taken = |name: &str| self.builds.iter().any(|b| b.name.as_deref() == Some(name));
        let more = (2..).map(|count| format!("{PINNED} {count}"));
        let mut names = std::iter::once(PINNED.to_owned()).chain(more);
        names.find(|name| !taken(name)).unwrap_or_default()
    }
}

/// What a layer says of a build; what follows from another entry follows again.
fn said(layer: &Layer) -> impl Iterator<Item = (&Id, &Entry)> {
    let own = |entry: &Entry| !matches!(entry.origin, Origin::Derived(_));
    layer.entries.iter().filter(move |(id, entry)| id.built() && own(entry))
}
