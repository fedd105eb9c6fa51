//! Pictures as data.

use crate::ReportError;

/// A picture.
#[derive(Debug, Clone)]
pub struct Figure {
    name: String,
    pub(crate) caption: String,
}

impl Figure {
    pub(crate) fn stub(name: &str) -> Self {
        Self { name: name.to_owned(), caption: String::new() }
    }
    pub(crate) fn file(&self) -> String {
        format!("{}.svg", self.name)
    }
    pub(crate) fn caption(&self) -> &str {
        &self.caption
    }
    pub(crate) fn svg(&self) -> Result<String, ReportError> {
        Ok(String::new())
    }
}
