//! What to do next where something could hurt somebody: not to shoot it.

use study::{Answer, Caution, Danger, Found};

use super::compare::hurts;
use crate::document::Document;
use crate::words::listed;

/// Most arrows named in one sentence. Chosen: two lines.
const LISTED: usize = 4;

/// The answer, which nowhere says to shoot what its cautions say is dangerous.
pub(super) fn heeded(document: Document, answer: &Answer) -> Document {
    let hurting: Vec<&Caution> = answer.cautions.iter().filter(|of| hurts(of)).collect();
    if !hurting.is_empty() {
        return document.and_next(&mend(&hurting, answer));
    }
    let bare = answer.cautions.iter().any(|of| matches!(of.danger, Danger::BareBlades));
    match document.next().map(str::to_owned).filter(|_| bare) {
        Some(next) => document.and_next(&format!(
            "with a field point of the same mass, never with bare blades: {next}"
        )),
        None => document,
    }
}

/// What is not to be shot, by name where the rest may be.
fn mend(hurting: &[&Caution], answer: &Answer) -> String {
    let mut names: Vec<&str> = Vec::new();
    for name in hurting.iter().flat_map(|caution| &caution.of) {
        if !names.contains(&name.as_str()) {
            names.push(name);
        }
    }
    let compared = match &answer.found {
        Found::Compare(of) => of.builds.len(),
        Found::Ends(of) => of.compared.builds.len(),
        _ => usize::MAX,
    };
    if hurting.iter().any(|caution| caution.of.is_empty()) || names.len() >= compared {
        return match compared {
            0 | 1 | usize::MAX => {
                "do not shoot it; mend what is marked ! first, by the bow maker's limits."
                    .to_owned()
            }
            _ => "shoot none of them; mend what is marked ! first, by the bow maker's limits."
                .to_owned(),
        };
    }
    let more = names.len().saturating_sub(LISTED);
    let mut told: Vec<String> =
        names.iter().take(LISTED).map(|name| format!("\"{name}\"")).collect();
    if more > 0 {
        told.push(format!("{more} more"));
    }
    format!(
        "do not shoot {}: mend that first, by the bow maker's limits, and choose without.",
        listed(&told, "and")
    )
}
