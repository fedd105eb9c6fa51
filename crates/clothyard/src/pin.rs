//! `clothyard pin`: the string's restraint from one measured shift of impact.

use study::Pinned;

use crate::failure::Failure;
use crate::{Stream, ask, cli, shelf};

pub(crate) fn pin(order: &cli::Pin, out: &mut Stream) -> Result<(), Failure> {
    let source = &order.source;
    let scenario = ask::scenario(&source.file)?;
    let measured = scenario.measured().ok_or(Failure::NothingMeasured)?;
    let recipe = scenario.recipe(order.build.as_deref())?;
    let style = ask::style(source, &scenario);
    let pinned = study::pin(recipe.as_ref(), &measured)?;
    let mut text = if source.json {
        format!("{:#}\n", report::pin_json(&measured, &pinned)?)
    } else {
        report::pin_text(&measured, &pinned, style, ask::WIDTH)?
    };
    if let Some(path) = &order.out {
        let Pinned::Found { restraint, .. } = &pinned else {
            out.print(&text)?;
            return Err(Failure::NotPinned);
        };
        let how = report::pin_seen(&measured, style);
        let left = (restraint.low, restraint.high);
        let part = scenario::restraint_part(&how, restraint.value, left);
        shelf::write_new(path, &part)?;
        if !source.json {
            text += &format!(
                "\nWritten to {}: name it as part of [bow], or copy its line there\n",
                path.display()
            );
        }
    }
    out.print(&text)
}
