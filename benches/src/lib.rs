//! Benches, run with `cargo bench -p clothyard-benches`, and what they share.
//! `peers/run` sets the batch beside solvers of others.

mod chain;
mod spent;

use std::f64::consts::TAU;

use arrow::{Built, Effects};
use body::{Across, Attitude, State};
use clothyard_tests::{built, choice, hunter, lopsided, site, start};
use flight::aero::{Aero, aero};
use flight::{Air, Entry, Model, Site};
use nalgebra::Vector3;
use units::{Angle, Speed};

pub use chain::{Chain, chain};
pub use spent::{memory, worked};

/// Distance flown, m; chosen, a long hunting shot.
pub const DISTANCE: f64 = 60.0;
/// Departure speed, m/s; chosen, a usual hunting arrow.
const SPEED: f64 = 85.0;
/// Cross-wind, m/s; chosen.
const WIND: f64 = 3.0;

/// One flight of an invented ensemble.
pub struct Case {
    /// Coefficients, mass properties and air, as others need them.
    pub aero: Aero,
    /// The arrow.
    pub built: Built,
    /// Density, kg/m3.
    pub density: f64,
    /// Gravity, m/s2.
    pub gravity: f64,
    /// Wind in the line frame, m/s.
    pub wind: [f64; 3],
    /// The model made from them.
    pub model: Model<f64>,
    /// The start.
    pub start: State,
}

impl Case {
    /// As the batch wants it, to the given marks.
    pub fn entry<'a>(&'a self, marks: &'a [f64]) -> Entry<'a> {
        Entry { model: &self.model, start: &self.start, marks }
    }
}

fn windy() -> Site {
    let mut site = site();
    site.wind.speed = Speed::from_si(WIND);
    site.wind.from = Angle::from_si(TAU / 4.0);
    site
}

/// Flights of one kind of arrow with unlike faults, aims and kicks, spread
/// evenly: each value runs through the multiples of an irrational number.
///
/// # Panics
/// Never: the values are fixed and possible.
pub fn ensemble(count: usize) -> Vec<Case> {
    (0..count).map(case).collect()
}

#[expect(clippy::expect_used, reason = "fixed and possible values")]
fn case(index: usize) -> Case {
    let share = |root: f64| ((index + 1) as f64 * root.sqrt()).fract();
    let about = |root: f64, reach: f64| reach * (2.0 * share(root) - 1.0);
    let effects = Effects {
        point_tilt: Across::polar(4e-3 * share(2.0), TAU * share(3.0)),
        shaft_tilt: Across::polar(4e-4 * share(5.0), TAU * share(7.0)),
        ..lopsided()
    };
    let (arrow, site) = (built(effects), windy());
    let air = Air::of(&site.weather).expect("standard air");
    let speed = SPEED + about(11.0, 1.0);
    let aero = aero(&hunter(), &arrow, &choice(), &air, speed).expect("finite coefficients");
    let model = Model::new(&aero, &arrow, &air, &site).expect("no profile");
    let mut start = start(speed);
    let aim = Attitude { yaw: about(13.0, 2e-3), pitch: 0.03 + about(17.0, 2e-3) };
    start.velocity = aim.axis() * speed;
    start.axis = Attitude { yaw: aim.yaw + about(19.0, 0.01), pitch: aim.pitch }.axis();
    let rate = Vector3::new(0.0, about(23.0, 1.0), about(29.0, 1.0));
    start.rate = rate - start.axis * start.axis.dot(&rate);
    start.roll = TAU * share(31.0);
    let (density, gravity) = (air.density, site.gravity.si());
    Case { aero, built: arrow, density, gravity, wind: [0.0, WIND, 0.0], model, start }
}
