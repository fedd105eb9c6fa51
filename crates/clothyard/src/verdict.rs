//! `clothyard verdict`: what two groups really shot say of each other.

use std::path::{Path, PathBuf};

use study::{Look, ShotGroup, TwoGroups};
use target::{LookRule, PowerTest};
use units::{Length, Ratio, Style};

use crate::failure::Failure;
use crate::orders::RuleWord;
use crate::shelf::AnswerFolder;
use crate::source::Family;
use crate::{Stream, cli, shelf, tell};

pub(crate) fn verdict(
    order: &cli::VerdictOrder,
    out: &mut Stream,
    err: &mut Stream,
) -> Result<(), Failure> {
    let groups = groups(order, err)?;
    let power_test = power_test(order)?;
    let distance = match &order.distance {
        Some(text) => Some(quantity::<Length>("distance", text)?),
        None => None,
    };
    let rule = match order.rule {
        RuleWord::ObrienFleming => LookRule::OBrienFleming,
        RuleWord::Pocock => LookRule::Pocock,
    };
    let judged = match order.look.zip(order.looks) {
        Some((at, of)) => TwoGroups::at_look(groups, power_test, Look { at, of, rule })?,
        None => TwoGroups::of(groups, power_test)?,
    };
    let judged = judged.at(distance);
    let style = match order.units {
        Some(Family::Metric) => Style::Metric,
        _ => Style::Archery,
    };
    let folder = match &order.out {
        Some(path) => {
            let inputs: Vec<&Path> = order.files.iter().map(PathBuf::as_path).collect();
            Some(AnswerFolder::claim(path, &inputs, order.replace)?)
        }
        None => None,
    };
    let document = report::verdict(&judged, env!("CARGO_PKG_VERSION"), style)?;
    if let Some(folder) = folder {
        let folder = folder.fill(&document.files()?)?;
        return tell::told(&document, order.told, &folder, out);
    }
    out.print(&tell::text(&document, order.told)?)
}

/// The groups in the order given: files first, then numbers.
fn groups(order: &cli::VerdictOrder, err: &mut Stream) -> Result<[ShotGroup; 2], Failure> {
    let widths = order.mean_radius.len() + order.spread.len();
    let (files, counts, radii) = (order.files.len(), order.n.len(), widths);
    let mixed = !order.mean_radius.is_empty() && !order.spread.is_empty();
    if mixed || counts != radii || files + counts != 2 {
        return Err(Failure::TwoGroups { files, counts, radii });
    }
    let mut groups = Vec::with_capacity(2);
    for path in &order.files {
        let shots = shelf::table(path, scenario::measured::impacts, err)?.found;
        let name = path.file_stem().unwrap_or(path.as_os_str()).to_string_lossy();
        groups.push(ShotGroup::of(&name, &shots)?);
    }
    for (at, (&shots, text)) in order.n.iter().zip(&order.mean_radius).enumerate() {
        let radius: Length = quantity("mean-radius", text)?;
        let name = ["first group", "second group"][files + at];
        groups.push(ShotGroup::of_numbers(name, shots, radius.si())?);
    }
    for (at, (&shots, text)) in order.n.iter().zip(&order.spread).enumerate() {
        let widest: Length = quantity("spread", text)?;
        let name = ["first group", "second group"][files + at];
        groups.push(ShotGroup::of_extreme_spread(name, shots, widest.si())?);
    }
    let two: Result<[ShotGroup; 2], _> = groups.try_into();
    two.map_err(|_| Failure::TwoGroups { files, counts, radii })
}

fn power_test(order: &cli::VerdictOrder) -> Result<PowerTest, Failure> {
    let usual = PowerTest::default();
    let share = |option, text: &Option<String>, usual: f64| match text {
        Some(text) => quantity::<Ratio>(option, text).map(Ratio::si),
        None => Ok(usual),
    };
    let confidence = share("confidence", &order.confidence, usual.confidence())?;
    let power = share("power", &order.power, usual.power())?;
    Ok(PowerTest::new(confidence, power)?)
}

fn quantity<Q: units::Quantity>(option: &'static str, text: &str) -> Result<Q, Failure> {
    units::parse(text).map_err(|cause| Failure::Size { option, text: text.to_owned(), cause })
}
