//! What two groups really shot say of each other.

mod words;

use draw::{Figure, Frame, Frames, INK, Mark, Pen, Series, Shape, series};
use study::Shots;
use target::{Group, Impact, PowerTest, Spread, TargetError, Verdict};
use units::{Role, Style};

use super::common::care;
use crate::ReportError;
use crate::document::{Cell, Document, Part, Table, facts, head, say, table_of};

/// The most shots that a search goes to. Chosen: nobody shoots more.
const MOST_SHOTS: u32 = 10_000;

/// Room of a frame over the farthest shot, or over the mean radius where no
/// shot is known.
const ROOM: f64 = 1.12;

/// A group that was shot.
#[derive(Debug, Clone, PartialEq)]
pub struct ShotGroup {
    /// Its name.
    pub name: String,
    /// Shots.
    pub count: usize,
    /// Mean distance from the group's own centre, m.
    pub mean_radius: f64,
    /// Its spread.
    pub spread: Spread,
    /// Where its shots lie about their own centre; empty where only their
    /// number and mean radius are known.
    pub shots: Vec<Impact>,
}

impl ShotGroup {
    /// From the places of its shots.
    ///
    /// # Errors
    /// As for [`Group::of`].
    pub fn of(name: &str, impacts: &[Impact]) -> Result<Self, TargetError> {
        let group = Group::of(impacts)?;
        let centre = group.centre;
        let about = |i: &Impact| Impact { left: i.left - centre.left, up: i.up - centre.up };
        Ok(Self {
            name: name.to_owned(),
            count: group.count,
            mean_radius: group.mean_radius.value,
            spread: Spread::of_group(&group),
            shots: impacts.iter().map(about).collect(),
        })
    }

    /// From a number of shots and their mean radius, m.
    ///
    /// # Errors
    /// As for [`Spread::of_mean_radius`].
    pub fn of_numbers(name: &str, shots: u32, mean_radius: f64) -> Result<Self, TargetError> {
        Ok(Self {
            name: name.to_owned(),
            count: shots as usize,
            mean_radius,
            spread: Spread::of_mean_radius(shots, mean_radius)?,
            shots: Vec::new(),
        })
    }
}

/// Two groups and the verdict on them.
#[derive(Debug, Clone, PartialEq)]
pub struct Judged {
    /// The groups.
    pub groups: [ShotGroup; 2],
    /// How sure the verdict must be.
    pub power_test: PowerTest,
    /// The verdict.
    pub verdict: Verdict,
}

impl Judged {
    /// Judges two groups.
    ///
    /// # Errors
    /// [`TargetError::NoSpread`] when the shots of either share one point.
    pub fn of(groups: [ShotGroup; 2], power_test: PowerTest) -> Result<Self, TargetError> {
        let verdict = power_test.verdict(&groups[0].spread, &groups[1].spread)?;
        Ok(Self { groups, power_test, verdict })
    }

    /// Shots with each until a ratio as found would be told.
    fn shots(&self) -> Shots {
        let shots = self.power_test.shots(self.verdict.ratio.value, MOST_SHOTS);
        shots.map_or(Shots::MoreThan(MOST_SHOTS), Shots::Each)
    }
}

/// The verdict, and what it would take to be sure.
///
/// # Errors
/// [`ReportError::NotFinite`] names the first bad number; and
/// [`ReportError::Draw`] where the picture cannot be drawn.
pub fn verdict(judged: &Judged, version: &str, style: Style) -> Result<Document, ReportError> {
    let mut parts = vec![Part::Figure(picture(judged, style)), Part::Table(groups(judged))];
    parts.push(say("Sigma: the standard deviation of each axis, with its 95 % interval."));
    parts.extend(words::further(judged).into_iter().map(say));
    let from = say(format!("Clothyard {version}, from the shots given."));
    parts.push(Part::Page([care(), [head("Where this comes from"), from]].concat()));
    parts.extend([found(judged), places(judged)].map(Part::Data));
    let [first, second] = [0, 1].map(|at| judged.groups[at].name.as_str());
    let title = format!("{first} against {second}");
    Document::new("verdict", title, words::sentence(judged), parts, style)
}

/// Each group about its own centre, with its mean radius.
fn picture(judged: &Judged, style: Style) -> Figure {
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

fn groups(judged: &Judged) -> Table {
    table_of("verdict", &judged.groups)
        .words("group", |group| &group.name)
        .counts("shots", "", |group| group.count as u64)
        .quantity("mean radius", Role::Impact, |group| group.mean_radius)
        .estimate("sigma", Role::Impact, |group| group.spread.estimate())
        .done()
}

fn found(judged: &Judged) -> Table {
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
    facts("found", ["of the verdict", "value"], rows)
}

/// Where the shots lie about their own centre.
fn places(judged: &Judged) -> Table {
    let all = judged.groups.iter().flat_map(|group| group.shots.iter().map(move |s| (group, s)));
    table_of("places", all)
        .words("group", |(group, _)| &group.name)
        .quantity("left", Role::Impact, |(_, shot)| shot.left)
        .quantity("up", Role::Impact, |(_, shot)| shot.up)
        .done()
}
