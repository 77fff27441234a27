//! One thing, one word: what a person reads has none of the words that stopped tradespeople, nor a second
//! word for a thing that has one. DEVELOPERS.md lists the words that are used.

use std::fs;
use std::path::{Path, PathBuf};

/// What is never said, and what is said instead.
const NEVER: [(&str, &str); 32] = [
    ("remove", "delete"),
    ("removed", "deleted"),
    ("erase", "delete"),
    ("tick", "mark as done"),
    ("ticks", "marked as done"),
    ("ticked", "marked as done"),
    ("surer", "more certain"),
    ("serve", "what it does"),
    ("serves", "what it does"),
    ("asks for", "needs"),
    ("let in", "cut into, notched"),
    ("half round", "through 180°"),
    ("from there", "from the second place"),
    ("other arms", "choose other arms"),
    ("it reads…", "type what it reads"),
    ("has this name as soon", "keeps this name"),
    ("shown, not changed", "for viewing only"),
    ("done again", "redone"),
    ("bays back", "the run's bays as they were"),
    ("round unseen", "and no other sight shows it"),
    ("the two fences", "the two runs"),
    ("refers to it", "uses it"),
    ("what they count on", "tape and laser"),
    ("take care", "the hazard's own name"),
    ("as the rest", "agrees with the others"),
    ("the rest make", "the others give"),
    ("in 100 of it", "% of it"),
    ("line “", "string “"),
    ("lines that cross", "strings that cross"),
    ("off the list", "delete"),
    ("refer to it", "use it"),
    ("counts on", "uses"),
];

/// Where the same words mean something else: a choice of arms that is offered, and arms that were marked.
const ALLOWED: [&str; 2] = ["choose other arms", "were other arms marked"];

fn files(folder: &Path, into: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).expect("a folder of sources") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            files(&path, into);
        } else if path
            .extension()
            .is_some_and(|ending| ending == "rs" || ending == "slint")
        {
            into.push(path);
        }
    }
}

/// The texts in quotes of a source, each with its line; comments, attributes and unit tests left out.
fn texts(source: &str) -> Vec<(usize, String)> {
    let source = source.split("#[cfg(test)]").next().unwrap_or(source);
    let mut all = Vec::new();
    let mut open: Option<(usize, String)> = None;
    for (number, line) in source.lines().enumerate() {
        let bare = line.trim_start();
        if open.is_none() && (bare.starts_with("//") || bare.starts_with("#[")) {
            continue;
        }
        let mut letters = line.chars().peekable();
        while let Some(letter) = letters.next() {
            match (&mut open, letter) {
                // `'"'` is a letter, and no text begins with it.
                (None, '\'') if letters.peek() == Some(&'"') => {
                    letters.next();
                }
                (None, '/') if letters.peek() == Some(&'/') => break,
                (None, '"') => open = Some((number + 1, String::new())),
                (Some(_), '"') => all.extend(open.take()),
                (Some((_, text)), '\\') => match letters.next() {
                    Some('n') => text.push(' '),
                    Some(other) => text.push(other),
                    // The text goes on where the next line begins.
                    None => {}
                },
                (Some((_, text)), letter) => text.push(letter),
                (None, _) => {}
            }
        }
        if let Some((_, text)) = &mut open {
            let kept = text.trim_end().len();
            text.truncate(kept);
            text.push(' ');
        }
    }
    all
}

/// Whether the words stand in the text as words of their own, in capitals or not.
fn says(text: &str, words: &str) -> bool {
    let text = text.to_lowercase();
    let letter = |at: Option<char>| at.is_some_and(char::is_alphanumeric);
    text.match_indices(words).any(|(at, _)| {
        let before = text[..at].chars().next_back();
        let after = text[at + words.len()..].chars().next();
        !letter(before) && !letter(after)
    })
}

fn faults(source: &str) -> Vec<(usize, String)> {
    let mut all = Vec::new();
    for (line, text) in texts(source) {
        // A name for the program has no spaces and no capital: nobody reads it.
        let spoken = text.contains(' ') || text.starts_with(char::is_uppercase);
        for (never, instead) in NEVER {
            let allowed = ALLOWED.iter().any(|words| says(&text, words));
            if spoken && says(&text, never) && !allowed {
                all.push((line, format!("“{never}”, say “{instead}”: {text}")));
            }
        }
    }
    all
}

#[test]
fn nothing_that_a_person_reads_has_a_word_that_is_never_said() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut sources = Vec::new();
    for folder in ["src", "ui"] {
        files(&root.join(folder), &mut sources);
    }
    assert!(sources.len() > 200, "the sources are there");
    let found: Vec<String> = sources
        .iter()
        .flat_map(|file| {
            let source = fs::read_to_string(file).expect("a source file");
            let faults = faults(&source).into_iter();
            let said = faults.map(|(line, said)| format!("{}:{line}: {said}", file.display()));
            said.collect::<Vec<_>>()
        })
        .collect();
    assert!(found.is_empty(), "{}", found.join("\n"));
}

#[test]
fn a_word_is_found_where_it_is_read_and_nowhere_else() {
    let source = "// remove it\nlet a = \"Remove the\\\n   gate\"; // \"ticks here\"\nlet b = \"removal of it\";\nlet key = \"remove\";\n#[cfg(test)]\nlet c = \"remove this\";";
    let found = faults(source);
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(found[0].0, 2);
    assert!(says("Take care.", "take care"));
    assert!(!says("stickers", "tick"));
}
