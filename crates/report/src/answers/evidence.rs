//! What was measured, in words: what became of each reading, and how much it narrows
//! the answer.

use study::{Band, Evident, Joint, ReadingFound, Said};
use units::{Role, Style};

use crate::document::{Cell, Kind, Part, Table, fold, head, note, say, table_of};
use crate::show::{alike, count, share};

/// Reads a number of an answer.
type Read<T> = Box<dyn Fn(&T) -> Option<f64>>;

/// A number of an answer whose narrowing is told.
pub(super) struct Number<T> {
    /// What it is, at the beginning of a sentence.
    what: String,
    role: Role,
    /// As flown in full, SI.
    value: f64,
    read: Read<T>,
}

impl<T> Number<T> {
    /// A number called so; `read` reads it from the same answer at an outer point.
    pub(super) fn new(
        what: impl Into<String>,
        (role, value): (Role, f64),
        read: impl Fn(&T) -> Option<f64> + 'static,
    ) -> Self {
        Self { what: what.into(), role, value, read: Box::new(read) }
    }
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

/// What was measured, and what that leaves of the numbers that an answer turns on;
/// empty where nothing was.
pub(super) fn section<T>(
    joint: Option<&Joint<T>>,
    numbers: Vec<Number<T>>,
    style: Style,
) -> Vec<Part> {
    let Some((joint, told)) = joint.and_then(|joint| Some((joint, joint.told.as_ref()?))) else {
        return Vec::new();
    };
    let mut parts = vec![head("What was measured"), say(used(joint, told.found.len(), told.tried))];
    parts.extend(told.found.iter().filter_map(said).map(note));
    let narrowed = |number: Number<T>| {
        let Number { what, role, value, read } = number;
        let before = joint.band_before(value, &read)?;
        Some(Narrowed { what, role, before, now: joint.band(value, &read)? })
    };
    let narrowed: Vec<Narrowed> = numbers.into_iter().filter_map(narrowed).collect();
    parts.extend(narrowed.iter().filter_map(|of| of.sentence(style)).map(say));
    parts.push(fold("Each reading", vec![Part::Table(readings(&told.found))]));
    parts.push(Part::Data(table(&narrowed)));
    parts.push(Part::Data(weights(joint, told.tried)));
    parts
}

/// That something was measured, in a line, and what of it cannot be; none where nothing
/// was.
pub(super) fn short<T>(joint: Option<&Joint<T>>) -> Option<String> {
    let found = &joint?.told.as_ref()?.found;
    let beyond = |of: &&Evident| matches!(of.said, Said::Beyond);
    let left_out: Vec<String> =
        found.iter().filter(beyond).map(|of| format!("\"{}\"", of.name)).collect();
    let out = match &left_out[..] {
        [] => String::new(),
        [one] => format!(" Left out, for it contradicts everything possible: {one}."),
        all => format!(" Left out, for they contradict everything possible: {}.", all.join(", ")),
    };
    let used = match found.len() - left_out.len() {
        1 => "1 thing; --full says what it narrows".to_owned(),
        things => format!("{things} things; --full says what they narrow"),
    };
    Some(format!("Measured and used: {used}.{out}"))
}

/// How it was used.
fn used<T>(joint: &Joint<T>, things: usize, tried: usize) -> String {
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
fn weights<T>(joint: &Joint<T>, tried: usize) -> Table {
    let counted = joint.points.iter().filter(|point| point.weight > 0.0).count();
    table_of("weights", [()])
        .counts("sets tried", "", |()| tried as u64)
        .counts("sets that count", "", |()| counted as u64)
        .quantity("effective number", Role::Number, |()| joint.effective())
        .done()
}
