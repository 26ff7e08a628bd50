package rigging

import "math"

// A Bight is the ground inside the angle of a rope over a block, seen from above: where
// rope and block fly when the block or what holds it gives way. From and To are the
// other ends of the two legs.
type Bight struct{ Block, From, To Vec }

// Holds says whether a place is in it: between the legs, and there within the triangle
// of their ends or nearer to the block than the shorter leg is long. A rope that runs
// straight on has none. Our own reading of UK MCA MGN 308, 2.2, that nobody stands in
// the bight of a rope.
func (b Bight) Holds(at Vec) bool {
	from, to, p := b.From.Sub(b.Block), b.To.Sub(b.Block), at.Sub(b.Block)
	turn := across(from, to)
	if math.Abs(turn) <= 1e-9*from.Horizontal()*to.Horizontal() {
		return false
	}
	if turn < 0 {
		from, to = to, from
	}
	if across(from, p) < 0 || across(p, to) < 0 {
		return false
	}
	return p.Horizontal() <= math.Min(from.Horizontal(), to.Horizontal()) || across(to.Sub(from), p.Sub(from)) >= 0
}

// across is the upward part of the cross product of two vectors.
func across(v, w Vec) float64 { return float64(v.X*w.Y) - float64(v.Y*w.X) }
