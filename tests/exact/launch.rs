use clothyard_tests::push::{bow, recurve};
use launch::{
    Bow, BowKind, BowLaw, Law, RATING_DRAW_LENGTH, RATING_DRAW_WEIGHT, RATING_MASS, SpeedSource,
    kinetic_energy, momentum, own_speed, power_stroke, push_force,
};
use units::{Length, Mass, Quantity, Ratio, Speed, parse};

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

/// The work of the push over the stroke is the arrow's energy, for every kind
/// of bow (Gauss-Legendre, exact for the cubic pieces).
#[test]
fn exact_push_does_the_work_the_arrow_carries() {
    use BowKind::{Compound, Longbow, Recurve};
    let root = (0.6_f64).sqrt();
    for (kind, let_off) in [(Compound, 0.8), (Compound, 0.0), (Recurve, 0.0), (Longbow, 0.0)] {
        let bow = Bow { kind, let_off: Ratio::from_si(let_off), ..bow() };
        let mass = Mass::from_si(0.03);
        let force = |s| push_force(&bow, mass, Ratio::from_si(s)).unwrap().si();
        let stroke = power_stroke(bow.draw_length, bow.brace_height).unwrap().si();
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

/// Areas under the built shapes: recurve 1/2 + 1/12, longbow 1/2 + 1/24, a
/// compound with let-off t (2 - t)/8 + 1/2 + 1/8.
#[test]
fn exact_area_of_the_built_shapes() {
    let area = |bow: &Bow| BowLaw::new(bow).unwrap().mean(1.0);
    let longbow = Bow { kind: BowKind::Longbow, ..recurve() };
    assert!((area(&recurve()) - 7.0 / 12.0).abs() < 1e-15);
    assert!((area(&longbow) - 13.0 / 24.0).abs() < 1e-15);
    assert!((area(&bow()) - (1.2 / 8.0 + 0.625)).abs() < 1e-15);
}
