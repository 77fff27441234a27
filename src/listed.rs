//! Several things in a sentence.

/// `a`, `a and b`, `a, b and c`; nothing for none.
pub(crate) fn and(items: &[String]) -> String {
    match items {
        [most @ .., last] if !most.is_empty() => format!("{} and {last}", most.join(", ")),
        items => items.concat(),
    }
}

#[cfg(test)]
mod tests {
    use super::and;

    #[test]
    fn the_last_of_several_follows_an_and() {
        let said = |items: &[&str]| and(&items.iter().map(ToString::to_string).collect::<Vec<_>>());
        assert_eq!(said(&[]), "");
        assert_eq!(said(&["2"]), "2");
        assert_eq!(said(&["2", "3"]), "2 and 3");
        assert_eq!(said(&["2", "3", "4"]), "2, 3 and 4");
    }
}
