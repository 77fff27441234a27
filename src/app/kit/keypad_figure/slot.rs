//! The place of one figure in a part of the job.

/// Where a figure is kept in a part of the job.
pub trait Slot {
    fn figure(&self) -> Option<f64>;
    fn keep(&mut self, value: f64);

    /// Takes the figure away where there can be none; false where there must be one, or is none.
    fn clear(&mut self) -> bool {
        false
    }
}

impl Slot for f64 {
    fn figure(&self) -> Option<f64> {
        Some(*self)
    }

    fn keep(&mut self, value: f64) {
        *self = value;
    }
}

impl Slot for Option<f64> {
    fn figure(&self) -> Option<f64> {
        *self
    }

    fn keep(&mut self, value: f64) {
        *self = Some(value);
    }

    fn clear(&mut self) -> bool {
        self.take().is_some()
    }
}

/// How many.
impl Slot for u32 {
    fn figure(&self) -> Option<f64> {
        Some(f64::from(*self))
    }

    /// The keypad lets only whole ones through; what is past the range is the nearest in it.
    fn keep(&mut self, value: f64) {
        *self = value as u32;
    }
}
