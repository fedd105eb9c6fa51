//! Shares of the spread of the invented build.

use std::f64::consts::{FRAC_PI_2, TAU};

use clothyard_tests::bench::matters;
use clothyard_tests::recipe::{Simple, Value};
use study::{Distribution, Found, Matters, Owner, Per, Plan, Plane, Quiet, fly_one, run, run_on};
use units::Angle;

fn shares(plan: &Plan) -> Matters {
    match run(plan, &Quiet).unwrap().found {
        Found::Matters(matters) => matters,
        other => panic!("{other:?}"),
    }
}

/// The drawn values with keys as a scenario spells them.
fn keyed(mut simple: Simple) -> Simple {
    for draw in &mut simple.draws {
        draw.key = match draw.key.as_str() {
            "FaceClock" => "faults.point_end.clock".to_owned(),
            "NockAngle" => "faults.nock_cant.angle".to_owned(),
            "NockClock" => "faults.nock_cant.clock".to_owned(),
            other => other.to_owned(),
        };
    }
    simple
}

/// Where the balance point of the arrow with one thing wrong passes 20 and
/// 50 m, less that of the perfect arrow.
fn moved(change: impl Fn(&mut Simple)) -> Vec<[f64; 2]> {
    let fly = |simple: &Simple| {
        let flown = fly_one(simple, &[20.0, 50.0], false).unwrap();
        flown.states.iter().map(|s| [s.position.y, s.position.z]).collect::<Vec<_>>()
    };
    let mut simple = Simple::new();
    let perfect = fly(&simple);
    change(&mut simple);
    let wrong = fly(&simple);
    wrong.iter().zip(perfect).map(|(w, p)| [w[0] - p[0], w[1] - p[1]]).collect()
}

/// Small faults move the arrow in proportion, so their shares follow from one
/// flight with each: linear propagation against the full simulation.
#[test]
fn law_shares_of_small_faults_are_those_of_linear_propagation() {
    let scale = 1e-3;
    let simple = keyed(Simple::new().sawn(scale).aimed(1e-4));
    let found = shares(&matters(simple.build("small"), 0.02, 2_000_000));
    let of = &found.builds[0].full;
    let names: Vec<&str> = of.causes.iter().map(|cause| cause.name.as_str()).collect();
    assert_eq!(names, ["faults.point_end", "faults.nock_cant", "AimLeft", "AimUp"]);
    // The sum of squares of both ways, one step of one deviation each.
    let clocked = |put: fn(&mut Simple, f64, f64), size: f64| {
        let ways = [0.0, FRAC_PI_2].map(|clock| moved(|s| put(s, size, clock)));
        (0..2).map(|at| ways.iter().map(|w| w[at][0].powi(2) + w[at][1].powi(2)).sum()).collect()
    };
    let one = |put: &dyn Fn(&mut Simple)| -> Vec<f64> {
        moved(put).iter().map(|[l, u]| l * l + u * u).collect()
    };
    let variances: [Vec<f64>; 4] = [
        clocked(
            |s, size, clock| {
                s.base.faults.point_end.angle = Angle::from_si(size);
                s.base.faults.point_end.clock = Angle::from_si(clock);
            },
            scale,
        ),
        clocked(
            |s, size, clock| {
                s.base.faults.nock_cant.angle = Angle::from_si(size);
                s.base.faults.nock_cant.clock = Angle::from_si(clock);
            },
            0.25 * scale,
        ),
        one(&|s| s.base.form.aim_left = Angle::from_si(1e-4)),
        one(&|s| s.base.form.aim_up = Angle::from_si(1e-4)),
    ];
    for (place, mark) in of.marks.iter().enumerate() {
        let all: f64 = variances.iter().map(|v| v[place]).sum();
        let shares = mark.axes[0].as_ref().unwrap();
        for (cause, variance) in shares.causes.iter().zip(&variances) {
            let expected = variance[place] / all;
            // The tip is where the impact is taken, and no fault is that small.
            assert!((cause.alone.value - expected).abs() < 0.02, "{cause:?}, expected {expected}");
            assert!((cause.total.value - expected).abs() < 0.02, "{cause:?}, expected {expected}");
        }
        assert!((shares.sum.value - 1.0).abs() < 0.02, "{:?}", shares.sum);
        assert!((shares.sigma.powi(2) / all - 1.0).abs() < 0.05, "{}", shares.sigma);
    }
}

/// A fault of no size owns nothing of any spread, and its interval says so.
#[test]
fn law_a_fault_of_no_size_has_no_share() {
    let none = Distribution::Normal { mean: 0.0, sd: 0.0 };
    let simple = Simple::new()
        .aimed(5e-4)
        .drawn(Value::Groove, Owner::NockEnd, none, Per::Arrow)
        .drawn(Value::Speed, Owner::Archer, none, Per::Shot);
    let found = shares(&matters(simple.build("still"), 0.05, 200_000));
    let of = &found.builds[0].full;
    for mark in &of.marks {
        for shares in mark.axes.iter().flatten() {
            for share in [&shares.causes[2], &shares.causes[3], &shares.owners[1]] {
                for part in [share.alone, share.total] {
                    assert!(part.low <= 0.0 && part.high >= 0.0, "{part:?}");
                    assert!(part.value.abs() < 1e-12, "{part:?}");
                }
            }
        }
    }
    // From a machine nothing else is left to spread.
    let machine = found.builds[0].machine.as_ref().unwrap();
    assert!(machine.marks.iter().all(|mark| mark.axes.iter().all(Option::is_none)));
}

/// Aim left moves only to the side, and the two owners share everything.
#[test]
fn law_axes_and_owners_share_out_the_whole() {
    let simple = keyed(Simple::new().sawn(4e-3).aimed(2e-4));
    let found = shares(&matters(simple.build("both"), 0.03, 2_000_000));
    let build = &found.builds[0];
    assert_eq!(build.full.owners, [Owner::Archer, Owner::FrontEnd, Owner::NockEnd]);
    assert_eq!(build.machine.as_ref().unwrap().owners, [Owner::FrontEnd, Owner::NockEnd]);
    for spread in build.spreads() {
        assert!(spread.widest <= found.within);
        for mark in &spread.marks {
            let of = |axis: Plane| {
                let at = Plane::ALL.iter().position(|one| *one == axis).unwrap();
                mark.axes[at].as_ref().unwrap()
            };
            let (both, left, up) = (of(Plane::Both), of(Plane::Left), of(Plane::Up));
            let sum = left.sigma.hypot(up.sigma);
            assert!((both.sigma / sum - 1.0).abs() < 1e-12);
            let owners: f64 = both.owners.iter().map(|share| share.alone.value).sum();
            assert!((owners - 1.0).abs() < 0.05, "{owners}");
            let whole = both.sum.value + both.together.value + both.unexplained.value;
            assert!((whole - 1.0).abs() < 1e-9, "{whole}");
        }
    }
    let aim_left = build.full.causes.iter().position(|cause| cause.name == "AimLeft").unwrap();
    for mark in &build.full.marks {
        let up = mark.axes[2].as_ref().unwrap().causes[aim_left];
        assert!(up.total.value < 1e-3, "{up:?}");
    }
}

/// The run goes on until the intervals are as asked, and no longer.
#[test]
fn law_shares_stop_when_they_are_known() {
    let asked = |within: f64, flights: usize| {
        let simple = keyed(Simple::new().sawn(4e-3).aimed(2e-4));
        shares(&matters(simple.build("one"), within, flights)).builds[0].full.clone()
    };
    let (rough, fine) = (asked(0.2, 2_000_000), asked(0.03, 2_000_000));
    assert!(rough.flights < fine.flights, "{} {}", rough.flights, fine.flights);
    assert!(rough.widest <= 0.2 && fine.widest <= 0.03);
    let short = asked(0.03, 4_000);
    assert!(short.flights <= 4_000 && short.widest > 0.03);
}

#[test]
fn law_shares_are_the_same_on_any_number_of_threads() {
    let clock = Distribution::Uniform { low: 0.0, high: TAU };
    let plan = || {
        let simple = Simple::new()
            .aimed(2e-4)
            .drawn(
                Value::Groove,
                Owner::NockEnd,
                Distribution::Rayleigh { scale: 1e-5 },
                Per::Arrow,
            )
            .drawn(Value::GrooveClock, Owner::NockEnd, clock, Per::Arrow);
        matters(simple.build("one"), 0.1, 20_000)
    };
    let on = |threads| run_on(&plan(), Some(threads), &Quiet).unwrap();
    assert_eq!(on(1), on(3));
}
