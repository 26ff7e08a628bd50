package bench

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// Every value that is offered as published has a source, and where a bench
// stands on one, the source is beside it; on any other there is none.
func TestPublishedFiguresOfBenchesHaveTheirSource(t *testing.T) {
	for _, spec := range benches {
		for i := range spec.inputs {
			in := &spec.inputs[i]
			if in.suggest == nil || in.when != nil {
				continue
			}
			require.NotNil(t, in.suggest.Sources, "%s %s", spec.id, in.key)
			sources := in.suggest.Sources()
			require.Len(t, sources, len(in.suggest.In(words.Locale{})), "%s %s", spec.id, in.key)
			for k, o := range in.suggest.In(words.Locale{}) {
				require.NotEmpty(t, sources[k].Text, "%s %s", spec.id, o.Label)
				b := askFor(t, map[string]any{"bench": spec.id, "set": in.key, "text": o.Value})
				if !b.Fresh {
					continue // out of what this bench takes
				}
				var n parts.Note
				for _, note := range b.Notes {
					if note.Code == "figure-"+in.key {
						n = note
					}
				}
				assert.Contains(t, n.Message, strings.TrimSuffix(o.Label, "."), "%s %s", spec.id, in.key)
				assert.Contains(t, n.Source, sources[k].Text, "%s %s", spec.id, in.key)
			}
			for _, n := range askFor(t, map[string]any{"bench": spec.id, "set": in.key, "text": units.Decimal(in.low+(in.high-in.low)*0.3141, 4)}).Notes {
				assert.False(t, strings.HasPrefix(n.Code, "figure-"+in.key), "%s %s", spec.id, n.Message)
			}
		}
	}
}
