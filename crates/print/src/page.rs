//! The page of strips: title, what it holds for, rulers, strips, care.

use units::Style;

use crate::error::PrintError;
use crate::look::mm;
use crate::sheet::{BLACK, SOFT, Sheet, Side, Type};
use crate::tape::Tape;
use crate::{ruler, strip};

/// Margin of the page, mm. Chosen: every printer reaches that far.
pub(crate) const MARGIN: f64 = 14.0;
/// Where the strips begin, mm from the left: beside the upright ruler.
const STRIPS_LEFT: f64 = 30.0;
/// Between strips at least, mm: crop marks of both and a cut.
const BETWEEN: f64 = 8.0;
/// Height of the figures below a strip, mm.
const BELOW: f64 = 14.0;
/// Height kept at the foot for ruler and care, mm.
pub(crate) const FOOT: f64 = 42.0;

pub(crate) const TITLE: Type = Type::bold(6.0, BLACK);
pub(crate) const BODY: Type = Type::plain(3.2, SOFT);
/// Cautions stand out from the rest.
const CARE: Type = Type::bold(3.2, BLACK);

impl Tape {
    /// The page, at true scale.
    ///
    /// # Errors
    /// [`PrintError`] for a strip without two marks, marks that are not finite
    /// or do not rise, a strip longer than the page, or more strips than fit
    /// side by side.
    pub fn sheet(&self) -> Result<Sheet, PrintError> {
        sheet(self)
    }
}

fn sheet(tape: &Tape) -> Result<Sheet, PrintError> {
    let look = &tape.look;
    let (wide, high) = look.paper.size();
    let pitch = (wide - MARGIN - STRIPS_LEFT) / tape.strips.len() as f64;
    let most = (wide - MARGIN - STRIPS_LEFT) / (mm(look.width) + BETWEEN);
    if tape.strips.is_empty() || pitch < mm(look.width) + BETWEEN {
        return Err(PrintError::Strips { strips: tape.strips.len(), most: most.floor() });
    }
    let mut sheet = Sheet::new(look.paper, &tape.title);
    let y = top(&mut sheet, wide, (&tape.title, &tape.care, &tape.about));
    let y = sheet.paragraph(&how(tape), (MARGIN, y + 1.5), wide - 2.0 * MARGIN, BODY);
    let head = y + 15.0;
    let room = high - FOOT - BELOW - head;
    for (place, one) in tape.strips.iter().enumerate() {
        strip::check(one)?;
        let long = strip::length(one, look);
        if long > room {
            let strip = one.name.clone();
            return Err(PrintError::StripTooLong { strip, needed: long, room });
        }
        let middle = STRIPS_LEFT + (place as f64 + 0.5) * pitch;
        let name = Type::bold(3.2, BLACK);
        sheet.text(&one.name, (middle, head - 10.0), Side::About, name);
        let note = Type::plain(2.8, SOFT);
        sheet.text(&one.note, (middle, head - 6.3), Side::About, note);
        let corner = (middle - 0.5 * mm(look.width), head);
        strip::draw(&mut sheet, one, look, corner);
        if let Some((words, length)) = between(tape, place) {
            let y = head + long + 9.0;
            sheet.text(&words, (middle, y), Side::About, Type::plain(2.6, SOFT));
            sheet.text(&length, (middle, y + 4.0), Side::About, Type::bold(3.0, BLACK));
        }
    }
    ruler::down(&mut sheet, (MARGIN + 9.0, head));
    foot(&mut sheet, wide, high);
    Ok(sheet)
}

/// The ruler at the foot of every page.
pub(crate) fn foot(sheet: &mut Sheet, wide: f64, high: f64) {
    let y = high - FOOT + 10.0;
    ruler::across(sheet, (MARGIN, y));
    let beside = MARGIN + 116.0;
    sheet.paragraph(
        "Measure the rulers before you cut. If 100 mm is not 100 mm, print again at actual \
         size, 100 %, with no fitting to the page.",
        (beside, y - 4.5),
        wide - MARGIN - beside,
        Type::plain(2.9, BLACK),
    );
}

/// Title, what to mind, and what it holds for; gives the base line below.
pub(crate) fn top(
    sheet: &mut Sheet,
    wide: f64,
    (title, care, about): (&str, &[String], &str),
) -> f64 {
    sheet.text(title, (MARGIN, MARGIN + 6.0), Side::From, TITLE);
    let mut y = MARGIN + 12.5;
    for caution in care {
        y = sheet.paragraph(caution, (MARGIN, y), wide - 2.0 * MARGIN, CARE);
    }
    sheet.paragraph(about, (MARGIN, y + 0.5), wide - 2.0 * MARGIN, BODY)
}

/// The symbol of the unit of distance.
fn symbol(style: Style) -> &'static str {
    units::Role::Range.symbol(style)
}

fn how(tape: &Tape) -> String {
    let pick = match tape.between {
        Some((near, far)) if tape.strips.len() > 1 => format!(
            "Shoot in two marks, {near} and {far} {unit}; measure how far the sight moved between \
             them, and take the strip with the nearest length below it.",
            near = number(near),
            far = number(far),
            unit = symbol(tape.style)
        ),
        _ => "Cut the strip out along its crop marks.".to_owned(),
    };
    format!(
        "{pick} Fix it with one known mark under the pointer, then check every other mark at a \
         target. Numbers are {}.",
        match tape.style {
            Style::Archery => "yards",
            Style::Metric => "metres",
        }
    )
}

fn number(halves: u32) -> String {
    (f64::from(halves) / 2.0).to_string()
}

/// Between which marks, and how far they lie apart on a strip.
fn between(tape: &Tape, place: usize) -> Option<(String, String)> {
    let (near, far) = tape.between?;
    let at = |halves: u32| {
        let found = tape.strips[place].marks.iter().find(|mark| mark.halves == halves);
        found.map(|mark| mark.travel)
    };
    let length = 1e3 * (at(far)? - at(near)?);
    let unit = symbol(tape.style);
    let words = format!("{} to {} {unit}", number(near), number(far));
    Some((words, format!("{length:.1} mm")))
}
