//! An answer as a document: sentences, lists, tables, figures and folds in the
//! order a reader wants them. Renderers make a terminal's text, a page, a
//! fragment of a page, CSV and JSON from it; none of them knows a question,
//! and no question knows them.
//!
//! A number stands in a table's cell as a quantity in SI with its role, never
//! as text, so that every medium shows the same number in its own way.

mod cell;
mod csv;
mod html;
mod json;
mod known;
mod overlay;
mod part;
mod table;
mod terminal;

use units::Style;

use crate::{CautionText, File, ReportError, gate};

pub use cell::Cell;
pub(crate) use html::embedded;
pub use known::Known;
pub use part::{Document, Part};
pub(crate) use part::{Origin, assumed_said, fold, head, list, note, say, small};
pub use table::{Column, Kind, Table};
pub(crate) use table::{Rows, facts, table, table_of};

impl Table {
    /// The table for a terminal of `width` characters.
    pub fn terminal(&self, width: usize, style: Style) -> String {
        terminal::table(self, width, style)
    }

    /// The table for a page.
    pub fn html(&self, style: Style) -> String {
        html::table(self, style)
    }

    /// The table as CSV.
    pub fn csv(&self, style: Style) -> String {
        csv::sheet(&[self], style)
    }

    /// The rows as JSON.
    ///
    /// # Errors
    /// [`ReportError::Json`] where the text cannot be made.
    pub fn json(&self) -> Result<String, ReportError> {
        json::table(self)
    }
}

/// Cautions for a terminal of `width` characters; empty where there are none.
pub fn minded(cautions: &[CautionText], width: usize) -> String {
    if cautions.is_empty() {
        return String::new();
    }
    gate::terminal(&terminal::cautions(cautions, width))
}

impl Document {
    /// Text for a terminal of `width` characters: what stands neither in a
    /// fold nor on the page alone.
    pub fn terminal(&self, width: usize) -> String {
        gate::terminal(&terminal::document(self, width))
    }

    /// The same, no more than the short answer where there is one.
    pub fn terminal_short(&self, width: usize) -> String {
        gate::terminal(&if self.short.is_empty() {
            terminal::document(self, width)
        } else {
            terminal::short(self, width)
        })
    }

    /// Whether there is a short answer beside the whole.
    pub fn is_shortened(&self) -> bool {
        !self.short.is_empty()
    }

    /// The cautions alone, for a terminal of `width` characters; empty where there are
    /// none.
    pub fn minded(&self, width: usize) -> String {
        minded(&self.cautions, width)
    }

    /// The page: one file, no network, no script.
    ///
    /// # Errors
    /// [`ReportError::Draw`] where a figure cannot be drawn.
    pub fn page(&self) -> Result<String, ReportError> {
        html::document(self)
    }

    /// What to mind and the answer as a fragment of a page.
    ///
    /// # Errors
    /// As [`Document::page`].
    pub fn fragment(&self) -> Result<String, ReportError> {
        html::fragment(self)
    }

    /// The document as JSON: numbers in SI, each with its unit ("1" for a pure
    /// number), tables as lists of rows.
    ///
    /// # Errors
    /// [`ReportError::Json`] where the text cannot be made.
    pub fn json(&self) -> Result<String, ReportError> {
        json::document(self)
    }

    /// Tables of one name as one CSV text; none where no table has that name.
    pub fn csv(&self, name: &str) -> Option<String> {
        let same: Vec<&Table> = self.tables().into_iter().filter(|t| t.name() == name).collect();
        (!same.is_empty()).then(|| csv::sheet(&same, self.style))
    }

    /// The CSV texts of all tables, each name once.
    pub fn sheets(&self) -> Vec<(String, String)> {
        let mut names: Vec<&str> = Vec::new();
        for table in self.tables() {
            if !names.contains(&table.name()) {
                names.push(table.name());
            }
        }
        names.into_iter().filter_map(|name| Some((name.to_owned(), self.csv(name)?))).collect()
    }

    /// Every file of the report: `report.html`, the figures as SVG, the tables
    /// as CSV, `result.json` and the resolved `scenario.toml`.
    ///
    /// # Errors
    /// As [`Document::page`] and [`Document::json`].
    pub fn files(&self) -> Result<Vec<File>, ReportError> {
        let mut files = vec![File::new("report.html", self.page()?)];
        for figure in self.figures() {
            files.push(File::new(format!("{}.svg", figure.name), figure.svg()?));
        }
        let sheets = self.sheets().into_iter();
        files.extend(sheets.map(|(name, text)| File::new(format!("{name}.csv"), text)));
        files.push(File::new("result.json", self.json()?));
        if let Some(origin) = &self.origin {
            files.push(File::new("scenario.toml", origin.provenance.scenario.clone()));
        }
        Ok(files)
    }
}
