//! The house: which folder may know which, no two files that need each other, and no two things of one
//! name.
//!
//! A floor stands on those below it and knows none beside it or above. What is named against that is
//! said with its file and line.

mod sources;

use sources::{Declared, Edge, Module, declared, edges};
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

/// From the ground up.
const HOUSE: [&[&str]; 14] = [
    &["length", "clock", "cautions", "listed"],
    &["tape", "laser", "volume"],
    &["adjust", "job"],
    &["store", "quick"],
    &["site"],
    &["setout", "levels"],
    &["boards"],
    &["solve"],
    &["drawing", "say"],
    &["sheet"],
    &["export"],
    &["app"],
    &["cli", "browser", "android"],
    &["main"],
];

/// The app's own floors: what the device does for it, what is on the desk, how it is shown, how window
/// and desk talk, what things are called, how they get another name and how they are added. The places stand on these,
/// beside each other, and the folder's first file lists them.
const APP: [&str; 7] = [
    "device", "desk", "kit", "bridge", "names", "renaming", "adding",
];

fn src() -> Vec<Edge> {
    edges(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"))
}

fn said(edge: &Edge) -> String {
    let inside = edge.file.strip_prefix(env!("CARGO_MANIFEST_DIR"));
    let file = inside.unwrap_or(&edge.file).display();
    format!(
        "{file}:{}: {} names {}",
        edge.line,
        edge.from.join("/"),
        edge.to.join("/")
    )
}

fn floor(folder: &str) -> usize {
    let found = HOUSE.iter().position(|floor| floor.contains(&folder));
    found.unwrap_or_else(|| panic!("“{folder}” stands on no floor of the house; give it one"))
}

#[test]
fn every_folder_stands_on_those_below_it() {
    let against: Vec<String> = src()
        .iter()
        .filter(|edge| match (edge.from.first(), edge.to.first()) {
            (Some(from), Some(to)) => from != to && floor(from) <= floor(to),
            _ => false,
        })
        .map(said)
        .collect();
    assert!(against.is_empty(), "{}", against.join("\n"));
}

#[test]
fn in_the_app_the_desk_knows_no_place() {
    let floor = |module: &Module| match module.get(1) {
        Some(part) => APP.iter().position(|own| own == part).unwrap_or(APP.len()),
        None => APP.len() + 1,
    };
    let in_app = |edge: &&Edge| edge.from.first() == edge.to.first() && edge.from[0] == "app";
    let all = src();
    let against = all
        .iter()
        .filter(in_app)
        .filter(|edge| floor(&edge.from) < floor(&edge.to));
    let against: Vec<String> = against.map(said).collect();
    assert!(against.is_empty(), "{}", against.join("\n"));
}

#[test]
fn no_files_need_each_other_in_a_circle() {
    let round = circles(&src());
    assert!(round.is_empty(), "{}", round.join("\n\n"));
}

/// The edges of each circle: files of which each leads to every other.
fn circles(edges: &[Edge]) -> Vec<String> {
    let mut next: BTreeMap<&Module, BTreeSet<&Module>> = BTreeMap::new();
    for edge in edges {
        next.entry(&edge.from).or_default().insert(&edge.to);
    }
    let reached = |from| {
        let mut met: BTreeSet<&Module> = BTreeSet::new();
        let mut left = vec![from];
        while let Some(at) = left.pop() {
            let on = next.get(at).into_iter().flatten();
            left.extend(on.filter(|one| met.insert(one)).copied());
        }
        met
    };
    let reach: BTreeMap<&Module, BTreeSet<&Module>> =
        next.keys().map(|&from| (from, reached(from))).collect();
    let leads = |from: &Module, to: &Module| reach.get(from).is_some_and(|met| met.contains(to));
    let mut met: BTreeSet<&Module> = BTreeSet::new();
    let mut all = Vec::new();
    for &start in next.keys() {
        if !leads(start, start) || met.contains(start) {
            continue;
        }
        let round = |module: &Module| leads(start, module) && leads(module, start);
        met.extend(next.keys().filter(|module| round(module)));
        let within = edges
            .iter()
            .filter(|edge| round(&edge.from) && round(&edge.to));
        all.push(within.map(said).collect::<Vec<_>>().join("\n"));
    }
    all
}

#[test]
fn a_circle_and_a_step_up_are_seen() {
    let folder = tempfile::tempdir().expect("a folder");
    let write = |name: &str, text: &str| {
        let path = folder.path().join(name);
        std::fs::create_dir_all(path.parent().expect("a folder")).expect("made");
        std::fs::write(path, text).expect("written");
    };
    write("lib.rs", "mod job;\nmod site;\n");
    write(
        "job/mod.rs",
        "//! crate::site is no path here\nmod read;\nmod write;\n",
    );
    write(
        "job/read.rs",
        "use super::{\n    write::{self, Text},\n};\n",
    );
    write(
        "job/write.rs",
        "fn f() { let a = \"crate::site\"; crate::job::read::it('\\''); }\n",
    );
    write(
        "site/mod.rs",
        "#[cfg(test)]\nmod tests {\n    use crate::job;\n}\n",
    );
    let seen = edges(folder.path());
    let lines: Vec<(String, String, usize)> = seen
        .iter()
        .map(|edge| (edge.from.join("/"), edge.to.join("/"), edge.line))
        .collect();
    let expected = [("job/read", "job/write", 2), ("job/write", "job/read", 1)];
    let expected = expected.map(|(from, to, line)| (from.to_owned(), to.to_owned(), line));
    assert_eq!(lines, expected);
    assert_eq!(circles(&seen).len(), 1);
}

/// Every type and trait that others can see, in the code and on the screens.
fn everywhere() -> Vec<Declared> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut all = declared(&root.join("src"), "rs");
    all.extend(declared(&root.join("ui"), "slint"));
    all
}

/// Every name that more than one type has, and where each stands.
fn shared(all: &[Declared]) -> BTreeMap<&str, Vec<String>> {
    let mut named: BTreeMap<&str, Vec<String>> = BTreeMap::new();
    for one in all {
        let inside = one.file.strip_prefix(env!("CARGO_MANIFEST_DIR"));
        let file = inside.unwrap_or(&one.file).display();
        let place = format!("{file}:{}", one.line);
        named.entry(&one.name).or_default().push(place);
    }
    named.retain(|_, places| places.len() > 1);
    named
}

#[test]
fn every_name_is_of_one_thing() {
    let all = everywhere();
    assert!(all.len() > 300, "only {} names were read", all.len());
    let said = shared(&all).into_iter();
    let said = said.map(|(name, places)| format!("{name}: {}", places.join(", ")));
    let said: Vec<String> = said.collect();
    assert!(said.is_empty(), "{}", said.join("\n"));
}

#[test]
fn a_name_that_stands_twice_is_seen() {
    let folder = tempfile::tempdir().expect("a folder");
    let write = |name: &str, text: &str| {
        std::fs::write(folder.path().join(name), text).expect("written");
    };
    write(
        "site.rs",
        "// pub struct Never;\npub struct Post;\nstruct Own;\n#[cfg(test)]\nmod tests {\n    pub struct Post;\n}\n",
    );
    write(
        "fence.rs",
        "struct Own;\npub(crate) enum Post { A }\npub fn f() { let a = \"pub trait Post\"; }\n",
    );
    write(
        "row.slint",
        "export struct Post { id: string }\ncomponent Own { }\n",
    );
    let mut all = declared(folder.path(), "rs");
    all.extend(declared(folder.path(), "slint"));
    let found = shared(&all);
    assert_eq!(found.keys().collect::<Vec<_>>(), [&"Post"]);
    assert_eq!(found["Post"].len(), 3, "{found:?}");
}
