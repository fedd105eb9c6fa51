//! Telling an answer on the terminal.

use std::path::Path;

use report::Document;

use crate::Stream;
use crate::failure::Failure;

/// Widest text to print, in characters.
pub(crate) const WIDTH: usize = 80;

/// Prints a report that was written: as JSON, or as text with the place.
pub(crate) fn told(
    document: &Document,
    json: bool,
    folder: &Path,
    out: &mut Stream,
) -> Result<(), Failure> {
    if json {
        return out.print(&document.json()?);
    }
    let text = document.terminal(WIDTH);
    out.print(&format!("{text}\nWritten to {}: open report.html\n", folder.display()))
}
