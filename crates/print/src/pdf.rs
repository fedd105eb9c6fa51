//! The page as PDF.

use pdf_writer::{Content, Name, Pdf, Rect, Ref, Str, TextStr};

use crate::letters::encoded;
use crate::sheet::{Grey, Item, Sheet, Side};

/// PDF units in a millimetre: 72 to the inch (defined: ISO 32000-1, 8.3.2.3).
const POINTS: f64 = 72.0 / 25.4;

const CATALOG: Ref = Ref::new(1);
const TREE: Ref = Ref::new(2);
const PAGE: Ref = Ref::new(3);
const CONTENT: Ref = Ref::new(4);
const INFO: Ref = Ref::new(5);
const PLAIN: (Ref, Name<'_>, Name<'_>) = (Ref::new(6), Name(b"P"), Name(b"Helvetica"));
const BOLD: (Ref, Name<'_>, Name<'_>) = (Ref::new(7), Name(b"B"), Name(b"Helvetica-Bold"));

impl Sheet {
    /// The page as PDF, one page of exactly the paper's size, with printers
    /// asked not to scale it.
    pub fn pdf(&self) -> Vec<u8> {
        write(&[self])
    }

    /// Several pages as one PDF, of the same sort.
    pub fn pages(sheets: &[Self]) -> Vec<u8> {
        write(&sheets.iter().collect::<Vec<_>>())
    }
}

fn write(sheets: &[&Sheet]) -> Vec<u8> {
    let mut pdf = Pdf::new();
    let mut catalog = pdf.catalog(CATALOG);
    catalog.pages(TREE);
    catalog
        .viewer_preferences()
        .display_doc_title(true)
        .pair(Name(b"PrintScaling"), Name(b"None"))
        .pair(Name(b"PickTrayByPDFSize"), true);
    drop(catalog);
    let ids: Vec<(Ref, Ref)> = (0..).map(page_ids).take(sheets.len()).collect();
    let count = i32::try_from(sheets.len()).unwrap_or(i32::MAX);
    pdf.pages(TREE).kids(ids.iter().map(|(page, _)| *page)).count(count);
    for (sheet, (page, content)) in sheets.iter().zip(&ids) {
        let (wide, high) = sheet.paper.size();
        let mut page = pdf.page(*page);
        page.parent(TREE).contents(*content);
        page.media_box(Rect::new(0.0, 0.0, narrow(POINTS * wide), narrow(POINTS * high)));
        let mut resources = page.resources();
        let mut fonts = resources.fonts();
        for (id, name, _) in [PLAIN, BOLD] {
            fonts.pair(name, id);
        }
    }
    for (id, _, face) in [PLAIN, BOLD] {
        let mut font = pdf.type1_font(id);
        font.base_font(face).encoding_predefined(Name(b"WinAnsiEncoding"));
    }
    for (sheet, (_, id)) in sheets.iter().zip(&ids) {
        pdf.stream(*id, &content(sheet, sheet.paper.size().1));
    }
    let title = sheets.first().map_or("", |sheet| sheet.title.as_str());
    pdf.document_info(INFO).title(TextStr(title)).producer(TextStr("Clothyard"));
    pdf.finish()
}

/// Where a page and its drawing stand in the file, by its place.
fn page_ids(at: i32) -> (Ref, Ref) {
    if at == 0 { (PAGE, CONTENT) } else { (Ref::new(6 + 2 * at), Ref::new(7 + 2 * at)) }
}

/// The drawing. Its first operator makes the millimetre the unit; y runs
/// upward.
fn content(sheet: &Sheet, high: f64) -> Vec<u8> {
    let mut out = Content::new();
    let scale = narrow(POINTS);
    out.transform([scale, 0.0, 0.0, scale, 0.0, 0.0]);
    for item in &sheet.items {
        match item {
            Item::Line { from, to, width, ink } => {
                out.set_line_width(narrow(*width)).set_stroke_gray(grey(*ink));
                out.move_to(narrow(from.0), narrow(high - from.1));
                out.line_to(narrow(to.0), narrow(high - to.1)).stroke();
            }
            Item::Block { corner, size, ink } => {
                out.set_fill_gray(grey(*ink));
                let foot = high - corner.1 - size.1;
                out.rect(narrow(corner.0), narrow(foot), narrow(size.0), narrow(size.1));
                out.fill_nonzero();
            }
            Item::Text { at, side, look, text } => {
                let back = match side {
                    Side::From => 0.0,
                    Side::About => 0.5,
                    Side::Upto => 1.0,
                };
                let x = at.0 - back * look.length(text);
                let face = if look.bold { BOLD.1 } else { PLAIN.1 };
                out.set_fill_gray(grey(look.ink)).begin_text();
                out.set_font(face, narrow(look.size));
                out.next_line(narrow(x), narrow(high - at.1));
                out.show(Str(&encoded(text))).end_text();
            }
        }
    }
    out.finish().into_vec()
}

fn grey(ink: Grey) -> f32 {
    narrow(ink.0)
}

/// A number as the library takes it; at the size of a page that is a
/// hundred-thousandth of a millimetre.
#[expect(clippy::cast_possible_truncation, reason = "the library takes single precision")]
fn narrow(value: f64) -> f32 {
    value as f32
}
