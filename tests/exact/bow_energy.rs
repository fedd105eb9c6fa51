use clothyard_tests::push::{bow, recurve};
use launch::{
    Bow, BowLaw, DRAW_BEYOND_PIVOT, DrawCurve, ForceLaw, SpeedSource, budget, fit_virtual_mass,
    own_speed, power_stroke, stored_energy,
};
use units::{Force, Length, Mass, Ratio, Speed};

/// A bow of 0.5 m power stroke with readings of draw beyond brace and force.
fn read(readings: &[(f64, f64)]) -> Bow {
    let bow = recurve();
    let brace = bow.brace_height.si() + DRAW_BEYOND_PIVOT.si();
    let readings: Vec<_> = readings
        .iter()
        .map(|(drawn, force)| (Length::from_si(brace + drawn), Force::from_si(*force)))
        .collect();
    Bow {
        draw_length: Length::from_si(brace + 0.5),
        curve: Some(DrawCurve::new(&readings).unwrap()),
        ..bow
    }
}

fn stored(bow: &Bow) -> f64 {
    stored_energy(bow).unwrap().si()
}

fn close(got: f64, want: f64) {
    assert!((got - want).abs() < 1e-12 * want.abs().max(1.0), "{got} {want}");
}

/// Triangle, trapezium and a curve with let-off, by hand.
#[test]
fn exact_stored_energy_of_plain_curves() {
    close(stored(&read(&[(0.0, 0.0), (0.2, 60.0), (0.5, 150.0)])), 0.5 * 0.5 * 150.0);
    close(stored(&read(&[(0.0, 0.0), (0.1, 200.0), (0.5, 200.0)])), 10.0 + 80.0);
    let compound = read(&[(0.0, 0.0), (0.1, 300.0), (0.4, 300.0), (0.5, 60.0)]);
    close(stored(&compound), 15.0 + 90.0 + 18.0);
}

/// The first reading may lie past brace and the last a little short of full
/// draw; readings beyond full draw lend their slope alone.
#[test]
fn exact_stored_energy_where_readings_do_not_end_on_the_stroke() {
    // From zero at brace to the first reading, and the last one holds 5 mm.
    close(
        stored(&read(&[(0.1, 40.0), (0.3, 100.0), (0.495, 160.0)])),
        2.0 + 14.0 + 0.195 * 130.0 + 0.005 * 160.0,
    );
    // 140 at 0.4 and 180 at 0.6 are 160 at full draw, whatever follows.
    let beyond = read(&[(0.0, 0.0), (0.4, 140.0), (0.6, 180.0), (0.7, 400.0)]);
    close(stored(&beyond), 28.0 + 15.0);
    // Readings before brace are none of the stroke's.
    close(stored(&read(&[(-0.02, 0.0), (0.0, 0.0), (0.25, 50.0), (0.5, 100.0)])), 25.0);
}

/// At every travelled share the force is the line through the readings, its
/// mean their area, also where the last reading stops short of full draw.
#[test]
fn exact_force_between_readings() {
    for bow in [
        read(&[(0.1, 40.0), (0.3, 100.0), (0.495, 160.0)]),
        read(&[(0.1, 40.0), (0.3, 100.0), (0.7, 220.0)]),
    ] {
        let peak = bow.curve.unwrap().peak();
        let law = BowLaw::new(&bow).unwrap();
        let force = |s: f64| match 0.5 * (1.0 - s) {
            drawn if drawn < 0.1 => 400.0 * drawn,
            drawn if drawn < 0.3 || peak > 200.0 => 40.0 + 300.0 * (drawn - 0.1),
            drawn if drawn < 0.495 => 100.0 + 60.0 / 0.195 * (drawn - 0.3),
            _ => 160.0,
        };
        let mut work = 0.0;
        let steps = 100_000_u32;
        for i in 0..=steps {
            let s = f64::from(i) / f64::from(steps);
            close(law.force(s) * peak, force(s));
            if i > 0 {
                let middle = s - 0.5 / f64::from(steps);
                work += force(middle) / f64::from(steps);
                // The midpoint rule, at the kinks.
                assert!((law.mean(s) * s * peak - work).abs() < 1e-7, "{s}");
            }
        }
        close(law.mean(0.0) * peak, force(0.0));
    }
}

/// A stated virtual mass shares the energy as ever; what string and limbs keep
/// is told apart, and all of it is what is stored.
#[test]
fn exact_stored_energy_drives_the_arrow() {
    let bow = Bow {
        speed: SpeedSource::Stored,
        hysteresis: Ratio::from_si(0.1),
        virtual_mass: Some(Mass::from_si(0.01)),
        ..recurve()
    };
    let mass = Mass::from_si(0.02);
    let (speed, stored) = (own_speed(&bow, mass).unwrap().si(), stored(&bow));
    close(0.5 * 0.03 * speed * speed, 0.9 * stored);
    let split = budget(&bow, mass).unwrap();
    close(split.stored, stored);
    close(split.arrow, 0.6 * stored);
    close(split.arrow + split.string + split.limbs + split.lost, stored);
    assert!(split.string > 0.0 && split.limbs > 0.0 && split.lost > 0.1 * stored);
}

/// What the script prints.
const ENERGY: f64 = 117.323_084_304;
const PARTS: f64 = 0.004_318_801_397_92;
const ERROR: f64 = 0.000_251_609_726_131;

fn readings(of: &[(f64, f64)]) -> Vec<(Mass, Speed)> {
    of.iter().map(|(m, v)| (Mass::from_si(*m), Speed::from_si(*v))).collect()
}

/// Speeds made from an energy and a virtual mass give both back, without error.
#[test]
fn exact_virtual_mass_recovered() {
    let (energy, parts) = (105.0, 0.0062);
    let of: Vec<_> =
        [0.02_f64, 0.024, 0.03, 0.045].map(|m| (m, (2.0 * energy / (m + parts)).sqrt())).to_vec();
    for count in [2, 3, 4] {
        let fit = fit_virtual_mass(&readings(&of[..count])).unwrap();
        assert!((fit.energy / energy - 1.0).abs() < 1e-10);
        assert!((fit.virtual_mass / parts - 1.0).abs() < 1e-9);
        assert_eq!(fit.error.is_some(), count > 2);
        assert!(fit.error.unwrap_or(0.0) < 1e-9);
    }
}

/// C: `tests/reference/virtual_mass.py`, scipy.stats.linregress of 1/v^2 on m,
/// its errors carried to the virtual mass to first order.
#[test]
fn exact_error_of_the_virtual_mass() {
    let of = [(0.0232, 92.4), (0.0265, 87.1), (0.0275, 86.0), (0.0324, 79.9), (0.0389, 73.7)];
    let fit = fit_virtual_mass(&readings(&of)).unwrap();
    assert!((fit.energy / ENERGY - 1.0).abs() < 1e-9, "{}", fit.energy);
    assert!((fit.virtual_mass / PARTS - 1.0).abs() < 1e-9, "{}", fit.virtual_mass);
    assert!((fit.error.unwrap() / ERROR - 1.0).abs() < 1e-9, "{:?}", fit.error);
}

/// A compound built without readings stores peak times stroke times its area.
#[test]
fn exact_stored_energy_of_a_built_bow() {
    let bow = bow();
    let stroke = bow.draw_length.si() - bow.brace_height.si() - DRAW_BEYOND_PIVOT.si();
    close(stored(&bow), 300.0 * stroke * (1.0 - 0.1 - 1.0 / 12.0));
}

/// Readings of a curve made of the built shape store as the shape.
#[test]
fn exact_readings_of_the_built_shape_are_the_built_shape() {
    let plain = recurve();
    let law = BowLaw::new(&plain).unwrap();
    let stroke = power_stroke(plain.draw_length, plain.brace_height).unwrap().si();
    let readings: Vec<_> = (0..=30)
        .rev()
        .map(|i| {
            let s = f64::from(i) / 30.0;
            let draw = plain.draw_length.si() - s * stroke;
            (Length::from_si(draw), Force::from_si(plain.draw_weight.si() * law.force(s)))
        })
        .collect();
    let read = Bow { curve: Some(DrawCurve::new(&readings).unwrap()), ..plain };
    let ratio = stored_energy(&read).unwrap().si() / stored_energy(&plain).unwrap().si();
    // Straight lines between 31 points of a parabola, of second difference 1.
    assert!((ratio - 1.0).abs() < 1.0 / 12.0 / 900.0 / 0.58 * 1.01, "{ratio}");
}
