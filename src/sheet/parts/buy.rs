//! What to buy: timber by its stock lengths, and concrete.

use super::super::phrase::count;
use super::SheetDesk;
use crate::boards::Bought;
use crate::listed::and;
use crate::volume;

/// Timber and concrete.
pub fn list(desk: &SheetDesk<'_>) -> Vec<String> {
    let buy = &desk.solution.buy;
    let mut list: Vec<String> = [
        ("gravel board", &buy.gravel),
        ("rail", &buy.rails),
        ("pale", &buy.pales),
    ]
    .into_iter()
    .filter(|(_, bought)| bought.pieces > 0)
    .map(|(name, bought)| line(desk, count(bought.pieces, name), bought))
    .collect();
    if buy.post_count > 0 {
        list.push(line(desk, count(buy.post_count, "post"), &buy.posts));
    }
    if buy.bags > 0 {
        list.push(format!(
            "{}: {} of concrete as dug, {} to a bag",
            count(buy.bags, "bag"),
            volume::said(buy.litres, desk.unit),
            volume::bag(desk.job.hole.bag, desk.unit)
        ));
    }
    list
}

fn line(desk: &SheetDesk<'_>, what: String, bought: &Bought) -> String {
    let mut said = what;
    if bought.length > 0.0 {
        said.push_str(&format!(", {} together", desk.full(bought.length)));
    }
    let stock: Vec<String> = bought
        .stock
        .iter()
        .map(|(length, n)| format!("{n} of {}", desk.full(*length)))
        .collect();
    if !stock.is_empty() {
        let left: f64 = bought.bars.iter().map(|bar| bar.left).sum();
        said.push_str(&format!(
            ": buy {}; {} left over",
            and(&stock),
            desk.full(left)
        ));
    }
    let short: Vec<String> = bought.too_long.iter().map(|&mm| desk.full(mm)).collect();
    if !short.is_empty() {
        said.push_str(&format!("; short of a length that holds {}", and(&short)));
    }
    said
}
