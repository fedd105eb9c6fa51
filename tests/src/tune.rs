//! Tuning questions about the invented build, for tests of study and report.

use launch::Bow;
use study::{Build, Plan, Question, Sweep, Tune};
use units::{Angle, Dimension, Length, Mass, Ratio, Unit};

use crate::recipe::{Simple, Value, compare};

const YARD: f64 = 0.9144;

/// The invented arrow from this bow, with poorly known restraint, rest and
/// nock drag.
pub fn simple(bow: Bow) -> Simple {
    let mut simple = Simple::new()
        .doubted(Value::Restraint, 0.5, 2.0)
        .doubted(Value::RestStiffness, 500.0, 4000.0)
        .doubted(Value::NockDrag, 0.3, 0.6);
    simple.base.bow = bow;
    simple
}

/// The four usual changes about a build's own values: nine values each, from
/// 15 % less to 15 % more.
///
/// # Panics
/// Never: the units are those of the dimensions.
pub fn trends(simple: &Simple) -> Vec<Sweep> {
    let base = &simple.base;
    let of = |key: &str, value: Value, dimension: Dimension, symbol: &str, own: f64| {
        #[expect(clippy::expect_used, reason = "a fixed unit of the dimension")]
        let unit: &Unit = dimension.unit(symbol).expect("a unit");
        let values: Vec<f64> =
            (-4..=4).map(|step| own * (1.0 + 0.0375 * f64::from(step))).collect();
        Sweep {
            key: key.to_owned(),
            dimension,
            slot: value.slot(),
            labels: values.iter().map(|si| format!("{:.4} {symbol}", unit.of_si(*si))).collect(),
            values,
        }
    };
    let shaft = &base.parts.shaft;
    vec![
        of("arrow.shaft.spine", Value::Spine, Dimension::Length, "in", shaft.spine.si()),
        of("arrow.point.mass", Value::PointMass, Dimension::Mass, "gr", base.parts.point.mass.si()),
        of("arrow.shaft.length", Value::Length, Dimension::Length, "in", shaft.length.si()),
        of(
            "bow.draw_weight",
            Value::DrawWeight,
            Dimension::Force,
            "lbf",
            base.bow.draw_weight.si(),
        ),
    ]
}

/// A tuning question at 10, 20 and 30 yd with paper at 2, 4 and 8 yd.
pub fn plan(builds: Vec<Build>, trends: Vec<Sweep>) -> Plan {
    let yards = |list: &[f64]| list.iter().map(|y| Length::from_si(y * YARD)).collect();
    Plan {
        title: "An invented arrow, tuned".to_owned(),
        question: Question::Tune(Tune { trends, paper: yards(&[2.0, 4.0, 8.0]) }),
        distances: yards(&[10.0, 20.0, 30.0]),
        ..compare(builds, 100)
    }
}

/// The same arrow with a fixed-blade head of the same mass.
pub fn bladed(simple: &Simple) -> Simple {
    let mut other = simple.clone();
    let mm = |value: f64| Length::from_si(value * 1e-3);
    let point = &mut other.base.parts.point;
    point.shape = arrow::PointShape::FixedBlade;
    point.length = mm(38.0);
    point.mass = Mass::from_si(point.mass.si());
    point.blades = Some(arrow::Blades {
        count: 3,
        span: mm(10.0),
        root: mm(26.0),
        tip: Length::ZERO,
        sweep: mm(26.0),
        thickness: mm(0.8),
        setback: mm(8.0),
        clock: Angle::ZERO,
    });
    other
}

/// A shaft whose stiff side is this share above the mean, a clean release and
/// no fault: the simplest arrow that the nock's place matters to.
pub fn stiff_sided(simple: &Simple, share: f64) -> Simple {
    let mut other = simple.clone();
    other.base.parts.shaft.stiff_side = Ratio::from_si(share);
    other
}
