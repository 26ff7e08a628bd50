package build

import (
	"bytes"
	"encoding/json"
	"net/http/httptest"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// repository builds the real site.
var repository = sync.OnceValues(func() (*Result, error) {
	root, err := Root()
	if err != nil {
		return nil, err
	}
	return Repository(root)
})

func built(t *testing.T) *Result {
	t.Helper()
	r, err := repository()
	require.NoError(t, err)
	return r
}

// small are the parts of the smallest site.
func small() Files {
	return Files{
		"index.html": []byte(`<!doctype html><html lang="en"><head><meta charset="utf-8"><title>t</title>
<link rel="icon" href="icon.svg"><link rel="stylesheet" href="page.css"><link rel="stylesheet" href="print.css" media="print">
<script src="start.js" data-program="rigging.wasm.gz" data-unpack="unpack.js"></script><script type="module" src="page.js"></script></head><body><p>1 < 2</p></body></html>`),
		"page.css":        []byte("p { color: #000 }"),
		"print.css":       []byte("p { fill: url(#dots) }"),
		"icon.svg":        []byte("<svg/>"),
		"page.js":         []byte("import { load } from \"./rigging.js\";\nload();\n"),
		"rigging.js":      []byte("import './wasm_exec.js';\nexport function load() { return \"</script>\"; }\n"),
		"wasm_exec.js":    []byte("(() => { globalThis.Go = class {}; })();\n"),
		"rigging.wasm.gz": pack([]byte("program")),
		"demo.json":       []byte(`{"name":"</script><b>"}`),
		"start.js":        []byte("(function () { return \"</script>\"; })();\n"),
		"worker.js":       []byte(`const VERSION = "{{version}}"; const FILES = "{{files}}";`),
	}
}

func TestSmallSite(t *testing.T) {
	r, err := Assemble(small())
	require.NoError(t, err)

	page := string(r.Site["index.html"])
	assert.Contains(t, page, `content="`+sitePolicy+`"`)
	assert.Contains(t, page, `<meta name="version" content="`+r.Version+`">`)
	assert.Less(t, strings.Index(page, "Content-Security-Policy"), strings.Index(page, "<link"), "the policy stands before what it governs")

	worker := string(r.Site["worker.js"])
	assert.Contains(t, worker, `"`+r.Version+`"`)
	var list map[string][]string
	_, text, _ := strings.Cut(worker, "FILES = ")
	require.NoError(t, json.Unmarshal([]byte(strings.TrimSuffix(text, ";")), &list))
	assert.Len(t, list, len(small())-2, "all but the worker itself and what is joined")
	assert.Equal(t, []string{"text/html; charset=utf-8", sum(r.Site["index.html"])}, list["./"])
	assert.Equal(t, []string{"text/javascript; charset=utf-8", sum(r.Site["page.js"])}, list["page.js"])
	assert.Equal(t, []string{"application/octet-stream", sum(r.Site["rigging.wasm.gz"]), sum([]byte("program"))}, list["rigging.wasm.gz"], "as it is, and inflated on the way")

	assert.Contains(t, page, `<link rel="stylesheet" href="page.css?`+r.Version+`">`)
	assert.Contains(t, page, `<script src="start.js?`+r.Version+`" data-program="rigging.wasm.gz?`+r.Version+`" data-unpack="unpack.js?`+r.Version+
		`" data-sums="sha256-`+sum(small()["rigging.wasm.gz"])+` sha256-`+sum([]byte("program"))+`"></script><script type="module" src="page.js?`+r.Version+`"></script>`)
	assert.NotContains(t, page, "print.css")
	assert.Equal(t, "p { color: #000 }\n@media print {\np { fill: url(#dots) }\n}\n", string(r.Site["page.css"]))
	assert.Contains(t, string(r.Site["page.js"]), "// rigging.js")
	assert.Equal(t, small()["rigging.js"], r.Site["rigging.js"], "other pages import it")
}

// A browser that does not know light-dark has the light colours, and paper its
// own after them.
func TestLightColoursForOlderBrowsers(t *testing.T) {
	parts := small()
	parts["page.css"] = []byte(":root {\n  --leaf: light-dark(rgb(1 2 3 / 4%), #fff);\n  --gap: 1rem;\n  --ink: light-dark(#000, #eee);\n}\n")
	r, err := Assemble(parts)
	require.NoError(t, err)
	css := string(r.Site["page.css"])
	assert.Contains(t, css, "@supports not (color: light-dark(#000, #fff)) {\n:root {\n--leaf: rgb(1 2 3 / 4%);\n--ink: #000;\n}\n}\n@media print")

	parts["page.css"] = []byte("p { color: light-dark(#000, #fff); }")
	_, err = Assemble(parts)
	assert.ErrorContains(t, err, "static/page.css: light-dark()")
}

// What only other sites ask for is shipped, but not stored on every phone.
func TestFilesForOthersAreNotStored(t *testing.T) {
	parts := small()
	parts["embed.js"] = []byte("// of the host's page")
	r, err := Assemble(parts)
	require.NoError(t, err)
	assert.Equal(t, r.Single, r.Site[singleFile])
	assert.Contains(t, r.Site, "embed.js")
	for _, name := range forOthers {
		assert.NotContains(t, string(r.Site["worker.js"]), name)
		assert.Contains(t, built(t).Site, name)
	}
	assert.NotContains(t, string(r.Single), "of the host's page")
}

func TestSmallSingleFile(t *testing.T) {
	r, err := Assemble(small())
	require.NoError(t, err)
	page := string(r.Single)

	assert.NotContains(t, page, "src=")
	assert.NotContains(t, page, "<link")
	assert.Contains(t, page, "<style>"+string(r.Site["page.css"])+"</style>")
	assert.Contains(t, page, `{"name":"\u003c/script>\u003cb>"}`)
	assert.Contains(t, page, `return "<\/script>"`, "a text does not end the script")
	assert.Equal(t, 4, strings.Count(page, "</script>"), "watch over the start, plan, program and page")

	// The policy allows exactly what is inlined.
	code := regexp.MustCompile(`(?s)<script type="module">(.*?)</script>`).FindStringSubmatch(page)[1]
	watch := "(function () { return \"<\\/script>\"; })();\n"
	assert.Contains(t, page, "<script>"+watch+"</script>")
	assert.Contains(t, page, "script-src "+hash(watch)+" "+hash(code)+" 'wasm-unsafe-eval'; style-src "+hash(string(r.Site["page.css"]))+";")
	assert.NotContains(t, page, "'self'")
}

func TestVersionFollowsContents(t *testing.T) {
	first, err := Assemble(small())
	require.NoError(t, err)
	for name := range small() {
		parts := small()
		parts[name] = append(parts[name], ' ')
		if name == programFile {
			parts[name] = pack([]byte("another program"))
		}
		second, err := Assemble(parts)
		require.NoError(t, err, name)
		assert.NotEqual(t, first.Version, second.Version, name)
	}
}

func TestPageErrors(t *testing.T) {
	for what, change := range map[string]func(Files){
		"no page":        func(f Files) { delete(f, "index.html") },
		"no worker":      func(f Files) { delete(f, "worker.js") },
		"no placeholder": func(f Files) { f["worker.js"] = []byte("") },
		"no style sheet": func(f Files) { delete(f, "page.css") },
		"style import":   func(f Files) { f["page.css"] = []byte(`@import "x.css";`) },
		"no style": func(f Files) {
			f["index.html"] = bytes.Replace(f["index.html"], []byte("stylesheet"), []byte("other"), -1)
		},
		"style charset": func(f Files) { f["page.css"] = []byte(`@charset "utf-8";`) },
		"two modules": func(f Files) {
			f["index.html"] = bytes.Replace(f["index.html"], []byte("<p>"), []byte(`<script type="module" src="rigging.js"></script><p>`), 1)
		},
		"style url":   func(f Files) { f["page.css"] = []byte(`p { background: url(x.png) }`) },
		"no charset":  func(f Files) { f["index.html"] = []byte(`<body><script type="module" src="page.js"></script></body>`) },
		"no start":    func(f Files) { delete(f, "start.js") },
		"lost module": func(f Files) { delete(f, "rigging.js") },
		"cut program": func(f Files) { f["rigging.wasm.gz"] = f["rigging.wasm.gz"][:9] },
		"no module":   func(f Files) { f["index.html"] = []byte(`<meta charset="utf-8"><body></body>`) },
		"an image": func(f Files) {
			f["index.html"] = bytes.Replace(f["index.html"], []byte("<p>"), []byte(`<img src="x.png"><p>`), 1)
		},
		"plan not JSON": func(f Files) { f["demo.json"] = []byte("{") },
	} {
		parts := small()
		change(parts)
		_, err := Assemble(parts)
		assert.Error(t, err, what)
	}
}

func TestHandler(t *testing.T) {
	h := small().Handler()
	for name, want := range map[string]string{
		"/":                     "text/html; charset=utf-8",
		"/page.js":              "text/javascript; charset=utf-8",
		"/page.css":             "text/css; charset=utf-8",
		"/icon.svg":             "image/svg+xml",
		"/demo.json?x=1":        "application/json",
		"/rigging.wasm.gz":      "application/octet-stream",
		"/manifest.webmanifest": "text/plain; charset=utf-8", // not there
	} {
		w := httptest.NewRecorder()
		h.ServeHTTP(w, httptest.NewRequest("GET", name, nil))
		assert.Equal(t, want, w.Header().Get("Content-Type"), name)
		assert.Empty(t, w.Header().Get("Content-Encoding"), name)
	}
}

// The same sources give the same bytes, whatever folder they lie in and
// whatever a person has set for the go command.
func TestBuildIsTheSameInEveryFolder(t *testing.T) {
	root, err := Root()
	require.NoError(t, err)
	var dist [2]Files
	for i, more := range [][]string{nil, {"GOFLAGS=-buildvcs=false", "GOWASM=satconv"}} {
		dir := filepath.Join(t.TempDir(), strings.Repeat("deeper/", 3*i), "tree")
		require.NoError(t, os.MkdirAll(dir, 0o755))
		for _, name := range []string{"go.mod", "go.sum", "rigging", "static", "testdata", "wasm"} {
			from, to := filepath.Join(root, name), filepath.Join(dir, name)
			if info, err := os.Stat(from); assert.NoError(t, err) && info.IsDir() {
				require.NoError(t, os.CopyFS(to, os.DirFS(from)))
				continue
			}
			body, err := os.ReadFile(from)
			require.NoError(t, err)
			require.NoError(t, os.WriteFile(to, body, 0o644))
		}
		cmd := exec.Command("go", "run", "./wasm/site", "build")
		cmd.Dir, cmd.Env = dir, append(os.Environ(), more...)
		out, err := cmd.CombinedOutput()
		require.NoError(t, err, "%s", out)
		dist[i], err = readTree(filepath.Join(dir, "dist"))
		require.NoError(t, err)
	}
	require.Equal(t, dist[0].Names(), dist[1].Names())
	for name, body := range dist[0] {
		assert.True(t, bytes.Equal(body, dist[1][name]), "%s differs", name)
	}
	for name, body := range built(t).Site {
		assert.True(t, bytes.Equal(body, dist[0]["site/"+name]), "%s differs from this folder's", name)
	}
	assert.Equal(t, built(t).Single, dist[0][singleFile])
	t.Logf("\n%s", built(t).Sizes())
}

// Nothing shipped may ask another origin. The only absolute addresses are the
// names of vocabularies (SVG, XHTML, JSON Schema), which nobody fetches, and
// what stands in comments.
func TestNoOtherOrigin(t *testing.T) {
	r := built(t)
	address := regexp.MustCompile(`(?:https?|wss?)://[^\s"'<>)]*`)
	vocabulary := regexp.MustCompile(`^(http://www\.w3\.org/(2000/svg|1999/xhtml|1999/xlink)|https://json-schema\.org/draft/2020-12/schema)$`)
	for name, body := range r.Site {
		if path.Ext(name) == ".gz" {
			continue // the program: TestDependencies
		}
		for i, line := range strings.Split(string(body), "\n") {
			if s := strings.TrimSpace(line); strings.HasPrefix(s, "//") || strings.HasPrefix(s, "*") {
				continue
			}
			for _, found := range address.FindAllString(line, -1) {
				assert.Regexp(t, vocabulary, found, "%s:%d", name, i+1)
			}
		}
	}
}

// The page's policy forbids inline script and style; what it would block must
// not be there in the first place.
func TestNothingInlineInThePage(t *testing.T) {
	inline := regexp.MustCompile(`^(on[a-z]+|style)$`)
	for _, page := range []string{indexFile, "course.html"} {
		_, err := rewriteTags(string(built(t).Site[page]), func(tg tag) (string, error) {
			assert.NotEqual(t, "style", tg.name)
			for name := range tg.attrs {
				assert.NotRegexp(t, inline, name, tg.text)
			}
			for _, name := range []string{"src", "href", "action"} {
				assert.False(t, strings.HasPrefix(tg.attr(name), "/"), "%s: addresses are relative", tg.text)
			}
			return tg.text, nil
		})
		require.NoError(t, err)
	}
}

// Every file the page and its modules name is shipped.
func TestManifestIconsAreShipped(t *testing.T) {
	r := built(t)
	for _, found := range regexp.MustCompile(`"src": *"([^"]+)"`).FindAllStringSubmatch(string(r.Site["manifest.webmanifest"]), -1) {
		assert.Contains(t, r.Site, found[1])
	}
}

// The example course page shows the code it is made of, and its views ask for
// what the page knows.
func TestCoursePageShowsItsCode(t *testing.T) {
	r := built(t)
	page := string(r.Site["course.html"])
	views := regexp.MustCompile(`(?m)^<pull-line-view .*</pull-line-view>$`).FindAllString(page, -1)
	require.Len(t, views, 4)
	for _, code := range append(views, string(r.Site["course.js"]), `<script src="embed.js" async></script>`) {
		assert.Contains(t, page, strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;").Replace(code))
	}
	assert.Contains(t, page, "invented")
}

// The element's attributes are the parameters of the page's address.
func TestEmbedKnowsTheParameters(t *testing.T) {
	r := built(t)
	table := regexp.MustCompile(`\{ name: "(\w+)"`).FindAllStringSubmatch(string(r.Parts["address.js"]), -1)
	require.NotEmpty(t, table)
	listed := regexp.MustCompile(`(?s)const PARAMETERS = \[(.*?)\]`).FindStringSubmatch(string(r.Site["embed.js"]))
	require.NotNil(t, listed)
	var want, got []string
	for _, found := range table {
		want = append(want, found[1])
	}
	for _, found := range regexp.MustCompile(`"(\w+)"`).FindAllStringSubmatch(listed[1], -1) {
		got = append(got, found[1])
	}
	assert.ElementsMatch(t, want, got)
	for _, view := range regexp.MustCompile(`(?m)^<pull-line-view (.*)></pull-line-view>$`).FindAllStringSubmatch(string(r.Site["course.html"]), -1) {
		for _, found := range regexp.MustCompile(`([\w-]+)="`).FindAllStringSubmatch(view[1], -1) {
			assert.Contains(t, append(want, "title"), found[1])
		}
	}
}
