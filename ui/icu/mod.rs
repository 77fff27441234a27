// Included by each of the crates that bring the text layout's data: from here, each its own.
include!(concat!(
    env!("ICU4X_DATA_DIR"),
    "/",
    env!("CARGO_PKG_NAME"),
    ".rs"
));
