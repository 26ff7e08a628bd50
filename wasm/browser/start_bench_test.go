package browser

import (
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"pullline/wasm/site/build"
)

// whenJudged notes when a page first shows a computed verdict: unknown is what
// a failure shows too.
const whenJudged = `
new MutationObserver((_, observer) => {
	if (!document.querySelector("[data-verdict]:not([data-verdict=unknown])")) return;
	observer.disconnect();
	globalThis.judged = performance.now();
}).observe(document, { subtree: true, childList: true, attributes: true, attributeFilter: ["data-verdict"] });`

// BenchmarkStart measures the time from the start of a visit to the first
// computed verdict, in milliseconds, the median of many visits: the first
// visit, when nothing is stored yet, and later ones, each at this machine's
// speed and with the page's own thread at a quarter of it (the browser slows
// no other thread down). Every visit is in a browser of its own, which has no
// compiled program left from another. PULLLINE_BEFORE=DIR pairs every visit
// with one of another build's site in that directory and gives the share of
// its time.
func BenchmarkStart(b *testing.B) {
	sites := map[string]build.Files{"now": site(b).Site}
	if dir := os.Getenv("PULLLINE_BEFORE"); dir != "" {
		sites["before"] = filesIn(b, dir)
	}
	const rounds = 9
	for _, visits := range []string{"first", "later"} {
		for _, slow := range []struct {
			name string
			rate int
		}{{"quarter", 4}, {"whole", 1}} {
			b.Run(visits+"/"+slow.name, func(b *testing.B) {
				servers, profiles := map[string]*Server{}, map[string]string{}
				for name, files := range sites {
					servers[name] = serve(b, files.Handler())
					if visits == "later" {
						profiles[name] = b.TempDir()
						for range 2 {
							toVerdict(b, servers[name].URL(), profiles[name], 1)
						}
					}
				}
				took := map[string][]float64{}
				for b.Loop() {
					for range rounds {
						for name, s := range servers {
							took[name] = append(took[name], toVerdict(b, s.URL(), profiles[name], slow.rate))
						}
					}
				}
				b.ReportMetric(0, "ns/op")
				b.ReportMetric(median(took["now"]), "ms")
				if before := took["before"]; before != nil {
					var shares []float64
					for i := range before {
						shares = append(shares, took["now"][i]/before[i])
					}
					b.ReportMetric(median(before), "ms-before")
					b.ReportMetric(median(shares), "of-before")
				}
			})
		}
	}
}

// toVerdict visits a page in a new browser with its thread slowed down and
// gives the time in milliseconds until it showed a computed verdict.
func toVerdict(t testing.TB, url, profile string, rate int) (ms float64) {
	t.Helper()
	p, err := driver(t, "chromium").Open(Options{Width: 390, Height: 844, Touch: true, Profile: profile})
	require.NoError(t, err)
	defer p.Close()
	require.NoError(t, p.DevTools("Page.enable", nil, nil))
	require.NoError(t, p.DevTools("Page.addScriptToEvaluateOnNewDocument", map[string]any{"source": whenJudged}, nil))
	require.NoError(t, p.DevTools("Emulation.setCPUThrottlingRate", map[string]any{"rate": rate}, nil))
	require.NoError(t, p.Go(url))
	require.NoError(t, p.WaitUntil(wait, `return globalThis.judged > 0`))
	require.NoError(t, p.DevTools("Emulation.setCPUThrottlingRate", map[string]any{"rate": 1}, nil))
	require.NoError(t, p.Script(&ms, `return globalThis.judged`))
	require.NoError(t, p.WaitUntil(wait, `return document.getElementById("offline-word").textContent.startsWith("Stored on this device")`)) // for the next visit
	return ms
}

func median(list []float64) float64 {
	return slices.Sorted(slices.Values(list))[len(list)/2]
}

// filesIn reads a built site.
func filesIn(t testing.TB, dir string) build.Files {
	t.Helper()
	files := build.Files{}
	require.NoError(t, fs.WalkDir(os.DirFS(dir), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		files[filepath.ToSlash(name)], err = os.ReadFile(filepath.Join(dir, name))
		return err
	}))
	return files
}
