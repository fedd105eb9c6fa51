//! What holds for every report of a push.

use clothyard_tests::provenance;
use clothyard_tests::push::{bow, faults, recurve};
use clothyard_tests::recipe::Simple;
use launch::Bow;
use report::{File, ReportError, Subject};
use roxmltree::Document;
use study::{Held, MeasuredShift, Moved, Pinned, PushTrace, trace_push};
use units::{Length, Style};

fn told(bow: Bow, by: f64) -> PushTrace {
    let mut recipe = Simple::new();
    recipe.base.bow = bow;
    recipe.base.faults = faults(by);
    trace_push(&recipe).unwrap()
}

/// Pushes of every kind: faults and none, a rest that holds and one that
/// pushes, and a speed beyond what the bow stores.
fn stories() -> Vec<PushTrace> {
    let mut hot = bow();
    hot.draw_weight = units::Force::from_si(200.0);
    vec![told(bow(), 1.0), told(bow(), 0.0), told(recurve(), 1.0), told(hot, 1.0)]
}

fn document(story: &PushTrace, style: Style) -> Result<report::Document, ReportError> {
    let provenance = provenance();
    let (title, build) = ("A push <&> \"more\"", Some("<b> & \"q\""));
    report::push(story, None, &Subject { title, build, provenance: &provenance }, style)
}

fn all_files() -> Vec<File> {
    let both = [Style::Archery, Style::Metric];
    let stories = stories();
    let each = stories.iter().flat_map(|story| both.map(|style| (story, style)));
    each.flat_map(|(story, style)| document(story, style).unwrap().files().unwrap()).collect()
}

fn text(file: &File) -> String {
    String::from_utf8(file.bytes.clone()).unwrap()
}

#[test]
fn law_push_files_hold_no_number_that_is_none() {
    assert!(stories()[3].budget.lost < 0.0, "the last bow gives more than it stores");
    for file in all_files() {
        let text = text(&file);
        for sign in ["NaN", "nan,", "inf"] {
            let found = text.match_indices(sign).map(|(at, _)| at).find(|&at| {
                // "inf" may begin a word of the text.
                !text[at..].chars().nth(3).is_some_and(char::is_alphabetic)
            });
            assert!(found.is_none(), "{} holds {sign}", file.name);
        }
    }
    for story in stories() {
        let text = document(&story, Style::Metric).unwrap().terminal(80);
        assert!(!text.contains("NaN") && !text.contains("inf "), "{text}");
    }
}

/// Every picture is XML, and every text and line of it lies on the sheet.
#[test]
fn law_push_pictures_parse_and_stay_on_the_sheet() {
    let mut pictures = 0;
    for file in all_files().iter().filter(|file| file.name.ends_with(".svg")) {
        let text = text(file);
        let document = Document::parse(&text).unwrap();
        let root = document.root_element();
        let view: Vec<f64> = root
            .attribute("viewBox")
            .unwrap()
            .split_whitespace()
            .map(|number| number.parse().unwrap())
            .collect();
        for node in document.descendants().filter(|node| node.has_tag_name("text")) {
            for (name, most) in [("x", view[2]), ("y", view[3])] {
                let at: f64 = node.attribute(name).unwrap().parse().unwrap();
                assert!((0.0..=most).contains(&at), "{}: {:?}", file.name, node.text());
            }
        }
        for node in document.descendants().filter(|node| node.has_tag_name("polyline")) {
            for pair in node.attribute("points").unwrap().split_whitespace() {
                let (x, y) = pair.split_once(',').unwrap();
                let (x, y): (f64, f64) = (x.parse().unwrap(), y.parse().unwrap());
                let inside = (0.0..=view[2]).contains(&x) && (0.0..=view[3]).contains(&y);
                assert!(inside, "{}: {pair} of {view:?}", file.name);
            }
        }
        pictures += 1;
    }
    assert_eq!(pictures, 5 * 2 * 4);
}

#[test]
fn law_push_page_refers_to_nothing_outside_itself() {
    for file in all_files().iter().filter(|file| file.name.ends_with(".html")) {
        let page = text(file);
        for sign in ["http:", "https:", "src=", "href=", "url(", "@import", "<script"] {
            assert!(!page.contains(sign), "{sign}");
        }
        assert!(page.contains("A push &lt;&amp;&gt;"), "the title is escaped");
    }
}

/// Every row of a table has as many fields as its head.
#[test]
fn law_push_tables_are_whole() {
    let names = ["frames.csv", "shapes.csv", "modes.csv", "stroke.csv"];
    let files = all_files();
    for name in names {
        let found: Vec<&File> = files.iter().filter(|file| file.name == name).collect();
        assert_eq!(found.len(), 8, "{name}");
        for file in found {
            let text = text(file);
            let fields = text.lines().next().unwrap().split(',').count();
            assert!(text.lines().count() > 20);
            assert!(text.lines().all(|line| line.split(',').count() == fields), "{name}");
        }
    }
}

#[test]
fn law_push_number_that_is_not_finite_is_refused_by_its_place() {
    type Spoil = fn(&mut PushTrace, f64);
    let spoils: [(&str, Spoil); 4] = [
        ("departure-across[3].left", |s, x| s.departure.yaw_rate = x),
        ("frames[3].rest up", |s, x| s.moments[3].rest[1] = x),
        ("shapes[1].left", |s, x| s.shapes[0].places[1].off[0] = x),
        ("swings[1].node 1", |s, x| s.modes[1].nodes[0] = x),
    ];
    for (path, spoil) in spoils {
        for bad in [f64::NAN, f64::INFINITY] {
            let mut story = told(bow(), 1.0);
            spoil(&mut story, bad);
            let error = document(&story, Style::Archery).map(drop).unwrap_err();
            let ReportError::NotFinite { path: found, .. } = error else { panic!("{error}") };
            assert_eq!(found, path);
        }
    }
}

#[test]
fn law_pin_number_that_is_not_finite_is_refused_by_its_place() {
    let measured = MeasuredShift {
        distance: Length::from_si(20.0),
        shift: [f64::NAN, 0.0],
        how: Moved::Bare,
        error: None,
    };
    let lost = Pinned { left: Held::Lost, up: Held::Lost };
    let error = report::pin(&measured, &lost, Style::Metric).map(drop).unwrap_err();
    let ReportError::NotFinite { path, .. } = error else { panic!("{error}") };
    assert_eq!(path, "pin[1].is");
}
