//! What is printed of a job.

use print::Paper;

use super::card::cards;
use super::sheets::{batch, labels};
use super::story::JobStory;
use crate::tape::files;
use crate::{File, ReportError};

/// Labels, batch sheet and customer card, as PDF and SVG.
///
/// # Errors
/// [`ReportError::Print`] for what does not fit on a page.
pub fn job_files(story: &JobStory, paper: Paper) -> Result<Vec<File>, ReportError> {
    let mut out = Vec::new();
    let pages = [
        ("labels", labels(story, paper).sheets()?),
        ("batch-sheet", batch(story, paper).sheets()?),
        ("customer-card", vec![cards(story, paper).sheet()?]),
    ];
    for (name, pages) in pages {
        for (at, page) in pages.iter().enumerate() {
            let name = if at == 0 { name.to_owned() } else { format!("{name}-{}", at + 1) };
            out.extend(files(&name, page));
        }
    }
    Ok(out)
}
