use arrow::{Blades, Collar, Faults, Parts, PieceOf, PointShape, Shape, Whole, Wrap, build};
use clothyard_tests::hunter;
use units::{Angle, Length, Mass};

fn mm(value: f64) -> Length {
    Length::from_si(value * 1e-3)
}

fn near(got: f64, want: f64, relative: f64, what: &str) {
    assert!((got - want).abs() <= relative * want.abs(), "{what}: {got} against {want}");
}

/// The hunting arrow with every kind of part: fixed blades, collar, wrap.
fn loaded() -> Parts {
    let mut parts = hunter();
    parts.point.shape = PointShape::FixedBlade;
    parts.point.length = mm(40.0);
    parts.point.balance = mm(12.0);
    parts.point.blades = Some(Blades {
        count: 3,
        span: mm(12.0),
        root: mm(28.0),
        tip: mm(2.0),
        sweep: mm(26.0),
        thickness: mm(0.6),
        setback: mm(6.0),
        clock: Angle::ZERO,
    });
    parts.collar = Some(Collar { mass: Mass::from_si(0.8e-3), length: mm(9.0) });
    parts.wrap = Some(Wrap { mass: Mass::from_si(0.5e-3), length: mm(100.0) });
    parts
}

/// Point masses in place of a body, by Simpson's rule (exact for cubics, and
/// no sum here needs more).
#[derive(Default)]
struct Grains {
    /// Station, mean square distance from the axis, mass.
    all: Vec<(f64, f64, f64)>,
}

/// Nodes and weights of Simpson's rule from a to b.
fn simpson(a: f64, b: f64) -> Vec<(f64, f64)> {
    let n = 64_u32;
    let h = (b - a) / f64::from(n);
    (0..=n)
        .map(|i| {
            let factor = match i {
                0 | 64 => 1.0,
                i if i % 2 == 1 => 4.0,
                _ => 2.0,
            };
            (a + h * f64::from(i), factor * h / 3.0)
        })
        .collect()
}

impl Grains {
    /// Grains of this total mass with these relative weights.
    fn add(&mut self, mass: f64, grains: &[(f64, f64, f64)]) {
        let total: f64 = grains.iter().map(|g| g.2).sum();
        self.all.extend(grains.iter().map(|g| (g.0, g.1, g.2 * mass / total)));
    }

    /// A tube of even density between two stations and two radii.
    fn tube(&mut self, mass: f64, ends: (f64, f64), radii: (f64, f64)) {
        let rings = if radii.0 < radii.1 {
            simpson(radii.0, radii.1).iter().map(|&(r, w)| (r, w * r)).collect()
        } else {
            vec![(radii.1, 1.0)]
        };
        let mut grains = Vec::new();
        for (x, wx) in simpson(ends.0, ends.1) {
            grains.extend(rings.iter().map(|&(r, wr)| (x, r * r, wx * wr)));
        }
        self.add(mass, &grains);
    }

    /// A flat trapezoid standing on a cylinder of radius `on`: front of the
    /// root, root chord, tip chord, sweep, span.
    fn plate(&mut self, mass: f64, on: f64, [front, root, tip, sweep, span]: [f64; 5]) {
        let mut grains = Vec::new();
        for (u, wu) in simpson(0.0, 1.0) {
            let lead = front - sweep * u;
            let tail = lead - root - (tip - root) * u;
            let radius = on + span * u;
            grains.extend(simpson(tail, lead).iter().map(|&(x, w)| (x, radius * radius, w * wu)));
        }
        self.add(mass, &grains);
    }

    /// Mass, balance, transverse and axial inertia.
    fn sums(&self) -> [f64; 4] {
        let mass: f64 = self.all.iter().map(|g| g.2).sum();
        let balance = self.all.iter().map(|g| g.0 * g.2).sum::<f64>() / mass;
        let axial = self.all.iter().map(|g| g.1 * g.2).sum::<f64>();
        let along = self.all.iter().map(|g| (g.0 - balance).powi(2) * g.2).sum::<f64>();
        [mass, balance, along + axial / 2.0, axial]
    }
}

/// Closed form of an even tube (C).
#[test]
fn exact_the_shaft_is_an_even_tube() {
    let parts = hunter();
    let shape = Shape::new(&parts, &Faults::default()).unwrap();
    let shaft = Whole::of(&shape.pieces[..1]).unwrap();
    assert_eq!(shape.pieces[0].of, PieceOf::Shaft);
    let (mass, length, outer, inner) = (0.0204 * 0.72, 0.72_f64, 0.0031_f64, 0.0026_f64);
    let radii = outer.powi(2) + inner.powi(2);
    near(shaft.mass, mass, 1e-15, "mass");
    near(shaft.principal.station, 0.01 + length / 2.0, 1e-15, "balance");
    near(shaft.transverse, mass * (length.powi(2) / 12.0 + radii / 4.0), 1e-14, "transverse");
    near(shaft.axial, mass * radii / 2.0, 1e-14, "axial");
}

/// A mass on the end of the shaft: two bodies about their common balance, by
/// the reduced mass (C).
#[test]
fn exact_a_point_on_a_shaft_is_two_bodies() {
    let parts = hunter();
    let shape = Shape::new(&parts, &Faults::default()).unwrap();
    let [shaft, point] = [PieceOf::Shaft, PieceOf::Point]
        .map(|of| *shape.pieces.iter().find(|piece| piece.of == of).unwrap());
    let both = Whole::of(&[shaft, point]).unwrap();
    let apart = (0.731 + 0.006) - (0.01 + 0.36);
    let (m1, m2) = (0.0204 * 0.72, 0.0065);
    near(both.principal.station, 0.37 + apart * m2 / (m1 + m2), 1e-14, "balance");
    let reduced = m1 * m2 / (m1 + m2);
    let transverse = shaft.transverse + point.transverse + reduced * apart * apart;
    near(both.transverse, transverse, 1e-14, "transverse");
}

/// A hunting arrow with every kind of part against a sum over grains of mass
/// laid out from the same sizes (C, own sum in this test).
#[test]
fn exact_mass_properties_of_a_full_arrow() {
    let parts = loaded();
    let mut grains = Grains::default();
    let (outer, inner) = (0.0031, 0.0026);
    let (rear, front, seat, tip) = (0.010, 0.730, 0.731, 0.771);
    grains.tube(0.0204 * 0.72, (rear, front), (inner, outer));
    grains.tube(3.2e-3, (front - 0.025, seat), (0.0, inner));
    grains.tube(0.8e-3, (front - 0.009, front), (outer, outer));
    grains.tube(0.6e-3, (-0.007, rear + 0.012), (0.0, outer));
    grains.tube(0.5e-3, (rear, rear + 0.1), (outer, outer));
    grains.plate(3.0 * 0.45e-3, outer, [0.087, 0.055, 0.018, 0.037, 0.011]);
    // The point: a rod moved to its balance, its radius of gyration shared
    // between ferrule and blades.
    let one = f64::midpoint(0.028, 0.002) * 0.012 * 0.0006 * 7850.0;
    let shift = (seat + 0.012) - f64::midpoint(seat - 0.018, tip);
    let ends = (seat - 0.018 + shift, tip + shift);
    let mut blade = Grains::default();
    blade.plate(3.0 * one, outer, [0.0, 0.028, 0.002, 0.026, 0.012]);
    let radius_square = (blade.sums()[3] + (6.5e-3 - 3.0 * one) * outer * outer / 2.0) / 6.5e-3;
    grains.tube(6.5e-3, ends, (radius_square.sqrt(), radius_square.sqrt()));

    let built = build(&parts, &Faults::default()).unwrap().mass;
    let got =
        [built.mass().si(), built.balance().si(), built.transverse().si(), built.axial().si()];
    for ((got, want), what) in
        got.into_iter().zip(grains.sums()).zip(["mass", "balance", "transverse", "axial"])
    {
        // A few hundred thousand terms rounded.
        near(got, want, 1e-12, what);
    }
}

/// Stations follow the drawing; the trade's arrow length is the station of
/// the shaft's front end.
#[test]
fn exact_stations_of_the_hunting_arrow() {
    let parts = loaded();
    let built = build(&parts, &Faults::default()).unwrap();
    let layout = built.layout;
    for (got, want, what) in [
        (layout.shaft_rear, 0.010, "shaft rear"),
        (layout.shaft_front, 0.730, "shaft front"),
        (layout.point_seat, 0.731, "point seat"),
        (layout.tip, 0.771, "tip"),
        (layout.vane_front, 0.087, "vane front"),
        (layout.blade_front, 0.765, "blade front"),
        (built.length, 0.730, "arrow length"),
    ] {
        near(got.si(), want, 1e-14, what);
    }
}

/// Given values replace those built up, and the effects of faults stay.
#[test]
fn exact_given_values_replace_the_sums() {
    let mut parts = hunter();
    let faults = Faults {
        groove_offset: arrow::Shift { offset: mm(0.1), ..Default::default() },
        ..Default::default()
    };
    let free = build(&parts, &faults).unwrap();
    parts.given.balance = Some(mm(420.0));
    parts.given.mass = Some(Mass::from_si(0.03));
    let given = build(&parts, &faults).unwrap();
    assert_eq!(given.mass.balance(), mm(420.0));
    assert_eq!(given.mass.mass(), Mass::from_si(0.03));
    assert_eq!(given.mass.axial(), free.mass.axial());
    assert_eq!(given.effects, free.effects);
    near(given.foc.si(), (0.42 - 0.365) / 0.73, 1e-13, "FOC of the given balance");
}
