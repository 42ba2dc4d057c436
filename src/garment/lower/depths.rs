//! How deep bands and how wide facings are said to be, beside the pieces that they stand for.

use super::Lowering;
use super::expression::Wanted;
use super::papers::When;
use crate::garment::Depth;
use crate::garment::merge::Merged;
use crate::syntax::tree::StatementNode;

impl Lowering<'_> {
    pub(super) fn lower_depths(&mut self, written: &Merged) {
        for declaration in &written.declarations {
            let (name, said, of_facing) = match &declaration.statement.node {
                StatementNode::Band(band) => (&band.name, &band.depth, false),
                StatementNode::Facing(facing) => (&facing.name, &facing.width, true),
                _ => continue,
            };
            // What is wrong with it is told of the piece that it makes.
            let amount =
                self.attempt(|reading| reading.lower(said, When::Fact, None, Wanted::Length)).forget();
            self.garment.depths.push(Depth { name: name.text.clone(), amount, of_facing });
        }
    }
}
