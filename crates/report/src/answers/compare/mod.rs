//! Builds side by side: groups, flight, differences, and who would see them.

mod costs;
pub(super) mod data;
mod figures;
mod headline;
mod short;
mod sight;
pub(super) mod tables;
pub(super) mod words;

pub use figures::LiveFigure;
pub(super) use figures::figures;
pub(super) use headline::headline as lead;
pub(super) use short::short;
pub(super) use sight::settings;
use study::{
    Band, BuildAnswer, Caution, Compared, Danger, Found, Joint, Pair, Seen, SideBySide, SidePair,
    TargetChoice,
};
use units::{Role, Style};

use super::common::{NOBODY, care, fits, notes, of, shot};
use super::unknown::{self, Asked, stands};
use crate::document::{Document, Part, Table, fold, head, list, note, say, small};
use crate::show::{plain, spoken_of};
use crate::{ReportError, plots, prose};

/// A comparison and how it is told.
#[derive(Clone, Copy)]
pub(super) struct Case<'a> {
    pub(super) builds: &'a [BuildAnswer],
    pub(super) pairs: &'a [Pair],
    pub(super) sides: &'a SideBySide,
    pub(super) target: TargetChoice,
    pub(super) style: Style,
    /// The same at every outer point.
    pub(super) unknown: Option<&'a Joint<Found>>,
    /// What could hurt somebody.
    pub(super) cautions: &'a [Caution],
    /// How many distances of the points are left out here, at the front.
    pub(super) skipped: usize,
}

impl<'a> Case<'a> {
    /// A comparison whose lists fit together.
    ///
    /// # Errors
    /// [`ReportError::NoBuild`], [`ReportError::Ragged`],
    /// [`ReportError::Builds`] and [`ReportError::NoSuchBuild`].
    pub(super) fn new(
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
    pub(super) fn band(&self, value: f64, read: impl Fn(&Compared) -> Option<f64>) -> Option<Band> {
        self.unknown?.band(value, |found| read(found.compared()?))
    }

    /// How a verdict on who sees a pair stands, a sentence; empty where nothing
    /// is poorly known.
    pub(super) fn seen_stands(&self, pair: &Pair, at: usize) -> String {
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
    pub(super) fn middle(&self) -> usize {
        spoken_of(&self.builds[0], self.sides.stated.headline)
    }

    /// A distance in words.
    pub(super) fn range(&self, at: usize) -> String {
        plain(Role::Range, self.builds[0].marks[at].distance.si(), self.style)
    }

    fn name(&self, build: usize) -> &'a str {
        &self.builds[build].name
    }

    /// Whether no caution says that this build can hurt who shoots it.
    pub(super) fn safe(&self, build: usize) -> bool {
        let name = self.name(build);
        let of = |caution: &Caution| caution.of.is_empty() || caution.of.iter().any(|n| n == name);
        !self.cautions.iter().any(|caution| hurts(caution) && of(caution))
    }

    /// The builds that may be told to be better than others: the safe ones.
    pub(super) fn choices(&self) -> Vec<usize> {
        (0..self.builds.len()).filter(|&build| self.safe(build)).collect()
    }

    /// That no build is chosen that is dangerous, a sentence; none where all are safe.
    pub(super) fn barred(&self) -> Option<String> {
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
                words::listed(&barred, "and")
            )),
            _ => Some(format!(
                "{} {is} dangerous (marked !): {it} cannot be the better choice.",
                words::listed(&barred, "and")
            )),
        }
    }

    /// The arrows, each under the name of its build where there are several.
    pub(super) fn named(&self) -> impl Iterator<Item = (&'a str, &'a arrow::Built)> {
        let several = self.several();
        self.builds.iter().map(move |b| (if several { b.name.as_str() } else { "Note" }, &b.built))
    }

    /// Whether somebody shoots every build.
    pub(super) fn shot(&self) -> bool {
        self.builds.iter().all(shot)
    }

    /// Whether the target counts points.
    fn face(&self) -> bool {
        matches!(self.target, TargetChoice::Face { .. })
    }

    /// What shots are called when they count.
    fn hits(&self) -> &'static str {
        if self.face() { "tens" } else { "hits" }
    }

    fn several(&self) -> bool {
        self.builds.len() > 1
    }
}

/// Whether a caution is of a danger to who shoots, whatever the distance and the point.
pub(super) fn hurts(caution: &Caution) -> bool {
    !matches!(caution.danger, Danger::Far { .. } | Danger::BareBlades)
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
pub(super) fn check_builds(builds: &[BuildAnswer], expected: usize) -> Result<(), ReportError> {
    for build in builds {
        fits(&format!("marks of {}", build.name), build.marks.len(), expected)?;
        for cause in &build.causes {
            let owner = crate::words::owner(cause.owner);
            fits(&format!("cause {owner} of {}", build.name), cause.r50.len(), expected)?;
        }
    }
    Ok(())
}

/// The comparison.
///
/// # Errors
/// As [`Case::new`]; and [`ReportError::NotFinite`] for the first bad number.
pub(super) fn compare(title: &str, case: Case) -> Result<Document, ReportError> {
    let mut parts = body(case);
    parts.extend(end(case));
    Document::new("compare", title, lead(case), parts, case.style)?.shortly(short(case))
}

/// All but what ends every comparison.
pub(super) fn body(case: Case) -> Vec<Part> {
    let figure = |figure| Part::Figure(figure);
    let mut parts = Vec::new();
    if !case.shot() {
        parts.push(note(NOBODY));
    }
    parts.extend(settings(case).map(say));
    parts.push(figure(plots::faces(case.builds, case.target, case.style)));
    parts.push(head("By distance"));
    parts.push(Part::Table(tables::distances(case)));
    parts.push(say(format!("{} {}", words::READ, words::read_more(case))));
    parts.extend(side_by_side(case));
    let mut folded = vec![
        figure(plots::groups(case.builds, case.style)),
        figure(plots::drop(case.builds, case.style)),
    ];
    folded.extend(case.builds.iter().map(|build| {
        let keyed = |table: Table| Part::Table(table.of("build", &build.name));
        fold(
            format!("Groups and flight{}", of(case.several(), &build.name)),
            vec![
                small("Groups"),
                keyed(tables::groups(build)),
                small("Flight of the fault-free arrow"),
                keyed(tables::drop(&build.marks)),
            ],
        )
    }));
    parts.push(Part::Page(folded));
    parts.extend(would_see(case));
    if case.builds.iter().any(|build| !build.causes.is_empty()) {
        let mut causes =
            vec![head("Which faults matter"), figure(plots::causes(case.builds, case.style))];
        causes.extend(case.builds.iter().map(|build| {
            let heading = format!("Faults{} at every distance", of(case.several(), &build.name));
            fold(heading, vec![Part::Table(tables::causes(build).of("build", &build.name))])
        }));
        parts.push(Part::Page(causes));
    }
    parts
}

/// Every build at each distance, the middle one open.
fn side_by_side(case: Case) -> Vec<Part> {
    let first: Vec<&SidePair> = case.sides.pairs.iter().filter(|pair| pair.one == 0).collect();
    let reach = words::reach(case);
    let mut parts = vec![head("Side by side")];
    if !reach.is_empty() {
        let picture = plots::hits(case.builds, case.sides, case.hits(), case.style);
        parts.extend(picture.map(Part::Figure));
        parts.extend(reach.into_iter().map(say));
    }
    parts.extend(words::best(case).map(say));
    let duels = first.iter().filter(|_| case.shot());
    parts.extend(duels.filter_map(|pair| words::duel(case, pair)).map(say));
    let differences = |pair: &SidePair, at| Part::Table(tables::differences(case, pair, at));
    let others = |at| -> Vec<Part> {
        let others = case.sides.pairs.iter().filter(|pair| pair.one != 0);
        others.flat_map(|pair| [small(words::against(case, pair)), differences(pair, at)]).collect()
    };
    let tables = |at: usize| {
        let mut parts = vec![Part::Table(tables::side_by_side(case, at))];
        let mut more: Vec<Part> = first
            .iter()
            .flat_map(|pair| [small(words::against(case, pair)), differences(pair, at)])
            .collect();
        let others = others(at);
        if !others.is_empty() {
            more.push(fold("The other pairs", others));
        }
        parts.push(Part::Page(more));
        parts
    };
    let middle = case.middle();
    parts.push(small(format!("At {}", case.range(middle))));
    parts.extend(tables(middle));
    if case.several() {
        parts.push(Part::Page(vec![say(prose::DIFFERENCES)]));
    }
    let rest = (0..case.builds[0].marks.len()).filter(|&at| at != middle);
    parts.extend(rest.map(|at| fold(format!("At {}", case.range(at)), tables(at))));
    parts
}

/// How many shots a difference takes, and how often fewer mislead.
fn would_see(case: Case) -> Vec<Part> {
    if case.pairs.is_empty() || !case.shot() {
        return Vec::new();
    }
    let at = case.middle();
    let mut parts = vec![head("Who would see it")];
    let first = case.sides.pairs.iter().filter(|pair| pair.one == 0);
    parts.extend(first.map(|pair| say(words::told(case, pair))));
    let mut more: Vec<Part> =
        plots::power(case.builds, case.sides, case.style).into_iter().map(Part::Figure).collect();
    for pair in &case.sides.pairs {
        let against = words::against(case, pair);
        let mut inside = Vec::new();
        if pair.one != 0 {
            inside.push(say(words::told(case, pair)));
        }
        inside.push(Part::Table(tables::told(case, pair, at)));
        let heading = format!("At {}, {against}: how often a few shots mislead", case.range(at));
        more.push(fold(heading, inside));
    }
    more.push(say(prose::MISLED));
    more.push(say(words::seen(case)));
    for pair in case.pairs {
        let (base, other) = (case.name(pair.base), case.name(pair.other));
        more.push(small(format!("\"{other}\" against \"{base}\"")));
        more.push(Part::Table(tables::pair(pair).of("base", base).of("other", other)));
    }
    parts.push(Part::Page(more));
    parts
}

/// What is not known, and what to measure next.
fn not_known(case: Case) -> Vec<Part> {
    asking(case, &mut |asked| unknown::section(case.unknown, std::slice::from_ref(asked)))
}

/// What is asked of the poorly known values: what decides the size of the groups, or who
/// sees two builds differ.
fn asking<R>(case: Case, ask: &mut dyn FnMut(&Asked<Found>) -> R) -> R {
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

/// What ends every comparison: the arrows, what the numbers rest on, what to
/// mind, and the tables that only files hold.
pub(super) fn end(case: Case) -> Vec<Part> {
    let alone = if case.several() { None } else { Some("as built") };
    let named: Vec<(&str, &BuildAnswer)> =
        case.builds.iter().map(|build| (alone.unwrap_or(&build.name), build)).collect();
    let mut parts = not_known(case);
    parts.push(Part::Page(vec![head("The arrows"), Part::Table(tables::card(&named))]));
    parts.extend(notes(case.named(), case.style));
    let mut sure = vec![head("How sure is this"), list(prose::SURE)];
    if case.builds.iter().any(|build| !build.uncertain.is_empty()) {
        let folded = vec![Part::Table(tables::uncertain(case.builds))];
        sure.push(fold("The poorly known values", folded));
    }
    sure.extend(care());
    parts.push(Part::Page(sure));
    parts.extend(data::data(case).into_iter().map(Part::Data));
    parts
}
