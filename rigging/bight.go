package rigging

import (
	"math"
	"slices"
)

// A Bight is the ground inside the angle of a rope over a block, seen from above: where
// rope and block fly when the block or what holds it gives way. From and To are the
// other ends of the two legs.
type Bight struct{ Block, From, To Vec }

// Holds says whether a place is in it: between the legs, and there within the triangle
// of their ends or nearer to the block than the shorter leg is long. A rope that runs
// straight on has none. Our own reading of UK MCA MGN 308, 2.2, that nobody stands in
// the bight of a rope.
func (b Bight) Holds(at Vec) bool {
	return slices.ContainsFunc(b.Zones(), func(z Zone) bool { return z.Contains(at) })
}

// Zones are the two parts of it, which overlap.
func (b Bight) Zones() []Zone {
	middle, half := b.angle()
	from, to := level(b.From.Sub(b.Block)), level(b.To.Sub(b.Block))
	turn := float64(from.X*to.Y) - float64(from.Y*to.X)
	if math.Abs(turn) <= 1e-9*from.Norm()*to.Norm() {
		return nil
	}
	chord := to.Sub(from)
	near := from.Sub(chord.Scale(from.Dot(chord) / chord.Dot(chord)))
	return []Zone{{Apex: b.Block, Toward: middle, Half: half, Reach: math.Min(from.Norm(), to.Norm())},
		{Apex: b.Block, Toward: middle, Half: half, Reach: math.Max(from.Norm(), to.Norm()), Chord: near}}
}

// Flight is where a block flies whose anchor lets go: away from that, as far as the
// shorter leg is long.
func (b Bight) Flight() Zone {
	middle, _ := b.angle()
	return Zone{Apex: b.Block, Toward: middle, Half: RecoilHalf, Reach: math.Min(b.From.Sub(b.Block).Horizontal(), b.To.Sub(b.Block).Horizontal())}
}

// angle is the bearing half-way between the legs, and half of what lies between them.
func (b Bight) angle() (middle, half float64) {
	from, to := b.From.Sub(b.Block).Bearing(), b.To.Sub(b.Block).Bearing()
	between := math.Remainder(to-from, 2*math.Pi)
	return from + between/2, math.Abs(between) / 2
}

func level(v Vec) Vec { return Vec{X: v.X, Y: v.Y} }
