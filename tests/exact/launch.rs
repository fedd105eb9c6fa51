use clothyard_tests::push::{bow, longbow, recurve};
use launch::{
    Bow, BowKind, BowLaw, BowString, ForceLaw, RATING_DRAW_LENGTH, RATING_DRAW_WEIGHT, RATING_MASS,
    SpeedSource, budget, kinetic_energy, momentum, own_speed, power_stroke, push_forces,
};
use units::{Length, Mass, Quantity, Ratio, Speed, parse};

/// Places of a sum. Chosen: finer than the tolerance asks.
const PLACES_4000: u32 = 4000;

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
    let stroke = power_stroke(own.draw_length, own.brace_height).unwrap().si();
    let short = Bow { draw_length: Length::from_si(own.draw_length.si() - stroke / 2.0), ..own };
    let ratio = own_speed(&short, RATING_MASS).unwrap().si() / 100.0;
    assert!((ratio * ratio - 0.5).abs() < 1e-12);
}

/// The work of the push up to brace is what the arrow has there, for every kind
/// of bow; past brace the string still works a little, or holds back.
#[test]
fn exact_push_does_the_work_the_arrow_carries() {
    for bow in [bow(), recurve(), longbow()] {
        let mass = Mass::from_si(0.025);
        let shares: Vec<f64> =
            (0..=PLACES_4000).map(|i| f64::from(i) / f64::from(PLACES_4000)).collect();
        let forces = push_forces(&bow, mass, &shares).unwrap();
        let stroke = power_stroke(bow.draw_length, bow.brace_height).unwrap().si();
        let ends = 0.5 * (forces[0] + forces[forces.len() - 1]);
        let work = (forces.iter().sum::<f64>() - ends) * stroke / f64::from(PLACES_4000);
        let energy = kinetic_energy(mass, own_speed(&bow, mass).unwrap()).si();
        // A recurve pushes 20 N at brace and lets go 11 mm past it: 0.3 %.
        assert!((work / energy - 1.0).abs() < 6e-3, "{:?}: {work} {energy}", bow.kind);
    }
}

/// Stored energy is arrow, string, limbs and loss, and without hysteresis the
/// loss is nothing: the bow's own motion keeps its energy.
#[test]
fn exact_energy_of_the_nominal_push_closes() {
    for base in [bow(), recurve(), longbow()] {
        for loss in [0.0, 0.03] {
            let bow = Bow {
                speed: SpeedSource::Stored,
                hysteresis: Ratio::from_si(loss),
                string: BowString { grip: units::Force::ZERO, ..base.string },
                ..base
            };
            let split = budget(&bow, Mass::from_si(0.025)).unwrap();
            let lost = split.lost / split.stored;
            // Steps of the run; its take-up of a compound is a table.
            assert!((lost - loss).abs() < 3e-4, "{:?}: {lost} for {loss}", bow.kind);
        }
    }
}

/// Areas under the built shapes: recurve 1/2 + 1/12, longbow 1/2 + 1/24, a
/// compound with let-off t 1 - t/8 - 1/12.
#[test]
fn exact_area_of_the_built_shapes() {
    let area = |bow: &Bow| BowLaw::new(bow).unwrap().mean(1.0);
    let longbow = Bow { kind: BowKind::Longbow, ..recurve() };
    assert!((area(&recurve()) - 7.0 / 12.0).abs() < 1e-15);
    assert!((area(&longbow) - 13.0 / 24.0).abs() < 1e-15);
    assert!((area(&bow()) - (1.0 - 0.1 - 1.0 / 12.0)).abs() < 1e-15);
}
