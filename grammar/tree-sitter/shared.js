// What many rules are made of.

// A list goes on in the next line where a line ends in a comma.
const comma = $ => seq(",", repeat($._newline));
const listed = ($, item) => seq(item, repeat(seq(comma($), item)));
const separator = $ => choice($._newline, ";");
const block = ($, item) =>
  seq(
    "{", repeat(separator($)),
    optional(seq(item, repeat(seq(repeat1(separator($)), item)), repeat(separator($)))), "}",
  );
const bandWays = $ =>
  seq(
    optional(seq("inside", $.band_edges)), optional(seq("at", $.value)), optional(seq("joined", "at", $.qname)),
    optional(seq("opening", "at", $.qname)),
    optional(seq("underlap", $.value, "at", choice("left", "right", $.name))),
    optional(seq("stiffened", $.name)), optional($._seam_block),
  );
const stitching = $ => seq("{", repeat($._newline), $.stitch, repeat($._newline), "}");

// What `drop` may say of what it drops, and what a piece may be called all the same.
const DROPPED_KINDS = [
  "place", "require", "notion", "step", "seam", "closure", "finish", "layer", "fabric", "let", "measure",
  "opening", "cord", "strap", "topstitch", "understitch", "tack", "set", "dart", "pleat", "tuck", "placket",
  "band", "facing", "point", "mark", "line", "notch", "slit", "divide", "corner", "cut", "outline",
  "folded", "grain", "drawn", "without", "never", "move", "leave", "close", "open", "lengthen", "shorten",
  "flare", "fold", "spread", "overlap", "extend", "trim", "unfold", "unpair", "redraw", "split", "join",
  "piece", "body", "pick",
];

module.exports = { bandWays, block, comma, DROPPED_KINDS, listed, stitching };
