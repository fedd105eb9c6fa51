//! `clothyard pin`: the string's restraints from one measured thing.

use scenario::Restrained;
use study::Held;

use crate::failure::Failure;
use crate::{Stream, ask, cli, progress, shelf, tell};

pub(crate) fn pin(order: &cli::PinOrder, out: &mut Stream, err: &Stream) -> Result<(), Failure> {
    let source = &order.of.source;
    let (scenario, style) = ask::source(source)?;
    let measured = scenario.measured().ok_or(Failure::NothingMeasured)?;
    let recipe = scenario.recipe(order.of.build.as_deref())?;
    let what = "trying restraints by flying the arrow with each: a minute or two";
    let pinned =
        progress::searching(err, what, |watch| study::pin(recipe.as_ref(), &[measured], watch))?;
    let document = report::pin(&measured, &pinned, style)?;
    let document = document.cautioned(ask::minded(&scenario, order.of.build.as_deref(), style)?);
    let text = tell::text(&document, source.told)?;
    let Some(path) = &order.out else { return out.print(&text) };
    let found = [&pinned.left, &pinned.up].map(|held| match held {
        Held::Found { restraint, .. } => {
            Some(Restrained { value: restraint.value, low: restraint.low, high: restraint.high })
        }
        Held::Unexplained { .. } | Held::Unfelt | Held::Lost => None,
    });
    if found.iter().all(Option::is_none) {
        out.print(&text)?;
        return Err(Failure::NotPinned);
    }
    let how = report::pin_seen(&measured, style);
    shelf::write_new(path, &scenario::restraint_part(&how, found))?;
    out.print(&text)?;
    if source.told.json {
        return Ok(());
    }
    out.print(&format!(
        "\nWritten to {}: name it as part of [bow], or copy its lines there\n",
        path.display()
    ))
}
