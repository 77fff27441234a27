//! Settings, runs, boards and what has been ticked off.

use super::plane::{Marks, Walls};
use super::strings::{Corners, Lines};
use super::{Ledger, Named, Place};
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
    let [tape, level, tolerance, hole, stock] =
        ["tape", "level", "tolerance", "hole", "stock"].map(|part| Place::File.key(part));
    ledger.unknown_keys(tape, &job.tape.extra);
    ledger.unknown_keys(level, &job.level.extra);
    ledger.unknown_keys(tolerance, &job.tolerance.extra);
    ledger.unknown_keys(hole, &job.hole.extra);
    ledger.unknown_keys(stock, &job.stock.extra);
    let mut positive = |place: Place<'_>, value: f64, what: &str, keep: &mut f64| {
        if let Some(value) = ledger.positive(place, value, what) {
            *keep = value;
        }
    };
    sound.tape.class = job.tape.class;
    let reading = "standard deviation of one reading";
    positive(
        tape.key("reading"),
        job.tape.reading,
        reading,
        &mut sound.tape.reading,
    );
    positive(
        level.key("reading"),
        job.level.reading,
        reading,
        &mut sound.laser.reading,
    );
    positive(
        hole.key("diameter"),
        job.hole.diameter,
        "hole's diameter",
        &mut sound.hole.diameter,
    );
    positive(
        hole.key("depth"),
        job.hole.depth,
        "hole's depth",
        &mut sound.hole.depth,
    );
    positive(
        hole.key("bag"),
        job.hole.bag,
        "litres from one bag",
        &mut sound.hole.bag,
    );
    let mut not_negative = |place: Place<'_>, value: f64, what: &str, keep: &mut f64| {
        if let Some(value) = ledger.not_negative(place, value, what) {
            *keep = value;
        }
    };
    let laser = &mut sound.laser.accuracy;
    not_negative(
        level.key("accuracy"),
        job.level.accuracy,
        "laser's accuracy",
        laser,
    );
    not_negative(
        tolerance.key("length"),
        job.tolerance.length,
        "tolerance",
        &mut sound.tolerance.length,
    );
    not_negative(
        tolerance.key("level"),
        job.tolerance.level,
        "tolerance",
        &mut sound.tolerance.level,
    );
    not_negative(
        hole.key("over"),
        job.hole.over,
        "share a hole runs over",
        &mut sound.hole.over,
    );
    not_negative(
        stock.key("kerf"),
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
            let list = stock.key(name);
            keep.extend(ledger.positive(list.nth(i), length, "stock length"));
        }
    }
}

pub(super) fn runs(job: &Job, names: &Names<'_>, sound: &mut Sound, ledger: &mut Ledger) -> Runs {
    let mut runs = Runs::new();
    let list = Place::File.key("runs");
    for (index, run) in job.runs.iter().enumerate() {
        let place = list.nth(index);
        run_keys(run, place, ledger);
        if !runs.claim(&run.id, "run", place, ledger) {
            continue;
        }
        if let Some(good) = sound_run(run, index, place, names, sound, ledger) {
            runs.settle(&run.id, RunIx(sound.runs.len()));
            sound.runs.push(good);
        }
    }
    runs
}

fn run_keys(run: &Run, place: Place<'_>, ledger: &mut Ledger) {
    ledger.unknown_keys(place, &run.extra);
    for (key, end) in [("start", &run.start), ("end", &run.end)] {
        if let Some(end) = end {
            ledger.unknown_keys(place.key(key), &end.extra);
        }
    }
    if let Some(post) = &run.post {
        ledger.unknown_keys(place.key("post"), &post.extra);
    }
    if let Some(bays) = &run.bays {
        ledger.unknown_keys(place.key("bays"), &bays.extra);
    }
    for (i, gate) in run.gates.iter().enumerate() {
        ledger.unknown_keys(place.key("gates").nth(i), &gate.extra);
        if let Some(leaf) = &gate.leaf {
            ledger.unknown_keys(place.key("gates").nth(i).key("leaf"), &leaf.extra);
        }
    }
    for (i, pin) in run.pins.iter().enumerate() {
        ledger.unknown_keys(place.key("pins").nth(i), &pin.extra);
    }
}

fn sound_run(
    run: &Run,
    index: usize,
    place: Place<'_>,
    names: &Names<'_>,
    sound: &Sound,
    ledger: &mut Ledger,
) -> Option<SoundRun> {
    let line = names
        .lines
        .find(&run.line, "line", place.key("line"), ledger);
    let start = run_start(run.start.as_ref(), place.key("start"), names, ledger);
    let end = run_end(run.end.as_ref(), place.key("end"), names, ledger);
    let gap = ledger.not_negative(place.key("gap"), run.gap, "gap");
    let post = run.post.clone().unwrap_or_default();
    let width = ledger.positive(place.key("post").key("width"), post.width, "post width");
    let depth = ledger.positive(place.key("post").key("depth"), post.depth, "post depth");
    let bays = run.bays.clone().unwrap_or_default();
    let bay_max = ledger.positive(place.key("bays").key("max"), bays.max, "longest bay");
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

fn side_of(run: &Run, place: Place<'_>, ledger: &mut Ledger) -> Side {
    run.side.unwrap_or_else(|| {
        ledger.problems.warning(
            place.key("side"),
            format!(
                "Run “{}” does not say on which side of its string the posts stand; left is taken.",
                run.called()
            ),
            "Say left or right, as seen looking along the line.",
        );
        Side::Left
    })
}

fn assumed_sizes(run: &Run, place: Place<'_>, ledger: &mut Ledger) {
    if run.post.is_none() {
        ledger.problems.warning(
            place.key("post"),
            format!(
                "Run “{}” has no post size; 100 by 100 is taken.",
                run.called()
            ),
            "Enter the size of its posts.",
        );
    }
    if run.bays.is_none() {
        ledger.problems.warning(
            place.key("bays"),
            format!("Run “{}” has no longest bay; 1800 is taken.", run.called()),
            "Enter the longest bay, centre to centre.",
        );
    }
}

fn run_start(
    end: Option<&End>,
    place: Place<'_>,
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
            .find(id, "wall", place.key("wall"), ledger)
            .map(RunStart::Wall),
        Some(End {
            wall: None,
            corner: Some(id),
            mark: None,
            length: None,
            ..
        }) => names
            .corners
            .find(id, "corner", place.key("corner"), ledger)
            .map(RunStart::Corner),
        Some(End {
            wall: None,
            corner: None,
            mark: Some(id),
            length: None,
            ..
        }) => names
            .marks
            .find(id, "mark", place.key("mark"), ledger)
            .map(RunStart::Mark),
        Some(End {
            wall: None,
            corner: None,
            mark: None,
            length: Some(_),
            ..
        }) => {
            ledger.problems.error(
                place.key("length"),
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
    place: Place<'_>,
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
        let length = ledger.positive(place.key("length"), *length, "length of the run")?;
        return Some(RunEnd::Length(length));
    }
    run_start(end, place, names, ledger).map(RunEnd::At)
}

fn ends_apart(run: &SoundRun, place: Place<'_>, ledger: &mut Ledger) -> Option<()> {
    if run.end != RunEnd::At(run.start) {
        return Some(());
    }
    ledger.problems.error(
        place.key("end"),
        format!("Run “{}” starts and ends at the same place.", run.called()),
        "Name two different ends.",
    );
    None
}

fn corners_on_line(
    run: &SoundRun,
    place: Place<'_>,
    sound: &Sound,
    ledger: &mut Ledger,
) -> Option<()> {
    let mut good = Some(());
    let mut look = |key: &str, at: RunStart| {
        if let RunStart::Corner(corner) = at
            && let Some(corner) = sound.corners.get(corner.0)
            && !corner.lines.contains(&run.line)
        {
            ledger.problems.error(
                place.key(key).key("corner"),
                format!(
                    "Corner “{}” is not on the line of run “{}”.",
                    corner.id,
                    run.called()
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

fn gates(gates: &[Gate], place: Place<'_>, ledger: &mut Ledger) -> Vec<SoundGate> {
    let mut good = Vec::new();
    let list = place.key("gates");
    for (index, gate) in gates.iter().enumerate() {
        let place = list.nth(index);
        let at = ledger.given(place.key("at"), gate.at, "gate's running reading");
        let at =
            at.and_then(|at| ledger.not_negative(place.key("at"), at, "gate's running reading"));
        let clear = ledger.given(place.key("clear"), gate.clear, "gate's clear opening");
        let clear =
            clear.and_then(|c| ledger.positive(place.key("clear"), c, "gate's clear opening"));
        let leaf_place = place.key("leaf");
        let leaf = gate.leaf.clone().filter(|leaf| {
            let gaps = [
                ("hinge", leaf.hinge, "hinge gap"),
                ("latch", leaf.latch, "latch gap"),
                ("ground", leaf.ground, "ground gap"),
            ];
            let checks = gaps.map(|(key, gap, what)| {
                let gap = ledger.not_negative(leaf_place.key(key), gap, what);
                gap.is_some()
            });
            checks == [true; 3]
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

fn pins(pins: &[Pin], place: Place<'_>, ledger: &mut Ledger) -> Vec<SoundPin> {
    let mut good = Vec::new();
    let list = place.key("pins");
    for (index, pin) in pins.iter().enumerate() {
        let place = list.nth(index);
        let at = ledger.given(place.key("at"), pin.at, "pin's running reading");
        if let Some(at) = at.and_then(|at| ledger.any(place.key("at"), at, "pin's running reading"))
        {
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
    let boards = Place::File.key("boards");
    ledger.unknown_keys(boards, extra);
    if let Some(gravel) = gravel {
        let place = boards.key("gravel");
        ledger.unknown_keys(place, &gravel.extra);
        let checks = [
            ledger.positive(place.key("height"), gravel.height, "gravel board's height"),
            ledger.any(place.key("clearance"), gravel.clearance, "clearance"),
            ledger.not_negative(place.key("dig"), gravel.dig, "depth it may be let in"),
            ledger.not_negative(place.key("gap"), gravel.gap, "largest gap"),
            ledger.not_negative(place.key("step"), gravel.step.unwrap_or(0.0), "step"),
            ledger.any(
                place.key("top"),
                gravel.top.unwrap_or(0.0),
                "gravel board's top",
            ),
        ];
        sound.boards.gravel = checks.iter().all(Option::is_some).then(|| gravel.clone());
    }
    if let Some(rails) = rails {
        let place = boards.key("rails");
        ledger.unknown_keys(place, &rails.extra);
        let count = ledger.positive(
            place.key("count"),
            f64::from(rails.count),
            "number of rails",
        );
        let few = few_enough(rails.count, ledger);
        let checks = [
            count,
            few,
            ledger.any(place.key("low"), rails.low, "lowest rail's height"),
            ledger.any(place.key("high"), rails.high, "highest rail's height"),
            ledger.not_negative(place.key("seat"), rails.seat, "seat"),
            ledger.not_negative(place.key("notch"), rails.notch.unwrap_or(0.0), "notch"),
            ledger.positive(place.key("thick"), rails.thickness(), "rail's thickness"),
        ];
        let ordered = rails.count < 2 || rails.high > rails.low;
        if !ordered {
            ledger.problems.error(
                place.key("high"),
                "The highest rail is not above the lowest.",
                "Enter the height of the highest rail's centre above the gravel board.",
            );
        }
        let good = ordered && checks.iter().all(Option::is_some);
        sound.boards.rails = good.then(|| rails.clone());
    }
    if let Some(pales) = pales {
        let place = boards.key("pales");
        ledger.unknown_keys(place, &pales.extra);
        let checks = [
            ledger.positive(place.key("width"), pales.width, "pale's width"),
            ledger.any(place.key("lap"), pales.lap, "lap"),
            ledger.positive(place.key("height"), pales.height, "pale's height"),
        ];
        let wide = pales.lap < pales.width;
        if !wide {
            ledger.problems.error(
                place.key("lap"),
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

/// Ticked-off posts must be on a run of the job; [`crate::setout`] sees whether the run has them.
pub(super) fn marked(job: &Job, runs: &Runs, ledger: &mut Ledger) {
    let list = Place::File.key("marked");
    for (i, marked) in job.marked.iter().enumerate() {
        let place = list.nth(i);
        ledger.unknown_keys(place, &marked.extra);
        runs.find(&marked.run, "run", place.key("run"), ledger);
        if let Some(measured) = marked.measured {
            ledger.any(place.key("measured"), measured, "running reading as built");
        }
        if let Some(off) = marked.off {
            ledger.any(place.key("off"), off, "distance off the string as built");
        }
    }
}
