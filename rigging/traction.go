package rigging

import "math"

// TractionTable are coefficients of traction of a machine on its ground:
// usable pull over the weight on driven wheels or tracks. Of a range Value is
// the low end, since the machine is relied on to hold.
func TractionTable() []Entry { return copied(tractionTable[:]) }

const tractionBook = "Peurifoy & Schexnayder, Construction Planning, Equipment and Methods, traction table"

var tractionTable = [...]Entry{
	{Key: "tyres_dry_concrete", Name: "tyres on dry concrete", Value: 0.80, Low: 0.80, High: 1.00, Source: Source{tractionBook, FromMemory}},
	{Key: "tyres_dry_clay_loam", Name: "tyres on dry clay loam", Value: 0.50, Low: 0.50, High: 0.70, Source: Source{tractionBook, FromMemory}},
	{Key: "tyres_wet_clay_loam", Name: "tyres on wet clay loam", Value: 0.40, Low: 0.40, High: 0.50, Source: Source{tractionBook, FromMemory}},
	{Key: "tyres_wet_sand_gravel", Name: "tyres on wet sand and gravel", Value: 0.30, Low: 0.30, High: 0.40, Source: Source{tractionBook, FromMemory}},
	{Key: "tyres_loose_dry_sand", Name: "tyres on loose dry sand", Value: 0.20, Low: 0.20, High: 0.30, Source: Source{tractionBook, FromMemory}},
	{Key: "tyres_dry_snow", Name: "tyres on dry snow", Value: 0.20, Source: Source{tractionBook, FromMemory}},
	{Key: "tyres_ice", Name: "tyres on ice", Value: 0.10, Source: Source{tractionBook, FromMemory}},
	{Key: "tracks_dry_concrete", Name: "tracks on dry concrete", Value: 0.45, Source: Source{tractionBook, FromMemory}},
	{Key: "tracks_dry_clay_loam", Name: "tracks on dry clay loam", Value: 0.90, Source: Source{tractionBook, FromMemory}},
	{Key: "tracks_wet_clay_loam", Name: "tracks on wet clay loam", Value: 0.70, Source: Source{tractionBook, FromMemory}},
	{Key: "tracks_wet_sand_gravel", Name: "tracks on wet sand and gravel", Value: 0.35, Source: Source{tractionBook, FromMemory}},
	{Key: "tracks_loose_dry_sand", Name: "tracks on loose dry sand", Value: 0.30, Source: Source{tractionBook, FromMemory}},
	{Key: "tracks_dry_snow", Name: "tracks on dry snow", Value: 0.15, Low: 0.15, High: 0.35, Source: Source{tractionBook, FromMemory}},
	{Key: "tracks_ice", Name: "tracks on ice", Value: 0.10, Low: 0.10, High: 0.25, Source: Source{tractionBook, FromMemory}},
}

// FindTraction is the ground of that key.
func FindTraction(key string) (Entry, bool) { return findEntry(tractionTable[:], key) }

// DragPull is the pull (N) that just moves a body of a weight (N) up ground
// that rises by slope (rad; negative downhill), on a rope at an angle (rad)
// above that ground, against a coefficient of friction: W·(sin α + μ·cos
// α)/(cos β + μ·sin β). Statics. NaN where a measure is not finite, weight or
// friction is negative, or an angle is 90° or more; 0 where the body slides by
// itself.
func DragPull(weight, friction, slope, rope float64) float64 {
	if math.IsNaN(measured(weight, weight, friction, math.Abs(slope), math.Abs(rope))) ||
		math.Abs(slope) >= math.Pi/2 || math.Abs(rope) >= math.Pi/2 {
		return math.NaN()
	}
	along := math.Cos(rope) + friction*math.Sin(rope)
	if along <= 0 {
		return math.NaN() // pressed down so steeply that it never moves
	}
	return math.Max(0, weight*(math.Sin(slope)+friction*math.Cos(slope))/along)
}
