use arrow::{ArrowError, Bend, Blades, Faults, Outsert, Parts, PointShape, build};
use clothyard_tests::hunter;
use units::{Angle, Inertia, Length, LinearDensity, Mass, Quantity, Style, parse};

fn q<Q: Quantity>(text: &str) -> Q {
    parse(text).unwrap()
}

/// The hunting arrow with a fixed-blade head.
fn bladed() -> Parts {
    let mut parts = hunter();
    parts.point.shape = PointShape::FixedBlade;
    parts.point.length = q("40 mm");
    parts.point.blades = Some(Blades {
        count: 3,
        span: q("12 mm"),
        root: q("28 mm"),
        tip: q("2 mm"),
        sweep: q("26 mm"),
        thickness: q("0.6 mm"),
        setback: q("6 mm"),
        clock: Angle::ZERO,
    });
    parts
}

fn refused(start: &Parts, change: impl Fn(&mut Parts, &mut Faults)) -> ArrowError {
    let (mut parts, mut faults) = (*start, Faults::default());
    change(&mut parts, &mut faults);
    build(&parts, &faults).unwrap_err()
}

fn all_errors() -> Vec<ArrowError> {
    vec![
        refused(&hunter(), |p, _| p.shaft.outside = q("6.2 in")),
        refused(&hunter(), |p, _| p.shaft.length = Length::from_si(f64::NAN)),
        refused(&hunter(), |p, _| p.point.mass = Mass::from_si(-0.006)),
        refused(&hunter(), |p, _| p.point.balance = q("25 mm")),
        refused(&hunter(), |p, _| p.given.balance = Some(q("30 in"))),
        refused(&hunter(), |_, f| f.point_cant.angle = q("20 deg")),
        refused(&hunter(), |_, f| f.groove_offset.offset = q("7 mm")),
        refused(&hunter(), |p, _| p.vanes.as_mut().unwrap().count = 0),
        refused(&bladed(), |p, _| p.point.blades.as_mut().unwrap().count = 9),
        refused(&hunter(), |p, _| p.shaft.inside = q("6.2 mm")),
        refused(&hunter(), |p, _| p.shaft.density = LinearDensity::from_si(0.3)),
        refused(&hunter(), |p, _| {
            p.outsert = Some(Outsert {
                mass: q("2 g"),
                engaged: q("10 mm"),
                outside: q("5 mm"),
                clearance: q("0.1 mm"),
            });
        }),
        refused(&hunter(), |p, _| p.shaft.inside = Length::ZERO),
        refused(&hunter(), |p, _| {
            p.shaft.length = q("60 mm");
            p.insert.as_mut().unwrap().engaged = q("50 mm");
        }),
        refused(&hunter(), |p, _| p.nock.groove_depth = q("30 mm")),
        refused(&hunter(), |p, _| p.vanes.as_mut().unwrap().position = q("27 in")),
        refused(&hunter(), |p, _| p.vanes.as_mut().unwrap().sweep = q("100 mm")),
        refused(&bladed(), |p, _| p.point.blades.as_mut().unwrap().sweep = q("60 mm")),
        refused(&hunter(), |p, _| p.point.shape = PointShape::FixedBlade),
        refused(&bladed(), |p, _| p.point.shape = PointShape::Field),
        refused(&bladed(), |p, _| p.point.blades.as_mut().unwrap().setback = q("15 mm")),
        refused(&hunter(), |_, f| f.nock_end.clock = Angle::from_si(f64::INFINITY)),
        refused(&hunter(), |_, f| {
            f.bend = Some(Bend { bow: q("5 mm"), span: q("100 mm"), clock: Angle::ZERO });
        }),
        refused(&hunter(), |p, _| {
            p.shaft.length = q("100 mm");
            p.shaft.outside = q("50 mm");
            p.shaft.inside = q("49 mm");
        }),
        refused(&hunter(), |p, _| p.given.axial = Some(Inertia::from_si(1.0))),
    ]
}

/// Every refusal, provoked by parts or faults, word for word.
#[test]
fn regress_arrow_errors_read_well() {
    let text: Vec<String> = all_errors().iter().map(ToString::to_string).collect();
    insta::assert_snapshot!("arrow_errors", text.join("\n"));
}

/// The kinds of refusal that parts and faults provoke, and so the snapshot
/// above holds.
#[test]
fn regress_the_kinds_of_arrow_error() {
    let mut names: Vec<String> = all_errors()
        .iter()
        .map(|e| format!("{e:?}").split([' ', '(']).next().unwrap_or_default().to_owned())
        .collect();
    names.sort();
    names.dedup();
    insta::assert_snapshot!("arrow_error_kinds", names.join("\n"));
}

/// Every note, word for word.
#[test]
fn regress_arrow_notes_read_well() {
    let mut odd = bladed();
    odd.point.mass = q("2 g");
    odd.vanes = None;
    odd.given.mass = Some(q("400 gr"));
    odd.given.balance = Some(q("31 cm"));
    let mut faults = Faults::default();
    faults.point_end.angle = q("0.4 deg");
    faults.vane.angle = q("1 deg");
    let notes = build(&odd, &faults).unwrap().notes;
    let text: Vec<String> = notes.iter().map(|note| note.text(Style::Archery)).collect();
    insta::assert_snapshot!("arrow_notes", text.join("\n"));
}

/// A plain build has no note.
#[test]
fn exact_a_sound_arrow_has_no_notes() {
    assert_eq!(build(&hunter(), &Faults::default()).unwrap().notes, vec![]);
}
