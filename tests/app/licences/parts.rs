//! What is really in the program, as cargo resolves it from the lock file.

use cargo_metadata::{
    CargoOpt, DependencyKind, Error, Metadata, MetadataCommand, Package, TargetKind,
};
use std::collections::{BTreeMap, HashSet};
use std::path::{Path, PathBuf};

/// Packages by name and version.
pub type Packages = BTreeMap<(String, String), Package>;

/// Devices that the program is built for.
const DEVICES: [&str; 5] = [
    "x86_64-unknown-linux-gnu",
    "x86_64-pc-windows-msvc",
    "aarch64-apple-darwin",
    "aarch64-linux-android",
    "wasm32-unknown-unknown",
];

pub fn repository() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// Every package that is in the program on some device. What this machine has not fetched yet is
/// fetched: a build fetches only what its own device needs.
pub fn packages(command: &MetadataCommand) -> Result<Packages, String> {
    let mut all = BTreeMap::new();
    for device in DEVICES {
        let metadata = command
            .clone()
            .manifest_path(repository().join("Cargo.toml"))
            .features(CargoOpt::NoDefaultFeatures)
            .features(CargoOpt::SomeFeatures(vec!["app".to_owned()]))
            .other_options(["--locked", "--filter-platform", device].map(str::to_owned))
            .exec()
            .map_err(what_to_do)?;
        for package in linked(&metadata) {
            all.insert(
                (package.name.to_string(), package.version.to_string()),
                package,
            );
        }
    }
    Ok(all)
}

fn what_to_do(error: Error) -> String {
    let said = match error {
        Error::CargoMetadata { stderr } => stderr,
        other => other.to_string(),
    };
    format!(
        "cargo could not read every part of the program:\n\n{}\n\n\
         The list of licences is held against the parts for every device, also those that this machine\n\
         does not build for. Where they have not been fetched yet this needs a network, once: connect it\n\
         and run “cargo fetch --locked”. After that the test runs without one.",
        said.trim_end()
    )
}

/// What is linked into the program: dependencies of dependencies, but for those that only build it.
fn linked(metadata: &Metadata) -> Vec<Package> {
    let graph = metadata.resolve.as_ref().expect("a graph of dependencies");
    let root = metadata
        .packages
        .iter()
        .find(|one| one.name.as_str() == "tautmark");
    let mut open = vec![root.expect("the program itself").id.clone()];
    let mut seen = HashSet::new();
    let mut found = Vec::new();
    while let Some(id) = open.pop() {
        if !seen.insert(id.clone()) {
            continue;
        }
        let package = &metadata[&id];
        let macros = |kind: &TargetKind| *kind == TargetKind::ProcMacro;
        if package
            .targets
            .iter()
            .any(|target| target.kind.iter().any(macros))
        {
            continue;
        }
        if package.source.is_some() {
            found.push(package.clone());
        }
        let node = graph.nodes.iter().find(|node| node.id == id);
        for dep in &node.expect("every package has a node").deps {
            if dep
                .dep_kinds
                .iter()
                .any(|kind| kind.kind == DependencyKind::Normal)
            {
                open.push(dep.pkg.clone());
            }
        }
    }
    found
}
