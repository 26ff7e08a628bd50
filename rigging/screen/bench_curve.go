package screen

import (
	"math"
	"strings"

	"pullline/wasm/units"
)

// A benchCurve is a bench's number over one of its values.
type benchCurve struct {
	x     string // key of the value that runs along the axis
	nameX string // what the axes are of, without unit
	nameY string
	dimY  units.Dimension
	way   units.Direction // in which its number is rounded
	// lines are drawn in their order, each where its value is finite; without
	// any there is no curve as the bench stands.
	lines []benchLine
	// low and high bound x where not all of its input's range is of interest;
	// both 0 for all of it.
	low, high float64
	// topY bounds y from above where the curve would else run away; 0 for no
	// bound.
	topY float64
	// points is into how many steps a line that is dear to work out is cut; 0
	// for as many as can be seen.
	points int
}

// A benchLine is one line of a curve, y of x in the units of the file. The
// first is the bench's own and bears the mark of where it stands now.
type benchLine struct {
	class string // curve, curve-hold (dashed), planned (a limit)
	name  string
	at    func(x float64) float64
}

// curvePoints is how finely a line is drawn.
const curvePoints = 120

// drawBenchCurve draws a curve with the place where the bench stands now.
func (b *benchWork) drawBenchCurve(box Box, of benchCurve) *Drawing {
	var in *benchInput
	for i := range b.spec.inputs {
		if b.spec.inputs[i].key == of.x {
			in = &b.spec.inputs[i]
		}
	}
	c := newCanvas(box)
	low, high := of.low, of.high
	if low == 0 && high == 0 {
		low, high = in.low, in.high
	}
	if in.low < 0 && of.low == 0 && of.high == 0 {
		low = in.low
	}
	unitX, unitY := b.u.Units[in.dim].Size, b.u.Units[of.dimY].Size
	if of.points == 0 {
		of.points = curvePoints
	}
	at := func(k int) float64 { return low + (high-low)*float64(k)/float64(of.points) }
	lowY, highY := 0.0, 0.0
	lines := make([][]float64, len(of.lines))
	for i, l := range of.lines {
		for k := range of.points + 1 {
			y := l.at(at(k)) / unitY
			lines[i] = append(lines[i], y)
			if finite(y) && (of.topY == 0 || y*unitY <= of.topY) {
				lowY, highY = min(lowY, y), max(highY, y)
			}
		}
	}
	if highY == lowY {
		highY = lowY + 1
	}
	if highY > 0 {
		highY = niceForce(highY * 1.05)
	}
	if lowY < 0 {
		lowY = -niceForce(-lowY * 1.05)
	}
	f := frame{lowX: low / unitX, highX: high / unitX, lowY: lowY, highY: highY}
	f.place(c, b.Say(of.nameX)+commaUnit(b.u.Suffix(in.dim)), b.Say(of.nameY)+commaUnit(b.u.Suffix(of.dimY)))
	for i := len(of.lines) - 1; i >= 0; i-- {
		l := &of.lines[i]
		pen, last := false, pt{}
		var drawn []pt
		for k, y := range lines[i] {
			if !finite(y) || y > highY || y < lowY {
				pen = false
				continue
			}
			p := f.at(at(k)/unitX, y)
			if pen {
				c.line(p)
				c.avoid(last, p)
			} else {
				c.move(p)
			}
			pen, last = true, p
			drawn = append(drawn, p)
		}
		c.path(l.class, "")
		if l.name != "" && len(drawn) > 0 {
			name := caption{text: b.Say(l.name), class: "label-note", at: drawn[len(drawn)-1], toward: pt{-1, -1}, prio: prioLength}
			for _, side := range [...]pt{{0, -1}, {-1, -1}, {1, -1}, {1, 1}, {-1, 1}, {0, 1}} {
				for k := 9; k > 0; k-- {
					name.spots = append(name.spots, spot{drawn[len(drawn)*k/10], side})
				}
			}
			c.label(name)
		}
	}
	desc := ""
	if y := of.lines[0].at(b.in[of.x]); finite(y) && y/unitY <= highY && y/unitY >= lowY {
		at := f.at(b.in[of.x]/unitX, y/unitY)
		c.segment("commit", "", f.at(b.in[of.x]/unitX, max(lowY, 0)), at)
		c.circle("peak", "", at, c.grow(5))
		c.solid = append(c.solid, around(at, c.grow(5)))
		text := b.u.Quantity(y, of.dimY, of.way)
		c.label(caption{text: text, class: "label-force", at: at, toward: pt{1, -1}, prio: prioMust})
		desc = b.Say(of.nameY) + " is " + text + " at " + b.u.Quantity(b.in[of.x], in.dim, units.Nearest) + "."
	}
	return c.finish(b.Say(of.nameY+" against "+of.nameX), desc)
}

func commaUnit(unit string) string {
	if unit == "" {
		return ""
	}
	return ",\u00a0" + strings.TrimPrefix(unit, "\u00a0")
}

// A frame carries two quantities to pixels and draws their axes.
type frame struct {
	lowX, highX, lowY, highY float64 // in the user's units
	x0, y0, perX, perY       float64 // px of the lower left corner, px per unit
}

func (f *frame) at(x, y float64) pt {
	return pt{f.x0 + (x-f.lowX)*f.perX, f.y0 - (y-f.lowY)*f.perY}
}

// place makes room for the figures and draws axes, grid, figures and names.
func (f *frame) place(c *canvas, nameX, nameY string) {
	figure := func(v float64) string { return units.Grouped(units.Decimal(units.RoundDigits(v, 6), -1)) }
	right, top, bottom := c.grow(14), c.font*1.9, c.font*3.3
	stepY := tickStep(f.highY-f.lowY, (c.h-top-bottom)/c.grow(34), 0)
	left := 0.0
	for v := math.Ceil(f.lowY/stepY) * stepY; v <= f.highY*(1+1e-9); v += stepY {
		left = max(left, c.textWidth(figure(v)))
	}
	left += c.grow(10)
	stepX := tickStep(f.highX-f.lowX, (c.w-left-right)/c.grow(52), 0)
	f.x0, f.y0 = left, c.h-bottom
	f.perX = max(c.w-left-right, 20) / (f.highX - f.lowX)
	f.perY = max(c.h-top-bottom, 20) / (f.highY - f.lowY)
	line := c.font * emPerLine / 2
	edge := f.at(f.highX, f.lowY)
	for v := math.Ceil(f.lowY/stepY-1e-9) * stepY; v <= f.highY*(1+1e-9); v += stepY {
		y := f.at(f.lowX, v).y
		c.move(pt{f.x0, y})
		c.line(pt{edge.x, y})
		text := figure(v)
		x := f.x0 - c.grow(6)
		c.figure(text, rect{x - c.textWidth(text), y - line, x, y + line}, "end")
	}
	c.path("grid", "")
	nought := f.at(f.lowX, max(f.lowY, 0)).y
	for v := math.Ceil(f.lowX/stepX-1e-9) * stepX; v <= f.highX*(1+1e-9)+1e-12; v += stepX {
		x := f.at(v, 0).x
		c.move(pt{x, nought})
		c.line(pt{x, nought + c.grow(5)})
		text := figure(v)
		w := c.textWidth(text) / 2
		y := f.y0 + c.grow(8.5)
		c.figure(text, rect{x - w, y, x + w, y + 2*line}, "middle")
	}
	c.move(pt{f.x0, top - c.grow(4)})
	c.line(pt{f.x0, f.y0})
	c.move(pt{f.x0, nought})
	c.line(pt{edge.x, nought})
	c.path("axis", "")
	c.avoid(pt{f.x0, nought}, pt{edge.x, nought})
	c.avoid(pt{f.x0, f.y0}, pt{f.x0, top})
	y := f.y0 + c.grow(8.5) + c.font*1.25
	c.figure(nameX, rect{edge.x - c.textWidth(nameX), y, edge.x, y + 2*line}, "end")
	c.figure(nameY, rect{c.grow(4), 1, c.grow(4) + c.textWidth(nameY), 1 + 2*line}, "start")
}
