package rigging

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestLogVolumesOfThePublishedPages(t *testing.T) {
	c := publishedExample(t, "vol-01") // 16 ft, 10 and 12 in
	d, D, L := c.InSI("d"), c.InSI("D"), c.InSI("L")
	// The page rounds both areas to 0.545 and 0.785 before summing, which
	// lifts the last digit of one form and drops it in another.
	assertPrintedWithin(t, c, "smalian", SmalianVolume(d, D, L), 1e-4, "exact 10.6465, printed 10.647")
	assertPrinted(t, c, "cone", ConeVolume(d, D, L))
	assertPrintedWithin(t, c, "neiloid", NeiloidVolume(d, D, L), 1e-4, "exact 10.5689, last digit slipped on the page")

	c = publishedExample(t, "vol-03")
	assertPrintedWithin(t, c, "huber", HuberVolume(c.InSI("dm"), c.InSI("L")), 6e-4, "the page takes 0.785 for π/4")
	c = publishedExample(t, "vol-04")
	assertPrinted(t, c, "smalian", SmalianVolume(c.InSI("D"), c.InSI("d"), c.InSI("L")))

	// University of Missouri forestry page on cubic log volume: 25 and 29 cm,
	// 5 m, printed to six decimals of a cubic metre.
	assert.InDelta(t, 0.287848, SmalianVolume(0.25, 0.29, 5), 1e-6)
	assert.InDelta(t, 0.286801, ConeVolume(0.25, 0.29, 5), 1e-6)
	assert.InDelta(t, 0.286452, NeiloidVolume(0.25, 0.29, 5), 1e-6)
	// The same log by the other two, worked out with the mid diameter of 27 cm.
	assert.InDelta(t, 0.286278, HuberVolume(0.27, 5), 1e-6)
	assert.InDelta(t, 0.286801, NewtonVolume(0.25, 0.27, 0.29, 5), 1e-6)
}

// Each formula is exact for its own solid of revolution, whose area at x
// along H is A₀·(1 − x/H)^n: paraboloid 1, cone 2, neiloid 3; volume
// A₀·H/(n + 1).
func TestLogVolumesOfTheirSolids(t *testing.T) {
	random := rand.New(rand.NewSource(2))
	for range 200 {
		base, H := 0.2+random.Float64(), 5+30*random.Float64()
		from := 0.5 * H * random.Float64()
		to := from + (H-from)*random.Float64()
		for n := 1.0; n <= 3; n++ {
			d := func(x float64) float64 { return base * math.Pow(1-x/H, n/2) }
			left := func(x float64) float64 { return math.Pi / 4 * base * base * H / (n + 1) * math.Pow(1-x/H, n+1) }
			want, L := left(from)-left(to), to-from
			// 1e-9 of the whole stem: differences of powers lose digits.
			near := 1e-9 * left(0)
			assert.InDelta(t, want, NewtonVolume(d(from), d((from+to)/2), d(to), L), near)
			switch n {
			case 1:
				assert.InDelta(t, want, SmalianVolume(d(from), d(to), L), near)
				assert.InDelta(t, want, HuberVolume(d((from+to)/2), L), near)
			case 2:
				assert.InDelta(t, want, ConeVolume(d(from), d(to), L), near)
			case 3:
				assert.InDelta(t, want, NeiloidVolume(d(from), d(to), L), near)
			}
		}
	}
}

func TestLogVolumesOfNoLog(t *testing.T) {
	for _, bad := range []float64{-1, math.NaN(), math.Inf(1)} {
		for _, v := range []float64{
			SmalianVolume(bad, 1, 1), SmalianVolume(1, bad, 1), SmalianVolume(1, 1, bad), HuberVolume(bad, 1), HuberVolume(1, bad),
			NewtonVolume(1, bad, 1, 1), NewtonVolume(1, 1, 1, bad), ConeVolume(bad, 1, 1), ConeVolume(1, 1, bad), NeiloidVolume(1, bad, 1),
		} {
			assert.True(t, math.IsNaN(v), "%v", bad)
		}
	}
}
