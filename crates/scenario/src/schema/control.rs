//! How a person sets a key on a page.

use units::Style;

/// Where a control stands on the page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// The arrow.
    Arrow,
    /// What is off from arrow to arrow.
    Faults,
    /// Bow, string and rest.
    Bow,
    /// Who shoots.
    Archer,
    /// Air, wind and mark.
    Place,
    /// The sight.
    Sight,
    /// What is asked, and how finely.
    Asked,
}

impl Part {
    /// Where a key of a table stands; none for a key that no page sets.
    pub(crate) fn of(path: &str) -> Option<Self> {
        Some(match path.split('.').next().unwrap_or_default() {
            "arrow" => Self::Arrow,
            "faults" => Self::Faults,
            "bow" | "departure" => Self::Bow,
            "archer" => Self::Archer,
            "air" | "wind" | "range" | "aero" => Self::Place,
            "sight" | "marks" => Self::Sight,
            "question" | "title" | "note" | "seed" | "flight" => Self::Asked,
            _ => return None,
        })
    }
}

/// What a control's text says of its key.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// The value.
    Plain,
    /// The scale of a Rayleigh law: the size of a fault that differs from
    /// arrow to arrow.
    Rayleigh,
    /// The standard deviation of a normal law about zero.
    Spread,
    /// One of a list of lengths: it is put in where it is not there yet.
    Among,
    /// A speed across the shot, from the right above zero and from the left below.
    Side,
}

/// A slider: its unit, its ends and its step. The ends are chosen: what is met
/// at a bench; a field takes what the key takes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slide {
    /// Symbol of its unit.
    pub unit: &'static str,
    /// Lower end, in that unit.
    pub low: f64,
    /// Upper end.
    pub high: f64,
    /// From one place to the next.
    pub step: f64,
}

/// The control of a row.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Dial {
    pub(crate) name: &'static str,
    /// Its place among all controls.
    pub(crate) rank: u8,
    pub(crate) part: Part,
    pub(crate) form: Form,
    /// The key in plain words.
    pub(crate) label: &'static str,
    /// What it means; empty where the label says it.
    pub(crate) hint: &'static str,
    /// In archery units and in metric ones.
    slides: [Slide; 2],
}

impl Dial {
    pub(crate) fn slide(&self, style: Style) -> Slide {
        let [archery, metric] = self.slides;
        match style {
            Style::Archery => archery,
            Style::Metric => metric,
        }
    }
}

pub(super) const fn dial(
    name: &'static str,
    rank: u8,
    part: Part,
    form: Form,
    label: &'static str,
    hint: &'static str,
    slides: [Slide; 2],
) -> Dial {
    Dial { name, rank, part, form, label, hint, slides }
}

pub(super) const fn slide(unit: &'static str, low: f64, high: f64, step: f64) -> Slide {
    Slide { unit, low, high, step }
}
