//! The page of one sum: what it asks for, what comes of it, its caution, and what is done with it.

use super::answer::{Answer, Stop, Worked};
use super::figure;
use super::given::Given;
use super::in_sight::in_sight;
use super::input::{Input, Kind, Need};
use super::sum::Sum;
use crate::app::bridge::form::FormPage;
use crate::app::desk::{Desk, Then, caution};
use crate::app::kit::fields::{self, FormContents, FormFigure, heading, result};
use crate::quick::Refusal;
use tautmark_ui::{Field as Row, Verdict};

/// One sum.
pub struct OneSum;

/// The row of a figure, with what is wrong with it beside it.
fn row_of(given: &Given<'_>, input: &Input, refused: Option<&dyn Refusal>) -> Row {
    if let Kind::Choice(options) = input.kind {
        return fields::choice(input.key, input.label, options, Some(given.picked(input)));
    }
    let value = given.shown(input).unwrap_or_else(|| "—".to_owned());
    let blamed = refused.filter(|refused| refused.figure() == Some(input.called));
    let usual = given.typed(input).is_none() && matches!(input.need, Need::Usual { .. });
    let remark = match (usual, input.need) {
        (true, _) => "usual",
        (false, Need::May) => "if you have it",
        _ => "",
    };
    let parts = [input.hint(given.unit), remark]
        .into_iter()
        .filter(|part| !part.is_empty());
    let note = match blamed {
        Some(refused) => refused.said(given.unit),
        None => parts.collect::<Vec<_>>().join("; "),
    };
    Row {
        verdict: if blamed.is_some() {
            Verdict::Bad
        } else {
            Verdict::None
        },
        ..fields::figure(input.key, input.label, &note, &value)
    }
}

fn standing(given: &Given<'_>, sum: &Sum, worked: &Worked) -> (Verdict, String) {
    match worked {
        Ok(answer) => (answer.verdict, answer.says.clone()),
        Err(Stop::Missing) => (Verdict::Note, sum.how.to_owned()),
        Err(Stop::Refused(why)) => (Verdict::Bad, why.said(given.unit)),
    }
}

fn found(given: &Given<'_>, answer: &Answer) -> Vec<Row> {
    let rows = answer.rows.iter().enumerate().map(|(n, found)| {
        let id = format!("found {n}");
        let (value, tail) = (given.say(found.value), found.tail.show(given.unit));
        result(&id, &found.label, &found.note, &value, &tail)
    });
    rows.collect()
}

/// What a sum asks for and what comes of it.
#[must_use]
pub fn contents(sum: &Sum, given: &Given<'_>) -> FormContents {
    let worked = (sum.work)(given);
    let refused = match &worked {
        Err(Stop::Refused(why)) => Some(why.as_ref()),
        _ => None,
    };
    let inputs = sum.inputs.iter();
    let mut rows: Vec<Row> = inputs.map(|input| row_of(given, input, refused)).collect();
    if let Ok(answer) = &worked
        && !answer.rows.is_empty()
    {
        rows.push(heading("Also"));
        rows.extend(found(given, answer));
    }
    let (verdict, text) = standing(given, sum, &worked);
    let mut contents = FormContents::new(rows).saying(verdict, &text);
    let caution = sum.caution.map(|caution| caution.short.to_owned());
    contents.caution = caution.unwrap_or_default();
    if let Some(missing) = given.missing() {
        contents.primary = format!("Next: {}", missing.label);
    }
    contents.figure = worked.ok().map(|answer| FormFigure {
        what: answer.what,
        figure: given.say(answer.value),
        tail: answer.tail.show(given.unit),
    });
    contents
}

impl FormPage for OneSum {
    fn title(&self, desk: &Desk) -> String {
        in_sight(desk).title.to_owned()
    }

    fn contents(&self, desk: &Desk) -> FormContents {
        let sum = in_sight(desk);
        let mut contents = contents(sum, &Given::of(desk, sum.inputs));
        if contents.figure.is_some() && sum.keep.is_some() {
            contents.primary = "Keep in a job".to_owned();
        }
        let mut cleared = desk.quick.cleared.iter();
        let cleared = cleared.any(|(key, _)| sum.input(key).is_some());
        contents.secondary = match (typed_of(desk, sum).is_empty(), cleared) {
            (false, _) => "Start again".to_owned(),
            (true, true) => "Bring them back".to_owned(),
            (true, false) => String::new(),
        };
        contents
    }

    fn pressed(&self, desk: &mut Desk, id: &str) -> Then {
        let sum = in_sight(desk);
        if sum.input(id).is_some() {
            return figure::ask(desk, sum, id);
        }
        self.figure_asked(desk)
    }

    fn picked(&self, desk: &mut Desk, id: &str, index: usize) -> Then {
        let at = u32::try_from(index).map_or(0.0, f64::from);
        if let Some(input) = in_sight(desk).input(id) {
            desk.figures.insert(input.key.to_owned(), at);
        }
        Then::Stay
    }

    fn figure_asked(&self, desk: &mut Desk) -> Then {
        let sum = in_sight(desk);
        desk.explain(sum.title, sum.why);
        Then::Stay
    }

    fn caution_pressed(&self, desk: &mut Desk) -> Then {
        match in_sight(desk).caution {
            Some(caution) => caution::open(desk, caution),
            None => Then::Stay,
        }
    }

    fn primary(&self, desk: &mut Desk) -> Then {
        let sum = in_sight(desk);
        let missing = Given::of(desk, sum.inputs).missing();
        match (missing, sum.keep) {
            (Some(missing), _) => figure::ask(desk, sum, missing.key),
            (None, Some(keep)) => keep(desk, sum.inputs),
            (None, None) => Then::Stay,
        }
    }

    /// Clears the figures away, or brings them back.
    fn secondary(&self, desk: &mut Desk) -> Then {
        let sum = in_sight(desk);
        let there = typed_of(desk, sum);
        if there.is_empty() {
            let back = std::mem::take(&mut desk.quick.cleared);
            desk.figures.extend(back);
        } else {
            for (key, _) in &there {
                desk.figures.remove(key);
            }
            desk.quick.cleared = there;
        }
        Then::Stay
    }
}

/// What was typed for a sum.
fn typed_of(desk: &Desk, sum: &Sum) -> Vec<(String, f64)> {
    let keys = sum.inputs.iter().map(|input| input.key);
    let there = keys.filter_map(|key| Some((key.to_owned(), *desk.figures.get(key)?)));
    there.collect()
}
