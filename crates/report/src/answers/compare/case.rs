//! A comparison, its lists held against each other, and how it is told.

use study::{
    Band, BuildAnswer, Caution, Compared, Danger, Found, Joint, Pair, Seen, SideBySide,
    TargetChoice,
};
use units::{Role, Style};

use super::super::common::{fits, shot};
use super::super::unknown::{self, Asked, stands};
use crate::ReportError;
use crate::show::{self, plain, spoken_of};
use crate::words::listed;

/// A comparison and how it is told.
#[derive(Clone, Copy)]
pub(in super::super) struct Case<'a> {
    pub(in super::super) builds: &'a [BuildAnswer],
    pub(in super::super) pairs: &'a [Pair],
    pub(in super::super) sides: &'a SideBySide,
    pub(in super::super) target: TargetChoice,
    pub(in super::super) style: Style,
    /// The same at every outer point.
    pub(in super::super) unknown: Option<&'a Joint<Found>>,
    /// What could hurt somebody.
    pub(in super::super) cautions: &'a [Caution],
    /// How many distances of the points are left out here, at the front.
    pub(in super::super) skipped: usize,
}

impl<'a> Case<'a> {
    /// A comparison whose lists fit together.
    ///
    /// # Errors
    /// [`ReportError::NoBuild`], [`ReportError::Ragged`],
    /// [`ReportError::Builds`] and [`ReportError::NoSuchBuild`].
    pub(in super::super) fn new(
        found: &'a Compared,
        unknown: Option<&'a Joint<Found>>,
        (target, cautions): (TargetChoice, &'a [Caution]),
        style: Style,
    ) -> Result<Self, ReportError> {
        let Compared { builds, pairs, sides } = found;
        let skipped = 0;
        let case = Self { builds, pairs, sides, target, style, unknown, cautions, skipped };
        let expected = builds.first().map_or(0, |build| build.marks.len());
        if expected == 0 {
            return Err(ReportError::NoBuild);
        }
        check_builds(builds, expected)?;
        if sides.builds.len() != builds.len() {
            let (path, found) = ("sides.builds".to_owned(), sides.builds.len());
            return Err(ReportError::Builds { path, found, expected: builds.len() });
        }
        for (at, side) in sides.builds.iter().enumerate() {
            fits(&format!("sides.builds[{at}].marks"), side.marks.len(), expected)?;
        }
        let known = |list: &str, at, two: [usize; 2], marks| {
            fits(&format!("{list}[{at}].marks"), marks, expected)?;
            match two.into_iter().find(|&index| index >= builds.len()) {
                Some(build) => {
                    Err(ReportError::NoSuchBuild { pair: at, build, builds: builds.len() })
                }
                None => Ok(()),
            }
        };
        for (at, pair) in sides.pairs.iter().enumerate() {
            known("sides.pairs", at, [pair.one, pair.other], pair.marks.len())?;
        }
        for (at, pair) in pairs.iter().enumerate() {
            known("pairs", at, [pair.base, pair.other], pair.marks.len())?;
        }
        Ok(case)
    }

    /// The band of a number of the comparison.
    pub(in super::super) fn band(
        &self,
        value: f64,
        read: impl Fn(&Compared) -> Option<f64>,
    ) -> Option<Band> {
        self.unknown?.band(value, |found| read(found.compared()?))
    }

    /// How a verdict on who sees a pair stands, a sentence; empty where nothing
    /// is poorly known.
    pub(in super::super) fn seen_stands(&self, pair: &Pair, at: usize) -> String {
        let Some(joint) = self.unknown else { return String::new() };
        let Some(index) = self.pairs.iter().position(|of| of.other == pair.other) else {
            return String::new();
        };
        let (at, seen) = (self.skipped + at, pair.marks[at].seen);
        let mark = move |found: &Found| found.compared()?.pairs.get(index)?.marks.get(at).cloned();
        let verdict = |found: &Found| mark(found).is_some_and(|mark| mark.seen == seen);
        let read = |found: &Found| Some(mark(found)?.machine_ratio?.value.ln().abs());
        let asked = Asked { what: String::new(), read: &read, verdict: &verdict };
        stands(said(seen), joint.standing(verdict), unknown::decider(joint, &asked))
    }

    /// Index of the distance that sentences speak of.
    pub(in super::super) fn middle(&self) -> usize {
        spoken_of(&self.builds[0], self.sides.stated.headline)
    }

    /// A distance in words.
    pub(in super::super) fn range(&self, at: usize) -> String {
        plain(Role::Range, self.builds[0].marks[at].distance.si(), self.style)
    }

    pub(in super::super) fn name(&self, build: usize) -> &'a str {
        &self.builds[build].name
    }

    /// Whether no caution says that this build can hurt who shoots it.
    pub(in super::super) fn safe(&self, build: usize) -> bool {
        let name = self.name(build);
        let of = |caution: &Caution| caution.of.is_empty() || caution.of.iter().any(|n| n == name);
        !self.cautions.iter().any(|caution| hurts(caution) && of(caution))
    }

    /// The builds that may be told to be better than others: the safe ones.
    pub(in super::super) fn choices(&self) -> Vec<usize> {
        (0..self.builds.len()).filter(|&build| self.safe(build)).collect()
    }

    /// That no build is chosen that is dangerous, a sentence; none where all are safe.
    pub(in super::super) fn barred(&self) -> Option<String> {
        let barred: Vec<String> = (0..self.builds.len())
            .filter(|&build| !self.safe(build))
            .map(|build| format!("\"{}\"", self.name(build)))
            .collect();
        let (is, it) = if barred.len() == 1 { ("is", "it") } else { ("are", "they") };
        match self.choices().as_slice() {
            _ if barred.is_empty() || !self.several() => None,
            [] => Some("None of these builds is safe to shoot (marked !).".to_owned()),
            [one] => Some(format!(
                "Only \"{}\" is safe to shoot here: {} {is} dangerous (marked !).",
                self.name(*one),
                listed(&barred, "and")
            )),
            _ => Some(format!(
                "{} {is} dangerous (marked !): {it} cannot be the better choice.",
                listed(&barred, "and")
            )),
        }
    }

    /// The arrows, each under the name of its build where there are several.
    pub(in super::super) fn named(&self) -> impl Iterator<Item = (&'a str, &'a arrow::Built)> {
        let several = self.several();
        self.builds.iter().map(move |b| (if several { b.name.as_str() } else { "Note" }, &b.built))
    }

    /// Whether somebody shoots every build.
    pub(in super::super) fn shot(&self) -> bool {
        self.builds.iter().all(shot)
    }

    /// Whether the target counts points.
    pub(in super::super) fn face(&self) -> bool {
        matches!(self.target, TargetChoice::Face { .. })
    }

    /// The zone to hit, "zone 8 in across"; none on a face.
    pub(in super::super) fn zone(&self) -> Option<String> {
        show::across(self.target, self.style).map(|across| format!("zone {across}"))
    }

    /// What shots are called when they count.
    pub(in super::super) fn hits(&self) -> &'static str {
        if self.face() { "tens" } else { "hits" }
    }

    pub(in super::super) fn several(&self) -> bool {
        self.builds.len() > 1
    }
}

/// Whether a caution is of a danger to who shoots, whatever the distance and the point.
pub(in super::super) fn hurts(caution: &Caution) -> bool {
    !matches!(caution.danger, Danger::Far(_) | Danger::BareBlades | Danger::Weak { .. })
}

/// A verdict on who sees a difference, as a clause.
fn said(seen: Seen) -> &'static str {
    match seen {
        Seen::Archer => "That you would notice",
        Seen::MachineOnly => "That only a machine would see it",
        Seen::Nobody => "That nobody would see it",
    }
}

/// Refuses builds whose lists are not as long as they must be.
pub(in super::super) fn check_builds(
    builds: &[BuildAnswer],
    expected: usize,
) -> Result<(), ReportError> {
    for build in builds {
        fits(&format!("marks of {}", build.name), build.marks.len(), expected)?;
        for cause in &build.causes {
            let owner = crate::words::owner(cause.owner);
            fits(&format!("cause {owner} of {}", build.name), cause.r50.len(), expected)?;
        }
    }
    Ok(())
}

/// What is asked of the poorly known values: what decides the size of the groups, or who
/// sees two builds differ.
pub(in super::super) fn asking<R>(case: Case, ask: &mut dyn FnMut(&Asked<Found>) -> R) -> R {
    let at = case.middle();
    let Some(pair) = case.pairs.first() else {
        let hits = case.builds[0].marks[at].machine.stats.r50.value;
        let mark = |found: &Found| found.compared()?.builds.first()?.marks.get(at).cloned();
        let read = |found: &Found| Some(mark(found)?.machine.stats.r50.value);
        let verdict = |found: &Found| read(found).is_some_and(|r50| (r50 < hits) == (hits > 0.0));
        let what = format!("the group that a machine would shoot at {}", case.range(at));
        return ask(&Asked { what, read: &read, verdict: &verdict });
    };
    let seen = pair.marks[at].seen;
    let mark = |found: &Found| found.compared()?.pairs.first()?.marks.get(at).cloned();
    let read = |found: &Found| Some(mark(found)?.machine_ratio?.value.ln());
    let verdict = |found: &Found| mark(found).is_some_and(|mark| mark.seen == seen);
    let what = format!(
        "how much \"{}\" and \"{}\" differ from a machine at {}",
        case.name(pair.other),
        case.name(pair.base),
        case.range(at)
    );
    ask(&Asked { what, read: &read, verdict: &verdict })
}
