//! Notebooks of a job as slips fall into them: what is asked about, put right, taken back
//! and said of it.

use clothyard_tests::program::{Folder, run};

struct Job {
    folder: Folder,
    at: String,
}

impl Job {
    fn open(name: &str) -> Self {
        let folder = Folder::new(name);
        let at = folder.at("tansy");
        let opened = run(&["job", "open", &at, "--for", "Tansy (invented)", "--arrows", "12"]);
        assert_eq!(opened.code, 0, "{}", opened.err);
        Self { folder, at }
    }

    /// Notes a row; exit code, and everything that was said on one line.
    fn note(&self, words: &[&str]) -> (u8, String) {
        let ran = run(&[&["job", "note", &self.at], words].concat());
        let said = ran.out + &ran.err;
        (ran.code, said.split_whitespace().collect::<Vec<_>>().join(" "))
    }

    fn noted(&self, words: &[&str], says: &str) {
        let (code, said) = self.note(words);
        assert!(code == 0 && said.contains(says), "{words:?}: {says}\n{said}");
    }

    fn refused(&self, words: &[&str], says: &str) {
        let (code, said) = self.note(words);
        assert!(code == 2 && said.contains(says), "{words:?}: {says}\n{said}");
    }

    fn file(&self, name: &str) -> String {
        std::fs::read_to_string(format!("{}/{name}", self.at)).unwrap()
    }
}

/// An old reading ten times too large stopped the right reading of another arrow, which was
/// lost; the old one had been noted without a question.
#[test]
fn regress_an_old_slip_stops_no_new_reading() {
    let job = Job::open("slip-old");
    job.refused(&["arrow=1", "stage=raw", "mass=2914"], "2914 gr is hardly ever so");
    let heads = "arrow,stage,mass [gr],correction\n";
    let book = format!("{heads}1,raw,2914,\n2,raw,291,\n3,raw,292,\n");
    job.folder.write("tansy/arrows.csv", &book);
    let (code, said) = job.note(&["arrow=4", "stage=raw", "mass=294"]);
    assert_eq!(code, 0, "{said}");
    for told in [
        "arrow 4, raw: mass 294 gr",
        "! arrow 1, raw says mass 2914 gr, noted earlier",
        "is 9.98 times the middle of the 3 others",
        "Put it right with arrow=1 stage=raw mass=... correction=yes",
    ] {
        assert!(said.contains(told), "{told}\n{said}");
    }
    // One that is odd itself is asked about, and taken where it is said to be so.
    job.refused(&["arrow=5", "stage=raw", "mass=500"], "is 1.70 times the middle of the 4 others");
    assert_eq!(job.file("arrows.csv"), format!("{book}4,raw,294,\n"));
    job.noted(&["arrow=5", "stage=raw", "mass=500", "correction=sure"], "mass 500 gr");
    let (_, said) = job.note(&["arrow=1", "stage=raw", "mass=291.4", "correction=yes"]);
    assert!(said.contains("mass 291.4 gr in place of 2914 gr") && !said.contains('!'), "{said}");
}

/// Readings ten times too large were taken without a question; what may be meant is said.
#[test]
fn regress_what_hardly_any_arrow_has_is_asked_about() {
    let job = Job::open("slip-likely");
    for (row, says) in [
        (["arrow=1", "stage=raw", "run-out=25 thou"], "nearly all lie within 0 in to 0.02 in"),
        (["arrow=1", "stage=raw", "run-out=0.25"], "no sound shaft reads more than 0.030"),
        (["arrow=1", "stage=raw", "run-out=2"], "did you mean 2 thou?"),
        (["arrow=1", "stage=raw", "spine=34"], "did you mean 340?"),
        (["arrow=1", "stage=built", "mass=42.5"], "nearly all lie within 120 gr to 2000 gr"),
        (["arrow=1", "stage=raw", "mass=9000"], "16 gr to 7700 gr"),
    ] {
        job.refused(&row, says);
    }
    // A bent shaft is noted as what is out.
    job.refused(&["arrow=9", "stage=raw", "run-out=0.25", "correction=sure"], "no sound shaft");
    job.noted(&["arrow=9", "stage=raw", "run-out=0.25", "out=bent"], "run-out 0.25 in, out bent");
    job.noted(&["arrow=8", "stage=raw", "run-out=25 thou", "correction=sure"], "run-out 25 thou");
    let point = ["--into", "parts", "part=point", "name=1"];
    job.refused(&[&point[..], &["mass=1252"]].concat(), "within 20 gr to 600 gr");
    job.noted(&[&point[..], &["mass=125.2"]].concat(), "mass 125.2 gr");
    // Spine testers read halves.
    job.noted(&["arrow=1", "stage=raw", "spine=341.5"], "arrow 1, raw: spine 341.5");
    job.noted(&["arrow=2", "stage=raw", "spine=341,5"], "arrow 2, raw: spine 341.5");
}

/// Taking back one reading took all of its stage, without a word.
#[test]
fn regress_only_what_is_named_is_taken_back() {
    let job = Job::open("slip-void");
    let row = ["arrow=6", "stage=raw"];
    let note = |more: &[&str], says: &str| job.noted(&[&row[..], more].concat(), says);
    note(&["mass=305", "run-out=4 thou"], "arrow 6, raw: mass 305 gr, run-out 4 thou");
    note(
        &["run-out=4 thou", "correction=void"],
        "taken back: run-out 4 thou bring it back with: clothyard job note",
    );
    job.refused(&[&row[..], &["run-out=4 thou", "correction=void"]].concat(), "to take back");
    // The mass stands still, so another is a second one.
    job.refused(&[&row[..], &["mass=306"]].concat(), "stands in line 2 already");
    note(&["run-out=5 thou"], "run-out 5 thou");
    note(&["correction=void"], "taken back: mass 305 gr, run-out 5 thou");
    note(&["mass=306"], "mass 306 gr");
    // A correction to nothing wrote an empty row.
    let empty = [&row[..], &["mass=", "correction=yes"]].concat();
    job.refused(&empty, "nothing is said of \"mass\"");
    note(&["note=again"], "note again");
    note(&["note=again"], "nothing new, that stands already");
}

/// A range that runs backwards names no arrow: the book was made empty, and every reading
/// of the job was gone.
#[test]
fn regress_a_range_that_runs_backwards_takes_no_reading() {
    let job = Job::open("slip-back");
    job.refused(&["arrow=12-1", "stage=raw", "mass=305"], "runs backwards");
    job.noted(&["arrow=1-12", "stage=raw", "mass=305"], "mass 305 gr");
    let book = || job.file("arrows.csv");
    let stands = book();
    job.refused(&["arrow=12-1", "stage=cut", "length=28 in"], "write the lower number first");
    job.refused(&["arrow=9-5", "out=cracked"], "arrow=5-9");
    job.refused(&["arrow=9", "arrow=10", "stage=cut", "length=28 in"], "\"arrow\" is said twice");
    // What is named to be taken back is what stands.
    job.refused(&["arrow=1", "stage=raw", "mass=306", "correction=void"], "to take back");
    assert_eq!(book(), stands);
    let dial = ["where=front", "gauge=dial", "reading=1 thou", "radius=0.1 in"];
    for arrow in ["arrow=1-3", "arrow=44"] {
        job.refused(&[&["--into", "faces", arrow], &dial[..]].concat(), "is no arrow of this job");
    }
}

/// "out=no" took an arrow out.
#[test]
fn regress_an_arrow_comes_back_in() {
    let job = Job::open("slip-out");
    for back in [&["out=no"][..], &["out="], &["correction=void"], &["out=no", "correction=yes"]] {
        job.refused(&[&["arrow=2"], back].concat(), "arrow 2 is not out");
        job.noted(&["arrow=2", "out=cracked"], "out cracked");
        job.noted(&["arrow=2", "stage=cut"], "put it back in with arrow=2 out=no");
        job.noted(&[&["arrow=2"], back].concat(), "back in (it was out: cracked)");
        let (_, said) = job.note(&["arrow=2", "stage=cut"]);
        assert!(!said.contains("is out") && said.contains("nothing new"), "{said}");
        job.noted(&["arrow=2", "stage=raw", "correction=void"], "taken back");
        job.noted(&["arrow=2", "stage=cut", "correction=void"], "taken back");
    }
}

/// A notebook, the key of a row, what else the row needs, a wrong reading and the right one.
type Slipped<'a> = (&'a str, &'a [&'a str], &'a [&'a str], &'a str, &'a str);

/// The help promised corrections in every notebook, and three of them had none.
#[test]
fn law_every_notebook_of_a_job_is_put_right_and_taken_back() {
    let job = Job::open("slip-books");
    let leaf = ["arrow=1", "where=front", "gauge=leaf"];
    let books: [Slipped; 5] = [
        ("three", &["shaft=7"], &["stock=32 in"], "middle=16 thou", "middle=6 thou"),
        ("profile", &["shaft=7", "station=8 in", "clock=3"], &[], "reading=0.01", "reading=0.012"),
        ("faces", &leaf, &["step=0.01 mm", "across=6.2 mm"], "reading=0.05 mm", "reading=0.03 mm"),
        ("shots", &["arrow=7", "turn=120"], &["up=0"], "left=-2.1", "left=-1.2"),
        ("parts", &["part=point", "name=1"], &[], "mass=100.3", "mass=101.3"),
    ];
    for (book, key, more, wrong, right) in books {
        let key = [&["--into", book], key].concat();
        assert_eq!(job.note(&[&key[..], more, &[wrong]].concat()).0, 0, "{book}");
        job.noted(&[&key[..], &[right, "correction=yes"]].concat(), "in place of");
        job.noted(&[&key[..], &["correction=void"]].concat(), "taken back: ");
        job.noted(&[&key[..], more, &[right]].concat(), right.split_once('=').unwrap().0);
    }
    // A table of before corrections gets a head for them, and keeps all else.
    job.folder.write("tansy/three.csv", "\u{feff}shaft;middle [in]\r\n7;0,016\r\n");
    job.noted(
        &["--into", "three", "shaft=7", "middle=6 thou", "correction=yes"],
        "middle 6 thou in place of 16 thou",
    );
    // And the hand in which it is written.
    let text = "\u{feff}shaft;middle [in];correction\r\n7;0,016\r\n7;0,006;yes\r\n";
    assert_eq!(job.file("three.csv"), text);
}

/// A cell that a spreadsheet would take for a formula is guarded, and read back as it was.
#[test]
fn law_a_note_is_no_formula() {
    let job = Job::open("slip-formula");
    job.noted(&["arrow=1", "stage=raw", "note==1+1"], "note =1+1");
    assert!(job.file("arrows.csv").contains(",'=1+1\n"));
    job.noted(&["arrow=1", "out==HYPERLINK(\"x\")"], "out =HYPERLINK");
    let (_, said) = job.note(&["arrow=1", "stage=cut"]);
    assert!(said.contains("is out: =HYPERLINK(\"x\")."), "{said}");
}
