//! Whatever is typed: going back gives what went in, marks end where the length ends, and what
//! cannot be is refused in words.

use proptest::prelude::*;
use tautmark::laser::LaserWorth;
use tautmark::quick::bays::{bays_of, equal_bays};
use tautmark::quick::carry_level::{FromLine, LineSight, Shared, TwoSetups, carry_level};
use tautmark::quick::concrete::{ConcreteHole, concrete};
use tautmark::quick::corner::{CornerTapes, across_for, corner_by_tapes};
use tautmark::quick::fall::{fall_over_bays, sloping_rail};
use tautmark::quick::four_sides::{Agreement, FourSides, ToRectangle, four_sides};
use tautmark::quick::gaps::{Ends, equal_gaps, fewest_items};
use tautmark::quick::gate::{TapedOpening, ground_under_swing, latch_drop, leaf};
use tautmark::quick::gate_lock::{GateAtLock, Taper, lock_stack};
use tautmark::quick::laser_check::{AtPegs, LaserCheckError, TwoPegs, turn_about, two_pegs};
use tautmark::quick::notch::{centred_mortise, face_notch, moment_at_ground, which_governs};
use tautmark::quick::pales::pales;
use tautmark::quick::spirit_level::reversed;
use tautmark::quick::tape_check::{BothTapes, TwoTapeClasses, tape_check};
use tautmark::quick::tape_pull::{level_length, line_sag, tape_sag};
use tautmark::quick::turn_string::{Swing, turn_string};
use tautmark::quick::two_tapes::{TwoTapes, point_by_tapes, tapes_to};
use tautmark::quick::{Taped, bevel};
use tautmark::tape::TapeClass;

fn lengths() -> impl Strategy<Value = f64> {
    300.0..30_000.0f64
}

/// Ordinary figures among ones that nobody should have typed.
fn anything() -> impl Strategy<Value = f64> {
    prop_oneof![
        4 => -50_000.0..50_000.0f64,
        4 => 0.0..5_000.0f64,
        1 => Just(0.0),
        1 => prop_oneof![
            Just(f64::NAN), Just(f64::INFINITY), Just(f64::NEG_INFINITY), Just(-0.0),
            Just(f64::MAX), Just(f64::MIN_POSITIVE), Just(1e-9), Just(0.01), Just(1e7), Just(180.0)
        ],
        1 => any::<f64>(),
    ]
}

/// One of the figures that can never be a length.
fn no_length() -> impl Strategy<Value = f64> {
    prop_oneof![
        Just(f64::NAN),
        Just(f64::INFINITY),
        Just(0.0),
        -1e9..-0.001f64
    ]
}

/// An answer holds no figure that is not a number; a refusal is a sentence.
fn sane<T: std::fmt::Debug, E: std::fmt::Display>(
    outcome: Result<T, E>,
) -> Result<(), TestCaseError> {
    match outcome {
        Ok(answer) => {
            let text = format!("{answer:?}");
            prop_assert!(!text.contains("NaN") && !text.contains("inf"), "{text}");
        }
        Err(refusal) => {
            let text = refusal.to_string();
            prop_assert!(text.ends_with('.') && text.len() > 30, "{text}");
        }
    }
    Ok(())
}

fn taped(length: f64) -> Taped {
    Taped::new(length, 1.0)
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 4000,
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn an_across_tape_gives_its_angle_back(a in lengths(), b in lengths(), angle in 1.0..179.0f64) {
        let across = across_for(a, b, angle)?;
        let tapes = CornerTapes { first: taped(a), second: taped(b), across: taped(across.wanted) };
        let corner = corner_by_tapes(&tapes)?;
        prop_assert!((corner.angle.value - angle).abs() < 1e-6);
        prop_assert!((corner.angle.value - corner.off_square.value - 90.0).abs() < 1e-9);
    }

    #[test]
    fn a_millimetre_across_turns_what_it_says(a in lengths(), b in lengths(), angle in 20.0..160.0f64) {
        let across = across_for(a, b, angle)?;
        let step = 1e-3;
        let tapes = CornerTapes {
            first: taped(a), second: taped(b), across: taped(across.wanted + step),
        };
        let turned = (corner_by_tapes(&tapes)?.angle.value - angle) / step;
        prop_assert!((turned / across.degrees_per_mm - 1.0).abs() < 1e-2);
    }

    #[test]
    fn moving_the_string_reaches_the_wanted_angle(
        legs in lengths(), from in 20.0..160.0f64, to in 20.0..160.0f64, at in lengths(),
    ) {
        let across = across_for(legs, legs, from)?.wanted;
        let tapes = CornerTapes { first: taped(legs), second: taped(legs), across: taped(across) };
        let move_it = turn_string(&corner_by_tapes(&tapes)?, to, at)?;
        let turned = 2.0 * (move_it.by.value / (2.0 * at)).asin().to_degrees();
        let reached = match move_it.swing {
            Swing::Open => from + turned,
            Swing::Close => from - turned,
            Swing::Stay => from,
        };
        prop_assert!((reached - to).abs() < 1e-6);
    }

    #[test]
    fn two_tapes_find_the_point_again(base in lengths(), along in -9e3..40e3f64, off in 300.0..20e3f64) {
        let swings = tapes_to(base, along, off);
        // Swings too sharp or too flat keep too few digits to come back.
        let Some(swings) = swings.ok().filter(|s| (1.0..179.0).contains(&s.crossing)) else {
            return Ok(());
        };
        let point = point_by_tapes(&TwoTapes {
            base: taped(base), from_first: taped(swings.from_first), from_second: taped(swings.from_second),
        })?;
        prop_assert!((point.along.value - along).abs() < 1e-4);
        prop_assert!((point.off.value - off).abs() < 1e-4);
        prop_assert!((point.crossing - swings.crossing).abs() < 1e-6);
    }

    #[test]
    fn four_inside_angles_go_once_round(
        width in 3e3..9e3f64, height in 3e3..9e3f64,
        moved in prop::array::uniform4((-900.0..900.0f64, -900.0..900.0f64)),
        slips in prop::array::uniform6(-1.0..1.0f64),
    ) {
        let [a, b, c, d] = moved;
        let at = [(a.0, a.1), (width + b.0, b.1), (width + c.0, height + c.1), (d.0, height + d.1)];
        let far = |p: (f64, f64), q: (f64, f64)| (p.0 - q.0).hypot(p.1 - q.1);
        let [a, b, c, d] = at;
        let [s0, s1, s2, s3, s4, s5] = slips;
        let check = four_sides(&FourSides {
            ab: taped(far(a, b) + s0), bc: taped(far(b, c) + s1), cd: taped(far(c, d) + s2),
            da: taped(far(d, a) + s3), ac: taped(far(a, c) + s4), bd: taped(far(b, d) + s5),
        })?;
        prop_assume!(check.closure.agreement != Agreement::Contradict);
        let layout = check.layout.ok_or_else(|| TestCaseError::fail("no layout"))?;
        let sum: f64 = layout.angles.iter().map(|angle| angle.value).sum();
        prop_assert!((sum - 360.0).abs() < 1e-6, "{sum}");
    }

    #[test]
    fn a_slide_makes_a_parallelogram_square(
        a in 3e3..9e3f64, b in 3e3..9e3f64, lean in 40.0..900.0f64, left in any::<bool>(),
    ) {
        let lean = if left { -lean } else { lean };
        let height = (b * b - lean * lean).sqrt();
        let far = |x: f64| x.hypot(height);
        let check = four_sides(&FourSides {
            ab: taped(a), bc: taped(b), cd: taped(a), da: taped(b),
            ac: taped(far(a + lean)), bd: taped(far(a - lean)),
        })?;
        let layout = check.layout.ok_or_else(|| TestCaseError::fail("no layout"))?;
        let ToRectangle::Slide { either: [slide, _], .. } = layout.to_rectangle else {
            return Err(TestCaseError::fail(format!("{:?}", layout.to_rectangle)));
        };
        prop_assert!((slide.by.value - lean.abs()).abs() < 1e-6);
        prop_assert!((slide.diagonal - a.hypot(height)).abs() < 1e-6);
    }

    #[test]
    fn bays_end_exactly_at_the_length(length in lengths(), longest in 200.0..4000.0f64) {
        let bays = equal_bays(length, longest)?;
        prop_assert_eq!(bays.marks.first(), Some(&0.0));
        prop_assert_eq!(bays.marks.last(), Some(&length));
        prop_assert!(bays.size <= longest * (1.0 + 1e-8));
        if bays.count() > 1 {
            prop_assert!(bays_of(length, bays.count() - 1)?.size > longest);
        }
        prop_assert!(bays.marks.windows(2).all(|m| (m[1] - m[0] - bays.size).abs() < 1e-6));
    }

    #[test]
    fn items_and_gaps_fill_the_length(
        length in lengths(), width in 10.0..150.0f64, widest in 5.0..300.0f64, flush in any::<bool>(),
    ) {
        let (ends, edge) = if flush { (Ends::Flush, 0.0) } else { (Ends::Gap, 1.0) };
        let Ok(row) = fewest_items(length, width, widest, ends) else { return Ok(()) };
        let count = row.near.len();
        prop_assert!(row.gap <= widest * (1.0 + 1e-8));
        prop_assert!((count as f64 * width + row.gaps as f64 * row.gap - length).abs() < 1e-6);
        let last = row.near.last().copied().unwrap_or(f64::NAN);
        prop_assert!((last + width + edge * row.gap - length).abs() < 1e-6);
        prop_assert!(row.near.windows(2).all(|m| (m[1] - m[0] - row.spacing).abs() < 1e-6));
        if let Some(fewer) = count.checked_sub(1).and_then(|n| equal_gaps(length, width, n, ends).ok()) {
            prop_assert!(fewer.gap > widest);
        }
    }

    #[test]
    fn pales_cover_whole_and_never_lap_less(
        cover in lengths(), width in 80.0..200.0f64, least in 0.0..40.0f64,
    ) {
        let row = pales(cover, width, least)?;
        let Some(lap) = row.lap else {
            prop_assert!(cover <= width * (1.0 + 1e-8));
            return Ok(());
        };
        prop_assert!(lap >= least - 1e-6);
        let last = row.near.last().copied().unwrap_or(f64::NAN);
        prop_assert!((last + width - cover).abs() < 1e-6);
        // One pale less would have to lap less than asked.
        let fewer = row.count() as f64 - 1.0;
        prop_assert!(fewer * width - (fewer - 1.0) * least < cover + 1e-6);
    }

    #[test]
    fn either_line_puts_a_mark_at_one_height(
        datum in -900.0..900.0f64, first in -900.0..900.0f64, second in -900.0..900.0f64,
        down in -900.0..900.0f64,
    ) {
        let at = |down: f64| LineSight { down, dist: 6000.0 };
        let carried = carry_level(&TwoSetups {
            datum: at(datum),
            change_points: vec![Shared { first: at(first), second: at(second) }],
            datum_again: None,
        }, LaserWorth::default())?;
        // Above the datum: the first line stands `datum` up, the mark `down` below it.
        let by_height = carried.to_height(datum - down);
        let by_first = carried.from_second(down);
        let signed = |line: FromLine| match line {
            FromLine::Down(by) => by.value,
            FromLine::Up(by) => -by.value,
        };
        prop_assert!((signed(by_height) - signed(by_first)).abs() < 1e-9);
        prop_assert!((signed(by_first) - (down + second - first)).abs() < 1e-9);
    }

    #[test]
    fn a_laser_that_is_out_is_found_out_by_just_that(
        slope in -5.0..5.0f64, fall in -400.0..400.0f64, base in 10e3..60e3f64, near_a in 0.5e3..2e3f64,
    ) {
        let dist = AtPegs { a: near_a, b: base - near_a };
        let reads = |line: f64, dist: f64| line + slope * dist / 1000.0;
        let check = two_pegs(&TwoPegs {
            base,
            middle: AtPegs { a: reads(1200.0, base / 2.0), b: reads(1200.0 + fall, base / 2.0) },
            second: AtPegs { a: reads(1400.0, dist.a), b: reads(1400.0 + fall, dist.b) },
            second_dist: dist,
            higher: None,
        }, LaserWorth { accuracy: 0.3, reading: 0.5 });
        if check == Err(LaserCheckError::ChangedPlaces) {
            // A line that far out over nearly level pegs looks like two readings changed over.
            prop_assert!(slope.abs() > 0.9 && fall.abs() < slope.abs() * base / 1000.0);
            return Ok(());
        }
        let check = check?;
        prop_assert!((check.slope.value - slope).abs() < 1e-9);
        prop_assert!((check.a_above_b.value - fall).abs() < 1e-9);
        prop_assert!((check.true_second.b - check.true_second.a - fall).abs() < 1e-6);
    }

    #[test]
    fn two_tapes_of_known_scale_and_hook_are_told_apart(
        scale in -2.0..2.0f64, zero in -5.0..5.0f64, long in 5e3..20e3f64,
    ) {
        let read = |second: f64| BothTapes { first: second + zero + scale * second / 1000.0, second };
        let tapes = TwoTapeClasses { first: TapeClass::I, second: TapeClass::III, reading: 0.5 };
        let check = tape_check(&[read(1000.0), read(long / 2.0), read(long)], tapes)?;
        let parts = check.parts.ok_or_else(|| TestCaseError::fail("not parted"))?;
        prop_assert!((parts.scale.value - scale).abs() < 1e-9);
        prop_assert!((parts.zero.value - zero).abs() < 1e-9);
    }

    #[test]
    fn no_length_at_all_is_refused_everywhere(bad in no_length()) {
        let good = taped(3000.0);
        let bad_tape = taped(bad);
        let leg = CornerTapes { first: bad_tape, second: good, across: good };
        let across = CornerTapes { first: good, second: good, across: bad_tape };
        prop_assert!(corner_by_tapes(&leg).is_err() && corner_by_tapes(&across).is_err());
        prop_assert!(across_for(bad, 3000.0, 90.0).is_err());
        let base = TwoTapes { base: bad_tape, from_first: good, from_second: good };
        prop_assert!(point_by_tapes(&base).is_err());
        prop_assert!(tapes_to(bad, 100.0, 100.0).is_err());
        prop_assert!(equal_bays(bad, 1900.0).is_err() && equal_bays(9000.0, bad).is_err());
        prop_assert!(equal_gaps(bad, 50.0, 4, Ends::Flush).is_err());
        prop_assert!(pales(bad, 125.0, 20.0).is_err() && pales(1800.0, bad, 20.0).is_err());
        prop_assert!(fall_over_bays(600.0, 4, bad).is_err() && sloping_rail(bad, 0.0).is_err());
        prop_assert!(turn_about(3.0, bad, LaserWorth::default()).is_err());
        prop_assert!(reversed(1.0, 2.0, bad, 0.5).is_err());
        prop_assert!(level_length(bad, 0.0).is_err() && tape_sag(bad, 50.0, 0.1).is_err());
        prop_assert!(face_notch(bad, 1.0).is_err() && centred_mortise(bad, 1.0).is_err());
        prop_assert!(latch_drop(bad, 1.0, 1800.0).is_err());
        let opening = TapedOpening { top: bad, middle: 1000.0, bottom: 1000.0 };
        prop_assert!(leaf(opening, 10.0, 10.0).is_err());
        prop_assert!(bevel::long_to_short(bad, 45.0).is_err());
        let hole = ConcreteHole { diameter: bad, depth: 600.0, post: [100.0, 100.0] };
        prop_assert!(concrete(hole, 3, 0.25, 12.0).is_err());
    }

    #[test]
    fn anything_typed_gives_figures_or_a_sentence(f in prop::array::uniform12(anything()), n in 0usize..40) {
        let [a, b, c, d, e, g, h, i, j, k, l, m] = f;
        let tape = |length: f64, sd: f64| Taped::new(length, sd);
        let corner = corner_by_tapes(&CornerTapes { first: tape(a, d), second: tape(b, e), across: tape(c, g) });
        if let Ok(corner) = &corner {
            sane(turn_string(corner, h, i))?;
        }
        sane(corner)?;
        sane(across_for(a, b, c))?;
        sane(bevel::bevel(a))?;
        sane(bevel::long_to_short(a, b))?;
        sane(four_sides(&FourSides {
            ab: tape(a, g), bc: tape(b, h), cd: tape(c, i), da: tape(d, j), ac: tape(e, k), bd: tape(l, m),
        }))?;
        sane(point_by_tapes(&TwoTapes { base: tape(a, d), from_first: tape(b, e), from_second: tape(c, g) }))?;
        sane(tapes_to(a, b, c))?;
        sane(equal_bays(a, b))?;
        sane(bays_of(a, n))?;
        sane(equal_gaps(a, b, n, Ends::Flush))?;
        sane(equal_gaps(a, b, n, Ends::Gap))?;
        sane(fewest_items(a, b, c, Ends::Flush))?;
        sane(fewest_items(a, b, c, Ends::Gap))?;
        sane(pales(a, b, c))?;
        sane(fall_over_bays(a, n, b))?;
        sane(sloping_rail(a, b))?;
        let laser = LaserWorth { accuracy: k.abs() / 1e4, reading: l };
        let sight = |down: f64, dist: f64| LineSight { down, dist };
        sane(carry_level(&TwoSetups {
            datum: sight(a, b),
            change_points: vec![Shared { first: sight(c, d), second: sight(e, g) }; n % 3],
            datum_again: (n % 2 == 0).then_some(sight(h, i)),
        }, laser))?;
        sane(two_pegs(&TwoPegs {
            base: a, middle: AtPegs { a: b, b: c }, second: AtPegs { a: d, b: e },
            second_dist: AtPegs { a: g, b: h }, higher: None,
        }, laser))?;
        sane(turn_about(a, b, laser))?;
        sane(reversed(a, b, c, d))?;
        let tapes = TwoTapeClasses { first: TapeClass::I, second: TapeClass::II, reading: e };
        sane(tape_check(&[BothTapes { first: a, second: b }, BothTapes { first: c, second: d }], tapes))?;
        sane(level_length(a, b))?;
        sane(tape_sag(a, b, c))?;
        sane(line_sag(a, b, c))?;
        sane(leaf(TapedOpening { top: a, middle: b, bottom: c }, d, e))?;
        sane(latch_drop(a, b, c))?;
        sane(ground_under_swing(a, &[b, c, d], e))?;
        sane(lock_stack(GateAtLock {
            frame: a, face: c,
            taper: (n % 2 == 0).then_some(Taper { thin: b, width: d, from_thin_edge: e, packed: n % 3 == 0 }),
        }))?;
        sane(face_notch(a, b))?;
        sane(centred_mortise(a, b))?;
        sane(which_governs(a, b, c, d))?;
        sane(moment_at_ground(a, b, c))?;
        sane(concrete(ConcreteHole { diameter: a, depth: b, post: [c, d] }, n as u32, e, g))?;
    }
}
