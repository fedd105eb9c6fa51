//! What a tuning answer says first.

use study::{Found, Joint, Tuned, TunedBuild};
use units::{Role, Style};

use super::advice;
use super::words::{band, separation, size};
use crate::show;

/// The answer in some plain sentences, of the first build: stiff or weak, how far bare
/// and fletched land apart at the farthest distance that the bare shaft reaches, and
/// what may be advised.
pub(super) fn headline(tuned: &Tuned, joint: Option<&Joint<Found>>, style: Style) -> String {
    let Some(first) = tuned.builds.first() else { return String::new() };
    let apart = apart(first, tuned.builds.len() > 1, style);
    if separation(first).is_none() {
        return apart;
    }
    let cannot = if advice::blind(first) { advice::cannot(style) } else { String::new() };
    let said = [cannot, advice::spine(first, style), apart, advice::advice(first, joint, style)];
    let said = said.into_iter().chain(advice::others(tuned, style));
    said.filter(|text| !text.is_empty()).collect::<Vec<String>>().join(" ")
}

/// How far bare and fletched of a build land apart.
fn apart(build: &TunedBuild, named: bool, style: Style) -> String {
    let of = if named { format!(" of \"{}\"", build.name) } else { String::new() };
    let Some((found, apart)) = separation(build) else {
        return format!("The bare shaft{of} turns over before it reaches the nearest distance.");
    };
    let range = show::plain(Role::Range, build.bare[found.mark].distance.si(), style);
    let known = band(&apart.size, style);
    let Some(size_now) = size(apart.size.value, style) else {
        return format!(
            "Bare and fletched{of} land in one place at {range} ({known} apart over what is not \
             well known)."
        );
    };
    // Usual values that are no middle of what is not known come second.
    if (apart.size.low..=apart.size.high).contains(&apart.size.value) {
        format!(
            "Bare and fletched{of} land {size_now} apart at {range} ({known} over what is not \
             well known)."
        )
    } else {
        format!(
            "Bare and fletched{of} land {known} apart at {range} over what is not well known \
             ({size_now} at its usual values)."
        )
    }
}
