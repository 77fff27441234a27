//! The typeface: the bundled one, whose figures are all of one width, so that they stand under each
//! other.

use slint::Global;
use tautmark::drawing::{BOLD, REGULAR};
use tautmark::job;
use tautmark_app_tests::{Hand, PAGES};
use tautmark_ui::Theme;
use ttf_parser::{Face, name_id};

fn faces() -> [Face<'static>; 2] {
    [REGULAR, BOLD].map(|data| Face::parse(data, 0).expect("a typeface"))
}

#[test]
fn what_is_drawn_is_the_bundled_typeface() {
    let hand = Hand::on(job::example());
    let asked = Theme::get(&hand.app).get_typeface();
    for face in faces() {
        let names = face.names().into_iter();
        let own = names.filter(|name| name.name_id == name_id::FAMILY);
        let own: Vec<String> = own.filter_map(|name| name.to_string()).collect();
        assert!(own.iter().any(|name| asked == name), "{asked} of {own:?}");
    }
}

#[test]
fn figures_and_signs_are_all_of_one_width() {
    for face in faces() {
        let width = |letter: char| {
            let glyph = face.glyph_index(letter);
            glyph.and_then(|glyph| face.glyph_hor_advance(glyph))
        };
        let zero = width('0');
        assert!(zero.is_some_and(|zero| zero > 0));
        for figure in '1'..='9' {
            assert_eq!(width(figure), zero, "{figure}");
        }
    }
}

/// A letter that is not in it comes from whatever else a device has, or is a box.
#[test]
fn everything_the_app_writes_has_its_letters_in_it() {
    let hand = Hand::on_screen(job::example(), 412.0, 3000.0);
    for (name, place, page) in PAGES {
        hand.go(place, page);
        for words in hand.labels() {
            let printed = words.chars().filter(|letter| !letter.is_control());
            for letter in printed {
                for face in faces() {
                    let there = face.glyph_index(letter).is_some();
                    assert!(there, "{name}: {letter:?} in {words:?}");
                }
            }
        }
    }
}
