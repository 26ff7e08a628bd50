// Marks in a picture of the tree. The picture is shown from memory only: it is
// sent nowhere and kept nowhere. Places are in pixels of the picture; what
// they mean is worked out by the calculator.

import { el, keyed, setAttr, setText, show, svg, within } from "./dom.js";
import { say } from "./say.js";

const ZOOMS = [1, 2, 4];
const STEP = 4; // px of the picture for one key press
const MAGNIFIED = 3; // times the picture's own pixels on a screen of one
const TALLEST = 0.58; // of the window's height
const STILL = 8; // px a finger may move and still tap
/** @type {{ [key: string]: [dx: number, dy: number] }} */
const WAYS = { ArrowUp: [0, -1], ArrowDown: [0, 1], ArrowLeft: [-1, 0], ArrowRight: [1, 0] };
const LINES = [["pole_bottom", "pole_top"], ["stem_low", "stem_high"]];

/**
 * A picture of the tree: its size, the marks in it by their keys, and, as long as
 * the panel is open, the picture itself.
 *
 * @typedef {object} Photo
 * @property {number} w
 * @property {number} h
 * @property {{ [key: string]: [x: number, y: number] }} marks
 * @property {string} url
 * @property {HTMLImageElement | null} picture
 */

// noPhotos are two pictures still to be taken.
/** @returns {Photo[]} */
export function noPhotos() {
  return [0, 1].map(() => ({ w: 0, h: 0, marks: {}, url: "", picture: null }));
}

// makePhoto gives a panel for two pictures. changed() is called when there is
// something new to work out. Closed, it forgets the pictures, not the marks.
/** @param {Photo[]} photos @param {() => void} changed */
export function makePhoto(photos, changed) {
  let current = 0;
  let active = "";
  let zoom = 0;
  /** @type {survey.Mark[]} */
  let marks = [];

  const tabs = [0, 1].map((n) => el("button", {
    type: "button", text: n === 0 ? say("First picture") : say("Second picture, 90° round"),
    on: { click: () => { current = n; active = ""; changed(); } },
  }));
  const chooser = (/** @type {boolean} */ capture) => {
    const input = el("input", { type: "file", accept: "image/*", capture: capture ? "environment" : null, hidden: true });
    input.addEventListener("change", () => {
      const file = input.files?.[0];
      input.value = "";
      if (file) openPicture(file);
    });
    return input;
  };
  const camera = chooser(true);
  const files = chooser(false);
  files.className = "photo-file";
  const image = el("img", { alt: say("The picture of the tree"), draggable: "false" });
  const lines = LINES.map(() => svg("line", { class: "photo-line" }));
  const places = svg("g", {});
  const overlay = svg("svg", { class: "photo-marks", "aria-hidden": "false" }, ...lines, places);
  const sheet = el("div", { class: "photo-sheet" }, image, overlay);
  const stage = el("div", { class: "photo-stage" }, sheet);
  const empty = el("p", { class: "photo-empty", text: say("The picture is not kept, only the marks. To change them, take or choose it again.") });
  const loupe = el("canvas", { class: "photo-loupe", width: "280", height: "280", "aria-hidden": "true" });
  const chips = el("div", { class: "photo-chips", role: "group", "aria-label": say("Marks") });
  const trouble = el("p", { class: "field-problem", hidden: true });
  /** @type {(text: string, label: string, dx: number, dy: number) => HTMLElement} */
  const nudge = (text, label, dx, dy) => el("button", { type: "button", class: "nudge", text, "aria-label": label, on: { click: () => move(dx, dy) } });
  const zoomBy = (/** @type {number} */ by) => {
    zoom = Math.max(0, Math.min(ZOOMS.length - 1, zoom + by));
    layOut();
    centre();
  };
  const tools = el("div", { class: "photo-tools" },
    loupe,
    el("div", { class: "photo-nudges" },
      nudge("↑", say("Up"), 0, -1), nudge("←", say("Left"), -1, 0), nudge("→", say("Right"), 1, 0), nudge("↓", say("Down"), 0, 1)),
    el("div", { class: "photo-zooms" },
      el("button", { type: "button", text: "+", "aria-label": say("Larger picture"), on: { click: () => zoomBy(1) } }),
      el("button", { type: "button", text: "−", "aria-label": say("Smaller picture"), on: { click: () => zoomBy(-1) } })));
  const hint = el("p", { class: "quiet", text: say("Choose a mark, then tap its place in the picture. Drag it or use the arrows until the cross in the magnifier is on the spot.") });
  const node = el("div", { class: "photo" },
    el("div", { class: "photo-tabs" }, ...tabs),
    el("div", { class: "actions" },
      el("button", { type: "button", class: "photo-take", text: say("Take a picture"), on: { click: () => camera.click() } }),
      el("button", { type: "button", text: say("Choose a picture"), on: { click: () => files.click() } }),
      camera, files),
    trouble, empty, hint, chips, stage, tools);

  const now = () => photos[current];

  const activeMark = () => marks.find((m) => m.key === active);

  async function openPicture(/** @type {File} */ file) {
    const url = URL.createObjectURL(file);
    const probe = new Image();
    probe.src = url;
    try {
      await probe.decode();
    } catch {
      URL.revokeObjectURL(url);
      setText(trouble, say("This file cannot be shown as a picture. Choose another."));
      show(trouble, true);
      return;
    }
    show(trouble, false);
    const p = now();
    if (p.url) URL.revokeObjectURL(p.url);
    // Marks kept from the same picture stay; another picture begins anew.
    if (p.w !== probe.naturalWidth || p.h !== probe.naturalHeight) p.marks = {};
    Object.assign(p, { url, picture: probe, w: probe.naturalWidth, h: probe.naturalHeight });
    active = "";
    changed();
  }

  // layOut sizes the sheet and everything on it that keeps its size on screen.
  function layOut() {
    const p = now();
    const [w, h] = p.w ? [p.w, p.h] : [3, 4];
    const whole = Math.min(stage.clientWidth, innerHeight * TALLEST * w / h); // all of it is seen at first
    sheet.style.setProperty("width", `${whole * ZOOMS[zoom]}px`);
    sheet.style.setProperty("aspect-ratio", `${w} / ${h}`);
    setAttr(overlay, "viewBox", `0 0 ${w} ${h}`);
    const width = overlay.getBoundingClientRect().width;
    const k = width && p.w ? p.w / width : 1;
    for (const g of /** @type {Iterable<ReturnType<typeof makePlace>>} */ (places.children)) {
      setAttr(g, "transform", `translate(${g.mark.x} ${g.mark.y}) scale(${k})`);
    }
    LINES.forEach((keys, i) => {
      const [from, to] = keys.map((key) => marks.find((m) => m.key === key && m.placed));
      setAttr(lines[i], "visibility", from && to ? null : "hidden");
      if (!from || !to) return;
      setAttr(lines[i], "x1", from.x);
      setAttr(lines[i], "y1", from.y);
      setAttr(lines[i], "x2", to.x);
      setAttr(lines[i], "y2", to.y);
    });
    magnify();
  }

  // centre brings the active mark to the middle of the stage.
  function centre() {
    const m = activeMark();
    const p = now();
    if (!m || !p.w) return;
    const box = overlay.getBoundingClientRect();
    stage.scrollTo({ left: m.x / p.w * box.width - stage.clientWidth / 2, top: m.y / p.h * box.height - stage.clientHeight / 2 });
  }

  function magnify() {
    const m = activeMark();
    const p = now();
    const context = loupe.getContext("2d");
    if (!context) return;
    const half = loupe.width / 2;
    context.clearRect(0, 0, loupe.width, loupe.height);
    if (m && p.picture) {
      const take = loupe.width / MAGNIFIED;
      context.drawImage(p.picture, m.x - take / 2, m.y - take / 2, take, take, 0, 0, loupe.width, loupe.height);
    }
    for (const [colour, width] of /** @type {const} */ ([["#fff", 7], ["#b3121d", 3]])) {
      context.strokeStyle = colour;
      context.lineWidth = width;
      context.beginPath();
      for (const [x0, y0, x1, y1] of [[half, 0, half, half - 14], [half, half + 14, half, 2 * half], [0, half, half - 14, half], [half + 14, half, 2 * half, half]]) {
        context.moveTo(x0, y0);
        context.lineTo(x1, y1);
      }
      context.stroke();
    }
  }

  function put(/** @type {string} */ key, /** @type {number} */ x, /** @type {number} */ y) {
    const p = now();
    const m = marks.find((k) => k.key === key);
    if (!p.w || !m) return;
    [m.x, m.y] = p.marks[key] = [Math.max(0, Math.min(p.w, x)), Math.max(0, Math.min(p.h, y))];
    m.placed = true;
    layOut();
    changed();
  }

  function move(/** @type {number} */ dx, /** @type {number} */ dy, step = STEP) {
    const m = activeMark();
    if (m) put(active, m.x + dx * step, m.y + dy * step);
  }

  function choose(/** @type {string} */ key) {
    active = key;
    for (const chip of chips.children) setAttr(chip, "aria-pressed", chip.getAttribute("data-mark") === key ? "true" : "false");
    for (const g of places.children) g.classList.toggle("active", g.getAttribute("data-mark") === key);
    layOut();
  }

  // next is the first mark still to be placed, needed ones before others.
  const next = () => (marks.find((m) => m.needed && !m.placed) ?? marks.find((m) => !m.placed))?.key ?? active;

  function pictureAt(/** @type {PointerEvent} */ event) {
    const p = now();
    const box = overlay.getBoundingClientRect();
    return [(event.clientX - box.left) / box.width * p.w, (event.clientY - box.top) / box.height * p.h];
  }

  // A tap places the active mark; a mark that is taken hold of is dragged.
  /** @type {{ g: Element | null, sx: number, sy: number, dx: number, dy: number, moved: boolean } | null} */
  let held = null;
  overlay.addEventListener("pointerdown", (event) => {
    const g = within(event, "[data-mark]");
    const [x, y] = pictureAt(event);
    held = { g, sx: event.clientX, sy: event.clientY, dx: 0, dy: 0, moved: false };
    if (!g) return;
    choose(g.dataset.mark ?? "");
    const m = activeMark();
    if (m) Object.assign(held, { dx: m.x - x, dy: m.y - y });
    overlay.setPointerCapture(event.pointerId);
    g.focus({ preventScroll: true });
    event.preventDefault();
  });
  overlay.addEventListener("pointermove", (event) => {
    if (!held) return;
    if (Math.abs(event.clientX - held.sx) > STILL || Math.abs(event.clientY - held.sy) > STILL) held.moved = true;
    if (!held.g || !held.moved) return;
    const [x, y] = pictureAt(event);
    put(active, x + held.dx, y + held.dy);
  });
  overlay.addEventListener("pointerup", (event) => {
    const was = held;
    held = null;
    if (!was || was.g || was.moved || !now().w) return;
    const key = active || next();
    const [x, y] = pictureAt(event);
    const fresh = !marks.some((m) => m.key === key && m.placed);
    put(key, x, y);
    choose(fresh ? next() : key);
  });
  overlay.addEventListener("pointercancel", () => { held = null; });
  node.addEventListener("keydown", (event) => {
    const way = WAYS[event.key];
    if (!way || !within(event, "[data-mark]")) return;
    event.preventDefault();
    move(...way, event.shiftKey ? 1 : STEP);
  });

  function makePlace(/** @type {survey.Mark} */ m) {
    const number = svg("text", { class: "photo-number", x: "17", y: "6" });
    const g = svg("g", { class: "photo-mark", role: "button", tabindex: "0", "data-mark": m.key },
      svg("circle", { class: "photo-hit", r: "24" }),
      svg("circle", { class: "photo-halo", r: "13" }),
      svg("circle", { class: "photo-ring", r: "13" }),
      svg("path", { class: "photo-halo", d: "M-6 0H6M0 -6V6" }),
      svg("path", { class: "photo-cross", d: "M-6 0H6M0 -6V6" }),
      number);
    g.addEventListener("focus", () => choose(m.key));
    return Object.assign(g, { mark: m, number });
  }

  return {
    node,
    get current() { return current; },
    // update shows what the calculator says of the marks.
    update(/** @type {survey.Photo} */ photo) {
      const p = now();
      if (photo.stored && !p.w) {
        [p.w, p.h] = photo.stored;
        for (const m of photo.marks) if (m.placed) p.marks[m.key] = [m.x, m.y];
      }
      marks = photo.marks.map((m) => ({ ...m }));
      if (!active) active = next();
      tabs.forEach((tab, n) => setAttr(tab, "aria-pressed", n === current ? "true" : "false"));
      show(stage, Boolean(p.w));
      show(tools, Boolean(p.w));
      show(chips, Boolean(p.w));
      show(hint, Boolean(p.w));
      show(empty, Boolean(p.w) && !p.picture);
      show(image, Boolean(p.url));
      if (p.url) setAttr(image, "src", p.url);
      keyed(chips, marks, (m) => m.key, (m) => el("button", { type: "button", "data-mark": m.key, on: { click: () => { choose(m.key); centre(); } } }), (chip, m, i) => {
        const name = m.placed || m.needed ? m.label : say("{mark} (optional)", { mark: m.label });
        setText(chip, `${i + 1} ${name}${m.placed ? " ✓" : ""}`);
        setAttr(chip, "data-placed", m.placed ? "true" : null);
      });
      keyed(places, marks.map((m, i) => ({ ...m, number: i + 1 })).filter((m) => m.placed), (m) => m.key, makePlace, (g, m) => {
        g.mark = marks[m.number - 1];
        setAttr(g, "aria-label", say("{mark}: {x} across, {y} down", { mark: m.label, x: Math.round(m.x), y: Math.round(m.y) }));
        setText(g.number, String(m.number));
      });
      choose(active);
    },
    layOut,
    close() {
      for (const p of photos) {
        if (p.url) URL.revokeObjectURL(p.url);
        p.url = "";
        p.picture = null;
      }
    },
  };
}
