//! What a garment needs: cloth laid out and bought, thread, binding, notions, and what they cost.
//!
//! Pure: reads a garment in one size, how it is put together and how it is cut. The search for a
//! lay itself is the room [`crate::lay`], which knows no garment; here pieces become its shapes.

mod binding;
mod buying;
mod cost;
mod garment_lay;
mod needs;
mod phase;
mod shapes;
mod thread;
mod widths;

pub use binding::{BIAS_CUT, BindingCut, bias_length, bias_square, binding_cut};
pub use buying::{Buying, buying, buying_step};
pub use cost::{Cost, Total, cost_of, price_of, totals};
pub use garment_lay::{Effort, GarmentLay, LaidPart, LayOrder, LayTrouble, cloths_of, lay_garment};
pub use needs::{ClothNeed, Needs, NotionNeedCost, Unpriced, needs, needs_beside_cloth};
pub use shapes::Plies;
pub use thread::{
    OVEREDGE_WIDTH, STITCHES_PER_INCH, THICKNESS, ThreadNeed, WASTE, thread_needs, thread_per_length,
};
pub use widths::{USUAL_WIDTHS, even_out, needs_at_widths};
