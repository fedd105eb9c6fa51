//! What is asked about sight marks, and what was found. SI throughout; up,
//! over and high are positive.

use arrow::Built;
use launch::Departure;
use sight::Sighting;
use units::{Angle, Dimension, Length, Speed};

use crate::{Banded, Joint, Sweep, UncertainParameter};

/// What marks are wanted.
#[derive(Debug, Clone, PartialEq)]
pub struct MarksPlan {
    /// Name of the build; empty when there is only one.
    pub build: String,
    /// Distances of the marks, rising.
    pub distances: Vec<Length>,
    /// The fewer distances of the hill, change and clearance tables, rising.
    pub places: Vec<Length>,
    /// Distances for which fixed pins are set, rising.
    pub pins: Vec<Length>,
    /// Travel of the pin at one click, if the sight clicks.
    pub click: Option<Length>,
    /// The crosswind of the drift column.
    pub crosswind: Speed,
    /// Slopes, above zero, rising; each is shot up and down.
    pub slopes: Vec<Angle>,
    /// Values to change.
    pub changes: Vec<Sweep>,
    /// What the arc may meet on its way.
    pub twigs: Vec<Obstacle>,
    /// Whether the archer may aim over the arrow's point.
    pub bare: bool,
}

/// A twig, or an edge of a window.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Obstacle {
    /// Its distance.
    pub distance: Length,
    /// Its height above the line of sight, below zero under it.
    pub height: Length,
}

/// Everything about the marks of one build.
#[derive(Debug, Clone, PartialEq)]
pub struct SightMarks {
    /// What was asked.
    pub plan: MarksPlan,
    /// The distance the sight is set for.
    pub zero: Length,
    /// Marks from distances, distances from marks, on level ground.
    pub sighting: Sighting,
    /// The arrow.
    pub built: Built,
    /// Its departure.
    pub departure: Departure,
    /// One row for each distance.
    pub rows: Vec<MarkRow>,
    /// The fixed pins.
    pub pins: Vec<SightPin>,
    /// Aiming over the arrow's point, if asked.
    pub point_on: Option<PointOn>,
    /// Arc of the shots at `places`, and at the zero, rising.
    pub arcs: Vec<Arc>,
    /// One for each slope: down the steepest first, up the steepest last.
    pub hills: Vec<Slope>,
    /// One for each changed key.
    pub changes: Vec<MarkChange>,
    /// One for each twig.
    pub twigs: Vec<ObstacleClearance>,
    /// The poorly known values that make the bands.
    pub uncertain: Vec<UncertainParameter>,
    /// Rows and pins at every outer point, and every other table at the first of
    /// them; none where nothing is poorly known.
    pub unknown: Option<Box<Joint<SightMarks>>>,
}

/// The shot at one distance, the pin set for it.
#[derive(Debug, Clone, PartialEq)]
pub struct MarkRow {
    /// Distance, m.
    pub distance: f64,
    /// Launch angle above the line to the target, rad.
    pub launch: f64,
    /// How far the line of sight dips below the arrow's line, rad.
    pub depression: f64,
    /// Pin above the arrow, m.
    pub pin: f64,
    /// How far the pin stands below where the zero has it, m, with its band for
    /// what is not known on a sight that is set at the zero by shooting.
    pub travel: Banded,
    /// Clicks down from the zero, if the sight clicks.
    pub clicks: Option<f64>,
    /// Fall below the line of departure, m, positive downward.
    pub drop: f64,
    /// Height above the line of sight as zeroed, m.
    pub above_sight: f64,
    /// For each pin, how far over the target to hold it, m.
    pub holds: Vec<f64>,
    /// How far over the target to hold the arrow's point, m, if asked.
    pub point_hold: Option<f64>,
    /// Time of flight, s.
    pub time: f64,
    /// Speed, m/s.
    pub speed: f64,
    /// Kinetic energy, J.
    pub energy: f64,
    /// Momentum, kg m/s.
    pub momentum: f64,
    /// How far the plan's crosswind carries it downwind, m.
    pub drift: f64,
    /// Pitch of the velocity against the line to the target, rad.
    pub path_pitch: f64,
    /// Distance of the highest point above the line of sight, m.
    pub apex_at: f64,
    /// How high that is above the line of sight, m.
    pub apex: f64,
}

/// A fixed pin.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SightPin {
    /// The distance it is set for, m.
    pub zero: f64,
    /// The other distance that it is right for too, m, if there is one among
    /// the marks.
    pub twin: Option<f64>,
    /// Above the arrow, m.
    pub height: f64,
    /// Its line of sight below the arrow, rad.
    pub depression: f64,
}

/// Aiming with the point of the drawn arrow.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PointOn {
    /// Its line of sight below the arrow, rad.
    pub depression: f64,
    /// The distance at which the point is held on the target, m; none below
    /// [`FARTHEST`](super::FARTHEST).
    pub distance: Option<f64>,
}

/// The arc of one shot.
#[derive(Debug, Clone, PartialEq)]
pub struct Arc {
    /// Its target, m.
    pub distance: f64,
    /// Distances, m, and heights above the line of sight, m.
    pub points: Vec<(f64, f64)>,
    /// The height above the line of sight at each of the plan's distances, m;
    /// none beyond the target.
    pub gaps: Vec<Option<f64>>,
}

/// Shots on one slope.
#[derive(Debug, Clone, PartialEq)]
pub struct Slope {
    /// The slope, rad, up positive.
    pub slope: f64,
    /// One for each of `places`, measured along the slope.
    pub shots: Vec<SlopeShot>,
}

/// One shot on a slope.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SlopeShot {
    /// Distance along the slope, m.
    pub distance: f64,
    /// The level distance to dial, m; none when no level mark is so high.
    pub dial: Option<f64>,
    /// Pin above the arrow, m.
    pub pin: f64,
    /// The level distance of the common cosine rule, m.
    pub cosine: f64,
    /// How high the arrow meets the target when that is dialled, m.
    pub cosine_miss: f64,
    /// How high it meets it when the distance along the slope is dialled, m.
    pub slope_miss: f64,
    /// How high it meets it when the highest mark is dialled, m; zero where
    /// there is a mark to dial.
    pub least_miss: f64,
}

/// What changing one value does.
#[derive(Debug, Clone, PartialEq)]
pub struct MarkChange {
    /// Dotted key.
    pub key: String,
    /// What it measures.
    pub dimension: Dimension,
    /// One for each value.
    pub values: Vec<ChangeValue>,
}

/// What one value in place of the scenario's does at each of `places`.
#[derive(Debug, Clone, PartialEq)]
pub struct ChangeValue {
    /// The value.
    pub value: f64,
    /// As written.
    pub label: String,
    /// Departure speed, m/s.
    pub speed: f64,
    /// How high the arrow meets the target with the old marks, m.
    pub shifts: Vec<f64>,
    /// How far the pin must go down from the old mark, m.
    pub moves: Vec<f64>,
    /// The same once the sight is set anew at its zero, m.
    pub rezeroed: Vec<f64>,
}

/// Shots past a twig.
#[derive(Debug, Clone, PartialEq)]
pub struct ObstacleClearance {
    /// The twig.
    pub twig: Obstacle,
    /// Half the room that the arrow takes across its path, vanes included, m.
    pub reach: f64,
    /// For each of `places`, how far the arrow's line passes above the twig,
    /// m; none where the twig is not between bow and target.
    pub over: Vec<Option<f64>>,
}

/// How an arrow passes a twig.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Passing {
    /// Above it.
    Over,
    /// Below it.
    Under,
    /// It touches.
    Touching,
}

impl ObstacleClearance {
    /// How a shot that passes so far above the twig passes it.
    pub fn passing(&self, over: f64) -> Passing {
        if over.abs() <= self.reach {
            Passing::Touching
        } else if over > 0.0 {
            Passing::Over
        } else {
            Passing::Under
        }
    }
}
