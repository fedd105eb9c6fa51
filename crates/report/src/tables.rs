//! The tables of an answer.

use study::{Answer, BuildAnswer, Pair, SweepAnswer};
use target::Estimate;
use units::{Role, Style};

use crate::show::{
    form_share, mass_per_force, of_dimension, others, plain, plain_number, point, shots,
};
use crate::table::{Cell, Column, Table};
use crate::words;

/// One row a distance: drop, every build's group, form's share, shots to tell.
pub(crate) fn distances(answer: &Answer, style: Style) -> Table {
    let base = &answer.builds[0];
    let several = answer.pairs.len() > 1;
    let of = |name: &str| if several { format!(" {name}") } else { String::new() };
    let mut columns =
        vec![Column::of("distance", Role::Range, style), Column::of("drop", Role::Impact, style)];
    for build in &answer.builds {
        let name = if answer.builds.len() > 1 { &build.name } else { "" };
        columns.push(Column::of(format!("R50 {name}").trim_end(), Role::Impact, style));
    }
    columns.push(Column::of("form's share", Role::Percent, style));
    for (name, _) in others(answer, 0) {
        columns.push(Column::new(format!("archer tells{}", of(name)), "shots"));
        columns.push(Column::new(format!("machine tells{}", of(name)), "shots"));
    }
    let row = |(at, mark): (usize, &study::MarkAnswer)| {
        let mut cells = vec![
            Cell::text(plain_number(Role::Range, mark.distance.si(), style)),
            Cell::number(Role::Impact, mark.nominal.drop, style),
        ];
        for build in &answer.builds {
            cells.push(Cell::estimate(Role::Impact, &build.marks[at].full.stats.r50, style));
        }
        cells.push(Cell::text(
            form_share(mark)
                .map_or_else(|| "-".to_owned(), |ratio| Role::Percent.number(ratio, style)),
        ));
        for (_, pair) in others(answer, at) {
            cells.push(Cell::text(shots(pair.archer_shots)));
            cells.push(Cell::text(shots(pair.machine_shots)));
        }
        cells
    };
    Table { columns, rows: base.marks.iter().enumerate().map(row).collect() }
}

/// The groups of one build: archer and arrows, machine, form alone.
pub(crate) fn groups(build: &BuildAnswer, style: Style) -> Table {
    let role = Role::Impact;
    let mut columns = vec![Column::of("distance", Role::Range, style)];
    for head in ["R50", "R90", "machine R50", "machine R90", "form R50", "six-shot spread"] {
        columns.push(Column::of(head, role, style));
    }
    columns.push(Column::of("hits", Role::Percent, style));
    let scored = build.marks.iter().any(|mark| mark.score.is_some());
    if scored {
        columns.push(Column::new("score", "points an arrow"));
    }
    let row = |mark: &study::MarkAnswer| {
        let (full, machine) = (&mark.full.stats, &mark.machine.stats);
        let mut cells = vec![
            Cell::text(plain_number(Role::Range, mark.distance.si(), style)),
            Cell::estimate(role, &full.r50, style),
            Cell::estimate(role, &full.r90, style),
            Cell::estimate(role, &machine.r50, style),
            Cell::estimate(role, &machine.r90, style),
            Cell::estimate(role, &mark.form.stats.r50, style),
            or_dash(role, full.spread6.as_ref(), style),
            Cell::estimate(Role::Percent, &mark.hit, style),
        ];
        if scored {
            cells.push(or_dash(Role::Number, mark.score.as_ref(), style));
        }
        cells
    };
    Table { columns, rows: build.marks.iter().map(row).collect() }
}

/// An estimate, or a dash where there is none.
fn or_dash(role: Role, estimate: Option<&Estimate>, style: Style) -> Cell {
    estimate.map_or_else(|| Cell::text("-"), |e| Cell::estimate(role, e, style))
}

/// The fault-free arrow of one build on its way.
pub(crate) fn drop(build: &BuildAnswer, style: Style) -> Table {
    let columns = vec![
        Column::of("distance", Role::Range, style),
        Column::of("drop", Role::Impact, style),
        Column::of("drop band", Role::Impact, style),
        Column::of("above sight line", Role::Impact, style),
        Column::of("time", Role::Time, style),
        Column::of("speed", Role::Speed, style),
        Column::of("energy", Role::Energy, style),
        Column::of("momentum", Role::Momentum, style),
        Column::of("path pitch", Role::Angle, style),
        Column::of("spin", Role::Spin, style),
    ];
    let row = |mark: &study::MarkAnswer| {
        let n = &mark.nominal;
        vec![
            Cell::text(plain_number(Role::Range, mark.distance.si(), style)),
            Cell::number(Role::Impact, n.drop, style),
            Cell::band(Role::Impact, n.drop_band, style),
            Cell::number(Role::Impact, n.above_sight, style),
            Cell::number(Role::Time, n.time, style),
            Cell::number(Role::Speed, n.speed, style),
            Cell::number(Role::Energy, n.energy, style),
            Cell::number(Role::Momentum, n.momentum, style),
            Cell::number(Role::Angle, n.path_pitch, style),
            Cell::number(Role::Spin, n.spin, style),
        ]
    };
    Table { columns, rows: build.marks.iter().map(row).collect() }
}

/// Who would see one build beside the base.
pub(crate) fn pair(pair: &Pair, style: Style) -> Table {
    let columns = vec![
        Column::of("distance", Role::Range, style),
        Column::of("gain in R50", Role::Impact, style),
        Column::new("ratio, archer", "x"),
        Column::new("ratio, machine", "x"),
        Column::new("archer tells", "shots"),
        Column::new("machine tells", "shots"),
        Column::new("seen by", ""),
    ];
    let row = |mark: &study::PairMark| {
        vec![
            Cell::text(plain_number(Role::Range, mark.distance.si(), style)),
            Cell::estimate(Role::Impact, &mark.gain, style),
            ratio(mark.full_ratio.as_ref(), style),
            ratio(mark.machine_ratio.as_ref(), style),
            Cell::text(shots(mark.archer_shots)),
            Cell::text(shots(mark.machine_shots)),
            Cell::text(words::seen(mark.seen)),
        ]
    };
    Table { columns, rows: pair.marks.iter().map(row).collect() }
}

/// A ratio of two groups, or which of them is a point.
fn ratio(ratio: Option<&Estimate>, style: Style) -> Cell {
    match (ratio, point(ratio)) {
        (Some(ratio), None) => Cell::estimate(Role::Number, ratio, style),
        (_, which) => Cell::text(format!("{} is a point", which.unwrap_or("other"))),
    }
}

/// Machine groups with the faults of one owner alone, a row an owner.
pub(crate) fn causes(build: &BuildAnswer, style: Style) -> Table {
    let mut columns = vec![Column::new("faults of", "")];
    for mark in &build.marks {
        let range = plain(Role::Range, mark.distance.si(), style);
        columns.push(Column::of(format!("R50 at {range}"), Role::Impact, style));
    }
    let row = |cause: &study::Cause| {
        let mut cells = vec![Cell::text(words::owner(cause.owner))];
        cells.extend(cause.r50.iter().map(|r50| Cell::estimate(Role::Impact, r50, style)));
        cells
    };
    Table { columns, rows: build.causes.iter().map(row).collect() }
}

/// The builds side by side. Cells carry their own units.
pub(crate) fn card(builds: &[(&str, &BuildAnswer)], style: Style) -> Table {
    type Read = fn(&BuildAnswer, Style) -> String;
    let mut columns = vec![Column::new("", "")];
    columns.extend(builds.iter().map(|(name, _)| Column::new(*name, "")));
    let lines: [(&str, Read); 12] = [
        ("mass", |b, s| Role::Mass.text(b.built.mass.mass().si(), s)),
        ("arrow length", |b, s| Role::Part.text(b.built.length.si(), s)),
        ("balance point from groove", |b, s| Role::Part.text(b.built.mass.balance().si(), s)),
        ("front of centre (FOC)", |b, s| Role::Percent.text(b.built.foc.si(), s)),
        ("inertia across the shaft", |b, s| Role::Inertia.text(b.built.mass.transverse().si(), s)),
        ("inertia about the shaft", |b, s| Role::Inertia.text(b.built.mass.axial().si(), s)),
        ("bending stiffness", |b, s| Role::BendingStiffness.text(b.built.stiffness.si(), s)),
        ("mass over draw weight", |b, s| mass_per_force(b.mass_per_force, s)),
        ("departure speed", |b, s| Role::Speed.text(b.departure.speed, s)),
        ("departure spin", |b, s| Role::Spin.text(b.departure.spin, s)),
        ("launch angle over sight line", |b, s| Role::Angle.text(b.launch_pitch, s)),
        ("flown", |b, _| format!("{} flights", crate::show::count(b.flights as u64))),
    ];
    let rows = lines.iter().map(|(name, read)| {
        let mut cells = vec![Cell::text(*name)];
        cells.extend(builds.iter().map(|(_, build)| Cell::text(read(build, style))));
        cells
    });
    Table { columns, rows: rows.collect() }
}

/// The poorly known values and their ranges, each once, and the builds it
/// holds for where that is not all. Cells carry their own units.
pub(crate) fn doubts(builds: &[BuildAnswer], style: Style) -> Table {
    let mut found: Vec<(&study::Doubt, Vec<&str>)> = Vec::new();
    for build in builds {
        for doubt in &build.doubts {
            match found.iter_mut().find(|(known, _)| *known == doubt) {
                Some((_, names)) => names.push(&build.name),
                None => found.push((doubt, vec![&build.name])),
            }
        }
    }
    let differ = found.iter().any(|(_, names)| names.len() < builds.len());
    let unit = "with its unit, or a pure number";
    let mut columns =
        vec![Column::new("value", ""), Column::new("from", unit), Column::new("to", unit)];
    if differ {
        columns.push(Column::new("of", ""));
    }
    let row = |(doubt, names): &(&study::Doubt, Vec<&str>)| {
        let mut cells = vec![
            Cell::text(doubt.key.clone()),
            Cell::text(of_dimension(doubt.dimension, doubt.low, style)),
            Cell::text(of_dimension(doubt.dimension, doubt.high, style)),
        ];
        if differ {
            let all = names.len() == builds.len();
            cells.push(Cell::text(if all { "all".to_owned() } else { names.join("; ") }));
        }
        cells
    };
    Table { columns, rows: found.iter().map(row).collect() }
}

/// What the doubts do to drop and to the machine's group, a row a mark.
fn bands<'a>(
    first: Column,
    marks: impl Iterator<Item = (String, &'a study::MarkAnswer)>,
    style: Style,
) -> Table {
    let role = Role::Impact;
    let columns = vec![
        first,
        Column::of("drop", role, style),
        Column::of("drop band", role, style),
        Column::of("machine R50", role, style),
        Column::of("machine R50 band", role, style),
    ];
    let row = |(name, mark): (String, &study::MarkAnswer)| {
        vec![
            Cell::text(name),
            Cell::number(role, mark.nominal.drop, style),
            Cell::band(role, mark.nominal.drop_band, style),
            Cell::number(role, mark.machine.stats.r50.value, style),
            Cell::band(role, mark.machine_band, style),
        ]
    };
    Table { columns, rows: marks.map(row).collect() }
}

/// The bands of one build, a row a distance.
pub(crate) fn build_bands(build: &BuildAnswer, style: Style) -> Table {
    let name = |mark: &study::MarkAnswer| plain_number(Role::Range, mark.distance.si(), style);
    let marks = build.marks.iter().map(|mark| (name(mark), mark));
    bands(Column::of("distance", Role::Range, style), marks, style)
}

/// The bands of a sweep at one distance, a row a value.
pub(crate) fn sweep_bands(sweep: &SweepAnswer, at: usize, style: Style) -> Table {
    let marks = sweep.points.iter().map(|point| (point.label.clone(), &point.build.marks[at]));
    bands(Column::new(words::value(&sweep.key), ""), marks, style)
}

/// A sweep at one distance.
pub(crate) fn sweep(sweep: &SweepAnswer, at: usize, style: Style) -> Table {
    let columns = vec![
        Column::new(words::value(&sweep.key), ""),
        Column::of("drop", Role::Impact, style),
        Column::of("R50", Role::Impact, style),
        Column::of("machine R50", Role::Impact, style),
        Column::of("FOC", Role::Percent, style),
        Column::of("mass", Role::Mass, style),
        Column::of("speed", Role::Speed, style),
    ];
    let row = |point: &study::SweepPoint| {
        let (build, mark) = (&point.build, &point.build.marks[at]);
        vec![
            Cell::text(point.label.clone()),
            Cell::number(Role::Impact, mark.nominal.drop, style),
            Cell::estimate(Role::Impact, &mark.full.stats.r50, style),
            Cell::estimate(Role::Impact, &mark.machine.stats.r50, style),
            Cell::number(Role::Percent, build.built.foc.si(), style),
            Cell::number(Role::Mass, build.built.mass.mass().si(), style),
            Cell::number(Role::Speed, mark.nominal.speed, style),
        ]
    };
    Table { columns, rows: sweep.points.iter().map(row).collect() }
}
