package sampling

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// effectsOf gathers a function of inputs spread by quantile over so many points.
func effectsOf(inputs, points int, quantile func(i int, p float64) float64, f func(x []float64) float64) *Effects {
	s, e := NewSequence(2*inputs, 1), NewEffects(inputs)
	point, x, anew := make([]float64, 2*inputs), make([]float64, inputs), make([]float64, inputs)
	for n := range points {
		s.At(n, point)
		for i := range x {
			x[i] = quantile(i, point[i])
		}
		base := f(x)
		for i := range x {
			old := x[i]
			x[i] = quantile(i, point[inputs+i])
			anew[i] = f(x)
			x[i] = old
		}
		e.Add(base, anew)
	}
	return e
}

// The function of T. Ishigami and T. Homma (1990), sin x₁ + a·sin² x₂ + b·x₃⁴·sin x₁ with
// all inputs even from −π to π, has closed-form indices: V = a²/8 + bπ⁴/5 + b²π⁸/18 + ½,
// and of the total effect of x₁ ½(1 + bπ⁴/5)² + 8b²π⁸/225, of x₂ a²/8, of x₃ 8b²π⁸/225, each
// over V; for a = 7, b = 0.1 they are 0.558, 0.442 and 0.244 (A. Saltelli et al., Global
// Sensitivity Analysis: The Primer, 2008, from memory).
func TestIshigami(t *testing.T) {
	const a, b = 7, 0.1
	e := effectsOf(3, 1<<14, func(_ int, p float64) float64 { return math.Pi * (2*p - 1) },
		func(x []float64) float64 {
			s := math.Sin(x[0])
			return s + a*math.Pow(math.Sin(x[1]), 2) + b*math.Pow(x[2], 4)*s
		})
	pi4, pi8 := math.Pow(math.Pi, 4), math.Pow(math.Pi, 8)
	variance := a*a/8.0 + b*pi4/5 + b*b*pi8/18 + 0.5
	first := 0.5 * math.Pow(1+b*pi4/5, 2)
	both := 8 * b * b * pi8 / 225
	assert.InDelta(t, 1, e.Variance()/variance, 0.01)
	for i, want := range []float64{(first + both) / variance, a * a / 8.0 / variance, both / variance} {
		assert.InDelta(t, want, e.Total()[i], 0.01)
	}
	assert.InDelta(t, 0.558, e.Total()[0], 0.01)
	assert.InDelta(t, 0.442, e.Total()[1], 0.01)
	assert.InDelta(t, 0.244, e.Total()[2], 0.01)
}

// Of Σ cᵢ·xᵢ each normal with deviation σᵢ the shares are (cᵢσᵢ)² over their sum, and add up.
func TestLinear(t *testing.T) {
	c, deviation := []float64{3, 1, -2, 0}, []float64{1, 2, 0.5, 4}
	for _, points := range []int{128, 4096} {
		e := effectsOf(4, points, func(i int, p float64) float64 {
			return Normal{Mean: 1000, Deviation: deviation[i], Low: math.Inf(-1), High: math.Inf(1)}.Quantile(p)
		}, func(x []float64) float64 { return c[0]*x[0] + c[1]*x[1] + c[2]*x[2] + c[3]*x[3] })
		whole, sum := 9+4+1.0, 0.0
		for i, share := range e.Total() {
			assert.InDelta(t, c[i]*c[i]*deviation[i]*deviation[i]/whole, share, 1/math.Sqrt(float64(points)))
			sum += share
		}
		assert.InDelta(t, 1, sum, 1/math.Sqrt(float64(points)))
		assert.Zero(t, e.Total()[3], "what changes nothing has no share")
	}
}

func TestNothingVaries(t *testing.T) {
	e := NewEffects(2)
	assert.Equal(t, []float64{0, 0}, e.Total())
	e.Add(5, []float64{5, 5})
	assert.Equal(t, []float64{0, 0}, e.Total())
}
