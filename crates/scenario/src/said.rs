//! What a scenario says, key by key, for those who write it anew.

use crate::Scenario;
use crate::entry::{Entry, Origin};
use crate::schema::{Id, TABLES, inside};

/// One key with its value as TOML.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Said {
    /// The dotted key, without the name of a build.
    pub key: &'static str,
    /// The value, in one line.
    pub value: String,
    /// Whether the same scenario needs it said: it was written, or it makes an
    /// optional part exist.
    pub needed: bool,
}

impl Scenario {
    /// Every key in use, of the whole file and of its first build, with part
    /// files taken in. Those that follow from other keys are left out.
    pub fn said(&self) -> Vec<Said> {
        let build = self.builds.first().map(|build| &build.entries);
        let entries = self.top.iter().chain(build.into_iter().flatten());
        entries.filter_map(|(id, entry)| said(*id, entry)).collect()
    }
}

fn said(id: Id, entry: &Entry) -> Option<Said> {
    let key = id.path();
    let needed = match entry.origin {
        Origin::File(_) | Origin::CommandLine => true,
        Origin::Default(_) => TABLES.iter().any(|table| table.optional && inside(key, table.path)),
        Origin::Derived(_) => return None,
    };
    Some(Said { key, value: entry.written.clone(), needed })
}
