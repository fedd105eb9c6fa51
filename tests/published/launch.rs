use clothyard_tests::push::bow;
use launch::{Bow, SpeedSource, kinetic_energy, own_speed};
use units::{Force, Length, Mass, Ratio, Speed, parse};

/// A measured bow was 80.74 % efficient at 360 gr and 88.09 % at 700 gr
/// (published test, R2); constant virtual mass predicts 89.1 from the first
/// figure (C).
#[test]
fn published_constant_virtual_mass_predicts_the_efficiency() {
    let light: Mass = parse("360 gr").unwrap();
    let heavy: Mass = parse("700 gr").unwrap();
    let speed = Speed::from_si(90.0);
    let stored = kinetic_energy(light, speed).si() / 0.8074;
    let bow = Bow {
        virtual_mass: Some(Mass::from_si(light.si() * (1.0 / 0.8074 - 1.0))),
        speed: SpeedSource::Chronograph { speed, mass: light },
        ..bow()
    };
    let share = kinetic_energy(heavy, own_speed(&bow, heavy).unwrap()).si() / stored;
    assert!((share - 0.891).abs() < 5e-4, "{share}");
    // What the first-order idea leaves unexplained: 1.0 point of efficiency.
    assert!((share - 0.8809).abs() < 0.011, "{share}");
}

/// Tuijn and Kooi 1992, Table I (R): draw .430 m, 170.5 N, 42.6 J; .509, 170,
/// 50.3; .440, 178, 45.6; .429, 130, 33.2. The rating of the first, carried
/// over by force times stroke, gives the stored energy of the others.
#[test]
fn published_stored_energy_goes_with_force_times_stroke() {
    let mass = Mass::from_si(0.02);
    let beyond = 0.04445 + 0.2;
    let at = |draw: f64, force: f64| {
        let bow = Bow {
            kind: launch::BowKind::Recurve,
            let_off: Ratio::ZERO,
            brace_height: Length::from_si(0.2),
            virtual_mass: Some(Mass::ZERO),
            half_string: Length::from_si(0.83),
            draw_length: Length::from_si(draw + beyond),
            draw_weight: Force::from_si(force),
            speed: SpeedSource::Rating {
                speed: Speed::from_si((2.0 * 42.6 / mass.si()).sqrt()),
                mass,
                draw_weight: Force::from_si(170.5),
                draw_length: Length::from_si(0.430 + beyond),
            },
            ..bow()
        };
        kinetic_energy(mass, own_speed(&bow, mass).unwrap()).si()
    };
    // Two bows within 0.3 %; the fourth stores 2.5 % more than the rule says.
    assert!((at(0.509, 170.0) / 50.3 - 1.0).abs() < 0.003);
    assert!((at(0.440, 178.0) / 45.6 - 1.0).abs() < 0.003);
    assert!((at(0.429, 130.0) / 33.2 - 1.0).abs() < 0.025);
}
