//! The list of what the program is made of, with the licences it must carry, is the list of what is
//! really in it.
//!
//! `TAUTMARK_WRITE_LICENCES=1 cargo test -p tautmark-app-tests --test licences` writes it anew.
//! Both fetch the parts that only other devices need, once; without a network they say so.

mod list;
mod parts;

use cargo_metadata::MetadataCommand;
use list::written;
use parts::{packages, repository};
use std::collections::HashSet;
use std::fs;
use tautmark::app::licences::all;

#[test]
fn everything_in_the_program_is_listed_with_its_licence() {
    let packages = packages(&MetadataCommand::new()).unwrap_or_else(|said| panic!("{said}"));
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

#[test]
fn without_a_network_it_says_what_to_do() {
    let nothing_fetched = tempfile::tempdir().expect("a folder");
    let mut command = MetadataCommand::new();
    command
        .env("CARGO_HOME", nothing_fetched.path())
        .env("CARGO_NET_OFFLINE", "true");
    let said = packages(&command).expect_err("nothing can be fetched");
    assert!(said.contains("cargo fetch --locked"), "{said}");
    assert!(
        said.contains("offline"),
        "cargo's own words are there: {said}"
    );
}
