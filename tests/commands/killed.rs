//! A program that is killed at any instant leaves the old state or the new.
#![allow(clippy::print_stdout, reason = "the counts of a hard run")]

use std::process::{Command, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

use clothyard_tests::program::{Folder, hard, run};
use rand_chacha::ChaCha8Rng;
use rand_core::{Rng, SeedableRng};

use crate::SOUND;

/// How many instants are tried.
fn instants() -> u32 {
    if hard() { 50 } else { 6 }
}

/// Starts the program and kills it after so long; says whether it was done before.
fn killed(words: &[&str], after: Duration) -> bool {
    let mut child = Command::new(env!("CARGO_BIN_EXE_program"))
        .args(words)
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()
        .unwrap();
    sleep(after);
    // SIGKILL, where there are signals.
    child.kill().unwrap();
    child.wait().unwrap().success()
}

/// How long the program takes when nobody kills it.
fn usual(words: &[&str]) -> Duration {
    let began = Instant::now();
    let done = Command::new(env!("CARGO_BIN_EXE_program")).args(words).output().unwrap();
    assert!(done.status.success(), "{words:?}");
    began.elapsed()
}

fn some(random: &mut ChaCha8Rng, upto: Duration) -> Duration {
    upto.mul_f64(f64::from(random.next_u32()) / f64::from(u32::MAX))
}

/// What a reader sees: hidden names are the program's own business.
fn seen(folder: &Folder) -> Vec<(String, Vec<u8>)> {
    folder.files().into_iter().filter(|(name, _)| !name.starts_with('.')).collect()
}

/// What the program ends with when Ctrl-C comes after so long.
#[cfg(unix)]
fn interrupted(words: &[&str], after: Duration) -> std::process::Output {
    let child = Command::new(env!("CARGO_BIN_EXE_program"))
        .args(words)
        .stdout(Stdio::null())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    sleep(after);
    Command::new("kill").args(["-INT", &child.id().to_string()]).status().unwrap();
    child.wait_with_output().unwrap()
}

/// Ctrl-C ends a run with what is known so far, and says so, or with nothing.
#[cfg(unix)]
#[test]
fn law_an_interrupted_run_tells_what_is_known_and_that_it_was_ended() {
    let folder = Folder::new("interrupted-run");
    let (sound, out) = (folder.write("sound.toml", SOUND), folder.at("out"));
    let words = ["run", &sound, "--out", &out, "--replace"];
    let whole = usual(&words);
    for part in 1..5 {
        std::fs::remove_dir_all(&out).unwrap();
        let code = interrupted(&words, whole.mul_f64(f64::from(part) / 5.0)).status.code();
        let told = std::fs::read_to_string(format!("{out}/result.json"));
        match code {
            // Done before, or ended early and marked so.
            Some(0) => {
                let told = told.unwrap();
                assert!(told.contains("ended early") != told.contains("\"band\""));
            }
            // Before the program heeds it, the system ends it.
            Some(1) | None => assert!(told.is_err()),
            other => panic!("{other:?}"),
        }
        if told_nothing(&out) {
            std::fs::create_dir_all(&out).unwrap();
        }
    }
}

#[cfg(unix)]
fn told_nothing(out: &str) -> bool {
    !std::path::Path::new(out).exists()
}

#[test]
fn law_a_run_that_is_killed_leaves_the_old_answer_or_the_new() {
    let folder = Folder::new("killed-run");
    let (sound, out) = (folder.write("sound.toml", SOUND), folder.at("out"));
    let words = |seed| ["run", &sound, "--out", &out, "--replace", "--seed", seed];
    let whole = usual(&words("1"));
    let states = ["1", "2"].map(|seed| {
        assert_eq!(run(&words(seed)).code, 0);
        seen(&folder)
    });
    assert!(states[0] != states[1]);
    let mut random = ChaCha8Rng::seed_from_u64(20);
    let (mut at, mut old, mut new) = (1, 0, 0);
    for _ in 0..instants() {
        let other = 1 - at;
        killed(&words(["1", "2"][other]), some(&mut random, whole.mul_f64(1.2)));
        let now = seen(&folder);
        if now == states[other] {
            (at, new) = (other, new + 1);
        } else {
            assert!(now == states[at], "neither the old answer nor the new");
            old += 1;
        }
    }
    println!("{old} old, {new} new");
    // And whatever was left does not keep the next run out.
    assert_eq!(run(&words("1")).code, 0);
    assert!(folder.files() == states[0]);
}

#[test]
fn law_a_note_that_is_killed_leaves_the_old_book_or_the_new() {
    let folder = Folder::new("killed-note");
    let book = folder.at("book.csv");
    let read = || std::fs::read_to_string(&book).unwrap_or_default();
    let whole = usual(&["bench", "note", "batch", &book, "arrow=first", "mass=425 gr"]);
    let mut random = ChaCha8Rng::seed_from_u64(21);
    let (mut before, mut old, mut new) = (read(), 0, 0);
    for count in 0..instants() {
        let arrow = format!("arrow={count}");
        let words = ["bench", "note", "batch", &book, &arrow, "mass=425 gr"];
        killed(&words, some(&mut random, whole.mul_f64(1.2)));
        let now = read();
        if now == before {
            old += 1;
        } else {
            let row = now.strip_prefix(&before).expect("every old byte");
            assert!(row.starts_with(&format!("{count},,425,")) && row.ends_with('\n'), "{row}");
            (before, new) = (now, new + 1);
        }
    }
    println!("{old} old, {new} new");
    assert_eq!(run(&["bench", "note", "batch", &book, "arrow=last", "mass=425 gr"]).code, 0);
    let bytes = read().into_bytes();
    let table = scenario::measured::batch(std::path::Path::new("b"), Ok(bytes)).unwrap();
    assert_eq!(table.found.len(), new + 2);
}

/// An interrupted run put an answer without bands, and with a farther limit, in the place of
/// a whole one.
#[cfg(unix)]
#[test]
fn regress_an_interrupted_run_leaves_the_earlier_answer() {
    let folder = Folder::new("interrupted-earlier");
    let (sound, out) = (folder.write("sound.toml", SOUND), folder.at("out"));
    let words = ["run", &sound, "--out", &out, "--replace"];
    let whole = usual(&words);
    let before = folder.files();
    for part in 1..8 {
        let ended = interrupted(&words, whole.mul_f64(f64::from(part) / 10.0));
        // Done before, ended with a reason, or ended by the system before it heeds it.
        let said = String::from_utf8_lossy(&ended.stderr);
        let reason = said.contains("stays as it was") || said.contains("nothing was written");
        assert!(ended.status.code() != Some(1) || reason, "{said}");
        assert_eq!(seen(&folder).len(), before.len(), "{said}");
        let told = std::fs::read_to_string(format!("{out}/result.json")).unwrap();
        assert!(told.contains("\"band\"") && !told.contains("ended early"), "{said}");
    }
}

/// The program on a disk that takes so many blocks of a file and no more.
#[cfg(unix)]
fn on_a_full_disk(blocks: u32, words: &[&str]) -> (Option<i32>, String) {
    let limited = format!("trap '' XFSZ; ulimit -f {blocks}; exec \"$0\" \"$@\"");
    let ran = Command::new("sh")
        .args(["-c", &limited, env!("CARGO_BIN_EXE_program")])
        .args(words)
        .output()
        .unwrap();
    (ran.status.code(), String::from_utf8_lossy(&ran.stderr).into_owned())
}

/// A job that could not be opened left its folder, which then stood in its own way.
#[cfg(unix)]
#[test]
fn law_a_full_disk_leaves_the_old_state() {
    let folder = Folder::new("full-disk");
    let (job, out) = (folder.at("job"), folder.at("out"));
    let open = ["job", "open", &job, "--arrows", "12"];
    let (code, said) = on_a_full_disk(0, &open);
    assert!(code == Some(3) && said.contains("job.csv"), "{code:?} {said}");
    assert!(!std::path::Path::new(&job).exists());
    assert_eq!(run(&open).code, 0);
    let row = ["job", "note", &job, "arrow=1-12", "stage=raw", "mass=305", "note=straight grain"];
    for blocks in [0, 1] {
        let before = folder.files();
        let (code, said) = on_a_full_disk(blocks, &row);
        // Twelve rows and their heads are more than a block.
        assert!(code == Some(3) && said.contains("arrows.csv"), "{blocks}: {code:?} {said}");
        assert_eq!(folder.files(), before, "{blocks}");
    }
    assert_eq!(run(&row).code, 0);
    let sound = folder.write("sound.toml", SOUND);
    let before = folder.files();
    let (code, said) = on_a_full_disk(1, &["run", &sound, "--out", &out, "--flights", "100"]);
    assert!(code == Some(3) && !said.is_empty(), "{code:?} {said}");
    assert_eq!(folder.files(), before);
}
