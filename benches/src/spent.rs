//! What this program has taken of the machine, as the system tells it.

use std::fs;

/// Seconds of this program's own work so far, on all cores together; none where the system
/// does not tell.
pub fn worked() -> Option<f64> {
    /// Ticks of the clock in which the system tells it, 1/s.
    const TICKS: f64 = 100.0;
    let text = fs::read_to_string("/proc/self/stat").ok()?;
    let fields: Vec<&str> = text.rsplit_once(')')?.1.split_whitespace().collect();
    let ticks = |at: usize| fields.get(at)?.parse::<f64>().ok();
    Some((ticks(11)? + ticks(12)?) / TICKS)
}

/// Most memory this program has had, MB; not a number where it is not told.
pub fn memory() -> f64 {
    let told = fs::read_to_string("/proc/self/status").unwrap_or_default();
    let peak = told.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    let kilo = peak.and_then(|text| text.trim().trim_end_matches(" kB").parse::<f64>().ok());
    kilo.map_or(f64::NAN, |kilo| kilo / 1024.0)
}
