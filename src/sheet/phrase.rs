//! Small turns of phrase that every part of the sheet shares.

/// `1 post`, `2 posts`.
pub fn count(n: usize, one: &str) -> String {
    if n == 1 {
        format!("1 {one}")
    } else {
        format!("{n} {one}s")
    }
}

/// The same, starting a sentence in words up to twelve.
pub fn count_in_words(n: usize, one: &str) -> String {
    const WORDS: [&str; 13] = [
        "No", "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine", "Ten",
        "Eleven", "Twelve",
    ];
    let number = WORDS
        .get(n)
        .map_or_else(|| n.to_string(), |&word| word.to_owned());
    let many = if n == 1 { "" } else { "s" };
    format!("{number} {one}{many}")
}

/// The sentence with its first letter large.
pub fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    match letters.next() {
        Some(first) => first.to_uppercase().chain(letters).collect(),
        None => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::listed::and;

    #[test]
    fn one_and_many() {
        assert_eq!(count(1, "post"), "1 post");
        assert_eq!(count(0, "post"), "0 posts");
        assert_eq!(count_in_words(6, "mark"), "Six marks");
        assert_eq!(count_in_words(13, "mark"), "13 marks");
    }

    #[test]
    fn lists_and_sentences() {
        let of = |items: &[&str]| and(&items.iter().map(ToString::to_string).collect::<Vec<_>>());
        assert_eq!(of(&["a"]), "a");
        assert_eq!(of(&["a", "b", "c"]), "a, b and c");
        assert_eq!(sentence("égal"), "Égal");
        assert_eq!(sentence(""), "");
    }
}
