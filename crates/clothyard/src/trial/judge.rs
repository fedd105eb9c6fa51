//! `clothyard trial judge`: stop or go on.

use scenario::measured;
use study::{EndShot, ReadBy, Trial, TrialNext, TrialPlan};
use units::{Length, Style};

use super::cli::JudgeOrder;
use super::words::{KEY, PLAN, SHOTS, SPREADS, quantity};
use crate::failure::Failure;
use crate::source::Family;
use crate::{Stream, shelf, tell};

pub(crate) fn judge(order: &JudgeOrder, out: &mut Stream, err: &mut Stream) -> Result<(), Failure> {
    let style = match order.units {
        Some(Family::Metric) => Style::Metric,
        _ => Style::Archery,
    };
    let place = order.folder.join(PLAN);
    let mut plans = shelf::table(&place, measured::trial_plan, err)?.found;
    let plan = plans.pop().ok_or(Failure::TrialAsks)?;
    let ends = ends(order, &plan, err)?;
    let judged = Trial::new(plan)?.judge(&ends)?;
    let document = report::trial_judged(&judged, style)?;
    let text = if order.json { document.json()? } else { document.terminal(tell::WIDTH) };
    if let Some(path) = &order.evidence {
        let fact = scenario::trial_evidence(&judged).ok_or(Failure::TrialNoEvidence)?;
        if let TrialNext::GoOn { ends } = judged.next {
            return Err(Failure::TrialGoesOn { ends });
        }
        shelf::write_new(path, &fact)?;
        out.print(&text)?;
        if order.json {
            return Ok(());
        }
        let path = path.display();
        return out.print(&format!(
            "\nWritten to {path}: name it in a scenario with these builds, evidence = \"{path}\"\n"
        ));
    }
    out.print(&text)
}

/// What was shot: from a table, or typed in.
fn ends(order: &JudgeOrder, plan: &TrialPlan, err: &mut Stream) -> Result<Vec<EndShot>, Failure> {
    if !order.end.is_empty() {
        if plan.ask.by == ReadBy::Places {
            return Err(Failure::TrialTyped);
        }
        if order.end.len() > plan.ends as usize {
            let (given, most) = (order.end.len(), plan.ends);
            return Err(Failure::TrialEnds { given, most });
        }
        return order.end.iter().map(|text| typed(text)).collect();
    }
    let usual = match plan.ask.by {
        ReadBy::Places => SHOTS,
        ReadBy::Spreads => SPREADS,
    };
    let path = order.shots.clone().unwrap_or_else(|| order.folder.join(usual));
    let table = match plan.ask.by {
        ReadBy::Places => {
            let read = |path: &_, bytes| measured::trial_key(path, bytes, &plan.ask);
            let key = shelf::table(&order.folder.join(KEY), read, err)?.found;
            shelf::table(&path, |path, bytes| measured::trial_hits(path, bytes, plan, &key), err)?
        }
        ReadBy::Spreads => {
            shelf::table(&path, |path, bytes| measured::trial_spreads(path, bytes, plan), err)?
        }
    };
    Ok(table.found)
}

/// "6 in, 4 1/2 in".
fn typed(text: &str) -> Result<EndShot, Failure> {
    let (first, second) =
        text.split_once([',', ';']).ok_or_else(|| Failure::TrialEnd { given: text.to_owned() })?;
    let length = |text: &str| quantity::<Length>("end", text).map(Length::si);
    Ok(EndShot::Spreads([length(first)?, length(second)?]))
}
