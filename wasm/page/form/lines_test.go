package form

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"pullline/wasm/draft/drafttest"
	"pullline/wasm/units"
)

func TestLinesOfText(t *testing.T) {
	assert.Equal(t, []string{"a", "b c"}, splitLines(" a \n\n b c\n"))
	assert.Equal(t, "a\nb", JoinLines([]any{"a", "b"}))
	assert.Equal(t, "x", JoinLines("x"))
	d := drafttest.Parse([]byte(`{}`))
	e := NewEditor(d, &units.KN)
	e.Type("brief.sequence", "one\ntwo")
	raw := drafttest.Apply(t, []byte(`{}`), e.Out)
	assert.JSONEq(t, `{"brief": {"sequence": ["one", "two"]}}`, string(raw))
}
