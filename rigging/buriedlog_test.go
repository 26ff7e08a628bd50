package rigging

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// exact is the relative tolerance for arithmetic that only the last bits of
// a float64 can disturb.
const exact = 1e-12

// US Army TM 5-5420-278-10, work package 0035, Table 9: pounds per square
// foot by mean depth (ft) and slope of the pull.
func TestBuriedLogPressureIsThePrintedTable(t *testing.T) {
	printed := map[float64][4]float64{
		3: {950, 1300, 1450, 1500},
		4: {1750, 2200, 2600, 2700},
		5: {2800, 3600, 4000, 4100},
		6: {3800, 5100, 5800, 6000},
		7: {5100, 7000, 8000, 8400},
	}
	for depth, row := range printed {
		for i, want := range row {
			slope := math.Atan(1 / float64(i+1))
			got, err := BuriedLogPressure(depth*Foot, slope)
			require.NoError(t, err)
			assert.InEpsilon(t, want, got*Foot*Foot/PoundForce, exact, "%v ft, 1:%d", depth, i+1)
		}
	}
	c := publishedExample(t, "anch-04")
	for name, slope := range map[string]float64{"hp_1_1": 1, "hp_1_3": 1.0 / 3, "hp_1_4": 0.25} {
		got, err := BuriedLogPressure(c.InSI("depth"), math.Atan(slope))
		require.NoError(t, err)
		assertPrinted(t, c, name, got*Foot*Foot/PoundForce)
	}
	// The reference's conversion: 3,600 lb/ft² is 172 kPa.
	got, err := BuriedLogPressure(5*Foot, math.Atan(0.5))
	require.NoError(t, err)
	assert.InDelta(t, 172e3, got, 0.5e3)
}

func TestBuriedLogPressureBetweenAndBeyondTheTable(t *testing.T) {
	pressure := func(depth, slope float64) float64 {
		p, err := BuriedLogPressure(depth, slope)
		require.NoError(t, err)
		return p / poundPerSquareFoot
	}
	assert.InEpsilon(t, (2200+3600)/2.0, pressure(4.5*Foot, math.Atan(0.5)), exact)
	halfway := (math.Atan(1) + math.Atan(0.5)) / 2
	assert.InEpsilon(t, (2800+3600)/2.0, pressure(5*Foot, halfway), exact)
	assert.InEpsilon(t, 8400.0, pressure(20*Foot, 0), exact, "deeper and flatter than the table")
	assert.InEpsilon(t, 8400.0, pressure(7*Foot, -0.1), exact, "a falling pull counts as a flat one")

	for _, bad := range [][2]float64{
		{0.9, 0.2}, {-1, 0.2}, {0, 0.2}, {math.NaN(), 0.2}, {math.Inf(1), 0.2},
		{2, 46 * Deg}, {2, math.NaN()}, {2, math.Inf(1)}, {2, math.Inf(-1)},
	} {
		got, err := BuriedLogPressure(bad[0], bad[1])
		var table *TableError
		require.ErrorAs(t, err, &table, "%v", bad)
		assert.NotEmpty(t, table.Accepted)
		assert.Zero(t, got)
	}
}

// Deeper never holds less, steeper never more.
func TestBuriedLogPressureRunsOneWay(t *testing.T) {
	random := rand.New(rand.NewSource(1))
	for range 500 {
		d, s := (3+5*random.Float64())*Foot, 45*Deg*random.Float64()
		p, err := BuriedLogPressure(d, s)
		require.NoError(t, err)
		deeper, err := BuriedLogPressure(d+0.1, s)
		require.NoError(t, err)
		flatter, err := BuriedLogPressure(d, s*0.9)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, deeper, p*(1-exact))
		assert.GreaterOrEqual(t, flatter, p*(1-exact))
	}
}

// The length rule Dt = CC/(HP × Df) + 1 ft of TM 5-5420-278-10 p. 0035-22,
// worked with its table: a line of 21,400 lb at 5 ft and 1:2.
func TestBuriedLogLengthRule(t *testing.T) {
	pressure, err := BuriedLogPressure(5*Foot, math.Atan(0.5))
	require.NoError(t, err)
	for _, c := range []struct {
		face, length float64 // ft
		holds        bool    // within the slenderness of a log
	}{{1.0, 6.94, false}, {1.25, 5.76, true}} {
		length, err := BuriedLogLength(21400*PoundForce, pressure, c.face*Foot, BuriedLogSlot)
		require.NoError(t, err)
		assert.InDelta(t, c.length, length/Foot, 0.005, "printed to 0.01 ft")
		assert.Equal(t, c.holds, length/(c.face*Foot) <= BuriedLogSlenderness)

		// The capacity turns the rule round.
		capacity, err := BuriedLogCapacity(5*Foot, math.Atan(0.5), c.face*Foot, length, BuriedLogSlot, 1)
		if c.holds {
			require.NoError(t, err)
			assert.InEpsilon(t, 21400*PoundForce, capacity, exact)
		} else {
			assert.ErrorContains(t, err, "up to 5")
		}
	}
}

// US Army FM 5-125 ch. 4 sec. I, deadman sample problem (from memory):
// bearing area for a line of 83,600 lb. A timber of 1.5 ft face with a 2 ft
// trench slot.
func TestBuriedTimberExample(t *testing.T) {
	c := publishedExample(t, "anch-06")
	pressure := c.In("HP") * poundPerSquareFoot
	force := c.In("BS") * PoundForce
	assertPrinted(t, c, "BA", force/pressure)
	length, err := BuriedLogLength(force, pressure, c.InSI("face"), c.InSI("trench"))
	require.NoError(t, err)
	assert.InDelta(t, 8.97, length/Foot, 0.005)
	assert.Less(t, length/c.InSI("face"), BuriedTimberSlenderness)
	table, err := BuriedLogPressure(7*Foot, math.Atan(1.0/3))
	require.NoError(t, err)
	assert.InEpsilon(t, pressure, table, exact)
}

func TestBuriedLogCapacity(t *testing.T) {
	// 5 ft, 1:2, a log of 1 ft × 5 ft with a 1 ft slot: 4 ft² × 3,600 lb/ft².
	got, err := BuriedLogCapacity(5*Foot, math.Atan(0.5), Foot, 5*Foot, Foot, 1)
	require.NoError(t, err)
	assert.InEpsilon(t, 14400*PoundForce, got, exact)
	for _, soil := range BuriedLogSoils() {
		other, err := BuriedLogCapacity(5*Foot, math.Atan(0.5), Foot, 5*Foot, Foot, soil.Value)
		require.NoError(t, err)
		assert.InEpsilon(t, soil.Value*got, other, exact, soil.Key)
	}

	nan := math.NaN()
	for _, bad := range [][6]float64{
		{0.5, 0.2, 0.3, 1.5, 0.3, 1}, {2, 1, 0.3, 1.5, 0.3, 1}, {2, 0.2, 0, 1.5, 0.3, 1}, {2, 0.2, nan, 1.5, 0.3, 1},
		{2, 0.2, 0.3, 0, 0.3, 1}, {2, 0.2, 0.3, nan, 0.3, 1}, {2, 0.2, 0.3, 1.6, 0.3, 1}, {2, 0.2, 0.3, 1.5, -0.1, 1},
		{2, 0.2, 0.3, 1.5, 1.5, 1}, {2, 0.2, 0.3, 1.5, nan, 1}, {2, 0.2, 0.3, 1.5, 0.3, 0}, {2, 0.2, 0.3, 1.5, 0.3, 6},
		{2, 0.2, 0.3, 1.5, 0.3, nan}, {2, 0.2, math.Inf(1), 1.5, 0.3, 1}, {nan, 0.2, 0.3, 1.5, 0.3, 1},
	} {
		got, err := BuriedLogCapacity(bad[0], bad[1], bad[2], bad[3], bad[4], bad[5])
		var table *TableError
		require.ErrorAs(t, err, &table, "%v", bad)
		assert.Zero(t, got)
	}
	_, err = BuriedLogLength(1000, nan, 0.3, 0.3)
	assert.Error(t, err)
}
