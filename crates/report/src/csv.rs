//! The tables as CSV: one header row with units, numbers unrounded.

use study::{Answer, BuildAnswer, Sampled, Shots};
use target::Estimate;
use units::{Role, Style};

use crate::text::all_builds;
use crate::{show, sides, words};

/// A CSV text in the making.
pub(crate) struct Sheet {
    style: Style,
    text: String,
    filled: bool,
}

impl Sheet {
    /// An empty sheet.
    pub(crate) fn new(style: Style) -> Self {
        Self { style, text: String::new(), filled: false }
    }

    /// Adds a field, quoted where it must be.
    pub(crate) fn field(&mut self, text: &str) -> &mut Self {
        if self.filled {
            self.text.push(',');
        }
        self.filled = true;
        if text.contains([',', '"', '\n', '\r']) {
            self.text.push('"');
            self.text.push_str(&text.replace('"', "\"\""));
            self.text.push('"');
        } else {
            self.text.push_str(text);
        }
        self
    }

    /// Adds a head with the unit of a role.
    pub(crate) fn head(&mut self, name: &str, role: Role) -> &mut Self {
        let unit = match role.symbol(self.style) {
            "" => "1",
            symbol => symbol,
        };
        self.field(&format!("{name} [{unit}]"))
    }

    /// Adds a number in the unit of a role.
    pub(crate) fn number(&mut self, role: Role, si: f64) -> &mut Self {
        self.field(&role.value(si, self.style).to_string())
    }

    /// Ends the row.
    pub(crate) fn end(&mut self) {
        self.text.push('\n');
        self.filled = false;
    }

    /// The finished text.
    pub(crate) fn finish(self) -> String {
        self.text
    }

    /// Adds the three heads of an estimate.
    pub(crate) fn estimate_head(&mut self, name: &str, role: Role) {
        self.head(name, role).head(&format!("{name} low95"), role);
        self.head(&format!("{name} high95"), role);
    }

    /// Adds an estimate with its interval.
    pub(crate) fn estimate(&mut self, role: Role, estimate: &Estimate) {
        self.number(role, estimate.value).number(role, estimate.low).number(role, estimate.high);
    }

    /// An estimate, or three empty fields where there is none.
    pub(crate) fn maybe(&mut self, role: Role, estimate: Option<&Estimate>) {
        match estimate {
            Some(estimate) => self.estimate(role, estimate),
            None => {
                self.field("").field("").field("");
            }
        }
    }
}

/// Every table that the answer fills, with its file name.
pub(crate) fn all(answer: &Answer, style: Style) -> Vec<(&'static str, String)> {
    let mut files = Vec::new();
    if !answer.builds.is_empty() {
        files.push(("drop.csv", drop(answer, style)));
        files.push(("groups.csv", groups(answer, style)));
        files.push(("impacts.csv", impacts(answer, style)));
    }
    if !answer.pairs.is_empty() {
        files.push(("pairs.csv", pairs(answer, style)));
    }
    if let Some(sides) = &answer.sides {
        files.extend(sides::csv::all(answer, sides, style));
    }
    if all_builds(answer).any(|build| !build.causes.is_empty()) {
        files.push(("causes.csv", causes(answer, style)));
    }
    if !answer.sweeps.is_empty() {
        files.push(("sweep.csv", sweep(answer, style)));
    }
    files
}

const NOMINAL: [(&str, Role); 11] = [
    ("drop below line of departure", Role::Impact),
    ("drop low", Role::Impact),
    ("drop high", Role::Impact),
    ("above line of sight", Role::Impact),
    ("left of line to target", Role::Impact),
    ("time", Role::Time),
    ("speed", Role::Speed),
    ("energy", Role::Energy),
    ("momentum", Role::Momentum),
    ("path pitch", Role::Angle),
    ("spin", Role::Spin),
];

fn drop(answer: &Answer, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.field("build").head("distance", Role::Range);
    for (name, role) in NOMINAL {
        sheet.head(name, role);
    }
    sheet.end();
    for build in &answer.builds {
        for mark in &build.marks {
            let n = &mark.nominal;
            sheet.field(&build.name).number(Role::Range, mark.distance.si());
            let values = [
                n.drop,
                n.drop_band.0,
                n.drop_band.1,
                n.above_sight,
                n.left,
                n.time,
                n.speed,
                n.energy,
                n.momentum,
                n.path_pitch,
                n.spin,
            ];
            for ((_, role), value) in NOMINAL.iter().zip(values) {
                sheet.number(*role, value);
            }
            sheet.end();
        }
    }
    sheet.finish()
}

/// The three groups of a mark with their names.
fn kinds(mark: &study::MarkAnswer) -> [(&'static str, &Sampled); 3] {
    [("full", &mark.full), ("machine", &mark.machine), ("form", &mark.form)]
}

fn group_heads(sheet: &mut Sheet) {
    sheet.head("distance", Role::Range).field("group").field("impacts [1]");
    // Where the fault-free arrow lands is the origin at each distance.
    sheet.head("centre left of fault-free impact", Role::Impact);
    sheet.head("centre above fault-free impact", Role::Impact);
    for name in ["sigma left", "sigma up", "sigma", "mean radius", "R50", "R90"] {
        sheet.estimate_head(name, Role::Impact);
    }
    sheet.estimate_head("six-shot spread", Role::Impact);
    sheet.end();
}

fn group_rows(sheet: &mut Sheet, first: &[&str], build: &BuildAnswer) {
    for mark in &build.marks {
        for (name, sampled) in kinds(mark) {
            let g = &sampled.stats;
            for text in first {
                sheet.field(text);
            }
            sheet.number(Role::Range, mark.distance.si()).field(name).field(&g.count.to_string());
            sheet.number(Role::Impact, g.centre.left).number(Role::Impact, g.centre.up);
            for estimate in [&g.sigma_left, &g.sigma_up, &g.sigma, &g.mean_radius, &g.r50, &g.r90] {
                sheet.estimate(Role::Impact, estimate);
            }
            // None with too few impacts for a six-shot group.
            sheet.maybe(Role::Impact, g.spread6.as_ref());
            sheet.end();
        }
    }
}

fn groups(answer: &Answer, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.field("build");
    group_heads(&mut sheet);
    for build in &answer.builds {
        group_rows(&mut sheet, &[&build.name], build);
    }
    sheet.finish()
}

fn sweep(answer: &Answer, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.field("build").field("swept").field("value");
    group_heads(&mut sheet);
    for sweep in &answer.sweeps {
        for point in &sweep.points {
            let first = [sweep.build.as_str(), &sweep.key, &point.label];
            group_rows(&mut sheet, &first, &point.build);
        }
    }
    sheet.finish()
}

fn impacts(answer: &Answer, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.field("build").head("distance", Role::Range).field("group");
    sheet.head("left of fault-free impact", Role::Impact);
    sheet.head("above fault-free impact", Role::Impact).end();
    for build in &answer.builds {
        for mark in &build.marks {
            for (name, sampled) in kinds(mark) {
                for impact in &sampled.sample {
                    sheet.field(&build.name).number(Role::Range, mark.distance.si()).field(name);
                    sheet.number(Role::Impact, impact.left).number(Role::Impact, impact.up).end();
                }
            }
        }
    }
    sheet.finish()
}

fn pairs(answer: &Answer, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.field("base").field("other").head("distance", Role::Range);
    sheet.estimate_head("gain in R50", Role::Impact);
    for who in ["archer", "machine"] {
        sheet.estimate_head(&format!("group ratio {who}"), Role::Number);
        sheet.field(&format!("{who}'s group that is a point"));
    }
    for name in ["archer shots", "machine shots"] {
        sheet.field(&format!("{name} [1]")).field(&format!("{name} at least"));
    }
    sheet.field("seen by").end();
    for pair in &answer.pairs {
        for mark in &pair.marks {
            sheet.field(&answer.builds[pair.base].name).field(&answer.builds[pair.other].name);
            sheet.number(Role::Range, mark.distance.si());
            sheet.estimate(Role::Impact, &mark.gain);
            for ratio in [&mark.full_ratio, &mark.machine_ratio] {
                sheet.maybe(Role::Number, ratio.as_ref());
                sheet.field(show::point(ratio.as_ref()).unwrap_or("none"));
            }
            for shots in [mark.archer_shots, mark.machine_shots] {
                let (count, beyond) = match shots {
                    Shots::Each(count) => (count, "no"),
                    Shots::MoreThan(limit) => (limit, "yes"),
                };
                sheet.field(&count.to_string()).field(beyond);
            }
            sheet.field(words::seen(mark.seen)).end();
        }
    }
    sheet.finish()
}

fn causes(answer: &Answer, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.field("build").field("faults of").head("distance", Role::Range);
    sheet.estimate_head("machine R50", Role::Impact);
    sheet.end();
    for build in &answer.builds {
        for cause in &build.causes {
            for (mark, r50) in build.marks.iter().zip(&cause.r50) {
                sheet.field(&build.name).field(words::owner(cause.owner));
                sheet.number(Role::Range, mark.distance.si());
                sheet.estimate(Role::Impact, r50);
                sheet.end();
            }
        }
    }
    sheet.finish()
}
