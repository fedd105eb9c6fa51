//! What the terminal shows of a push.

use units::Style;

use super::{PushReport, heading, push_json, remarks, sentence, tables};
use crate::ReportError;
use crate::table::wrap;

/// The push for a terminal of `width` characters: the sentence, how the arrow
/// leaves, the energy, the modes, where the rest lets go.
///
/// # Errors
/// As [`push_json`].
pub fn push_text(report: &PushReport, style: Style, width: usize) -> Result<String, ReportError> {
    push_json(report)?;
    let story = report.story;
    let paragraph = |text: &str| wrap(text, width).join("\n") + "\n";
    let mut out = paragraph(&heading(report));
    out.push('\n');
    out.push_str(&paragraph(&sentence(story, style)));
    for table in [
        tables::departure(story, style),
        tables::along(story, style),
        tables::budget(story, style),
        tables::modes(story, style),
    ] {
        out.push('\n');
        out.push_str(&table.lines(width));
    }
    for remark in remarks(story, style) {
        out.push('\n');
        out.push_str(&paragraph(&remark));
    }
    Ok(out)
}
