use std::path::Path;

use serde_json::Value;

/// Set to write the generated documents anew.
const WRITE: &str = "CLOTHYARD_WRITE_DOCS";

fn current(name: &str, text: &str) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../docs").join(name);
    if std::env::var_os(WRITE).is_some() {
        std::fs::write(&path, text).unwrap();
    }
    let kept = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(kept == text, "docs/{name} is not current; run this test with {WRITE}=1");
}

#[test]
fn exact_json_schema_file_is_current() {
    current("scenario.schema.json", &scenario::json_schema());
}

#[test]
fn exact_key_reference_is_current() {
    current("scenario-keys.md", &scenario::key_reference());
}

/// Whether a value fits a schema, as far as shape, words and bounds go. Text
/// patterns are left to the reader's own tests.
fn fits(root: &Value, schema: &Value, value: &Value) -> bool {
    if let Some(name) = schema["$ref"].as_str() {
        return fits(root, root.pointer(name.trim_start_matches('#')).unwrap(), value);
    }
    if let Some(forms) = schema["anyOf"].as_array() {
        return forms.iter().any(|form| fits(root, form, value));
    }
    if let Some(words) = schema["enum"].as_array() {
        return words.contains(value);
    }
    if let Some(word) = schema.get("const") {
        return word == value;
    }
    let types: Vec<&str> = match &schema["type"] {
        Value::String(one) => vec![one],
        many => many.as_array().unwrap().iter().filter_map(Value::as_str).collect(),
    };
    let bound = |key: &str| schema[key].as_i64();
    types.into_iter().any(|kind| match (kind, value) {
        ("object", Value::Object(map)) => {
            let known = |(key, value): (&String, &Value)| {
                schema["properties"].get(key).is_some_and(|inner| fits(root, inner, value))
            };
            let needed = schema["required"].as_array().unwrap();
            map.iter().all(known)
                && needed.iter().all(|key| map.contains_key(key.as_str().unwrap()))
        }
        ("array", Value::Array(list)) => {
            !list.is_empty() && list.iter().all(|value| fits(root, &schema["items"], value))
        }
        ("integer", Value::Number(n)) => n.as_i64().is_some_and(|n| {
            bound("minimum").is_none_or(|low| n >= low)
                && bound("maximum").is_none_or(|high| n <= high)
        }),
        ("number", Value::Number(_))
        | ("string", Value::String(_))
        | ("boolean", Value::Bool(_)) => true,
        _ => false,
    })
}

fn demo(change: impl Fn(&mut Value)) -> Value {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../scenarios/square-ends.toml");
    let text = std::fs::read_to_string(path).unwrap();
    let mut value = serde_json::to_value(text.parse::<toml::Table>().unwrap()).unwrap();
    change(&mut value);
    value
}

#[test]
fn exact_json_schema_accepts_the_demo_and_refuses_slips() {
    let schema: Value = serde_json::from_str(&scenario::json_schema()).unwrap();
    let good = |value: Value| fits(&schema, &schema, &value);
    assert!(good(demo(|_| {})));
    assert!(good(demo(|d| d["arrow"]["vanes"] = "none".into())));
    assert!(good(demo(|d| d["arrow"]["index"] = "any".into())));
    assert!(!good(demo(|d| d["bow"]["draw_wieght"] = "60 lbf".into())));
    assert!(!good(demo(|d| d["arrow"]["nock"] = "none".into())));
    assert!(!good(demo(|d| d["arrow"]["shaft"]["length"] = 28.5.into())));
    assert!(!good(demo(|d| d["question"]["kind"] = "ask".into())));
    assert!(!good(demo(|d| d["build"][0]["seed"] = 3.into())));
    assert!(!good(demo(|d| d["seed"] = (-1).into())));
    assert!(!good(demo(|d| d["archer"]["aim_left"] = serde_json::json!({ "rayleigh": "1 deg" }))));
}
