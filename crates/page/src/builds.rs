//! The builds of a page: those of its scenario, copies of them, and what each is set to.

use scenario::{Control, Edit, Problem, Report, Scenario, ScenarioError, Setting, controls};
use study::MOST_BUILDS;
use units::Style;

use crate::spelled::in_style;
use crate::state::{BuildState, FieldName, FieldValues, PageState, spelled};
use crate::{PageError, Wrong};

/// What the only build of a scenario is called beside others.
const FIRST: &str = "first";

/// A build that is there.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Kept {
    /// Its number in links, from 1.
    pub(crate) number: usize,
    /// Which of the scenario's builds it is, or is a copy of, from 0.
    pub(crate) of: usize,
    pub(crate) name: Option<String>,
    /// The name that it has without being named here.
    own: Option<String>,
}

/// The builds of a state, in the order of their numbers; one more where it is pinned.
pub(crate) fn kept(scenario: &Scenario, state: &PageState) -> Result<Vec<Kept>, PageError> {
    let names: Vec<Option<&str>> = scenario.build_names().collect();
    let wrong = |value: usize, allowed| {
        Err(PageError::Value { field: "build", value: value.to_string(), allowed })
    };
    let mut all = Vec::new();
    let asked = state.builds.keys().filter(|number| **number > names.len());
    for number in (1..=names.len()).chain(asked.copied()) {
        let none = BuildState::default();
        let whole = state.builds.get(&number).unwrap_or(&none);
        let of = match whole.copy {
            None if number <= names.len() => number - 1,
            Some(of) if number > names.len() && (1..=names.len()).contains(&of) => of - 1,
            _ => return wrong(number, "a build of the scenario, or a copy of one"),
        };
        if whole.gone {
            continue;
        }
        let own = names[of].filter(|_| whole.copy.is_none()).map(str::to_owned);
        let name = whole.name.clone().filter(|name| !name.is_empty()).or(own.clone());
        all.push(Kept { number, of, name, own });
    }
    if all.is_empty() {
        return wrong(0, "at least one build");
    }
    // More than six stay as they are written, and may not become more.
    if all.len() > MOST_BUILDS.max(names.len()) {
        return wrong(all.len(), "at most six builds");
    }
    if all.len() > 1 {
        for build in &mut all {
            let number = build.number;
            let plain = || if number == 1 { FIRST.to_owned() } else { format!("build {number}") };
            let own = build.own.get_or_insert_with(plain).clone();
            build.name.get_or_insert(own);
        }
    }
    if state.build.is_some_and(|build| all.iter().all(|kept| kept.number != build)) {
        return wrong(state.build.unwrap_or_default(), "a build that is there");
    }
    Ok(all)
}

/// The scenario with the builds, units and values of a state.
pub(crate) fn edited(
    scenario: &Scenario,
    builds: &[Kept],
    units: Option<Style>,
    values: &FieldValues,
    style: Style,
) -> Result<Scenario, PageError> {
    let units = units.map(|style| {
        let word = if style == Style::Metric { "metric" } else { "archery" };
        Edit { key: "units", to: Setting::Value(word.to_owned()), build: None }
    });
    let mut edits: Vec<Edit> = units.into_iter().collect();
    // What is set in one build comes after what is set in all.
    let mut sorted: Vec<(&FieldName, &String)> = values.iter().collect();
    let rank = |name: &str| controls().iter().position(|control| control.name() == name);
    sorted.sort_by_key(|((build, name), _)| (*build, rank(name)));
    for ((build, name), text) in sorted {
        let Some(control) = scenario::control(name) else { continue };
        let at = builds.iter().position(|kept| kept.number == *build);
        if *build > 0 && at.is_none() {
            continue;
        }
        let of = at.map_or(builds[0].of, |at| builds[at].of);
        // What is sent as it stands changes nothing.
        let moved = *build > 0 && values.contains_key(&(0, control.name()));
        if moved || *text != base(scenario, control, of, style) {
            edits.extend(control.edits(text, at));
        }
    }
    let same = builds.iter().enumerate().all(|(at, kept)| kept.of == at)
        && scenario.build_names().eq(builds.iter().map(|kept| kept.name.as_deref()));
    if edits.is_empty() && same {
        return Ok(scenario.clone());
    }
    let whole: Vec<_> = builds.iter().map(|kept| (kept.of, kept.name.clone())).collect();
    scenario.edited_as(&whole, &edits).map_err(|report| told(&report, values))
}

/// What a field holds that nobody has touched.
pub(crate) fn base(scenario: &Scenario, control: &Control, build: usize, style: Style) -> String {
    in_style(control, &scenario.said(control, build).value, style)
}

/// The mistakes of what was set, each with its field.
pub(crate) fn told(report: &Report, values: &FieldValues) -> PageError {
    let wrong = report.problems().iter().map(|problem| {
        let key = report.edited(problem).or(problem.error.missing());
        let all = || controls().iter().filter(|control| key.is_some_and(|key| control.sets(key)));
        let set = |control: &&Control| values.keys().any(|(_, name)| *name == control.name());
        let control = all().find(set).or_else(|| all().next());
        let mut text = problem.error.to_string();
        for more in std::iter::once(problem.error.label()).chain(problem.error.helps()) {
            if !more.is_empty() && !text.contains(&more) {
                text = format!("{text}; {more}");
            }
        }
        Wrong { field: control.map(Control::name), text }
    });
    let wrong = wrong.collect();
    let barred = |problem: &Problem| matches!(problem.error, ScenarioError::NoDeparture { .. });
    if report.problems().iter().any(barred) {
        return PageError::Barred(wrong);
    }
    PageError::Wrong(wrong)
}

/// What the controls of a page stand on.
pub(crate) struct Ground {
    /// The scenario without what the fields on the page say.
    pub(crate) scenario: Scenario,
    pub(crate) builds: Vec<Kept>,
    /// Index of the build that the controls show.
    pub(crate) at: usize,
    /// Whether the controls show what builds share.
    pub(crate) all: bool,
    /// Controls in which builds differ, where builds were changed here.
    differ: Vec<&'static str>,
}

impl Ground {
    /// What the fields of a state stand on.
    pub(crate) fn of(base: &Scenario, state: &PageState, style: Style) -> Result<Self, PageError> {
        let builds = kept(base, state)?;
        let number = |kept: &Kept| Some(kept.number) == state.build;
        let at = builds.iter().position(number).unwrap_or(0);
        let touched = !state.builds.is_empty() || state.now.keys().any(|(build, _)| *build > 0);
        let all = state.build.is_none();
        let mut ground = Self { scenario: base.clone(), builds, at, all, differ: Vec::new() };
        if !touched && all {
            return Ok(ground);
        }
        let none = FieldValues::new();
        // What is wrong is told with the answer; the controls stand on the rest.
        let with = |ground: &Self, values: &FieldValues| {
            let builds = &ground.builds;
            edited(base, builds, None, values, style)
                .or_else(|_| edited(base, builds, None, &none, style))
        };
        let whole = with(&ground, &state.now)?;
        let alike = |control: &&Control| {
            let said = |at| whole.said(control, at).value;
            (1..ground.builds.len()).all(|at| said(at) == said(0))
        };
        let built = controls().iter().filter(|control| control.built());
        ground.differ = built.filter(|c| !alike(c)).map(Control::name).collect();
        let shown = |name: &FieldName| {
            scenario::control(name.1).is_some_and(|control| ground.field(control) == *name)
        };
        let rest = state.now.iter().filter(|(name, _)| !shown(name));
        let rest: FieldValues = rest.map(|(name, value)| (*name, value.clone())).collect();
        ground.scenario = with(&ground, &rest)?;
        Ok(ground)
    }

    /// The field that a control sets here.
    pub(crate) fn field(&self, control: &Control) -> FieldName {
        let number = self.builds.get(self.at).map_or(1, |kept| kept.number);
        // Where builds differ, one of them is meant.
        let one = control.built() && (!self.all || self.differ.contains(&control.name()));
        (if one { number } else { 0 }, control.name())
    }

    /// The number of the first build.
    pub(crate) fn first(&self) -> usize {
        self.builds.first().map_or(1, |kept| kept.number)
    }

    /// The name that the build has without its field.
    pub(crate) fn own_name(&self) -> String {
        let kept = self.builds.get(self.at);
        kept.and_then(|kept| kept.own.clone()).unwrap_or_default()
    }

    /// The field of the name of the build that the controls show.
    pub(crate) fn name_field(&self) -> String {
        format!("{}.name", self.builds.get(self.at).map_or(1, |kept| kept.number))
    }

    /// Every field of a state that stands in no control here.
    pub(crate) fn carried(&self, state: &PageState) -> Vec<(String, String)> {
        let own: Vec<String> =
            controls().iter().map(|control| spelled(self.field(control))).collect();
        let mut fields = state.fields();
        let asked = ["from", "units", "build"];
        let name = self.name_field();
        fields.retain(|(field, _)| {
            !asked.contains(&field.as_str()) && !own.contains(field) && *field != name
        });
        fields
    }
}
