//! The file itself: pairs of a code and a value, and the entities that are made of them.

use super::ascii::plain;
use crate::drawing::{Bounds, Vec2};
use std::fmt::Write as _;

/// Pairs of a code and a value, each on its own line.
#[derive(Default)]
pub(super) struct File {
    pub text: String,
}

impl File {
    pub fn pair(&mut self, code: u16, value: impl std::fmt::Display) {
        let _ = writeln!(self.text, "{code}\n{value}");
    }

    pub fn number(&mut self, code: u16, value: f64) {
        // Four decimals of a mm; never "-0".
        let rounded = (value * 1e4).round() / 1e4 + 0.0;
        self.pair(code, format!("{rounded:.4}"));
    }

    pub fn point(&mut self, first: u16, at: Vec2) {
        self.number(first, at.x);
        self.number(first + 10, at.y);
        self.number(first + 20, 0.0);
    }

    pub fn header(&mut self, bounds: &Bounds) {
        self.pair(0, "SECTION");
        self.pair(2, "HEADER");
        self.pair(9, "$ACADVER");
        self.pair(1, "AC1009");
        let middle = bounds.middle();
        let half = bounds.size() / 2.0;
        for (name, at) in [("$EXTMIN", middle - half), ("$EXTMAX", middle + half)] {
            self.pair(9, name);
            self.point(10, at);
        }
        self.pair(0, "ENDSEC");
    }

    pub fn tables(&mut self, layers: &[(&str, u8)]) {
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
        self.pair(70, layers.len());
        for (name, colour) in layers {
            self.pair(0, "LAYER");
            self.pair(2, name);
            self.pair(70, 0);
            self.pair(62, colour);
            self.pair(6, "CONTINUOUS");
        }
        self.pair(0, "ENDTAB");
        self.pair(0, "ENDSEC");
    }

    pub fn dot(&mut self, layer: &str, at: Vec2) {
        self.pair(0, "POINT");
        self.pair(8, layer);
        self.point(10, at);
    }

    pub fn line(&mut self, layer: &str, from: Vec2, to: Vec2) {
        self.pair(0, "LINE");
        self.pair(8, layer);
        self.point(10, from);
        self.point(11, to);
    }

    pub fn polyline(&mut self, layer: &str, points: &[Vec2], closed: bool) {
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
    pub fn circle(&mut self, layer: &str, points: &[Vec2]) {
        let Some(first) = points.first() else { return };
        let middle = points.iter().sum::<Vec2>() / points.len() as f64;
        self.pair(0, "CIRCLE");
        self.pair(8, layer);
        self.point(10, middle);
        self.number(40, (first - middle).norm());
    }

    /// Words that begin there, their capitals so high (mm), turned by degrees to the left.
    pub fn words(&mut self, layer: &str, start: Vec2, words: &str, height: f64, turn: f64) {
        self.pair(0, "TEXT");
        self.pair(8, layer);
        self.point(10, start);
        self.number(40, height);
        self.pair(1, plain(words));
        self.number(50, turn);
    }
}
