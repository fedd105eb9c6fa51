//! The numbers that an answer turns on, for what a measurement narrows of them.

use study::{BuildAnswer, Found, Matters, Swept, Tuned, WorthOfSteps};
use units::{Role, Style};

use super::evidence::Number;
use crate::show::{middle, plain};

/// The numbers of an answer to a scenario's question.
pub(super) fn numbers(found: &Found, style: Style) -> Vec<Number<Found>> {
    match found {
        Found::Compare(found) => machines(&found.builds, style),
        Found::Ends(found) => machines(&found.compared.builds, style),
        Found::Tune(found) => apart(found, style),
        Found::Sweep(found) => swept(found, style),
        Found::Matters(found) => groups(found, style),
        Found::Worth(found) => gains(found, style),
    }
}

/// " of "name"" where there are several.
fn of(count: usize, name: &str) -> String {
    if count > 1 { format!(" of \"{name}\"") } else { String::new() }
}

/// The group of every build from a machine.
fn machines(builds: &[BuildAnswer], style: Style) -> Vec<Number<Found>> {
    let one = |(at, build): (usize, &BuildAnswer)| {
        let mark = middle(build);
        let own = build.marks.get(mark)?;
        let range = plain(Role::Range, own.distance.si(), style);
        let what =
            format!("The group{} from a machine at {range} (R50)", of(builds.len(), &build.name));
        Some(Number::new(
            what,
            (Role::Impact, own.machine.stats.r50.value),
            move |found: &Found| {
                let build = found.compared()?.builds.get(at)?;
                Some(build.marks.get(mark)?.machine.stats.r50.value)
            },
        ))
    };
    builds.iter().enumerate().filter_map(one).collect()
}

/// How far bare and fletched shafts land apart.
fn apart(found: &Tuned, style: Style) -> Vec<Number<Found>> {
    let one = |(at, build): (usize, &study::TunedBuild)| {
        let mark = build.neutral.as_ref()?.mark;
        let bare = build.bare.get(mark)?;
        let range = plain(Role::Range, bare.distance.si(), style);
        Some(Number::new(
            format!("\"{}\", how far bare and fletched land apart at {range}", build.name),
            (Role::Impact, bare.apart.as_ref()?.size.value),
            move |found: &Found| match found {
                Found::Tune(found) => {
                    Some(found.builds.get(at)?.bare.get(mark)?.apart.as_ref()?.size.value)
                }
                _ => None,
            },
        ))
    };
    found.builds.iter().enumerate().filter_map(one).collect()
}

/// How far the drop goes over a sweep.
fn swept(found: &Swept, style: Style) -> Vec<Number<Found>> {
    let one = |(at, sweep): (usize, &study::SweepAnswer)| {
        let first = sweep.points.first()?;
        let mark = middle(&first.build);
        let range = plain(Role::Range, first.build.marks.get(mark)?.distance.si(), style);
        let change = move |sweep: &study::SweepAnswer| {
            let drop = |point: &study::SweepPoint| Some(point.build.marks.get(mark)?.nominal.drop);
            Some(drop(sweep.points.last()?)? - drop(sweep.points.first()?)?)
        };
        let what = format!(
            "The change of drop{} at {range} from the first value to the last",
            of(found.sweeps.len(), &sweep.build)
        );
        Some(Number::new(what, (Role::Impact, change(sweep)?), move |found: &Found| match found {
            Found::Sweep(swept) => change(swept.sweeps.get(at)?),
            _ => None,
        }))
    };
    found.sweeps.iter().enumerate().filter_map(one).collect()
}

/// The largest cause of every build's group at its last distance.
fn groups(found: &Matters, style: Style) -> Vec<Number<Found>> {
    let one = |(at, build): (usize, &study::MattersBuild)| {
        let mark = build.full.marks.last()?;
        let range = plain(Role::Range, mark.distance.si(), style);
        let shares = mark.axes[0].as_ref()?;
        let cause = *study::CauseShare::ranked(&shares.causes).first()?;
        let name = crate::words::cause(&build.full.causes[cause].name);
        let what = format!(
            "The share of {name} in the group{} at {range}",
            of(found.builds.len(), &build.name)
        );
        let number = (Role::Percent, shares.causes[cause].alone.value);
        Some(Number::new(what, number, move |found: &Found| match found {
            Found::Matters(found) => {
                let mark = found.builds.get(at)?.full.marks.last()?;
                Some(mark.axes[0].as_ref()?.causes.get(cause)?.alone.value)
            }
            _ => None,
        }))
    };
    found.builds.iter().enumerate().filter_map(one).collect()
}

/// What all bench steps bring to every build.
fn gains(found: &WorthOfSteps, style: Style) -> Vec<Number<Found>> {
    let range = plain(Role::Range, found.distances.last().map_or(0.0, |d| d.si()), style);
    let one = |(at, build): (usize, &study::WorthBuild)| {
        let gain = |build: &study::WorthBuild| Some(build.tried.get(build.all)?.far().gain.value);
        let what =
            format!("What all steps bring{} at {range}", of(found.builds.len(), &build.name));
        Some(Number::new(what, (Role::Impact, gain(build)?), move |found: &Found| match found {
            Found::Worth(found) => gain(found.builds.get(at)?),
            _ => None,
        }))
    };
    found.builds.iter().enumerate().filter_map(one).collect()
}
