//! What was measured, from the file to the plan.
#![expect(clippy::float_cmp, reason = "numbers as written")]

use std::io;
use std::path::Path;

use scenario::{Scenario, read};
use study::{Measured, MeasuredShift, Moved};

/// The least scenario.
const LEAST: &str = "[bow]\ndraw_weight = \"60 lbf\"\ndraw_length = \"29 in\"\n\
    speed = \"276 ft/s\"\nspeed_mass = \"425 gr\"\n[arrow.shaft]\noutside = \"0.246 in\"\n\
    density = \"9.5 gr/in\"\nspine = \"0.340 in\"\nlength = \"28.5 in\"\n\
    [arrow.point]\nmass = \"100 gr\"\n[arrow.vanes]\nmass = \"6 gr\"\n\
    [[build]]\nname = \"a\"\n[[build]]\nname = \"b\"\n[build.arrow.point]\nmass = \"125 gr\"\n";

/// One thing of every kind.
const ALL: &str = "[[evidence]]\nkind = \"nock-turned\"\nname = \"turned\"\nbuild = \"b\"\n\
    distance = \"18 m\"\nnock_turn = \"180 deg\"\nleft = \"10 mm\"\nup = \"-20 mm\"\nshots = 12\n\
    [evidence.faults.bend]\nreading = \"1 mm\"\nmeasure = \"total\"\n\
    [[evidence]]\nkind = \"bare-shaft\"\ndistance = \"18 m\"\nleft = \"30 mm\"\nerror = \"5 mm\"\n\
    [[evidence]]\nkind = \"chronograph\"\nspeed = \"80 m/s\"\nmass = \"30 g\"\n\
    [[evidence]]\nkind = \"drop\"\ndistance = \"20 m\"\nfar = \"50 m\"\ndrop = \"0.9 m\"\n\
    [[evidence]]\nkind = \"push\"\nforce = \"20 N\"\nup = \"4 mm\"\nat = \"full-draw\"\n\
    [[evidence]]\nkind = \"spin\"\ndistance = \"30 m\"\nrate = \"30 turn/s\"\n\
    [[evidence]]\nkind = \"tear\"\ndistance = \"2 m\"\nleft = \"15 mm\"\nup = \"0 mm\"\n\
    [[evidence]]\nkind = \"value\"\nkey = \"bow.restraint.left\"\nvalue = 1.1\nerror = 0.05\n";

fn of_files(files: &[(&str, &str)]) -> Scenario {
    let open = |path: &Path| {
        let found = files.iter().find(|(name, _)| Path::new(name) == path);
        found.map(|(_, text)| (*text).to_owned()).ok_or(io::Error::from(io::ErrorKind::NotFound))
    };
    match read(Path::new("a/test.toml"), &open) {
        Ok(scenario) => scenario,
        Err(report) => panic!("{report}"),
    }
}

/// Every kind is read in its units, over its own build; the resolved file, the file
/// written out and a file of its own read the same.
#[test]
fn exact_evidence_of_every_kind_is_read() {
    let text = format!("{LEAST}{ALL}");
    let one = of_files(&[("a/test.toml", &text)]);
    let (resolved, written) = (one.resolved(), one.written("again", None));
    let named = format!("evidence = \"mine.toml\"\n{LEAST}");
    let apart = of_files(&[("a/test.toml", &named), ("a/mine.toml", ALL)]);
    let again = |text: &str| of_files(&[("a/test.toml", text)]);
    for scenario in [again(&resolved), again(&written), apart, one] {
        let evidence = scenario.plan().unwrap().evidence;
        let what: Vec<&Measured> = evidence.iter().map(|of| &of.what).collect();
        assert_eq!(what.len(), 8);
        let Measured::Shift(MeasuredShift { distance, shift, how, .. }) = what[0] else { panic!() };
        assert_eq!((distance.si(), *shift), (18.0, [0.01, -0.02]));
        assert_eq!(*how, Moved::NockTurn(180.0_f64.to_radians()));
        assert_eq!((evidence[0].name.as_str(), evidence[0].shots), ("turned", 12));
        // The build's own point, the entry's own bend.
        let setup = evidence[0].recipe.setup(&[]).unwrap();
        assert!((setup.parts.point.mass.si() - 125.0 * 6.479_891e-5).abs() < 1e-12);
        assert!(setup.faults.bend.is_some());
        assert!(matches!(what[1], Measured::Shift(of) if of.how == Moved::Bare));
        assert_eq!((evidence[1].sides, evidence[1].error), ([true, false], Some(0.005)));
        assert_eq!((evidence[1].name.as_str(), evidence[1].shots), ("bare-shaft (2)", 1));
        assert!(
            matches!(what[2], Measured::Speed { distance, speed } if distance.si() == 0.0 && speed.si() == 80.0)
        );
        let heavy = evidence[2].recipe.setup(&[]).unwrap();
        assert_eq!(heavy.parts.given.mass.unwrap().si(), 0.03);
        assert!(
            matches!(what[3], Measured::Drop { far, drop, .. } if far.si() == 50.0 && drop.si() == 0.9)
        );
        assert!(
            matches!(what[4], Measured::Push { give: [_, up], drawn: true, .. } if *up == 0.004)
        );
        assert!(
            matches!(what[5], Measured::Spin { rate, .. } if (rate.si() - 60.0 * std::f64::consts::PI).abs() < 1e-9)
        );
        assert!(matches!(what[6], Measured::Tear { tear, .. } if *tear == [0.015, 0.0]));
        assert!(matches!(what[7], Measured::Value { value, .. } if *value == 1.1));
    }
}

/// Builds shot against each other: the group's build and the other, resolved and again;
/// a build that is none is refused.
#[test]
fn exact_builds_shot_apart_are_read() {
    let apart = "[[evidence]]\nkind = \"builds-apart\"\nbuild = \"b\"\nagainst = \"a\"\n\
        distance = \"30 m\"\nleft = \"10 mm\"\nup = \"-90 mm\"\nerror = \"8 mm\"\n";
    let text = format!("{LEAST}{apart}");
    let resolved = of_files(&[("a/test.toml", &text)]).resolved();
    for text in [text.as_str(), resolved.as_str()] {
        let evidence = of_files(&[("a/test.toml", text)]).plan().unwrap().evidence;
        let [one] = evidence.as_slice() else { panic!("{}", evidence.len()) };
        let Measured::Apart { distance, shift, against } = &one.what else { panic!("{text}") };
        assert_eq!((distance.si(), *shift, one.error), (30.0, [0.01, -0.09], Some(0.008)));
        let mass = |of: &dyn study::Recipe| of.setup(&[]).unwrap().parts.point.mass.si();
        let gr = 6.479_891e-5;
        assert!((mass(one.recipe.as_ref()) - 125.0 * gr).abs() < 1e-12);
        assert!((mass(against.0.as_ref()) - 100.0 * gr).abs() < 1e-12);
    }
    for (from, to) in [("against = \"a\"", "against = \"c\""), ("against = \"a\"\n", "")] {
        let wrong = format!("{LEAST}{}", apart.replace(from, to));
        assert!(read(Path::new("test.toml"), &|_| Ok(wrong.clone())).is_err());
    }
}
