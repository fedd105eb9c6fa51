//! `clothyard trial sheet`: how many arrows, and the sheets to shoot by.

use std::fmt::Write as _;
use std::hash::{BuildHasher, Hasher, RandomState};
use std::path::Path;

use report::File;
use scenario::measured::{quoted, trial_plan_text};
use study::{Build, Claim, Expected, Lot, ReadBy, TrialAsk, TrialPlan, TrialSize};
use target::{LookRule, PowerTest, Spread};
use units::{Bare, Dimension, Length, Ratio, Role, Style};

use super::cli::{AsksWord, ByWord, SheetOrder};
use super::words::{KEY, PLAN, SHOTS, SPREADS, quantity};
use crate::failure::Failure;
use crate::orders::{RuleWord, paper};
use crate::shelf::AnswerFolder;
use crate::source::Family;
use crate::{Stream, ask, progress, tell};

/// Seed of the flights that the difference is computed from. Chosen: any; always the
/// same, so that two sheets of one scenario ask for as many arrows.
const FLIGHT_SEED: u64 = 1;

pub(crate) fn sheet(order: &SheetOrder, out: &mut Stream, err: &Stream) -> Result<(), Failure> {
    let style = order.units.map_or_else(|| spoken(&order.distance), Family::style);
    let Asked { ask, expected, sigma, cautions } = asked(order, style, err)?;
    let size = ask.size()?;
    let document = report::trial_size(&ask, &size, expected.as_ref(), sigma, style)?;
    let document = document.cautioned(cautions);
    let text = if order.json { document.json()? } else { document.terminal(tell::WIDTH) };
    let TrialSize::Sane(plan) = &size else { return out.print(&text) };
    let place = order.out.as_deref().unwrap_or(Path::new("out/trial"));
    let inputs: Vec<&Path> = order.of.iter().map(std::path::PathBuf::as_path).collect();
    let folder = AnswerFolder::claim(place, &inputs, order.replace)?;
    let lot = Lot::draw(plan.ask.seed, plan.ask.arrows, plan.ends);
    let mut files = report::trial_files(plan, &lot, paper(order.paper, style), style)?;
    files.extend(tables(plan, &lot, style));
    let written = folder.fill(&files)?;
    out.print(&text)?;
    if order.json {
        return Ok(());
    }
    let table = match plan.ask.by {
        ReadBy::Places => SHOTS,
        ReadBy::Spreads => SPREADS,
    };
    let place = written.display();
    out.print(&format!(
        "\nWritten to {place}: print sheet.pdf to shoot by, fill in {table}\nKeep {KEY} and key.pdf \
         from whoever shoots: they say which arrow is which\nAt each look: clothyard trial judge {place}\n"
    ))
}

/// The family of units in which a distance is said.
fn spoken(distance: &str) -> Style {
    let yard = Role::Range.unit(Style::Archery).0;
    let read = units::read(Dimension::Length, distance.trim(), Bare::In(yard));
    let metre = Role::Range.unit(Style::Metric).0.symbol;
    match read {
        Ok(read) if read.unit().symbol == metre => Style::Metric,
        _ => Style::Archery,
    }
}

/// What is asked, what was computed for it, and what to mind.
struct Asked {
    ask: TrialAsk,
    expected: Option<Expected>,
    /// Sigma of the groups, m, where it is known.
    sigma: Option<f64>,
    cautions: Vec<report::CautionText>,
}

fn asked(order: &SheetOrder, style: Style, err: &Stream) -> Result<Asked, Failure> {
    let share = |option, text: &Option<String>, usual: f64| match text {
        Some(text) => quantity::<Ratio>(option, text).map(Ratio::si),
        None => Ok(usual),
    };
    let usual = PowerTest::default();
    let confidence = share("confidence", &order.confidence, usual.confidence())?;
    let test = PowerTest::new(confidence, share("power", &order.power, usual.power())?)?;
    let yard = Role::Range.unit(style).0;
    let text = order.distance.trim();
    let read = units::read(Dimension::Length, text, Bare::Asked(yard));
    let distance = read.map(|read| Length::from_si(read.si()));
    let distance = distance.map_err(|cause| {
        let (option, text) = ("distance", order.distance.clone());
        Failure::Size { option, text, cause }
    })?;
    let mut ask = TrialAsk {
        builds: ["first", "second"].map(str::to_owned),
        distance,
        claim: Claim::Width { ratio: 1.0 },
        by: match order.by {
            ByWord::Places => ReadBy::Places,
            ByWord::Spreads => ReadBy::Spreads,
        },
        arrows: order.arrows,
        looks: order.looks,
        rule: match order.rule {
            RuleWord::ObrienFleming => LookRule::OBrienFleming,
            RuleWord::Pocock => LookRule::Pocock,
        },
        test,
        seed: order.seed.unwrap_or_else(fresh_seed).into(),
    };
    if !(1.0..=200.0).contains(&distance.si()) {
        let allowed = [1.0, 200.0].map(|end| Role::Range.both(end)).join(" to ");
        let given = order.distance.clone();
        return Err(Failure::Option { option: "distance", given, allowed });
    }
    let mut cautions = Vec::new();
    let (expected, sigma) = if let Some(file) = &order.of {
        let scenario = ask::scenario(file)?;
        let plan = scenario.plan().ok_or(Failure::NoArrow)?;
        let builds = two(&plan.builds, &order.builds)?;
        ask.builds = builds.map(|build| build.name.clone());
        let distances = [distance];
        for name in &ask.builds {
            let wanted = (Some(distances.as_slice()), None);
            let found = ask::cautions(&scenario, Some(name), wanted)?;
            cautions.extend(report::cautions(&found, &[], style));
        }
        let what = "flying both builds to see what they differ by";
        let fly = |watch: &dyn study::Watch| study::expected(builds, distance, FLIGHT_SEED, watch);
        let expected = progress::searching(err, what, fly)?;
        let expected = expected.ok_or(Failure::TrialNobody)?;
        ask.claim = claim(&ask, &expected, order.asks)?;
        (Some(expected), Some(expected.sigma))
    } else {
        let [first, second] = order.builds.as_slice() else {
            return Err(Failure::TrialBuilds { given: order.builds.len() });
        };
        ask.builds = [first.clone(), second.clone()];
        let (claim, sigma) = told(order)?;
        ask.claim = claim;
        (None, sigma)
    };
    if ask.builds[0] == ask.builds[1] || ask.builds.iter().any(|name| name.trim().is_empty()) {
        return Err(Failure::TrialBuilds { given: 1 });
    }
    if ask.by == ReadBy::Spreads && (!ask.claim.of_width() || ask.arrows < 2) {
        return Err(Failure::TrialSpreads);
    }
    Ok(Asked { ask, expected, sigma, cautions })
}

/// A seed nobody can guess, so that who shot one trial does not know the key of the
/// next: the standard library keys every `RandomState` by chance.
fn fresh_seed() -> u32 {
    let [one, two, three, four, ..] = RandomState::new().build_hasher().finish().to_le_bytes();
    u32::from_le_bytes([one, two, three, four])
}

/// The builds named, or the first two.
fn two<'a>(builds: &'a [Build], names: &[String]) -> Result<[&'a Build; 2], Failure> {
    let find = |name: &String| builds.iter().find(|build| build.name == *name);
    let found = match names {
        [] => builds.first().zip(builds.get(1)),
        [first, second] => find(first).zip(find(second)),
        _ => None,
    };
    let has = || builds.iter().map(|build| build.name.clone()).collect::<Vec<_>>().join(", ");
    found.map(|(one, other)| [one, other]).ok_or_else(|| Failure::TrialOf { has: has() })
}

/// The computed difference that is asked for, or the one that takes fewer arrows.
fn claim(ask: &TrialAsk, expected: &Expected, asks: Option<AsksWord>) -> Result<Claim, Failure> {
    let width = Claim::Width { ratio: expected.ratio.max(1.0 / expected.ratio) };
    let centre = Claim::Centre { sigmas: expected.sigmas };
    let arrows = |claim: Claim| -> Result<u32, Failure> {
        Ok(match (TrialAsk { claim, ..ask.clone() }).size()? {
            TrialSize::Sane(plan) => plan.each(),
            TrialSize::Mad { each: study::Shots::Each(each), .. } => each,
            TrialSize::Mad { .. } => u32::MAX,
        })
    };
    let on_centre = match asks {
        Some(asks) => asks == AsksWord::Centre,
        None => ask.by == ReadBy::Places && arrows(centre)? < arrows(width)?,
    };
    Ok(if on_centre { centre } else { width })
}

/// The difference as the options say it, and the sigma of the groups in metres where
/// they say that.
fn told(order: &SheetOrder) -> Result<(Claim, Option<f64>), Failure> {
    if let Some(text) = &order.times {
        let number = text.trim().replace(',', ".").parse::<f64>().ok();
        return match number.filter(|of| (0.01..=100.0).contains(of)) {
            Some(ratio) => Ok((Claim::Width { ratio: ratio.max(1.0 / ratio) }, None)),
            None => Err(Failure::Option {
                option: "times",
                given: text.clone(),
                allowed: "0.01 to 100, a number such as 1.3".to_owned(),
            }),
        };
    }
    let (Some(apart), Some(group)) = (&order.apart, &order.spread) else {
        return Err(Failure::TrialAsks);
    };
    let wrong = || Failure::TrialGroup { given: group.clone() };
    let (count, span) = group.trim().split_once(char::is_whitespace).ok_or_else(wrong)?;
    let count: u32 = count.parse().map_err(|_| wrong())?;
    let span = span.trim().trim_start_matches("arrows").trim_start().trim_start_matches("span");
    let span: Length = quantity("spread", span)?;
    let sigma = Spread::of_extreme_spread(count, span.si())?.sigma;
    let apart: Length = quantity("apart", apart)?;
    let sigmas = apart.si().abs() / sigma;
    if (1e-3..=100.0).contains(&sigmas) {
        return Ok((Claim::Centre { sigmas }, Some(sigma)));
    }
    let given = order.apart.clone().unwrap_or_default();
    Err(Failure::Option {
        option: "apart",
        given,
        allowed: "0.001 to 100 sigmas of your groups".to_owned(),
    })
}

/// What `trial judge` reads: plan, key, and a table to fill in.
fn tables(plan: &TrialPlan, lot: &Lot, style: Style) -> Vec<File> {
    let builds = &plan.ask.builds;
    let mut key = "# Which arrow is which: not for whoever shoots.\narrow,build\n".to_owned();
    for (build, number) in lot.key.iter().zip(1..) {
        let _ = writeln!(key, "{number},{}", quoted(&builds[*build]));
    }
    let unit = Role::Impact.symbol(style);
    let (name, table) = match plan.ask.by {
        ReadBy::Places => {
            let mut table = format!(
                "# Left and up from the middle of the face; right and down with a minus.\n\
                 end,arrow,left [{unit}],up [{unit}]\n"
            );
            for (end, order) in (1..).zip(&lot.ends) {
                for arrow in order {
                    let _ = writeln!(table, "{end},{arrow},,");
                }
            }
            (SHOTS, table)
        }
        ReadBy::Spreads => {
            let mut table = format!(
                "# The widest distance between two arrows of each build in each end.\n\
                 end,build,spread [{unit}]\n"
            );
            for end in 1..=plan.ends {
                for build in builds {
                    let _ = writeln!(table, "{end},{},", quoted(build));
                }
            }
            (SPREADS, table)
        }
    };
    [(PLAN, trial_plan_text(plan)), (KEY, key), (name, table)]
        .map(|(name, text)| File { name: name.to_owned(), bytes: text.into_bytes() })
        .into()
}
