//! What is the user's stays the user's.

use std::fs;
use std::path::Path;

use clothyard_tests::program::{Folder, path, run};

use crate::SOUND;

/// The names and bytes below `out/`.
fn answer(folder: &Folder) -> Vec<(String, Vec<u8>)> {
    folder.files().into_iter().filter(|(name, _)| name.starts_with("out/")).collect()
}

/// An answer in the folder `out`.
fn answered(test: &str) -> (Folder, String, String) {
    let folder = Folder::new(test);
    let (sound, out) = (folder.write("sound.toml", SOUND), folder.at("out"));
    let ran = run(&["run", &sound, "--out", &out]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    (folder, sound, out)
}

#[test]
fn law_an_earlier_answer_is_replaced_whole() {
    let (folder, sound, out) = answered("replaced");
    let (fresh, demo) = (answer(&folder), path("scenarios/three-builds.toml"));
    let ran = run(&["run", &demo, "--flights", "100", "--out", &out, "--replace"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    let other = answer(&folder);
    assert!(other.len() != fresh.len(), "two answers of the same files show nothing");
    // Nothing of the other answer is left, and nothing of the work beside it.
    assert_eq!(run(&["run", &sound, "--out", &out, "--replace"]).code, 0);
    assert!(answer(&folder) == fresh);
    let mut beside: Vec<String> = fs::read_dir(folder.at(""))
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    beside.sort();
    assert_eq!(beside, ["out", "sound.toml"]);
}

#[test]
fn law_nothing_but_an_untouched_answer_is_replaced() {
    type Touch = fn(&Folder);
    let touches: [(&str, Touch); 5] = [
        ("out/notes.txt", |folder| drop(folder.write("out/notes.txt", "mine"))),
        ("out/result.json", |folder| drop(folder.write("out/result.json", "mine"))),
        ("out/clothyard.sha256", |folder| {
            fs::remove_file(folder.at("out/clothyard.sha256")).unwrap();
        }),
        ("out/more", |folder| fs::create_dir(folder.at("out/more")).unwrap()),
        ("out/face.svg", |folder| {
            // A link that was planted: its goal is not written through.
            let victim = folder.write("victim.txt", "mine");
            fs::remove_file(folder.at("out/report.html")).unwrap();
            #[cfg(unix)]
            std::os::unix::fs::symlink(victim, folder.at("out/report.html")).unwrap();
            #[cfg(not(unix))]
            drop(victim);
        }),
    ];
    for (at, (what, touch)) in touches.into_iter().enumerate() {
        let (folder, sound, out) = answered(&format!("touched-{at}"));
        touch(&folder);
        let before = folder.files();
        let ran = run(&["run", &sound, "--out", &out, "--replace"]);
        assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{what}");
        assert!(ran.err.contains("is not as an earlier answer left it"), "{what}: {}", ran.err);
        assert!(folder.files() == before, "{what}");
    }
}

#[cfg(unix)]
#[test]
fn law_a_link_in_place_of_a_folder_is_not_followed() {
    let (folder, sound, out) = answered("linked");
    let before = folder.files();
    for link in ["link", "link/"] {
        let _ = std::os::unix::fs::symlink(&out, folder.at("link"));
        let ran = run(&["run", &sound, "--out", &folder.at(link), "--replace"]);
        assert_eq!(ran.code, 2, "{}", ran.err);
    }
    fs::remove_file(folder.at("link")).unwrap();
    assert!(folder.files() == before);
}

#[test]
fn law_what_is_read_is_never_replaced() {
    let (folder, _, out) = answered("read");
    let before = folder.files();
    // The resolved scenario of an answer is a scenario, and part of the answer.
    let inner = folder.at("out/scenario.toml");
    let ran = run(&["run", &inner, "--out", &out, "--replace"]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("is read by this command and lies in"), "{}", ran.err);
    // A part of it counts, too.
    let text = SOUND.replace("[arrow.vanes]", "[arrow.vanes]\npart = \"out/vanes.toml\"");
    let whole = folder.write("whole.toml", &text);
    folder.write("out/vanes.toml", "count = 3\n");
    let ran = run(&["run", &whole, "--out", &out, "--replace"]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("vanes.toml is read by this command"), "{}", ran.err);
    fs::remove_file(folder.at("out/vanes.toml")).unwrap();
    fs::remove_file(&whole).unwrap();
    assert!(folder.files() == before);
}

#[test]
fn law_a_folder_that_is_at_work_is_not_taken() {
    let (folder, sound, _) = answered("at-work");
    let other = folder.at("other");
    let lock = fs::File::create(folder.at(".other.lock")).unwrap();
    lock.lock().unwrap();
    let ran = run(&["run", &sound, "--out", &other]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("another run is at work for"), "{}", ran.err);
    assert!(!Path::new(&other).exists());
    drop(lock);
    // A lock that was left behind is nobody's.
    assert_eq!(run(&["run", &sound, "--out", &other]).code, 0);
}

#[test]
fn law_what_a_killed_run_left_is_cleared_and_nothing_else_is() {
    let (folder, sound, out) = answered("left");
    let left = folder.at(".out.part");
    // Half of an answer, as a run that was killed leaves it.
    fs::create_dir(&left).unwrap();
    fs::copy(folder.at("out/clothyard.sha256"), folder.at(".out.part/clothyard.sha256")).unwrap();
    folder.write(".out.part/result.json", "{ \"title\"");
    assert_eq!(run(&["run", &sound, "--out", &out, "--replace"]).code, 0);
    assert!(!Path::new(&left).exists());
    // Something else of that name.
    fs::create_dir(&left).unwrap();
    folder.write(".out.part/diary.txt", "mine");
    let before = folder.files();
    let ran = run(&["run", &sound, "--out", &out, "--replace"]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("diary.txt"), "{}", ran.err);
    assert!(folder.files() == before);
}

/// What is said where something is kept.
#[test]
fn regress_what_is_kept_is_told() {
    let (folder, sound, out) = answered("told");
    folder.write("out/notes.txt", "mine");
    let lock = fs::File::create(folder.at(".other.lock")).unwrap();
    lock.lock().unwrap();
    let (inner, other) = (folder.at("out/scenario.toml"), folder.at("other"));
    let demo = path("scenarios/square-ends.toml");
    let ends = [
        run(&["run", &sound, "--out", &out, "--replace"]),
        run(&["run", &inner, "--out", &out, "--replace"]),
        run(&["run", &sound, "--out", &other]),
        run(&["run", &sound, "--out", &sound, "--replace"]),
        run(&["run", &demo, "--flights", "10000000", "--out", &folder.at("more")]),
    ];
    let said: Vec<String> = ends.iter().map(|ran| format!("{}\n{}\n", ran.code, ran.err)).collect();
    let said = said.concat();
    insta::assert_snapshot!(said.replace(&folder.at(""), ""));
}

/// The same arrow twice once made a notebook that no command would read.
#[test]
fn regress_a_row_that_would_spoil_a_notebook_is_refused() {
    let folder = Folder::new("spoil");
    let book = folder.at("book.csv");
    let note = |kind: &str, more: &[&str]| run(&[&["bench", "note", kind, &book], more].concat());
    assert_eq!(note("batch", &["arrow=7", "mass=425 gr"]).code, 0);
    let before = folder.files();
    let ran = note("batch", &["arrow=7", "mass=426 gr"]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("\"7\" stands in line 2 already"), "{}", ran.err);
    assert!(folder.files() == before);
    assert_eq!(note("batch", &["arrow=8", "mass=426 gr"]).code, 0);
    assert!(scenario::measured::batch(Path::new("b"), Ok(fs::read(&book).unwrap())).is_ok());
}

/// Two programs that began a book at once once wrote its head twice.
#[test]
fn regress_two_who_note_at_once_both_are_heard() {
    let folder = Folder::new("at-once");
    let book = folder.at("book.csv");
    let count = 12;
    std::thread::scope(|scope| {
        for who in 0..4 {
            let book = &book;
            scope.spawn(move || {
                for row in 0..count {
                    let arrow = format!("arrow={who}-{row}");
                    let ran = run(&["bench", "note", "batch", book, &arrow, "mass=425 gr"]);
                    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
                }
            });
        }
    });
    let table = scenario::measured::batch(Path::new("b"), Ok(fs::read(&book).unwrap())).unwrap();
    assert_eq!(table.found.len(), 4 * count);
    assert_eq!(folder.files().len(), 1, "something was left beside the book");
}
