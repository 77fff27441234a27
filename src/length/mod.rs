use serde::{Deserialize, Serialize};
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Unit {
    #[default]
    #[serde(rename = "mm")]
    Mm,
    #[serde(rename = "m")]
    M,
    #[serde(rename = "ft-in")]
    FtIn,
}
