//! Rows for notebooks, as they are said on the command line.

use std::path::Path;

use scenario::measured::{self, Kind};
use units::Style;

use crate::bench::slip::Slip;
use crate::failure::Failure;
use crate::shelf;

/// A row to note: columns and values.
pub(crate) type Values = Vec<(String, String)>;

/// `mass='425 gr'` as column and value.
pub(crate) fn values(said: &[String]) -> Result<Values, Slip> {
    let pair = |text: &String| match text.split_once('=') {
        Some((name, value)) => Ok((name.trim().to_owned(), value.trim().to_owned())),
        None => Err(Slip::Pair { text: text.clone() }),
    };
    said.iter().map(pair).collect()
}

/// Adds rows to a notebook, all or none, or begins it; says whether there was one.
pub(crate) fn add(kind: Kind, file: &Path, rows: &[Values], style: Style) -> Result<bool, Failure> {
    shelf::add_to_book(file, |old| {
        let mut text = old.map(<[u8]>::to_vec);
        for row in rows {
            let more = measured::with_row(kind, file, text.as_deref(), row, style);
            text = Some(more.map_err(Failure::Mistakes)?);
        }
        Ok(text.unwrap_or_default())
    })
}
