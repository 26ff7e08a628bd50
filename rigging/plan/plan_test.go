package plan

import (
	"os"
	"testing"
)

func demo(t testing.TB) []byte {
	t.Helper()
	raw, err := os.ReadFile("../../testdata/demo.json")
	if err != nil {
		t.Fatal(err)
	}
	return raw
}

func TestShow(t *testing.T) {
	os.Stdout.Write(EvaluateJSON(demo(t)))
}

func BenchmarkEvaluateDemo(b *testing.B) {
	raw := demo(b)
	b.ReportAllocs()
	for b.Loop() {
		EvaluateJSON(raw)
	}
}
