package browser

import (
	"encoding/json"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/wasm/page"
)

// The helpers here work the page as a person does: they click, type and drag,
// and read what is shown.

// fresh opens the page with the example, in an origin of its own.
func fresh(t testing.TB, engine string, o Options) (*Page, *Server) {
	t.Helper()
	s := serve(t, site(t).Site.Handler())
	p := open(t, engine, o)
	visit(t, p, s.URL())
	settle(t, p)
	return p, s
}

// settle waits until nothing is left to be drawn: the form and the working
// follow a change after a short rest.
func settle(t testing.TB, p *Page) {
	t.Helper()
	require.NoError(t, p.Await(nil, ownModules+until+`
		const { state } = await module("state");
		const frame = () => new Promise((r) => requestAnimationFrame(r));
		await frame(); await frame();
		await until(() => state.view && !state.light);
		await frame();`))
}

// unfold opens every section of the form, also those that only open ones
// hold.
func unfold(t testing.TB, p *Page) {
	t.Helper()
	require.NoError(t, p.Await(nil, `
		for (let i = 0; i < 20; i++) {
			const shut = document.querySelectorAll("details.section:not([open])");
			if (!shut.length) return;
			for (const d of shut) d.open = true;
			await new Promise((r) => setTimeout(r, 30));
		}`))
}

// reveal opens the sections of the form that hold a path, until what is
// looked for is there.
func reveal(t testing.TB, p *Page, path, css string) Element {
	t.Helper()
	require.NoError(t, p.Await(nil, until+`
		const [path, css] = args;
		await until(() => {
			for (const d of document.querySelectorAll("details.section:not([open])")) {
				const id = d.dataset.section;
				if (path === id || path.startsWith(id + ".") || path.startsWith(id + "[")) d.open = true;
			}
			return document.querySelector(css);
		});`, path, css))
	e, err := p.Find(css)
	require.NoError(t, err, path)
	return e
}

func inputAt(t testing.TB, p *Page, path string) Element {
	t.Helper()
	return reveal(t, p, path, `.field[data-path="`+path+`"] :is(input, select, textarea)`)
}

// typeInto puts a text in place of what a field holds, key by key.
func typeInto(t testing.TB, p *Page, path, text string) {
	t.Helper()
	e := inputAt(t, p, path)
	require.NoError(t, p.Run("arguments[0].scrollIntoView({block: 'center', behavior: 'instant'}); arguments[0].focus(); arguments[0].select()", e))
	if text == "" {
		require.NoError(t, p.Press(Delete))
		return
	}
	require.NoError(t, p.Press(strings.Split(text, "")...))
}

// leave takes the focus out of the field.
func leave(t testing.TB, p *Page) {
	t.Helper()
	require.NoError(t, p.Run("document.activeElement.blur()"))
	settle(t, p)
}

func fieldText(t testing.TB, p *Page, path string) (text string) {
	t.Helper()
	require.NoError(t, p.Script(&text, "return arguments[0].value", inputAt(t, p, path)))
	return text
}

// press presses the first button shown that a selector matches.
func press(t testing.TB, p *Page, css string) {
	t.Helper()
	_, err := p.WaitFor(css, wait)
	require.NoError(t, err, css)
	require.NoError(t, p.Run("document.querySelector(arguments[0]).click()", css))
	settle(t, p)
}

// do presses a button of the form that adds, moves or removes a part.
func do(t testing.TB, p *Page, what, path string) {
	t.Helper()
	css := `button[data-do="` + what + `"][data-path="` + path + `"]`
	reveal(t, p, path, css)
	press(t, p, css)
}

// planOf gives the plan the page holds, as it would be written to a file.
func planOf(t testing.TB, p *Page) string {
	t.Helper()
	var text string
	require.NoError(t, p.Await(&text, ownModules+`return JSON.stringify((await module("state")).state.plan)`))
	return text
}

// number gives a number of the plan the page holds.
func number(t testing.TB, p *Page, path ...any) float64 {
	t.Helper()
	var v any
	require.NoError(t, json.Unmarshal([]byte(planOf(t, p)), &v))
	for _, key := range path {
		switch key := key.(type) {
		case string:
			v = v.(map[string]any)[key]
		case int:
			v = v.([]any)[key]
		}
	}
	n, ok := v.(float64)
	require.True(t, ok, "%v is %v", path, v)
	return n
}

// shown is what a person reads on the page.
type shown struct {
	Verdict, Word, Sentence, Stall string
	Facts                          [][]string // label, value
	Pieces                         [][]string
	Stale                          bool
	Problems                       int
}

func read(t testing.TB, p *Page) (s shown) {
	t.Helper()
	require.NoError(t, p.Script(&s, `
		const text = (n) => n ? n.textContent : "";
		const id = (i) => document.getElementById(i);
		return {
			verdict: id("verdict").dataset.verdict, word: text(id("verdict-word")), sentence: text(id("verdict-sentence")),
			stall: id("verdict-most").hidden ? "" : text(id("verdict-most")),
			facts: [...document.querySelectorAll("#facts .fact")].map((f) => [text(f.querySelector("dt")), text(f.querySelector(".value"))]),
			pieces: [...document.querySelectorAll("#pieces-table tbody tr")].map((row) => [
				text(row.querySelector("th :is(button, strong)")), row.dataset.state,
				...[".limit", ".load", ".planned-use .use", ".planned-use .word", ".most-load", ".most-use .use", ".most-use .word"].map((c) => text(row.querySelector(c))),
			]),
			stale: id("drawings").dataset.stale === "true",
			problems: document.querySelectorAll(".problems li").length,
		};`))
	return s
}

// native is the same computed by the same code without a browser.
func native(t testing.TB, plan, units string) (s shown) {
	t.Helper()
	var v page.View
	request := `{"plan":` + plan + `,"settings":{"units":` + strconv.Quote(units) + `},"boxes":{}}`
	require.NoError(t, json.Unmarshal(page.JSON([]byte(request)), &v))
	s = shown{Verdict: v.Headline.Verdict, Word: v.Headline.Word, Sentence: v.Headline.Sentence, Stall: v.Headline.AtMostText, Problems: len(v.Problems)}
	for _, f := range v.Facts {
		s.Facts = append(s.Facts, []string{f.Label, f.Value})
	}
	for _, p := range v.Pieces {
		s.Pieces = append(s.Pieces, []string{p.Title, p.Verdict, p.Capacity, p.Load, p.Use, p.Word, p.AtMostLoad, p.AtMostUse, p.AtMostWord})
	}
	require.NotEmpty(t, s.Facts)
	return s
}

// agrees asserts that the page shows what the code computes natively for the
// plan the page holds.
func agrees(t testing.TB, p *Page, units string) {
	t.Helper()
	assert.Equal(t, native(t, planOf(t, p), units), read(t, p))
}

// handleAt gives the middle of a handle in the viewport, scrolled into view.
func handleAt(t testing.TB, p *Page, id string) (x, y float64) {
	t.Helper()
	css := `[data-handle="` + id + `"]`
	_, err := p.WaitFor(css, wait)
	require.NoError(t, err)
	var at struct{ X, Y float64 }
	require.NoError(t, p.Script(&at, `
		const handle = document.querySelector(arguments[0]);
		handle.closest("svg").scrollIntoView({block: "center", behavior: "instant"});
		const r = handle.querySelector(".handle-ring").getBoundingClientRect();
		return {x: r.x + r.width / 2, y: r.y + r.height / 2};`, css))
	return at.X, at.Y
}
