//! What is stated for builds side by side.

use study::Stated;
use target::PowerTest;
use units::{Length, Ratio, Speed};

use crate::entry::{Origin, Value};
use crate::schema::Id;
use crate::settle::Entries;

/// What is stated for builds side by side.
pub(crate) fn stated(top: &Entries) -> Stated {
    let fixed = |id: Id| match top.get(&id).map(|entry| &entry.value) {
        Some(Value::Fixed(value)) => Some(*value),
        _ => None,
    };
    let power_test = fixed(Id::Confidence).zip(fixed(Id::Power));
    let round = match top.get(&Id::Round).map(|entry| &entry.value) {
        Some(Value::Whole(arrows)) => u32::try_from(*arrows).ok(),
        _ => None,
    };
    Stated {
        // Both were checked against their ranges as they were read.
        power_test: power_test.and_then(|(c, p)| PowerTest::new(c, p).ok()).unwrap_or_default(),
        range_error: fixed(Id::RangeError).map(Length::from_si),
        wind_error: fixed(Id::WindError).map(Speed::from_si),
        hit_share: fixed(Id::HitShare).map(Ratio::from_si),
        round,
        headline: fixed(Id::Headline).map(Length::from_si),
        zone: [Id::Zone, Id::ZoneHeight].iter().any(|id| {
            let entry = top.get(id);
            entry.is_some_and(|entry| !matches!(entry.origin, Origin::Default(_)))
        }),
    }
}
