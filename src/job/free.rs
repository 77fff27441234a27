//! Names that nothing has yet.

/// The first of these names that is not taken; the last of them where all are, and none without any.
///
/// ```
/// use tautmark::job::first_free;
///
/// let taken = ["string 1", "string 2"];
/// let names = (1..).map(|n| format!("string {n}"));
/// assert_eq!(first_free(names, |name| taken.contains(&name)), "string 3");
/// ```
#[must_use]
pub fn first_free(
    names: impl IntoIterator<Item = String>,
    is_taken: impl Fn(&str) -> bool,
) -> String {
    let mut last = String::new();
    for name in names {
        if !is_taken(&name) {
            return name;
        }
        last = name;
    }
    last
}

/// The first of `stem`1, `stem`2, … that nothing is called yet.
#[must_use]
pub fn free_name<'a>(stem: &str, taken: impl Iterator<Item = &'a str> + Clone) -> String {
    numbered(stem, 1, taken)
}

/// The same from a number on.
#[must_use]
pub fn numbered<'a>(
    stem: &str,
    from: usize,
    taken: impl Iterator<Item = &'a str> + Clone,
) -> String {
    let names = (from..).map(|number| format!("{stem}{number}"));
    first_free(names, |name| taken.clone().any(|other| other == name))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_free_name_is_the_first_number_not_taken() {
        let taken = ["S1", "S2", "S4"];
        assert_eq!(free_name("S", taken.into_iter()), "S3");
        assert_eq!(free_name("g", [].into_iter()), "g1");
        assert_eq!(numbered("S", 4, taken.into_iter()), "S5");
    }
}
