//! `clothyard tape`: sight tape and cards to print.

use std::path::{Path, PathBuf};

use print::Look;
use report::{About, File, Job, OwnScale};
use scenario::Scenario;
use study::{
    Caution, MarksPlan, Observed, Recipe, Refit, SightMarks, SightedArrow, StripsPlan, What,
};
use units::{Bare, Dimension, Length, Role, Style};

use crate::failure::Failure;
use crate::orders::{self, FinestWord, InkWord};
use crate::source::Told;
use crate::{Stream, ask, fit, tell};

/// Narrowest and widest strip, m. Chosen: two figures that can be read, and a
/// broad plate.
const WIDTHS: (f64, f64) = (0.006, 0.04);
/// Least and most room before the first mark, m. Chosen.
const OFFSETS: (f64, f64) = (0.0, 0.1);

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
    let told = shot(&order.mark)?;
    let own = scenario.recipe(build)?;
    let out_to = (order.out.as_deref(), order.replace);
    let shots: Vec<&Path> = order.shots.iter().map(PathBuf::as_path).collect();
    let folder = ask::folder(out_to, &scenario, &source.file, "-tape", &shots)?;

    let fitted = match &order.shots {
        Some(shots) => {
            let shots = (shots.as_path(), &order.shot);
            Some(fit::fitted(&scenario, own.as_ref(), build, shots, err)?)
        }
        None if told.is_empty() => None,
        None => Some(fit::fitted_to(&scenario, own.as_ref(), build, told, &order.shot)?),
    };
    let values = fitted.as_ref().map_or_else(Vec::new, |fitted| {
        fitted.values.iter().map(|value| (value.what, value.value)).collect()
    });
    let recipe = Refit::new(own.as_ref(), values);
    let marks = study::marks(&recipe, &wanted)?;
    let seen = fitted.as_ref().map(report::fit_seen);
    let scale = fitted
        .as_ref()
        .and_then(|fitted| Some(OwnScale { zero: fitted.scale_zero?, falling: fitted.falling }));
    let wish = Wish { look, fitted: seen.as_deref(), scale };
    let cautions = ask::cautions(&scenario, build, (Some(&wanted.distances), None))?;
    let printed = (&marks, cautions.as_slice());
    let written = folder.fill(&sheets(&scenario, &recipe, &wanted, printed, style, &wish)?)?;
    let minded = report::cautions(&cautions, &[Job::Marks], style);
    match &fitted {
        Some(fitted) => {
            let document = report::fit(fitted, style)?.cautioned(minded);
            out.print(&tell::text(&document, Told { json: false, ..source.told })?)?;
        }
        None => out.print(&report::minded(&minded, tell::WIDTH))?,
    }
    out.print("\n")?;
    out.print(&format!(
        "Written to {}: print tape.pdf and card.pdf at actual size, 100 %, and measure the \
         rulers before you cut\n",
        written.display()
    ))
}

/// How a tape is wanted.
#[derive(Default)]
pub(crate) struct Wish<'a> {
    look: Look,
    /// What the arrow was fitted to; a fan is printed without.
    fitted: Option<&'a str>,
    /// How the sight's own scale reads, if marks tell.
    scale: Option<OwnScale>,
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
    let unit = Role::Range.unit(style).0.factor;
    let kind = if wish.fitted.is_some() { StripsPlan::one } else { StripsPlan::fan };
    let plan = kind(&wanted.build, &wanted.distances, unit);
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
    files.extend(report::card_files_on(marks, &about, wish.look, wish.scale)?);
    Ok(files)
}

fn look(order: &orders::TapeOrder, style: Style) -> Result<Look, Failure> {
    Ok(Look {
        paper: orders::paper(order.paper, style),
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

/// Marks given on the command line, as shots.
fn shot(marks: &[String]) -> Result<Vec<Observed>, Failure> {
    let read = |(place, given): (usize, &String)| {
        let wrong = || Failure::ShotMark { given: given.clone() };
        // Asked for in the unit of its users where it has none.
        let length = |text: &str, usual: Role| {
            let unit = Bare::Asked(usual.unit(Style::Archery).0);
            let read = units::read(Dimension::Length, text.trim(), unit);
            let read = read.map(|read| Length::from_si(read.si()));
            read.map_err(|cause| Failure::Quantity { option: "mark", text: given.clone(), cause })
        };
        let far = |text: &str| length(text, Role::Range);
        let scale = |text: &str| length(text, Role::Sight);
        let (at, reads) = given.split_once('=').ok_or_else(wrong)?;
        let (distance, what) = match at.split_once(" to ") {
            Some((pin, other)) => {
                let (pin, gap) = (far(pin)?, scale(reads)?);
                (far(other)?, What::Gap { pin, gap })
            }
            None => (far(at)?, What::Mark(scale(reads)?)),
        };
        Ok(Observed { line: place + 1, distance, what, error: None })
    };
    let shots: Vec<Observed> =
        marks.iter().enumerate().map(read).collect::<Result<_, Failure>>()?;
    match (shots.as_slice(), marks) {
        ([Observed { what: What::Mark(_), .. }], [given]) => {
            Err(Failure::LoneMark { given: given.clone() })
        }
        _ => Ok(shots),
    }
}
