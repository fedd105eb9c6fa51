//! The squareness of a cut, from a feeler gauge.

use maud::{Markup, html};
use study::workbench::FaceVerdict;
use units::{Angle, Dimension, Role, Style};

use crate::state::PageRequest;
use crate::{PageError, Wrong};

/// Fields of the gauge.
pub(crate) const FIELDS: [&str; 4] = ["gap", "across", "keep", "reject"];

/// An end is left as it is up to this angle, as the bench has it.
pub(crate) const KEEP: &str = "0.1 deg";
/// An end is rejected above this angle, as the bench has it.
pub(crate) const REJECT: &str = "1 deg";

/// The verdict in large type.
pub(crate) fn verdict(asked: &PageRequest) -> Result<Markup, PageError> {
    let mut wrong = Vec::new();
    let gap = read(asked, "gap", Dimension::Length, &mut wrong);
    let across = read(asked, "across", Dimension::Length, &mut wrong);
    let keep = read(asked, "keep", Dimension::Angle, &mut wrong);
    let reject = read(asked, "reject", Dimension::Angle, &mut wrong);
    let (Some(gap), Some(across), Some(keep), Some(reject)) = (gap, across, keep, reject) else {
        return Err(PageError::Wrong(wrong));
    };
    let refuse = |field, text: &str| {
        Err(PageError::Wrong(vec![Wrong { field: Some(field), text: text.to_owned() }]))
    };
    if !(across > 0.0 && across <= 0.1) {
        return refuse("across", "a face is more than 0 and at most 100 mm across");
    }
    if !(0.0..=across).contains(&gap) {
        return refuse("gap", "a gap is not below 0 and not wider than the face");
    }
    if !(0.0..=reject).contains(&keep) {
        return refuse("reject", "the angle to reject must not lie below the angle to keep");
    }
    let angle = (gap / across).atan();
    let [of, keep, reject] = [angle, keep, reject].map(Angle::from_si);
    let verdict = FaceVerdict::of(of, keep, reject);
    let (word, then) = match verdict {
        FaceVerdict::AsIs => ("As is", "Square enough by the limits below."),
        FaceVerdict::Square => ("Square it", "Dust mask on; cut wet or with suction, wipe up wet."),
        FaceVerdict::Reject => {
            ("Reject", "Look for a crushed or cracked end. Do not shoot a cracked shaft.")
        }
    };
    let class = match verdict {
        FaceVerdict::AsIs => "verdict keep",
        FaceVerdict::Square => "verdict square",
        FaceVerdict::Reject => "verdict reject",
    };
    let text = Role::Angle.text(angle, Style::Archery);
    Ok(html! {
        p class=(class) data-angle=(text) { strong { (word) } span { (text) } }
        p { (then) }
        p { "The limits are a shop's habit, and finer than most feelers. "
            a href="/tools/bench-square" { "What such an end does on the target" } }
    })
}

fn read(
    asked: &PageRequest,
    field: &'static str,
    dimension: Dimension,
    wrong: &mut Vec<Wrong>,
) -> Option<f64> {
    let read = units::parse_si(dimension, asked.extra(field));
    read.map_err(|error| wrong.push(Wrong { field: Some(field), text: error.to_string() })).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn law_page_and_bench_judge_an_end_alike() {
        let read = |text: &str| units::parse::<Angle>(text).map(Angle::si);
        let same = |got: f64, want: Angle| (got - want.si()).abs() < 1e-12;
        assert!(read(KEEP).is_ok_and(|at| same(at, study::workbench::KEEP)));
        assert!(read(REJECT).is_ok_and(|at| same(at, study::workbench::REJECT)));
    }
}
