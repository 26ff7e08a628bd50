package page

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging/jsontext"
	"pullline/rigging/plan"
	"pullline/wasm/draft/drafttest"
	"pullline/wasm/draw"
	"pullline/wasm/request"
	"pullline/wasm/scene"
)

func TestParseRequest(t *testing.T) {
	req, err := parse([]byte(`{"plan": {"name": "x"}, "settings": {"units": "us"}, "light": true, "report": true,
		"boxes": {"side": {"w": 300, "h": 200.5, "frame": [0, -1, 2.5, 3e1]}, "curve": {"w": 10, "h": 10}, "other": 3},
		"more": {}}`))
	require.NoError(t, err)
	assert.Equal(t, &asked{
		Common: request.Common{Plan: map[string]any{"name": "x"}, Size: 13, Settings: request.Settings{Units: "us"}}, Light: true, Report: true,
		Boxes: scene.Boxes{Side: draw.Box{W: 300, H: 200.5, Frame: []float64{0, -1, 2.5, 30}}, Curve: draw.Box{W: 10, H: 10}},
	}, req)
}

// What is of a wrong type, or impossible, is as good as left out.
func TestParseRequestTakesRubbish(t *testing.T) {
	for _, raw := range []string{
		`{}`, `[]`, `null`, `3`, `{"settings": 7, "boxes": "x", "light": "true", "report": 1, "fine": [], "path": 3, "text": {}, "do": null, "handle": [],
			"x": "1", "y": 1e999, "step_x": 1.5, "step_y": 1e12}`,
		`{"boxes": {"side": {"w": 300}, "plan": {"w": -1, "h": 5}, "curve": {"w": 1e9, "h": 100}}}`,
	} {
		req, err := parse([]byte(raw))
		require.NoError(t, err, raw)
		assert.Equal(t, &asked{}, req, raw)
	}
	req, err := parse([]byte(`{"boxes": {"side": {"w": 3, "h": 3, "frame": [1, "x", 3, 4]}}}`))
	require.NoError(t, err)
	assert.Equal(t, draw.Box{W: 3, H: 3}, req.Boxes.Side)
	for _, raw := range []string{``, `x`, `{"plan": {}`, `{} {}`, `{"plan": {"a": 01}}`} {
		_, err := parse([]byte(raw))
		require.Error(t, err, raw)
	}
}

// The length of a plan is held to its limit here too, and a call leaves the
// plan as it was.
func TestPlanInARequest(t *testing.T) {
	long := `{"plan": {"notes": "` + strings.Repeat("x", plan.MaxBytes) + `"}}`
	assert.Contains(t, viewed(t, []byte(long)).Headline.Sentence, "bytes long")

	req, err := parse(askedFor(t, []byte(drafttest.Full), "us"))
	require.NoError(t, err)
	view(req)
	again, err := jsontext.Parse([]byte(drafttest.Full))
	require.NoError(t, err)
	assert.Equal(t, again, req.Plan)
}
