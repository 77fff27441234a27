//! The command line: open a job, solve it, show it.
//!
//! Ends with 0 where all is well, 1 where the job has errors or is refused, 2 where the command
//! itself cannot be carried out.

mod args;
mod input;
mod output;
mod report;
mod window;

use args::{Args, Command, JobArgs, OutArgs, SheetArgs, SheetForm};
use clap::Parser;
use std::io::ErrorKind;
use std::process::ExitCode;
use tautmark::export::{self, Subject};
use tautmark::job::Severity;
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
            return match error.print() {
                Err(full) if full.kind() != ErrorKind::BrokenPipe => {
                    let stop = output::unwritten(&full);
                    report::say(&stop.words);
                    stop.ending.into()
                }
                _ => ending.into(),
            };
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
            output::write(&made, &target(&sheet.out), opened.path.as_deref())?;
            Ok(ending(&solution))
        }
        Some(Command::Check(check)) => run_check(&check),
        Some(Command::Demo(demo)) => {
            output::write(job::EXAMPLE.as_bytes(), &target(&demo.out), None)?;
            Ok(Ending::Fine)
        }
        None => window::open(),
    }
}

fn target(out: &OutArgs) -> output::OutputTarget<'_> {
    output::OutputTarget {
        out: out.path.as_deref(),
        force: out.force,
    }
}

fn make(job: &job::Job, solution: &Solution, asked: &SheetArgs) -> Result<Vec<u8>, Stop> {
    form(job, asked)?.make(job, solution).map_err(|error| Stop {
        ending: Ending::Job,
        words: error.to_string(),
    })
}

fn form(job: &job::Job, asked: &SheetArgs) -> Result<export::Form, Stop> {
    let usual = export::Paper::usual(job.show.lengths);
    Ok(match asked.form {
        SheetForm::Text => export::Form::Text,
        SheetForm::Csv => export::Form::Csv,
        SheetForm::Html => export::Form::Html,
        SheetForm::Message => export::Form::Message,
        SheetForm::Dxf => export::Form::Dxf,
        SheetForm::Json => export::Form::Json,
        SheetForm::Pdf => export::Form::Pdf(asked.paper.map_or(usual, Into::into)),
        SheetForm::Svg => export::Form::Svg(subject(job, &asked.of)?),
    })
}

fn subject(job: &job::Job, name: &str) -> Result<Subject, Stop> {
    Subject::named(job, name).ok_or_else(|| {
        let runs = job.runs.iter().map(|run| run.id.as_str());
        let corners = job.corners.iter().map(|corner| corner.id.as_str());
        let names: Vec<&str> = ["plan"].into_iter().chain(runs).chain(corners).collect();
        Stop {
            ending: Ending::Usage,
            words: format!(
                "“{name}” is no run or corner of this job. Use --of with one of these: {}; or with a post or gate of a run, such as “R1 post 2” or “R1 gate 1”.",
                names.join(", ")
            ),
        }
    })
}

fn run_check(check: &JobArgs) -> Result<Ending, Stop> {
    let opened = input::open(check)?;
    let solution = solve(&opened.job);
    let text = report::verdict(&opened, &solution);
    output::to_stdout(text.as_bytes())?;
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
