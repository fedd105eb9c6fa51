//! What a blind trial showed, as a fact of a scenario.

use std::fmt::Write as _;

use study::{JudgedTrial, ShotGroup};

use crate::written::quoted;

/// How far the second build's centre lies from the first's, as an `[[evidence]]` file;
/// none before the first look, or where the places of arrows are not known.
pub fn trial_evidence(judged: &JudgedTrial) -> Option<String> {
    let two = judged.last.as_ref()?;
    let centres = two.centres.as_ref()?;
    let ask = &judged.plan.ask;
    let [first, second] = &ask.builds;
    // Either axis of a group's centre has the standard error of its pooled sigma.
    let square = |group: &ShotGroup| group.spread.sigma.powi(2) / group.count as f64;
    let error = (square(&two.groups[0]) + square(&two.groups[1])).sqrt();
    let mm = |si: f64| quoted(&format!("{:.2} mm", 1e3 * si));
    let mut out = format!(
        "# How far the second build hits from the first, with the same aim: a blind trial,\n\
         # {} arrows with each, seed {}.\n",
        two.groups[0].count, ask.seed
    );
    out.push_str("[[evidence]]\n");
    for (key, value) in [
        ("name", quoted(&format!("blind trial of {first} and {second}"))),
        ("kind", quoted("builds-apart")),
        ("build", quoted(second)),
        ("against", quoted(first)),
        ("distance", quoted(&format!("{} m", ask.distance.si()))),
        ("left", mm(centres.left.value)),
        ("up", mm(centres.up.value)),
        ("error", mm(error)),
    ] {
        let _ = writeln!(out, "{key} = {value}");
    }
    Some(out)
}
