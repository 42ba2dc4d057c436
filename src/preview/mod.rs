//! The live view without its wire: what a page in a browser is told of a garment while its text is being written.
//!
//! A [`Preview`] takes one compiled text after another and keeps the last garment that was sound. [`answer`] is a
//! function of what is shown and of a request: there is a table of what may be asked for, and no file is ever served.

mod assets;
mod door;
mod drawn;
mod edge_facts;
mod edges;
mod facing;
mod key;
mod lays;
mod mates;
mod response;
mod router;
mod said;
mod shapes;
mod shown;
mod standing;

pub use door::Door;
pub use drawn::{DrawnView, HeadView, PieceView, Wanted};
pub use edge_facts::{EdgeFacts, FateView, MateView, SizeRow};
pub use edges::EdgeView;
pub use key::KeyView;
pub use lays::{ClothView, LayView};
pub use response::{Request, Response};
pub use router::{Answer, answer};
pub use said::{MessageView, PlaceView};
pub use shapes::ShapeView;
pub use shown::{Preview, Shown};
pub use standing::{LayerView, Standing, StandingView};
