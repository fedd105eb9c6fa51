//! The same bits on any number of threads, through the whole program: from the
//! scenario files that come along to every byte of the report folder.
#![allow(clippy::unwrap_used)] // A test that panics has failed, as it should.

mod everything;

use clothyard_tests::program::{Folder, path, run};

/// Every file of the report, and what is printed with `--json`.
fn answered(scenario: &str, flights: &str, threads: &str) -> (String, Vec<(String, Vec<u8>)>) {
    let folder = Folder::new(&format!("threads-{scenario}-{threads}"));
    let file = path(&format!("scenarios/{scenario}.toml"));
    let out = folder.at("out");
    let words = ["run", &file, "--flights", flights, "--threads", threads, "--json", "--out", &out];
    let ran = run(&words);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    let files = folder.files();
    assert!(files.iter().any(|(name, _)| name == "out/result.json"));
    (ran.out, files)
}

fn same(scenario: &str, flights: &str) {
    let one = answered(scenario, flights, "1");
    for threads in ["2", "8"] {
        let more = answered(scenario, flights, threads);
        assert!(one.0 == more.0, "{scenario}: what is printed differs at {threads} threads");
        assert_eq!(one.1.len(), more.1.len());
        for (a, b) in one.1.iter().zip(&more.1) {
            assert!(a == b, "{scenario}: {} differs at {threads} threads", a.0);
        }
    }
}

#[test]
fn law_square_ends_gives_the_same_bytes_on_1_2_and_8_threads() {
    // Ten pieces of work in a group.
    same("square-ends", "600");
}

#[test]
fn law_foc_sweep_gives_the_same_bytes_on_1_2_and_8_threads() {
    same("foc-sweep", "130");
}

#[test]
fn law_three_builds_gives_the_same_bytes_on_1_2_and_8_threads() {
    same("three-builds", "130");
}

/// Another seed is another run: the bytes above are not equal for want of
/// chance.
#[test]
fn law_another_seed_gives_another_answer() {
    let printed = |seed: &str| {
        let folder = Folder::new(&format!("seed-{seed}"));
        let (file, out) = (path("scenarios/square-ends.toml"), folder.at("out"));
        run(&["run", &file, "--flights", "130", "--seed", seed, "--out", &out]).out
    };
    assert_ne!(printed("1"), printed("2"));
}
