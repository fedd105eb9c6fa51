//! Sight tapes and cards from what was computed.

use print::{Card, Cards, Look, Sheet, Strip, Tape, TapeMark};
use study::{Banded, Caution, MarkRow, Setup, SightMarks, SlopeShot, StripMarks};
use units::{Dimension, Role, Style};

use crate::safety::{self, FIRST, Job};
use crate::show::{plain, plain_number, significant};
use crate::{File, ReportError};

/// What a page says of where its marks hold.
#[derive(Debug, Clone, Copy)]
pub struct About<'a> {
    /// Title of the scenario.
    pub title: &'a str,
    /// Its build, where there are several.
    pub build: Option<&'a str>,
    /// The setup, with what was fitted.
    pub setup: &'a Setup,
    /// Departure speed, m/s.
    pub speed: f64,
    /// Mass of the arrow, kg.
    pub mass: f64,
    /// What it was fitted to, if it was.
    pub fitted: Option<&'a str>,
    /// What could hurt somebody.
    pub cautions: &'a [Caution],
    /// Units.
    pub style: Style,
}

impl About<'_> {
    fn title(&self, what: &str) -> String {
        let build = self.build.map_or_else(String::new, |name| format!(", {name}"));
        format!("{what}: {}{build}", self.title)
    }

    /// What to mind, before the marks.
    fn care(&self) -> Vec<String> {
        let cautions = safety::cautions(self.cautions, &[Job::Marks], self.style);
        std::iter::once(FIRST.to_owned()).chain(cautions.into_iter().map(|of| of.full)).collect()
    }

    /// A sentence or two.
    fn words(&self) -> String {
        let Self { setup, style, .. } = *self;
        let weather = &setup.site.weather;
        let fitted = self.fitted.map_or_else(String::new, |seen| format!(" Fitted to {seen}."));
        format!(
            "Sight set at {}, eye {} above the arrow, pin {} ahead of the eye. Arrow of {} at {}; \
             air at {} and {}; level ground.{fitted}",
            plain(Role::Range, setup.sight.zero.si(), style),
            plain(Role::Part, setup.sight.height.si(), style),
            plain(Role::Part, setup.sight.radius.si(), style),
            Role::Mass.text(self.mass, style),
            Role::Speed.text(self.speed, style),
            Role::Temperature.text(weather.temperature.si(), style),
            Role::Pressure.text(weather.pressure.si(), style),
        )
    }
}

/// Sight tapes as `tape.pdf` and `tape.svg`.
///
/// # Errors
/// [`ReportError::Print`] for strips that do not fit on the page, or whose
/// marks are not finite or do not rise.
pub fn tape_files(
    strips: &[StripMarks],
    about: &About<'_>,
    look: Look,
) -> Result<Vec<File>, ReportError> {
    Ok(files("tape", &tape(strips, about, look).sheet()?))
}

/// The scale of a sight, as its owner read it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OwnScale {
    /// What it reads with the pin level with the arrow, m.
    pub zero: f64,
    /// Whether its numbers fall as distances rise.
    pub falling: bool,
}

impl OwnScale {
    /// What it reads with the pin so high above the arrow, m.
    fn reads(self, pin: f64) -> f64 {
        if self.falling { self.zero + pin } else { self.zero - pin }
    }
}

/// Cards of marks, holds, wind and slopes as `card.pdf` and `card.svg`.
///
/// # Errors
/// [`ReportError::Print`] for more cards than fit on a page.
pub fn card_files(
    marks: &SightMarks,
    about: &About<'_>,
    look: Look,
) -> Result<Vec<File>, ReportError> {
    card_files_on(marks, about, look, None)
}

/// The same, marks as the sight's own scale reads where that is known.
///
/// # Errors
/// As [`card_files`].
pub fn card_files_on(
    marks: &SightMarks,
    about: &About<'_>,
    look: Look,
    scale: Option<OwnScale>,
) -> Result<Vec<File>, ReportError> {
    Ok(files("card", &cards(marks, about, look, scale).sheet()?))
}

pub(crate) fn files(name: &str, sheet: &Sheet) -> Vec<File> {
    let pdf = File { name: format!("{name}.pdf"), bytes: sheet.pdf() };
    vec![pdf, File::new(format!("{name}.svg"), sheet.svg())]
}

fn tape(strips: &[StripMarks], about: &About<'_>, look: Look) -> Tape {
    let style = about.style;
    let strip = |strip: &StripMarks| Strip {
        name: Role::Speed.text(strip.speed, style),
        note: match about.fitted {
            Some(_) => "fitted".to_owned(),
            None => faster(strip.share),
        },
        marks: strip.marks.iter().map(|&(halves, travel)| TapeMark { halves, travel }).collect(),
    };
    // The two tens farthest apart.
    let tens = || {
        let marks = strips.first().map(|strip| strip.marks.as_slice()).unwrap_or_default();
        marks.iter().map(|mark| mark.0).filter(|halves| halves % 20 == 0)
    };
    let between = tens().min().zip(tens().max()).filter(|(near, far)| near < far);
    Tape {
        title: about.title("Sight tape"),
        care: about.care(),
        about: about.words(),
        strips: strips.iter().map(strip).collect(),
        style,
        between,
        look,
    }
}

fn faster(share: f64) -> String {
    let percent = significant(100.0 * share.abs());
    match share {
        share if share < -1e-9 => format!("{percent} % slower"),
        share if share > 1e-9 => format!("{percent} % faster"),
        _ => "as computed".to_owned(),
    }
}

fn cards(marks: &SightMarks, about: &About<'_>, look: Look, scale: Option<OwnScale>) -> Cards {
    let style = about.style;
    let mut cards = vec![sight(marks, style, scale)];
    if !marks.pins.is_empty() {
        cards.push(holds(marks, style));
    }
    cards.push(wind(marks, style));
    if !marks.hills.is_empty() {
        cards.push(hills(marks, style));
    }
    let (title, care, about) = (about.title("Cards"), about.care(), about.words());
    Cards { title, care, about, cards, look }
}

fn head(word: &str, unit: &str) -> (String, String) {
    (word.to_owned(), unit.to_owned())
}

fn of(word: &str, role: Role, style: Style) -> (String, String) {
    head(word, role.symbol(style))
}

fn range(si: f64, style: Style) -> String {
    plain_number(Role::Range, si, style)
}

/// A height for a card: one decimal is what can be held.
fn height(si: f64, style: Style) -> String {
    Role::Impact.rounded(si, 1, style)
}

fn set_at(marks: &SightMarks, style: Style) -> String {
    format!("set at {}", plain(Role::Range, marks.zero.si(), style))
}

fn sight(marks: &SightMarks, style: Style, scale: Option<OwnScale>) -> Card {
    let mark = |row: &MarkRow| scale.map_or(row.travel.value, |scale| scale.reads(row.pin));
    let banded = marks.unknown.is_some();
    let rows = marks.rows.iter().map(|row| {
        let band = banded.then(|| band(row.travel));
        let first = [range(row.distance, style), tenths(1e3 * mark(row))];
        let rest = [
            height(row.above_sight, style),
            Role::Time.rounded(row.time, 2, style),
            Role::Speed.rounded(row.speed, 0, style),
        ];
        first.into_iter().chain(band).chain(rest).collect()
    });
    let first = [
        of("distance", Role::Range, style),
        head(if scale.is_some() { "scale" } else { "pin down" }, "mm"),
    ];
    let rest = [
        of("unmoved", Role::Impact, style),
        of("time", Role::Time, style),
        of("speed", Role::Speed, style),
    ];
    let heads = first.into_iter().chain(banded.then(|| head("band", "mm"))).chain(rest);
    Card {
        title: "Marks".to_owned(),
        note: if scale.is_some() { "as your scale reads".to_owned() } else { set_at(marks, style) },
        heads: heads.collect(),
        rows: rows.collect(),
    }
}

/// With one decimal, and no minus before nothing.
fn tenths(value: f64) -> String {
    let text = format!("{value:.1}");
    if text == "-0.0" { "0.0".to_owned() } else { text }
}

/// The farther end of a band from its number, in tenths of a millimetre, never
/// rounded toward it.
fn band(travel: Banded) -> String {
    // What rounding may add to a whole tenth.
    const SLACK: f64 = 1e-6;
    let most = (travel.high - travel.value).max(travel.value - travel.low);
    format!("\u{b1}{:.1}", 0.1 * (1e4 * most - SLACK).ceil().max(0.0))
}

fn holds(marks: &SightMarks, style: Style) -> Card {
    let pins = marks
        .pins
        .iter()
        .map(|pin| head(&format!("{} pin", range(pin.zero, style)), Role::Impact.symbol(style)));
    let rows = marks.rows.iter().map(|row| {
        let holds = row.holds.iter().map(|hold| height(*hold, style));
        std::iter::once(range(row.distance, style)).chain(holds).collect()
    });
    Card {
        title: "Hold over".to_owned(),
        note: "minus: hold under".to_owned(),
        heads: std::iter::once(of("distance", Role::Range, style)).chain(pins).collect(),
        rows: rows.collect(),
    }
}

fn wind(marks: &SightMarks, style: Style) -> Card {
    let wind = marks.plan.crosswind.si();
    let into_wind = marks.rows.iter().any(|row| row.drift < 0.0);
    let times = [1.0, 2.0, 3.0];
    let heads =
        times.map(|n| head(&plain(Role::Wind, n * wind, style), Role::Impact.symbol(style)));
    let rows = marks.rows.iter().map(|row| {
        let drifts = times.map(|n| height(n * row.drift, style));
        std::iter::once(range(row.distance, style)).chain(drifts).collect()
    });
    Card {
        title: "Drift".to_owned(),
        note: if into_wind {
            "minus: into the wind, the tip leans in"
        } else {
            "wind square from the side"
        }
        .to_owned(),
        heads: std::iter::once(of("distance", Role::Range, style)).chain(heads).collect(),
        rows: rows.collect(),
    }
}

fn hills(marks: &SightMarks, style: Style) -> Card {
    let places = marks.hills.first().map(|hill| hill.shots.as_slice()).unwrap_or_default();
    let (far, near) = (Role::Range.symbol(style), Role::Impact.symbol(style));
    let under = marks.hills.iter().flat_map(|hill| &hill.shots).any(|shot| shot.dial.is_none());
    // A column of marks and holds has no one unit, so each of its cells has its own.
    let unit = if under { "" } else { far };
    let heads = places.iter().map(|shot| head(&plain(Role::Range, shot.distance, style), unit));
    let degrees = |si: f64| Dimension::Angle.unit("deg").map_or(si, |unit| unit.of_si(si));
    let cell = |shot: &SlopeShot| match shot.dial {
        Some(dial) if under => format!("{} {far}", Role::Range.rounded(dial, 1, style)),
        Some(dial) => Role::Range.rounded(dial, 1, style),
        None => format!("{} {near}", height(-shot.least_miss, style)),
    };
    let rows = marks.hills.iter().map(|hill| {
        let slope = degrees(hill.slope);
        let way = if slope < 0.0 { "down" } else { "up" };
        let first = format!("{way} {}", significant(slope.abs()));
        std::iter::once(first).chain(hill.shots.iter().map(cell)).collect()
    });
    Card {
        title: "Slopes".to_owned(),
        note: if under {
            let top = Role::Range.rounded(marks.sighting.top(), 1, style);
            format!("{far}: dial; {near}: dial {top} {far}, hold so far under")
        } else {
            "what to dial".to_owned()
        },
        heads: std::iter::once(head("slope", "deg")).chain(heads).collect(),
        rows: rows.collect(),
    }
}
