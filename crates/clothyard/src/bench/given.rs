//! Words of the command line as quantities.

use scenario::measured::{ShaftReadings, ShaftThree, Stations};
use study::workbench::{LeftOut, Read, ShaftToCut};
use units::{Length, Quantity, Ratio, parse};
use workbench::{Axis, Measured, Population, SawJob, WorkbenchError};

use super::carried::RawLengths;
use super::cli::{CutOrder, Only, Sort, StraightnessWord};
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
    Ok(ShaftToCut {
        name: "of this grade".to_owned(),
        stock,
        line: None,
        read: Read::Places(Vec::new()),
    })
}

/// Shafts that can be planned, and those whose readings say nothing.
pub(super) type Shafts = (Vec<ShaftToCut>, Vec<LeftOut>);

/// A shaft of a notebook: its line, its name, and its own length if that was noted.
type Noted<'a> = (usize, &'a str, Option<Length>);

/// Each shaft by what its readings say, or why they say nothing.
fn sorted<'a, T: 'a>(
    order: &CutOrder,
    (shafts, lengths): (&'a [T], &RawLengths),
    noted: impl Fn(&'a T) -> Noted<'a>,
    read: impl Fn(&'a T, Length) -> Result<Read, WorkbenchError>,
) -> Result<Shafts, Failure> {
    let stock = maybe("stock", order.stock.as_ref())?;
    // What another notebook of the job says goes before what is said for all.
    let own = |shaft: &'a T| {
        let (_, name, own) = noted(shaft);
        own.or_else(|| lengths.get(name).copied())
    };
    if let (Some(first), None) = (shafts.first(), stock)
        && shafts.iter().all(|shaft| own(shaft).is_none())
    {
        return Err(Slip::NoStock { name: noted(first).1.to_owned() }.into());
    }
    let (mut cut, mut left_out) = (Vec::new(), Vec::new());
    for shaft in shafts {
        let (line, name, _) = noted(shaft);
        let (line, name) = (Some(line), name.to_owned());
        let known = own(shaft).or(stock).ok_or(WorkbenchError::NoLength);
        match known.and_then(|stock| Ok((stock, read(shaft, stock)?))) {
            Ok((stock, read)) => cut.push(ShaftToCut { name, line, stock, read }),
            Err(why) => left_out.push(LeftOut { name, line, why }),
        }
    }
    Ok((cut, left_out))
}

/// The shafts of a notebook of three readings.
pub(super) fn threes(
    order: &CutOrder,
    shafts: (&[ShaftThree], &RawLengths),
) -> Result<Shafts, Failure> {
    let (set_in, step) = (quantity("set-in", &order.set_in)?, quantity("step", &order.step)?);
    sorted(
        order,
        shafts,
        |s| (s.line, s.name.as_str(), s.stock),
        |shaft, stock| Ok(Read::Places(shaft.readings.sightings(stock, set_in, step)?)),
    )
}

/// The shafts of a notebook of readings along their length.
pub(super) fn profiles(
    order: &CutOrder,
    shafts: (&[ShaftReadings], &RawLengths),
) -> Result<Shafts, Failure> {
    let text = order.supports.as_deref().ok_or(Slip::NoSupports)?;
    let places: Vec<&str> = text.split(',').collect();
    let [rear, front] = places.as_slice() else {
        return Err(Slip::Supports { text: text.to_owned() }.into());
    };
    let supports = [quantity("supports", rear)?, quantity("supports", front)?];
    let step = quantity("step", &order.step)?;
    sorted(
        order,
        shafts,
        |s| (s.line, s.name.as_str(), s.stock),
        |shaft, stock| {
            Ok(Read::Profile(match &shaft.stations {
                Stations::Dial(readings) => Axis::from_dial(stock, supports, readings, step)?,
                Stations::RunOut(readings) => Axis::from_run_out(stock, supports, readings, step)?,
            }))
        },
    )
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

/// The arrows to sort: all of them bare shafts, or all finished.
pub(super) fn only(order: &Sort, arrows: Vec<Measured>) -> Result<Vec<Measured>, Slip> {
    let (finished, bare): (Vec<_>, Vec<_>) =
        arrows.into_iter().partition(|arrow| arrow.stage.finished());
    let file = || order.batch.clone();
    let taken = match order.only {
        Some(Only::Bare) => bare,
        Some(Only::Finished) => finished,
        None if bare.is_empty() => finished,
        None if finished.is_empty() => bare,
        None => {
            let names = |of: &[Measured]| {
                of.iter().map(|arrow| arrow.name.as_str()).collect::<Vec<_>>().join(", ")
            };
            return Err(Slip::Mixed {
                file: file(),
                bare: names(&bare),
                finished: names(&finished),
            });
        }
    };
    if taken.is_empty() { Err(Slip::NoneOnly { file: file() }) } else { Ok(taken) }
}
