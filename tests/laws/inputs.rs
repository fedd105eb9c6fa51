//! No input ends a reader: the kept ones, and some made from them by chance.
//! `cargo hammer` goes on from here.

use std::fs;
use std::path::{Path, PathBuf};

use clothyard::PageSite;
use clothyard_tests::hammer::{Corners, Mutator, Visitor, corner, scenario, table, units};
use clothyard_tests::program::{Folder, path, run};

/// Inputs made by chance for each target; a few seconds of them.
const SOME: u64 = 400;

fn kept(target: &str) -> Vec<Vec<u8>> {
    let entries = fs::read_dir(path(&format!("tests/corpus/{target}"))).unwrap();
    let mut paths: Vec<PathBuf> = entries.map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    assert!(paths.len() >= 8, "{target}");
    paths.iter().map(|path| fs::read(path).unwrap()).collect()
}

fn try_all(target: &str, mut hit: impl FnMut(&[u8])) {
    let kept = kept(target);
    for bytes in &kept {
        hit(bytes);
    }
    let mutator = Mutator::new(&kept, 20);
    for number in 0..SOME {
        hit(&mutator.text(number));
    }
}

#[test]
fn law_no_text_ends_the_reader_of_scenarios() {
    try_all("scenario", |bytes| _ = scenario(bytes));
}

#[test]
fn law_no_bytes_end_the_reader_of_tables() {
    try_all("table", |bytes| _ = table(bytes));
}

#[test]
fn law_no_text_ends_the_reader_of_quantities() {
    try_all("units", |bytes| _ = units(bytes));
}

#[test]
fn law_no_request_ends_the_page() {
    let folder = Folder::new("requests");
    folder.write("own.toml", &fs::read_to_string(path("tests/corpus/scenario/compare")).unwrap());
    let site = PageSite::local(Path::new(&folder.at("")), None).unwrap();
    let mut visitor = Visitor::new(site.address());
    site.serve_aside();
    try_all("request", |bytes| {
        let code = visitor.send(bytes).map(|reply| reply.code);
        let text = String::from_utf8_lossy(bytes);
        assert!(code.is_none_or(|code| (200..500).contains(&code)), "{code:?}: {text}");
    });
    assert_eq!(visitor.send(b"/page.js").map(|reply| reply.code), Some(200));
}

/// The kept requests hold one for every address and every form that the page has.
#[test]
fn law_the_kept_requests_know_every_address() {
    let kept = kept("request");
    let there = |path: &str| {
        let line = |bytes: &&Vec<u8>| {
            let first = bytes.split(|byte| *byte == b'\n').next().unwrap_or_default();
            let first = String::from_utf8_lossy(first);
            first.split([' ', '?']).next() == Some(path)
        };
        kept.iter().find(line)
    };
    for path in [
        "/",
        "/questions",
        "/effect",
        "/copy",
        "/remove",
        "/page.css",
        "/page.js",
        "/live",
        "/groups",
        "/gauge",
        "/motion",
        "/watch",
        "/tools",
        "/tools/readings",
        "/save",
        "/scenario.toml",
    ] {
        assert!(there(path).is_some(), "{path}");
    }
    for name in clothyard::on_the_page() {
        assert!(there(&format!("/tools/{}", name.replace(' ', "-"))).is_some(), "{name}");
    }
    for start in ["/take/", "/tools/files/"] {
        assert!(kept.iter().any(|bytes| bytes.starts_with(start.as_bytes())), "{start}");
    }
}

/// A stream was taken for an answer without a body, and its pieces for the next answer.
#[test]
fn regress_a_stream_is_read_to_its_end() {
    let folder = Folder::new("stream");
    folder.write("own.toml", &fs::read_to_string(path("tests/corpus/scenario/compare")).unwrap());
    let site = PageSite::local(Path::new(&folder.at("")), None).unwrap();
    let mut visitor = Visitor::new(site.address());
    site.serve_aside();
    let reply = visitor.send(b"/live\nfrom=own.toml&point=110+gr").unwrap();
    let events = reply.events();
    assert_eq!((reply.code, reply.whole), (200, true));
    let (name, data) = events.last().unwrap();
    assert!(*name == "answer" && data["last"] == true && data["scale"].is_number(), "{data}");
    // And the connection is good for more.
    assert_eq!(visitor.send(b"/gauge\ngap=1").unwrap().code, 422);
}

#[test]
fn law_the_ends_of_the_ranges_go_through_the_whole_chain() {
    let corners = Corners::new();
    assert!(corners.count() > 100, "{}", corners.count());
    for number in 0..60 {
        corner(&corners.text(number), number % 20 == 0);
    }
}

/// A file of nothing but mistakes once took minutes, and told each of them.
#[test]
fn regress_a_file_of_mistakes_tells_forty_and_counts_the_others() {
    let folder = Folder::new("mistakes");
    let keys: Vec<String> = (0..70_000).map(|key| format!("key{key} = 1")).collect();
    let text = keys.join("\n") + "\n";
    let ran = run(&["check", &folder.write("keys.toml", &text)]);
    assert_eq!((ran.code, ran.err.matches("error: ").count()), (2, 41));
    assert!(ran.err.contains(" more mistakes are not shown"), "{:.300}", ran.err);
    assert!(ran.err.contains("keys.toml:40:1") && !ran.err.contains("keys.toml:41:1"));
    // What is no TOML is looked at as soon as any other.
    let lines = "draw weight 65 lb\n".repeat(50_000);
    let ran = run(&["check", &folder.write("lines.toml", &lines)]);
    assert_eq!((ran.code, ran.err.matches("error: ").count()), (2, 41));
    let words = "draw weight ".repeat(30_000) + "\n" + &"distances = 1, ".repeat(30_000);
    assert_eq!(run(&["check", &folder.write("words.toml", &words)]).code, 2);
    let builds = "[[build]]\nname = \"a\"\n".repeat(40_000);
    let ran = run(&["check", &folder.write("builds.toml", &builds)]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("there are 40000 [[build]] tables; at most 24 are read"));
    let table = "arrow,mass [gr]\n".to_owned()
        + &(0..90_000).fold(String::new(), |all, row| all + &format!("1,{}\n", 100 + row));
    let report = scenario::measured::batch(Path::new("b"), Ok(table.into_bytes())).unwrap_err();
    // An arrow that comes again with another mass is told each time.
    assert_eq!((report.problems().len(), report.more() > 0), (40, true));
    // The same mistake in one column is one message.
    let table = "arrow,mass [gr]\n".to_owned() + &"1,heavy\n".repeat(90_000);
    let report = scenario::measured::batch(Path::new("b"), Ok(table.into_bytes())).unwrap_err();
    assert_eq!((report.problems().len(), report.more()), (1, 0));
    // One line as long as a file may be.
    let long = format!("[bow]\ndraw_weight = [{}]\n", "1, ".repeat(300_000));
    assert_eq!(run(&["check", &folder.write("long.toml", &long)]).code, 2);
}

/// Twenty million arrows are asked for, not stumbled into.
#[test]
fn law_a_costly_run_is_asked_for() {
    let folder = Folder::new("costly");
    let (file, out) = (path("scenarios/square-ends.toml"), folder.at("out"));
    let ran = run(&["run", &file, "--flights", "10000000", "--out", &out]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("above 20000000 it has to be asked for"), "{}", ran.err);
    assert!(folder.files().is_empty());
}

/// What a title may hold, no medium lets through.
#[test]
fn law_a_title_does_nothing_but_be_read() {
    let folder = Folder::new("title");
    let text = fs::read_to_string(path("tests/corpus/scenario/compare")).unwrap();
    let first = text.lines().find(|line| line.starts_with("name = ")).unwrap();
    let evil = "name = \"=cmd|' /c calc'!A1\\u001b[2J\\u0007\\u202e\\n+1\"";
    let file = folder.write("evil.toml", &text.replacen(first, evil, 1));
    let ran = run(&["run", &file, "--flights", "100", "--out", &folder.at("out")]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    let harmless = |text: &str| {
        !text.replace("\r\n", "\n").contains(|letter: char| {
            letter == '\u{202e}' || (letter.is_control() && !matches!(letter, '\n' | '\t'))
        })
    };
    assert!(harmless(&ran.out), "{}", ran.out);
    let mut formulas = 0;
    for (name, bytes) in folder.files() {
        let text = String::from_utf8_lossy(&bytes).into_owned();
        let printed = [".html", ".json", ".csv", ".svg"].iter().any(|end| name.ends_with(end));
        assert!(!printed || harmless(&text), "{name}");
        if name.ends_with(".csv") {
            let mut sheet = csv::ReaderBuilder::new().flexible(true).from_reader(text.as_bytes());
            for cell in sheet
                .records()
                .flat_map(|row| row.unwrap().iter().map(str::to_owned).collect::<Vec<_>>())
            {
                formulas += usize::from(cell.starts_with("'=cmd"));
                let formula = cell.starts_with(['=', '+', '-', '@', '\t', '\r']);
                assert!(!formula || cell.parse::<f64>().is_ok(), "{name}: {cell}");
            }
        }
    }
    assert!(formulas > 3, "{formulas}");
    let shown =
        run(&["check", &folder.write("bad.toml", "title = \"\u{9b}31m\"\n\u{1b}]0;x\u{7}")]);
    assert!(shown.code == 2 && harmless(&shown.err), "{}", shown.err);
}
