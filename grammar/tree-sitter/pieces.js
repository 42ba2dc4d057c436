// Pieces, and how they are altered.

const { block, comma, listed } = require("./shared");

module.exports = {
  piece: $ =>
    seq(optional("block"), "piece", $.name, optional($.text), optional(seq("like", $.name)), $._piece_block),
  _piece_block: $ => block($, $._piecefact),
  _piecefact: $ =>
    choice(
      $.point, $.mark, $.cut, $.outline, $.line, $.notch, $.divide, $.dart, $.pleat, $.tuck, $.slit, $.folded,
      $.grain,
      $.allowance, $.corner, $.move_point, $.left_out, $.never_flipped, $.drawn,
    ),
  cut: $ => seq("cut", $.value, optional(choice(seq("on", "fold", $.name), "mirrored")), optional("loose")),
  point: $ => seq("point", $.name, "=", $.value),
  mark: $ => seq("mark", $.name, optional($.text), "=", $.value),
  line: $ => seq("line", $.name, optional($.text), $._line_run),
  _line_run: $ =>
    seq(
      choice(
        seq(choice("across", "along"), "at", $.value),
        seq("from", $.value, "to", $.value, optional($.path)),
      ),
      optional("adjust"),
    ),
  notch: $ => seq("notch", $.name, $.place_on, optional("double")),
  divide: $ => seq("divide", $.name, $.place_on, "into", $.name, comma($), $.name),
  folded: $ => seq("folded", $.name, "to", $.name, optional(seq("in", "four"))),
  grain: $ => seq("grain", choice(seq("along", $.name), "up", "across", "bias")),
  corner: $ => seq("corner", $.name, "/", $.name, choice("square", "mitred", "blunt")),
  move_point: $ => seq("move", "point", $.name, "by", $.value),
  left_out: $ => seq("without", listed($, $.without)),
  without: $ =>
    choice(
      seq("notch", $.name, optional($.place_on)),
      seq("corner", $.name, "/", $.name),
      $.name,
      alias(choice("notch", "corner"), $.name),
    ),
  never_flipped: _ => seq("never", "flipped"),
  drawn: _ => seq("drawn", choice("left", "right")),
  outline: $ => seq("outline", choice($.walk, $.rectangle, $.strip, $.copy, $.rest, $.parts)),
  rectangle: $ => seq("rectangle", $.value, "by", $.value),
  strip: $ =>
    seq("strip", "of", $.qname, "along", listed($, $.strip_edge), "width", $.value, optional("mirrored")),
  strip_edge: $ => seq($.name, optional($.run)),
  copy: $ => seq("copy", "of", $.qname, optional("mirrored")),
  rest: $ => seq("rest", "of", $.qname, "without", $.qname, optional("mirrored")),
  walk: $ => seq("from", $.name, optional("cutting"), block($, $.edge)),
  parts: $ => block($, $.edge),
  edge: $ =>
    seq(
      $.name,
      choice(
        seq(optional($.text), "to", $.name, optional($.path)),
        seq("dart", "about", $.expr, "to", $.name, $._dart_ways),
      ),
    ),
  path: $ =>
    choice(
      "straight",
      seq("arc", "about", $.expr, choice("clockwise", "anticlockwise")),
      seq(
        "curve", optional(seq("leaving", $.direction)), optional(seq("arriving", $.direction)),
        optional(seq("through", listed($, $.expr))),
      ),
      seq("handles", $.expr, comma($), $.expr),
    ),
  direction: $ =>
    choice(
      seq("square", "to", $.name), seq("along", $.name), seq("toward", $.expr), "up", "down", "left", "right",
      $.expr,
    ),

  dart: $ => seq("dart", $.name, $._dart_cloth),
  _dart_cloth: $ =>
    choice(
      seq("on", $.name, $.edge_place, "width", $.value, "to", $.expr, $._dart_ways),
      seq("at", $.value, "width", $.value, "up", $.value, "down", $.value, $._dart_ways),
    ),
  pleat: $ => seq("pleat", $.name, $._pleat_ways),
  tuck: $ => seq("tuck", $.name, $._pleat_ways),
  _pleat_kind: $ =>
    choice(
      seq(choice("box", "inverted"), optional(seq($.expr, "wide")), optional($._pleat_row)),
      $._pleat_row,
    ),
  _pleat_row: $ => seq("count", $.value, "apart", $.value),
  _pleat_ways: $ =>
    seq(
      "on", $.name, choice($._at_fold, $.edge_place), "depth", $.value, optional($._pleat_kind),
      optional(seq("toward", $.name)), optional(seq("to", $.name)),
      optional(seq("stitched", "down", $.value)),
      optional(seq("along", $.name)), optional("trued"),
    ),
  at_fold: _ => seq("at", "the", "fold"),
  _at_fold: $ => $.at_fold,
  place_on: $ => choice($._counted_place, $._some_place),
  edge_place: $ => choice($._some_place, $._counted_place),
  _some_place: $ => choice(seq("in", "the", "middle"), seq("at", $.value, optional(seq("from", $.qname)))),
  _counted_place: $ => seq($.value, "from", $.qname),
  slit: $ =>
    seq(
      "slit", $.name,
      choice(
        seq("on", $.name, choice($._at_fold, $.edge_place), $.slit_end),
        seq("from", $.expr, "to", $.expr),
      ),
      optional(seq("window", $.value)),
    ),
  slit_end: $ => choice(seq(choice("up", "down", "left", "right"), $.value), seq("to", $.expr)),
  _dart_ways: $ =>
    seq(
      optional(seq("stopping", $.expr, "short")), $._pressed, optional("trued"),
    ),
  _pressed: $ => choice(seq("pressed", $.pressed_to), seq("cut", "open")),
  pressed_to: $ => choice(seq("toward", $.name), "up", "down", "left", "right"),

  // ---------- alterations ----------
  _alteration: $ =>
    choice(
      $.unfold, $.unpair, $.lengthen, $.cut_off, $.extend, $.let_dart, $.let_pleat, $.close_dart, $.open_fold,
      $.split,
      $.split_darts, $.join, $.redraw, $.flare, $.fold_out, $.spread, $.move_dart, $.leave_dart,
    ),
  lengthen: $ =>
    seq(choice("lengthen", "shorten"), $.qlist, "at", $.name, $.amount, optional(seq("keeping", $.qlist))),
  amount: $ =>
    choice(
      seq("by", "about", $.value, "until", $.name, "fits"),
      seq("by", $.value),
      seq("until", $.name, "fits"),
    ),
  cut_off: $ => seq("cut", "off", $.qlist, "at", $.name),
  extend: $ => seq(choice("extend", "trim"), $.qlist, "by", choice($.tapered, seq($.value, optional("stepped")))),
  tapered: $ => seq($.expr, "at", $.name, comma($), $.expr, "at", $.name),
  open_fold: $ => seq(choice("open", "close"), $.qlist, "at", $.name),
  unfold: $ => seq("unfold", $.qlist),
  unpair: $ => seq("unpair", $.qname, "into", $.name, comma($), $.name),
  split: $ => seq("split", $.qname, "at", $.name, "into", $.name, comma($), $.name),
  split_darts: $ =>
    seq(
      "split", $.qname, "from", $.name, optional(seq("through", listed($, $.expr))), "to", $.name,
      "into", $.name, comma($), $.name, "as", $.name, optional(seq("rounded", $.value)),
    ),
  join: $ => seq("join", $.qname, "to", $.qname, "at", $.name, "into", $.name),
  redraw: $ => seq("redraw", $.qname, $.path),
  flare: $ => seq("flare", $.qlist, "along", $.name, "by", $.value),
  fold_out: $ => seq("fold", "out", $.qlist, "along", $.name, "by", $.value),
  spread: $ => seq(choice("spread", "overlap"), $.qlist, "along", $.name, "by", $.value),
  move_dart: $ =>
    seq(
      "move", optional(seq($.expr, "of")), "dart", $.qname,
      choice(seq("to", $.name, $.edge_place), seq("into", optional("dart"), $.qname)),
      optional(seq("as", $.name)), optional($._moved_ways),
    ),
  _moved_ways: $ =>
    choice(
      seq("stopping", $.expr, "short", optional($._pressed), optional("trued")),
      seq($._pressed, optional("trued")),
      "trued",
    ),
  let_pleat: $ =>
    seq(
      "let", "pleat", $.name, "into", $.qname, choice($._at_fold, $.edge_place), "depth", $.value,
      optional($._pleat_kind), optional(seq("toward", $.name)), optional(seq("to", "nothing", "at", $.name)),
      optional(seq("stitched", "down", $.value)), optional(seq("along", $.name)), optional("trued"),
    ),
  let_dart: $ =>
    seq(
      "let", "dart", $.name, "into", $.qname, $.edge_place, "angle", $.value, "to", $.expr,
      "turning", "to", $.name, optional($.edge_place), $._dart_ways,
    ),
  leave_dart: $ => seq("leave", "dart", $.qname, "as", choice("ease", "gathers", "flare")),
  close_dart: $ => seq("close", "dart", $.qname),
};
