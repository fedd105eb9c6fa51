//! What a scenario asks beyond its builds side by side, answered whole.

use maud::{Markup, PreEscaped, html};
use scenario::Scenario;
use study::Plan;
use units::Style;

use crate::jobs::Flag;
use crate::scene::{self, Scene};
use crate::{PageError, tape};

/// Whether a scenario asks anything beyond them.
pub(crate) fn asks(scenario: &Scenario, plan: &Plan, style: Style) -> bool {
    let build = plan.builds.first().map(|build| build.name.as_str());
    let build = build.filter(|_| plan.builds.len() > 1);
    scene::aside(plan).is_some() || tape::asks_marks(scenario, build, style)
}

/// Everything a report of it says but where its numbers come from, which the exported
/// report tells.
pub(crate) fn asked(scene: &Scene, flag: &Flag) -> Result<Markup, PageError> {
    let plan = scene.plan()?;
    let mut documents = Vec::new();
    if scene::aside(&plan).is_some() {
        let answer = study::run(&plan, flag)?;
        documents.push(report::answer(&answer, &scene.provenance(answer.seed), scene.style)?);
    }
    documents.extend(tape::marks(scene)?);
    Ok(html! {
        @for (at, document) in documents.iter().enumerate() {
            @if at == 0 { div data-part="lead" { p.answer { (document.verdict()) } } }
            div data-part="asked" { (PreEscaped(document.fragment()?)) }
        }
    })
}
