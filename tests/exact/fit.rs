//! Fits to shots without noise, or with one known mistake.

use clothyard_tests::shots::{SCALE, TRUTH, known, plan, shot, shots};
use study::{ErrorsFrom, Fitted, Observed, Refit, Sought, What, fit};
use target::{outlier_factor, scatter_limit};
use units::{Length, Speed};

const ALL: [Sought; 3] = [Sought::Speed, Sought::Drag, Sought::Radius];

fn fitted(shots: Vec<Observed>, sought: &[Sought]) -> Fitted {
    fit(&known(), &plan(shots, sought)).unwrap()
}

/// Shots without noise give back speed, drag and radius; the tolerance of launch
/// angles, 1e-9 rad, leaves a millionth.
#[test]
fn exact_shots_without_noise_are_fitted() {
    let found = fitted(shots(true, || 0.0), &ALL);
    for (value, (what, truth)) in found.values.iter().zip(TRUTH) {
        assert_eq!(value.what, what);
        assert!((value.value / truth - 1.0).abs() < 2e-6, "{what:?} {} for {truth}", value.value);
        assert!(value.low < truth && truth < value.high);
    }
    assert!((found.scale_zero.unwrap() - SCALE).abs() < 1e-5);
    assert_eq!((found.freedom, found.spread), (3, ErrorsFrom::Stated));
    assert!(found.rows.iter().all(|row| row.agrees));
}

/// The two speeds that stand for a fit say all of it: fitted alone, they give the same
/// speed and drag, the same errors and the same correlation. The place where the second
/// is independent of the first is found between straight slopes, to a hundredth.
#[test]
fn exact_the_speeds_of_a_fit_say_what_the_fit_says() {
    let (simple, sought) = (known(), [Sought::Speed, Sought::Drag]);
    let rest = Refit::new(&simple, TRUTH[2..].to_vec());
    let whole = fit(&rest, &plan(shots(true, || 0.0), &sought)).unwrap();
    let speeds = &whole.speeds.speeds;
    assert_eq!((speeds.len(), speeds[0].distance), (2, Length::ZERO));
    assert!((5.0..60.0).contains(&speeds[1].distance.si()), "{speeds:?}");
    let read = |(line, one): (usize, &study::FittedSpeed)| {
        shot(line + 2, one.distance.si(), What::Speed(one.speed), Some(one.error.si()))
    };
    let two = speeds.iter().enumerate().map(read).collect();
    let again = fit(&rest, &plan(two, &sought)).unwrap();
    for (one, other) in whole.values.iter().zip(&again.values) {
        assert!((one.value / other.value - 1.0).abs() < 1e-5, "{one:?} {other:?}");
        assert!((one.error / other.error - 1.0).abs() < 0.01, "{one:?} {other:?}");
    }
    let both = [&whole, &again].map(|of| of.correlations[0][1]);
    assert!(both[0] > 0.3 && (both[0] - both[1]).abs() < 0.01, "{both:?}");
}

/// The doubt of a held radius enters by what a fit with another radius gives, by root sum
/// of squares; slopes are straight over 2 mm to a hundredth.
#[test]
fn exact_a_held_radius_brings_its_own_doubt() {
    let simple = known();
    let marks = || plan(shots(false, || 0.0), &[Sought::Speed]);
    let at = |more: f64, doubt: f64| {
        let held = vec![TRUTH[1], (Sought::Radius, TRUTH[2].1 + more)];
        let rest = Refit::new(&simple, held);
        let asked = study::FitPlan { radius_error: Length::from_si(doubt), ..marks() };
        fit(&rest, &asked).unwrap().values[0]
    };
    let moved = (at(1e-3, 0.0).value - at(-1e-3, 0.0).value).abs() / 2e-3;
    let (sure, doubted) = (at(0.0, 0.0), at(0.0, 5e-3));
    let own = (doubted.error.powi(2) - sure.error.powi(2)).sqrt();
    assert!((own / (5e-3 * moved) - 1.0).abs() < 0.01, "{own} {moved}");
    assert!((doubted.value - sure.value).abs() < 1e-9);
}

/// Two marks give the speed, and the scale's zero with it, where the rest is
/// known.
#[test]
fn exact_two_marks_give_the_speed() {
    let simple = known();
    let rest = Refit::new(&simple, TRUTH[1..].to_vec());
    let two: Vec<Observed> = shots(false, || 0.0).into_iter().step_by(4).collect();
    let found = fit(&rest, &plan(two, &[Sought::Speed])).unwrap();
    assert!((found.values[0].value / TRUTH[0].1 - 1.0).abs() < 1e-6, "{}", found.values[0].value);
    assert_eq!(found.freedom, 0);
    assert!(found.rows.iter().all(|row| row.studentized.is_none()));
}

/// A scale whose numbers fall with distance gives the same speed.
#[test]
fn exact_a_scale_may_run_the_other_way() {
    let simple = known();
    let rest = Refit::new(&simple, TRUTH[1..].to_vec());
    let rising = shots(false, || 0.0);
    let mut falling = rising.clone();
    for shot in &mut falling {
        shot.what = What::Mark(Length::from_si(-shot.what.si()));
    }
    let [one, other] =
        [rising, falling].map(|shots| fit(&rest, &plan(shots, &[Sought::Speed])).unwrap());
    assert!((one.values[0].value - other.values[0].value).abs() < 1e-6);
    assert!(!one.falling && other.falling);
}

/// Gaps between pins and impacts with another pin tell the same as marks: the
/// readings that the truth gives are fitted by the truth.
#[test]
fn exact_gaps_and_impacts_are_fitted() {
    let simple = known();
    let truth = Refit::new(&simple, TRUTH.to_vec());
    let rest = Refit::new(&simple, TRUTH[1..].to_vec());
    let length = Length::from_si;
    let seen = [
        (30.0, What::Gap { pin: length(20.0), gap: length(0.004) }),
        (30.0, What::Impact { pin: length(20.0), up: length(-0.15) }),
        (50.0, What::Gap { pin: length(20.0), gap: length(0.015) }),
        (60.0, What::Impact { pin: length(40.0), up: length(-1.0) }),
    ];
    let shots: Vec<Observed> =
        seen.iter().enumerate().map(|(at, (d, what))| shot(at, *d, *what, Some(1e-3))).collect();
    // What the truth makes of them, by a fit of next to nothing.
    let computed = fit(&truth, &plan(shots.clone(), &[Sought::Height])).unwrap();
    let height = computed.values[0].value;
    let mut exact = shots;
    for (shot, row) in exact.iter_mut().zip(&computed.rows) {
        shot.what = match shot.what {
            What::Gap { pin, .. } => What::Gap { pin, gap: length(row.computed) },
            What::Impact { pin, .. } => What::Impact { pin, up: length(row.computed) },
            other => other,
        };
    }
    let rest = Refit::new(&rest, vec![(Sought::Height, height)]);
    let found = fit(&rest, &plan(exact, &[Sought::Speed])).unwrap();
    assert!((found.values[0].value / TRUTH[0].1 - 1.0).abs() < 1e-6, "{}", found.values[0].value);
}

/// One mark moved by ten of its errors is named, and no other.
#[test]
fn exact_the_odd_mark_is_named() {
    let mut seen = shots(true, || 0.0);
    let odd = 4;
    seen[odd].what = What::Mark(Length::from_si(seen[odd].what.si() + 2e-3));
    let line = seen[odd].line;
    let found = fitted(seen, &ALL);
    let named: Vec<usize> =
        found.rows.iter().filter(|row| !row.agrees).map(|row| row.shot.line).collect();
    assert!(named.contains(&line), "{named:?}");
    let worst = found
        .rows
        .iter()
        .max_by(|a, b| a.studentized.unwrap().abs().total_cmp(&b.studentized.unwrap().abs()));
    assert_eq!(worst.unwrap().shot.line, line);
}

/// The further shot that is advised leaves what it promises: fitted with it,
/// the errors have shrunk by as much (the errors are stated as the usual ones).
#[test]
fn exact_the_next_shot_keeps_its_promise() {
    let before = fitted(shots(false, || 0.0), &[Sought::Speed, Sought::Radius]);
    let next = before.next.clone().unwrap();
    assert!(matches!(next.shot.what, What::Speed(_)), "{next:?}");
    let mut more = shots(false, || 0.0);
    more.push(Observed { line: 9, error: Some(next.shot.sigma()), ..next.shot });
    let after = fitted(more, &[Sought::Speed, Sought::Radius]);
    for ((one, other), left) in before.values.iter().zip(&after.values).zip(&next.left) {
        let found = other.error / one.error;
        assert!((found / left - 1.0).abs() < 0.02, "{found} for {left}");
    }
}

/// Normal and Student's t (5 degrees of freedom) at 1 - 0.025/8, chi-square at
/// 0.975 with 3: scipy 1.17.1 `norm`, `t`, `chi2` (C).
#[test]
fn exact_quantiles_of_verdicts() {
    let near = |value: f64, want: f64| assert!((value - want).abs() < 1e-4, "{value} {want}");
    near(outlier_factor(1, None).unwrap(), 1.959_964);
    near(outlier_factor(8, None).unwrap(), 2.734_369);
    near(outlier_factor(8, Some(5)).unwrap(), 4.525_716);
    near(scatter_limit(3).unwrap().powi(2) * 3.0, 9.348_404);
}

/// Speeds alone give the departure speed at the bow.
#[test]
fn exact_a_chronograph_at_the_bow_is_the_speed() {
    let speed = What::Speed(Speed::from_si(83.0));
    let found = fitted(vec![shot(2, 0.0, speed, Some(0.5))], &[Sought::Speed]);
    // What the swinging shaft loses at once lies between the two.
    assert!((found.values[0].value - 83.0).abs() < 0.2, "{}", found.values[0].value);
    assert!((found.values[0].error - 0.5).abs() < 0.01);
}
