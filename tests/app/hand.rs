//! A hand on the app: a window without a screen over a job in a folder of its own, pressed by what
//! its parts are called.

use i_slint_backend_testing::{
    AccessibleRole, ElementHandle, ElementQuery, TestingBackend, TestingBackendOptions,
    mock_elapsed_time,
};
use slint::platform::{PointerEventButton, WindowEvent};
use slint::{ComponentHandle, Global, LogicalPosition, LogicalSize};
use std::cell::Cell;
use std::ops::ControlFlow;
use std::rc::Rc;
use std::time::Duration;
use std::{
    fs,
    io::BufWriter,
    path::{Path, PathBuf},
};
use tautmark::Solution;
use tautmark::app::device::Desktop;
use tautmark::app::{Bridge, Desk};
use tautmark::job::Job;
use tautmark::store::{Disk, Jobs};
use tautmark_ui::{App, FrameVm, Nav, Page, Place};
use tempfile::TempDir;

pub mod screen;

/// What can be pressed.
const PRESSED: [AccessibleRole; 6] = [
    AccessibleRole::Button,
    AccessibleRole::ListItem,
    AccessibleRole::Tab,
    AccessibleRole::RadioButton,
    AccessibleRole::Checkbox,
    AccessibleRole::TextInput,
];

/// Every page that can be gone to: its name, and the way there.
pub const PAGES: [(&str, Place, Page); 28] = [
    ("jobs", Place::Walls, Page::Jobs),
    ("bin", Place::Walls, Page::Bin),
    ("about", Place::Walls, Page::About),
    ("licences", Place::Walls, Page::Licences),
    ("licence", Place::Walls, Page::Licence),
    ("rename", Place::Walls, Page::Rename),
    ("sums", Place::Walls, Page::Sums),
    ("quick", Place::Walls, Page::Quick),
    ("start", Place::Walls, Page::Start),
    ("walls", Place::Walls, Page::Walls),
    ("settings", Place::Walls, Page::Settings),
    ("sheet", Place::Walls, Page::Sheet),
    ("lines", Place::Lines, Page::Lines),
    ("stretch", Place::Lines, Page::Stretch),
    ("string", Place::Lines, Page::Line),
    ("corner", Place::Lines, Page::Corner),
    ("posts", Place::Posts, Page::Posts),
    ("run", Place::Posts, Page::Run),
    ("mark-out", Place::Posts, Page::MarkOut),
    ("levels", Place::Levels, Page::Levels),
    ("carry", Place::Levels, Page::Carry),
    ("laser", Place::Levels, Page::Laser),
    ("heights", Place::Levels, Page::Heights),
    ("boards", Place::Boards, Page::Boards),
    ("sizes", Place::Boards, Page::Sizes),
    ("cut-list", Place::Boards, Page::CutList),
    ("trestles", Place::Boards, Page::Trestles),
    ("gate", Place::Boards, Page::Gate),
];

/// The app on a phone, with a job open.
pub struct Hand {
    pub app: App,
    pub bridge: Rc<Bridge>,
    folder: Option<TempDir>,
    taps: Cell<usize>,
}

impl Hand {
    /// Opens the app on the job, on an ordinary phone.
    pub fn on(job: Job) -> Self {
        Self::on_screen(job, 412.0, 860.0)
    }

    /// Opens the app on the job, on a screen of this size in logical px.
    pub fn on_screen(job: Job, width: f32, height: f32) -> Self {
        let folder = tempfile::tempdir().expect("a folder for the jobs");
        let jobs = Jobs::in_folder(folder.path());
        let open = jobs.start(job);
        let mut desk = desk(jobs, folder.path());
        desk.take(open);
        let hand = Self::over(desk, Some(folder), width, height);
        hand.go(Place::Walls, Page::Walls);
        hand
    }

    /// Opens the app with no job in it, on the list of jobs.
    pub fn with_no_job(width: f32, height: f32) -> Self {
        let folder = tempfile::tempdir().expect("a folder for the jobs");
        let desk = desk(Jobs::in_folder(folder.path()), folder.path());
        Self::over(desk, Some(folder), width, height)
    }

    /// Opens the app on the jobs of this folder, where it was left.
    pub fn in_folder(folder: &Path, width: f32, height: f32) -> Self {
        let desk = desk(Jobs::in_folder(folder), folder);
        let hand = Self::over(desk, None, width, height);
        hand.bridge.reopen();
        hand
    }

    /// Opens the app on the jobs of this disk, where it was left.
    pub fn on_disk(disk: impl Disk + 'static) -> Self {
        let hand = Self::over(desk(Jobs::on(disk), Path::new("")), None, 412.0, 860.0);
        hand.bridge.reopen();
        settle();
        hand
    }

    /// Drops the app: a window that is shown keeps its screens.
    pub fn close(self) -> Option<TempDir> {
        let Self {
            app,
            bridge,
            folder,
            ..
        } = self;
        let gone = Rc::downgrade(&bridge);
        app.hide().expect("a window without a screen always closes");
        drop((app, bridge));
        assert!(gone.upgrade().is_none(), "the app lets go of everything");
        folder
    }

    /// Drops the app as it is and starts it again on the same jobs.
    pub fn again(self) -> Self {
        let window = self.app.window();
        let size = window.size().to_logical(window.scale_factor());
        let folder = self.close();
        let path = folder.as_ref().expect("jobs in a folder").path();
        let desk = desk(Jobs::in_folder(path), path);
        let hand = Self::over(desk, folder, size.width, size.height);
        hand.bridge.reopen();
        settle();
        hand
    }

    fn over(desk: Desk, folder: Option<TempDir>, width: f32, height: f32) -> Self {
        platform();
        let app = App::new().expect("the screens are built in");
        let bridge = Bridge::new(&app, desk);
        app.show().expect("a window without a screen always opens");
        app.window().set_size(LogicalSize::new(width, height));
        bridge.refresh();
        settle();
        Self {
            app,
            bridge,
            folder,
            taps: Cell::new(0),
        }
    }

    /// The folder that jobs are kept in and files are saved in.
    pub fn folder(&self) -> &Path {
        self.folder.as_ref().expect("jobs in a folder").path()
    }

    /// The job as it is kept.
    pub fn saved(&self) -> Job {
        self.bridge.look(|desk| desk.saved().clone())
    }

    /// What the screens show of it.
    pub fn shown(&self) -> Solution {
        self.bridge.look(|desk| desk.solution.clone())
    }

    /// Enters a figure on the keypad.
    pub fn enter(&self, figure: &str) {
        self.keys(figure);
        self.press("Next");
    }

    /// How often something has been pressed so far.
    pub fn taps(&self) -> usize {
        self.taps.get()
    }

    /// Goes to a page of a place without a press.
    pub fn go(&self, place: Place, page: Page) {
        self.bridge.visit(place, page);
        settle();
    }

    /// The place and page in sight.
    pub fn here(&self) -> (Place, Page) {
        let nav = Nav::get(&self.app);
        (nav.get_place(), nav.get_page())
    }

    /// Presses what is called this, turning the page to it where it is out of sight.
    pub fn press(&self, label: &str) {
        self.taps.set(self.taps.get() + 1);
        self.find(label).invoke_accessible_default_action();
        settle();
    }

    /// What is called this and can be pressed, else what only shows these words. Only what is on
    /// the screen has a name: the list under the drawing is turned until it comes.
    fn find(&self, label: &str) -> ElementHandle {
        let mut shown = None;
        for turn in 0..60 {
            let (pressed, seen) = self.in_sight(label);
            if let Some(found) = pressed {
                return found;
            }
            shown = shown.or(seen);
            // From the top of the list down to its end.
            self.turn(if turn == 0 { 10_000.0 } else { -120.0 });
        }
        // A menu that was closed keeps its words in the tree for a while: they do not stand in for
        // a row further down.
        shown
            .unwrap_or_else(|| panic!("nothing is called {label:?}; there is {:#?}", self.labels()))
    }

    /// What is called this: the first that can be pressed, and the first at all. A menu or a notice
    /// lies over the page: what is on it comes before the same words on the page.
    fn in_sight(&self, label: &str) -> (Option<ElementHandle>, Option<ElementHandle>) {
        let pressed = |element: &ElementHandle| {
            let role = element.accessible_role();
            role.is_some_and(|role| PRESSED.contains(&role))
        };
        let mut all: Vec<_> = ElementHandle::find_by_accessible_label(&self.app, label).collect();
        let vm = FrameVm::get(&self.app);
        if vm.get_menu_open() || vm.get_notice_open() {
            all = self.painted(label);
            all.reverse();
        }
        let first = all.first().cloned();
        (all.into_iter().find(pressed), first)
    }

    /// Everything that is called this, once, in the order in which it is painted.
    fn painted(&self, label: &str) -> Vec<ElementHandle> {
        let mut found = Vec::new();
        let root = ElementQuery::from_root(&self.app).find_first();
        root.expect("a window").visit_descendants(|element| {
            if element.accessible_label().is_some_and(|own| own == label) {
                found.push(element);
            }
            ControlFlow::<()>::Continue(())
        });
        found
    }

    /// Turns the wheel over the list, which stands under the drawing or to its right.
    fn turn(&self, by: f32) {
        let size = self.app.window().size();
        let size = size.to_logical(self.app.window().scale_factor());
        let position = LogicalPosition::new(size.width * 0.8, size.height * 0.6);
        self.app
            .window()
            .dispatch_event(WindowEvent::PointerScrolled {
                position,
                delta_x: 0.0,
                delta_y: by,
            });
        settle();
    }

    /// Presses the keys of a figure, one letter each.
    pub fn keys(&self, figure: &str) {
        for key in figure.chars() {
            self.press(&key.to_string());
        }
    }

    /// Writes a name where one is asked for under this label.
    pub fn write(&self, label: &str, name: &str) {
        self.find(label).set_accessible_value(name);
        settle();
    }

    /// True where something is called this.
    pub fn sees(&self, label: &str) -> bool {
        ElementHandle::find_by_accessible_label(&self.app, label)
            .next()
            .is_some()
    }

    /// True where these words are part of what something is called.
    pub fn says(&self, words: &str) -> bool {
        self.labels().iter().any(|label| label.contains(words))
    }

    /// Fails where these words are not part of what something is called.
    #[track_caller]
    pub fn must_say(&self, words: &str) {
        let labels = self.labels();
        assert!(
            labels.iter().any(|label| label.contains(words)),
            "{words:?} is not in {labels:#?}"
        );
    }

    /// The value of what is called this.
    pub fn value(&self, label: &str) -> String {
        let found = self.find(label);
        found.accessible_value().unwrap_or_default().to_string()
    }

    /// The line under the title of what is called this.
    pub fn note(&self, label: &str) -> String {
        let found = self.find(label);
        found
            .accessible_description()
            .unwrap_or_default()
            .to_string()
    }

    /// True where what is called this lies wholly on the screen, and is large enough for a glove.
    pub fn reaches(&self, label: &str) -> bool {
        let size = self
            .app
            .window()
            .size()
            .to_logical(self.app.window().scale_factor());
        ElementHandle::find_by_accessible_label(&self.app, label).any(|element| {
            let (at, own) = (element.absolute_position(), element.size());
            at.x >= 0.0
                && at.y >= 0.0
                && at.x + own.width <= size.width
                && at.y + own.height <= size.height
                && own.width >= 56.0
                && own.height >= 56.0
        })
    }

    /// True where what is called this lies in the lower half of the screen, as [`reaches`](Self::reaches).
    pub fn low_on_the_screen(&self, label: &str) -> bool {
        let size = self.app.window().size();
        let size = size.to_logical(self.app.window().scale_factor());
        let low = |element: ElementHandle| element.absolute_position().y > size.height / 2.0;
        self.reaches(label) && {
            let (pressed, seen) = self.in_sight(label);
            pressed.or(seen).is_some_and(low)
        }
    }

    /// Taps the drawing, px from its top left corner.
    pub fn tap_plan(&self, x: f32, y: f32) {
        self.taps.set(self.taps.get() + 1);
        let mut canvas = ElementHandle::find_by_element_type_name(&self.app, "Canvas");
        let at = canvas.next().expect("a drawing is in sight");
        let at = at.absolute_position();
        let position = LogicalPosition::new(at.x + x, at.y + y);
        let button = PointerEventButton::Left;
        let window = self.app.window();
        window.dispatch_event(WindowEvent::PointerPressed { position, button });
        window.dispatch_event(WindowEvent::PointerReleased { position, button });
        settle();
    }

    /// Everything that has a name on the screen.
    pub fn labels(&self) -> Vec<String> {
        let mut all = Vec::new();
        let root = ElementQuery::from_root(&self.app);
        for element in root.match_descendants().find_all() {
            all.extend(element.accessible_label().map(|label| label.to_string()));
        }
        all.retain(|label| !label.is_empty());
        all
    }

    /// Draws the screen into `target/screens`, to be looked at.
    pub fn picture(&self, name: &str) {
        let picture = self
            .app
            .window()
            .take_snapshot()
            .expect("drawn without a screen");
        let folder = std::env::var_os("CARGO_TARGET_DIR")
            .map_or_else(
                || PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../target"),
                PathBuf::from,
            )
            .join("screens");
        fs::create_dir_all(&folder).expect("the target folder can be written");
        let file =
            fs::File::create(folder.join(format!("{name}.png"))).expect("a picture can be written");
        let mut encoder =
            png::Encoder::new(BufWriter::new(file), picture.width(), picture.height());
        encoder.set_color(png::ColorType::Rgba);
        encoder.set_depth(png::BitDepth::Eight);
        let mut writer = encoder.write_header().expect("a head of a picture");
        writer
            .write_image_data(picture.as_bytes())
            .expect("the pixels of a picture");
    }
}

fn desk(jobs: Jobs, folder: &Path) -> Desk {
    Desk::new(jobs, Rc::new(Desktop::saving_in(folder)))
}

/// Each thread has windows of its own, whose time goes on only when it is told to.
fn platform() {
    let backend = TestingBackend::new(TestingBackendOptions {
        mock_time: true,
        threading: false,
        renderer_name: Some("software".into()),
    });
    // Refused where this thread has it already, which is as good.
    let _ = slint::platform::set_platform(Box::new(backend));
}

/// Lets so much time go by.
pub fn wait(seconds: u64) {
    for _ in 0..seconds * 10 {
        mock_elapsed_time(Duration::from_millis(100));
    }
}

/// Lets layouts, lists and timers come to rest.
pub fn settle() {
    for _ in 0..3 {
        mock_elapsed_time(Duration::from_millis(200));
    }
}
