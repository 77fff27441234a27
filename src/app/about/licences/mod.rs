//! What the program is made of, and the licences that it carries for that. The list beside this file
//! is written, and held to what is really in the program, by a test of the app.

use serde::{Deserialize, Serialize};

/// The parts, and the texts of their licences.
#[derive(Clone, Debug, Default, Serialize, Deserialize)]
pub struct Licences {
    /// What it is made of, by name.
    pub parts: Vec<Part>,
    /// Each licence's text once.
    pub texts: Vec<String>,
}

/// One part of the program.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Part {
    /// As it is published.
    pub name: String,
    /// Empty where it has none of its own.
    pub version: String,
    /// The licence that is taken, of those that are offered.
    pub licence: String,
    /// Who holds the rights, as the part itself says.
    pub holders: Vec<String>,
    /// Places in [`Licences::texts`].
    pub texts: Vec<usize>,
}

/// Every part with its licence.
#[must_use]
pub fn all() -> Licences {
    serde_json::from_str(include_str!("parts.json")).unwrap_or_default()
}

impl Licences {
    /// What must be shown of a part: who holds the rights, and the licence in full.
    #[must_use]
    pub fn text_of(&self, part: &Part) -> String {
        let holders = part.holders.join("\n");
        let texts = part.texts.iter().filter_map(|&at| self.texts.get(at));
        let all: Vec<&str> = [holders.as_str()]
            .into_iter()
            .chain(texts.map(String::as_str))
            .filter(|text| !text.is_empty())
            .collect();
        all.join("\n\n")
    }
}
