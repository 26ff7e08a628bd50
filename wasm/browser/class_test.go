package browser

import (
	"encoding/json"
	"net/url"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/wasm/class/bench"
)

// class opens a view of the class by its address and waits until it is drawn.
func class(t testing.TB, engine string, o Options, query string) *Page {
	t.Helper()
	s := serve(t, site(t).Site.Handler())
	p := open(t, engine, o)
	visit(t, p, s.URL()+query)
	settle(t, p)
	return p
}

// benchShown is what a bench shows.
type benchShown struct {
	Bench, Main, Label, State string
	Values                    map[string]string // as typed
	Query                     string            // of the address, at rest
	Said                      string
	Bars                      []string
}

func benchOn(t testing.TB, p *Page) (b benchShown) {
	t.Helper()
	settle(t, p)
	inPage(t, p, &b, `
		await new Promise((r) => setTimeout(r, 400)); // the address follows at rest
		const text = (css) => document.querySelector("#view-bench " + css)?.textContent ?? "";
		const said = document.querySelector("#bench-said");
		return {
			Bench: document.querySelector("#bench-select").value, Main: text(".main-value"), Label: text(".main-label"),
			State: document.querySelector(".bench-main").dataset.state,
			Values: Object.fromEntries([...document.querySelectorAll("#view-bench .field")].map((f) => [f.dataset.path, f.querySelector("input, select").value])),
			Query: decodeURIComponent(location.search), Said: said.hidden ? "" : said.textContent,
			Bars: [...document.querySelectorAll("#bars .bar")].filter((b) => b.checkVisibility()).map((b) => b.querySelector("p").textContent),
		};`)
	return b
}

// benchFact is the main number of a bench as Go gives it.
func benchFact(t testing.TB, id string, values map[string]string) string {
	t.Helper()
	request, err := json.Marshal(map[string]any{"bench": id, "values": values, "settings": map[string]string{"units": "kN", "words": "nz"}})
	require.NoError(t, err)
	var answer struct{ Facts []struct{ Value string } }
	require.NoError(t, json.Unmarshal(bench.JSON(request), &answer))
	require.NotEmpty(t, answer.Facts)
	return answer.Facts[0].Value
}

// A handle of a bench is moved by pointer and by keyboard, a value is typed,
// and number, field and address follow; a value out of range shows no number.
func TestBenchByPointerKeysAndTyping(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p := class(t, engine, Options{}, "?view=bench&bench=redirect&units=kN&words=nz")
		b := benchOn(t, p)
		assert.Equal(t, "redirect", b.Bench)
		assert.Equal(t, benchFact(t, "redirect", nil), b.Main)
		assert.Empty(t, b.Bars)

		x, y := handleAt(t, p, "bench/right")
		require.NoError(t, p.Drag("mouse", x, y, x+60, y+60, 5))
		b = benchOn(t, p)
		dragged := b.Values["included_deg"]
		assert.NotEqual(t, "70", dragged)
		assert.Equal(t, benchFact(t, "redirect", map[string]string{"included_deg": dragged}), b.Main)
		assert.Contains(t, b.Query, "values=included_deg:"+dragged)

		require.NoError(t, p.Run(`document.querySelector('[data-handle="bench/right"]').focus()`))
		require.NoError(t, p.Press(Right, Right))
		b = benchOn(t, p)
		stepped := b.Values["included_deg"]
		assert.Equal(t, benchFact(t, "redirect", map[string]string{"included_deg": stepped}), b.Main)
		assert.NotEqual(t, dragged, stepped)
		require.NoError(t, p.Press(Enter))
		var on string
		require.NoError(t, p.Script(&on, "return document.activeElement.closest('.field').dataset.path"))
		assert.Equal(t, "included_deg", on, "Enter goes from the handle to its number")

		typed := func(key, text string) {
			require.NoError(t, p.Run(`const box = document.querySelector("#view-bench .field[data-path=" + arguments[0] + "] input"); box.focus(); box.select()`, key))
			require.NoError(t, p.Press(strings.Split(text, "")...))
		}
		typed("included_deg", "0")
		typed("tension_kN", "25")
		b = benchOn(t, p)
		assert.Equal(t, "50.0\u00a0kN", b.Main, "a rope folded back loads its block with twice its tension")
		require.NoError(t, p.Reload())
		_, err := p.WaitFor("[data-start=done] [data-verdict]", wait)
		require.NoError(t, err)
		again := benchOn(t, p)
		assert.Equal(t, b.Main, again.Main, "the address shows the same")
		assert.Equal(t, b.Query, again.Query)

		typed("tension_kN", "9999")
		b = benchOn(t, p)
		assert.Equal(t, "unknown", b.State)
		assert.Equal(t, "Not known", b.Main)
		var problem string
		require.NoError(t, p.Script(&problem, `return document.querySelector("#view-bench .field[data-path=tension_kN] .field-problem").textContent`))
		assert.Contains(t, problem, "500")
	})
}

// A touch drags a handle of a bench; the page does not scroll along, and
// nothing is wider than the phone.
func TestBenchOnAPhone(t *testing.T) {
	p := class(t, "chromium", Options{Width: 320, Height: 640, Touch: true}, "?view=bench&bench=redirect")
	for _, view := range []string{"bench", "fall", "practice", "model", "job"} {
		inPage(t, p, nil, `(await module("place")).move({ view: args[0] });`, view)
		settle(t, p)
		var wide bool
		require.NoError(t, p.Script(&wide, "return document.documentElement.scrollWidth > innerWidth"))
		assert.False(t, wide, view)
		shot(t, p, view)
	}
	inPage(t, p, nil, `(await module("place")).move({ view: "bench" });`)
	before := benchOn(t, p).Values["included_deg"]
	x, y := handleAt(t, p, "bench/right")
	require.NoError(t, p.Drag("touch", x, y, x-25, y-10, 5))
	assert.NotEqual(t, before, benchOn(t, p).Values["included_deg"])

	var small []string
	require.NoError(t, p.Script(&small, `
		return [...document.querySelectorAll(".class-bar button, .bench-head :is(button, select), .guess button, .bench-more button")].filter((b) => b.checkVisibility())
			.filter((b) => b.getBoundingClientRect().height < 48 || b.getBoundingClientRect().width < 44).map((b) => b.textContent);`))
	assert.Empty(t, small, "too small for a gloved finger")
}

// What an address has wrong is said, with what is accepted and what is used.
func TestAddressWithMistakes(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p := class(t, engine, Options{}, "?view=bench&bench=none&theme=puce&units=stone&colour=red&guess=maybe")
		b := benchOn(t, p)
		said := strings.Join(b.Bars, " ")
		for _, want := range []string{"“theme” in the address cannot be “puce”. Accepted: light, dark, auto", "cannot be “stone”", "“colour”", "“guess” in the address cannot be “maybe”. Accepted: on, off. Used instead: off",
			`no bench "none"`, "redirect"} {
			assert.Contains(t, said, want)
		}
		assert.Equal(t, "redirect", b.Bench)
		assert.Equal(t, "known", b.State)

		p = class(t, engine, Options{}, "?view=bench&bench=redirect&values=included_deg:999,weight:3&plan=nonsense")
		b = benchOn(t, p)
		said = strings.Join(b.Bars, " ")
		for _, want := range []string{"“included_deg” in the address cannot be “999”", "from 0 to 180", "Used instead: 70", `no value "weight"`, "“plan” in the address cannot be “nonsense”"} {
			assert.Contains(t, said, want)
		}
		assert.Equal(t, "known", b.State)
	})
}

// What the address sets is not kept on the device.
func TestAddressIsNotKept(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		s := serve(t, site(t).Site.Handler())
		p := open(t, engine, Options{})
		look := func() (v map[string]string) {
			settle(t, p)
			inPage(t, p, &v, `const { settings } = (await module("state")).state; return { units: settings.units, words: settings.words, theme: settings.theme, size: settings.size };`)
			return v
		}
		visit(t, p, s.URL()+"?units=us&words=uk&theme=dark&projector=on")
		assert.Equal(t, map[string]string{"units": "us", "words": "uk", "theme": "dark", "size": "large"}, look())
		visit(t, p, s.URL())
		assert.Equal(t, map[string]string{"units": "", "words": "", "theme": "light", "size": "ordinary"}, look())
	})
}

// A guess is asked for before any number is shown.
func TestGuessFirst(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p := class(t, engine, Options{}, "?view=bench&bench=redirect&guess=on&values=included_deg:90,tension_kN:10&units=kN")
		b := benchOn(t, p)
		assert.Equal(t, "hidden", b.State)
		assert.Equal(t, "?", b.Main)
		var leak bool
		require.NoError(t, p.Script(&leak, `return /14\.[12]/.test(document.querySelector("#view-bench").textContent) || document.querySelector(".bench-curve").checkVisibility({ visibilityProperty: true })`))
		assert.False(t, leak, "the picture shows only what is given, and there is no curve")

		answer := func(text string) benchShown {
			inPage(t, p, nil, `const box = document.getElementById("bench-answer"); box.value = ""; box.focus();`)
			require.NoError(t, p.Press(append(strings.Split(text, ""), Enter)...))
			return benchOn(t, p)
		}
		b = answer("much")
		assert.Equal(t, "hidden", b.State, "what cannot be read is no answer")
		assert.NotEmpty(t, b.Said)
		b = answer("20")
		assert.Equal(t, "known", b.State)
		assert.Equal(t, "14.2\u00a0kN", b.Main)
		assert.NotContains(t, b.Said, "Right")
		press(t, p, `[data-do="again"]`)
		assert.Equal(t, "hidden", benchOn(t, p).State)
		b = answer("14")
		assert.Contains(t, b.Said, "Right")

		// Moved afterwards, the number goes along and stays in sight.
		require.NoError(t, p.Run(`document.querySelector('[data-handle="bench/right"]').focus()`))
		require.NoError(t, p.Press(Left))
		b = benchOn(t, p)
		assert.Equal(t, "known", b.State)
		assert.Empty(t, b.Said)
		press(t, p, `[data-do="again"]`)
		press(t, p, `[data-do="show"]`)
		assert.Equal(t, "known", benchOn(t, p).State)
	})
}

// Any number of a bench opens its step by keyboard, and what that step takes
// from another opens the other; none can be opened while they are held back.
func TestBenchNumbersOpenTheirWorking(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p := class(t, engine, Options{}, "?view=bench&bench=redirect&guess=on&units=kN")
		benchOn(t, p)
		assert.Empty(t, texts(t, p, "#view-bench .number, #view-bench .bench-why, #view-bench .reveal"))
		press(t, p, `[data-do="show"]`)
		open := func(css, step string) {
			require.NoError(t, p.Run("document.querySelector(arguments[0]).focus()", css))
			require.NoError(t, p.Press(Enter))
			settle(t, p)
			var at string
			require.NoError(t, p.Script(&at, `return document.activeElement.closest(".reveal-step")?.dataset.step ?? ""`))
			assert.Equal(t, step, at)
		}
		open(`#view-bench [data-fact="factor"] button`, "factor")
		assert.Equal(t, []string{"= " + texts(t, p, `#view-bench [data-fact="factor"] .number`)[0]}, texts(t, p, "#view-bench .reveal-result"))
		open(`#view-bench [data-step="factor"] li button`, "load")
		open(`#view-bench [data-fact="haul"] button`, "haul")
		open("#view-bench .bench-why", "load")
		press(t, p, `[data-do="again"]`)
		assert.Empty(t, texts(t, p, "#view-bench .number, #view-bench .bench-why, #view-bench .reveal"))
	})
}

// The ways back and forward lead through views and benches without loading
// the page again, and the plan stays as it is.
func TestBackAndForward(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p, _ := fresh(t, engine, Options{})
		require.NoError(t, p.Run("window.sameDocument = true"))
		before := planOf(t, p)
		press(t, p, "#class-open")
		first := benchOn(t, p)
		assert.Contains(t, first.Query, "view=bench")
		assert.False(t, visible(t, p, "#verdict"), "no verdict on a plan beside a bench")
		press(t, p, `.bench-head button[aria-label="Next bench"]`)
		second := benchOn(t, p)
		assert.NotEqual(t, first.Bench, second.Bench)
		press(t, p, `.class-bar [data-goto="fall"]`)
		assert.True(t, visible(t, p, "#verdict"))
		assert.True(t, visible(t, p, "#view-fall"))

		back := func(by string) {
			require.NoError(t, p.Run("history."+by+"()"))
			require.NoError(t, p.Await(nil, "await new Promise((r) => setTimeout(r, 150))"))
			settle(t, p)
		}
		back("back")
		assert.Equal(t, second.Bench, benchOn(t, p).Bench)
		back("back")
		assert.Equal(t, first.Bench, benchOn(t, p).Bench)
		back("back")
		assert.True(t, visible(t, p, "#main"))
		assert.False(t, visible(t, p, ".class-bar"))
		back("forward")
		assert.Equal(t, first.Bench, benchOn(t, p).Bench)
		var same bool
		require.NoError(t, p.Script(&same, "return window.sameDocument === true"))
		assert.True(t, same)
		assert.Equal(t, before, planOf(t, p))
	})
}

func visible(t testing.TB, p *Page, css string) (seen bool) {
	t.Helper()
	require.NoError(t, p.Script(&seen, "return (document.querySelector(arguments[0])?.getClientRects().length ?? 0) > 0", css))
	return seen
}

// handlesIn says whether a picture has handles to take hold of.
func handlesIn(t testing.TB, p *Page, css string) (are bool) {
	t.Helper()
	require.NoError(t, p.Script(&are, `
		const group = document.querySelector(arguments[0] + " .handles");
		return group.children.length > 0 && getComputedStyle(group).display !== "none"`, css))
	return are
}

// At 1280 × 720 in projector mode the picture, the number and the question
// stand in one view, no text is smaller than 24 pixels, and every key does
// what the line at the foot says, but not where something is typed.
func TestProjector(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p := class(t, engine, Options{Width: 1280, Height: 720}, "?view=bench&bench=redirect&projector=on&guess=on")
		b := benchOn(t, p)
		require.Equal(t, "hidden", b.State)
		var seen struct {
			Small []string
			Out   []string
			Wide  bool
		}
		require.NoError(t, p.Script(&seen, `
			const foot = document.getElementById("key-line").getBoundingClientRect().top;
			const inView = (css) => { const r = document.querySelector(css).getBoundingClientRect(); return r.top >= 0 && r.bottom <= foot; };
			const small = new Set();
			for (const e of document.querySelectorAll("body *")) {
				if (!e.checkVisibility() || e.matches("option, optgroup, .live, .skip")) continue;
				if (![...e.childNodes].some((n) => n.nodeType === 3 && n.data.trim())) continue;
				const r = e.getBoundingClientRect();
				if (r.width < 2 || r.height < 2) continue;
				let px = parseFloat(getComputedStyle(e).fontSize);
				const picture = e.closest("svg");
				if (picture?.viewBox?.baseVal?.width) px *= picture.getBoundingClientRect().width / picture.viewBox.baseVal.width;
				if (px < 23.9) small.add(e.tagName + "." + (e.getAttribute("class") ?? "") + " " + Math.round(px) + " " + e.textContent.slice(0, 20));
			}
			return {
				Small: [...small], Wide: document.documentElement.scrollWidth > innerWidth,
				Out: [".bench-picture .picture-box", ".bench-main", ".guess"].filter((css) => !inView(css)),
			};`))
		assert.Empty(t, seen.Out, "to be scrolled to")
		assert.Empty(t, seen.Small, "smaller than 24 px")
		assert.False(t, seen.Wide)
		shot(t, p, "bench")

		require.NoError(t, p.Run("document.activeElement.blur()"))
		require.NoError(t, p.Press("s"))
		assert.Equal(t, "known", benchOn(t, p).State)
		require.NoError(t, p.Run("document.activeElement.blur()"))
		require.NoError(t, p.Press("l", "l"))
		var lines string
		require.NoError(t, p.Script(&lines, `return document.querySelector("#view-bench .reveal-count").textContent`))
		assert.Contains(t, lines, "2 / ")
		require.NoError(t, p.Press("g"))
		settle(t, p)
		assert.False(t, visible(t, p, ".guess"))
		require.NoError(t, p.Press("b"))
		next := benchOn(t, p)
		assert.NotEqual(t, "redirect", next.Bench)
		require.NoError(t, p.PressWith(Shift, "B"))
		assert.Equal(t, "redirect", benchOn(t, p).Bench)
		require.NoError(t, p.Press("?"))
		_, err := p.WaitFor("dialog .keys", wait)
		require.NoError(t, err)
		require.NoError(t, p.Press(Escape))

		require.NoError(t, p.Run(`document.querySelector("#view-bench .field input").focus()`))
		require.NoError(t, p.Press("b", "g", "s"))
		b = benchOn(t, p)
		assert.Equal(t, "redirect", b.Bench, "letters typed stay where they are typed")
		assert.Contains(t, b.Values["included_deg"], "bgs")

		require.NoError(t, p.Run("document.activeElement.blur()"))
		require.NoError(t, p.Press("1"))
		settle(t, p)
		require.NoError(t, p.Run("scrollTo({ top: 0, behavior: 'instant' })"))
		var below bool
		require.NoError(t, p.Script(&below, `return document.querySelector("#figure-side .picture-box").getBoundingClientRect().bottom > innerHeight || document.documentElement.scrollWidth > innerWidth`))
		assert.False(t, below, "the drawing of the job stands beside its verdict")
		shot(t, p, "job")
	})
}

// From the keyboard alone: projector mode on and off, to the answer, out of
// it, to a handle, to the next bench and what it says.
func TestLessonByKeyboard(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p := class(t, engine, Options{Width: 1280, Height: 720}, "?view=bench&bench=redirect&guess=on")
		until := func(script string) {
			t.Helper()
			assert.NoError(t, p.WaitUntil(wait, script))
		}
		line := func(text string) {
			t.Helper()
			assert.NoError(t, p.WaitUntil(wait, `const line = document.getElementById("key-line"); return !line.hidden && line.textContent.includes(arguments[0])`, text))
		}
		until(`return document.querySelector(".bench-main").dataset.state === "hidden"`)
		require.NoError(t, p.Press(F2))
		until(`return document.documentElement.dataset.size === "large"`)
		line("next bench")
		require.NoError(t, p.Press("t"))
		until(`return document.activeElement.id === "bench-answer"`)
		line("leave the field")
		require.NoError(t, p.Press("b", "1"))
		until(`return document.activeElement.value === "b1"`)
		require.NoError(t, p.Press(Escape))
		line("next bench")
		require.NoError(t, p.Press("s"))
		until(`return document.querySelector(".bench-main").dataset.state === "known"`)
		require.NoError(t, p.Run("document.activeElement.blur()"))
		require.NoError(t, p.Press("m"))
		until(`return Boolean(document.activeElement.closest(".handle"))`)
		var before string
		require.NoError(t, p.Script(&before, `return document.querySelector("#view-bench .main-value").textContent`))
		require.NoError(t, p.Press(Up, Up, Up))
		assert.NoError(t, p.WaitUntil(wait, `return document.querySelector("#view-bench .main-value").textContent !== arguments[0]`, before))
		require.NoError(t, p.Run(`document.querySelector(".reveal-next").focus()`))
		require.NoError(t, p.Press("l", "l", "l"))
		until(`return document.querySelector("#view-bench .reveal-count").textContent.startsWith("3 /")`)
		require.NoError(t, p.Press("b"))
		until(`return document.querySelector("#bench-select").value !== "redirect" && scrollY === 0`)
		require.NoError(t, p.Press("5"))
		line("next part")
		require.NoError(t, p.Press("n", "n"))
		until(`return document.activeElement.textContent === document.querySelectorAll("#view-model :is(section > h3, summary)")[1].textContent`)
		require.NoError(t, p.Press("1"))
		line("1 to 5")
		require.NoError(t, p.Press(F2))
		until(`return document.documentElement.dataset.size === "ordinary" && document.getElementById("key-line").hidden`)
	})
}

// Out of projector mode no letter does anything.
func TestLettersOutsideProjectorMode(t *testing.T) {
	p := class(t, "chromium", Options{}, "?view=bench&bench=redirect")
	require.NoError(t, p.Press("b", "g", "s", "l", "1"))
	b := benchOn(t, p)
	assert.Equal(t, "redirect", b.Bench)
	assert.Equal(t, "known", b.State)
	assert.NotContains(t, b.Query, "guess")
}

// Read only, nothing can be changed, neither at a bench nor on the job; and
// without handles there are none.
func TestReadOnly(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p := class(t, engine, Options{}, "?view=bench&bench=redirect&readonly=on")
		before := benchOn(t, p)
		assert.False(t, handlesIn(t, p, "#view-bench"))
		var open int
		require.NoError(t, p.Script(&open, `return document.querySelectorAll("#view-bench .field :is(input, select):not(:disabled)").length`))
		assert.Zero(t, open)
		inPage(t, p, nil, `(await module("place")).move({ view: "job" });`)
		settle(t, p)
		plan := planOf(t, p)
		assert.False(t, handlesIn(t, p, "#figure-side"))
		inPage(t, p, nil, `const s = await module("state"); s.edit("tree.height_m", "31"); s.step("side/lean", 1, 0, false); s.act({ do: "add", path: "points" });`)
		settle(t, p)
		assert.Equal(t, plan, planOf(t, p))

		// The control on the page takes it back.
		press(t, p, "#set-readonly")
		assert.True(t, handlesIn(t, p, "#figure-side"))
		press(t, p, "#set-handles")
		assert.False(t, handlesIn(t, p, "#figure-side"))
		inPage(t, p, nil, `(await module("place")).move({ view: "bench" });`)
		after := benchOn(t, p)
		assert.Equal(t, before.Main, after.Main)
		assert.Contains(t, after.Query, "handles=off")
		assert.NotContains(t, after.Query, "readonly")
	})
}

// The panel gives the address of what is shown, and opening it shows that.
func TestAddressOfTheView(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p := class(t, engine, Options{}, "?view=bench&bench=redirect&values=tension_kN:33&units=tf")
		before := benchOn(t, p)
		press(t, p, "#view-link")
		var address string
		inPage(t, p, &address, `return (await until(() => document.getElementById("view-address"))).value`)
		u, err := url.Parse(address)
		require.NoError(t, err)
		assert.Equal(t, "tension_kN:33", u.Query().Get("values"))
		visit(t, p, address)
		assert.Equal(t, before.Main, benchOn(t, p).Main)
		assert.Contains(t, before.Main, "tf")
	})
}

// A plan of one's own goes along in the fragment, which no server is told.
func TestAddressOfOnesOwnPlan(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p, _ := fresh(t, engine, Options{})
		write(t, p, "name", "My own")
		settle(t, p)
		press(t, p, "#view-link")
		var address string
		inPage(t, p, &address, `return (await until(() => document.getElementById("view-address"))).value`)
		u, err := url.Parse(address)
		require.NoError(t, err)
		assert.Empty(t, u.RawQuery)
		assert.True(t, strings.HasPrefix(u.Fragment, "plan=2"), address)
	})
}

// A plan in the address is shown, and kept only once it is changed.
func TestPlanInTheAddress(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p, s := fresh(t, engine, Options{})
		write(t, p, "name", "My own")
		quiet(t, p)
		visit(t, p, s.URL()+"?plan=example")
		settle(t, p)
		assert.NotContains(t, planOf(t, p), "My own")
		visit(t, p, s.URL())
		settle(t, p)
		assert.Contains(t, planOf(t, p), "My own", "an address takes nobody's plan away")
	})
}
