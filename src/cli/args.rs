//! What can be said on the command line.

use clap::{Parser, Subcommand, ValueEnum};
use std::path::PathBuf;
use tautmark::export::Paper;
use tautmark::length::Unit;

/// Set out a fence with a gate from tape readings.
#[derive(Debug, Parser)]
#[command(
    name = "tautmark",
    version,
    about,
    after_help = "Ends with 0 where all is well, 1 where the job has errors or is not a job, 2 where the \
                  command cannot be carried out. A file called “-” is read from standard input.",
    disable_help_subcommand = true
)]
pub struct Args {
    #[command(subcommand)]
    pub command: Option<Command>,
}

#[derive(Debug, Subcommand)]
pub enum Command {
    /// Print the set-out sheet of a job: strings, corners, posts, levels, boards, cuts
    Sheet(SheetArgs),
    /// Say whether a job is sound, and everything that is wrong or missing
    Check(JobArgs),
    /// Write the built-in example as a job file to start from
    Demo(DemoArgs),
}

#[derive(Debug, clap::Args)]
pub struct JobArgs {
    /// The job file; the built-in example where none is given
    #[arg(value_name = "JOB")]
    pub file: Option<PathBuf>,
    /// Show lengths in this unit instead of the job's own
    #[arg(long, value_name = "UNIT")]
    pub lengths: Option<Lengths>,
}

#[derive(Debug, clap::Args)]
pub struct SheetArgs {
    #[command(flatten)]
    pub job: JobArgs,
    /// What to make of it
    #[arg(long = "as", value_name = "FORM", default_value = "text")]
    pub form: SheetForm,
    /// The paper that a pdf is for; else the usual one where lengths are in the job's unit
    #[arg(long, value_name = "PAPER")]
    pub paper: Option<PaperSize>,
    /// What an svg shows: “plan”, the name of a run or a corner, or of a part: “R1 post 2”, “R1 gate 1”
    #[arg(long, value_name = "NAME", default_value = "plan")]
    pub of: String,
    #[command(flatten)]
    pub out: OutArgs,
}

#[derive(Debug, clap::Args)]
pub struct DemoArgs {
    #[command(flatten)]
    pub out: OutArgs,
}

#[derive(Debug, clap::Args)]
pub struct OutArgs {
    /// Write to this file instead of standard output
    #[arg(long = "out", value_name = "FILE")]
    pub path: Option<PathBuf>,
    /// Write over the file even if there is another job in it
    #[arg(long, requires = "path")]
    pub force: bool,
}

/// The forms a sheet takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum SheetForm {
    /// Plain text, 100 columns
    Text,
    /// All results, unrounded
    Json,
    /// Rows for a spreadsheet
    Csv,
    /// A page to print from a browser
    Html,
    /// A few lines for a text message
    Message,
    /// Pages to print, with drawings
    Pdf,
    /// One drawing: the plan, or what --of names
    Svg,
    /// The plan in mm for drawing programs
    Dxf,
}

/// The papers a pdf is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum PaperSize {
    A4,
    Letter,
}

impl From<PaperSize> for Paper {
    fn from(size: PaperSize) -> Self {
        match size {
            PaperSize::A4 => Paper::A4,
            PaperSize::Letter => Paper::Letter,
        }
    }
}

/// The units lengths are shown in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Lengths {
    Mm,
    M,
    #[value(name = "ft-in")]
    FtIn,
}

impl From<Lengths> for Unit {
    fn from(lengths: Lengths) -> Self {
        match lengths {
            Lengths::Mm => Unit::Mm,
            Lengths::M => Unit::M,
            Lengths::FtIn => Unit::FEET,
        }
    }
}
