package rigging

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/integrate/quad"
)

// bisected finds v with f(v) = 0 between lo and hi, f growing or falling.
func bisected(lo, hi float64, f func(v float64) float64) float64 {
	up := f(hi) > 0
	for range 200 {
		if mid := (lo + hi) / 2; (f(mid) > 0) == up {
			hi = mid
		} else {
			lo = mid
		}
	}
	return (lo + hi) / 2
}

// levelSag is the sag of a level span under a level pull and a weight per
// metre, both forces.
func levelSag(span, level, weight float64) float64 {
	return Catenary(Vec{X: span}, weight/G, level).Mid
}

func TestCatenaryPublished(t *testing.T) {
	// A text on statics, cables 6.7: 140 m of 3 kg/m over a span of 120 m.
	c := publishedExample(t, "cat-01")
	span, w := c.InSI("span"), c.In("mass")*c.In("g")
	level := bisected(w, 1e3*w, func(h float64) float64 { return 2*h/w*math.Sinh(w*span/2/h) - c.InSI("length") })
	assertPrinted(t, c, "c", level/w)
	sag := levelSag(span, level, w)
	assertPrinted(t, c, "sag", sag)
	assertPrinted(t, c, "Tmax", level+w*sag)
	assert.InEpsilon(t, math.Atan(c.InSI("length")/2*w/level), Catenary(Vec{X: span}, w/G, level).EndAngle, 1e-9)

	// McLean: 500 ft sagging 50 ft.
	c = publishedExample(t, "cat-03")
	level = bisected(50, 1e4, func(h float64) float64 { return c.In("sag") - levelSag(c.In("span"), h, c.In("w")) })
	assertPrintedWithin(t, c, "Tmax", level+c.In("w")*c.In("sag"), 0.005, "the book reads a graph")

	// Ray: a shallow catenary and its parabola.
	c = publishedExample(t, "cat-05")
	sag = levelSag(c.In("span"), c.In("H"), c.In("w"))
	assertPrinted(t, c, "sag_catenary", sag)
	assertPrintedWithin(t, c, "sag_parabola", sag, 0.0002, "the parabola for the same pull")
}

// Shallow spans, which the books take as parabolas: a parabola sags less
// than the catenary by a part of (w·L/2H)²/12.
func TestSagPublished(t *testing.T) {
	const parabola = "the book takes a parabola"
	c := publishedExample(t, "sag-05")
	level := math.Sqrt(math.Pow(c.InSI("Tmax"), 2) - math.Pow(c.In("w")*c.InSI("span")/2, 2))
	assertPrintedWithin(t, c, "sag", levelSag(c.InSI("span"), level, c.In("w")), 0.0015, parabola)

	c = publishedExample(t, "sag-06")
	level = math.Sqrt(math.Pow(c.InSI("Tmax"), 2) - math.Pow(c.In("w")*c.InSI("span")/2, 2))
	assertPrinted(t, c, "sag", levelSag(c.InSI("span"), level, c.In("w")))

	c = publishedExample(t, "sag-08") // 0.9 cm² of 8.9 g/cm³ is 0.801 kg/m
	w := c.In("area") * c.In("density") * 0.1
	assertPrinted(t, c, "clearance", c.In("tower")-c.In("string")-levelSag(c.In("span"), c.In("T"), w))

	c = publishedExample(t, "sag-09") // with the wind's push across, along the slant
	w = math.Hypot(c.In("area")*c.In("sg")*0.1, c.In("wind"))
	assertPrintedWithin(t, c, "sag", levelSag(c.In("span"), c.In("ult")*c.In("area")/c.In("SF"), w), 0.002, parabola)

	for _, id := range []string{"sag-11", "sag-12"} { // supports of different height
		c = publishedExample(t, id)
		chord := Vec{X: c.In("span"), Z: c.In("h_high") - c.In("h_low")}
		along := c.In("T") * chord.Norm() / chord.X // the level part is the one given
		sag := Catenary(chord, c.In("w")/G, along).Mid
		assertPrintedWithin(t, c, "mid", (c.In("h_high")+c.In("h_low"))/2-sag, 0.012, parabola+" of the level span's weight")
	}

	c = publishedExample(t, "wll-04")
	w = math.Hypot(c.In("w"), c.In("wind"))
	tension := c.In("ult") * math.Pi / 4 * c.In("d") * c.In("d") / c.In("SF")
	assertPrinted(t, c, "sag", levelSag(c.In("span"), tension, w))
}

// The curve as the numerical solution of H·y″ = w·√(1 + y′²) by Runge-Kutta
// shooting, for slanted chords too.
func TestCatenaryAgainstItsEquation(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 1))
	for range 60 {
		chord := Vec{X: 5 + 60*r.Float64(), Y: 30 * r.Float64(), Z: 60*r.Float64() - 30}
		span := chord.Horizontal()
		mass := 0.1 + 2*r.Float64()
		w := mass * 9.80665
		level := w * span * (0.4 + 20*r.Float64())
		got := Catenary(chord, mass, level*chord.Norm()/span)

		const steps = 400
		slope := func(s float64) float64 { return w / level * math.Sqrt(1+s*s) }
		// shoot gives the rise and the slope at every step for a slope at
		// the start.
		shoot := func(s float64) (y, ys, ss float64) {
			h := span / steps
			for i := range steps {
				if i == steps/2 {
					ys = y
				}
				k1 := slope(s)
				k2 := slope(s + h/2*k1)
				k3 := slope(s + h/2*k2)
				k4 := slope(s + h*k3)
				// y′ = s: the same rule for both, s known to third order within.
				y += h * (s + h/6*(k1+k2+k3))
				s += h / 6 * (k1 + 2*k2 + 2*k3 + k4)
			}
			return y, ys, s
		}
		first := bisected(-50, 50, func(s float64) float64 { y, _, _ := shoot(s); return y - chord.Z })
		_, middle, last := shoot(first)
		// 1e-6: the error of the numerical solution.
		assert.InDelta(t, chord.Z/2-middle, got.Mid, 1e-6*span)
		straight := math.Atan2(chord.Z, span)
		assert.InDelta(t, math.Max(straight-math.Atan(first), math.Atan(last)-straight), got.EndAngle, 1e-6)

		// The change of the plumb pull over the span is the rope's weight.
		c := level / w
		mid := math.Asinh(first)
		weight := quad.Fixed(func(x float64) float64 { return w * math.Cosh(x/c+mid) }, 0, span, 40, nil, 0)
		assert.InEpsilon(t, level*(last-first), weight, 1e-6)
	}
}

func TestCatenaryEdges(t *testing.T) {
	assert.Equal(t, Sag{}, Catenary(Vec{Z: 20}, 1, 1000), "a plumb leg does not sag")
	for _, c := range []struct{ mass, tension float64 }{{0, 100}, {-1, 100}, {1, 0}, {1, -5}, {math.NaN(), 100}, {1, math.NaN()}} {
		s := Catenary(Vec{X: 20}, c.mass, c.tension)
		assert.True(t, math.IsNaN(s.Mid) && math.IsNaN(s.EndAngle), "%v", c)
	}
	// Upside down it is the same rope.
	a, b := Catenary(Vec{30, 5, 12}, 0.6, 4000), Catenary(Vec{-30, -5, -12}, 0.6, 4000)
	assert.InEpsilon(t, a.Mid, b.Mid, 1e-9)
	assert.InEpsilon(t, a.EndAngle, b.EndAngle, 1e-9)
	// A taut rope keeps its digits: the parabola to one part in 10⁹.
	assert.InEpsilon(t, 9.80665*0.5*900/(8*1e7), Catenary(Vec{X: 30}, 0.5, 1e7).Mid, 1e-9)
}

func TestTensionForSag(t *testing.T) {
	// McLean, Engineering Mechanics, example 7-12: 500 ft sagging 50 ft.
	c := publishedExample(t, "cat-03")
	level := TensionForSag(Vec{X: c.In("span")}, c.In("w")/G, c.In("sag"))
	assertPrintedWithin(t, c, "Tmax", level+c.In("w")*c.In("sag"), 0.005, "the book reads a graph")

	r := rand.New(rand.NewPCG(5, 3))
	for range 200 {
		chord := Vec{X: 1 + 200*r.Float64(), Y: 20 * r.Float64(), Z: 80*r.Float64() - 40}
		mass := math.Exp(5*r.Float64() - 3)
		tension := mass * G * chord.Norm() * math.Exp(8*r.Float64()-1)
		sag := Catenary(chord, mass, tension).Mid
		assert.InEpsilon(t, tension, TensionForSag(chord, mass, sag), 1e-6, "%v %g %g", chord, mass, tension)
	}
	nan := math.NaN()
	for _, bad := range []struct {
		chord     Vec
		mass, sag float64
	}{{Vec{Z: 10}, 1, 1}, {Vec{X: 10}, 0, 1}, {Vec{X: 10}, 1, 0}, {Vec{X: 10}, 1, -1}, {Vec{X: 10}, nan, 1}, {Vec{X: 10}, 1, nan}, {Vec{X: 10}, 1, math.Inf(1)}, {Vec{X: nan}, 1, 1}} {
		assert.True(t, math.IsNaN(TensionForSag(bad.chord, bad.mass, bad.sag)), "%v", bad)
	}
}

func TestStretchPublished(t *testing.T) {
	round := func(d float64) float64 { return math.Pi / 4 * d * d }
	// OpenStax University Physics: a steel rod and a climbing rope.
	c := publishedExample(t, "el-01")
	assertPrinted(t, c, "dL", Stretch(c.In("m")*c.In("g"), c.InSI("L"), c.In("Y")*c.InSI("Aa")))
	c = publishedExample(t, "el-02")
	assertPrinted(t, c, "dL", Stretch(c.In("m")*c.In("g"), c.InSI("L"), c.In("Y")*round(c.InSI("d"))))
	// OpenStax College Physics: a suspension cable, a pile, a wire.
	c = publishedExample(t, "el-04")
	assertPrinted(t, c, "dL", Stretch(c.In("F"), c.InSI("L"), c.In("Y")*round(c.InSI("d"))))
	c = publishedExample(t, "el-05")
	assertPrintedWithin(t, c, "dL", Stretch(c.In("load")*c.In("g"), c.InSI("L"), c.In("Y")*round(c.InSI("d"))), 0.003, "the book rounds the area")
	c = publishedExample(t, "el-07")
	assertPrinted(t, c, "dL", Stretch(c.In("F"), c.InSI("L"), c.In("Y")*round(c.InSI("d"))))
}

func TestStoredEnergyPublished(t *testing.T) {
	// OpenStax College Physics: a rope that stops a climber; the rope's
	// stiffness per metre stands for EA with a length of 1.
	c := publishedExample(t, "el-08")
	fall := c.In("m") * c.In("g") * c.In("h")
	stop := func(length float64) float64 {
		tension := bisected(0, 1e6, func(tension float64) float64 { return StoredEnergy(tension, length, c.In("k")) - fall })
		return Stretch(tension, length, c.In("k"))
	}
	assertPrinted(t, c, "x", stop(1))
	assertPrinted(t, c, "x_double", stop(2))
	// OpenStax College Physics: the spring that stops a railway carriage.
	c = publishedExample(t, "el-10")
	moving := c.In("m") * c.In("v") * c.In("v") / 2
	assertPrinted(t, c, "k", bisected(1, 1e9, func(k float64) float64 { return StoredEnergy(k*c.In("x"), 1, k) - moving }))
	for _, stiffness := range []float64{0, -1, math.NaN()} {
		assert.True(t, math.IsNaN(StoredEnergy(1000, 10, stiffness)))
		assert.True(t, math.IsNaN(Stretch(1000, 10, stiffness)))
	}
}

// The energy is the area under the pull as the rope stretches.
func TestStoredEnergyIsTheWorkDone(t *testing.T) {
	const tension, length, stiffness = 30e3, 45.0, 5.5e6
	stretch := Stretch(tension, length, stiffness)
	work := quad.Fixed(func(x float64) float64 { return x / length * stiffness }, 0, stretch, 4, nil, 0)
	require.InEpsilon(t, work, StoredEnergy(tension, length, stiffness), 1e-9)
}
