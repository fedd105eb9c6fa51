//! Every question, command and bench job: the same bytes on any number of threads,
//! and on a processor of any width.

use std::fs;
use std::process::Command;

use clothyard_tests::program::{Folder, hard, path};

/// A machine: threads, lanes, and what else its environment holds.
type Machine = (&'static str, &'static str, &'static [(&'static str, &'static str)]);

/// What each is held against.
const PLAIN: Machine = ("2", "8", &[]);
/// One number at a time, and no better operations in the system's own library: a
/// machine without AVX2 and fused products.
const OLD: Machine =
    ("1", "1", &[("GLIBC_TUNABLES", "glibc.cpu.hwcaps=-AVX512F,-AVX2,-AVX,-FMA,-FMA4")]);
const OTHERS: [Machine; 5] =
    [OLD, ("8", "4", &[]), ("1", "8", &[]), ("8", "1", &[]), ("2", "2", &[])];

/// What a machine printed and wrote.
fn done(words: &[&str], machine: Machine, writes: bool) -> (String, Vec<(String, Vec<u8>)>) {
    let folder = Folder::new(&format!("machine-{:?}", std::thread::current().id()));
    let (threads, lanes, more) = machine;
    let mut program = Command::new(env!("CARGO_BIN_EXE_program"));
    program.args(words).env("RAYON_NUM_THREADS", threads).env("CLOTHYARD_LANES", lanes);
    program.envs(more.iter().copied()).current_dir(folder.at(""));
    if writes {
        program.args(["--out", "out"]);
    }
    let output = program.output().unwrap();
    assert!(
        output.status.success(),
        "{words:?} on {machine:?}: {}",
        String::from_utf8_lossy(&output.stderr)
    );
    (String::from_utf8_lossy(&output.stdout).into_owned(), folder.files())
}

/// Holds a command on every machine against the plain one; in haste on the least
/// of them only.
fn same(words: &[&str], writes: bool) {
    let plain = done(words, PLAIN, writes);
    assert!(!plain.0.is_empty());
    let machines = if hard() { &OTHERS[..] } else { &OTHERS[..1] };
    for machine in machines {
        let other = done(words, *machine, writes);
        assert!(plain.0 == other.0, "{words:?}: what is printed differs on {machine:?}");
        assert_eq!(plain.1.len(), other.1.len());
        for (a, b) in plain.1.iter().zip(&other.1) {
            assert!(a == b, "{words:?}: {} differs on {machine:?}", a.0);
        }
    }
}

#[test]
fn law_every_command_about_one_arrow_gives_the_same_bytes_on_every_machine() {
    let (hunter, marks) = (path("scenarios/square-ends.toml"), path("scenarios/sight-marks.toml"));
    let (recurve, shots) =
        (path("scenarios/finger-recurve.toml"), path("scenarios/shots/two-marks.csv"));
    same(&["fly", &hunter, "--as", "csv"], false);
    same(&["arrow", &hunter, "--json"], false);
    same(&["check", &hunter, "--resolved"], false);
    same(&["push", &recurve, "--json"], true);
    same(&["marks", &marks, "--json"], true);
    same(&["fit", &marks, "--shots", &shots, "--json"], false);
    same(&["tape", &marks, "--shots", &shots], true);
    let size = |shots| ["--n", shots, "--mean-radius", "2 in"];
    same(&[&["verdict", "--json"][..], &size("12"), &size("9")].concat(), true);
}

#[test]
fn law_every_bench_job_gives_the_same_bytes_on_every_machine() {
    let bench = path("scenarios/bench/bench.toml");
    let book = |name: &str| path(&format!("scenarios/bench/{name}.csv"));
    same(&["bench", "square", &bench, "--readings", &book("faces"), "--json"], true);
    let profile = book("profile");
    same(
        &["bench", "cut", &bench, "--readings", &profile, "--supports", "2 in, 30 in", "--json"],
        true,
    );
    let dozen = book("dozen");
    same(&["bench", "sort", &bench, "--batch", &dozen, "--set", "hunt=6", "--json"], true);
    same(&["bench", "index", &bench, "--batch", &dozen, "--json"], true);
}

#[test]
fn law_every_question_gives_the_same_bytes_on_every_machine() {
    let mut asked = 0;
    for entry in fs::read_dir(path("scenarios")).unwrap() {
        let file = entry.unwrap().path();
        if file.extension().is_none_or(|ending| ending != "toml") {
            continue;
        }
        let text = fs::read_to_string(&file).unwrap();
        let is = |kind: &str| text.contains(&format!("kind = \"{kind}\""));
        // One of each kind, in haste.
        let name = file.file_stem().unwrap().to_string_lossy().into_owned();
        let few = ["square-ends", "foc-sweep", "tune-hunter", "bench-evening", "economy-dozen"];
        if !hard() && !few.contains(&name.as_str()) {
            continue;
        }
        let flights = if is("matters") { "40000" } else { "100" };
        same(&["run", &file.display().to_string(), "--flights", flights, "--json"], true);
        asked += 1;
    }
    assert!(asked >= 4, "{asked}");
}
