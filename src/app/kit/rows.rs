//! Lists that change row by row, so that a list on the screen keeps its place and its focus.

use slint::{Model, ModelRc, VecModel};

/// Makes a list hold these rows, touching only what differs. `list` is what the screen has now;
/// the answer is what it must have.
#[must_use]
pub fn patched<T: Clone + PartialEq + 'static>(list: ModelRc<T>, rows: Vec<T>) -> ModelRc<T> {
    let Some(model) = list.as_any().downcast_ref::<VecModel<T>>() else {
        return ModelRc::new(VecModel::from(rows));
    };
    while model.row_count() > rows.len() {
        model.remove(model.row_count() - 1);
    }
    for (at, row) in rows.into_iter().enumerate() {
        match model.row_data(at) {
            None => model.push(row),
            Some(there) if there != row => model.set_row_data(at, row),
            Some(_) => {}
        }
    }
    list
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::rc::Rc;

    #[test]
    fn only_what_differs_is_touched() {
        let kept = Rc::new(VecModel::from(vec![1, 2, 3]));
        let list: ModelRc<i32> = kept.clone().into();
        let list = patched(list, vec![1, 5]);
        assert_eq!(kept.iter().collect::<Vec<_>>(), [1, 5]);
        let _ = patched(list, vec![1, 5, 7, 9]);
        assert_eq!(kept.iter().collect::<Vec<_>>(), [1, 5, 7, 9]);
        let fresh = patched(ModelRc::default(), vec![4]);
        assert_eq!(fresh.iter().collect::<Vec<_>>(), [4]);
    }
}
