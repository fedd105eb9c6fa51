#![expect(clippy::float_cmp, reason = "these must be equal to the last bit")]

use clothyard_tests::recipe::{Simple, Value, compare};
use clothyard_tests::square_ends;
use study::{
    Distribution, EndsView, Finding, Owner, Per, Question, Quiet, Seen, Shots, SquareEnds,
    TradeClaim, run,
};

fn claims(base: Simple) -> Vec<TradeClaim> {
    let squared = Simple::new().aimed(1e-3).sawn(1e-4);
    let mut plan = compare(vec![base.build("sawn"), squared.build("squared")], 200);
    plan.question = Question::Compare { ends: true };
    square_ends(run(&plan, &Quiet).unwrap()).trade
}

/// C: run-out is angle times diameter (6.2 mm); the median of a Rayleigh law
/// is its scale times sqrt(2 ln 2), of the size of a normal one 0.674490
/// deviations.
#[test]
fn exact_median_run_out_of_a_sawn_face() {
    let median = (2.0 * 2.0_f64.ln()).sqrt();
    let found = claims(Simple::new().aimed(1e-3).sawn(0.005));
    assert_eq!(found[0].claim, EndsView::LooksTrue);
    assert!((found[0].numbers.0 - 0.005 * median * 6.2e-3).abs() < 1e-18);
    assert_eq!(found[0].numbers.1, 12.7e-6);
    assert_eq!(found[0].finding, Finding::Agrees);
    // Below the gauge's step, and a gap that an eye sees.
    for scale in [0.001, 0.02] {
        let found = claims(Simple::new().aimed(1e-3).sawn(scale));
        assert_eq!(found[0].finding, Finding::Disagrees);
    }

    let normal = Distribution::Normal { mean: 0.0, sd: 0.01 };
    let drawn = Simple::new().drawn(Value::FaceAngle, Owner::FrontEnd, normal, Per::Arrow);
    // The median is read at the middle of 9,999 midpoints.
    assert!((claims(drawn)[0].numbers.0 / 6.2e-5 - 0.674_490).abs() < 1e-4);

    let mut fixed = Simple::new().aimed(1e-3);
    fixed.base.faults.point_end.angle = units::Angle::from_si(-0.004);
    let fixed = fixed.drawn(
        Value::FaceClock,
        Owner::FrontEnd,
        Distribution::Uniform { low: 0.0, high: 6.0 },
        Per::Arrow,
    );
    assert!((claims(fixed)[0].numbers.0 - 0.004 * 6.2e-3).abs() < 1e-18);
}

/// C: the claims repeat what causes and pairs say at the far distance.
#[test]
fn exact_claims_repeat_the_answer() {
    let base = Simple::new().aimed(1e-3).sawn(0.005).build("sawn");
    let other = Simple::new().aimed(1e-3).sawn(0.001).build("squared");
    let mut plan = compare(vec![base, other], 300);
    plan.question = Question::Compare { ends: true };
    let found = square_ends(run(&plan, &Quiet).unwrap());
    let causes = &found.compared.builds[0].causes;
    let far = |at: usize| causes[at].r50[1].value;
    assert_eq!([causes[0].owner, causes[1].owner], [Owner::FrontEnd, Owner::NockEnd]);
    assert_eq!(found.trade[1].numbers, (far(0), far(1)));
    assert_eq!(found.trade[1].finding == Finding::Agrees, far(0) > far(1));

    let mark = &found.compared.pairs[0].marks[1];
    let Shots::Each(machine) = mark.machine_shots else { panic!("a machine tells") };
    assert_eq!(mark.archer_shots, Shots::MoreThan(10_000));
    assert_eq!(mark.seen, Seen::MachineOnly);
    assert_eq!(found.trade[3].numbers, (f64::from(machine), 10_000.0));
    assert!(machine <= 36 && found.trade[3].finding == Finding::Agrees);
}

/// An answer about square ends of two builds, shot by an archer who scatters.
fn held(base: Simple, other: Simple) -> SquareEnds {
    let mut plan = compare(vec![base.build("base"), other.build("other")], 400);
    plan.question = Question::Compare { ends: true };
    square_ends(run(&plan, &Quiet).unwrap())
}

/// A shaft fault larger than those of the ends, the same in both builds.
fn heavy_wall(simple: Simple) -> Simple {
    let law = Distribution::Normal { mean: 0.0, sd: 2e-5 };
    simple.drawn(Value::Groove, Owner::Shaft, law, Per::Arrow)
}

/// C: a machine that needs more than three dozen shots, but at most half the
/// archer's, agrees in direction; the ends alone are told in few.
#[test]
fn exact_the_ends_alone_show_what_the_shaft_hides() {
    let aimed = || Simple::new().aimed(1e-3);
    let found = held(heavy_wall(aimed().sawn(0.004)), heavy_wall(aimed().sawn(0.001)));
    let whole = &found.compared.pairs[0].marks[1];
    let Shots::Each(machine) = whole.machine_shots else { panic!("{whole:?}") };
    assert!((37..=5_000).contains(&machine), "{machine}");
    assert!(whole.machine_ratio.unwrap().low > 1.0);
    assert_eq!((whole.archer_shots, whole.seen), (Shots::MoreThan(10_000), Seen::Nobody));
    assert_eq!(found.trade[3].finding, Finding::InDirection);

    let alone = found.ends.alone.unwrap();
    assert_eq!(found.trade[4].claim, EndsView::MachineNotShooterEndsAlone);
    assert_eq!(found.trade[4].finding, Finding::Agrees);
    let Shots::Each(few) = alone.machine_shots else { panic!("{alone:?}") };
    assert_eq!(found.trade[4].numbers, (f64::from(few), 10_000.0));
    assert!(few <= 36 && alone.seen == Seen::MachineOnly);

    // Without the wall the same arrows from a machine are the ends alone.
    let bare = held(aimed().sawn(0.004), aimed().sawn(0.001));
    let machine = bare.compared.pairs[0].marks[1].machine_ratio.unwrap();
    let again = bare.ends.alone.unwrap();
    assert_eq!(again.machine_ratio.unwrap(), machine);
    assert_eq!(again.machine_ratio, alone.machine_ratio);
    let r50 = |build: usize| bare.compared.builds[build].marks[1].machine.stats.r50;
    assert_eq!((again.base_r50, again.other_r50), (r50(0), r50(1)));
}

/// A machine ratio whose interval holds 1 agrees with nothing.
#[test]
fn exact_no_difference_is_no_agreement() {
    let same = || Simple::new().aimed(1e-3).sawn(0.004);
    let found = held(same(), same());
    assert_eq!(found.trade[3].finding, Finding::Disagrees);
    assert_eq!(found.trade[4].finding, Finding::Disagrees);
}

/// A build without scatter from a machine is a point: no ratio to it, and two
/// shots, the fewest that show any spread, tell.
#[test]
fn exact_a_perfect_build_is_a_point() {
    let (perfect, sawn) = (|| Simple::new().aimed(1e-3), || Simple::new().aimed(1e-3).sawn(0.004));
    let found = held(sawn(), perfect());
    for mark in &found.compared.pairs[0].marks {
        assert_eq!((mark.machine_ratio, mark.machine_shots), (None, Shots::Each(2)));
        assert!(mark.full_ratio.is_some());
    }
    let alone = found.ends.alone.unwrap();
    assert_eq!((alone.machine_ratio, alone.machine_shots), (None, Shots::Each(2)));
    assert_eq!(found.trade[4].finding, Finding::Agrees);

    let found = held(perfect(), sawn());
    let mark = &found.compared.pairs[0].marks[0];
    assert_eq!((mark.machine_ratio.unwrap().value, mark.machine_shots), (0.0, Shots::Each(2)));
    // Without an archer either, both groups are points.
    let found = held(Simple::new().sawn(0.004), Simple::new());
    let mark = &found.compared.pairs[0].marks[0];
    assert_eq!(
        (mark.full_ratio, mark.archer_shots, mark.seen),
        (None, Shots::Each(2), Seen::Archer)
    );
    let found = held(Simple::new(), Simple::new());
    let mark = &found.compared.pairs[0].marks[0];
    assert_eq!(mark.machine_ratio.unwrap().value, 1.0);
    assert_eq!(mark.machine_shots, Shots::MoreThan(10_000));
}

/// C: levers are the effects that the drawn faults add; with one size drawn,
/// whatever the clock, they are those of one arrow. A fixed fault adds none.
#[test]
fn exact_levers_are_the_effects_of_the_drawn_faults() {
    let size = Distribution::Uniform { low: 0.002, high: 0.002 };
    let clock = Distribution::Uniform { low: 0.0, high: std::f64::consts::TAU };
    let mut base = Simple::new().aimed(1e-3);
    base.base.faults.point_cant.angle = units::Angle::from_si(0.003);
    let fixed = arrow::build(&base.base.parts, &base.base.faults).unwrap().effects;
    let mut leaning = base.base.clone();
    leaning.faults.nock_cant.angle = units::Angle::from_si(0.002);
    let one = arrow::build(&leaning.parts, &leaning.faults).unwrap().effects;
    let limits = arrow::lean_limits(&base.base.parts);
    let base = base.drawn(Value::NockAngle, Owner::NockEnd, size, Per::Arrow).drawn(
        Value::NockClock,
        Owner::NockEnd,
        clock,
        Per::Arrow,
    );
    let ends = held(base, Simple::new()).ends;
    let near = |a: f64, b: f64| assert!((a - b).abs() < 1e-12 * b && b > 0.0, "{a} {b}");
    near(ends.nock.groove_offset, (one.groove_offset - fixed.groove_offset).size());
    near(ends.nock.balance_offset, (one.balance_offset - fixed.balance_offset).size());
    near(ends.nock.shaft_tilt, (one.shaft_tilt - fixed.shaft_tilt).size());
    near(ends.nock.point_tilt, (one.point_tilt - fixed.point_tilt).size());
    assert_eq!(ends.nock.lean_limit, limits.nock.map(units::Angle::si));
    assert_eq!(ends.front.lean_limit, limits.front.map(units::Angle::si));
    assert_eq!((ends.front.groove_offset, ends.front.point_tilt), (0.0, 0.0));
}

/// C: a lean of clearance over engaged length; no engagement, no limit.
#[test]
fn exact_lean_limits_are_clearance_over_engagement() {
    let mut parts = clothyard_tests::hunter();
    let of = |parts: &arrow::Parts| arrow::lean_limits(parts);
    let nock = parts.nock.clearance.si() / parts.nock.engaged.si();
    assert_eq!(of(&parts).nock.unwrap().si(), nock);
    parts.nock.engaged = units::Length::ZERO;
    assert_eq!(of(&parts).nock, None);
    parts.insert = None;
    parts.outsert = None;
    let point = parts.point.clearance.si() / parts.point.shank.si();
    assert_eq!(of(&parts).front.unwrap().si(), point);
}
