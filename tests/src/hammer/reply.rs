//! What an answer of a page may hold.

use serde_json::Value;

/// What an answer may leave out, for a reason: parts that this stage does not tell.
const LEFT_OUT: [&str; 2] = ["mind", "told"];
/// Numbers that are none, as they are printed.
const NONE: [&str; 3] = ["nan", "inf", "infinity"];

/// An answer of a page.
#[derive(Debug)]
pub struct Reply {
    /// Its status.
    pub code: u16,
    /// Its content type.
    pub kind: String,
    /// What it says.
    pub body: String,
    /// Whether it came to its end before the visitor went.
    pub whole: bool,
}

impl Reply {
    /// The events of a stream, by name; none of any other answer.
    ///
    /// # Panics
    /// Where one is no line of JSON.
    pub fn events(&self) -> Vec<(&str, Value)> {
        if self.kind != "text/event-stream" {
            return Vec::new();
        }
        let mut all = Vec::new();
        // What comes behind the last blank line is not there yet.
        let mut events: Vec<&str> = self.body.split("\n\n").collect();
        let rest = events.pop().unwrap_or_default();
        assert!(!self.whole || rest.is_empty(), "a stream ends within an event: {rest:?}");
        for event in events {
            let of = |name: &str| event.lines().find_map(|line| line.strip_prefix(name));
            match (of("event: "), of("data: ")) {
                (Some(name), Some(data)) => match serde_json::from_str(data) {
                    Ok(data) => all.push((name, data)),
                    Err(error) => panic!("{name} is no JSON, {error}: {data}"),
                },
                _ => assert!(event.lines().all(|line| line.starts_with(':')), "{event:?}"),
            }
        }
        all
    }

    /// Minds that it is well formed and holds no number that is none.
    ///
    /// # Panics
    /// Where it does not.
    pub(super) fn mind(&self, request: &str) {
        let events = self.events();
        if self.kind == "text/event-stream" && self.whole {
            let ends = |(name, data): &(&str, Value)| match *name {
                "answer" => data["last"] == true,
                name => name == "asked" || name == "wrong",
            };
            assert!(events.last().is_some_and(ends), "a stream without an end: {request}");
        }
        for (name, data) in &events {
            let known = ["answer", "asked", "pace", "wrong"].contains(name);
            assert!(known && data.is_object(), "{name}: {data}");
            numbered(name, data, request);
        }
        if self.kind == "application/json" {
            match serde_json::from_str::<Value>(&self.body) {
                // Files to take say themselves why there is nothing.
                Ok(_) if request.starts_with("GET /t") => {}
                Ok(data) => numbered("json", &data, request),
                Err(error) => panic!("{error}: {request}\n{:.2000}", self.body),
            }
        }
        // A visitor who writes such a word reads it again.
        let asked = request.to_ascii_lowercase();
        let told = !["javascript", "pdf"].iter().any(|kind| self.kind.contains(kind));
        if told && NONE.iter().all(|none| !asked.contains(none)) {
            let words = self.body.split(|letter: char| !letter.is_alphanumeric());
            for word in words.filter(|word| word.len() >= 3 && word.len() <= 8) {
                let none = NONE.contains(&word.to_ascii_lowercase().as_str());
                assert!(!none, "{word} in {} of {request}", self.kind);
            }
        }
    }
}

/// JSON has no number that is none: what would be one is nothing.
fn numbered(name: &str, data: &Value, request: &str) {
    match data {
        Value::Null => assert!(LEFT_OUT.contains(&name), "{name} is nothing: {request}"),
        Value::Array(all) => all.iter().for_each(|one| numbered(name, one, request)),
        Value::Object(all) => all.iter().for_each(|(name, one)| numbered(name, one, request)),
        Value::Bool(_) | Value::Number(_) | Value::String(_) => {}
    }
}
