//! Levels without a job: a line carried round a corner, a spirit level turned end for end.

use super::given::Given;
use super::keep::{self, Kept};
use super::sum::{Answer, Input, Refused, Stage, Sum, Worked};
use crate::cautions::LASER;
use crate::drawing::{Block, Drawing, Vec2};
use crate::job::Job;
use crate::job::PointId;
use crate::job::edit::{Change, Edit, Setting};
use crate::job::free_name;
use crate::job::model::{Datum, Point, Setup, Sight as JobSight};
use crate::length::reword;
use crate::quick::carry_level::{Closes, FromLine, Shared, Sight, TwoSetups, carry_level};
use crate::quick::spirit_level::reversed;
use tautmark_ui::{Place, Verdict};

const DATUM: &str = "carry datum";
const FIRST: &str = "carry first";
const SECOND: &str = "carry second";
const AGAIN: &str = "carry again";
const MARK: &str = "carry mark";
const NEAR: &str = "carry distance first";
const FAR: &str = "carry distance second";

pub(super) static CARRY: Sum = Sum {
    id: "carry",
    title: "Level round a corner",
    stage: Stage::Levels,
    answers: "Where is the laser's line after I moved it?",
    how: "**From the first place sight the datum and a fixed point both places can see; move the \
          laser and sight that point again.**",
    why: "What the second place reads on the change point less what the first one read. Its ± \
          counts on the laser's accuracy over both sights: stand about as far from the point both \
          times and most of it drops out.",
    inputs: &[
        Input::down(DATUM, "Datum from the first place")
            .called("datum")
            .how("down from the laser's line to the datum mark"),
        Input::down(FIRST, "Change point from there")
            .called("change point, first")
            .how("a fixed point that both places can see"),
        Input::down(SECOND, "Change point from the second")
            .called("change point, second")
            .how("the same point, after the laser was moved"),
        Input::down(AGAIN, "Datum from the second")
            .called("datum again")
            .how("where it can be seen from there: it checks the rest")
            .may(),
        Input::down(MARK, "A mark under the first line")
            .called("mark")
            .how("how far down it is from the first line")
            .may(),
        Input::length(NEAR, "First place to the point")
            .called("first place to the point")
            .usually(5000.0),
        Input::length(FAR, "Second place to the point")
            .called("second place to the point")
            .usually(5000.0),
    ],
    work: carried,
    picture: carry_picture,
    caution: Some(&LASER),
    keep: Some(|desk, sum| {
        let kept = Kept {
            title: "Level round a corner",
            said: "A datum, a change point, two set-ups and their sights.",
            place: Place::Levels,
        };
        keep::into_a_job(desk, sum, kept, Box::new(in_job))
    }),
};

fn sights(given: &Given<'_>) -> Option<TwoSetups> {
    let (near, far) = (given.get(NEAR)?, given.get(FAR)?);
    let sight = |down, dist| Sight { down, dist };
    Some(TwoSetups {
        datum: sight(given.get(DATUM)?, near),
        change_points: vec![Shared {
            first: sight(given.get(FIRST)?, near),
            second: sight(given.get(SECOND)?, far),
        }],
        datum_again: given.get(AGAIN).map(|down| sight(down, far)),
    })
}

fn carried(given: &Given<'_>) -> Worked {
    let sights = sights(given)?;
    let carried = carry_level(&sights, given.laser).map_err(Refused::from);
    Some(carried.map(|carried| {
        let step = carried.step;
        let (what, way) = if step.value < 0.0 {
            ("The second line is lower by", "lower")
        } else {
            ("The second line is higher by", "higher")
        };
        let mut answer = Answer::new(what, given.length(step.value.abs()), given.pm(step));
        let by = given.length(step.value.abs());
        let turn = if step.value < 0.0 { "less" } else { "more" };
        answer = answer.says(
            Verdict::Note,
            format!("Every mark from it is {by} {way}: measure **{by} {turn} down** than from the first."),
        );
        if let Some(mark) = given.get(MARK) {
            let (figure, way) = from_line(given, carried.from_second(mark));
            answer = answer.row("That mark from the second line", figure, way);
        }
        answer = answer.row("Second line above the datum", given.length(carried.line.value), given.pm(carried.line));
        if let Some(closure) = carried.closure {
            let verdict = match closure.closes {
                Closes::Yes => Verdict::Good,
                Closes::No => Verdict::Bad,
            };
            answer = answer
                .says(verdict, closure.closes.text())
                .row("Both ways differ by", given.length(closure.spread.value), given.pm(closure.spread));
        }
        let shared = sights.change_points.first();
        let advice = shared.and_then(|p| given.laser.balance_advice(p.first.dist, p.second.dist));
        match advice {
            Some(text) => answer.says(Verdict::Attention, reword(&text, given.unit)),
            None => answer,
        }
    }))
}

fn from_line(given: &Given<'_>, from: FromLine) -> (String, String) {
    match from {
        FromLine::Down(by) => (format!("{} down", given.length(by.value)), given.pm(by)),
        FromLine::Up(by) => (format!("{} up", given.length(by.value)), given.pm(by)),
    }
}

fn carry_picture(given: &Given<'_>) -> Drawing {
    let mut sketch = given.sheet();
    let step = match (given.get(FIRST), given.get(SECOND)) {
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
    sketch.ground(&points, 110.0);
    sketch.upright(Block::Post, [-70.0, ground, 0.0, 1250.0]);
    sketch.laser(at(0.0, one), at(1500.0, one), "first line");
    sketch.laser(at(1300.0, two), at(2800.0, two), "second line");
    sketch.tripod(at(650.0, one), one - ground);
    sketch.tripod(at(2200.0, two), two - ground);
    let (datum, peg) = (at(0.0, 620.0), at(1400.0, ground + 120.0));
    sketch.mark(datum, "datum", at(-1.0, 0.0));
    sketch.upright(Block::Timber, [1375.0, ground - 60.0, 1425.0, peg.y]);
    sketch.name(peg, "change point", at(0.4, -1.0));
    let (left, right) = (at(-1.0, 0.0), at(1.0, 0.0));
    sketch.sight(&given.tag(DATUM), at(90.0, one), at(90.0, datum.y), right);
    sketch.sight(&given.tag(FIRST), at(1360.0, one), at(1360.0, peg.y), left);
    sketch.sight(
        &given.tag(SECOND),
        at(1440.0, two),
        at(1440.0, peg.y),
        right,
    );
    match given.asked {
        Some(AGAIN) => sketch.sight(&given.tag(AGAIN), at(200.0, two), at(200.0, datum.y), right),
        Some(MARK) => sketch.sight(&given.tag(MARK), at(1000.0, one), at(1000.0, 350.0), left),
        Some(NEAR) => {
            let feet = [at(650.0, ground), at(1400.0, ground)];
            sketch.dimension(&given.tag(NEAR), feet, -at(0.0, 1.0), 130.0);
        }
        Some(FAR) => {
            let feet = [at(1400.0, ground), at(2200.0, ground)];
            sketch.dimension(&given.tag(FAR), feet, -at(0.0, 1.0), 130.0);
        }
        _ => {}
    }
    sketch.done("Two places of the laser, the datum and the change point between them")
}

/// The datum and the change point as points of their own, and the two set-ups that saw them.
fn in_job(given: &Given<'_>, job: &Job) -> Option<Edit> {
    let sights = sights(given)?;
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
    let sight = |point: &PointId, sight: Sight| JobSight {
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

pub(super) static SPIRIT: Sum = Sum {
    id: "spirit",
    title: "Turn the spirit level round",
    stage: Stage::Levels,
    answers: "Is my spirit level true?",
    how: "**Pack one end until the bubble stands, turn the level end for end on the same two \
          points, and pack again.**",
    why: "Half the difference of the two packings is the level's own error, their mean is the true \
          fall. Packing under the other end counts as down.",
    inputs: &[
        Input::up("spirit first", "Packing, first way round")
            .called("packing the first way round")
            .how("under the far point; Down if under the near one"),
        Input::up("spirit second", "Packing, turned round")
            .called("packing the second way round")
            .how("under the same far point"),
        Input::length("spirit length", "Length of the level")
            .called("length of the spirit level")
            .usually(1200.0),
    ],
    work: spirit,
    picture: spirit_picture,
    caution: None,
    keep: None,
};

/// Packing is read to half a millimetre, 1 s.d.
const PACKING: f64 = 0.5;

fn spirit(given: &Given<'_>) -> Worked {
    let (first, second) = (given.get("spirit first")?, given.get("spirit second")?);
    let level = reversed(first, second, given.get("spirit length")?, PACKING);
    Some(level.map_err(Refused::from).map(|level| {
        let out = level.error;
        let verdict = if out.value.abs() <= out.pm {
            (Verdict::Good, "True, as near as the packing can tell.")
        } else {
            (
                Verdict::Attention,
                "It is out. Turn it end for end and take the mean, or have it set.",
            )
        };
        Answer::new(
            "The level is out by",
            given.fine(out.value.abs()),
            given.pm(out),
        )
        .row(
            "In each metre",
            given.fine(level.per_metre.value.abs()),
            given.pm(level.per_metre),
        )
        .row(
            "True fall to the far point",
            given.fine(level.true_fall.value),
            given.pm(level.true_fall),
        )
        .says(verdict.0, verdict.1)
    }))
}

fn spirit_picture(given: &Given<'_>) -> Drawing {
    let mut sketch = given.sheet();
    let at = Vec2::new;
    for (n, key) in ["spirit first", "spirit second"].into_iter().enumerate() {
        let low = if n == 0 { 520.0 } else { 0.0 };
        sketch.ground(&[at(-100.0, low), at(1300.0, low - 60.0)], 40.0);
        let (near, far) = (low + 10.0, low - 40.0);
        sketch.upright(Block::Timber, [0.0, near + 50.0, 1200.0, near + 130.0]);
        sketch.upright(Block::Post, [20.0, near, 100.0, near + 50.0]);
        sketch.upright(Block::Post, [1100.0, far, 1180.0, near + 50.0]);
        let mark = if n == 0 { 150.0 } else { 1050.0 };
        sketch.ink(vec![at(mark, near + 50.0), at(mark, near + 130.0)]);
        let packed = [at(1180.0, far), at(1180.0, near + 50.0)];
        sketch.dimension(&given.tag(key), packed, at(1.0, 0.0), 60.0);
    }
    let ends = [at(0.0, 650.0), at(1200.0, 650.0)];
    sketch.dimension(&given.tag("spirit length"), ends, at(0.0, 1.0), 20.0);
    sketch.done("A spirit level over two points, and turned end for end")
}
