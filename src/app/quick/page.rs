//! The page of one sum: what it asks for, what comes of it, its caution, and what is done with it.

use super::answer::{Stop, Worked};
use super::figure;
use super::given::Given;
use super::in_sight::in_sight;
use super::input::{Input, Kind, Need};
use super::settings::Counts;
use super::sum::QuickSum;
use crate::app::desk::{Desk, Then};
use crate::app::kit::fields;
use crate::app::kit::{FormButton, FormContents, FormFigure, FormRow, heading, result};
use crate::quick::Refusal;
use tautmark_ui::Verdict;

/// A sum on a page, by what counts there.
#[derive(Clone, Copy)]
pub struct SumPage {
    pub sum: &'static QuickSum,
    pub counts: fn(&Desk) -> Counts,
    /// Stands over where its figures come from.
    pub origin: &'static str,
}

impl SumPage {
    /// The figures of the sum on this desk.
    #[must_use]
    pub fn given(self, desk: &Desk) -> Given<'_> {
        Given::counting(desk, self.sum.inputs, (self.counts)(desk))
    }

    fn explain(self, desk: &mut Desk) -> Then {
        desk.explain(self.origin, self.sum.why)
    }

    /// The row of a figure, with what is wrong with it beside it.
    fn row(
        self,
        given: &Given<'_>,
        input: &'static Input,
        refused: Option<&dyn Refusal>,
    ) -> FormRow {
        if let Kind::Choice(options) = input.kind {
            let options = options.iter().zip(0_u32..).map(|(name, at)| (*name, at));
            let there = u32::try_from(given.picked(input)).ok();
            return fields::choice(input.label, options, there, move |desk, at| {
                desk.figures.insert(input.key.to_owned(), f64::from(at));
                Then::Stay
            });
        }
        let value = given.shown(input).unwrap_or_else(|| "—".to_owned());
        let row = fields::figure(input.label, &value, move |desk| {
            figure::ask(desk, self.sum, input, self.counts)
        });
        if let Some(refused) = refused.filter(|refused| refused.figure() == Some(input.called)) {
            return row.blamed(&refused.said(given.unit));
        }
        let usual = given.typed(input).is_none() && matches!(input.need, Need::Usual { .. });
        let remark = match (usual, input.need) {
            (true, _) => "usual",
            (false, Need::May) => "if you have it",
            _ => "",
        };
        let mut parts = vec![input.hint(given.unit), remark];
        parts.retain(|part| !part.is_empty());
        row.noted(parts.join("; "))
    }

    /// What the sum asks for and what comes of it.
    #[must_use]
    pub fn contents(self, desk: &Desk) -> FormContents {
        let (sum, given) = (self.sum, &self.given(desk));
        let worked = (sum.work)(given);
        let refused = match &worked {
            Err(Stop::Refused(why)) => Some(why.as_ref()),
            _ => None,
        };
        let inputs = sum.inputs.iter();
        let rows = inputs.map(|input| self.row(given, input, refused));
        let mut contents = FormContents::new(rows.collect());
        let found = worked
            .as_ref()
            .map_or(&[][..], |answer| answer.rows.as_slice());
        contents.extend((!found.is_empty()).then(|| heading("Also")));
        contents.extend(found.iter().map(|found| {
            let (value, tail) = (given.say(found.value), found.tail.show(given.unit));
            let explain = move |desk: &mut Desk| self.explain(desk);
            result(&found.label, &value, &tail, explain).noted(&found.note)
        }));
        let (verdict, text) = standing(given, sum, &worked);
        let mut contents = contents.saying(verdict, &text);
        contents.cautions = sum.cautions;
        contents.primary = given.missing().map(|missing| {
            FormButton::new(format!("Next: {}", missing.label), move |desk| {
                figure::ask(desk, sum, missing, self.counts)
            })
        });
        contents.figure = worked.ok().map(|answer| FormFigure {
            what: answer.what,
            figure: given.say(answer.value),
            tail: answer.tail.show(given.unit),
            explain: Box::new(move |desk| self.explain(desk)),
        });
        contents
    }
}

fn standing(given: &Given<'_>, sum: &QuickSum, worked: &Worked) -> (Verdict, String) {
    match worked {
        Ok(answer) => (answer.verdict, answer.says.clone()),
        Err(Stop::Missing) => (Verdict::Note, sum.how.to_owned()),
        Err(Stop::Refused(why)) => (Verdict::Bad, why.said(given.unit)),
    }
}

/// The sum in sight, and what can be done with its figures.
pub fn contents_in_sight(desk: &Desk) -> FormContents {
    let sum = in_sight(desk);
    let page = SumPage {
        sum,
        counts: Counts::of_quick,
        origin: sum.title,
    };
    let mut contents = page.contents(desk);
    if let (Some(_), Some(keep)) = (&contents.figure, sum.keep) {
        let keep = move |desk: &mut Desk| keep(desk, sum.inputs);
        contents.primary = Some(FormButton::new("Keep in a job", keep));
    }
    let there = typed_of(desk, sum);
    let mut cleared = desk.quick.cleared.iter();
    if !there.is_empty() {
        contents.secondary = Some(FormButton::new("Start again", |desk| {
            desk.figures
                .retain(|key, _| there.iter().all(|(own, _)| own != key));
            desk.quick.cleared = there;
            Then::Stay
        }));
    } else if cleared.any(|(key, _)| sum.input(key).is_some()) {
        contents.secondary = Some(FormButton::new("Bring them back", |desk| {
            let back = std::mem::take(&mut desk.quick.cleared);
            desk.figures.extend(back);
            Then::Stay
        }));
    }
    contents
}

/// What was typed for a sum.
fn typed_of(desk: &Desk, sum: &QuickSum) -> Vec<(String, f64)> {
    let keys = sum.inputs.iter().map(|input| input.key);
    let there = keys.filter_map(|key| Some((key.to_owned(), *desk.figures.get(key)?)));
    there.collect()
}
