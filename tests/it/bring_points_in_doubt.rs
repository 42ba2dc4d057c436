//! What is in doubt of tables of points: what a size lacks and what there is too much of to be told one by one.

use crate::brought::{brought, brought_with};
use fustian::bring::BringOptions;

/// A cuff in two sizes of which the lower edge is bowed by 5 mm; `other` changes its rows. The first row of deckhand is line 2,
/// that of bosun line 7.
fn cuff(other: &[(&str, &str)]) -> String {
    let mut rows = "piece,size,point,x mm,y mm\n".to_owned();
    for (size, wide) in [("deckhand", 200), ("bosun", 220)] {
        let points = [(0, 0), (wide / 2, -5), (wide, 0), (wide, 70), (0, 70)];
        for (at, (x, y)) in points.into_iter().enumerate() {
            rows += &format!("cuff,{size},{},{x},{y}\n", at + 1);
        }
    }
    other.iter().fold(rows, |rows, (from, to)| {
        assert!(rows.contains(from), "{from} is not in\n{rows}");
        rows.replace(from, to)
    })
}

#[test]
fn a_point_of_a_curve_that_one_size_lacks_is_told_and_the_table_comes_in() {
    let sound = brought("cuff.csv", &cuff(&[]));
    assert!(sound.remarks.is_empty(), "{:?}", sound.remarks);
    // By hand: from (100, -5) to (0, 0) and on to (200, 0) it turns by 2 atan 5/100, 5.7°, which is no corner.
    let lacks = brought("cuff.csv", &cuff(&[("cuff,bosun,2,110,-5\n", "")]));
    let words = "behind line 7 of cuff.csv the point 2 of cuff is missing in size bosun; deckhand has it in line 3: is a row lost?";
    let [missing, straight] = lacks.remarks.as_slice() else { panic!("{:?}", lacks.remarks) };
    assert_eq!(missing, words);
    assert!(straight.contains("is straight in bosun, and bows by 5 mm in deckhand"), "{straight}");
    assert!(lacks.text.contains("piece cuff"), "{}", lacks.text);
}

#[test]
fn of_many_pieces_that_lack_a_mark_twenty_are_told_and_the_others_counted() {
    let mut rows = "piece,size,x mm,y mm,kind\n".to_owned();
    for piece in 0..25 {
        for (size, wide) in [("4", 100), ("6", 110)] {
            for (x, y) in [(0, 0), (wide, 0), (wide, 80), (0, 80)] {
                rows += &format!("patch {piece},{size},{x},{y},\n");
            }
        }
        rows += &format!("patch {piece},4,20,20,mark\n");
    }
    let remarks = brought("patches.csv", &rows).remarks;
    assert_eq!(remarks.iter().filter(|one| one.contains("has no mark in 6")).count(), 20, "{remarks:?}");
    assert!(
        remarks.iter().any(|one| one.contains("of 5 more pieces with a mark in some sizes alone")),
        "{remarks:?}"
    );
}

#[test]
fn of_many_marks_that_leap_twenty_are_told_and_the_others_counted() {
    let table = |down: i32| {
        let mut rows = "piece,size,point,x mm,y mm,kind\n".to_owned();
        for (size, wide, down) in [("4", 400, 0), ("6", 410, down), ("8", 420, 0)] {
            for (at, (x, y)) in [(0, 0), (wide, 0), (wide, 800), (0, 800)].into_iter().enumerate() {
                rows += &format!("apron,{size},{},{x},{y},\n", at + 1);
            }
            for mark in 0..25 {
                let down = if down > 0 { down + 12 * mark } else { 0 };
                rows += &format!("apron,{size},rivet {mark},{},{},mark\n", 10 + 14 * mark, 700 - down);
            }
        }
        rows
    };
    assert!(brought("apron.csv", &table(0)).remarks.is_empty());
    // In size 6 they lie 300 mm and more lower than in 4 and 8, each by another amount.
    let remarks = brought("apron.csv", &table(300)).remarks;
    assert_eq!(remarks.iter().filter(|one| one.contains("lies elsewhere in 6")).count(), 20, "{remarks:?}");
    assert!(remarks.iter().any(|one| one.contains("5 more things on it lie elsewhere")), "{remarks:?}");
}

#[test]
fn a_size_that_is_mistyped_in_one_row_is_asked_for() {
    let why = |other: &[(&str, &str)]| {
        brought_with("cuff.csv", &cuff(other), &BringOptions::default()).unwrap_err().to_string()
    };
    // The third row of bosun is line 9.
    assert_eq!(
        why(&[("cuff,bosun,3,220,0", "cuff,bosum,3,220,0")]).lines().next().unwrap(),
        "cuff.csv:9: the outline of cuff in size bosum has 1 point; it needs three that differ: is its piece's name or its size \
         mistyped here?"
    );
}

#[test]
fn a_mark_that_one_of_several_sizes_lacks_is_told() {
    let told = |with: &[&str]| {
        let mut rows = "piece,size,point,x mm,y mm,kind\n".to_owned();
        for (size, wide) in [("4", 400), ("6", 410), ("8", 420)] {
            for (at, (x, y)) in [(0, 0), (wide, 0), (wide, 800), (0, 800)].into_iter().enumerate() {
                rows += &format!("apron,{size},{},{x},{y},\n", at + 1);
            }
            if with.contains(&size) {
                rows += &format!("apron,{size},rivet,{},700,mark\n", wide / 2);
            }
        }
        brought("apron.csv", &rows).remarks
    };
    assert!(told(&["4", "6", "8"]).is_empty(), "{:?}", told(&["4", "6", "8"]));
    let lacks = "apron: a mark rivet is drawn in 4 and 6 and not in 8: it is taken to lie there as in 4";
    assert_eq!(told(&["4", "6"]), [lacks]);
    assert_eq!(told(&["6", "8"]), ["apron: a mark rivet is drawn in 6 and 8 and not in 4: it is left out"]);
}

/// Points that are called p1, p2 … are numbered too: a corner that a size lacks is told as one of plain numbers is.
#[test]
fn numbers_behind_a_letter_count_too() {
    let lettered = |other: &[(&str, &str)]| -> String {
        let rows = cuff(other);
        let mut lines = rows.lines();
        let head = lines.next().expect("a head").to_owned();
        let row = |line: &str| -> String {
            let parts: Vec<&str> = line.splitn(3, ',').collect();
            format!("{},{},p{}", parts[0], parts[1], parts[2])
        };
        lines.fold(head, |all, line| format!("{all}\n{}", row(line))) + "\n"
    };
    assert!(brought("cuff.csv", &lettered(&[])).remarks.is_empty());
    // The corner 3 of bosun stands in line 9, behind 2 in line 8.
    let lost = |text: &str| match brought_with("cuff.csv", text, &BringOptions::default()) {
        Err(why) => why.to_string(),
        Ok(brought) => panic!("it came in:\n{}", brought.text),
    };
    let row = [("cuff,bosun,3,220,0\n", "")];
    assert!(
        lost(&cuff(&row)).contains("the point 3 of cuff is missing in size bosun"),
        "{}",
        lost(&cuff(&row))
    );
    assert!(
        lost(&lettered(&row)).contains("the point 3 of cuff is missing in size bosun"),
        "{}",
        lost(&lettered(&row))
    );
}
