//! What is said of a drawing, causes before what follows from them.

/// Sentences on a drawing: who reads them mends the first ones first.
#[derive(Debug, Default)]
pub struct Told {
    /// What is drawn wrong as a whole, and explains more than itself.
    causes: Vec<String>,
    /// All else.
    pub doubts: Vec<String>,
}

impl Told {
    /// What the readers said.
    pub fn of(causes: &[String], doubts: &[String]) -> Self {
        Told { causes: causes.to_vec(), doubts: doubts.to_vec() }
    }

    /// Something that explains more than itself.
    pub fn cause(&mut self, words: impl IntoIterator<Item = String>) {
        self.causes.extend(words);
    }

    /// What was said of a part.
    pub fn add(&mut self, other: Told) {
        self.causes.extend(other.causes);
        self.doubts.extend(other.doubts);
    }

    /// All of it, in order.
    pub fn in_order(mut self) -> Vec<String> {
        self.causes.append(&mut self.doubts);
        self.causes
    }
}
