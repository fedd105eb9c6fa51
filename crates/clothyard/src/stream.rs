//! Where a command prints.

use std::io::Write;

use clap::builder::StyledStr;

use crate::failure::Failure;

/// A place to print.
pub struct Stream<'a> {
    /// Takes the text.
    pub to: &'a mut dyn Write,
    /// Whether somebody watches it as it comes.
    pub terminal: bool,
    /// Whether the text may be coloured.
    pub colour: bool,
}

impl Stream<'_> {
    /// Prints text as it is.
    pub(crate) fn print(&mut self, text: &str) -> Result<(), Failure> {
        self.bytes(text.as_bytes())
    }

    /// Prints bytes as they are.
    pub(crate) fn bytes(&mut self, bytes: &[u8]) -> Result<(), Failure> {
        self.to.write_all(bytes).and_then(|()| self.to.flush()).map_err(Failure::Print)
    }

    /// Prints text that may be coloured.
    pub(crate) fn styled(&mut self, text: &StyledStr) -> Result<(), Failure> {
        let text = if self.colour { text.ansi().to_string() } else { text.to_string() };
        self.print(&text)
    }
}
