#![expect(clippy::float_cmp, reason = "these must be equal to the last bit")]

use std::f64::consts::TAU;
use std::sync::atomic::{AtomicU64, Ordering};

use arrow::{Bend, Lean, Shift, VaneFault};
use clothyard_tests::compared;
use clothyard_tests::recipe::{Simple, Value, compare};
use launch::Form;
use rayon::ThreadPoolBuilder;
use study::{
    Compared, Distribution, Owner, Per, Plan, Question, Quiet, RandomStream, StudyError, Sweep,
    Watch, run,
};
use target::Impact;
use units::{Angle, Dimension, Length, Speed};

fn angle(value: f64) -> Angle {
    Angle::from_si(value)
}

/// An arrow with every fault but a bad vane, shot in wind with fixed form.
fn faulty() -> Simple {
    let mut simple = Simple::new();
    let faults = &mut simple.base.faults;
    let lean = |size, clock| Lean { angle: angle(size), clock: angle(clock) };
    let shift = |size, clock| Shift { offset: Length::from_si(size), clock: angle(clock) };
    faults.insert_face = lean(0.002, 0.4);
    faults.point_cant = lean(0.003, 1.4);
    faults.point_offset = shift(5e-5, 2.0);
    faults.nock_end = lean(0.002, -1.0);
    faults.wall_offset = shift(3e-5, -2.0);
    faults.bend =
        Some(Bend { bow: Length::from_si(1e-4), span: Length::from_si(0.7), clock: angle(0.9) });
    simple.base.form = Form { aim_left: angle(1e-3), release_left: angle(2e-3), ..Form::default() };
    simple.base.site.wind.speed = Speed::from_si(3.0);
    simple.base.site.wind.from = angle(1.0);
    simple.base.index = angle(0.3);
    simple.sawn(0.004).aimed(5e-4)
}

/// All clocks of the fixed faults changed by a function.
fn clocks(simple: &mut Simple, change: impl Fn(Angle) -> Angle) {
    let faults = &mut simple.base.faults;
    for clock in [
        &mut faults.insert_face.clock,
        &mut faults.point_cant.clock,
        &mut faults.point_offset.clock,
        &mut faults.nock_end.clock,
        &mut faults.wall_offset.clock,
    ] {
        *clock = change(*clock);
    }
    if let Some(bend) = &mut faults.bend {
        bend.clock = change(bend.clock);
    }
}

fn answer(plan: &Plan) -> Compared {
    compared(run(plan, &Quiet).unwrap())
}

/// The first impacts of a build, archer and arrows, at the far distance.
fn far(simple: Simple) -> Vec<Impact> {
    let answer = answer(&compare(vec![simple.build("one")], 100));
    answer.builds[0].marks[1].full.sample.clone()
}

fn near(a: &[Impact], b: &[Impact], slack: f64) {
    assert_eq!(a.len(), b.len());
    let width = a.iter().map(|i| i.left.abs()).fold(0.0, f64::max);
    assert!(width > 1e-3, "the impacts do not scatter");
    for (a, b) in a.iter().zip(b) {
        assert!((a.left - b.left).hypot(a.up - b.up) < slack, "{a:?} {b:?}");
    }
}

#[test]
fn law_no_faults_and_no_form_hit_the_nominal_impact_exactly() {
    let mut simple = Simple::new();
    simple.base.site.wind.speed = Speed::from_si(4.0);
    simple.base.site.wind.from = angle(1.0);
    let answer = run(&compare(vec![simple.build("one")], 100), &Quiet).unwrap();
    assert_eq!(answer.flown, 2, "nothing is drawn: one flight with the arrows, one without");
    let found = compared(answer);
    for mark in &found.builds[0].marks {
        for group in [&mark.full, &mark.machine, &mark.form] {
            assert!(group.sample.iter().all(|i| *i == Impact::default()));
            assert_eq!(group.stats.r90.value, 0.0);
        }
        assert_eq!(mark.machine_band, (0.0, 0.0));
        assert_eq!(mark.hit.value, 1.0);
    }
}

#[test]
fn law_faults_do_not_change_the_nominal_arrow() {
    let mut clean = faulty();
    clean.base.faults = arrow::Faults::default();
    clean.base.form = Form::default();
    let distances = [Length::from_si(40.0)];
    let (a, b) = (study::nominal(&faulty(), &distances), study::nominal(&clean, &distances));
    assert_eq!(a.unwrap(), b.unwrap());
}

#[test]
fn law_mirror_through_the_whole_chain() {
    let mut base = faulty();
    base.base.faults.vane =
        VaneFault { angle: angle(0.003), around: angle(0.02), forward: Length::from_si(1e-3) };
    let base = base.drawn(
        Value::ReleaseLeft,
        Owner::Archer,
        Distribution::Normal { mean: 0.0, sd: 1e-3 },
        Per::Shot,
    );
    let mut mirror = base.clone();
    let flip = |a: Angle| angle(-a.si());
    clocks(&mut mirror, flip);
    let vane = &mut mirror.base.faults.vane;
    (vane.angle, vane.around) = (flip(vane.angle), flip(vane.around));
    if let Some(vanes) = &mut mirror.base.parts.vanes {
        vanes.angle = flip(vanes.angle);
    }
    let form = &mut mirror.base.form;
    (form.aim_left, form.release_left) = (flip(form.aim_left), flip(form.release_left));
    mirror.base.site.wind.from = flip(mirror.base.site.wind.from);
    mirror.base.index = flip(mirror.base.index);
    for draw in &mut mirror.draws {
        draw.law = match (draw.key.as_str(), draw.law) {
            ("AimLeft" | "ReleaseLeft", Distribution::Normal { mean, sd }) => {
                Distribution::Normal { mean: -mean, sd: -sd }
            }
            ("FaceClock" | "NockClock", Distribution::Uniform { low, high }) => {
                Distribution::Uniform { low: -low, high: -high }
            }
            (_, other) => other,
        };
    }
    let flipped: Vec<Impact> =
        far(mirror).iter().map(|i| Impact { left: -i.left, up: i.up }).collect();
    // Rounding alone.
    near(&far(base), &flipped, 1e-12);
}

#[test]
fn law_a_third_of_a_turn_of_everything_on_a_three_vane_arrow() {
    let base = faulty();
    let mut turned = base.clone();
    clocks(&mut turned, |a| angle(a.si() + TAU / 3.0));
    turned.base.index = angle(turned.base.index.si() - TAU / 3.0);
    for draw in &mut turned.draws {
        if let Distribution::Uniform { low, high } = draw.law {
            draw.law = Distribution::Uniform { low: low + TAU / 3.0, high: high + TAU / 3.0 };
        }
    }
    // The steps are set by a pilot whose error feels where its vanes stand, so the two may
    // be followed in another number of steps: each errs by 0.015 mm at most.
    near(&far(base), &far(turned), 3e-5);
}

#[test]
fn law_same_bits_on_any_number_of_threads() {
    let plan = || {
        let a = faulty().doubted(Value::Restraint, 0.4, 1.2);
        let mut plan = compare(vec![a.build("a"), Simple::new().sawn(0.002).build("b")], 300);
        plan.question = Question::Compare { ends: true };
        plan.arrows = Some(70);
        plan
    };
    let on = |threads: usize| {
        let pool = ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        // The printed form tells any two numbers apart.
        format!("{:?}", pool.install(|| answer(&plan())))
    };
    let one = on(1);
    assert_eq!(one, on(2));
    assert_eq!(one, on(8));
}

#[test]
fn law_builds_share_their_chances() {
    let answer = run(
        &compare(
            vec![
                Simple::new().sawn(0.002).aimed(1e-3).build("a"),
                Simple::new().sawn(1e-4).aimed(1e-3).build("b"),
                Simple::new().sawn(0.002).aimed(1e-3).build("c"),
            ],
            200,
        ),
        &Quiet,
    )
    .unwrap();
    let flown = answer.flown;
    let found = compared(answer);
    let [a, b, c] = &found.builds[..] else { panic!("three builds") };
    // A build held against itself.
    assert_eq!(a.marks, c.marks);
    for mark in &found.pairs[1].marks {
        let ratio = mark.full_ratio.unwrap();
        assert_eq!((ratio.low, ratio.high), (1.0, 1.0));
        assert_eq!((mark.gain.low, mark.gain.high), (0.0, 0.0));
    }
    // The same archer with perfect arrows, whatever the arrows.
    for (a, b) in a.marks.iter().zip(&b.marks) {
        assert_eq!(a.form, b.form);
        assert_ne!(a.full, b.full);
    }
    // Full, machine and two causes of a and of b, and one form; c adds none.
    assert_eq!(flown, 200 * 9);
}

#[test]
fn law_arrows_come_round_again() {
    let mut plan = compare(vec![Simple::new().sawn(0.004).aimed(1e-3).build("one")], 120);
    plan.arrows = Some(12);
    let mark = &answer(&plan).builds[0].marks[1];
    let again = |sample: &[Impact]| sample.iter().zip(&sample[12..]).all(|(a, b)| a == b);
    assert!(again(&mark.machine.sample));
    assert!(!again(&mark.full.sample));
}

#[test]
fn law_a_sweep_holds_its_value_over_draw_and_doubt() {
    let drawn = Distribution::Normal { mean: 0.0, sd: 1.0 };
    let build = Simple::new()
        .sawn(0.004)
        .drawn(Value::Wind, Owner::Weather, drawn, Per::Shot)
        .doubted(Value::Wind, 0.0, 9.0)
        .doubted(Value::Restraint, 0.4, 1.2);
    let mut plan = compare(vec![build.build("one")], 100);
    plan.question = Question::Sweep(Sweep {
        key: "Wind".to_owned(),
        dimension: Dimension::Speed,
        slot: Value::Wind.slot(),
        values: vec![0.0, 5.0],
        labels: vec!["0 m/s".to_owned(), "5 m/s".to_owned()],
    });
    let found = clothyard_tests::swept(run(&plan, &Quiet).unwrap());
    let points = &found.sweeps[0].points;
    assert_eq!(points.len(), 2);
    let mut still = Simple::new().sawn(0.004).doubted(Value::Restraint, 0.4, 1.2);
    still.base.site.wind.speed = Speed::from_si(5.0);
    let alone = answer(&compare(vec![still.build("one")], 100));
    assert_eq!(points[1].build, alone.builds[0]);
    assert_eq!(found.builds[0].causes.len(), 3);
}

#[test]
fn law_bands_hold_the_answer_and_grow_with_the_doubts() {
    let base = || Simple::new().sawn(0.004);
    let bands = |simple: Simple| {
        let found = answer(&compare(vec![simple.build("one")], 200));
        let mark = &found.builds[0].marks[1];
        let (r50, drop) = (mark.machine.stats.r50.value, mark.nominal.drop);
        let ((low, high), (least, most)) = (mark.machine_band, mark.drop_band);
        assert!(low <= r50 && r50 <= high && least <= drop && drop <= most);
        [high - low, most - least]
    };
    assert_eq!(bands(base()), [0.0, 0.0]);
    // Both ends at the value in use.
    assert_eq!(bands(base().doubted(Value::NockDrag, 0.45, 0.45)), [0.0, 0.0]);
    let drag = bands(base().doubted(Value::NockDrag, 0.3, 0.6));
    let push = bands(base().doubted(Value::Restraint, 0.4, 1.2));
    let both = bands(base().doubted(Value::NockDrag, 0.3, 0.6).doubted(Value::Restraint, 0.4, 1.2));
    // A faultless push does not feel the restraint.
    assert!(push[0] > 0.0 && push[1] == 0.0);
    // Sixteen points know the ends of a band roughly, and with another value
    // drawn beside it the same points lie elsewhere along the drag's own axis.
    assert!(drag[1] > 1e-3 && (both[1] / drag[1] - 1.0).abs() < 0.2);
    assert!(both[0] > 0.5 * push[0].max(drag[0]));
}

#[test]
fn law_one_flight_is_the_nominal_arrow_until_it_has_faults() {
    let clean = Simple::new().aimed(1e-3);
    let found = study::nominal(&clean, &[Length::from_si(40.0)]).unwrap();
    let mark = 40.0 - (found.built.layout.tip.si() - found.built.mass.balance().si());
    let one = study::fly_one(&clean, &[mark], false).unwrap();
    assert_eq!(one.launch_pitch, found.launch_pitch);
    let answered = answer(&compare(vec![clean.clone().build("one")], 100));
    let above_sight = answered.builds[0].launch_pitch;
    assert_eq!(above_sight, found.launch_pitch + (0.1_f64 / 20.0).atan());
    assert_eq!(one.states[0].time, found.marks[0].time);
    assert_eq!((&one.built, one.departure), (&found.built, found.departure));

    let lopsided = study::fly_one(&faulty(), &[mark], false).unwrap();
    assert!(lopsided.departure.yaw_rate.abs() > 1e-3);
    let point = study::fly_one(&clean, &[mark], true).unwrap();
    assert_eq!(point.states[0].spin, 0.0);
    assert!((point.states[0].time - one.states[0].time).abs() < 1e-3);
}

#[test]
fn law_the_stopping_rule_stops_at_the_first_batch_that_meets_it() {
    let build = || vec![Simple::new().sawn(0.004).aimed(1e-3).build("one")];
    let met = |answer: &Compared| {
        answer.builds[0].marks.iter().all(|mark| {
            let r90 = mark.full.stats.r90;
            0.5 * (r90.high - r90.low) <= 0.05 * r90.value
        })
    };
    let mut plan = compare(build(), 150);
    plan.stop = Some(study::StopRule { r90_within: 0.05, at_most: 20_000 });
    let found = answer(&plan);
    let flights = found.builds[0].flights;
    assert!(
        met(&found) && flights > 150 && flights.is_multiple_of(150) && flights < 20_000,
        "{flights}"
    );
    assert!(!met(&answer(&compare(build(), flights - 150))));
    // Batches or not, the flights are the same.
    assert_eq!(found.builds, answer(&compare(build(), flights)).builds);

    plan.stop = Some(study::StopRule { r90_within: 1e-4, at_most: 400 });
    assert_eq!(answer(&plan).builds[0].flights, 400);
}

/// Independent causes add in variance; the slack is four standard errors of
/// the product of two independent normals' sample covariance, per axis.
#[test]
fn law_archer_and_arrows_add_in_variance() {
    let flights = 4_000;
    let clock = Distribution::Uniform { low: 0.0, high: TAU };
    let build = Simple::new()
        .aimed(1e-4)
        .drawn(Value::Groove, Owner::NockEnd, Distribution::Rayleigh { scale: 1e-4 }, Per::Arrow)
        .drawn(Value::GrooveClock, Owner::NockEnd, clock, Per::Arrow);
    let found = answer(&compare(vec![build.build("one")], flights));
    for mark in &found.builds[0].marks {
        let of = |group: &study::Sampled| group.stats.sigma.value;
        let (full, machine, form) = (of(&mark.full), of(&mark.machine), of(&mark.form));
        assert!(machine > 0.2 * form && form > 0.2 * machine, "{machine} {form}");
        let gap = full * full - machine * machine - form * form;
        let error = 2.0 * machine * form / (2.0 * flights as f64).sqrt();
        assert!(gap.abs() < 4.0 * error, "{gap} {error}");
    }
}

#[test]
fn law_the_first_flight_that_fails_is_the_one_named() {
    let law = Distribution::Uniform { low: 0.9e-3, high: 11e-3 };
    let mut stream = RandomStream::new(7, "PointMass");
    let first = (0..2_000).position(|i| stream.value(&law, i) < 1e-3).unwrap();
    assert!(first > 10);
    let plan = || {
        let mut build = Simple::new().drawn(Value::PointMass, Owner::Weights, law, Per::Shot);
        build.draws[0].off = 6e-3;
        compare(vec![build.build("light")], 2_000)
    };
    for threads in [1, 8] {
        let pool = ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        let error = pool.install(|| run(&plan(), &Quiet)).unwrap_err();
        let StudyError::Refused { who, .. } = error else { panic!("{error}") };
        assert_eq!((who.build.as_str(), who.flight), ("light", Some(first)));
    }
}

/// Counts flights, and cancels after some.
#[derive(Default)]
struct Count {
    planned: AtomicU64,
    done: AtomicU64,
    most: Option<u64>,
}

impl Watch for Count {
    fn planned(&self, flights: u64) {
        self.planned.fetch_add(flights, Ordering::Relaxed);
    }
    fn done(&self, flights: u64) {
        self.done.fetch_add(flights, Ordering::Relaxed);
    }
    fn cancelled(&self) -> bool {
        self.most.is_some_and(|most| self.done.load(Ordering::Relaxed) > most)
    }
}

#[test]
fn law_every_planned_flight_is_done() {
    let a = faulty().doubted(Value::Restraint, 0.4, 1.2);
    let mut plan = compare(vec![a.build("a"), Simple::new().sawn(0.002).build("b")], 150);
    plan.question = Question::Compare { ends: true };
    plan.stop = Some(study::StopRule { r90_within: 0.1, at_most: 400 });
    let count = Count::default();
    run(&plan, &count).unwrap();
    let (planned, done) = (count.planned.into_inner(), count.done.into_inner());
    assert!(done > 1_000 && planned == done, "{planned} {done}");

    let count = Count { most: Some(500), ..Count::default() };
    assert_eq!(run(&plan, &count).unwrap_err(), StudyError::Cancelled);
    assert!(count.done.into_inner() < done);
}
