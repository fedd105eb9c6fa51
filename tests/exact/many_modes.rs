//! The elastic push against the same arrow with many more motions.

use arrow::Faults;
use clothyard_tests::push::{arrow, bow, recurve};
use launch::{Bow, Detail, Form, Machine, NominalPush, SpeedSource, beam, watch};
use nalgebra::{DMatrix, DVector};
use units::{Acceleration, Angle, Ratio};

/// Places of a sum. Chosen: finer than the tolerance asks.
const PLACES_4000: u32 = 4000;
/// Places of a sum. Chosen: finer than the tolerance asks.
const STEPS_5000: u32 = 5000;

const MANY: usize = 24;
const ALL: usize = 2 + MANY;

/// The arrow's motions at a station: place, angle, free modes.
fn shape(modes: &launch::Modes<MANY>, lever: f64, x: f64) -> [[f64; ALL]; 2] {
    let (value, slope) = modes.at(x);
    let mut out = [[0.0; ALL]; 2];
    out[0][..2].copy_from_slice(&[1.0, x - lever]);
    out[1][..2].copy_from_slice(&[0.0, 1.0]);
    out[0][2..].copy_from_slice(&value);
    out[1][2..].copy_from_slice(&slope);
    out
}

/// C: 24 free bending modes in place of four and a residual shape, the string's
/// mass and the bow's inner motions as coordinates of one mass matrix, for a
/// groove 0.1 mm off: turning at departure within 2.5 % (the five shapes).
#[test]
#[expect(clippy::too_many_lines, reason = "one derivation, read as a whole")]
fn exact_many_modes_agree_with_the_push() {
    let offset = 1e-4;
    let (parts, mut built) = arrow(&Faults::default());
    built.shape.groove.at0 += offset;
    built.shape.groove.at90 -= offset;
    for base in [bow(), recurve()] {
        let mut bow = Bow {
            speed: SpeedSource::Stored,
            hysteresis: Ratio::ZERO,
            gravity: Acceleration::ZERO,
            ..base
        };
        bow.restraint.up = Ratio::from_si(1.0);
        bow.restraint.left = Ratio::from_si(1.0);
        bow.release.left = units::Momentum::ZERO;
        bow.rest.share = Ratio::ZERO;
        let (form, detail) = (Form::default(), Detail::default());
        let own = watch(&bow, &parts, &built, Angle::ZERO, &form, detail).unwrap().departure;

        let (mass, lever) = (built.mass.mass().si(), built.mass.balance().si());
        let machine = Machine::new(&bow).unwrap();
        let push = NominalPush::new(&machine, mass, bow.string.grip.si()).unwrap();
        let beam = beam(&parts, &built);
        let modes = beam.modes_with::<MANY>(32).unwrap();
        let [groove, lean] = shape(&modes, lever, 0.0);
        let mut thrust = DMatrix::zeros(ALL, ALL);
        let ahead = |x: f64| {
            let lumps: f64 = beam.lumps.iter().filter(|l| l.station > x).map(|l| l.mass).sum();
            lumps + beam.density * (beam.front - x.max(beam.rear)).max(0.0)
        };
        let tip = beam.lumps.iter().map(|l| l.station).fold(beam.front, f64::max);
        for i in 0..PLACES_4000 {
            let x = tip * (f64::from(i) + 0.5) / f64::from(PLACES_4000);
            let [_, slope] = shape(&modes, lever, x);
            let weight = ahead(x) * tip / f64::from(PLACES_4000);
            for i in 0..ALL {
                for j in 0..ALL {
                    thrust[(i, j)] += weight * slope[i] * slope[j];
                }
            }
        }
        thrust[(1, 1)] = mass * lever;
        let mut inertia = [1.0; ALL];
        inertia[..2].copy_from_slice(&[mass, built.mass.transverse().si()]);
        let damping = 2.0 * parts.shaft.damping.si();

        let run = |up: bool| -> f64 {
            // Arrow's motions, then the bow's two.
            const N: usize = ALL + 2;
            let acceleration = |time: f64, q: &[f64], v: &[f64]| -> Vec<f64> {
                let at = push.at(time);
                let mut m = DMatrix::zeros(N, N);
                let mut f = DVector::zeros(N);
                let n: f64 = (0..ALL).map(|i| groove[i] * q[i]).sum::<f64>() + offset;
                let hold = &at.hold;
                let pulled = if up {
                    let [zz, z0, z1, a, b, c] = hold.up;
                    let (p, r) = (q[ALL], q[ALL + 1]);
                    [zz * n + z0 * p + z1 * r, z0 * n + a * p + b * r, z1 * n + b * p + c * r]
                } else {
                    [hold.side * n, 0.0, 0.0]
                };
                for i in 0..ALL {
                    m[(i, i)] = inertia[i];
                    let flaw = -mass * offset * lean[i];
                    let push: f64 = (0..ALL).map(|j| thrust[(i, j)] * q[j]).sum();
                    f[i] = at.acceleration * (push + flaw) - groove[i] * pulled[0];
                    if i > 1 {
                        let omega = modes.frequency[i - 2];
                        f[i] -= omega * omega * q[i] + damping * omega * v[i];
                    }
                }
                for i in 0..ALL {
                    for j in 0..ALL {
                        m[(i, j)] += hold.mass * groove[i] * groove[j];
                    }
                    if up {
                        m[(i, ALL)] += hold.across * groove[i];
                        m[(ALL, i)] += hold.across * groove[i];
                    }
                }
                for k in 0..2 {
                    m[(ALL + k, ALL + k)] = hold.inside[k];
                    f[ALL + k] = -pulled[1 + k];
                }
                m.lu().solve(&f).unwrap().iter().copied().collect()
            };
            let slope = |time: f64, y: &[f64]| {
                let (q, v) = y.split_at(N);
                [v, &acceleration(time, q, v)].concat()
            };
            let mut y = vec![0.0; 2 * N];
            let rest = bow.rest.ahead.si() + machine.stroke();
            y[1] = offset / rest;
            y[0] = lever * y[1] - offset;
            let h = push.duration() / f64::from(STEPS_5000);
            let along = |y: &[f64], k: &[f64], by: f64| -> Vec<f64> {
                y.iter().zip(k).map(|(y, k)| y + by * k).collect()
            };
            for step in 0..STEPS_5000 {
                let t = h * f64::from(step);
                let k1 = slope(t, &y);
                let k2 = slope(t + 0.5 * h, &along(&y, &k1, 0.5 * h));
                let k3 = slope(t + 0.5 * h, &along(&y, &k2, 0.5 * h));
                let k4 = slope(t + h, &along(&y, &k3, h));
                for i in 0..2 * N {
                    y[i] += h / 6.0 * (k1[i] + 2.0 * (k2[i] + k3[i]) + k4[i]);
                }
            }
            y[N + 1]
        };
        for (own, up) in [(own.yaw_rate, false), (own.pitch_rate, true)] {
            let many = run(up);
            assert!((own / many - 1.0).abs() < 0.025, "{:?} {up}: {own} {many}", bow.kind);
        }
    }
}
