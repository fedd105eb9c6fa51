//! `clothyard arrow`: the built arrow.

use scenario::Model;

use crate::failure::Failure;
use crate::source::OneBuild;
use crate::{Stream, ask, tell};

pub(crate) fn arrow(order: &OneBuild, out: &mut Stream) -> Result<(), Failure> {
    let source = &order.source;
    let (scenario, style) = ask::source(source)?;
    if scenario.model() == Model::RigidBody {
        return Err(Failure::NoArrow);
    }
    let recipe = scenario.recipe(order.build.as_deref())?;
    let flown = study::fly_one(recipe.as_ref(), &ask::marks(&[], &scenario)?, false)?;
    let document = report::arrow(&flown, style)?;
    let document = document.cautioned(ask::minded(&scenario, order.build.as_deref(), style)?);
    out.print(&tell::text(&document, source.told)?)
}
