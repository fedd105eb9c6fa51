//! The tables of one push.

use study::PushStory;
use units::{Role, Style};

use super::{brief, clean, millis};
use crate::show::share;
use crate::table::{Cell, Column, Table};

/// The arrow as it leaves, across the line of the push.
pub(super) fn departure(story: &PushStory, style: Style) -> Table {
    let d = &story.departure;
    let flex = &d.flex;
    let (tip, nock) = (flex.tip_at(0.0), flex.nock_at(0.0));
    let row = |name: &str, role: Role, values: [f64; 2]| {
        let [left, up] = clean(values).map(|value| Cell::text(brief(role, value, style)));
        vec![Cell::text(name), left, up]
    };
    Table {
        columns: vec![
            Column::new("at departure", ""),
            Column::new("left", ""),
            Column::new("up", ""),
        ],
        rows: vec![
            row("balance point", Role::Gauge, [d.left, d.up]),
            row("its velocity", Role::Speed, [d.velocity_left, d.velocity_up]),
            row("nose", Role::Angle, [d.yaw, d.pitch]),
            row("nose turning", Role::Rate, [d.yaw_rate, d.pitch_rate]),
            row("tip by bending", Role::Gauge, tip),
            row("nock by bending", Role::Gauge, nock),
        ],
    }
}

/// Speed, time and energy.
pub(super) fn along(story: &PushStory, style: Style) -> Table {
    let time = story.moments.last().map_or(0.0, |m| m.time);
    let push = story.moments.iter().map(|m| m.push).fold(0.0, f64::max);
    let row = |name: &str, text: String| vec![Cell::text(name), Cell::text(text)];
    Table {
        columns: vec![Column::new("along the push", ""), Column::new("", "")],
        rows: vec![
            row("arrow mass", Role::Mass.text(story.built.mass.mass().si(), style)),
            row("stroke", Role::Part.text(story.stroke, style)),
            row("time in the bow", millis(time)),
            row("greatest push", Role::Force.text(push, style)),
            row("speed at departure", Role::Speed.text(story.departure.speed, style)),
            row("bending energy at departure", brief(Role::Energy, story.flex_energy, style)),
        ],
    }
}

/// Where the stored energy goes.
pub(super) fn budget(story: &PushStory, style: Style) -> Table {
    let budget = &story.budget;
    let row = |name: &str, energy: f64| {
        let part = share(energy / budget.stored);
        vec![Cell::text(name), Cell::number(Role::Energy, energy, style), Cell::text(part)]
    };
    Table {
        columns: vec![
            Column::new("energy", ""),
            Column::of("", Role::Energy, style),
            Column::new("of stored", ""),
        ],
        rows: vec![
            row("stored in the drawn bow", budget.stored),
            row("to the arrow", budget.arrow),
            row("to the string", budget.string),
            row("to limbs and cams", budget.limbs),
            row("not returned", budget.lost),
        ],
    }
}

/// A node's station, to a tenth of an inch or a millimetre.
pub(crate) fn node(station: f64, style: Style) -> String {
    let decimals = usize::from(style == Style::Archery);
    format!("{:.decimals$}", Role::Part.value(station, style))
}

/// The bending modes.
pub(super) fn modes(story: &PushStory, style: Style) -> Table {
    let row = |(at, mode): (usize, &study::ModeShape)| {
        let nodes: Vec<String> = mode.nodes.iter().map(|&x| node(x, style)).collect();
        vec![
            Cell::text(format!("{}", at + 1)),
            Cell::text(format!("{:.1}", mode.frequency)),
            Cell::text(nodes.join("  ")),
        ]
    };
    Table {
        columns: vec![
            Column::new("mode", ""),
            Column::new("frequency", "Hz"),
            Column::of("nodes, from the nock groove", Role::Part, style),
        ],
        rows: story.modes.iter().enumerate().map(row).collect(),
    }
}
