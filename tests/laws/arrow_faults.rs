use arrow::{Bend, Effects, Faults, Lean, Shape, Shift, VaneError, VaneFault, Whole, build};
use body::Across;
use clothyard_tests::hunter;
use proptest::prelude::*;
use units::{Angle, Length};

fn lean(most: f64) -> impl Strategy<Value = Lean> {
    (-most..most, -7.0..7.0_f64)
        .prop_map(|(a, c)| Lean { angle: Angle::from_si(a), clock: Angle::from_si(c) })
}

fn shift() -> impl Strategy<Value = Shift> {
    (-5e-4..5e-4_f64, -7.0..7.0_f64)
        .prop_map(|(a, c)| Shift { offset: Length::from_si(a), clock: Angle::from_si(c) })
}

fn bend() -> impl Strategy<Value = Option<Bend>> {
    let bend = (-1e-3..1e-3_f64, -7.0..7.0_f64).prop_map(|(b, c)| Bend {
        bow: Length::from_si(b),
        span: Length::from_si(0.7112),
        clock: Angle::from_si(c),
    });
    proptest::option::of(bend)
}

/// Faults of every kind; face errors up to twice what the fits follow.
fn faults() -> impl Strategy<Value = Faults> {
    let leans = [lean(0.004), lean(0.005), lean(0.02), lean(0.003), lean(0.02)];
    let vane = (-0.02..0.02_f64, -0.1..0.1_f64, -3e-3..3e-3_f64);
    (leans, [shift(), shift(), shift(), shift()], bend(), vane).prop_map(|(l, s, bend, v)| Faults {
        point_end: l[0],
        insert_face: l[1],
        point_cant: l[2],
        nock_end: l[3],
        nock_cant: l[4],
        point_offset: s[0],
        groove_offset: s[1],
        wall_offset: s[2],
        nock_offset: s[3],
        bend,
        vane: VaneFault {
            angle: Angle::from_si(v.0),
            around: Angle::from_si(v.1),
            forward: Length::from_si(v.2),
        },
    })
}

/// Every clock position changed.
fn clocked(mut faults: Faults, change: impl Fn(f64) -> f64) -> Faults {
    let turn = |clock: &mut Angle| *clock = Angle::from_si(change(clock.si()));
    turn(&mut faults.point_end.clock);
    turn(&mut faults.insert_face.clock);
    turn(&mut faults.point_cant.clock);
    turn(&mut faults.nock_end.clock);
    turn(&mut faults.nock_cant.clock);
    turn(&mut faults.point_offset.clock);
    turn(&mut faults.nock_offset.clock);
    turn(&mut faults.groove_offset.clock);
    turn(&mut faults.wall_offset.clock);
    if let Some(bend) = &mut faults.bend {
        turn(&mut bend.clock);
    }
    faults
}

fn vectors(effects: &Effects) -> [Across; 5] {
    [
        effects.groove_offset,
        effects.balance_offset,
        effects.shaft_tilt,
        effects.point_tilt,
        effects.tip_offset,
    ]
}

/// Effects agree to a rounding error of values of this size.
fn same(got: &Effects, want: &[Across; 5], slack: f64) {
    for (got, want) in vectors(got).into_iter().zip(*want) {
        assert!((got - want).size() <= slack, "{got:?} against {want:?}");
    }
}

/// No fault, no effect: exactly.
#[test]
fn law_no_faults_no_effects() {
    let clocks = clocked(Faults::default(), |_| 2.0);
    for faults in [Faults::default(), clocks] {
        assert_eq!(build(&hunter(), &faults).unwrap().effects, Effects::default());
    }
}

proptest! {
    /// The mirror image of all faults has the mirror image of all effects.
    #[test]
    fn law_mirrored_faults_have_mirrored_effects(faults in faults()) {
        let mut mirrored = clocked(faults, |clock| -clock);
        mirrored.vane.angle = Angle::from_si(-faults.vane.angle.si());
        mirrored.vane.around = Angle::from_si(-faults.vane.around.si());
        let plain = build(&hunter(), &faults).unwrap().effects;
        let image = build(&hunter(), &mirrored).unwrap().effects;
        let want = vectors(&plain).map(|v| Across { at0: v.at0, at90: -v.at90 });
        same(&image, &want, 0.0);
        let VaneError { angle, around, forward } = plain.vane;
        prop_assert_eq!(image.vane, VaneError { angle: -angle, around: -around, forward });
    }

    /// Turning every fault round the shaft turns every effect with it. The
    /// vane out of place cannot turn: it is the one at clock position zero.
    #[test]
    fn law_turned_faults_have_turned_effects(faults in faults(), turn in -4.0..4.0_f64) {
        let faults = Faults { vane: VaneFault::default(), ..faults };
        let plain = build(&hunter(), &faults).unwrap().effects;
        let turned = build(&hunter(), &clocked(faults, |clock| clock + turn)).unwrap().effects;
        let want = vectors(&plain).map(|v| Across::polar(v.size(), v.clock() + turn));
        same(&turned, &want, 1e-16);
    }

    /// The reference line carries no meaning: moving and tilting everything
    /// sideways changes no effect.
    #[test]
    fn law_a_moved_and_tilted_reference_changes_nothing(
        faults in faults(), by in [-1e-3..1e-3_f64, -1e-3..1e-3, -0.01..0.01, -0.01..0.01],
    ) {
        let (step, tilt) =
            (Across { at0: by[0], at90: by[1] }, Across { at0: by[2], at90: by[3] });
        let shape = Shape::new(&hunter(), &faults).unwrap();
        let mut moved = shape;
        for piece in &mut moved.pieces {
            piece.offset = piece.offset + step + tilt * piece.station;
            piece.product = piece.product + tilt * (piece.transverse - piece.axial);
        }
        for line in [&mut moved.shaft, &mut moved.tail, &mut moved.point] {
            line.offset = line.offset + step + tilt * line.station;
            line.slope = line.slope + tilt;
        }
        moved.groove = moved.groove + step;
        let plain = shape.effects(&Whole::of(&shape.pieces).unwrap());
        let again = moved.effects(&Whole::of(&moved.pieces).unwrap());
        // Rounding of sums of about 0.01.
        same(&again, &vectors(&plain), 1e-16);
    }

    /// Faults that are not limited by a fit act in proportion and add up.
    #[test]
    fn law_free_faults_add_up(one in faults(), two in faults()) {
        let free = |f: Faults| Faults {
            point_end: Lean::default(),
            insert_face: Lean::default(),
            nock_end: Lean::default(),
            vane: VaneFault::default(),
            bend: None,
            ..f
        };
        let (one, two) = (free(one), free(two));
        let add_lean = |a: Lean, b: Lean| {
            let sum = a.across() + b.across();
            Lean { angle: Angle::from_si(sum.size()), clock: Angle::from_si(sum.clock()) }
        };
        let add_shift = |a: Shift, b: Shift| {
            let sum = a.across() + b.across();
            Shift { offset: Length::from_si(sum.size()), clock: Angle::from_si(sum.clock()) }
        };
        let sum = Faults {
            point_cant: add_lean(one.point_cant, two.point_cant),
            nock_cant: add_lean(one.nock_cant, two.nock_cant),
            point_offset: add_shift(one.point_offset, two.point_offset),
            nock_offset: add_shift(one.nock_offset, two.nock_offset),
            groove_offset: add_shift(one.groove_offset, two.groove_offset),
            wall_offset: add_shift(one.wall_offset, two.wall_offset),
            ..one
        };
        let [a, b, both] =
            [one, two, sum].map(|f| vectors(&build(&hunter(), &f).unwrap().effects));
        let added: Vec<Across> = a.into_iter().zip(b).map(|(a, b)| a + b).collect();
        for (got, want) in both.into_iter().zip(added) {
            prop_assert!((got - want).size() <= 1e-16, "{got:?} against {want:?}");
        }
    }
}
