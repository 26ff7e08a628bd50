package rigging

import (
	"errors"
	"math"
)

// Vec is a place (m) or a force (N): x along the lay, y left, z up.
type Vec struct{ X, Y, Z float64 }

// ErrNoDirection is the answer to the direction of a vector of no length or
// of one that is not finite.
var ErrNoDirection = errors.New("two places coincide or are not finite, so there is no direction between them")

// shortestLeg is the length (m) below which two places count as one: well
// under the size of any block or knot.
const shortestLeg = 1e-6

// Add returns v + w.
func (v Vec) Add(w Vec) Vec { return Vec{v.X + w.X, v.Y + w.Y, v.Z + w.Z} }

// Sub returns v − w.
func (v Vec) Sub(w Vec) Vec { return Vec{v.X - w.X, v.Y - w.Y, v.Z - w.Z} }

// Scale returns k·v.
func (v Vec) Scale(k float64) Vec { return Vec{k * v.X, k * v.Y, k * v.Z} }

// Dot returns the scalar product. The conversions keep every processor from
// fusing the operations, so that all of them agree to the last bit.
func (v Vec) Dot(w Vec) float64 { return float64(v.X*w.X) + float64(v.Y*w.Y) + float64(v.Z*w.Z) }

// Cross returns the vector product.
func (v Vec) Cross(w Vec) Vec {
	return Vec{
		float64(v.Y*w.Z) - float64(v.Z*w.Y),
		float64(v.Z*w.X) - float64(v.X*w.Z),
		float64(v.X*w.Y) - float64(v.Y*w.X),
	}
}

// Norm returns the length.
func (v Vec) Norm() float64 { return math.Sqrt(v.Dot(v)) }

// Horizontal returns the length of the level part.
func (v Vec) Horizontal() float64 { return math.Hypot(v.X, v.Y) }

// Unit returns the direction of v, or ErrNoDirection where v is shorter
// than a micrometre or not finite.
func (v Vec) Unit() (Vec, error) {
	n := v.Norm()
	if !(n >= shortestLeg) || math.IsInf(n, 0) {
		return Vec{}, ErrNoDirection
	}
	return v.Scale(1 / n), nil
}

// Elevation is the angle of v above level, −π/2 to π/2.
func (v Vec) Elevation() float64 { return math.Atan2(v.Z, v.Horizontal()) }

// Bearing is the clockwise angle of v from the lay, 0 to 2π, and 0 for a
// vector that points straight up or down.
func (v Vec) Bearing() float64 {
	b := math.Atan2(-v.Y, v.X)
	if b < 0 {
		b += 2 * math.Pi
	}
	if b == 0 || b >= 2*math.Pi {
		return 0 // also turns −0 into 0
	}
	return b
}

// Angle is the angle (rad) between v and w, 0 to π, in the form that keeps its
// digits near both ends, and NaN where either of them has no direction.
func (v Vec) Angle(w Vec) float64 {
	if !(v.Norm() >= shortestLeg && w.Norm() >= shortestLeg) {
		return math.NaN()
	}
	return math.Atan2(v.Cross(w).Norm(), v.Dot(w))
}

// AtBearing is the place at a level distance from the origin in the
// direction of a bearing, risen by rise.
func AtBearing(bearing, distance, rise float64) Vec {
	sin, cos := math.Sincos(bearing)
	return Vec{distance * cos, -distance * sin, rise}
}

// Turned is v turned about the hinge axis (y) toward the lay.
func (v Vec) Turned(turn float64) Vec {
	sin, cos := math.Sincos(turn)
	return v.turned(sin, cos)
}

func (v Vec) turned(sin, cos float64) Vec {
	return Vec{
		float64(v.X*cos) + float64(v.Z*sin),
		v.Y,
		float64(v.Z*cos) - float64(v.X*sin),
	}
}
