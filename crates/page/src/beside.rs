//! Builds side by side in tables.

use maud::{Markup, html};
use study::{BuildAnswer, Compared, MarkAnswer, Pair, Seen, Shots};
use target::Estimate;
use units::{Role, Style};

/// What the tables are of.
pub(crate) struct Told<'a> {
    pub(crate) compared: &'a Compared,
    /// Index of the distance.
    pub(crate) at: usize,
    /// Whether somebody shoots.
    pub(crate) shot: bool,
    pub(crate) style: Style,
}

/// Numbers of every build, side by side.
pub(crate) fn numbers(told: &Told) -> Markup {
    type Row = (&'static str, Role, fn(&BuildAnswer, &MarkAnswer) -> f64);
    let &Told { compared, at, shot, style } = told;
    let rows: [Row; 12] = [
        ("arrow", Role::Mass, |build, _| build.built.mass.mass().si()),
        ("FOC", Role::Percent, |build, _| build.built.foc.si()),
        ("speed at departure", Role::Speed, |build, _| build.departure.speed),
        ("nose left at departure", Role::Angle, |build, _| build.departure.yaw),
        ("nose up at departure", Role::Angle, |build, _| build.departure.pitch),
        ("spin there", Role::Spin, |_, mark| mark.nominal.spin),
        ("time of flight", Role::Time, |_, mark| mark.nominal.time),
        ("speed there", Role::Speed, |_, mark| mark.nominal.speed),
        ("energy there", Role::Energy, |_, mark| mark.nominal.energy),
        ("momentum there", Role::Momentum, |_, mark| mark.nominal.momentum),
        ("drop", Role::Impact, |_, mark| mark.nominal.drop),
        ("chance of a hit", Role::Percent, |_, mark| mark.hit.value),
    ];
    // The last row, hits, is an archer's.
    let most = rows.len() - usize::from(!shot);
    let builds = &compared.builds;
    let place = Role::Range.text(builds[0].marks[at].distance.si(), style);
    html! {
        div.wide tabindex="0" {
            table {
                caption { "The arrow without faults; there: at " (place) }
                @if builds.len() > 1 {
                    thead { tr {
                        th scope="col" { "of" }
                        @for build in builds { th scope="col" { (build.name) } }
                    } }
                }
                tbody {
                    @for (name, role, read) in rows.into_iter().take(most) {
                        tr {
                            th scope="row" { (name) }
                            @for build in builds {
                                td { (role.text(read(build, &build.marks[at]), style)) }
                            }
                        }
                    }
                }
            }
        }
    }
}

/// What two builds differ in.
pub(crate) fn against(told: &Told, both: &Pair) -> Markup {
    let &Told { compared, at, shot, style } = told;
    let pair = &both.marks[at];
    let gain = pair.gain;
    let [base, other] = [both.base, both.other].map(|build| &compared.builds[build]);
    let change = Estimate { value: -gain.value, low: -gain.high, high: -gain.low };
    let ratio = |ratio: Option<Estimate>| {
        html! {
            @if let Some(ratio) = ratio {
                (Role::Number.text(ratio.value, style)) " "
                small { (interval(Role::Number, &ratio, style)) }
            } @else {
                "one group is a point"
            }
        }
    };
    let seen = match pair.seen {
        Seen::Archer => "the archer would see it",
        Seen::MachineOnly => "only a shooting machine would see it",
        Seen::Nobody => "nobody would see it",
    };
    let drop = |build: &BuildAnswer| build.marks[at].nominal.drop;
    html! {
        div.wide tabindex="0" {
            table {
                tbody {
                    tr { th scope="row" { "change of where half land" } td {
                        (Role::Impact.text(change.value, style)) " "
                        small { (interval(Role::Impact, &change, style)) }
                    } }
                    tr { th scope="row" { "change of drop" } td {
                        (Role::Impact.text(drop(other) - drop(base), style))
                    } }
                    tr { th scope="row" { "spread, " (base.name) " over " (other.name) } td { (ratio(pair.full_ratio)) } }
                    tr { th scope="row" { "the same from a machine" } td { (ratio(pair.machine_ratio)) } }
                    tr { th scope="row" { "shots with each to tell" } td {
                        @if shot { (shots(pair.archer_shots)) ", " }
                        "a machine " (shots(pair.machine_shots))
                    } }
                    @if shot {
                        tr { th scope="row" { "who would see it in the groups" } td { (seen) } }
                    }
                }
            }
        }
        p { "Intervals hold 95 %; one that holds zero (or a ratio of one) shows no difference." }
    }
}

fn shots(shots: Shots) -> String {
    match shots {
        Shots::Each(count) => count.to_string(),
        Shots::MoreThan(count) => format!("more than {count}"),
    }
}

/// An interval in the reader's unit.
pub(crate) fn interval(role: Role, estimate: &Estimate, style: Style) -> String {
    let decimals = role.decimals(estimate.value, style);
    let text = |value| role.rounded(value, decimals, style);
    format!("{} to {} {}", text(estimate.low), text(estimate.high), role.symbol(style))
        .trim_end()
        .to_owned()
}
