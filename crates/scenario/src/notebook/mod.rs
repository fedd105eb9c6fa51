//! Notebooks: CSV files as any spreadsheet writes them.
//!
//! Columns in any order, a unit in the head (`mass [gr]`) or in each cell,
//! decimal points or commas, comma, semicolon or tab between cells, blank
//! cells, a byte-order mark, lines that begin with `#`. Every mistake of a file
//! is told at once, with line and column.

mod add;
mod book;
mod mistake;
mod readings;
mod sheet;

pub use add::add_row;
pub use book::Book;
pub use mistake::{Mistake, NotebookMistake, NotebookReport};
pub use readings::{ShaftReadings, Stations, batch, faces, profiles, turn_shots};
