//! The bench: what is printed, written, refused and never overwritten.

use std::path::Path;

use clothyard_tests::program::{Folder, path, run};
use insta::assert_snapshot;

const DEMO: &str = "scenarios/bench/bench.toml";

fn demo(name: &str) -> String {
    path(&format!("scenarios/bench/{name}"))
}

/// Every job of the bench on its demo: the folder is complete and the JSON
/// whole.
#[test]
fn law_every_bench_job_writes_its_report() {
    let folder = Folder::new("bench");
    let scenario = path(DEMO);
    let (faces, profile, dozen, shots) =
        (demo("faces.csv"), demo("profile.csv"), demo("dozen.csv"), demo("shots.csv"));
    let (shafts, parts) = (demo("shafts.csv"), demo("parts.csv"));
    let jobs: [(&str, Vec<&str>, &str); 6] = [
        ("square", vec!["--readings", &faces], "flat.csv"),
        ("cut", vec!["--readings", &profile, "--supports", "2 in, 30 in"], "shaft-4.svg"),
        (
            "cut",
            vec!["--grade", "0.003 in", "--measure", "plus-minus", "--stock", "32 in"],
            "claim.csv",
        ),
        ("sort", vec!["--batch", &dozen, "--set", "hunt=6", "--set", "practice=4"], "batch.svg"),
        ("index", vec!["--batch", &dozen, "--shots", &shots], "clocks.svg"),
        ("build", vec!["--shafts", &shafts, "--parts", &parts, "--mass", "426 gr"], "spare.csv"),
    ];
    for (at, (job, more, file)) in jobs.into_iter().enumerate() {
        let out = folder.at(&format!("{job}-{at}"));
        let mut words = vec!["bench", job, &scenario, "--out", &out, "--json"];
        words.extend(more);
        let ran = run(&words);
        assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{words:?}");
        let answer: serde_json::Value = serde_json::from_str(&ran.out).unwrap();
        assert!(answer["tables"].is_object() && answer["provenance"]["version"].is_string());
        for file in [file, "report.html", "result.json", "scenario.toml"] {
            let text = std::fs::read_to_string(format!("{out}/{file}")).unwrap();
            assert!(!text.contains("NaN") && !text.is_empty(), "{file}");
        }
        // A second time it is left alone.
        assert_eq!(run(&words).code, 2, "{words:?}");
    }
}

/// What was shot goes before what is computed, and shots of a strange arrow are named.
#[test]
fn regress_shots_go_before_the_model() {
    let folder = Folder::new("bench-shots");
    let (scenario, dozen, shots) = (path(DEMO), demo("dozen.csv"), demo("shots.csv"));
    let rows = std::fs::read_to_string(&shots).unwrap();
    let named = rows.lines().find(|line| line.starts_with(|c: char| c.is_ascii_digit()));
    let name = named.unwrap().split(',').next().unwrap();
    let strange = rows.replace(&format!("\n{name},"), "\n99,");
    let strange = folder.write("strange.csv", &strange);
    for (shots, name, said) in [
        (&shots, name, "By the shots, which go before the model: arrow 3: ".to_owned()),
        (&strange, "99", "Shots are of 99, which the batch does not hold.".to_owned()),
    ] {
        let out = folder.at(name);
        let words = ["bench", "index", &scenario, "--batch", &dozen, "--shots", shots];
        let ran = run(&[&words[..], &["--out", &out]].concat());
        let told = ran.out.split_whitespace().collect::<Vec<_>>().join(" ");
        assert_eq!(ran.code, 0, "{}", ran.err);
        assert!(told.contains(&said), "{told}");
    }
}

/// Five mistakes in five lines are told at once, each with its line and column.
#[test]
fn regress_every_mistake_of_a_run_out_file_at_once() {
    let folder = Folder::new("bench-mistakes");
    let scenario = path(DEMO);
    let text = "shaft,station [in],clock [deg],reading [in],stock [in]\n\
                1,2,0,0.010,32\n\
                1,4,0,0.01o,32\n\
                1,six,0,0.010,32\n\
                1,8,0,,32\n\
                1,10,,0.010,32\n\
                1,12,0,0.010,31\n";
    let bad = folder.write("bad.csv", text);
    let ran = run(&["bench", "cut", &scenario, "--readings", &bad, "--supports", "2 in, 30 in"]);
    assert_eq!((ran.code, ran.out.as_str()), (2, ""));
    assert_snapshot!(ran.err.replace(&folder.at(""), ""));
}

/// What else can be wrong with the words of a bench command.
#[test]
fn regress_wrong_words_at_the_bench_end_with_2() {
    let folder = Folder::new("bench-words");
    let (scenario, dozen, profile) = (path(DEMO), demo("dozen.csv"), demo("profile.csv"));
    let (out, gone, book) = (folder.at("out"), folder.at("gone.csv"), folder.at("book.csv"));
    let bare =
        folder.write("bare.csv", "shaft,station [in],run-out [in],high [deg]\n1,8,0.002,0\n");
    let heavy = folder.write("heavy.csv", "arrow,mass [g]\n1,425\n2,426\n3,424\n");
    let commands: [&[&str]; 10] = [
        &["bench", "sort", &scenario, "--batch", &dozen, "--set", "hunt", "--out", &out],
        &["bench", "index", &scenario, "--batch", &heavy, "--out", &out],
        &["bench", "sort", &scenario, "--batch", &dozen, "--set", "a=2", "--set", "a=3"],
        &["bench", "sort", &scenario, "--batch", &gone, "--set", "a=2", "--out", &out],
        &["bench", "cut", &scenario, "--out", &out],
        &["bench", "cut", &scenario, "--readings", &profile, "--supports", "2 in"],
        &["bench", "cut", &scenario, "--readings", &bare, "--supports", "2 in, 30 in"],
        &["bench", "square", &scenario, "--share", "lots", "--out", &out],
        &["bench", "note", "batch", &book, "mass"],
        &["bench", "note", "batch", &book, "mass=425", "weather=3 gr"],
    ];
    let mut shown = String::new();
    for words in commands {
        let ran = run(words);
        assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{words:?}");
        // The reason why a file cannot be read is the system's own words.
        shown.push_str(ran.err.split("gone.csv:").next().unwrap());
        shown.push('\n');
    }
    assert!(!Path::new(&book).exists() && !Path::new(&out).exists());
    assert_snapshot!(shown.replace(&folder.at(""), ""));
}

/// A shaft that cannot give the piece is refused with the numbers.
#[test]
fn regress_a_plan_the_shaft_cannot_give_is_refused() {
    let (scenario, profile) = (path(DEMO), demo("profile.csv"));
    let folder = Folder::new("bench-short");
    let out = folder.at("out");
    let ran = run(&[
        "bench",
        "cut",
        &scenario,
        "--readings",
        &profile,
        "--supports",
        "2 in, 30 in",
        "--wanted",
        "33 in",
        "--out",
        &out,
    ]);
    assert_eq!(ran.code, 1);
    assert_snapshot!(ran.err);
}

/// Rows are added at the end; every byte that was there stays.
#[test]
fn law_a_notebook_is_only_ever_added_to() {
    let folder = Folder::new("bench-note");
    let book = folder.at("book.csv");
    let note = |more: &[&str]| {
        let words = [&["bench", "note", "batch", &book], more].concat();
        run(&words).code
    };
    let read = || std::fs::read(&book).unwrap();
    assert_eq!(note(&["arrow=1", "mass=425.3 gr", "note=said \"fine\", twice"]), 0);
    let first = read();
    assert_eq!(note(&["arrow=2", "mass=27.5 g", "spine=8,6 mm"]), 0);
    let second = read();
    assert!(second.starts_with(&first) && second.len() > first.len());
    // A mistake adds nothing.
    assert_eq!(note(&["arrow=3", "mass=heavy"]), 2);
    assert_eq!(read(), second);
    let arrows = scenario::measured::batch(Path::new("book"), Ok(second)).unwrap().found;
    assert_eq!(arrows.len(), 2);
    assert!((arrows[1].mass.unwrap().si() - 0.0275).abs() < 1e-8);
    assert!((arrows[1].spine.unwrap().si() - 0.0086).abs() < 1e-7);
    // A file of one's own keeps its columns, its separator and its last line.
    let own = folder.write("own.csv", "spine [mm];arrow\n8,6;a");
    assert_eq!(run(&["bench", "note", "batch", &own, "arrow=b", "spine=0.34 in"]).code, 0);
    assert_eq!(std::fs::read_to_string(&own).unwrap(), "spine [mm];arrow\n8,6;a\n8,636;b\n");
}
