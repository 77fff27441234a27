//! The drawing on the screen: what of it is seen, and how it becomes strokes and labels.

use super::add_reading::place_mark;
use super::field::Focus;
use super::heights::setup_in_sight;
use super::painted::painted;
use super::rows::patched;
use super::{Bridge, Desk, Then, preview, quick};
use crate::Solution;
use crate::drawing::{
    self, Asked, Bundled, Detail, ElevationShow, Face, Hand, PlanShow, PostShow, Seen, Target,
    Turn, Vec2, View as Sight, corner as corner_drawing, elevation, fitted, hit, lay_out, plan,
    post_heights,
};
use crate::job::Job;
use crate::job::model::Line;
use slint::{Global, Model};
use std::rc::Rc;
use tautmark_ui::{App, Drawing, DrawingVm, Nav, Page, Place, Theme};

/// How near to a thing a press must be, logical px.
const REACH: f64 = 24.0;

/// What of the drawing is seen: the room for it (logical px) and, once it has been moved, where.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct View {
    room: [f64; 2],
    /// `None` shows the whole.
    moved: Option<Sight>,
    /// Where it has been moved: another page's drawing is another one.
    at: Option<(Place, Page)>,
}

impl View {
    /// Width and height of the room for the drawing, logical px.
    #[must_use]
    pub fn room(&self) -> [f64; 2] {
        self.room
    }

    /// Shows the whole of the drawing again.
    pub fn whole(&mut self) {
        self.moved = None;
    }
}

impl View {
    /// Shows the whole of what comes into sight.
    pub(super) fn refit(&mut self) {
        self.moved = None;
    }
}

pub(super) fn wire(app: &App, bridge: &Rc<Bridge>) {
    let vm = DrawingVm::get(app);
    let at = bridge.clone();
    vm.on_resized(move |width, height| {
        at.act(|desk| {
            let room = [f64::from(width), f64::from(height)];
            if desk.view.room != room {
                desk.view = View {
                    room,
                    ..View::default()
                };
            }
            Then::Stay
        });
    });
    let at = bridge.clone();
    vm.on_panned(move |dx, dy| {
        at.move_view(|sight| sight.panned(Vec2::new(f64::from(dx), f64::from(dy))));
    });
    let at = bridge.clone();
    vm.on_zoomed(move |factor, x, y| {
        let about = Vec2::new(f64::from(x), f64::from(y));
        at.move_view(|sight| sight.zoomed(f64::from(factor), about));
    });
    let at = bridge.clone();
    vm.on_fitted(move || {
        at.act(|desk| {
            desk.view.moved = None;
            Then::Stay
        });
    });
    let at = bridge.clone();
    vm.on_tapped(move |x, y| at.press(Vec2::new(f64::from(x), f64::from(y))));
}

impl Bridge {
    fn move_view(&self, how: impl FnOnce(Sight) -> Sight) {
        let (Some(sight), Some(app)) = (self.sight(), self.app.upgrade()) else {
            return;
        };
        self.act(|desk| {
            desk.view.moved = Some(how(sight));
            desk.view.at = Some(here(&app));
            Then::Stay
        });
    }

    fn sight(&self) -> Option<Sight> {
        let app = self.app.upgrade()?;
        self.look(|desk| match here(&app).1 {
            Page::Sheet => page_seen(&app, desk),
            _ => Some(seen(&app, desk)?.1),
        })
    }

    fn press(&self, at: Vec2) {
        let Some(app) = self.app.upgrade() else {
            return;
        };
        if here(&app).1 == Page::Sheet {
            return;
        }
        let found = self.look(|desk| {
            let (drawing, sight) = seen(&app, desk)?;
            let target = hit(&drawing, &sight, at, REACH).cloned();
            Some((target, drawing.to_site(sight.find(at))))
        });
        let Some((target, place)) = found else { return };
        self.act(|desk| match target {
            _ if desk.placing => place_mark(desk, [place.x, place.y]),
            Some(target) => desk.pick(&target),
            None => Then::Stay,
        });
    }
}

pub(super) fn fill(app: &App, desk: &Desk) {
    let nav = Nav::get(app);
    let page = nav.get_page();
    let (drawing, blank) = if page == Page::Sheet {
        let shown = page_seen(app, desk).map(|sight| preview::shown(desk, &sight));
        let blank = shown.is_none();
        (shown, blank)
    } else if nav.get_entry() || has_drawing(page) {
        let seen = seen(app, desk);
        let blank = seen.as_ref().is_none_or(|(of, _)| of.items.is_empty());
        let room = desk.view.room;
        let shown = seen.map(|(of, sight)| shown(&of, &sight, room, scale(app)));
        (shown, blank)
    } else {
        return;
    };
    let vm = DrawingVm::get(app);
    vm.set_blank(blank);
    vm.set_moved(desk.view.moved.is_some() && desk.view.at == Some(here(app)));
    show(&vm, drawing.unwrap_or_default());
}

/// Puts a drawing on the screen; the same one again costs nothing.
fn show(vm: &DrawingVm, drawing: Drawing) {
    let there = vm.get_drawing();
    let same = there.description == drawing.description
        && there.strokes.iter().eq(drawing.strokes.iter())
        && there.labels.iter().eq(drawing.labels.iter());
    if same {
        return;
    }
    vm.set_edition(vm.get_edition().wrapping_add(1));
    vm.set_drawing(Drawing {
        strokes: patched(there.strokes, drawing.strokes.iter().collect()),
        labels: patched(there.labels, drawing.labels.iter().collect()),
        description: drawing.description,
    });
}

/// The other pages cover the drawing.
fn has_drawing(page: Page) -> bool {
    !matches!(
        page,
        Page::Jobs
            | Page::Bin
            | Page::Rename
            | Page::Start
            | Page::About
            | Page::Licences
            | Page::Licence
            | Page::Sums
            | Page::Settings
    )
}

/// A drawing as large as it goes in a small room, logical px.
pub(super) fn small(drawing: &drawing::Drawing, room: [f64; 2]) -> Drawing {
    let hand = Hand::screen(0.8);
    let desk = drawing::Desk {
        hand: &hand,
        measure: &Bundled,
    };
    shown(drawing, &fitted(drawing, room, desk), room, 0.8)
}

/// A small plan of a job, for the list of jobs.
pub(super) fn thumbnail(job: &Job, solution: &Solution, room: [f64; 2]) -> Drawing {
    let show = PlanShow {
        turn: Turn::Along(room),
        detail: Detail::Small,
        posts: Seen::Hidden,
        ..PlanShow::default()
    };
    small(&plan(job, solution, &show), room)
}

/// The place and page in sight.
fn here(app: &App) -> (Place, Page) {
    let nav = Nav::get(app);
    (nav.get_place(), nav.get_page())
}

/// The person's own text size over the ordinary one.
fn scale(app: &App) -> f64 {
    f64::from(Theme::get(app).get_scale()).max(0.5)
}

/// What the page in sight draws, and where it is on the screen; `None` while there is no room.
fn seen(app: &App, desk: &Desk) -> Option<(drawing::Drawing, Sight)> {
    let room = desk.view.room;
    if room[0] < 1.0 || room[1] < 1.0 {
        return None;
    }
    let drawing = drawn(app, desk);
    let hand = Hand::screen(scale(app));
    let whole = || {
        fitted(
            &drawing,
            room,
            drawing::Desk {
                hand: &hand,
                measure: &Bundled,
            },
        )
    };
    let moved = desk.view.moved.filter(|_| desk.view.at == Some(here(app)));
    let sight = moved.unwrap_or_else(whole);
    Some((drawing, sight))
}

/// Where the sheet's page is on the screen.
fn page_seen(app: &App, desk: &Desk) -> Option<Sight> {
    let moved = desk.view.moved.filter(|_| desk.view.at == Some(here(app)));
    moved.or_else(|| preview::whole(desk))
}

/// What has a drawing of its own: a corner, or what is levelled or stands upright, where it is
/// settled.
fn by_itself(app: &App, desk: &Desk) -> Option<drawing::Drawing> {
    let nav = Nav::get(app);
    let (job, solution) = (desk.job(), &desk.solution);
    let aspect = desk.view.room[0] / desk.view.room[1];
    let run = || job.runs.get(desk.chosen.run).map(|run| &run.id);
    match (nav.get_page(), nav.get_place()) {
        (Page::Corner, _) => {
            let corner = job.corners.get(desk.chosen.corner)?;
            corner_drawing(job, solution, &corner.id, desk.chosen.arm)
        }
        (Page::Heights, _) => {
            let setup = setup_in_sight(desk).map(|(id, _)| id);
            post_heights(job, solution, (run()?, desk.chosen.post), setup, aspect)
        }
        (Page::Laser, _) => Some(quick::laser_check(desk)),
        (Page::Carry, _) | (Page::Work, Place::Levels) => drawing::levels(job, solution, aspect),
        (Page::Sizes | Page::CutList, _) | (Page::Work, Place::Boards) => {
            elevation(job, solution, run()?, &ElevationShow::default())
        }
        _ => None,
    }
}

fn drawn(app: &App, desk: &Desk) -> drawing::Drawing {
    if Nav::get(app).get_page() == Page::Quick {
        return quick::drawing(desk);
    }
    if let Some(drawing) = by_itself(app, desk) {
        return drawing;
    }
    let nav = Nav::get(app);
    let job = desk.job();
    let mut show = PlanShow {
        turn: Turn::Along(desk.view.room),
        ..PlanShow::default()
    };
    let run = job.runs.get(desk.chosen.run).map(|run| run.id.clone());
    match nav.get_place() {
        Place::Walls => {
            show.posts = Seen::Hidden;
            show.chosen = desk.chosen.target(job);
        }
        Place::Lines => {
            show.readings = Seen::Hidden;
            show.posts = Seen::Hidden;
            show.chosen = match nav.get_page() {
                Page::Line => job
                    .lines
                    .get(desk.chosen.line)
                    .map(|l| Target::Line(l.id.clone())),
                Page::Corner => job
                    .corners
                    .get(desk.chosen.corner)
                    .map(|c| Target::Corner(c.id.clone())),
                _ => None,
            };
        }
        Place::Posts | Place::Levels | Place::Boards => {
            show.readings = Seen::Hidden;
            show.run = run;
            if nav.get_page() == Page::Run {
                let run = job.runs.get(desk.chosen.run);
                show.chosen = run.map(|run| Target::Line(run.line.clone()));
            }
            if nav.get_page() == Page::MarkOut {
                let face = match desk.chosen.face {
                    0 => Face::Near,
                    1 => Face::Centre,
                    _ => Face::Far,
                };
                show.post = Some(PostShow {
                    n: desk.chosen.post,
                    face,
                });
            }
        }
    }
    match desk.focus() {
        Focus::Reading(index) => show.asked = Some(Asked::Reading(index)),
        Focus::Line(at) => show.chosen = job.lines.get(at).map(|line| string(desk, line)),
        Focus::Corner(at) => {
            show.chosen = job.corners.get(at).map(|c| Target::Corner(c.id.clone()));
        }
        Focus::Post(..) | Focus::Nothing => {}
    }
    plan(job, &desk.solution, &show)
}

/// A string, or the wall it is going to be measured from.
fn string(desk: &Desk, line: &Line) -> Target {
    match &line.wall {
        Some(wall) if !desk.solution.lines.contains_key(&line.id) => Target::Wall(wall.clone()),
        _ => Target::Line(line.id.clone()),
    }
}

/// Lays a drawing out and hands it to the screen.
fn shown(drawing: &drawing::Drawing, sight: &Sight, room: [f64; 2], scale: f64) -> Drawing {
    let hand = Hand::screen(scale);
    let desk = drawing::Desk {
        hand: &hand,
        measure: &Bundled,
    };
    let laid = lay_out(drawing, sight, Some(room), desk);
    painted(laid, room, &drawing.description)
}
