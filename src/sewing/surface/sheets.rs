//! Sheets: what hangs together in one gluing, and what kind of surface it is.

use super::gluing::Gluing;
use super::model::{FaceId, Surface};
use super::union::{Signed, Union};

/// A surface in the plain sense, with or without rims.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sheet {
    /// Its faces, in their order.
    pub faces: Vec<FaceId>,
    /// Vertices less edges plus faces: Euler's number. Of an orientable sheet it is 2 less twice the
    /// genus less the number of rims.
    pub euler: i64,
    /// How many rims it has.
    pub rims: usize,
    /// All its faces can lie the same way up: it is not twisted like a Möbius band.
    pub orientable: bool,
}

impl Gluing {
    /// All sheets, in the order of their first faces.
    pub fn sheets(&self, surface: &Surface) -> Vec<Sheet> {
        let mut faces = Signed::new(surface.faces.len());
        let mut corners = Union::new(surface.stretches.len());
        let mut twisted = Vec::new();
        for stretch in surface.stretch_ids() {
            let Some(partner) = self.partner(stretch).filter(|partner| partner.stretch > stretch) else {
                continue;
            };
            let (one, other) = (surface.face_of(stretch), surface.face_of(partner.stretch));
            if !faces.join(one.index(), other.index(), partner.same_way) {
                twisted.push(one);
            }
            for at_end in [false, true] {
                let (one, other) = (
                    surface.corner(stretch, at_end),
                    surface.corner(partner.stretch, at_end == partner.same_way),
                );
                corners.join(one, other);
            }
        }
        let mut of_root: Vec<Option<usize>> = vec![None; surface.faces.len()];
        let mut sheets: Vec<Sheet> = Vec::new();
        let mut of_face = Vec::with_capacity(surface.faces.len());
        for face in surface.face_ids() {
            let (root, _) = faces.root(face.index());
            let at = *of_root[root].get_or_insert_with(|| {
                sheets.push(Sheet { faces: Vec::new(), euler: 0, rims: 0, orientable: true });
                sheets.len() - 1
            });
            sheets[at].faces.push(face);
            // A disc, less its holes.
            sheets[at].euler += 1 - surface.holes_of(face) as i64;
            of_face.push(at);
        }
        for stretch in surface.stretch_ids() {
            let sheet = &mut sheets[of_face[surface.face_of(stretch).index()]];
            // A glued pair is one edge, counted where it comes first.
            if self.partner(stretch).is_none_or(|partner| partner.stretch > stretch) {
                sheet.euler -= 1;
            }
            if corners.root(stretch.index()) == stretch.index() {
                sheet.euler += 1;
            }
        }
        self.each_rim(surface, |rim| {
            if let Some(part) = rim.first() {
                sheets[of_face[surface.face_of(part.stretch).index()]].rims += 1;
            }
        });
        for face in twisted {
            sheets[of_face[face.index()]].orientable = false;
        }
        sheets
    }
}
