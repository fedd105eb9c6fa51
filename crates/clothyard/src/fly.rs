//! `clothyard fly`: one arrow past its marks.

use flight::End;
use scenario::Model;
use units::Role;

use crate::cli::{self, Motion, Shape};
use crate::failure::Failure;
use crate::{ask, rigid, shelf};

pub(crate) fn fly(order: &cli::Fly) -> Result<(), Failure> {
    let source = &order.source;
    let scenario = ask::scenario(&source.file)?;
    let style = ask::style(source, &scenario);
    let shape = if source.json { Shape::Json } else { order.shape };
    let text = match (order.model, scenario.model(), scenario.rigid_body()) {
        (None, Model::RigidBody, Some(body)) => {
            if !order.marks.is_empty() {
                return Err(Failure::NotForRigidBody { option: "marks" });
            }
            if order.build.is_some() {
                return Err(Failure::NotForRigidBody { option: "build" });
            }
            rigid::tumble(&body, shape)?
        }
        (asked, model, _) => {
            let point_mass = asked.map_or(model == Model::PointMass, |m| m == Motion::PointMass);
            let recipe = scenario.recipe(order.build.as_deref())?;
            let marks = ask::marks(&order.marks, &scenario)?;
            let flown = study::fly_one(recipe.as_ref(), &marks, point_mass)?;
            if let End::Short { reached, why } = flown.end {
                eprintln!(
                    "note: the arrow got as far as {}: {why}",
                    Role::Range.text(reached, style)
                );
            }
            let mass = flown.built.mass.mass();
            match shape {
                Shape::Table => report::flight_table(&flown.states, mass, style, ask::WIDTH)?,
                Shape::Csv => report::flight_csv(&flown.states, mass, style)?,
                Shape::Json => format!("{:#}\n", report::flight_json(&flown.states, mass)?),
            }
        }
    };
    match &order.out {
        Some(path) => shelf::write_new(path, &text),
        None => shelf::print(&text),
    }
}
