package browser

import (
	"bytes"
	"compress/gzip"
	"io"
	"maps"
	"net/http"
	"path"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/wasm/site/build"
)

// partsOf are the parts that the site is built from.
func partsOf(t testing.TB) build.Files {
	t.Helper()
	return maps.Clone(site(t).Parts)
}

// versionWith builds a version of which every file has other bytes than in any
// version with another mark, and does the same; change makes it differ more.
func versionWith(t testing.TB, mark string, change func(parts build.Files)) *build.Result {
	t.Helper()
	parts := partsOf(t)
	for name, body := range parts {
		switch path.Ext(name) {
		case ".js":
			if name != "worker.js" { // its list of files makes it another
				parts[name] = append(bytes.Clone(body), "// "+mark+"\n"...)
			}
		case ".css":
			parts[name] = append(bytes.Clone(body), "/* "+mark+" */\n"...)
		case ".html", ".svg":
			parts[name] = append(bytes.Clone(body), "<!-- "+mark+" -->\n"...)
		case ".json", ".webmanifest":
			parts[name] = append(bytes.Clone(body), bytes.Repeat([]byte("\n"), len(mark))...)
		case ".gz":
			parts[name] = remarked(t, body, mark)
		}
	}
	if change != nil {
		change(parts)
	}
	r, err := build.Assemble(parts)
	require.NoError(t, err)
	require.NotEqual(t, site(t).Version, r.Version)
	return r
}

// remarked packs a file again with a comment in its head.
func remarked(t testing.TB, packed []byte, mark string) []byte {
	t.Helper()
	r, err := gzip.NewReader(bytes.NewReader(packed))
	require.NoError(t, err)
	body, err := io.ReadAll(r)
	require.NoError(t, err)
	var out bytes.Buffer
	w := gzip.NewWriter(&out)
	w.Comment = mark
	_, err = w.Write(body)
	require.NoError(t, err)
	require.NoError(t, w.Close())
	return out.Bytes()
}

// portal is what a network that wants a login first answers with.
func portal(w http.ResponseWriter, _ *http.Request) {
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	io.WriteString(w, "<!DOCTYPE html><title>Log in</title><p>Log in to this network (invented).</p>")
}

// but serves files, some names another way; "*" stands for all but the worker.
func but(files build.Files, other map[string]http.HandlerFunc) http.Handler {
	whole := files.Handler()
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		name := r.URL.Path[1:]
		h, ok := other[name]
		if !ok && name != "worker.js" {
			h, ok = other["*"]
		}
		if !ok {
			h = whole.ServeHTTP
		}
		h(w, r)
	})
}

func status(code int) http.HandlerFunc {
	return func(w http.ResponseWriter, _ *http.Request) { http.Error(w, http.StatusText(code), code) }
}

// body answers every request with these bytes, as the type of that name.
func body(name string, content []byte) http.HandlerFunc {
	return build.Files{name: content}.Handler().ServeHTTP
}

// cut sends the head of an answer and half of its body, then drops the line.
func cut(files build.Files) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		name := r.URL.Path[1:]
		if name == "" {
			name = "index.html"
		}
		w.Header().Set("Content-Length", strconv.Itoa(len(files[name])))
		w.Write(files[name][:len(files[name])/2])
		panic(http.ErrAbortHandler)
	}
}

func damaged(content []byte) []byte {
	content = bytes.Clone(content)
	content[len(content)/2] ^= 1
	return content
}

const program = "rigging.wasm.gz"

// updateFaults are what a host or a network may give in place of a new
// version. Whatever it is, it is not to be taken.
var updateFaults = map[string]func(old, next build.Files) http.Handler{
	"program cut short": func(_, next build.Files) http.Handler {
		return but(next, map[string]http.HandlerFunc{program: body(program, next[program][:len(next[program])/2])})
	},
	"program empty": func(_, next build.Files) http.Handler {
		return but(next, map[string]http.HandlerFunc{program: body(program, nil)})
	},
	"one bit of the program wrong": func(_, next build.Files) http.Handler {
		return but(next, map[string]http.HandlerFunc{program: body(program, damaged(next[program]))})
	},
	"old program among new files": func(old, next build.Files) http.Handler {
		return but(next, map[string]http.HandlerFunc{program: body(program, old[program])})
	},
	"old script among new files": func(old, next build.Files) http.Handler {
		return but(next, map[string]http.HandlerFunc{"page.js": body("page.js", old["page.js"])})
	},
	"old style sheet among new files": func(old, next build.Files) http.Handler {
		return but(next, map[string]http.HandlerFunc{"page.css": body("page.css", old["page.css"])})
	},
	"old page among new files": func(old, next build.Files) http.Handler {
		return but(next, map[string]http.HandlerFunc{"": body("", old["index.html"]), "index.html": body("index.html", old["index.html"])})
	},
	"new worker, all files old": func(old, next build.Files) http.Handler {
		return but(old, map[string]http.HandlerFunc{"worker.js": body("worker.js", next["worker.js"])})
	},
	"old worker, all files new": func(old, next build.Files) http.Handler {
		return but(next, map[string]http.HandlerFunc{"worker.js": body("worker.js", old["worker.js"])})
	},
	"login page for all but the worker": func(_, next build.Files) http.Handler {
		return but(next, map[string]http.HandlerFunc{"*": portal})
	},
	"login page for all": func(_, _ build.Files) http.Handler { return http.HandlerFunc(portal) },
	"login page called a script": func(_, _ build.Files) http.Handler {
		return body("page.js", []byte("<!DOCTYPE html><title>Log in</title>"))
	},
	"all led to a login page": func(_, next build.Files) http.Handler {
		return but(next, map[string]http.HandlerFunc{"login": portal, "*": func(w http.ResponseWriter, r *http.Request) {
			http.Redirect(w, r, "/login", http.StatusFound)
		}})
	},
	"404 for the script": func(_, next build.Files) http.Handler {
		return but(next, map[string]http.HandlerFunc{"page.js": status(404)})
	},
	"404 for all": func(_, _ build.Files) http.Handler { return status(404) },
	"500 for one file": func(_, next build.Files) http.Handler {
		return but(next, map[string]http.HandlerFunc{"demo.json": status(500)})
	},
	"500 for all": func(_, _ build.Files) http.Handler { return status(500) },
	"line cut in the program": func(_, next build.Files) http.Handler {
		return but(next, map[string]http.HandlerFunc{program: cut(next)})
	},
	"line cut in every file": func(_, next build.Files) http.Handler {
		return but(next, map[string]http.HandlerFunc{"worker.js": cut(next), "*": cut(next)})
	},
	"worker cut short": func(_, next build.Files) http.Handler {
		return but(next, map[string]http.HandlerFunc{"worker.js": body("worker.js", next["worker.js"][:len(next["worker.js"])/2])})
	},
	"worker without its last line": func(_, next build.Files) http.Handler {
		all := bytes.TrimSpace(next["worker.js"])
		return but(next, map[string]http.HandlerFunc{"worker.js": body("worker.js", all[:bytes.LastIndexByte(all, '\n')])})
	},
}

// stored opens a page and waits until it says that it is stored.
func stored(t testing.TB, p *Page, url string) {
	t.Helper()
	visit(t, p, url)
	require.NoError(t, p.WaitUntil(wait, `return document.getElementById("offline-word").textContent.startsWith("Stored on this device")`))
}

// lookForUpdate has the browser look once for a new version, and waits until
// that has come to an end.
func lookForUpdate(t testing.TB, p *Page) {
	t.Helper()
	require.NoError(t, p.Await(nil, `
		const registration = await navigator.serviceWorker.getRegistration();
		await registration.update().catch(() => {});
		while (registration.installing) await new Promise((r) => setTimeout(r, 20));`))
}

// lookOften is the part of a script that has the browser look for a new version,
// at most once a second. One look is not enough: it may be joined to one that
// saw the old version still. More than needed put off the new worker in Chromium.
const lookOften = `
	let looked = -1000;
	const lookOften = async () => {
		const registration = await navigator.serviceWorker.getRegistration();
		if (performance.now() - looked < 1000 || registration.installing || registration.waiting) return;
		looked = performance.now();
		await registration.update().catch(() => {});
	};`

// offered waits until the page offers a new version, in a bar that begins with
// these words.
func offered(t testing.TB, p *Page, words string) {
	t.Helper()
	require.NoError(t, p.Await(nil, until+lookOften+`
		await until(() => lookOften().then(() => document.querySelector("[data-bar=update]")?.textContent.startsWith(args[0])));`, words))
}

func versionShown(t testing.TB, p *Page) (version string) {
	t.Helper()
	require.NoError(t, p.Script(&version, "return document.querySelector('meta[name=version]').content"))
	return version
}

// inUse is the part of a script that tells whether a version is shown, has
// shown a verdict and is stored.
const inUse = `
	const inUse = (version) => document.querySelector("meta[name=version]")?.content === version &&
		document.querySelector("[data-start=done] [data-verdict]") !== null &&
		document.getElementById("offline-word")?.textContent.startsWith("Stored on this device");`

// lost tells whether Chromium has lost a page that it was to load: held by its
// driver, it may end the worker before while that has the page to give, and
// the page then never comes. Whoever waits for it opens it again.
func lost(err error) bool {
	return err != nil && strings.Contains(err.Error(), "Timed out receiving message from renderer")
}

// take agrees to a version as soon as it is offered, unless it is in use, and
// waits until it is.
func take(t testing.TB, p *Page, url, version string) {
	t.Helper()
	err := agree(p, version)
	if lost(err) {
		if err = p.Go(url); err == nil {
			err = agree(p, version)
		}
	}
	require.NoError(t, err)
}

func agree(p *Page, version string) error {
	if err := p.Await(nil, until+inUse+lookOften+`
		const offer = () => document.querySelector("#fatal-new:not([hidden]), [data-bar=update] button");
		await until(() => lookOften().then(() => inUse(args[0]) || offer()));
		if (!inUse(args[0])) setTimeout(() => offer().click());`, version); err != nil {
		return err
	}
	return p.WaitUntil(wait, inUse+`return inUse(arguments[0])`, version)
}

// comes waits, in a page that loads itself anew, until a script gives true.
func comes(t testing.TB, p *Page, url, script string, args ...any) {
	t.Helper()
	err := p.WaitUntil(wait, script, args...)
	if lost(err) {
		if err = p.Go(url); err == nil {
			err = p.WaitUntil(wait, script, args...)
		}
	}
	require.NoError(t, err)
}

// bars gives the names of the bars shown.
func bars(t testing.TB, p *Page) (list []string) {
	t.Helper()
	require.NoError(t, p.Script(&list, `return [...document.querySelectorAll("#bars .bar")].map((b) => b.dataset.bar)`))
	return list
}

// withoutSignal opens a page while the host is gone and gives its version.
func withoutSignal(t testing.TB, p *Page, s *Server) string {
	t.Helper()
	s.Leave()
	visit(t, p, s.URL())
	require.NoError(t, s.Return())
	return versionShown(t, p)
}

// No fault of an update reaches the version in use, and once the host is whole
// again the new version is offered and can be taken; it is the one in use when
// the next fault comes.
func TestUpdateFaults(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		old, next := site(t), versionWith(t, "next", nil)
		s := serve(t, old.Site.Handler())
		p := open(t, engine, Options{})
		stored(t, p, s.URL())
		for name, fault := range updateFaults {
			whole := t.Run(name, func(t *testing.T) {
				s.Swap(fault(old.Site, next.Site))
				lookForUpdate(t, p)
				assert.NotContains(t, bars(t, p), "update")
				stored(t, p, s.URL())
				assert.Equal(t, old.Version, versionShown(t, p))
				assert.Equal(t, old.Version, withoutSignal(t, p, s))

				s.Swap(next.Site.Handler())
				offered(t, p, "A new version")
				take(t, p, s.URL(), next.Version)
				assert.Equal(t, next.Version, withoutSignal(t, p, s))
			})
			if !whole {
				return // it is not known what is in use
			}
			old, next = next, old
		}
	})
}

// A new version is stored and offered, and taken only when the user agrees:
// neither closing every window nor opening the page anew takes it.
func TestUpdateIsTakenOnlyWhenAgreed(t *testing.T) {
	next := versionWith(t, "next", nil)
	each(t, func(t *testing.T, engine string) {
		old := site(t)
		s := serve(t, old.Site.Handler())
		p := open(t, engine, Options{})
		stored(t, p, s.URL())
		s.Swap(next.Site.Handler())
		offered(t, p, "")
		shot(t, p, "offered")
		for range 3 {
			require.NoError(t, p.Go("about:blank")) // no window of the page is left
			visit(t, p, s.URL())
			assert.Equal(t, old.Version, versionShown(t, p))
			offered(t, p, "")
		}
		assert.Equal(t, old.Version, withoutSignal(t, p, s))
		take(t, p, s.URL(), next.Version)
		assert.NotContains(t, bars(t, p), "update")
		var keys []string
		require.NoError(t, p.Await(&keys, "return (await caches.keys()).sort()"))
		assert.Equal(t, []string{"pullline /", "pullline-" + next.Version + " /"}, keys, "the version before is gone once the new one has proved itself")
	})
}

// A version that was built whole and does not start here is left again: the
// page says so, the version before comes back, and a later one can be taken,
// which is the one in use when the next worse one comes.
func TestUpdateThatDoesNotStart(t *testing.T) {
	changes := map[string]func(build.Files){
		"page throws":              func(f build.Files) { f["page.js"] = append([]byte("throw new Error('first');\n"), f["page.js"]...) },
		"module does not parse":    func(f build.Files) { f["dom.js"] = append(f["dom.js"], "const = ;\n"...) },
		"program is none":          func(f build.Files) { f[program] = remarked(t, f["none.gz"], "none") },
		"page says nothing at all": func(f build.Files) { f["page.js"] = []byte("// nothing\n") },
		"calculator gives nothing": func(f build.Files) {
			f["rigging.js"] = bytes.Replace(f["rigging.js"], []byte("return JSON.parse(output);"), []byte(`return trouble("broken");`), 1)
		},
	}
	each(t, func(t *testing.T, engine string) {
		old, better := site(t), versionWith(t, "better", nil)
		s := serve(t, old.Site.Handler())
		p := open(t, engine, Options{})
		stored(t, p, s.URL())
		for name, change := range changes {
			worse := versionWith(t, "worse", func(f build.Files) {
				var none bytes.Buffer
				w := gzip.NewWriter(&none)
				io.WriteString(w, "no program") // a bytes.Buffer takes everything
				w.Close()
				f["none.gz"] = none.Bytes()
				change(f)
			})
			whole := t.Run(name, func(t *testing.T) {
				s.Swap(worse.Site.Handler())
				var err error
				for range 2 { // the page may be lost once
					offered(t, p, "")
					require.NoError(t, p.Run(`document.querySelector("[data-bar=update] button").click()`))
					err = p.WaitUntil(wait, `return document.querySelector("meta[name=version]")?.content === arguments[0]`, worse.Version)
					if !lost(err) {
						break
					}
					require.NoError(t, p.Go(s.URL()))
				}
				require.NoError(t, err)
				if name == "calculator gives nothing" { // it starts, but shows no computed verdict
					_, err := p.WaitFor("[data-verdict=unknown]", wait)
					require.NoError(t, err)
					if err := p.Reload(); !lost(err) {
						require.NoError(t, err)
					}
				} else {
					require.NoError(t, p.WaitUntil(wait, `return !document.getElementById("fatal").hidden && document.getElementById("fatal-do").textContent.includes("the version before")`))
					if engine == "chromium" { // WebKit gives no picture of a page at rest
						shot(t, p, "left")
					}
					require.NoError(t, p.Run(`document.getElementById("fatal-reload").click()`))
				}
				comes(t, p, s.URL(), `return document.querySelector("meta[name=version]")?.content === arguments[0] && Boolean(document.querySelector("[data-start=done] [data-verdict]"))`, old.Version)
				offered(t, p, "The new version did not start")
				assert.Equal(t, old.Version, withoutSignal(t, p, s))

				s.Swap(better.Site.Handler())
				offered(t, p, "A new version")
				take(t, p, s.URL(), better.Version)
			})
			if !whole {
				return // it is not known what is in use
			}
			old, better = better, old
		}
	})
}

// What may happen to what lies on the device, as scripts that do it. PAGE is
// the store of the version in use, BOOK that of what the worker notes.
var losses = map[string]string{
	"everything lost":       `for (const name of await caches.keys()) await caches.delete(name);`,
	"version lost":          `await caches.delete(PAGE);`,
	"book lost":             `await caches.delete(BOOK);`,
	"book damaged":          `await (await caches.open(BOOK)).put("book.json", new Response("{"));`,
	"page lost":             `await (await caches.open(PAGE)).delete("./");`,
	"page damaged":          `await (await caches.open(PAGE)).put("./", new Response("<!DOCTYPE html><title>Log in</title>", { headers: { "Content-Type": "text/html" } }));`,
	"script lost":           `await (await caches.open(PAGE)).delete("page.js");`,
	"script damaged":        `await (await caches.open(PAGE)).put("page.js", new Response("export const el = 1;", { headers: { "Content-Type": "text/javascript" } }));`,
	"program lost":          `await (await caches.open(PAGE)).delete("rigging.wasm.gz");`,
	"program cut":           `await (await caches.open(PAGE)).put("rigging.wasm.gz", new Response((await (await (await caches.open(PAGE)).match("rigging.wasm.gz")).arrayBuffer()).slice(0, 1e6)));`,
	"style sheet lost":      `await (await caches.open(PAGE)).delete("page.css");`,
	"icon lost":             `await (await caches.open(PAGE)).delete("icon.svg");`,
	"list of files lost":    `await (await caches.open(PAGE)).delete("stored-files.json");`,
	"list of files damaged": `await (await caches.open(PAGE)).put("stored-files.json", new Response("["));`,
}

func lose(t testing.TB, p *Page, version, script string) {
	t.Helper()
	require.NoError(t, p.Await(nil, `const PAGE = "pullline-" + args[0] + " /", BOOK = "pullline /";`+script, version))
}

// A stored file that is missing or damaged is found when the page is opened:
// fetched anew from a host that has it, and said where there is no signal.
func TestStoredFilesAreMended(t *testing.T) {
	silent := map[string]bool{"book lost": true, "book damaged": true, "icon lost": true, "list of files lost": true, "list of files damaged": true}
	each(t, func(t *testing.T, engine string) {
		old := site(t)
		s := serve(t, old.Site.Handler())
		p := open(t, engine, Options{})
		stored(t, p, s.URL())
		for name, script := range losses {
			t.Run(name, func(t *testing.T) {
				lose(t, p, old.Version, script)
				s.Leave()
				require.NoError(t, p.Go(s.URL()))
				if silent[name] {
					_, err := p.WaitFor("[data-start=done] [data-verdict]", wait)
					require.NoError(t, err)
				} else {
					require.NoError(t, p.WaitUntil(wait, `return /not whole on this device|are missing/.test(document.body.innerText)`))
					var judged bool
					require.NoError(t, p.Script(&judged, `return Boolean(document.querySelector("[data-verdict]"))`))
					assert.False(t, judged)
				}
				if name == "icon lost" {
					require.NoError(t, p.WaitUntil(wait, `return document.getElementById("offline-word").textContent.includes("icon.svg is missing")`))
				}
				require.NoError(t, s.Return())
				stored(t, p, s.URL())
				assert.Equal(t, old.Version, withoutSignal(t, p, s))
			})
		}
	})
}

// The same when the host has another version by then: the way on is the new
// one, which the user is asked for where the page can still ask; it is the one in
// use when the next loss comes.
func TestLossWithANewVersionOnTheHost(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		old, next := site(t), versionWith(t, "next", nil)
		s := serve(t, old.Site.Handler())
		p := open(t, engine, Options{})
		stored(t, p, s.URL())
		for name, script := range losses {
			whole := t.Run(name, func(t *testing.T) {
				lose(t, p, old.Version, script)
				s.Swap(next.Site.Handler())
				require.NoError(t, p.Go(s.URL()))
				take(t, p, s.URL(), next.Version)
				assert.Equal(t, next.Version, withoutSignal(t, p, s))
			})
			if !whole {
				return // it is not known what is in use
			}
			old, next = next, old
		}
	})
}
