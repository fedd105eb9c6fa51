//! Group size against distance.

use draw::{Axis, Dash, Ends, Figure, Lines, Mark, Panel, Pen, SOFT, Series};
use study::{BuildAnswer, MarkAnswer};
use units::{Role, Style};

use super::{distances, title};
use crate::show;

type Read = fn(&MarkAnswer) -> (f64, f64, f64);

/// R50 of every build, with form and from a machine, and of form alone.
pub(crate) fn draw(builds: &[BuildAnswer], style: Style) -> Figure {
    let value = |si: f64| Role::Impact.value(si, style);
    let place = |mark: &MarkAnswer| Role::Range.value(mark.distance.si(), style);
    let kinds: [(&str, Dash, Read); 2] = [
        ("archer and arrows", Dash::Solid, |m| {
            (m.full.stats.r50.low, m.full.stats.r50.value, m.full.stats.r50.high)
        }),
        ("machine only", Dash::Dashed, |m| {
            (m.machine_band.0, m.machine.stats.r50.value, m.machine_band.1)
        }),
    ];
    let mut marks: Vec<Mark> = Vec::new();
    for (what, dash, read) in kinds {
        for (at, build) in builds.iter().enumerate() {
            let line = build.marks.iter().map(|m| (place(m), value(read(m).1))).collect();
            let band = build.marks.iter().map(|m| (place(m), value(read(m).0), value(read(m).2)));
            let series = Series::line(line, Pen::series(at).dash(dash)).marked(at);
            marks.push(series.band(band.collect()).named(show::titled(builds, at, what)).into());
        }
    }
    let base = &builds[0].marks;
    let form = base.iter().map(|m| (place(m), value(m.form.stats.r50.value))).collect();
    let form = Series::line(form, Pen::solid(SOFT, 2.0).dash(Dash::Dotted));
    marks.push(form.named("archer's form alone").into());
    let x = distances(base.iter().map(|mark| mark.distance.si()), Ends::Around, style);
    let y = Axis::new(title("half within", Role::Impact, style), Ends::FromZero);
    Figure::new(
        "groups",
        "Group size against distance. Half of the arrows land so near to the middle. \
         Shaded: the 95 % interval; for the machine, the band of the poorly known values.",
        Lines::one(Panel::new(x, y, marks).tall(260.0)),
    )
}
