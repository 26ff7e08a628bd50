package browser

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const stemHandle = "side/stem/0/0" // where the pull line meets the stem

// A line is moved up the stem by pointer: the plan, the form and the numbers
// follow, Escape gives up, undo takes it back.
func TestDraggingOnTheStem(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p, _ := fresh(t, engine, Options{})
		before := planOf(t, p)
		height := func() float64 { return number(t, p, "lines", 0, "path", 0, "stem_m") }

		x, y := handleAt(t, p, stemHandle)
		require.NoError(t, p.Drag("mouse", x, y, x, y-60, 6))
		settle(t, p)
		raised := height()
		assert.Greater(t, raised, 14.0)
		assert.Equal(t, trimmed(raised), fieldText(t, p, "lines[0].path[0].stem_m"))
		agrees(t, p, "kN")
		_, after := handleAt(t, p, stemHandle)
		assert.Less(t, after, y, "the handle went along")

		press(t, p, "#undo")
		assert.Equal(t, before, planOf(t, p))
		assert.Equal(t, "14", fieldText(t, p, "lines[0].path[0].stem_m"))

		x, y = handleAt(t, p, stemHandle)
		require.NoError(t, p.Hold("mouse", x, y, x, y-60, 6))
		settle(t, p)
		assert.Greater(t, height(), 14.0, "while it is held")
		require.NoError(t, p.Press(Escape))
		require.NoError(t, p.LetGo("mouse"))
		settle(t, p)
		assert.Equal(t, before, planOf(t, p), "given up")
		agrees(t, p, "kN")
	})
}

// A point is moved over the ground, seen from above.
func TestDraggingOnTheGround(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p, _ := fresh(t, engine, Options{})
		x, y := handleAt(t, p, "plan/point/5")
		require.NoError(t, p.Drag("mouse", x, y, x-30, y-10, 6))
		settle(t, p)
		bearing, distance := number(t, p, "points", 5, "bearing_deg"), number(t, p, "points", 5, "distance_m")
		assert.NotEqual(t, 262.0, bearing)
		assert.NotEqual(t, 34.0, distance)
		assert.Equal(t, trimmed(bearing), fieldText(t, p, "points[5].bearing_deg"))
		assert.Equal(t, trimmed(distance), fieldText(t, p, "points[5].distance_m"))
		agrees(t, p, "kN")
	})
}

// While a handle is held what is in view stays, so that the scale does not
// jump under the pointer; afterwards the drawing is laid out anew.
func TestTheScaleStandsWhileDragging(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p, _ := fresh(t, engine, Options{})
		frame := func() (f []float64) {
			require.NoError(t, p.Await(&f, ownModules+`return (await module("state")).state.shown.side.frame`))
			return f
		}
		before := frame()
		require.Len(t, before, 4)
		x, y := handleAt(t, p, "side/point/5") // the hold line's, the only one behind the tree
		tipX, _ := handleAt(t, p, "side/lean")
		x2, y2 := handleAt(t, p, "side/point/5")
		require.Equal(t, []float64{x, y}, []float64{x2, y2})
		require.NoError(t, p.Hold("mouse", x, y, 40+x, y, 6))
		settle(t, p)
		assert.Equal(t, before, frame())
		var sent bool
		require.NoError(t, p.Await(&sent, ownModules+`return Array.isArray((await module("state")).state.boxes.side.frame)`))
		assert.True(t, sent, "what was in view is sent along")
		nowX, _ := handleAt(t, p, "side/lean")
		assert.InDelta(t, tipX, nowX, 0.5, "px: what is not dragged stands")
		require.NoError(t, p.LetGo("mouse"))
		settle(t, p)
		require.NoError(t, p.Await(&sent, ownModules+`return Array.isArray((await module("state")).state.boxes.side.frame)`))
		assert.False(t, sent, "let go, it is laid out anew")
	})
}

// A finger drags as a mouse does, and the page does not scroll along.
func TestDraggingByFinger(t *testing.T) {
	p, _ := fresh(t, "chromium", Options{Width: 360, Height: 780, Touch: true})
	x, y := handleAt(t, p, stemHandle)
	var before, after float64
	require.NoError(t, p.Script(&before, "return scrollY"))
	require.NoError(t, p.Drag("touch", x, y, x, y-40, 6))
	settle(t, p)
	require.NoError(t, p.Script(&after, "return scrollY"))
	assert.Equal(t, before, after)
	assert.Greater(t, number(t, p, "lines", 0, "path", 0, "stem_m"), 14.0)
	agrees(t, p, "kN")
	shot(t, p, "dragged")
}
