//! Times our own flights and writes the ensemble for the solvers of others.
//!
//! `peers DIR` writes `DIR/ensemble.f64` (little-endian, one row of numbers a
//! flight, in the order of [`row`]) and prints one line a design: name, error
//! in mm, flights a second.
#![expect(clippy::unwrap_used, reason = "a bench that cannot run should stop")]
#![allow(clippy::print_stdout, reason = "a bench prints what it measured")]

mod body_fixed;
mod count;
mod million;
mod peak;

use std::hint::black_box;
use std::io::Write;
use std::time::Instant;

use clothyard_benches::{Case, DISTANCE, ensemble};
use flight::{Entry, Steps, Tolerance, fly, fly_batch, pilot_steps};
use rayon::prelude::*;

/// Flights in the ensemble, and how many of them have a reference.
const FLIGHTS: usize = 10_240;
const KNOWN: usize = 256;
/// The reference integrates to this; tighter ones meet rounding.
const REFERENCE: Tolerance = Tolerance { relative: 1e-13, per_turn: 16.0 };
/// Flights handed to a thread at a time.
const CHUNK: usize = 64;
const MARKS: [f64; 1] = [DISTANCE];

fn main() {
    let folder = std::path::PathBuf::from(std::env::args_os().nth(1).unwrap());
    let cases = ensemble(FLIGHTS);
    let known: Vec<[f64; 3]> =
        cases[..KNOWN].par_iter().map(|case| end(case, &REFERENCE)).collect();
    write(&folder.join("ensemble.f64"), &cases, &known);

    let alone = Tolerance::default();
    report("ode_solvers Dopri5, same frame, our default", &known, |i| end(&cases[i], &alone));
    for relative in [1e-2, 1e-3, 1e-4] {
        let name = format!("ode_solvers Dopri5, same frame, rtol {relative:.0e}");
        let loose = Tolerance { relative, per_turn: 1.5 };
        if report(&name, &known, |i| end(&cases[i], &loose)) < 0.05 {
            break;
        }
    }
    for relative in [1e-5, 1e-6, 1e-7, 1e-8] {
        let name = format!("ode_solvers Dop853, body-fixed quaternion, time, rtol {relative:.0e}");
        if report(&name, &known, |i| body_fixed::end(&cases[i], known[i][2], relative)) < 0.05 {
            break;
        }
    }
    let entries: Vec<Entry> = cases.iter().map(|case| case.entry(&MARKS)).collect();
    let chosen = pilot_steps(&entries[0]);
    let flops = count::step(&cases[0]);
    println!("# floating-point operations a step: {flops}; steps chosen: {}", chosen.total());
    let one = rayon::ThreadPoolBuilder::new().num_threads(1).build().unwrap();
    let peak = one.install(peak::flops);
    println!("# fused peak of one core: {:.1} GFLOP/s", peak * 1e-9);
    for (word, count) in [("", 45), ("", 80), ("", 120), ("chosen ", chosen.total())] {
        let steps = Steps::new(count);
        let error = worst(&known, &batch(&entries[..KNOWN], steps));
        let rate = FLIGHTS as f64 / best(|| one.install(|| batch(&entries, steps)));
        let share = rate * f64::from(count) * flops as f64 / peak;
        println!(
            "batch, {word}{count} steps\t{error:.4}\t{rate:.0}\t{:.0} % of peak",
            100.0 * share
        );
    }
    for threads in [1, 2] {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        let rate = FLIGHTS as f64 / best(|| pool.install(|| batch(&entries, chosen)));
        println!("# batch on {threads} core(s): {rate:.0} flights/s");
        let start = Instant::now();
        let group = pool.install(|| million::group(&cases, chosen));
        let (time, size) = (start.elapsed().as_secs_f64(), million::FLIGHTS);
        println!("# {size} flights with statistics on {threads} core(s): {time:.2} s, {group}");
    }
    println!("# most memory: {:.0} MB", clothyard_benches::memory());
}

/// Height, left and time at the end of a flight.
type Place = [f64; 3];

fn end(case: &Case, tolerance: &Tolerance) -> Place {
    let flown = fly(&case.model, &case.start, &MARKS, tolerance).unwrap();
    place(&flown.marks[0])
}

fn place(state: &body::State) -> Place {
    [state.position.y, state.position.z, state.time]
}

fn batch(entries: &[Entry], steps: Steps) -> Vec<Place> {
    entries
        .par_chunks(CHUNK)
        .flat_map_iter(|chunk| {
            let flown = fly_batch(chunk, steps);
            flown.into_iter().map(|states| place(&states.unwrap()[0]))
        })
        .collect()
}

/// Largest miss of any flight with a reference, mm.
fn worst(known: &[Place], got: &[Place]) -> f64 {
    let miss = |(a, b): (&Place, &Place)| (a[0] - b[0]).hypot(a[1] - b[1]) * 1e3;
    known.iter().zip(got).map(miss).fold(0.0, f64::max)
}

/// Least time of several runs, s.
fn best<T>(mut run: impl FnMut() -> T) -> f64 {
    let time = |()| {
        let start = Instant::now();
        black_box(run());
        start.elapsed().as_secs_f64()
    };
    [(); 15].map(time).into_iter().fold(f64::INFINITY, f64::min)
}

/// Times flights flown one by one, prints the line and gives the error.
fn report(name: &str, known: &[Place], fly: impl Fn(usize) -> Place) -> f64 {
    let all = || (0..KNOWN).map(&fly).collect::<Vec<_>>();
    let error = worst(known, &all());
    println!("{name}\t{error:.4}\t{:.0}", KNOWN as f64 / best(all));
    error
}

/// The numbers of one flight for others: half density over mass, over
/// transverse and over axial inertia; axial over transverse inertia; drag (3),
/// slope (3), cross-flow and the ends of the shaft, that of the vanes and its
/// arm, roll (2), side (2), its
/// arm (2); gravity; wind (3); the start: y, z, velocity (3), axis (3), its
/// rate (3), spin, roll; the reference: y, z, time (not a number if none).
fn row(case: &Case, known: Option<&Place>) -> Vec<f64> {
    let Case { aero, built, density, gravity, wind, start, .. } = case;
    let half = 0.5 * density;
    let (transverse, axial) = (built.mass.transverse().si(), built.mass.axial().si());
    let rate = start.rate.cross(&start.axis);
    let mut row =
        vec![half / built.mass.mass().si(), half / transverse, half / axial, axial / transverse];
    row.extend(aero.drag);
    row.extend([aero.slope, aero.slope_arm, aero.slope_arm2]);
    row.extend([aero.cross_flow, aero.shaft_span.0, aero.shaft_span.1]);
    row.extend([aero.vane_flow.0, aero.vane_flow.1]);
    row.extend([aero.roll_forcing, aero.roll_damping]);
    row.extend([aero.side.at0, aero.side.at90, aero.side_arm.at0, aero.side_arm.at90]);
    row.push(*gravity);
    row.extend(wind);
    row.extend([start.position.y, start.position.z]);
    for vector in [&start.velocity, &start.axis, &rate] {
        row.extend(vector.iter());
    }
    row.extend([start.spin, start.roll]);
    row.extend(known.unwrap_or(&[f64::NAN; 3]));
    row
}

fn write(path: &std::path::Path, cases: &[Case], known: &[Place]) {
    let mut file = std::io::BufWriter::new(std::fs::File::create(path).unwrap());
    for (i, case) in cases.iter().enumerate() {
        for value in row(case, known.get(i)) {
            file.write_all(&value.to_le_bytes()).unwrap();
        }
    }
}
