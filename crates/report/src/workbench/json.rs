//! Bench answers as a tree of values with units.

use study::Banded;
use study::workbench::{
    Cutting, Grade, Indexing, Shooting, Sorting, Squareness, StockGain, Verdict,
};
use units::Length;
use workbench::{Place, Set, Span, Straight};

use super::{BenchAnswer, BenchReport, trait_word, way_word, where_word};
use crate::tree::Node;

pub(super) fn tree(report: &BenchReport) -> Node {
    let (kind, answer) = match report.answer {
        BenchAnswer::Square(found) => ("square", square(found)),
        BenchAnswer::Cut(found) => ("cut", cut(found)),
        BenchAnswer::Stock(found, grade, _) => ("stock", stock(found, grade)),
        BenchAnswer::Sort(found) => ("sort", sort(found)),
        BenchAnswer::Index(found) => ("index", index(found)),
    };
    let provenance = report.provenance;
    let origin = vec![
        ("version", Node::text(&provenance.version)),
        ("source", Node::text(&provenance.source_name)),
        ("seed", Node::Count(provenance.seed, "1")),
        ("scenario", Node::text(&provenance.scenario)),
        (
            "notebooks",
            Node::list(report.notebooks, |(name, text)| {
                Node::Map(vec![("name", Node::text(name)), ("text", Node::text(text))])
            }),
        ),
    ];
    Node::Map(vec![
        ("title", Node::text(report.title)),
        ("kind", Node::text(kind)),
        ("answer", answer),
        ("provenance", Node::Map(origin)),
    ])
}

fn span(span: &Span, unit: &'static str) -> Node {
    Node::Map(vec![
        ("value", Node::Number(span.value, unit)),
        ("low", Node::Number(span.low, unit)),
        ("high", Node::Number(span.high, unit)),
    ])
}

fn banded(b: &Banded, unit: &'static str) -> Node {
    span(&Span { value: b.value, low: b.low, high: b.high }, unit)
}

fn maybe(b: Option<&Banded>, unit: &'static str) -> Node {
    b.map_or(Node::Null, |b| banded(b, unit))
}

fn distances(of: &[Length]) -> Node {
    Node::Series(of.iter().map(|d| d.si()).collect(), "m")
}

fn number(value: Option<f64>, unit: &'static str) -> Node {
    value.map_or(Node::Null, |value| Node::Number(value, unit))
}

fn square(found: &Squareness) -> Node {
    let cost = |cost: &study::workbench::FaceCost| {
        Node::Map(vec![
            ("arrow", Node::text(&cost.reading.name)),
            ("where", Node::text(where_word(cost.reading.at))),
            ("stage", Node::text(&cost.reading.stage)),
            ("angle", span(&cost.angle, "rad")),
            ("fit_limit", number(cost.limit, "rad")),
            ("shift", Node::list(&cost.shift, |shift| span(shift, "m"))),
            ("group_growth", Node::Number(cost.growth, "1")),
        ])
    };
    let flat = |flat: &study::workbench::Flat| {
        Node::Map(vec![
            ("point", Node::text(super::words::shape_word(flat.shape))),
            ("own_point", Node::Flag(flat.own)),
            ("face", Node::text(where_word(flat.at))),
            ("enough", maybe(flat.angle.as_ref(), "rad")),
            ("fit_limit", number(flat.limit, "rad")),
            ("growth_at_limit", number(flat.at_limit, "1")),
        ])
    };
    Node::Map(vec![
        ("distances", distances(&found.distances)),
        ("form_sigma", Node::Series(found.form.clone(), "m")),
        ("share", Node::Number(found.share, "1")),
        ("faces", Node::list(&found.costs, cost)),
        ("flat_enough", Node::list(&found.flat, flat)),
    ])
}

fn straight(of: &Straight) -> Node {
    Node::Map(vec![
        ("total_over_28_in", Node::Number(of.total, "m")),
        ("standard_error", Node::Number(of.error, "m")),
        ("span", Node::Number(of.span, "m")),
        ("worst", Node::Number(of.worst, "m")),
    ])
}

fn cut(found: &Cutting) -> Node {
    let shaft = |shaft: &study::workbench::CutShaft| {
        let axis = &shaft.axis;
        let stations = axis.stations();
        let off = |read: fn(body::Across) -> f64| {
            Node::Series(stations.iter().map(|x| read(axis.at(*x))).collect(), "m")
        };
        let way = |way: &study::workbench::Way| {
            Node::Map(vec![
                ("way", Node::text(way_word(way.kind))),
                ("off_nock_end", Node::Number(way.cut.rear, "m")),
                ("off_point_end", Node::Number(way.cut.front, "m")),
                ("straight", straight(&way.cut.straight)),
                ("within_tolerance", Node::Number(way.cut.within, "m")),
                ("ring", Node::Series(way.ring.clone(), "m")),
                ("ring_band", banded(&way.band, "m")),
            ])
        };
        Node::Map(vec![
            ("shaft", Node::text(&shaft.name)),
            ("stock", Node::Number(axis.stock(), "m")),
            ("noise", Node::Number(axis.noise(), "m")),
            ("one_side", Node::Flag(axis.one_side())),
            ("at_supports", Node::Number(axis.at_supports(), "m")),
            ("uncut", straight(&shaft.plan.uncut)),
            ("ways", Node::list(&shaft.ways, way)),
            (
                "axis",
                Node::Map(vec![
                    ("station", Node::Series(stations.clone(), "m")),
                    ("at0", off(|a| a.at0)),
                    ("at90", off(|a| a.at90)),
                ]),
            ),
        ])
    };
    Node::Map(vec![
        ("distances", distances(&found.distances)),
        ("form_sigma", Node::Series(found.form.clone(), "m")),
        ("wanted", Node::Number(found.job.wanted.si(), "m")),
        ("kerf", Node::Number(found.job.kerf.si(), "m")),
        ("tolerance", Node::Number(found.job.tolerance.si(), "m")),
        ("shafts", Node::list(&found.shafts, shaft)),
    ])
}

fn stock(found: &StockGain, grade: &Grade) -> Node {
    let among = found.among.map_or(Node::Null, |among| Node::band(among, "m"));
    Node::Map(vec![
        ("stock", Node::Number(grade.stock.si(), "m")),
        ("total_over_28_in", Node::Number(grade.total.si(), "m")),
        ("shafts_drawn", Node::Count(found.shafts, "1")),
        ("front_only", Node::estimate(&found.front_only, "m")),
        ("halves", Node::maybe(found.halves.as_ref(), "m")),
        ("gain_of_halves", maybe(found.gain.as_ref(), "m")),
        ("gain_among_eight_of_ten", among),
        ("gain_of_best", banded(&found.best, "m")),
        (
            "trade_claim",
            Node::Map(vec![
                ("grade", Node::Number(found.claim.grade, "m")),
                ("gain", maybe(found.claim.gain.as_ref(), "m")),
                ("agrees", found.claim.agrees.map_or(Node::Null, Node::Flag)),
                ("worst_gain", maybe(found.claim.worst.as_ref(), "m")),
                ("worst_agrees", found.claim.worst_agrees.map_or(Node::Null, Node::Flag)),
            ]),
        ),
    ])
}

fn place(place: &Place) -> Node {
    Node::Map(vec![
        ("left", Node::Number(place.left, "m")),
        ("up", Node::Number(place.up, "m")),
        ("unknown", Node::Number(place.blur, "m")),
    ])
}

fn sort(found: &Sorting) -> Node {
    let name = |at: &usize| Node::text(&found.arrows[*at].measured.name);
    let set = |set: &Set| {
        vec![
            ("arrows", Node::list(&set.members, name)),
            ("centre", Node::Series(set.centre.to_vec(), "m")),
        ]
    };
    let chosen = |chosen: &study::workbench::ChosenSet| {
        let mut entries = vec![("name", Node::text(&chosen.name))];
        entries.extend(set(&chosen.set));
        entries.push(("spread", banded(&chosen.band, "m")));
        entries.push(("group_growth", Node::Number(chosen.growth, "1")));
        let weighed = chosen.by_weight.as_ref().map_or(Node::Null, |(other, band)| {
            let mut entries = set(other);
            entries.push(("spread", banded(band, "m")));
            Node::Map(entries)
        });
        entries.push(("by_weight_alone", weighed));
        Node::Map(entries)
    };
    let arrow = |arrow: &study::workbench::Foreseen| {
        let cause = |(of, size): &(study::workbench::Trait, f64)| {
            Node::Map(vec![
                ("of", Node::text(trait_word(*of))),
                ("moves", Node::Number(*size, "m")),
            ])
        };
        let set = arrow.set.map_or(Node::Null, |set| Node::text(&found.sets[set].name));
        Node::Map(vec![
            ("arrow", Node::text(&arrow.measured.name)),
            ("set", set),
            ("places", Node::list(&arrow.places, place)),
            ("causes", Node::list(&arrow.causes, cause)),
        ])
    };
    let flier = |flier: &study::workbench::Flier| {
        Node::Map(vec![
            ("arrow", name(&flier.arrow)),
            ("away", Node::Number(flier.away, "m")),
            ("limit", Node::Number(flier.limit, "m")),
            ("cause", flier.cause.map_or(Node::Null, |of| Node::text(trait_word(of)))),
        ])
    };
    Node::Map(vec![
        ("distances", distances(&found.distances)),
        ("form_sigma", Node::Series(found.form.clone(), "m")),
        ("together", Node::Flag(found.together)),
        ("sets", Node::list(&found.sets, chosen)),
        ("left_over", Node::list(&found.left_over, name)),
        ("whole_spread", Node::Number(found.whole.spread, "m")),
        ("common_spread", Node::Number(found.spread.0, "m")),
        ("least_possible", Node::Number(found.spread.1, "m")),
        ("fliers", Node::list(&found.fliers, flier)),
        ("arrows", Node::list(&found.arrows, arrow)),
    ])
}

fn index(found: &Indexing) -> Node {
    let arrow = |arrow: &study::workbench::Indexed| {
        let (what, shots) = match arrow.shooting {
            Shooting::Leave => ("leave", Node::Null),
            Shooting::Each(shots) => ("shoot", Node::Count(shots.into(), "shots")),
            Shooting::TooMany(shots) => ("too many", Node::Count(shots.into(), "shots")),
        };
        Node::Map(vec![
            ("arrow", Node::text(&arrow.name)),
            ("places", Node::list(&arrow.places, place)),
            ("turn", Node::Number(found.turns[arrow.choice].si(), "rad")),
            ("away_now", Node::Number(arrow.away.0, "m")),
            ("away_then", Node::Number(arrow.away.1, "m")),
            ("plan", Node::text(what)),
            ("shots_each", shots),
        ])
    };
    let fit = |fit: &study::workbench::IndexFit| {
        let (what, more) = match fit.verdict {
            Verdict::Turn => ("turn", Node::Null),
            Verdict::Stop => ("leave", Node::Null),
            Verdict::More(shots) => ("more", Node::Count(shots.into(), "shots")),
        };
        Node::Map(vec![
            ("arrow", Node::text(&fit.name)),
            ("shots", Node::size(fit.shots, "shots")),
            ("ring", banded(&fit.ring, "m")),
            ("noise", Node::Number(fit.noise, "m")),
            ("turn", Node::Number(found.turns[fit.choice].si(), "rad")),
            ("nearer", banded(&fit.gain, "m")),
            ("verdict", Node::text(what)),
            ("more_at_each", more),
        ])
    };
    Node::Map(vec![
        ("distances", distances(&found.distances)),
        ("form_sigma", Node::Series(found.form.clone(), "m")),
        ("turns", Node::Series(found.turns.iter().map(|t| t.si()).collect(), "rad")),
        ("spread_now", banded(&found.spread[0], "m")),
        ("spread_then", banded(&found.spread[1], "m")),
        ("centre", Node::Series(found.centre.to_vec(), "m")),
        ("arrows", Node::list(&found.arrows, arrow)),
        ("fits", Node::list(&found.fits, fit)),
    ])
}
