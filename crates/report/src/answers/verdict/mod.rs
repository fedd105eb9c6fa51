//! What two groups really shot say of each other.

mod shift;
mod words;

pub(super) use shift::{far_off, way};
pub(super) use words::{apart, sentence};

use draw::{Figure, Frame, Frames, INK, Mark, Pen, Series, Shape, series};
use study::{ShotGroup, TwoGroups};
use units::{Role, Style};

use super::common::care;
use crate::ReportError;
use crate::document::{Cell, Document, Part, Table, facts, head, say, table_of};

/// Room of a frame over the farthest shot, or over the mean radius where no
/// shot is known.
const ROOM: f64 = 1.12;

/// The verdict, and what it would take to be sure.
///
/// # Errors
/// [`ReportError::NotFinite`] names the first bad number; and
/// [`ReportError::Draw`] where the picture cannot be drawn.
pub fn verdict(judged: &TwoGroups, version: &str, style: Style) -> Result<Document, ReportError> {
    let mut parts = vec![Part::Figure(picture(judged, style)), Part::Table(groups(judged))];
    parts.push(say("Sigma: the standard deviation of each axis, with its 95 % interval."));
    parts.extend(words::centre(judged, style).into_iter().map(say));
    parts.extend(words::further(judged).into_iter().map(say));
    let from = say(format!("Clothyard {version}, from the shots given."));
    parts.push(Part::Page([care(), [head("Where this comes from"), from]].concat()));
    parts.extend([found(judged), places(judged)].map(Part::Data));
    let [first, second] = [0, 1].map(|at| judged.groups[at].name.as_str());
    let title = format!("{first} against {second}");
    let answer = words::answer(judged, style);
    let mut short = vec![say(answer.clone()), Part::Table(groups_shortly(judged))];
    let needed = words::further(judged).into_iter().take(1);
    short.extend(words::centre(judged, style).into_iter().chain(needed).map(say));
    Document::new("verdict", title, answer, parts, style)?.shortly(short)
}

/// Each group about its own centre, with its mean radius.
fn picture(judged: &TwoGroups, style: Style) -> Figure {
    let value = |si: f64| Role::Impact.value(si, style);
    let far = |group: &ShotGroup| {
        let shots = group.shots.iter().map(|shot| shot.left.abs().max(shot.up.abs()));
        ROOM * shots.fold(group.mean_radius, f64::max)
    };
    let half = value(judged.groups.iter().map(far).fold(0.0, f64::max));
    let frame = |(at, group): (usize, &ShotGroup)| {
        let shots = group.shots.iter().map(|shot| (value(shot.left), value(shot.up))).collect();
        let ring = Mark::ring((0.0, 0.0), value(group.mean_radius), Pen::solid(INK, 1.3));
        let shots = Series::spots(shots, Shape::Dot(3.0, 0.8), series(at)).into();
        let mut frame = Frame::new((half, half), vec![shots, ring]);
        frame.head = format!("{}, {} shots", group.name, group.count);
        frame.under = vec![Role::Impact.text(group.mean_radius, style)];
        frame
    };
    let frames = judged.groups.iter().enumerate().map(frame).collect();
    let caption = format!(
        "Each group about its own centre, both on one scale. Ring: the mean radius, {}.",
        Role::Impact.symbol(style)
    );
    Figure::new("verdict", caption, Frames::on_one_scale(Frames::rows(frames, 2), ""))
}

pub(super) fn groups(judged: &TwoGroups) -> Table {
    table_of("verdict", &judged.groups)
        .words("group", |group| &group.name)
        .counts("shots", "", |group| group.count as u64)
        .quantity("mean radius", Role::Impact, |group| group.mean_radius)
        .estimate("sigma", Role::Impact, |group| group.spread.estimate())
        .quantity("centre left", Role::Impact, |group| group.centre.map(|centre| centre.left))
        .quantity("centre up", Role::Impact, |group| group.centre.map(|centre| centre.up))
        .done()
}

/// The same without what only a statistician asks for.
fn groups_shortly(judged: &TwoGroups) -> Table {
    table_of("short", &judged.groups)
        .words("group", |group| &group.name)
        .counts("shots", "", |group| group.count as u64)
        .quantity("mean radius", Role::Impact, |group| group.mean_radius)
        .quantity("centre left", Role::Impact, |group| group.centre.map(|centre| centre.left))
        .quantity("centre up", Role::Impact, |group| group.centre.map(|centre| centre.up))
        .done()
}

fn found(judged: &TwoGroups) -> Table {
    let verdict = &judged.verdict;
    let number = |si| Cell::Quantity(Role::Number, si);
    let share = |si| Cell::Quantity(Role::Percent, si);
    let [first, second] = [0, 1].map(|at| number(judged.groups[at].spread.freedom));
    let rows = [
        ("told", Cell::from(if verdict.told() { "yes" } else { "no" })),
        ("ratio, first over second", Cell::Estimate(Role::Number, verdict.ratio)),
        ("chance if alike", share(verdict.chance)),
        ("least ratio shown", number(verdict.least)),
        ("shots with each if this is the ratio", Cell::Shots(judged.shots())),
        ("confidence", share(judged.power_test.confidence())),
        ("power", share(judged.power_test.power())),
        ("degrees of freedom, first group", first),
        ("degrees of freedom, second group", second),
    ];
    let mut rows = rows.to_vec();
    if let Some(centres) = &judged.centres {
        rows.extend([
            ("centres told apart", Cell::from(if centres.told { "yes" } else { "no" })),
            ("second centre left of the first", Cell::Estimate(Role::Impact, centres.left)),
            ("second centre above the first", Cell::Estimate(Role::Impact, centres.up)),
            ("T squared of the centres", number(centres.t_squared)),
            ("chance if one centre", share(centres.chance)),
        ]);
        rows.extend(
            judged
                .centre_shots()
                .map(|shots| ("shots with each if the centres lie so", Cell::Shots(shots))),
        );
    }
    facts("found", ["of the verdict", "value"], rows)
}

/// Where the shots lie about their own centre.
fn places(judged: &TwoGroups) -> Table {
    let all = judged.groups.iter().flat_map(|group| group.shots.iter().map(move |s| (group, s)));
    table_of("places", all)
        .words("group", |(group, _)| &group.name)
        .quantity("left", Role::Impact, |(_, shot)| shot.left)
        .quantity("up", Role::Impact, |(_, shot)| shot.up)
        .done()
}
