use study::{Banded, Shots};
use target::Estimate;
use units::{Role, Style};

use super::known::Known;
use crate::show::{alike, brief, count, figures, share as said};

/// What stands in a cell. Numbers are in SI.
#[derive(Debug, Clone, PartialEq)]
pub enum Cell {
    /// A word or a name.
    Word(String),
    /// A count of things.
    Count(u64),
    /// A quantity.
    Quantity(Role, f64),
    /// A quantity with the 95 % interval of chance.
    Estimate(Role, Estimate),
    /// A quantity with its band over the poorly known values.
    Banded(Role, Banded),
    /// A band, or the two ends of a range.
    Band(Role, f64, f64),
    /// A number of shots; it may be more than was looked for.
    Shots(Shots),
    /// Nothing, and why in a word or two; empty where the head says it.
    None(&'static str),
}

/// How numbers of a column are spelled where people read them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) struct CellStyle {
    /// Decimals; those of the role if not said.
    pub(super) decimals: Option<usize>,
    /// Figures at the most, in place of decimals.
    pub(super) figures: Option<u8>,
    /// Whether a positive number carries its sign.
    pub(super) signed: bool,
    /// Whether each cell carries its unit.
    pub(super) unit: bool,
}

/// A cell as people read it: a text, and its interval if it has one.
pub(super) struct Spelled {
    pub(super) value: String,
    pub(super) ends: Option<[String; 2]>,
    /// Its band for what is not known.
    pub(super) band: Option<[String; 2]>,
    /// After both, where the head does not say it.
    pub(super) unit: String,
}

impl Cell {
    /// The cell for a reader.
    pub(super) fn spell(&self, look: CellStyle, style: Style) -> Spelled {
        let unit = |role: Role| match role.symbol(style) {
            symbol if look.unit && !symbol.is_empty() => format!(" {symbol}"),
            _ => String::new(),
        };
        let three = |role: Role, all: [f64; 3]| {
            let [value, low, high] = spell_alike(role, all, look, style);
            Spelled { value, ends: Some([low, high]), band: None, unit: unit(role) }
        };
        let plain = |value: String| Spelled { value, ends: None, band: None, unit: String::new() };
        match self {
            Self::Word(word) => plain(word.clone()),
            Self::Count(n) => plain(count(*n)),
            Self::Quantity(role, si) if look.unit => plain(own(*role, *si, look, style)),
            Self::Quantity(role, si) => plain(spell_one(*role, *si, look, style)),
            Self::Estimate(role, e) => three(*role, [e.value, e.low, e.high]),
            Self::Banded(role, b) => three(*role, [b.value, b.low, b.high]),
            Self::Band(role, low, high) => {
                let [low, high] = spell_alike(*role, [*low, *high], look, style);
                plain(format!("{low} to {high}{}", unit(*role)))
            }
            Self::Shots(Shots::Each(n)) => plain(count((*n).into())),
            Self::Shots(Shots::MoreThan(n)) => plain(format!(">{}", count((*n).into()))),
            Self::None("") => plain("-".to_owned()),
            Self::None(why) => plain((*why).to_owned()),
        }
    }

    /// The cell as a name of its row; none for what was found. A count of what was
    /// done is a name that says nothing.
    pub(super) fn named(&self) -> Option<String> {
        match self {
            Self::Word(word) => Some(word.clone()),
            Self::Quantity(Role::Range, si) => Some(si.to_bits().to_string()),
            Self::Count(_) => Some(String::new()),
            _ => None,
        }
    }

    /// Every number with what it is, for the check.
    pub(super) fn numbers(&self) -> Vec<(&'static str, f64)> {
        let three = |value, low, high| vec![("", value), (".low", low), (".high", high)];
        match self {
            Self::Quantity(_, si) => vec![("", *si)],
            Self::Estimate(_, e) => three(e.value, e.low, e.high),
            Self::Banded(_, b) => three(b.value, b.low, b.high),
            Self::Band(_, low, high) => vec![(".low", *low), (".high", *high)],
            Self::Word(_) | Self::Count(_) | Self::Shots(_) | Self::None(_) => Vec::new(),
        }
    }
}

/// A sampling interval is shown beside a band if it is at least this share as
/// wide. Chosen: below, the two together are wider by less than a tenth.
const BESIDE: f64 = 0.45;

/// Marks a number that lies outside its own band.
pub(super) const USUAL: char = '*';

impl Spelled {
    /// The same with what is not known of the cell.
    pub(super) fn with(mut self, known: Known, cell: &Cell, look: CellStyle, style: Style) -> Self {
        if let Known::Stands(share) = known {
            self.value = format!("{} ({})", self.value, said(share));
        }
        match (known.ends(), cell) {
            (Some((low, high)), Cell::Shots(_)) => {
                let end = |end: f64| {
                    #[expect(
                        clippy::cast_possible_truncation,
                        clippy::cast_sign_loss,
                        reason = "a count"
                    )]
                    let whole = end.round().max(0.0) as u64;
                    if end.is_finite() { count(whole) } else { "more".to_owned() }
                };
                self.band = Some([end(low), end(high)]);
            }
            (
                Some((low, high)),
                Cell::Quantity(role, value)
                | Cell::Estimate(role, Estimate { value, .. })
                | Cell::Banded(role, Banded { value, .. }),
            ) => {
                let [own, low_text, high_text] =
                    spell_alike(*role, [*value, low, high], look, style);
                let narrow = match cell {
                    Cell::Estimate(_, e) => e.high - e.low < BESIDE * (high - low),
                    _ => true,
                };
                if narrow {
                    self.ends = None;
                }
                // A band that shows no more than the number stands in files alone.
                let shows = low_text != own || high_text != own;
                if let Cell::Quantity(..) = cell {
                    let unit = match role.symbol(style) {
                        symbol if look.unit && !symbol.is_empty() => format!(" {symbol}"),
                        _ => String::new(),
                    };
                    (self.value, self.unit) = (own, unit);
                }
                self.band = shows.then_some([low_text, high_text]);
            }
            (Some((low, high)), Cell::Band(role, ..)) => {
                self.band = Some(spell_alike(*role, [low, high], look, style));
            }
            _ => {}
        }
        if let Known::Usual(..) = known {
            self.value.push(USUAL);
        }
        self
    }
}

/// A number with its unit; one that the decimals of its role leave with less
/// than two figures keeps two.
fn own(role: Role, si: f64, look: CellStyle, style: Style) -> String {
    if let Some(most) = look.figures {
        let text = format!("{} {}", figures(role.value(si, style), most), role.symbol(style));
        return text.trim_end().to_owned();
    }
    let shown = role.number(si, style);
    let digits = shown.trim_start_matches(['-', '0', '.']).bytes().filter(u8::is_ascii_digit);
    if si != 0.0 && digits.count() < 2 && !matches!(role, Role::Points | Role::Range) {
        brief(role, si, style)
    } else {
        role.text(si, style)
    }
}

fn spell_one(role: Role, si: f64, look: CellStyle, style: Style) -> String {
    // Distances are round numbers as a rule.
    let most = look.figures.or((role == Role::Range).then_some(4));
    let text = match (look.decimals, most) {
        (Some(decimals), _) => role.rounded(si, decimals, style),
        (None, Some(most)) => figures(role.value(si, style), most),
        (None, None) => role.number(si, style),
    };
    signed(text, look)
}

fn spell_alike<const N: usize>(
    role: Role,
    all: [f64; N],
    look: CellStyle,
    style: Style,
) -> [String; N] {
    match look.decimals {
        Some(decimals) => all.map(|si| signed(role.rounded(si, decimals, style), look)),
        None => alike(role, all, style).map(|text| signed(text, look)),
    }
}

fn signed(text: String, look: CellStyle) -> String {
    let positive = text.bytes().any(|b| b.is_ascii_digit() && b != b'0') && !text.starts_with('-');
    if look.signed && positive { format!("+{text}") } else { text }
}

impl From<&str> for Cell {
    fn from(word: &str) -> Self {
        Self::Word(word.to_owned())
    }
}

impl From<String> for Cell {
    fn from(word: String) -> Self {
        Self::Word(word)
    }
}

impl From<&String> for Cell {
    fn from(word: &String) -> Self {
        Self::Word(word.clone())
    }
}
