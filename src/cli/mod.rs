//! The command line: open a job, solve it, show it.
//!
//! Ends with 0 where all is well, 1 where the job has errors or is refused, 2 where the command
//! itself cannot be carried out.

mod args;
mod input;
mod output;
mod report;
mod window;

use args::{Args, Command, Form, JobArgs, SheetArgs};
use clap::Parser;
use std::process::ExitCode;
use tautmark::export::{dxf, pdf, svg_plan};
use tautmark::job::Severity;
use tautmark::sheet::{Sheet, json};
use tautmark::{Solution, job, solve};

/// How the program ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Ending {
    Fine,
    /// The job has errors, or cannot be opened as a job.
    Job,
    /// The command cannot be carried out.
    Usage,
}

impl From<Ending> for ExitCode {
    fn from(ending: Ending) -> Self {
        ExitCode::from(match ending {
            Ending::Fine => 0,
            Ending::Job => 1,
            Ending::Usage => 2,
        })
    }
}

/// Why a command stopped: what to say, and how to end.
#[derive(Debug)]
struct Stop {
    ending: Ending,
    words: String,
}

/// Reads the command line and does what it says.
pub fn run() -> ExitCode {
    let args = match Args::try_parse() {
        Ok(args) => args,
        Err(error) => {
            let ending = if error.use_stderr() {
                Ending::Usage
            } else {
                Ending::Fine
            };
            // Where not even that can be written, the ending still says it.
            let _ = error.print();
            return ending.into();
        }
    };
    match act(args) {
        Ok(ending) => ending.into(),
        Err(stop) => {
            report::say(&stop.words);
            stop.ending.into()
        }
    }
}

fn act(args: Args) -> Result<Ending, Stop> {
    match args.command {
        Some(Command::Sheet(sheet)) => {
            let opened = input::open(&sheet.job)?;
            let solution = solve(&opened.job);
            let made = make(&opened.job, &solution, &sheet)?;
            report::warn_of_errors(&opened, &solution);
            output::write(&made, sheet.out.as_deref(), opened.path.as_deref())?;
            Ok(ending(&solution))
        }
        Some(Command::Check(check)) => run_check(&check),
        Some(Command::Demo(demo)) => {
            output::write(job::EXAMPLE.as_bytes(), demo.out.as_deref(), None)?;
            Ok(Ending::Fine)
        }
        None => window::open(),
    }
}

fn make(job: &job::Job, solution: &Solution, asked: &SheetArgs) -> Result<Vec<u8>, Stop> {
    let sheet = || Sheet::new(job, solution);
    let refused = |words: String| Stop {
        ending: Ending::Job,
        words,
    };
    Ok(match asked.form {
        Form::Text => sheet().text().into_bytes(),
        Form::Csv => sheet().csv().into_bytes(),
        Form::Html => sheet().html().into_bytes(),
        Form::Message => sheet().message().into_bytes(),
        Form::Svg => svg_plan(job, solution).into_bytes(),
        Form::Dxf => dxf(job, solution).into_bytes(),
        Form::Pdf => {
            pdf(job, solution, asked.paper.into()).map_err(|error| refused(error.to_string()))?
        }
        Form::Json => json(solution)
            .map_err(|error| refused(format!("The results cannot be written as JSON: {error}.")))?
            .into_bytes(),
    })
}

fn run_check(check: &JobArgs) -> Result<Ending, Stop> {
    let opened = input::open(check)?;
    let solution = solve(&opened.job);
    let text = report::verdict(&opened, &solution);
    output::write(text.as_bytes(), None, None)?;
    Ok(ending(&solution))
}

fn ending(solution: &Solution) -> Ending {
    let mut problems = solution.problems.iter();
    if problems.any(|problem| problem.severity == Severity::Error) {
        Ending::Job
    } else {
        Ending::Fine
    }
}
