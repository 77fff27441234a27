//! Every ± in every place opens a sentence that says where it comes from: straight away, behind the
//! row's own choices, or on the page that the row leads to.

use i_slint_backend_testing::{AccessibleRole, ElementHandle, ElementQuery};
use slint::Global;
use std::ops::ControlFlow;
use tautmark::job;
use tautmark_app_tests::{Hand, PAGES, settle};
use tautmark_ui::FrameVm;

const WHERE: &str = "How sure it is";

fn words_of(element: &ElementHandle) -> String {
    let words = [element.accessible_label(), element.accessible_value()];
    let words: Vec<String> = words.into_iter().flatten().map(Into::into).collect();
    words.join(" ")
}

/// Everything that can be pressed and has a ± in it, and all other words with a ± that are less than
/// a sentence.
fn sure(hand: &Hand) -> (Vec<ElementHandle>, Vec<ElementHandle>) {
    let (mut pressed, mut shown) = (Vec::new(), Vec::new());
    let root = ElementQuery::from_root(&hand.app).find_first();
    root.expect("a window").visit_descendants(|element| {
        let words = words_of(&element);
        if words.contains('±') {
            match element.accessible_role() {
                Some(AccessibleRole::Button | AccessibleRole::ListItem) => pressed.push(element),
                _ if !words.contains('.') || words.len() < 20 => shown.push(element),
                _ => {}
            }
        }
        ControlFlow::<()>::Continue(())
    });
    (pressed, shown)
}

/// What lies over the page goes.
fn clear(hand: &Hand) {
    let vm = FrameVm::get(&hand.app);
    vm.invoke_menu_closed();
    vm.invoke_notice_closed();
    settle();
}

/// Presses it and reads the reason; `None` where it leads to a page of its own. The first press on
/// a set-up only brings its sights into the list, which moves the rows below.
fn reason(hand: &Hand, element: &ElementHandle) -> Option<String> {
    let vm = FrameVm::get(&hand.app);
    let (before, words) = (hand.here(), words_of(element));
    for _ in 0..2 {
        let (all, _) = sure(hand);
        let element = all.iter().find(|one| words_of(one) == words);
        let element = element.unwrap_or_else(|| panic!("{words} is gone"));
        element.invoke_accessible_default_action();
        settle();
        if hand.here() != before {
            return None;
        }
        if vm.get_menu_open() {
            assert!(
                hand.sees(WHERE),
                "{}: {:?}",
                words_of(element),
                hand.labels()
            );
            hand.press(WHERE);
        }
        if vm.get_notice_open() {
            return Some(vm.get_notice_plain().to_string());
        }
    }
    panic!("{}: nothing is said", words_of(element));
}

fn is_sentence(words: &str) -> bool {
    words.ends_with('.') && words.split_whitespace().count() > 6
}

#[test]
fn every_plus_or_minus_opens_its_reason() {
    let hand = Hand::on_screen(job::example(), 412.0, 3000.0);
    let mut asked = 0;
    for (name, place, page) in PAGES {
        for n in 0.. {
            hand.go(place, page);
            let (all, _) = sure(&hand);
            let Some(element) = all.get(n) else { break };
            let words = words_of(element);
            let pm = words.split('±').nth(1).unwrap_or_default().to_owned();
            let said = reason(&hand, element).unwrap_or_else(|| {
                // It leads to a page of its own, which has the figure again.
                clear(&hand);
                let (all, _) = sure(&hand);
                let again = all.iter().find(|one| words_of(one).contains(pm.trim()));
                let again = again.unwrap_or_else(|| panic!("{name}: {words} leads nowhere"));
                reason(&hand, again).unwrap_or_default()
            });
            assert!(is_sentence(&said), "{name}: {words}: {said:?}");
            clear(&hand);
            asked += 1;
        }
    }
    assert!(asked > 30, "{asked}");
}

#[test]
fn no_plus_or_minus_is_out_of_reach_of_a_press() {
    let hand = Hand::on_screen(job::example(), 412.0, 3000.0);
    for (name, place, page) in PAGES {
        hand.go(place, page);
        let (pressed, shown) = sure(&hand);
        for one in shown {
            let (at, size) = (one.absolute_position(), one.size());
            let within = pressed.iter().any(|it| {
                let (left, top, own) = (
                    it.absolute_position().x,
                    it.absolute_position().y,
                    it.size(),
                );
                at.x >= left - 1.0
                    && at.y >= top - 1.0
                    && at.x + size.width <= left + own.width + 1.0
                    && at.y + size.height <= top + own.height + 1.0
            });
            assert!(within, "{name}: {:?}", words_of(&one));
        }
    }
}
