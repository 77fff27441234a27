//! What must the tape across a corner read, and where are the strings really?
//!
//! ```text
//!            X────────●      both arms marked with the tape from the crossing X,
//!           ╱ angle  ╱       the diagonal taped between the marks:
//!          ╱      ╱          d² = a² + b² − 2 a b cos(angle)
//!         ●  ╱ diagonal
//! ```

use super::fixes::{CornerFix, Diagonal, EndMove, EndWay, StretchVerdict, StretchedFix};
use super::network::PM;
use crate::job::Problems;
use crate::job::model::Tape;
use crate::job::sound::{Along, LineIx, Sound, SoundCorner, SoundCornerCheck};
use crate::length::Unit;
use crate::quick::Taped;
use crate::quick::corner::{CornerTapes, corner_by_tapes};

const FOOT: f64 = 304.8;

/// A stretched corner further off than this share of its turn was more likely taped otherwise.
const ASKED: f64 = 0.2;

/// Arms for which the check diagonal is given, mm: 1, 1.5, 2 and 3 m, or 3, 4, 6 and 10 ft.
#[must_use]
pub fn round_arms(unit: Unit) -> [f64; 4] {
    match unit {
        Unit::Mm | Unit::M => [1000.0, 1500.0, 2000.0, 3000.0],
        Unit::FtIn(_) => [3.0, 4.0, 6.0, 10.0].map(|feet| feet * FOOT),
    }
}

/// What the tape across must read with both arms `arm` long, and its ±, mm: the corner's own, the
/// marking of both arms, and that of the tape across.
///
/// d = 2 a sin(angle/2), the law of cosines with equal arms; ∂d/∂a = ∂d/∂b = sin(angle/2).
#[must_use]
pub fn diagonal_at(tape: &Tape, corner: &CornerFix, arm: f64) -> Diagonal {
    let (sin, cos) = (corner.angle / 2.0).to_radians().sin_cos();
    let diagonal = 2.0 * arm * sin;
    let turned = arm * cos * corner.angle_pm.to_radians();
    let marked = PM * tape.sd(arm) * sin * 2f64.sqrt();
    let taped = PM * tape.sd(diagonal);
    Diagonal {
        arm,
        diagonal,
        pm: turned.hypot(marked).hypot(taped),
    }
}

/// The check diagonals whose arms fit on the runs; on short runs, of the longest whole 100 mm (or
/// 6 in) that do.
#[must_use]
pub fn diagonals(sound: &Sound, corner: &CornerFix, shortest_run: Option<f64>) -> Vec<Diagonal> {
    let round = round_arms(sound.unit);
    let room = shortest_run.unwrap_or(f64::INFINITY);
    let mut arms: Vec<f64> = round.into_iter().filter(|arm| *arm <= room).collect();
    if arms.is_empty() {
        let step = match sound.unit {
            Unit::Mm | Unit::M => 100.0,
            Unit::FtIn(_) => FOOT / 2.0,
        };
        arms.extend(Some((room / step).floor() * step).filter(|arm| *arm > 0.0));
    }
    let at = |arm| diagonal_at(&sound.tape, corner, arm);
    arms.into_iter().map(at).collect()
}

/// A corner's strings as stretched, from every diagonal taped across them: their angle, and how far
/// to move which string's end. `lengths`: those of the runs on the corner's two lines, mm.
pub fn stretched(
    sound: &Sound,
    corner: &SoundCorner,
    fix: &CornerFix,
    lengths: [Option<f64>; 2],
    problems: &mut Problems,
) -> Vec<StretchedFix> {
    let mut found = Vec::new();
    for check in &corner.checks {
        let place = format!("corners[{}].checks[{}]", corner.index, check.index);
        let [first, second, across] =
            [check.arms[0], check.arms[1], check.diagonal].map(|l| Taped::new(l, sound.tape.sd(l)));
        match corner_by_tapes(&CornerTapes {
            first,
            second,
            across,
        }) {
            Ok(taped) => {
                let one = judge(
                    sound,
                    corner,
                    fix,
                    lengths,
                    (check, taped.angle.value, taped.angle.pm),
                );
                say(sound, corner, fix, &one, &place, problems);
                found.push(one);
            }
            Err(why) => problems.error(
                format!("{place}.diagonal"),
                format!("The check of corner “{}” makes no corner.", corner.id),
                why.to_string(),
            ),
        }
    }
    found
}

fn judge(
    sound: &Sound,
    corner: &SoundCorner,
    fix: &CornerFix,
    lengths: [Option<f64>; 2],
    (check, angle, pm): (&SoundCornerCheck, f64, f64),
) -> StretchedFix {
    let wider = angle - fix.angle;
    let verdict = if wider.abs() <= pm.hypot(fix.angle_pm) {
        StretchVerdict::Within
    } else if wider.abs() > ASKED * fix.turn {
        StretchVerdict::Asked
    } else {
        StretchVerdict::Move
    };
    let turned = turned_string(sound, corner.lines);
    let at = lengths[turned].unwrap_or(check.arms[turned]);
    let end_move = (verdict == StretchVerdict::Move).then(|| EndMove {
        line: sound.lines[corner.lines[turned].0].id.clone(),
        other: sound.lines[corner.lines[1 - turned].0].id.clone(),
        at,
        by: 2.0 * at * (wider.abs().to_radians() / 2.0).sin(),
        pm: at * (wider.to_radians() / 2.0).cos() * pm.to_radians(),
        way: if wider > 0.0 {
            EndWay::Towards
        } else {
            EndWay::Away
        },
    });
    StretchedFix {
        index: check.index,
        arms: check.arms,
        diagonal: check.diagonal,
        angle,
        pm,
        verdict,
        end_move,
    }
}

/// Which of the corner's two strings is turned: the second, unless that one is tied to marks and
/// only the first hangs on nails.
fn turned_string(sound: &Sound, lines: [LineIx; 2]) -> usize {
    let nailed = lines.map(|line| matches!(sound.lines[line.0].along, Along::Wall { .. }));
    usize::from(nailed != [true, false])
}

fn say(
    sound: &Sound,
    corner: &SoundCorner,
    fix: &CornerFix,
    found: &StretchedFix,
    place: &str,
    problems: &mut Problems,
) {
    let off = found.angle - fix.angle;
    let way = if off > 0.0 { "wider" } else { "narrower" };
    let stands = format!(
        "The strings of corner “{}” as stretched stand at {:.2}° ± {:.2}°, {:.2}° {way} than the {:.2}° that the readings make",
        corner.id,
        found.angle,
        found.pm,
        off.abs(),
        fix.angle
    );
    let [a, b] = found.arms.map(|arm| sound.say(arm));
    match (found.verdict, &found.end_move) {
        (StretchVerdict::Move, Some(end)) => problems.warning(
            format!("{place}.diagonal"),
            format!("{stands}."),
            end.sentence(|mm| sound.say(mm)),
        ),
        (StretchVerdict::Asked, _) => problems.warning(
            format!("{place}.arms"),
            format!("{stands}: more than a string is usually out."),
            format!(
                "Were other arms marked than {a} and {b}, or was it taped to a string carried on past the crossing? Enter the arms as they were, or tape it again."
            ),
        ),
        _ => {}
    }
}

impl EndMove {
    /// “Move the far end of string “side”, 4298 mm from the crossing, 12 mm towards string “front”;
    /// …”, lengths as `say` has them.
    #[must_use]
    pub fn sentence(&self, say: impl Fn(f64) -> String) -> String {
        let Self { line, other, .. } = self;
        let way = match self.way {
            EndWay::Towards => format!("towards string “{other}”"),
            EndWay::Away => format!("away from string “{other}”"),
        };
        format!(
            "Move the far end of string “{line}”, {} from the crossing, {} {way}; then tape across again.",
            say(self.at),
            say(self.by),
        )
    }
}
