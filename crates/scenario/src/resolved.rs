//! The scenario as it was understood: every key in use, its value and where
//! the value comes from, as a file that reads back to the same plan.

use std::fmt::Write as _;

use crate::Scenario;
use crate::entry::{Entry, Origin, Value};
use crate::recipe::BuildRecipe;
use crate::schema::{Fallback, Id, KEYS, STEP_COST, STEP_TIME, TABLES, inside, last};
use crate::settle::{Entries, Settled, in_use};
use crate::source::Sources;
use crate::step::Step;
use crate::text::{own_unit, quantity, unit_of};
use crate::written::quoted;

impl Scenario {
    /// Every key in use with its value and origin, as TOML.
    pub fn resolved(&self) -> String {
        let mut out = String::from(
            "# Every value in use and where it comes from. Reading this file gives the same plan.\n",
        );
        let lines: Vec<Lines> = self
            .builds
            .iter()
            .zip(&self.recipes)
            .map(|(build, recipe)| self.lines(build, recipe))
            .collect();
        // What all builds share stands above them.
        let shared = |line: &Line| lines.iter().all(|other| other.iter().any(|l| l.same(line)));
        let mut common: Lines =
            self.top.iter().map(|(id, entry)| Line::of(*id, entry, &self.sources)).collect();
        common.extend(lines.iter().take(1).flatten().filter(|line| shared(line)).cloned());
        common.sort_by_key(|line| line.id);
        write(&mut out, "", &common);
        for (build, lines) in self.builds.iter().zip(&lines) {
            let Some(name) = &build.name else { continue };
            let _ = write!(out, "\n[[build]]\nname = {}\n", quoted(name));
            let own: Lines = lines.iter().filter(|line| !shared(line)).cloned().collect();
            write(&mut out, "build.", &own);
        }
        for step in &self.steps {
            write_step(&mut out, step, Some(&self.sources));
        }
        self.clues.iter().for_each(|clue| clue.write(&mut out));
        out
    }

    fn lines(&self, build: &Settled, recipe: &BuildRecipe) -> Lines {
        let mut lines: Lines =
            build.entries.iter().map(|(id, entry)| Line::of(*id, entry, &self.sources)).collect();
        lines.extend(KEYS.iter().filter_map(|key| follower(key.id, build, recipe)));
        lines.sort_by_key(|line| line.id);
        lines
    }
}

type Lines = Vec<Line>;

/// One key of the file.
#[derive(Clone)]
pub(crate) struct Line {
    id: Id,
    written: String,
    /// Where the value comes from; empty where that is not told.
    origin: String,
    /// Follows from other keys, so it is shown but not set.
    follows: bool,
}

impl Line {
    fn of(id: Id, entry: &Entry, sources: &Sources) -> Self {
        let origin = origin(entry, sources);
        // A clock that scatters with its size follows it, also where a step
        // changes the size.
        let scattered = matches!(entry.origin, Origin::Default(_))
            && matches!(entry.value, Value::Drawn { .. });
        // A zone that is written speaks of hunting.
        let zone = id == Id::Zone && matches!(entry.origin, Origin::Default(_));
        let follows = scattered || zone || matches!(entry.origin, Origin::Derived(_));
        Self { id, written: entry.written.clone(), origin, follows }
    }

    /// A value as it was said.
    pub(crate) fn said(id: Id, entry: &Entry) -> Self {
        Self { id, written: entry.written.clone(), origin: String::new(), follows: false }
    }

    pub(crate) fn id(&self) -> Id {
        self.id
    }

    fn same(&self, other: &Self) -> bool {
        (self.id, &self.written, self.follows) == (other.id, &other.written, other.follows)
    }
}

/// Where a value comes from, in words.
fn origin(entry: &Entry, sources: &Sources) -> String {
    match &entry.origin {
        Origin::File(place) => sources.file_line(*place),
        Origin::Default(source) => format!("default, {source}"),
        Origin::Derived(how) => (*how).to_owned(),
        Origin::CommandLine => "command line".to_owned(),
    }
}

/// A key that follows another one, with its present value.
fn follower(id: Id, build: &Settled, recipe: &BuildRecipe) -> Option<Line> {
    let Fallback::Times { base, factor, source } = id.key().fallback else { return None };
    if build.entries.contains_key(&id) || !in_use(&build.layer, id) {
        return None;
    }
    let value = recipe.value(base) * factor;
    let times = if (factor - 1.0).abs() < f64::EPSILON {
        format!("as {}", base.path())
    } else {
        format!("{factor} x {}", base.path())
    };
    let written = quoted(&quantity(value, unit(base, &build.entries)));
    Some(Line { id, written, origin: format!("default, {times}, {source}"), follows: true })
}

/// The unit in which a key is written.
pub(crate) fn unit(id: Id, entries: &Entries) -> &'static units::Unit {
    match (id.number(), entries.get(&id)) {
        (Some(number), Some(Entry { value: Value::Fixed(_), written, .. })) => {
            unit_of(number.dimension, written.trim_matches('"'))
        }
        _ => own_unit(id),
    }
}

/// Keys under the heads of their tables.
pub(crate) fn write(out: &mut String, prefix: &str, lines: &[Line]) {
    let mut table = "";
    for line in lines {
        if line.id.table() != table {
            table = line.id.table();
            let _ = write!(out, "\n[{prefix}{table}]\n");
        }
        let mark = if line.follows { "# " } else { "" };
        let tail = tail(&line.origin);
        let _ = writeln!(out, "{mark}{} = {}{tail}", last(line.id.path()), line.written);
    }
}

/// A bench step, its changes as dotted keys; with the sources, where its values
/// come from.
pub(crate) fn write_step(out: &mut String, step: &Step, sources: Option<&Sources>) {
    let _ = write!(out, "\n[[step]]\nname = {}\n", quoted(&step.name));
    let told = |entry: &Entry| tail(&sources.map_or_else(String::new, |from| origin(entry, from)));
    for (key, entry) in [(&STEP_TIME, &step.time), (&STEP_COST, &step.cost)] {
        let _ = writeln!(out, "{} = {}{}", key.column.name, entry.written, told(entry));
    }
    for (table, mark) in &step.layer.tables {
        let bare = !step.layer.entries.keys().any(|id| inside(id.path(), table));
        if mark.none {
            let _ = writeln!(out, "{table} = \"none\"");
        } else if bare && TABLES.iter().any(|known| known.optional && known.path == *table) {
            let _ = writeln!(out, "{table} = {{}}");
        }
    }
    for (id, entry) in &step.layer.entries {
        let _ = writeln!(out, "{} = {}{}", id.path(), entry.written, told(entry));
    }
}

/// Where a value comes from, as a comment behind it.
fn tail(origin: &str) -> String {
    if origin.is_empty() {
        String::new()
    } else {
        // A comment may hold no control letter.
        format!(" # {}", origin.replace(char::is_control, " "))
    }
}
