//! The drawing on the screen: what of it is seen, and what a press on it hits.

use super::Bridge;
use super::screen::PagePicture;
use crate::app::desk::{Desk, Then, root_of};
use crate::app::kit::{laid, painted, patched};
use crate::drawing::{
    self, Bounds, Bundled, Hand, Margins, Stroke, Target, Tile, Tone, Vec2, View, fitted, hit,
};
use slint::{Global, Model};
use std::rc::Rc;
use tautmark_ui::{App, DrawingVm, PaintedDrawing, Theme};

/// How near to a thing a press must be, logical px.
const REACH: f64 = 24.0;
/// How large a sheet's page is seen from near, logical px in a point: its smallest words as large as a
/// page's notes.
const NEARER: f64 = 1.6;

/// What a press on a picture hits.
enum Pressed {
    /// A thing or nothing, and where on the site, mm.
    Drawing(Option<Target>, Vec2),
    /// A page of the sheet, as it is seen.
    Paper(View),
}

pub fn wire(app: &App, bridge: &Rc<Bridge>) {
    let vm = DrawingVm::get(app);
    let at = bridge.clone();
    vm.on_resized(move |width, height| {
        at.act(|desk| {
            desk.view.resize([f64::from(width), f64::from(height)]);
            Then::Stay
        });
    });
    let at = bridge.clone();
    vm.on_panned(move |dx, dy| {
        at.move_view(|view| view.panned(Vec2::new(f64::from(dx), f64::from(dy))));
    });
    let at = bridge.clone();
    vm.on_zoomed(move |factor, x, y| {
        let about = Vec2::new(f64::from(x), f64::from(y));
        at.move_view(|view| view.zoomed(f64::from(factor), about));
    });
    vm.on_fitted(bridge.does(|desk| {
        desk.view.whole();
        Then::Stay
    }));
    let at = bridge.clone();
    vm.on_tapped(move |x, y| at.press(Vec2::new(f64::from(x), f64::from(y))));
}

impl Bridge {
    /// What the page in sight draws; `None` where there is no drawing.
    fn picture(&self, desk: &Desk) -> Option<PagePicture> {
        let own = self.screen(desk.nav.page).picture(desk);
        own.or_else(|| self.picture_below(desk))
    }

    /// What the place below a page without a drawing draws, while the keypad is over both.
    pub(super) fn picture_below(&self, desk: &Desk) -> Option<PagePicture> {
        desk.entry.as_ref()?;
        self.screen(root_of(desk.nav.place)).picture(desk)
    }

    fn move_view(&self, how: impl FnOnce(View) -> View) {
        let Some(app) = self.app.upgrade() else {
            return;
        };
        let view = self.look(|desk| view(&app, desk, &self.picture(desk)?));
        if let Some(view) = view {
            self.act(|desk| {
                desk.move_view(how(view));
                Then::Stay
            });
        }
    }

    fn press(&self, at: Vec2) {
        let Some(app) = self.app.upgrade() else {
            return;
        };
        let found = self.look(|desk| {
            let picture = self.picture(desk)?;
            let view = view(&app, desk, &picture)?;
            match picture {
                PagePicture::Blank => None,
                PagePicture::Paper { .. } => Some(Pressed::Paper(view)),
                PagePicture::Drawing(drawing) => {
                    let target = hit(&drawing, &view, at, REACH).cloned();
                    Some(Pressed::Drawing(target, drawing.to_site(view.find(at))))
                }
            }
        });
        let Some(found) = found else { return };
        self.act(|desk| match found {
            Pressed::Drawing(target, place) => {
                let screen = self.screen(desk.nav.page);
                screen.drawing_pressed(desk, target.as_ref(), [place.x, place.y])
            }
            Pressed::Paper(view) => {
                // From near where all of the page is seen, and back again.
                if desk.moved_view().is_some() {
                    desk.view.whole();
                } else {
                    desk.move_view(view.zoomed(NEARER / view.scale, at));
                }
                Then::Stay
            }
        });
    }
}

pub fn fill(app: &App, desk: &Desk, picture: Option<PagePicture>) {
    let Some(picture) = picture else { return };
    let seen = view(app, desk, &picture);
    let blank = match &picture {
        PagePicture::Blank => true,
        PagePicture::Drawing(drawing) => seen.is_none() || drawing.items.is_empty(),
        PagePicture::Paper { .. } => seen.is_none(),
    };
    let shown = seen.map(|view| shown(picture, &view, desk.view.room(), scale(app)));
    let vm = DrawingVm::get(app);
    vm.set_blank(blank);
    vm.set_moved(desk.moved_view().is_some());
    show(&vm, shown.unwrap_or_default());
}

/// Puts a drawing on the screen; the same one again costs nothing.
fn show(vm: &DrawingVm, drawing: PaintedDrawing) {
    let there = vm.get_drawing();
    let same = there.description == drawing.description
        && there.strokes.iter().eq(drawing.strokes.iter())
        && there.labels.iter().eq(drawing.labels.iter());
    if same {
        return;
    }
    vm.set_edition(vm.get_edition().wrapping_add(1));
    vm.set_drawing(PaintedDrawing {
        strokes: patched(there.strokes, drawing.strokes.iter().collect()),
        labels: patched(there.labels, drawing.labels.iter().collect()),
        description: drawing.description,
    });
}

/// The person's own text size over the ordinary one.
fn scale(app: &App) -> f64 {
    f64::from(Theme::get(app).get_scale()).max(0.5)
}

/// Where a picture is on the screen: moved, or whole; `None` while there is no room for it.
fn view(app: &App, desk: &Desk, picture: &PagePicture) -> Option<View> {
    let room = desk.view.room();
    if room[0] < 1.0 || room[1] < 1.0 {
        return None;
    }
    let whole = || match picture {
        PagePicture::Blank => None,
        PagePicture::Drawing(drawing) => {
            let hand = Hand::screen(scale(app));
            let measure = &Bundled;
            let desk = drawing::LayoutDesk {
                hand: &hand,
                measure,
            };
            Some(fitted(drawing, room, desk))
        }
        PagePicture::Paper {
            size: [width, height],
            ..
        } => {
            let bounds = Bounds::around([Vec2::zeros(), Vec2::new(*width, -*height)]);
            Some(View::fit(&bounds, room, Margins::even(8.0)))
        }
    };
    desk.moved_view().or_else(whole)
}

fn shown(picture: PagePicture, view: &View, room: [f64; 2], scale: f64) -> PaintedDrawing {
    match picture {
        PagePicture::Blank => PaintedDrawing::default(),
        PagePicture::Drawing(drawing) => laid(&drawing, view, room, scale),
        PagePicture::Paper {
            ink,
            size,
            description,
        } => {
            let mut page = drawing::Laid::default();
            page.strokes.push(edge(size));
            page.add(ink);
            let mut page = page.placed(view.scale, view.origin);
            let [width, height] = room;
            // Only what is in sight costs anything to draw.
            let screen = Tile::level(Vec2::new(width, height) / 2.0, [width / 2.0, height / 2.0]);
            page.labels.retain(|label| label.tile().covers(&screen));
            painted(page, room, &description)
        }
    }
}

/// The edge of the paper.
fn edge([width, height]: [f64; 2]) -> Stroke {
    let corners = [[0.0, 0.0], [width, 0.0], [width, height], [0.0, height]];
    Stroke {
        points: corners.map(Vec2::from).into(),
        closed: true,
        line: Some((Tone::Second, 1.0)),
        dash: None,
        fill: Some(Tone::Paper),
        item: 0,
    }
}
