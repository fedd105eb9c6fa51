//! The page of a tape: title, care, what it holds for, rulers, strip or fan.

use units::Style;

use crate::error::PrintError;
use crate::look::mm;
use crate::sheet::{BLACK, SOFT, Sheet, Side, Type};
use crate::tape::{Strip, Tape};
use crate::{fan, ruler, strip};

/// Margin of the page, mm. Chosen: every printer reaches that far.
pub(crate) const MARGIN: f64 = 14.0;
/// Where a fan begins, mm from the left: beside the upright ruler.
const FAN_LEFT: f64 = 30.0;
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
    /// or do not rise, speeds of a fan with unlike marks, or a strip longer than
    /// the page.
    pub fn sheet(&self) -> Result<Sheet, PrintError> {
        sheet(self)
    }
}

fn sheet(tape: &Tape) -> Result<Sheet, PrintError> {
    let look = &tape.look;
    let (wide, high) = look.paper.size();
    for strip in &tape.strips {
        strip::check(strip)?;
    }
    fan::check(&tape.strips)?;
    let mut sheet = Sheet::new(look.paper, &tape.title);
    let y = top(&mut sheet, wide, (&tape.title, &tape.care, &tape.about));
    let y = sheet.paragraph(&how(tape), (MARGIN, y + 1.5), wide - 2.0 * MARGIN, BODY);
    let head = y + 15.0;
    let room = high - FOOT - BELOW - head;
    let fits = |name: &str, long: f64| {
        let strip = name.to_owned();
        (long <= room).then_some(()).ok_or(PrintError::StripTooLong { strip, needed: long, room })
    };
    match tape.strips.as_slice() {
        [] => return Err(PrintError::NoStrip),
        [one] => {
            let long = strip::length(one, look);
            fits(&one.name, long)?;
            let middle = 0.5 * wide;
            sheet.text(&one.name, (middle, head - 10.0), Side::About, Type::bold(3.2, BLACK));
            sheet.text(&one.note, (middle, head - 6.3), Side::About, Type::plain(2.8, SOFT));
            strip::draw(&mut sheet, one, look, (middle - 0.5 * mm(look.width), head));
            if let Some((words, length)) = between(tape, one) {
                let y = head + long + 9.0;
                sheet.text(&words, (middle, y), Side::About, Type::plain(2.6, SOFT));
                sheet.text(&length, (middle, y + 4.0), Side::About, Type::bold(3.0, BLACK));
            }
        }
        [slowest, ..] => {
            fits(&slowest.name, fan::height(&tape.strips))?;
            fan::draw(&mut sheet, &tape.strips, look, (FAN_LEFT, head), wide - MARGIN - FAN_LEFT);
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
    let (look, title) = TITLE.fit(title, wide - 2.0 * MARGIN);
    sheet.text(&title, (MARGIN, MARGIN + 6.0), Side::From, look);
    let mut y = MARGIN + 12.5;
    for caution in care {
        y = sheet.paragraph(caution, (MARGIN, y), wide - 2.0 * MARGIN, CARE);
    }
    sheet.paragraph(about, (MARGIN, y + 1.2), wide - 2.0 * MARGIN, BODY)
}

/// The symbol of the unit of distance.
fn symbol(style: Style) -> &'static str {
    units::Role::Range.symbol(style)
}

fn how(tape: &Tape) -> String {
    let wide = mm(tape.look.width);
    let fixing = "Fix it with one known mark under the pointer, then check every other mark at a \
                  target.";
    let unit = match tape.style {
        Style::Archery => "yards",
        Style::Metric => "metres",
    };
    if tape.strips.len() < 2 {
        return format!("Cut the strip out along its crop marks. {fixing} Numbers are {unit}.");
    }
    let such = tape.between.map_or_else(String::new, |(near, far)| {
        format!(", such as {} and {} {}", number(near), number(far), symbol(tape.style))
    });
    format!(
        "Shoot in two marks far apart{such}, and measure in mm how far the pin moved between \
         them. Hold a ruler upright on the fan and slide it sideways until the curves of those \
         two marks lie just so far apart: there both fit. Cut upright along that line, and again \
         {wide} mm to its left. The marks are where the curves meet the first cut, the right edge \
         of your strip. {fixing} Numbers are {unit}; speed rises to the right."
    )
}

fn number(halves: u32) -> String {
    (f64::from(halves) / 2.0).to_string()
}

/// Between which marks, and how far they lie apart on a strip.
fn between(tape: &Tape, strip: &Strip) -> Option<(String, String)> {
    let (near, far) = tape.between?;
    let at = |halves: u32| {
        let found = strip.marks.iter().find(|mark| mark.halves == halves);
        found.map(|mark| mark.travel)
    };
    let length = 1e3 * (at(far)? - at(near)?);
    let unit = symbol(tape.style);
    let words = format!("{} to {} {unit}", number(near), number(far));
    Some((words, format!("{length:.1} mm")))
}
