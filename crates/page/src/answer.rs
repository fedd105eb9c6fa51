//! The answer beside the controls.

use maud::{Markup, PreEscaped, html};
use report::{Live, Picture};
use serde_json::{Value, json};
use study::{BuildAnswer, Compared, MarkAnswer, OUTER_POINTS, Pair, QUICK_POINTS, Seen, Shots};
use target::Estimate;
use units::{Role, Style};

use crate::PageError;
use crate::bar::width;
use crate::kept::Kept;
use crate::scene::{QUICK, Scene, aside};
use crate::{drift, side};

/// Radius of the largest group on the strip of distances, px.
const LARGEST: f64 = 20.0;

/// What was computed for a scene.
pub(crate) struct Found {
    compared: Compared,
    live: Live,
    /// The arrow from the side.
    side: Markup,
    /// What the wind does to it.
    drift: Markup,
    at: usize,
    /// The build that the controls change.
    shown: usize,
    style: Style,
    /// What is said of a question without a view.
    aside: Option<String>,
    /// How often what is poorly known was drawn for it.
    drawn: Option<usize>,
}

/// Flies what the page shows of a scene, with this many flights.
pub(crate) fn find(
    scene: &Scene,
    flights: usize,
    held: Option<f64>,
    kept: &Kept,
    watch: &dyn study::Watch,
) -> Result<Found, PageError> {
    let mut plan = scene.view()?;
    if flights < plan.flights {
        plan.stop = None;
    }
    plan.flights = flights;
    // Bands cost more than the quickest answer, and come with the next one.
    let mut points = None;
    if flights == QUICK[0] {
        plan.points = 0;
    } else {
        plan.points = QUICK_POINTS;
        points = kept.of(&scene.text);
    }
    let answer = study::run_with(&plan, &mut points, watch)?;
    if let Some(points) = points.filter(|_| plan.points > 0) {
        kept.put(&scene.text, points);
    }
    let aside = aside(&scene.plan()?);
    let drawn = answer.unknown.as_ref().map(|joint| joint.points.len());
    let compared = answer.compared().cloned().ok_or(report::ReportError::NoComparison)?;
    let live = report::live(&answer, scene.at, held, scene.style)?;
    let drift = drift::told(&compared, scene.at, scene.style);
    let shown = scene.shown.min(compared.builds.len().saturating_sub(1));
    let setup = plan.builds.get(shown).and_then(|build| build.recipe.setup(&[]).ok());
    let side = setup.zip(compared.builds.get(shown));
    let side = side.map(|(setup, build)| side::draw(scene, build, &setup));
    let side = side.unwrap_or_default();
    Ok(Found { compared, live, side, drift, at: scene.at, shown, style: scene.style, aside, drawn })
}

impl Found {
    /// The face and how sure it is.
    pub(crate) fn shown(&self) -> Markup {
        let several = self.compared.builds.len() > 1;
        let r50 = |build: &BuildAnswer| build.marks[self.at].full.stats.r50;
        html! {
            (picture(&self.live.face))
            (self.strip())
            @for build in &self.compared.builds {
                p.sure data-flights=(build.flights) {
                    @if several { (build.name) ": " }
                    "half land within " strong { (Role::Impact.text(r50(build).value, self.style)) }
                    " " (interval(Role::Impact, &r50(build), self.style))
                }
                (width(&r50(build)))
            }
            p.hint { "From the middle of the group. 95 % intervals, from "
                (self.compared.builds[0].flights) " flights." }
        }
    }

    /// Every distance with the size of its group, to choose from.
    fn strip(&self) -> Markup {
        let marks = &self.compared.builds[0].marks;
        let largest = marks.iter().map(|mark| mark.full.stats.r50.value).fold(1e-9, f64::max);
        html! {
            @if marks.len() > 1 {
                div.strip role="group" aria-label="Distance" hidden {
                    @for (at, mark) in marks.iter().enumerate() {
                        @let place = Role::Range.text(mark.distance.si(), self.style);
                        @let size = LARGEST * mark.full.stats.r50.value / largest;
                        button type="button" data-at=(place) aria-pressed=(at == self.at) {
                            svg viewBox="-22 -22 44 44" aria-hidden="true" {
                                @if size > 0.5 { circle r=(format!("{size:.1}")) {} }
                            }
                            (place)
                        }
                    }
                }
            }
        }
    }

    /// The arrow from the side, to scale.
    pub(crate) fn side(&self) -> &Markup {
        &self.side
    }

    /// Half the height of the face, in the reader's unit.
    pub(crate) fn scale(&self) -> f64 {
        self.live.scale
    }

    /// The numbers behind the pictures, in SI units.
    pub(crate) fn numbers_plain(&self) -> Value {
        let estimate = |e: Estimate| json!({ "value": e.value, "low": e.low, "high": e.high });
        let builds = self.compared.builds.iter().map(|build| {
            let mark = &build.marks[self.at];
            let (stats, there) = (&mark.full.stats, &mark.nominal);
            json!({
                "name": build.name, "flights": build.flights,
                "r50_m": estimate(stats.r50), "r90_m": estimate(stats.r90),
                "left_m": stats.centre.left, "up_m": stats.centre.up,
                "drop_m": there.drop, "speed_m_s": there.speed, "energy_j": there.energy,
                "time_s": there.time,
            })
        });
        let distance = self.compared.builds[0].marks[self.at].distance.si();
        json!({ "distance_m": distance, "builds": builds.collect::<Vec<_>>() })
    }

    /// Whether something can hurt the shooter.
    pub(crate) fn hurts(&self) -> bool {
        self.live.hurts > 0
    }

    /// What to mind before the answer is read.
    pub(crate) fn mind(&self) -> Markup {
        minded(&self.live.cautions, self.live.hurts)
    }

    /// The answer in a sentence or two.
    pub(crate) fn finding(&self) -> Markup {
        html! {
            @if let Some(aside) = &self.aside {
                p.answer { (aside) }
                p { a href="#question" { "To the whole answer" } }
            } @else {
                p.answer { (self.live.sentence) }
                @if let Some(settings) = &self.live.settings { p.settings { (settings) } }
            }
            @if !self.live.shot {
                p.note {
                    "The scenario does not say who shoots, so this is a machine's group: set \"Aim, \
                     spread\", or write group = \"5 arrows at 40 yd span 6 in\" in the file."
                }
            }
        }
    }

    /// What the build does at the distance, and the one it is held against.
    fn figures(&self) -> Markup {
        let builds = &self.compared.builds;
        let shown = self.shown.min(builds.len().saturating_sub(1));
        let other = usize::from(shown == 0);
        html! {
            dl.figures {
                @for figure in &self.live.figures {
                    @let (value, band) = &figure.builds[shown];
                    div {
                        dt { (figure.what) }
                        dd {
                            strong { (value) }
                            @if !band.is_empty() { " " small { (band) } }
                            @if let Some((before, _)) = figure.builds.get(other) {
                                " " span.other { (builds[other].name) ": " (before) }
                            }
                        }
                    }
                }
            }
        }
    }

    /// All else that is said about it.
    pub(crate) fn told(&self) -> Markup {
        html! {
            (self.drift)
            (self.figures())
            @if self.aside.is_some() { p { (self.live.sentence) } }
            @if let Some(drawn) = self.drawn {
                p.note {
                    "What is poorly known was drawn " (drawn) " times for this; clothyard run draws it \
                     up to " (OUTER_POINTS) " times, and its bands are finer."
                }
            }
            @for note in &self.live.notes {
                p.note { (note) }
            }
            @for pair in &self.compared.pairs {
                h2 { (self.compared.builds[pair.other].name) " against "
                    (self.compared.builds[pair.base].name) }
                (self.against(pair))
            }
            @if self.live.shot || self.live.causes.is_some() {
                h2 { "What matters" }
                p { "How near half of the arrows would land if each were the only cause left, the largest first:" }
                @for build in &self.compared.builds {
                    @if self.compared.builds.len() > 1 { p { (build.name) } }
                    (self.ranked(build))
                }
            }
            @if let Some(causes) = &self.live.causes {
                (picture(causes))
            }
            h2 { "Departure and flight" }
            (self.numbers())
            (picture(&self.live.flight))
        }
    }

    /// The causes of the spread, the largest first, the archer among them.
    fn ranked(&self, build: &BuildAnswer) -> Markup {
        let mark = &build.marks[self.at];
        let mut rows: Vec<(&str, Estimate)> = build
            .causes
            .iter()
            .map(|cause| (report::owner_name(cause.owner), cause.r50[self.at]))
            .collect();
        rows.push(("archer", mark.form.stats.r50));
        rows.sort_by(|a, b| b.1.value.total_cmp(&a.1.value));
        rows.retain(|row| row.1.value > 0.0);
        html! {
            ol.ranked {
                @for (who, r50) in rows {
                    li {
                        span { (who) } " " strong { (Role::Impact.text(r50.value, self.style)) }
                        " " small { (interval(Role::Impact, &r50, self.style)) }
                    }
                }
            }
        }
    }

    /// Numbers of every build, side by side.
    fn numbers(&self) -> Markup {
        type Row = (&'static str, Role, fn(&BuildAnswer, &MarkAnswer) -> f64);
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
        let told = rows.len() - usize::from(!self.live.shot);
        let builds = &self.compared.builds;
        let place = Role::Range.text(builds[0].marks[self.at].distance.si(), self.style);
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
                        @for (name, role, read) in rows.into_iter().take(told) {
                            tr {
                                th scope="row" { (name) }
                                @for build in builds {
                                    td { (role.text(read(build, &build.marks[self.at]), self.style)) }
                                }
                            }
                        }
                    }
                }
            }
        }
    }

    fn against(&self, both: &Pair) -> Markup {
        let pair = &both.marks[self.at];
        let gain = pair.gain;
        let [base, other] = [both.base, both.other].map(|at| &self.compared.builds[at]);
        let change = Estimate { value: -gain.value, low: -gain.high, high: -gain.low };
        let ratio = |ratio: Option<Estimate>| {
            html! {
                @if let Some(ratio) = ratio {
                    (Role::Number.text(ratio.value, self.style)) " "
                    small { (interval(Role::Number, &ratio, self.style)) }
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
        let drop = |build: &BuildAnswer| build.marks[self.at].nominal.drop;
        html! {
            div.wide tabindex="0" {
                table {
                    tbody {
                        tr { th scope="row" { "change of where half land" } td {
                            (Role::Impact.text(change.value, self.style)) " "
                            small { (interval(Role::Impact, &change, self.style)) }
                        } }
                        tr { th scope="row" { "change of drop" } td {
                            (Role::Impact.text(drop(other) - drop(base), self.style))
                        } }
                        tr { th scope="row" { "spread, " (base.name) " over " (other.name) } td { (ratio(pair.full_ratio)) } }
                        tr { th scope="row" { "the same from a machine" } td { (ratio(pair.machine_ratio)) } }
                        tr { th scope="row" { "shots with each to tell" } td {
                            @if self.live.shot { (shots(pair.archer_shots)) ", " }
                            "a machine " (shots(pair.machine_shots))
                        } }
                        @if self.live.shot {
                            tr { th scope="row" { "who would see it in the groups" } td { (seen) } }
                        }
                    }
                }
            }
            p { "Intervals hold 95 %; one that holds zero (or a ratio of one) shows no difference." }
        }
    }
}

fn shots(shots: Shots) -> String {
    match shots {
        Shots::Each(count) => count.to_string(),
        Shots::MoreThan(count) => format!("more than {count}"),
    }
}

fn interval(role: Role, estimate: &Estimate, style: Style) -> String {
    let decimals = role.decimals(estimate.value, style);
    let text = |value| role.rounded(value, decimals, style);
    format!("{} to {} {}", text(estimate.low), text(estimate.high), role.symbol(style))
        .trim_end()
        .to_owned()
}

/// What to mind, before anything else.
fn minded(cautions: &[report::CautionText], hurts: usize) -> Markup {
    html! {
        div.caution.danger[hurts > 0] role="note" {
            p { (report::FIRST) }
            @if !cautions.is_empty() {
                ul {
                    @for (at, caution) in cautions.iter().enumerate() {
                        li.hurts[at < hurts] { (caution.full) }
                    }
                }
            }
        }
    }
}

fn picture(picture: &Picture) -> Markup {
    html! {
        figure {
            (PreEscaped(&picture.svg))
            figcaption { (picture.caption) }
        }
    }
}
