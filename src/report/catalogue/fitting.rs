//! What is said of a fitting: one wearer among the sizes.

use super::{Entry, advice, mistake, warning};

catalogue_entries! {
    FITTING_MISSING = mistake(
        "fitting/missing",
        "a measure of the wearer is not given",
        "Every measure of the body that the garment is drawn from has to be known of its wearer. One that \
         was forgotten would come from some size or other, and show only when the garment is worn. Measure \
         it, take it from a size by name, or say for the rest as a whole which size they are taken from.",
    );
    FITTING_NO_RULE = mistake(
        "fitting/no-rule",
        "no measure says where the wearer lies among the sizes",
        "What has one value a size, such as the depth of a pocket, is found for a wearer by a place between \
         two sizes. The garment's own rule gives it: pick size by chest, or by larger of chest, hip. It has \
         to name rows of the body table, since nothing else of a wearer is measured.",
    );
    FITTING_FALLING = mistake(
        "fitting/falling",
        "the measure that picks a size grows smaller from one size to the next",
        "A wearer is placed between two sizes by a measure that grows with them. One that falls comes to \
         the same amount in two places, and each would give other pieces.",
    );
    FITTING_BEYOND = warning(
        "fitting/beyond",
        "the wearer is larger or smaller than every size",
        "Between two sizes a value can be found; beyond the last there is nothing to go by. What is drawn \
         from the measure itself follows the wearer, and what has one value a size stays that of the last \
         size, so that the two may no longer agree. A trial garment shows it, or one more size in the table.",
    );
    BODY_UNLIKELY = advice(
        "body/unlikely",
        "a measure that no body has",
        "A hip of 9 m or a waist of 2 cm is a slip of the unit or of the decimal point, and everything is drawn to it. The \
         bounds are wide, from less than a newborn child to more than size tables reach.",
    );
    WEARER_CHILD_SIZE = warning(
        "wearer/child-size",
        "a child's measures, and no child that wears it",
        "Cords, small parts and nightwear are hazards to children, and are told of only where a child is said to wear the \
         garment. Where the largest size is one of a child of seven, the line that says so is missing, or says something \
         else.",
    );
}
