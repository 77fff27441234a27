//! What a phone must show, and where things are on it: `android/stand-in` touches the Android app there
//! and holds its screen against these pictures, drawn into `target/screens`.

use i_slint_backend_testing::{AccessibleRole, ElementHandle};
use slint::platform::{PointerEventButton, WindowEvent};
use slint::{ComponentHandle, Global, LogicalPosition, LogicalSize};
use std::path::Path;
use std::rc::Rc;
use std::{env, fs};
use tautmark::app::Then;
use tautmark::app::device::{Brought, Device, Handed, Picked, Way};
use tautmark_app_tests::{Hand, settle};
use tautmark_ui::{Theme, ThemeMode};

const UPRIGHT: (f32, f32) = (412.0, 915.0);
const TURNED: (f32, f32) = (915.0, 412.0);
const JOB: &str = include_str!("../cases/coal-yard-return.job.json");

/// What a phone can do, as far as it shows.
struct Phone;

impl Device for Phone {
    fn hand_over(&self, file: &Handed, way: Way) -> Result<String, String> {
        let name = &file.name;
        Ok(match way {
            Way::Share => format!("{name} is ready to be sent."),
            Way::Save => format!("{name} is in Downloads, in the folder Tautmark."),
        })
    }

    fn ways(&self) -> &'static [Way] {
        &[Way::Share, Way::Save]
    }

    fn pick(&self, _: Box<dyn FnOnce(Picked)>) {}

    fn keep_awake(&self, _: bool) {}
}

/// A hand that is followed.
struct Followed {
    hand: Hand,
    places: String,
}

impl Followed {
    fn on_a_new_phone() -> Self {
        let hand = Hand::with_no_job(UPRIGHT.0, UPRIGHT.1);
        let phone = Rc::new(Phone);
        hand.bridge.act(|desk| {
            desk.device = phone;
            Then::Stay
        });
        Self {
            hand,
            places: String::new(),
        }
    }

    /// Touches what is called this in its middle, and notes under which name that was.
    fn press(&mut self, name: &str, label: &str) {
        let element = self.find(label);
        let (at, size) = (element.absolute_position(), element.size());
        let (x, y) = (at.x + size.width / 2.0, at.y + size.height / 2.0);
        let within = (0.0..UPRIGHT.0).contains(&x) && (0.0..UPRIGHT.1).contains(&y);
        assert!(within, "{label:?} is out of sight");
        assert!(
            !self.places.contains(&format!("{name}\t")),
            "{name:?} is in two places"
        );
        self.places += &format!("{name}\t{x}\t{y}\n");
        let (position, button) = (LogicalPosition::new(x, y), PointerEventButton::Left);
        let window = self.hand.app.window();
        window.dispatch_event(WindowEvent::PointerPressed { position, button });
        window.dispatch_event(WindowEvent::PointerReleased { position, button });
        // As after a finger, nothing is under a pointer.
        window.dispatch_event(WindowEvent::PointerExited);
        settle();
    }

    /// What is called this: what lies over a page comes after it, what can be pressed before its words.
    fn find(&self, label: &str) -> ElementHandle {
        let pressed = |one: &ElementHandle| {
            let role = one.accessible_role();
            role.is_some_and(|role| role != AccessibleRole::Text)
        };
        let named = ElementHandle::find_by_accessible_label(&self.hand.app, label);
        let all: Vec<_> = named.collect();
        let found = all.iter().rfind(|one| pressed(one)).or(all.last());
        found.cloned().unwrap_or_else(|| {
            panic!(
                "nothing is called {label:?}; there is {:#?}",
                self.hand.labels()
            )
        })
    }

    /// Turns the wheel in the lower part of the screen, notches upwards.
    fn wheel(&self, notches: f32) {
        let event = WindowEvent::PointerScrolled {
            position: LogicalPosition::new(206.0, 700.0),
            delta_x: 0.0,
            delta_y: notches * 60.0,
        };
        let window = self.hand.app.window();
        window.dispatch_event(event);
        window.dispatch_event(WindowEvent::PointerExited);
        settle();
    }

    fn shows(&self, name: &str) {
        self.hand.picture(&format!("phone-{name}"));
    }

    fn turn(&self, (width, height): (f32, f32)) {
        let size = LogicalSize::new(width, height);
        self.hand.app.window().set_size(size);
        settle();
    }

    fn light(&self, mode: ThemeMode) {
        Theme::get(&self.hand.app).set_mode(mode);
        settle();
    }

    fn bring_in(&self, title: &str) {
        let bytes = JOB.replace("Coal-yard return", title).into_bytes();
        let name = "Yard.job.json".to_owned();
        self.hand.bridge.bring_in(Ok(Some(Brought { name, bytes })));
        settle();
    }

    fn write_down(&self) {
        let target = env::var("CARGO_TARGET_DIR").unwrap_or_else(|_| "../../target".to_owned());
        let file = Path::new(&target).join("screens/phone-places.txt");
        fs::write(file, &self.places).expect("the target folder can be written");
    }
}

#[test]
fn the_first_day_on_a_phone() {
    let mut phone = Followed::on_a_new_phone();
    phone.shows("first-start");
    phone.press("the example", "Open the example");
    phone.shows("example");
    figure_half_typed(&mut phone);
    phone.wheel(-2.0);
    phone.shows("wheel");
    phone.wheel(20.0);
    handed_over(&mut phone);
    brought_in(&mut phone);
    phone.press("the reading again", "A to C");
    phone.press("its figure again", "Enter its figure");
    for key in ["8", "5", "1", "0"] {
        phone.press(&format!("key {key} again"), key);
    }
    phone.press("next", "Next");
    phone.shows("entered");
    phone.write_down();
    let hand = phone.hand.again();
    hand.picture("phone-found-again");
}

fn figure_half_typed(phone: &mut Followed) {
    phone.press("a reading", "A to C");
    phone.shows("chosen");
    phone.press("its figure", "Enter its figure");
    phone.shows("keypad");
    for key in ["8", "5", "1"] {
        phone.press(&format!("key {key}"), key);
    }
    phone.shows("typed");
    phone.turn(TURNED);
    phone.shows("typed-turned");
    phone.turn(UPRIGHT);
    phone.hand.press("Leave this figure");
    phone.shows("no-figure");
    phone.light(ThemeMode::Night);
    phone.shows("no-figure-night");
    phone.light(ThemeMode::Day);
}

fn handed_over(phone: &mut Followed) {
    phone.press("the sheet", "Sheet");
    phone.shows("sheet");
    phone.press("a form", "A short message");
    phone.shows("ways");
    phone.press("share it", "Share it");
    phone.press("the form again", "A short message");
    phone.press("save it", "Save it");
    phone.press("back", "Back");
}

fn brought_in(phone: &mut Followed) {
    phone.press("the jobs", "Orchard corner screen");
    phone.press("bring in", "Bring in a file");
    phone.press("a job file", "A job file");
    phone.bring_in("A picked yard");
    phone.shows("picked");
    phone.bring_in("A sent yard");
    phone.shows("sent");
    phone.press("the jobs again", "A sent yard");
    phone.press("the example again", "Orchard corner screen");
    phone.shows("example-again");
}
