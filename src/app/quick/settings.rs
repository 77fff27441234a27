//! What every quick sum counts on: the unit, the tape and the laser; the open job's until another
//! is chosen here.

use crate::app::desk::entry::plain;
use crate::app::desk::{Desk, Entered, FigureKind, Prompt};
use crate::app::kit::fields::{choice, figure, heading};
use crate::job::Job;
use crate::job::model::Tape;
use crate::laser::Laser;
use crate::length::{Part, Unit, show_spread};
use crate::tape::TapeClass;
use tautmark_ui::Field as Row;

const UNIT: &str = "quick unit";
const PART: &str = "quick smallest part";
const CLASS: &str = "quick tape class";
const READING: &str = "quick tape reading";
const ACCURACY: &str = "quick laser accuracy";
const SIGHT: &str = "quick laser reading";
const CLASSES: [TapeClass; 3] = [TapeClass::I, TapeClass::II, TapeClass::III];

fn place(desk: &Desk, key: &str) -> Option<usize> {
    let at = desk.figures.get(key)?;
    (0.0..10.0).contains(at).then_some(*at as usize)
}

/// What a sum counts on.
#[derive(Clone)]
pub struct Counts {
    /// The unit that lengths are typed and shown in.
    pub unit: Unit,
    /// The tape's class and how well it is read.
    pub tape: Tape,
    /// The laser's accuracy and how well it is read.
    pub laser: Laser,
}

impl Counts {
    /// What the open job has.
    #[must_use]
    pub fn of_job(desk: &Desk) -> Self {
        let job = desk.saved();
        Self {
            unit: job.show.lengths,
            tape: job.tape.clone(),
            laser: Laser {
                accuracy: job.level.accuracy,
                reading: job.level.reading,
            },
        }
    }

    /// What is chosen for the quick sums, and of the rest what the open job has.
    #[must_use]
    pub fn of_quick(desk: &Desk) -> Self {
        let mut own = Self::of_job(desk);
        if let Some(unit) = place(desk, UNIT).and_then(|at| Unit::ALL.get(at)) {
            own.unit = desk.saved().show.turned_to(*unit).lengths;
        }
        if let Some(part) = place(desk, PART).and_then(|at| Part::ALL.get(at)) {
            own.unit = own.unit.to_part(*part);
        }
        if let Some(class) = place(desk, CLASS).and_then(|at| CLASSES.get(at)) {
            own.tape.class = *class;
        }
        let figures = [
            (READING, &mut own.tape.reading),
            (ACCURACY, &mut own.laser.accuracy),
            (SIGHT, &mut own.laser.reading),
        ];
        for (key, figure) in figures {
            *figure = *desk.figures.get(key).unwrap_or(figure);
        }
        own
    }
}

/// Counts on another accuracy of the laser from now on, mm per m.
pub fn count_on(desk: &mut Desk, accuracy: f64) {
    desk.figures.insert(ACCURACY.to_owned(), accuracy);
}

/// The rows that change them.
#[must_use]
pub fn rows(desk: &Desk) -> Vec<Row> {
    let Counts { unit, tape, laser } = Counts::of_quick(desk);
    let class = CLASSES.iter().position(|one| *one == tape.class);
    let mut rows = vec![
        heading("What they count on"),
        choice(
            UNIT,
            "Lengths in",
            &["mm", "m", "ft in"],
            Some(unit.place()),
        ),
    ];
    if let Some(part) = unit.part() {
        let at = Part::ALL.iter().position(|one| *one == part);
        let names = Part::ALL.map(Part::name);
        rows.push(choice(PART, "Smallest part of an inch", &names, at));
    }
    rows.extend([
        choice(
            CLASS,
            "Accuracy class, printed on the tape",
            &["I", "II", "III"],
            class,
        ),
        figure(
            READING,
            "One tape reading, standard deviation",
            if unit.is_feet() {
                "a pencil mark 1/32, a nail in a peg 3/32, rough brick 3/32 to 1/8 in"
            } else {
                "a pencil mark 0.5 to 1, a nail in a peg 2, rough brick 2 to 3 mm"
            },
            &show_spread(tape.reading, unit),
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
            &show_spread(laser.reading, unit),
        ),
    ]);
    rows
}

/// Picks one of a choice.
pub fn picked(desk: &mut Desk, id: &str, index: usize) {
    let at = u32::try_from(index).map_or(0.0, f64::from);
    if let Some(key) = [UNIT, PART, CLASS].into_iter().find(|key| *key == id) {
        desk.figures.insert(key.to_owned(), at);
    }
}

/// Asks for a figure; false where there is none of that name.
pub fn ask(desk: &mut Desk, id: &str) -> bool {
    let Counts { unit, tape, laser } = Counts::of_quick(desk);
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
