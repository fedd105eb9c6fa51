//! The answers, one file each: its words, its tables and its figures, put in
//! order. No medium is named here.

mod arrow;
mod flight;
mod pin;

pub use arrow::arrow;
pub use flight::flight;
pub use pin::{pin, pin_seen};
