//! An invented tuning answer for tests of the report. The numbers are
//! plausible, not computed: no test may take one of them for physics.

use arrow::Effects;
use launch::{Departure, LaunchError};
use study::{
    Answer, Banded, BareMark, Clearance, Found, Nearest, Neutral, Offset, Side, Slot, StudyError,
    Tear, Trend, TrendPoint, TrendShot, Tuned, TunedBuild, TuningChange, Turn, Turns,
    UncertainParameter, Who,
};
use units::{Dimension, Length};

use crate::answers::compared;

const YARD: f64 = 0.9144;
const GRAIN: f64 = 6.479_891e-5;

fn banded(value: f64, room: f64) -> Banded {
    Banded { value, low: value - room, high: value + 1.5 * room }
}

/// An offset of this size, its band a share of it.
pub fn offset(left: f64, up: f64) -> Offset {
    let size = left.hypot(up);
    let room = 0.4 * size;
    let size = Banded { value: size, low: size - room, high: size + 1.5 * room };
    Offset { left: banded(left, room), up: banded(up, room), size }
}

fn departure(yaw_rate: f64) -> Departure {
    Departure { speed: 84.0, yaw_rate, pitch_rate: -0.2, yaw: -0.004, ..Departure::default() }
}

fn trend(key: &str, dimension: Dimension, symbol: &str, own: f64, gain: f64) -> Trend {
    let factor = dimension.unit(symbol).map_or(1.0, |unit| unit.factor);
    let points = (-2..=2).map(|step| {
        let value = own * (1.0 + 0.075 * f64::from(step));
        let size = 1.0 + gain * f64::from(step);
        let shot = TrendShot {
            mass: 0.028 + 0.001 * f64::from(step),
            departure: departure(0.5 * size),
            swing: [2e-3 * size, 4e-4],
            apart: [0.02, 0.07, 0.15].map(|left| Some([left * size, -0.3 * left])).into(),
        };
        let short = StudyError::Launch {
            who: Who { build: "hunter".to_owned(), flight: None },
            source: LaunchError::OffRest { rest: 0.69, shaft: 0.62 },
        };
        // A shaft cut too short falls off the rest.
        let gone = key.ends_with("length") && step == -2;
        TrendPoint {
            label: format!("{:.4} {symbol}", value / factor),
            value,
            shot: if gone { Err(short) } else { Ok(shot) },
            left_in: if key.ends_with("spine") {
                vec![Some(0.5 - 0.2 * f64::from(step)); 3]
            } else {
                Vec::new()
            },
        }
    });
    Trend { key: key.to_owned(), dimension, own, points: points.collect() }
}

/// One build, its bare shaft this far to the left at 30 yd, m.
pub fn build(name: &str, left: f64) -> TunedBuild {
    let mark = |tens: f64| BareMark {
        distance: Length::from_si(10.0 * tens * YARD),
        apart: Some(offset(left * (tens / 3.0).powi(2), -0.1 * left)),
        taped: Some([left * (tens / 3.0).powi(2) * 0.9, -0.08 * left]),
        left_in: Some(0.5 + 0.15 * tens),
    };
    let tear = |yards: f64, left: f64| Tear {
        distance: Length::from_si(yards * YARD),
        nock: offset(left, 0.4 * left),
        yaw: -0.03,
        pitch: -0.01,
        vanes: [0.3, 2.4, 4.5].into(),
    };
    let nearest = |gap: f64, clock: f64| Nearest {
        gap: banded(gap, 2e-3),
        travel: 0.6,
        station: 0.05,
        clock,
        after: true,
    };
    let turn = |angle: f64, left: f64| Turn {
        angle,
        moved: [0.2, 0.6, 1.0].map(|part| Some(offset(left * part, 0.3 * left * part))).into(),
    };
    TunedBuild {
        name: name.to_owned(),
        built: crate::built(Effects::default()),
        departure: departure(0.5),
        swing: [2e-3, 4e-4],
        side: Side::Left,
        flicked: false,
        straight: false,
        shaft_radius: 3.1e-3,
        vane_radius: 14.1e-3,
        bare_mass: 26.6e-3,
        bare: [1.0, 2.0, 3.0].map(mark).into(),
        paper: vec![tear(2.0, 0.012), tear(4.0, 0.02), tear(8.0, 0.015)],
        trends: vec![
            trend("arrow.shaft.spine", Dimension::Length, "in", 8.9e-3, 0.2),
            trend("arrow.point.mass", Dimension::Mass, "gr", 100.0 * GRAIN, 0.35),
            trend("arrow.shaft.length", Dimension::Length, "in", 0.72, 0.1),
            trend("bow.draw_weight", Dimension::Force, "lbf", 300.0, -0.1),
        ],
        neutral: Some(Neutral {
            mark: 2,
            changes: vec![
                // Cutting helps most, and is never advised before what can be undone.
                TuningChange { trend: 2, value: 0.9 * 0.72, left_over: 0.08 * left },
                TuningChange { trend: 1, value: 88.0 * GRAIN, left_over: 0.11 * left },
            ],
        }),
        against: Vec::new(),
        clearance: Clearance { riser: Some(nearest(8e-3, 2.094)), rest: Some(nearest(-1e-3, 3.5)) },
        turns: Turns {
            steps: vec![turn(0.0, 0.0), turn(2.094_395, 0.02), turn(4.188_79, -0.011)],
            drawn: None,
        },
        uncertain: vec![UncertainParameter {
            slot: Slot(3),
            key: "bow.restraint".to_owned(),
            dimension: Dimension::Ratio,
            value: 1.0,
            low: 0.5,
            high: 2.0,
        }],
    }
}

/// An answer with these builds; each further one lands this far left and up of
/// the first at 30 yd, m.
pub fn answer(builds: &[(&str, f64)], against: [f64; 2]) -> Answer {
    let mut out = compared(&[("none", 1.0)]);
    "An invented arrow, tuned".clone_into(&mut out.title);
    let mut builds: Vec<TunedBuild> =
        builds.iter().map(|(name, left)| build(name, *left)).collect();
    for build in builds.iter_mut().skip(1) {
        build.against =
            [0.3, 0.6, 1.0].map(|part| Some(offset(against[0] * part, against[1] * part))).into();
        build.turns.drawn = Some(vec![0.004, 0.012, 0.031]);
    }
    let distances = [10.0, 20.0, 30.0].map(|yards| Length::from_si(yards * YARD)).into();
    out.found = Found::Tune(Tuned { distances, builds });
    out
}

/// One build.
pub fn single() -> Answer {
    answer(&[("hunter", 0.13)], [0.0; 2])
}

/// A field point and a fixed blade; the blade's bare shaft turns over at
/// 30 yd.
pub fn bladed() -> Answer {
    let mut out = answer(&[("field point", 0.13), ("fixed blade", 0.4)], [0.02, -0.04]);
    if let Some(build) = of(&mut out).builds.get_mut(1) {
        build.bare[2].apart = None;
        build.bare[2].taped = None;
        build.neutral = Some(Neutral { mark: 1, changes: Vec::new() });
    }
    out
}

/// The tuning of an invented answer, to be changed.
///
/// # Panics
/// When the answer is about something else.
pub fn of(answer: &mut Answer) -> &mut Tuned {
    match &mut answer.found {
        Found::Tune(tuned) => tuned,
        other => panic!("no tuning: {other:?}"),
    }
}
