//! What hangs together, by seams, stitching on top and closures.

use super::model::{FaceId, Surface};
use super::union::Union;

impl Surface {
    /// The faces that hang together, each lot in the order of the faces, and the lots in the order of
    /// their first ones. A closure holds together what it closes.
    pub fn components(&self) -> Vec<Vec<FaceId>> {
        let mut faces = Union::new(self.faces.len());
        let mut join = |one: FaceId, other: FaceId| {
            faces.join(one.index(), other.index());
        };
        for joined in &self.joins {
            for pair in joined.plies.windows(2) {
                if let [one, other] = pair {
                    join(self.face_of(one.stretch), self.face_of(other.stretch));
                }
            }
        }
        for placing in &self.placings {
            join(placing.placed, placing.host);
        }
        for line in &self.closures {
            let mut all = line.faces.iter().flatten();
            if let Some(&first) = all.next() {
                all.for_each(|&face| join(first, face));
            }
        }
        let mut of_root: Vec<Option<usize>> = vec![None; self.faces.len()];
        let mut components: Vec<Vec<FaceId>> = Vec::new();
        for face in self.face_ids() {
            let at = *of_root[faces.root(face.index())].get_or_insert_with(|| {
                components.push(Vec::new());
                components.len() - 1
            });
            components[at].push(face);
        }
        components
    }
}
