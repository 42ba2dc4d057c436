//! What is said of hems, bindings and casings: how much room they need, and how they fold.

use super::{Entry, mistake};

catalogue_entries! {
    HEM_UNDER = mistake(
        "hem/under",
        "more is turned under than the hem is deep",
        "The raw edge is folded in between hem and cloth, so it must be narrower than the hem: what is more \
         comes out again at the fold. The two amounts are easily said the wrong way round; the first is how \
         deep the finished hem is.",
    );
}
