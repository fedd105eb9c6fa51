//! A fan: the marks as curves across arrow speed.

use crate::choose::{Drawn, Rank, marks, number};
use crate::error::PrintError;
use crate::letters::FIGURE;
use crate::look::{Look, mm};
use crate::sheet::{BLACK, SOFT, Sheet, Side, Spot, Type};
use crate::strip::{BLEED, Pen, SMALL, TALL};
use crate::tape::Strip;

/// From the scale of speeds to the first curve, mm. Chosen: room for a number.
const LEAD: f64 = 4.0;

/// Refuses strips that do not hold the same marks.
pub(crate) fn check(strips: &[Strip]) -> Result<(), PrintError> {
    let halves = |strip: &Strip| -> Vec<u32> { strip.marks.iter().map(|m| m.halves).collect() };
    let first = strips.first().map(halves).unwrap_or_default();
    match strips.iter().find(|strip| halves(strip) != first) {
        Some(strip) => Err(PrintError::FanUneven { strip: strip.name.clone() }),
        None => Ok(()),
    }
}

/// Height of a fan, mm.
pub(crate) fn height(strips: &[Strip]) -> f64 {
    strips.iter().map(longest).fold(0.0, f64::max) + 2.0 * LEAD
}

fn longest(strip: &Strip) -> f64 {
    strip.marks.last().map_or(0.0, |last| travel(strip, last.halves))
}

/// From the first mark of a speed to another, mm.
fn travel(strip: &Strip, halves: u32) -> f64 {
    let start = strip.marks.first().map_or(0.0, |mark| mark.travel);
    let found = strip.marks.iter().find(|mark| mark.halves == halves);
    found.map_or(0.0, |mark| 1e3 * (mark.travel - start))
}

/// Least of a curve shown before a number, mm. Chosen: longer than a minus.
const STUB: f64 = 2.5;

/// Draws a fan with its top left corner at a place, as wide as is said.
pub(crate) fn draw(sheet: &mut Sheet, strips: &[Strip], look: &Look, corner: Spot, wide: f64) {
    let (left, top) = corner;
    let high = height(strips);
    let pen = Pen::of(look.ink);
    let ground = pen.ground.unwrap_or(crate::sheet::WHITE);
    if pen.ground.is_some() {
        let size = (wide + 2.0 * BLEED, high + 2.0 * BLEED);
        sheet.block((left - BLEED, top - BLEED), size, ground);
    }
    let pitch = wide / (strips.len() - 1) as f64;
    scale(sheet, strips, (left, top), pitch);
    // Room is least where the marks lie closest.
    let closest = strips.iter().min_by(|a, b| longest(a).total_cmp(&longest(b)));
    let mut drawn = closest.map_or_else(Vec::new, |s| marks(&s.marks, look.finest, look.ink));
    let size = TALL / FIGURE;
    number(&mut drawn, TALL, SMALL * TALL);
    let place = |at: f64| if look.near_below { top + high - LEAD - at } else { top + LEAD + at };
    let curve = |mark: &Drawn| -> Vec<Spot> {
        let spot = |(k, strip): (usize, &Strip)| {
            (left + pitch * k as f64, place(travel(strip, mark.halves)))
        };
        strips.iter().enumerate().map(spot).collect()
    };
    for mark in &drawn {
        for pair in curve(mark).windows(2) {
            sheet.line(pair[0], pair[1], pen.lines[mark.rank as usize], pen.ink);
        }
    }
    // Every strip cut out of the fan carries each number once.
    let every = mm(look.width);
    for mark in drawn.iter().filter(|mark| mark.numbered) {
        let (bold, size, shift) =
            if mark.rank == Rank::Ten { (true, size, 0.3) } else { (false, SMALL * size, 0.75) };
        let look = Type { size, bold, ink: pen.ink };
        let text = (mark.halves / 2).to_string();
        let line = curve(mark);
        let mut x = shift * every;
        while x + 0.5 * look.length(&text) < wide {
            let y = between(&line, left + x);
            let tall = FIGURE * size;
            let room = look.length(&text) + 0.6;
            let (from, to) = (left + x - 0.5 * room, left + x + 0.5 * room);
            // A stub of the curve before a number would read as a minus.
            let from = if from - left < STUB { left } else { from };
            sheet.block((from, y - 0.5 * tall - 0.2), (to - from, tall + 0.4), ground);
            sheet.text(&text, (left + x, y + 0.5 * tall), Side::About, look);
            x += every;
        }
    }
}

/// The scale of speeds above the fan.
fn scale(sheet: &mut Sheet, strips: &[Strip], (left, top): Spot, pitch: f64) {
    for (k, strip) in strips.iter().enumerate() {
        let x = left + pitch * k as f64;
        let named = k % 3 == 0;
        let long = if named { 3.0 } else { 1.5 };
        sheet.line((x, top - BLEED - long), (x, top - BLEED), 0.15, BLACK);
        if named {
            let side = match k {
                0 => Side::From,
                k if k + 1 == strips.len() => Side::Upto,
                _ => Side::About,
            };
            sheet.text(&strip.name, (x, top - 9.0), side, Type::bold(3.0, BLACK));
            sheet.text(&strip.note, (x, top - 5.4), side, Type::plain(2.6, SOFT));
        }
    }
}

/// How far down a curve lies at a place across.
fn between(line: &[Spot], x: f64) -> f64 {
    let pair = line.windows(2).find(|pair| x <= pair[1].0).or_else(|| line.windows(2).last());
    pair.map_or(0.0, |pair| {
        let share = (x - pair[0].0) / (pair[1].0 - pair[0].0);
        pair[0].1 + share * (pair[1].1 - pair[0].1)
    })
}
