#![expect(clippy::float_cmp, reason = "these must be equal to the last bit")]

use clothyard_tests::recipe::{Simple, Value, compare};
use study::{EndsView, Law, Owner, Per, Question, Quiet, Seen, Shots, TradeClaim, run};

fn claims(base: Simple) -> Vec<TradeClaim> {
    let squared = Simple::new().aimed(1e-3).sawn(1e-4);
    let mut plan = compare(vec![base.build("sawn"), squared.build("squared")], 200);
    plan.question = Question::Compare { ends: true };
    run(&plan, &Quiet).unwrap().trade
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
    assert!(found[0].agrees);
    // Below the gauge's step, and a gap that an eye sees.
    assert!(!claims(Simple::new().aimed(1e-3).sawn(0.001))[0].agrees);
    assert!(!claims(Simple::new().aimed(1e-3).sawn(0.02))[0].agrees);

    let normal = Law::Normal { mean: 0.0, sd: 0.01 };
    let drawn = Simple::new().drawn(Value::FaceAngle, Owner::FrontEnd, normal, Per::Arrow);
    // The median is read at the middle of 9,999 midpoints.
    assert!((claims(drawn)[0].numbers.0 / 6.2e-5 - 0.674_490).abs() < 1e-4);

    let mut fixed = Simple::new().aimed(1e-3);
    fixed.base.faults.point_end.angle = units::Angle::from_si(-0.004);
    let fixed = fixed.drawn(
        Value::FaceClock,
        Owner::FrontEnd,
        Law::Uniform { low: 0.0, high: 6.0 },
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
    let found = run(&plan, &Quiet).unwrap();
    let causes = &found.builds[0].causes;
    let far = |at: usize| causes[at].r50[1].value;
    assert_eq!([causes[0].owner, causes[1].owner], [Owner::FrontEnd, Owner::NockEnd]);
    assert_eq!(found.trade[1].numbers, (far(0), far(1)));
    assert_eq!(found.trade[1].agrees, far(0) > far(1));

    let mark = &found.pairs[0].marks[1];
    let Shots::Each(machine) = mark.machine_shots else { panic!("a machine tells") };
    assert_eq!(mark.archer_shots, Shots::MoreThan(10_000));
    assert_eq!(mark.seen, Seen::MachineOnly);
    assert_eq!(found.trade[2].numbers, (f64::from(machine), 10_000.0));
    assert!(machine <= 36 && found.trade[2].agrees);
}
