//! One push as people read it: the pictures, the tables, and a page.

mod csv;
mod json;
mod page;
mod tables;
mod text;

use study::{PushStory, Touch};
use units::{Dimension, Role, Style};

use crate::{File, Provenance, ReportError, plots, show};
pub use json::push_json;
pub(crate) use tables::node;
pub use text::push_text;

/// A push and where it comes from.
#[derive(Debug, Clone, Copy)]
pub struct PushReport<'a> {
    /// Title of the scenario.
    pub title: &'a str,
    /// Name of the build; none where there is only one.
    pub build: Option<&'a str>,
    /// The push.
    pub story: &'a PushStory,
    /// Where it comes from.
    pub provenance: &'a Provenance,
}

/// Every file of the report: `push.html`, the plots as SVG, the tables as CSV,
/// `push.json` and the resolved `scenario.toml`.
///
/// # Errors
/// As [`push_json`]; and [`ReportError::Plot`] where a plot cannot be drawn.
pub fn push_files(report: &PushReport, style: Style) -> Result<Vec<File>, ReportError> {
    let value = push_json(report)?;
    let plots = plots::drawn(plots::push::all(report.story, style))?;
    let page = page::page(report, &plots, style);
    let mut files = vec![File::new("push.html", page)];
    files.extend(plots.into_iter().map(|plot| File::new(plot.name, plot.svg)));
    let tables = csv::all(report.story, style);
    files.extend(tables.into_iter().map(|(name, text)| File::new(name, text)));
    files.push(File::new("push.json", format!("{value:#}\n")));
    files.push(File::new("scenario.toml", report.provenance.scenario.clone()));
    Ok(files)
}

/// The heading of a report: the title, with the build where there are several.
fn heading(report: &PushReport) -> String {
    match report.build {
        Some(build) => format!("{}: the push of \"{build}\"", report.title),
        None => format!("{}: the push", report.title),
    }
}

/// The push in one sentence or two.
fn sentence(story: &PushStory, style: Style) -> String {
    let time = millis(story.moments.last().map_or(0.0, |m| m.time));
    let d = &story.departure;
    let speed = Role::Speed.text(d.speed, style);
    if !story.sideways {
        return format!(
            "The arrow leaves at {speed} after {time} in the bow, straight: nothing works on it \
             sideways."
        );
    }
    let turn = |rate: f64, words: [&str; 2]| {
        let sense = if rate < 0.0 { words[1] } else { words[0] };
        format!("{} {sense}", brief(Role::Rate, rate.abs(), style))
    };
    let [left, up] = clean([d.yaw_rate, d.pitch_rate]);
    format!(
        "The arrow leaves at {speed} after {time} in the bow, its nose turning {} and {}.",
        turn(left, ["to the left", "to the right"]),
        turn(up, ["up", "down"])
    )
}

/// What the reader should know beside the numbers.
fn remarks(story: &PushStory, style: Style) -> Vec<String> {
    let mut out = vec![rest(story, style), buckling(story)];
    if !story.sideways {
        out.push(
            "This build has no fixed fault, and no release or path that is not straight. Values \
             drawn by chance stand at their centre here; give a fault a fixed size to see what it \
             does."
                .to_owned(),
        );
    }
    if story.given {
        out.push(
            "The scenario gives departure values directly. They replace the push in flight; this \
             shows the push as computed."
                .to_owned(),
        );
    }
    if story.budget.lost < 0.0 {
        out.push(
            "More energy leaves than the bow stores, so a value does not fit: look again at the \
             speed, the arrow mass it was read with, the virtual mass and the force-draw readings."
                .to_owned(),
        );
    }
    out
}

/// Where the rest lets go.
fn rest(story: &PushStory, style: Style) -> String {
    let until = |touch: &Touch| {
        format!(
            "{} after release, the string {} on its way",
            millis(touch.until),
            Role::Part.text(touch.travel, style)
        )
    };
    let one = |touch: Option<&Touch>, name: &str| match touch {
        None => format!("{name} never touches the shaft"),
        Some(touch) => {
            let times = match touch.times {
                1 => "once".to_owned(),
                2 => "twice".to_owned(),
                n => format!("{n} times"),
            };
            format!("{name} touches the shaft {times}, until {}", until(touch))
        }
    };
    let [side, below] = &story.rest;
    match side {
        Some(touch) if story.rest_holds => format!("The rest holds until {}.", until(touch)),
        None if story.rest_holds => "The rest never holds the shaft.".to_owned(),
        side => format!(
            "{}; {}.",
            one(side.as_ref(), "The rest's side"),
            one(below.as_ref(), "its support below")
        ),
    }
}

fn buckling(story: &PushStory) -> String {
    let gee =
        |si: f64| Dimension::Acceleration.unit("gee").map_or(si, |unit| unit.of_si(si)).round();
    let (peak, limit) = (story.buckling.peak, story.buckling.limit);
    format!(
        "The push peaks at {} times free fall; held sideways at nock and point and pushed for long, \
         this shaft would buckle at {} times.{}",
        gee(peak),
        gee(limit),
        if peak > limit {
            " It is not pushed for long enough to buckle, but each bend grows as long as it is."
        } else {
            ""
        }
    )
}

/// A pair without rounding noise: what is a billionth of the other is zero.
fn clean(pair: [f64; 2]) -> [f64; 2] {
    let most = pair[0].abs().max(pair[1].abs());
    pair.map(|value| if value.abs() > 1e-9 * most { value } else { 0.0 })
}

/// A number with its unit and three figures: what is small across the push
/// spans decades.
fn brief(role: Role, si: f64, style: Style) -> String {
    format!("{} {}", figures(role.value(si, style)), role.symbol(style))
}

/// A number with three figures.
pub(crate) fn figures(value: f64) -> String {
    if value == 0.0 {
        return show::significant(0.0);
    }
    let step = 10_f64.powf(value.abs().log10().floor() - 2.0);
    show::significant((value / step).round() * step)
}

/// A time of the push with its unit.
fn millis(seconds: f64) -> String {
    let value = Dimension::Time.unit("ms").map_or(seconds, |unit| unit.of_si(seconds));
    format!("{value:.2} ms")
}
