//! What the program does when it is told nothing: the app's window opens here.

use super::{Ending, Stop, output};
use tautmark::sheet::Sheet;
use tautmark::{job, solve};

/// Shows the example's sheet on standard output.
pub fn open() -> Result<Ending, Stop> {
    let job = job::example();
    output::write(&Sheet::new(&job, &solve(&job)).text(), None, None)?;
    Ok(Ending::Fine)
}
