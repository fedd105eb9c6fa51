//! A document of every answer, from invented builds and the demo notebooks.

use std::path::Path;

use report::{BenchAnswer, Document, Subject};
use scenario::measured::{Stations, batch, faces, parts, profiles, turns};
use study::workbench::{
    BuildAsk, CutAsk, Cutting, IndexAsk, Indexing, Read, ShaftToCut, SortAsk, Sorting, SquareAsk,
    Squareness, build, claims, cut, index, sort, square,
};
use study::{
    Held, MarksPlan, MeasuredShift, Moved, Obstacle, Pinned, Quiet, Recipe, Sought, Sweep,
    UncertainParameter,
};
use target::{Impact, PowerTest};
use units::{Dimension, Length, Style};
use workbench::{Axis, Job, Population, SawJob, Worked};

use crate::recipe::{Simple, Value};

/// Marks with pins, clicks, a doubt, slopes, a change and a twig.
pub fn marked() -> (Simple, MarksPlan) {
    let mut simple = Simple::new();
    simple.uncertain.push(UncertainParameter {
        slot: Value::NockDrag.slot(),
        key: "aero.nock_drag".to_owned(),
        dimension: Dimension::Ratio,
        value: 0.45,
        low: 0.3,
        high: 0.6,
    });
    let sweep = Sweep {
        key: "arrow.point.mass".to_owned(),
        dimension: Dimension::Mass,
        slot: Value::PointMass.slot(),
        values: vec![5e-3, 8e-3],
        labels: vec!["5 g (-1.5)".to_owned(), "8 g (+1.5)".to_owned()],
    };
    let twig = Obstacle { distance: Length::from_si(17.0), height: Length::from_si(0.15) };
    let asked = MarksPlan {
        changes: vec![sweep],
        twigs: vec![twig],
        click: Some(Length::from_si(1e-4)),
        bare: true,
        ..crate::marks::plan()
    };
    (simple, asked)
}

/// Every answer told, in these units.
///
/// # Panics
/// Never: what is asked is possible.
#[expect(clippy::expect_used, reason = "possible questions")]
pub fn all(style: Style) -> Vec<Document> {
    let provenance = crate::provenance();
    let subject =
        Subject { title: "Told <&>", build: Some("<b> & \"q\""), provenance: &provenance };
    let mut told = questions(style);

    let simple = Simple::new();
    let flown = study::fly_one(&simple, &[10.0, 20.0], false).expect("it flies");
    told.push(report::flight(&flown.states, flown.built.mass.mass(), style).expect("finite"));
    told.push(report::arrow(&flown, style).expect("finite"));

    let (simple, asked) = marked();
    let mut marks = study::marks(&simple, &asked).expect("in reach");
    // The readers of these tables look for cells alone; bands over them are
    // looked for where an answer has them.
    marks.unknown = None;
    told.push(report::marks(&marks, &subject, &[], style).expect("finite"));

    for (bow, by) in [(crate::push::bow(), 0.0), (crate::push::recurve(), 1.0)] {
        let mut simple = Simple::new();
        simple.base.bow = bow;
        simple.base.faults = crate::push::faults(by);
        let story = study::trace_push(&simple).expect("a push");
        told.push(report::push(&story, None, &subject, style).expect("finite"));
    }

    let shots = crate::shots::shots(true, || 0.0);
    let plan = crate::shots::plan(shots, &[Sought::Speed, Sought::Radius]);
    let fitted = study::fit(&crate::shots::known(), &plan).expect("enough shots");
    told.push(report::fit(&fitted, style).expect("finite"));

    let place = |left: f64, up: f64| Impact { left, up };
    let places = [place(0.01, 0.02), place(-0.03, 0.01), place(0.02, -0.02)];
    let first = study::ShotGroup::of("first, \"shot\"", &places).expect("a group");
    let second = study::ShotGroup::of_numbers("second", 6, 0.05).expect("a group");
    let judged = study::TwoGroups::of([first, second], PowerTest::default()).expect("spread");
    told.push(report::verdict(&judged, "0.0.0", style).expect("finite"));

    let distance = Length::from_si(18.288);
    let how = Moved::NockTurn(2.0);
    let measured = MeasuredShift { distance, shift: [0.03, -0.01], how, error: None };
    let left = Held::Unexplained { restraint: 0.1, shift: 0.02, lack: -0.012 };
    let near = Pinned { left, up: Held::Unfelt };
    told.push(report::pin(&measured, &near, style).expect("finite"));

    let entered = ["1", "2"].map(|name| Worked { name: name.to_owned(), ..Worked::default() });
    let job = Job { arrows: 3, ..Job::default() };
    let arrows = job.standing(&entered);
    let story = report::JobStory { job: &job, arrows: &arrows, computed: None, style };
    told.push(report::job(&story).expect("finite"));

    told.extend(bench(&subject, style));
    told
}

/// What a run may answer.
#[expect(clippy::expect_used, reason = "invented answers are finite")]
fn questions(style: Style) -> Vec<Document> {
    use crate::{answers, tuned};
    let answers = [
        answers::square_ends(),
        answers::one_perfect(),
        answers::three_builds(),
        answers::on_a_face(),
        answers::swept(),
        answers::side_by_side(false),
        tuned::single(),
        tuned::bladed(),
    ];
    answers.iter().map(|answer| crate::document(answer, style).expect("finite")).collect()
}

/// The jobs of the bench on the demo notebooks.
#[expect(clippy::expect_used, reason = "the demo is sound")]
fn bench(subject: &Subject, style: Style) -> Vec<Document> {
    let at = |name: &str| crate::program::path(&format!("scenarios/bench/{name}"));
    let bytes = |name: &str| std::fs::read(at(name));
    let path = Path::new("demo.csv");
    let file = at("bench.toml");
    let read = scenario::read(Path::new(&file), &|path| std::fs::read_to_string(path));
    let scenario = read.expect("the demo reads");
    let recipe: Box<dyn Recipe> = scenario.recipe(None).expect("one build");
    let (recipe, distances) = (recipe.as_ref(), scenario.distances());
    let distances = distances.as_slice();
    let mut told = Vec::new();
    let mut tell = |answer: BenchAnswer| {
        told.push(report::bench(answer, subject, &[], style).expect("finite"));
    };

    let readings = faces(path, bytes("faces.csv")).expect("reads").found;
    let ask = SquareAsk { recipe, distances, readings: &readings, share: 0.05, seed: 7 };
    // As of the marks: cells without the bands over them.
    let found = square(&ask, &Quiet).expect("faces");
    tell(BenchAnswer::Square(&Squareness { unknown: None, ..found }));

    let inch = |value: f64| Length::from_si(0.0254 * value);
    let shafts = profiles(path, bytes("profile.csv")).expect("reads").found;
    let axis = |shaft: &scenario::measured::ShaftReadings| match &shaft.stations {
        Stations::Dial(readings) => {
            let supports = [inch(2.0), inch(30.0)];
            let stock = shaft.stock.unwrap_or(inch(32.0));
            let axis = Axis::from_dial(stock, supports, readings, inch(5e-4)).expect("read");
            ShaftToCut { name: shaft.name.clone(), line: None, stock, read: Read::Profile(axis) }
        }
        Stations::RunOut(_) => unreachable!("the demo was read with a dial"),
    };
    let mut shafts: Vec<ShaftToCut> = shafts.iter().map(axis).collect();
    let job = SawJob {
        wanted: inch(28.0),
        kerf: inch(0.06),
        tolerance: inch(0.02),
        nock: inch(0.5),
        front: inch(1.0),
        most_rear: None,
        most_front: None,
    };
    // One of them is too short, and one was read in the middle alone.
    shafts.push(ShaftToCut { name: "short".into(), stock: inch(26.0), ..shafts[0].clone() });
    shafts.push(ShaftToCut {
        name: "sold".into(),
        line: None,
        stock: inch(32.0),
        read: Read::Places(vec![]),
    });
    let population =
        Population { body: inch(0.004), nock_hook: inch(0.0045), point_hook: inch(0.00225) };
    let (stop, step) = (inch(0.0625), inch(5e-4));
    let ask = |shafts| CutAsk {
        recipe,
        distances,
        shafts,
        unread: &[],
        job,
        population,
        stop,
        step,
        seed: 7,
    };
    let found = cut(&ask(&shafts), &Quiet).expect("shafts");
    tell(BenchAnswer::Cut(&Cutting { unknown: None, ..found }));
    let sold = cut(&ask(&shafts[shafts.len() - 1..]), &Quiet).expect("a grade");
    let claims = claims(inch(32.0), &job, population, 7).expect("a grade");
    tell(BenchAnswer::Stock(&Cutting { unknown: None, ..sold }, &claims));

    let arrows = batch(path, bytes("dozen.csv")).expect("reads").found;
    let sets = [("hunt".to_owned(), 6), ("spare".to_owned(), 3)];
    let ask = SortAsk { recipe, distances, arrows: &arrows, sets: &sets, together: false, seed: 7 };
    let found = sort(&ask, &Quiet).expect("a dozen");
    tell(BenchAnswer::Sort(&Sorting { unknown: None, ..found }));

    let shots = turns(path, bytes("shots.csv")).expect("reads").found;
    let ask =
        IndexAsk { recipe, distances, arrows: &arrows, positions: None, shots: &shots, seed: 7 };
    let found = index(&ask, &Quiet).expect("arrows");
    tell(BenchAnswer::Index(&Indexing { unknown: None, ..found }));

    let shafts = batch(path, bytes("shafts.csv")).expect("reads").found;
    let loose = parts(path, bytes("parts.csv")).expect("reads").found;
    let ask = BuildAsk {
        recipe,
        distances,
        shafts: &shafts,
        parts: &loose,
        mass: None,
        foc: None,
        positions: 4,
        share: 0.05,
        seed: 7,
    };
    let mut found = build(&ask, &Quiet).expect("shafts and parts");
    found.unknown = None;
    tell(BenchAnswer::Build(&found));
    told
}
