package browser

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// BenchmarkPage measures what a person waits for: the program, one report, and
// one whole view with all drawings, which is also one step of a drag. It prints
// times in milliseconds; the browser's clock is coarse, so calls are timed over
// many, after enough of them for the browser to have compiled them well.
func BenchmarkPage(b *testing.B) {
	for _, engine := range engines {
		b.Run(engine, func(b *testing.B) {
			s, err := Serve(site(b).Site.Handler())
			require.NoError(b, err)
			defer s.Leave()
			p := open(b, engine, Options{})
			visit(b, p, s.URL())

			var ms struct{ Load, Evaluate, View float64 }
			for b.Loop() {
				require.NoError(b, p.Await(&ms, `
const { load, demo } = await import(new URL("rigging.js", location.href));
const plan = await demo();
const from = performance.now();
const again = await import(new URL("rigging.js?again", location.href)); // a second program
const calculator = await again.load();
const loaded = performance.now() - from;
const time = (call) => {
	const warm = 300, count = 100; // the browser's own compiler takes a few hundred calls to settle
	for (let i = 0; i < warm; i++) call();
	const from = performance.now();
	for (let i = 0; i < count; i++) call();
	return (performance.now() - from) / count;
};
const box = { w: 700, h: 450 };
const request = { plan, settings: { units: "kN" }, boxes: { side: box, plan: box, curve: box } };
return { load: loaded, evaluate: time(() => calculator.evaluate(plan)), view: time(() => calculator.view(request)) };`))
			}
			b.ReportMetric(0, "ns/op")
			b.ReportMetric(ms.Load, "ms/load")
			b.ReportMetric(ms.Evaluate, "ms/evaluate")
			b.ReportMetric(ms.View, "ms/view")
		})
	}
}
