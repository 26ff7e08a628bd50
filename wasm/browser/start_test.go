package browser

import (
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/wasm/site/build"
)

// without serves the site to a browser that lacks something: a script that
// takes it away runs before all others.
func without(files build.Files, script string) http.Handler {
	page := strings.Replace(string(files["index.html"]), `<script src="start.js`, `<script src="away.js"></script><script src="start.js`, 1)
	return but(files, map[string]http.HandlerFunc{"": body("index.html", []byte(page)), "away.js": body("away.js", []byte(script)), "worker.js": status(404)})
}

// never does not answer before the request is given up.
func never(_ http.ResponseWriter, r *http.Request) { <-r.Context().Done() }

// notStarted waits until the page says that it has not started, and checks
// that it offers nothing to press or to type into and shows no verdict.
func notStarted(t testing.TB, p *Page) (said string) {
	t.Helper()
	require.NoError(t, p.WaitUntil(wait, `return document.getElementById("fatal")?.hidden === false`))
	require.NoError(t, p.Script(&said, `return document.getElementById("fatal").innerText`))
	require.Empty(t, onOffer(t, p))
	var judged bool
	require.NoError(t, p.Script(&judged, `return Boolean(document.querySelector("[data-verdict]"))`))
	assert.False(t, judged)
	return said
}

// onOffer gives what can be pressed or typed into, but for the ways on.
func onOffer(t testing.TB, p *Page) (list []string) {
	t.Helper()
	require.NoError(t, p.Script(&list, `
		return [...document.querySelectorAll("button, input, select, textarea, summary, a[href]")]
			.filter((e) => e.getClientRects().length && getComputedStyle(e).visibility === "visible" && !e.closest("#fatal, .skip")).map((e) => e.outerHTML)`))
	return list
}

// A page that does not start says what is missing and what to do.
func TestStartFailures(t *testing.T) {
	type failure struct {
		host func(build.Files) http.Handler
		says string
	}
	missing := func(name string, h http.HandlerFunc) func(build.Files) http.Handler {
		return func(f build.Files) http.Handler { return but(f, map[string]http.HandlerFunc{name: h}) }
	}
	more := func(name, text string) func(build.Files) http.Handler {
		return func(f build.Files) http.Handler {
			return but(f, map[string]http.HandlerFunc{name: body(name, append([]byte(text), f[name]...))})
		}
	}
	lacks := func(script string) func(build.Files) http.Handler {
		return func(f build.Files) http.Handler { return without(f, script) }
	}
	failures := map[string]failure{
		"script 404":                 {missing("page.js", status(404)), "page.js"},
		"script 500":                 {missing("page.js", status(500)), "page.js"},
		"script is a login page":     {missing("page.js", portal), "page.js"},
		"script does not parse":      {more("page.js", "const = ;\n"), "The browser says"},
		"script throws":              {more("page.js", "throw new Error('thrown by a module');\n"), "thrown by a module"},
		"style sheet 404":            {missing("page.css", status(404)), "page.css"},
		"program 404":                {missing(program, status(404)), program},
		"program cut":                {func(f build.Files) http.Handler { return missing(program, body(program, f[program][:1e6]))(f) }, program},
		"program is a login page":    {missing(program, portal), program},
		"program never comes":        {missing(program, never), "has not started"},
		"no modules":                 {lacks(`delete HTMLScriptElement.prototype.noModule;`), "modules"},
		"no WebAssembly":             {lacks(`delete window.WebAssembly;`), "WebAssembly"},
		"no DecompressionStream":     {lacks(`delete window.DecompressionStream;`), "DecompressionStream"},
		"no dialog":                  {lacks(`delete HTMLDialogElement.prototype.showModal;`), "dialog"},
		"no structuredClone":         {lacks(`delete window.structuredClone;`), "structuredClone"},
		"no ResizeObserver":          {lacks(`delete window.ResizeObserver;`), "ResizeObserver"},
		"no replaceChildren":         {lacks(`delete Element.prototype.replaceChildren;`), "replaceChildren"},
		"WebAssembly not to be used": {lacks(`WebAssembly.instantiateStreaming = WebAssembly.instantiate = () => Promise.reject(new Error("forbidden"));`), "forbidden"},
	}
	each(t, func(t *testing.T, engine string) {
		for name, f := range failures {
			t.Run(name, func(t *testing.T) {
				s := serve(t, f.host(site(t).Site))
				p := open(t, engine, Options{})
				require.NoError(t, p.Go(s.URL()))
				said := notStarted(t, p)
				assert.Contains(t, said, f.says)
				assert.Contains(t, said, "Load the page again")
				if engine == "chromium" { // WebKit gives no picture of a page at rest
					shot(t, p, "told")
				}

				s.Swap(site(t).Site.Handler())
				require.NoError(t, p.Run(`document.getElementById("fatal-reload").click()`))
				require.NoError(t, p.WaitUntil(wait, `return Boolean(document.querySelector("[data-start=done] [data-verdict]")) && document.getElementById("fatal").hidden`))
			})
		}
	})
}

// Before the program is there nothing is offered, and paper would say so; a
// program that comes late takes the word back.
func TestNothingIsOfferedBeforeTheStart(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		files := site(t).Site
		come := make(chan struct{})
		s := serve(t, but(files, map[string]http.HandlerFunc{program: func(w http.ResponseWriter, r *http.Request) {
			<-come
			files.Handler().ServeHTTP(w, r)
		}}))
		p := open(t, engine, Options{})
		require.NoError(t, p.Go(s.URL()))
		assert.Empty(t, onOffer(t, p))
		if engine == "chromium" {
			require.NoError(t, p.DevTools("Emulation.setEmulatedMedia", map[string]any{"media": "print"}, nil))
			var content string
			require.NoError(t, p.Script(&content, `return getComputedStyle(document.body, "::before").content`))
			assert.Contains(t, content, "nothing to print")
			require.NoError(t, p.DevTools("Emulation.setEmulatedMedia", map[string]any{"media": ""}, nil))
		}
		notStarted(t, p)
		close(come)
		require.NoError(t, p.WaitUntil(wait, `return Boolean(document.querySelector("[data-start=done] [data-verdict]")) && document.getElementById("fatal").hidden`))
		assert.NotEmpty(t, onOffer(t, p))
	})
}

// The single file says so too.
func TestSingleFileStartFailures(t *testing.T) {
	single := string(site(t).Single)
	policy := regexp.MustCompile(`<meta http-equiv="Content-Security-Policy"[^>]*>`)
	lacking := func(script string) string {
		return strings.Replace(policy.ReplaceAllString(single, ""), "<script>", "<script>"+script+"</script><script>", 1)
	}
	modules := strings.LastIndex(single, `<script type="module">`)
	programAt := strings.Index(single, `id="rigging-wasm"`)
	for name, f := range map[string]struct{ text, says string }{
		"cut in the program":     {single[:programAt+1e6], "cut short"},
		"cut in the modules":     {single[:(modules+len(single))/2], "cut short"},
		"modules altered":        {single[:modules+len(`<script type="module">`)] + " " + single[modules+len(`<script type="module">`):], "has not started"},
		"program damaged":        {strings.Replace(single, single[programAt+5e5:programAt+5e5+40], strings.Repeat("A", 40), 1), "rigging.wasm.gz"},
		"no DecompressionStream": {lacking("delete window.DecompressionStream"), "DecompressionStream"},
		"no WebAssembly":         {lacking("delete window.WebAssembly"), "WebAssembly"},
	} {
		t.Run(name, func(t *testing.T) {
			each(t, func(t *testing.T, engine string) {
				file := filepath.Join(t.TempDir(), "pullline.html")
				require.NoError(t, os.WriteFile(file, []byte(f.text), 0o644))
				p := open(t, engine, Options{})
				require.NoError(t, p.Go("file://"+file))
				assert.Contains(t, notStarted(t, p), f.says)
				if engine == "chromium" { // WebKit gives no picture of a page at rest
					shot(t, p, "told")
				}
			})
		})
	}
}
