//! Physical quantities: SI inside, a unit on everything that goes in or out.
//!
//! Every quantity is a newtype over one `f64` in its SI unit. Text becomes a
//! quantity through one reader, [`read`] (also behind [`parse`] and
//! `str::parse`): `"29.5 in"`, `"28 1/2\""`, `"60 lbs"`, `"285 fps"`. What is not
//! clear is asked, never guessed. A quantity becomes text through [`Role`], which knows the unit and the number
//! of decimals that the trade, or the metric world, would use for that purpose.
//!
//! The factor table in [`table`](Dimension::units) holds exact definitions only.
//!
//! ```
//! use units::{Length, Role, Style, parse};
//!
//! let shaft: Length = parse("28.5 in")?;
//! assert!((shaft.si() - 0.7239).abs() < 1e-12);
//! assert_eq!(Role::Part.text(shaft.si(), Style::Metric), "723.9 mm");
//! let refused = "28.5".parse::<Length>().map_err(|e| e.to_string());
//! assert!(refused.is_err_and(|words| words.contains("unit")));
//! # Ok::<(), units::UnitError>(())
//! ```

mod error;
mod quantity;
mod read;
mod show;
mod spelling;
mod table;

pub use error::UnitError;
pub use quantity::*;
pub use read::{Bare, Reading, like, parse_si, read};
pub use show::{Role, Style};
pub use table::{Dimension, Unit};

/// Standard acceleration of free fall, m/s2. Defined: 3rd CGPM, 1901.
pub const STANDARD_GRAVITY: f64 = 9.806_65;
