//! Job → Solution: everything that follows from what was measured and what is wanted.

use crate::boards::{Buy, Cut, RunBoards, boards};
use crate::job::ByName;
use crate::job::check::check;
use crate::job::sound::{CornerIx, MarkIx, RunIx, Sound};
use crate::job::{CornerId, Job, LineId, MarkId, Problem, Problems, RunId};
use crate::levels::{LevelsFix, levels};
use crate::setout::{Known, RunFix, name_gone, set_out};
use crate::site::{
    CornerFix, LineFix, MarkFix, NetworkFix, NextTape, Plane, ReadingFix, Strings, diagonals,
    run_at, stretched, strings,
};
use serde::Serialize;

/// What a job comes to. Serialises to the results that `sheet --as json` prints: mm and degrees,
/// unrounded; `pm` is the half width of the 95 % band.
#[derive(Clone, Debug, Serialize)]
pub struct Solution {
    /// Marks that the readings fix, in the order of the file.
    pub marks: ByName<MarkId, MarkFix>,
    /// Every used reading, in the order of the file.
    pub readings: Vec<ReadingFix>,
    /// How the readings hold together.
    pub network: NetworkFix,
    /// The next tape worth taking.
    pub advice: Option<NextTape>,
    /// Strings that are settled, in the order of the file.
    pub lines: ByName<LineId, LineFix>,
    /// Corners whose two strings cross, in the order of the file.
    pub corners: ByName<CornerId, CornerFix>,
    /// Runs that are set out, in the order of the file.
    pub runs: ByName<RunId, RunFix>,
    /// Heights; none where there is neither a datum nor a sight.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub levels: Option<LevelsFix>,
    /// What stands on each run that is set out.
    pub boards: ByName<RunId, RunBoards>,
    /// What to cut, longest first within each kind.
    pub cuts: Vec<Cut>,
    /// What to buy for all runs together.
    pub buy: Buy,
    /// What is wrong, missing or worth knowing, in the file and in what follows from it.
    pub problems: Vec<Problem>,
    /// Where each mark is or, while it can still move, may be: mm, for drawing only.
    #[serde(skip)]
    pub sketch: ByName<MarkId, [f64; 2]>,
}

impl Solution {
    /// What it settles of marks, strings and corners.
    #[must_use]
    pub fn known(&self) -> Known<'_> {
        Known {
            marks: &self.marks,
            lines: &self.lines,
            corners: &self.corners,
        }
    }
}

/// Solves a job as far as what is there allows. Pure: the same job gives the same solution.
///
/// ```
/// let solution = tautmark::solve(&tautmark::job::example());
/// let corner = &solution.corners["X"];
/// assert!((corner.angle - 104.29).abs() < 0.01);
/// assert_eq!(solution.runs["R1"].posts.len(), 5);
/// ```
#[must_use]
pub fn solve(job: &Job) -> Solution {
    let (sound, found) = check(job);
    let mut problems = Problems(found);
    let plane = Plane::new(&sound);
    let readings = plane.reading_fixes(&sound);
    let advice = plane.advice(&sound);
    let next = advice
        .as_ref()
        .map(|tape| format!("Tape {} to {}.", tape.from, tape.to));
    let network = plane.network_fix(&sound, &readings, next.as_deref(), &mut problems);
    let strings = strings(&sound, &plane, &mut problems);
    let runs = set_out(&sound, &plane, &strings, &mut problems);
    let levels = levels(&sound, &mut problems);
    let boards = boards(&sound, &runs, levels.as_ref(), &mut problems);
    let sketch = sound.marks.iter().enumerate().map(|(i, mark)| {
        let at = plane.sketch(MarkIx(i));
        (mark.id.clone(), [at.x, at.y])
    });
    let lines = named_lines(&sound, &strings);
    let corners = named_corners(&sound, strings, &runs, &mut problems);
    let runs = named_runs(&sound, runs);
    name_gone(job, &runs, &mut problems);
    Solution {
        marks: plane.mark_fixes(&sound),
        readings,
        network,
        advice,
        sketch: sketch.collect(),
        lines,
        corners,
        runs,
        levels,
        boards: boards.runs,
        cuts: boards.cuts,
        buy: boards.buy,
        problems: problems.0,
    }
}

fn named_lines(sound: &Sound, strings: &Strings) -> ByName<LineId, LineFix> {
    let lines = sound.lines.iter().zip(&strings.lines);
    lines
        .filter_map(|(line, fix)| Some((line.id.clone(), fix.clone()?)))
        .collect()
}

fn named_corners(
    sound: &Sound,
    strings: Strings,
    runs: &[Option<RunFix>],
    problems: &mut Problems,
) -> ByName<CornerId, CornerFix> {
    let mut named = ByName::default();
    for (i, (corner, crossing)) in sound.corners.iter().zip(strings.crossings).enumerate() {
        let Some(crossing) = crossing else { continue };
        let mut fix = crossing.fix;
        let lengths = corner.lines.map(|line| {
            let run = run_at(sound, CornerIx(i), line)?;
            let ix = sound.runs.iter().position(|one| one.id == run.id)?;
            runs.get(ix)?.as_ref().map(|fix| fix.length)
        });
        let shortest = lengths.into_iter().flatten().reduce(f64::min);
        fix.check = diagonals(sound, &fix, shortest);
        fix.checks = stretched(sound, corner, &fix, lengths, problems);
        named.insert(corner.id.clone(), fix);
    }
    named
}

fn named_runs(sound: &Sound, runs: Vec<Option<RunFix>>) -> ByName<RunId, RunFix> {
    let of = |RunIx(i): RunIx| sound.runs[i].id.clone();
    runs.into_iter()
        .enumerate()
        .filter_map(|(i, fix)| Some((of(RunIx(i)), fix?)))
        .collect()
}
