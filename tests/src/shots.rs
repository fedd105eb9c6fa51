//! Made-up shots of a made-up bow.

use study::{FitPlan, Observed, Recipe, Refit, SightedArrow, Sought, What};
use units::{Length, Speed};

use crate::recipe::Simple;

/// What the bow, arrow and sight of [`shots`] really are.
pub const TRUTH: [(Sought, f64); 3] =
    [(Sought::Speed, 84.0), (Sought::Drag, 2.6), (Sought::Radius, 0.86)];
/// What its scale reads with the pin level with the arrow, m.
pub const SCALE: f64 = 0.15;

/// A reading at a distance, m, with this error.
pub fn shot(line: usize, distance: f64, what: What, error: Option<f64>) -> Observed {
    Observed { line, distance: Length::from_si(distance), what, error }
}

/// Five marks and, with `speeds`, two chronograph readings, exact but for what
/// `noise` adds, in standard errors; speeds know 0.3 m/s, marks 0.2 mm.
///
/// # Panics
/// Never: the values are possible.
#[expect(clippy::expect_used, reason = "possible values")]
pub fn shots(speeds: bool, mut noise: impl FnMut() -> f64) -> Vec<Observed> {
    let simple = Simple::new();
    let recipe = Refit::new(&simple, TRUTH.to_vec());
    let marker = SightedArrow::new(&recipe, &[], "").expect("a bow");
    let mut out = Vec::new();
    if speeds {
        let at = study::fly_one(&recipe, &[1.0, 40.0], false).expect("a flight");
        for state in &at.states {
            let speed = Speed::from_si(state.velocity.norm() + 0.3 * noise());
            out.push(shot(out.len() + 2, state.position.x, What::Speed(speed), Some(0.3)));
        }
    }
    for distance in [20.0, 30.0, 40.0, 50.0, 60.0] {
        let launch = marker.launch(distance).expect("in reach");
        let geometry = marker.geometry();
        let pin = geometry.pin(geometry.depression(launch, distance));
        let mark = Length::from_si(SCALE - pin + 2e-4 * noise());
        out.push(shot(out.len() + 2, distance, What::Mark(mark), Some(2e-4)));
    }
    out
}

/// A plan to fit some values to shots, with the full flight.
pub fn plan(shots: Vec<Observed>, sought: &[Sought]) -> FitPlan {
    FitPlan {
        build: String::new(),
        shots,
        sought: sought.to_vec(),
        places: [20.0, 40.0, 60.0].map(Length::from_si).to_vec(),
        point_mass: false,
        radius_error: Length::ZERO,
    }
}

/// The bow as its owner knows it: other speed, built-up drag, another radius.
pub fn known() -> impl Recipe {
    Simple::new()
}
