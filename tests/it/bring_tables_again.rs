//! Rows of a table of points that stand there again or amid others; beside each a sound table of which nothing is said.

use crate::bring_in_doubt::{refused, told};
use crate::brought::brought;

/// A cuff in three sizes, numbered or not; `other` changes the rows of M.
fn cuff(is_numbered: bool, other: impl Fn(Vec<(i32, i32)>) -> Vec<(i32, i32)>) -> String {
    let mut rows =
        if is_numbered { "piece,size,point,x mm,y mm\n" } else { "piece,size,x mm,y mm\n" }.to_owned();
    for (size, wide) in [("S", 200), ("M", 210), ("L", 220)] {
        let points = vec![(0, 0), (wide, 0), (wide, 80), (wide / 2, 120), (0, 80)];
        let points = if size == "M" { other(points) } else { points };
        for (at, (x, y)) in points.into_iter().enumerate() {
            let number = if is_numbered { format!("{},", at + 1) } else { String::new() };
            rows += &format!("cuff,{size},{number}{x},{y}\n");
        }
    }
    rows
}

#[test]
fn rows_of_one_size_in_reverse_order_are_the_same() {
    for is_numbered in [true, false] {
        let sound = brought("cuff.csv", &cuff(is_numbered, |points| points));
        let turned = brought("cuff.csv", &cuff(is_numbered, |points| points.into_iter().rev().collect()));
        assert!(turned.remarks.is_empty(), "{:?}", turned.remarks);
        assert_eq!(turned.text, sound.text);
    }
}

#[test]
fn rows_that_go_round_twice_are_told_as_that() {
    let twice = |points: Vec<(i32, i32)>| [points.clone(), points].concat();
    for is_numbered in [true, false] {
        let why = refused("cuff.csv", &cuff(is_numbered, twice));
        // S has five rows behind the first: M begins in line 7, and again in line 12.
        assert_eq!(
            why,
            "cuff.csv:12: the outline of cuff in size M goes round twice: its rows from line 7 on stand there again from here on"
        );
    }
}

#[test]
fn a_row_amid_those_of_another_size_is_told_first() {
    for (is_numbered, row, slip) in
        [(true, "cuff,M,3,", "cuff,L,3,"), (false, "cuff,M,210,80", "cuff,L,210,80")]
    {
        let table = cuff(is_numbered, |points| points);
        assert!(told("cuff.csv", &table).is_empty() && table.contains(row));
        let why = refused("cuff.csv", &table.replace(row, slip));
        let first = "line 9 of cuff.csv says size L, amid rows of cuff in size M: is its size mistyped?";
        assert!(why.lines().next().is_some_and(|line| line.contains(first)), "{why}");
    }
    // Sizes by turns are an order.
    let by_turns = "piece,size,x mm,y mm\na,S,0,0\na,M,0,0\na,S,90,0\na,M,95,0\na,S,90,80\na,M,95,85\na,S,0,80\na,M,0,85\n";
    assert!(told("a.csv", by_turns).is_empty(), "{:?}", told("a.csv", by_turns));
}

#[test]
fn an_outline_closed_by_its_first_row_is_whole() {
    let closed = |points: Vec<(i32, i32)>| points;
    let table = cuff(true, closed) + "cuff,L,1,0,0\n";
    let own = brought("cuff.csv", &table);
    assert!(own.remarks.is_empty(), "{:?}", own.remarks);
    assert_eq!(own.text, brought("cuff.csv", &cuff(true, closed)).text);
}
