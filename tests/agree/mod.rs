//! Whether results agree with those worked out by a separate program.

use serde_json::Value;

/// Mm.
const LENGTH: f64 = 0.05;
/// Degrees.
const ANGLE: f64 = 0.005;

/// Names every figure of `expected` that `ours` does not have: lengths to 0.05 mm, angles to 0.005°.
pub fn compare(expected: &Value, ours: &Value, place: &str, misses: &mut Vec<String>) {
    match (expected, ours) {
        (Value::Object(wanted), Value::Object(_)) => {
            for (key, value) in wanted {
                compare(value, &ours[key], &format!("{place}.{key}"), misses);
            }
        }
        (Value::Array(wanted), Value::Array(found)) if wanted.len() == found.len() => {
            for (i, (value, own)) in wanted.iter().zip(found).enumerate() {
                compare(value, own, &format!("{place}[{i}]"), misses);
            }
        }
        (Value::Number(wanted), Value::Number(found)) => {
            let (wanted, found) = (
                wanted.as_f64().unwrap_or(0.0),
                found.as_f64().unwrap_or(0.0),
            );
            let angle = ["angle", "turn", "bevel", "bearing", "rotation"]
                .iter()
                .any(|word| place.ends_with(word) || place.ends_with("angle pm"));
            // chi2 is a sum of squares of figures that are themselves only this near.
            let allowed = match angle {
                true => ANGLE,
                false if place.contains("chi2") => LENGTH.max(wanted * 1e-5),
                false => LENGTH,
            };
            let apart = (wanted - found).abs();
            if apart.is_nan() || apart > allowed {
                misses.push(format!("{place}: expected {wanted}, found {found}"));
            }
        }
        _ if expected == ours => {}
        _ => misses.push(format!("{place}: expected {expected}, found {ours}")),
    }
}
