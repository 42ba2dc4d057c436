//! Each of a row once.

/// Keeps the first of all that are equal, in the order in which they stand. Unlike `dedup` it needs no sorted row, and it is for short
/// ones: names, pieces, layers.
pub(crate) fn once_each<T: PartialEq>(row: &mut Vec<T>) {
    let mut at = 0;
    while at < row.len() {
        let (before, rest) = row.split_at(at);
        match rest.first().is_some_and(|own| before.contains(own)) {
            true => {
                row.remove(at);
            }
            false => at += 1,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::once_each;

    #[test]
    fn the_first_of_each_stays_in_its_place() {
        let mut row = vec!["waist", "waist", "hem", "waist", "side", "hem"];
        once_each(&mut row);
        assert_eq!(row, ["waist", "hem", "side"]);
    }
}
