//! Sights and their distances, as they are typed.

use super::sights::{sight, sight_fix, with_sight};
use super::standing::doubt;
use crate::app::desk::{Desk, FigureKind, Prompt, Then};
use crate::app::kit::words::status;
use crate::app::names::points::{point_place, said_down};
use crate::job::PointId;
use crate::job::edit::{Change, Edit};
use crate::job::model::{Job, Sight};
use crate::site::is_checked;
use tautmark_ui::{KeySigns, Status, Verdict};

/// How far a point is down from a set-up's line: a sight that is in the list.
pub struct SightDown {
    pub setup: usize,
    pub at: usize,
}

/// The same for a point that has not been sighted from this set-up yet.
pub struct NewSight {
    pub setup: usize,
    pub point: PointId,
}

/// How far away the laser stood.
pub struct SightDist {
    pub setup: usize,
    pub at: usize,
}

/// Asks for a sight of this point from this set-up: for the figure it has, or for a new one.
pub fn ask(desk: &mut Desk, setup: usize, point: PointId) -> Then {
    let there = desk.saved().levels.setups.get(setup).and_then(|setup| {
        let sights = &setup.sights;
        sights.iter().position(|sight| sight.point == point)
    });
    match there {
        Some(at) => desk.ask(Box::new(SightDown { setup, at })),
        None => desk.ask(Box::new(NewSight { setup, point })),
    }
    Then::Keypad
}

fn setup_name(job: &Job, setup: usize) -> String {
    let setup = job.levels.setups.get(setup);
    setup.map(|setup| setup.id.to_string()).unwrap_or_default()
}

fn sight_title(job: &Job, setup: usize, point: &PointId) -> String {
    format!("**{point}** from set-up **{}**", setup_name(job, setup))
}

/// How to take a sight, where nothing has been typed yet.
fn how(desk: &Desk, point: &PointId) -> Status {
    let place = point_place(desk.job(), point);
    let place = if place.is_empty() {
        String::new()
    } else {
        format!(" ({place})")
    };
    let text = format!(
        "Measure from the laser line to {point}{place}. **Down** where the point is below the line."
    );
    status(Verdict::Note, &text)
}

/// Whether a sight fits the others.
fn fits(desk: &Desk, setup: usize, at: usize) -> Option<Status> {
    let unit = desk.job().show.lengths;
    let Some(fix) = sight_fix(desk, setup, at) else {
        let place = format!("levels.setups[{setup}].sights[{at}]");
        let mut problems = desk.solution.problems.iter();
        let problem = problems.find(|problem| problem.place.is_in(&place))?;
        let text = format!("{} {}", problem.text, problem.remedy);
        return Some(status(Verdict::Attention, &text));
    };
    if fix.suspect.is_none() && !is_checked(fix.redundancy) {
        return Some(status(Verdict::Note, "Nothing checks this sight yet."));
    }
    if let Some(doubt) = doubt(desk, fix) {
        return Some(doubt);
    }
    let down = sight(desk.job(), setup, at)?.down?;
    let text = format!(
        "It fits the other sights: together they make it **{}**.",
        said_down(down + fix.residual, unit)
    );
    Some(status(Verdict::Good, &text))
}

impl Prompt for SightDown {
    fn key(&self) -> String {
        format!("sight {} {}", self.setup, self.at)
    }

    fn title(&self, job: &Job) -> String {
        let sight = sight(job, self.setup, self.at);
        sight.map_or_else(String::new, |sight| {
            sight_title(job, self.setup, &sight.point)
        })
    }

    fn measure(&self) -> FigureKind {
        FigureKind::Signed(KeySigns::UpDown)
    }

    fn value(&self, job: &Job) -> Option<f64> {
        sight(job, self.setup, self.at)?.down.map(|down| -down)
    }

    fn usually_negative(&self) -> bool {
        true
    }

    fn edit(&self, job: &Job, value: f64) -> Option<Edit> {
        with_sight(job, self.setup, self.at, |sight| sight.down = Some(-value))
    }

    fn progress(&self, job: &Job) -> Option<(usize, usize)> {
        let of = job.levels.setups.get(self.setup)?.sights.len();
        Some((self.at + 1, of))
    }

    /// Its distance where that is missing, else the next sight of the set-up without a figure.
    fn next(&self, job: &Job) -> Option<Box<dyn Prompt>> {
        let (setup, at) = (self.setup, self.at);
        if sight(job, setup, at)?.dist.is_none() {
            return Some(Box::new(SightDist { setup, at }));
        }
        next_missing(job, setup)
    }

    fn verdict(&self, desk: &Desk, typed: Option<f64>) -> Option<Status> {
        match typed {
            Some(_) => fits(desk, self.setup, self.at),
            None => Some(how(desk, &sight(desk.job(), self.setup, self.at)?.point)),
        }
    }
}

fn next_missing(job: &Job, setup: usize) -> Option<Box<dyn Prompt>> {
    let sights = &job.levels.setups.get(setup)?.sights;
    let at = sights
        .iter()
        .position(|sight| sight.used && sight.down.is_none())?;
    Some(Box::new(SightDown { setup, at }))
}

impl NewSight {
    /// Where it stands once it has been entered: last of its set-up.
    fn entered_at(&self, job: &Job) -> Option<usize> {
        let sights = &job.levels.setups.get(self.setup)?.sights;
        let at = sights.len().checked_sub(1)?;
        (sights.get(at)?.point == self.point).then_some(at)
    }
}

impl Prompt for NewSight {
    fn key(&self) -> String {
        format!("new sight {} {}", self.setup, self.point)
    }

    fn title(&self, job: &Job) -> String {
        sight_title(job, self.setup, &self.point)
    }

    fn measure(&self) -> FigureKind {
        FigureKind::Signed(KeySigns::UpDown)
    }

    fn value(&self, _job: &Job) -> Option<f64> {
        None
    }

    fn usually_negative(&self) -> bool {
        true
    }

    fn edit(&self, job: &Job, value: f64) -> Option<Edit> {
        let sights = &job.levels.setups.get(self.setup)?.sights;
        let value = Sight {
            point: self.point.clone(),
            down: Some(-value),
            ..Sight::default()
        };
        Some(Edit::Sight {
            setup: self.setup,
            change: Change::Insert {
                at: sights.len(),
                value,
            },
        })
    }

    fn next(&self, job: &Job) -> Option<Box<dyn Prompt>> {
        let (setup, at) = (self.setup, self.entered_at(job)?);
        Some(Box::new(SightDist { setup, at }))
    }

    fn verdict(&self, desk: &Desk, typed: Option<f64>) -> Option<Status> {
        match typed {
            Some(_) => fits(desk, self.setup, self.entered_at(desk.job())?),
            None => Some(how(desk, &self.point)),
        }
    }
}

impl Prompt for SightDist {
    fn key(&self) -> String {
        format!("sight distance {} {}", self.setup, self.at)
    }

    fn title(&self, job: &Job) -> String {
        let sight = sight(job, self.setup, self.at);
        sight.map_or_else(String::new, |sight| {
            let from = setup_name(job, self.setup);
            format!("Distance of **{}** from set-up **{from}**", sight.point)
        })
    }

    fn measure(&self) -> FigureKind {
        FigureKind::Length
    }

    fn value(&self, job: &Job) -> Option<f64> {
        sight(job, self.setup, self.at)?.dist
    }

    fn edit(&self, job: &Job, value: f64) -> Option<Edit> {
        with_sight(job, self.setup, self.at, |sight| sight.dist = Some(value))
    }

    fn next(&self, job: &Job) -> Option<Box<dyn Prompt>> {
        next_missing(job, self.setup)
    }

    fn verdict(&self, desk: &Desk, typed: Option<f64>) -> Option<Status> {
        if typed.is_none() {
            let text = "How far off the laser stands, paced or taped: **the ± follows from it.** \
                        Go on without, and 5 m is taken.";
            return Some(status(Verdict::Note, text));
        }
        fits(desk, self.setup, self.at)
    }
}
