//! The forms of the JSON that is written: data with a doc comment on every key, and nothing of how
//! they are made. `fustian schema` publishes them.

mod cloths;
mod garment;
mod lay;
mod materials;
mod openings;
mod placements;
mod seams;
mod sewn;
mod shared;
mod steps;
mod straps;
mod threaded;

pub use cloths::*;
pub use garment::*;
pub use lay::*;
pub use materials::*;
pub use openings::*;
pub use placements::*;
pub use seams::*;
pub use sewn::*;
pub use shared::*;
pub use steps::*;
pub use straps::*;
pub use threaded::*;
