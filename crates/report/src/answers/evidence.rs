//! What was measured, in words: what became of each reading, and how much it narrows
//! the answer.

use study::{Band, Evident, Found, Joint, ReadingFound, Said};
use units::{Role, Style};

use crate::document::{Cell, Kind, Part, Table, fold, head, note, say, table_of};
use crate::show::{alike, count, middle, plain, share};

/// Reads a number of an answer.
type Read = Box<dyn Fn(&Found) -> Option<f64>>;

/// A number of an answer whose narrowing is told.
struct Number {
    /// What it is, at the beginning of a sentence.
    what: String,
    role: Role,
    /// As flown in full, SI.
    value: f64,
    read: Read,
}

/// Its bands before anything was measured and now.
struct Narrowed {
    what: String,
    role: Role,
    before: Band,
    now: Band,
}

impl Narrowed {
    /// The share of its width that is left.
    fn left(&self) -> Option<f64> {
        let width = |band: &Band| band.high - band.low;
        (width(&self.before) > 0.0).then(|| width(&self.now) / width(&self.before))
    }

    fn sentence(&self, style: Style) -> Option<String> {
        let Band { low, high } = self.before;
        let [low, high, now_low, now_high] =
            alike(self.role, [low, high, self.now.low, self.now.high], style);
        let left = self.left()?;
        let unit = self.role.symbol(style);
        let narrows = if left < 1.0 {
            format!("{} of the width is left", share(left))
        } else {
            "no narrower".to_owned()
        };
        Some(format!(
            "{}: {low} to {high} {unit} before anything was measured, {now_low} to {now_high} \
             {unit} now; {narrows}.",
            self.what
        ))
    }
}

/// What was measured, and what that leaves; empty where nothing was.
pub(super) fn section(found: &Found, joint: Option<&Joint<Found>>, style: Style) -> Vec<Part> {
    let Some((joint, told)) = joint.and_then(|joint| Some((joint, joint.told.as_ref()?))) else {
        return Vec::new();
    };
    let mut parts = vec![head("What was measured"), say(used(joint, told.found.len(), told.tried))];
    parts.extend(told.found.iter().filter_map(said).map(note));
    let narrowed: Vec<Narrowed> = numbers(found, style)
        .into_iter()
        .filter_map(|number| {
            let Number { what, role, value, read } = number;
            let before = joint.band_before(value, &read)?;
            Some(Narrowed { what, role, before, now: joint.band(value, &read)? })
        })
        .collect();
    parts.extend(narrowed.iter().filter_map(|of| of.sentence(style)).map(say));
    parts.push(fold("Each reading", vec![Part::Table(readings(&told.found))]));
    parts.push(Part::Data(table(&narrowed)));
    parts.push(Part::Data(weights(joint, told.tried)));
    parts
}

/// How it was used.
fn used(joint: &Joint<Found>, things: usize, tried: usize) -> String {
    let things = match things {
        1 => "One thing was measured".to_owned(),
        things => format!("{things} things were measured"),
    };
    format!(
        "{things}, and every number here uses it: of all values that were possible, those count \
         more with which the readings are likelier, and the answer itself is computed with the \
         values that go best. The readings were computed at {} sets of values; what counts now is \
         worth {:.0} sets of equal weight.",
        count(tried as u64),
        joint.effective()
    )
}

/// What must not be overlooked of a thing.
fn said(of: &Evident) -> Option<String> {
    let name = &of.name;
    Some(match of.said {
        Said::Counts => return None,
        Said::Nothing => format!(
            "\"{name}\" says nothing here: whatever the poorly known values are, it would read \
             much the same."
        ),
        Said::Beyond => format!(
            "\"{name}\" contradicts every possible value of what is poorly known, so it was left \
             out. Look again at the reading, its unit, sign and error, and at what the scenario \
             takes for certain."
        ),
        Said::Apart => format!(
            "No possible values explain \"{name}\" together with the rest of what was measured; it \
             counts all the same. One of the readings, or something that the scenario takes for \
             certain, is likely wrong."
        ),
    })
}

/// The numbers that an answer turns on.
fn numbers(found: &Found, style: Style) -> Vec<Number> {
    let compared = |builds: &[study::BuildAnswer]| -> Vec<Number> {
        let one = |(at, build): (usize, &study::BuildAnswer)| {
            let mark = middle(build);
            let of = build.marks.get(mark)?;
            let range = plain(Role::Range, of.distance.si(), style);
            let name =
                if builds.len() > 1 { format!(" of \"{}\"", build.name) } else { String::new() };
            Some(Number {
                what: format!("The group{name} from a machine at {range} (R50)"),
                role: Role::Impact,
                value: of.machine.stats.r50.value,
                read: Box::new(move |found: &Found| {
                    let build = found.compared()?.builds.get(at)?;
                    Some(build.marks.get(mark)?.machine.stats.r50.value)
                }),
            })
        };
        builds.iter().enumerate().filter_map(one).collect()
    };
    match found {
        Found::Compare(found) => compared(&found.builds),
        Found::Ends(found) => compared(&found.compared.builds),
        Found::Tune(found) => {
            let one = |(at, build): (usize, &study::TunedBuild)| {
                let mark = build.neutral.as_ref()?.mark;
                let bare = build.bare.get(mark)?;
                let range = plain(Role::Range, bare.distance.si(), style);
                Some(Number {
                    what: format!(
                        "\"{}\", how far bare and fletched land apart at {range}",
                        build.name
                    ),
                    role: Role::Impact,
                    value: bare.apart.as_ref()?.size.value,
                    read: Box::new(move |found: &Found| match found {
                        Found::Tune(found) => {
                            Some(found.builds.get(at)?.bare.get(mark)?.apart.as_ref()?.size.value)
                        }
                        _ => None,
                    }),
                })
            };
            found.builds.iter().enumerate().filter_map(one).collect()
        }
        Found::Sweep(_) | Found::Matters(_) | Found::Worth(_) => Vec::new(),
    }
}

/// Every reading: as measured, as it could have been expected, and as the values left
/// have it.
fn readings(found: &[Evident]) -> Table {
    let all = found.iter().flat_map(|of| of.readings.iter().map(move |reading| (of, reading)));
    let band = |reading: &ReadingFound, band: Option<Band>| {
        band.map_or(Cell::None("none"), |Band { low, high }| Cell::Band(reading.role, low, high))
    };
    table_of("evidence", all)
        .words("measured", |(of, _)| &of.name)
        .words("reading", |(_, reading)| reading.what)
        .cells("value", Kind::Own, |(_, of)| Cell::Quantity(of.role, of.value))
        .cells("standard error", Kind::Own, |(_, of)| Cell::Quantity(of.role, of.error))
        .cells("expected before", Kind::Own, |(_, of)| band(of, of.before))
        .cells("with what is left", Kind::Own, |(_, of)| band(of, of.after))
        .words("counts", |(of, _)| match of.said {
            Said::Counts => "yes",
            Said::Nothing => "says nothing",
            Said::Beyond => "no: beyond every value",
            Said::Apart => "yes, but does not go with the rest",
        })
        .done()
}

fn table(narrowed: &[Narrowed]) -> Table {
    table_of("narrowed", narrowed)
        .words("number", |of| &of.what)
        .cells("before", Kind::Own, |of| Cell::Band(of.role, of.before.low, of.before.high))
        .cells("now", Kind::Own, |of| Cell::Band(of.role, of.now.low, of.now.high))
        .quantity("left", Role::Percent, |of| of.left())
        .done()
}

/// How much the weights are worth.
fn weights(joint: &Joint<Found>, tried: usize) -> Table {
    let counted = joint.points.iter().filter(|point| point.weight > 0.0).count();
    table_of("weights", [()])
        .counts("sets tried", "", |()| tried as u64)
        .counts("sets that count", "", |()| counted as u64)
        .quantity("effective number", Role::Number, |()| joint.effective())
        .done()
}
