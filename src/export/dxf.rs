//! The plan as DXF (release 12, text), in mm, in the frame of the marks: the first wall's first
//! mark is 0, 0 and its second lies to the right.

use crate::Solution;
use crate::drawing::{
    Bundled, Detail, Drawing, DrawnItem, Hand, LayoutDesk, PlanShow, Role, Seen, Shape, Turn, Vec2,
    View, lay_out, plan,
};
use crate::job::Job;
use std::fmt::Write as _;

/// Millimetres on the ground to a pt of paper at 1 : 50, the scale that words are sized for.
const MM_PER_PT: f64 = 50.0 * 25.4 / 72.0;

/// The plan's layers and their colours (numbers of the usual table: 7 is black or white).
const LAYERS: [(&str, u8); 8] = [
    ("WALLS", 7),
    ("MARKS", 7),
    ("STRINGS", 30),
    ("POSTS", 7),
    ("HOLES", 8),
    ("GATES", 5),
    ("DIMENSIONS", 8),
    ("TEXT", 7),
];

/// The plan of a job and its solution with dimensions and running readings, one layer for each kind
/// of thing. The same job gives the same text.
#[must_use]
pub fn dxf(job: &Job, solution: &Solution) -> String {
    let show = PlanShow {
        turn: Turn::Site,
        detail: Detail::Sheet,
        readings: Seen::Hidden,
        ..PlanShow::default()
    };
    let drawing = plan(job, solution, &show);
    let mut file = File::default();
    file.header(&drawing);
    file.tables();
    file.pair(0, "SECTION");
    file.pair(2, "ENTITIES");
    for item in &drawing.items {
        file.item(item);
    }
    file.words(&drawing);
    file.pair(0, "ENDSEC");
    file.pair(0, "EOF");
    file.text
}

fn layer(role: Role) -> &'static str {
    match role {
        Role::Wall | Role::Sketch => "WALLS",
        Role::Mark => "MARKS",
        Role::String => "STRINGS",
        Role::Post | Role::DonePost => "POSTS",
        Role::Hole => "HOLES",
        Role::Gate => "GATES",
        Role::Dimension => "DIMENSIONS",
        _ => "TEXT",
    }
}

/// Pairs of a code and a value, each on its own line.
#[derive(Default)]
struct File {
    text: String,
}

impl File {
    fn pair(&mut self, code: u16, value: impl std::fmt::Display) {
        let _ = writeln!(self.text, "{code}\n{value}");
    }

    fn number(&mut self, code: u16, value: f64) {
        // Four decimals of a mm; never "-0".
        let rounded = (value * 1e4).round() / 1e4 + 0.0;
        self.pair(code, format!("{rounded:.4}"));
    }

    fn point(&mut self, first: u16, at: Vec2) {
        self.number(first, at.x);
        self.number(first + 10, at.y);
        self.number(first + 20, 0.0);
    }

    fn header(&mut self, drawing: &Drawing) {
        self.pair(0, "SECTION");
        self.pair(2, "HEADER");
        self.pair(9, "$ACADVER");
        self.pair(1, "AC1009");
        let middle = drawing.bounds.middle();
        let half = drawing.bounds.size() / 2.0;
        for (name, at) in [("$EXTMIN", middle - half), ("$EXTMAX", middle + half)] {
            self.pair(9, name);
            self.point(10, at);
        }
        self.pair(0, "ENDSEC");
    }

    fn tables(&mut self) {
        self.pair(0, "SECTION");
        self.pair(2, "TABLES");
        self.pair(0, "TABLE");
        self.pair(2, "LTYPE");
        self.pair(70, 1);
        self.pair(0, "LTYPE");
        self.pair(2, "CONTINUOUS");
        self.pair(70, 0);
        self.pair(3, "Solid line");
        self.pair(72, 65);
        self.pair(73, 0);
        self.number(40, 0.0);
        self.pair(0, "ENDTAB");
        self.pair(0, "TABLE");
        self.pair(2, "LAYER");
        self.pair(70, LAYERS.len());
        for (name, colour) in LAYERS {
            self.pair(0, "LAYER");
            self.pair(2, name);
            self.pair(70, 0);
            self.pair(62, colour);
            self.pair(6, "CONTINUOUS");
        }
        self.pair(0, "ENDTAB");
        self.pair(0, "ENDSEC");
    }

    fn item(&mut self, item: &DrawnItem) {
        let layer = layer(item.role);
        match &item.shape {
            Shape::Wall { from, to, .. } => self.line(layer, *from, *to),
            Shape::Cross(at) | Shape::Dot(at) => {
                self.pair(0, "POINT");
                self.pair(8, "MARKS");
                self.point(10, *at);
            }
            Shape::Footprint {
                centre,
                width,
                depth,
                bearing,
            } => {
                let tile =
                    crate::drawing::Tile::turned(*centre, [width / 2.0, depth / 2.0], *bearing);
                self.polyline(layer, &tile.corners(), true);
            }
            Shape::Path {
                points,
                closed: true,
                ..
            } if item.role == Role::Hole => self.circle(layer, points),
            Shape::Path { points, closed, .. } => self.polyline(layer, points, *closed),
            Shape::Ring { .. } | Shape::Dimension(_) | Shape::Row(_) | Shape::Label(_) => {}
        }
    }

    fn line(&mut self, layer: &str, from: Vec2, to: Vec2) {
        self.pair(0, "LINE");
        self.pair(8, layer);
        self.point(10, from);
        self.point(11, to);
    }

    fn polyline(&mut self, layer: &str, points: &[Vec2], closed: bool) {
        if let ([from, to], false) = (points, closed) {
            self.line(layer, *from, *to);
            return;
        }
        self.pair(0, "POLYLINE");
        self.pair(8, layer);
        self.pair(66, 1);
        self.point(10, Vec2::zeros());
        self.pair(70, u8::from(closed));
        for at in points {
            self.pair(0, "VERTEX");
            self.pair(8, layer);
            self.point(10, *at);
        }
        self.pair(0, "SEQEND");
        self.pair(8, layer);
    }

    /// The circle that a closed path of even steps was made from.
    fn circle(&mut self, layer: &str, points: &[Vec2]) {
        let Some(first) = points.first() else { return };
        let middle = points.iter().sum::<Vec2>() / points.len() as f64;
        self.pair(0, "CIRCLE");
        self.pair(8, layer);
        self.point(10, middle);
        self.number(40, (first - middle).norm());
    }

    /// Words and dimension lines where they stand on paper at 1 : 50, so that none cover each other.
    fn words(&mut self, drawing: &Drawing) {
        let hand = Hand::paper();
        let desk = LayoutDesk {
            hand: &hand,
            measure: &Bundled,
        };
        let view = View {
            scale: 1.0 / MM_PER_PT,
            origin: Vec2::zeros(),
        };
        let laid = lay_out(drawing, &view, None, desk);
        let of = |index: usize| drawing.items.get(index);
        for stroke in &laid.strokes {
            let worded = of(stroke.item).is_some_and(|item| {
                matches!(
                    item.shape,
                    Shape::Dimension(_) | Shape::Row(_) | Shape::Label(_)
                )
            });
            if worded {
                let points: Vec<Vec2> = stroke.points.iter().map(|at| view.find(*at)).collect();
                self.polyline("DIMENSIONS", &points, stroke.closed);
            }
        }
        for label in &laid.labels {
            let figure = of(label.item)
                .is_some_and(|item| matches!(item.shape, Shape::Dimension(_) | Shape::Row(_)));
            let start = view.find(label.start());
            self.pair(0, "TEXT");
            self.pair(8, if figure { "DIMENSIONS" } else { "TEXT" });
            self.point(10, start);
            // The height of capitals, which is what a height of text means here.
            self.number(40, label.size * 0.7 * MM_PER_PT);
            self.pair(1, plain(&label.text));
            self.number(50, -label.turn);
        }
    }
}

/// Release 12 knows ASCII and codes for the rest: %%d is a degree sign, \U+2033 any other. What only
/// looks like such a code is written so that it is read as it stands.
fn plain(text: &str) -> String {
    let mut plain = String::new();
    for c in text.chars() {
        match c {
            '°' => plain.push_str("%%d"),
            '±' => plain.push_str("%%p"),
            '%' => plain.push_str("%%%"),
            '\\' => plain.push_str("\\U+005C"),
            '\u{a0}' => plain.push(' '),
            '′' => plain.push('\''),
            '″' => plain.push('"'),
            '−' => plain.push('-'),
            '·' => plain.push('/'),
            c if c.is_ascii() && !c.is_control() => plain.push(c),
            c if c.is_control() => plain.push(' '),
            c => {
                let _ = write!(plain, "\\U+{:04X}", u32::from(c));
            }
        }
    }
    plain
}

#[cfg(test)]
mod tests {
    use super::plain;

    #[test]
    fn words_are_written_in_ascii() {
        assert_eq!(plain("104.3° 5\u{a0}402"), "104.3%%d 5 402");
        assert_eq!(plain("11′ 9″ ±"), "11' 9\" %%p");
        assert_eq!(plain("Zäune\n"), "Z\\U+00E4une ");
        assert_eq!(plain("peg %%c"), "peg %%%%%%c");
        assert_eq!(plain("peg \\U+0041"), "peg \\U+005CU+0041");
    }
}
