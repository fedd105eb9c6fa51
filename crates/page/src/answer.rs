//! The answer beside the controls.

use maud::{Markup, PreEscaped, html};
use report::{Live, Picture};
use serde_json::{Value, json};
use study::{Band, BuildAnswer, Compared, OUTER_POINTS, QUICK_POINTS, TargetChoice};
use target::Estimate;
use units::{Role, Style};

use crate::PageError;
use crate::bar::width;
use crate::beside::{Told, against, interval, numbers};
use crate::kept::Kept;
use crate::scene::{QUICK, Scene, aside, whole};
use crate::{drift, side};

/// Radius of the largest group on the strip of distances, px.
const LARGEST: f64 = 20.0;

/// Inks of builds in pictures, after which they begin anew.
const INKS: usize = 6;

/// What was computed for a scene.
pub(crate) struct Found {
    compared: Compared,
    live: Live,
    /// The arrow from the side.
    side: Markup,
    /// What the wind does to it.
    drift: Markup,
    /// What it may be that half land within, of each build, where anything is poorly known.
    may: Vec<Option<Estimate>>,
    /// Whether the target is a face with rings.
    face: bool,
    at: usize,
    /// The build that the controls change.
    shown: usize,
    style: Style,
    /// What is said of a question without a view.
    aside: Option<String>,
    /// Whether the question is answered whole further down.
    asks: bool,
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
    let question = scene.plan()?;
    let (aside, asks) = (aside(&question), whole(&question));
    let drawn = answer.unknown.as_ref().map(|joint| joint.points.len());
    let compared = answer.compared().cloned().ok_or(report::ReportError::NoComparison)?;
    let mut live = report::live(&answer, scene.at, held, scene.style)?;
    let face = matches!(answer.target, TargetChoice::Face { .. });
    if live.shot && !face {
        // Shares of hits are told.
        live.cautions.extend(report::cautions(&[], &[report::Job::Hits], scene.style));
    }
    let r50 = |of: &Compared, build: usize| {
        Some(of.builds.get(build)?.marks.get(scene.at)?.full.stats.r50.value)
    };
    let may = |build: usize| {
        let value = r50(&compared, build)?;
        let band = answer.unknown.as_ref()?.band(value, |found| r50(found.compared()?, build))?;
        Some(Estimate { value, low: band.low, high: band.high })
    };
    let may = (0..compared.builds.len()).map(may).collect();
    let drift = drift::told(&compared, scene.at, scene.style);
    let shown = scene.shown.min(compared.builds.len().saturating_sub(1));
    let setup = plan.builds.get(shown).and_then(|build| build.recipe.setup(&[]).ok());
    let side = setup.zip(compared.builds.get(shown));
    let side = side.map(|(setup, build)| side::draw(scene, build, &setup));
    let side = side.unwrap_or_default();
    let (at, style) = (scene.at, scene.style);
    Ok(Found { compared, live, side, drift, may, face, at, shown, style, aside, asks, drawn })
}

impl Found {
    /// The face and how sure it is.
    pub(crate) fn shown(&self) -> Markup {
        let several = self.compared.builds.len() > 1;
        let r50 = |build: &BuildAnswer| build.marks[self.at].full.stats.r50;
        let aim = if self.face { "the rings of the face" } else { "the zone to hit" };
        html! {
            (picture(&self.live.face))
            p.hint.key {
                "Solid circle: half land inside. Dashed: nine in ten. Thin grey: " (aim) "."
            }
            (self.strip())
            @for (at, (build, may)) in self.compared.builds.iter().zip(&self.may).enumerate() {
                p.sure data-flights=(build.flights) {
                    @if several {
                        svg.swatch viewBox="0 0 10 10" aria-hidden="true" {
                            rect class=(format!("of-{}", at % INKS)) width="10" height="10" {}
                        }
                        (build.name) ": "
                    }
                    "half land within " strong { (Role::Impact.text(r50(build).value, self.style)) } " "
                    @if let Some(may) = may {
                        (report::may_be(Role::Impact, may.value, Band { low: may.low, high: may.high }, self.style))
                    } @else {
                        small { "(95 % of chance: " (interval(Role::Impact, &r50(build), self.style)) ")" }
                    }
                }
                (width(may.as_ref().unwrap_or(&r50(build))))
            }
            p.hint {
                "From the middle of the group; " (self.compared.builds[0].flights) " flights. "
                @if self.may.iter().any(Option::is_some) {
                    "Bar: what it may be. Shade in the picture: chance alone, 95 %."
                } @else {
                    "Bar and shade in the picture: chance alone, 95 %."
                }
            }
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
                @if self.asks { p { a href="#question" { "To the whole answer" } } }
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

    /// What is seen beside it at a glance.
    pub(crate) fn glance(&self) -> Markup {
        html! { (self.drift) (self.figures()) }
    }

    /// All else that is said about it.
    pub(crate) fn told(&self) -> Markup {
        let (compared, shot) = (&self.compared, self.live.shot);
        let tables = Told { compared, at: self.at, shot, style: self.style };
        html! {
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
                (against(&tables, pair))
            }
            @if self.live.shot || self.live.causes.is_some() {
                h2 { "What matters" }
                p { "How near half of the arrows would land if each were the only cause left, the largest first; small: chance alone, 95 %." }
                @for build in &self.compared.builds {
                    @if self.compared.builds.len() > 1 { p { (build.name) } }
                    (self.ranked(build))
                }
            }
            @if let Some(causes) = &self.live.causes {
                (picture(causes))
            }
            h2 { "Departure and flight" }
            (numbers(&tables))
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
}

/// What to mind, before anything else.
fn minded(cautions: &[report::CautionText], hurts: usize) -> Markup {
    html! {
        div.caution.danger[hurts > 0] role="note" {
            p { (report::FIRST) }
            @if !cautions.is_empty() {
                ul {
                    @for (at, caution) in cautions.iter().enumerate() {
                        li.hurts[at < hurts] {
                            // A danger of this very arrow is told whole, what any asks in a line.
                            (if caution.danger { &caution.full } else { &caution.short })
                        }
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
