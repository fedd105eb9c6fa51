//! What a coach of recurves asks on the command line.

use clothyard_tests::program::{Folder, run};

/// A recurve in the words of an archer.
const RECURVE: &str = "bow = \"recurve\"\ndraw_weight = \"40 lb\"\ndraw_length = \"28 in\"\n\
                       speed = \"180 fps\"\narrow_length = \"28 3/4 in\"\nspine = 600\n\
                       point = \"110 grains\"\nlevel = \"club\"\nquestion.flights = 200\n";

fn said(words: &[&str]) -> String {
    let ran = run(words);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{words:?}");
    ran.out.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A junior's recurve was a compound in silence, and the zone of a hunter stood for a face.
#[test]
fn regress_a_recurve_in_ordinary_words_is_one() {
    let folder = Folder::new("coach-recurve");
    let file = folder.write("mine.toml", RECURVE);
    let answer = said(&["run", &file, "--units", "metric", "--out", &folder.at("mine")]);
    assert!(
        answer.contains("Assumed: bow.release_by fingers, bow.rest.kind side-point"),
        "{answer}"
    );
    assert!(answer.contains("At 50 m "), "{answer}");
    assert!(!answer.contains("far for an animal"), "{answer}");
    let kept = std::fs::read_to_string(folder.at("mine/scenario.toml")).unwrap();
    assert!(kept.contains("distances = [\"20 m\", \"30 m\", \"50 m\", \"70 m\"]"), "{kept}");
    // What is told reads back to the same, and speaks of no animal either.
    let again = said(&["check", &folder.at("mine/scenario.toml")]);
    assert!(!again.contains("far for an animal"), "{again}");
    let plain = RECURVE.replace("bow = \"recurve\"\n", "").replace("180 fps", "225 fps");
    let compound = folder.write("plain.toml", &plain);
    let answer = said(&["run", &compound, "--out", &folder.at("plain")]);
    assert!(answer.contains("Assumed: taken as a compound (bow.kind), "), "{answer}");
}

/// Only who speaks of hunting is told of animals.
#[test]
fn law_an_animal_is_spoken_of_where_hunting_is() {
    let folder = Folder::new("coach-animal");
    let told = |name: &str, more: &str| {
        let file = folder.write(&format!("{name}.toml"), &format!("{more}{RECURVE}"));
        said(&["check", &file]).contains("far for an animal")
    };
    assert!(!told("target", ""));
    assert!(!told("face", "face = \"40 cm\"\n"));
    assert!(told("zone", "zone = \"8 in\"\n"));
    assert!(told("blades", "arrow.point.shape = \"fixed-blade\"\n"));
    let wheels = RECURVE.replace("\"recurve\"", "\"compound\"").replace("180", "225");
    assert!(said(&["check", &folder.write("wheels.toml", &wheels)]).contains("far for an animal"));
}

/// A sweep of the wind led with the drop.
#[test]
fn regress_a_swept_wind_leads_with_its_drift() {
    let folder = Folder::new("coach-wind");
    let sweep = "question.kind = \"sweep\"\nquestion.key = \"wind.speed\"\n\
                 question.values = [\"0 m/s\", \"4 m/s\"]\ndistances = [\"50 m\"]\n";
    let file = folder.write("wind.toml", &format!("{RECURVE}{sweep}"));
    let answer = said(&["run", &file, "--units", "metric", "--out", &folder.at("wind")]);
    let first =
        "From 0 m/s to 4 m/s of wind speed the drift to the left at 50 m goes from 0.0 cm to ";
    assert!(answer.contains(first), "{answer}");
    assert!(answer.contains("Next: this is given, not chosen"), "{answer}");
}

/// The turn of the nose stood without what may be of it.
#[test]
fn regress_a_push_off_the_fingers_has_its_bands() {
    let folder = Folder::new("coach-push");
    let file = folder.write("mine.toml", RECURVE);
    let answer = said(&["push", &file, "--out", &folder.at("push")]);
    assert!(answer.contains("its nose turning ") && answer.contains(" (from "), "{answer}");
    assert!(!answer.contains("is not returned"), "{answer}");
    let slow = folder.write("slow.toml", &RECURVE.replace("180 fps", "150 fps"));
    let answer = said(&["push", &slow, "--out", &folder.at("slow")]);
    assert!(answer.contains("is not returned, far more than bows keep"), "{answer}");
}

/// A sheet for 18 m spoke of 19.69 yd on letter paper.
#[test]
fn regress_a_sheet_speaks_as_its_distance_is_said() {
    let folder = Folder::new("coach-sheet");
    let sheet = |distance: &str, name: &str| {
        let out = folder.at(name);
        let words = ["trial", "sheet", "one", "two", "--distance", distance, "--times", "2"];
        (said(&[&words[..], &["--out", &out]].concat()), out)
    };
    let (answer, out) = sheet("18 m", "metres");
    assert!(answer.contains("18 m") && !answer.contains(" yd"), "{answer}");
    assert!(answer.contains("from whoever shoots"), "{answer}");
    let table = std::fs::read_to_string(format!("{out}/shots.csv")).unwrap();
    assert!(table.contains("[cm]"), "{table}");
    let (answer, _) = sheet("20 yd", "yards");
    assert!(answer.contains("20 yd"), "{answer}");
}
