package rigging

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestPicketCapacity(t *testing.T) {
	hold := func(soil float64, rows ...int) float64 {
		got, err := PicketCapacity(rows, soil)
		require.NoError(t, err)
		return got
	}
	// US Navy NAVEDTRA 14251, ch. 6: 700 lb for one, 1,800 lb for 1-1-1.
	c := publishedExample(t, "anch-01")
	assertPrinted(t, c, "single", hold(1, 1)/PoundForce)
	assertPrinted(t, c, "c111", hold(1, 1, 1, 1)/PoundForce)
	// The same, 3-2-1: 4,000 lb, printed also as 1,800 kg (rounded: 1,814).
	assert.InEpsilon(t, 4000.0, hold(1, 3, 2, 1)/PoundForce, exact)
	assert.InDelta(t, 1800, hold(1, 3, 2, 1)/TonneForce*1000, 50)
	// The Navy construction electrician manual gives 1-1-1 as 810 kg
	// (rounded: 816).
	assert.InDelta(t, 810, hold(1, 1, 1, 1)/TonneForce*1000, 10)
	// US Army FM 5-125 Table 4-1, from memory.
	assert.InEpsilon(t, 1400.0, hold(1, 1, 1)/PoundForce, exact)
	assert.InEpsilon(t, 2000.0, hold(1, 2, 1)/PoundForce, exact)

	for _, soil := range PicketSoils() {
		assert.InEpsilon(t, soil.Value*hold(1, 3, 2, 1), hold(soil.Value, 3, 2, 1), exact, soil.Key)
	}
	for _, rows := range [][]int{nil, {}, {0}, {2}, {1, 2}, {1, 1, 1, 1}, {-1}, {1, 2, 3}} {
		_, err := PicketCapacity(rows, 1)
		var table *TableError
		require.ErrorAs(t, err, &table, "%v", rows)
		assert.Contains(t, table.Accepted, "3-2-1")
	}
	for _, soil := range []float64{0, -1, 1.1, math.NaN(), math.Inf(1)} {
		_, err := PicketCapacity([]int{1}, soil)
		assert.Error(t, err, "%v", soil)
	}
}

// Natural Disasters Organisation (Australia), Disaster Rescue, para 8.3.
func TestSteelPicketCapacity(t *testing.T) {
	c := publishedExample(t, "anch-03")
	hold := func(n int) float64 {
		got, err := SteelPicketCapacity(n)
		require.NoError(t, err)
		return got / G // kgf
	}
	assertPrinted(t, c, "single", hold(1))
	assertPrinted(t, c, "per_extra", hold(2)-hold(1))
	assert.InEpsilon(t, 1050.0, hold(3), exact)
	// Six would add to 2,100 kg; the manual ends at about 2 tonnes.
	assert.InEpsilon(t, 2000.0, hold(6), exact)
	_, err := SteelPicketCapacity(0)
	assert.Error(t, err)
}
