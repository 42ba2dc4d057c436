//! What is said outside of drawings and alterations.

use super::{
    ClosureKind, EdgePlace, Expression, FinishKind, Garment, NotchAt, NotchSpacing, StitchedRow, Tack,
};

impl Garment {
    /// Every amount that is said outside of drawings, alterations and named values: of allowances,
    /// cloth, seams, finishes, closures, cords, notions and the maker's own checks.
    pub fn facts(&self) -> Vec<&Expression> {
        let mut facts: Vec<&Expression> = self.allowance.iter().collect();
        facts.extend(self.pieces.iter().filter_map(|piece| piece.allowance.as_ref()));
        for fabric in &self.fabrics {
            facts.extend([&fabric.width, &fabric.selvage, &fabric.thickness].into_iter().flatten());
            for ways in [&fabric.stretch, &fabric.shrink, &fabric.repeat] {
                facts.extend([&ways.along, &ways.across].into_iter().flatten());
            }
        }
        for seam in &self.seams {
            facts.extend(seam.allowance.iter().map(|(allowance, _)| allowance));
            facts.extend(seam.fit.iter().flat_map(|fit| [&fit.low, &fit.high]));
            facts.extend(seam.notches.iter().map(|notch| notch.at.amount()));
            facts.extend(seam.divided.iter().filter_map(|notches| match &notches.apart {
                NotchSpacing::AtMost(length) => Some(length),
                NotchSpacing::Parts(_) => None,
            }));
            facts.extend(seam.work.iter().map(|work| &work.width));
            facts.extend(seam.tape.iter().filter_map(|tape| tape.width.as_ref()));
            facts.extend(seam.gaps.iter().map(|gap| &gap.length));
            let ends = seam.gaps.iter().filter_map(|gap| gap.at.as_ref()?.between.as_ref());
            facts.extend(ends.flatten().map(NotchAt::amount));
        }
        facts.extend(self.portions.iter().flat_map(|portion| portion.from.iter().chain([&portion.to])));
        let placed = self.placed_points.iter().map(|placed| &placed.place);
        facts.extend(placed.filter_map(EdgePlace::expression));
        facts.extend(self.finishes.iter().flat_map(|finish| of_finish(&finish.kind)));
        facts.extend(self.finishes.iter().filter_map(|finish| finish.binding_stretch.as_ref()));
        facts.extend(self.closures.iter().filter_map(|closure| closure.kind.as_ref()).flat_map(of_closure));
        for cord in &self.cords {
            facts.push(&cord.length);
            facts.extend(&cord.ends);
        }
        for strap in &self.straps {
            facts.extend([&strap.length, &strap.width]);
            facts.extend(&strap.sewn);
        }
        facts.extend(self.rows.iter().flat_map(StitchedRow::amounts));
        facts.extend(self.tacks.iter().flat_map(Tack::amounts));
        facts.extend(self.notions.iter().filter_map(|notion| notion.amount.as_ref()));
        facts.extend(self.requires.iter().flat_map(|require| [&require.left, &require.right]));
        facts
    }
}

fn of_finish(kind: &FinishKind) -> Vec<&Expression> {
    match kind {
        FinishKind::Hem(hem) => hem.amounts().collect(),
        FinishKind::Bound(binding) => binding.amounts().collect(),
        FinishKind::Casing(depth, elastic) => {
            let elastic = elastic.iter().flat_map(|(width, length)| [width, length]);
            std::iter::once(depth).chain(elastic).collect()
        }
        FinishKind::Elastic(width, length) => vec![width, length],
        FinishKind::Tape(width) => width.iter().collect(),
        FinishKind::TurnedUnderOnto(_) | FinishKind::Overlocked | FinishKind::Raw | FinishKind::Poison => {
            Vec::new()
        }
    }
}

fn of_closure(kind: &ClosureKind) -> Vec<&Expression> {
    match kind {
        ClosureKind::Zipper { lengths, showing, clear, .. } => {
            lengths.iter().chain(showing).chain(clear).collect()
        }
        ClosureKind::Fasteners(row) => row.amounts().collect(),
    }
}
