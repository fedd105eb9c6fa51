use std::io::ErrorKind;
use std::path::Path;

use proptest::prelude::*;
use scenario::{Edit, Setting, read};

const DEMO: &str = include_str!("../../scenarios/three-builds.toml");

const PARTS: [(&str, &str); 4] = [
    ("parts/bow-60.toml", include_str!("../../scenarios/parts/bow-60.toml")),
    ("parts/archer-steady.toml", include_str!("../../scenarios/parts/archer-steady.toml")),
    ("parts/shaft-340.toml", include_str!("../../scenarios/parts/shaft-340.toml")),
    ("parts/vanes-helical.toml", include_str!("../../scenarios/parts/vanes-helical.toml")),
];

/// Reads a scenario, and whatever comes of it: nothing may panic, every
/// refusal has a text, every acceptance a plan of finite numbers.
fn survive(text: &str) {
    let files = |path: &Path| match path.to_str() {
        Some("s.toml") => Ok(text.to_owned()),
        Some(name) => match PARTS.iter().find(|(part, _)| *part == name) {
            Some((_, text)) => Ok((*text).to_owned()),
            None => Err(ErrorKind::NotFound.into()),
        },
        None => Err(ErrorKind::NotFound.into()),
    };
    match read(Path::new("s.toml"), &files) {
        Ok(scenario) => {
            assert!(!scenario.resolved().contains("NaN"));
            for build in scenario.plan().into_iter().flat_map(|plan| plan.builds) {
                let setup = build.recipe.setup(&[]).map(|setup| format!("{setup:?}"));
                assert!(setup.is_ok_and(|setup| !setup.contains("NaN") && !setup.contains("inf")));
            }
        }
        Err(report) => {
            assert!(!report.problems().is_empty() && !report.render(true).is_empty());
            for problem in report.problems() {
                assert!(report.position(problem).is_some());
            }
        }
    }
}

/// Texts that might stand where a value is wanted.
const VALUES: [&str; 24] = [
    "0",
    "-1",
    "3",
    "1e308",
    "nan",
    "inf",
    "true",
    "\"\"",
    "\"any\"",
    "\"none\"",
    "\"0 in\"",
    "\"-5 deg\"",
    "\"20 yd\"",
    "\"1e999 m\"",
    "\"100 %\"",
    "[]",
    "[1, \"2 m\"]",
    "{}",
    "{ mean = \"1 in\", sd = \"1 in\" }",
    "{ low = 0, high = 1 }",
    "{ rayleigh = \"1 deg\" }",
    "1979-05-27",
    "\"\u{e9}\"",
    "'''x\ny'''",
];

proptest! {
    #[test]
    fn law_any_text_is_read_or_refused(text in any::<String>()) {
        survive(&text);
    }

    #[test]
    fn law_any_toml_like_text_is_read_or_refused(
        text in "(\\[{1,2}[a-z_.]{0,12}\\]{1,2}\n|[a-z_.]{1,12} ?= ?[-0-9a-z\"'{}\\[\\], .]{0,16}\n){0,12}"
    ) {
        survive(&text);
    }

    /// The demo with one stretch cut out, doubled, or replaced.
    #[test]
    fn law_a_damaged_demo_is_read_or_refused(
        at in 0..DEMO.len(), length in 0..40_usize, with in "[ -~\n\u{e9}]{0,12}"
    ) {
        let start = DEMO.floor_char_boundary(at);
        let end = DEMO.ceil_char_boundary((at + length).min(DEMO.len()));
        survive(&format!("{}{with}{}", &DEMO[..start], &DEMO[end..]));
    }

    /// The demo with the value of one line replaced, or the line moved.
    #[test]
    fn law_a_demo_with_strange_values_is_read_or_refused(
        line in 0..70_usize, value in prop::sample::select(VALUES.to_vec()), to in 0..70_usize
    ) {
        let mut lines: Vec<String> = DEMO.lines().map(str::to_owned).collect();
        let line = line % lines.len();
        if let Some((key, _)) = lines[line].clone().split_once('=') {
            lines[line] = format!("{key}= {value}");
        }
        survive(&lines.join("\n"));
        let moved = lines.remove(line);
        let to = to % lines.len();
        lines.insert(to, moved);
        survive(&lines.join("\n"));
    }
}

/// Every key of the reference set to a value of each kind: read or refused.
#[test]
fn law_every_key_takes_or_refuses_every_kind_of_value() {
    let reference = scenario::key_reference();
    let mut table = String::new();
    let mut tried = 0;
    for line in reference.lines() {
        if let Some(name) = line.strip_prefix("## ") {
            table = if name == "Top level" { String::new() } else { name.to_owned() };
        } else if let Some(key) = line.strip_prefix("| `").and_then(|rest| rest.split('`').next()) {
            for value in VALUES {
                // A second table of the same name is refused as TOML, so the
                // key goes first and dotted.
                let path = table.trim_matches(['[', ']']);
                let dot = if path.is_empty() { "" } else { "." };
                survive(&format!("{path}{dot}{key} = {value}\n"));
                tried += 1;
            }
        }
    }
    assert!(tried > 2000, "{tried}");
}

/// Each default lies in its own range and each range in its unit: a file with
/// all defaults written out is accepted.
#[test]
fn law_every_default_passes_its_own_check() {
    let text = "[bow]\ndraw_weight = \"60 lbf\"\ndraw_length = \"29 in\"\nkind = \"KIND\"\n\
                [bow.rating]\nspeed = \"335 ft/s\"\n[wind]\nprofile_height = \"10 m\"\n\
                [faults]\nbend.reading = \"0.1 mm\"\nbend.measure = \"total\"\n\
                tip_runout.reading = \"0.1 mm\"\n[question]\nr90_within = \"3 %\"\n\
                [arrow.shaft]\noutside = \"0.246 in\"\ndensity = \"9.5 gr/in\"\n\
                spine = \"0.340 in\"\nlength = \"28.5 in\"\n[arrow.point]\nmass = \"100 gr\"\n\
                shape = \"SHAPE\"\n[arrow.vanes]\n[arrow.wrap]\n[arrow.collar]\n[arrow.HOLDER]\n\
                [measured]\ndistance = \"20 yd\"\nleft = \"1 in\"\nup = \"0 in\"\nbare = true\n";
    for kind in ["compound", "recurve", "longbow"] {
        for shape in ["streamlined", "field", "bullet", "blunt", "fixed-blade", "closed-blade"] {
            for holder in ["insert", "outsert"] {
                let text = text.replace("KIND", kind).replace("SHAPE", shape);
                let text = text.replace("HOLDER", holder);
                let read = |text: &str| read(Path::new("s.toml"), &|_| Ok(text.to_owned()));
                let first = read(&text).unwrap_or_else(|report| panic!("{report}"));
                for rest in ["drop-away", "containment", "side-point", "shelf"] {
                    for by in ["aid", "fingers"] {
                        let bow = format!(
                            "release_by = \"{by}\"\nrest.kind = \"{rest}\"\n\
                             rest.side = \"right\"\n[bow.rating]"
                        );
                        let text = text.replace("[bow.rating]", &bow);
                        let first = read(&text).unwrap_or_else(|report| panic!("{report}"));
                        if let Err(report) = read(&first.resolved()) {
                            panic!("{report}");
                        }
                    }
                }
                // Reading back sends each default through the range check.
                if let Err(report) = read(&first.resolved()) {
                    panic!("{report}");
                }
            }
        }
    }
}

fn demo() -> scenario::Scenario {
    let files = |path: &Path| match path.to_str() {
        Some("s.toml") => Ok(DEMO.to_owned()),
        name => {
            let part = PARTS.iter().find(|(part, _)| Some(*part) == name);
            part.map(|(_, text)| (*text).to_owned()).ok_or(ErrorKind::NotFound.into())
        }
    };
    read(Path::new("s.toml"), &files).unwrap()
}

/// A key that is set is read as one in a file is: the same refusals, and each
/// tells its key.
#[test]
fn law_a_key_is_set_by_its_own_reader() {
    let set = |key, to| demo().edited(&[Edit { key, to, build: None }]);
    let value = |text: &str| Setting::Value(text.to_owned());
    let refused = |key, to| {
        let report = set(key, to).err().unwrap();
        assert_eq!(report.edited(&report.problems()[0]), Some(key), "{report}");
        report.problems()[0].error.to_string()
    };
    assert!(refused("arrow.point.mass", value("100")).contains("has no unit"));
    assert!(refused("arrow.point.mass", value("1 gr")).contains("out of range"));
    assert!(refused("bow.kind", value("crossbow")).contains("cannot be"));
    assert!(refused("arrow.point.mass", Setting::Size("1 gr".to_owned())).contains("Rayleigh"));
    assert!(refused("arrow.vanes.count", value("3.5")).contains("must be"));
    assert!(set("arrow.vanes.count", value("4")).is_ok());
    assert!(refused("question.flights", value("\"")).contains("must be"));
    assert!(refused("arrow.pint.mass", value("1 gr")).contains("unknown key"));
    // A text is one text, whatever stands in it.
    let title = "a \"b\"\n[bow]\nkind = \"longbow\"";
    let edited = set("title", value(title)).unwrap();
    assert_eq!(edited.title(), title);
    let text = edited.written("from a test", None);
    let again = read(Path::new("s.toml"), &|_| Ok(text.clone())).unwrap();
    assert_eq!((again.title(), again.plan().unwrap().builds.len()), (title, 3));
}

/// Written out and read again, a scenario is the same, whatever was set.
#[test]
fn law_a_scenario_written_out_reads_back_to_itself() {
    let all = [
        ("archer.aim_up", Setting::Spread("0.2 deg".to_owned())),
        ("faults.point_cant.angle", Setting::Size("0.1 deg".to_owned())),
        ("question.distances", Setting::Among("33 m".to_owned())),
        ("arrow.collar", Setting::Table),
        ("arrow.wrap.mass", Setting::Value("5 gr".to_owned())),
        ("question.face", Setting::Value("122 cm".to_owned())),
        ("air.altitude", Setting::Value("500 m".to_owned())),
    ];
    let plain = |scenario: &scenario::Scenario| -> Vec<String> {
        let text = scenario.resolved();
        text.lines().map(|line| line.split(" # ").next().unwrap_or("").to_owned()).collect()
    };
    for count in 0..=all.len() {
        let edits: Vec<Edit> = all[..count]
            .iter()
            .map(|(key, to)| Edit { key, to: to.clone(), build: None })
            .collect();
        let edited = demo().edited(&edits).unwrap();
        let text = edited.written("from a test", None);
        let again = read(Path::new("s.toml"), &|_| Ok(text.clone())).unwrap();
        assert_eq!(plain(&again), plain(&edited), "{text}");
        assert_eq!(again.written("from a test", None), text);
        // Beside itself: one build more, and the others as they were.
        let text = edited.written("from a test", Some((&demo(), 0)));
        let both = read(Path::new("s.toml"), &|_| Ok(text.clone())).unwrap();
        let names: Vec<String> = both.plan().unwrap().builds.into_iter().map(|b| b.name).collect();
        assert_eq!((names.len(), names[0].as_str()), (4, "pinned"), "{text}");
        let last = |scenario: &scenario::Scenario| {
            let recipe = scenario.recipe(Some("heavy, fixed blades")).unwrap();
            format!("{:?} {:?}", recipe.setup(&[]), recipe.draws())
        };
        assert_eq!(last(&both), last(&edited));
        let first = demo().recipe(None).unwrap();
        let pinned = both.recipe(None).unwrap();
        assert_eq!(pinned.setup(&[]), first.setup(&[]));
        assert_eq!(pinned.draws(), first.draws());
    }
}
