//! What was found for a tuning question. SI; left and up positive.

use arrow::Built;
use launch::{Departure, Side};
use units::{Dimension, Length};

use crate::{Banded, StudyError, UncertainParameter};

/// How an arrow leaves: speed, velocity left and up, m/s; yaw and pitch, rad;
/// their rates, rad/s.
pub fn leaving(departure: &Departure) -> [f64; 7] {
    let d = departure;
    [d.speed, d.velocity_left, d.velocity_up, d.yaw, d.pitch, d.yaw_rate, d.pitch_rate]
}

/// How far one place lies from another across the line of the shot, m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Offset {
    /// To the left.
    pub left: Banded,
    /// Up.
    pub up: Banded,
    /// Its size.
    pub size: Banded,
}

impl Offset {
    /// An offset without bands.
    pub(crate) fn new([left, up]: [f64; 2]) -> Self {
        let [left, up, size] = [left, up, left.hypot(up)].map(Banded::sure);
        Self { left, up, size }
    }
}

/// The bare shaft at one distance, shot with the fletched arrow's aim.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BareMark {
    /// Distance.
    pub distance: Length,
    /// Bare less fletched, vanes taken off and nothing put in their place;
    /// none when the bare shaft turns over before it gets there.
    pub apart: Option<Offset>,
    /// Bare less fletched with the vanes' weight left in their place (tape),
    /// left and up, m.
    pub taped: Option<[f64; 2]>,
    /// Share of what is poorly known, all drawn together, in which the bare
    /// shaft lands to the left of the fletched one; none where it never gets
    /// there, or never lands to a side.
    pub left_in: Option<f64>,
}

/// What a sheet of paper shows.
#[derive(Debug, Clone, PartialEq)]
pub struct Tear {
    /// Where the sheet stands.
    pub distance: Length,
    /// From the hole of the tip to where the nock passes.
    pub nock: Offset,
    /// Nose left of the path as the tip meets the sheet, rad.
    pub yaw: f64,
    /// Nose above the path as the tip meets the sheet, rad.
    pub pitch: f64,
    /// Clock position of each vane as the nock passes, rad.
    pub vanes: Vec<f64>,
}

/// One shot of a trend.
#[derive(Debug, Clone, PartialEq)]
pub struct TrendShot {
    /// Mass of the fletched arrow, kg.
    pub mass: f64,
    /// Its departure.
    pub departure: Departure,
    /// Amplitude of its first bending mode at the tip, left and up, m.
    pub swing: [f64; 2],
    /// Bare less fletched at each distance, left and up, m; none where the
    /// bare shaft turns over before.
    pub apart: Vec<Option<[f64; 2]>>,
}

/// One value of a trend.
#[derive(Debug, Clone, PartialEq)]
pub struct TrendPoint {
    /// The value as written.
    pub label: String,
    /// The value.
    pub value: f64,
    /// The shot, or why there is none.
    pub shot: Result<TrendShot, StudyError>,
    /// As [`BareMark::left_in`] at each distance; empty but where spine is
    /// varied.
    pub left_in: Vec<Option<f64>>,
}

/// One value of the scenario varied, all else the same.
#[derive(Debug, Clone, PartialEq)]
pub struct Trend {
    /// Dotted key.
    pub key: String,
    /// What it measures.
    pub dimension: Dimension,
    /// The scenario's own value.
    pub own: f64,
    /// The values, in the order asked.
    pub points: Vec<TrendPoint>,
}

impl Trend {
    /// Every value whose bare shaft comes to a distance, and how far bare and
    /// fletched then are apart, m.
    pub fn apart(&self, mark: usize) -> Vec<(f64, f64)> {
        let apart = |point: &TrendPoint| {
            let [left, up] = point.shot.as_ref().ok()?.apart[mark]?;
            Some((point.value, left.hypot(up)))
        };
        self.points.iter().filter_map(apart).collect()
    }

    /// How far bare and fletched are apart with a value between those tried, m:
    /// straight between the separations of its two neighbours.
    pub fn left_over(&self, mark: usize, value: f64) -> Option<f64> {
        let place = |point: &TrendPoint| {
            Some((point.value, (*point.shot.as_ref().ok()?.apart.get(mark)?)?))
        };
        let mut known: Vec<(f64, [f64; 2])> = self.points.iter().filter_map(place).collect();
        known.sort_by(|a, b| a.0.total_cmp(&b.0));
        let after = known.iter().position(|point| point.0 >= value)?;
        let (high, [m, n]) = known[after];
        let Some((low, [l, u])) = after.checked_sub(1).map(|before| known[before]) else {
            return (high.to_bits() == value.to_bits()).then(|| m.hypot(n));
        };
        let share = (value - low) / (high - low);
        Some((l + share * (m - l)).hypot(u + share * (n - u)))
    }

    /// The one of these with the least distance between the two.
    pub fn nearest(&self, mark: usize) -> Option<(f64, f64)> {
        self.apart(mark).into_iter().min_by(|a, b| a.1.total_cmp(&b.1))
    }
}

/// The value of one trend that brings the shot nearest neutral.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TuningChange {
    /// Index of the trend.
    pub trend: usize,
    /// The value to change to.
    pub value: f64,
    /// How far apart bare and fletched are left with it, m, straight between the values
    /// tried.
    pub left_over: f64,
}

/// How far the shot is from neutral: bare and fletched in one place at the
/// farthest distance that the bare shaft reaches.
#[derive(Debug, Clone, PartialEq)]
pub struct Neutral {
    /// Index of that distance.
    pub mark: usize,
    /// Of each value its best, the nearest first; those that take away less than a fifth
    /// of the separation are left out.
    pub changes: Vec<TuningChange>,
}

/// The nearest that a vane comes to something.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Nearest {
    /// Distance of the vane's nearest part, m; negative by how far it would
    /// reach in.
    pub gap: Banded,
    /// How far the nock has moved since full draw, m.
    pub travel: f64,
    /// Station on the arrow, m from the nock groove.
    pub station: f64,
    /// Clock position of the vane, rad from straight up.
    pub clock: f64,
    /// Whether the nock has left the string by then.
    pub after: bool,
}

/// How near the vanes come to the bow.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Clearance {
    /// To the side of the riser.
    pub riser: Option<Nearest>,
    /// To the rest; none for a rest that holds all round, which vanes always
    /// touch.
    pub rest: Option<Nearest>,
}

/// The nock turned in the shaft by one step.
#[derive(Debug, Clone, PartialEq)]
pub struct Turn {
    /// By how much, rad, clockwise seen from the nock.
    pub angle: f64,
    /// How far the impact moves at each distance.
    pub moved: Vec<Option<Offset>>,
}

/// What turning the nock does.
#[derive(Debug, Clone, PartialEq)]
pub struct Turns {
    /// Every step that keeps the vanes where they are, the first by zero.
    pub steps: Vec<Turn>,
    /// Median over arrows as drawn of the widest distance between two of
    /// their impacts, at each distance, m; none where nothing is drawn.
    pub drawn: Option<Vec<f64>>,
}

/// All about one build.
#[derive(Debug, Clone, PartialEq)]
pub struct TunedBuild {
    /// Name.
    pub name: String,
    /// The arrow, with the faults that the scenario fixes.
    pub built: Built,
    /// Its departure.
    pub departure: Departure,
    /// Amplitude of its first bending mode at the tip, left and up, m.
    pub swing: [f64; 2],
    /// On which side of the riser the arrow lies.
    pub side: Side,
    /// Whether the string leaves with a push to a side, as off fingers.
    pub flicked: bool,
    /// Whether neither release nor nock path moves the nock sideways: nothing then bends
    /// the shaft to a side, and no spine shows.
    pub straight: bool,
    /// Radius of the shaft, m.
    pub shaft_radius: f64,
    /// Radius to the vanes' outer edge, m.
    pub vane_radius: f64,
    /// Mass of the bare shaft, kg.
    pub bare_mass: f64,
    /// Bare against fletched.
    pub bare: Vec<BareMark>,
    /// Paper tears.
    pub paper: Vec<Tear>,
    /// Trends.
    pub trends: Vec<Trend>,
    /// How far from neutral; none when the bare shaft reaches no distance.
    pub neutral: Option<Neutral>,
    /// Impact less that of the first build, shot with the first build's aim;
    /// empty for the first build.
    pub against: Vec<Option<Offset>>,
    /// How near the vanes come to the bow.
    pub clearance: Clearance,
    /// Turning the nock.
    pub turns: Turns,
    /// The doubts that the bands rest on.
    pub uncertain: Vec<UncertainParameter>,
}

impl TunedBuild {
    /// Every number that has a band, in one order; none where there is no such
    /// number.
    pub(crate) fn banded(&mut self) -> Vec<Option<&mut Banded>> {
        let mut all = Vec::new();
        let clearance = &mut self.clearance;
        for pass in [&mut clearance.riser, &mut clearance.rest] {
            all.push(pass.as_mut().map(|pass| &mut pass.gap));
        }
        let offsets = self
            .bare
            .iter_mut()
            .map(|mark| mark.apart.as_mut())
            .chain(self.against.iter_mut().map(Option::as_mut))
            .chain(self.turns.steps.iter_mut().flat_map(|t| t.moved.iter_mut().map(Option::as_mut)))
            .chain(self.paper.iter_mut().map(|tear| Some(&mut tear.nock)));
        for offset in offsets {
            match offset {
                Some(Offset { left, up, size }) => all.extend([Some(left), Some(up), Some(size)]),
                None => all.extend([None, None, None]),
            }
        }
        all
    }
}

/// The answer to a tuning question.
#[derive(Debug, Clone, PartialEq)]
pub struct Tuned {
    /// Distances.
    pub distances: Vec<Length>,
    /// The builds, in the order asked.
    pub builds: Vec<TunedBuild>,
}
