//! The tables of a comparison.

use study::{
    After, BuildAnswer, BuildMeasure, MarkAnswer, Pair, PairMark, PowerRow, Sampled, SidePair,
    UncertainParameter,
};
use target::Estimate;
use units::Role;

use super::super::common::shot;
use super::case::Case;
use super::words;
use crate::document::{Cell, Kind, Rows, Table, table, table_of};
use crate::show::{form_share, holds, point};
use crate::words::{owner, seen};

/// Measures in the order shown.
const MEASURES: [BuildMeasure; 9] = [
    BuildMeasure::Drop,
    BuildMeasure::Drift,
    BuildMeasure::Time,
    BuildMeasure::Speed,
    BuildMeasure::Energy,
    BuildMeasure::Momentum,
    BuildMeasure::R50,
    BuildMeasure::Hit,
    BuildMeasure::Score,
];

/// One row a distance: drop, every build's group, form's share, shots to tell.
pub(super) fn distances(case: Case) -> Table {
    let marks = &case.builds[0].marks;
    let of = |pair: &Pair| match case.pairs.len() {
        1 => String::new(),
        _ => format!(" {}", case.name(pair.other)),
    };
    table_of("distances", marks.iter().enumerate())
        .quantity("distance", Role::Range, |(_, mark)| mark.distance.si())
        .quantity("drop", Role::Impact, |(_, mark)| mark.nominal.drop)
        .each(case.builds, |rows, build| {
            let name = if case.several() { format!("R50 {}", build.name) } else { "R50".into() };
            rows.estimate(name, Role::Impact, |(at, _)| build.marks[*at].full.stats.r50)
        })
        .quantity("form's share", Role::Percent, |(_, mark)| form_share(mark))
        .each(case.pairs, |rows, pair| {
            rows.shots(format!("archer tells{}", of(pair)), |(at, _)| pair.marks[*at].archer_shots)
                .shots(format!("machine tells{}", of(pair)), |(at, _)| {
                    pair.marks[*at].machine_shots
                })
        })
        .done()
}

/// A group of a build: where, whose, and how it was flown.
type Group<'a> = (&'a MarkAnswer, &'static str, &'a Sampled);

/// The groups of one build: archer and arrows, machine, form alone.
pub(super) fn kinds(build: &BuildAnswer) -> impl Iterator<Item = Group<'_>> {
    build.marks.iter().flat_map(|mark| {
        [(mark, "full", &mark.full), (mark, "machine", &mark.machine), (mark, "form", &mark.form)]
    })
}

/// The size of each, and what the archer's hits.
pub(in super::super) fn groups(build: &BuildAnswer) -> Table {
    let scored = build.marks.iter().any(|mark| mark.score.is_some());
    let full = |r: &Group| r.1 == "full";
    let shot = shot(build);
    table_of("groups", kinds(build))
        .quantity("distance", Role::Range, |r| r.0.distance.si())
        .words("group", |r| r.1)
        .group(|r| &r.2.stats)
        .estimate("hits", Role::Percent, |r| (full(r) && shot).then_some(r.0.hit))
        .when(scored && shot, |rows| {
            rows.estimate("score of an arrow", Role::Number, |r| r.0.score.filter(|_| full(r)))
        })
        .done()
}

/// The fault-free arrow on its way.
pub(in super::super) fn drop(marks: &[MarkAnswer]) -> Table {
    table_of("drop", marks)
        .quantity("distance", Role::Range, |m| m.distance.si())
        .quantity("drop below line of departure", Role::Impact, |m| m.nominal.drop)
        .quantity("above line of sight", Role::Impact, |m| m.nominal.above_sight)
        .quantity("left of line to target", Role::Impact, |m| m.nominal.left)
        .quantity("time", Role::Time, |m| m.nominal.time)
        .quantity("speed", Role::Speed, |m| m.nominal.speed)
        .quantity("energy", Role::Energy, |m| m.nominal.energy)
        .quantity("momentum", Role::Momentum, |m| m.nominal.momentum)
        .quantity("path pitch", Role::Angle, |m| m.nominal.path_pitch)
        .quantity("spin", Role::Spin, |m| m.nominal.spin)
        .done()
}

impl<T> Rows<T> {
    /// A ratio of two groups; none where one of them is a point.
    fn ratio(self, head: String, read: impl Fn(&T) -> Option<Estimate>) -> Self {
        self.cells(head, Kind::Estimates(Role::Number), |thing| {
            let ratio = read(thing);
            match (ratio, point(ratio.as_ref())) {
                (Some(ratio), _) => Cell::Estimate(Role::Number, ratio),
                (None, Some("base")) => Cell::None("base is a point"),
                (None, _) => Cell::None("other is a point"),
            }
        })
    }
}

/// Who would see one build beside the base.
pub(in super::super) fn pair(pair: &Pair) -> Table {
    type Read = fn(&PairMark) -> Option<Estimate>;
    let who: [(&str, Read); 2] = [("archer", |m| m.full_ratio), ("machine", |m| m.machine_ratio)];
    table_of("pairs", &pair.marks)
        .quantity("distance", Role::Range, |mark| mark.distance.si())
        .estimate("gain in R50", Role::Impact, |mark| mark.gain)
        .quantity("lands left with one sight", Role::Impact, |mark| {
            mark.one_sight.map(|of| of.shift.left)
        })
        .filed()
        .quantity("lands up with one sight", Role::Impact, |mark| {
            mark.one_sight.map(|of| of.shift.up)
        })
        .filed()
        .each(who, |rows, (who, read)| {
            rows.ratio(format!("group ratio {who}"), |mark| read(mark))
                .words(format!("{who}'s group that is a point"), |mark| {
                    point(read(mark).as_ref()).unwrap_or("none")
                })
        })
        .shots("archer shots", |mark| mark.archer_shots)
        .shots("machine shots", |mark| mark.machine_shots)
        .words("seen by", |mark| seen(mark.seen))
        .done()
}

/// Machine groups with the faults of one owner alone.
pub(in super::super) fn causes(build: &BuildAnswer) -> Table {
    let rows = build
        .causes
        .iter()
        .flat_map(|cause| build.marks.iter().zip(&cause.r50).map(move |mark| (cause, mark)));
    table_of("causes", rows)
        .words("faults of", |(cause, _)| owner(cause.owner))
        .quantity("distance", Role::Range, |(_, (mark, _))| mark.distance.si())
        .estimate("machine R50", Role::Impact, |(_, (_, r50))| **r50)
        .done()
}

/// The builds as built and as they leave: measures down, builds across.
pub(in super::super) fn card(builds: &[(&str, &BuildAnswer)]) -> Table {
    type Row = (&'static str, Role, fn(&BuildAnswer) -> f64);
    const ROWS: [Row; 19] = [
        ("mass", Role::Mass, |b| b.built.mass.mass().si()),
        ("arrow length", Role::Part, |b| b.built.length.si()),
        ("balance point from groove", Role::Part, |b| b.built.mass.balance().si()),
        ("front of centre (FOC)", Role::Percent, |b| b.built.foc.si()),
        ("inertia across the shaft", Role::Inertia, |b| b.built.mass.transverse().si()),
        ("inertia about the shaft", Role::Inertia, |b| b.built.mass.axial().si()),
        ("bending stiffness", Role::BendingStiffness, |b| b.built.stiffness.si()),
        ("mass over draw weight", Role::MassPerForce, |b| b.mass_per_force),
        ("departure speed", Role::Speed, |b| b.departure.speed),
        ("departure spin", Role::Spin, |b| b.departure.spin),
        ("going left", Role::Speed, |b| b.departure.velocity_left),
        ("going up", Role::Speed, |b| b.departure.velocity_up),
        ("nose left", Role::Angle, |b| b.departure.yaw),
        ("nose up", Role::Angle, |b| b.departure.pitch),
        ("nose turning left", Role::Rate, |b| b.departure.yaw_rate),
        ("nose turning up", Role::Rate, |b| b.departure.pitch_rate),
        ("roll at departure", Role::Angle, |b| b.departure.roll),
        ("launch angle over sight line", Role::Angle, |b| b.launch_pitch),
        ("steps of a flight", Role::Points, |b| f64::from(b.steps)),
    ];
    let mut columns = vec![("arrow".to_owned(), Kind::Words)];
    columns.extend(builds.iter().map(|(name, _)| ((*name).to_owned(), Kind::Own)));
    let row = |name: &str, cell: &dyn Fn(&BuildAnswer) -> Cell| {
        std::iter::once(Cell::from(name)).chain(builds.iter().map(|(_, b)| cell(b))).collect()
    };
    let mut rows: Vec<Vec<Cell>> = ROWS
        .iter()
        .map(|(name, role, read)| row(name, &|build| Cell::Quantity(*role, read(build))))
        .collect();
    rows.push(row("flights flown", &|build| Cell::Count(build.flights as u64)));
    table("arrows", columns, rows)
}

/// The poorly known values and their ranges, each once, and the builds it
/// holds for.
pub(in super::super) fn uncertain(builds: &[BuildAnswer]) -> Table {
    let mut found: Vec<(&UncertainParameter, Vec<&str>)> = Vec::new();
    for build in builds {
        for doubt in &build.uncertain {
            match found.iter_mut().find(|(known, _)| *known == doubt) {
                Some((_, names)) => names.push(&build.name),
                None => found.push((doubt, vec![&build.name])),
            }
        }
    }
    let differ = found.iter().any(|(_, names)| names.len() < builds.len());
    let whose = |names: &[&str]| {
        if names.len() == builds.len() { "all".to_owned() } else { names.join("; ") }
    };
    table_of("doubts", found)
        .and_range(|(doubt, _)| doubt)
        .when(differ, |rows| rows.words("of", |(_, names)| whose(names)))
        .done()
}

/// Every build at one distance: a row a measure, a column a build.
pub(super) fn side_by_side(case: Case, at: usize) -> Table {
    let mark = |build: usize| &case.builds[build].marks[at];
    let side = |build: usize| &case.sides.builds[build].marks[at];
    let all = 0..case.builds.len();
    let mut columns = vec![("at this distance".to_owned(), Kind::Words)];
    columns.extend(all.clone().map(|build| {
        let name = if case.several() { case.name(build) } else { "this build" };
        (name.to_owned(), Kind::Own)
    }));
    let row = |name: String, cell: &dyn Fn(usize) -> Cell| -> Vec<Cell> {
        std::iter::once(Cell::Word(name)).chain(all.clone().map(cell)).collect()
    };
    let scored = mark(0).score.is_some();
    let measures = MEASURES.into_iter().filter(|of| match of {
        BuildMeasure::Score => scored && case.shot(),
        BuildMeasure::Hit => case.shot(),
        _ => true,
    });
    let mut rows: Vec<Vec<Cell>> = measures
        .map(|of| row(words::measure(of, case).to_owned(), &|build| measured(case, build, at, of)))
        .collect();
    let round = |build: usize| side(build).round;
    if let Some(first) = all.clone().find_map(round).filter(|_| case.shot()) {
        rows.push(row(format!("round of {} arrows, points", first.arrows), &|build| {
            round(build).map_or(Cell::None(""), |r| Cell::Estimate(Role::Points, r.mean))
        }));
        rows.push(row("19 rounds in 20 score".to_owned(), &|build| {
            let ends = |r: study::RoundScore| (f64::from(r.low), f64::from(r.high));
            round(build)
                .map(ends)
                .map_or(Cell::None(""), |(low, high)| Cell::Band(Role::Points, low, high))
        }));
    }
    let told = if case.shot() { side(0).misjudged.as_slice() } else { &[] };
    for (which, misjudged) in told.iter().enumerate() {
        let wrong = words::wrong(misjudged.what, &case.sides.stated, case.style);
        let what = if misjudged.score.is_some() { "score" } else { case.hits() };
        rows.push(row(format!("{what}, {wrong}"), &|build| {
            let found = &side(build).misjudged[which];
            match found.score {
                Some(score) => Cell::Estimate(Role::Number, score),
                None => Cell::Estimate(Role::Percent, found.hit),
            }
        }));
    }
    table("side-by-side", columns, rows).at("distance", Role::Range, mark(0).distance.si())
}

fn measured(case: Case, build: usize, at: usize, of: BuildMeasure) -> Cell {
    let mark = &case.builds[build].marks[at];
    match of {
        BuildMeasure::R50 => Cell::Estimate(Role::Impact, mark.full.stats.r50),
        BuildMeasure::Hit => Cell::Estimate(Role::Percent, mark.hit),
        BuildMeasure::Score => {
            mark.score.map_or(Cell::None(""), |score| Cell::Estimate(Role::Number, score))
        }
        BuildMeasure::Drop
        | BuildMeasure::Drift
        | BuildMeasure::Time
        | BuildMeasure::Speed
        | BuildMeasure::Energy
        | BuildMeasure::Momentum => {
            Cell::Quantity(words::role(of), words::number(case, build, at, of))
        }
    }
}

/// The differences of two builds at one distance. Of the fault-free arrow they
/// have a band, of groups a 95 % interval.
pub(super) fn differences(case: Case, pair: &SidePair, at: usize) -> Table {
    let mark = &pair.marks[at];
    let group = |of| matches!(of, BuildMeasure::R50 | BuildMeasure::Hit | BuildMeasure::Score);
    let shot = case.shot();
    let told = |of| shot || !matches!(of, BuildMeasure::Hit | BuildMeasure::Score);
    table_of("differences", mark.differences.iter().filter(|d| told(d.of)))
        .words("difference of", |d| words::measure(d.of, case))
        .cells("other less one", Kind::Own, |d| {
            let Estimate { value, low, high } = d.value;
            if group(d.of) {
                Cell::Estimate(words::role(d.of), d.value)
            } else {
                Cell::Banded(words::role(d.of), study::Banded { value, low, high })
            }
        })
        .signed()
        .words("shown", |d| if d.shown() { "yes" } else { "no" })
        .done()
        .of("one", case.name(pair.one))
        .of("other", case.name(pair.other))
        .at("distance", Role::Range, mark.distance.si())
}

/// How often a comparison misleads, by shots with each build.
pub(super) fn told(case: Case, pair: &SidePair, at: usize) -> Table {
    let mark = &pair.marks[at];
    let both = [("archer", &mark.archer), ("machine", &mark.machine)];
    let rows =
        both.into_iter().flat_map(|(who, told)| told.after.iter().map(move |a| (who, told, a)));
    // Which group is the wrong build's is not known where either may be wider.
    let unknown = |told: &PowerRow| told.ratio.is_some_and(|ratio| holds(&ratio, 1.0));
    table_of::<(&str, &PowerRow, &After)>("told", rows)
        .words("who", |r| r.0)
        .ratio("group ratio".to_owned(), |r| r.1.ratio)
        .shots("shots to tell", |r| r.1.shots)
        .counts("shots with each", "", |r| r.2.shots.into())
        .quantity("smaller group is the wrong build's", Role::Percent, |r| r.2.odds.wrong)
        .quantity("test sees nothing", Role::Percent, |r| r.2.odds.missed)
        .quantity("test says the opposite", Role::Percent, |r| r.2.odds.reversed)
        .quantity("picked: smaller group is the wrong build's", Role::Percent, |r| r.2.picked_wrong)
        .quantity("picked: test sees nothing", Role::Percent, |r| r.2.picked_missed)
        .words("which is wider", |r| if unknown(r.1) { "not shown" } else { "shown" })
        .done()
        .of("one", case.name(pair.one))
        .of("other", case.name(pair.other))
        .at("distance", Role::Range, mark.distance.si())
}
