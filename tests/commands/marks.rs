//! `clothyard marks`.

use std::path::Path;

use clothyard_tests::program::{Folder, run};

use crate::{BODY, SOUND};

const ASKED: &str = r#"
[sight]
radius = "31 in"
pins = ["20 yd", "30 yd"]
click = "0.1 mm"
[marks]
to = "40 yd"
places = ["20 yd", "40 yd"]
twigs = [{ distance = "12 yd", height = "2 in" }]
"#;

#[test]
fn law_marks_are_written_with_their_pictures_and_tables() {
    let folder = Folder::new("marks");
    let (file, out) = (folder.write("marks.toml", &format!("{SOUND}{ASKED}")), folder.at("out"));
    let ran = run(&["marks", &file, "--out", &out]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    assert!(ran.out.contains(&format!("Written to {out}: open report.html")));
    assert!(ran.out.lines().all(|line| line.chars().count() <= 100 || line.contains(&out)));
    assert!(ran.out.contains("law first. Computed marks: sight in near"));
    let files = folder.files();
    let names: Vec<&str> = files.iter().map(|(name, _)| name.as_str()).collect();
    for name in ["report.html", "result.json", "scenario.toml", "marks.csv", "arcs.csv"] {
        assert!(names.contains(&format!("out/{name}").as_str()), "{names:?}");
    }
    for name in ["slopes.csv", "changes.csv", "twigs.csv", "marks.svg", "arcs.svg"] {
        assert!(names.contains(&format!("out/{name}").as_str()), "{names:?}");
    }
    for (name, bytes) in &files {
        let text = String::from_utf8(bytes.clone()).unwrap();
        let kind = Path::new(name).extension().and_then(|end| end.to_str());
        if kind == Some("csv") {
            // Every second piece stands in quotes.
            let fields = |line: &str| {
                line.split('"').step_by(2).map(|bare| bare.matches(',').count()).sum::<usize>()
            };
            let head = fields(text.lines().next().unwrap());
            assert!(text.lines().all(|line| fields(line) == head), "{name}");
        }
        if kind == Some("svg") {
            roxmltree::Document::parse(&text).unwrap();
        }
        assert!(!text.contains("NaN"), "{name}");
    }
    assert_eq!(run(&["marks", &file, "--out", &out]).code, 2);
    assert!(folder.files() == files, "an existing folder is left alone");
    let again = run(&["marks", &file, "--out", &out, "--replace", "--json"]);
    let said: serde_json::Value = serde_json::from_str(&again.out).unwrap();
    assert_eq!(said["tables"]["marks"].as_array().unwrap().len(), 7);
    let csv = run(&["marks", &file, "--out", &out, "--replace", "--csv"]);
    assert!(csv.out.starts_with("distance [yd],mark [mm],"));
    assert_eq!(csv.out.lines().count(), 8);
    assert!(folder.files() == files, "the same marks give the same bytes");
}

/// The marks of the scenario as it was resolved are the same marks.
#[test]
fn law_resolved_marks_are_the_same_marks() {
    let folder = Folder::new("marks-resolved");
    let file = folder.write("marks.toml", &format!("{SOUND}{ASKED}"));
    let resolved = folder.write("resolved.toml", &run(&["check", &file, "--resolved"]).out);
    let (a, b) = (folder.at("a"), folder.at("b"));
    let words = |text: &str| text.split("Written to").next().unwrap().to_owned();
    let (first, again) =
        (run(&["marks", &file, "--out", &a]), run(&["marks", &resolved, "--out", &b]));
    assert_eq!((first.code, again.code), (0, 0), "{}{}", first.err, again.err);
    assert_eq!(words(&first.out), words(&again.out));
}

#[test]
fn law_marks_need_an_arrow_and_their_table() {
    let folder = Folder::new("marks-none");
    let body = folder.write("body.toml", BODY);
    let sound = folder.write("sound.toml", SOUND);
    let before = folder.files();
    assert_eq!(run(&["marks", &body]).code, 2);
    let ran = run(&["marks", &sound]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("no [marks] table"), "{}", ran.err);
    assert!(folder.files() == before);
}
