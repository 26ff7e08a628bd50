package draw

import (
	"math"

	"pullline/wasm/units"
)

// A Axes carries two quantities to pixels and draws their axes.
type Axes struct {
	LowX, HighX, LowY, HighY float64 // in the user's units
	x0, Y0, perX, perY       float64 // px of the lower left corner, px per unit
}

// At carries two quantities, in the user's units, to a place.
func (f *Axes) At(x, y float64) Pt {
	return Pt{f.x0 + (x-f.LowX)*f.perX, f.Y0 - (y-f.LowY)*f.perY}
}

// Place makes room for the figures and draws axes, grid, figures and names.
func (f *Axes) Place(c *Canvas, nameX, nameY string) {
	figure := func(v float64) string { return units.Grouped(units.Decimal(units.RoundDigits(v, 6), -1)) }
	right, top, bottom := c.Grow(14), c.Font*1.9, c.Font*3.3
	stepY := TickStep(f.HighY-f.LowY, (c.H-top-bottom)/c.Grow(34), 0)
	left := 0.0
	for v := math.Ceil(f.LowY/stepY) * stepY; v <= f.HighY*(1+1e-9); v += stepY {
		left = max(left, c.TextWidth(figure(v)))
	}
	left += c.Grow(10)
	stepX := TickStep(f.HighX-f.LowX, (c.W-left-right)/c.Grow(52), 0)
	f.x0, f.Y0 = left, c.H-bottom
	f.perX = max(c.W-left-right, 20) / (f.HighX - f.LowX)
	f.perY = max(c.H-top-bottom, 20) / (f.HighY - f.LowY)
	line := c.Font * EmPerLine / 2
	edge := f.At(f.HighX, f.LowY)
	for v := math.Ceil(f.LowY/stepY-1e-9) * stepY; v <= f.HighY*(1+1e-9); v += stepY {
		y := f.At(f.LowX, v).Y
		c.Move(Pt{f.x0, y})
		c.Line(Pt{edge.X, y})
		text := figure(v)
		x := f.x0 - c.Grow(6)
		c.Figure(text, Rect{x - c.TextWidth(text), y - line, x, y + line}, "end")
	}
	c.Path("grid", "")
	nought := f.At(f.LowX, max(f.LowY, 0)).Y
	for v := math.Ceil(f.LowX/stepX-1e-9) * stepX; v <= f.HighX*(1+1e-9)+1e-12; v += stepX {
		x := f.At(v, 0).X
		c.Move(Pt{x, nought})
		c.Line(Pt{x, nought + c.Grow(5)})
		text := figure(v)
		w := c.TextWidth(text) / 2
		y := f.Y0 + c.Grow(8.5)
		c.Figure(text, Rect{x - w, y, x + w, y + 2*line}, "middle")
	}
	c.Move(Pt{f.x0, top - c.Grow(4)})
	c.Line(Pt{f.x0, f.Y0})
	c.Move(Pt{f.x0, nought})
	c.Line(Pt{edge.X, nought})
	c.Path("axis", "")
	c.Avoid(Pt{f.x0, nought}, Pt{edge.X, nought})
	c.Avoid(Pt{f.x0, f.Y0}, Pt{f.x0, top})
	y := f.Y0 + c.Grow(8.5) + c.Font*1.25
	c.Figure(nameX, Rect{edge.X - c.TextWidth(nameX), y, edge.X, y + 2*line}, "end")
	c.Figure(nameY, Rect{c.Grow(4), 1, c.Grow(4) + c.TextWidth(nameY), 1 + 2*line}, "start")
}

// TickStep is the round step that makes no more ticks than asked for, but
// never finer than least.
func TickStep(span, most, least float64) float64 {
	want := max(span/max(most, 1), least)
	p := math.Pow(10, math.Floor(math.Log10(want)+1e-9))
	for _, k := range [...]float64{1, 2, 5} {
		if k*p >= want*(1-1e-9) {
			return k * p
		}
	}
	return 10 * p
}

// Figure is a number at a tick: it stands where it stands, labels give way.
func (c *Canvas) Figure(text string, r Rect, anchor string) {
	x := (r.X0 + r.X1) / 2
	switch anchor {
	case "end":
		x = r.X1
	case "start":
		x = r.X0
	}
	c.Shapes = append(c.Shapes, Shape{Kind: "text", Class: "tick", Text: text, Anchor: anchor,
		X: tenth(x), Y: tenth((r.Y0+r.Y1)/2 + c.Font*0.35)})
	c.Keep(r)
}

// RoundAbove rounds a force up to a step, so that arrows keep their scale
// while loads move a little.
func RoundAbove(kN float64) float64 {
	if !(kN > 0) || math.IsInf(kN, 0) {
		return 1
	}
	p := math.Pow(10, math.Floor(math.Log10(kN)))
	for _, k := range [...]float64{1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10} {
		if kN <= k*p {
			return k * p
		}
	}
	return 10 * p
}
