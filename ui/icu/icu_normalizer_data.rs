include!(concat!(env!("CARGO_MANIFEST_DIR"), "/data/mod.rs"));
