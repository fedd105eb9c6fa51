//! A build added as a copy, and a build taken away: the others stay as they are.

use scenario::{Scenario, controls};

use crate::builds::{Kept, edited, kept};
use crate::state::{BuildState, PageState};
use crate::{PageError, Settings, base::Base};

/// The state with a copy of the build that the controls show, under this name.
pub(crate) fn copied(
    state: &PageState,
    name: &str,
    settings: &Settings,
) -> Result<PageState, PageError> {
    let base = Base::open(state, settings)?;
    let there = kept(&base.scenario, state)?;
    let source = shown(&there, state);
    let used = state.builds.keys().copied().max().unwrap_or(0);
    let number = used.max(base.scenario.build_names().count()) + 1;
    let mut more = state.clone();
    let copy = Some(source.of + 1);
    let name = (!name.is_empty()).then(|| name.to_owned());
    more.builds.insert(number, BuildState { copy, name, gone: false });
    more.build = Some(number);
    let source = source.number;
    same(
        &base,
        (state, &there),
        more,
        |kept| {
            if kept.number == number { source } else { kept.number }
        },
    )
}

/// The state without the build that the controls show.
pub(crate) fn removed(state: &PageState, settings: &Settings) -> Result<PageState, PageError> {
    let base = Base::open(state, settings)?;
    let there = kept(&base.scenario, state)?;
    let number = shown(&there, state).number;
    let mut fewer = state.clone();
    fewer.build = None;
    fewer.now.retain(|(build, _), _| *build != number);
    let pinned = state.pinned.as_ref().is_some_and(|pinned| pinned.build == number);
    // A pinned copy stays to be seen.
    if number > base.scenario.build_names().count() && !pinned {
        fewer.builds.remove(&number);
    } else {
        fewer.builds.entry(number).or_default().gone = true;
    }
    same(&base, (state, &there), fewer, |kept| kept.number)
}

/// The build that the controls show.
fn shown<'a>(there: &'a [Kept], state: &PageState) -> &'a Kept {
    let own = there.iter().find(|kept| Some(kept.number) == state.build);
    own.unwrap_or(&there[0])
}

/// A state in which every build says what the one of that number said before.
fn same(
    base: &Base,
    (old, there): (&PageState, &[Kept]),
    mut new: PageState,
    source: impl Fn(&Kept) -> usize,
) -> Result<PageState, PageError> {
    let style = base.style(old);
    let put = |builds: &[Kept], state: &PageState| -> Result<Scenario, PageError> {
        edited(&base.scenario, builds, None, &state.now, style)
    };
    let builds = kept(&base.scenario, &new)?;
    let (before, after) = (put(there, old)?, put(&builds, &new)?);
    for (at, build) in builds.iter().enumerate() {
        let Some(from) = there.iter().position(|kept| kept.number == source(build)) else {
            continue;
        };
        for control in controls().iter().filter(|control| control.built()) {
            let said = before.said(control, from).value;
            if after.said(control, at).value != said {
                new.now.insert((build.number, control.name()), said);
            }
        }
    }
    Ok(new)
}
