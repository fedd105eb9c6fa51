//! A job: what is entered, put right, refused and printed.

use clothyard_tests::program::{Folder, path, run};
use insta::assert_snapshot;

/// Runs `clothyard job`, its folder last named.
fn job(words: &[&str]) -> (u8, String, String) {
    let ran = run(&[&["job"], words].concat());
    (ran.code, ran.out, ran.err)
}

/// Three shafts from raw to shot: one entry corrected, one taken back, one shaft broken,
/// one mass not read.
fn worked(folder: &Folder) -> String {
    let at = folder.at("tansy");
    let to: &[&str] = &["open", &at, "--for", "Tansy Creek (invented)", "--arrows", "3"];
    assert_eq!(job(&[to, &["--cut-to", "28 1/2 in"]].concat()).0, 0);
    let rows: [&[&str]; 9] = [
        &["arrow=1", "stage=raw", "spine=341", "mass=305.2 gr"],
        &["arrow=2,3", "stage=raw", "spine=345"],
        &["arrow=1-3", "stage=cut", "length=28 1/2 in"],
        &["arrow=2", "stage=raw", "spine=335", "correction=yes"],
        &["arrow=3", "stage=built", "mass=425 gr"],
        &["arrow=3", "stage=built", "correction=void"],
        &["arrow=3", "out=cracked at the nock end"],
        &["arrow=1,2", "stage=built", "tip wobble=2 thou"],
        &["arrow=1", "stage=built", "mass=425.1 gr"],
    ];
    let mut before = Vec::new();
    for row in rows {
        let (code, _, err) = job(&[&["note", &at], row].concat());
        assert_eq!((code, err.as_str()), (0, ""), "{row:?}");
        let now = std::fs::read(format!("{at}/arrows.csv")).unwrap();
        assert!(now.starts_with(&before) && now.len() > before.len(), "{row:?}");
        before = now;
    }
    at
}

/// Where each arrow stands: the correction holds, the void row does not, what is blank
/// stays blank.
#[test]
fn regress_a_job_shows_where_each_arrow_stands() {
    let folder = Folder::new("job-show");
    let at = worked(&folder);
    assert_snapshot!(job(&["show", &at]).1);
    let json: serde_json::Value = serde_json::from_str(&job(&["show", &at, "--json"]).1).unwrap();
    let rows = json["tables"]["arrows"].as_array().unwrap();
    assert_eq!(rows.len(), 3);
    // The bench reads the same file, without the broken shaft.
    let bytes = std::fs::read(format!("{at}/arrows.csv")).unwrap();
    let table = scenario::measured::batch(std::path::Path::new("arrows.csv"), Ok(bytes)).unwrap();
    assert_eq!(table.found.len(), 2);
    assert!((table.found[1].spine.unwrap().si() - 0.335 * 0.0254).abs() < 1e-15);
    assert_eq!(table.left_out, ["arrow 3 (cracked at the nock end)"]);
}

/// What is refused adds nothing.
#[test]
fn regress_wrong_words_of_a_job_end_with_2() {
    let folder = Folder::new("job-words");
    let at = worked(&folder);
    let book = std::fs::read(format!("{at}/arrows.csv")).unwrap();
    let mut shown = String::new();
    let none = folder.at("none");
    let taken = folder.at("taken");
    std::fs::create_dir(&taken).unwrap();
    std::fs::write(format!("{taken}/letter.txt"), "of somebody else").unwrap();
    let commands: [&[&str]; 9] = [
        &["open", &at, "--arrows", "3"],
        &["open", &taken, "--arrows", "3"],
        &["open", &none, "--arrows", "0"],
        &["note", &at, "arrow=4", "stage=cut"],
        &["note", &at, "stage=cut"],
        &["note", &at, "arrow=1", "mass=300 gr"],
        &["note", &at, "arrow=1-3", "stage=cut", "length=28 in"],
        &["note", &at, "arrow=2", "stage=squared", "correction=void"],
        &["note", &at, "--into", "job", "arrows=4"],
    ];
    for words in commands {
        let (code, out, err) = job(words);
        assert_eq!((code, out.as_str()), (2, ""), "{words:?}");
        shown.push_str(&err);
        shown.push('\n');
    }
    assert!(!std::path::Path::new(&none).exists());
    assert_eq!(std::fs::read(format!("{at}/arrows.csv")).unwrap(), book);
    assert_snapshot!(shown.replace(&folder.at(""), ""));
}

/// An arrow that is out is said to be so when more is noted of it, and its row on the
/// batch sheet is none to work on; what was not noted is not ticked.
#[test]
fn regress_an_arrow_that_is_out_is_named() {
    let folder = Folder::new("job-out");
    let at = worked(&folder);
    let (code, out, _) = job(&["note", &at, "arrow=2,3", "stage=squared", "note=late"]);
    assert_eq!(code, 0);
    let said = "! Arrow 3 is out: cracked at the nock end.";
    assert!(out.contains(said) && !out.contains("Arrow 2 is out"), "{out}");
    let (_, out, _) = job(&["note", &at, "arrow=3", "stage=squared", "correction=void"]);
    assert!(!out.contains("is out"), "{out}");
    assert_eq!(job(&["print", &at]).0, 0);
    let sheet = std::fs::read_to_string(format!("{at}/print/batch-sheet.svg")).unwrap();
    assert!(sheet.contains("OUT: cracked at the nock end"));
}

/// A new notebook takes bare hours of the clock.
#[test]
fn law_a_new_notebook_reads_bare_hours_as_hours() {
    let folder = Folder::new("job-hours");
    let at = worked(&folder);
    for (arrow, said) in [("1", "3"), ("2", "12:30")] {
        let (arrow, said) = (format!("arrow={arrow}"), format!("stiff side={said}"));
        let ran = job(&["note", &at, &arrow, "stage=raw", &said]);
        assert_eq!(ran.0, 0, "{ran:?}");
    }
    let bytes = std::fs::read(format!("{at}/arrows.csv")).unwrap();
    let table = scenario::measured::batch(std::path::Path::new("arrows.csv"), Ok(bytes)).unwrap();
    let hours = |of: usize| table.found[of].stiff.unwrap().si().to_degrees() / 30.0;
    assert!((hours(0) - 3.0).abs() < 1e-12 && (hours(1) % 12.0 - 0.5).abs() < 1e-12);
    let (code, _, err) = job(&["note", &at, "arrow=1", "stage=cut", "stiff side=90"]);
    assert_eq!(code, 2, "{err}");
}

/// Every print is there as PDF and SVG, cautions stand before the rows, and the paper has
/// its size.
#[test]
fn law_a_job_prints_at_true_scale_with_its_cautions_first() {
    let folder = Folder::new("job-print");
    let (at, scenario) = (worked(&folder), path("scenarios/bench/bench.toml"));
    assert_eq!(job(&["print", &at, &scenario]).0, 0);
    for name in ["labels", "batch-sheet", "customer-card"] {
        let pdf = std::fs::read(format!("{at}/print/{name}.pdf")).unwrap();
        let text = std::fs::read_to_string(format!("{at}/print/{name}.svg")).unwrap();
        assert!(pdf.starts_with(b"%PDF"), "{name}");
        assert!(text.contains("width=\"215.9mm\" height=\"279.4mm\""), "{name}");
        if name != "labels" {
            // A spine as the trade writes it, in sentences beside its inches.
            assert!(text.contains("spine 340 (0.340 in)"), "{name}");
            assert!(text.contains(">341<") && !text.contains("0.3410"), "{name}: {text}");
            let place = |words: &str| text.find(words).unwrap_or_else(|| panic!("{name}: {words}"));
            assert!(place("Before you shoot") < place("Tansy Creek"), "{name}");
            assert!(place("Flex and inspect") < place("Tansy Creek"), "{name}");
        }
        assert!(!text.contains("NaN"));
    }
    // The cautions are of the scenario's arrow, which the job's may not be.
    let card = || std::fs::read_to_string(format!("{at}/print/customer-card.svg")).unwrap();
    let like = card().replace("</text>", "");
    assert!(like.contains("Computed for an arrow of 4") && !like.contains("are not the scenario"));
    assert_eq!(job(&["note", &at, "arrow=2", "stage=built", "mass=190 gr"]).0, 0);
    let (code, out, _) = job(&["print", &at, &scenario, "--replace"]);
    let out = out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert_eq!(code, 0);
    let other =
        out.find("! The arrows of this job are not the scenario's: mass 190.0 gr of arrow 2");
    assert!(other.is_some() && other < out.find("Computed for an arrow of 4"), "{out}");
    assert!(card().contains("are not the scenario"));
    // Without a scenario nobody has looked at the arrow, and that is said.
    let out = folder.at("bare");
    assert_eq!(job(&["print", &at, "--out", &out, "--units", "metric"]).0, 0);
    let text = std::fs::read_to_string(format!("{out}/customer-card.svg")).unwrap();
    assert!(text.contains("Nobody has computed") && text.contains("width=\"210mm\""));
    // A folder of somebody else's is left alone.
    assert_eq!(job(&["print", &at, "--out", &out]).0, 2);
}
