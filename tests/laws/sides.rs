//! Builds held side by side.

use clothyard_tests::compared;
use clothyard_tests::recipe::{Simple, Value, compare};
use rayon::ThreadPoolBuilder;
use study::{
    BuildMeasure, Compared, DRIFT_WIND, Farthest, Misjudgement, Plan, Quiet, SideBySide,
    SidePairMark, Stated, StudyError, TargetChoice, run,
};
use target::PowerTest;
use units::{Angle, AngularRate, Length, Mass, Ratio, Speed};

fn answer(plan: &Plan) -> Compared {
    compared(run(plan, &Quiet).unwrap())
}

fn sides(plan: &Plan) -> SideBySide {
    answer(plan).sides
}

fn light() -> Simple {
    Simple::new().sawn(0.004).aimed(2e-3).doubted(Value::Restraint, 0.4, 1.2).doubted(
        Value::NockDrag,
        0.3,
        0.6,
    )
}

fn heavy() -> Simple {
    let mut heavy = light();
    let mass = heavy.base.parts.point.mass.si();
    heavy.base.parts.point.mass = Mass::from_si(1.6 * mass);
    heavy
}

fn stated() -> Stated {
    Stated {
        power_test: PowerTest::new(0.9, 0.7).unwrap(),
        range_error: Some(Length::from_si(1.5)),
        wind_error: Some(Speed::from_si(2.0)),
        hit_share: Some(Ratio::from_si(0.6)),
        round: None,
        headline: None,
        zone: true,
    }
}

fn plan(builds: [(&str, Simple); 2]) -> Plan {
    let builds = builds.map(|(name, simple)| simple.build(name)).into();
    let mut plan = compare(builds, 300);
    plan.stated = stated();
    plan
}

fn on_a_face(mut plan: Plan) -> Plan {
    plan.target = TargetChoice::Face { diameter: Length::from_si(0.8), inner_ten: false };
    plan.stated.round = Some(12);
    plan
}

/// Swapping two builds flips every sign, to the last bit.
#[test]
fn law_swapping_two_builds_flips_every_sign() {
    for face in [false, true] {
        let of = |plan: Plan| if face { on_a_face(plan) } else { plan };
        let there = of(plan([("light", light()), ("heavy", heavy())]));
        let back = of(plan([("heavy", heavy()), ("light", light())]));
        let (there, back) = (sides(&there), sides(&back));
        let mut shown = 0;
        for (a, b) in there.pairs[0].marks.iter().zip(&back.pairs[0].marks) {
            assert_eq!(a.differences.len(), if face { 9 } else { 8 });
            for (a, b) in a.differences.iter().zip(&b.differences) {
                assert_eq!(a.of, b.of);
                assert_eq!(a.value.value, -b.value.value, "{:?}", a.of);
                assert_eq!(a.value.low, -b.value.high, "{:?}", a.of);
                assert_eq!(a.value.high, -b.value.low, "{:?}", a.of);
                assert_eq!(a.shown(), b.shown());
                shown += u32::from(a.shown());
            }
            for (a, b) in [(&a.archer, &b.archer), (&a.machine, &b.machine)] {
                let (p, q) = (a.ratio.unwrap(), b.ratio.unwrap());
                // A ratio is turned over, and rounds.
                assert!((p.value * q.value - 1.0).abs() < 1e-12);
                assert_eq!(a.shots, b.shots);
                for (a, b) in a.after.iter().zip(&b.after) {
                    assert_eq!(a.picked_wrong, b.picked_wrong);
                    assert_eq!(a.picked_missed, b.picked_missed);
                }
            }
            if let (Some(a), Some(b)) = (a.duel, b.duel) {
                assert_eq!((a.first, a.tie, a.second), (b.second, b.tie, b.first));
            }
        }
        assert!(shown > 6, "builds too alike to test anything");
        let [light, heavy] = &there.builds[..] else { panic!("two builds") };
        assert_eq!(&back.builds[..], [heavy.clone(), light.clone()]);
    }
}

/// A build is no different from itself, and nothing is called a difference.
#[test]
fn law_a_build_does_not_differ_from_itself() {
    let found = sides(&on_a_face(plan([("one", light()), ("same", light())])));
    for mark in &found.pairs[0].marks {
        for difference in &mark.differences {
            let all = [difference.value.value, difference.value.low, difference.value.high];
            assert_eq!(all, [0.0; 3], "{:?}", difference.of);
            assert!(!difference.shown());
        }
        let duel = mark.duel.unwrap();
        assert_eq!(duel.first, duel.second);
        assert_eq!(mark.archer.after.iter().map(|a| a.shots).collect::<Vec<_>>(), [3, 6, 12, 36]);
    }
}

#[test]
fn law_sides_are_the_same_on_any_number_of_threads() {
    let on = |threads: usize| {
        let pool = ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        let plan = plan([("light", light()), ("heavy", heavy())]);
        format!("{:?}", pool.install(|| sides(&plan)))
    };
    let one = on(1);
    assert_eq!(one, on(2));
    assert_eq!(one, on(8));
}

fn difference(mark: &SidePairMark, of: BuildMeasure) -> f64 {
    mark.differences.iter().find(|found| found.of == of).unwrap().value.value
}

/// Each difference is that of the two builds' own numbers; a heavier arrow is
/// slower, drops more, and keeps more momentum.
#[test]
fn law_differences_are_those_of_the_numbers_shown() {
    let found = answer(&plan([("light", light()), ("heavy", heavy())]));
    let sides = &found.sides;
    for (place, mark) in sides.pairs[0].marks.iter().enumerate() {
        let [light, heavy] = [0, 1].map(|build: usize| &found.builds[build].marks[place]);
        let less = |read: fn(&study::MarkAnswer) -> f64| read(heavy) - read(light);
        for (of, want) in [
            (BuildMeasure::Drop, less(|m| m.nominal.drop)),
            (BuildMeasure::Time, less(|m| m.nominal.time)),
            (BuildMeasure::Speed, less(|m| m.nominal.speed)),
            (BuildMeasure::Energy, less(|m| m.nominal.energy)),
            (BuildMeasure::Momentum, less(|m| m.nominal.momentum)),
            (BuildMeasure::R50, less(|m| m.full.stats.r50.value)),
        ] {
            assert_eq!(difference(mark, of), want, "{of:?}");
        }
        // A mean of changes against a change of means.
        assert!((difference(mark, BuildMeasure::Hit) - less(|m| m.hit.value)).abs() < 1e-12);
        assert!(difference(mark, BuildMeasure::Drop) > 0.0);
        assert!(difference(mark, BuildMeasure::Speed) < 0.0);
        assert!(difference(mark, BuildMeasure::Momentum) > 0.0);
    }
}

/// The drift follows the lag rule, wind times (time less distance over speed),
/// exact for a point mass. An arrow leaves the string with its nose along the
/// bow and turns into the wind, by wind over speed; half a metre, more than
/// lies between its tip and its balance point, times that angle covers it.
#[test]
fn law_drift_follows_the_lag_rule() {
    let mut plan = plan([("light", light()), ("heavy", heavy())]);
    plan.distances = [20.0, 50.0, 90.0].map(Length::from_si).into();
    plan.stated = Stated::default();
    let found = answer(&plan);
    let sides = &found.sides;
    for (build, side) in found.builds.iter().zip(&sides.builds) {
        for (mark, found) in build.marks.iter().zip(&side.marks) {
            let lag = mark.nominal.time - mark.distance.si() / build.departure.speed;
            let drift = found.drift / DRIFT_WIND;
            let turned = 0.5 / build.departure.speed;
            assert!((drift - lag).abs() < turned, "{drift} {lag}");
        }
    }
}

/// What the wind carries an arrow is told against the same arrow in still air, however far
/// aside the release throws it: in the wind of which drift is told it is, over both sides
/// of that wind, the drift.
#[test]
fn law_what_the_wind_carries_is_told_against_still_air() {
    let thrown = |speed: f64, from: f64| {
        let mut one = light();
        one.base.departure.yaw_rate = Some(AngularRate::from_si(1.0));
        one.base.site.wind.speed = Speed::from_si(speed);
        one.base.site.wind.from = Angle::from_si(from);
        one
    };
    let side = std::f64::consts::FRAC_PI_2;
    let found = answer(&plan([("still", thrown(0.0, 0.0)), ("right", thrown(DRIFT_WIND, side))]));
    let left = answer(&plan([("left", thrown(DRIFT_WIND, -side)), ("still", thrown(0.0, side))]));
    for place in 0..2 {
        let aside = found.builds[0].marks[place].nominal.left;
        assert!(aside.abs() > 0.02, "{aside}");
        let [still, right] = [0, 1].map(|build| found.sides.builds[build].marks[place].carried);
        assert_eq!(still.to_bits(), 0.0_f64.to_bits());
        let drift = found.sides.builds[0].marks[place].drift;
        let left = left.sides.builds[0].marks[place].carried;
        assert!(right > 0.0 && left < 0.0, "{right} {left}");
        assert!((0.5 * (right - left) - drift).abs() < 1e-7, "{right} {left} {drift}");
    }
}

/// The path turned as a whole is the path of an arrow whose sight was set for
/// the wrong distance.
#[test]
fn law_a_misjudged_distance_is_a_sight_set_wrong() {
    let found = sides(&plan([("light", light()), ("heavy", heavy())]));
    let distances = [Length::from_si(20.0), Length::from_si(50.0)];
    for (place, mark) in found.builds[0].marks.iter().enumerate() {
        for (what, error) in [(Misjudgement::TooFar, 1.5), (Misjudgement::TooNear, -1.5)] {
            let shift = mark.misjudged.iter().find(|one| one.what == what).unwrap().shift;
            let mut simple = light();
            simple.base.sight.zero = Length::from_si(distances[place].si() + error);
            let flown = study::nominal(&simple, &distances).unwrap().centres[place];
            // Gravity and the arrow's own swing are not turned with the path.
            assert!((shift.up - flown.up).abs() < 2e-3 * flown.up.abs(), "{shift:?} {flown:?}");
        }
    }
}

/// An unnoticed cross wind moves the group by its drift, left from the right.
#[test]
fn law_an_unnoticed_wind_moves_the_group_by_its_drift() {
    let mut windy = light();
    windy.base.site.wind.speed = Speed::from_si(3.0);
    windy.base.site.wind.from = Angle::from_si(0.4);
    let found = sides(&plan([("still", light()), ("windy", windy)]));
    for build in &found.builds {
        for mark in &build.marks {
            let at = |what| mark.misjudged.iter().find(|one| one.what == what).unwrap().shift.left;
            let (right, left) = (at(Misjudgement::WindFromRight), at(Misjudgement::WindFromLeft));
            assert!(right > 0.0 && left < 0.0);
            // Drift is that of 10 mph, these are 2 m/s; the arrow's swing as it
            // turns into the wind is not quite in proportion (0.104 at 20 m).
            let drift = 2.0 / DRIFT_WIND * mark.drift;
            assert!((right - drift).abs() < 0.12 * right, "{right} {drift}");
            assert!((right + left).abs() < 0.15 * right, "{right} {left}");
        }
    }
}

/// The curve of hits begins and ends with the hits at the distances asked, and
/// the farthest distance lies where it falls below the share.
#[test]
fn law_the_farthest_distance_is_where_the_curve_falls_below() {
    let mut plan = plan([("light", light()), ("heavy", heavy())]);
    let found = answer(&plan);
    let sides = &found.sides;
    for (build, side) in found.builds.iter().zip(&sides.builds) {
        let reach = side.reach.as_ref().unwrap();
        let ends = [(0, 0), (reach.curve.len() - 1, 1)];
        for (at, place) in ends {
            let curve = &reach.curve[at];
            assert_eq!(curve.distance, build.marks[place].distance);
            // The same flights, in steps of their own: one may cross the edge.
            assert!((curve.hit.value - build.marks[place].hit.value).abs() < 1.5 / 300.0);
        }
        for mark in &reach.curve {
            assert!(mark.misjudged.unwrap().value <= mark.hit.value + 0.05);
        }
        let Farthest::To { distance, low, high } = reach.farthest else {
            panic!("{:?}", reach.farthest)
        };
        let inside = |far: Option<Length>, nearer: bool| {
            far.is_none_or(|far| if nearer { far <= distance } else { far >= distance })
        };
        assert!(inside(low, true) && inside(high, false));
        for mark in &reach.curve {
            let hits = mark.hit.value >= 0.6;
            // Up to there every place holds the share.
            assert!(hits || mark.distance > distance);
        }
    }
    for (share, wanted) in [(0.001, "throughout"), (0.999, "nowhere")] {
        plan.stated.hit_share = Some(Ratio::from_si(share));
        plan.target = TargetChoice::Zone { diameter: Length::from_si(0.08) };
        for side in answer(&plan).sides.builds {
            let word = match side.reach.unwrap().farthest {
                Farthest::Nowhere => "nowhere",
                Farthest::To { .. } => "to",
                Farthest::Throughout { .. } => "throughout",
            };
            assert_eq!(word, wanted);
        }
    }
}

/// A round's expected total is its arrows times the mean score.
#[test]
fn law_a_round_is_its_arrows() {
    let found = answer(&on_a_face(plan([("light", light()), ("heavy", heavy())])));
    let sides = &found.sides;
    for (build, side) in found.builds.iter().zip(&sides.builds) {
        for (mark, of) in build.marks.iter().zip(&side.marks) {
            let (score, round) = (mark.score.unwrap(), of.round.unwrap());
            assert!((round.mean.value - 12.0 * score.value).abs() < 1e-9);
            assert!(f64::from(round.low) <= round.mean.value);
            assert!(round.mean.value <= f64::from(round.high));
            assert!(round.deviation > 0.0);
        }
    }
}

/// A zone wider than high is an ellipse; the same width both ways is a circle.
#[test]
fn law_an_ellipse_of_equal_axes_is_a_circle() {
    let with = |target: TargetChoice| {
        let mut plan = compare(vec![light().build("one")], 300);
        plan.target = target;
        answer(&plan).builds[0].marks.iter().map(|mark| mark.hit.value).collect::<Vec<_>>()
    };
    let length = Length::from_si;
    let round = with(TargetChoice::Zone { diameter: length(0.2) });
    assert_eq!(round, with(TargetChoice::Ellipse { width: length(0.2), height: length(0.2) }));
    let low = with(TargetChoice::Ellipse { width: length(0.2), height: length(0.1) });
    assert!(low[1] < round[1]);
}

#[test]
fn law_more_builds_than_fit_are_refused() {
    let names = ["a", "b", "c", "d", "e", "f", "g"];
    let build = |name: &&str| light().build(name);
    let error = run(&compare(names.iter().map(build).collect(), 100), &Quiet).unwrap_err();
    assert_eq!(error, StudyError::ManyBuilds { builds: 7, most: 6 });
    let mut plan = plan([("light", light()), ("heavy", heavy())]);
    for (error, fits) in [(9.9, true), (10.0, false), (0.0, false), (f64::NAN, false)] {
        plan.stated = Stated { range_error: Some(Length::from_si(error)), ..Stated::default() };
        assert_eq!(run(&plan, &Quiet).is_ok(), fits, "{error}");
    }
}

/// Where the second build lands with the first's sight setting is what a blind trial of the
/// two expects, and how many arrows that takes is what judges groups that were shot.
#[test]
fn law_one_sight_setting_is_told_as_a_trial_expects_it() {
    let mut plan = plan([("light", light()), ("heavy", heavy())]);
    plan.flights = 4_000;
    plan.points = 0;
    let found = answer(&plan);
    let mark = &found.pairs[0].marks[1];
    let one = mark.one_sight.unwrap();
    let both = [&plan.builds[0], &plan.builds[1]];
    let expected = study::expected(both, mark.distance, plan.seed, &Quiet).unwrap().unwrap();
    // The same flights, so but for rounding the same place.
    let [left, up] = expected.shift;
    assert!((one.shift.left - left).abs() < 1e-9 && (one.shift.up - up).abs() < 1e-9, "{one:?}");
    assert!(one.shift.up < -0.05, "the heavier lands low: {one:?}");
    // Round groups: the pooled covariance is the square of one sigma within its error.
    assert!((one.apart.sqrt() / expected.sigmas - 1.0).abs() < 0.05, "{one:?} {expected:?}");
    let shots = plan.stated.power_test.shots_for_centres(one.apart).unwrap();
    assert_eq!(one.shots, study::Shots::Each(shots));
    // Swapped, it lands as far to the other side.
    plan.builds.swap(0, 1);
    let back = answer(&plan).pairs[0].marks[1].one_sight.unwrap().shift;
    assert!((back.up + one.shift.up).abs() < 0.02 * one.shift.up.abs(), "{back:?} {one:?}");
}
