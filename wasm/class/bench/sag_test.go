package bench

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/wasm/units"
	"pullline/wasm/words"
)

// McLean, Engineering Mechanics, example 7-12: 0.518 lb/ft over 500 ft
// sags 50 ft where the pull at the ends, 355 lb read off a graph, has a level
// part of 355 − 0.518·50 lb.
func TestSagBenchPublished(t *testing.T) {
	b := askFor(t, map[string]any{"bench": "sag", "settings": map[string]string{"units": "us"}, "set": "tension_kN", "text": "329.1 lbf",
		"values": map[string]string{"span_m": "152.4", "mass_kgpm": units.Decimal(0.518*4.4482216152605/0.3048/9.80665, 9)}})
	require.True(t, b.Fresh)
	inches, ok := units.ParseNumber(strings.TrimSuffix(b.fact("sag"), "\u00a0in"))
	require.True(t, ok)
	assert.InEpsilon(t, 600, inches, 0.005, "the book reads a graph")
}

// Tayal, Engineering Mechanics, example 10.3 (digits of an open companion to
// the book): 75 kg on each metre of span hang 2 m below an end 8 m away, at a
// least tension of 11.772 kN with g = 9.81 m/s²; half of a level span of 16 m.
// A tenth of both loads the rope within the bench's range.
func TestSagBenchParabolaPublished(t *testing.T) {
	b := askFor(t, map[string]any{"bench": "sag", "values": map[string]string{
		"span_m": "16", "mass_kgpm": units.Decimal(7.5*9.81/9.80665, 9), "tension_kN": "1.1773"}}) // a hair more: at 1.1772 the rope weighs its tension
	for _, s := range b.Working {
		if s.Path == "shallow" {
			assert.Equal(t, "200\u00a0cm", s.Result)
		}
	}
	assert.NotEmpty(t, b.Working)
}

// Twice the tension, half the sag; twice the span, four times the sag. The
// parabola's rule, true to a thousandth for a taut rope.
func TestSagBenchProportions(t *testing.T) {
	sag := func(values map[string]string) float64 {
		b := &work{u: &units.KN, spec: &sag, in: map[string]float64{}, text: map[string]string{}, out: broken(words.Locale{}, "")}
		b.resolve(values)
		sag.solve(b)
		return b.kept.(sagState).sag.Mid
	}
	one := sag(map[string]string{"tension_kN": "10", "span_m": "40"})
	assert.InEpsilon(t, one/2, sag(map[string]string{"tension_kN": "20", "span_m": "40"}), 1e-3)
	assert.InEpsilon(t, 4*one, sag(map[string]string{"tension_kN": "10", "span_m": "80"}), 1e-3)
}

// The rope's middle, dragged to where it hangs, leaves the tension as it is;
// dragged up it tightens the rope.
func TestSagBenchDragged(t *testing.T) {
	b := askFor(t, map[string]any{"bench": "sag", "box": boxes})
	h := b.Picture.Handles[0]
	same := askFor(t, map[string]any{"bench": "sag", "box": boxes, "handle": h.ID, "x": h.X, "y": h.Y})
	assert.Equal(t, b.Values["tension_kN"], same.Values["tension_kN"])
	up := askFor(t, map[string]any{"bench": "sag", "box": boxes, "handle": h.ID, "x": h.X, "y": h.Y - 10})
	tight, _ := units.ParseNumber(up.Values["tension_kN"])
	assert.Greater(t, tight, 3.2)
}

// A rope heavier than its tension is no line: there is no number for it.
func TestSagBenchOfASlackRope(t *testing.T) {
	b := askFor(t, map[string]any{"bench": "sag", "box": boxes, "curve_box": boxes, "guess": true,
		"values": map[string]string{"tension_kN": "0.05", "mass_kgpm": "10", "span_m": "300"}})
	assert.Contains(t, b.Lacks, "slack")
	assert.Empty(t, b.Facts)
	assert.Nil(t, b.Curve)
	assert.Nil(t, b.Guess)
	require.NotNil(t, b.Picture)
	assert.NotContains(t, b.Picture.Desc, "cm", "no sag either")
}
