//! Settings, runs, boards and what has been ticked off.

use super::plane::{Marks, Walls};
use super::strings::{Corners, Lines};
use super::{Ledger, Named};
use crate::job::ids::RunId;
use crate::job::model::{Boards, End, Gate, Job, Pin, Run, Side};
use crate::job::sound::{RunEnd, RunIx, RunStart, Sound, SoundGate, SoundPin, SoundRun};

pub(super) type Runs = Named<RunId, RunIx>;

/// The names a run may refer to.
pub(super) struct Names<'a> {
    pub marks: &'a Marks,
    pub walls: &'a Walls,
    pub lines: &'a Lines,
    pub corners: &'a Corners,
}

/// Tape, laser, tolerances, hole and stock; what is impossible falls back to its default.
pub(super) fn settings(job: &Job, sound: &mut Sound, ledger: &mut Ledger) {
    ledger.unknown_keys("tape", &job.tape.extra);
    ledger.unknown_keys("level", &job.level.extra);
    ledger.unknown_keys("tolerance", &job.tolerance.extra);
    ledger.unknown_keys("hole", &job.hole.extra);
    ledger.unknown_keys("stock", &job.stock.extra);
    let mut positive = |place: &str, value: f64, what: &str, keep: &mut f64| {
        if let Some(value) = ledger.positive(place.to_owned(), value, what) {
            *keep = value;
        }
    };
    sound.tape.class = job.tape.class;
    let reading = "standard deviation of one reading";
    positive(
        "tape.reading",
        job.tape.reading,
        reading,
        &mut sound.tape.reading,
    );
    positive(
        "level.reading",
        job.level.reading,
        reading,
        &mut sound.laser.reading,
    );
    positive(
        "hole.diameter",
        job.hole.diameter,
        "hole's diameter",
        &mut sound.hole.diameter,
    );
    positive(
        "hole.depth",
        job.hole.depth,
        "hole's depth",
        &mut sound.hole.depth,
    );
    positive(
        "hole.bag",
        job.hole.bag,
        "litres from one bag",
        &mut sound.hole.bag,
    );
    let mut not_negative = |place: &str, value: f64, what: &str, keep: &mut f64| {
        if let Some(value) = ledger.not_negative(place.to_owned(), value, what) {
            *keep = value;
        }
    };
    let laser = &mut sound.laser.accuracy;
    not_negative(
        "level.accuracy",
        job.level.accuracy,
        "laser's accuracy",
        laser,
    );
    let tolerance = &mut sound.tolerance;
    not_negative(
        "tolerance.length",
        job.tolerance.length,
        "tolerance",
        &mut tolerance.length,
    );
    not_negative(
        "tolerance.level",
        job.tolerance.level,
        "tolerance",
        &mut tolerance.level,
    );
    not_negative(
        "hole.over",
        job.hole.over,
        "share a hole runs over",
        &mut sound.hole.over,
    );
    not_negative(
        "stock.kerf",
        job.stock.kerf,
        "width of a saw cut",
        &mut sound.stock.kerf,
    );
    let lists = [
        ("gravel", &job.stock.gravel, &mut sound.stock.gravel),
        ("rails", &job.stock.rails, &mut sound.stock.rails),
        ("posts", &job.stock.posts, &mut sound.stock.posts),
    ];
    for (name, lengths, keep) in lists {
        for (i, &length) in lengths.iter().enumerate() {
            let place = format!("stock.{name}[{i}]");
            keep.extend(ledger.positive(place, length, "stock length"));
        }
    }
}

pub(super) fn runs(job: &Job, names: &Names<'_>, sound: &mut Sound, ledger: &mut Ledger) -> Runs {
    let mut runs = Runs::new();
    for (index, run) in job.runs.iter().enumerate() {
        let place = format!("runs[{index}]");
        run_keys(run, &place, ledger);
        if !runs.claim(&run.id, "run", &place, ledger) {
            continue;
        }
        if let Some(good) = sound_run(run, index, &place, names, sound, ledger) {
            runs.settle(&run.id, RunIx(sound.runs.len()));
            sound.runs.push(good);
        }
    }
    runs
}

fn run_keys(run: &Run, place: &str, ledger: &mut Ledger) {
    ledger.unknown_keys(place, &run.extra);
    for (key, end) in [("start", &run.start), ("end", &run.end)] {
        if let Some(end) = end {
            ledger.unknown_keys(&format!("{place}.{key}"), &end.extra);
        }
    }
    if let Some(post) = &run.post {
        ledger.unknown_keys(&format!("{place}.post"), &post.extra);
    }
    if let Some(bays) = &run.bays {
        ledger.unknown_keys(&format!("{place}.bays"), &bays.extra);
    }
    for (i, gate) in run.gates.iter().enumerate() {
        ledger.unknown_keys(&format!("{place}.gates[{i}]"), &gate.extra);
        if let Some(leaf) = &gate.leaf {
            ledger.unknown_keys(&format!("{place}.gates[{i}].leaf"), &leaf.extra);
        }
    }
    for (i, pin) in run.pins.iter().enumerate() {
        ledger.unknown_keys(&format!("{place}.pins[{i}]"), &pin.extra);
    }
}

fn sound_run(
    run: &Run,
    index: usize,
    place: &str,
    names: &Names<'_>,
    sound: &Sound,
    ledger: &mut Ledger,
) -> Option<SoundRun> {
    let line = names
        .lines
        .find(&run.line, "line", &format!("{place}.line"), ledger);
    let start = run_start(run.start.as_ref(), &format!("{place}.start"), names, ledger);
    let end = run_end(run.end.as_ref(), &format!("{place}.end"), names, ledger);
    let gap = ledger.not_negative(format!("{place}.gap"), run.gap, "gap");
    let post = run.post.clone().unwrap_or_default();
    let width = ledger.positive(format!("{place}.post.width"), post.width, "post width");
    let depth = ledger.positive(format!("{place}.post.depth"), post.depth, "post depth");
    let bays = run.bays.clone().unwrap_or_default();
    let bay_max = ledger.positive(format!("{place}.bays.max"), bays.max, "longest bay");
    let side = side_of(run, place, ledger);
    assumed_sizes(run, place, ledger);
    let gates = gates(&run.gates, place, ledger);
    let pins = pins(&run.pins, place, ledger);
    let good = SoundRun {
        id: run.id.clone(),
        name: run.name.clone(),
        line: line?,
        side,
        gap: gap?,
        start: start?,
        end: end?,
        width: width?,
        depth: depth?,
        bay_max: bay_max?,
        bay_fit: bays.fit,
        gates,
        pins,
        index,
    };
    ends_apart(&good, place, ledger)?;
    corners_on_line(&good, place, sound, ledger)?;
    Some(good)
}

fn side_of(run: &Run, place: &str, ledger: &mut Ledger) -> Side {
    run.side.unwrap_or_else(|| {
        ledger.problems.warning(
            format!("{place}.side"),
            format!(
                "Run “{}” does not say on which side of its string the posts stand; left is taken.",
                run.id
            ),
            "Say left or right, as seen looking along the line.",
        );
        Side::Left
    })
}

fn assumed_sizes(run: &Run, place: &str, ledger: &mut Ledger) {
    if run.post.is_none() {
        ledger.problems.warning(
            format!("{place}.post"),
            format!("Run “{}” has no post size; 100 by 100 is taken.", run.id),
            "Enter the size of its posts.",
        );
    }
    if run.bays.is_none() {
        ledger.problems.warning(
            format!("{place}.bays"),
            format!("Run “{}” has no longest bay; 1800 is taken.", run.id),
            "Enter the longest bay, centre to centre.",
        );
    }
}

fn run_start(
    end: Option<&End>,
    place: &str,
    names: &Names<'_>,
    ledger: &mut Ledger,
) -> Option<RunStart> {
    match end {
        Some(End {
            wall: Some(id),
            corner: None,
            mark: None,
            length: None,
            ..
        }) => names
            .walls
            .find(id, "wall", &format!("{place}.wall"), ledger)
            .map(RunStart::Wall),
        Some(End {
            wall: None,
            corner: Some(id),
            mark: None,
            length: None,
            ..
        }) => names
            .corners
            .find(id, "corner", &format!("{place}.corner"), ledger)
            .map(RunStart::Corner),
        Some(End {
            wall: None,
            corner: None,
            mark: Some(id),
            length: None,
            ..
        }) => names
            .marks
            .find(id, "mark", &format!("{place}.mark"), ledger)
            .map(RunStart::Mark),
        Some(End {
            wall: None,
            corner: None,
            mark: None,
            length: Some(_),
            ..
        }) => {
            ledger.problems.error(
                format!("{place}.length"),
                "A run cannot start at a length.",
                "Start it at a wall, a corner or a mark; only its end may be a length.",
            );
            None
        }
        Some(End {
            wall: None,
            corner: None,
            mark: None,
            length: None,
            ..
        })
        | None => {
            ledger.problems.warning(
                place,
                "It does not say where the run starts or ends here.",
                "Name a wall, a corner or a mark.",
            );
            None
        }
        Some(_) => {
            ledger.problems.error(
                place,
                "It says more than one thing about where this is.",
                "Keep one of wall, corner, mark and length.",
            );
            None
        }
    }
}

fn run_end(
    end: Option<&End>,
    place: &str,
    names: &Names<'_>,
    ledger: &mut Ledger,
) -> Option<RunEnd> {
    if let Some(End {
        wall: None,
        corner: None,
        mark: None,
        length: Some(length),
        ..
    }) = end
    {
        let length = ledger.positive(format!("{place}.length"), *length, "length of the run")?;
        return Some(RunEnd::Length(length));
    }
    run_start(end, place, names, ledger).map(RunEnd::At)
}

fn ends_apart(run: &SoundRun, place: &str, ledger: &mut Ledger) -> Option<()> {
    if run.end != RunEnd::At(run.start) {
        return Some(());
    }
    ledger.problems.error(
        format!("{place}.end"),
        format!("Run “{}” starts and ends at the same place.", run.id),
        "Name two different ends.",
    );
    None
}

fn corners_on_line(run: &SoundRun, place: &str, sound: &Sound, ledger: &mut Ledger) -> Option<()> {
    let mut good = Some(());
    let mut look = |key: &str, at: RunStart| {
        if let RunStart::Corner(corner) = at
            && let Some(corner) = sound.corners.get(corner.0)
            && !corner.lines.contains(&run.line)
        {
            ledger.problems.error(
                format!("{place}.{key}.corner"),
                format!(
                    "Corner “{}” is not on the line of run “{}”.",
                    corner.id, run.id
                ),
                "Name a corner of this run's own line.",
            );
            good = None;
        }
    };
    look("start", run.start);
    if let RunEnd::At(at) = run.end {
        look("end", at);
    }
    good
}

fn gates(gates: &[Gate], place: &str, ledger: &mut Ledger) -> Vec<SoundGate> {
    let mut good = Vec::new();
    for (index, gate) in gates.iter().enumerate() {
        let at_place = format!("{place}.gates[{index}].at");
        let clear_place = format!("{place}.gates[{index}].clear");
        let at = ledger.given(&at_place, gate.at, "gate's running reading");
        let at = at.and_then(|at| ledger.not_negative(at_place, at, "gate's running reading"));
        let clear = ledger.given(&clear_place, gate.clear, "gate's clear opening");
        let clear = clear.and_then(|c| ledger.positive(clear_place, c, "gate's clear opening"));
        let leaf_place = format!("{place}.gates[{index}].leaf");
        let leaf = gate.leaf.clone().filter(|leaf| {
            let gaps = [
                ("hinge", leaf.hinge),
                ("latch", leaf.latch),
                ("ground", leaf.ground),
            ];
            gaps.map(|(key, gap)| {
                let what = format!("{key} gap");
                ledger
                    .not_negative(format!("{leaf_place}.{key}"), gap, &what)
                    .is_some()
            })
            .into_iter()
            .all(|good| good)
        });
        if let (Some(at), Some(clear)) = (at, clear) {
            good.push(SoundGate {
                at,
                clear,
                leaf,
                index,
            });
        }
    }
    good
}

fn pins(pins: &[Pin], place: &str, ledger: &mut Ledger) -> Vec<SoundPin> {
    let mut good = Vec::new();
    for (index, pin) in pins.iter().enumerate() {
        let at_place = format!("{place}.pins[{index}].at");
        let at = ledger.given(&at_place, pin.at, "pin's running reading");
        if let Some(at) = at.and_then(|at| ledger.any(at_place, at, "pin's running reading")) {
            let stands = pin.stands;
            good.push(SoundPin { at, stands, index });
        }
    }
    good
}

/// Boards whose every figure is possible; a part with one that is not is left out.
pub(super) fn boards(job: &Job, sound: &mut Sound, ledger: &mut Ledger) {
    let Boards {
        gravel,
        rails,
        pales,
        extra,
    } = &job.boards;
    ledger.unknown_keys("boards", extra);
    if let Some(gravel) = gravel {
        ledger.unknown_keys("boards.gravel", &gravel.extra);
        let place = |key: &str| format!("boards.gravel.{key}");
        let checks = [
            ledger.positive(place("height"), gravel.height, "gravel board's height"),
            ledger.any(place("clearance"), gravel.clearance, "clearance"),
            ledger.not_negative(place("dig"), gravel.dig, "depth it may be let in"),
            ledger.not_negative(place("gap"), gravel.gap, "largest gap"),
            ledger.not_negative(place("step"), gravel.step.unwrap_or(0.0), "step"),
            ledger.any(
                place("top"),
                gravel.top.unwrap_or(0.0),
                "gravel board's top",
            ),
        ];
        sound.boards.gravel = checks.iter().all(Option::is_some).then(|| gravel.clone());
    }
    if let Some(rails) = rails {
        ledger.unknown_keys("boards.rails", &rails.extra);
        let place = |key: &str| format!("boards.rails.{key}");
        let count = ledger.positive(place("count"), f64::from(rails.count), "number of rails");
        let few = few_enough(rails.count, ledger);
        let checks = [
            count,
            few,
            ledger.any(place("low"), rails.low, "lowest rail's height"),
            ledger.any(place("high"), rails.high, "highest rail's height"),
            ledger.not_negative(place("seat"), rails.seat, "seat"),
            ledger.not_negative(place("notch"), rails.notch.unwrap_or(0.0), "notch"),
            ledger.positive(place("thick"), rails.thickness(), "rail's thickness"),
        ];
        let ordered = rails.count < 2 || rails.high > rails.low;
        if !ordered {
            ledger.problems.error(
                place("high"),
                "The highest rail is not above the lowest.",
                "Enter the height of the highest rail's centre above the gravel board.",
            );
        }
        let good = ordered && checks.iter().all(Option::is_some);
        sound.boards.rails = good.then(|| rails.clone());
    }
    if let Some(pales) = pales {
        ledger.unknown_keys("boards.pales", &pales.extra);
        let place = |key: &str| format!("boards.pales.{key}");
        let checks = [
            ledger.positive(place("width"), pales.width, "pale's width"),
            ledger.any(place("lap"), pales.lap, "lap"),
            ledger.positive(place("height"), pales.height, "pale's height"),
        ];
        let wide = pales.lap < pales.width;
        if !wide {
            ledger.problems.error(
                place("lap"),
                format!(
                    "A lap of {} is not less than the pale's width of {}.",
                    pales.lap, pales.width
                ),
                "Enter how far one pale must cover the next.",
            );
        }
        let good = wide && checks.iter().all(Option::is_some);
        sound.boards.pales = good.then(|| pales.clone());
    }
}

fn few_enough(count: u32, ledger: &mut Ledger) -> Option<f64> {
    const MOST: u32 = 20;
    if count <= MOST {
        return Some(f64::from(count));
    }
    ledger.problems.error(
        "boards.rails.count",
        format!("{count} rails in one bay cannot be right."),
        format!("Enter how many rails one bay has, {MOST} at most."),
    );
    None
}

/// Ticked-off posts must be on a run of the job; whether the post is there is seen once it is set out.
pub(super) fn marked(job: &Job, runs: &Runs, ledger: &mut Ledger) {
    for (i, marked) in job.marked.iter().enumerate() {
        let place = format!("marked[{i}]");
        ledger.unknown_keys(&place, &marked.extra);
        runs.find(&marked.run, "run", &format!("{place}.run"), ledger);
        if let Some(measured) = marked.measured {
            ledger.any(
                format!("{place}.measured"),
                measured,
                "running reading as built",
            );
        }
        if let Some(off) = marked.off {
            ledger.any(
                format!("{place}.off"),
                off,
                "distance off the string as built",
            );
        }
    }
}
