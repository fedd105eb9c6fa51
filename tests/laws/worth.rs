//! What bench steps bring to the invented build.

use clothyard_tests::bench::{Worked, worth};
use clothyard_tests::recipe::Simple;
use study::{Found, Plan, Quiet, WorthBuild, run, run_on};

/// What was found for the first build.
fn first(plan: &Plan) -> WorthBuild {
    match run(plan, &Quiet).unwrap().found {
        Found::Worth(mut bench) => bench.builds.remove(0),
        other => panic!("{other:?}"),
    }
}

/// Four steps: one on each end, one that does nothing, one that does harm.
fn found(minutes: &[f64]) -> WorthBuild {
    let steps =
        vec![("faults.point_end.angle", 0.2), ("NockAngle", 0.2), ("nothing", 0.2), ("AimUp", 1.5)];
    let worked = Worked { simple: Simple::new().sawn(0.01).aimed(3e-4), steps };
    first(&worth(worked, minutes, 1000))
}

/// A step that changes nothing gains nothing, exactly, alone or with others.
#[test]
fn law_a_step_that_changes_nothing_gains_nothing() {
    let build = found(&[10.0; 4]);
    assert_eq!(build.tried[3].steps, [2]);
    for mark in &build.tried[3].marks {
        assert_eq!((mark.gain.value, mark.gain.low, mark.gain.high), (0.0, 0.0, 0.0));
        assert_eq!((mark.flown_gain.low, mark.flown_gain.high), (0.0, 0.0));
    }
    let link = build.chain.iter().find(|link| link.step == 2).unwrap();
    assert!(link.gain.iter().all(|gain| gain.low == 0.0 && gain.high == 0.0));
}

/// What the links of the way add is what all steps bring, and each link adds
/// the most that its minutes can then bring.
#[test]
fn law_the_way_adds_up_and_takes_the_best_first() {
    let build = found(&[10.0, 40.0, 10.0, 10.0]);
    for place in 0..2 {
        let added: f64 = build.chain.iter().map(|link| link.gain[place].value).sum();
        let all = build.tried[build.all].marks[place].gain.value;
        assert!((added - all).abs() < 1e-12, "{added} {all}");
    }
    let rate = |step: usize| build.tried[step + 1].marks[1].gain.value / build.tried[step + 1].time;
    let first = build.chain[0].step;
    assert!((0..4).all(|step| rate(step) <= rate(first)));
    // Harm comes last.
    assert_eq!(build.chain[3].step, 3);
    let last = build.chain[3].gain[1];
    assert!(last.high < 0.0, "{last:?}");
}

/// No set on the front is beaten by any other that was tried.
#[test]
fn law_nothing_tried_beats_the_front() {
    let build = found(&[10.0, 40.0, 5.0, 10.0]);
    assert!(!build.front.is_empty());
    for at in &build.front {
        let one = &build.tried[*at];
        assert!(one.marks[1].gain.low > 0.0);
        let beaten = build.tried.iter().any(|other| {
            other.time <= one.time && other.marks[1].r50.value < one.marks[1].r50.value
        });
        assert!(!beaten, "{:?}", one.steps);
    }
    let three = |at: usize| build.tried[at].marks[1].gain.value;
    assert_eq!(build.tried[build.best].steps.len(), 3);
    let threes = (0..build.tried.len()).filter(|at| build.tried[*at].steps.len() == 3);
    assert!(threes.into_iter().all(|at| three(at) <= three(build.best)));
}

/// Common chances: the gain is known far better than either group.
#[test]
fn law_a_gain_is_known_better_than_the_groups() {
    let build = found(&[10.0; 4]);
    let mark = build.tried[1].marks[1];
    let wide = |e: target::Estimate| e.high - e.low;
    assert!(wide(mark.gain) < 0.5 * wide(build.tried[0].marks[1].r50), "{mark:?}");
    assert!(wide(mark.gain) < wide(mark.flown_gain), "{mark:?}");
    assert!(mark.gain.low <= mark.flown_gain.high && mark.flown_gain.low <= mark.gain.high);
}

/// Perfect arrows from a machine: all steps together bring the group to a
/// point, and the gain is the whole of it.
#[test]
fn law_faults_taken_away_altogether_leave_a_point() {
    let steps = vec![("faults.point_end.angle", 0.0), ("NockAngle", 0.0)];
    let worked = Worked { simple: Simple::new().sawn(0.01), steps };
    let build = first(&worth(worked, &[10.0; 2], 200));
    for mark in &build.tried[build.all].marks {
        assert_eq!(mark.ratio, None);
        assert_eq!(mark.r50.value, 0.0);
        assert!(mark.gain.value > 0.0);
    }
}

#[test]
fn law_gains_are_the_same_on_any_number_of_threads() {
    let plan = || {
        let steps = vec![("faults.point_end.angle", 0.2), ("NockAngle", 0.2)];
        let worked = Worked { simple: Simple::new().sawn(0.01).aimed(3e-4), steps };
        worth(worked, &[10.0, 20.0], 300)
    };
    let on = |threads| run_on(&plan(), Some(threads), &Quiet).unwrap();
    assert_eq!(on(1), on(3));
}
