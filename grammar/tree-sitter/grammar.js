// The grammar of Fustian for editors that take tree-sitter. `../fustian.pest` is the grammar of the program;
// rules have its names, so that a tree of the one can be laid beside a tree of the other, as
// `tests/editor-grammar` does.
//
// Keywords and marks are nodes without a name. What only damaged text needs has no rule here: tree-sitter has
// a recovery of its own.

const { bandWays, block, comma, DROPPED_KINDS, listed } = require("./shared");

module.exports = grammar({
  name: "fustian",

  extras: $ => [/[ \t\u00a0\u2009\u202f]/, $.comment],

  // Digits are told apart by what comes after them: `10/2` is one fraction, `10/2.5` a division, `34R` a size.
  externals: $ => [$._integer, $._decimal, $._fraction, $._size],

  word: $ => $._word,

  conflicts: $ => [
    // Whether a line end in brackets, an `at`, an `in` or a comma belongs to what stands before it.
    [$.gexpr], [$.each_in], [$.value], [$._steplist], [$.each],
    // `box count 3 wide` and `box count 3 apart 4`
    [$.quantity, $.counted], [$._called_count, $._pleat_row],
    // `front.side to back.side along left`
    [$.alongside, $.sewn],
  ],

  rules: {
    file: $ =>
      seq(repeat($._newline), optional(seq($._stmt, repeat(seq(repeat1($._newline), $._stmt)), repeat($._newline)))),

    _newline: _ => /\r\n|[\r\n]/,
    comment: _ => /#[^\r\n]*/,

    // ---------- words ----------
    _word: _ => /\p{L}[\p{L}\p{M}0-9_]*/,
    name: $ => $._word,
    qname: $ => seq($.name, repeat(seq(token.immediate("."), $.name))),
    own_dart: $ => seq($.name, token.immediate("."), $.name),
    qlist: $ => listed($, $.qname),
    use_of: $ => seq($.qname, optional($._on_side)),
    uses: $ => listed($, $.use_of),
    _on_side: _ => seq("on", choice("left", "right")),
    nlist: $ => listed($, $.name),
    text: $ => $._text,
    _text: _ => /"(\\[^\r\n]|[^"\\\r\n])*"/,
    sizename: $ => choice($._word, $._size, $._text),
    _graded_size: $ => choice($._word, $._size, $._integer, $._text),
    sizelist: $ => listed($, $.sizename),
    stitchword: _ => /[\p{L}\p{M}0-9_]+(-[\p{L}\p{M}0-9_]+)*/,
    pin: _ => /[0-9a-fA-F]{8,64}/,

    // ---------- quantities ----------
    _integer: _ => /[0-9]+/,
    number: $ => choice($._integer, $._decimal, $._fraction),
    plain: $ => choice($._integer, $._decimal),
    unit: _ => token.immediate(prec(1, choice("mm", "cm", "m", "in", "ft", "yd", "deg", '"', "″", "°", "%"))),
    unitword: _ => token(choice("mm", "cm", "m", "in", "ft", "yd")),
    whole: $ => $._integer,
    quantity: $ => seq($.number, optional($.unit)),
    divisor: $ => seq($.plain, optional($.unit)),
    counted: $ => seq(choice("count", "number"), $.number),
    _measured: $ => choice($.quantity, $.counted),

    expr: $ => seq($._operand, repeat($._operation)),
    _operation: $ => choice(seq($._addop, $._operand), seq("/", $._divided), seq("*", $._operand)),
    _operand: $ =>
      seq(
        optional($._sign),
        choice($._measured, $.call, $.qname, alias($._called_count, $.qname), $.group),
      ),
    _divided: $ => seq(optional($._sign), choice($.divisor, $.call, $.qname, $.group)),
    _called_count: $ => seq(alias(choice("count", "number"), $.name), repeat(seq(token.immediate("."), $.name))),
    _addop: _ => choice("+", "-"),
    _sign: _ => choice("+", "-"),
    group: $ =>
      seq(
        "(", repeat($._newline), $.gvalue, optional(seq(repeat($._newline), comma($), $.gexpr)),
        repeat($._newline), ")",
      ),
    call: $ =>
      seq(
        $.function, token.immediate("("), repeat($._newline), $.gexpr,
        repeat(seq(repeat($._newline), comma($), $.gexpr)), repeat($._newline), ")",
      ),
    function: $ => $._word,
    gexpr: $ => seq($._operand, repeat($._operation_in)),
    _operation_in: $ =>
      seq(
        repeat($._newline),
        choice(
          seq($._addop, repeat($._newline), $._operand),
          seq("/", repeat($._newline), $._divided),
          seq("*", repeat($._newline), $._operand),
        ),
      ),
    gvalue: $ => choice($.each_in, seq($.gexpr, optional(choice($.graded, $.everysize)))),
    each_in: $ => seq("each", repeat($._newline), $.gexpr, repeat(seq(repeat($._newline), comma($), $.gexpr))),
    value: $ => choice($.each, seq($.expr, optional(choice($.graded, $.everysize)))),
    each: $ => seq("each", listed($, $.expr)),
    graded: $ => seq(optional(seq("at", alias($._graded_size, $.sizename))), "grade", $._steplist),
    everysize: _ => seq("in", "every", "size"),
    _steplist: $ => listed($, $.step),
    step: $ => choice(seq($._sign, $._measured), $.zero),
    zero: $ => $._integer,
    _relation: _ => choice(">=", "<=", "!=", ">", "<", "="),
    cond: $ => seq($.expr, $._relation, $.value),

    // ---------- statements ----------
    _stmt: $ =>
      choice(
        $.in_band, $.in_seam, $.replace_dart, $.replace_step, $.replace_altered, $.replace, $.set, $.drop,
        $.add_to_layer,
        $.add_steps, $.add_to_piece, $._plain_stmt,
      ),
    _plain_stmt: $ =>
      choice(
        $.let, $.piece, $.placket, $.band, $.facing, $.seam, $.finish, $.place, $.closure, $.fabric, $.layer,
        $._header, $.sizes, $.body, $.pick, $.measure, $.require, $.notion, $.opening, $.cord, $.strap,
        $.stitched_row,
        $.tack, $.setting, $.steps, $._alteration,
      ),
    _header: $ =>
      choice(
        $.garment, $.variation, $.fitting, $.library, $.use, $.units, $.allowance, $.tolerance, $.stitch, $.wearer,
        $.about, $.credit,
      ),
    garment: $ => seq("garment", $.text),
    variation: $ =>
      seq(
        "variation", $.text, "of", $.named_file, optional(seq("with", listed($, $.named_file))),
        optional(seq("without", listed($, $.text))),
      ),
    fitting: $ => seq("fitting", $.text, "of", $.named_file, block($, $.fitted)),
    fitted: $ => seq("body", block($, $.fitted_row)),
    fitted_row: $ =>
      choice(
        seq("the", "rest", $._from_sizes, optional($.text)),
        seq($.name, choice($._from_sizes, $.quantity), optional($.text)),
      ),
    _from_sizes: $ => choice(seq("as", $.sizename), seq("between", "sizes")),
    named_file: $ => seq($.text, optional(seq("as", "of", $.pin))),
    library: $ => seq("library", $.text),
    use: $ => seq("use", $.named_file),
    about: $ => seq("about", $.text),
    credit: $ =>
      choice(
        seq(choice("maker", "licence"), $.text),
        seq("edition", $.whole),
        seq("level", choice("easy", "medium", "hard")),
      ),
    units: $ => seq("units", $.unitword),
    allowance: $ => seq("allowance", $.value),
    tolerance: $ => seq("tolerance", $.value),
    wearer: $ =>
      seq(
        "wearer",
        choice("adult", "baby", seq("child", "from", $.expr, "to", $.expr, choice("years", "months"))),
        optional(seq(",", "for", "sleep")),
      ),

    replace: $ => seq("replace", $._plain_stmt),
    replace_altered: $ => seq("replace", $._alteration, "of", $.text),
    replace_dart: $ =>
      seq(
        "replace",
        choice(
          seq("dart", $.own_dart, $._dart_cloth),
          seq(choice("pleat", "tuck"), $.own_dart, $._pleat_ways),
          seq("line", $.own_dart, optional($.text), $._line_run),
          seq(choice("point", "mark"), $.own_dart, optional($.text), "=", $.value),
        ),
      ),
    replace_step: $ => seq("replace", "step", $.stepgroup),
    set: $ => seq("set", $.name, "=", $.value, optional($.text)),
    drop: $ =>
      seq(
        "drop",
        choice(
          seq($.altered, optional(seq("of", $.text))),
          $.of_piece,
          $._dropped,
          seq(
            choice($.qname, seq("piece", $.qname), alias($._named_as_a_kind, $.qname)),
            optional(seq("and", "all", "sewn", "to", "it")),
          ),
        ),
      ),
    _dropped: $ =>
      choice(
        seq("place", $.qname, "on", $.use_of),
        seq("finish", $.sewn),
        seq(choice("require", "notion", "step"), $.text),
        seq(
          choice(
            "seam", "closure", "layer", "fabric", "let", "measure", "opening", "cord", "strap", "topstitch",
            "understitch",
            "tack", "set", "dart", "pleat", "tuck", "placket", "band", "facing",
          ),
          $.qname,
        ),
        seq("body", $.name),
        seq("pick", "size"),
        "allowance", "tolerance", "stitch", "wearer", "about", "maker", "edition", "licence", "level", "steps",
      ),
    // `drop strap`: a piece of that name, as no name follows.
    _named_as_a_kind: $ =>
      seq(choice(...DROPPED_KINDS.map(kind => alias(kind, $.name))), repeat(seq(token.immediate("."), $.name))),
    altered: $ => choice($._altered_dart, $._altered_let, $._altered_piece),
    _altered_let: $ => seq("let", choice("dart", "pleat"), $.name, "into", $.qname),
    _altered_dart: $ => seq(choice("move", "leave", "close"), "dart", $.qname),
    _altered_piece: $ =>
      choice(
        seq(choice("lengthen", "shorten", seq("cut", "off"), "open", "close"), $.qlist, "at", $.name),
        seq(choice("flare", seq("fold", "out"), "spread", "overlap"), $.qlist, "along", $.name),
        seq(choice("extend", "trim", "unfold", "unpair", "redraw"), $.qlist),
        seq("split", $.qname, choice(seq("at", $.name), seq("from", $.name, "to", $.name))),
        seq("join", $.qname, "to", $.qname, "at", $.name),
      ),
    of_piece: $ =>
      choice(
        seq(choice("point", "mark", "line", "slit", "divide", seq("move", "point")), $.own_dart),
        seq("notch", $.own_dart, optional($.place_on)),
        seq("corner", $.own_dart, "/", $.name),
        seq(
          choice("cut", "outline", "folded", "grain", "allowance", "drawn", "without", seq("never", "flipped")),
          $.name,
        ),
      ),
    add_to_layer: $ => seq("add", $.nlist, "to", "layer", $.name),
    add_steps: $ => seq("in", "steps", choice("after", "before"), $.text, "add", $.stepgroup),
    in_band: $ =>
      seq(
        "in", "band", $.nlist, optional(seq($.value, "deep")),
        optional(seq(choice("round", "along"), $.band_edges)),
        bandWays($),
      ),
    in_seam: $ => seq("in", "seam", $.name, choice("add", "replace"), $._seam_block),
    add_to_piece: $ => seq("in", "piece", $.name, choice("add", "replace"), $._piece_block),

    sizes: $ => seq("sizes", $.sizelist),
    body: $ => seq("body", block($, $.row)),
    row: $ => seq($.name, listed($, $.quantity), optional(choice($.graded, $.everysize)), optional($.text)),
    pick: $ => seq("pick", "size", "by", optional(seq("larger", "of")), $.nlist),
    let: $ =>
      seq(
        "let", choice($.name, alias(choice("dart", "pleat"), $.name)), choice($.solved, seq("=", $.value)),
        optional($.text),
      ),
    solved: $ => seq("between", $.value, "and", $.value, "so", "that", $.cond),
    measure: $ => seq("measure", $.name, $.text, optional(seq("against", $.name)), "=", $.value),
    require: $ => seq("require", $.cond, $.text),

    fabric: $ => seq("fabric", $.name, optional($.text), block($, $._fabricfact)),
    _fabricfact: $ =>
      choice(
        $.width, $.selvage, $.stretch, $.shrink, $.repeat, $.nap, $.thickness, $.priced, $.kind, $.surface,
      ),
    width: $ => seq("width", $.value, optional("tubular")),
    selvage: $ => seq("selvage", $.value),
    stretch: $ => seq("stretch", $.directed, optional(seq(comma($), $.directed))),
    shrink: $ => seq("shrink", $.directed, optional(seq(comma($), $.directed))),
    repeat: $ => seq("repeat", $.directed, optional(seq(comma($), $.directed))),
    directed: $ => seq($.value, choice("along", "across")),
    nap: _ => seq("nap", choice("one-way", "none")),
    thickness: $ => seq("thickness", $.value),
    priced: $ => seq("price", $.price),
    _notion_price: $ => seq("price", $.price),
    price: $ => seq($.plain, optional($.name), choice(seq("per", $.unitword), "each")),
    kind: _ => seq("kind", choice(seq("woven", optional(choice("firm", "supple"))), "knit", "leather")),
    surface: _ => seq("surface", choice("raised", "smooth")),
    layer: $ =>
      seq(
        "layer", $.name, "in", $.name,
        optional(seq("fused", optional($.fused_share), optional(seq("to", $.name)))),
        "{", repeat($._newline), $.name, repeat(seq(repeat($._newline), comma($), $.name)), repeat($._newline),
        "}",
      ),
    fused_share: $ => seq($.whole, "of", $.whole),
    notion: $ => seq("notion", $.text, optional(choice($._notion_price, seq($.value, optional($._notion_price))))),

    ...require("./pieces"),
    ...require("./sewing"),
  },
});
