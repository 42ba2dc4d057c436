; What is what, for colours. No node is named by two patterns, so that it is all the same which of them an editor lets win.

(comment) @comment
(text) @string

[(number) (plain) (whole) (joint) (zero) (pin)] @number
(unit) @number
(unitword) @type.builtin
(sizename) @constant
(stitchword) @constant
(function) @function.builtin

; ---------- names that are given here ----------
(piece "piece" . (name) @function)
(seam "seam" . (name) @function)
(closure "closure" . (name) @function)
(placket "placket" . (name) @function)
(band "band" . (name) @function)
(facing "facing" . (name) @function)
(cord "cord" . (name) @function)
(strap "strap" . (name) @function)
(tack "tack" . (name) @function)
(setting "set" . (name) @function)
(stitched_row ["topstitch" "understitch"] . (name) @function)
(fabric "fabric" . (name) @type)
(layer "layer" . (name) @type)
(let "let" . (name) @variable)
(set "set" . (name) @variable)
(measure "measure" . (name) @variable)
(let_dart "dart" . (name) @label)
(let_pleat "pleat" . (name) @label)
(point "point" . (name) @label)
(mark "mark" . (name) @label)
(line "line" . (name) @label)
(notch "notch" . (name) @label)
(divide "divide" . (name) @label)
(dart "dart" . (name) @label)
(pleat "pleat" . (name) @label)
(tuck "tuck" . (name) @label)
(slit "slit" . (name) @label)
(edge . (name) @property)
(row . (name) @property)
(fitted_row . (name) @property)

; ---------- names that are given elsewhere ----------
((qname . (name) @variable) (#not-eq? @variable "pi"))
((qname . (name) @constant.builtin) (#eq? @constant.builtin "pi"))
(qname (name) . (name) @property)
(own_dart . (name) @variable)
(own_dart (name) . (name) @property)
(nlist (name) @variable)

; ---------- words and marks ----------
["+" "-" "*" "/" "=" "!=" "<" ">" "<=" ">=" ".."] @operator
["," ";" "."] @punctuation.delimiter
["(" ")" "{" "}"] @punctuation.bracket

[
  "a" "about" "above" "across" "add" "adjust" "adult" "after" "against" "all" "allowance" "along" "and" "angle"
  "anticlockwise" "apart" "arc" "arriving" "as" "at" "baby" "band" "bar" "baste" "before" "behind" "below" "between"
  "bias" "block" "blunt" "body" "bound" "box" "boxed" "buckle" "buttons" "by" "casing" "caught" "child" "clear"
  "clockwise" "close" "closed" "closure" "cloth" "concealed" "copy" "cord" "corner" "count" "curve" "cut" "cutting"
  "dart" "deep" "depth" "divide" "double" "down" "drawn" "drop" "each" "ease" "easing" "easy" "edges" "edition"
  "elastic" "enclosing" "end" "ends" "every" "extend" "fabric" "facing" "felled" "finish" "firm" "fits" "fitting"
  "flare" "flipped" "fold" "folded" "for" "four" "free" "french" "from" "fuse" "fused" "gap" "garment" "gathering"
  "gathers" "grade" "grain" "handles" "hard" "hem" "hooks" "in" "inside" "into" "inverted" "it" "join" "joined"
  "keeping" "kind" "knit" "lapped" "larger" "layer" "leather" "leave" "leaving" "left" "lengthen" "let" "level"
  "library" "licence" "like" "line" "looping" "loose" "maker" "mark" "matching" "measure" "medium" "middle" "mirrored"
  "mitred" "months" "move" "nap" "neatened" "never" "none" "notch" "note" "nothing" "notion" "number" "of" "off" "on"
  "one-way" "onto" "open" "opening" "out" "outline" "over" "overlap" "overlocked" "passes" "per" "pick" "piece"
  "place" "placket" "pleat" "point" "press" "pressed" "price" "quarters" "raised" "raw" "rectangle" "redraw" "repeat"
  "replace" "require" "rest" "right" "ring" "round" "rounded" "rows" "running" "seam" "selvage" "separating" "set"
  "sew" "sewn" "short" "shorten" "showing" "shrink" "size" "sizes" "sleep" "slipstitch" "slit" "smooth" "snaps" "so"
  "split" "spread" "square" "stand" "start" "step" "stepped" "steps" "stiffened" "stitch" "stitched" "stocked"
  "stopping" "straight" "strap" "stretch" "stretching" "strip" "supple" "surface" "tack" "tape" "that" "the"
  "thickness" "thirds" "thread" "through" "ties" "to" "toggles" "tolerance" "topstitch" "topstitched" "toward" "trim"
  "trued" "tubular" "tuck" "turn" "turn-up" "turned" "turning" "twice" "two-part" "under" "underlap" "understitch"
  "understitched" "unfold" "units" "unpair" "until" "up" "use" "variation" "wearer" "wide" "width" "window" "with"
  "without" "woven" "years" "zipper"
] @keyword
