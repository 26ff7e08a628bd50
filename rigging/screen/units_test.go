package screen

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

var systems = []*unitSystem{&systemKN, &systemTF, &systemUS}

// Conversions by definition: NIST SP 811 (2008), appendix B, gives 1 lbf =
// 4.448 222 N, 1 psi = 6894.757 Pa, 1 lb/ft³ = 16.018 46 kg/m³, 1 ft·lbf =
// 1.355 818 N·m, 1 mi/h = 0.447 04 m/s, 1 kgf = 9.806 65 N, each to the
// digits printed there.
func TestUnitSizes(t *testing.T) {
	const printed = 1e-6 // relative: seven digits are printed
	for _, c := range []struct {
		dim  dimension
		want float64
	}{
		{metres, 0.3048}, {centis, 2.54}, {kilonewt, 4.448222e-3}, {kilograms, 0.45359237},
		{perVolume, 16.01846}, {megapasc, 6894.757e-6}, {areaM2, 0.09290304}, {speed, 0.44704},
		{moment, 1.355818e-3}, {energy, 1.355818e-3}, {volume, 0.02831685}, {perLength, 1.488164},
	} {
		assert.InEpsilon(t, c.want, systemUS.units[c.dim].size, printed, systemUS.units[c.dim].name)
	}
	assert.InEpsilon(t, 9.80665, systemTF.units[kilonewt].size, 1e-12)
	for dim := range dimensions {
		assert.Equal(t, 1.0, systemKN.units[dim].size, "the metric system shows what the file keeps")
	}
}

// What is typed in any unit is shown again as it was typed: up to nine digits.
func TestFieldShowsWhatWasTyped(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 20000 {
		u := systems[rng.IntN(len(systems))]
		dim := dimension(rng.IntN(int(dimensions)))
		digits := 1 + rng.IntN(9)
		v := roundDigits(math.Pow(10, rng.Float64()*7-2), digits)
		if dim == count {
			v = math.Ceil(v)
		}
		if rng.IntN(4) == 0 {
			v = -v
		}
		text := decimal(v, -1)
		kept, ok := u.parseTyped(text, dim)
		require.True(t, ok, text)
		require.Equal(t, text, u.field(kept, dim, nearest), "%s %s", text, u.units[dim].name)
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
		u := systems[rng.IntN(len(systems))]
		dim := dimension(rng.IntN(int(dimensions)))
		if dim == count {
			continue
		}
		v := math.Pow(10, rng.Float64()*7-2)
		for _, way := range []direction{nearest, upward, downward} {
			text := u.field(v, dim, way)
			back, ok := u.parseTyped(text, dim)
			require.True(t, ok, text)
			require.InEpsilon(t, v, back, 1e-5) // one in the sixth digit
			if way == upward {
				require.GreaterOrEqual(t, back, v*(1-1e-11))
			}
			if way == downward {
				require.LessOrEqual(t, back, v*(1+1e-11))
			}
			require.Equal(t, text, u.field(back, dim, way), "showing is stable")
		}
	}
}

// shownValue reads a shown quantity back into the file's unit.
func shownValue(t *testing.T, u *unitSystem, text string, dim dimension) float64 {
	t.Helper()
	text, _, _ = strings.Cut(text, "\u00a0")
	text = strings.NewReplacer("\u202f", "", "−", "-").Replace(text)
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return v * u.units[dim].size
}

func TestLoadsRoundUpCapacitiesDown(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	const noise = 1e-11 // relative; see slack
	for range 50000 {
		u := systems[rng.IntN(len(systems))]
		v := math.Pow(10, rng.Float64()*7-3)
		load := shownValue(t, u, u.load(v), kilonewt)
		holds := shownValue(t, u, u.holds(v), kilonewt)
		require.GreaterOrEqual(t, load, v*(1-noise))
		require.LessOrEqual(t, holds, v*(1+noise))
		step := math.Max(u.units[kilonewt].step*u.units[kilonewt].size, v/100) // a hundredth: one in the third digit
		require.LessOrEqual(t, load-v, step*(1+noise))
		require.LessOrEqual(t, v-holds, step*(1+noise))
		negative := shownValue(t, u, u.holds(-v), kilonewt)
		require.LessOrEqual(t, negative, -v*(1-noise), "a negative margin is never shown as a smaller one")
	}
}

func TestQuantityText(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{systemKN.load(24.31), "24.4\u00a0kN"},
		{systemKN.holds(24.39), "24.3\u00a0kN"},
		{systemKN.load(25.000000000000004), "25.0\u00a0kN"},
		{systemKN.load(25.0000001), "25.1\u00a0kN"},
		{systemKN.load(123.2), "124\u00a0kN"},
		{systemKN.load(0.01), "0.1\u00a0kN"},
		{systemKN.holds(0.01), "0.0\u00a0kN"},
		{systemKN.load(0), "0\u00a0kN"},
		{systemUS.load(60), "13\u202f500\u00a0lbf"},
		{systemTF.load(9.80665), "1.00\u00a0tf"},
		{systemKN.load(math.NaN()), "–"},
		{systemKN.holds(math.Inf(1)), "–"},
		{systemKN.load(-3.21), "−3.3\u00a0kN"},
		{percent(0.8), "80\u00a0%"},
		{percent(0.8000001), "81\u00a0%"},
		{percent(1), "100\u00a0%"},
		{percent(1.0001), "101\u00a0%"},
		{percent(0.29), "29\u00a0%"},
		{percent(math.NaN()), "–"},
		{percent(math.Inf(1)), "holds nothing"},
		{systemKN.quantity(12.34, degrees, nearest), "12.3°"},
	} {
		assert.Equal(t, c.want, c.got)
	}
}

func TestUnknownSystemIsMetric(t *testing.T) {
	for _, key := range []string{"", "kN", "stone", "US"} {
		assert.Equal(t, "kN", units(key).key)
	}
	assert.Equal(t, "us", units("us").key)
	assert.Equal(t, "tf", units("tf").key)
}

func TestParseTyped(t *testing.T) {
	const tonne = rigging.TonneForce / rigging.KN
	for _, c := range []struct {
		u    *unitSystem
		dim  dimension
		text string
		want float64
	}{
		{&systemKN, metres, "28", 28}, {&systemKN, metres, " 28.5 ", 28.5}, {&systemKN, metres, "28,5", 28.5},
		{&systemKN, metres, "28 m", 28}, {&systemKN, metres, "92 ft", 28.0416}, {&systemUS, metres, "10", 3.048},
		{&systemUS, metres, "3.048 m", 3.048}, {&systemKN, metres, "850 mm", 0.85}, {&systemKN, metres, "6 ft 3 in", 1.905},
		{&systemKN, metres, "6'3\"", 1.905}, {&systemUS, metres, "6’", 1.8288},
		{&systemKN, centis, "85", 85}, {&systemKN, centis, "0,85m", 85}, {&systemUS, centis, "3/4 in", 1.905}, {&systemUS, centis, "1 3/4", 4.445},
		{&systemKN, degrees, "4°", 4}, {&systemKN, degrees, "-4 °", -4}, {&systemKN, degrees, "−4.5 deg", -4.5}, {&systemKN, degrees, "+4", 4},
		{&systemKN, kilonewt, "12 kN", 12}, {&systemKN, kilonewt, "9.5 t", 9.5 * tonne}, {&systemTF, kilonewt, "9.5", 9.5 * tonne},
		{&systemKN, kilonewt, "1000 kg", tonne}, {&systemKN, kilonewt, "100 daN", 1}, {&systemUS, kilonewt, "2000", 2000 * 4.4482216152605e-3},
		{&systemKN, kilonewt, "1 short ton", 2000 * 4.4482216152605e-3}, {&systemKN, kilonewt, "5000 N", 5},
		{&systemKN, tonneSWL, "3.25", 3.25}, {&systemUS, tonneSWL, "3.25", 3.25}, {&systemUS, tonneSWL, "2 short tons", 1.81436948}, {&systemKN, tonneSWL, "3250 kg", 3.25},
		{&systemKN, kilograms, "4.8 t", 4800}, {&systemKN, kilograms, "1 200", 1200}, {&systemKN, kilograms, "12\u202f000 kg", 12000},
		{&systemKN, kilograms, "1,200.5", 1200.5}, {&systemKN, kilograms, "1.200,5", 1200.5}, {&systemKN, kilograms, "1,200,000", 1200000},
		{&systemKN, plain, "80 %", 0.8}, {&systemKN, plain, "0,125", 0.125}, {&systemKN, plain, ".5", 0.5}, {&systemKN, plain, "1e3", 1000},
		{&systemKN, speed, "36 km/h", 10}, {&systemUS, speed, "10", 4.4704}, {&systemKN, count, "3", 3},
		{&systemKN, turning, "150 N·m/kg", 150}, {&systemUS, turning, "1", 2.98906692},
	} {
		got, ok := c.u.parseTyped(c.text, c.dim)
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
		_, ok := systemKN.parseTyped(text, kilonewt)
		assert.False(t, ok, text)
	}
	_, ok := systemKN.parseTyped("2.5", count)
	assert.False(t, ok, "half a part of rope")
}

func TestParseRows(t *testing.T) {
	for text, want := range map[string][]int{"3-2-1": {3, 2, 1}, "1, 1, 1": {1, 1, 1}, "[2,1]": {2, 1}, "3": {3}, "3 2 1": {3, 2, 1}} {
		got, ok := parseRows(text)
		assert.True(t, ok, text)
		assert.Equal(t, want, got)
	}
	for _, text := range []string{"", "x", "1-x", "1.5", "-", "1000"} {
		_, ok := parseRows(text)
		assert.False(t, ok, text)
	}
}

func FuzzParseTyped(f *testing.F) {
	for _, s := range []string{"28 m", "1 3/4 in", "6 ft 3 in", "1,200.5", "−4°", "1e-3", "9.5 t"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, u := range systems {
			for dim := range dimensions {
				v, ok := u.parseTyped(text, dim)
				if ok && (math.IsNaN(v) || math.IsInf(v, 0)) {
					t.Fatalf("%q gives %v", text, v)
				}
			}
		}
	})
}
