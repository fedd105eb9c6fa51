//! Physical quantities: SI inside, a unit on everything that goes in or out.
//!
//! Every quantity is a newtype over one `f64` in its SI unit. Text such as
//! `"29.5 in"` becomes a quantity through [`parse`] (or `str::parse`), and a
//! quantity becomes text through [`Role`], which knows the unit and the number
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
mod parse;
mod quantity;
mod show;
mod table;

pub use error::UnitError;
pub use parse::parse_si;
pub use quantity::*;
pub use show::{Role, Style};
pub use table::{Dimension, Unit};

/// Standard acceleration of free fall, m/s2. Defined: 3rd CGPM, 1901.
pub const STANDARD_GRAVITY: f64 = 9.806_65;
