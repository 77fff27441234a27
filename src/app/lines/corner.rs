//! Where two strings cross: the angle, the saw, and the tape that proves it.

use super::diagonal::{across, arm_of, arms};
use super::strings;
use crate::app::adding::onward;
use crate::app::bridge::{Bridge, PagePicture, Screen, Spec};
use crate::app::desk::{Desk, Then};
use crate::app::kit::{angle_pm, fact, said, silence, status};
use crate::app::names::string_names;
use crate::app::renaming;
use crate::drawing::{self, Target};
use crate::job::edit::Thing;
use crate::job::model::{Corner, End};
use crate::length;
use crate::site::{CornerFix, StretchVerdict};
use slint::Global;
use std::rc::Rc;
use tautmark_ui::{App, CornerVm, Fact, Page, Place, Status, Verdict};

/// The page of one corner.
pub struct OneCorner;

impl Screen for OneCorner {
    fn spec(&self) -> Spec {
        Spec::inside(Place::Lines, Page::Corner, "corner")
    }

    fn wire(&self, app: &App, bridge: &Rc<Bridge>) {
        let vm = CornerVm::get(app);
        vm.on_more(bridge.does(|desk| {
            let corner = desk.saved().corners.get(desk.chosen.corner);
            let thing = corner.map(|corner| Thing::Corner(corner.id.clone()));
            thing.map_or(Then::Stay, |thing| renaming::about(desk, thing))
        }));
        vm.on_asked(bridge.does_with(explain));
        vm.on_onward_pressed(bridge.does(onward::go));
        vm.on_other_arms(bridge.does(|desk| desk.ask(arms(desk.chosen.corner))));
        vm.on_it_reads(bridge.does(|desk| {
            let at = desk.chosen.corner;
            let arm = arm_in_sight(desk);
            arm.map_or(Then::Stay, |arm| desk.ask(across(at, arm)))
        }));
    }

    fn fill(&self, app: &App, desk: &Desk) -> bool {
        let vm = CornerVm::get(app);
        let job = desk.job();
        let Some(corner) = job.corners.get(desk.chosen.corner) else {
            return false;
        };
        vm.set_onward(onward::said(desk).into());
        let [first, second] = string_names(job, corner);
        vm.set_about(status(
            Verdict::None,
            &format!("**{first}** meets **{second}**"),
        ));
        let Some(fix) = desk.solution.corners.get(&corner.id) else {
            vm.set_about(status(
                Verdict::Attention,
                &format!(
                    "**{first}** meets **{second}**: not settled yet. Finish the tapes to their marks."
                ),
            ));
            return false;
        };
        let unit = job.show.lengths;
        let off = fix.angle - 90.0;
        let per_metre = length::show_with_unit(1000.0 * off.to_radians().tan().abs(), unit);
        let pm = angle_pm(fix.angle_pm);
        vm.set_angle(fact(
            "angle",
            "Angle between them",
            &format!("{:.1}°", fix.angle),
            &pm,
        ));
        vm.set_square(fact(
            "square",
            "Not square by",
            &format!("{:.1}°", off.abs()),
            &format!("{per_metre} per m"),
        ));
        let saw = format!("off square; {:.1}° from the length", 90.0 - fix.bevel);
        vm.set_bevel(fact(
            "bevel",
            "Rail ends, saw set at",
            &format!("{:.1}°", fix.bevel),
            &saw,
        ));
        vm.set_place(corner_place(desk, corner));
        let arm = arm_of(job, desk.chosen.corner, fix);
        let check = crate::site::diagonal_at(&job.tape, fix, arm);
        let arm = length::show(arm, unit);
        let text = format!(
            "Check it: mark **{arm}** on each string. The tape between the marks must read"
        );
        let (text, plain) = said(&text);
        vm.set_check(text);
        vm.set_check_plain(plain);
        vm.set_diagonal(length::show(check.diagonal, unit).into());
        vm.set_diagonal_tail(length::show_pm_with_unit(check.pm, unit).into());
        vm.set_found(found(desk, fix));
        false
    }

    fn picture(&self, desk: &Desk) -> Option<PagePicture> {
        let corner = desk.job().corners.get(desk.chosen.corner);
        let id = corner.map(|corner| &corner.id);
        let arm = arm_in_sight(desk);
        let own = id
            .zip(arm)
            .and_then(|(id, arm)| drawing::corner(desk.job(), &desk.solution, id, arm));
        let chosen = || id.map(|id| Target::Corner(id.clone()));
        Some(PagePicture::or(own, || strings(desk, chosen())))
    }
}

/// How far the corner is along the run that ends or starts there.
fn corner_place(desk: &Desk, corner: &Corner) -> Fact {
    let job = desk.job();
    let here = |end: &Option<End>| {
        end.as_ref()
            .is_some_and(|end| end.corner.as_ref() == Some(&corner.id))
    };
    let run = job
        .runs
        .iter()
        .find(|run| here(&run.end) || here(&run.start));
    let fix = run.and_then(|run| desk.solution.runs.get(&run.id));
    let unit = job.show.lengths;
    match (run, fix) {
        (Some(run), Some(fix)) => fact(
            "place",
            &format!("Length of run {}", run.id),
            &length::show(fix.length, unit),
            &length::show_pm_with_unit(fix.length_pm, unit),
        ),
        _ => fact("place", "Length of the run", "—", "no run here yet"),
    }
}

/// The arms of the check of the corner in sight, mm; `None` while it is not settled.
fn arm_in_sight(desk: &Desk) -> Option<f64> {
    let corner = desk.job().corners.get(desk.chosen.corner)?;
    let fix = desk.solution.corners.get(&corner.id)?;
    Some(arm_of(desk.job(), desk.chosen.corner, fix))
}

/// What the tape across really read means: the angle, and how to move which string's end; where it is
/// far off, whether other arms were marked.
fn found(desk: &Desk, fix: &CornerFix) -> Status {
    let corner = desk.job().corners.get(desk.chosen.corner);
    let at = corner.and_then(|corner| corner.checks.len().checked_sub(1));
    let Some(taped) = fix.checks.iter().find(|check| Some(check.index) == at) else {
        return silence();
    };
    let unit = desk.job().show.lengths;
    let off = taped.angle - fix.angle;
    let angle = format!("That makes the angle **{:.2}°**", taped.angle);
    let way = if off > 0.0 { "wider" } else { "narrower" };
    let far = format!("{angle}, {:.2}° {way} than the tapes say.", off.abs());
    match (taped.verdict, &taped.end_move) {
        (StretchVerdict::Within, _) => status(
            Verdict::Good,
            &format!("{angle}: within what the tapes can tell."),
        ),
        (StretchVerdict::Move, Some(end)) => {
            let order = end.sentence(|mm| length::show_with_unit(mm, unit));
            status(Verdict::Bad, &format!("{far} {order}"))
        }
        _ => {
            let [a, b] = taped.arms.map(|arm| length::show_with_unit(arm, unit));
            let asked = format!(
                "{far} That is more than a string is usually out: were other arms marked than {a} and {b}?"
            );
            status(Verdict::Attention, &asked)
        }
    }
}

/// Where each figure of the page comes from, by its id.
const ORIGINS: [(&str, &str); 5] = [
    (
        "angle",
        "From the directions of both strings, which follow from the tapes to the walls' marks. Longer walls between the marks, or one more tape across the gap, make it more certain.",
    ),
    (
        "square",
        "The angle less 90°; and how far the second string is out of square in each metre of its length.",
    ),
    (
        "bevel",
        "Half the turn from one string onto the other. A saw that reads 0 for a square cut is set to the first figure; measured from the rail's own length the cut is the second.",
    ),
    (
        "place",
        "From the run's zero to where the strings cross. The ± comes from the tapes that settle both strings.",
    ),
    (
        "diagonal",
        "From the angle between the strings and the arms you mark. The ± comes from that angle, from marking both arms and from one reading of your tape; longer arms show a wrong angle more plainly.",
    ),
];

fn explain(desk: &mut Desk, id: &str) -> Then {
    let origin = ORIGINS.iter().find(|(of, _)| *of == id);
    origin.map_or(Then::Stay, |(_, words)| {
        desk.explain("Where it comes from", words)
    })
}
