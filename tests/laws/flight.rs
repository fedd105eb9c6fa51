//! Symmetries and conservation in flight.

use std::f64::consts::PI;

use arrow::{Effects, PointShape, VaneError};
use body::{Across, Attitude, State};
use clothyard_tests::head::hunting;
use clothyard_tests::{built, choice, hunter, lopsided, site, start};
use flight::{
    Entry, Model, Site, Tolerance, WindProfile, fly, fly_batch, fly_point, model, pilot_steps,
};
use nalgebra::Vector3;
use units::{Acceleration, Angle, Length, Ratio, Speed};

const TIGHT: Tolerance = Tolerance { relative: 1e-11, per_turn: 12.0 };

fn arrow_with(effects: Effects, site: &Site) -> Model<f64> {
    model(&hunter(), &built(effects), &choice(), site, Speed::from_si(85.0)).unwrap()
}

fn untidy() -> State {
    let mut state = start(85.0);
    state.axis = Attitude { yaw: 0.01, pitch: -0.006 }.axis();
    state.rate = state.axis.cross(&Vector3::new(0.0, 0.4, 0.7));
    state.spin = 40.0;
    state.roll = 0.7;
    state
}

fn mirrored(state: &State) -> State {
    let flip = |v: Vector3<f64>| Vector3::new(v.x, -v.y, v.z);
    // A rate is an axial vector: under y -> -y it keeps y and flips x and z.
    let axial = |v: Vector3<f64>| Vector3::new(-v.x, v.y, -v.z);
    State {
        position: flip(state.position),
        velocity: flip(state.velocity),
        axis: flip(state.axis),
        rate: axial(state.rate),
        spin: -state.spin,
        roll: -state.roll,
        ..*state
    }
}

fn mirrored_effects(e: &Effects) -> Effects {
    let flip = |a: Across| Across { at0: a.at0, at90: -a.at90 };
    Effects {
        groove_offset: flip(e.groove_offset),
        balance_offset: flip(e.balance_offset),
        shaft_tilt: flip(e.shaft_tilt),
        point_tilt: flip(e.point_tilt),
        tip_offset: flip(e.tip_offset),
        curvature: flip(e.curvature),
        vane: VaneError { angle: -e.vane.angle, around: -e.vane.around, forward: e.vane.forward },
    }
}

/// Left and right are alike: mirror the arrow, the start and the wind, and the
/// whole flight is mirrored.
#[test]
fn law_left_right_mirror() {
    let mut windy = site();
    windy.wind.speed = Speed::from_si(4.0);
    windy.wind.from = Angle::from_si(1.1);
    let mut other = windy;
    other.wind.from = Angle::from_si(-1.1);
    let mut parts = hunter();
    let one = model(&parts, &built(lopsided()), &choice(), &windy, Speed::from_si(85.0)).unwrap();
    let vanes = parts.vanes.as_mut().unwrap();
    vanes.angle = Angle::from_si(-vanes.angle.si());
    let faults = mirrored_effects(&lopsided());
    let two = model(&parts, &built(faults), &choice(), &other, Speed::from_si(85.0)).unwrap();
    let marks = [20.0, 55.0];
    let here = fly(&one, &untidy(), &marks, &TIGHT).unwrap();
    let there = fly(&two, &mirrored(&untidy()), &marks, &TIGHT).unwrap();
    for (a, b) in here.marks.iter().zip(&there.marks) {
        let b = mirrored(b);
        assert!((a.position - b.position).norm() < 1e-12, "{a:?} {b:?}");
        assert!((a.axis - b.axis).norm() < 1e-12);
        assert!((a.spin - b.spin).abs() < 1e-9);
    }
}

/// Turning every fault round the shaft and the index vane back leaves the
/// flight as it was. The vane at clock zero moves with the index, so it is
/// left out here.
#[test]
fn law_clock_positions_turn_together() {
    let by = 0.9;
    let turn = |a: Across| Across::polar(a.size(), a.clock() + by);
    let faults = Effects { vane: VaneError::default(), ..lopsided() };
    let turned = Effects {
        balance_offset: turn(faults.balance_offset),
        shaft_tilt: turn(faults.shaft_tilt),
        point_tilt: turn(faults.point_tilt),
        curvature: turn(faults.curvature),
        ..faults
    };
    let mut back = untidy();
    back.roll -= by;
    let a = fly(&arrow_with(faults, &site()), &untidy(), &[55.0], &TIGHT).unwrap().marks[0];
    let b = fly(&arrow_with(turned, &site()), &back, &[55.0], &TIGHT).unwrap().marks[0];
    assert!((a.position - b.position).norm() < 1e-10, "{} {}", a.position, b.position);
}

/// A perfect arrow with straight vanes, shot straight in calm air, stays in its
/// plane, without yaw. (With helical it drifts: a spinning body that gravity
/// pitches down yaws; 0.2 mm at 60 m for this one.)
#[test]
#[expect(clippy::float_cmp, reason = "symmetry leaves nothing, not even rounding")]
fn law_no_faults_no_deviation() {
    let mut parts = hunter();
    parts.vanes.as_mut().unwrap().angle = Angle::ZERO;
    let straight = built(Effects::default());
    let model = model(&parts, &straight, &choice(), &site(), Speed::from_si(85.0)).unwrap();
    let end = fly(&model, &start(85.0), &[60.0], &TIGHT).unwrap().marks[0];
    assert_eq!([end.position.y, end.velocity.y, end.axis.y], [0.0; 3]);
}

/// Without gravity or tilt, six degrees of freedom fly as a point mass.
#[test]
fn law_point_mass_equals_six_dof_when_nothing_tilts() {
    let weightless = Site { gravity: Acceleration::ZERO, ..site() };
    let model = arrow_with(Effects::default(), &weightless);
    let marks = [10.0, 40.0, 90.0];
    let six = fly(&model, &start(85.0), &marks, &TIGHT).unwrap();
    let point = fly_point(&model, &start(85.0), &marks, &TIGHT).unwrap();
    for (a, b) in six.marks.iter().zip(&point.marks) {
        assert!((a.position - b.position).norm() < 1e-12);
        assert!((a.velocity - b.velocity).norm() < 1e-9);
        assert!((a.time - b.time).abs() < 1e-11);
    }
}

/// In still air the sum of kinetic and potential energy never grows.
#[test]
fn law_energy_never_grows_without_wind() {
    let body = built(lopsided()).mass;
    let energy = |s: &State| {
        0.5 * body.mass().si() * s.velocity.norm_squared()
            + 0.5 * body.transverse().si() * s.rate.norm_squared()
            + 0.5 * body.axial().si() * s.spin * s.spin
            + body.mass().si() * units::STANDARD_GRAVITY * s.position.z
    };
    let marks: Vec<f64> = (1..=180).map(|i| f64::from(i) * 0.5).collect();
    let flight = fly(&arrow_with(lopsided(), &site()), &untidy(), &marks, &TIGHT).unwrap();
    let mut last = energy(&untidy());
    for state in &flight.marks {
        let now = energy(state);
        assert!(now < last, "energy grew to {now} from {last} at {} m", state.position.x);
        last = now;
    }
}

/// The rate stays across the axis, and the axis a unit vector.
#[test]
fn law_axis_and_rate_stay_perpendicular() {
    let flight = fly(&arrow_with(lopsided(), &site()), &untidy(), &[30.0, 90.0], &TIGHT).unwrap();
    for state in &flight.marks {
        assert!(state.axis.dot(&state.rate).abs() < 1e-12);
        assert!((state.axis.norm() - 1.0).abs() < 1e-12);
    }
}

/// A following wind and a head wind lengthen and shorten the time of flight;
/// a log profile is weaker below its reference height.
#[test]
fn law_wind_has_the_right_sense() {
    let mut windy = site();
    windy.wind.speed = Speed::from_si(5.0);
    let time = |s: &Site| {
        fly(&arrow_with(Effects::default(), s), &start(85.0), &[60.0], &TIGHT).unwrap().marks[0]
            .time
    };
    let calm = time(&site());
    let head = time(&windy);
    windy.wind.from = Angle::from_si(PI);
    let tail = time(&windy);
    assert!(tail < calm && calm < head);
    windy.wind.from = Angle::from_si(PI / 2.0);
    let drift = |s: &Site| {
        fly(&arrow_with(Effects::default(), s), &start(85.0), &[60.0], &TIGHT).unwrap().marks[0]
            .position
            .y
    };
    let full = drift(&windy);
    windy.wind.profile =
        Some(WindProfile { height: Length::from_si(10.0), roughness: Length::from_si(0.03) });
    let low = drift(&windy);
    assert!(full > 0.0 && low > 0.0 && low < full);
}

/// A steep shot in the line frame is the same flight as a level one in which
/// gravity and start are turned instead: same place on the ground.
#[test]
fn law_line_frame_is_only_a_frame() {
    let angle: f64 = 0.5;
    let steep = Site { shot_angle: Angle::from_si(angle), ..site() };
    let up = fly_point(&arrow_with(Effects::default(), &steep), &start(85.0), &[40.0], &TIGHT);
    let up = up.unwrap().marks[0];
    let mut state = start(85.0);
    state.velocity = Attitude { yaw: 0.0, pitch: angle }.axis() * 85.0;
    let (x, z) = (up.position.x, up.position.z);
    let level = [x * angle.cos() - z * angle.sin(), x * angle.sin() + z * angle.cos()];
    let flat = fly_point(&arrow_with(Effects::default(), &site()), &state, &[level[0]], &TIGHT);
    let flat = flat.unwrap().marks[0];
    assert!((flat.position.z - level[1]).abs() < 1e-9);
    assert!((flat.time - up.time).abs() < 1e-10);
}

/// Halving the tolerance and the step moves no impact at 60 yd by more than
/// 0.05 mm, over the corners of what is shot, heads with blades among them.
#[test]
fn law_impacts_are_converged_at_60_yd() {
    let worst = [0, 2, 3, 4].map(moved_by_halving).into_iter().fold(0.0, f64::max);
    assert!(worst < 5e-5, "halving moved an impact by {} mm", worst * 1e3);
}

/// The same for a head of so many blades, none for a field point.
fn moved_by_halving(blades: u8) -> f64 {
    let mut worst = 0.0_f64;
    for speed in [45.0, 85.0, 110.0] {
        for helical in [0.0, 2.0, 6.0_f64] {
            for wind in [0.0, 8.0] {
                let mut parts = if blades == 0 { hunter() } else { hunting(blades) };
                parts.vanes.as_mut().unwrap().angle = Angle::from_si(helical.to_radians());
                let mut windy = site();
                windy.wind.speed = Speed::from_si(wind);
                windy.wind.from = Angle::from_si(1.0);
                let m = model(&parts, &built(lopsided()), &choice(), &windy, Speed::from_si(speed));
                let m = m.unwrap();
                let mut state = untidy();
                state.velocity = Vector3::new(speed, 0.1, 1.0);
                let marks = [54.864];
                let plain = Tolerance::default();
                let a = fly(&m, &state, &marks, &plain).unwrap().marks[0].position;
                let b = fly(&m, &state, &marks, &plain.halved()).unwrap().marks[0].position;
                worst = worst.max((a - b).norm());
            }
        }
    }
    worst
}

/// A laminar arrow whose layer is tripped at first drops more, the farther the
/// layer stays so: between always laminar and always turbulent. The batch keeps
/// its promise through the change.
#[test]
fn law_a_tripped_layer_costs_by_its_distance() {
    let mut parts = hunter();
    parts.point.shape = PointShape::Streamlined;
    let arrow = built(Effects::default());
    let drop = |turbulence: f64, trips: f64| {
        let mut choice = choice();
        choice.turbulence = Ratio::from_si(turbulence);
        choice.trips_until = Length::from_si(trips);
        let model = model(&parts, &arrow, &choice, &site(), Speed::from_si(57.0)).unwrap();
        let (start, marks) = (start(57.0), [70.0]);
        let entry = Entry { model: &model, start: &start, marks: &marks };
        let batch = fly_batch(&[entry], pilot_steps(&entry)).remove(0).unwrap();
        let end = fly(&model, &start, &marks, &TIGHT).unwrap().marks[0].position;
        assert!((batch[0].position - end).norm() < 5e-5);
        -end.z
    };
    let drops = [drop(0.0, 0.0), drop(0.0, 5.0), drop(0.0, 20.0), drop(0.0, 35.0), drop(1.0, 0.0)];
    assert!(drops.windows(2).all(|pair| pair[0] < pair[1]), "{drops:?}");
}
