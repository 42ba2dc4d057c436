//! What tests lay: three squares on a strip as wide as they are.

use crate::orientation::Orientations;
use crate::{Allowance, Effort, Item, Repeat, Request, Turn};

/// Three squares of 10, each of one way up, on cloth 10 wide.
pub(crate) fn three_squares(repeat: Option<Repeat>) -> Orientations {
    Orientations::of(&Request {
        items: vec![Item {
            id: "patch".into(),
            outline: vec![(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)],
            quantity: 3,
            turns: vec![Turn::free(0.0)],
            repeat,
        }],
        width: 10.0,
        minimum_space: 0.0,
        allowance: Allowance::Work(Effort::Quick),
        seed: 0,
        threads: 1,
    })
    .expect("three patches can be laid")
}
