//! What a sheet is made of.

use super::picture::Picture;
use crate::cautions::Caution;
use crate::job::Problem;
use crate::length::{Unit, show, show_fine, show_pm, show_typed, signed, signed_fine};
use crate::volume;

/// A set-out sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// What the job is called.
    pub title: String,
    /// What a person wrote about the site.
    pub notes: String,
    /// How its lengths are shown.
    pub unit: Unit,
    /// The plan with every running reading, for the top of the sheet.
    pub plan: Picture,
    /// In the order of the work.
    pub sections: Vec<Section>,
    pub(super) message: String,
}

/// One step of the work.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// What the step is called.
    pub heading: String,
    /// In the order they are read.
    pub blocks: Vec<Block>,
    /// How its blocks stand on a page.
    pub stands: BlocksStand,
}

/// How blocks stand on a page.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum BlocksStand {
    /// In two columns, but for what needs the whole width; one under the other up to the last
    /// drawing that does.
    #[default]
    Columns,
    /// One under the other, as wide as the page.
    Across,
}

/// A piece of a section.
#[derive(Clone, Debug, PartialEq)]
pub enum Block {
    /// Starts a part of a section, such as one run.
    Heading(String),
    /// Text that is folded to the width there is.
    Paragraph(String),
    /// Short sentences, one under the other.
    List(Vec<String>),
    /// Figures in rows and columns.
    Table(Table),
    /// What is wrong or missing: its place in a person's words, and the problem.
    Problem(String, Problem),
    /// One line, where the work is about to need it.
    Caution(Caution),
    /// The whole of it.
    CautionInFull(Caution),
    /// Drawings side by side; only where lines can be drawn.
    Pictures(Vec<Picture>),
}

/// Figures in rows and columns.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Table {
    /// What it is of, above it.
    pub caption: String,
    /// From left to right.
    pub columns: Vec<Column>,
    /// From top to bottom; a cell for every column.
    pub rows: Vec<Vec<Cell>>,
    /// How many leading columns name the row, repeated where a table is broken.
    pub names: usize,
    /// Under the table.
    pub note: String,
}

/// A column and how it is set.
#[derive(Clone, Debug, PartialEq)]
pub struct Column {
    /// What its figures are.
    pub heading: String,
    /// How its cells stand.
    pub align: Align,
}

/// How a column is set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Align {
    /// Text, to the left; may be folded to fit.
    Left,
    /// Figures, to the right; never folded.
    Right,
}

/// What stands in a row. Lengths are mm until they are shown.
#[derive(Clone, Debug, PartialEq)]
pub enum Cell {
    /// Nothing is known here, or nothing is meant.
    Empty,
    /// A name or a few words.
    Text(String),
    /// How many, or a number in a list.
    Count(usize),
    /// A length, to be read to a whole millimetre or a sixteenth of an inch.
    Length(f64),
    /// A length with one more decimal.
    Fine(f64),
    /// A length whose sign says which way.
    Signed(f64),
    /// The same with one more decimal.
    SignedFine(f64),
    /// Half width of the 95 % band.
    Pm(f64),
    /// Up or down from a laser line: positive is down.
    Down(f64),
    /// The same in little room, with an arrow.
    Arrow(f64),
    /// Degrees to two decimals.
    Degrees(f64),
    /// Degrees with a sign.
    SignedDegrees(f64),
    /// A share from 0 to 1, shown as a percentage.
    Share(f64),
    /// Litres to one decimal.
    Litres(f64),
}

impl Cell {
    /// A text cell.
    #[must_use]
    pub fn text(text: impl Into<String>) -> Self {
        Self::Text(text.into())
    }

    /// The cell of a figure, or an empty one.
    #[must_use]
    pub fn maybe(kind: fn(f64) -> Self, value: Option<f64>) -> Self {
        value.map_or(Self::Empty, kind)
    }

    /// For reading: lengths in `unit`, without its name.
    #[must_use]
    pub fn shown(&self, unit: Unit) -> String {
        match self {
            Self::Empty => String::new(),
            Self::Text(text) => text.clone(),
            Self::Count(count) => count.to_string(),
            Self::Length(mm) => show(*mm, unit),
            Self::Fine(mm) => show_fine(*mm, unit, 1),
            Self::Signed(mm) => signed(*mm, unit),
            Self::SignedFine(mm) => signed_fine(*mm, unit, 1),
            Self::Pm(mm) => show_pm(*mm, unit),
            Self::Down(mm) if *mm < 0.0 => format!("UP\u{a0}{}", show(-mm, unit)),
            Self::Down(mm) => format!("DOWN\u{a0}{}", show(*mm, unit)),
            Self::Arrow(mm) if *mm < 0.0 => format!("↑\u{a0}{}", show(-mm, unit)),
            Self::Arrow(mm) => format!("↓\u{a0}{}", show(*mm, unit)),
            Self::Degrees(degrees) => format!("{degrees:.2}°"),
            Self::SignedDegrees(degrees) => format!("{degrees:+.2}°").replace('-', "−"),
            Self::Share(share) if *share > 1e-6 && *share < 0.005 => "<\u{a0}1\u{a0}%".to_owned(),
            Self::Share(share) => format!("{:.0}\u{a0}%", share * 100.0),
            Self::Litres(litres) => {
                let decimals = if unit.is_feet() { 2 } else { 1 };
                volume::figure(*litres, unit, decimals)
            }
        }
    }

    /// For a spreadsheet: bare figures, no group spaces, a plain minus sign.
    #[must_use]
    pub fn plain(&self, unit: Unit) -> String {
        let length = |mm: f64| show_typed(mm, unit).replace('−', "-");
        match self {
            Self::Empty => String::new(),
            Self::Text(text) => text.clone(),
            Self::Count(count) => count.to_string(),
            Self::Length(mm)
            | Self::Fine(mm)
            | Self::Signed(mm)
            | Self::SignedFine(mm)
            | Self::Pm(mm)
            | Self::Down(mm)
            | Self::Arrow(mm) => length(*mm),
            Self::Degrees(degrees) | Self::SignedDegrees(degrees) => format!("{degrees:.4}"),
            Self::Share(share) => format!("{share:.4}"),
            Self::Litres(litres) => volume::figure(*litres, unit, 3),
        }
    }
}

impl Column {
    /// A column of text.
    #[must_use]
    pub fn left(heading: impl Into<String>) -> Self {
        Self {
            heading: heading.into(),
            align: Align::Left,
        }
    }

    /// A column of figures.
    #[must_use]
    pub fn right(heading: impl Into<String>) -> Self {
        Self {
            heading: heading.into(),
            align: Align::Right,
        }
    }
}

impl Table {
    /// A table with no rows yet, the first column naming its rows.
    #[must_use]
    pub fn new(caption: impl Into<String>, columns: Vec<Column>) -> Self {
        Self {
            caption: caption.into(),
            columns,
            names: 1,
            ..Self::default()
        }
    }

    /// Takes out the columns in which no row has anything.
    #[must_use]
    pub fn without_empty_columns(mut self) -> Self {
        let used: Vec<bool> = (0..self.columns.len())
            .map(|at| {
                let cells = self.rows.iter().filter_map(|row| row.get(at));
                at < self.names || cells.into_iter().any(|cell| *cell != Cell::Empty)
            })
            .collect();
        let mut keep = used.iter();
        self.columns.retain(|_| *keep.next().unwrap_or(&true));
        for row in &mut self.rows {
            let mut keep = used.iter();
            row.retain(|_| *keep.next().unwrap_or(&true));
        }
        self
    }
}

impl Section {
    /// A section with nothing in it yet.
    #[must_use]
    pub fn new(heading: impl Into<String>) -> Self {
        Self {
            heading: heading.into(),
            blocks: Vec::new(),
            stands: BlocksStand::default(),
        }
    }

    /// The same with its blocks one under the other, as wide as the page.
    pub(super) fn across(self) -> Self {
        Self {
            stands: BlocksStand::Across,
            ..self
        }
    }

    pub(super) fn heading(&mut self, text: impl Into<String>) {
        self.blocks.push(Block::Heading(text.into()));
    }

    pub(super) fn say(&mut self, text: impl Into<String>) {
        let text = text.into();
        if !text.is_empty() {
            self.blocks.push(Block::Paragraph(text));
        }
    }

    pub(super) fn list(&mut self, items: Vec<String>) {
        if !items.is_empty() {
            self.blocks.push(Block::List(items));
        }
    }

    /// Adds a table, unless it has no rows; columns that are empty all the way down are left out.
    pub(super) fn table(&mut self, table: Table) {
        if !table.rows.is_empty() {
            self.blocks
                .push(Block::Table(table.without_empty_columns()));
        }
    }

    /// Adds drawings side by side, without those that show nothing.
    pub(super) fn pictures(&mut self, mut pictures: Vec<Picture>) {
        pictures.retain(|picture| !picture.drawing.is_empty());
        if !pictures.is_empty() {
            self.blocks.push(Block::Pictures(pictures));
        }
    }

    /// Adds drawings one under the other.
    pub(super) fn pictures_each(&mut self, pictures: Vec<Picture>) {
        for picture in pictures {
            self.pictures(vec![picture]);
        }
    }

    pub(super) fn caution(&mut self, caution: Caution) {
        self.blocks.push(Block::Caution(caution));
    }
}
