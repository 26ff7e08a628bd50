package sure

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"pullline/rigging/jsontext"
)

func demo(t testing.TB) (tree any, size int) {
	t.Helper()
	raw, err := os.ReadFile("../../../testdata/demo.json")
	require.NoError(t, err)
	tree, err = jsontext.Parse(raw)
	require.NoError(t, err)
	return tree, len(raw)
}

// BenchmarkSample takes the first draws of the example plan, enough for an answer, and
// the 2,000 of a whole one.
func BenchmarkSample(b *testing.B) {
	tree, size := demo(b)
	for name, draws := range map[string]int{"first": together, "whole": usualDraws} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				s := Start(tree, size, 1)
				s.More(draws)
				s.Answer()
			}
		})
	}
}
