package browser

import (
	"fmt"
	"html"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/wasm/site/build"
)

// A course stands on an origin of its own and takes the views from another:
// two servers on two ports.
type course struct {
	page       *Page
	host, tool *Server
}

// openCourse opens a host page of these views in a window. The host has
// embed.js and its own pages, nothing else.
func openCourse(t testing.TB, engine string, o Options, views string) course {
	t.Helper()
	files := site(t).Site
	tool := serve(t, build.Files{"pullline.html": files["pullline.html"]}.Handler())
	views = strings.ReplaceAll(views, "SRC", html.EscapeString(tool.URL()+"pullline.html"))
	host := serve(t, build.Files{
		"embed.js": files["embed.js"],
		"index.html": []byte(`<!doctype html><html lang="en"><meta charset="utf-8"><link rel="icon" href="data:,"><title>Course</title>
<script>
window.told = [];
for (const kind of ["ready", "height", "answer", "plan"]) {
  addEventListener("pull-line-" + kind, (event) => told.push({ kind, id: event.target.id, ...event.detail }));
}
</script>
<script src="embed.js"></script>
<input id="first" autofocus>
` + views),
	}.Handler())
	p := open(t, engine, o)
	require.NoError(t, p.Go(host.URL()))
	return course{p, host, tool}
}

// ready waits until a view has told that it is there and how tall it is.
func (c course) ready(t testing.TB, id string) {
	t.Helper()
	require.NoError(t, c.page.Run(`document.getElementById(arguments[0]).scrollIntoView()`, id))
	require.NoError(t, c.page.WaitUntil(wait, `
		const mine = told.filter((m) => m.id === arguments[0]);
		return mine.some((m) => m.kind === "ready") && mine.some((m) => m.kind === "height");`, id), id)
}

// inside makes what follows work in the frame of a view.
func (c course) inside(t testing.TB, id string) {
	t.Helper()
	frame, err := c.page.Find("#" + id + " iframe")
	require.NoError(t, err)
	require.NoError(t, c.page.Frame(frame))
}

// openCoursePage opens the example course page as it comes, but with the
// single file on another origin.
func openCoursePage(t testing.TB, engine string, o Options) course {
	t.Helper()
	files := site(t).Site
	tool := serve(t, build.Files{"pullline.html": files["pullline.html"]}.Handler())
	page := strings.ReplaceAll(string(files["course.html"]), "\n<pull-line-view ", "\n<pull-line-view src=\""+tool.URL()+"pullline.html\" ")
	host := serve(t, build.Files{
		"course.html": []byte(page), "course.css": files["course.css"], "course.js": files["course.js"], "embed.js": files["embed.js"], "icon.svg": files["icon.svg"],
	}.Handler())
	p := open(t, engine, o)
	require.NoError(t, p.Go(host.URL()+"course.html"))
	return course{p, host, tool}
}

// The example course page: four views from another origin, each as tall as
// what is in it, and an answer given in one of them reaches the page.
func TestCoursePage(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		c := openCoursePage(t, engine, Options{Width: 820, Height: 1180})
		p := c.page
		require.NoError(t, p.Await(nil, `
			window.told = [];
			for (const kind of ["ready", "height", "answer"]) addEventListener("pull-line-" + kind, (e) => told.push({ kind, title: e.target.title, ...e.detail }));
			await customElements.whenDefined("pull-line-view");
			document.querySelectorAll("pull-line-view").forEach((v, i) => { v.id = "view" + i; });`))
		require.NoError(t, p.WaitUntil(4*wait, `
			const busy = [...document.querySelectorAll("pull-line-view")].find((v) => v.querySelector("iframe").style.height === "480px"); // as it begins
			busy?.scrollIntoView(); // frames load when they come into view
			return !busy;`), "all four are there")
		var inner struct {
			Width, Room          float64
			Stored, Origin, View string
			Focus                bool
			Bars                 []string
		}
		var outside string
		require.NoError(t, p.Script(&outside, `return document.activeElement.localName`))
		assert.Equal(t, "body", outside, "no view takes the focus")
		for i := range 4 {
			id := fmt.Sprint("view", i)
			require.NoError(t, p.Run(`document.getElementById(arguments[0]).scrollIntoView()`, id)) // out of view, frames sleep
			c.settled(t, id)
			c.inside(t, id)
			require.NoError(t, p.WaitUntil(wait, `return document.scrollingElement.scrollHeight <= innerHeight`), "%s: no inner scrolling", id)
			require.NoError(t, p.Script(&inner, `
				let stored = "";
				try { localStorage.setItem("x", "1"); stored = "kept"; } catch { stored = "denied"; }
				return { width: document.scrollingElement.scrollWidth, room: innerWidth,
					stored, origin, view: document.body.dataset.view, focus: document.activeElement !== document.body,
					bars: [...document.querySelectorAll("[data-bar]")].map((b) => b.dataset.bar) }`))
			assert.LessOrEqual(t, inner.Width, inner.Room, "%s: no sideways scrolling", id)
			assert.Equal(t, "denied", inner.Stored, id)
			assert.Equal(t, "null", inner.Origin, id)
			assert.Equal(t, []string{"bench", "bench", "practice", "fall"}[i], inner.View)
			assert.False(t, inner.Focus, id)
			assert.Subset(t, []string{"example"}, inner.Bars, id)
			require.NoError(t, p.Frame())
		}
		var sandboxes []string
		require.NoError(t, p.Script(&sandboxes, `return [...document.querySelectorAll("iframe")].map((f) => f.getAttribute("sandbox"))`))
		assert.Equal(t, []string{"allow-scripts", "allow-scripts", "allow-scripts", "allow-scripts"}, sandboxes)

		// An answer at the first bench.
		require.NoError(t, p.Run(`document.getElementById("view0").scrollIntoView()`))
		c.inside(t, "view0")
		give := func(text string) {
			box, err := p.Find("#bench-answer")
			require.NoError(t, err)
			require.NoError(t, box.Click())
			require.NoError(t, box.Type(text+Enter))
		}
		give("1")
		require.NoError(t, p.WaitUntil(wait, `return document.getElementById("bench-said").dataset.state === "wrong"`))
		require.NoError(t, p.Frame())
		require.NoError(t, p.WaitUntil(wait, `return document.querySelectorAll("#answers li").length === 1`))
		var line string
		require.NoError(t, p.Script(&line, `return document.querySelector("#answers li").textContent`))
		assert.Equal(t, "Redirect, redirect: “1” is not right yet.", line)
		shot(t, p, "answered")

		// And one on the practice sheet.
		require.NoError(t, p.Run(`document.getElementById("view2").scrollIntoView()`))
		c.inside(t, "view2")
		box, err := p.Find(".drill-answer input[type=text]")
		require.NoError(t, err)
		require.NoError(t, box.Click())
		require.NoError(t, box.Type("99"+Enter))
		require.NoError(t, p.Frame())
		require.NoError(t, p.WaitUntil(wait, `return told.some((m) => m.kind === "answer" && m.view === "practice" && m.text === "99" && m.state === "wrong" && m.seed === "7" && m.grade === "1")`))
		quiet(t, p)
	})
}

// settled waits until the frame of a view keeps its height.
func (c course) settled(t testing.TB, id string) {
	t.Helper()
	require.NoError(t, c.page.Await(nil, `
		const frame = document.querySelector("#" + args[0] + " iframe");
		for (let i = 0, before = 0; i < 40; i++) {
			const now = frame.getBoundingClientRect().height;
			if (now === before) return;
			before = now;
			await new Promise((r) => setTimeout(r, 500));
		}
		throw new Error("the height never settles");`, id))
}

func TestEmbeddedViewTellsItsHost(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		c := openCourse(t, engine, Options{}, `<pull-line-view id="job" src="SRC" plan="example" theme="dark" units="us"></pull-line-view>`)
		c.ready(t, "job")
		p := c.page

		var attributes map[string]string
		require.NoError(t, p.Script(&attributes, `return Object.fromEntries([...document.querySelector("iframe").attributes].map((a) => [a.name, a.value]))`))
		assert.Equal(t, "allow-scripts", attributes["sandbox"])
		assert.Equal(t, "lazy", attributes["loading"])
		assert.Equal(t, "no-referrer", attributes["referrerpolicy"])
		assert.NotEmpty(t, attributes["title"])

		// The plan and its verdict.
		require.NoError(t, p.WaitUntil(wait, `return told.some((m) => m.kind === "plan" && m.plan.tree && m.verdict !== "unknown")`))

		// The frame is as tall as what is in it, and stays so.
		c.settles(t, "job")
		c.inside(t, "job")
		var inner struct {
			Scroll, Client float64
			Theme          string
			Bars           []string
			Focus          bool
		}
		require.NoError(t, p.Script(&inner, `return {
			scroll: document.scrollingElement.scrollHeight, client: innerHeight, theme: document.documentElement.dataset.theme,
			bars: [...document.querySelectorAll("[data-bar]")].map((b) => b.dataset.bar), focus: document.hasFocus() }`))
		assert.LessOrEqual(t, inner.Scroll, inner.Client, "no inner scrolling")
		assert.Equal(t, "dark", inner.Theme)
		assert.Subset(t, []string{"example"}, inner.Bars, "nothing is said of storage or signals")
		require.NoError(t, p.Frame())
		var focus string
		require.NoError(t, p.Script(&focus, `return document.activeElement.id`))
		assert.Equal(t, "first", focus, "the view leaves the focus where it was")

		// What the host sets.
		require.NoError(t, p.Run(`told.length = 0; document.getElementById("job").setAttribute("theme", "light")`))
		c.inside(t, "job")
		require.NoError(t, p.WaitUntil(wait, `return document.documentElement.dataset.theme === "light"`))
		require.NoError(t, p.Frame())
		require.NoError(t, p.Run(`document.getElementById("job").set({ plan: { version: 1, name: "From the host" } })`))
		require.NoError(t, p.WaitUntil(wait, `return told.some((m) => m.kind === "plan" && m.plan.name === "From the host" && m.verdict === "unknown")`))

		require.NoError(t, p.Run(`document.getElementById("job").set({ parameters: { view: "bench", bench: "redirect", values: "included_deg:90", units: "chains" } })`))
		require.NoError(t, p.WaitUntil(wait, `return told.some((m) => m.kind === "ready" && m.view === "bench" && m.bench === "redirect")`))
		c.inside(t, "job")
		require.NoError(t, p.WaitUntil(wait, `return document.querySelector('[data-path="included_deg"] input')?.value === "90"`))
		require.NoError(t, p.WaitUntil(wait, `return /chains.*kN, tf, us/.test(document.querySelector("[data-bar=host]")?.textContent)`), "what cannot be used is named")
		require.NoError(t, p.Frame())

		// Gone, it listens no more.
		require.NoError(t, p.Run(`document.getElementById("job").remove()`))
		var frames int
		require.NoError(t, p.Script(&frames, `return document.querySelectorAll("iframe").length`))
		assert.Zero(t, frames)
		quiet(t, p)
	})
}

// settles waits until no other height is told, with the frame that tall.
func (c course) settles(t testing.TB, id string) {
	t.Helper()
	require.NoError(t, c.page.Await(nil, `
		const count = () => told.filter((m) => m.kind === "height").length;
		let before = -1;
		for (let i = 0; i < 40 && before !== count(); i++) {
			before = count();
			await new Promise((r) => setTimeout(r, 700));
		}
		if (before !== count()) throw new Error("the height never settles");
		const last = told.filter((m) => m.kind === "height" && m.id === args[0]).at(-1);
		const frame = document.querySelector("#" + args[0] + " iframe");
		if (frame.getBoundingClientRect().height !== last.height) throw new Error("the frame is not as tall as told");`, id))
}

// Only the view's own frame is heard, and only the page around the view.
func TestForgedMessagesAreIgnored(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		forge := `<iframe title="other" id="other" srcdoc="&lt;script&gt;
			for (const m of [{ pullline: 1, kind: 'answer', text: 'forged', state: 'right' }, { pullline: 1, kind: 'height', height: 5 }]) parent.postMessage(m, '*');
			parent[0].postMessage({ pullline: 1, kind: 'set', parameters: { theme: 'dark' } }, '*');
			parent.forged = true;
		&lt;/script&gt;"></iframe>`
		c := openCourse(t, engine, Options{}, `<pull-line-view id="job" src="SRC" plan="example"></pull-line-view>`)
		c.ready(t, "job")
		c.settles(t, "job")
		p := c.page
		require.NoError(t, p.Run(`told.length = 0; document.body.append(document.createRange().createContextualFragment(arguments[0]))`, forge))
		require.NoError(t, p.WaitUntil(wait, `return window.forged === true`))
		require.NoError(t, p.Run(`postMessage({ pullline: 1, kind: "answer", text: "forged", state: "right" }, "*")`))
		// Messages come in order: what is set now is heard after the forged.
		require.NoError(t, p.Run(`document.getElementById("job").set({ parameters: { units: "us" }, plan: { version: 1, name: "after" } })`))
		require.NoError(t, p.WaitUntil(wait, `return told.some((m) => m.kind === "plan" && m.plan.name === "after")`))
		var forged int
		require.NoError(t, p.Script(&forged, `return told.filter((m) => m.kind === "answer" || m.height === 5).length`))
		assert.Zero(t, forged)
		// Badly made messages of the view itself do not pass either.
		c.inside(t, "job")
		var theme string
		require.NoError(t, p.Script(&theme, `return document.documentElement.dataset.theme`))
		assert.Equal(t, "light", theme)
		require.NoError(t, p.Run(`
			for (const m of [null, 3, "x", { kind: "answer" }, { pullline: 2, kind: "answer" }, { pullline: 1, kind: "height", height: "9px" },
				{ pullline: 1, kind: "height", height: -4 }, { pullline: 1, kind: "height", height: 1e9 }, { pullline: 1, kind: "toString" }, { pullline: 1, kind: "plan", plan: 3, verdict: 3 },
				{ pullline: 1, kind: "answer", text: 7, state: "right", view: "sent" }]) parent.postMessage(m, "*");`))
		require.NoError(t, p.Frame())
		require.NoError(t, p.WaitUntil(wait, `return told.some((m) => m.view === "sent" && m.text === "")`))
		require.NoError(t, p.Script(&forged, `return told.filter((m) => m.kind === "answer").length`))
		assert.Equal(t, 1, forged)
		quiet(t, p)
	})
}

// The code that the page shows for a view, put into a page of another origin
// as it is, gives that view.
func TestSnippetGivesTheSameView(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		tool := serve(t, site(t).Site.Handler())
		p := open(t, engine, Options{})
		require.NoError(t, p.Go(tool.URL()+"?view=bench&bench=redirect&values=included_deg:110,tension_kN:7&units=us&words=uk&guess=on"))
		require.NoError(t, p.WaitUntil(wait, `return Boolean(document.querySelector('[data-path="included_deg"] input'))`))
		require.NoError(t, p.Run(`document.querySelector("[data-do=snippet]").click()`))
		require.NoError(t, p.WaitUntil(wait, `return Boolean(document.getElementById("snippet-frame"))`))
		var element, frame string
		require.NoError(t, p.Script(&element, `return document.getElementById("snippet-element").value`))
		require.NoError(t, p.Script(&frame, `return document.getElementById("snippet-frame").value`))
		for _, want := range []string{`bench="redirect"`, `guess="on"`, `units="us"`, `words="uk"`, `values="included_deg:110,tension_kN:7"`, `src="` + tool.URL() + `embed.js"`} {
			assert.Contains(t, element, want)
		}
		assert.Contains(t, frame, `sandbox="allow-scripts"`)

		// Copied, or marked for the person to copy.
		require.NoError(t, p.Run(`document.querySelector("[data-do=copy-snippet-element]").click()`))
		require.NoError(t, p.WaitUntil(wait, `return /^(Copied|It is marked)/.test(document.querySelector("dialog .sent-word").textContent)`))
		shot(t, p, "dialog")
		quiet(t, p)

		for what, code := range map[string]string{"element": element, "frame": frame} {
			host := serve(t, build.Files{"index.html": []byte(`<!doctype html><html lang="en"><meta charset="utf-8"><link rel="icon" href="data:,"><title>Course</title>` + code)}.Handler())
			require.NoError(t, p.Go(host.URL()))
			inner, err := p.WaitFor("iframe", wait)
			require.NoError(t, err, what)
			require.NoError(t, p.Frame(inner))
			require.NoError(t, p.WaitUntil(wait, `return Boolean(document.querySelector('[data-path="included_deg"] input'))`), what)
			var angle string
			require.NoError(t, p.Script(&angle, `return document.querySelector('[data-path="included_deg"] input').value`))
			assert.Equal(t, "110", angle, what)
			var unit string
			require.NoError(t, p.Script(&unit, `return document.getElementById("bench-answer-unit").textContent`))
			assert.Contains(t, unit, "lbf", what)
			require.NoError(t, p.Frame())
			quiet(t, p)
		}
	})
}
