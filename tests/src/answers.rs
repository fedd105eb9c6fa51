//! Invented answers for tests of the report. The numbers are plausible, not
//! computed: no test may take one of them for physics.

use launch::Departure;
use study::{
    Answer, Banded, BuildAnswer, BuildSide, Cause, Caution, Compared, Danger, Ends, EndsAlone,
    EndsOrder, EndsView, Finding, Found, Lever, MarkAnswer, Nominal, OneSight, Owner, Pair,
    PairMark, Sampled, Seen, Shots, SideBySide, SideMark, Slot, SquareEnds, Stated, SweepAnswer,
    SweepPoint, Swept, TargetChoice, TradeClaim, UncertainParameter,
};
use target::{Estimate, Group, Impact, PowerTest};
use units::{Dimension, Length, Ratio, Speed};

use crate::recipe::{Simple, compare};

const YARD: f64 = 0.9144;
const INCH: f64 = 0.0254;
/// R50 over sigma of a round normal group.
const R50: f64 = 1.177_410_023;
/// R90 over sigma of a round normal group.
const R90: f64 = 2.145_966_026;

/// A value with an interval of this relative half-width.
pub fn estimate(value: f64, half: f64) -> Estimate {
    let reach = half * value.abs();
    Estimate { value, low: value - reach, high: value + reach }
}

/// Evenly scattered round normal impacts, the same on every run.
fn sample(sigma: f64, salt: f64) -> Vec<Impact> {
    (0..300)
        .map(|at| {
            // A golden-angle spiral whose turn is shaken by the salt.
            let share = (f64::from(at * 97 % 300) + 0.5) / 300.0;
            let radius = sigma * (-2.0 * (1.0 - share).ln()).sqrt();
            let turn =
                f64::from(at * 97 % 300) * 2.399_963 + salt * (f64::from(at) * 12.9898).sin();
            Impact { left: radius * turn.cos(), up: radius * turn.sin() }
        })
        .collect()
}

fn sampled(sigma: f64, half: f64, salt: f64) -> Sampled {
    let of = |factor: f64| estimate(factor * sigma, half);
    Sampled {
        stats: Group {
            count: 10_000,
            centre: Impact { left: 0.02 * sigma, up: -0.03 * sigma },
            sigma_left: of(0.99),
            sigma_up: of(1.01),
            sigma: of(1.0),
            mean_radius: of(1.253_314),
            r50: of(R50),
            r90: of(R90),
            spread6: Some(of(3.27)),
        },
        sample: sample(sigma, salt),
    }
}

/// A build whose machine group has this R50 at 40 yd (m), in the hands of an
/// archer with an R50 of 3.8 in there.
pub fn build(name: &str, machine_r50: f64, speed: f64) -> BuildAnswer {
    let mut departure = Departure { speed, ..Departure::default() };
    departure.spin = 20.0;
    BuildAnswer {
        name: name.to_owned(),
        built: crate::built(arrow::Effects::default()),
        departure,
        mass_per_force: 28e-3 / 311.4,
        launch_pitch: 0.012,
        flights: 10_000,
        steps: 60,
        marks: (2..=6).map(|tens| mark(f64::from(tens) * 10.0, machine_r50, speed)).collect(),
        causes: causes(machine_r50),
        uncertain: uncertain(),
    }
}

fn mark(yards: f64, machine_r50: f64, speed: f64) -> MarkAnswer {
    let distance = yards * YARD;
    let machine = machine_r50 / R50 * (yards / 40.0).powf(1.1);
    let form = 3.8 * INCH / R50 * yards / 40.0;
    let time = distance / speed * (1.0 + 0.0016 * distance / 2.0);
    let slower = speed * (-0.0016 * distance).exp();
    let drop = 4.903 * time * time;
    MarkAnswer {
        distance: Length::from_si(distance),
        nominal: Nominal {
            time,
            speed: slower,
            energy: 0.5 * 0.028 * slower * slower,
            momentum: 0.028 * slower,
            drop,
            above_sight: 0.027 * distance - drop - 0.1,
            left: 0.001,
            path_pitch: 0.012 - 9.8 * time / speed,
            spin: 20.0 + 3.0 * distance,
        },
        full: sampled(machine.hypot(form), 0.014, 1.0),
        machine: sampled(machine, 0.014, 2.0),
        form: sampled(form, 0.014, 3.0),
        drop_band: (0.965 * drop, 1.04 * drop),
        machine_band: (0.55 * machine * R50, 1.8 * machine * R50),
        hit: estimate((1.0 - (-(yards / 60.0).powi(-2)).exp()).min(1.0), 0.008),
        score: None,
    }
}

fn causes(machine_r50: f64) -> Vec<Cause> {
    let of = |owner, share: f64| Cause {
        owner,
        r50: (2..=6)
            .map(|tens| estimate(share * machine_r50 * (f64::from(tens) / 4.0).powf(1.1), 0.02))
            .collect(),
    };
    vec![
        of(Owner::NockEnd, 0.78),
        of(Owner::FrontEnd, 0.52),
        of(Owner::Shaft, 0.31),
        of(Owner::Vanes, 0.12),
        of(Owner::Weights, 0.05),
    ]
}

fn uncertain() -> Vec<UncertainParameter> {
    let of = |slot, key: &str, dimension, low: f64, high: f64| UncertainParameter {
        slot: Slot(slot),
        key: key.to_owned(),
        dimension,
        value: f64::midpoint(low, high),
        low,
        high,
    };
    vec![
        of(0, "aero.turbulence", Dimension::Ratio, 0.0, 1.0),
        of(1, "aero.nock_drag", Dimension::Ratio, 0.3, 0.6),
        of(2, "bow.virtual_mass", Dimension::Mass, 0.004, 0.007),
        of(3, "bow.restraint", Dimension::Ratio, 0.3, 2.0),
    ]
}

/// Builds of these names and machine R50 at 40 yd (in), each against the
/// first.
pub fn compared(builds: &[(&str, f64)]) -> Answer {
    let builds: Vec<BuildAnswer> =
        builds.iter().map(|(name, r50)| build(name, r50 * INCH, 84.0)).collect();
    let pairs = (1..builds.len()).map(|other| pair(&builds, other)).collect();
    let flown = builds.len() * 70_000;
    let sides = sides(&builds);
    Answer {
        title: "Square ends on an invented hunting arrow".to_owned(),
        cautions: Vec::new(),
        headline: None,
        seed: 7,
        target: TargetChoice::Zone { diameter: Length::from_si(8.0 * INCH) },
        flown,
        found: Found::Compare(Compared { builds, pairs, sides }),
        unknown: None,
    }
}

/// Builds held side by side with nothing stated and no pair told.
fn sides(builds: &[BuildAnswer]) -> SideBySide {
    let drift = 0.01;
    let mark = |mark: &MarkAnswer| SideMark {
        distance: mark.distance,
        drift,
        carried: 0.0,
        misjudged: Vec::new(),
        round: None,
    };
    let side = |build: &BuildAnswer| BuildSide {
        marks: build.marks.iter().map(mark).collect(),
        reach: None,
    };
    let builds = builds.iter().map(side).collect();
    SideBySide { stated: Stated::default(), builds, pairs: Vec::new() }
}

fn pair(builds: &[BuildAnswer], other: usize) -> Pair {
    let marks = builds[0].marks.iter().zip(&builds[other].marks).map(|(a, b)| {
        let ratio = |a: &Sampled, b: &Sampled| a.stats.sigma.value / b.stats.sigma.value;
        let full = ratio(&a.full, &b.full);
        let machine = ratio(&a.machine, &b.machine);
        let gain = a.full.stats.r50.value - b.full.stats.r50.value;
        PairMark {
            distance: a.distance,
            full_ratio: Some(estimate(full, 0.004)),
            machine_ratio: Some(estimate(machine, 0.01)),
            gain: Estimate { value: gain, low: gain - 4e-4, high: gain + 4e-4 },
            archer_shots: shots(full),
            machine_shots: shots(machine),
            seen: match (shots(full), shots(machine)) {
                (Shots::Each(n), _) if n <= study::ARCHER_SHOTS => Seen::Archer,
                (_, Shots::Each(n)) if n <= study::ARCHER_SHOTS => Seen::MachineOnly,
                _ => Seen::Nobody,
            },
            one_sight: Some(one_sight(a, b)),
        }
    });
    Pair { base: 0, other, marks: marks.collect() }
}

/// Where the second lands with the first's sight setting, by drop and drift alone.
fn one_sight(a: &MarkAnswer, b: &MarkAnswer) -> OneSight {
    let shift =
        Impact { left: b.nominal.left - a.nominal.left, up: a.nominal.drop - b.nominal.drop };
    let apart = (shift.left.hypot(shift.up) / a.full.stats.sigma.value).powi(2);
    let shots = PowerTest::default().shots_for_centres(apart);
    OneSight { shift, apart, shots: shots.map_or(Shots::MoreThan(10_000), Shots::Each) }
}

/// The rule of thumb 1.96 for the log of a ratio of spreads.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "bounded above zero")]
fn shots(ratio: f64) -> Shots {
    let each = (3.92 / ratio.ln().powi(2)).ceil().max(2.0);
    if each > 10_000.0 { Shots::MoreThan(10_000) } else { Shots::Each(each as u32) }
}

/// Two builds with the trade's claims on square ends.
pub fn square_ends() -> Answer {
    let mut answer = compared(&[("as sawn", 1.25), ("squared", 0.55)]);
    let claim = |claim, finding, numbers| TradeClaim { claim, finding, numbers };
    let trade = vec![
        claim(EndsView::LooksTrue, Finding::Agrees, (7.1e-5, 2.54e-5)),
        claim(EndsView::FrontOutweighsNock, Finding::Open, (0.0290, 0.0310)),
        claim(EndsView::FrontOutweighsNockBladed, Finding::LikelyAgrees, (0.4, 0.29)),
        claim(EndsView::MachineNotShooter, Finding::Agrees, (6.0, 2003.0)),
        claim(EndsView::MachineNotShooterEndsAlone, Finding::InDirection, (52.0, 1400.0)),
    ];
    let lever = |groove_offset, point_tilt, lean_limit| Lever {
        groove_offset,
        balance_offset: 4e-6,
        shaft_tilt: 8e-6,
        point_tilt,
        lean_limit,
    };
    let ends = Ends {
        front: lever(5e-6, 2e-3, Some(2.2e-3)),
        nock: lever(6e-5, 9e-7, None),
        alone: Some(EndsAlone {
            base_r50: estimate(0.0465, 0.02),
            other_r50: estimate(0.0351, 0.02),
            machine_ratio: Some(estimate(1.32, 0.02)),
            archer_ratio: Some(estimate(1.04, 0.02)),
            machine_shots: Shots::Each(52),
            archer_shots: Shots::Each(1400),
            seen: Seen::Nobody,
        }),
    };
    let orders = vec![
        order(false, [0.0290, 0.0120, 0.0600], [0.0310, 0.0170, 0.1700], 0.44),
        order(true, [0.4, 0.3, 0.6], [0.29, 0.17, 0.42], 0.86),
    ];
    if let Found::Compare(compared) = answer.found {
        answer.found = Found::Ends(Box::new(SquareEnds { compared, trade, ends, orders }));
    }
    answer
}

fn order(bladed: bool, front: [f64; 3], nock: [f64; 3], larger: f64) -> EndsOrder {
    let end = |[value, low, high]: [f64; 3]| Banded { value, low, high };
    EndsOrder { bladed, front: end(front), nock: end(nock), front_larger: Some(larger) }
}

/// The comparison of an invented answer, to be changed.
///
/// # Panics
/// When the answer compares nothing.
#[expect(clippy::expect_used, reason = "a test without its answer should stop")]
pub fn of(answer: &mut Answer) -> &mut Compared {
    answer.compared_mut().expect("a comparison")
}

/// The square ends of an invented answer, to be changed.
///
/// # Panics
/// When the answer is about something else.
pub fn ends(answer: &mut Answer) -> &mut SquareEnds {
    match &mut answer.found {
        Found::Ends(ends) => ends,
        other => panic!("no square ends: {other:?}"),
    }
}

/// Two builds, the second without any scatter from a machine.
pub fn one_perfect() -> Answer {
    let mut answer = square_ends();
    let compared = of(&mut answer);
    compared.builds[1] = build("perfect", 0.0, 84.0);
    for (mark, found) in compared.pairs[0].marks.iter_mut().zip(&mut compared.builds[1].marks) {
        found.machine.sample.fill(Impact::default());
        (mark.machine_ratio, mark.machine_shots) = (None, Shots::Each(2));
        mark.seen = Seen::MachineOnly;
    }
    answer
}

/// Three builds; the second is light enough for a caution.
pub fn three_builds() -> Answer {
    let mut answer = compared(&[("plain", 1.0), ("light vanes", 0.9), ("heavy front", 3.0)]);
    "Three invented builds".clone_into(&mut answer.title);
    let light = &mut of(&mut answer).builds[1];
    light.mass_per_force = 6.7e-5;
    let danger = Danger::Light { mass_per_force: 6.7e-5, least: 7.3e-5 };
    answer.cautions = vec![Caution { danger, of: vec!["light vanes".to_owned()] }];
    answer
}

/// Point mass swept over five values for one build.
pub fn swept() -> Answer {
    let mut answer = compared(&[("hunter", 1.0)]);
    "Point mass on an invented hunting arrow".clone_into(&mut answer.title);
    let grain = 6.479_891e-5;
    let point = |gr: f64| SweepPoint {
        label: format!("{gr} gr"),
        value: gr * grain,
        build: build("hunter", (2.6 - 0.012 * gr) * INCH, 92.0 - 0.07 * gr),
    };
    let sweeps = vec![SweepAnswer {
        key: "point.mass".to_owned(),
        dimension: Dimension::Mass,
        build: "hunter".to_owned(),
        points: [75.0, 100.0, 125.0, 150.0, 175.0].map(point).into(),
    }];
    let Compared { builds, pairs, .. } = of(&mut answer).clone();
    answer.found = Found::Sweep(Swept { builds, pairs, sweeps });
    answer
}

/// Two builds shot at a paper face in place of a zone.
pub fn on_a_face() -> Answer {
    let mut answer = square_ends();
    answer.target = TargetChoice::Face { diameter: Length::from_si(0.8), inner_ten: false };
    for build in &mut of(&mut answer).builds {
        for mark in &mut build.marks {
            mark.score = Some(estimate(10.0 - 20.0 * mark.full.stats.r50.value, 0.01));
        }
    }
    answer
}

/// Two builds really flown, a few times each, with everything stated.
///
/// # Panics
/// When they cannot be flown.
#[expect(clippy::expect_used, reason = "a test without its answer should stop")]
pub fn side_by_side(face: bool) -> Answer {
    let build = |scale, name| Simple::new().sawn(scale).aimed(2e-3).build(name);
    let mut plan = compare(vec![build(0.004, "as <sawn>"), build(0.001, "squared")], 100);
    plan.stated = Stated {
        range_error: Some(Length::from_si(1.0)),
        wind_error: Some(Speed::from_si(2.0)),
        hit_share: Some(Ratio::from_si(0.6)),
        round: face.then_some(36),
        ..Stated::default()
    };
    if face {
        plan.target = TargetChoice::Face { diameter: Length::from_si(0.6), inner_ten: true };
    } else {
        let (width, height) = (Length::from_si(0.3), Length::from_si(0.2));
        plan.target = TargetChoice::Ellipse { width, height };
    }
    study::run(&plan, &study::Quiet).expect("two sound builds")
}
