use arrow::{Bend, Built, Faults, Line, Parts, Shift};
use body::{Across, MassProperties};
use clothyard_tests::push::{arrow, bow, recurve};
use launch::{Bow, Departure, Detail, DrawCurve, Form, History, watch};
use units::{Angle, Force, Inertia, Length, Mass, Ratio, Speed};

/// Trade draw with the string at brace, m.
fn at_brace(bow: &Bow) -> f64 {
    bow.brace_height.si() + launch::DRAW_BEYOND_PIVOT.si()
}

fn pushed(bow: &Bow, parts: &Parts, built: &Built, detail: Detail) -> History {
    watch(bow, parts, built, Angle::ZERO, &Form::default(), detail).unwrap()
}

/// The shared arrow with round mass properties, a groove this far to the left
/// of the principal axis, and a shaft whose centre line is this far to the
/// right of it at the balance point and leans this much more to the left.
fn round(groove: f64, beside: f64, lean: f64) -> (Parts, Built) {
    let (parts, mut built) = arrow(&Faults::default());
    built.mass = MassProperties::new(
        Mass::from_si(0.0275),
        Length::from_si(0.46),
        Inertia::from_si(1.9e-3),
        Inertia::from_si(3e-7),
    )
    .unwrap();
    let left = |size: f64| Across { at0: 0.0, at90: -size };
    built.whole.principal = Line { station: 0.46, offset: left(beside), slope: left(-lean) };
    built.shape.groove = built.whole.principal.at(0.0) + left(groove);
    (parts, built)
}

/// C: I th'' = F (l th - e) under an even push without string or rest, from
/// the nock and the shaft at the rest on the push line.
#[test]
fn exact_free_rigid_push_grows_as_the_closed_form() {
    let mut free = Bow { restraint: Ratio::ZERO, ..bow() };
    free.rest.share = Ratio::ZERO;
    // Even from just behind brace on.
    let reading = |draw: f64| (Length::from_si(draw), Force::from_si(200.0));
    let brace = at_brace(&free);
    free.curve =
        Some(DrawCurve::new(&[reading(brace + 1e-9), reading(0.5), reading(0.72)]).unwrap());
    let offset = 1e-4;
    let (parts, built) = round(offset, 0.0, 0.0);
    let form = Form { speed: Speed::from_si(-1.0), ..Form::default() };
    let detail = Detail { steps: 20_000, modes: 0 };
    let end = watch(&free, &parts, &built, Angle::ZERO, &form, detail).unwrap().departure;

    let (mass, lever, inertia, stroke) = (0.0275, 0.46, 1.9e-3, 0.72 - brace);
    let time = 2.0 * stroke / end.speed;
    let growth = (0.5 * mass * end.speed.powi(2) / stroke * lever / inertia).sqrt();
    let still = offset / lever;
    let away = offset / (free.rest.ahead.si() + stroke) - still;
    let angle = still + away * (growth * time).cosh();
    let rate = away * growth * (growth * time).sinh();
    // The force drops to zero on the last point of the last step, which takes
    // a sixth of that step's share away.
    assert!((end.yaw / angle - 1.0).abs() < 3e-5, "{} {angle}", end.yaw);
    assert!((end.yaw_rate / rate - 1.0).abs() < 3e-5, "{} {rate}", end.yaw_rate);
    // Nothing pushes the balance point sideways.
    assert!(end.velocity_left.abs() < 1e-15 && end.pitch_rate.abs() < 1e-15);
    assert!((end.speed - 85.0).abs() < 1e-12);
}

/// C: tests/reference/push.py, large-angle planar motion of a rigid arrow with
/// string and rest, solved by DOP853; sideways.
#[test]
fn exact_rigid_push_agrees_with_a_planar_body_solved_apart() {
    let small = 1e-6;
    for ((groove, beside, lean), want) in [
        ((small, 0.0, 0.0), [-0.202_852_499, 0.277_695_099, -37.852_479_419, -60.175_235_174]),
        ((0.0, small, 0.0), [1.248_465_636, 6.610_799_880, 208.734_194_332, 591.205_904_644]),
        ((0.0, 0.0, small), [-0.093_312_150, -0.872_260_255, -17.412_140_533, -27.680_608_180]),
    ] {
        let (parts, built) = round(groove, beside, lean);
        let detail = Detail { modes: 0, ..Detail::default() };
        let end = pushed(&bow(), &parts, &built, detail).departure;
        for (own, want) in sideways(&end).into_iter().zip(want) {
            // The default step count, held to 1e-4 of the largest figure.
            assert!((own * 1e6 - want).abs() < 1e-4 * want.abs().max(1.0), "{own} {want}");
        }
    }
}

fn sideways(end: &Departure) -> [f64; 4] {
    [end.left, end.yaw, end.velocity_left, end.yaw_rate]
}

/// C: `tests/reference/push_elastic.py`, a finite-element beam with 52 motions in
/// time; groove beside the shaft, shaft bent, point beside the shaft; sideways,
/// and the tip of the bent arrow.
#[test]
fn exact_elastic_push_agrees_with_a_beam_solved_apart() {
    let left = Angle::from_si(-std::f64::consts::FRAC_PI_2);
    let right = Angle::from_si(std::f64::consts::FRAC_PI_2);
    let shift = |offset| Shift { offset: Length::from_si(offset), clock: left };
    let none = Faults::default();
    // A bow b over 0.7 m is a curvature of 8 b/0.49, hollow opposite its clock.
    let bend =
        Bend { bow: Length::from_si(1e-6 * 0.49 / 8.0), span: Length::from_si(0.7), clock: right };
    for (faults, want) in [
        (
            Faults { groove_offset: shift(1e-6), ..none },
            [-1.435_54, 2.377_07, -708.708, 1_772.44, 2.623_82],
        ),
        (
            Faults { bend: Some(bend), ..none },
            [-0.036_324_8, 0.299_974, -35.911_3, 139.777, 0.287_344],
        ),
        (
            Faults { point_offset: shift(1e-6), ..none },
            [0.314_513, 3.258_81, -22.360_2, 535.595, 1.344_39],
        ),
    ] {
        let (parts, built) = arrow(&faults);
        let history = pushed(&bow(), &parts, &built, Detail::default());
        let tip = history.shaft(history.frames.last().unwrap(), built.layout.tip.si())[0];
        let own = [&sideways(&history.departure)[..], &[tip]].concat();
        // Five shapes against fifty modes: the bar is 1 % of the rates. Place
        // and velocity are held to 1 % of what angle and rate are at the nock.
        let lever = built.mass.balance().si();
        let size = [lever * want[1], want[1], lever * want[3], want[3], want[4]];
        let within = [1e-2, 2e-3, 1e-2, 2e-3, 2e-3];
        for i in 0..5 {
            let apart = (own[i] * 1e6 - want[i]).abs() / size[i];
            assert!(apart < within[i], "{i}: {} {} {apart}", own[i] * 1e6, want[i]);
        }
    }
}

/// The string's pull on the nock over push and displacement: F/h sideways, and
/// F h/L^2 along itself, L from tip to nock; h is 0.02 m or 0.04 m at brace.
#[test]
fn exact_restraint_of_the_string() {
    let offset = Shift { offset: Length::from_si(1e-4), clock: Angle::from_si(1.0) };
    let (parts, built) = arrow(&Faults { groove_offset: offset, ..Faults::default() });
    for bow in [bow(), recurve()] {
        let history = pushed(&bow, &parts, &built, Detail::default());
        let stroke = bow.draw_length.si() - at_brace(&bow);
        let k = bow.restraint.si();
        for frame in history.frames.iter().filter(|f| (0.1..0.9).contains(&f.travelled)) {
            let h = bow.tip_line.si() + stroke * (1.0 - frame.travelled);
            let brace = bow.tip_line.si();
            let half = bow.half_string.si();
            let tip_to_nock2 = match bow.kind {
                // The axles stay where they are and the cams pay out string.
                launch::BowKind::Compound => half * half - brace * brace + h * h,
                _ => half * half,
            };
            let nock = history.nock(frame);
            let stiff = [0, 1].map(|plane| -frame.string[plane] / frame.push / nock[plane]);
            assert!((stiff[0] * h / k - 1.0).abs() < 1e-9, "{stiff:?} {h}");
            assert!((stiff[1] * tip_to_nock2 / h / k - 1.0).abs() < 1e-9, "{stiff:?} {h}");
            // No string holds the nock harder along itself than across.
            assert!(stiff[1] <= stiff[0]);
        }
    }
}

/// A side point gives way at its preload and then by its stiffness; below, by
/// a stop of at least 50 N/mm and ten times the spring. It never pulls.
#[test]
fn exact_side_point_is_a_preloaded_spring() {
    let (parts, built) = arrow(&Faults::default());
    for stiffness in [1500.0, 60_000.0] {
        let mut bow = recurve();
        bow.rest.stiffness = units::Stiffness::from_si(stiffness);
        bow.rest.damping = units::Damping::from_si(0.0);
        let history = pushed(&bow, &parts, &built, Detail::default());
        let stroke = bow.draw_length.si() - at_brace(&bow);
        let (mut stopped, mut given) = (0, 0);
        for frame in &history.frames {
            let station = bow.rest.ahead.si() + stroke * (1.0 - frame.travelled);
            let pressed = -history.shaft(frame, station)[0];
            let stop = (10.0 * stiffness).max(5e4) * pressed;
            let spring = 2.0 + stiffness * pressed;
            let force = stop.min(spring).max(0.0);
            assert!((frame.rest[0] - force).abs() < 1e-6, "{} {force}", frame.rest[0]);
            stopped += u32::from(force > 0.0 && stop < spring);
            given += u32::from(force > 0.0 && stop > spring);
        }
        assert!(stopped > 0 && given > 0, "{stopped} {given}");
    }
}
