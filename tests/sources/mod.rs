//! What each source file names of the others: its `use` lines and the paths written out in it.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// A file's place among the modules: `["job", "check", "counts"]`; nothing for the root.
pub type Module = Vec<String>;

/// One file that another one names.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Edge {
    pub from: Module,
    pub to: Module,
    pub file: PathBuf,
    pub line: usize,
}

/// Every edge between the files of a folder, tests left out, in order.
pub fn edges(root: &Path) -> Vec<Edge> {
    let files = files(root, "rs");
    let modules: BTreeSet<Module> = files.iter().map(|file| module(root, file)).collect();
    let mut all = BTreeSet::new();
    for file in files {
        let text = fs::read_to_string(&file).expect("a source file");
        let from = module(root, &file);
        for (path, line) in paths(&tokens(&text)) {
            let Some(to) = found(&modules, &from, &path) else {
                continue;
            };
            // A file and its own folder's first file are one room and its door.
            if !(from.starts_with(&to) && !to.is_empty() || to.starts_with(&from)) {
                let (from, file) = (from.clone(), file.clone());
                all.insert(Edge {
                    from,
                    to,
                    file,
                    line,
                });
            }
        }
    }
    all.into_iter().collect()
}

/// A type or a trait that others can see, and where it is declared.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Declared {
    pub name: String,
    pub file: PathBuf,
    pub line: usize,
}

/// What the files of a folder with this ending let others see, their tests left out: Rust's own words for
/// it, and those of the screens.
pub fn declared(root: &Path, ending: &str) -> Vec<Declared> {
    const KINDS: [&str; 6] = ["struct", "enum", "trait", "union", "type", "global"];
    let mut all = Vec::new();
    for file in files(root, ending) {
        let text = fs::read_to_string(&file).expect("a source file");
        let tokens = tokens(&text);
        for (at, (word, _)) in tokens.iter().enumerate() {
            if word != "pub" && word != "export" {
                continue;
            }
            // `pub(crate)` has three words more than `pub`.
            let within = tokens.get(at + 1).is_some_and(|(sign, _)| sign == "(");
            let kind = at + if within { 4 } else { 1 };
            let is_kind = |(word, _): &Token| KINDS.contains(&word.as_str());
            // What a macro declares has its name from where it is called.
            let named = tokens.get(kind + 1).filter(|(name, _)| name != "$");
            if let (true, Some((name, line))) = (tokens.get(kind).is_some_and(is_kind), named) {
                all.push(Declared {
                    name: name.clone(),
                    file: file.clone(),
                    line: *line,
                });
            }
        }
    }
    all
}

fn files(folder: &Path, with: &str) -> Vec<PathBuf> {
    let mut all = Vec::new();
    for entry in fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            all.extend(files(&path, with));
        } else if path.extension().is_some_and(|ending| ending == with)
            && path.file_name().is_some_and(|name| name != "tests.rs")
        {
            all.push(path);
        }
    }
    all.sort();
    all
}

fn module(root: &Path, file: &Path) -> Module {
    let inside = file
        .strip_prefix(root)
        .expect("in the folder")
        .with_extension("");
    let mut parts: Module = inside
        .iter()
        .map(|part| part.to_string_lossy().into_owned())
        .collect();
    if parts
        .last()
        .is_some_and(|last| last == "mod" || last == "lib")
    {
        parts.pop();
    }
    parts
}

/// The file that a path leads to; none where it leads out of the folder.
fn found(modules: &BTreeSet<Module>, from: &Module, path: &[String]) -> Option<Module> {
    let (mut at, mut rest) = match path.first()?.as_str() {
        "crate" | "tautmark" => (Vec::new(), &path[1..]),
        "self" => (from.clone(), &path[1..]),
        "super" => (from.clone(), path),
        _ => return None,
    };
    while rest.first().is_some_and(|part| part == "super") {
        at.pop();
        rest = &rest[1..];
    }
    // The solution is named by the root, and is at home in its own file.
    if at.is_empty() && rest.first().is_some_and(|part| part == "Solution") {
        return Some(vec!["solve".to_owned()]);
    }
    let as_long = (0..=rest.len()).rev();
    as_long
        .map(|length| [&at[..], &rest[..length]].concat())
        .find(|module| modules.contains(module))
}

/// A word or a sign, and its line.
type Token = (String, usize);

/// Words and signs of a file up to its own tests, without comments and texts.
fn tokens(source: &str) -> Vec<Token> {
    let chars: Vec<char> = source.chars().collect();
    let at = |i: usize| chars.get(i).copied().unwrap_or('\0');
    let mut tokens: Vec<Token> = Vec::new();
    let (mut i, mut line) = (0, 1);
    while i < chars.len() {
        let start = i;
        match at(i) {
            '/' if at(i + 1) == '/' => {
                while i < chars.len() && at(i) != '\n' {
                    i += 1;
                }
            }
            'r' if at(i + 1) == '#' && at(i + 2) == '"' => {
                i += 3;
                while i < chars.len() && !(at(i) == '"' && at(i + 1) == '#') {
                    i += 1;
                }
                i += 2;
            }
            '"' => {
                i += 1;
                while i < chars.len() && at(i) != '"' {
                    i += if at(i) == '\\' { 2 } else { 1 };
                }
                i += 1;
            }
            // A letter in quotes, and not a lifetime.
            '\'' if at(i + 1) == '\\' || at(i + 2) == '\'' => {
                i += if at(i + 1) == '\\' { 3 } else { 2 };
                while i < chars.len() && at(i) != '\'' {
                    i += 1;
                }
                i += 1;
            }
            c if c.is_alphanumeric() || c == '_' => {
                while at(i).is_alphanumeric() || at(i) == '_' {
                    i += 1;
                }
                tokens.push((chars[start..i].iter().collect(), line));
            }
            ':' if at(i + 1) == ':' => {
                i += 2;
                tokens.push(("::".to_owned(), line));
            }
            c => {
                i += 1;
                if !c.is_whitespace() {
                    tokens.push((c.to_string(), line));
                }
            }
        }
        let until = i.min(chars.len());
        line += chars[start..until].iter().filter(|&&c| c == '\n').count();
    }
    let tests = ["#", "[", "cfg", "(", "test", ")", "]", "mod"];
    let begins = |window: &[Token]| window.iter().zip(tests).all(|((word, _), own)| word == own);
    let end = tokens.windows(tests.len()).position(begins);
    tokens.truncate(end.unwrap_or(tokens.len()));
    tokens
}

/// Every path that begins at the root, here or above, with its line.
fn paths(tokens: &[Token]) -> Vec<(Vec<String>, usize)> {
    let mut all = Vec::new();
    let mut i = 0;
    while let Some((word, _)) = tokens.get(i) {
        let begins = matches!(word.as_str(), "crate" | "tautmark" | "super" | "self");
        let goes_on = tokens.get(i + 1).is_some_and(|(sign, _)| sign == "::");
        let inside = i > 0 && tokens[i - 1].0 == "::";
        if begins && goes_on && !inside {
            i = tree(tokens, i, &[], &mut all);
        } else {
            i += 1;
        }
    }
    all
}

/// Reads a path, or the tree of a `use`; gives where it ends.
fn tree(
    tokens: &[Token],
    mut i: usize,
    before: &[String],
    all: &mut Vec<(Vec<String>, usize)>,
) -> usize {
    let mut path = before.to_vec();
    let line = tokens.get(i).map_or(0, |(_, line)| *line);
    loop {
        match tokens.get(i).map(|(word, _)| word.as_str()) {
            Some("{") => {
                i += 1;
                while tokens.get(i).is_some_and(|(sign, _)| sign != "}") {
                    i = tree(tokens, i, &path, all).max(i + 1);
                    while tokens
                        .get(i)
                        .is_some_and(|(sign, _)| sign == "," || sign == "as")
                    {
                        i += 1;
                    }
                }
                return i + 1;
            }
            Some(word) if word != "," && word != "}" => path.push(word.to_owned()),
            _ => break,
        }
        i += 1;
        if tokens.get(i).is_none_or(|(sign, _)| sign != "::") {
            break;
        }
        i += 1;
    }
    all.push((path, line));
    i
}
