//! `clothyard push` and `clothyard pin`.

use clothyard_tests::program::{Folder, run};

use crate::{BODY, SOUND};

/// A bend of known size, so that turning the nock moves the impact.
const BENT: &str = r#"
[faults.bend]
reading = "0.012 in"
measure = "total"
clock = "60 deg"
[measured]
distance = "20 yd"
"#;

fn measured(left: &str, up: &str) -> String {
    format!("{SOUND}{BENT}left = \"{left}\"\nup = \"{up}\"\nnock_turn = \"120 deg\"\n")
}

#[test]
fn law_a_push_is_written_with_its_pictures_and_tables() {
    let folder = Folder::new("push");
    let (sound, out) = (folder.write("sound.toml", SOUND), folder.at("out"));
    let ran = run(&["push", &sound, "--out", &out]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    assert!(ran.out.contains(&format!("Written to {out}: open report.html")));
    assert!(ran.out.lines().all(|line| line.chars().count() <= 100 || line.contains(&out)));
    let names: Vec<String> = folder.files().into_iter().map(|(name, _)| name).collect();
    for name in ["report.html", "result.json", "scenario.toml", "frames.csv", "shapes.csv"] {
        assert!(names.contains(&format!("out/{name}")), "{names:?}");
    }
    for name in ["modes.csv", "stroke.csv", "push-shapes.svg", "push-paths.svg"] {
        assert!(names.contains(&format!("out/{name}")), "{names:?}");
    }

    let before = folder.files();
    assert_eq!(run(&["push", &sound, "--out", &out]).code, 2);
    assert!(folder.files() == before, "an existing folder is left alone");
    let again = run(&["push", &sound, "--out", &out, "--replace", "--json"]);
    assert_eq!(again.code, 0);
    let said: serde_json::Value = serde_json::from_str(&again.out).unwrap();
    let shapes = said["tables"]["shapes"].as_array().unwrap();
    assert_eq!(shapes.last().unwrap()["instant"], "10");
    assert!(folder.files() == before, "the same push gives the same bytes");
}

#[test]
fn law_a_rigid_body_has_no_push() {
    let folder = Folder::new("push-body");
    let body = folder.write("body.toml", BODY);
    let before = folder.files();
    for words in [["push", &body], ["pin", &body]] {
        assert_eq!(run(&words).code, 2);
    }
    assert!(folder.files() == before);
}

#[test]
fn law_a_pinned_restraint_is_a_part_file_that_reads() {
    let folder = Folder::new("pin");
    let file = folder.write("my.toml", &measured("-0.05 in", "0 in"));
    let part = folder.at("string.toml");
    let pinned = run(&["pin", &file, "--out", &part]);
    assert_eq!((pinned.code, pinned.err.as_str()), (0, ""), "{}", pinned.out);
    let written = std::fs::read_to_string(&part).unwrap();
    assert_eq!(run(&["pin", &file, "--out", &part]).code, 2);
    assert_eq!(std::fs::read_to_string(&part).unwrap(), written, "a part is never overwritten");

    let with_part = SOUND.replace("[bow]\n", "[bow]\npart = \"string.toml\"\n");
    let user = folder.write("user.toml", &with_part);
    let resolved = run(&["check", &user, "--resolved"]);
    assert_eq!(resolved.code, 0, "{}", resolved.err);
    assert!(resolved.out.contains("string.toml"), "the restraint comes from the part");

    let said = run(&["pin", &file, "--json"]);
    let said: serde_json::Value = serde_json::from_str(&said.out).unwrap();
    let rows = said["tables"]["pin"].as_array().unwrap();
    let mut held =
        rows.iter().filter(|row| row["value"].as_str().unwrap().starts_with("restraint"));
    let value = held.find_map(|row| row["is"]["value"].as_f64()).unwrap();
    let read = written.split("value = ").nth(1).unwrap().split(',').next().unwrap();
    let read: f64 = read.parse().unwrap();
    // Written with six figures.
    assert!((read / value - 1.0).abs() < 1e-5, "{read} {value}");
}

#[test]
fn law_nothing_is_written_without_a_restraint() {
    let folder = Folder::new("pin-none");
    let far = folder.write("far.toml", &measured("1 m", "1 m"));
    let none = folder.write("none.toml", SOUND);
    let part = folder.at("string.toml");
    let before = folder.files();
    let ran = run(&["pin", &far, "--out", &part]);
    assert_eq!(ran.code, 1);
    assert!(ran.out.contains("no restraint explains it."));
    assert_eq!(run(&["pin", &far]).code, 0, "that nothing explains it is an answer");
    assert_eq!(run(&["pin", &none, "--out", &part]).code, 2);
    assert!(folder.files() == before);
}
