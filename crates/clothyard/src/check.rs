//! `clothyard check`: read a scenario, name every mistake.

use serde_json::json;
use study::SafetyAsk;

use crate::failure::Failure;
use crate::{Stream, ask, cli, tell};

pub(crate) fn check(order: &cli::Check, out: &mut Stream, err: &mut Stream) -> Result<(), Failure> {
    let scenario = ask::scenario(&order.file)?;
    let due = match scenario.plan() {
        Some(plan) => study::cautions(&SafetyAsk::all(&plan))?,
        None => Vec::new(),
    };
    let cautions = report::cautions(&due, &[], scenario.style().unwrap_or_default());
    if order.json {
        let answer = json!({
            "title": scenario.title(),
            "cautions": cautions.iter().map(|of| of.full.as_str()).collect::<Vec<_>>(),
            "mistakes": 0,
            "resolved": scenario.resolved(),
        });
        return out.print(&format!("{answer:#}\n"));
    }
    let minded = report::minded(&cautions, tell::WIDTH);
    if order.resolved {
        // A scenario holds nothing else.
        err.print(&minded)?;
        return out.print(&scenario.resolved());
    }
    out.print(&minded)?;
    let told = if cautions.iter().any(|caution| caution.danger) {
        "reads without a mistake; but mind what stands above"
    } else {
        "no mistakes found"
    };
    out.print(&format!("{}: {told}\n", order.file.display()))
}
