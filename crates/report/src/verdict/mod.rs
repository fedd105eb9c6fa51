//! What two groups really shot say of each other.

mod page;
mod say;

use serde_json::Value;
use target::{Estimate, Group, Impact, Spread, TargetError, Telling, Verdict};
use units::{Role, Style};

use crate::csv::Sheet;
use crate::tree::Node;
use crate::{File, ReportError, plots};

/// The most shots that a search goes to. Chosen: nobody shoots more.
const MOST_SHOTS: u32 = 10_000;

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
pub struct VerdictReport {
    /// The groups.
    pub groups: [ShotGroup; 2],
    /// How sure the verdict must be.
    pub telling: Telling,
    /// The verdict.
    pub verdict: Verdict,
    /// Version of the program.
    pub version: String,
}

impl VerdictReport {
    /// Judges two groups.
    ///
    /// # Errors
    /// [`TargetError::NoSpread`] when the shots of either share one point.
    pub fn of(
        groups: [ShotGroup; 2],
        telling: Telling,
        version: &str,
    ) -> Result<Self, TargetError> {
        let verdict = telling.verdict(&groups[0].spread, &groups[1].spread)?;
        Ok(Self { groups, telling, verdict, version: version.to_owned() })
    }

    /// Shots with each until a ratio as found would be told; none beyond what
    /// anyone shoots.
    fn shots(&self) -> Option<u32> {
        self.telling.shots(self.verdict.ratio.value, MOST_SHOTS)
    }
}

/// The verdict as text for a terminal of `width` characters.
///
/// # Errors
/// [`ReportError::NotFinite`] names the first bad number.
pub fn verdict_text(
    report: &VerdictReport,
    style: Style,
    width: usize,
) -> Result<String, ReportError> {
    verdict_json(report)?;
    let wrap = |text: &str| crate::table::wrap(text, width).join("\n") + "\n";
    let mut out = wrap(&say::sentence(report));
    out.push('\n');
    out.push_str(&say::table(report, style).lines(width));
    for text in say::further(report) {
        out.push('\n');
        out.push_str(&wrap(&text));
    }
    Ok(out)
}

/// The verdict as JSON in SI.
///
/// # Errors
/// [`ReportError::NotFinite`] names the first bad number.
pub fn verdict_json(report: &VerdictReport) -> Result<Value, ReportError> {
    tree(report).write()
}

/// Every file of a verdict: `verdict.html`, its picture, table and JSON.
///
/// # Errors
/// As [`verdict_json`]; and [`ReportError::Plot`] where the picture cannot be
/// drawn.
pub fn verdict_files(report: &VerdictReport, style: Style) -> Result<Vec<File>, ReportError> {
    let value = verdict_json(report)?;
    let plot = plots::verdict::draw(report, style).plot()?;
    let page = page::page(report, &plot, style);
    Ok(vec![
        File::new("verdict.html", page),
        File::new(plot.name, plot.svg),
        File::new("verdict.csv", csv(report, style)),
        File::new("verdict.json", format!("{value:#}\n")),
    ])
}

fn tree(report: &VerdictReport) -> Node {
    let group = |group: &ShotGroup| {
        Node::Map(vec![
            ("name", Node::text(&group.name)),
            ("shots", Node::size(group.count, "shots")),
            ("mean_radius", Node::Number(group.mean_radius, "m")),
            ("sigma", Node::estimate(&group.spread.estimate(), "m")),
            ("degrees_of_freedom", Node::Number(group.spread.freedom, "1")),
            ("places", Node::impacts(&group.shots)),
        ])
    };
    let verdict = &report.verdict;
    let Estimate { value, low, high } = verdict.ratio;
    let shots = report.shots().map_or_else(
        || Node::Map(vec![("more_than", Node::Count(MOST_SHOTS.into(), "shots"))]),
        |shots| Node::Map(vec![("each", Node::Count(shots.into(), "shots"))]),
    );
    Node::Map(vec![
        ("version", Node::text(&report.version)),
        ("groups", Node::list(&report.groups, group)),
        ("confidence", Node::Number(report.telling.confidence(), "1")),
        ("power", Node::Number(report.telling.power(), "1")),
        ("told", Node::Flag(verdict.told())),
        ("ratio", Node::Number(value, "1")),
        ("ratio_low", Node::Number(low, "1")),
        ("ratio_high", Node::Number(high, "1")),
        ("chance_if_alike", Node::Number(verdict.chance, "1")),
        ("least_ratio_shown", Node::Number(verdict.least, "1")),
        ("shots_if_this_is_the_ratio", shots),
    ])
}

fn csv(report: &VerdictReport, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.field("group").field("shots [1]").head("mean radius", Role::Impact);
    sheet.estimate_head("sigma", Role::Impact);
    sheet.end();
    for group in &report.groups {
        sheet.field(&group.name).field(&group.count.to_string());
        sheet.number(Role::Impact, group.mean_radius);
        sheet.estimate(Role::Impact, &group.spread.estimate());
        sheet.end();
    }
    sheet.finish()
}
