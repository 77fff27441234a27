//! What a person calls a thing that has a name and an id.

/// Gives kinds with a name and an id the word that a person knows them by.
macro_rules! called {
    ($($kind:ident),*) => {$(
        impl $kind {
            /// The name that a person gave it, or the file's own where none was given.
            #[must_use]
            pub fn called(&self) -> &str {
                if self.name.is_empty() {
                    self.id.as_str()
                } else {
                    &self.name
                }
            }
        }
    )*};
}
pub(in crate::job) use called;
