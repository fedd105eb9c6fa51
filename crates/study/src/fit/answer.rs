use units::{Length, Mass, Speed};

use super::{Observed, Sought};

/// What is to be fitted to what.
#[derive(Debug, Clone, PartialEq)]
pub struct FitPlan {
    /// Name of the build; empty when there is only one.
    pub build: String,
    /// What was shot.
    pub shots: Vec<Observed>,
    /// What is sought; the rest stays as in the recipe.
    pub sought: Vec<Sought>,
    /// Distances where another shot might be taken.
    pub places: Vec<Length>,
    /// Fly a point mass.
    pub point_mass: bool,
    /// How well the sight radius is known where it is not sought, one standard deviation.
    pub radius_error: Length,
}

/// A fitted value, SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FittedValue {
    /// Which.
    pub what: Sought,
    /// What the recipe has.
    pub before: f64,
    /// As fitted.
    pub value: f64,
    /// Its standard error.
    pub error: f64,
    /// Lower end of its 95 % interval.
    pub low: f64,
    /// Upper end.
    pub high: f64,
}

/// How one shot fits.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FitRow {
    /// The shot.
    pub shot: Observed,
    /// What the fitted values make of it, SI.
    pub computed: f64,
    /// How far off it is, in standard errors of that; none when the fit goes
    /// through it whatever it says.
    pub studentized: Option<f64>,
    /// Whether it agrees with the others; true when that cannot be told.
    pub agrees: bool,
}

/// Where the size of the errors comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ErrorsFrom {
    /// Every shot states its own.
    Stated,
    /// From how the shots scatter about the fit.
    Residuals,
    /// The usual ones; too few shots to tell.
    Assumed,
}

/// The shot that would tell most.
#[derive(Debug, Clone, PartialEq)]
pub struct NextShot {
    /// The shot, with what it is expected to show.
    pub shot: Observed,
    /// What would be left of each value's error, one for each value sought.
    pub left: Vec<f64>,
}

/// Speeds that say of departure speed and drag what the fit says, each with an error of
/// its own.
#[derive(Debug, Clone, PartialEq)]
pub struct FittedSpeeds {
    /// Mass of the arrow.
    pub mass: Mass,
    /// At the bow, and at the distance where the speed is known independently of that;
    /// none where the fit does not tell one.
    pub speeds: Vec<FittedSpeed>,
}

/// A speed as the balance point passes a distance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FittedSpeed {
    /// The distance, zero at the bow.
    pub distance: Length,
    /// The speed.
    pub speed: Speed,
    /// Its standard error.
    pub error: Speed,
}

/// A fit.
#[derive(Debug, Clone, PartialEq)]
pub struct Fitted {
    /// What was sought, in the order asked.
    pub values: Vec<FittedValue>,
    /// Correlation of each value with each.
    pub correlations: Vec<Vec<f64>>,
    /// What the scale of the sight reads with the pin level with the arrow, m,
    /// if there are sight marks.
    pub scale_zero: Option<f64>,
    /// Whether the numbers of the scale fall as distances rise.
    pub falling: bool,
    /// Every shot.
    pub rows: Vec<FitRow>,
    /// Shots beyond the values fitted.
    pub freedom: usize,
    /// Root mean square of the residuals over their errors; none without
    /// freedom.
    pub scatter: Option<f64>,
    /// What that stays below in 97.5 % of good sets.
    pub scatter_limit: Option<f64>,
    /// Where the size of the errors comes from.
    pub spread: ErrorsFrom,
    /// The same as readings of speed, which any answer can use as evidence.
    pub speeds: FittedSpeeds,
    /// What to shoot next, if any place was given.
    pub next: Option<NextShot>,
    /// Evaluations of the search.
    pub evaluations: usize,
}
