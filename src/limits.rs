//! Every limit of what a garment or a drawing may hold, in one place. What goes over one is told of, or is counted where
//! only so much is shown.

/// The largest source file that is read, in bytes.
pub const FILE_BYTES: usize = 8 * 1024 * 1024;
/// The largest number of files in one chain of variations and libraries.
pub const FILES: usize = 64;
/// How deep brackets and braces may stand inside one another.
pub const DEPTH: usize = 32;
/// The longest name, in bytes.
pub const NAME_BYTES: usize = 128;
/// The most sizes in one garment.
pub const SIZES: usize = 100;
/// The most pieces in one garment.
pub const PIECES: usize = 20_000;
/// The most edges in one piece.
pub const EDGES_OF_PIECE: usize = 1_000;
/// How many times one piece may be altered: each time it is drawn once more.
pub const ALTERATIONS_OF_PIECE: usize = 1_000;
/// The most edges and lines of all pieces, counted in every size; a copy's count anew.
pub const EDGES_OF_ALL_SIZES: usize = 1_000_000;
/// The most lines that pieces take over from those that they are like, edges of outlines among them.
pub const LINES_ALIKE: usize = 200_000;
/// How many times one `let … between` or `until … fits` may try an amount, in one size.
pub const TRIES_OF_SOLVE: usize = 400;
/// How many messages of one slug are shown before the rest are counted.
pub const MESSAGES_OF_SLUG: usize = 50;
/// The longest length that a garment may hold, in millimetres (100 m).
pub const LENGTH_MM: f64 = 100_000.0;
/// How far from its origin a drawing draws, in mm: sums and squares of figures beyond that may be beyond all numbers.
pub const FARTHEST_MM: f64 = 1e150;
/// How many damaged places of one file are explained before the rest are counted.
pub const DAMAGES: usize = 500;
/// The most pages that are printed at once.
pub const PAGES: usize = 2_000;
/// The largest share of its length or width by which cloth may shrink: beyond it (common practice:
/// even felting takes no more than half) nothing is left to reckon with.
pub const SHRINKS: f64 = 0.9;
/// The most sheets of pieces that share stacks of three and more plies, in which it is worked out
/// which of them close a bag: the work grows with their cube.
pub const SHEETS_OF_BAG: usize = 2_000;
/// The most pleats or tucks in one row.
pub const PLEATS: usize = 200;
/// The most darts, and folds of pleats and tucks, in one piece.
pub const PLEATS_OF_PIECE: usize = 400;
/// The most outlines that the live view shows at once: of more it shows the first ones, and then the next.
pub const OUTLINES_SHOWN: usize = 1_500;
/// The most messages that the live view shows at once: of more the rest are counted.
pub const MESSAGES_SHOWN: usize = 200;
/// How often a piece may be cut.
pub const COPIES: u32 = 1_000;
/// The largest drawing that is brought in, in bytes.
pub const DRAWING_BYTES: usize = 32 * 1024 * 1024;
/// The most paths in one drawing.
pub const DRAWING_PATHS: usize = 20_000;
/// The most points in all paths of one drawing.
pub const DRAWING_POINTS: usize = 1_000_000;
/// The most entities in one DXF drawing: lines, words, the vertices that some of them have, and what is left out.
pub const DRAWING_ENTITIES: usize = 2_000_000;
/// The most pieces in one drawing.
pub const DRAWING_PIECES: usize = 500;
/// How deep blocks of a drawing may stand in one another.
pub const DRAWING_DEPTH: usize = 16;
