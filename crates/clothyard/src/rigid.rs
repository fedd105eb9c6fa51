//! The rigid-body check run: body rates and attitude over time.

use flight::{RigidState, tumble as turn};
use nalgebra::Vector3;
use scenario::RigidBody;
use serde_json::json;

use crate::cli::PrintWord;
use crate::failure::Failure;

/// Relative tolerance. Chosen: rates good to nine digits.
const TOLERANCE: f64 = 1e-11;

pub(crate) fn tumble(body: &RigidBody, shape: PrintWord) -> Result<String, Failure> {
    let rates = Vector3::from(body.rates.map(units::AngularRate::si));
    let times: Vec<f64> =
        (1..=body.steps).map(|step| body.duration.si() * step as f64 / body.steps as f64).collect();
    let inertia = body.inertia.map(units::Inertia::si);
    let solid = flight::RigidBody { inertia, fall: body.fall };
    let states = turn(&solid, rates, &times, TOLERANCE)?;
    Ok(match shape {
        PrintWord::Table => lines(&states, "  "),
        PrintWord::Csv => lines(&states, ","),
        PrintWord::Json => {
            let rows: Vec<_> = states
                .iter()
                .map(|state| {
                    let named = |value: f64, unit: &str| json!({"value": value, "unit": unit});
                    let (roll, pitch, yaw) = state.attitude.euler_angles();
                    json!({
                        "time": named(state.time, "s"),
                        "roll_rate": named(state.rates.x, "rad/s"),
                        "pitch_rate": named(state.rates.y, "rad/s"),
                        "yaw_rate": named(state.rates.z, "rad/s"),
                        "roll": named(roll, "rad"),
                        "pitch": named(pitch, "rad"),
                        "yaw": named(yaw, "rad"),
                        "altitude": named(state.altitude, "m"),
                        "falling": named(state.falling, "m/s"),
                        "carried": named(state.carried, "m"),
                    })
                })
                .collect();
            format!("{:#}\n", json!({ "states": rows }))
        }
    })
}

const HEAD: [&str; 10] = [
    "time (s)",
    "roll rate (deg/s)",
    "pitch rate (deg/s)",
    "yaw rate (deg/s)",
    "roll (deg)",
    "pitch (deg)",
    "yaw (deg)",
    "altitude (m)",
    "falling (m/s)",
    "carried (m)",
];

fn lines(states: &[RigidState], gap: &str) -> String {
    let mut text = HEAD.join(gap) + "\n";
    for state in states {
        let cells = numbers(state).into_iter().zip(HEAD).map(|(value, head)| match gap {
            "," => format!("{value:.9}"),
            _ => format!("{value:>width$.7}", width = head.len()),
        });
        text += &(cells.collect::<Vec<_>>().join(gap) + "\n");
    }
    text
}

fn numbers(state: &RigidState) -> [f64; 10] {
    let (roll, pitch, yaw) = state.attitude.euler_angles();
    let rates = state.rates;
    [
        state.time,
        rates.x.to_degrees(),
        rates.y.to_degrees(),
        rates.z.to_degrees(),
        roll.to_degrees(),
        pitch.to_degrees(),
        yaw.to_degrees(),
        state.altitude,
        state.falling,
        state.carried,
    ]
}
