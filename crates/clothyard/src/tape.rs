//! `clothyard tape`: sight tape and cards to print.

use std::path::{Path, PathBuf};

use print::Look;
use report::{About, File, Job};
use scenario::Scenario;
use study::{Caution, MarksPlan, Recipe, Refit, SightMarks, SightedArrow, StripsPlan};
use units::{Dimension, Length, Style};

use crate::failure::Failure;
use crate::orders::{self, FinestWord, InkWord, PaperWord};
use crate::{Stream, ask, fit, tell};

/// Narrowest and widest strip, m. Chosen: two figures that can be read, and a
/// broad plate.
const WIDTHS: (f64, f64) = (0.006, 0.04);
/// Least and most room before the first mark, m. Chosen.
const OFFSETS: (f64, f64) = (0.0, 0.1);
/// Least and most per cent between candidates. Chosen.
const APART: (f64, f64) = (0.1, 5.0);

pub(crate) fn tape(
    order: &orders::TapeOrder,
    out: &mut Stream,
    err: &mut Stream,
) -> Result<(), Failure> {
    let source = &order.of.source;
    let (scenario, style) = ask::source(source)?;
    let build = order.of.build.as_deref();
    let wanted = scenario.marks(build, style)?.ok_or(Failure::NoMarks)?;
    let look = look(order, style)?;
    let apart = apart(order)?;
    let own = scenario.recipe(build)?;
    let out_to = (order.out.as_deref(), order.replace);
    let shots: Vec<&Path> = order.shots.iter().map(PathBuf::as_path).collect();
    let folder = ask::folder(out_to, &scenario, &source.file, "-tape", &shots)?;

    let fitted = match &order.shots {
        Some(shots) => {
            let shots = (shots.as_path(), &order.shot);
            Some(fit::fitted(&scenario, own.as_ref(), build, shots, err)?)
        }
        None => None,
    };
    let values = fitted.as_ref().map_or_else(Vec::new, |fitted| {
        fitted.values.iter().map(|value| (value.what, value.value)).collect()
    });
    let recipe = Refit::new(own.as_ref(), values);
    let marks = study::marks(&recipe, &wanted)?;
    let seen = fitted.as_ref().map(report::fit_seen);
    let wish = Wish { strips: order.strips, apart, look, fitted: seen.as_deref() };
    let cautions = ask::cautions(&scenario, build, (Some(&wanted.distances), None))?;
    let printed = (&marks, cautions.as_slice());
    let written = folder.fill(&sheets(&scenario, &recipe, &wanted, printed, style, &wish)?)?;
    out.print(&report::minded(&report::cautions(&cautions, &[Job::Marks], style), tell::WIDTH))?;
    out.print("\n")?;
    if let Some(fitted) = &fitted {
        out.print(&report::fit(fitted, style)?.terminal(tell::WIDTH))?;
        out.print("\n")?;
    }
    out.print(&format!(
        "Written to {}: print tape.pdf and card.pdf at actual size, 100 %, and measure the \
         rulers before you cut\n",
        written.display()
    ))
}

/// How a tape is wanted.
pub(crate) struct Wish<'a> {
    /// Candidates, and the share of speed from one to the next.
    strips: u32,
    apart: f64,
    look: Look,
    /// What the arrow was fitted to.
    fitted: Option<&'a str>,
}

impl Default for Wish<'_> {
    /// As the command has it when nothing is said.
    fn default() -> Self {
        Self { strips: 7, apart: 0.01, look: Look::default(), fitted: None }
    }
}

/// Tape and cards, as PDF and SVG.
pub(crate) fn sheets(
    scenario: &Scenario,
    recipe: &dyn Recipe,
    wanted: &MarksPlan,
    (marks, cautions): (&SightMarks, &[Caution]),
    style: Style,
    wish: &Wish,
) -> Result<Vec<File>, Failure> {
    let unit = units::Role::Range.unit(style).0.factor;
    let plan = StripsPlan::even(&wanted.build, &wanted.distances, unit, wish.strips, wish.apart);
    let strips = study::strips(recipe, &plan)?;
    let marker = SightedArrow::new(recipe, &[], &wanted.build)?;
    let several = scenario.plan().is_some_and(|plan| plan.builds.len() > 1);
    let about = About {
        title: scenario.title(),
        build: Some(wanted.build.as_str()).filter(|_| several),
        setup: marker.setup(),
        speed: marks.departure.speed,
        mass: marks.built.mass.mass().si(),
        fitted: wish.fitted,
        cautions,
        style,
    };
    let mut files = report::tape_files(&strips, &about, wish.look)?;
    files.extend(report::card_files(marks, &about, wish.look)?);
    Ok(files)
}

fn look(order: &orders::TapeOrder, style: Style) -> Result<Look, Failure> {
    let usual = match style {
        Style::Archery => PaperWord::Letter,
        Style::Metric => PaperWord::A4,
    };
    Ok(Look {
        paper: match order.paper.unwrap_or(usual) {
            PaperWord::A4 => print::Paper::A4,
            PaperWord::Letter => print::Paper::Letter,
        },
        ink: match order.ink {
            InkWord::Day => print::Ink::Day,
            InkWord::LowLight => print::Ink::LowLight,
        },
        finest: match order.finest {
            FinestWord::Fifth => print::Finest::Fifth,
            FinestWord::Every => print::Finest::Every,
            FinestWord::Half => print::Finest::Half,
        },
        width: length("width", &order.width, WIDTHS)?,
        offset: length("offset", &order.offset, OFFSETS)?,
        near_below: order.near_below,
    })
}

fn length(option: &'static str, text: &str, range: (f64, f64)) -> Result<Length, Failure> {
    let length: Length =
        text.parse().map_err(|cause| Failure::Quantity { option, text: text.to_owned(), cause })?;
    if (range.0..=range.1).contains(&length.si()) {
        return Ok(length);
    }
    let mm = Dimension::Length.unit("mm").map_or(1.0, |unit| unit.factor);
    let allowed = format!("{} mm to {} mm", (range.0 / mm).round(), (range.1 / mm).round());
    Err(Failure::Option { option, given: text.to_owned(), allowed })
}

/// From one candidate's speed to the next, as a share of the arrow's own.
fn apart(order: &orders::TapeOrder) -> Result<f64, Failure> {
    let text = order.apart.trim().trim_end_matches('%').trim();
    let wrong = || Failure::Option {
        option: "apart",
        given: order.apart.clone(),
        allowed: format!("{} to {} per cent", APART.0, APART.1),
    };
    let percent: f64 = text.parse().map_err(|_| wrong())?;
    if !(APART.0..=APART.1).contains(&percent) {
        return Err(wrong());
    }
    if order.strips.is_multiple_of(2) {
        let (given, allowed) = (order.strips.to_string(), "1, 3, 5, 7 or 9".to_owned());
        return Err(Failure::Option { option: "strips", given, allowed });
    }
    Ok(0.01 * percent)
}
