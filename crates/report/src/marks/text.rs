//! What the terminal shows.

use units::Style;

use super::{MarksReport, heading, marks_json, say, tables};
use crate::table::{Table, wrap};
use crate::{ReportError, words};

/// The marks for a terminal of `width` characters.
///
/// # Errors
/// As [`marks_json`].
pub fn marks_text(report: &MarksReport, style: Style, width: usize) -> Result<String, ReportError> {
    marks_json(report)?;
    let marks = report.marks;
    let mut out = Lines { width, text: String::new() };
    out.say(&heading(report));
    out.say(&say::sentence(marks, style));
    out.say(&say::turn(marks, style));
    out.say(&say::sight(marks, style));
    out.table(&tables::marks(marks, style));
    out.table(&tables::flight(marks, style));
    out.say(&say::read(marks, style));
    if !marks.pins.is_empty() {
        out.say("Pins");
        out.table(&tables::pins(marks, style));
    }
    out.say(&say::point_on(marks, style));
    if !marks.pins.is_empty() || marks.point_on.is_some() {
        out.say("Hold over (+) or under (-)");
        out.table(&tables::holds(marks, style));
    }
    if !marks.hills.is_empty() {
        out.say("Up and down: the level mark to dial");
        out.table(&tables::dial(marks, style));
        out.say("The cosine rule dialled instead: high (+) or low (-)");
        out.table(&tables::cosine(marks, style));
        out.say(&say::cosine(marks, style));
    }
    if !marks.changes.is_empty() {
        out.say("Changes");
        out.say(&say::changed(marks, style));
        for change in &marks.changes {
            out.table(&tables::change(marks, change, style));
        }
    }
    if !marks.twigs.is_empty() {
        out.say("On the way: arrow over or under twig or edge");
        out.table(&tables::twigs(marks, style));
        out.say(say::PASSED);
    }
    if !marks.doubts.is_empty() {
        let names: Vec<String> = marks.doubts.iter().map(|d| words::value(&d.key)).collect();
        out.say(&format!("Poorly known, and in the bands: {}.", names.join(", ")));
    }
    for note in &marks.built.notes {
        out.say(&format!("Note: {}", note.text(style)));
    }
    out.say(&say::CAUTIONS.join(" "));
    Ok(out.text)
}

/// Paragraphs and tables, a blank line between.
struct Lines {
    width: usize,
    text: String,
}

impl Lines {
    fn say(&mut self, text: &str) {
        if !text.is_empty() {
            self.put(&(wrap(text, self.width).join("\n") + "\n"));
        }
    }

    fn table(&mut self, table: &Table) {
        self.put(&table.lines(self.width));
    }

    fn put(&mut self, text: &str) {
        if !self.text.is_empty() {
            self.text.push('\n');
        }
        self.text.push_str(text);
    }
}
