use serde_json::{Map, Value, json};
use units::Dimension;

use crate::reference::default;
use crate::schema::{
    Column, EVIDENCE_AT, EVIDENCE_ERROR, EVIDENCE_HELD, EVIDENCE_KEYS, EVIDENCE_KIND,
    EVIDENCE_KINDS, EVIDENCE_TEXTS, EVIDENCE_VALUE, Id, KEYS, Key, Kind, Number, STEP_COST,
    STEP_NAME, STEP_TIME, TABLES, Table, in_a_word, last, parent,
};
use crate::text::{declared, ranges};

/// A JSON Schema (draft 2020-12) of scenario files, for editors.
pub fn json_schema() -> String {
    let mut defs = Map::new();
    let mut build = Map::new();
    build.insert("name".into(), json!({ "type": "string", "description": "The build's name." }));
    let mut top = keys("");
    for table in TABLES.iter().filter(|table| !table.path.contains('.')) {
        if table.in_build {
            let reference = json!({ "$ref": format!("#/$defs/table_{}", table.path) });
            defs.insert(format!("table_{}", table.path), self::table(table));
            build.insert(table.path.into(), reference.clone());
            top.insert(table.path.into(), reference);
        } else {
            top.insert(table.path.into(), self::table(table));
        }
    }
    let mut build_tables = build.clone();
    build_tables.remove("name");
    top.insert(
        "build".into(),
        json!({
            "type": "array",
            "description": "Builds to compare; each goes over what stands above.",
            "items": object(build, &["name"]),
        }),
    );
    let mut step = build_tables.clone();
    step.insert(STEP_NAME.into(), json!({ "type": "string", "description": "The step's name." }));
    for key in [&STEP_TIME, &STEP_COST] {
        define(&mut defs, key.column.dimension);
        let reference = json!({ "$ref": format!("#/$defs/{}", name(key.column.dimension)) });
        let text = format!("{} Default: {}; {}.", key.doc, key.usual, key.source);
        step.insert(key.column.name.into(), json!({ "allOf": [reference], "description": text }));
    }
    top.insert(
        "step".into(),
        json!({
            "type": "array",
            "description": "Bench steps to weigh; each says what it changes.",
            "items": object(step, &[STEP_NAME]),
        }),
    );
    top.insert("evidence".into(), evidence(build_tables, &mut defs));
    for key in KEYS {
        match &key.kind {
            Kind::Number(number) if !number.whole => {
                define(&mut defs, number.dimension);
                defs.insert(drawn_name(number), drawn(number));
            }
            Kind::Quantity { dimension, .. } => define(&mut defs, *dimension),
            Kind::Rows(rows) => rows.columns.iter().for_each(|c| define(&mut defs, c.dimension)),
            _ => {}
        }
    }
    let mut schema = Map::new();
    schema.insert("$schema".into(), json!("https://json-schema.org/draft/2020-12/schema"));
    schema.insert("title".into(), json!("Scenario"));
    schema.extend(match object(top, &[]) {
        Value::Object(map) => map,
        _ => unreachable!("an object schema is a map"),
    });
    schema.insert("$defs".into(), Value::Object(defs));
    format!("{:#}\n", Value::Object(schema))
}

/// What was measured: a list, or the path of a file that holds it.
fn evidence(mut own: Map<String, Value>, defs: &mut Map<String, Value>) -> Value {
    for (name, doc) in EVIDENCE_TEXTS {
        let kinds: Vec<&str> = EVIDENCE_KINDS.iter().map(|(kind, _)| *kind).collect();
        let schema = match *name {
            EVIDENCE_KIND => json!({ "enum": kinds, "description": doc }),
            EVIDENCE_AT => json!({ "enum": EVIDENCE_HELD, "description": doc }),
            EVIDENCE_VALUE | EVIDENCE_ERROR => {
                json!({ "type": ["string", "number"], "description": doc })
            }
            _ => json!({ "type": "string", "description": doc }),
        };
        own.insert((*name).into(), schema);
    }
    for key in EVIDENCE_KEYS {
        let Column { name: of, dimension, low, high } = key.column;
        define(defs, dimension);
        let reference = json!({ "$ref": format!("#/$defs/{}", name(dimension)) });
        let text = format!("{} Allowed: {low} to {high}.", key.doc);
        own.insert(of.into(), json!({ "allOf": [reference], "description": text }));
    }
    let list = json!({ "type": "array", "items": object(own, &[EVIDENCE_KIND]) });
    json!({
        "anyOf": [list, { "type": "string" }],
        "description": "What was measured, or the path of a file that holds it.",
    })
}

fn object(properties: Map<String, Value>, required: &[&str]) -> Value {
    let mut schema = Map::new();
    schema.insert("type".into(), json!("object"));
    schema.insert("additionalProperties".into(), json!(false));
    schema.insert("required".into(), json!(required));
    schema.insert("properties".into(), Value::Object(properties));
    Value::Object(schema)
}

fn table(table: &Table) -> Value {
    let mut properties = keys(table.path);
    for inner in TABLES.iter().filter(|inner| parent(inner.path) == table.path) {
        properties.insert(last(inner.path).into(), self::table(inner));
    }
    let part = "A file whose keys stand in this table, under those written here.";
    properties.insert("part".into(), json!({ "type": "string", "description": part }));
    let mut schema = object(properties, &[]);
    if table.optional {
        schema = json!({ "anyOf": [schema, { "const": "none" }] });
    }
    if let Some(id) = in_a_word(table.path) {
        schema = json!({ "anyOf": [schema, value(id.key())] });
    }
    schema["description"] = json!(table.doc);
    schema
}

fn keys(table: &str) -> Map<String, Value> {
    let own = KEYS.iter().filter(|key| key.id.table() == table);
    own.map(|key| (last(key.path).to_owned(), value(key))).collect()
}

fn value(key: &Key) -> Value {
    let reference = |name: String| json!({ "$ref": format!("#/$defs/{name}") });
    let any_value = json!({ "type": ["string", "number"] });
    let mut allowed = None;
    let mut schema = match &key.kind {
        Kind::Number(number) if number.whole => {
            allowed = Some(format!("{} to {}", number.low, number.high));
            json!({ "type": "integer" })
        }
        Kind::Number(number) => {
            allowed = Some(declared(key.id));
            let fixed = reference(name(number.dimension));
            let mut forms = vec![fixed, reference(drawn_name(number))];
            if number.turn {
                forms.push(json!({ "const": "any" }));
            }
            if key.id == Id::ShaftSpine {
                forms.push(json!({ "type": ["number", "string"] }));
            }
            json!({ "anyOf": forms })
        }
        Kind::Quantity { dimension, .. } => {
            allowed = Some(declared(key.id));
            reference(name(*dimension))
        }
        Kind::Lengths { .. } => {
            allowed = Some(declared(key.id));
            json!({ "type": "array", "minItems": 1, "items": reference(name(Dimension::Length)) })
        }
        Kind::Choice(words) => json!({ "enum": words }),
        Kind::Whole { low, high } => json!({ "type": "integer", "minimum": low, "maximum": high }),
        Kind::Flag => json!({ "type": "boolean" }),
        Kind::Text | Kind::SweepKey => json!({ "type": "string" }),
        Kind::SweepValue => any_value,
        Kind::SweepValues => json!({ "type": "array", "minItems": 1, "items": any_value }),
        Kind::SweepKeys => json!({ "type": "array", "minItems": 1, "items": { "type": "string" } }),
        Kind::Texts => json!({ "anyOf": [
            { "type": "string" },
            { "type": "array", "minItems": 1, "items": { "type": "string" } },
        ] }),
        Kind::Rows(rows) => {
            allowed = Some(ranges(rows));
            let columns = rows.columns.iter();
            let properties = columns.map(|c| (c.name.to_owned(), reference(name(c.dimension))));
            let row = object(properties.collect(), &rows.columns.each_ref().map(|c| c.name));
            let (least, most) = (rows.least, rows.most);
            json!({ "type": "array", "minItems": least, "maxItems": most, "items": row })
        }
    };
    let allowed = allowed.map_or_else(String::new, |range| format!(" Allowed: {range}."));
    let text = format!("{}{allowed} Default: {}.", key.doc, default(key));
    schema["description"] = json!(text);
    schema
}

/// The name of a dimension's definition.
fn name(dimension: Dimension) -> String {
    dimension.name().replace(' ', "_")
}

fn drawn_name(number: &Number) -> String {
    let size = if number.size { "_size" } else { "" };
    format!("drawn_{}{size}", name(number.dimension))
}

fn define(defs: &mut Map<String, Value>, dimension: Dimension) {
    let units: Vec<&str> = dimension.units().iter().map(|unit| unit.symbol).collect();
    let units = units.iter().filter(|symbol| !symbol.is_empty()).copied();
    let words = format!(
        "A number and its unit, such as {}. Other spellings are read too.",
        units.collect::<Vec<_>>().join(", ")
    );
    // A number or a fraction, and somewhere behind it what can be a unit.
    let pattern = "^\\s*[+-]?[.0-9\u{bc}-\u{be}\u{215b}-\u{215e}].*[^\\s0-9.,/+-].*$";
    let schema = if dimension == Dimension::Ratio {
        json!({ "anyOf": [{ "type": "number" }, { "type": "string" }] })
    } else {
        json!({ "type": "string", "pattern": pattern, "description": words })
    };
    defs.insert(name(dimension), schema);
}

/// A distribution, or a value known only roughly.
fn drawn(number: &Number) -> Value {
    let one = json!({ "$ref": format!("#/$defs/{}", name(number.dimension)) });
    let per = json!({ "enum": ["arrow", "shot"] });
    let form = |names: &[&str], drawn: bool| {
        let mut properties: Map<String, Value> =
            names.iter().map(|name| ((*name).to_owned(), one.clone())).collect();
        if drawn {
            properties.insert("per".into(), per.clone());
        }
        object(properties, names)
    };
    let mut forms = vec![
        form(&["mean", "sd"], true),
        form(&["mean", "sd", "within"], true),
        form(&["low", "high"], true),
        form(&["value", "low", "high"], false),
    ];
    if number.size {
        forms.push(form(&["rayleigh"], true));
        forms.push(form(&["rayleigh", "at_most"], true));
    }
    json!({ "anyOf": forms })
}
