//! Each build is sighted in for itself: what one sight setting would make of them.

use study::{Band, BuildAnswer, Compared};
use units::Role;

use super::super::unknown;
use super::case::Case;

/// Smallest difference of drop worth a word, m. Chosen: a tenth of an inch, which no
/// archer holds.
const SMALLEST: f64 = 0.0025;

/// That each build has its own sight setting, and where the one whose drop differs most
/// from the first's lands with the first's; none where all fly alike.
pub(in super::super) fn settings(case: Case) -> Option<String> {
    let (first, others) = case.builds.split_first()?;
    let at = case.middle();
    let lower =
        |build: usize| case.builds[build].marks[at].nominal.drop - first.marks[at].nominal.drop;
    let most = (1..case.builds.len()).max_by(|&a, &b| lower(a).abs().total_cmp(&lower(b).abs()))?;
    let bladed =
        |build: &BuildAnswer| build.built.layout.blade_front.si() < build.built.layout.tip.si();
    let low = lower(most);
    if low.abs() < SMALLEST {
        // Blades steer an arrow from its way off the bow though it drops the same.
        let points = others.iter().any(|build| bladed(build) != bladed(first));
        return points.then(|| {
            format!(
                "Each build has its own sight setting here. Their drop at {} is alike, but with one \
                 setting they may land apart: a tune question says where each lands.",
                case.range(at)
            )
        });
    }
    let outer = case.skipped + at;
    let band = case.band(low, |of: &Compared| {
        let drop = |build: usize| Some(of.builds.get(build)?.marks.get(outer)?.nominal.drop);
        Some(drop(most)? - drop(0)?)
    });
    let (way, size, band) = if low < 0.0 {
        ("higher", -low, band.map(|Band { low, high }| Band { low: -high, high: -low }))
    } else {
        ("lower", low, band)
    };
    Some(format!(
        "Each build has its own sight setting here. With that of \"{}\" at {}, \"{}\" lands {} {way} \
         by its drop alone; a tune question says where each lands with one setting.",
        first.name,
        case.range(at),
        case.name(most),
        unknown::figure(Role::Impact, size, band, case.style),
    ))
}
