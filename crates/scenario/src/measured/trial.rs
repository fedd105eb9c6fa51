//! A blind trial: its plan in one row, which arrow is which, and what was shot.

use std::collections::BTreeMap;
use std::path::Path;

use study::{Claim, EndShot, ReadBy, TrialAsk, TrialPlan};
use target::{Impact, LookRule, MOST_LOOKS, PowerTest};
use units::Dimension::{Length, Ratio};

use super::column::{Column, Holds, columns, need, words};
use super::sheet::{Row, Sheet, read};
use super::{Opened, Table, TableMistake as Mistake};
use crate::Report;

const HIT: [&str; 2] = ["in", "cm"];
const FAR: Holds = Holds::Amount(Length, 1.0, 200.0, ["yd", "m"]);
const SHARE: Holds = Holds::Amount(Ratio, 0.5, 0.999, ["%", "%"]);
/// Chosen: beyond any difference a trial is for.
const SIZE: Holds = Holds::Amount(Ratio, 1e-3, 100.0, ["", ""]);
/// Most arrows of each build in an end, and most ends. Chosen: what fits on a page, and
/// more than any sheet.
const MOST_ARROWS: u32 = 6;
const MOST_ENDS: u32 = 1_000;

const ASKS: [(&str, bool); 2] = [("width", true), ("centre", false)];
const BY: [(&str, ReadBy); 2] = [("places", ReadBy::Places), ("spreads", ReadBy::Spreads)];
const RULES: [(&str, LookRule); 2] =
    [("obrien-fleming", LookRule::OBrienFleming), ("pocock", LookRule::Pocock)];

columns! { Plan {
    First need("first", &[], Holds::Text);
    Second need("second", &[], Holds::Text);
    Distance need("distance", &[], FAR);
    Asks need("asks", &[], Holds::Word(&words(&ASKS)));
    Size need("size", &[], SIZE);
    By need("by", &[], Holds::Word(&words(&BY)));
    Arrows need("arrows", &[], Holds::Whole(MOST_ARROWS));
    Ends need("ends", &[], Holds::Whole(MOST_ENDS));
    Looks need("looks", &[], Holds::Whole(MOST_LOOKS));
    Rule need("rule", &[], Holds::Word(&words(&RULES)));
    Confidence need("confidence", &[], SHARE);
    Power need("power", &[], SHARE);
    Seed need("seed", &[], Holds::Whole(u32::MAX));
} }

columns! { Key {
    Arrow need("arrow", &["number"], Holds::Whole(MOST_ENDS));
    Build need("build", &[], Holds::Text);
} }

const END: Column = need("end", &[], Holds::Whole(MOST_ENDS));

columns! { Hits {
    End END;
    Arrow need("arrow", &["number"], Holds::Whole(MOST_ENDS));
    Left blank(need("left", &[], Holds::Amount(Length, -10.0, 10.0, HIT)).against(&["right"]));
    Up blank(need("up", &["high"], Holds::Amount(Length, -10.0, 10.0, HIT)).against(&["down", "low"]));
} }

columns! { Spreads {
    End END;
    Build need("build", &[], Holds::Text);
    Spread blank(need("spread", &["group"], Holds::Amount(Length, 1e-4, 10.0, HIT)));
} }

/// The same with cells that may be blank: an end not yet shot.
const fn blank(mut column: Column) -> Column {
    column.needed = false;
    column
}

/// The words of a plan, in the order of its columns, with the unit of the distance.
pub fn trial_plan_text(plan: &TrialPlan) -> String {
    let TrialAsk { builds, distance, claim, by, arrows, looks, rule, test, seed } = &plan.ask;
    let (asks, size) = match claim {
        Claim::Width { ratio } => ("width", ratio),
        Claim::Centre { sigmas } => ("centre", sigmas),
    };
    let word = |by: ReadBy| BY.iter().find(|(_, of)| *of == by).map_or("", |(word, _)| word);
    let rule = RULES.iter().find(|(_, of)| of == rule).map_or("", |(word, _)| word);
    let cells = [
        quoted(&builds[0]),
        quoted(&builds[1]),
        format!("{} m", distance.si()),
        asks.to_owned(),
        size.to_string(),
        word(*by).to_owned(),
        arrows.to_string(),
        plan.ends.to_string(),
        looks.to_string(),
        rule.to_owned(),
        test.confidence().to_string(),
        test.power().to_string(),
        seed.to_string(),
    ];
    let heads = "first,second,distance,asks,size,by,arrows,ends,looks,rule,confidence,power,seed";
    format!("{heads}\n{}\n", cells.join(","))
}

/// A cell that holds any text.
pub fn quoted(text: &str) -> String {
    format!("\"{}\"", text.replace('"', "\"\""))
}

/// Reads a plan: its one row.
///
/// # Errors
/// Every mistake of the file.
pub fn trial_plan(path: &Path, bytes: Opened) -> Result<Table<TrialPlan>, Report> {
    read(path, bytes, 1, |sheet, rows| {
        for row in rows.iter().skip(1) {
            sheet.tell_row(row, Mistake::Over("one plan", 1));
        }
        rows.iter().take(1).filter_map(|row| plan(sheet, row)).collect()
    })
}

fn plan(sheet: &mut Sheet, row: &Row<Plan>) -> Option<TrialPlan> {
    let size = row.si(Plan::Size)?;
    let claim = if row.meaning(Plan::Asks, &ASKS)? {
        Claim::Width { ratio: size }
    } else {
        Claim::Centre { sigmas: size }
    };
    let test = PowerTest::new(row.si(Plan::Confidence)?, row.si(Plan::Power)?).ok()?;
    let (arrows, ends) = (row.whole(Plan::Arrows)?, row.whole(Plan::Ends)?);
    let looks = row.whole(Plan::Looks)?;
    for (column, value) in [(Plan::Arrows, arrows), (Plan::Ends, ends), (Plan::Looks, looks)] {
        if value == 0 {
            sheet.tell_cell(row, column, Mistake::NotInTrial("0".into(), "1 or more".into()));
            return None;
        }
    }
    if !ends.is_multiple_of(looks) {
        let allowed = format!("a multiple of the {looks} looks");
        sheet.tell_cell(row, Plan::Ends, Mistake::NotInTrial(ends.to_string(), allowed));
        return None;
    }
    let ask = TrialAsk {
        builds: [row.text(Plan::First)?.to_owned(), row.text(Plan::Second)?.to_owned()],
        distance: row.get(Plan::Distance)?,
        claim,
        by: row.meaning(Plan::By, &BY)?,
        arrows,
        looks,
        rule: row.meaning(Plan::Rule, &RULES)?,
        test,
        seed: row.whole(Plan::Seed)?.into(),
    };
    Some(TrialPlan { ask, ends })
}

/// Reads which arrow is which: the build, 0 or 1, of each arrow, from number 1 on.
///
/// # Errors
/// Every mistake of the file.
pub fn trial_key(path: &Path, bytes: Opened, ask: &TrialAsk) -> Result<Table<usize>, Report> {
    let all = 2 * ask.arrows as usize;
    read(path, bytes, all, |sheet, rows| {
        let mut key: BTreeMap<u32, (usize, usize)> = BTreeMap::new();
        for row in rows {
            let Some((arrow, build)) = row.whole(Key::Arrow).zip(row.text(Key::Build)) else {
                continue;
            };
            let Some(build) = build_of(sheet, row, Key::Build, build, ask) else { continue };
            in_trial(sheet, row, Key::Arrow, arrow, all);
            if let Some((line, _)) = key.insert(arrow, (row.line, build)) {
                let mistake = Mistake::NameTwice(format!("arrow {arrow}"), line, false);
                sheet.tell_cell(row, Key::Arrow, mistake);
            }
        }
        key.into_values().map(|(_, build)| build).collect()
    })
}

/// Reads where arrows hit: each end with every arrow once, ends not yet shot blank.
///
/// # Errors
/// Every mistake of the file.
pub fn trial_hits(
    path: &Path,
    bytes: Opened,
    plan: &TrialPlan,
    key: &[usize],
) -> Result<Table<EndShot>, Report> {
    read(path, bytes, 0, |sheet, rows| {
        let mut ends: BTreeMap<u32, BTreeMap<u32, (usize, Impact)>> = BTreeMap::new();
        for row in rows {
            let (left, up) = (row.blank(Hits::Left), row.blank(Hits::Up));
            let Some((end, arrow)) = row.whole(Hits::End).zip(row.whole(Hits::Arrow)) else {
                continue;
            };
            in_trial(sheet, row, Hits::Arrow, arrow, key.len());
            in_trial(sheet, row, Hits::End, end, plan.ends as usize);
            if left && up {
                continue;
            }
            let who = format!("arrow {arrow} of end {end}");
            sheet.need(row, Hits::Left, &who);
            sheet.need(row, Hits::Up, &who);
            let Some((left, up)) = row.si(Hits::Left).zip(row.si(Hits::Up)) else { continue };
            let hit = (row.line, Impact { left, up });
            if let Some((line, _)) = ends.entry(end).or_default().insert(arrow, hit) {
                sheet.tell_cell(row, Hits::Arrow, Mistake::NameTwice(who, line, false));
            }
        }
        whole(sheet, rows.last(), &ends, |arrow| format!("arrow {arrow}"), key.len());
        let found = |hits: &BTreeMap<u32, (usize, Impact)>| {
            let mut of = [Vec::new(), Vec::new()];
            for (arrow, (_, hit)) in hits {
                if let Some(build) = key.get(*arrow as usize - 1) {
                    of[*build].push(*hit);
                }
            }
            EndShot::Places(of)
        };
        if sheet.problems.is_empty() { ends.values().map(found).collect() } else { Vec::new() }
    })
}

/// Reads the extreme spread of each build in each end, ends not yet shot blank.
///
/// # Errors
/// Every mistake of the file.
pub fn trial_spreads(
    path: &Path,
    bytes: Opened,
    plan: &TrialPlan,
) -> Result<Table<EndShot>, Report> {
    read(path, bytes, 0, |sheet, rows| {
        let mut ends: BTreeMap<u32, BTreeMap<u32, (usize, f64)>> = BTreeMap::new();
        for row in rows {
            let Some((end, name)) = row.whole(Spreads::End).zip(row.text(Spreads::Build)) else {
                continue;
            };
            in_trial(sheet, row, Spreads::End, end, plan.ends as usize);
            let build = build_of(sheet, row, Spreads::Build, name, &plan.ask);
            let Some((build, spread)) = build.zip(row.si(Spreads::Spread)) else { continue };
            let place = u32::from(build == 1) + 1;
            let read = (row.line, spread);
            if let Some((line, _)) = ends.entry(end).or_default().insert(place, read) {
                let who = format!("{name} of end {end}");
                sheet.tell_cell(row, Spreads::Build, Mistake::NameTwice(who, line, false));
            }
        }
        let names = &plan.ask.builds;
        whole(sheet, rows.last(), &ends, |place| names[place as usize - 1].clone(), 2);
        let found = |of: &BTreeMap<u32, (usize, f64)>| {
            EndShot::Spreads([1, 2].map(|place| of.get(&place).map_or(0.0, |(_, spread)| *spread)))
        };
        if sheet.problems.is_empty() { ends.values().map(found).collect() } else { Vec::new() }
    })
}

/// Tells of ends that lack something, and of ends left out.
fn whole<C: super::column::Columns, T>(
    sheet: &mut Sheet,
    last: Option<&Row<C>>,
    ends: &BTreeMap<u32, BTreeMap<u32, (usize, T)>>,
    name: impl Fn(u32) -> String,
    all: usize,
) {
    let Some(last) = last.filter(|_| sheet.problems.is_empty()) else { return };
    let shot = ends.last_key_value().map_or(0, |(end, _)| *end);
    for end in 1..=shot {
        let of = ends.get(&end);
        let lacks: Vec<String> = (1..)
            .take(all)
            .filter(|at| of.is_none_or(|of| !of.contains_key(at)))
            .map(&name)
            .collect();
        if !lacks.is_empty() {
            sheet.tell_row(last, Mistake::EndShort(end, lacks.join(", ")));
        }
    }
}

/// Tells of a number beyond those of the trial.
fn in_trial<C: super::column::Columns>(
    sheet: &mut Sheet,
    row: &Row<C>,
    column: C,
    number: u32,
    most: usize,
) {
    if number == 0 || number as usize > most {
        let mistake = Mistake::NotInTrial(number.to_string(), format!("1 to {most}"));
        sheet.tell_cell(row, column, mistake);
    }
}

/// Which of the two builds a name is; tells of any other.
fn build_of<C: super::column::Columns>(
    sheet: &mut Sheet,
    row: &Row<C>,
    column: C,
    name: &str,
    ask: &TrialAsk,
) -> Option<usize> {
    let found = ask.builds.iter().position(|build| build == name);
    if found.is_none() {
        let [first, second] = &ask.builds;
        let mistake = Mistake::NotInTrial(name.to_owned(), format!("{first} or {second}"));
        sheet.tell_cell(row, column, mistake);
    }
    found
}
