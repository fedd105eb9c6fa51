use arrow::{Bend, Faults, Lean, Note, Outsert, PieceOf, Shape, Shift, VaneFault, Whole, build};
use body::Across;
use clothyard_tests::hunter;
use units::{Angle, Length, Mass};

fn mm(value: f64) -> Length {
    Length::from_si(value * 1e-3)
}

fn lean(angle: f64, clock: f64) -> Lean {
    Lean { angle: Angle::from_si(angle), clock: Angle::from_si(clock) }
}

fn near(got: Across, want: Across, slack: f64, what: &str) {
    assert!((got - want).size() <= slack, "{what}: {got:?} against {want:?}");
}

/// A groove off centre moves the groove and nothing else.
#[test]
fn exact_a_groove_off_centre_is_itself() {
    let offset = Shift { offset: mm(0.1), clock: Angle::from_si(1.0) };
    let effects =
        build(&hunter(), &Faults { groove_offset: offset, ..Default::default() }).unwrap().effects;
    near(effects.groove_offset, Across::polar(1e-4, 1.0), 1e-18, "groove");
    near(effects.tip_offset, Across::ZERO, 0.0, "tip");
    near(effects.shaft_tilt, Across::ZERO, 0.0, "shaft");
}

/// Point cant by hand: the point's balance moves sideways, the principal axis
/// tilts by the product of inertia over (It - Ia) (C).
#[test]
fn exact_a_canted_point_by_hand() {
    let cant = 0.004;
    let built =
        build(&hunter(), &Faults { point_cant: lean(cant, 0.0), ..Default::default() }).unwrap();
    let (mass, balance) = (built.mass.mass().si(), built.mass.balance().si());
    let (m, station, aside) = (6.5e-3, 0.737, 0.006 * cant);
    let axial: f64 = m * 0.0031_f64.powi(2) / 2.0;
    let own = m * 0.040_f64.powi(2) / 12.0 + axial / 2.0 - axial;
    let moved = m * aside / mass;
    let product = m * (station - balance) * aside + cant * own;
    let tilt = product / (built.mass.transverse().si() - built.mass.axial().si());
    let at0 = |value: f64| Across { at0: value, at90: 0.0 };
    let effects = built.effects;
    near(effects.balance_offset, at0(moved), 1e-18, "balance");
    near(effects.shaft_tilt, at0(-tilt), 1e-17, "shaft");
    near(effects.point_tilt, at0(cant - tilt), 1e-17, "point");
    near(effects.groove_offset, at0(tilt * balance - moved), 1e-17, "groove");
    let tip = 0.022 * cant - moved - tilt * (0.753 - balance);
    near(effects.tip_offset, at0(tip), 1e-17, "tip");
}

/// A shaft alone of constant curvature: its ends lie kappa L^2 / 12 from the
/// principal axis, on the hollow side (C).
#[test]
fn exact_the_ends_of_a_bent_rod() {
    let bend = Bend { bow: mm(0.1), span: mm(711.2), clock: Angle::from_si(0.5) };
    let shape = Shape::new(&hunter(), &Faults { bend: Some(bend), ..Default::default() }).unwrap();
    let whole = Whole::of(&shape.pieces[..1]).unwrap();
    let axis = whole.principal;
    let curvature = 8.0 * 1e-4 / 0.7112_f64.powi(2);
    let end = Across::polar(-curvature * 0.72_f64.powi(2) / 12.0, 0.5);
    // The tail line is the tangent at the vanes; take it to the shaft's rear.
    let vanes = shape.tail.station;
    let rear = shape.tail.at(0.01) + Across::polar(-curvature * (vanes - 0.01).powi(2) / 2.0, 0.5);
    near(rear - axis.at(0.01), end, 1e-18, "rear end");
    near(shape.point.at(0.73) - axis.at(0.73), end, 1e-18, "front end");
    near(shape.point.slope - axis.slope, Across::polar(-curvature * 0.36, 0.5), 1e-17, "slope");
}

/// A part leans away from the high side of the face it seats on.
#[test]
fn exact_parts_lean_away_from_the_high_side() {
    // The nock's fit allows 0.02 mm in 12 mm, the insert's 0.05 mm in 25 mm.
    let front = Shape::new(&hunter(), &Faults { point_end: lean(1e-3, 0.0), ..Default::default() })
        .unwrap();
    near(front.point.slope, Across { at0: -1e-3, at90: 0.0 }, 1e-18, "point");
    // It leans about the shaft's end, a shoulder of 1 mm behind the seat.
    near(front.point.offset, Across { at0: -1e-6, at90: 0.0 }, 1e-18, "point's seat");
    let rear =
        Shape::new(&hunter(), &Faults { nock_end: lean(1e-3, 0.0), ..Default::default() }).unwrap();
    near(rear.groove, Across { at0: -1e-5, at90: 0.0 }, 1e-18, "groove, 10 mm behind the seat");
    let canted =
        Shape::new(&hunter(), &Faults { nock_cant: lean(1e-3, 0.0), ..Default::default() })
            .unwrap();
    near(canted.groove, Across { at0: 1e-5, at90: 0.0 }, 1e-18, "a cant leans toward its clock");
}

/// A part leans no further than its clearance over its engaged length.
#[test]
fn exact_the_fit_limits_a_lean() {
    let faults = Faults {
        point_end: lean(0.01, 0.0),
        insert_face: lean(0.02, 0.0),
        nock_end: lean(0.03, 0.0),
        ..Default::default()
    };
    let parts = hunter();
    let shape = Shape::new(&parts, &faults).unwrap();
    let point = -(0.05 / 25.0 + 0.05 / 18.0);
    near(shape.point.slope, Across { at0: point, at90: 0.0 }, 1e-17, "point");
    near(shape.groove, Across { at0: -0.010 * 0.02 / 12.0, at90: 0.0 }, 1e-18, "groove");
    let notes = build(&parts, &faults).unwrap().notes;
    let limited = notes.iter().filter(|note| matches!(note, Note::FitLimited { .. })).count();
    assert_eq!(limited, 3, "{notes:?}");
}

/// Without an insert the point itself seats on the shaft, with its own fit.
#[test]
fn exact_a_point_glued_into_the_shaft_uses_its_own_fit() {
    let mut parts = hunter();
    parts.insert = None;
    let faults =
        Faults { point_end: lean(0.01, 0.0), insert_face: lean(0.01, 0.0), ..Default::default() };
    let shape = Shape::new(&parts, &faults).unwrap();
    near(shape.point.slope, Across { at0: -0.05 / 18.0, at90: 0.0 }, 1e-17, "point");
    let notes = build(&parts, &faults).unwrap().notes;
    assert!(notes.contains(&Note::IdleFault { what: "insert face" }), "{notes:?}");
    // An outsert holds the point as an insert does.
    parts.outsert = Some(Outsert {
        mass: Mass::from_si(2e-3),
        engaged: mm(20.0),
        outside: mm(8.0),
        clearance: mm(0.1),
    });
    let shape = Shape::new(&parts, &faults).unwrap();
    near(shape.point.slope, Across { at0: -0.005 - 0.05 / 18.0, at90: 0.0 }, 1e-17, "outsert");
    near(shape.point.offset, Across { at0: -0.005 * 0.008, at90: 0.0 }, 1e-17, "seat");
}

/// One vane a quarter turn out of place: its mass alone moves (C).
#[test]
fn exact_a_vane_out_of_place_moves_its_mass() {
    let parts = hunter();
    let vane = VaneFault {
        around: Angle::from_si(std::f64::consts::FRAC_PI_2),
        forward: mm(2.0),
        ..Default::default()
    };
    let faults = Faults { vane, ..Default::default() };
    let shape = Shape::new(&parts, &faults).unwrap();
    let vanes = shape.pieces.iter().find(|piece| piece.of == PieceOf::Vanes).unwrap();
    // Centroid of the trapezoid above the shaft: s/3 (root + 2 tip) / (root + tip).
    let radius = 0.0031 + 0.011 / 3.0 * (55.0 + 36.0) / 73.0;
    near(vanes.offset, Across { at0: -radius / 3.0, at90: radius / 3.0 }, 1e-17, "offset");
    near(vanes.product, Across { at0: 0.0, at90: 0.45e-3 * radius * 2e-3 }, 1e-21, "product");
    let effects = build(&parts, &faults).unwrap().effects;
    assert!((effects.vane.forward - 2e-3).abs() < 1e-18);
}
