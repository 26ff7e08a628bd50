package browser

import (
	"encoding/json"
	"fmt"
	"html"
	"math"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging/plan"
	"pullline/wasm/site/build"
)

// verdicts are the only words that a verdict may be.
var verdicts = []string{"within", "near", "over", "unknown"}

func verdict(t testing.TB, p *Page) string {
	t.Helper()
	e, err := p.WaitFor("[data-start=done] [data-verdict]", wait)
	require.NoError(t, err)
	word, err := e.Attribute("data-verdict")
	require.NoError(t, err)
	return word
}

func TestPageOpens(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		s := serve(t, site(t).Site.Handler())
		p := open(t, engine, Options{})
		visit(t, p, s.URL())
		assert.Contains(t, verdicts, verdict(t, p))
		assert.NotEqual(t, "unknown", verdict(t, p), "the demonstration plan is whole")
		shot(t, p, "desktop")
	})
}

// The site works from any path of a host.
func TestPageOpensBelowAPath(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		s := serve(t, http.StripPrefix("/a/b", site(t).Site.Handler()))
		p := open(t, engine, Options{})
		visit(t, p, s.URL()+"a/b/?x=1#y")
		for _, asked := range s.Asked() {
			assert.Contains(t, asked, "/a/b/")
		}
	})
}

// A host that declares .gz files as a compressed transfer is no obstacle.
func TestPageOpensOnAHostThatDeclaresCompression(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		files := site(t).Site.Handler()
		s := serve(t, http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			if strings.HasSuffix(r.URL.Path, ".gz") {
				w.Header().Set("Content-Encoding", "gzip")
			}
			w.Header().Set("Content-Security-Policy", "frame-ancestors 'self'")
			files.ServeHTTP(w, r)
		}))
		p := open(t, engine, Options{})
		stored(t, p, s.URL())
		assert.NotEqual(t, "unknown", verdict(t, p), "the demonstration plan is whole")
		withoutSignal(t, p, s)
		assert.NotEqual(t, "unknown", verdict(t, p), "it is stored inflated")
		var policy string
		require.NoError(t, p.Await(&policy, `return (await fetch("./")).headers.get("Content-Security-Policy")`))
		assert.Equal(t, "frame-ancestors 'self'", policy, "what the host says of frames holds for the stored page too")
	})
}

// No other origin is asked: neither by what the page's own record of
// requests says, nor by a name other than this server's.
func TestNoOtherOriginIsAsked(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		s := serve(t, site(t).Site.Handler())
		p := open(t, engine, Options{})
		visit(t, p, s.URL())
		var names []string
		require.NoError(t, p.Script(&names, "return performance.getEntriesByType('resource').map((e) => e.name)"))
		assert.NotEmpty(t, names)
		for _, name := range names {
			assert.True(t, strings.HasPrefix(name, s.URL()) || strings.HasPrefix(name, "data:") || strings.HasPrefix(name, "blob:"), name)
		}
		host := strings.TrimSuffix(strings.TrimPrefix(s.URL(), "http://"), "/")
		for _, asked := range s.Asked() {
			assert.True(t, strings.HasPrefix(asked, host+"/"), asked)
		}
		// The policy stops what a script might try.
		var blocked bool
		require.NoError(t, p.Await(&blocked, `
			const other = location.href.replace("localhost", "127.0.0.1");
			try { await fetch(other, {mode: "no-cors"}); return false; } catch { return true; }`))
		assert.True(t, blocked, "the policy allows no other origin")
	})
}

// hostile are inputs no page should send; as JavaScript, because JSON has no
// words for most of them.
var hostile = map[string]string{
	"nothing":             "undefined",
	"null":                "null",
	"text":                `"plan"`,
	"empty text":          `""`,
	"number":              "7",
	"not a number":        "NaN",
	"infinity":            "Infinity",
	"big integer":         "10n",
	"symbol":              "Symbol('x')",
	"function":            "() => 1",
	"true":                "true",
	"array":               "[]",
	"empty object":        "{}",
	"map":                 "new Map([['version', 1]])",
	"date":                "new Date()",
	"cycle":               "(() => { const o = {version: 1}; o.o = o; return o; })()",
	"throwing getter":     "({get version() { throw new Error('no'); }})",
	"throwing toJSON":     "({toJSON() { throw new Error('no'); }})",
	"proxy":               "new Proxy({}, {ownKeys() { throw new Error('no'); }})",
	"deep":                "(() => { let o = {}; for (let i = 0; i < 5000; i++) o = {tree: o}; return o; })()",
	"very deep":           "(() => { let o = []; for (let i = 0; i < 1e6; i++) o = [o]; return o; })()",
	"huge text":           "({version: 1, name: 'x'.repeat(5e6)})",
	"broken text":         `({version: 1, name: "\ud800\u0000"})`,
	"prototype":           `JSON.parse('{"__proto__": {"verdict": "within"}}')`,
	"demo, NaN height":    "({...demo, tree: {...demo.tree, height_m: NaN}})",
	"demo, NaN object":    "({...demo, tree: {...demo.tree, height_m: new Number(NaN)}})",
	"demo, infinite pull": "({...demo, planned_kN: Infinity})",
	"demo, text height":   `({...demo, tree: {...demo.tree, height_m: "28"}})`,
	"demo, null height":   "({...demo, tree: {...demo.tree, height_m: null}})",
	"demo, big integer":   "({...demo, planned_kN: 25n})",
	"demo, function":      "({...demo, planned_kN: () => 25})",
	"demo, no lines":      "({...demo, lines: []})",
	"demo, null lines":    "({...demo, lines: null})",
	"demo, lines of null": "({...demo, lines: [null]})",
	"demo, minus pull":    "({...demo, planned_kN: -25})",
	"demo, huge height":   "({...demo, tree: {...demo.tree, height_m: 1e308}})",
	"demo, tiny diameter": "({...demo, tree: {...demo.tree, diameter_cm: 5e-324}})",
}

// Whatever the calculator is given it answers with a report; and what is not
// a plan is never judged to be within.
func TestHostileInputs(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		s := serve(t, site(t).Site.Handler())
		p := open(t, engine, Options{})
		visit(t, p, s.URL())
		script := "const module = await import(new URL('rigging.js', location.href)); const c = await module.load(); const demo = await module.demo(); const out = {};\n"
		for name, expression := range hostile {
			quoted, err := json.Marshal(name)
			require.NoError(t, err)
			script += "out[" + string(quoted) + "] = (() => { try { return c.evaluate(" + expression + "); } catch (e) { return {thrown: String(e)}; } })();\n"
		}
		script += `out["afterwards"] = c.evaluate(demo); out["same"] = {verdict: String(await module.load() === c)}; return out;`
		var reports map[string]struct {
			Thrown, Verdict string
			Problems        []struct{ Path, Message string }
		}
		require.NoError(t, p.Await(&reports, script))
		for name := range hostile {
			r := reports[name]
			assert.Empty(t, r.Thrown, name)
			assert.Equal(t, "unknown", r.Verdict, name)
			if assert.NotEmpty(t, r.Problems, name) {
				assert.NotEmpty(t, r.Problems[0].Message, name)
			}
		}
		assert.NotEqual(t, "unknown", reports["afterwards"].Verdict, "the calculator works on")
		assert.Equal(t, "true", reports["same"].Verdict, "load gives the same calculator again")
	})
}

// What the page computes is what the same code computes natively.
func TestReportEqualsNative(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		s := serve(t, site(t).Site.Handler())
		p := open(t, engine, Options{})
		visit(t, p, s.URL())
		var answer struct {
			Report any
			Text   string // the plan as the page sent it
		}
		require.NoError(t, p.Await(&answer, `
			const { load, demo } = await import(new URL("rigging.js", location.href));
			const plan = await demo();
			return {report: (await load()).evaluate(plan), text: JSON.stringify(plan)};`))
		var native any
		require.NoError(t, json.Unmarshal(plan.EvaluateJSON([]byte(answer.Text)), &native))
		same(t, "report", native, answer.Report)
	})
}

// tolerance is relative: Go computes exponentials and powers differently per
// architecture, in the last bits; searches and sums may carry that further.
const tolerance = 1e-9

// same asserts that two JSON values are the same, numbers within tolerance.
func same(t *testing.T, path string, want, got any) {
	switch want := want.(type) {
	case map[string]any:
		object, ok := got.(map[string]any)
		if assert.True(t, ok, path) && assert.Len(t, object, len(want), path) {
			for key := range want {
				same(t, path+"."+key, want[key], object[key])
			}
		}
	case []any:
		list, ok := got.([]any)
		if assert.True(t, ok, path) && assert.Len(t, list, len(want), path) {
			for i := range want {
				same(t, fmt.Sprintf("%s[%d]", path, i), want[i], list[i])
			}
		}
	case float64:
		assert.InDelta(t, want, got, tolerance*max(1, math.Abs(want)), path)
	default:
		assert.Equal(t, want, got, path)
	}
}

// A page that was opened once opens without a signal.
func TestReloadWithoutSignal(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		s := serve(t, site(t).Site.Handler())
		p := open(t, engine, Options{})
		// Not left before it is stored: a WebKit whose page goes away just as it
		// registers its worker may leave that installing for good.
		stored(t, p, s.URL())
		before := verdict(t, p)

		s.Leave()
		visit(t, p, s.URL()+"?another=query")
		assert.Equal(t, before, verdict(t, p))
		require.NoError(t, p.Reload())
		assert.Equal(t, before, verdict(t, p))
		var keys []string
		require.NoError(t, p.Await(&keys, "return await caches.keys()"))
		assert.ElementsMatch(t, []string{"pullline /", "pullline-" + site(t).Version + " /"}, keys)
		require.NoError(t, s.Return())
	})
}

// singleFile writes the single-file page to disk and gives its address.
func singleFile(t testing.TB) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "pullline.html")
	require.NoError(t, os.WriteFile(file, site(t).Single, 0o644))
	return "file://" + file
}

func TestSingleFileOpensFromDisk(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p := open(t, engine, Options{})
		visit(t, p, singleFile(t))
		assert.NotEqual(t, "unknown", verdict(t, p), "the demonstration plan is whole")
		shot(t, p, "from-disk")
	})
}

// A course page may embed the single file in a sandboxed frame, from a page
// of another origin or as the frame's own text.
func TestSingleFileInASandboxedFrame(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		tool := serve(t, build.Files{"pullline.html": site(t).Single}.Handler())
		for how, attribute := range map[string]string{
			"by address": `src="` + tool.URL() + `pullline.html"`,
			"as text":    `srcdoc="` + html.EscapeString(string(site(t).Single)) + `"`,
		} {
			course := serve(t, build.Files{"index.html": []byte(`<!doctype html><html lang="en"><meta charset="utf-8"><title>Course</title>
<iframe title="tool" sandbox="allow-scripts" style="width: 100%; height: 700px" ` + attribute + `></iframe>`)}.Handler())
			p := open(t, engine, Options{})
			require.NoError(t, p.Go(course.URL()))
			frame, err := p.Find("iframe")
			require.NoError(t, err)
			require.NoError(t, p.Frame(frame))
			assert.NotEqual(t, "unknown", verdict(t, p), how)
			require.NoError(t, p.Frame())
			shot(t, p, "embedded "+how)
		}
	})
}

// Neither page fails at anything, or tries what its policy forbids.
func TestNoComplaints(t *testing.T) {
	s := serve(t, site(t).Site.Handler())
	for what, url := range map[string]string{"site": s.URL(), "single file": singleFile(t)} {
		p := open(t, "chromium", Options{})
		visit(t, p, url)
		lines, err := p.Complaints()
		require.NoError(t, err)
		assert.Empty(t, lines, what)
		require.NoError(t, p.Run("console.error('one')"))
		lines, err = p.Complaints()
		require.NoError(t, err)
		assert.Len(t, lines, 1, "complaints are heard")
	}
}

// The picture fits a phone without scrolling sideways, and a projector.
func TestFitsTheScreen(t *testing.T) {
	s := serve(t, site(t).Site.Handler())
	for name, o := range map[string]Options{
		"small":     {Width: 320, Height: 640, Touch: true},
		"phone":     {Width: 360, Height: 740, Touch: true},
		"projector": {Width: 1920, Height: 1080},
	} {
		t.Run(name, func(t *testing.T) {
			p := open(t, "chromium", o)
			visit(t, p, s.URL())
			var width int
			require.NoError(t, p.Script(&width, "return document.documentElement.scrollWidth"))
			assert.LessOrEqual(t, width, o.Width, "no sideways scrolling")
			settle(t, p)
			unfold(t, p)
			require.NoError(t, p.Run("for (const d of document.querySelectorAll('details')) d.open = true; document.getElementById('menu-button').click()"))
			require.NoError(t, p.Script(&width, "return document.documentElement.scrollWidth"))
			assert.LessOrEqual(t, width, o.Width, "with everything open")
			require.NoError(t, p.Run("document.getElementById('menu-button').click()"))
			shot(t, p, "screen")
		})
	}
}

// The page is light or dark as chosen, and as the device is set where that is
// chosen: light ink on a dark ground or the other way round.
func TestLightAndDark(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		for _, c := range []struct {
			theme       string
			device, has bool // dark
		}{{"light", true, false}, {"dark", false, true}, {"auto", false, false}, {"auto", true, true}} {
			if c.device && engine != "chromium" {
				continue
			}
			p := open(t, engine, Options{Dark: c.device})
			visit(t, p, serve(t, site(t).Site.Handler()).URL()+"?theme="+c.theme)
			var dark bool
			require.NoError(t, p.Script(&dark, `
				const style = getComputedStyle(document.body);
				const light = (colour) => colour.match(/\d+/g).slice(0, 3).map(Number).reduce((a, b) => a + b);
				return light(style.color) > light(style.backgroundColor);`))
			assert.Equal(t, c.has, dark, "%+v", c)
		}
	})
}
