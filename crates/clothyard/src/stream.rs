//! Where a command prints.

use std::io::Write;

use clap::builder::StyledStr;
use report::gate;

use crate::failure::Failure;

/// A place to print.
pub struct Stream<'a> {
    /// Takes the text.
    pub to: &'a mut dyn Write,
    /// Whether somebody watches it as it comes.
    pub terminal: bool,
    /// Whether the text may be coloured.
    pub colour: bool,
    /// Whether whoever waits for it asks the work to end, as Ctrl-C does.
    pub stopped: &'a (dyn Fn() -> bool + Sync),
}

impl<'a> Stream<'a> {
    /// Into a file or a text, until the end.
    pub fn plain(to: &'a mut dyn Write) -> Self {
        Self { to, terminal: false, colour: false, stopped: &|| false }
    }
}

impl Stream<'_> {
    /// Prints text: the one way out for whatever came in with a file or a name.
    pub(crate) fn print(&mut self, text: &str) -> Result<(), Failure> {
        self.bytes(gate::terminal(text).as_bytes())
    }

    /// Prints bytes as they are.
    pub(crate) fn bytes(&mut self, bytes: &[u8]) -> Result<(), Failure> {
        self.to.write_all(bytes).and_then(|()| self.to.flush()).map_err(Failure::Print)
    }

    /// Prints text that may be coloured.
    pub(crate) fn styled(&mut self, text: &StyledStr) -> Result<(), Failure> {
        self.coloured(&text.to_string(), || text.ansi().to_string())
    }

    /// Prints text, coloured where that is wanted and the text itself would not.
    pub(crate) fn coloured(
        &mut self,
        plain: &str,
        coloured: impl FnOnce() -> String,
    ) -> Result<(), Failure> {
        if self.colour && gate::terminal(plain) == plain {
            self.bytes(coloured().as_bytes())
        } else {
            self.print(plain)
        }
    }
}
