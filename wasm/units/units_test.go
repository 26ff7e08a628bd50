package units

import (
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging"
)

// Conversions by definition: NIST SP 811 (2008), appendix B, gives 1 lbf =
// 4.448 222 N, 1 psi = 6894.757 Pa, 1 lb/ft³ = 16.018 46 kg/m³, 1 ft·lbf =
// 1.355 818 N·m, 1 mi/h = 0.447 04 m/s, 1 kgf = 9.806 65 N, each to the
// digits printed there.
func TestUnitSizes(t *testing.T) {
	const printed = 1e-6 // relative: seven digits are printed
	for _, c := range []struct {
		dim  Dimension
		want float64
	}{
		{Metres, 0.3048}, {Centimetres, 2.54}, {Kilonewtons, 4.448222e-3}, {Kilograms, 0.45359237},
		{KilogramsPerCubicMetre, 16.01846}, {Megapascals, 6894.757e-6}, {SquareMetres, 0.09290304}, {MetresPerSecond, 0.44704},
		{KilonewtonMetres, 1.355818e-3}, {Kilojoules, 1.355818e-3}, {CubicMetres, 0.02831685}, {KilogramsPerMetre, 1.488164},
	} {
		assert.InEpsilon(t, c.want, US.Units[c.dim].Size, printed, US.Units[c.dim].Name)
	}
	assert.InEpsilon(t, 9.80665, TF.Units[Kilonewtons].Size, 1e-12)
	for dim := range Dimensions {
		assert.Equal(t, 1.0, KN.Units[dim].Size, "the metric system shows what the file keeps")
	}
}

// What is typed in any unit is shown again as it was typed: up to nine digits.
func TestFieldShowsWhatWasTyped(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 20000 {
		u := Systems[rng.IntN(len(Systems))]
		dim := Dimension(rng.IntN(int(Dimensions)))
		digits := 1 + rng.IntN(9)
		v := RoundDigits(math.Pow(10, rng.Float64()*7-2), digits)
		if dim == Count {
			v = math.Ceil(v)
		}
		if rng.IntN(4) == 0 {
			v = -v
		}
		text := Decimal(v, -1)
		kept, ok := u.Parse(text, dim)
		require.True(t, ok, text)
		require.Equal(t, text, u.Field(kept, dim, Nearest), "%s %s", text, u.Units[dim].Name)
		// And once more through the text of the file.
		back, err := strconv.ParseFloat(strconv.FormatFloat(kept, 'g', -1, 64), 64)
		require.NoError(t, err)
		require.Equal(t, kept, back)
	}
}

// A number of the file shown in another unit and typed again as shown is the
// same number to the six digits that are shown.
func TestFieldRoundTripFromFile(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for range 20000 {
		u := Systems[rng.IntN(len(Systems))]
		dim := Dimension(rng.IntN(int(Dimensions)))
		if dim == Count {
			continue
		}
		v := math.Pow(10, rng.Float64()*7-2)
		for _, way := range []Direction{Nearest, Up, Down} {
			text := u.Field(v, dim, way)
			back, ok := u.Parse(text, dim)
			require.True(t, ok, text)
			require.InEpsilon(t, v, back, 1e-5) // one in the sixth digit
			if way == Up {
				require.GreaterOrEqual(t, back, v*(1-1e-11))
			}
			if way == Down {
				require.LessOrEqual(t, back, v*(1+1e-11))
			}
			require.Equal(t, text, u.Field(back, dim, way), "showing is stable")
		}
	}
}

// shownValue reads a shown quantity back into the file's unit.
func shownValue(t *testing.T, u *System, text string, dim Dimension) float64 {
	t.Helper()
	text, _, _ = strings.Cut(text, "\u00a0")
	text = strings.NewReplacer("\u202f", "", "−", "-").Replace(text)
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return v * u.Units[dim].Size
}

func TestLoadsRoundUpCapacitiesDown(t *testing.T) {
	t.Parallel()
	rng := rand.New(rand.NewPCG(5, 6))
	const noise = 1e-11 // relative; see slack
	for range 50000 {
		u := Systems[rng.IntN(len(Systems))]
		v := math.Pow(10, rng.Float64()*7-3)
		load := shownValue(t, u, u.Load(v), Kilonewtons)
		holds := shownValue(t, u, u.Capacity(v), Kilonewtons)
		require.GreaterOrEqual(t, load, v*(1-noise))
		require.LessOrEqual(t, holds, v*(1+noise))
		step := math.Max(u.Units[Kilonewtons].Step*u.Units[Kilonewtons].Size, v/100) // a hundredth: one in the third digit
		require.LessOrEqual(t, load-v, step*(1+noise))
		require.LessOrEqual(t, v-holds, step*(1+noise))
		negative := shownValue(t, u, u.Capacity(-v), Kilonewtons)
		require.LessOrEqual(t, negative, -v*(1-noise), "a negative margin is never shown as a smaller one")
	}
}

func TestQuantityText(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{KN.Load(24.31), "24.4\u00a0kN"},
		{KN.Capacity(24.39), "24.3\u00a0kN"},
		{KN.Load(25.000000000000004), "25.0\u00a0kN"},
		{KN.Load(25.0000001), "25.1\u00a0kN"},
		{KN.Load(123.2), "124\u00a0kN"},
		{KN.Load(0.01), "0.1\u00a0kN"},
		{KN.Capacity(0.01), "0.0\u00a0kN"},
		{KN.Load(0), "0\u00a0kN"},
		{US.Load(60), "13\u202f500\u00a0lbf"},
		{TF.Load(9.80665), "1.00\u00a0tf"},
		{KN.Load(math.NaN()), "–"},
		{KN.Capacity(math.Inf(1)), "–"},
		{KN.Load(-3.21), "−3.3\u00a0kN"},
		{Percent(0.8), "80\u00a0%"},
		{Percent(0.8000001), "81\u00a0%"},
		{Percent(1), "100\u00a0%"},
		{Percent(1.0001), "101\u00a0%"},
		{Percent(0.29), "29\u00a0%"},
		{Percent(math.NaN()), "–"},
		{Percent(math.Inf(1)), "∞\u00a0%"},
		{KN.Quantity(12.34, Degrees, Nearest), "12.3°"},
	} {
		assert.Equal(t, c.want, c.got)
	}
}

func TestUnknownSystemIsMetric(t *testing.T) {
	for _, key := range []string{"", "kN", "stone", "US"} {
		assert.Equal(t, "kN", Of(key).Key)
	}
	assert.Equal(t, "us", Of("us").Key)
	assert.Equal(t, "tf", Of("tf").Key)
}

func TestParseTyped(t *testing.T) {
	const tonne = rigging.TonneForce / rigging.KN
	for _, c := range []struct {
		u    *System
		dim  Dimension
		text string
		want float64
	}{
		{&KN, Metres, "28", 28}, {&KN, Metres, " 28.5 ", 28.5}, {&KN, Metres, "28,5", 28.5},
		{&KN, Metres, "28 m", 28}, {&KN, Metres, "92 ft", 28.0416}, {&US, Metres, "10", 3.048},
		{&US, Metres, "3.048 m", 3.048}, {&KN, Metres, "850 mm", 0.85}, {&KN, Metres, "6 ft 3 in", 1.905},
		{&KN, Metres, "6'3\"", 1.905}, {&US, Metres, "6’", 1.8288},
		{&KN, Centimetres, "85", 85}, {&KN, Centimetres, "0,85m", 85}, {&US, Centimetres, "3/4 in", 1.905}, {&US, Centimetres, "1 3/4", 4.445},
		{&KN, Degrees, "4°", 4}, {&KN, Degrees, "-4 °", -4}, {&KN, Degrees, "−4.5 deg", -4.5}, {&KN, Degrees, "+4", 4},
		{&KN, Kilonewtons, "12 kN", 12}, {&KN, Kilonewtons, "9.5 t", 9.5 * tonne}, {&TF, Kilonewtons, "9.5", 9.5 * tonne},
		{&KN, Kilonewtons, "1000 kg", tonne}, {&KN, Kilonewtons, "100 daN", 1}, {&US, Kilonewtons, "2000", 2000 * 4.4482216152605e-3},
		{&KN, Kilonewtons, "1 short ton", 2000 * 4.4482216152605e-3}, {&KN, Kilonewtons, "5000 N", 5},
		{&KN, TonnesForce, "3.25", 3.25}, {&US, TonnesForce, "3.25", 3.25}, {&US, TonnesForce, "2 short tons", 1.81436948}, {&KN, TonnesForce, "3250 kg", 3.25},
		{&KN, Kilograms, "4.8 t", 4800}, {&KN, Kilograms, "1 200", 1200}, {&KN, Kilograms, "12\u202f000 kg", 12000},
		{&KN, Kilograms, "1,200.5", 1200.5}, {&KN, Kilograms, "1.200,5", 1200.5}, {&KN, Kilograms, "1,200,000", 1200000},
		{&KN, Plain, "80 %", 0.8}, {&KN, Plain, "0,125", 0.125}, {&KN, Plain, ".5", 0.5}, {&KN, Plain, "1e3", 1000},
		{&KN, MetresPerSecond, "36 km/h", 10}, {&US, MetresPerSecond, "10", 4.4704}, {&KN, Count, "3", 3},
		{&KN, NewtonMetresPerKilogram, "150 N·m/kg", 150}, {&US, NewtonMetresPerKilogram, "1", 2.98906692},
	} {
		got, ok := c.u.Parse(c.text, c.dim)
		if assert.True(t, ok, c.text) {
			assert.InDelta(t, c.want, got, 1e-9*math.Max(1, math.Abs(c.want)), c.text)
		}
	}
}

// What is not a number, or could be read in two ways, is not guessed at.
func TestParseTypedRefuses(t *testing.T) {
	for _, text := range []string{
		"", "abc", "-", ".", "12 tons", "12 ton", "1,200", "12 34", "1 2 3", "1.2.3", "1,2,3", "NaN", "inf", "Infinity", "0x10", "1e999",
		"12 kN m", "3/0", "/4", "12 m", "1/2/3", "5 5/8/9", "--4", "4-", "12 12", "1_000", "1e", "٣", "12kNn",
	} {
		_, ok := KN.Parse(text, Kilonewtons)
		assert.False(t, ok, text)
	}
	_, ok := KN.Parse("2.5", Count)
	assert.False(t, ok, "half a part of rope")
}

func TestParseRows(t *testing.T) {
	for text, want := range map[string][]int{"3-2-1": {3, 2, 1}, "1, 1, 1": {1, 1, 1}, "[2,1]": {2, 1}, "3": {3}, "3 2 1": {3, 2, 1}} {
		got, ok := ParseRows(text)
		assert.True(t, ok, text)
		assert.Equal(t, want, got)
	}
	for _, text := range []string{"", "x", "1-x", "1.5", "-", "1000"} {
		_, ok := ParseRows(text)
		assert.False(t, ok, text)
	}
}

func FuzzParseTyped(f *testing.F) {
	for _, s := range []string{"28 m", "1 3/4 in", "6 ft 3 in", "1,200.5", "−4°", "1e-3", "9.5 t"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, u := range Systems {
			for dim := range Dimensions {
				v, ok := u.Parse(text, dim)
				if ok && (math.IsNaN(v) || math.IsInf(v, 0)) {
					t.Fatalf("%q gives %v", text, v)
				}
			}
		}
	})
}
