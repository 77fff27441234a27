//! What problems call posts: one, or several that the same is said of.

use crate::listed::and;

/// What a problem calls a post; with a capital where a sentence starts with it.
#[must_use]
pub fn post_called(run: &str, n: usize) -> String {
    format!("post {n} of run “{run}”")
}

/// Several posts, each as its run and its number, run by run in the order in which they come.
///
/// ```
/// use tautmark::setout::posts_called;
/// let posts = [("R1", 2), ("R1", 3), ("R2", 1)];
/// assert_eq!(posts_called(&posts), "posts 2 and 3 of run “R1” and post 1 of run “R2”");
/// ```
#[must_use]
pub fn posts_called(posts: &[(&str, usize)]) -> String {
    let mut runs: Vec<(&str, Vec<usize>)> = Vec::new();
    for &(run, n) in posts {
        match runs.iter_mut().find(|(known, _)| *known == run) {
            Some((_, numbers)) if numbers.contains(&n) => {}
            Some((_, numbers)) => numbers.push(n),
            None => runs.push((run, vec![n])),
        }
    }
    let of_run = |(run, numbers): (&str, Vec<usize>)| match numbers.as_slice() {
        [n] => post_called(run, *n),
        all => {
            let all: Vec<String> = all.iter().map(usize::to_string).collect();
            format!("posts {} of run “{run}”", and(&all))
        }
    };
    and(&runs.into_iter().map(of_run).collect::<Vec<_>>())
}

pub(super) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}
