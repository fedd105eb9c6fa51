//! `clothyard fly`: one arrow past its marks.

use flight::End;
use scenario::{Model, RigidBody, Scenario};
use units::{Role, Style};

use crate::cli::{self, Motion, Shape};
use crate::failure::Failure;
use crate::{Stream, ask, rigid, shelf};

pub(crate) fn fly(order: &cli::Fly, out: &mut Stream, err: &mut Stream) -> Result<(), Failure> {
    let source = &order.source;
    let scenario = ask::scenario(&source.file)?;
    let style = ask::style(source, &scenario);
    let shape = if source.json { Shape::Json } else { order.shape };
    let text = match scenario.rigid_body() {
        Some(body) => tumble(order, &body, shape)?,
        None => arrow(order, &scenario, style, shape, err)?,
    };
    match &order.out {
        Some(path) => shelf::write_new(path, &text),
        None => out.print(&text),
    }
}

fn tumble(order: &cli::Fly, body: &RigidBody, shape: Shape) -> Result<String, Failure> {
    let given = [
        ("marks", !order.marks.is_empty()),
        ("build", order.build.is_some()),
        ("model", order.model.is_some()),
    ];
    match given.into_iter().find(|(_, given)| *given) {
        Some((option, _)) => Err(Failure::NotForRigidBody { option }),
        None => rigid::tumble(body, shape),
    }
}

fn arrow(
    order: &cli::Fly,
    scenario: &Scenario,
    style: Style,
    shape: Shape,
    err: &mut Stream,
) -> Result<String, Failure> {
    let point_mass = match order.model {
        Some(asked) => asked == Motion::PointMass,
        None => scenario.model() == Model::PointMass,
    };
    let recipe = scenario.recipe(order.build.as_deref())?;
    let marks = ask::marks(&order.marks, scenario)?;
    let flown = study::fly_one(recipe.as_ref(), &marks, point_mass)?;
    if let End::Short { reached, why } = flown.end {
        let far = Role::Range.text(reached, style);
        err.print(&format!("note: the arrow got as far as {far}: {why}\n"))?;
    }
    let document = report::flight(&flown.states, flown.built.mass.mass(), style)?;
    Ok(match shape {
        Shape::Table => document.terminal(ask::WIDTH),
        Shape::Csv => document.csv("states").unwrap_or_default(),
        Shape::Json => document.json()?,
    })
}
