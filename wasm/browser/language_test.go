package browser

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"pullline/wasm/words"
)

// The made-up language marks every text and makes it a third longer. What is
// without the mark was never said, and could not be in another language; what
// breaks the layout would break it in a language of longer words.

// A stop is somewhere on the page, and how to get there and away again.
type stop struct{ name, show, leave string }

const closeDialog = `await click("dialog[open] .dialog-close"); await gone();`

// goTo goes to a view.
func goTo(view, more string) string {
	return fmt.Sprintf(`(await module("place")).move({ view: %q, %s });`, view, more)
}

// fromMenu opens what a button of the menu opens.
func fromMenu(id string) string {
	return `if (document.getElementById("menu").hidden) await click("#menu-button"); await click("#` + id + `"); await until(() => document.querySelector("dialog[open]"));`
}

func places(small bool) []stop {
	list := []stop{}
	if small {
		for i, step := range []string{"tree", "line", "gear", "check", "brief"} {
			list = append(list, stop{"job, " + step, fmt.Sprintf(`document.querySelectorAll("#path-list button")[%d].click(); for (const d of document.querySelectorAll("details:not(.section)")) d.open = true;`, i), ""})
		}
	} else {
		list = append(list, stop{"job", `for (const d of document.querySelectorAll("details:not(.section)")) d.open = true;`, ""})
	}
	list = append(list,
		stop{"menu", `await click("#menu-button");`, `await click("#menu-button");`},
		stop{"plans", fromMenu("plan-list") + `(await until(() => document.querySelector(".plan-more"))).open = true;`, closeDialog},
		stop{"rename", fromMenu("plan-list") + `(await until(() => document.querySelector(".plan-more:not([hidden])"))).open = true; await click("[data-act=rename]");`, `document.querySelectorAll("dialog[open] .dialog-close")[1].click(); ` + closeDialog},
		stop{"archive", fromMenu("plan-list") + `await click("[data-shelf=archive]");`, closeDialog},
		stop{"bin", fromMenu("plan-list") + `await click("[data-shelf=bin]");`, closeDialog},
		stop{"open a plan", fromMenu("plan-open") + `document.querySelector("dialog textarea").value = "?"; await click("[data-do=look]");`, closeDialog},
		stop{"send", fromMenu("plan-send") + `(await until(() => document.querySelector(".send-more"))).open = true;`, closeDialog},
		stop{"plan offered", `location.hash = "#plan=" + await (await module("share")).planCode({ version: 1, name: "Other (invented)" }); await until(() => document.querySelector("dialog .look"));`, closeDialog},
		stop{"plans from a file", `(await module("opening")).openFile(new File([JSON.stringify({ kind: "pull-line plans", version: 1,
			plans: [{ plan: (await module("state")).state.plan }, { plan: { version: 1, name: "Other (invented)" } }, null], gear: [{}] })], "all.json")); await until(() => document.querySelector("dialog[open]"));`, closeDialog},
		stop{"address", fromMenu("view-link"), closeDialog},
		stop{"website", fromMenu("view-snippet"), closeDialog},
		stop{"keys", `(await module("keys")).showKeys();`, closeDialog},
		stop{"gear list", fromMenu("gear-list") + `document.querySelector(".gear-files").open = true;`, closeDialog},
		stop{"piece", fromMenu("gear-list") + `await click("dialog.inventory [data-do=add]"); await until(() => visible(".gear-piece-title"));`, ""},
		stop{"inspection", `await click("[data-do=sheet]"); await until(() => visible(".gear-outcome"));`, closeDialog},
		stop{"measure", `(await module("measure")).openMeasure("tree.height_m", () => {}); for (const d of document.querySelectorAll("dialog.measure details")) d.open = true;`, `document.querySelector("dialog.measure .measure-close").click();`},
		stop{"working of a number", `await click(".number, .number-word"); await click("dialog .reveal-all");`, closeDialog},
		stop{"question", `(await module("planlist")).showPlans(() => {}); await (await module("plans")).binPlan((await (await module("plans")).addPlan({ version: 1, name: "Gone (invented)" }), (await module("plans")).workId())); await click("[data-shelf=bin]");`, closeDialog},
		stop{"print", `document.getElementById("print-working").checked = true; dispatchEvent(new Event("beforeprint"));`, `dispatchEvent(new Event("afterprint"));`},
		stop{"bench, guess first", goTo("bench", `bench: "redirect"`) + `(await module("settings")).choose("guess", "on"); (await until(() => document.querySelector("#bench-answer"))).value = "1"; await click("#view-bench [data-do=answer]");`, `(await module("settings")).choose("guess", "off");`},
		stop{"bench, own tackle", goTo("bench", `bench: "tackle", values: "tackle:own"`), ""},
		stop{"fall", goTo("fall", ""), ""},
		stop{"practice", goTo("practice", `seed: "7", grade: "mixed"`) + `
			for (const box of document.querySelectorAll(".drill input[type=text]")) box.value = "1";
			for (const b of document.querySelectorAll(".drill [data-do=check]")) b.click();`, ""},
		stop{"practice, print", `dispatchEvent(new Event("beforeprint"));`, `dispatchEvent(new Event("afterprint"));`},
		stop{"model", goTo("model", ""), goTo("job", "")},
	)
	for _, id := range []string{"redirect", "doubled", "friction", "tackle", "sag", "stretch", "line_angle", "off_lay", "lean", "hinge", "drum", "stall", "bridle", "slings", "machine", "pickets", "buried_log"} {
		list = append(list, stop{"bench " + id, goTo("bench", fmt.Sprintf("bench: %q", id)), ""})
	}
	for _, grade := range []string{"1", "2", "3", "4", "5"} {
		list = append(list, stop{"practice " + grade, goTo("practice", fmt.Sprintf(`seed: "7", grade: %q`, grade)), ""})
	}
	return list
}

// unsaid gives what a place shows unmarked: by the page itself, by the
// calculator, and what is wrong with its layout.
const unsaid = `
	const root = document.querySelector("#print-sheet").firstChild ? document.querySelector("#print-sheet") : [...document.querySelectorAll("dialog[open]")].at(-1) ?? visible("#menu") ?? document.body;
	const printed = root.id === "print-sheet";
	const seen = (e) => printed || e.checkVisibility({ visibilityProperty: true });
	const UNITS = new Set(["kNm", "lbf", "min", "kip", "tonf", "deg", "psi", "MPa", "GPa", "cos", "sin", "tan"]);
	const { state } = await module("state");
	const own = JSON.stringify(state.plan) + " embed.js pullline.html index.html all.json Other (invented) example " + document.getElementById("version-word").textContent.replace(/[⟦⟧]/g, "");
	// What of a text stands outside the marks and is a word.
	const bare = (text, depth) => {
		let out = "";
		for (const c of text) {
			if (c === "⟦") depth++;
			else if (c === "⟧") depth--;
			else if (depth <= 0) out += c;
		}
		return [out, depth];
	};
	const worth = (text) => (text.match(/[\p{L}_]{3,}/gu) ?? []).some((w) => !UNITS.has(w) && !own.includes(w) && !own.includes(w[0].toLowerCase() + w.slice(1)));
	const out = { page: new Set(), calculator: new Set(), layout: new Set() };
	// A text is the calculator's where nothing is left of it without what the calculator said.
	const said = [...globalThis.saidByCalculator].filter((s) => s.trim().length > 2).sort((a, b) => b.length - a.length);
	const found = (text, where) => {
		let rest = text;
		for (const s of said) rest = rest.replaceAll(s, " ");
		(worth(bare(rest, 0)[0]) ? out.page : out.calculator).add(where + ": " + text.trim().slice(0, 120));
	};
	const depths = new Map();
	const texts = document.createTreeWalker(root, NodeFilter.SHOW_TEXT);
	while (texts.nextNode()) {
		const node = texts.currentNode, e = node.parentElement;
		if (!node.data.trim() || e.closest("script, style, noscript, code, kbd, textarea, .formula, sub, #fatal")) continue;
		if (!seen(e.closest("option") ? e.closest("select") : e)) continue;
		let block = e;
		while (block !== root && (getComputedStyle(block).display.startsWith("inline") || block instanceof SVGElement && block.localName !== "text")) block = block.parentElement;
		const [text, depth] = bare(node.data, depths.get(block) ?? 0);
		depths.set(block, depth);
		if (worth(text)) found(node.data, e.localName + "." + (e.getAttribute("class") ?? e.id));
	}
	for (const name of ["aria-label", "title", "placeholder", "alt"]) {
		for (const e of root.querySelectorAll("[" + name + "]")) {
			const [text] = bare(e.getAttribute(name), 0);
			if (seen(e) && worth(text) && !e.closest("#fatal")) found(e.getAttribute(name), e.localName + "[" + name + "]");
		}
	}
	if (!printed) {
		if (document.documentElement.scrollWidth > innerWidth) out.layout.add("the page scrolls sideways: " + document.documentElement.scrollWidth);
		const name = (e) => e.localName + (e.id ? "#" + e.id : "." + e.getAttribute("class")) + " " + e.textContent.trim().slice(0, 40);
		const scrolls = (e) => { for (; e && e !== document.body; e = e.parentElement) if (/auto|scroll/.test(getComputedStyle(e).overflowX)) return true; return false; };
		for (const e of root.querySelectorAll("*")) {
			if (e instanceof SVGElement || !seen(e) || e.clientWidth <= 1 || e.closest("option, .verdict, .plan-name, .live")) continue; // cut where there is little room: a tap shows the verdict whole, the form the name
			if (![...e.childNodes].some((n) => n.nodeType === 3 && n.data.trim())) continue;
			const style = getComputedStyle(e);
			if (style.clipPath !== "none") continue; // for those who hear the page
			if (style.overflowX !== "visible" && style.overflowX !== "auto" && e.scrollWidth > e.clientWidth + 1) out.layout.add("cut off: " + name(e));
			const range = document.createRange();
			range.selectNodeContents(e);
			const text = range.getBoundingClientRect(), control = e.closest("button, summary, .button");
			if (control && text.width && (text.right > control.getBoundingClientRect().right + 1 || text.bottom > control.getBoundingClientRect().bottom + 2)) out.layout.add("outside its control: " + name(e));
			if (text.width && text.right > innerWidth + 1 && !scrolls(e)) out.layout.add("beyond the screen: " + name(e));
		}
		const pinned = (e) => { for (; e && e !== root; e = e.parentElement) if (/fixed|sticky/.test(getComputedStyle(e).position)) return e; return null; };
		const controls = [...root.querySelectorAll("button, input, select, textarea, summary, a.button")].filter((e) => seen(e) && e.clientWidth > 1).map((e) => ({ e, r: e.getBoundingClientRect(), p: pinned(e) }));
		controls.forEach(({ e, r, p }, i) => {
			for (const other of controls.slice(i + 1)) {
				if (p !== other.p || e.contains(other.e) || other.e.contains(e)) continue;
				const w = Math.min(r.right, other.r.right) - Math.max(r.left, other.r.left), h = Math.min(r.bottom, other.r.bottom) - Math.max(r.top, other.r.top);
				if (w > 2 && h > 2) out.layout.add("one over the other: " + name(e) + " / " + name(other.e));
			}
		});
	}
	return Object.fromEntries(Object.entries(out).map(([k, v]) => [k, [...v]]));`

// Every view, step, panel and print speaks the language, and stands up to it.
func TestMadeUpLanguage(t *testing.T) {
	for name, o := range map[string]Options{
		"phone":  {Width: 360, Height: 780, Touch: true},
		"laptop": {Width: 1280, Height: 720},
	} {
		t.Run(name, func(t *testing.T) {
			p, s := fresh(t, "chromium", o)
			inPage(t, p, nil, `localStorage.setItem("pullline.language", JSON.stringify(args[0]));`, words.MadeUp)
			visit(t, p, s.URL())
			settle(t, p)
			// From here on all that the calculator says is noted, and said again.
			inPage(t, p, nil, `
				const said = globalThis.saidByCalculator = new Set();
				const note = (v) => { if (typeof v === "string") said.add(v); else if (v && typeof v === "object") Object.values(v).forEach(note); };
				const parse = JSON.parse;
				JSON.parse = (...args) => { const v = parse(...args); note(v); return v; };
				const state = await module("state");
				state.edit("notes", "x");
				state.edit("notes", "");`)
			settle(t, p)
			unfold(t, p)
			for _, at := range places(o.Width < 700) {
				inPage(t, p, nil, at.show)
				settle(t, p)
				unfold(t, p)
				shot(t, p, at.name)
				var got struct{ Page, Calculator, Layout []string }
				inPage(t, p, &got, unsaid)
				assert.Empty(t, got.Page, "%s: what the page says unmarked", at.name)
				assert.Empty(t, got.Layout, "%s: its layout", at.name)
				assert.Empty(t, got.Calculator, "%s: what the calculator says unmarked", at.name)
				inPage(t, p, nil, at.leave)
			}
		})
	}
}
