//! `clothyard fit` and `clothyard tape`.

use clothyard_tests::program::{Folder, run};

use crate::SOUND;

const MARKED: &str = "\n[marks]\n";
const TWO: &str = "distance [yd],mark [mm]\n20,12.0\n60,31.9\n";

/// The fitted values go to a new folder, and a scenario that names them reads
/// back to them; nothing that is there is touched.
#[test]
fn law_a_fit_writes_parts_and_touches_nothing_else() {
    let folder = Folder::new("fit");
    let (sound, shots) = (folder.write("sound.toml", SOUND), folder.write("shots.csv", TWO));
    let out = folder.at("fitted");
    let before = folder.files();
    let ran = run(&["fit", &sound, "--shots", &shots]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    assert!(ran.out.starts_with("Fitted to 2 sight marks: departure speed "), "{}", ran.out);
    assert!(folder.files() == before, "a fit without --out writes nothing");

    let ran = run(&["fit", &sound, "--shots", &shots, "--out", &out]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    let with = format!("{SOUND}\n[departure]\npart = \"fitted/departure.toml\"\n");
    let with = folder.write("with.toml", &with);
    let checked = run(&["check", &with, "--resolved"]);
    assert_eq!((checked.code, checked.err.as_str()), (0, ""));
    assert!(checked.out.contains("[departure]"), "{}", checked.out);

    // The same as evidence, which a scenario uses as it stands.
    let with = folder.write("uses.toml", &format!("evidence = \"fitted/evidence.toml\"\n{SOUND}"));
    let checked = run(&["check", &with, "--resolved"]);
    assert_eq!((checked.code, checked.err.as_str()), (0, ""));
    assert!(checked.out.contains("name = \"fitted speed at the bow\""), "{}", checked.out);

    let before = folder.files();
    let again = run(&["fit", &sound, "--shots", &shots, "--out", &out]);
    assert_eq!(again.code, 2);
    assert!(again.err.contains("is already there; nothing was written"), "{}", again.err);
    assert!(folder.files() == before, "an existing folder is left alone");
    let said = run(&["fit", &sound, "--shots", &shots, "--json"]);
    let said: serde_json::Value = serde_json::from_str(&said.out).unwrap();
    let of_all = said["tables"]["fit"].as_array().unwrap();
    let from = of_all.iter().find(|row| row["of_all_shots"] == "errors from").unwrap();
    assert_eq!(from["value"], "assumed");
}

#[test]
fn law_wrong_shots_are_named_and_nothing_is_written() {
    let folder = Folder::new("fit-wrong");
    let sound = folder.write("sound.toml", SOUND);
    let shots = folder.write("shots.csv", "distance [yd],mark [mm]\n20,12\n40,9\n60,31.9\n");
    let ran = run(&["fit", &sound, "--shots", &shots, "--out", &folder.at("out")]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("lines 2 and 3"), "{}", ran.err);
    assert_eq!(folder.files().len(), 2);
    let gone = run(&["fit", &sound, "--shots", &folder.at("none.csv")]);
    assert_eq!(gone.code, 2);
    assert!(gone.err.contains("there is no such file"), "{}", gone.err);
}

#[test]
fn law_a_tape_is_written_once_and_again_when_allowed() {
    let folder = Folder::new("tape");
    let marked = folder.write("marked.toml", &format!("{SOUND}{MARKED}"));
    let shots = folder.write("shots.csv", TWO);
    let out = folder.at("out");
    let ran = run(&["tape", &marked, "--shots", &shots, "--out", &out]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    let names: Vec<String> = folder.files().into_iter().map(|(name, _)| name).collect();
    for name in ["tape.pdf", "tape.svg", "card.pdf", "card.svg"] {
        assert!(names.contains(&format!("out/{name}")), "{names:?}");
    }
    let before = folder.files();
    assert_eq!(run(&["tape", &marked, "--out", &out]).code, 2);
    assert!(folder.files() == before, "an existing folder is left alone");
    let again = run(&["tape", &marked, "--shots", &shots, "--out", &out, "--replace"]);
    assert_eq!(again.code, 0);
    assert!(folder.files() == before, "the same tape gives the same bytes");

    // The same two marks on the command line give the same strip; a fan differs.
    let strip = std::fs::read(folder.at("out/tape.svg")).unwrap();
    for (marks, alike) in
        [(vec!["--mark", "20 yd = 12 mm", "--mark", "60 yd = 31.9 mm"], true), (vec![], false)]
    {
        let at = folder.at(if alike { "marked" } else { "fan" });
        let mut words = vec!["tape", &marked, "--out", &at];
        words.extend(marks);
        let ran = run(&words);
        assert_eq!((ran.code, ran.err.as_str()), (0, ""));
        assert_eq!(std::fs::read(format!("{at}/tape.svg")).unwrap() == strip, alike);
    }

    let sound = folder.write("sound.toml", SOUND);
    let none = run(&["tape", &sound, "--out", &folder.at("other")]);
    assert_eq!(none.code, 2);
    assert!(none.err.contains("[marks]"), "{}", none.err);
    for (wrong, said) in [
        (["--width", "3 mm"], "--width 3 mm is outside 6 mm to 40 mm"),
        (["--offset", "6"], "--offset \"6\""),
    ] {
        let ran = run(&["tape", &marked, wrong[0], wrong[1], "--out", &folder.at("other")]);
        assert_eq!(ran.code, 2);
        assert!(ran.err.contains(said), "{}", ran.err);
    }
}

/// Every way to write a mark that is none, with what is said.
#[test]
fn regress_message_marks_that_are_none() {
    let folder = Folder::new("marks-none");
    let marked = folder.write("marked.toml", &format!("{SOUND}{MARKED}"));
    let mut said = Vec::new();
    for marks in [
        vec!["20 yd"],
        vec!["20 yd: 12 mm"],
        vec!["20 yd = 12 mm"],
        vec!["20 yd = 12"],
        vec!["20 = 12 mm", "60 yd = 31.9 mm"],
        vec!["20 yd = 12 kg", "60 yd = 31.9 mm"],
        vec!["20 yd = ", "60 yd = 31.9 mm"],
        vec!["20 yd to = 19.9 mm"],
        vec!["0 yd = 12 mm", "60 yd = 31.9 mm"],
        vec!["20 yd = 12 mm", "20 yd = 12 mm"],
    ] {
        let mut words = vec!["tape".to_owned(), marked.clone()];
        words.extend(["--out".to_owned(), folder.at("other")]);
        words.extend(marks.iter().flat_map(|mark| ["--mark".to_owned(), (*mark).to_owned()]));
        let words: Vec<&str> = words.iter().map(String::as_str).collect();
        let ran = run(&words);
        assert_ne!(ran.code, 0, "{marks:?}: {}", ran.out);
        said.push(format!("{}: {}\n{}", ran.code, marks.join(", "), ran.err));
    }
    insta::assert_snapshot!(said.join("\n").replace(&marked, "marked.toml"));
}
