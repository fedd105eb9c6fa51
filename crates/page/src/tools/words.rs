//! What commands are called on the page: the question of who needs them.

use super::tool::ToolField;
use crate::table::Table;

/// Where a command stands among the others.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Room {
    /// At the bench.
    Bench,
    /// On the range.
    Range,
    /// Sight and tape.
    Sight,
    /// One arrow, looked into.
    Arrow,
}

/// The rooms in their order.
pub(crate) const ROOMS: [(Room, &str); 4] = [
    (Room::Bench, "At the bench"),
    (Room::Range, "On the range"),
    (Room::Sight, "Sight and tape"),
    (Room::Arrow, "One arrow, looked into"),
];

/// The words of a command.
pub(crate) struct Words {
    /// Its name on a command line.
    pub(crate) name: &'static str,
    pub(crate) room: Room,
    /// The question it answers.
    pub(crate) question: &'static str,
    /// The example that a visitor begins from who comes with nothing.
    pub(crate) from: &'static str,
    /// Its tables: the field, what stands in it, and an invented one to try it with.
    pub(crate) tables: &'static [(&'static str, Table, Option<&'static str>)],
}

const fn words(
    name: &'static str,
    room: Room,
    question: &'static str,
    from: &'static str,
    tables: &'static [(&'static str, Table, Option<&'static str>)],
) -> Words {
    Words { name, room, question, from, tables }
}

const THREE: &str = include_str!("../../../../scenarios/bench/three.csv");
const DOZEN: &str = include_str!("../../../../scenarios/bench/dozen.csv");
const FACES: &str = include_str!("../../../../scenarios/bench/faces.csv");
const PROFILE: &str = include_str!("../../../../scenarios/bench/profile.csv");
const SHAFTS: &str = include_str!("../../../../scenarios/bench/shafts.csv");
const PARTS: &str = include_str!("../../../../scenarios/bench/parts.csv");
const TURNED: &str = include_str!("../../../../scenarios/bench/shots.csv");
const MARKS: &str = include_str!("../../../../scenarios/shots/two-marks.csv");

/// Every command with a page, in the order of the index.
pub(crate) const WORDS: [Words; 21] = [
    words(
        "bench cut",
        Room::Bench,
        "Where do I cut these shafts?",
        "squaring",
        &[("three", Table::Three, Some(THREE)), ("readings", Table::Runout, Some(PROFILE))],
    ),
    words(
        "bench square",
        Room::Bench,
        "How square must these ends be?",
        "squaring",
        &[("readings", Table::Faces, Some(FACES))],
    ),
    words(
        "bench sort",
        Room::Bench,
        "Which arrows belong in one set?",
        "squaring",
        &[("batch", Table::Dozen, Some(DOZEN))],
    ),
    words(
        "bench index",
        Room::Bench,
        "Which way do I turn each nock?",
        "squaring",
        &[("batch", Table::Dozen, Some(DOZEN)), ("shots", Table::Turns, Some(TURNED))],
    ),
    words(
        "bench build",
        Room::Bench,
        "Which shaft gets which point and insert?",
        "squaring",
        &[("shafts", Table::Shafts, Some(SHAFTS)), ("parts", Table::Parts, Some(PARTS))],
    ),
    words("bench columns", Room::Bench, "An empty sheet to fill in at the bench", "", &[]),
    words("bench note", Room::Bench, "Add a row to a notebook", "", &[]),
    words("job open", Room::Bench, "Open a job for a customer's arrows", "", &[]),
    words("job note", Room::Bench, "Note what was done to an arrow of a job", "", &[]),
    words("job show", Room::Bench, "Where does each arrow of a job stand?", "", &[]),
    words("job print", Room::Bench, "Print labels, batch sheet and card", "squaring", &[]),
    words(
        "verdict",
        Room::Range,
        "Do these two groups really differ?",
        "",
        &[("files", Table::Group, None)],
    ),
    words("trial sheet", Room::Range, "Print a blind shooting sheet for two builds", "builds", &[]),
    words("trial judge", Room::Range, "May I stop shooting the blind sheet?", "", &[]),
    words("pin", Room::Range, "How firmly does my string hold the nock?", "squaring", &[]),
    words("marks", Room::Sight, "What are my sight marks?", "marks", &[]),
    words(
        "tape",
        Room::Sight,
        "Print a sight tape and cards",
        "marks",
        &[("shots", Table::Marks, Some(MARKS))],
    ),
    words(
        "fit",
        Room::Sight,
        "Fit the computation to what I shot",
        "marks",
        &[("shots", Table::Marks, Some(MARKS))],
    ),
    words("arrow", Room::Arrow, "What did I build: mass, balance, stiffness?", "squaring", &[]),
    words("fly", Room::Arrow, "Where is one arrow at each distance?", "squaring", &[]),
    words("push", Room::Arrow, "What does the bow do to my arrow?", "squaring", &[]),
];

/// What is on the page and no command of its own: room, address, question and words.
pub(crate) const BESIDE: [(Room, &str, &str, &str); 2] = [
    (
        Room::Bench,
        "/tools/readings",
        "Write down what each arrow reads",
        "A sheet for a job, an arrow a row, for a hand that holds a shaft.",
    ),
    (
        Room::Bench,
        "/?from=squaring#bench",
        "Is this end square?",
        "One feeler gauge: keep it, square it or reject it, in large letters.",
    ),
];

/// The words of a command.
pub(crate) fn of(name: &str) -> Option<&'static Words> {
    WORDS.iter().find(|words| words.name == name)
}

/// Fields that stand first on a form though they need not be given.
pub(super) fn first(name: &str) -> &'static [&'static str] {
    match name {
        "bench cut" => &["wanted", "stock"],
        "bench index" => &["positions"],
        "job open" => &["whom", "bow", "batch"],
        "trial sheet" => &["builds", "times", "apart", "spread"],
        "tape" => &["mark"],
        "verdict" => &["distance"],
        "fly" => &["marks"],
        _ => &[],
    }
}

/// What may stand in a field, by its name.
pub(super) fn example(field: &str) -> Option<&'static str> {
    Some(match field {
        "values" => "arrow=7\nstage=raw\nmass=305.2 gr",
        "sets" => "hunt=6\npractice=4",
        "builds" => "squared\nas sawn",
        "times" => "1.3",
        "apart" => "3 in",
        "spread" => "5 arrows 6 in",
        "distance" => "40 yd",
        "marks" => "10 yd, 20 yd",
        "mark" => "20 yd = 12 mm\n60 yd = 31.9 mm",
        "wanted" => "28 1/2 in",
        "stock" => "32 in",
        "end" => "6 in, 4 1/2 in",
        _ => return None,
    })
}

impl Words {
    /// Fields with tables in the order in which they are offered, the others as they were.
    pub(super) fn in_order<'a>(&self, mut fields: Vec<&'a ToolField>) -> Vec<&'a ToolField> {
        let place = |field: &&ToolField| {
            self.tables.iter().position(|(of, ..)| *of == field.id).unwrap_or_default()
        };
        fields.sort_by_key(place);
        fields
    }
}
