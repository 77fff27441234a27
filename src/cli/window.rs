//! What the program does when it is told nothing: the app's window, where it is built in.

use super::{Ending, Stop};

/// Opens the window, and ends when it is closed.
#[cfg(feature = "app")]
pub fn open() -> Result<Ending, Stop> {
    use std::rc::Rc;
    use tautmark::app::device::Desktop;
    use tautmark::store::{Files, Jobs};
    let stop = |words: String| Stop {
        ending: Ending::Usage,
        words,
    };
    let files = Files::of_this_person().ok_or_else(|| {
        stop("This system names no folder to keep jobs in. Set HOME and start again.".to_owned())
    })?;
    match tautmark::app::run(Jobs::on(files), Rc::new(Desktop::of_this_person())) {
        Ok(()) => Ok(Ending::Fine),
        Err(error) => {
            example()?;
            Err(stop(format!(
                "The window cannot be opened ({error}). Here is the example's sheet instead; for a job of your own use “tautmark sheet JOB”."
            )))
        }
    }
}

/// Without the window: the example's sheet.
#[cfg(not(feature = "app"))]
pub fn open() -> Result<Ending, Stop> {
    example()
}

/// Shows the example's sheet on standard output.
fn example() -> Result<Ending, Stop> {
    use tautmark::sheet::Sheet;
    use tautmark::{job, solve};
    let job = job::example();
    let text = Sheet::new(&job, &solve(&job)).text();
    super::output::to_stdout(text.as_bytes())?;
    Ok(Ending::Fine)
}
