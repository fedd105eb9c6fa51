//! What is written where.

use clothyard_tests::program::{Folder, path, run};

use crate::SOUND;

#[test]
fn law_an_existing_folder_is_left_alone() {
    let folder = Folder::new("existing");
    let sound = folder.write("sound.toml", SOUND);
    std::fs::create_dir(folder.at("out")).unwrap();
    folder.write("out/result.json", "mine");
    let out = folder.at("out");
    let before = folder.files();

    let refused = run(&["run", &sound, "--out", &out]);
    assert_eq!(refused.code, 2);
    let want = format!(
        "error: {out} is already there; nothing was written\n  \
         hint: name another place with --out, or allow it with --replace\n"
    );
    assert_eq!(refused.err, want);
    assert!(folder.files() == before);

    // What no earlier answer left there is not replaced when asked to, either.
    let refused = run(&["run", &sound, "--out", &out, "--replace"]);
    assert_eq!(refused.code, 2);
    let want = format!("error: {out}/result.json is not as an earlier answer left it");
    assert!(refused.err.starts_with(&want), "{}", refused.err);
    assert!(folder.files() == before);
}

#[test]
fn law_a_file_is_never_replaced_by_a_folder() {
    let folder = Folder::new("file");
    let sound = folder.write("sound.toml", SOUND);
    for more in [&[][..], &["--replace"]] {
        let words = [&["run", &sound, "--out", &sound], more].concat();
        assert_eq!(run(&words).code, 2);
    }
    assert_eq!(std::fs::read_to_string(&sound).unwrap(), SOUND);
}

#[test]
fn law_a_flight_is_written_once() {
    let folder = Folder::new("flight");
    let sound = folder.write("sound.toml", SOUND);
    let out = folder.at("flight.csv");
    let words = ["fly", &sound, "--as", "csv", "--out", &out];
    let first = run(&words);
    assert_eq!((first.code, first.out.as_str(), first.err.as_str()), (0, "", ""));
    let written = folder.files();
    assert_eq!(run(&words).code, 2);
    assert!(folder.files() == written);
    let printed = run(&["fly", &sound, "--as", "csv"]);
    assert_eq!(std::fs::read_to_string(&out).unwrap(), printed.out);
}

#[test]
fn law_a_report_holds_every_form_of_the_answer() {
    let folder = Folder::new("report");
    let (demo, out) = (path("scenarios/square-ends.toml"), folder.at("out"));
    let ran = run(&["run", &demo, "--flights", "100", "--out", &out]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    let names: Vec<String> = folder.files().into_iter().map(|(name, _)| name).collect();
    for name in ["report.html", "result.json", "scenario.toml", "faces.svg", "drop.svg"] {
        assert!(names.contains(&format!("out/{name}")), "{names:?}");
    }
    for end in [".svg", ".csv"] {
        assert!(names.iter().filter(|name| name.ends_with(end)).count() >= 4, "{names:?}");
    }
    assert!(ran.out.contains(&format!("Written to {out}: open report.html")));
}
