use units::{Angle, Length, Mass};

/// A reading while something turns true.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spun {
    /// Highest less lowest.
    pub total: Length,
    /// The clock position that reads highest; none where it was not noted.
    pub high: Option<Angle>,
}

/// What was measured of one shaft or arrow; none for what was not.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Measured {
    /// Its name or number.
    pub name: String,
    /// Mass of the whole arrow.
    pub mass: Option<Mass>,
    /// Balance point from the bottom of the nock groove.
    pub balance: Option<Length>,
    /// Static spine.
    pub spine: Option<Length>,
    /// Clock position of its stiff side.
    pub stiff: Option<Angle>,
    /// Bottom of the nock groove to the end of the shaft.
    pub length: Option<Length>,
    /// Run-out in the middle of a 28 in span, carried over to it if read on a
    /// shorter one.
    pub run_out: Option<Spun>,
    /// Wobble of the tip in a spin test.
    pub tip: Option<Spun>,
    /// Wobble of the nock's groove in a spin test.
    pub groove: Option<Spun>,
}
