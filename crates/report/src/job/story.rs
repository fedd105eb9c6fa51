//! A job, as it is told.

use units::Style;
use workbench::{Job as JobHead, Stage, Worked};

use super::computed::ComputedArrow;
use crate::safety::{self, CautionText, FIRST, Job};

/// A job, and what is known of it.
#[derive(Debug, Clone, Copy)]
pub struct JobStory<'a> {
    /// For whom, which bow, how many.
    pub job: &'a JobHead,
    /// Every arrow by number, and entries of other numbers.
    pub arrows: &'a [Worked],
    /// The scenario's arrow, of which the cautions are; none where no scenario was given.
    pub computed: Option<&'a ComputedArrow>,
    /// Units.
    pub style: Style,
}

impl JobStory<'_> {
    /// What to mind first, on paper.
    pub(super) fn care(&self, jobs: &[Job]) -> Vec<String> {
        std::iter::once(FIRST.to_owned())
            .chain(self.minded(jobs).into_iter().map(|caution| caution.full))
            .collect()
    }

    /// What to mind below [`FIRST`].
    pub(super) fn minded(&self, jobs: &[Job]) -> Vec<CautionText> {
        let unknown = || CautionText {
            full: "Nobody has computed whether these arrows are safe in this bow: no scenario was \
                   given. Check mass, stiffness and length against the bow maker's limits."
                .to_owned(),
            short:
                "Not computed whether these arrows are safe in this bow: check the maker's limits."
                    .to_owned(),
            danger: true,
        };
        let said = match self.computed {
            Some(computed) => computed.said(self.job, self.arrows, self.style),
            None => vec![unknown()],
        };
        let found = self.computed.map(|computed| computed.cautions.as_slice()).unwrap_or_default();
        said.into_iter().chain(safety::cautions(found, jobs, self.style)).collect()
    }

    /// "12 arrows for Tansy Creek; bow; batch; date", what is empty left out.
    pub(super) fn about(&self) -> String {
        let JobHead { customer, bow, batch, arrows, date, .. } = self.job;
        let whom = if customer.is_empty() { String::new() } else { format!(" for {customer}") };
        let said = [("Bow", bow), ("Batch", batch), ("Date", date)].into_iter();
        let said = said.filter(|(_, said)| !said.is_empty());
        let said: Vec<String> = said.map(|(what, said)| format!(" {what}: {said}.")).collect();
        format!("{arrows} {}{whom}.{}", noun(*arrows), said.concat())
    }
}

pub(super) fn noun(count: u32) -> &'static str {
    if count == 1 { "arrow" } else { "arrows" }
}

/// A stage in the trade's words.
pub(super) fn stage_word(stage: Stage) -> &'static str {
    match stage {
        Stage::Raw => "raw shaft",
        Stage::Cut => "cut",
        Stage::Squared => "squared",
        Stage::Built => "built",
        Stage::Shot => "shot",
    }
}
