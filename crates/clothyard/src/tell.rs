//! Telling an answer on the terminal.

use std::path::Path;

use report::Document;

use crate::Stream;
use crate::failure::Failure;
use crate::source::Told;

/// Widest text to print in full, in characters.
pub(crate) const WIDTH: usize = 80;
/// Widest short answer.
const SHORT_WIDTH: usize = 100;

/// An answer for standard output: as JSON, in full, or shortly with where the rest is.
pub(crate) fn text(document: &Document, how: Told) -> Result<String, Failure> {
    Ok(match how {
        Told { json: true, .. } => document.json()?,
        Told { full: true, .. } => document.terminal(WIDTH),
        _ if document.is_shortened() => {
            document.terminal_short(SHORT_WIDTH) + "--full tells all of it.\n"
        }
        _ => document.terminal(WIDTH),
    })
}

/// Prints a report that was written: as JSON, or as text with the place.
pub(crate) fn told(
    document: &Document,
    how: Told,
    folder: &Path,
    out: &mut Stream,
) -> Result<(), Failure> {
    if how.json {
        return out.print(&document.json()?);
    }
    let place = folder.display();
    out.print(&if document.is_shortened() && !how.full {
        let text = document.terminal_short(SHORT_WIDTH);
        format!("{text}Written to {place}: open report.html; --full tells all of it here\n")
    } else {
        format!("{}\nWritten to {place}: open report.html\n", document.terminal(WIDTH))
    })
}
