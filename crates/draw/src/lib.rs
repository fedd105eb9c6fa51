//! Pictures as plain data, and the one place that draws them, as SVG.
//!
//! A [`Figure`] holds parts: [`Lines`] on axes, [`Bars`] with whiskers,
//! [`Shares`] of a whole, [`Frames`] that look at a piece of a plane. Every
//! number in it stands in the unit that its axis names; nothing here knows what
//! a number means, and nothing outside this room knows pixels. A picture that
//! holds a number that is not finite is refused where it is drawn. Equal
//! pictures give equal bytes.
//!
//! ```
//! use draw::{Axis, Ends, Figure, Lines, Panel, Pen, Series};
//!
//! let fall = Series::line(vec![(0.0, 0.0), (0.1, 0.05), (0.2, 0.2)], Pen::series(0));
//! let panel = Panel::new(
//!     Axis::new("time, s", Ends::FromZero),
//!     Axis::new("fall, m", Ends::FromZero).back(),
//!     vec![fall.marked(0).into()],
//! );
//! let svg = Figure::new("fall", "How far a stone falls", Lines::one(panel)).svg()?;
//! assert!(svg.contains("time, s"));
//! # Ok::<(), draw::DrawError>(())
//! ```

mod axes;
mod bars;
mod error;
mod escape;
mod figure;
mod frames;
mod ink;
mod key;
mod lines;
mod mark;
mod paper;
mod shape;

pub use axes::{around, from_zero, hold_zero, smooth};
pub use bars::{Bar, BarRow, Bars, Shares};
pub use error::DrawError;
pub use escape::{escape, visible};
pub use figure::{Figure, Kind};
pub use frames::{Frame, FrameRow, Frames};
pub use ink::{Colour, Dash, GRID, INK, Pen, SOFT, dash, series};
pub use key::Entry;
pub use lines::{Axis, Ends, Lines, Panel, Ticks};
pub use mark::{Mark, Point, Series, Side, Text};
pub use shape::Shape;
