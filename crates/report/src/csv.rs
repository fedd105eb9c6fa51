//! The tables as CSV: one header row with units, numbers unrounded.

use target::Estimate;
use units::{Role, Style};

/// A CSV text in the making.
pub(crate) struct Sheet {
    style: Style,
    text: String,
    filled: bool,
}

impl Sheet {
    /// An empty sheet.
    pub(crate) fn new(style: Style) -> Self {
        Self { style, text: String::new(), filled: false }
    }

    /// Adds a field, quoted where it must be.
    pub(crate) fn field(&mut self, text: &str) -> &mut Self {
        if self.filled {
            self.text.push(',');
        }
        self.filled = true;
        if text.contains([',', '"', '\n', '\r']) {
            self.text.push('"');
            self.text.push_str(&text.replace('"', "\"\""));
            self.text.push('"');
        } else {
            self.text.push_str(text);
        }
        self
    }

    /// Adds a head with the unit of a role.
    pub(crate) fn head(&mut self, name: &str, role: Role) -> &mut Self {
        let unit = match role.symbol(self.style) {
            "" => "1",
            symbol => symbol,
        };
        self.field(&format!("{name} [{unit}]"))
    }

    /// Adds a number in the unit of a role.
    pub(crate) fn number(&mut self, role: Role, si: f64) -> &mut Self {
        self.field(&role.value(si, self.style).to_string())
    }

    /// Ends the row.
    pub(crate) fn end(&mut self) {
        self.text.push('\n');
        self.filled = false;
    }

    /// The finished text.
    pub(crate) fn finish(self) -> String {
        self.text
    }

    /// Adds the three heads of an estimate.
    pub(crate) fn estimate_head(&mut self, name: &str, role: Role) {
        self.head(name, role).head(&format!("{name} low95"), role);
        self.head(&format!("{name} high95"), role);
    }

    /// Adds an estimate with its interval.
    pub(crate) fn estimate(&mut self, role: Role, estimate: &Estimate) {
        self.number(role, estimate.value).number(role, estimate.low).number(role, estimate.high);
    }

    /// An estimate, or three empty fields where there is none.
    pub(crate) fn maybe(&mut self, role: Role, estimate: Option<&Estimate>) {
        match estimate {
            Some(estimate) => self.estimate(role, estimate),
            None => {
                self.field("").field("").field("");
            }
        }
    }
}
