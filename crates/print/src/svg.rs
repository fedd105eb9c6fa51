//! The page as SVG.

use std::fmt::Write as _;

use draw::{escape, visible};

use crate::sheet::{Grey, Item, Sheet, Side};

impl Sheet {
    /// The page as SVG, its user unit the millimetre.
    pub fn svg(&self) -> String {
        visible(&write(self)).into_owned()
    }
}

fn write(sheet: &Sheet) -> String {
    let (wide, high) = sheet.paper.size();
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{wide}mm\" height=\"{high}mm\" \
         viewBox=\"0 0 {wide} {high}\" \
         font-family=\"Helvetica, Arial, 'Liberation Sans', sans-serif\">\n\
         <title>{}</title>\n<rect width=\"{wide}\" height=\"{high}\" fill=\"#ffffff\"/>\n",
        escape(&sheet.title)
    );
    for item in &sheet.items {
        // Writing to a String cannot fail.
        let _ = match item {
            Item::Line { from, to, width, ink } => writeln!(
                out,
                "<line x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\" stroke=\"{}\" stroke-width=\"{}\"/>",
                short(from.0),
                short(from.1),
                short(to.0),
                short(to.1),
                colour(*ink),
                short(*width)
            ),
            Item::Block { corner, size, ink } => writeln!(
                out,
                "<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" fill=\"{}\"/>",
                short(corner.0),
                short(corner.1),
                short(size.0),
                short(size.1),
                colour(*ink)
            ),
            Item::Text { at, side, look, text } => {
                let anchor = match side {
                    Side::From => "",
                    Side::About => " text-anchor=\"middle\"",
                    Side::Upto => " text-anchor=\"end\"",
                };
                // The face may be missing: whatever stands in takes this room.
                let long = short(look.length(text));
                let weight = if look.bold { " font-weight=\"bold\"" } else { "" };
                writeln!(
                    out,
                    "<text x=\"{}\" y=\"{}\" font-size=\"{}\"{anchor}{weight} \
                     textLength=\"{long}\" lengthAdjust=\"spacingAndGlyphs\" fill=\"{}\">{}</text>",
                    short(at.0),
                    short(at.1),
                    short(look.size),
                    colour(look.ink),
                    escape(text)
                )
            }
        };
    }
    out.push_str("</svg>\n");
    out
}

/// A length in mm to a tenth of a micrometre, without idle zeros.
fn short(value: f64) -> String {
    let text = format!("{value:.4}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

fn colour(ink: Grey) -> String {
    let share = (255.0 * ink.0.clamp(0.0, 1.0)).round();
    format!("rgb({share},{share},{share})")
}
