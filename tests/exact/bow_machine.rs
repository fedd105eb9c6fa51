//! The bow as a machine, against tables of another program and closed forms.

use clothyard_tests::groove::DRAWN;
use clothyard_tests::push::{bow, longbow, recurve};
use launch::{BowLaw, CamParts, Cams, ForceLaw, Limbs, Machine, NominalPush, Twine};

/// Places of a sum. Chosen: finer than the tolerance asks.
const PLACES_2000: u32 = 2000;
/// Places of a sum. Chosen: finer than the tolerance asks.
const PLACES_1000: u32 = 1000;

fn twine(half: f64, mass: f64, nocking: f64, stiffness: f64) -> Twine {
    Twine { half, mass, nocking, stiffness }
}

/// A recurve of 42 lb, 0.46 m of stroke, with this inertia of a limb.
fn recurve_42(inertia: f64) -> Machine {
    let (hinge, limb, brace) = (0.3, 0.53_f64, 0.215_f64);
    let half = hinge + (limb * limb - brace * brace).sqrt();
    let twine = twine(half, 0.0065, 0.0006, 1.5e5);
    let bow = Limbs { hinge, limb, brace, torque: 80.8, stiffness: 86.4, inertia, twine };
    Machine::Limbs { bow, stroke: 0.46 }
}

fn longbow_45() -> Machine {
    let (hinge, limb, brace) = (0.15, 0.72_f64, 0.165_f64);
    let half = hinge + (limb * limb - brace * brace).sqrt();
    let twine = twine(half, 0.010, 0.0006, 6e4);
    let bow = Limbs { hinge, limb, brace, torque: 66.5, stiffness: 304.3, inertia: 0.016, twine };
    Machine::Limbs { bow, stroke: 0.5 }
}

/// C: own program apart. Share travelled; force, tension, turn, stiffness up and
/// sideways of the bow held still. Torque and stiffness of its limbs are given
/// there to three and four figures, so a force is known to 0.05 %.
#[test]
fn exact_held_bows_agree_with_another_program() {
    let recurve = [
        #[expect(clippy::approx_constant, reason = "an angle that happens to be near it")]
        [0.0, 186.79, 217.6, 0.6931, 666.0, 555.3],
        [0.25, 150.81, 225.3, 0.5965, 757.0, 575.0],
        [0.5, 116.09, 246.3, 0.5134, 892.0, 628.5],
        [0.75, 73.82, 289.0, 0.4486, 1021.0, 737.2],
        [0.9, 36.45, 333.3, 0.4241, 969.0, 850.0],
        [1.0, 0.0, 376.0, 0.4177, 722.0, 958.6],
    ];
    let longbow = [
        [0.0, 200.47, 262.2, f64::NAN, 1798.0, 617.8],
        [0.5, 110.12, 262.3, f64::NAN, 3890.0, 618.0],
        [0.9, 33.32, 337.9, f64::NAN, 11375.0, 795.1],
        [1.0, 0.0, 403.3, f64::NAN, 16521.0, 948.0],
    ];
    let check = |machine: &Machine, rows: &[[f64; 6]]| {
        for [share, force, tension, turn, up, side] in rows {
            let still = machine.still(1.0 - share);
            let near = |own: f64, want: f64| (own - want).abs() < 1e-3 * want.abs().max(1.0);
            assert!((still.force - force).abs() < 0.1, "{share}: {still:?}");
            assert!(near(still.tension, *tension), "{share}: {still:?}");
            assert!(turn.is_nan() || (still.turn - turn).abs() < 1e-4, "{share}: {still:?}");
            assert!((still.hold.still() / up - 1.0).abs() < 5e-3, "{share}: {still:?}");
            assert!(near(still.hold.side, *side), "{share}: {still:?}");
        }
    };
    check(&recurve_42(0.008), &recurve);
    check(&longbow_45(), &longbow);
}

/// C: the same. Speed at brace, time, stiffness sideways on the way, and how far
/// past brace the string lets go for a grip.
#[test]
fn exact_moving_bows_agree_with_another_program() {
    let cases = [
        (recurve_42(0.008), 0.020, 64.277, 13.616e-3, [555.0, 764.0, 2385.0], [10.8, 13.0, 20.0]),
        (longbow_45(), 0.030, 51.332, 16.912e-3, [618.0, 492.0, 1464.0], [21.0, 26.0, 38.0]),
    ];
    for (machine, mass, speed, time, sides, past) in cases {
        let push = NominalPush::new(&machine, mass, 0.0).unwrap();
        let brace = push.reaches(1.0);
        assert!((push.at(brace).speed / speed - 1.0).abs() < 3e-4, "{}", push.at(brace).speed);
        assert!((brace / time - 1.0).abs() < 3e-4, "{brace}");
        for (share, side) in [0.0, 0.5, 1.0].into_iter().zip(sides) {
            let own = push.at(push.reaches(share)).hold.side;
            // They ring with the string and are good to some per cent there.
            assert!((own / side - 1.0).abs() < 0.01, "{share}: {own} {side}");
        }
        for (grip, way) in [0.0, 5.0, 20.0].into_iter().zip(past) {
            let push = NominalPush::new(&machine, mass, grip).unwrap();
            let own = -1e3 * push.at(push.duration()).left;
            // Half a unit of the last digit told.
            assert!((own - way).abs() < 0.5, "{grip} N: {own} {way}");
        }
    }
}

/// C: the same; a recurve's speed at brace and efficiency with four limbs.
#[test]
fn exact_speed_by_limb_inertia_agrees_with_another_program() {
    for (inertia, speed, efficiency) in [
        (0.004, 65.67, 0.853),
        (0.0055, 65.42, 0.846),
        (0.008, 64.28, 0.817),
        (0.011, 63.01, 0.785),
    ] {
        let push = NominalPush::new(&recurve_42(inertia), 0.020, 0.0).unwrap();
        let own = push.at(push.reaches(1.0)).speed;
        assert!((own - speed).abs() < 0.03, "{inertia}: {own} {speed}");
        let share = 0.5 * 0.020 * own * own / 50.573;
        assert!((share - efficiency).abs() < 1e-3, "{inertia}: {share} {efficiency}");
    }
}

/// Straight lines between these.
struct Drawn;

impl ForceLaw for Drawn {
    fn force(&self, s: f64) -> f64 {
        let drawn = 1.0 - s;
        let next = DRAWN.partition_point(|point| point.0 < drawn).clamp(1, DRAWN.len() - 1);
        let ((d0, f0), (d1, f1)) = (DRAWN[next - 1], DRAWN[next]);
        f0 + (f1 - f0) * (drawn - d0) / (d1 - d0)
    }

    fn mean(&self, s: f64) -> f64 {
        if s == 0.0 {
            return self.force(0.0);
        }
        let mut cuts: Vec<f64> = DRAWN.iter().map(|p| 1.0 - p.0).filter(|c| *c < s).collect();
        cuts.push(s);
        cuts.sort_by(f64::total_cmp);
        let area = |w: &[f64]| 0.5 * (self.force(w[0]) + self.force(w[1])) * (w[1] - w[0]);
        cuts.windows(2).map(area).sum::<f64>() / s
    }
}

fn compound_60() -> Machine {
    let parts = CamParts {
        axle: 0.41,
        radius: 0.055,
        preload: 1700.0,
        stiffness: 20e3,
        inertia: 1.1e-4,
        tip: 0.18,
        cable: 2.5e5,
        twine: twine(0.6, 0.009, 0.0012, 2e5),
    };
    Machine::Cams { bow: Cams::new(parts, &Drawn, 1.0, 0.527).unwrap(), stroke: 0.527 }
}

/// C: the same; stiffness sideways of the held compound, its speed and time.
#[test]
fn exact_compound_agrees_with_another_program() {
    let machine = compound_60();
    for (share, side) in
        [(0.0, 97.0), (0.25, 637.0), (0.5, 957.0), (0.75, 1897.0), (0.9, 3126.0), (1.0, 4052.0)]
    {
        let own = machine.still(1.0 - share).hold.side;
        assert!((own / side - 1.0).abs() < 3e-3, "{share}: {own} {side}");
    }
    let push = NominalPush::new(&machine, 0.02754, 0.0).unwrap();
    assert!((push.speed() / 82.24 - 1.0).abs() < 1e-3, "{}", push.speed());
    // Its curve here runs straight between readings.
    assert!((push.duration() / 24.77e-3 - 1.0).abs() < 5e-3, "{}", push.duration());
    for (grip, way) in [(2.0, 0.3), (10.0, 1.5), (40.0, 5.3)] {
        let push = NominalPush::new(&machine, 0.02754, grip).unwrap();
        let own = -1e3 * push.at(push.duration()).left;
        assert!((own / way - 1.0).abs() < 0.25, "{grip} N: {own} {way}");
    }
}

/// The machine made from a bow's readings draws as they say.
#[test]
fn exact_machines_draw_as_the_curve_says() {
    for bow in [bow(), recurve(), longbow()] {
        let machine = Machine::new(&bow).unwrap();
        let law = BowLaw::new(&bow).unwrap();
        let force = |drawn: f64| machine.still(drawn).force / bow.draw_weight.si();
        if bow.kind == launch::BowKind::Compound {
            // Anywhere on the curve, by its cams.
            for drawn in [0.05, 0.2, 0.4, 0.6, 0.8, 0.95, 1.0] {
                let (own, want) = (force(drawn), law.force(1.0 - drawn));
                assert!((own - want).abs() < 2e-3, "{drawn}: {own} {want}");
            }
        } else {
            // At full draw, and in its area.
            assert!((force(1.0) - law.force(0.0)).abs() < 1e-9, "{}", force(1.0));
            let all = |i: u32| force((f64::from(i) + 0.5) / f64::from(PLACES_2000));
            let area = (0..PLACES_2000).map(all).sum::<f64>() / f64::from(PLACES_2000);
            assert!((area / law.mean(1.0) - 1.0).abs() < 1e-5, "{area}");
        }
    }
}

/// A taut string with a mass at its middle: 2 T/L sideways, and a frequency that
/// with a third of each half's mass comes within 2 % of the string's own, from
/// 2 T k cot(k L) = M w^2, k = w sqrt(rho/T).
#[test]
fn exact_a_taut_string_with_a_mass() {
    let machine = recurve_42(0.008);
    let hold = machine.still(0.0).hold;
    let still = machine.still(0.0);
    let half = 0.3 + (0.53_f64 * 0.53 - 0.215 * 0.215).sqrt();
    assert!((hold.side - 2.0 * still.tension / half).abs() < 1e-9 * hold.side);
    assert!((hold.mass - 0.0006 - 0.0065 / 3.0).abs() < 1e-15);
    // An arrow's nock end of 4 g on it.
    let mass = 0.004 + 0.0006;
    let own = (hold.side / (hold.mass + 0.004)).sqrt();
    let rho = 0.5 * 0.0065 / half;
    let lack = |w: f64| {
        let k = w * (rho / still.tension).sqrt();
        2.0 * still.tension * k / (k * half).tan() - mass * w * w
    };
    let (mut low, mut high) = (0.5 * own, 1.2 * own);
    for _ in 0..80 {
        let middle = 0.5 * (low + high);
        if lack(middle) > 0.0 { low = middle } else { high = middle }
    }
    assert!((own / low - 1.0).abs() < 0.02, "{own} {low}");
}

/// With a string that does not stretch and limbs that do not turn, a nock is
/// pinned up and down.
#[test]
fn law_a_nock_is_pinned_where_tips_are_tied() {
    let Machine::Limbs { bow, stroke } = recurve_42(0.008) else { panic!("limbs") };
    let mut last = 0.0;
    for stiff in [1.0, 1e2, 1e4] {
        let twine = Twine { stiffness: stiff * bow.twine.stiffness, ..bow.twine };
        let bow = Limbs { stiffness: stiff * bow.stiffness, twine, ..bow };
        let up = Machine::Limbs { bow, stroke }.still(0.0).hold.still();
        assert!(up > 10.0 * last, "{up} after {last}");
        last = up;
    }
}

/// Without string mass and with limbs of no inertia all energy goes to the
/// arrow, and the push is the static draw force: the virtual mass is Klopsteg's
/// limit, none.
#[test]
fn law_without_moving_parts_the_push_is_the_draw() {
    let Machine::Limbs { bow, stroke } = recurve_42(1e-5) else { panic!("limbs") };
    let twine = Twine { mass: 0.0, nocking: 0.0, stiffness: 1e7, ..bow.twine };
    let machine = Machine::Limbs { bow: Limbs { twine, ..bow }, stroke };
    let push = NominalPush::new(&machine, 0.020, 0.0).unwrap();
    let mut stored = 0.0;
    for i in 0..PLACES_1000 {
        let drawn = (f64::from(i) + 0.5) / f64::from(PLACES_1000);
        stored += machine.still(drawn).force * stroke / f64::from(PLACES_1000);
    }
    let kept = 0.5 * 0.020 * push.speed().powi(2) / stored;
    assert!((kept - 1.0).abs() < 5e-3, "{kept}");
}

/// Eight times the steps move no departure speed by 1e-4, for any bow.
#[test]
fn law_nominal_push_is_converged() {
    for (machine, mass) in
        [(recurve_42(0.004), 0.015), (longbow_45(), 0.03), (compound_60(), 0.025)]
    {
        let plain = NominalPush::new(&machine, mass, 5.0).unwrap();
        let fine = NominalPush::fine(&machine, mass, 5.0, 8).unwrap();
        let gap = (plain.speed() / fine.speed() - 1.0).abs();
        assert!(gap < 1e-4, "{gap}");
        let late = (plain.duration() / fine.duration() - 1.0).abs();
        assert!(late < 1e-4, "{late}");
    }
}
