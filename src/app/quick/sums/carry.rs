//! A laser line carried round a corner.

use super::Tail::Pm;
use super::Value::{Length, Way};
use super::{
    Answer, Given, Input, Pen, QuickSum, Solid, Stage, Stop, Usual, Vec2, Verdict, Worked,
};
use crate::app::quick::keep::{self, KeptIn};
use crate::cautions::LASER;
use crate::job::Job;
use crate::job::PointId;
use crate::job::edit::{Change, Edit, Setting};
use crate::job::free_name;
use crate::job::model::{Datum, Point, Setup, Sight as JobSight};
use crate::quick::Figure;
use crate::quick::carry_level::{Closes, FromLine, LineSight, Shared, TwoSetups, carry_level};
use tautmark_ui::Place;

const DATUM: Input = Input::down("carry datum", "Datum from the first place")
    .called("datum")
    .how("down from the laser's line to the datum mark");
const FIRST: Input = Input::down("carry first", "Change point from the first place")
    .called("change point, first")
    .how("a fixed point that both places can see");
const SECOND: Input = Input::down("carry second", "Change point from the second")
    .called("change point, second")
    .how("the same point, after the laser was moved");
const AGAIN: Input = Input::down("carry again", "Datum from the second")
    .called("datum again")
    .how("where the datum can be seen from the second place: it checks the others")
    .may();
const MARK: Input = Input::down("carry mark", "A mark under the first line")
    .called("mark")
    .how("how far down it is from the first line")
    .may();
const NEAR: Input = Input::length("carry distance first", "First place to the point")
    .called("first place to the point")
    .natively(Usual::METRIC.sight, Usual::FEET.sight);
const FAR: Input = Input::length("carry distance second", "Second place to the point")
    .called("second place to the point")
    .natively(Usual::METRIC.sight, Usual::FEET.sight);

pub static CARRY: QuickSum = QuickSum {
    id: "carry",
    title: "Level round a corner",
    stage: Stage::Levels,
    answers: "Where is the laser's line after I moved it?",
    how: "**From the first place sight the datum and a fixed point both places can see; move the \
          laser and sight that point again.**",
    why: "What the second place reads on the change point less what the first one read. Its ± \
          uses the laser’s accuracy over both sights: stand about as far from the point both \
          times and most of it drops out.",
    inputs: &[DATUM, FIRST, SECOND, AGAIN, MARK, NEAR, FAR],
    work: carried,
    picture: carry_picture,
    pictured: "Two places of the laser, the datum and the change point between them",
    cautions: &[LASER],
    keep: Some(|desk, inputs| {
        let kept = KeptIn {
            title: "Level round a corner",
            said: "A datum, a change point, two set-ups and their sights.",
            place: Place::Levels,
        };
        keep::into_a_job(desk, inputs, kept, Box::new(in_job))
    }),
};

fn sights(given: &Given<'_>) -> Result<TwoSetups, Stop> {
    let (near, far) = (given.get(&NEAR)?, given.get(&FAR)?);
    let sight = |down, dist| LineSight { down, dist };
    Ok(TwoSetups {
        datum: sight(given.get(&DATUM)?, near),
        change_points: vec![Shared {
            first: sight(given.get(&FIRST)?, near),
            second: sight(given.get(&SECOND)?, far),
        }],
        datum_again: given.maybe(&AGAIN).map(|down| sight(down, far)),
    })
}

fn carried(given: &Given<'_>) -> Worked {
    let sights = sights(given)?;
    let carried = carry_level(&sights, given.laser)?;
    let mut answer = stepped(given, carried.step);
    if let Some(mark) = given.maybe(&MARK) {
        let (value, by) = match carried.from_second(mark) {
            FromLine::Down(by) => (Way(by.value, "down"), by),
            FromLine::Up(by) => (Way(by.value, "up"), by),
        };
        answer = answer.row("That mark from the second line", value, Pm(by));
    }
    let line = carried.line;
    answer = answer.row("Second line above the datum", Length(line.value), Pm(line));
    if let Some(closure) = carried.closure {
        let verdict = match closure.closes {
            Closes::Yes => Verdict::Good,
            Closes::No => Verdict::Bad,
        };
        answer = answer.says(verdict, closure.closes.text()).row(
            "Both ways differ by",
            Length(closure.spread.value),
            Pm(closure.spread),
        );
    }
    let advice = given
        .laser
        .balance_advice(given.get(&NEAR)?, given.get(&FAR)?, given.unit);
    Ok(match advice {
        Some(text) => answer.says(Verdict::Attention, text),
        None => answer,
    })
}

/// How much lower or higher the second line is, and what to do about it.
fn stepped(given: &Given<'_>, step: Figure) -> Answer {
    let [way, turn] = if step.value < 0.0 {
        ["lower", "less"]
    } else {
        ["higher", "more"]
    };
    let size = Length(step.value.abs());
    let by = given.say(size);
    let text = format!(
        "Every mark from it is {by} {way}: measure **{by} {turn} down** than from the first."
    );
    Answer::new(format!("The second line is {way} by"), size, Pm(step)).says(Verdict::Note, text)
}

fn carry_picture(pen: &mut Pen<'_>) {
    let given = pen.given;
    let step = match (given.maybe(&FIRST), given.maybe(&SECOND)) {
        (Some(first), Some(second)) => (second - first).clamp(-260.0, 260.0),
        _ => -90.0,
    };
    let (one, two, ground) = (1000.0, 1000.0 + step, 100.0);
    let at = Vec2::new;
    let points = [
        at(0.0, ground),
        at(900.0, ground - 20.0),
        at(1900.0, ground),
        at(2800.0, ground),
    ];
    pen.ground(&points, 110.0);
    pen.upright(Solid::Post, [-70.0, ground, 0.0, 1250.0]);
    pen.laser(at(0.0, one), at(1500.0, one), "first line");
    pen.laser(at(1300.0, two), at(2800.0, two), "second line");
    pen.tripod(at(650.0, one), one - ground);
    pen.tripod(at(2200.0, two), two - ground);
    let (datum, peg) = (at(0.0, 620.0), at(1400.0, ground + 120.0));
    pen.mark(datum, "datum", at(-1.0, 0.0));
    pen.upright(Solid::Timber, [1375.0, ground - 60.0, 1425.0, peg.y]);
    pen.name(peg, "change point", at(0.4, -1.0));
    let (left, right) = (at(-1.0, 0.0), at(1.0, 0.0));
    pen.sight(&DATUM, [90.0, one], [90.0, datum.y], right);
    pen.sight(&FIRST, [1360.0, one], [1360.0, peg.y], left);
    pen.sight(&SECOND, [1440.0, two], [1440.0, peg.y], right);
    if given.asks(&AGAIN) {
        pen.sight(&AGAIN, [200.0, two], [200.0, datum.y], right);
    }
    if given.asks(&MARK) {
        pen.sight(&MARK, [1000.0, one], [1000.0, 350.0], left);
    }
    for (input, from, to) in [(NEAR, 650.0, 1400.0), (FAR, 1400.0, 2200.0)] {
        if given.asks(&input) {
            let feet = [at(from, ground), at(to, ground)];
            pen.dimension(&input, feet, -at(0.0, 1.0), 130.0);
        }
    }
}

/// The datum and the change point as points of their own, and the two set-ups that saw them.
fn in_job(given: &Given<'_>, job: &Job) -> Option<Edit> {
    let sights = sights(given).ok()?;
    let shared = *sights.change_points.first()?;
    let levels = &job.levels;
    let names: Vec<&str> = levels
        .points
        .iter()
        .map(|point| point.id.as_str())
        .collect();
    let peg: PointId = free_name("peg", names.iter().copied()).as_str().into();
    let mut edits = Vec::new();
    let mut points = Vec::new();
    let datum = match &levels.datum {
        Some(datum) => datum.point.clone(),
        None => {
            let id: PointId = free_name("datum", names.iter().copied()).as_str().into();
            points.push(id.clone());
            let datum = Datum {
                point: id.clone(),
                ..Datum::default()
            };
            edits.push(Edit::Set(Setting::Datum(Some(datum))));
            id
        }
    };
    points.push(peg.clone());
    edits.extend(points.into_iter().enumerate().map(|(n, id)| {
        let value = Point {
            id,
            ..Point::default()
        };
        Edit::Point(Change::Insert {
            at: levels.points.len() + n,
            value,
        })
    }));
    let sight = |point: &PointId, sight: LineSight| JobSight {
        point: point.clone(),
        down: Some(sight.down),
        dist: Some(sight.dist),
        ..JobSight::default()
    };
    let first = vec![sight(&datum, sights.datum), sight(&peg, shared.first)];
    let again = sights.datum_again.map(|again| sight(&datum, again));
    let second = [sight(&peg, shared.second)]
        .into_iter()
        .chain(again)
        .collect();
    let mut taken: Vec<String> = levels
        .setups
        .iter()
        .map(|setup| setup.id.to_string())
        .collect();
    for (n, sights) in [first, second].into_iter().enumerate() {
        let name = free_name("S", taken.iter().map(String::as_str));
        let value = Setup {
            id: name.as_str().into(),
            sights,
            ..Setup::default()
        };
        taken.push(name);
        edits.push(Edit::Setup(Change::Insert {
            at: levels.setups.len() + n,
            value,
        }));
    }
    Some(Edit::Many(edits))
}
