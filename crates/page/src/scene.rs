//! From a state to a scenario file, and from that to a plan.

use std::path::Path;

use scenario::{Form, Scenario, controls};
use study::{CausesAlone, MOST_BUILDS, Plan, Question, Stated};
use units::{Dimension, Style};

use crate::base::Base;
use crate::builds::{edited, kept};
use crate::reading::read;
use crate::state::{FieldValues, PageState};
use crate::{PageError, Settings};

/// Flights of the quick answer and of the better one; the sharp one has as
/// many as the scenario asks for. Chosen: the first shows within a blink.
pub(crate) const QUICK: [usize; 2] = [200, 2_000];
/// Most flights where the page shows a question of another kind as builds side
/// by side. Chosen: R50 is then known to 1.6 % (one standard error), finer than any doubt
/// about the push, and the answer to the question itself has all its flights.
const MOST_ASIDE: usize = 2_000;
/// The better answer is left out where the sharp one has no more than so many times its
/// flights. Chosen: it would take a third of the time and show a quarter less.
const NEAR: usize = 2;

/// A scenario made from a state.
pub(crate) struct Scene {
    pub(crate) scenario: Scenario,
    /// The scenario as a file.
    pub(crate) text: String,
    pub(crate) style: Style,
    /// Index of the chosen distance.
    pub(crate) at: usize,
    /// Index of the build that the controls show and change.
    pub(crate) shown: usize,
}

impl Scene {
    /// Puts a state on its scenario. What is shown is read back from the file
    /// that a save would write.
    pub(crate) fn of(state: &PageState, settings: &Settings) -> Result<Self, PageError> {
        let base = Base::open(state, settings)?;
        let style = base.style(state);
        let builds = kept(&base.scenario, state)?;
        let now = edited(&base.scenario, &builds, state.units, &state.now, style)?;
        let pinned = pinned(&base.scenario, state, style)?;
        let beside = pinned.as_ref().map(|(pinned, at)| (pinned, *at));
        let text = now.written("Written by the live page of Clothyard.", beside);
        let scenario = read(Path::new("page.toml"), &|_| Ok(text.clone()))?;
        let at = chosen(&scenario, &state.now);
        let shown = builds.iter().position(|kept| Some(kept.number) == state.build);
        let shown = shown.unwrap_or(0) + usize::from(pinned.is_some());
        Ok(Self { scenario, text, style, at, shown })
    }

    /// The scenario's own question.
    pub(crate) fn plan(&self) -> Result<Plan, PageError> {
        let reason = "this scenario asks no question";
        self.scenario.plan().ok_or(PageError::NotHere { reason })
    }

    /// Where the numbers of its answers come from.
    pub(crate) fn provenance(&self, seed: u64) -> report::Provenance {
        report::Provenance {
            version: env!("CARGO_PKG_VERSION").to_owned(),
            scenario: self.scenario.resolved(),
            source_name: "page.toml".to_owned(),
            seed,
        }
    }

    /// What the page shows of it: builds side by side, and nothing more.
    pub(crate) fn view(&self) -> Result<Plan, PageError> {
        let mut plan = self.plan()?;
        plan.flights = sharp(&plan);
        plan.builds.truncate(MOST_BUILDS);
        plan.question = Question::Compare { ends: false };
        // The page ranks causes and prints no band of what each does alone.
        plan.alone = CausesAlone::AtUsualValues;
        // What else is stated is answered with the question itself; its cautions look at the zone.
        let Stated { power_test, zone, .. } = plan.stated;
        plan.stated = Stated { power_test, zone, ..Stated::default() };
        Ok(plan)
    }
}

/// Numbers of flights, one answer after the other.
pub(crate) fn stages(plan: &Plan) -> Vec<usize> {
    let last = sharp(plan);
    let [quick, better] = QUICK;
    let before = [(quick, quick < last), (better, NEAR * better < last)];
    before.into_iter().filter(|(_, told)| *told).map(|(flights, _)| flights).chain([last]).collect()
}

fn sharp(plan: &Plan) -> usize {
    match plan.question {
        Question::Compare { .. } => plan.flights,
        _ => plan.flights.min(MOST_ASIDE),
    }
}

/// What the page says of a question that it has no view for.
pub(crate) fn aside(plan: &Plan) -> Option<String> {
    let asked = match &plan.question {
        Question::Compare { .. } => return None,
        Question::Sweep(sweep) => format!("what a sweep of {} does", sweep.key),
        Question::Tune(_) => "how well arrow and bow are tuned to each other".to_owned(),
        Question::Matters(_) => "what makes the group's spread".to_owned(),
        Question::Worth(_) => "what bench steps are worth".to_owned(),
    };
    let most = if plan.builds.len() > MOST_BUILDS {
        format!(" (the first {MOST_BUILDS} of {})", plan.builds.len())
    } else {
        String::new()
    };
    Some(format!(
        "This scenario asks {asked}. That takes a little longer: the answer comes here, and with \
         all its tables under \"What this scenario asks\". The target shows the builds side by \
         side{most}."
    ))
}

/// Whether its question is answered whole: one that the page has no view for, and builds side
/// by side that also state what is misjudged, how far a share of hits must hold or how long a
/// round is.
pub(crate) fn whole(plan: &Plan) -> bool {
    let of = &plan.stated;
    let stated = of.hit_share.is_some()
        || of.range_error.is_some()
        || of.wind_error.is_some()
        || of.round.is_some();
    aside(plan).is_some() || stated
}

/// Whether the report of a question tells groups, and has a table of them.
pub(crate) fn grouped(plan: &Plan) -> bool {
    matches!(plan.question, Question::Compare { .. } | Question::Sweep(_))
}

/// The scenario of the pinned build, and which of its builds that is.
fn pinned(
    base: &Scenario,
    state: &PageState,
    style: Style,
) -> Result<Option<(Scenario, usize)>, PageError> {
    let Some(pinned) = &state.pinned else { return Ok(None) };
    // It stays when its own build is taken away.
    let mut there = state.clone();
    if let Some(whole) = there.builds.get_mut(&pinned.build) {
        whole.gone = false;
    }
    let builds = kept(base, &there)?;
    let at = builds.iter().position(|kept| kept.number == pinned.build);
    let allowed = "a build that is there";
    let value = pinned.build.to_string();
    let at = at.ok_or(PageError::Value { field: "pinned", value, allowed })?;
    // What no build differs in is that of the page, whichever build it was chosen for.
    let whole = |name: &str| scenario::control(name).is_some_and(|control| !control.built());
    let own = pinned.values.iter().filter(|((_, name), _)| !whole(name));
    let values = state.now.iter().filter(|((_, name), _)| whole(name)).chain(own);
    let values: FieldValues = values.map(|(name, text)| (*name, text.clone())).collect();
    Ok(Some((edited(base, &builds, state.units, &values, style)?, at)))
}

/// Which of the distances was chosen; the middle one unless said.
fn chosen(scenario: &Scenario, values: &FieldValues) -> usize {
    let distances = scenario.distances();
    let asked = controls().iter().find(|control| control.form() == Form::Among);
    let text = asked.and_then(|control| values.get(&(0, control.name())));
    let si = text.and_then(|text| units::parse_si(Dimension::Length, text).ok());
    let off = |at: &usize| si.map_or(0.0, |si| (distances[*at].si() - si).abs());
    let nearest = (0..distances.len()).min_by(|a, b| off(a).total_cmp(&off(b)));
    si.and(nearest).unwrap_or(distances.len() / 2)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plan(question: &str) -> Plan {
        let text =
            include_str!("demo.toml").replace("[question]", &format!("[question]\n{question}"));
        read(Path::new("demo.toml"), &|_| Ok(text.clone()))
            .ok()
            .and_then(|s| s.plan())
            .expect("a plan")
    }

    #[test]
    fn law_the_last_answer_has_the_flights_of_the_scenario() {
        assert_eq!(stages(&plan("flights = 4001")), [200, 2000, 4001]);
        assert_eq!(stages(&plan("flights = 4000")), [200, 4000]);
        assert_eq!(stages(&plan("flights = 2000")), [200, 2000]);
        assert_eq!(stages(&plan("flights = 150")), [150]);
        // A question that the page has no view for may ask for millions.
        assert_eq!(stages(&plan("kind = \"matters\"")), [200, 2000]);
        assert_eq!(stages(&plan("flights = 20_000")), [200, 2000, 20_000]);
    }

    #[test]
    fn law_a_question_without_a_view_is_named() {
        assert_eq!(aside(&plan("")), None);
        for (kind, word) in [("tune", "tuned"), ("matters", "spread")] {
            let said = aside(&plan(&format!("kind = \"{kind}\"")));
            assert!(said.is_some_and(|said| said.contains(word)), "{kind}");
        }
    }
}
