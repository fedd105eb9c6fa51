//! `clothyard arrow`: the built arrow.

use scenario::Model;

use crate::failure::Failure;
use crate::{Stream, ask, cli};

pub(crate) fn arrow(order: &cli::Arrow, out: &mut Stream) -> Result<(), Failure> {
    let source = &order.source;
    let scenario = ask::scenario(&source.file)?;
    if scenario.model() == Model::RigidBody {
        return Err(Failure::NoArrow);
    }
    let style = ask::style(source, &scenario);
    let recipe = scenario.recipe(order.build.as_deref())?;
    let flown = study::fly_one(recipe.as_ref(), &ask::marks(&[], &scenario)?, false)?;
    let document = report::arrow(&flown, style)?;
    let text = if source.json { document.json()? } else { document.terminal(ask::WIDTH) };
    out.print(&text)
}
