//! The command line: what it answers, what it writes, how it ends.
#![allow(clippy::unwrap_used)] // A test that panics has failed, as it should.

mod answers;
mod bench;
mod bench_book;
mod bench_sloppy;
mod coach;
mod ends;
mod fit;
mod folders;
mod job;
mod job_slips;
mod kept;
mod killed;
mod marks;
mod push;
mod safety;
mod short;
mod trial;
mod verdict;

/// A sound scenario, small enough to run in a moment.
const SOUND: &str = r#"
title = "Invented: one bent arrow"
[question]
distances = ["20 yd", "40 yd"]
flights = 100
[bow]
draw_weight = "60 lbf"
draw_length = "29 in"
speed = "276 ft/s"
speed_mass = "425 gr"
[arrow.shaft]
outside = "0.246 in"
density = "9.5 gr/in"
spine = "0.340 in"
length = "28.5 in"
[arrow.point]
mass = "100 gr"
[arrow.vanes]
[faults.point_cant]
angle = { rayleigh = "0.2 deg" }
"#;

/// To put below it: air as thick as may be asked for.
const STICKY: &str = r#"
[aero.given]
deceleration = "0.1 1/m"
[sight]
zero = "5 yd"
"#;

/// A rigid body, which has no arrow and asks nothing.
const BODY: &str = r#"
[flight]
model = "rigid-body"
[rigid_body]
inertia_roll = "1 kg m2"
inertia_pitch = "2 kg m2"
inertia_yaw = "3 kg m2"
pitch_rate = "10 deg/s"
steps = 1
"#;
