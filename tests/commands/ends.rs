//! Exit codes and the words that go with them.

use std::io::ErrorKind;

use clothyard_tests::program::{Folder, Ran, path, run, run_refused};
use insta::assert_snapshot;

use crate::{BODY, SOUND, STICKY};

/// Runs commands in a folder and shows their codes and what they say.
fn shown(folder: &Folder, commands: &[&[&str]]) -> String {
    let show = |words: &&[&str]| {
        let Ran { code, out, err } = run(words);
        assert_eq!(out, "", "{words:?} printed an answer");
        let line = format!("$ clothyard {}\n{code}\n{err}", words.join(" "));
        line.replace(&folder.at(""), "")
    };
    commands.iter().map(show).collect::<Vec<_>>().join("\n")
}

#[test]
fn regress_wrong_input_ends_with_2_and_writes_nothing() {
    let folder = Folder::new("wrong");
    let sound = folder.write("sound.toml", SOUND);
    let slips = SOUND.replace("draw_weight", "draw_wieght").replace("0.246 in", "0.246");
    let slips = folder.write("slips.toml", &slips);
    let body = folder.write("body.toml", BODY);
    let (out, gone) = (folder.at("out"), folder.at("gone.toml"));
    let before = folder.files();
    assert_snapshot!(shown(
        &folder,
        &[
            &["run", &slips, "--out", &out],
            &["run", &gone, "--out", &out],
            &["run", &sound, "--out", &out, "--flights", "3"],
            &["run", &sound, "--out", &out, "--threads", "0"],
            &["run", &body, "--out", &out],
            &["check", &slips],
            &["fly", &sound, "--out", &out, "--build", "nobody"],
            &["fly", &sound, "--out", &out, "--marks", "20"],
            &["fly", &sound, "--out", &out, "--marks", "30 yd, 20 yd"],
            &["fly", &body, "--out", &out, "--marks", "20 yd"],
            &["fly", &body, "--out", &out, "--build", "nobody"],
            &["fly", &body, "--out", &out, "--model", "six-dof"],
            &["arrow", &body],
            &["arrow", &sound, "--build", "nobody"],
            &["shoot", &sound],
            &["run"],
        ],
    ));
    assert!(folder.files() == before, "something was written");
}

#[test]
fn regress_a_computation_that_fails_ends_with_1_and_writes_nothing() {
    let folder = Folder::new("failing");
    // Drawn out of its range now and then; and held back too much to come that far.
    let drawn = SOUND.replace("mass = \"100 gr\"", "mass = { mean = \"100 gr\", sd = \"50 gr\" }");
    let stuck = SOUND.to_owned() + STICKY;
    let (drawn, stuck) = (folder.write("drawn.toml", &drawn), folder.write("stuck.toml", &stuck));
    let out = folder.at("out");
    let before = folder.files();
    assert_snapshot!(shown(
        &folder,
        &[&["run", &drawn, "--out", &out], &["run", &stuck, "--out", &out]],
    ));
    assert!(folder.files() == before, "something was written");
}

/// A file where a folder should be cannot be written into by anyone.
#[test]
fn regress_a_place_that_cannot_be_written_ends_with_3() {
    let folder = Folder::new("refused");
    let sound = folder.write("sound.toml", SOUND);
    let (run_out, fly_out) = (folder.at("sound.toml/out"), folder.at("sound.toml/flight.csv"));
    // The reason is the system's own words.
    let ends = [
        run(&["run", &sound, "--out", &run_out]),
        run(&["fly", &sound, "--out", &fly_out]),
        run_refused(&["keys"], ErrorKind::StorageFull),
    ];
    for ended in &ends {
        assert_eq!(ended.code, 3);
    }
    assert!(ends[0].err.starts_with("error: cannot write "), "{}", ends[0].err);
    assert!(ends[1].err.starts_with("error: cannot write "), "{}", ends[1].err);
    assert!(ends[2].err.starts_with("error: cannot print: "), "{}", ends[2].err);
}

/// `clothyard keys | head` is no reason to complain.
#[test]
fn law_a_reader_that_goes_away_is_met_with_silence() {
    let demo = path("scenarios/square-ends.toml");
    let commands: [&[&str]; 7] = [
        &["keys"],
        &["schema"],
        &["man"],
        &["completions", "bash"],
        &["fly", &demo],
        &["arrow", &demo],
        &["check", &demo],
    ];
    for words in commands {
        let ran = run_refused(words, ErrorKind::BrokenPipe);
        assert_eq!((ran.code, ran.err.as_str()), (3, ""), "{words:?}");
    }
}
