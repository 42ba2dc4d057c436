//! The forms of the JSON that is written: data with a doc comment on every key, and nothing of how
//! they are made. `fustian schema` publishes them.

mod closures;
mod cloths;
mod cut_list;
mod garment;
mod lay;
mod materials;
mod openings;
mod pieces;
mod placements;
mod seams;
mod sewn;
mod shared;
mod steps;
mod straps;
mod take_ups;
mod threaded;

pub use closures::*;
pub use cloths::*;
pub use cut_list::*;
pub use garment::*;
pub use lay::*;
pub use materials::*;
pub use openings::*;
pub use pieces::*;
pub use placements::*;
pub use seams::*;
pub use sewn::*;
pub use shared::*;
pub use steps::*;
pub use straps::*;
pub use take_ups::*;
pub use threaded::*;
