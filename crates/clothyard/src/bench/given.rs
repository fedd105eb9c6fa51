//! Words of the command line as quantities.

use scenario::measured::{ShaftReadings, Stations};
use study::workbench::Grade;
use units::{Length, Quantity, Ratio, parse};
use workbench::{Axis, SawJob};

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

/// What is known of shafts without a notebook.
pub(super) fn grade(order: &CutOrder) -> Result<Grade, Slip> {
    let (Some(grade), Some(measure)) = (&order.grade, order.measure) else {
        return Err(Slip::NothingRead);
    };
    let figure = quantity("grade", grade)?;
    let straightness = match measure {
        StraightnessWord::Total => arrow::Straightness::Total(figure),
        StraightnessWord::PlusMinus => arrow::Straightness::PlusMinus(figure),
    };
    let stock = maybe("stock", order.stock.as_ref())?.ok_or(Slip::NothingRead)?;
    Ok(Grade { stock, total: Length::from_si(2.0 * straightness.bow().si()) })
}

/// The axes of the shafts of a notebook.
pub(super) fn axes(
    order: &CutOrder,
    shafts: &[ShaftReadings],
) -> Result<Vec<(String, Axis)>, Failure> {
    let text = order.supports.as_deref().unwrap_or_default();
    let places: Vec<&str> = text.split(',').collect();
    let [rear, front] = places.as_slice() else {
        return Err(Slip::Supports { text: text.to_owned() }.into());
    };
    let supports = [quantity("supports", rear)?, quantity("supports", front)?];
    let step = quantity("step", &order.step)?;
    let stock = maybe("stock", order.stock.as_ref())?;
    let one = |shaft: &ShaftReadings| -> Result<(String, Axis), Failure> {
        let no_stock = || Slip::NoStock { name: shaft.name.clone() };
        let stock = shaft.stock.or(stock).ok_or_else(no_stock)?;
        let axis = match &shaft.stations {
            Stations::Dial(readings) => Axis::from_dial(stock, supports, readings, step),
            Stations::RunOut(readings) => Axis::from_run_out(stock, supports, readings, step),
        };
        let named = |source: workbench::WorkbenchError| study::StudyError::Bench {
            arrow: shaft.name.clone(),
            source: Box::new(source.into()),
        };
        Ok((shaft.name.clone(), axis.map_err(named)?))
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
