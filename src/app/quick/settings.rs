//! What every quick sum counts on: the unit, the tape and the laser; the open job's until another
//! is chosen here.

use crate::app::desk::entry::plain;
use crate::app::desk::{Desk, Entered, FigureKind, Prompt};
use crate::app::kit::fields::{choice, figure, heading};
use crate::job::Job;
use crate::job::model::Tape;
use crate::laser::Laser;
use crate::length::{Unit, show_fine};
use crate::tape::TapeClass;
use tautmark_ui::Field as Row;

const UNIT: &str = "quick unit";
const CLASS: &str = "quick tape class";
const READING: &str = "quick tape reading";
const ACCURACY: &str = "quick laser accuracy";
const SIGHT: &str = "quick laser reading";
const CLASSES: [TapeClass; 3] = [TapeClass::I, TapeClass::II, TapeClass::III];

fn place(desk: &Desk, key: &str) -> Option<usize> {
    let at = desk.figures.get(key)?;
    (0.0..10.0).contains(at).then_some(*at as usize)
}

/// The unit that lengths are typed and shown in.
#[must_use]
pub fn unit(desk: &Desk) -> Unit {
    let own = place(desk, UNIT).and_then(|at| Unit::ALL.get(at));
    own.copied().unwrap_or(desk.saved().show.lengths)
}

/// The tape's class and how well it is read.
#[must_use]
pub fn tape(desk: &Desk) -> Tape {
    let mut tape = desk.saved().tape.clone();
    if let Some(class) = place(desk, CLASS).and_then(|at| CLASSES.get(at)) {
        tape.class = *class;
    }
    tape.reading = *desk.figures.get(READING).unwrap_or(&tape.reading);
    tape
}

/// The laser's accuracy and how well it is read.
#[must_use]
pub fn laser(desk: &Desk) -> Laser {
    let own = &desk.saved().level;
    Laser {
        accuracy: *desk.figures.get(ACCURACY).unwrap_or(&own.accuracy),
        reading: *desk.figures.get(SIGHT).unwrap_or(&own.reading),
    }
}

/// Counts on another accuracy of the laser from now on, mm per m.
pub fn count_on(desk: &mut Desk, accuracy: f64) {
    desk.figures.insert(ACCURACY.to_owned(), accuracy);
}

/// The rows that change them.
#[must_use]
pub fn rows(desk: &Desk) -> Vec<Row> {
    let (unit, tape, laser) = (unit(desk), tape(desk), laser(desk));
    let at = Unit::ALL.iter().position(|one| *one == unit);
    let class = CLASSES.iter().position(|one| *one == tape.class);
    let fine = |mm: f64| show_fine(mm, unit, 1);
    vec![
        heading("What they count on"),
        choice(UNIT, "Lengths in", &["mm", "m", "ft in"], at),
        choice(
            CLASS,
            "Accuracy class, printed on the tape",
            &["I", "II", "III"],
            class,
        ),
        figure(
            READING,
            "One tape reading, standard deviation",
            "a pencil mark 0.5 to 1, a nail in a peg 2, rough brick 2 to 3 mm",
            &fine(tape.reading),
        ),
        figure(
            ACCURACY,
            "Laser's stated accuracy, mm per m",
            "the limit on its data sheet",
            &plain(laser.accuracy),
        ),
        figure(
            SIGHT,
            "One sight, standard deviation",
            "",
            &fine(laser.reading),
        ),
    ]
}

/// Picks one of a choice.
pub fn picked(desk: &mut Desk, id: &str, index: usize) {
    let at = u32::try_from(index).map_or(0.0, f64::from);
    if let Some(key) = [UNIT, CLASS].into_iter().find(|key| *key == id) {
        desk.figures.insert(key.to_owned(), at);
    }
}

/// Asks for a figure; false where there is none of that name.
pub fn ask(desk: &mut Desk, id: &str) -> bool {
    let (tape, laser, unit) = (tape(desk), laser(desk), unit(desk));
    let (key, there) = match id {
        READING => (READING, tape.reading),
        ACCURACY => (ACCURACY, laser.accuracy),
        SIGHT => (SIGHT, laser.reading),
        _ => return false,
    };
    desk.ask(Box::new(SettingFigure { key, there, unit }));
    true
}

struct SettingFigure {
    key: &'static str,
    there: f64,
    unit: Unit,
}

impl Prompt for SettingFigure {
    fn key(&self) -> String {
        self.key.to_owned()
    }

    fn title(&self, _job: &Job) -> String {
        match self.key {
            READING => "One tape reading, **standard deviation**",
            ACCURACY => "Laser, **stated accuracy**",
            _ => "One sight, **standard deviation**",
        }
        .to_owned()
    }

    fn measure(&self) -> FigureKind {
        if self.key == ACCURACY {
            FigureKind::Number("mm per m")
        } else {
            FigureKind::Length
        }
    }

    fn value(&self, _job: &Job) -> Option<f64> {
        Some(self.there)
    }

    fn unit(&self, _job: &Job) -> Unit {
        self.unit
    }

    fn enter(&self, _job: &Job, _value: f64) -> Entered {
        Entered::Desk
    }

    fn entered(&self, desk: &mut Desk, value: f64) {
        desk.figures.insert(self.key.to_owned(), value);
    }
}
