//! Bands and facings: pieces and how they are sewn, said in one line.

use super::{Chain, Dotted, Expr, FinishKind, Name, PieceChange, SeamItem, Text};
use crate::source::Span;
use std::sync::Arc;

/// `band hem_band "Hem band" in knit 6 deep folded round front.hem + back.hem at 85% joined at back.hem_cb`
#[derive(Clone, Debug)]
pub struct Band {
    /// Its name, and that of its piece and of the seam that sews it on.
    pub name: Name,
    /// What people read.
    pub title: Option<Text>,
    /// The layer whose cloth it is cut from.
    pub layer: Name,
    /// How deep it is when it is finished.
    pub depth: Expr,
    /// `folded`: cut twice as deep.
    pub folded: bool,
    /// `grain across`: the cloth's length goes round.
    pub across: Option<Span>,
    /// `round`: its ends are sewn to each other; else it goes `along`, with two ends.
    pub round: bool,
    /// The edges that it is sewn to.
    pub edges: Chain,
    /// `inside lining.front.hem + lining.back.hem`: what its far edge is sewn to; a layer alone means the same edges in
    /// that.
    pub inside: Option<Chain>,
    /// `at 85%`: its share of what it is sewn to.
    pub share: Option<Expr>,
    /// `joined at back.hem_cb`: where its ends meet.
    pub joined: Option<Dotted>,
    /// `opening at side_zip`: the closure or the slit between its ends.
    pub opening: Option<Dotted>,
    /// `underlap 3 at back`
    pub underlap: Option<Underlap>,
    /// `stiffened firm`: the layer that is fused on.
    pub stiffened: Option<Name>,
    /// What its seam's braces say.
    pub items: Vec<SeamItem>,
}

impl Band {
    /// The names of the seams that it stands for.
    pub fn seams(&self) -> Vec<Arc<str>> {
        let name = &self.name.text;
        let after = |word: &str| -> Arc<str> { format!("{name}_{word}").into() };
        let mut seams = vec![name.clone(), after("ends")];
        seams.extend(self.inside.as_ref().map(|_| after("inside")));
        seams.extend(self.underlap.as_ref().map(|_| after("underlap")));
        seams
    }
}

/// `in band collar, hem_band opening at front_zip`: what is said anew of bands of the base; the rest of them stands.
#[derive(Clone, Debug)]
pub struct BandChange {
    /// The bands.
    pub names: Vec<Name>,
    /// How deep they are.
    pub depth: Option<Expr>,
    /// What they are sewn to, and whether they go `round` it.
    pub edges: Option<(bool, Chain)>,
    /// What their far edges are sewn to.
    pub inside: Option<Chain>,
    /// Their share of what they are sewn to.
    pub share: Option<Expr>,
    /// Where their ends meet: then they go round.
    pub joined: Option<Dotted>,
    /// What lies between their ends: then they go along.
    pub opening: Option<Dotted>,
    /// How far one end lies under the other.
    pub underlap: Option<Underlap>,
    /// The layer that is fused on.
    pub stiffened: Option<Name>,
    /// In the place of what their seams' braces say of the same kind.
    pub items: Vec<SeamItem>,
}

/// `in seam sleeve add { leaving gap 16 in lining }`
#[derive(Clone, Debug)]
pub struct SeamChange {
    /// The seam.
    pub name: Name,
    /// `add`, or `replace` what is of the same kind.
    pub how: PieceChange,
    /// What is said in its braces.
    pub items: Vec<SeamItem>,
}

/// What a band has beyond what it is sewn to.
#[derive(Clone, Debug)]
pub struct Underlap {
    /// How long.
    pub length: Expr,
    /// At the end that lies at this piece, on this side of the body, or at this side of a slit.
    pub at: Name,
}

/// `facing neck_facing "Neck facing" in outer 5 wide behind front.neckline + back.neckline stiffened firm understitched`
#[derive(Clone, Debug)]
pub struct Facing {
    /// Its name, what those of its pieces begin with, and that of the seam that sews it on.
    pub name: Name,
    /// What people read.
    pub title: Option<Text>,
    /// The layer whose cloth it is cut from.
    pub layer: Name,
    /// How wide its strips are.
    pub width: Expr,
    /// The edges that it is sewn to.
    pub edges: Chain,
    /// `stiffened firm`: the layer that is fused on.
    pub stiffened: Option<Name>,
    /// `understitched`: sewn to the allowances of its seam.
    pub understitched: Option<Span>,
    /// `neatened bound 1`: how its inner edge is finished.
    pub neatened: Option<Neatened>,
    /// What its seam's braces say.
    pub items: Vec<SeamItem>,
}

impl Facing {
    /// The names of its pieces, one for each piece that it is sewn to.
    pub fn strips(&self) -> Vec<Arc<str>> {
        let mut strips: Vec<Arc<str>> = Vec::new();
        for host in self.hosts() {
            let strip: Arc<str> = format!("{}_{}", self.name.text, host.text).into();
            if !strips.contains(&strip) {
                strips.push(strip);
            }
        }
        strips
    }

    /// The pieces that it is sewn to, as its edges name them.
    pub fn hosts(&self) -> impl Iterator<Item = &Name> {
        let words = self.edges.edges.iter().map(|sewn| sewn.edge.parts.as_slice());
        words.filter_map(|words| words.len().checked_sub(2).and_then(|at| words.get(at)))
    }

    /// The name of its row of understitching.
    pub fn row(&self) -> Option<Arc<str>> {
        self.understitched.map(|_| format!("{}_under", self.name.text).into())
    }
}

/// How a facing's inner edge is finished.
#[derive(Clone, Debug)]
pub struct Neatened {
    /// How.
    pub kind: FinishKind,
    /// How far a binding stretches.
    pub binding_stretch: Option<Expr>,
    /// Where it is said.
    pub span: Span,
}

/// `outer.collar to inside.collar along left + top + right`: several edges of two pieces, named once.
#[derive(Clone, Debug)]
pub struct SeamAlong {
    /// The two pieces.
    pub pieces: [Dotted; 2],
    /// The edges of each.
    pub edges: Vec<Name>,
}
