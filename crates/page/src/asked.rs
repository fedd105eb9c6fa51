//! What a scenario asks beyond its builds side by side, answered whole.

use maud::{Markup, PreEscaped, html};
use scenario::Scenario;
use study::{Plan, Question};
use units::Style;

use crate::jobs::Flag;
use crate::scene::{self, Scene};
use crate::{PageError, tape};

/// Whether a scenario asks anything beyond them.
pub(crate) fn asks(scenario: &Scenario, plan: &Plan, style: Style) -> bool {
    let build = plan.builds.first().map(|build| build.name.as_str());
    let build = build.filter(|_| plan.builds.len() > 1);
    scene::whole(plan) || tape::asks_marks(scenario, build, style)
}

/// Everything a report of it says but where its numbers come from, which the exported
/// report tells.
pub(crate) fn asked(scene: &Scene, flag: &Flag) -> Result<Markup, PageError> {
    let mut plan = scene.plan()?;
    if let Question::Compare { .. } = plan.question {
        // It speaks of the distance that is looked at.
        plan.stated.headline = plan.distances.get(scene.at).copied();
    }
    let mut documents = Vec::new();
    if scene::whole(&plan) {
        let answer = study::run(&plan, flag)?;
        documents.push(report::answer(&answer, &scene.provenance(answer.seed), scene.style)?);
    }
    documents.extend(tape::marks(scene)?);
    Ok(html! {
        @for document in &documents {
            div data-part="asked" data-short[document.is_shortened()] { (PreEscaped(document.fragment()?)) }
        }
    })
}
