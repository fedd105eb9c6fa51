//! One value swept.

use study::{BuildAnswer, Found, Joint, Nominal, SweepAnswer, SweepPoint, Swept};
use units::{Role, Style};

use super::common::{care, notes, of};
use super::compare::{self, check_builds, data, tables};
use super::unknown::{self, Asked};
use crate::document::{Cell, Document, Part, Table, fold, head, list, say, small, table_of};
use crate::show::{middle, plain};
use crate::words::value;
use crate::{ReportError, plots, prose};

/// Every value of every sweep.
///
/// # Errors
/// [`ReportError::NoBuild`] and [`ReportError::Ragged`] for lists that do not
/// fit together, [`ReportError::NotFinite`] for the first bad number.
pub(super) fn sweep(
    title: &str,
    found: &Swept,
    joint: Option<&Joint<Found>>,
    style: Style,
) -> Result<Document, ReportError> {
    let sweeps = &found.sweeps;
    let points = || sweeps.iter().flat_map(|sweep| &sweep.points);
    let expected = points().next().map_or(0, |point| point.build.marks.len());
    if expected == 0 {
        return Err(ReportError::NoBuild);
    }
    check_builds(&found.builds, expected)?;
    points().try_for_each(|p| check_builds(std::slice::from_ref(&p.build), expected))?;
    let several = sweeps.iter().any(|sweep| sweep.build != sweeps[0].build);
    let mut parts = Vec::new();
    for (at, sweep) in sweeps.iter().enumerate() {
        parts.extend(swept(sweep, at, several, style));
    }
    parts.push(say(compare::words::READ));
    let mut arrows = vec![head("The arrows")];
    let mut sure = vec![head("How sure is this"), list(prose::SURE)];
    for sweep in sweeps {
        let named: Vec<(&str, &BuildAnswer)> =
            sweep.points.iter().map(|point| (point.label.as_str(), &point.build)).collect();
        let of = of(several, &sweep.build);
        arrows.push(small(format!("By {}{of}", value(&sweep.key))));
        arrows.push(Part::Table(keyed(tables::card(&named), sweep)));
        let builds: Vec<BuildAnswer> = sweep.points.iter().map(|p| p.build.clone()).collect();
        if builds.iter().any(|build| !build.uncertain.is_empty()) {
            let inside = vec![Part::Table(keyed(tables::uncertain(&builds), sweep))];
            sure.push(fold(format!("The poorly known values{of}"), inside));
        }
        parts.extend(files(sweep).into_iter().map(Part::Data));
    }
    // The builds as they stand, which nothing above shows.
    for build in &found.builds {
        let keyed = [tables::drop(&build.marks), tables::causes(build), tables::groups(build)]
            .map(|table| table.of("build", &build.name));
        parts.extend(keyed.map(Part::Data));
        parts.push(Part::Data(data::impacts(build)));
    }
    for pair in &found.pairs {
        let [base, other] = [pair.base, pair.other].map(|at| found.builds[at].name.as_str());
        parts.push(Part::Data(tables::pair(pair).of("base", base).of("other", other)));
    }
    parts.extend(not_known(found, joint, style));
    parts.push(Part::Page(arrows));
    parts.extend(notes(points().map(|p| (p.label.as_str(), &p.build.built)), style));
    sure.extend(care());
    parts.push(Part::Page(sure));
    let lead =
        sweeps.first().map_or_else(String::new, |sweep| headline(several, sweep, joint, style));
    let short = sweeps.first().map_or_else(Vec::new, |sweep| short(several, sweep, joint, style));
    Document::new("sweep", title, lead, parts, style)?.shortly(short)
}

/// The first sweep of an answer.
fn first(found: &Found) -> Option<&SweepAnswer> {
    match found {
        Found::Sweep(swept) => swept.sweeps.first(),
        _ => None,
    }
}

/// What of the impact a sweep moves most, at one distance; that leads. Both are lengths on
/// the target beside one and the same group, so the longer is what an archer notices first.
#[derive(Debug, Clone, Copy)]
enum Moves {
    Drop,
    /// Sideways: whether it counts to the right, and whether from the first value, which is
    /// a calm.
    Side {
        right: bool,
        calm: bool,
    },
}

impl Moves {
    fn most(sweep: &SweepAnswer, at: usize) -> Self {
        let marks = || sweep.points.iter().map(|point| &point.build.marks[at].nominal);
        let span = |read: fn(&Nominal) -> f64| {
            let (low, high) = marks()
                .map(read)
                .fold((f64::MAX, f64::MIN), |(low, high), v| (low.min(v), high.max(v)));
            high - low
        };
        if span(|of| of.left) <= span(|of| of.drop) {
            return Self::Drop;
        }
        let calm = sweep.key == "wind.speed"
            && sweep.points.first().is_some_and(|first| first.value <= 0.0);
        let from = if calm { marks().next().map_or(0.0, |first| first.left) } else { 0.0 };
        let far = marks().map(|of| of.left - from).max_by(|a, b| a.abs().total_cmp(&b.abs()));
        Self::Side { right: far.is_some_and(|left| left < 0.0), calm }
    }

    /// Of one value, beside the first.
    fn of(self, one: &SweepPoint, first: &SweepPoint, at: usize) -> Option<f64> {
        let [one, first] =
            [one, first].map(|point| point.build.marks.get(at).map(|mark| &mark.nominal));
        Some(match self {
            Self::Drop => one?.drop,
            Self::Side { right, calm } => {
                let left = if calm { one?.left - first?.left } else { one?.left };
                // Without a negative zero.
                if right { 0.0 - left } else { left }
            }
        })
    }

    fn name(self) -> &'static str {
        match self {
            Self::Drop => "drop",
            Self::Side { right: false, calm: true } => "drift to the left",
            Self::Side { right: true, calm: true } => "drift to the right",
            Self::Side { right: false, calm: false } => "place left of the line",
            Self::Side { right: true, calm: false } => "place right of the line",
        }
    }
}

/// Whether a swept key is given to the archer, not chosen: wind, air and slope.
fn given(key: &str) -> bool {
    ["wind.", "air.", "range."].iter().any(|table| key.starts_with(table))
}

/// What is not known of how far the impact goes from the first value to the last.
fn not_known(found: &Swept, joint: Option<&Joint<Found>>, style: Style) -> Vec<Part> {
    let Some(point) = found.sweeps.first().and_then(|sweep| sweep.points.first()) else {
        return Vec::new();
    };
    let at = middle(&point.build);
    let range = plain(Role::Range, point.build.marks[at].distance.si(), style);
    let moves = found.sweeps.first().map_or(Moves::Drop, |sweep| Moves::most(sweep, at));
    let read = |found: &Found| {
        let points = &first(found)?.points;
        let place = |point: &SweepPoint| moves.of(point, points.first()?, at);
        Some(place(points.last()?)? - place(points.first()?)?)
    };
    let rises = found.sweeps.first().and_then(|sweep| {
        let place = |point: &SweepPoint| moves.of(point, sweep.points.first()?, at);
        Some(place(sweep.points.last()?)? > place(sweep.points.first()?)?)
    });
    let verdict = |found: &Found| read(found).map(|change| change > 0.0) == rises;
    let what =
        format!("the change of {} at {range} from the first value to the last", moves.name());
    unknown::section(joint, &[Asked { what, read: &read, verdict: &verdict }])
}

/// What is said of every row of a sweep.
fn keyed(table: Table, sweep: &SweepAnswer) -> Table {
    table.of("build", &sweep.build).of("swept", &sweep.key)
}

fn swept(sweep: &SweepAnswer, index: usize, several: bool, style: Style) -> Vec<Part> {
    let Some(first) = sweep.points.first() else { return Vec::new() };
    let open = middle(&first.build);
    let range = |at: usize| plain(Role::Range, first.build.marks[at].distance.si(), style);
    let mut parts = vec![head(format!("The {}{}", value(&sweep.key), of(several, &sweep.build)))];
    parts.extend(plots::sweep(sweep, index, &of(several, &sweep.build), style).map(Part::Figure));
    parts.push(small(format!("At {}", range(open))));
    parts.push(Part::Table(at_distance(sweep, open)));
    let rest = (0..first.build.marks.len()).filter(|&at| at != open);
    parts.extend(
        rest.map(|at| fold(format!("At {}", range(at)), vec![Part::Table(at_distance(sweep, at))])),
    );
    parts
}

/// A sweep at one distance.
fn at_distance(sweep: &SweepAnswer, at: usize) -> Table {
    let mark = |point: &&SweepPoint| point.build.marks[at].clone();
    let table = table_of("swept", &sweep.points)
        .words(value(&sweep.key), |point| &point.label)
        .quantity("drop", Role::Impact, |point| mark(point).nominal.drop)
        .estimate("R50", Role::Impact, |point| mark(point).full.stats.r50)
        .estimate("machine R50", Role::Impact, |point| mark(point).machine.stats.r50)
        .quantity("FOC", Role::Percent, |point| point.build.built.foc.si())
        .quantity("mass", Role::Mass, |point| point.build.built.mass.mass().si())
        .quantity("speed", Role::Speed, |point| mark(point).nominal.speed)
        .done();
    let distance = sweep.points.first().map_or(0.0, |p| p.build.marks[at].distance.si());
    keyed(table, sweep).at("distance", Role::Range, distance)
}

/// Every table that only files hold.
fn files(sweep: &SweepAnswer) -> Vec<Table> {
    let mut tables = Vec::new();
    for point in &sweep.points {
        let value = Cell::Quantity(Role::of(sweep.dimension), point.value);
        let own = |table: Table| {
            table.of("swept", &sweep.key).of("value", &point.label).with("is", &value)
        };
        tables.push(own(data::impacts(&point.build)));
        for table in [
            tables::drop(&point.build.marks),
            tables::causes(&point.build),
            tables::groups(&point.build),
        ] {
            tables.push(own(table.of("build", &sweep.build)));
        }
    }
    tables
}

fn headline(
    several: bool,
    sweep: &SweepAnswer,
    joint: Option<&Joint<Found>>,
    style: Style,
) -> String {
    let (Some(first), Some(last)) = (sweep.points.first(), sweep.points.last()) else {
        return format!("The sweep of {} holds no value.", value(&sweep.key));
    };
    let at = middle(&first.build);
    let [best, worst] = sweep.extremes(at).unwrap_or([first, last]);
    let mark = &first.build.marks[at];
    let range = plain(Role::Range, mark.distance.si(), style);
    let start = format!(
        "Taking the {}{} from {} to {}",
        value(&sweep.key),
        of(several, &sweep.build),
        first.label,
        last.label,
    );
    let told = |own: f64, read: &dyn Fn(&Found) -> Option<f64>| {
        let band = joint.and_then(|joint| joint.band(own, read));
        unknown::figure(Role::Impact, own, band, style)
    };
    // By label: at an outer point the extremes may be others.
    let r50_of = |point: &SweepPoint| {
        let same = |found: &Found| {
            let points = &self::first(found)?.points;
            let same = points.iter().find(|one| one.label == point.label)?;
            Some(same.build.marks.get(at)?.full.stats.r50.value)
        };
        told(point.r50(at).value, &same)
    };
    let moves = Moves::most(sweep, at);
    let place_of = |point: usize, own: &SweepPoint| {
        let read = |found: &Found| {
            let points = &self::first(found)?.points;
            moves.of(points.get(point)?, points.first()?, at)
        };
        told(moves.of(own, first, at).unwrap_or_default(), &read)
    };
    let moved = format!(
        "the {} goes from {} to {}",
        moves.name(),
        place_of(0, first),
        place_of(sweep.points.len() - 1, last)
    );
    if best.r50(at).high >= worst.r50(at).low {
        return format!(
            "{start} shows no change in the group at {range} beyond its 95 % interval: half of your \
             arrows land within {} of the middle, and {moved}.",
            r50_of(first)
        );
    }
    format!(
        "{start} changes the group: at {range} half of your arrows land within {} of the middle at \
         first and within {} at last, and {moved}; the tightest group, {}, is at {}.",
        r50_of(first),
        r50_of(last),
        r50_of(best),
        best.label,
    )
}

/// How far FOC goes, where a part of the arrow is swept.
fn balance(first: &SweepPoint, last: &SweepPoint, style: Style) -> String {
    let [from, to] =
        [first, last].map(|point| Role::Percent.text(point.build.built.foc.si(), style));
    if from == to { String::new() } else { format!(", FOC from {from} to {to}") }
}

/// Rows of the short table. Chosen: eight values show which way it goes.
const ROWS: usize = 8;

/// The short answer, of the first sweep.
fn short(
    several: bool,
    sweep: &SweepAnswer,
    joint: Option<&Joint<Found>>,
    style: Style,
) -> Vec<Part> {
    let (Some(first), Some(last)) = (sweep.points.first(), sweep.points.last()) else {
        return vec![say(headline(several, sweep, joint, style))];
    };
    let at = middle(&first.build);
    let mark = |point: &SweepPoint| point.build.marks[at].clone();
    let range = plain(Role::Range, mark(first).distance.si(), style);
    let inches = |si: f64| Role::Impact.text(si, style);
    let [best, worst] = sweep.extremes(at).unwrap_or([first, last]);
    let group = if best.r50(at).high >= worst.r50(at).low {
        "the group stays as it is".to_owned()
    } else {
        format!(
            "the group is tightest at {} ({}) and widest at {} ({})",
            best.label,
            inches(best.r50(at).value),
            worst.label,
            inches(worst.r50(at).value)
        )
    };
    let steps = (sweep.points.len() - 1).div_ceil(ROWS - 1).max(1);
    // Every so manieth, and always the last.
    let mut shown: Vec<&SweepPoint> = sweep.points.iter().step_by(steps).collect();
    if !std::ptr::eq(shown[shown.len() - 1], last) {
        shown.push(last);
    }
    let bands = unknown::bands(joint.is_some());
    let moves = Moves::most(sweep, at);
    let foc = balance(first, last, style);
    // An arrow that stays as it is needs no column.
    let balances = !foc.is_empty();
    let table = table_of("short", shown)
        .words(value(&sweep.key), |point| &point.label)
        .when(matches!(moves, Moves::Side { .. }), |rows| {
            rows.quantity(moves.name(), Role::Impact, |point| moves.of(point, first, at))
        })
        .quantity("drop", Role::Impact, |point| mark(point).nominal.drop)
        .quantity("half within", Role::Impact, |point| point.r50(at).value)
        .quantity("speed there", Role::Speed, |point| mark(point).nominal.speed)
        .decimals(0)
        .when(balances, |rows| {
            rows.quantity("FOC", Role::Percent, |point| point.build.built.foc.si())
                .quantity("mass", Role::Mass, |point| point.build.built.mass.mass().si())
                .decimals(0)
        })
        .done();
    let place = |point: &SweepPoint| moves.of(point, first, at).unwrap_or_default();
    let tightest = if given(&sweep.key) {
        "Next: this is given, not chosen: allow for it, and shoot to see how much it is for you."
    } else if best.r50(at).high >= worst.r50(at).low {
        match moves {
            Moves::Drop => {
                "Next: choose by drop and speed; no group of yours will tell these apart."
            }
            Moves::Side { .. } => {
                "Next: shoot the first and the last side by side; the groups are as wide, and \
                 where they lie tells them apart."
            }
        }
    } else {
        "Next: shoot the tightest and your own side by side; `clothyard verdict` says how many \
         arrows that takes."
    };
    vec![
        say(format!(
            "From {} to {} of {}{} the {} at {range} goes from {} to {}{}; {group}.",
            first.label,
            last.label,
            value(&sweep.key),
            of(several, &sweep.build),
            moves.name(),
            inches(place(first)),
            inches(place(last)),
            foc
        )),
        say(format!("At {range}{bands}:")),
        Part::Table(table),
        say(tightest),
    ]
}
