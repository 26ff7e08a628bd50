package browser

import (
	"fmt"
	"math"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"pullline/rigging/plan"
	"pullline/wasm/site/build"
)

// These tests start real browsers. PULLLINE_BROWSERS=1 asks for them, as
// make test does: then a missing browser fails. PULLLINE_ENGINE names the one
// engine to test in, so that the two can be tested side by side.
// PULLLINE_SHOTS=DIR keeps the screenshots that tests take.

// engines are those to test in.
var engines = Engines

func TestMain(m *testing.M) {
	if os.Getenv("PULLLINE_BROWSERS") != "1" {
		fmt.Println("browser tests skipped: set PULLLINE_BROWSERS=1, or use make test")
		os.Exit(0)
	}
	if only := os.Getenv("PULLLINE_ENGINE"); only != "" {
		engines = []string{only}
	}
	code := m.Run()
	for _, p := range desktop {
		p.Close()
	}
	for _, d := range drivers {
		d.Stop()
	}
	os.Exit(code)
}

// wait is long enough for a page to load on a busy machine with two cores.
const wait = 30 * time.Second

// root is the repository's directory.
var root = sync.OnceValues(build.Root)

// result is the site under test, built once.
var result = sync.OnceValues(func() (*build.Result, error) {
	dir, err := root()
	if err != nil {
		return nil, err
	}
	return build.Repository(dir)
})

func site(t testing.TB) *build.Result {
	t.Helper()
	r, err := result()
	require.NoError(t, err)
	return r
}

// serve serves a handler for the length of a test.
func serve(t testing.TB, h http.Handler) *Server {
	t.Helper()
	s, err := Serve(h)
	require.NoError(t, err)
	t.Cleanup(s.Leave)
	return s
}

var (
	drivers = map[string]*Driver{}
	desktop = map[string]*Page{} // the windows without options, by engine
)

// open opens a window of an engine for the length of a test. Starting a
// browser takes seconds, so a window without options is used again: every
// test serves from a port of its own, which is another origin with a storage
// and a service worker of its own.
func open(t testing.TB, engine string, o Options) *Page {
	t.Helper()
	plain := o == Options{}
	if p := desktop[engine]; plain && p != nil {
		if p.reset() == nil {
			return p
		}
		p.Close()
		delete(desktop, engine)
	}
	d := driver(t, engine)
	// WebKit's driver knows one window at a time.
	if p := desktop[engine]; engine == "webkit" && p != nil {
		p.Close()
		delete(desktop, engine)
	}
	p, err := d.Open(o)
	if err != nil { // WebKit's driver may wait for its browser for ever
		t.Logf("the driver is started anew: %v", err)
		d.Stop()
		delete(drivers, engine)
		delete(desktop, engine)
		p, err = driver(t, engine).Open(o)
	}
	require.NoError(t, err)
	if plain {
		desktop[engine] = p
	} else {
		t.Cleanup(func() { p.Close() })
	}
	return p
}

// driver gives the driver of an engine, started once. A test of an engine that
// is not asked for ends here.
func driver(t testing.TB, engine string) *Driver {
	t.Helper()
	if !slices.Contains(engines, engine) {
		t.Skip(engine + " is tested by itself")
	}
	d := drivers[engine]
	if d == nil {
		var err error
		d, err = Start(engine)
		require.NoError(t, err)
		drivers[engine] = d
	}
	return d
}

// ownModules is the head of a script that uses the page's own modules, which
// its one script has joined: module(name) gives one.
const ownModules = `const module = async (name) => (await import(document.querySelector("script[type=module]").src)).modules[name + ".js"];
`

// aroundItself serves files and, at one address more, a page with that body
// and, asked for as framed, the page of the files: only in a frame of its own
// address does it keep what a window keeps.
func aroundItself(files build.Files, name, body string) http.Handler {
	rest := files.Handler()
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		switch {
		case r.URL.Path != "/"+name:
			rest.ServeHTTP(w, r)
			return
		case r.URL.RawQuery == "framed":
			w.Header().Set("Content-Type", "text/html; charset=utf-8")
			w.Write(files["index.html"])
		default:
			w.Header().Set("Content-Type", "text/html; charset=utf-8")
			w.Write([]byte(`<!doctype html><html lang="en"><meta charset="utf-8">` + body))
		}
	})
}

// reset leaves the page that a test left open, and what it complained of.
func (p *Page) reset() error {
	if err := p.Frame(); err != nil {
		return err
	}
	if err := p.Go("about:blank"); err != nil {
		return err
	}
	if p.Engine != "chromium" {
		return nil
	}
	_, err := p.Complaints()
	return err
}

// each runs a test in every engine.
func each(t *testing.T, test func(t *testing.T, engine string)) {
	for _, engine := range engines {
		t.Run(engine, func(t *testing.T) { test(t, engine) })
	}
}

// visit opens an address and waits until the page shows a verdict.
func visit(t testing.TB, p *Page, url string) {
	t.Helper()
	require.NoError(t, p.Go(url))
	_, err := p.WaitFor("[data-start=done] [data-verdict]", wait)
	if err != nil {
		shot(t, p, "no-verdict")
	}
	require.NoError(t, err, "the page shows a verdict")
}

// shot saves a screenshot where the person asked for them.
func shot(t testing.TB, p *Page, name string) {
	t.Helper()
	dir := os.Getenv("PULLLINE_SHOTS")
	if dir == "" {
		return
	}
	png, err := p.Screenshot()
	require.NoError(t, err)
	require.NoError(t, os.MkdirAll(dir, 0o755))
	file := strings.NewReplacer("/", "-", " ", "-").Replace(t.Name()+"-"+name) + ".png"
	require.NoError(t, os.WriteFile(filepath.Join(dir, file), png, 0o644))
}

// example is the report of the page's example, worked out natively.
func example(t testing.TB) plan.Report {
	t.Helper()
	raw, err := os.ReadFile("../../testdata/demo.json")
	require.NoError(t, err)
	return plan.Evaluate(raw)
}

// shownLoad is a load as the page writes it in kilonewtons: up to a tenth.
func shownLoad(n plan.Num) string { return fmt.Sprintf("%.1f kN", math.Ceil(float64(n)*10-1e-9)/10) }
