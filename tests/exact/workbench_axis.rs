//! The axis of a shaft and where to cut it.

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use body::Across;
use units::{Angle, Length};
use workbench::{Axis, Indicator, RunOut, SawJob, Seats, WorkbenchError, plan};

const INCH: f64 = 0.0254;

fn inch(value: f64) -> Length {
    Length::from_si(value * INCH)
}

fn near(got: f64, want: f64, within: f64) {
    assert!((got - want).abs() <= within, "{got} against {want} within {within:e}");
}

/// A crooked axis: a bow, a kink at the nock end, a twist of direction.
fn crooked(x: f64) -> Across {
    let u = x / (32.0 * INCH);
    let kink = (3.0 * INCH - x).max(0.0) * 1.5e-3;
    Across {
        at0: 1.2e-4 * (PI * u).sin() + kink,
        at90: 0.5e-4 * (TAU * u).sin() + 0.3e-4 * u - 0.4 * kink,
    }
}

/// What an indicator reads on it: the shaft turns about its centres at the
/// supports, sags alike at every turn, and has a diameter.
fn dial(axis: impl Fn(f64) -> Across, supports: [f64; 2], x: f64, clock: f64) -> f64 {
    let share = (x - supports[0]) / (supports[1] - supports[0]);
    let off = axis(x) - axis(supports[0]) * (1.0 - share) - axis(supports[1]) * share;
    let sag = -2e-5 * (PI * share).sin();
    off.at0 * clock.cos() + off.at90 * clock.sin() + sag + 3e-3
}

fn read(
    supports: [f64; 2],
    stations: &[f64],
    clocks: &[f64],
    noise: &dyn Fn(usize) -> f64,
) -> Axis {
    let mut readings = Vec::new();
    for &x in stations {
        for &clock in clocks {
            let reading = dial(crooked, supports, x, clock) + noise(readings.len());
            readings.push(Indicator {
                station: Length::from_si(x),
                clock: Angle::from_si(clock),
                reading: Length::from_si(reading),
            });
        }
    }
    let supports = supports.map(Length::from_si);
    Axis::from_dial(inch(32.0), supports, &readings, Length::ZERO).unwrap()
}

fn stations() -> Vec<f64> {
    (0..=64).map(|k| f64::from(k) * 0.5 * INCH).collect()
}

/// A piece's reading does not depend on where the supports stood: the two-support
/// effect is gone.
#[test]
fn exact_the_support_effect_is_removed() {
    let clocks = [0.0, 1.3, 2.6, 3.9, 5.2];
    let places = stations();
    // The true reading: the middle of a 28 in span of the true axis off its chord.
    let truth = |rear: f64, length: f64| {
        let span = (28.0 * INCH).min(length);
        let m = rear + length / 2.0;
        let mid = crooked(m) - (crooked(m - span / 2.0) + crooked(m + span / 2.0)) * 0.5;
        2.0 * mid.size() * (28.0 * INCH / span).powi(2)
    };
    for supports in [[2.0, 30.0], [0.5, 31.5], [8.0, 20.0]] {
        let supports = supports.map(|s| s * INCH);
        let axis = read(supports, &places, &clocks, &|_| 0.0);
        for (rear, length) in [(0.0, 32.0), (1.0, 28.5), (3.5, 28.0), (2.0, 26.5)] {
            let got = axis.straight(rear * INCH, length * INCH);
            // Spans that end between stations see the parabola cut short.
            near(got.total, truth(rear * INCH, length * INCH), 2e-7);
        }
        for x in &places {
            let share = (x - supports[0]) / (supports[1] - supports[0]);
            let chord = crooked(supports[0]) * (1.0 - share) + crooked(supports[1]) * share;
            near((axis.at(*x) - (crooked(*x) - chord)).size(), 0.0, 1e-15);
        }
    }
}

/// Two opposite clock positions, or one and its total reading, give the same
/// axis; one clock position gives its side, sag and all.
#[test]
fn exact_fewer_clock_positions_give_what_they_can() {
    let (supports, places) = ([2.0 * INCH, 30.0 * INCH], stations());
    let full = read(supports, &places, &[0.0, 2.0, 4.0, 5.0], &|_| 0.0);
    let pair = read(supports, &places, &[0.4, 0.4 + PI], &|_| 0.0);
    let one = read(supports, &places, &[0.4], &|_| 0.0);
    assert!(one.one_side() && !full.one_side() && !pair.one_side());
    let runs: Vec<RunOut> = places
        .iter()
        .map(|&x| RunOut {
            station: Length::from_si(x),
            total: Length::from_si(2.0 * full.at(x).size()),
            high: Angle::from_si(full.at(x).clock()),
        })
        .collect();
    let total =
        Axis::from_run_out(inch(32.0), supports.map(Length::from_si), &runs, Length::ZERO).unwrap();
    let along = |at: Across| at.at0 * 0.4_f64.cos() + at.at90 * 0.4_f64.sin();
    for x in places {
        near((total.at(x) - full.at(x)).size(), 0.0, 1e-18);
        near(along(pair.at(x)), along(full.at(x)), 1e-18);
        near(along(pair.at(x)), pair.at(x).size() * along(pair.at(x)).signum(), 1e-15);
        let share = (x - supports[0]) / (supports[1] - supports[0]);
        near(along(one.at(x)) - along(full.at(x)), -2e-5 * (PI * share).sin(), 1e-15);
    }
}

/// Readings wrong by at most d shift no offset by more than 2 d, and no total
/// reading of a 28 in span by more than 8 d; and the standard error is the one
/// seen over many shafts.
#[test]
fn exact_noise_is_bounded_and_its_error_known() {
    let (supports, places) = ([2.0 * INCH, 30.0 * INCH], stations());
    let clocks: Vec<f64> = (0..4).map(|k| f64::from(k) * FRAC_PI_2).collect();
    let clean = read(supports, &places, &clocks, &|_| 0.0);
    let d = 5e-6;
    // A fixed jumble between -1 and 1, even over them.
    let jumble = |seed: usize, k: usize| {
        let mut z = ((seed as u64) << 32 | k as u64).wrapping_mul(0x9e37_79b9_7f4a_7c15);
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        2.0 * ((z ^ (z >> 31)) >> 11) as f64 / (1_u64 << 53) as f64 - 1.0
    };
    let (mut squares, mut count) = (0.0, 0.0);
    for seed in 0..400 {
        let noisy = read(supports, &places, &clocks, &|k| d * jumble(seed, k));
        for &x in &places {
            assert!((noisy.at(x) - clean.at(x)).size() <= 2.0 * d);
        }
        let piece = (1.0 * INCH, 29.0 * INCH);
        let (a, b) = (noisy.straight(piece.0, piece.1), clean.straight(piece.0, piece.1));
        assert!((a.total - b.total).abs() <= 8.0 * d);
        squares += (a.total - b.total).powi(2);
        count += 1.0;
        // The scatter about the fits is that of the jumble, d / sqrt(3).
        near(noisy.noise(), d / 3_f64.sqrt(), 0.3 * d);
    }
    let want = read(supports, &places, &clocks, &|k| d * jumble(0, k));
    let error = want.straight(INCH, 29.0 * INCH).error * (d / 3_f64.sqrt()) / want.noise();
    let seen = (squares / count).sqrt();
    near(seen, error, 0.1 * error);
}

fn job(wanted: f64) -> SawJob {
    SawJob {
        wanted: inch(wanted),
        kerf: Length::from_si(1e-3),
        tolerance: Length::from_si(5e-4),
        nock: Length::from_si(0.012),
        front: Length::from_si(0.025),
        most_rear: None,
        most_front: None,
    }
}

/// The plan against every cut a fortieth of a millimetre apart or less.
#[test]
fn exact_the_best_cut_equals_brute_force() {
    let coarse: Vec<f64> = (0..=16).map(|k| f64::from(k) * 2.0 * INCH).collect();
    for places in [stations(), coarse] {
        let axis = read([2.0 * INCH, 30.0 * INCH], &places, &[0.0, 2.0, 4.0], &|_| 0.0);
        for wanted in [31.0, 29.3, 28.0, 26.1, 24.0] {
            let plan = plan(&axis, &job(wanted)).unwrap();
            let waste = (32.0 - wanted) * INCH;
            let steps = 8_000;
            let cuts = (0..=steps).map(|k| waste * f64::from(k) / f64::from(steps));
            let kerfs = |r: &f64| r.min(waste - r) <= 0.0 || r.min(waste - r) >= 1e-3;
            let least = cuts
                .filter(kerfs)
                .map(|r| axis.straight(r, wanted * INCH).total)
                .fold(f64::INFINITY, f64::min);
            let got = plan.best.straight.total;
            assert!(got <= least + 1e-15, "{got} above {least}");
            // A fortieth of a millimetre beside the best is nearly as good.
            near(got, least, 5e-8);
            for way in [plan.front_only, plan.rear_only, plan.halves] {
                assert!(way.unwrap().straight.total >= got - 1e-15);
            }
            near(plan.best.rear + plan.best.front, waste, 1e-12);
            assert!(plan.best.within >= got);
        }
    }
}

/// A constant curve reads the same wherever it is cut, and the shorter span is
/// carried over: closed form k S^2 / 4.
#[test]
fn exact_a_constant_curve_reads_alike_wherever_it_is_cut() {
    let curve = |x: f64| Across::polar(0.5 * 2e-3 * x * x, 1.0);
    let places = stations();
    let supports = [2.0 * INCH, 30.0 * INCH];
    let runs: Vec<RunOut> = places
        .iter()
        .map(|&x| {
            let share = (x - supports[0]) / (supports[1] - supports[0]);
            let off = curve(x) - curve(supports[0]) * (1.0 - share) - curve(supports[1]) * share;
            RunOut {
                station: Length::from_si(x),
                total: Length::from_si(2.0 * off.size()),
                high: Angle::from_si(off.clock()),
            }
        })
        .collect();
    let axis =
        Axis::from_run_out(inch(32.0), supports.map(Length::from_si), &runs, Length::ZERO).unwrap();
    let want = 2e-3 * (28.0 * INCH).powi(2) / 4.0;
    for (rear, length) in [(0.0, 32.0), (2.0, 28.0), (1.5, 26.0), (4.0, 24.0)] {
        near(axis.straight(rear * INCH, length * INCH).total, want, 1e-12);
    }
    // As faults of an arrow it is a bend and nothing else, but for the chord of
    // a parabola over half a seat.
    let seats = Seats { nock: Length::from_si(0.012), front: Length::from_si(0.025) };
    let faults = axis.faults(INCH, 28.0 * INCH, &seats);
    let bend = faults.bend.unwrap();
    // Between stations the axis is a chord, which lowers the fit a little.
    near(8.0 * bend.bow.si() / bend.span.si().powi(2), 2e-3, 1e-7);
    // It is hollow toward the clock position of its curvature.
    near(Across::polar(1.0, bend.clock.si() - 1.0).at0, -1.0, 1e-9);
    assert!(
        faults.nock_cant.angle.si() < 2e-3 * 0.0127 && faults.point_cant.angle.si() < 2e-3 * 0.0254
    );
    assert!(faults.groove_offset.offset.si() < 5e-8 && faults.point_offset.offset.si() < 5e-8);
}

/// Saw, stop and ends set limits, and the refusal says by how much.
#[test]
fn exact_a_plan_keeps_to_saw_and_ends() {
    let axis = read([2.0 * INCH, 30.0 * INCH], &stations(), &[0.0, 2.0, 4.0], &|_| 0.0);
    let near_enough = SawJob { tolerance: inch(0.02), ..job(31.99) };
    let as_it_is = plan(&axis, &near_enough).unwrap();
    near(as_it_is.best.rear, 0.0, 0.0);
    assert_eq!(as_it_is.windows, [(0.0, 0.0)]);
    // Less than two kerfs must come off: one end alone can be sawn.
    let one = plan(&axis, &job(31.95)).unwrap();
    assert_eq!(one.windows.len(), 2);
    assert!(one.halves.is_none());
    // Less than one kerf: no saw does that.
    let none = plan(&axis, &job(31.97));
    assert!(matches!(none, Err(WorkbenchError::NoCut { .. })), "{none:?}");
    let kept = SawJob { most_rear: Some(Length::ZERO), ..job(28.0) };
    let front = plan(&axis, &kept).unwrap();
    assert_eq!((front.windows.len(), front.rear_only, front.halves), (1, None, None));
    let capped = SawJob { most_front: Some(inch(1.0)), ..job(28.0) };
    let capped = plan(&axis, &capped).unwrap();
    assert!(capped.best.front <= INCH + 1e-12 && capped.front_only.is_none());
    for (job, short) in [(job(32.5), true), (SawJob { front: inch(27.8), ..job(28.0) }, false)] {
        let refused = plan(&axis, &job).unwrap_err();
        assert_eq!(matches!(refused, WorkbenchError::TooShort { .. }), short, "{refused}");
    }
}
