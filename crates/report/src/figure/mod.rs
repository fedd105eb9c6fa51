//! Pictures as data.

use crate::ReportError;
use crate::document::Part;
use crate::plots::Plot;

/// A picture.
#[derive(Debug, Clone)]
pub struct Figure {
    name: String,
    caption: String,
    svg: String,
}

impl Figure {
    /// A picture that is drawn already.
    pub(crate) fn ready(name: &str, caption: &str, svg: String) -> Self {
        Self { name: name.to_owned(), caption: caption.to_owned(), svg }
    }
    pub(crate) fn file(&self) -> String {
        format!("{}.svg", self.name)
    }
    pub(crate) fn caption(&self) -> &str {
        &self.caption
    }
    pub(crate) fn svg(&self) -> Result<String, ReportError> {
        Ok(self.svg.clone())
    }
}

impl From<Plot> for Part {
    fn from(plot: Plot) -> Self {
        let name = plot.name.trim_end_matches(".svg");
        Self::Figure(Figure::ready(name, &plot.caption, plot.svg))
    }
}
