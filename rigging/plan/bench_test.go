package plan

import (
	"runtime"
	"testing"
)

// BenchmarkEvaluate reads the example plan and writes its report.
func BenchmarkEvaluate(b *testing.B) {
	raw := demo(b)
	b.Run("report", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			EvaluateJSON(raw)
		}
	})
	b.Run("working", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			WorkingJSON(raw)
		}
	})
}

// BenchmarkMemory shows what ten thousand evaluations leave behind, in bytes
// still held after a collection; it should be next to nothing.
func BenchmarkMemory(b *testing.B) {
	raw := demo(b)
	held := func() float64 {
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return float64(m.HeapAlloc)
	}
	EvaluateJSON(raw)
	grown := 0.0
	for b.Loop() {
		before := held()
		for range 10_000 {
			EvaluateJSON(raw)
		}
		grown = held() - before
	}
	b.ReportMetric(grown, "B/10000-evaluations")
}
