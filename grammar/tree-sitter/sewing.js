// How pieces are sewn together, and in which order.

const { bandWays, block, comma, listed, stitching } = require("./shared");

module.exports = {
  seam: $ =>
    seq(
      "seam", $.name, optional($.text),
      choice(
        $.across_fold,
        seq(
          choice($.alongside, seq($.side, "to", $.side)), optional($.fit),
          optional(seq("enclosing", $.nlist)),
          optional($._on_side),
        ),
      ),
      optional($._seam_block),
    ),
  across_fold: $ => seq($.qlist, "across", "the", "fold"),
  alongside: $ => prec(1, seq($.qname, "to", $.qname, "along", $.name, repeat(seq($._addplus, $.name)))),
  _seam_block: $ => block($, $._seamfact),
  side: $ => seq($.round, repeat(seq("and", $.round))),
  round: $ => seq($.seam_chain, optional($._in_ring)),
  chain: $ => seq($.sewn, repeat(seq($._addplus, $.sewn))),
  seam_chain: $ => seq($._link, repeat(seq($._addplus, $._link))),
  _link: $ => choice($.sewn, $.stacked),
  stacked: $ => seq("(", $.sewn, repeat1(seq("and", $.sewn)), ")"),
  // A `+` behind an edge goes on to the next one; a side is the edge's own, and not that of the whole seam.
  sewn: $ =>
    choice(
      prec(2, seq($.qname, $._on_side)),
      prec(1, $.qname),
      prec.right(seq($.qname, $.run, optional($._on_side))),
    ),
  run: $ => seq($.value, optional(seq("..", $.value)), "from", $.qname),
  sewns: $ => listed($, seq($.sewn, optional($._in_ring))),
  _in_ring: _ => seq("in", "a", "ring"),
  _addplus: _ => "+",
  fit: $ =>
    seq(
      choice("easing", "gathering", "stretching"), $.value, optional(seq("..", $.value)),
      optional(seq("between", $.sewn_place, "and", $.sewn_place)),
    ),
  sewn_place: $ => seq($.qname, optional($.edge_place)),
  _seamfact: $ =>
    choice(
      $.allowance, $.stitch, $.seam_tape, $.seam_notch, $.gap, $.matching, $.seam_kind, $.caught_ply,
    ),
  caught_ply: $ => seq("caught", $.qname, "on", $.qname, $.edge_place),
  seam_kind: $ =>
    choice(
      seq(choice("felled", "lapped", "topstitched"), $.value, "over", $.qname),
      seq("french", $.value),
      seq("edges", "bound", $.value),
    ),
  seam_tape: $ => seq("tape", optional($.value)),
  stitch: $ => seq("stitch", $.stitchword),
  seam_notch: $ =>
    seq("notch", choice($.place_on, "quarters", "thirds", seq("every", $.value)), optional("double")),
  gap: $ =>
    seq(
      "leaving", "gap",
      choice(
        seq($.value, optional(seq(optional(seq("..", $.value)), choice($.gap_middle, $.gap_from)))),
        $.gap_middle,
        $.gap_from,
      ),
      optional(seq("in", $.name)), optional(seq(comma($), choice("left", "right"))),
    ),
  gap_from: $ => seq(choice("from", "at"), $.qname, optional(seq("along", $.qname))),
  gap_middle: $ => seq("in", "the", "middle", optional(seq("along", $.qname))),
  matching: $ => seq("matching", $.qname, "with", $.qname),
  finish: $ => seq("finish", $.sewns, $.finishing, optional($._on_side), optional(stitching($))),
  finishing: $ =>
    choice(
      seq(
        "hem", $.value, optional(choice(seq("turned", "under", $.value), "twice")),
        optional(seq("turn-up", $.value)),
      ),
      seq(
        "bound", $.value, optional(seq("stretch", $.value)), optional(seq("cut", "from", $.name)),
        optional($.running_on),
        repeat($.looping),
      ),
      seq("casing", $.value, optional(seq("for", "elastic", $.value, "of", $.value))),
      seq("elastic", $.value, "of", $.value),
      seq("tape", optional($.value)),
      seq("turned", "under", "onto", $.name),
      "overlocked",
      "raw",
    ),
  running_on: $ =>
    seq(
      "running", "on", $.value, "at", choice("start", "end"),
      optional(seq(comma($), $.value, "at", choice("start", "end"))),
    ),
  looping: $ => seq("looping", $.value, "at", $.sewn_place),
  place: $ => seq("place", $.qname, "on", $.use_of, block($, $._placefact)),
  _placefact: $ => choice($.corner_at, $.topstitch, $.caught),
  corner_at: $ => seq("corner", $.name, choice(seq("at", $.name), seq("on", $.name, $.edge_place))),
  topstitch: $ => seq("topstitch", choice(seq("all", "round"), $.nlist)),
  caught: $ => seq("caught", $.nlist, "in", $.name),
  closure: $ =>
    seq("closure", $.name, $.ring_chain, "to", $.ring_chain, optional($.end_to_end), block($, $._closurefact)),
  end_to_end: _ => seq("from", "end", "to", "end"),
  _closurefact: $ => choice($.zipper, $.fasteners),
  zipper: $ =>
    seq(
      "zipper", choice("separating", "closed", "concealed"),
      choice(seq("stocked", listed($, $.expr)), $.value), optional(seq("showing", $.value)),
      optional(seq("clear", "of", "cloth", $.value)),
    ),
  fasteners: $ =>
    seq(
      choice(
        seq(choice("buttons", "snaps", "toggles"), $.value, "of", $.value),
        seq(choice("hooks", "buckle"), $.value),
        seq("ties", optional(seq($.value, "of", $.value))),
      ),
      optional(seq("from", $.anchor, "to", $.anchor)), optional(seq("stand", $.value)), optional($._lapping),
    ),
  _lapping: _ => choice(seq("left", "over", "right"), seq("right", "over", "left")),
  anchor: $ => choice(seq($.value, choice("below", "above"), $.name), $.place_on),
  opening: $ => seq("opening", $.ring_chain, "passes", $.name),
  ring_chain: $ => seq($.chain, optional($._in_ring)),
  placket: $ =>
    seq(
      "placket", $.name, "on", $.qname,
      choice(
        seq("bound", $.value),
        seq("two-part", "over", $.value, "under", $.value, optional($._lapping)),
      ),
    ),
  band: $ =>
    seq(
      "band", $.name, optional($.text), "in", $.name, $.value, "deep", optional("folded"),
      optional(seq("grain", "across")), choice("round", "along"), $.band_edges, bandWays($),
    ),
  band_edges: $ => seq($.qname, repeat(seq($._addplus, $.qname)), optional($._in_ring)),
  facing: $ =>
    seq(
      "facing", $.name, optional($.text), "in", $.name, $.value, "wide", "behind", $.faced_edges,
      optional(seq("stiffened", $.name)), optional("understitched"), optional($.neatened),
      optional($._seam_block),
    ),
  faced_edges: $ => seq($.sewn, repeat(seq($._addplus, $.sewn))),
  neatened: $ => seq("neatened", $.finishing),
  cord: $ => seq("cord", $.name, $.value, "through", $.uses, optional(seq("ends", $.value, "free"))),
  stitched_row: $ =>
    seq(
      choice("topstitch", "understitch"), $.name,
      choice(
        seq("along", $.sewns),
        seq($.value, "from", $.sewns, optional(seq("rows", $.value, "apart", $.value))),
      ),
      optional($._on_side), optional(stitching($)),
    ),
  tack: $ => seq("tack", $.name, $.tack_place, optional(seq("to", $.tack_place)), optional(seq("bar", $.value))),
  setting: $ => seq("set", $.name, $.text, "at", listed($, $.tack_place)),
  tack_place: $ => seq($.qname, optional($._on_side), optional($._on_edge)),
  _on_edge: $ => seq(choice($._at_fold, $.edge_place), optional($._on_side)),
  strap: $ =>
    seq(
      "strap", $.name, optional($.text), $.value, "by", $.value, "in", $.name,
      optional(seq("folded", "in", "four")),
      block($, $._strapfact),
    ),
  _strapfact: $ => choice($.strap_run, $.strap_sewn),
  strap_run: $ => seq("from", $.strap_end, "to", choice("free", $.strap_end)),
  strap_end: $ => seq($.qname, optional($._on_side), optional($._on_edge), optional(seq("caught", "in", $.name))),
  // Behind `each 6, 8, boxed` nothing is called boxed.
  strap_sewn: $ => choice(seq("sewn", $.value), prec.dynamic(1, seq("sewn", $.value, comma($), "boxed"))),

  // ---------- steps ----------
  steps: $ => seq("steps", block($, $.stepgroup)),
  stepgroup: $ => seq($.text, block($, $.action)),
  action: $ =>
    choice(
      seq("note", $.text),
      seq(
        optional(seq("in", $.name)),
        choice(
          seq(choice(seq("turn", "through"), "slipstitch"), "gap", "in", $.qlist),
          seq(
            choice(
              "sew", "hem", "place", "baste", "finish", "fuse", "thread", "topstitch", "understitch", "tack",
              "set",
            ),
            $.step_targets,
          ),
          seq("press", optional($.step_targets)),
        ),
        optional($.text),
      ),
    ),
  step_targets: $ => listed($, $.step_target),
  step_target: $ => seq($.qname, optional($.joints)),
  joints: $ => seq($.joint, optional(seq("..", $.joint))),
  joint: $ => $._integer,
};
