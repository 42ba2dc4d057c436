"use strict";
// The live view: follows the program, draws what it tells, and lights what is pointed at. Nothing that comes is read as
// markup: elements are made, and words are put into them as words.
(() => {
  const SVG = "http://www.w3.org/2000/svg";
  const byId = (id) => document.getElementById(id);
  const root = document.documentElement;

  /** An element with attributes, properties of functions, and what is in it. */
  function fill(element, attributes, inside) {
    for (const [name, value] of Object.entries(attributes)) {
      if (typeof value === "function") element.addEventListener(name, value);
      else if (value === true) element.setAttribute(name, "");
      else if (value !== false && value !== null && value !== undefined) element.setAttribute(name, value);
    }
    element.append(...inside.filter((one) => one !== null && one !== undefined && one !== ""));
    return element;
  }
  const make = (tag, attributes = {}, ...inside) => fill(document.createElement(tag), attributes, inside);
  const shape = (tag, attributes = {}, ...inside) => fill(document.createElementNS(SVG, tag), attributes, inside);

  // What is chosen: kept while the text changes, and when the page is loaded anew.
  let choice = { view: "pieces", size: null, off: [], lines: ["cut", "sew", "inside"], edge: null, boxes: {}, from: 0 };
  let standing = null;
  let drawn = null;
  let edges = new Map();
  let hovered = null;

  const keep = () => {
    if (!standing) return;
    try { sessionStorage.setItem(`fustian ${standing.file}`, JSON.stringify(choice)); } catch { /* then it is not kept */ }
  };
  const recall = () => {
    try {
      const kept = JSON.parse(sessionStorage.getItem(`fustian ${standing.file}`) || "null");
      if (kept) choice = { ...choice, ...kept };
    } catch { /* nothing was kept */ }
  };

  // ---- A drawing that is zoomed and moved ----

  class Canvas {
    constructor(svg, tools, name) {
      this.svg = svg;
      this.name = name;
      this.whole = { x: 0, y: 0, w: 100, h: 100 };
      this.box = null;
      this.isWhole = true;
      this.held = new Map();
      this.zoomed = () => {};
      this.pointed = () => {};
      this.chosen = () => {};
      this.keyed = () => false;
      const button = (label, sign, act) => make("button", { type: "button", "aria-label": label === sign ? null : label, title: label, click: act }, sign);
      tools.append(
        button("Zoom in", "+", () => this.zoom(1 / 1.5)),
        button("Zoom out", "−", () => this.zoom(1.5)),
        button("Show all", "Show all", () => this.fit()),
      );
      svg.addEventListener("wheel", (event) => this.wheel(event), { passive: false });
      svg.addEventListener("pointerdown", (event) => this.down(event));
      svg.addEventListener("pointermove", (event) => this.move(event));
      svg.addEventListener("pointerup", (event) => this.up(event, true));
      svg.addEventListener("pointercancel", (event) => this.up(event, false));
      svg.addEventListener("pointerleave", (event) => { if (event.pointerType === "mouse") this.pointed(null); });
      svg.addEventListener("keydown", (event) => this.key(event));
      new ResizeObserver(() => this.resized()).observe(svg);
    }

    /** How wide and high the element is. */
    room() {
      const { width, height } = this.svg.getBoundingClientRect();
      return { width: Math.max(width, 1), height: Math.max(height, 1) };
    }
    /** Millimetres in a dot. */
    dot() { return this.box ? this.box.w / this.room().width : 1; }
    /** Shows what is so large; where something was looked at closely that stays as it was. */
    holds(width, height) {
      this.whole = { x: 0, y: 0, w: Math.max(width, 1), h: Math.max(height, 1) };
      if (this.isWhole || !this.box) this.fit(); else this.apply();
    }
    /** The whole of it, with a margin. */
    fit() {
      const { width, height } = this.room();
      // Below there is room for the buttons.
      const high = Math.max(height - 56, height / 2);
      const dot = Math.max(this.whole.w / (width * 0.92), this.whole.h / (high * 0.94));
      this.box = { x: this.whole.x + this.whole.w / 2 - (dot * width) / 2, y: this.whole.y + this.whole.h / 2 - (dot * high) / 2, w: dot * width, h: dot * height };
      this.isWhole = true;
      this.apply();
    }
    resized() {
      if (!this.box) return;
      if (this.isWhole) { this.fit(); return; }
      const { width, height } = this.room();
      const dot = this.box.w / (this.lastWidth || width);
      const [x, y] = [this.box.x + this.box.w / 2, this.box.y + this.box.h / 2];
      this.box = { x: x - (dot * width) / 2, y: y - (dot * height) / 2, w: dot * width, h: dot * height };
      this.apply();
    }
    apply() {
      const { x, y, w, h } = this.box;
      this.lastWidth = this.room().width;
      this.svg.setAttribute("viewBox", `${x} ${y} ${w} ${h}`);
      this.svg.style.setProperty("--px", String(this.dot()));
      this.zoomed(this.dot());
      choice.boxes[this.name] = this.isWhole ? null : this.box;
      keep();
    }
    /** From the element's dots to millimetres. */
    place(clientX, clientY) {
      const { left, top } = this.svg.getBoundingClientRect();
      const dot = this.dot();
      return [this.box.x + (clientX - left) * dot, this.box.y + (clientY - top) * dot];
    }
    zoom(factor, x = this.box.x + this.box.w / 2, y = this.box.y + this.box.h / 2) {
      const { width, height } = this.room();
      const widest = 3 * Math.max(this.whole.w, (this.whole.h * width) / height);
      const w = Math.min(Math.max(this.box.w * factor, 5), widest);
      const share = w / this.box.w;
      this.box = { x: x - (x - this.box.x) * share, y: y - (y - this.box.y) * share, w, h: (w * height) / width };
      this.isWhole = false;
      this.hold();
      this.apply();
    }
    pan(dx, dy) {
      this.box = { ...this.box, x: this.box.x - dx * this.dot(), y: this.box.y - dy * this.dot() };
      this.isWhole = false;
      this.hold();
      this.apply();
    }
    /** Something of the drawing stays in sight. */
    hold() {
      const { x, y, w, h } = this.whole;
      const [midX, midY] = [this.box.x + this.box.w / 2, this.box.y + this.box.h / 2];
      this.box.x += Math.min(Math.max(midX, x), x + w) - midX;
      this.box.y += Math.min(Math.max(midY, y), y + h) - midY;
    }
    /** Brings a rectangle into sight, if it is not. */
    reveal([x0, y0, x1, y1]) {
      const { x, y, w, h } = this.box;
      if (x0 >= x && x1 <= x + w && y0 >= y && y1 <= y + h) return;
      const { width, height } = this.room();
      const dot = Math.max(this.dot(), (x1 - x0) / (width * 0.8), (y1 - y0) / (height * 0.8));
      this.box = { x: (x0 + x1 - dot * width) / 2, y: (y0 + y1 - dot * height) / 2, w: dot * width, h: dot * height };
      this.isWhole = false;
      this.apply();
    }

    wheel(event) {
      event.preventDefault();
      if (!this.box) return;
      const lines = event.deltaMode === 1 ? 16 : event.deltaMode === 2 ? 160 : 1;
      const far = Math.min(Math.max(event.deltaY * lines, -240), 240);
      this.zoom(Math.exp(far / 400), ...this.place(event.clientX, event.clientY));
    }
    down(event) {
      if (event.button !== 0 || !this.box) return;
      this.svg.setPointerCapture(event.pointerId);
      this.held.set(event.pointerId, { x: event.clientX, y: event.clientY, from: [event.clientX, event.clientY], moved: false });
    }
    move(event) {
      const own = this.held.get(event.pointerId);
      if (!own) {
        if (event.pointerType === "mouse" && this.box) this.pointed(event);
        return;
      }
      const [dx, dy] = [event.clientX - own.x, event.clientY - own.y];
      if (!own.moved && Math.hypot(event.clientX - own.from[0], event.clientY - own.from[1]) < 5) return;
      own.moved = true;
      this.svg.classList.add("held");
      const other = [...this.held.entries()].find(([id]) => id !== event.pointerId);
      if (other) {
        const apart = (x, y) => Math.hypot(x - other[1].x, y - other[1].y);
        const [before, after] = [apart(own.x, own.y), apart(event.clientX, event.clientY)];
        other[1].moved = true;
        if (before > 0 && after > 0) this.zoom(before / after, ...this.place((event.clientX + other[1].x) / 2, (event.clientY + other[1].y) / 2));
        this.pan(dx / 2, dy / 2);
      } else {
        this.pan(dx, dy);
      }
      own.x = event.clientX;
      own.y = event.clientY;
    }
    up(event, isDone) {
      const own = this.held.get(event.pointerId);
      this.held.delete(event.pointerId);
      if (this.held.size === 0) this.svg.classList.remove("held");
      if (own && !own.moved && isDone) this.chosen(event);
    }
    key(event) {
      if (event.ctrlKey || event.metaKey || event.altKey || !this.box) return;
      const step = 60;
      const ways = { ArrowLeft: [step, 0], ArrowRight: [-step, 0], ArrowUp: [0, step], ArrowDown: [0, -step] };
      if (event.shiftKey && ways[event.key]) this.pan(...ways[event.key]);
      else if (event.key === "+" || event.key === "=") this.zoom(1 / 1.3);
      else if (event.key === "-" || event.key === "_") this.zoom(1.3);
      else if (event.key === "0") this.fit();
      else if (!this.keyed(event)) return;
      event.preventDefault();
    }
  }

  const [toolsOfPieces, toolsOfLay] = document.querySelectorAll(".tools");
  const pieces = new Canvas(byId("pieces-drawing"), toolsOfPieces, "pieces");
  const lay = new Canvas(byId("lay-drawing"), toolsOfLay, "lay");

  // ---- Shapes ----

  const bodyClass = (body) => (body >= 12 ? "large" : body >= 6 ? "middling" : "small");
  function element(one) {
    if (one.is === "surface") return shape("path", { d: one.path, class: `surface ${one.kind}` });
    if (one.is === "words") {
      const kind = `words ${bodyClass(one.body)}${one.bold ? " bold" : ""}${one.grey ? " grey" : ""}`;
      const turn = one.turn ? `rotate(${one.turn} ${one.x} ${one.y})` : null;
      const long = one.text.length > 1 && one.long > 0 ? one.long : null;
      return shape("text", { x: one.x, y: one.y, "font-size": one.body, class: kind, transform: turn, textLength: long, lengthAdjust: long && "spacingAndGlyphs", "data-size": one.size }, one.text);
    }
    const many = one.dashes ? ` of-size${one.width > 0.7 ? " heavy" : ""}` : "";
    const dashes = one.dashes ? one.dashes.map((dash) => Math.max(dash * 0.9, 0.1)).join(" ") : null;
    return shape("path", { d: one.path, class: `${one.kind}${many}`, "stroke-dasharray": dashes, "data-size": one.size });
  }

  /** So much of a long title as tells which it is. */
  const short = (words) => (words.length > 60 ? `${words.slice(0, 60)}…` : words);
  const lit = shape("g", { class: "lit", "aria-hidden": "true" });

  function drawPieces() {
    edges = new Map();
    const groups = drawn.pieces.map((piece) => {
      const [x, y, w, h] = piece.place;
      const group = shape("g", { "data-layer": piece.layer, "data-part": piece.part }, ...piece.shapes.map(element));
      group.append(shape("text", { class: "far", x: x + w / 2, y: y + h / 2 }, short(piece.title)));
      const words = piece.shapes.filter((one) => one.is === "words").map((one) => one.body);
      Object.assign(piece, { group, label: Math.max(0, ...words) });
      for (const edge of piece.edges) edges.set(edge.key, Object.assign(edge, { piece, bounds: boundsOf(edge.lines) }));
      return group;
    });
    const heads = drawn.heads.map((head) => {
      head.words = shape("text", { class: "head", x: head.x, y: head.y - 4 });
      return head.words;
    });
    pieces.svg.replaceChildren(...heads, ...groups, lit);
    pieces.holds(drawn.width, drawn.height);
    applyOff();
    drawKey();
    drawMore();
    fillPicks();
  }

  function boundsOf(lines) {
    let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
    for (const line of lines) {
      for (let at = 0; at + 1 < line.length; at += 2) {
        x0 = Math.min(x0, line[at]); x1 = Math.max(x1, line[at]);
        y0 = Math.min(y0, line[at + 1]); y1 = Math.max(y1, line[at + 1]);
      }
    }
    return [x0, y0, x1, y1];
  }

  pieces.zoomed = (dot) => {
    const words = [["large", 12, 9], ["middling", 6, 8], ["small", 3.4, 6.5]];
    pieces.svg.setAttribute("data-words", words.filter(([, body, least]) => body / dot >= least).map(([name]) => name).join(" "));
    for (const piece of drawn?.pieces || []) {
      const [, body, least] = words[piece.label >= 12 ? 0 : piece.label >= 6 ? 1 : 2];
      const shown = body / dot >= least;
      piece.group.classList.toggle("small-label", !shown);
      piece.group.classList.toggle("tiny", piece.place[2] / dot < 26 || piece.place[3] / dot < 16);
    }
    placeTags();
    // The cloth is named where there is room before the next layer begins.
    for (const head of drawn?.heads || []) {
      const next = drawn.heads.filter((other) => other.y === head.y && other.x > head.x).map((other) => other.x);
      const words = head.cloth ? `${head.layer}: ${head.cloth}` : head.layer;
      head.words.textContent = head.x + words.length * 8 * dot < Math.min(...next) ? words : head.layer;
    }
  };

  function drawKey() {
    const items = drawn.key.map((entry) => {
      const sample = shape("svg", { viewBox: `-1 -5 ${drawn.sample + 2} 10`, "aria-hidden": "true" }, ...entry.sample.map(element));
      return make("li", {}, sample, entry.words);
    });
    byId("key").replaceChildren(...items);
  }

  function drawMore() {
    const more = byId("more");
    more.hidden = drawn.count <= drawn.pieces.length;
    if (more.hidden) return;
    const until = drawn.from + drawn.pieces.length;
    const go = (from) => () => { choice.from = from; keep(); fetchPieces(); };
    const next = until < drawn.count ? until : 0;
    const button = make("button", { type: "button", click: go(next) }, next ? "Show the next" : "Show the first");
    more.replaceChildren(`Pieces ${drawn.from + 1} to ${until} of ${drawn.count}. `, button);
  }

  function applyOff() {
    for (const piece of drawn?.pieces || []) piece.group.classList.toggle("off", choice.off.includes(piece.layer));
    for (const line of ["cut", "sew", "inside"]) pieces.svg.classList.toggle(`no-${line}`, !choice.lines.includes(line));
  }

  // ---- Pointing at edges ----

  /** The nearest edge, no further than so many dots. */
  function nearest(event, most) {
    const [x, y] = pieces.place(event.clientX, event.clientY);
    let [best, least] = [null, most * pieces.dot()];
    for (const edge of edges.values()) {
      const [x0, y0, x1, y1] = edge.bounds;
      if (!edge.pointed || choice.off.includes(edge.piece.layer)) continue;
      if (x < x0 - least || x > x1 + least || y < y0 - least || y > y1 + least) continue;
      for (const line of edge.lines) {
        for (let at = 0; at + 3 < line.length; at += 2) {
          const far = apart(x, y, line[at], line[at + 1], line[at + 2], line[at + 3]);
          if (far < least) [best, least] = [edge, far];
        }
      }
    }
    return best;
  }
  function apart(x, y, ax, ay, bx, by) {
    const [dx, dy] = [bx - ax, by - ay];
    const long = dx * dx + dy * dy;
    const share = long > 0 ? Math.min(Math.max(((x - ax) * dx + (y - ay) * dy) / long, 0), 1) : 0;
    return Math.hypot(x - ax - share * dx, y - ay - share * dy);
  }

  let waits = null;
  pieces.pointed = (event) => {
    const ready = waits !== null;
    waits = event && { clientX: event.clientX, clientY: event.clientY };
    if (!event) { hover(null); waits = null; return; }
    if (ready) return;
    requestAnimationFrame(() => { if (waits) hover(nearest(waits, 14)); waits = null; });
  };
  pieces.chosen = (event) => choose(nearest(event, event.pointerType === "mouse" ? 14 : 28)?.key || null, true);
  pieces.keyed = (event) => {
    const chosen = edges.get(choice.edge);
    const seen = [...edges.values()].filter((edge) => edge.pointed && !choice.off.includes(edge.piece.layer));
    if (seen.length === 0) return false;
    const at = seen.indexOf(chosen);
    const step = { ArrowRight: 1, ArrowLeft: -1 }[event.key];
    if (step) {
      choose(at < 0 ? seen[0].key : seen[(at + step + seen.length) % seen.length].key, true);
    } else if (event.key === "ArrowDown" || event.key === "ArrowUp") {
      const parts = [...new Set(seen.map((edge) => edge.piece))];
      const now = parts.indexOf(chosen?.piece);
      const to = now < 0 ? 0 : (now + (event.key === "ArrowDown" ? 1 : -1) + parts.length) % parts.length;
      choose(seen.find((edge) => edge.piece === parts[to]).key, true);
    } else if (event.key === "Enter") {
      const mate = chosen?.mates?.find((key) => key !== chosen.key && edges.get(key)?.pointed);
      if (mate) choose(mate, true);
    } else if (event.key === "Escape") {
      choose(null, true);
    } else {
      return false;
    }
    return true;
  };

  function hover(edge) {
    const key = edge?.key || null;
    if (key === hovered) return;
    hovered = key;
    light();
    fetchFacts(false);
  }
  function choose(key, isSaid) {
    choice.edge = key && edges.has(key) ? key : null;
    hovered = null;
    keep();
    const edge = edges.get(choice.edge);
    if (edge) pieces.reveal(edge.bounds);
    light();
    showPick();
    fetchFacts(isSaid);
  }

  const titled = (key) => {
    const edge = edges.get(key);
    return edge ? `${short(edge.piece.title)}: ${edge.name}` : key;
  };
  function middle(line) {
    const at = 2 * Math.floor(line.length / 4);
    return line.length > 4 ? [line[at], line[at + 1]] : [(line[0] + line[2]) / 2, (line[1] + line[3]) / 2];
  }
  function light() {
    const own = edges.get(hovered || choice.edge);
    const mates = (own?.mates || []).filter((key) => key !== own.key).map((key) => edges.get(key)).filter(Boolean);
    const shown = own ? [...mates.map((edge) => [edge, "mate"]), [own, "own"]] : [];
    const seen = shown.filter(([edge]) => !choice.off.includes(edge.piece.layer));
    const lines = seen.flatMap(([edge, kind]) => edge.lines.map((line) => [`M${line[0]} ${line[1]}L${line.slice(2).join(" ")}`, kind, edge.key]));
    const tags = seen.map(([edge, kind]) => {
      const [x, y] = middle(edge.lines[Math.floor(edge.lines.length / 2)]);
      const words = edge.pointed ? edge.name : `${edge.name}, placed`;
      return shape("text", { class: `tag of-${kind}`, x, y, "data-x": x, "data-y": y }, words);
    });
    lit.classList.toggle("many", seen.some(([edge]) => edge.lines.length > 2));
    lit.replaceChildren(
      ...lines.map(([d]) => shape("path", { class: "bed", d })),
      ...lines.map(([d, kind, key]) => shape("path", { class: kind, d, "data-key": key })),
      ...tags,
    );
    placeTags();
  }
  /** A name whose edge is in sight is in sight as a whole. */
  function placeTags() {
    const { x, y, w, h } = pieces.box;
    for (const tag of lit.querySelectorAll(".tag")) {
      const [atX, atY] = [Number(tag.dataset.x), Number(tag.dataset.y)];
      const half = Math.min(tag.textContent.length * 4 * pieces.dot(), w / 2);
      const isSeen = atX >= x && atX <= x + w && atY >= y && atY <= y + h;
      tag.setAttribute("x", isSeen ? Math.min(Math.max(atX, x + half), x + w - half) : atX);
    }
  }

  // ---- One edge ----

  let factsAsked = 0;
  async function fetchFacts(isSaid) {
    const key = hovered || choice.edge;
    const asked = ++factsAsked;
    const facts = key ? await ask(`/edge?key=${encodeURIComponent(key)}`) : null;
    if (asked !== factsAsked) return;
    showFacts(facts);
    if (isSaid) say(facts);
  }

  function showFacts(facts) {
    const place = byId("facts");
    if (!facts) {
      place.replaceChildren(make("p", {}, "Point at an edge, tap it, or choose it here: what it is sewn to lights up, and its length in every size stands here."));
      return;
    }
    const fate = (one) => {
      const words = one.on ? `${one.words} (${one.on})` : one.words;
      const mates = one.mates.filter((mate) => !mate.itself);
      const self = one.mates.some((mate) => mate.itself) ? " to the same edge of the other copy" : "";
      const buttons = mates.map((mate) => {
        const edge = edges.get(mate.key);
        const layer = edge && edge.piece.layer !== edges.get(facts.key)?.piece.layer ? ` (${edge.piece.layer})` : "";
        return edge && edge.pointed
          ? make("button", { type: "button", click: () => choose(mate.key, true) }, `${titled(mate.key)}${layer}`)
          : make("span", {}, edge ? edge.piece.title : mate.key);
      });
      return make("p", {}, words + self, mates.length ? " to " : "", mates.length ? make("span", { class: "mates" }, ...buttons) : "");
    };
    const fates = facts.fates.length ? facts.fates.map(fate) : [make("p", {}, "neither sewn nor finished")];
    const list = make("dl", {}, make("dt", {}, "Becomes"), make("dd", {}, ...fates));
    if (facts.allowance) list.append(make("dt", {}, "Allowance"), make("dd", {}, facts.allowance));
    if (facts.declared) {
      const { file, line, words } = facts.declared;
      list.append(make("dt", {}, "Named"), make("dd", {}, make("code", {}, words[1]), ` in ${file}:${line}`));
    }
    place.replaceChildren(make("h3", {}, `${facts.piece}: ${facts.name}`), list, sizesTable(facts.columns, facts.rows, `${facts.piece}, ${facts.name}, in every size`));
  }

  function sizesTable(columns, rows, caption) {
    const named = standing?.names_sizes !== false;
    const head = make("tr", {}, named ? make("th", { scope: "col" }, "size") : "", ...columns.map((words) => make("th", { scope: "col" }, words)));
    const body = rows.map((row) => {
      const now = row.size === choice.size && rows.length > 1;
      return make("tr", { class: now ? "now" : null }, named ? make("th", { scope: "row" }, row.size) : "", ...row.figures.map((figure) => make("td", {}, figure)));
    });
    const table = make("table", {}, make("caption", { class: "unseen" }, caption), make("thead", {}, head), make("tbody", {}, ...body));
    return make("div", { class: "scroll", tabindex: "0", role: "group", "aria-label": caption }, table);
  }

  function say(facts) {
    if (!facts) { byId("say").textContent = choice.edge ? "" : "No edge is chosen."; return; }
    const fates = facts.fates.map((one) => {
      const mates = one.mates.filter((mate) => !mate.itself).map((mate) => titled(mate.key));
      return mates.length ? `${one.words} to ${mates.join(", ")}` : one.words;
    });
    const row = facts.rows.find((one) => one.size === choice.size) || facts.rows[0];
    const long = row ? `${row.figures[0]}${standing.names_sizes ? ` in ${row.size}` : ""}` : "";
    byId("say").textContent = `${facts.piece}, ${facts.name}. ${fates.join("; ") || "Neither sewn nor finished"}. ${long}`;
  }

  const [piecePick, edgePick] = [byId("piece-pick"), byId("edge-pick")];
  function fillPicks() {
    const options = drawn.pieces.map((piece) => make("option", { value: piece.part }, `${short(piece.title)} (${piece.part})`));
    piecePick.replaceChildren(make("option", { value: "" }, "none"), ...options);
    showPick();
  }
  function showPick() {
    const chosen = edges.get(choice.edge);
    piecePick.value = chosen?.piece.part || "";
    const own = chosen ? chosen.piece.edges.filter((edge) => edge.pointed) : [];
    edgePick.replaceChildren(...(own.length ? own : [{ key: "", name: "none" }]).map((edge) => make("option", { value: edge.key }, edge.name)));
    edgePick.value = chosen?.key || "";
    edgePick.disabled = own.length === 0;
  }
  piecePick.addEventListener("change", () => {
    const piece = drawn.pieces.find((one) => one.part === piecePick.value);
    choose(piece?.edges.find((edge) => edge.pointed)?.key || null, true);
  });
  edgePick.addEventListener("change", () => choose(edgePick.value, true));

  // ---- What is said ----

  let told = "";
  function showMessages() {
    const all = [...standing.messages, ...(drawn?.messages || [])];
    const now = JSON.stringify([all, standing.more, standing.sizes.length]);
    if (now === told) return;
    told = now;
    if (all.length === 0) {
      byId("messages").replaceChildren(make("p", {}, "Nothing to fix."));
      return;
    }
    const names = { mistake: "Mistake", warning: "Warning", advice: "Advice", caution: "Caution" };
    const item = (message) => make("li", { class: `message ${message.severity}` },
      make("p", { class: "kind" }, make("b", {}, names[message.severity] || message.severity), " ", make("code", {}, message.slug)),
      make("p", { class: "what" }, message.title),
      ...message.places.map((place) => make("div", { class: "place" },
        make("p", { class: "where" }, `${place.file}:${place.line}:${place.column}`),
        make("pre", {}, place.words[0], make("mark", {}, place.words[1] || " "), place.words[2]),
        place.text ? make("p", {}, place.text) : "")),
      message.table ? sizesTable(message.table.columns, message.table.rows, "Figures by size") : "",
      message.help ? make("p", { class: "way" }, make("b", {}, "Way out: "), message.help) : "");
    const more = standing.more ? make("p", {}, `and ${standing.more} more`) : "";
    byId("messages").replaceChildren(make("ol", {}, ...all.map(item)), more);
  }

  function showStanding() {
    root.dataset.standing = standing.standing;
    byId("title").textContent = standing.title || standing.file;
    document.title = `${standing.standing === "sound" ? "" : "broken: "}${standing.title || standing.file}`;
    const about = [standing.about, standing.credits].filter(Boolean).join(" ");
    byId("about").textContent = about;
    byId("about").hidden = !about;
    // What must be mended stands first.
    const [edge, told] = [byId("edge"), byId("told")];
    if (standing.mistakes) edge.before(told); else told.before(edge);
    const others = standing.files.length - 1;
    byId("source").textContent = `${standing.file}${others > 0 ? ` and ${others} more ${others === 1 ? "file" : "files"}` : ""}`;
    sayStanding();
  }

  let isLost = false;
  let saidStanding = "";
  function sayStanding() {
    root.dataset.link = isLost ? "lost" : "there";
    const sizes = standing?.sizes.length > 1 ? ` in ${standing.sizes.length} sizes` : "";
    const words = !standing ? "Asking …"
      : isLost ? "The program cannot be reached. What is shown stays as it was; it is followed again once it runs."
      : standing.standing === "sound" ? (standing.summary ? `Followed. Nothing must be mended; ${standing.summary}.` : `Followed. Nothing to fix${sizes}.`)
      : standing.standing === "broken" ? `The text is broken: ${standing.summary}. Shown is the garment as it last was sound.`
      : `A draft: ${standing.summary || "nothing is cut yet"}. Shown is what can be drawn of it.`;
    if (words === saidStanding) return;
    saidStanding = words;
    const link = standing?.mistakes && !isLost ? [" ", make("a", { href: "#told" }, "See what to mend")] : [];
    byId("standing").replaceChildren(words, ...link);
  }

  // ---- Choices ----

  function radio(value, words, isOn) {
    return make("label", {}, fill(make("input", { type: "radio", name: "size", value, change: () => pickSize(value) }), { checked: isOn }, []), words);
  }
  let formed = "";
  function showChoices() {
    const now = JSON.stringify([standing.sizes, standing.layers, standing.names_sizes]);
    if (now === formed) return;
    formed = now;
    const sizes = byId("sizes");
    const several = standing.sizes.length > 1;
    sizes.hidden = !several;
    const buttons = standing.sizes.map((size) => radio(size, size, choice.size === size));
    sizes.replaceChildren(sizes.querySelector("legend"), radio("", "all in one another", choice.size === ""), ...buttons);
    const layers = byId("layers");
    layers.hidden = standing.layers.length < 2;
    layers.replaceChildren(layers.querySelector("legend"), ...standing.layers.map((layer) => make("label", { title: layer.cloth },
      fill(make("input", { type: "checkbox", name: "layer", value: layer.name, change: (event) => toggle(layer.name, event.target.checked) }), { checked: !choice.off.includes(layer.name) }, []), layer.name)));
  }
  function toggle(layer, isOn) {
    choice.off = choice.off.filter((own) => own !== layer);
    if (!isOn) choice.off.push(layer);
    keep();
    applyOff();
    light();
  }
  for (const box of byId("lines").querySelectorAll("input")) {
    box.addEventListener("change", () => {
      choice.lines = [...byId("lines").querySelectorAll("input:checked")].map((one) => one.value);
      keep();
      applyOff();
    });
  }
  byId("choices").addEventListener("submit", (event) => event.preventDefault());
  function pickSize(size) {
    choice.size = size;
    keep();
    fetchPieces();
    fetchLay();
  }

  const middleSize = () => standing.sizes[Math.floor((standing.sizes.length - 1) / 2)];

  // ---- Views ----

  const views = ["pieces", "lay", "sheet"];
  function showView(view) {
    choice.view = views.includes(view) ? view : "pieces";
    for (const one of views) byId(one).hidden = one !== choice.view;
    for (const one of ["layers", "lines"]) byId(one).classList.toggle("off", choice.view !== "pieces");
    for (const link of document.querySelectorAll("nav a")) {
      if (link.hash === `#${choice.view}`) link.setAttribute("aria-current", "page");
      else link.removeAttribute("aria-current");
    }
    keep();
    root.classList.toggle("for-sheet", choice.view === "sheet");
    byId("choices").hidden = choice.view === "sheet";
    if (choice.view === "lay") fetchLay();
    if (choice.view === "sheet") fetchSheet();
  }
  for (const link of document.querySelectorAll("nav a")) {
    if (!link.hash) continue;
    link.addEventListener("click", (event) => { event.preventDefault(); showView(link.hash.slice(1)); });
  }

  let layAsked = 0;
  let layShown = "";
  async function fetchLay() {
    if (choice.view !== "lay" || !standing) return;
    const size = choice.size || middleSize();
    const wanted = JSON.stringify([standing.run, standing.shown, size]);
    if (wanted === layShown) return;
    const asked = ++layAsked;
    const note = byId("lay-note");
    note.textContent = "The pieces are being laid …";
    const found = standing.standing === "draft" ? null : await ask(`/lay?size=${encodeURIComponent(size)}`);
    if (asked !== layAsked) return;
    if (!found) {
      note.textContent = standing.standing === "draft" ? "A draft is laid once it is sound." : "No lay could be had.";
      lay.svg.replaceChildren();
      layShown = "";
      return;
    }
    layShown = wanted;
    const of = standing.names_sizes ? `${found.size}: ` : "";
    note.textContent = `${of}laid quickly, drawn at a tenth. ${found.troubles.join(". ")}`;
    const [width, height] = hang(found.cloths, lay.room());
    lay.svg.replaceChildren(...found.cloths.map((cloth) =>
      shape("g", { transform: `translate(${cloth.x} ${cloth.y})` }, ...cloth.shapes.map(element))));
    lay.holds(width, height);
  }
  /** Puts cloths in as many columns as let them be seen the largest. */
  function hang(cloths, room) {
    let best = null;
    for (let columns = 1; columns <= Math.max(cloths.length, 1); columns++) {
      const places = [];
      let [x, y, row, width] = [0, 0, 0, 1];
      cloths.forEach((cloth, at) => {
        if (at > 0 && at % columns === 0) { x = 0; y += row; row = 0; }
        places.push([x, y]);
        x += cloth.width;
        row = Math.max(row, cloth.height);
        width = Math.max(width, x);
      });
      const height = Math.max(y + row, 1);
      const scale = Math.min(room.width / width, room.height / height);
      if (!best || scale > best.scale) best = { scale, places, width, height };
    }
    cloths.forEach((cloth, at) => { [cloth.x, cloth.y] = best.places[at]; });
    return [best.width, best.height];
  }

  let sheetShown = "";
  function fetchSheet() {
    if (choice.view !== "sheet" || !standing) return;
    const wanted = JSON.stringify([standing.run, standing.shown]);
    if (wanted === sheetShown) return;
    sheetShown = wanted;
    const note = byId("sheet-note");
    if (standing.standing === "draft") {
      note.textContent = "A draft has a sheet once it is sound.";
      byId("sheet-place").replaceChildren();
      return;
    }
    note.textContent = "The sheet is being written …";
    const load = () => { note.textContent = "The sheet, without lays, for all sizes."; };
    byId("sheet-place").replaceChildren(make("iframe", { title: "The sheet", src: `/sheet?of=${standing.shown}`, sandbox: "", load }));
  }

  // ---- Following ----

  async function ask(path) {
    try {
      const answer = await fetch(path, { cache: "no-store" });
      return answer.ok ? await answer.json() : null;
    } catch {
      return null;
    }
  }

  let piecesAsked = 0;
  async function fetchPieces() {
    const asked = ++piecesAsked;
    const { width, height } = pieces.room();
    const size = choice.size ? `&size=${encodeURIComponent(choice.size)}` : "";
    const found = await ask(`/pieces?from=${choice.from}${size}&room=${Math.round((100 * width) / height)}`);
    if (asked !== piecesAsked || !found) return;
    drawn = found;
    drawPieces();
    if (choice.edge && !edges.has(choice.edge)) choose(null, true);
    else { light(); showPick(); fetchFacts(false); }
    showMessages();
  }

  let standingAsked = 0;
  async function follow() {
    const asked = ++standingAsked;
    const found = await ask("/standing");
    if (asked !== standingAsked || !found) return;
    const before = standing;
    standing = found;
    if (!before) {
      recall();
      for (const box of byId("lines").querySelectorAll("input")) box.checked = choice.lines.includes(box.value);
      for (const canvas of [pieces, lay]) {
        const box = choice.boxes[canvas.name];
        if (box) Object.assign(canvas, { box, isWhole: false });
      }
      showView(choice.view);
    }
    const known = choice.size === "" || standing.sizes.includes(choice.size);
    if (!known) choice.size = middleSize() ?? "";
    showStanding();
    showChoices();
    if (!before || before.run !== found.run || before.shown !== found.shown) {
      await fetchPieces();
      fetchLay();
      fetchSheet();
    } else {
      showMessages();
    }
  }

  let events = null;
  function connect() {
    events?.close();
    events = new EventSource("/events");
    events.addEventListener("change", () => { isLost = false; if (standing) sayStanding(); follow(); });
    events.addEventListener("error", () => { isLost = true; if (standing) sayStanding(); });
  }
  // A page that nobody sees lets go of its connection, of which a browser has few.
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") connect();
    else { events?.close(); events = null; }
  });
  showFacts(null);
  connect();
})();
