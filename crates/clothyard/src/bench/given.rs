//! Words of the command line as quantities.

use scenario::measured::{ShaftReadings, ShaftThree, Stations};
use study::workbench::{Read, ShaftToCut};
use units::{Length, Quantity, Ratio, parse};
use workbench::{Axis, Population, SawJob};

use super::cli::{CutOrder, Sort, StraightnessWord};
use super::slip::Slip;
use crate::failure::Failure;

pub(super) fn quantity<Q: Quantity>(option: &'static str, text: &str) -> Result<Q, Slip> {
    parse(text).map_err(|cause| Slip::Quantity { option, text: text.to_owned(), cause })
}

pub(super) fn share(text: &str) -> Result<f64, Slip> {
    Ok(quantity::<Ratio>("share", text)?.si())
}

fn maybe(option: &'static str, text: Option<&String>) -> Result<Option<Length>, Slip> {
    text.map(|text| quantity(option, text)).transpose()
}

/// The job of the saw, for this arrow.
pub(super) fn job(order: &CutOrder, parts: &arrow::Parts) -> Result<SawJob, Slip> {
    let front = match (&parts.insert, &parts.outsert) {
        (Some(insert), _) => insert.engaged,
        (None, Some(outsert)) => outsert.engaged,
        (None, None) => parts.point.shank,
    };
    Ok(SawJob {
        wanted: maybe("wanted", order.wanted.as_ref())?.unwrap_or(parts.shaft.length),
        kerf: quantity("kerf", &order.kerf)?,
        tolerance: quantity("tolerance", &order.tolerance)?,
        nock: parts.nock.engaged,
        front,
        most_rear: maybe("most-rear", order.most_rear.as_ref())?,
        most_front: maybe("most-front", order.most_front.as_ref())?,
    })
}

/// What the shafts are sold as; the body as the grade where one is given.
pub(super) fn population(order: &CutOrder) -> Result<Population, Slip> {
    let body = match &order.grade {
        Some(grade) => graded("grade", grade, order.measure)?,
        None => quantity("body", &order.body)?,
    };
    Ok(Population {
        body,
        nock_hook: quantity("nock-hook", &order.nock_hook)?,
        point_hook: quantity("point-hook", &order.point_hook)?,
    })
}

/// A grade as a total reading.
fn graded(
    option: &'static str,
    grade: &str,
    measure: Option<StraightnessWord>,
) -> Result<Length, Slip> {
    let figure = quantity(option, grade)?;
    let straightness = match measure.ok_or(Slip::NothingRead)? {
        StraightnessWord::Total => arrow::Straightness::Total(figure),
        StraightnessWord::PlusMinus => arrow::Straightness::PlusMinus(figure),
    };
    Ok(Length::from_si(2.0 * straightness.bow().si()))
}

/// A shaft that is known by its grade alone.
pub(super) fn sold(order: &CutOrder) -> Result<ShaftToCut, Slip> {
    let stock = maybe("stock", order.stock.as_ref())?.ok_or(Slip::NothingRead)?;
    Ok(ShaftToCut { name: "of this grade".to_owned(), stock, read: Read::Places(Vec::new()) })
}

fn stock_of(order: &CutOrder, name: &str, own: Option<Length>) -> Result<Length, Slip> {
    let stock = own.or(maybe("stock", order.stock.as_ref())?);
    stock.ok_or_else(|| Slip::NoStock { name: name.to_owned() })
}

fn named(name: &str, source: workbench::WorkbenchError) -> Failure {
    let source = Box::new(source.into());
    study::StudyError::Bench { arrow: name.to_owned(), source }.into()
}

/// The shafts of a notebook of three readings.
pub(super) fn threes(order: &CutOrder, shafts: &[ShaftThree]) -> Result<Vec<ShaftToCut>, Failure> {
    let (set_in, step) = (quantity("set-in", &order.set_in)?, quantity("step", &order.step)?);
    let one = |shaft: &ShaftThree| {
        let stock = stock_of(order, &shaft.name, shaft.stock)?;
        let seen = shaft.readings.sightings(stock, set_in, step);
        let read = Read::Places(seen.map_err(|source| named(&shaft.name, source))?);
        Ok(ShaftToCut { name: shaft.name.clone(), stock, read })
    };
    shafts.iter().map(one).collect()
}

/// The shafts of a notebook of readings along their length.
pub(super) fn profiles(
    order: &CutOrder,
    shafts: &[ShaftReadings],
) -> Result<Vec<ShaftToCut>, Failure> {
    let text = order.supports.as_deref().ok_or(Slip::NoSupports)?;
    let places: Vec<&str> = text.split(',').collect();
    let [rear, front] = places.as_slice() else {
        return Err(Slip::Supports { text: text.to_owned() }.into());
    };
    let supports = [quantity("supports", rear)?, quantity("supports", front)?];
    let step = quantity("step", &order.step)?;
    let one = |shaft: &ShaftReadings| -> Result<ShaftToCut, Failure> {
        let stock = stock_of(order, &shaft.name, shaft.stock)?;
        let axis = match &shaft.stations {
            Stations::Dial(readings) => Axis::from_dial(stock, supports, readings, step),
            Stations::RunOut(readings) => Axis::from_run_out(stock, supports, readings, step),
        };
        let read = Read::Profile(axis.map_err(|source| named(&shaft.name, source))?);
        Ok(ShaftToCut { name: shaft.name.clone(), stock, read })
    };
    shafts.iter().map(one).collect()
}

/// Names and sizes of sets.
pub(super) fn sets(order: &Sort) -> Result<Vec<(String, usize)>, Slip> {
    let mut sets: Vec<(String, usize)> = Vec::new();
    for text in &order.sets {
        let bad = || Slip::Set { text: text.clone() };
        let (name, count) = text.split_once('=').ok_or_else(bad)?;
        let (name, count) = (name.trim(), count.trim().parse().map_err(|_| bad())?);
        if name.is_empty() {
            return Err(bad());
        }
        if sets.iter().any(|(known, _)| known == name) {
            return Err(Slip::SetTwice { name: name.to_owned() });
        }
        sets.push((name.to_owned(), count));
    }
    Ok(sets)
}
