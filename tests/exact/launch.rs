use arrow::Effects;
use body::Across;
use clothyard_tests::push::{arrow, bow};
use launch::{
    Bow, Departure, Form, GivenDeparture, Guide, Law, RATING_DRAW_LENGTH, RATING_DRAW_WEIGHT,
    RATING_MASS, SpeedSource, Stick, depart, kinetic_energy, momentum, own_speed, push_force, ride,
};
use units::{Angle, Length, Mass, Quantity, Ratio, Speed, parse};

/// The same force all along the stroke.
struct Even;

impl Law for Even {
    fn force(&self, _: f64) -> f64 {
        1.0
    }
    fn mean(&self, _: f64) -> f64 {
        1.0
    }
}

const STICK: Stick = Stick {
    mass: 0.028,
    inertia: 1.9e-3,
    lever: 0.46,
    groove: [1e-4, -3e-5],
    balance: [0.0, 2e-5],
    tilt: [5e-5, 0.0],
};

fn free(restraint: f64) -> Guide {
    Guide {
        stroke: 0.51,
        speed: 85.0,
        restraint,
        tip_line: 0.05,
        rest_stiffness: 0.0,
        rest_damping: 0.0,
        rest_share: 0.0,
        rest_ahead: 0.17,
    }
}

/// Angle and rate of th'' = w2 (th - still) from rest at `start` after `time`.
fn cosh(start: f64, still: f64, w2: f64, time: f64) -> [f64; 2] {
    let (w, away) = (w2.sqrt(), start - still);
    [still + away * (w * time).cosh(), away * w * (w * time).sinh()]
}

/// C: I th'' = F (l th - e) under an even push without string or rest.
#[test]
fn exact_free_push_grows_as_the_closed_form() {
    let guide = free(0.0);
    let force = 0.5 * STICK.mass * guide.speed.powi(2) / guide.stroke;
    let time = 2.0 * guide.stroke / guide.speed;
    let start = launch::at_full_draw(&guide, &STICK);
    let end = ride(&Even, &guide, &STICK, 400).unwrap();
    for i in 0..2 {
        let still = STICK.groove[i] / STICK.lever;
        let w2 = force * STICK.lever / STICK.inertia;
        let [angle, rate] = cosh(start.angle[i], still, w2, time);
        // Fourth order at 400 steps leaves a few parts in 1e8.
        assert!((end.angle[i] / angle - 1.0).abs() < 1e-7, "{} {angle}", end.angle[i]);
        assert!((end.rate[i] / rate - 1.0).abs() < 1e-7, "{} {rate}", end.rate[i]);
        // Nothing pushes the balance point sideways.
        assert!(end.velocity[i].abs() < 1e-18);
    }
}

/// C: a string that lets the nock not stray makes the inertia I + m l2.
#[test]
fn exact_stiff_string_swings_the_arrow_about_its_nock() {
    let guide = free(20_000.0);
    let force = 0.5 * STICK.mass * guide.speed.powi(2) / guide.stroke;
    let time = 2.0 * guide.stroke / guide.speed;
    let start = launch::at_full_draw(&guide, &STICK);
    let end = ride(&Even, &guide, &STICK, 400).unwrap();
    let inertia = STICK.inertia + STICK.mass * STICK.lever.powi(2);
    for i in 0..2 {
        let still = STICK.groove[i] / STICK.lever;
        let [angle, rate] = cosh(start.angle[i], still, force * STICK.lever / inertia, time);
        // The string still gives by about 1 in 20000 of the tip line distance,
        // and the nock swings about its line.
        assert!((end.angle[i] / angle - 1.0).abs() < 2e-3, "{} {angle}", end.angle[i]);
        assert!((end.rate[i] / rate - 1.0).abs() < 2e-2, "{} {rate}", end.rate[i]);
    }
}

fn left(built: &arrow::Built) -> Departure {
    depart(&bow(), built, Angle::ZERO, &Form::default(), &GivenDeparture::default()).unwrap()
}

/// C: tests/reference/push.py, large-angle planar motion solved by DOP853.
#[test]
fn exact_push_agrees_with_a_planar_rigid_body_solved_apart() {
    let offset = Across { at0: 1e-6, at90: 0.0 };
    for (effects, place, angle, velocity, rate) in [
        (
            Effects { groove_offset: offset, ..Effects::default() },
            -0.202_852_499,
            0.277_695_099,
            -37.852_479_419,
            -60.175_235_174,
        ),
        (
            Effects { balance_offset: offset, ..Effects::default() },
            1.248_465_636,
            6.610_799_880,
            208.734_194_332,
            591.205_904_644,
        ),
        (
            Effects { shaft_tilt: offset, ..Effects::default() },
            -0.093_312_150,
            -0.872_260_255,
            -17.412_140_533,
            -27.680_608_180,
        ),
    ] {
        let end = left(&arrow(effects));
        for (own, reference) in [
            (end.up, place),
            (end.pitch, angle),
            (end.velocity_up, velocity),
            (end.pitch_rate, rate),
        ] {
            let own = own * 1e6;
            // The default step count, held to 1e-4 of the largest figure.
            assert!((own - reference).abs() < 1e-4 * reference.abs().max(1.0), "{own} {reference}");
        }
    }
}

/// R, C: 400 gr at 305 ft/s; the exact weight of a grain.
#[test]
fn exact_kinetic_energy_and_momentum_of_the_trade_example() {
    let (mass, speed): (Mass, Speed) = (parse("400 gr").unwrap(), parse("305 ft/s").unwrap());
    let energy = kinetic_energy(mass, speed);
    assert!((energy.si() - 112.0024).abs() < 5e-5);
    let feet = units::Dimension::Energy.unit("ft lbf").unwrap().of_si(energy.si());
    assert!((feet - 82.6087).abs() < 5e-5);
    let slugs = units::Dimension::Momentum.unit("slug ft/s").unwrap();
    assert!((slugs.of_si(momentum(mass, speed).si()) - 0.541_697).abs() < 5e-7);
}

/// R: ASTM F1544-11 2.1.4, 5 gr per lb, at most 70 lb, 30 in draw, 350 gr.
#[test]
fn exact_rating_conditions() {
    fn near<Q: Quantity>(value: Q, text: &str) {
        let expected: Q = parse(text).unwrap_or_else(|e| panic!("{e}"));
        assert!((value.si() / expected.si() - 1.0).abs() < 1e-15, "{text}");
    }
    near(RATING_DRAW_WEIGHT, "70 lbf");
    near(RATING_DRAW_LENGTH, "30 in");
    near(RATING_MASS, "350 gr");
}

/// A bow that meets its own rating shoots the rated speed.
#[test]
fn exact_rating_at_its_own_conditions_is_the_rated_speed() {
    let rated = Speed::from_si(100.0);
    let own = Bow {
        draw_weight: RATING_DRAW_WEIGHT,
        draw_length: RATING_DRAW_LENGTH,
        speed: SpeedSource::Rating {
            speed: rated,
            mass: RATING_MASS,
            draw_weight: RATING_DRAW_WEIGHT,
            draw_length: RATING_DRAW_LENGTH,
        },
        ..bow()
    };
    assert!((own_speed(&own, RATING_MASS).unwrap().si() - 100.0).abs() < 1e-12);
    // Half the power stroke, half the energy.
    let stroke = launch::power_stroke(own.draw_length, own.brace_height).unwrap().si();
    let short = Bow { draw_length: Length::from_si(own.draw_length.si() - stroke / 2.0), ..own };
    let ratio = own_speed(&short, RATING_MASS).unwrap().si() / 100.0;
    assert!((ratio * ratio - 0.5).abs() < 1e-12);
}

/// The work of the push over the stroke is the arrow's energy, for every kind
/// of bow (Gauss-Legendre, exact for the cubic pieces).
#[test]
fn exact_push_does_the_work_the_arrow_carries() {
    use launch::BowKind::{Compound, Longbow, Recurve};
    let root = (0.6_f64).sqrt();
    for (kind, let_off) in [(Compound, 0.8), (Compound, 0.0), (Recurve, 0.0), (Longbow, 0.0)] {
        let bow = Bow { kind, let_off: Ratio::from_si(let_off), ..bow() };
        let mass = Mass::from_si(0.03);
        let force = |s| push_force(&bow, mass, Ratio::from_si(s)).unwrap().si();
        let stroke = launch::power_stroke(bow.draw_length, bow.brace_height).unwrap().si();
        let work: f64 = (0..4)
            .map(|quarter| {
                let at = |x: f64| force((f64::from(quarter) + 0.5 + 0.5 * x) / 4.0);
                stroke / 4.0 * (5.0 * at(-root) + 8.0 * at(0.0) + 5.0 * at(root)) / 18.0
            })
            .sum();
        let energy = kinetic_energy(mass, own_speed(&bow, mass).unwrap()).si();
        assert!((work / energy - 1.0).abs() < 1e-13, "{kind:?}: {work} {energy}");
    }
}
