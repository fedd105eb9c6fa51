//! The scenario's own question, answered whole.

use maud::{Markup, PreEscaped, html};

use crate::PageError;
use crate::jobs::Flag;
use crate::scene::Scene;

/// Everything a report of it says but where its numbers come from, which the exported
/// report tells.
pub(crate) fn asked(scene: &Scene, flag: &Flag) -> Result<Markup, PageError> {
    let answer = study::run(&scene.plan()?, flag)?;
    let document = report::answer(&answer, &scene.provenance(answer.seed), scene.style)?;
    Ok(html! {
        div data-part="lead" { p.answer { (document.verdict()) } }
        div data-part="asked" {
            (PreEscaped(document.fragment()?))
        }
    })
}
