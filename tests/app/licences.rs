//! The list of what the program is made of, with the licences it must carry, is the list of what is
//! really in it.
//!
//! `TAUTMARK_WRITE_LICENCES=1 cargo test -p tautmark-app-tests --test licences` writes it anew from
//! the sources that a build has fetched.

use cargo_metadata::{CargoOpt, DependencyKind, Metadata, MetadataCommand, Package, TargetKind};
use std::collections::{BTreeMap, HashSet};
use std::fs;
use std::path::{Path, PathBuf};
use tautmark::app::licences::{Licences, Part, all};

/// Devices that the program is built for.
const DEVICES: [&str; 5] = [
    "x86_64-unknown-linux-gnu",
    "x86_64-pc-windows-msvc",
    "aarch64-apple-darwin",
    "aarch64-linux-android",
    "wasm32-unknown-unknown",
];

/// Where there is a choice, the first of these is taken.
const CHOICE: [&str; 13] = [
    "MIT",
    "Apache-2.0",
    "BSD-3-Clause",
    "BSD-2-Clause",
    "ISC",
    "Zlib",
    "BSL-1.0",
    "0BSD",
    "MIT-0",
    "Unlicense",
    "CC0-1.0",
    "MPL-2.0",
    "LicenseRef-Slint-Royalty-free-2.0",
];

/// Words by which the text of a licence is known.
const KNOWN_BY: [(&str, &str); 13] = [
    ("MIT", "Permission is hereby granted, free of charge"),
    ("MIT-0", "Permission is hereby granted, free of charge"),
    ("Apache-2.0", "Apache License"),
    ("BSD-", "Redistribution and use in source and binary forms"),
    ("ISC", "Permission to use, copy, modify, and"),
    ("0BSD", "Permission to use, copy, modify, and"),
    ("Zlib", "provided 'as-is'"),
    ("BSL-1.0", "Boost Software License"),
    ("Unlicense", "This is free and unencumbered software"),
    ("CC0-1.0", "CC0 1.0"),
    ("MPL-2.0", "Mozilla Public License"),
    ("Unicode", "UNICODE"),
    ("LicenseRef-Slint", "Slint Royalty-free"),
];

fn repository() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// Every package that is in the program on some device, by name and version.
fn packages() -> BTreeMap<(String, String), Package> {
    let mut all = BTreeMap::new();
    for device in DEVICES {
        let metadata = MetadataCommand::new()
            .manifest_path(repository().join("Cargo.toml"))
            .features(CargoOpt::NoDefaultFeatures)
            .features(CargoOpt::SomeFeatures(vec!["app".to_owned()]))
            .other_options(
                ["--locked", "--offline", "--filter-platform", device].map(str::to_owned),
            )
            .exec()
            .expect("the lock file names every part");
        for package in linked(&metadata) {
            all.insert(
                (package.name.to_string(), package.version.to_string()),
                package,
            );
        }
    }
    all
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

/// The licences that are taken, of what an expression offers.
fn chosen(expression: &str) -> Vec<String> {
    let plain = expression.replace('/', " OR ").replace(['(', ')'], "");
    let all = plain.split(" AND ").map(|part| {
        let offered: Vec<&str> = part.split(" OR ").map(str::trim).collect();
        let first = CHOICE.iter().find(|one| offered.contains(one));
        first.copied().unwrap_or(offered[0]).to_owned()
    });
    let mut all: Vec<String> = all.collect();
    all.dedup();
    all
}

fn known_by(licence: &str) -> Option<&'static str> {
    let found = KNOWN_BY.iter().find(|(name, _)| licence.starts_with(name));
    found.map(|(_, words)| *words)
}

/// The files of a package that may hold a licence.
fn licence_files(package: &Package) -> Vec<String> {
    let folder = package
        .manifest_path
        .parent()
        .expect("a folder")
        .as_std_path();
    let mut names = Vec::new();
    for folder in [folder.to_owned(), folder.join("LICENSES")] {
        for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
            let name = entry.file_name().to_string_lossy().to_uppercase();
            let begins = [
                "LICEN",
                "COPYING",
                "UNLICENSE",
                "LICENSEREF",
                "MIT",
                "APACHE",
            ];
            if begins.iter().any(|begin| name.starts_with(begin)) && entry.path().is_file() {
                names.push(entry.path());
            }
        }
    }
    names.sort();
    names
        .iter()
        .filter_map(|path| fs::read_to_string(path).ok())
        .collect()
}

/// Who holds the rights, and the text below that.
fn split(text: &str) -> (Vec<String>, String) {
    let text = text.replace('\r', "");
    let held = |line: &str| {
        let line = line.trim().to_lowercase();
        (line.starts_with("copyright") || line.starts_with("(c)") || line.starts_with('©'))
            && line.contains(|c: char| c.is_ascii_digit())
            && !line.contains(['[', '{'])
            && line.len() < 160
    };
    let holders = text
        .lines()
        .filter(|line| held(line))
        .map(|line| line.trim().to_owned());
    let body: Vec<&str> = text
        .lines()
        .filter(|line| !held(line))
        .map(str::trim_end)
        .collect();
    (holders.collect(), body.join("\n").trim().to_owned())
}

/// Texts that differ only in how their lines are broken are one.
fn print(text: &str) -> String {
    text.split_whitespace()
        .collect::<Vec<_>>()
        .join(" ")
        .to_lowercase()
}

fn written(packages: &BTreeMap<(String, String), Package>) -> Licences {
    let mut texts: Vec<String> = Vec::new();
    let mut parts = vec![];
    let place = |body: String, texts: &mut Vec<String>| {
        let known = texts.iter().position(|one| print(one) == print(&body));
        known.unwrap_or_else(|| {
            texts.push(body);
            texts.len() - 1
        })
    };
    let own = fs::read_to_string(repository().join("LICENSE")).expect("our own licence");
    let font = fs::read_to_string(repository().join("ui/fonts/OFL.txt")).expect("the typeface's");
    for (name, licence, text) in [
        ("Tautmark", "MIT", own),
        ("B612, the typeface", "SIL Open Font License 1.1", font),
    ] {
        let (holders, body) = split(&text);
        parts.push(Part {
            name: name.to_owned(),
            version: String::new(),
            licence: licence.to_owned(),
            holders,
            texts: vec![place(body, &mut texts)],
        });
    }
    let mut without: Vec<(usize, String)> = Vec::new();
    for ((name, version), package) in packages {
        let licences = chosen(package.license.as_deref().unwrap_or("see its text"));
        let files = licence_files(package);
        let mut part = Part {
            name: name.clone(),
            version: version.clone(),
            licence: licences.join(" and "),
            holders: Vec::new(),
            texts: Vec::new(),
        };
        for licence in &licences {
            let words = known_by(licence);
            let file = files
                .iter()
                .find(|text| words.is_none_or(|words| text.contains(words)));
            match file {
                Some(text) => {
                    let (holders, body) = split(text);
                    part.holders.extend(holders);
                    part.texts.push(place(body, &mut texts));
                }
                None => without.push((parts.len(), licence.clone())),
            }
        }
        part.holders.dedup();
        if part.holders.is_empty() && !package.authors.is_empty() {
            part.holders
                .push(format!("Copyright {}", package.authors.join(", ")));
        }
        parts.push(part);
    }
    // A package that leaves its licence at its repository has the same words as the others of it.
    for (at, licence) in without {
        let words = known_by(&licence).unwrap_or_else(|| panic!("{licence} is not known"));
        let same = texts.iter().position(|text| text.contains(words));
        let same = same.unwrap_or_else(|| panic!("no text of {licence}, of {:?}", parts[at]));
        parts[at].texts.push(same);
    }
    Licences { parts, texts }
}

#[test]
fn everything_in_the_program_is_listed_with_its_licence() {
    let packages = packages();
    if std::env::var_os("TAUTMARK_WRITE_LICENCES").is_some() {
        let text = serde_json::to_string_pretty(&written(&packages)).expect("plain text");
        let file = repository().join("src/app/about/licences/parts.json");
        fs::write(file, text + "\n").expect("the list can be written");
        return;
    }
    let listed: HashSet<(String, String)> = all()
        .parts
        .into_iter()
        .filter(|part| !part.version.is_empty())
        .map(|part| (part.name, part.version))
        .collect();
    let really: HashSet<(String, String)> = packages.into_keys().collect();
    let missing: Vec<_> = really.difference(&listed).collect();
    let gone: Vec<_> = listed.difference(&really).collect();
    assert!(
        missing.is_empty() && gone.is_empty(),
        "write the list anew, see the head of this file; missing {missing:?}, gone {gone:?}"
    );
}

#[test]
fn every_part_has_a_text() {
    let licences = all();
    assert!(licences.parts.len() > 100);
    for part in &licences.parts {
        assert!(!part.texts.is_empty(), "{part:?}");
        assert!(
            part.texts.iter().all(|at| *at < licences.texts.len()),
            "{part:?}"
        );
        assert!(!part.licence.is_empty(), "{part:?}");
    }
}
