//! The bench on the book of a job: stages kept apart, arrows that are others named, and
//! nothing advised that nobody noted.

use clothyard_tests::program::{Folder, path, run};

const DEMO: &str = "scenarios/bench/bench.toml";

fn bench(folder: &Folder, words: &[&str]) -> (u8, String) {
    let (scenario, out) = (path(DEMO), folder.at("out"));
    let ran = run(
        &[&["bench", words[0], &scenario], &words[1..], &["--out", &out, "--replace"]].concat()
    );
    let said = ran.out + &ran.err;
    (ran.code, said.split_whitespace().collect::<Vec<_>>().join(" "))
}

/// Raw shafts were sorted together with a built arrow, and each called a flier by its weight.
#[test]
fn regress_bare_shafts_and_finished_arrows_are_not_one_batch() {
    let folder = Folder::new("book-mixed");
    let rows = (1..=6).map(|at| format!("{at},raw,{}.4,0.34{at},\n", 290 + at));
    let book = "arrow,stage,mass [gr],spine [in],length [in]\n".to_owned()
        + &rows.collect::<String>()
        + "7,built,424.1,0.341,\n8,built,424.9,0.342,\n";
    let file = folder.write("arrows.csv", &book);
    let sort = |more: &[&str]| {
        bench(&folder, &[&["sort", "--batch", &file, "--set", "hunt=2"], more].concat())
    };
    let (code, said) = sort(&[]);
    assert_eq!(code, 2, "{said}");
    assert!(said.contains("bare shafts (1, 2, 3, 4, 5, 6) and finished arrows (7, 8)"), "{said}");
    let (code, said) = sort(&["--only", "finished"]);
    assert!(code == 0 && said.contains("hunt: 7 and 8"), "{said}");
    assert_eq!(sort(&["--only", "bare"]).0, 0);
    // A set larger than the notebook is wrong input.
    let (code, said) = sort(&["--only", "finished", "--set", "more=20"]);
    assert!(
        code == 2 && said.contains("the sets need 22 arrows, and the notebook has 2"),
        "{said}"
    );
    // A bare shaft has no nock to turn, and without a clock position no turn can be given.
    let (code, said) = bench(&folder, &["index", "--batch", &file]);
    assert_eq!(code, 0, "{said}");
    for told in ["bare shafts without a nock: 1, 2, 3, 4, 5, 6", "so no turn can be given"] {
        assert!(said.contains(told), "{told}\n{said}");
    }
    assert!(!said.contains(" by 120 deg") && !said.contains(" by 240 deg"), "{said}");
    let shafts = folder.write("raw.csv", book.split("7,built").next().unwrap());
    let (code, said) = bench(&folder, &["index", "--batch", &shafts]);
    assert!(code == 2 && said.contains("no nock to turn"), "{said}");
}

/// A batch that is not the scenario's arrow was told of by the prints of a job alone; and of
/// two sets only the first was named before the tables.
#[test]
fn regress_a_batch_of_other_arrows_is_named_first_and_every_set_too() {
    let folder = Folder::new("book-other");
    let rows = (1..=6).map(|at| format!("{at},{}.4,3 o'clock\n", 470 + at));
    let book = "arrow,mass [gr],stiff side\n".to_owned() + &rows.collect::<String>();
    let file = folder.write("arrows.csv", &book);
    let other = "! The arrows of this notebook are not the scenario's: mass 471.4 gr to 476.4 gr of \
                 arrows 1, 2, 3, 4, 5 and 6 against";
    let (code, said) =
        bench(&folder, &["sort", "--batch", &file, "--set", "hunt=3", "--set", "practice=2"]);
    assert!(code == 0 && said.contains("Keep together for hunt: "), "{said}");
    assert!(said.contains(" For practice: "), "{said}");
    let short = "! Not the scenario's arrows (mass 471.4 gr to 476.4 gr of arrows";
    assert!(said.contains(other) || said.contains(short), "{said}");
    let (code, said) = bench(&folder, &["index", "--batch", &file]);
    assert!(code == 0 && (said.contains(other) || said.contains(short)), "{said}");
    let page = std::fs::read_to_string(folder.at("out/report.html")).unwrap();
    assert!(page.contains("The arrows of this notebook are not the scenario's"));
}

/// A face that was squared was to be squared still.
#[test]
fn regress_a_face_that_was_read_again_is_judged_once() {
    let folder = Folder::new("book-again");
    let faces = folder.write(
        "faces.csv",
        "arrow,where,stage,gauge,reading [mm],step [mm],across [mm]\n\
         1,front,as sawn,leaf,0.05,0.01,6.2\n1,front,squared,leaf,0.001,0.001,6.2\n",
    );
    let (code, said) = bench(&folder, &["square", "--readings", &faces]);
    assert_eq!(code, 0, "{said}");
    assert!(said.contains("Nothing to square") && !said.contains("square it"), "{said}");
    assert!(said.contains("read again"), "{said}");
}

/// A folder without a job was said to lack a file; a file in the place of one was a fault of
/// the system.
#[test]
fn regress_a_job_that_is_not_there_is_said_in_words() {
    let folder = Folder::new("book-none");
    let at = folder.at("tansy");
    assert_eq!(run(&["job", "open", &at, "--arrows", "3"]).code, 0);
    let ran = run(&["job", "show", &folder.at("nosuch")]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("nosuch holds no job") && ran.err.contains("tansy"), "{}", ran.err);
    let file = folder.write("letter.txt", "of somebody else");
    let ran = run(&["job", "open", &file, "--arrows", "3"]);
    assert!(ran.code == 2 && ran.err.contains("is a file, and a job has a folder"), "{}", ran.err);
    // What a job calls arrows, the bench knows.
    assert_eq!(run(&["bench", "columns", "arrows"]).out, run(&["bench", "columns", "batch"]).out);
}
