//! The rows of a run's gates: where each stands, how it hangs and opens, its leaf and its lock.

use super::change::change;
use super::figures;
use crate::app::desk::{Desk, Menu, Then};
use crate::app::kit::{FormRow, check, choice, heading, pick};
use crate::job::edit::{Change, Edit};
use crate::job::model::{Against, Gate, Hung, Job, Leaf, Lock, Offcut, Opens, Run};
use crate::job::usual::Usual;

/// All of them, and the row that adds one.
pub fn rows(job: &Job, at: usize, run: &Run) -> Vec<FormRow> {
    let mut rows = vec![heading("Gates")];
    for (i, gate) in run.gates.iter().enumerate() {
        let of = OfGate {
            run: at,
            gate: i,
            usual: Usual::of(job.show.lengths),
        };
        rows.extend(gate_rows(job, of, gate));
    }
    rows.push(pick("Add a gate", "", move |desk| add(desk, at)));
    rows
}

/// Asks where a further gate goes.
fn add(desk: &mut Desk, run: usize) -> Then {
    let Some(count) = desk.saved().runs.get(run).map(|run| run.gates.len()) else {
        return Then::Stay;
    };
    let against = move |post: Against| {
        move |desk: &mut Desk| {
            let value = Gate {
                against: Some(post),
                ..Gate::default()
            };
            let change = Change::Insert { at: count, value };
            if !desk.change(Edit::Gate { run, change }) {
                return Then::Stay;
            }
            desk.ask(figures::gate_clear(run, count))
        }
    };
    let menu = Menu::new("Where does the gate go?")
        .row(
            "Hard against the first post",
            "the opening begins at its face",
            against(Against::Start),
        )
        .row(
            "Hard against the last post",
            "the opening ends at its face",
            against(Against::End),
        )
        .row(
            "At a running reading",
            "from the run’s zero to the edge of the opening",
            move |desk| desk.ask(figures::new_gate(run, count)),
        );
    desk.offer(menu)
}

/// A gate, by its places in the file's lists, and what is usual in the job's unit.
#[derive(Clone, Copy)]
struct OfGate {
    run: usize,
    gate: usize,
    usual: &'static Usual,
}

impl OfGate {
    fn named(self, what: &str) -> String {
        format!("Gate {} {what}", self.gate + 1)
    }

    fn change(self, desk: &mut Desk, how: impl FnOnce(&mut Gate)) -> Then {
        change(desk, self.run, |run| {
            if let Some(gate) = run.gates.get_mut(self.gate) {
                how(gate);
            }
        })
    }

    fn change_leaf(self, desk: &mut Desk, how: impl FnOnce(&mut Leaf)) -> Then {
        let usual = || self.usual.leaf();
        self.change(desk, |gate| how(gate.leaf.get_or_insert_with(usual)))
    }

    fn change_lock(self, desk: &mut Desk, how: impl FnOnce(&mut Lock)) -> Then {
        let usual = || self.usual.lock();
        self.change(desk, |gate| how(gate.lock.get_or_insert_with(usual)))
    }

    /// Puts the gate against a post, or asks for its running reading where there is none.
    fn place(self, desk: &mut Desk, against: Option<Against>) -> Then {
        let at_a_reading = against.is_none();
        let then = self.change(desk, |gate| {
            if against.is_some() {
                gate.at = None;
            }
            gate.against = against;
        });
        if at_a_reading {
            return desk.ask(figures::gate_at(self.run, self.gate));
        }
        then
    }
}

/// Takes a part away where it is there, else begins one.
fn toggle<T>(part: &mut Option<T>, begun: impl FnOnce() -> T) {
    *part = match part.take() {
        Some(_) => None,
        None => Some(begun()),
    };
}

fn gate_rows(job: &Job, of: OfGate, gate: &Gate) -> Vec<FormRow> {
    let places = [
        ("At a reading", None),
        ("First post", Some(Against::Start)),
        ("Last post", Some(Against::End)),
    ];
    let mut rows = vec![
        choice(
            &of.named("stands"),
            places,
            Some(gate.against.clone()),
            move |desk, against| of.place(desk, against),
        )
        .noted("at a running reading, or hard against the run’s first or last post"),
    ];
    if gate.against.is_none() {
        rows.push(figures::gate_at(of.run, of.gate).row(job));
    }
    rows.push(figures::gate_clear(of.run, of.gate).row(job));
    let label = of.named("has a leaf");
    let leaf = check(&label, gate.leaf.is_some(), move |desk| {
        of.change(desk, |gate| {
            toggle(&mut gate.leaf, || of.usual.leaf());
        })
    });
    rows.push(leaf.noted("gives the leaf’s size, its brace and what is in its swing"));
    if let Some(leaf) = &gate.leaf {
        rows.extend(leaf_rows(job, of, leaf));
        rows.extend(lock_rows(job, of, gate.lock.as_ref()));
    }
    let label = format!("Delete gate {}", of.gate + 1);
    rows.push(pick(&label, "", move |desk| {
        let change = Change::Remove { at: of.gate };
        let run = of.run;
        desk.change_and_say(Edit::Gate { run, change }, "Gate deleted.")
    }));
    rows
}

fn leaf_rows(job: &Job, of: OfGate, leaf: &Leaf) -> Vec<FormRow> {
    let gaps = figures::leaf_gaps(of.run, of.gate);
    let mut rows: Vec<FormRow> = gaps.iter().map(|gap| gap.row(job)).collect();
    let ends = [("Start", Hung::Start), ("End", Hung::End)];
    let label = of.named("hangs on the post nearer the run’s");
    rows.push(choice(&label, ends, Some(leaf.hung), move |desk, hung| {
        of.change_leaf(desk, |leaf| leaf.hung = hung)
    }));
    let ways = [
        ("In front", Some(Opens::Front)),
        ("Behind", Some(Opens::Behind)),
        ("Not said", None),
    ];
    let opens = choice(
        &of.named("opens"),
        ways,
        Some(leaf.opens),
        move |desk, opens| of.change_leaf(desk, |leaf| leaf.opens = opens),
    );
    rows.push(opens.noted("of the string; what is in its swing is then looked for"));
    let frame = figures::leaf_frame(of.run, of.gate);
    rows.extend(frame.iter().map(|size| size.row(job)));
    rows
}

fn lock_rows(job: &Job, of: OfGate, lock: Option<&Lock>) -> Vec<FormRow> {
    let there = check(&of.named("has a lock"), lock.is_some(), move |desk| {
        of.change(desk, |gate| {
            toggle(&mut gate.lock, || of.usual.lock());
        })
    });
    let mut rows = vec![there];
    let Some(lock) = lock else { return rows };
    let sizes = figures::lock_sizes(of.run, of.gate);
    rows.extend(sizes.iter().map(|size| size.row(job)));
    let label = of.named("has a tapered board under the lock");
    let tapered = check(&label, lock.offcut.is_some(), move |desk| {
        of.change_lock(desk, |lock| {
            toggle(&mut lock.offcut, Offcut::default);
        })
    });
    rows.push(tapered.noted("an offcut of it, turned over, brings the lock parallel"));
    if lock.offcut.is_some() {
        let offcut = figures::offcut_sizes(of.run, of.gate);
        rows.extend(offcut.iter().map(|size| size.row(job)));
    }
    rows
}
