//! Tapes and cards: millimetres on the page, read back out of the files.

use std::collections::BTreeMap;

use lopdf::content::Content;
use lopdf::{Document, Object};
use print::{Card, Cards, Finest, Ink, Look, Paper, Strip, Tape, TapeMark};
use units::{Length, Style};

/// Marks of a made-up sight: a parabola, so that every length is known.
fn travel(yards: f64) -> f64 {
    4e-6 * yards * yards + 5e-4 * yards
}

fn tape(look: Look) -> Tape {
    let marks = (40..=160)
        .map(|halves| TapeMark { halves, travel: travel(f64::from(halves) / 2.0) })
        .collect();
    let strip = Strip { name: "280 ft/s".to_owned(), note: "made up".to_owned(), marks };
    Tape {
        care: Vec::new(),
        title: "A made-up tape".to_owned(),
        about: "Nothing real.".to_owned(),
        strips: vec![strip],
        style: Style::Archery,
        between: Some((40, 120)),
        look,
    }
}

/// A straight stroke, mm from the left and from the foot, and its width.
#[derive(Debug, Clone, Copy)]
struct Stroke {
    from: (f64, f64),
    to: (f64, f64),
    width: f64,
}

const MM: f64 = 25.4 / 72.0;

/// The strokes of the only page of a PDF, through its matrix, and its size.
fn strokes(bytes: &[u8]) -> (Vec<Stroke>, (f64, f64)) {
    let document = Document::load_mem(bytes).expect("a PDF");
    let pages = document.get_pages();
    assert_eq!(pages.len(), 1);
    let page = pages[&1];
    let number = |object: &Object| f64::from(object.as_float().expect("a number"));
    let dictionary = document.get_dictionary(page).expect("the page");
    let media = dictionary.get(b"MediaBox").and_then(Object::as_array).expect("its size");
    let size = (MM * number(&media[2]), MM * number(&media[3]));
    let content = Content::decode(&document.get_page_content(page)).expect("its drawing");
    let (mut scale, mut width, mut from) = (1.0, 0.0, (0.0, 0.0));
    let mut out = Vec::new();
    for step in &content.operations {
        let at = |place: usize| number(&step.operands[place]);
        match step.operator.as_str() {
            "cm" => {
                assert!(at(1) == 0.0 && at(2) == 0.0 && at(4) == 0.0 && at(5) == 0.0);
                assert!((at(0) - at(3)).abs() < 1e-12, "the page is stretched");
                scale *= at(0) * MM;
            }
            "w" => width = at(0) * scale,
            "m" => from = (at(0) * scale, at(1) * scale),
            "l" => out.push(Stroke { from, to: (at(0) * scale, at(1) * scale), width }),
            _ => {}
        }
    }
    (out, size)
}

/// Lengths of the strokes that are nothing but long rulers: 0.2 mm wide.
fn rulers(strokes: &[Stroke]) -> Vec<(f64, f64)> {
    let long = |s: &&Stroke| (s.width - 0.2).abs() < 1e-6;
    strokes.iter().filter(long).map(|s| (s.to.0 - s.from.0, s.to.1 - s.from.1)).collect()
}

/// Both rulers of the page, read back by another library, are 100 mm long to
/// 0.01 mm, on either paper; the page has the size of its paper (A4: ISO 216;
/// letter: 8.5 by 11 in; both defined). Single precision leaves 1e-5 mm.
#[test]
fn exact_a_hundred_millimetres_in_the_pdf() {
    for (paper, size) in [(Paper::A4, (210.0, 297.0)), (Paper::Letter, (215.9, 279.4))] {
        let sheet = tape(Look { paper, ..Look::default() }).sheet().expect("a tape");
        let (strokes, page) = strokes(&sheet.pdf());
        assert!((page.0 - size.0).abs() < 1e-4 && (page.1 - size.1).abs() < 1e-4, "{page:?}");
        let rulers = rulers(&strokes);
        assert_eq!(rulers.len(), 2, "{rulers:?}");
        for (across, up) in rulers {
            assert!((across.hypot(up) - 100.0).abs() < 1e-4, "{across} {up}");
            assert!(across.abs() < 1e-4 || up.abs() < 1e-4, "a ruler leans");
        }
    }
}

/// Every mark of the strip lies where its travel says, to 0.01 mm, with the
/// nearest above or below as asked.
#[test]
fn exact_marks_lie_at_their_travel() {
    for near_below in [false, true] {
        let look = Look {
            near_below,
            finest: Finest::Half,
            width: Length::from_si(0.01),
            ..Look::default()
        };
        let sheet = tape(look).sheet().expect("a tape");
        let (strokes, _) = strokes(&sheet.pdf());
        // The tens: 0.3 mm wide, nothing else is.
        let mut tens: Vec<f64> = strokes
            .iter()
            .filter(|s| (s.width - 0.3).abs() < 1e-6)
            .map(|s| {
                assert!((s.to.0 - s.from.0 - 4.6).abs() < 1e-4, "{s:?}");
                s.from.1
            })
            .collect();
        // Drawn from the near end.
        tens.reverse();
        assert_eq!(tens[0] > tens[1], near_below, "{tens:?}");
        let yards: Vec<f64> = (2..=8).map(|ten| 10.0 * f64::from(ten)).collect();
        assert_eq!(tens.len(), yards.len());
        for (mark, yard) in tens.iter().zip(yards.iter().rev()) {
            let last = yards[yards.len() - 1];
            let far = 1e3 * (travel(last) - travel(*yard));
            let found = (mark - tens[0]).abs();
            assert!((found - far).abs() < 1e-4, "{yard}: {found} for {far}");
        }
    }
}

/// The catalogue asks printers not to scale the page.
#[test]
fn exact_the_pdf_asks_for_no_scaling() {
    let sheet = tape(Look::default()).sheet().expect("a tape");
    let document = Document::load_mem(&sheet.pdf()).expect("a PDF");
    let wishes = document
        .catalog()
        .and_then(|catalog| catalog.get(b"ViewerPreferences"))
        .and_then(Object::as_dict)
        .expect("wishes");
    assert_eq!(wishes.get(b"PrintScaling").and_then(Object::as_name).expect("one"), b"None");
}

/// The SVG has the size of the paper in mm, its user unit is the millimetre,
/// and the rulers are 100 of them.
#[test]
fn exact_a_hundred_millimetres_in_the_svg() {
    let sheet = tape(Look::default()).sheet().expect("a tape");
    let text = sheet.svg();
    let page = roxmltree::Document::parse(&text).expect("SVG");
    let root = page.root_element();
    assert_eq!(root.attribute("width"), Some("210mm"));
    assert_eq!(root.attribute("height"), Some("297mm"));
    assert_eq!(root.attribute("viewBox"), Some("0 0 210 297"));
    let number = |node: &roxmltree::Node<'_, '_>, name: &str| -> f64 {
        node.attribute(name).expect("an attribute").parse().expect("a number")
    };
    let rulers: Vec<f64> = page
        .descendants()
        .filter(|n| n.has_tag_name("line") && n.attribute("stroke-width") == Some("0.2"))
        .map(|n| (number(&n, "x2") - number(&n, "x1")).hypot(number(&n, "y2") - number(&n, "y1")))
        .collect();
    assert_eq!(rulers.len(), 2);
    for ruler in rulers {
        assert!((ruler - 100.0).abs() < 1e-9, "{ruler}");
    }
}

/// A card is 85.60 by 53.98 mm between its crop marks (ISO/IEC 7810, ID-1).
#[test]
fn exact_cards_have_the_usual_size() {
    let card = Card {
        title: "Made up".to_owned(),
        note: String::new(),
        heads: vec![("distance".to_owned(), "yd".to_owned())],
        rows: vec![vec!["20".to_owned()]],
    };
    let cards = Cards {
        care: Vec::new(),
        title: "Cards".to_owned(),
        about: "Nothing real.".to_owned(),
        cards: vec![card],
        look: Look::default(),
    };
    let sheet = cards.sheet().expect("cards");
    let (strokes, _) = strokes(&sheet.pdf());
    let outline: Vec<&Stroke> = strokes.iter().filter(|s| (s.width - 0.1).abs() < 1e-6).collect();
    assert_eq!(outline.len(), 4);
    let mut sides: BTreeMap<i64, f64> = BTreeMap::new();
    for side in outline {
        let length = (side.to.0 - side.from.0).hypot(side.to.1 - side.from.1);
        #[expect(clippy::cast_possible_truncation, reason = "a key")]
        sides.insert((length * 10.0).round() as i64, length);
    }
    let sides: Vec<f64> = sides.into_values().collect();
    assert!((sides[0] - 53.98).abs() < 1e-4 && (sides[1] - 85.6).abs() < 1e-4, "{sides:?}");
}

/// Poor light leaves marks out but moves none.
#[test]
fn exact_low_light_keeps_the_places() {
    let places = |ink: Ink, widths: &[f64]| -> Vec<f64> {
        let look = Look { ink, ..Look::default() };
        let sheet = tape(look).sheet().expect("a tape");
        let (strokes, _) = strokes(&sheet.pdf());
        let mark = |s: &&Stroke| widths.iter().any(|w| (s.width - w).abs() < 1e-6);
        strokes.iter().filter(mark).map(|s| s.from.1).collect()
    };
    let day = places(Ink::Day, &[0.3, 0.25, 0.16]);
    let low = places(Ink::LowLight, &[0.5, 0.4, 0.3]);
    assert!(low.len() < day.len(), "{} of {}", low.len(), day.len());
    for place in &low {
        assert!(day.iter().any(|other| (other - place).abs() < 1e-6), "{place}");
    }
}

/// The fan and the one strip agree where the speed is the same: a curve meets the
/// upright line of a speed as far from the first curve as that speed's own strip has
/// the mark from its first, to 0.0001 mm (single precision of the PDF).
#[test]
fn exact_a_fan_cut_at_a_speed_is_its_strip() {
    let look = Look { paper: Paper::A4, ..Look::default() };
    let scaled = |share: f64| {
        let mut one = tape(look).strips.remove(0);
        for mark in &mut one.marks {
            mark.travel *= share;
        }
        one
    };
    let strips: Vec<Strip> = [1.1, 1.0, 0.9].map(scaled).into();
    let fan = Tape { strips, ..tape(look) }.sheet().expect("a fan");
    let tens = |bytes: &[u8]| -> Vec<Stroke> {
        let (strokes, _) = strokes(bytes);
        strokes.into_iter().filter(|s| (s.width - 0.3).abs() < 1e-6).collect()
    };
    let fan = tens(&fan.pdf());
    let (left, right) = (30.0, 210.0 - 14.0);
    for (share, x) in [(1.1, left), (1.0, 0.5 * (left + right)), (0.9, right)] {
        let ends = fan.iter().flat_map(|s| [s.from, s.to]);
        let mut met: Vec<f64> =
            ends.filter(|end| (end.0 - x).abs() < 1e-4).map(|end| end.1).collect();
        met.sort_by(|a, b| b.total_cmp(a));
        met.dedup_by(|a, b| (*a - *b).abs() < 1e-4);
        let strip = Tape { strips: vec![scaled(share)], ..tape(look) }.sheet().expect("a strip");
        let strip: Vec<f64> = tens(&strip.pdf()).iter().map(|s| s.from.1).collect();
        assert_eq!((met.len(), strip.len()), (7, 7));
        for (curve, mark) in met.iter().zip(&strip) {
            let off = (curve - met[0]) - (mark - strip[0]);
            assert!(off.abs() < 1e-4, "{share}: {off} mm");
        }
    }
}

/// Each text of an SVG states the room it takes, so that it stays on the page
/// with any face the viewer has.
#[test]
fn exact_letters_of_the_svg_keep_to_the_page() {
    let text = tape(Look::default()).sheet().expect("a tape").svg();
    let page = roxmltree::Document::parse(&text).expect("SVG");
    for node in page.descendants().filter(|node| node.has_tag_name("text")) {
        let number = |name: &str| -> f64 {
            node.attribute(name).expect("an attribute").parse().expect("a number")
        };
        let back = match node.attribute("text-anchor") {
            Some("end") => 1.0,
            Some("middle") => 0.5,
            _ => 0.0,
        };
        let (x, long) = (number("x"), number("textLength"));
        assert!(x - back * long >= 0.0 && x + (1.0 - back) * long <= 210.0, "{:?}", node.text());
    }
}
