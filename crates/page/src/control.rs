//! The values that can be changed on the page, one row each.

use units::{Dimension, Style};

/// How the value stands in a scenario.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Form {
    /// As it is.
    Plain,
    /// As the size of a fault that differs from arrow to arrow.
    Rayleigh,
    /// As the standard deviation, about zero, from shot to shot.
    Spread,
}

/// A slider: its unit, its ends and its step.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Slide {
    pub(crate) unit: &'static str,
    pub(crate) low: f64,
    pub(crate) high: f64,
    pub(crate) step: f64,
}

/// Where a control stands on the page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Part {
    Arrow,
    Faults,
    Shooter,
    Place,
}

/// One value.
#[derive(Debug)]
pub(crate) struct Control {
    /// Its name in the link.
    pub(crate) id: &'static str,
    pub(crate) part: Part,
    pub(crate) label: &'static str,
    /// What it means; empty where the label says it.
    pub(crate) hint: &'static str,
    pub(crate) dimension: Dimension,
    /// The keys it writes.
    pub(crate) keys: &'static [&'static str],
    /// Tables and keys that cannot stand beside it.
    pub(crate) rivals: &'static [&'static str],
    pub(crate) form: Form,
    archery: Slide,
    metric: Slide,
}

impl Control {
    pub(crate) fn slide(&self, style: Style) -> Slide {
        match style {
            Style::Archery => self.archery,
            Style::Metric => self.metric,
        }
    }

    /// The value as a scenario holds it.
    pub(crate) fn toml(&self, text: &str) -> String {
        match self.form {
            Form::Plain => format!("\"{text}\""),
            Form::Rayleigh => format!("{{ rayleigh = \"{text}\" }}"),
            Form::Spread => format!("{{ mean = \"0 deg\", sd = \"{text}\", per = \"shot\" }}"),
        }
    }

    /// What a scenario's value says to this control; none where it says
    /// something a slider cannot show.
    pub(crate) fn shown(&self, toml: &str) -> Option<String> {
        let name = match self.form {
            Form::Plain => "value",
            Form::Rayleigh => "rayleigh",
            Form::Spread => "sd",
        };
        let text = match toml.strip_prefix('{') {
            None if self.form == Form::Spread => return None,
            None => toml,
            Some(table) => table.split_once(&format!(" {name} = "))?.1,
        };
        text.strip_prefix('"')?.split('"').next().map(str::to_owned)
    }
}

pub(crate) const DISTANCE: &str = "at";
pub(crate) const ZONE: &str = "zone";

pub(crate) fn control(id: &str) -> Option<&'static Control> {
    CONTROLS.iter().find(|control| control.id == id)
}

const fn slide(unit: &'static str, low: f64, high: f64, step: f64) -> Slide {
    Slide { unit, low, high, step }
}

macro_rules! controls {
    ($($id:literal $part:ident $label:literal $hint:literal $dimension:ident $form:ident
       $keys:expr, $rivals:expr, ($($a:expr),*), ($($m:expr),*);)*) => {
        /// Every control, in the order of the page. The sliders' ends are chosen:
        /// what is met at a bench; a field takes what the scenario takes.
        pub(crate) static CONTROLS: &[Control] = &[$(Control {
            id: $id, part: Part::$part, label: $label, hint: $hint,
            dimension: Dimension::$dimension, form: Form::$form, keys: &$keys, rivals: &$rivals,
            archery: slide($($a),*), metric: slide($($m),*),
        }),*];
    };
}

controls! {
    "point" Arrow "Point" "" Mass Plain ["arrow.point.mass"], [], ("gr", 50.0, 300.0, 5.0), ("g", 3.0, 20.0, 0.25);
    "insert" Arrow "Insert" "" Mass Plain ["arrow.insert.mass"], [], ("gr", 5.0, 150.0, 5.0), ("g", 0.5, 10.0, 0.25);
    "length" Arrow "Shaft, cut length" "" Length Plain ["arrow.shaft.length"], [], ("in", 22.0, 34.0, 0.25), ("mm", 560.0, 860.0, 5.0);
    "spine" Arrow "Spine" "Deflection of a 28 in span under 1.94 lb; less is stiffer." Length Plain ["arrow.shaft.spine"], [], ("in", 0.2, 1.0, 0.01), ("mm", 5.0, 25.0, 0.25);
    "vane" Arrow "Vane angle" "Mean angle to the shaft." Angle Plain ["arrow.vanes.angle"], [], ("deg", 0.0, 6.0, 0.1), ("deg", 0.0, 6.0, 0.1);
    "front" Faults "Point end out of square" "Typical angle of the face, from arrow to arrow." Angle Rayleigh ["faults.point_end.angle"], [], ("deg", 0.0, 1.0, 0.01), ("deg", 0.0, 1.0, 0.01);
    "rear" Faults "Nock end out of square" "Typical angle of the face, from arrow to arrow." Angle Rayleigh ["faults.nock_end.angle"], [], ("deg", 0.0, 1.0, 0.01), ("deg", 0.0, 1.0, 0.01);
    "runout" Faults "Run-out at the tip" "Total indicator reading in a spin test, typical." Length Rayleigh ["faults.tip_runout.reading"], ["faults.point_cant"], ("in", 0.0, 0.03, 0.0005), ("mm", 0.0, 0.8, 0.01);
    "weight" Shooter "Draw weight" "A speed that was read by a chronograph stays as read." Force Plain ["bow.draw_weight"], [], ("lbf", 20.0, 90.0, 1.0), ("N", 90.0, 400.0, 5.0);
    "aim" Shooter "Aim, spread" "One standard deviation to each side." Angle Spread ["archer.aim_left", "archer.aim_up"], [], ("deg", 0.0, 0.5, 0.01), ("deg", 0.0, 0.5, 0.01);
    "wind" Place "Wind" "From the right, unless the scenario says otherwise." Speed Plain ["wind.speed"], [], ("mph", 0.0, 30.0, 1.0), ("m/s", 0.0, 13.0, 0.5);
    "warmth" Place "Air temperature" "" Temperature Plain ["air.temperature"], [], ("degF", -20.0, 110.0, 1.0), ("degC", -30.0, 45.0, 1.0);
    "height" Place "Altitude" "" Length Plain ["air.altitude"], ["air.pressure"], ("ft", 0.0, 12000.0, 250.0), ("m", 0.0, 4000.0, 50.0);
    "at" Place "Distance" "" Length Plain [], [], ("yd", 5.0, 100.0, 1.0), ("m", 5.0, 90.0, 1.0);
    "zone" Place "Zone across" "The round place to hit." Length Plain ["question.zone"], ["question.face", "question.inner_ten"], ("in", 1.0, 20.0, 0.5), ("cm", 2.0, 50.0, 1.0);
}
