use super::model::Cutting;
use super::part::{cut, cut_as_far_as_known, fold_of, opened_line};
use super::part_line::{PartLine, lines};
use super::sides;
use crate::garment::{Garment, SizeId};
use crate::kept::SizeMemory;
use crate::resolve::{CutRow, SizedGarment};
use crate::sewing::{Finder, GarmentRim, PartId, Sewing, assemble, garment_rims};
use crate::shape::path::Path;
use std::sync::{Arc, OnceLock};

/// All that is worked out of one size, once: how it is drawn, sewn and cut. Checks and outputs are
/// lent it.
#[derive(Clone, Debug)]
pub struct WorkedSize {
    /// Its values, papers and cut list.
    pub drawn: SizedGarment,
    /// How it is put together.
    pub sewn: Sewing,
    /// The cutting line of every part.
    lines: Vec<PartLine>,
    /// What lies on the cutting table: only outputs ask for it, so it is worked out for the first
    /// that does.
    cut: OnceLock<Cutting>,
    /// Its rims, which only garments of some kinds are asked for.
    rims: OnceLock<Option<Vec<GarmentRim>>>,
    memory: Option<Arc<SizeMemory>>,
}

impl WorkedSize {
    /// Puts a size of a garment together, and draws its cutting lines.
    pub fn new(garment: &Garment, drawn: SizedGarment) -> Self {
        WorkedSize::again(garment, drawn, None)
    }

    /// The same of a size of which something may be remembered.
    pub(crate) fn again(garment: &Garment, drawn: SizedGarment, memory: Option<&Arc<SizeMemory>>) -> Self {
        let sewn = assemble(garment, &drawn);
        WorkedSize::put_together(garment, drawn, sewn, memory)
    }

    /// Of a size that is put together so.
    pub fn sewn(garment: &Garment, drawn: SizedGarment, sewn: Sewing) -> Self {
        WorkedSize::put_together(garment, drawn, sewn, None)
    }

    fn put_together(
        garment: &Garment,
        mut drawn: SizedGarment,
        sewn: Sewing,
        memory: Option<&Arc<SizeMemory>>,
    ) -> Self {
        let lines = lines(garment, &drawn, &sewn, memory.map(|memory| &**memory));
        sides::settle(garment, &mut drawn, &sewn, &lines);
        WorkedSize {
            drawn,
            sewn,
            lines,
            cut: OnceLock::new(),
            rims: OnceLock::new(),
            memory: memory.cloned(),
        }
    }

    /// What is remembered is no longer asked: it waits for the next text.
    pub(crate) fn give_memory_back(&mut self) {
        self.memory = None;
    }

    /// What is remembered of this size from before; nothing where it is worked out but once.
    pub(crate) fn memory(&self) -> Option<&SizeMemory> {
        self.memory.as_deref()
    }

    /// Which size it is.
    pub fn id(&self) -> SizeId {
        self.drawn.size
    }

    /// Finds the parts' edges that names mean, in the garment that it is a size of.
    pub fn finder<'a>(&'a self, garment: &'a Garment) -> Finder<'a> {
        self.sewn.finder(garment, &self.drawn)
    }

    /// The cutting line of a part; of one whose allowances could not be worked out unknown.
    pub(crate) fn line(&self, part: PartId) -> &PartLine {
        self.lines.get(part.index()).unwrap_or(&PartLine::Unknown)
    }

    /// Every part as it is cut, in the garment that it is a size of.
    pub fn cut(&self, garment: &Garment) -> &Cutting {
        self.cut.get_or_init(|| cut(garment, &self.drawn, &self.sewn, &self.lines))
    }

    /// What [`garment_rims`] finds, in the garment that it is a size of: several ask for it.
    pub fn rims(&self, garment: &Garment) -> Option<&[GarmentRim]> {
        self.rims.get_or_init(|| garment_rims(garment, &self.drawn, &self.sewn)).as_deref()
    }

    /// The same of a draft that is not finished: a part whose allowances are not known or do not fit
    /// is shown without any, and nothing is reported of them.
    pub(super) fn cut_as_far_as_known(&self, garment: &Garment) -> Cutting {
        cut_as_far_as_known(garment, &self.drawn, &self.sewn, &self.lines)
    }

    /// The cutting line of one part alone, opened out where it is cut on the fold; none where its
    /// allowances are not known or do not fit.
    pub fn whole_line(&self, garment: &Garment, row: &CutRow, part: PartId) -> Option<Vec<Path>> {
        if row.whole || row.hand.is_some() {
            let mut cut = self.cut(garment).parts.iter();
            let own = cut.find(|cut| cut.part == row.part && cut.hand == row.hand)?;
            return Some(own.cutting_ring());
        }
        let PartLine::Cut(line) = self.line(part) else { return None };
        let drawn = self.drawn.paper(row.part.paper)?;
        Some(opened_line(line, fold_of(garment, row, drawn)))
    }
}
