package rigging

import "math"

// TractionTable are coefficients of traction of a machine on its ground:
// usable pull over the weight on driven wheels or tracks. Of a range Value is
// the low end, since the machine is relied on to hold.
func TractionTable() []Entry {
	source := Source{"Peurifoy & Schexnayder, Construction Planning, Equipment and Methods, traction table", FromMemory}
	row := func(key, name string, low, high float64) Entry {
		e := Entry{Key: key, Name: name, Value: low, Source: source}
		if high > low {
			e.Low, e.High = low, high
		}
		return e
	}
	return []Entry{
		row("tyres_dry_concrete", "tyres on dry concrete", 0.80, 1.00),
		row("tyres_dry_clay_loam", "tyres on dry clay loam", 0.50, 0.70),
		row("tyres_wet_clay_loam", "tyres on wet clay loam", 0.40, 0.50),
		row("tyres_wet_sand_gravel", "tyres on wet sand and gravel", 0.30, 0.40),
		row("tyres_loose_dry_sand", "tyres on loose dry sand", 0.20, 0.30),
		row("tyres_dry_snow", "tyres on dry snow", 0.20, 0.20),
		row("tyres_ice", "tyres on ice", 0.10, 0.10),
		row("tracks_dry_concrete", "tracks on dry concrete", 0.45, 0.45),
		row("tracks_dry_clay_loam", "tracks on dry clay loam", 0.90, 0.90),
		row("tracks_wet_clay_loam", "tracks on wet clay loam", 0.70, 0.70),
		row("tracks_wet_sand_gravel", "tracks on wet sand and gravel", 0.35, 0.35),
		row("tracks_loose_dry_sand", "tracks on loose dry sand", 0.30, 0.30),
		row("tracks_dry_snow", "tracks on dry snow", 0.15, 0.35),
		row("tracks_ice", "tracks on ice", 0.10, 0.25),
	}
}

// FindTraction is the ground of that key.
func FindTraction(key string) (Entry, bool) { return findEntry(TractionTable(), key) }

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
