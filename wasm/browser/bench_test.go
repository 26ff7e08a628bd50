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

// BenchmarkJudgement measures what a person waits for beside the page, in a program that
// has been at it for a while: 2,000 draws with their shares and the first 64, a map of
// 3,600 places, and the changes for a piece too small; in milliseconds.
func BenchmarkJudgement(b *testing.B) {
	for _, engine := range engines {
		b.Run(engine, func(b *testing.B) {
			s, err := Serve(site(b).Site.Handler())
			require.NoError(b, err)
			defer s.Leave()
			p := open(b, engine, Options{})
			visit(b, p, s.URL())

			var ms struct{ First, Draws, Places, Changes float64 }
			for b.Loop() {
				require.NoError(b, p.Await(&ms, `
const { load, demo } = await import(new URL("rigging.js?judged", location.href));
const calculator = await load();
const plan = await demo();
const small = structuredClone(plan);
small.gear[1].wll_t = 1.5;
const grid = { point: "M", bearings_deg: [-177, 180, 3], distances_m: [10, 155, 5] };
const time = async (call) => {
	const from = performance.now();
	await call();
	return performance.now() - from;
};
await calculator.sample(plan, { draws: 500, seed: 2 });
return {
	First: await time(() => calculator.sample(plan, { draws: 64, seed: 3 })), Draws: await time(() => calculator.sample(plan, { draws: 2000, seed: 4 })),
	Places: await time(() => calculator.places(plan, grid)), Changes: await time(() => calculator.changes(small)),
};`))
			}
			b.ReportMetric(0, "ns/op")
			b.ReportMetric(ms.First, "ms/64-draws")
			b.ReportMetric(ms.Draws, "ms/2000-draws")
			b.ReportMetric(ms.Places, "ms/3600-places")
			b.ReportMetric(ms.Changes, "ms/changes")
		})
	}
}
