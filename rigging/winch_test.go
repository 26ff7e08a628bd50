package rigging

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// US Army TM 9-2320-279-10-2, Table 2-7: a truck's winch, pounds by layer.
// The drum's D0/d is taken from layers 1 and 2 alone; 3 to 5 then come out
// within 0.1 % of the print.
func TestDrumPullAgainstTheArmyTable(t *testing.T) {
	printed := []float64{20000, 18173, 16663, 15361, 14254}
	ratio, err := DrumRatio(printed[0], printed[1], 2)
	require.NoError(t, err)
	assert.InDelta(t, 18.9, ratio, 0.05)
	for i, want := range printed {
		got, err := DrumPull(printed[0], ratio, 1, i+1)
		require.NoError(t, err)
		assert.InEpsilon(t, want, got, 0.001, "layer %d", i+1)
	}
	c := publishedExample(t, "winch-07")
	ratio, err = DrumRatio(c.In("layer1"), c.In("layer2"), 2)
	require.NoError(t, err)
	third, err := DrumPull(c.In("layer1"), ratio, 1, 3)
	require.NoError(t, err)
	assertPrintedWithin(t, c, "layer3", third, 0.001, "constant torque gives 16,652 lb; the maker's table is 0.07 % above")
}

func TestDrumPullRejects(t *testing.T) {
	nan := math.NaN()
	for _, bad := range [][3]float64{{0, 1, 1}, {nan, 1, 1}, {1, 0, 1}, {1, nan, 1}, {1, 1, 0}, {1, 1, math.Inf(1)}, {-1, 1, 1}} {
		_, err := DrumPull(bad[0], bad[1], bad[2], 1)
		var table *TableError
		assert.ErrorAs(t, err, &table, "%v", bad)
	}
	_, err := DrumPull(1, 1, 1, 0)
	assert.Error(t, err)
	for _, bad := range []struct {
		first, pull float64
		layer       int
	}{{0, 1, 2}, {10, 10, 2}, {10, 11, 2}, {10, nan, 2}, {10, 9, 1}, {10, 3, 2}} {
		_, err := DrumRatio(bad.first, bad.pull, bad.layer)
		assert.Error(t, err, "%v", bad)
	}
}

// HackMath problem 8298: 20 m of 6 mm on a drum of 50 mm, 60 mm wide.
func TestDrumPacking(t *testing.T) {
	c := publishedExample(t, "winch-01")
	wound := WoundDiameter(c.InSI("core"), c.InSI("width"), c.InSI("rope"), c.InSI("length"))
	assertPrinted(t, c, "equivalent", wound)
	// The page rounds up to whole rope diameters.
	assertPrinted(t, c, "D2", math.Ceil(wound/c.InSI("rope"))*c.InSI("rope"))
	// In whole layers of ten turns it is seven, 50 + 14·6 = 134 mm over all:
	// the area model's 133.3 and half a rope of each other.
	layer, err := DrumLayer(c.InSI("core"), c.InSI("width"), c.InSI("rope"), c.InSI("length"))
	require.NoError(t, err)
	assert.Equal(t, 7, layer)
	assert.InDelta(t, c.InSI("core")+float64(2*layer)*c.InSI("rope"), wound, c.InSI("rope")/2)

	first, err := DrumLayer(0.3, 0.4, 0.012, 1)
	require.NoError(t, err)
	assert.Equal(t, 1, first)
	for _, bad := range [][4]float64{{0, 1, 0.1, 1}, {1, 0, 0.1, 1}, {1, 1, 0, 1}, {1, 1, 0.1, 0}, {1, 0.1, 0.2, 1}, {1, 1, 0.1, math.NaN()}, {0.1, 0.1, 0.01, 1e9}} {
		_, err := DrumLayer(bad[0], bad[1], bad[2], bad[3])
		assert.Error(t, err, "%v", bad)
	}
	assert.True(t, math.IsNaN(WoundDiameter(1, 0, 1, 1)))
	assert.True(t, math.IsNaN(WoundDiameter(1, 1, 1, math.NaN())))
}
