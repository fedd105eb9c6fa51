//! What is found of each build, whatever was asked of it.

use arrow::Built;
use launch::Departure;
use target::{Estimate, Group, Impact};
use units::Length;

use crate::{Owner, UncertainParameter};

/// The fault-free, formless arrow at one distance, SI, in the line frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Nominal {
    /// Time of flight, s.
    pub time: f64,
    /// Speed, m/s.
    pub speed: f64,
    /// Kinetic energy, J.
    pub energy: f64,
    /// Momentum, kg m/s.
    pub momentum: f64,
    /// Fall below the line of departure, m, positive downward.
    pub drop: f64,
    /// Height above the line of sight as zeroed, m.
    pub above_sight: f64,
    /// Sideways place, m, left positive.
    pub left: f64,
    /// Descent: pitch of the velocity, rad, up positive.
    pub path_pitch: f64,
    /// Spin, rad/s.
    pub spin: f64,
}

/// The groups at one distance.
#[derive(Debug, Clone, PartialEq)]
pub struct MarkAnswer {
    /// Distance.
    pub distance: Length,
    /// The nominal arrow.
    pub nominal: Nominal,
    /// Archer and arrows together.
    pub full: Sampled,
    /// Faulty arrows from a machine without form error.
    pub machine: Sampled,
    /// The same archer with perfect arrows.
    pub form: Sampled,
    /// Band of the nominal arrow's drop for what is not known, m.
    pub drop_band: (f64, f64),
    /// Band of the machine group's R50 for what is not known, m.
    pub machine_band: (f64, f64),
    /// Chance of a hit in the zone (or of a ten, for a face), archer and
    /// arrows together.
    pub hit: Estimate,
    /// Expected score per arrow on a face; none for a zone.
    pub score: Option<Estimate>,
}

/// A group with a sample of its impacts for drawing.
#[derive(Debug, Clone, PartialEq)]
pub struct Sampled {
    /// Statistics.
    pub stats: Group,
    /// The first impacts, at most 300.
    pub sample: Vec<Impact>,
}

/// The machine group with only the faults of one owner, per distance.
#[derive(Debug, Clone, PartialEq)]
pub struct Cause {
    /// Whose faults.
    pub owner: Owner,
    /// R50 at each distance, m.
    pub r50: Vec<Estimate>,
}

/// All about one build.
#[derive(Debug, Clone, PartialEq)]
pub struct BuildAnswer {
    /// Name.
    pub name: String,
    /// The nominal arrow.
    pub built: Built,
    /// The nominal arrow's departure.
    pub departure: Departure,
    /// Arrow mass over peak draw force, kg/N.
    pub mass_per_force: f64,
    /// Launch angle above the line of sight, rad.
    pub launch_pitch: f64,
    /// Flights flown per group.
    pub flights: usize,
    /// Steps of each of those flights to the farthest distance.
    pub steps: u32,
    /// The distances.
    pub marks: Vec<MarkAnswer>,
    /// Machine groups by owner of the faults.
    pub causes: Vec<Cause>,
    /// The doubts that the bands rest on.
    pub uncertain: Vec<UncertainParameter>,
}
