//! Of which arrow the cautions of a job are, and whether the job's own are like it.

use study::Caution;
use units::{Role, Style};
use workbench::{Job, Measured, Stage, Worked};

use super::readings::{LENGTH, MASS, Reading, SPINE};
use crate::prose::row;
use crate::safety::CautionText;
use crate::show;

/// The arrow of a scenario: what could hurt somebody was computed of this one.
#[derive(Debug, Clone, PartialEq)]
pub struct ComputedArrow {
    /// Which scenario that is, and which of its builds where it has several.
    pub scenario: String,
    /// Mass of the whole arrow, kg.
    pub mass: f64,
    /// Length of its bare shaft, m.
    pub shaft: f64,
    /// Bottom of the nock groove to the end of the shaft, m.
    pub length: f64,
    /// Static spine, m.
    pub spine: f64,
    /// What could hurt somebody with it in its bow.
    pub cautions: Vec<Caution>,
}

/// What an arrow is told by: mass of the whole, length of the bare shaft, bottom of the nock
/// groove to the end of the shaft, static spine; SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ArrowSizes {
    /// Mass, kg.
    pub mass: f64,
    /// Bare shaft, m.
    pub shaft: f64,
    /// Groove to the end of the shaft, m.
    pub length: f64,
    /// Spine, m.
    pub spine: f64,
}

/// An arrow that reads so far off the computed one is another, as a share. Chosen: far
/// beyond what parts of one kind scatter, and less than a step of point or spine.
const OTHER: f64 = 0.05;

impl ComputedArrow {
    /// That the cautions are of this arrow, behind the danger that the job's are others.
    pub(super) fn said(&self, job: &Job, arrows: &[Worked], style: Style) -> Vec<CautionText> {
        let (mass, length) =
            (Role::Mass.text(self.mass, style), Role::Part.text(self.shaft, style));
        let spine = show::spine(self.spine);
        let of = format!("an arrow of {mass}, shaft {length}, spine {spine}");
        let standing = CautionText {
            full: format!(
                "Computed for {of}, the scenario's. Of any other arrow nobody has computed whether \
                 it is safe in this bow."
            ),
            short: format!("Computed for {of}; of no other."),
            danger: false,
        };
        let inside = arrows.iter().filter(|arrow| arrow.out.is_none() && job.has(&arrow.name));
        let now: Vec<Measured> = inside.filter_map(Worked::now).collect();
        let Self { mass, shaft, length, spine, .. } = *self;
        let sizes = ArrowSizes { mass, shaft, length, spine };
        sizes.unlike("this job", &now, style).into_iter().chain([standing]).collect()
    }
}

impl ArrowSizes {
    /// The danger that arrows, of a job or a notebook, are not the one that was computed.
    pub fn unlike(&self, of: &str, arrows: &[Measured], style: Style) -> Option<CautionText> {
        let off = self.off(arrows, style);
        let off = (!off.is_empty()).then(|| row(off.iter().map(String::as_str)))?;
        Some(CautionText {
            full: format!(
                "The arrows of {of} are not the scenario's: {off}. Nobody has computed whether \
                 they are safe in this bow. Check mass, stiffness and length against the bow \
                 maker's limits."
            ),
            short: format!(
                "Not the scenario's arrows ({off}): nobody has computed whether they are safe."
            ),
            danger: true,
        })
    }

    /// What was read of arrows too far off, each with its range.
    fn off(&self, arrows: &[Measured], style: Style) -> Vec<String> {
        let one = |reading: &Reading, wanted: &dyn Fn(&Measured) -> Option<f64>| {
            let far = |si: f64, own: f64| (si / own - 1.0).abs() > OTHER;
            let latest = |now: &Measured| {
                let (si, own) = ((reading.of)(now)?, wanted(now)?);
                far(si, own).then_some((si, own))
            };
            let found: Vec<(f64, f64)> = arrows.iter().filter_map(latest).collect();
            let names: Vec<&str> =
                arrows.iter().filter(|a| latest(a).is_some()).map(|a| a.name.as_str()).collect();
            let least = found.iter().map(|(si, _)| *si).fold(f64::INFINITY, f64::min);
            let most = found.iter().map(|(si, _)| *si).fold(0.0, f64::max);
            let (_, own) = *found.first()?;
            let text = |si: f64| reading.text(si, style);
            let range = match (text(least), text(most)) {
                (least, most) if least == most => least,
                (least, most) => format!("{least} to {most}"),
            };
            let noun = if names.len() == 1 { "arrow" } else { "arrows" };
            let names = some(&names);
            Some(format!("{} {range} of {noun} {names} against {}", reading.word, text(own)))
        };
        let mass = |now: &Measured| now.stage.finished().then_some(self.mass);
        let length = |now: &Measured| match now.stage {
            Stage::Raw => None,
            Stage::Cut | Stage::Squared => Some(self.shaft),
            Stage::Built | Stage::Shot => Some(self.length),
        };
        [one(&MASS, &mass), one(&LENGTH, &length), one(&SPINE, &|_| Some(self.spine))]
            .into_iter()
            .flatten()
            .collect()
    }
}

/// Names, no more than fit into a sentence.
fn some(names: &[&str]) -> String {
    /// Chosen: a dozen.
    const MOST: usize = 12;
    match names.len() {
        ..=MOST => row(names.iter().copied()),
        all => format!("{} and {} more", names[..MOST].join(", "), all - MOST),
    }
}
