//! `clothyard fly`: one arrow past its marks.

use flight::FlightEnd;
use scenario::{Model, RigidBody, Scenario};
use units::{Role, Style};

use crate::cli::{self, MotionWord, PrintWord};
use crate::failure::Failure;
use crate::{Stream, ask, rigid, shelf, tell};

pub(crate) fn fly(order: &cli::Fly, out: &mut Stream, err: &mut Stream) -> Result<(), Failure> {
    let source = &order.of.source;
    let (scenario, style) = ask::source(source)?;
    let shape = if source.told.json { PrintWord::Json } else { order.shape };
    let text = match scenario.rigid_body() {
        Some(body) => tumble(order, &body, shape)?,
        None => arrow(order, &scenario, style, shape, err)?,
    };
    match &order.out {
        Some(path) => shelf::write_new(path, &text),
        None => out.print(&text),
    }
}

fn tumble(order: &cli::Fly, body: &RigidBody, shape: PrintWord) -> Result<String, Failure> {
    let given = [
        ("marks", !order.marks.is_empty()),
        ("build", order.of.build.is_some()),
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
    shape: PrintWord,
    err: &mut Stream,
) -> Result<String, Failure> {
    let point_mass = match order.model {
        Some(asked) => asked == MotionWord::PointMass,
        None => scenario.model() == Model::PointMass,
    };
    let recipe = scenario.recipe(order.of.build.as_deref())?;
    let marks = ask::marks(&order.marks, scenario)?;
    let flown = study::fly_one(recipe.as_ref(), &marks, point_mass)?;
    if let FlightEnd::Short { reached, why } = flown.end {
        let far = Role::Range.text(reached, style);
        err.print(&format!("note: the arrow got as far as {far}: {why}\n"))?;
    }
    let document = report::flight(&flown.states, flown.built.mass.mass(), style)?;
    let document = document.cautioned(ask::minded(scenario, order.of.build.as_deref(), style)?);
    Ok(match shape {
        PrintWord::Table => tell::text(&document, order.of.source.told)?,
        PrintWord::Csv => {
            // A table holds nothing else.
            err.print(&document.minded(tell::WIDTH))?;
            document.csv("states").unwrap_or_default()
        }
        PrintWord::Json => document.json()?,
    })
}
