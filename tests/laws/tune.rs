//! The tuning question: symmetries, bands, threads.

use std::f64::consts::{FRAC_PI_2, PI, TAU};
use std::sync::atomic::{AtomicU64, Ordering};

use arrow::{Bend, Lean, Shift};
use clothyard_tests::recipe::{Simple, Value};
use clothyard_tests::tuning;
use clothyard_tests::{push, tune};
use launch::Side;
use study::{
    Distribution, Offset, Owner, Per, Plan, Quiet, StudyError, Tuned, TunedBuild, Watch, run,
};
use units::{Acceleration, Angle, Length, Momentum};

fn tuned(plan: &Plan) -> Tuned {
    tuning(run(plan, &Quiet).unwrap())
}

/// The answer for one build without trends.
fn one(simple: &Simple) -> TunedBuild {
    tuned(&tune::plan(vec![simple.clone().build("one")], Vec::new())).builds.remove(0)
}

fn places(list: &[Option<Offset>]) -> Vec<[f64; 2]> {
    list.iter().map(|offset| offset.map(|o| [o.left.value, o.up.value]).unwrap()).collect()
}

fn bare(build: &TunedBuild) -> Vec<[f64; 2]> {
    build.bare.iter().map(|mark| mark.apart.map(|o| [o.left.value, o.up.value]).unwrap()).collect()
}

fn tears(build: &TunedBuild) -> Vec<[f64; 2]> {
    build.paper.iter().map(|tear| [tear.nock.left.value, tear.nock.up.value]).collect()
}

fn size([left, up]: [f64; 2]) -> f64 {
    left.hypot(up)
}

/// A release aid, a straight string and a perfect arrow whose vanes do not spin
/// it: nothing is left or right, and without weight nothing is up or down
/// either.
#[test]
fn law_tune_a_clean_push_parts_and_tears_nothing() {
    let mut simple = tune::simple(push::level());
    if let Some(vanes) = &mut simple.base.parts.vanes {
        vanes.angle = Angle::ZERO;
    }
    let heavy = one(&simple);
    for [left, _] in bare(&heavy).into_iter().chain(tears(&heavy)) {
        assert!(left.abs() == 0.0, "{left}");
    }
    assert!(bare(&heavy)[2][1] > 1e-3, "a bare shaft keeps its nose up longer");
    simple.base.site.gravity = Acceleration::ZERO;
    let light = one(&simple);
    for place in bare(&light).into_iter().chain(tears(&light)) {
        assert!(size(place) < 1e-9, "{place:?}");
    }
    for step in &light.turns.steps {
        assert!(places(&step.moved).into_iter().all(|moved| size(moved) < 1e-9));
    }
}

/// A finger-shot recurve with a faulty arrow.
fn lopsided() -> Simple {
    let mut simple = tune::simple(push::recurve());
    simple.base.faults = push::faults(1.0);
    simple.base.index = Angle::from_si(0.4);
    simple
}

fn mirrored(mut simple: Simple) -> Simple {
    let turn = |clock: Angle| Angle::from_si(-clock.si());
    let lean = |l: Lean| Lean { clock: turn(l.clock), ..l };
    let shift = |s: Shift| Shift { clock: turn(s.clock), ..s };
    let base = &mut simple.base;
    let f = &mut base.faults;
    f.point_cant = lean(f.point_cant);
    f.nock_cant = lean(f.nock_cant);
    f.groove_offset = shift(f.groove_offset);
    f.wall_offset = shift(f.wall_offset);
    f.point_offset = shift(f.point_offset);
    f.bend = f.bend.map(|b| Bend { clock: turn(b.clock), ..b });
    base.index = turn(base.index);
    base.bow.release.left = Momentum::from_si(-base.bow.release.left.si());
    base.bow.rest.side = Side::Right;
    if let Some(vanes) = &mut base.parts.vanes {
        vanes.angle = turn(vanes.angle);
    }
    simple
}

#[test]
fn law_tune_mirror() {
    let (a, b) = (one(&lopsided()), one(&mirrored(lopsided())));
    let pairs = bare(&a).into_iter().zip(bare(&b)).chain(tears(&a).into_iter().zip(tears(&b)));
    for ([l, u], [m, v]) in pairs {
        assert!(l.abs() > 1e-4, "nothing to mirror");
        // A flight is followed to 0.05 mm, and its steps do not mirror.
        assert!((l + m).abs() < 5e-5 && (u - v).abs() < 5e-5, "{l} {u} against {m} {v}");
    }
    let gap = |build: &TunedBuild| build.clearance.riser.unwrap().gap.value;
    assert!((gap(&a) - gap(&b)).abs() < 1e-9);
    let clock = |build: &TunedBuild| build.clearance.riser.unwrap().clock;
    assert!(((clock(&a) + clock(&b)) / TAU).fract().abs() < 1e-9);
    // The nock turned one way is the mirror of the other.
    let (one, two) = (&a.turns.steps[1].moved, &b.turns.steps[2].moved);
    for ([l, u], [m, v]) in places(one).into_iter().zip(places(two)) {
        assert!((l + m).abs() < 5e-5 && (u - v).abs() < 5e-5, "{l} {u} against {m} {v}");
    }
}

/// A stiff side looks the same after half a turn: of four nock places, the
/// opposite ones land together.
#[test]
fn law_tune_a_stiff_side_comes_round_in_half_a_turn() {
    let mut simple = tune::stiff_sided(&tune::simple(push::recurve()), 0.05);
    simple.base.parts.shaft.stiff_clock = Angle::from_si(0.4);
    if let Some(vanes) = &mut simple.base.parts.vanes {
        vanes.count = 4;
    }
    let steps = one(&simple).turns.steps;
    let far = |step: usize| places(&steps[step].moved)[2];
    assert!((steps[2].angle - PI).abs() < 1e-12);
    assert!(size(far(1)) > 1e-3, "a quarter turn shows: {:?}", far(1));
    assert!(size(far(2)) < 1e-6, "half a turn shows nothing: {:?}", far(2));
    assert!(size([far(1)[0] - far(3)[0], far(1)[1] - far(3)[1]]) < 1e-6);
}

/// The string holds the groove, so a fault of the nock alone stays where it is
/// while the shaft turns under it; a fault of the shaft turns as if the arrow
/// were nocked the other way round.
#[test]
fn law_tune_the_nock_stays_and_the_shaft_turns() {
    let mut nock = tune::simple(push::bow());
    nock.base.faults.groove_offset =
        Shift { offset: Length::from_si(1e-4), clock: Angle::from_si(0.7) };
    nock.base.faults.nock_cant = Lean { angle: Angle::from_si(2e-3), clock: Angle::from_si(1.7) };
    let still = one(&nock);
    assert!(size(bare(&still)[2]) > 1e-2, "the nock's fault shows");
    for step in &still.turns.steps {
        assert!(places(&step.moved).into_iter().all(|moved| size(moved) < 1e-6));
    }
    let mut shaft = tune::simple(push::bow());
    shaft.base.faults.bend = push::faults(1.0).bend;
    let mut rolled = shaft.clone();
    rolled.base.index = Angle::from_si(-TAU / 3.0);
    let builds = vec![shaft.build("as it is"), rolled.build("rolled")];
    let both = tuned(&tune::plan(builds, Vec::new())).builds;
    let turned = places(&both[0].turns.steps[1].moved);
    for (a, b) in turned.into_iter().zip(places(&both[1].against)) {
        assert!(size(a) > 1e-4 && size([a[0] - b[0], a[1] - b[1]]) < 1e-9, "{a:?} {b:?}");
    }
}

#[test]
fn law_tune_bands_hold_their_values() {
    let build = one(&lopsided());
    let offsets = build.bare.iter().filter_map(|mark| mark.apart);
    let torn = build.paper.iter().map(|tear| tear.nock);
    let mut wide = 0;
    for offset in offsets.chain(torn) {
        for part in [offset.left, offset.up, offset.size] {
            assert!(part.low <= part.value && part.value <= part.high, "{part:?}");
            wide += usize::from(part.high - part.low > 0.1 * part.value.abs());
        }
        assert!(offset.size.low >= 0.0);
    }
    assert!(wide > 5, "the doubts move little");
    let mut sure = lopsided();
    sure.uncertain.clear();
    let gap = one(&sure).clearance.riser.unwrap().gap;
    assert!(gap.high - gap.low < 1e-15, "{gap:?}");
}

/// The middle value of a trend is the scenario's own, so its shot is the shot;
/// and what is said to be nearest is nearer than every value tried.
#[test]
fn law_tune_trends_hold_the_shot_and_its_nearest() {
    let simple = lopsided();
    let plan = tune::plan(vec![simple.clone().build("one")], tune::trends(&simple));
    let build = tuned(&plan).builds.remove(0);
    let now = bare(&build);
    let mut least = f64::MAX;
    for trend in &build.trends {
        let own = trend.points[4].shot.as_ref().unwrap();
        for (a, b) in own.apart.iter().zip(&now) {
            let a = a.unwrap();
            assert!(size([a[0] - b[0], a[1] - b[1]]) < 1e-9, "{}: {a:?} {b:?}", trend.key);
        }
        for shot in trend.points.iter().filter_map(|point| point.shot.as_ref().ok()) {
            least = least.min(size(shot.apart[2].unwrap()));
        }
    }
    let length = build.trends.iter().find(|trend| trend.key.ends_with("length")).unwrap();
    assert!(matches!(length.points[0].shot, Err(StudyError::Launch { .. })), "falls off the rest");
    let change = build.neutral.unwrap().changes[0];
    assert!(change.left_over < 1.02 * least);
}

/// Counts what is planned and what is done.
#[derive(Default)]
struct Count(AtomicU64, AtomicU64);

impl Watch for Count {
    fn planned(&self, flights: u64) {
        self.0.fetch_add(flights, Ordering::Relaxed);
    }
    fn done(&self, flights: u64) {
        self.1.fetch_add(flights, Ordering::Relaxed);
    }
}

#[test]
fn law_tune_same_bits_on_any_number_of_threads() {
    let simple = lopsided().drawn(
        Value::Bow,
        Owner::Shaft,
        Distribution::Rayleigh { scale: 5e-5 },
        Per::Arrow,
    );
    let plan = tune::plan(vec![simple.clone().build("one")], tune::trends(&simple));
    let count = Count::default();
    let first = study::run_on(&plan, Some(1), &count).unwrap();
    assert_eq!(count.0.into_inner(), count.1.into_inner());
    let drawn = tuning(first.clone()).builds[0].turns.drawn.clone().unwrap();
    assert!(drawn[2] > drawn[0] && drawn[0] > 0.0, "{drawn:?}");
    for threads in [2, 8] {
        assert_eq!(first, study::run_on(&plan, Some(threads), &Quiet).unwrap());
    }
}

/// A vane straight at the riser passes nearer than one turned away by a sixth
/// of a turn, and no vane passes nearer than its edge reaches.
#[test]
fn law_tune_vanes_toward_the_riser_pass_nearest() {
    let gap = |index: f64| {
        let mut simple = tune::simple(push::bow());
        simple.base.index = Angle::from_si(index);
        one(&simple).clearance.riser.unwrap().gap.value
    };
    // The arrow lies left of the riser: a vane at the right points at it.
    let (at, away) = (gap(FRAC_PI_2), gap(FRAC_PI_2 + PI / 3.0));
    let bow = push::bow();
    let reach = 0.5 * 6.2e-3 + 11e-3;
    assert!((at - (bow.rest.riser_gap.si() - reach)).abs() < 1e-12, "{at}");
    assert!((away - (bow.rest.riser_gap.si() - reach * (PI / 3.0).cos())).abs() < 1e-12, "{away}");
}
