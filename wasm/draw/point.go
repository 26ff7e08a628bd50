package draw

import "math"

// Pt is a place in a drawing, CSS pixels, y down.
type Pt struct{ X, Y float64 }

// Plus is p + q.
func (p Pt) Plus(q Pt) Pt { return Pt{p.X + q.X, p.Y + q.Y} }

// Minus is p − q, the way from q to p.
func (p Pt) Minus(q Pt) Pt { return Pt{p.X - q.X, p.Y - q.Y} }

// Times is k·p.
func (p Pt) Times(k float64) Pt { return Pt{p.X * k, p.Y * k} }

// Length is the distance (px) from the origin.
func (p Pt) Length() float64 { return math.Hypot(p.X, p.Y) }

func (p Pt) finite() bool { return Finite(p.X) && Finite(p.Y) }

// Toward is the place the share k of the way from p to q.
func (p Pt) Toward(q Pt, k float64) Pt { return p.Plus(q.Minus(p).Times(k)) }

// Unit is the direction of p, or right where p is shorter than can be seen.
func (p Pt) Unit() Pt {
	if l := p.Length(); l > 1e-9 {
		return p.Times(1 / l)
	}
	return Pt{1, 0}
}

// Left turns a direction a quarter turn counter-clockwise as seen on screen.
func (p Pt) Left() Pt { return Pt{p.Y, -p.X} }

// Finite says whether a number is one.
func Finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
