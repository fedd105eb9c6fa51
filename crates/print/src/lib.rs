//! Pages that print at true scale, as PDF and as SVG.
//!
//! A [`Tape`] is one strip with marks or a fan of them across speed, [`Cards`] a page of tables on
//! cards of the usual size, [`Labels`] are for shafts, a [`WorkSheet`] has boxes to tick, a
//! [`ShootingSheet`] the ends of a blind trial and [`KeyPage`] its key. Each becomes a [`Sheet`] in millimetres, with
//! rulers that show whether the printer kept the scale and with crop marks to
//! cut along. Nothing here computes a mark. Described in `docs/model/tape.md`.
//!
//! ```
//! use print::{Look, Strip, Tape, TapeMark};
//!
//! // Distance in half yards, and how far along the strip in metres.
//! let marks = [(40, 0.0), (60, 0.009), (80, 0.021)];
//! let marks = marks.map(|(halves, travel)| TapeMark { halves, travel }).to_vec();
//! let sheet = Tape {
//!     title: "A made-up tape".into(),
//!     care: vec!["Sight in at short range first.".into()],
//!     about: "Nothing real.".into(),
//!     strips: vec![Strip { name: "280 ft/s".into(), note: "made up".into(), marks }],
//!     style: units::Style::Archery,
//!     between: Some((40, 80)),
//!     look: Look::default(),
//! }
//! .sheet()?;
//! assert!(sheet.pdf().starts_with(b"%PDF"));
//! assert!(sheet.svg().contains("21.0 mm"));
//! # Ok::<(), print::PrintError>(())
//! ```

mod card;
mod choose;
mod error;
mod fan;
mod label;
mod letters;
mod look;
mod page;
mod pdf;
mod ruler;
mod sheet;
mod strip;
mod svg;
mod tape;
mod trial;
mod work;

pub use card::{Card, Cards};
pub use error::PrintError;
pub use label::{Label, Labels};
pub use look::{Finest, Ink, Look, Paper};
pub use sheet::Sheet;
pub use tape::{Strip, Tape, TapeMark};
pub use trial::{KeyPage, SheetEnd, SheetReads, ShootingSheet};
pub use work::{Place, WorkColumn, WorkSheet};
