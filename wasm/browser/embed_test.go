package browser

import (
	"fmt"
	"html"
	"net/http"
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
				{ pullline: 1, kind: { toString: 3 } }, { pullline: 1, kind: ["ready"] }, { pullline: 1, kind: "__proto__" }, { pullline: 1, kind: "height", height: NaN },
				{ pullline: 1, kind: "plan", plan: { n: 1n }, verdict: "within" }, { pullline: 1, kind: "plan", plan: [1], verdict: "within" }, { pullline: 1, kind: "plan", plan: {}, verdict: "fine" },
				{ pullline: 1, kind: "plan", plan: { name: "x".repeat(1e6) }, verdict: "within" }, { pullline: 1, kind: "answer", state: "perfect" },
				{ pullline: 1, kind: "answer", text: 7, state: "right", view: "sent", id: "x".repeat(1e6) }]) parent.postMessage(m, "*");
			const loop = { pullline: 1, kind: "plan", plan: {}, verdict: "within" };
			loop.plan.loop = loop;
			parent.postMessage(loop, "*");
			parent.postMessage({ pullline: 1, kind: "height", height: 777 }, "*");`))
		require.NoError(t, p.Frame())
		require.NoError(t, p.WaitUntil(wait, `return told.some((m) => m.view === "sent" && m.text === "" && m.id.length === 1000)`))
		require.NoError(t, p.WaitUntil(wait, `return told.some((m) => m.height === 777)`))
		var plans []string
		require.NoError(t, p.Script(&plans, `return told.filter((m) => m.kind === "plan").map((m) => m.plan.name)`))
		assert.Subset(t, []string{"after", "Example: back-leaning pine by the yard (invented)"}, plans, "no plan but the view's own")
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
		require.NoError(t, p.WaitUntil(wait, `return /^(Copied|Selected)/.test(document.querySelector("dialog .sent-word").textContent)`))
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

// What the page around asks in a wrong way is refused in words, and the view
// works on.
func TestWrongRequestsOfTheHost(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		c := openCourse(t, engine, Options{}, `<pull-line-view id="job" src="SRC" plan="example"></pull-line-view>`)
		c.ready(t, "job")
		p := c.page
		require.NoError(t, p.Run(`
			const loop = { version: 1 };
			loop.tree = loop;
			const frame = document.querySelector("#job iframe").contentWindow;
			const set = (more) => frame.postMessage({ pullline: 1, kind: "set", ...more }, "*");
			for (const m of [null, 7, "set", { pullline: 1 }, { pullline: "1", kind: "set", parameters: { theme: "dark" } }]) frame.postMessage(m, "*");
			set({ parameters: null, plan: null });
			set({ parameters: [1], plan: [1] });
			set({ parameters: { toString: 1, view: {}, units: ["us", "kN"] } });
			set({ parameters: { bench: "q".repeat(1e5), plan: "no code" } });
			set({ plan: loop });
			set({ plan: { version: 1, name: 10n } });
			set({ plan: { version: 1, name: "y".repeat(1e6) } });
			set({ plan: JSON.parse('{ "version": 1, "__proto__": {} }') });`))
		c.inside(t, "job")
		require.NoError(t, p.WaitUntil(wait, `return /cannot be done. This is not a plan: it holds a name that no plan has/.test(document.querySelector("[data-bar=host]")?.textContent)`))
		var wide float64
		require.NoError(t, p.Script(&wide, `return document.scrollingElement.scrollWidth - innerWidth`))
		assert.LessOrEqual(t, wide, 0.0, "no message makes the view too wide")
		require.NoError(t, p.Frame())
		require.NoError(t, p.Run(`document.getElementById("job").set({ plan: { version: 1, name: "after", tree: { height_m: NaN } } })`))
		require.NoError(t, p.WaitUntil(wait, `return told.some((m) => m.kind === "plan" && m.plan.name === "after" && m.verdict === "unknown")`))
		quiet(t, p)
	})
}

// The job in a frame is a few screens tall: below the drawings its parts are
// closed until they are opened, or something leads into them.
func TestFramedJobFitsItsFrame(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		c := openCourse(t, engine, Options{Width: 820, Height: 1180}, `<pull-line-view id="job" src="SRC" plan="example"></pull-line-view>`)
		c.ready(t, "job")
		p := c.page
		require.NoError(t, p.WaitUntil(wait, `return told.some((m) => m.kind === "plan")`))
		c.settles(t, "job")
		var height float64
		require.NoError(t, p.Script(&height, `return document.querySelector("iframe").getBoundingClientRect().height`))
		assert.Less(t, height, 1700.0)
		shot(t, p, "closed")

		require.NoError(t, p.Run(`document.getElementById("job").scrollIntoView({ block: "end" })`)) // a driver does not scroll the page around a frame
		c.inside(t, "job")
		require.NoError(t, p.WaitUntil(wait, `return document.querySelector("#pieces .fold-count").textContent !== "" && document.getElementById("pieces-table").getBoundingClientRect().height === 0`))
		head, err := p.Find("#pieces .fold")
		require.NoError(t, err)
		require.NoError(t, head.Click())
		require.NoError(t, p.WaitUntil(wait, `return document.getElementById("pieces-table").getBoundingClientRect().height > 0`))
		require.NoError(t, p.WaitUntil(wait, `return document.scrollingElement.scrollHeight <= innerHeight`), "the frame has grown")
		require.NoError(t, p.Run(`
			document.querySelector("#cautions .fold").click();
			[...document.querySelectorAll("#cautions button")].find((b) => b.textContent === "Show it in the form").click();`))
		require.NoError(t, p.WaitUntil(wait, `return document.querySelector("#form .fold").getAttribute("aria-expanded") === "true" && document.getElementById("form-sections").getBoundingClientRect().height > 0`))
		require.NoError(t, p.Frame())
		quiet(t, p)
	})
}

// A plan of the host's own is shown whenever it is given; views of one page
// do not hear each other's; gone and put back, a view begins with what it was
// asked for.
func TestPlanOfTheHost(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		c := openCourse(t, engine, Options{}, `<pull-line-view id="bench" src="SRC" view="bench" bench="drum"></pull-line-view><div id="room"></div>`)
		c.ready(t, "bench")
		p := c.page
		// Not yet an element of embed.js when it gets its plan.
		require.NoError(t, p.Run(`
			const view = document.implementation.createHTMLDocument("").createElement("pull-line-view");
			view.id = "job";
			view.setAttribute("src", document.getElementById("bench").getAttribute("src"));
			view.textContent = "Something else to read";
			view.plan = { version: 1, name: "early" };
			document.getElementById("room").append(view);
			view.set({ parameters: { theme: "dark", units: "us" } });
			view.scrollIntoView();`))
		require.NoError(t, p.WaitUntil(wait, `return told.some((m) => m.id === "job" && m.kind === "plan" && m.plan.name === "early")`))
		var is struct {
			Name, Text string
			Of         []string
		}
		require.NoError(t, p.Script(&is, `
			const job = document.getElementById("job");
			return { name: job.plan.name, text: job.textContent, of: told.filter((m) => m.kind === "plan").map((m) => m.id) }`))
		assert.Equal(t, "early", is.Name)
		assert.Empty(t, is.Text, "what stood for the view is gone")
		assert.NotContains(t, is.Of, "bench", "a bench has no plan to tell")

		require.NoError(t, p.Run(`
			told.length = 0;
			const view = document.getElementById("job");
			view.remove();
			document.body.append(view);
			view.scrollIntoView();`))
		require.NoError(t, p.WaitUntil(wait, `return told.some((m) => m.id === "job" && m.kind === "plan" && m.plan.name === "early")`))
		c.inside(t, "job")
		require.NoError(t, p.WaitUntil(wait, `return document.documentElement.dataset.theme === "dark"`))
		require.NoError(t, p.Frame())
		require.NoError(t, p.Run(`told.length = 0; document.getElementById("bench").setAttribute("bench", "lean")`))
		require.NoError(t, p.WaitUntil(wait, `return told.some((m) => m.id === "bench" && m.kind === "ready" && m.bench === "lean")`))
		require.NoError(t, p.Run(`told.length = 0; const b = document.getElementById("bench"); b.removeAttribute("bench"); b.scrollIntoView()`))
		require.NoError(t, p.WaitUntil(wait, `return told.some((m) => m.id === "bench" && m.kind === "ready" && m.view === "bench" && m.bench !== "lean")`))
		var others int
		require.NoError(t, p.Script(&others, `return told.filter((m) => m.id === "job" && m.kind === "ready").length`))
		assert.Zero(t, others)
		quiet(t, p)
	})
}

// A host with a strict policy, a copy of embed.js and an address that leads
// nowhere: the reader is told what is not there.
func TestElementSaysWhatDoesNotComeUp(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		files := site(t).Site
		tool := serve(t, build.Files{"pullline.html": files["pullline.html"], "nothing.html": []byte(`<!doctype html><title>Nothing</title>`)}.Handler())
		origin := strings.TrimSuffix(tool.URL(), "/")
		host := serve(t, build.Files{"embed.js": files["embed.js"], "index.html": []byte(`<!doctype html><html lang="en"><meta charset="utf-8"><title>Course</title>
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src 'self'; style-src 'self'; img-src data:; frame-src ` + origin + `"><link rel="icon" href="data:,">
<script src="embed.js"></script>
<pull-line-view id="there" src="` + origin + `/pullline.html" view="bench" bench="drum" height="300"></pull-line-view>
<pull-line-view id="script" src="javascript:alert(1)"></pull-line-view>
<pull-line-view id="broken" src="http://"></pull-line-view>
<pull-line-view id="empty" src="` + origin + `/nothing.html"></pull-line-view>`)}.Handler())
		p := open(t, engine, Options{})
		require.NoError(t, p.Go(host.URL()))
		inner, err := p.WaitFor("#there iframe", wait)
		require.NoError(t, err)
		require.NoError(t, p.WaitUntil(wait, `return parseFloat(document.querySelector("#there iframe").style.height) !== 480`))
		require.NoError(t, p.Frame(inner))
		require.NoError(t, p.WaitUntil(wait, `return /“height” in the address was ignored/.test(document.querySelector("[data-bar=address]")?.textContent)`), "an attribute that is none is named")
		require.NoError(t, p.Frame())
		require.NoError(t, p.WaitUntil(wait, `
			document.getElementById("empty").scrollIntoView();
			const said = (id) => document.getElementById(id).textContent;
			return said("there") === "" && /javascript:alert\(1\).*is no address/.test(said("script")) && /is no address/.test(said("broken")) &&
				/has not come up here. Open it on its own/.test(said("empty"));`))
	})
}

// Scripts of another website may import the calculator where the server
// allows it, and nothing they give it is ever called within its limit.
func TestCalculatorFromAnotherOrigin(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		files := site(t).Site.Handler()
		tool := serve(t, http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			w.Header().Set("Access-Control-Allow-Origin", "*")
			files.ServeHTTP(w, r)
		}))
		host := serve(t, build.Files{"index.html": []byte(`<!doctype html><html lang="en"><meta charset="utf-8"><title>Course</title><link rel="icon" href="data:,">`)}.Handler())
		p := open(t, engine, Options{})
		require.NoError(t, p.Go(host.URL()))
		var found struct {
			Example, Again, Other string
			Same                  bool
			Bad                   map[string]string
		}
		require.NoError(t, p.Await(&found, `
			const { load, demo } = await import(args[0] + "rigging.js");
			const [calculator, same] = await Promise.all([load(), load()]);
			const plan = await demo();
			const with_ = (height_m) => ({ ...plan, tree: { ...plan.tree, height_m } });
			const loop = { ...plan };
			loop.tree = loop;
			const bad = {
				undefined, null: null, text: "x", loop, bigint: 1n, inside: with_(1n), nan: with_(NaN), infinite: with_(Infinity), text_inside: with_("29"), missing: with_(undefined),
				getter: { ...plan, get tree() { throw new Error("no"); } }, proxy: new Proxy(plan, { get() { throw new Error("no"); } }), revoked: (() => { const p = Proxy.revocable({}, {}); p.revoke(); return p.proxy; })(),
				huge: { ...plan, points: Array.from({ length: 20000 }, (_, i) => ({ id: String(i) })) }, json: { toJSON() { throw new Error("no"); } }, lie: with_(Object.assign(new Number(29), { valueOf: () => NaN })),
				map: new Map(Object.entries(plan)), list: [plan], inherited: Object.create(plan), function: () => plan,
			};
			const out = {};
			for (const [name, value] of Object.entries(bad)) {
				try {
					const { verdict, at_most_verdict, problems } = calculator.evaluate(value);
					out[name] = verdict + " " + at_most_verdict + " " + (problems.length > 0);
				} catch (err) {
					out[name] = "thrown: " + err;
				}
			}
			const second = await import(args[0] + "rigging.js?again");
			const other = await second.load();
			return { example: calculator.evaluate(plan).verdict, again: (await load()).evaluate(plan).verdict, other: other.evaluate(plan).verdict, same: calculator === same, bad: out };`, tool.URL()))
		assert.Equal(t, []string{"within", "within", "within"}, []string{found.Example, found.Again, found.Other})
		assert.True(t, found.Same)
		assert.Len(t, found.Bad, 20)
		for name, said := range found.Bad {
			assert.Equal(t, "unknown unknown true", said, name)
		}
		quiet(t, p)
	})
}
