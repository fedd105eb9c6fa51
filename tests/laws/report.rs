//! What holds for every report.

use clothyard_tests::answers::of;
use clothyard_tests::{answers, document, tuned};
use report::{File, ReportError};
use roxmltree::{Document, Node};
use study::Answer;
use units::Style;

/// What a sweep moves most leads, up and down or aside.
#[test]
fn law_a_sweep_leads_with_what_it_moves_most() {
    let lead = |key: &str, aside: f64| {
        let mut answer = answers::swept();
        let study::Found::Sweep(swept) = &mut answer.found else { panic!("a sweep") };
        swept.sweeps[0].key = key.to_owned();
        for (at, point) in (0_u8..).zip(&mut swept.sweeps[0].points) {
            for mark in &mut point.build.marks {
                mark.nominal.left = f64::from(at) * aside;
            }
        }
        document(&answer, Style::Archery).unwrap().lead().to_owned()
    };
    assert!(lead("point.mass", 0.0).contains("the drop goes from"));
    assert!(lead("point.mass", -1.0).contains("the place right of the line goes from"));
    assert!(lead("point.mass", 1.0).contains("the place left of the line goes from"));
}

/// Answers of every shape, one with names that need escaping.
fn answers() -> Vec<Answer> {
    let mut odd = answers::compared(&[
        ("<b> & \"q\"", 1.0),
        (
            "a name long enough to be cut, \
        however wide the legend of a plot may be drawn on the sheet",
            0.5,
        ),
    ]);
    "</title> & more".clone_into(&mut odd.title);
    vec![
        answers::compared(&[("alone", 1.0)]),
        answers::square_ends(),
        answers::one_perfect(),
        answers::three_builds(),
        answers::on_a_face(),
        answers::swept(),
        answers::side_by_side(false),
        answers::side_by_side(true),
        tuned::single(),
        tuned::bladed(),
        odd,
    ]
}

fn all_files() -> Vec<File> {
    let both = [Style::Archery, Style::Metric];
    let each = answers().into_iter().flat_map(|answer| both.map(|style| (answer.clone(), style)));
    each.flat_map(|(answer, style)| document(&answer, style).unwrap().files().unwrap()).collect()
}

fn texts(end: &str) -> Vec<String> {
    let files = all_files().into_iter().filter(|file| file.name.ends_with(end));
    let texts: Vec<String> = files.map(|file| String::from_utf8(file.bytes).unwrap()).collect();
    assert!(!texts.is_empty());
    texts
}

fn place(error: &ReportError) -> String {
    match error {
        ReportError::NotFinite { path, .. } => path.clone(),
        other => panic!("{other}"),
    }
}

#[test]
fn law_a_number_that_is_not_finite_is_refused_by_its_place() {
    type Spoil = fn(&mut Answer, f64);
    let spoils: [(&str, Spoil); 6] = [
        ("distances[2].drop", |a, x| of(a).builds[0].marks[2].nominal.drop = x),
        ("distances[4].R50 squared.low", |a, x| of(a).builds[1].marks[4].full.stats.r50.low = x),
        ("impacts[303].above fault-free impact", |a, x| {
            of(a).builds[0].marks[0].machine.sample[3].up = x;
        }),
        ("pairs[1].group ratio machine", |a, x| {
            of(a).pairs[0].marks[1].machine_ratio.as_mut().unwrap().value = x;
        }),
        ("levers[0].nock end", |a, x| answers::ends(a).ends.nock.groove_offset = x),
        ("claims[2].first", |a, x| answers::ends(a).trade[2].numbers.0 = x),
    ];
    for (path, spoil) in spoils {
        for bad in [f64::NAN, f64::INFINITY] {
            let mut answer = answers::square_ends();
            spoil(&mut answer, bad);
            assert_eq!(place(&document(&answer, Style::Archery).map(drop).unwrap_err()), path);
        }
    }
}

#[test]
fn law_a_flight_that_is_not_finite_is_refused_by_its_place() {
    let mass = units::Mass::from_si(0.028);
    let mut states = [clothyard_tests::start(80.0); 3];
    states[1].velocity.z = f64::NAN;
    let error = report::flight(&states, mass, Style::Metric).map(drop).unwrap_err();
    assert_eq!(place(&error), "states[1].speed");
}

/// Builds with other parts have other doubts; each is told once, with the
/// builds it holds for, and every build has its bands.
#[test]
fn law_the_page_tells_the_doubts_of_every_build() {
    let page = |answer: &Answer| {
        document(answer, Style::Metric).unwrap().page().unwrap().replace("<wbr/>", "")
    };
    let mut answer = answers::square_ends();
    let same = page(&answer);
    assert_eq!(same.matches("bow.restraint").count(), 1);
    assert!(!same.contains("<th scope=\"col\">of</th>"));

    let uncertain = &mut of(&mut answer).builds[1].uncertain;
    uncertain.remove(3);
    uncertain[2].high = 0.009;
    let page = page(&answer);
    assert!(page.contains("<th scope=\"col\">of</th>"));
    let row = |key: &str, from: &str, to: &str, of: &str| {
        let from = format!("<th scope=\"row\">{key}</th><td>{from}</td>");
        format!("{from}<td>{to}</td><td>{of}</td>").replace(" gr<", "\u{A0}gr<")
    };
    for row in [
        row("aero.nock_drag", "0.3", "0.6", "all"),
        row("bow.virtual_mass", "61.7 gr", "108 gr", "as sawn"),
        row("bow.virtual_mass", "61.7 gr", "139 gr", "squared"),
        row("bow.restraint", "0.3", "2", "as sawn"),
    ] {
        let near = page.find("bow.virtual_mass").map_or("", |at| &page[at..]);
        assert!(page.contains(&row), "{row} is not in: {near:.600}");
    }
}

#[test]
fn law_the_same_answer_gives_the_same_bytes() {
    assert_eq!(all_files(), all_files());
}

#[test]
fn law_the_page_refers_to_nothing_outside_itself() {
    for page in texts(".html") {
        for sign in ["http:", "https:", "src=", "href=", "url(", "@import", "<script"] {
            assert!(!page.contains(sign), "{sign}");
        }
    }
}

#[test]
fn law_every_number_of_a_table_has_a_unit_in_its_head_or_its_cell() {
    let mut numbers = 0;
    for page in texts(".html") {
        for piece in page.split("<table>").skip(1) {
            let table = piece.split("</table>").next().unwrap();
            let text = format!("<table>{table}</table>");
            let document = Document::parse(&text).unwrap();
            let heads: Vec<bool> = rows(&document).next().unwrap().children().map(unit).collect();
            for row in rows(&document).skip(1) {
                let cells: Vec<Node> = row.children().collect();
                assert_eq!(cells.len(), heads.len());
                for (cell, head) in cells.iter().zip(&heads) {
                    let words = cell.descendants().filter(Node::is_text).filter_map(|n| n.text());
                    let text: String = words.collect();
                    // "R50" and the like are words.
                    let number = |c: char| c.is_ascii_digit() || "+-\u{2212}>".contains(c);
                    if text.starts_with(number) && text.chars().any(|c| c.is_ascii_digit()) {
                        numbers += 1;
                        assert!(*head || ends_in_words(&text), "{text:?} has no unit");
                    }
                }
            }
        }
    }
    assert!(numbers > 1000);
}

fn rows<'a>(document: &'a Document<'a>) -> impl Iterator<Item = Node<'a, 'a>> {
    document.descendants().filter(|node| node.has_tag_name("tr"))
}

/// Whether a head names a unit, or leaves that to its cells.
fn unit(head: Node) -> bool {
    head.attribute("class") == Some("own")
        || head.children().any(|node| node.attribute("class") == Some("unit"))
}

/// Whether the last word is a unit rather than a number.
fn ends_in_words(text: &str) -> bool {
    let last = text.split_whitespace().last().unwrap_or_default();
    !last.chars().any(|c| c.is_ascii_digit()) || ["m2", "mm2"].contains(&last)
}

#[test]
fn law_plots_are_well_formed_and_their_text_stays_on_the_sheet() {
    for svg in texts(".svg") {
        let document = Document::parse(&svg).unwrap();
        let root = document.root_element();
        let sheet: Vec<f64> = numbers(root.attribute("viewBox").unwrap());
        for text in document.descendants().filter(|node| node.has_tag_name("text")) {
            let read = |name: &str| text.attribute(name).unwrap().parse::<f64>().unwrap();
            let letters = text.text().unwrap().trim().chars().count() as f64;
            // Half the size a letter is the mean of common sans-serif faces.
            let wide = 0.5 * letters * read("font-size");
            let start = match text.attribute("text-anchor") {
                Some("start") => read("x"),
                Some("middle") => read("x") - wide / 2.0,
                _ => read("x") - wide,
            };
            let what = text.text().unwrap();
            assert!(start >= 0.0 && start + wide <= sheet[2], "{what:?} runs off the sheet");
            assert!((0.0..=sheet[3]).contains(&read("y")), "{what:?} is off the sheet");
        }
    }
}

fn numbers(text: &str) -> Vec<f64> {
    text.split(' ').map(|number| number.parse().unwrap()).collect()
}

#[test]
fn law_the_page_knows_every_colour_of_its_plots() {
    let page = texts(".html").concat();
    for svg in texts(".svg") {
        for name in ["fill", "stroke"] {
            for piece in svg.split(&format!("{name}=\"#")).skip(1) {
                let rule = format!("svg [{name}=\"#{}\"]", &piece[..6]);
                assert!(page.contains(&rule), "no rule for {rule}");
            }
        }
    }
}

#[test]
fn law_sheets_are_square_and_name_their_units() {
    for sheet in texts(".csv") {
        // Names with a comma or a quote are quoted, so count outside quotes.
        let fields = |line: &str| {
            let mut quoted = false;
            let comma = |c: char| {
                quoted ^= c == '"';
                !quoted && c == ','
            };
            line.chars().map(comma).filter(|&c| c).count()
        };
        let mut lines = sheet.lines();
        let head = lines.next().unwrap();
        assert!(head.contains('[') || head.contains(" unit"), "{head}");
        for line in lines {
            assert_eq!(fields(line), fields(head), "{line}");
        }
    }
}

/// A share of hits is never shown without what it leaves out.
#[test]
fn law_a_farthest_distance_never_stands_without_its_caution() {
    let answer = answers::side_by_side(false);
    let style = Style::Archery;
    let told = document(&answer, style).unwrap();
    let terminal = told.terminal(80).replace('\n', " ");
    let page = told.page().unwrap().replace('\u{a0}', " ");
    for shown in [page, told.json().unwrap(), terminal] {
        for word in ["no licence to shoot", "what an animal does", "judgement", "the law"] {
            assert!(shown.contains(word), "{word}");
        }
    }
    // Unless it is stated, no such distance is shown at all.
    let mut unstated = answer;
    let sides = &mut of(&mut unstated).sides;
    sides.stated.hit_share = None;
    sides.builds.iter_mut().for_each(|build| build.reach = None);
    // The caution's own "up to .. it holds" stays.
    let told = document(&unstated, style).unwrap().terminal(80).replace('\n', " ");
    assert!(!told.contains("or more up to"), "{told}");
}

/// Lists of builds side by side that do not fit are refused by their place.
#[test]
fn law_sides_that_do_not_fit_are_refused() {
    type Spoil = fn(&mut study::SideBySide);
    let spoils: [(&str, Spoil); 4] = [
        ("sides.builds has 1 entries for 2 builds", |s| drop(s.builds.pop())),
        ("sides.builds[1].marks has 1 entries for 2 distances", |s| drop(s.builds[1].marks.pop())),
        ("sides.pairs[0].marks has 1 entries for 2 distances", |s| drop(s.pairs[0].marks.pop())),
        ("pairs[0] names build 7, but there are only 2", |s| s.pairs[0].other = 7),
    ];
    for (message, spoil) in spoils {
        let mut answer = answers::side_by_side(true);
        spoil(&mut of(&mut answer).sides);
        let error = document(&answer, Style::Metric).unwrap_err();
        assert_eq!(error.to_string(), message);
    }
}

/// The answer to "would I notice?" takes where a build lands with one sight setting beside
/// the size of its groups, in its first sentence, and what is left after that.
#[test]
fn law_a_comparison_tells_centre_and_width() {
    let answer = answers::compared(&[("as sawn", 1.25), ("squared", 0.55)]);
    let document = document(&answer, Style::Archery).unwrap();
    let lead = document.lead();
    let first = lead.split(". ").next().unwrap();
    assert!(first.contains("groups") && first.contains("with one sight setting lands"), "{lead}");
    assert!(first.contains("notice"), "{lead}");
    assert!(lead.contains("Re-sighted, "), "{lead}");
    // The trade's words first: none of these in a headline.
    for word in ["R50", "sigma", "standard deviation", "variance"] {
        assert!(!lead.contains(word), "{word}: {lead}");
    }
}
