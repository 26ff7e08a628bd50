package bench

import (
	"strings"

	"pullline/wasm/draw"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// A curve is a bench's number over one of its values.
type curve struct {
	x     string     // key of the value that runs along the axis
	nameX words.Text // what the axes are of, without unit
	argsX []string   // of nameX
	nameY words.Text
	dimY  units.Dimension
	way   units.Direction // in which its number is rounded
	// lines are drawn in their order, each where its value is finite; without
	// any there is no curve as the bench stands.
	lines []curveLine
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

// A curveLine is one line of a curve, y of x in the units of the file. The
// first is the bench's own and bears the mark of where it stands now.
type curveLine struct {
	class string // curve, curve-hold (dashed), planned (a limit)
	name  words.Text
	at    func(x float64) float64
}

// curvePoints is how finely a line is drawn.
const curvePoints = 120

// drawCurve draws a curve with the place where the bench stands now.
func (b *work) drawCurve(box draw.Box, of curve) *draw.Drawing {
	var in *input
	for i := range b.spec.inputs {
		if b.spec.inputs[i].key == of.x {
			in = &b.spec.inputs[i]
		}
	}
	c := draw.New(box)
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
			if draw.Finite(y) && (of.topY == 0 || y*unitY <= of.topY) {
				lowY, highY = min(lowY, y), max(highY, y)
			}
		}
	}
	if highY == lowY {
		highY = lowY + 1
	}
	if highY > 0 {
		highY = draw.RoundAbove(highY * 1.05)
	}
	if lowY < 0 {
		lowY = -draw.RoundAbove(-lowY * 1.05)
	}
	f := draw.Axes{LowX: low / unitX, HighX: high / unitX, LowY: lowY, HighY: highY}
	nameX, nameY := b.Say(of.nameX, of.argsX...), b.Say(of.nameY)
	f.Place(c, nameX+commaUnit(b.u.Suffix(in.dim)), nameY+commaUnit(b.u.Suffix(of.dimY)))
	for i := len(of.lines) - 1; i >= 0; i-- {
		l := &of.lines[i]
		pen, last := false, draw.Pt{}
		var drawn []draw.Pt
		for k, y := range lines[i] {
			if !draw.Finite(y) || y > highY || y < lowY {
				pen = false
				continue
			}
			p := f.At(at(k)/unitX, y)
			if pen {
				c.Line(p)
				c.Avoid(last, p)
			} else {
				c.Move(p)
			}
			pen, last = true, p
			drawn = append(drawn, p)
		}
		c.Path(l.class, "")
		if l.name != "" && len(drawn) > 0 {
			name := draw.Label{Text: b.Say(l.name), Class: "label-note", At: drawn[len(drawn)-1], Toward: draw.Pt{X: -1, Y: -1}, Prio: draw.PrioLength}
			for _, side := range [...]draw.Pt{{X: 0, Y: -1}, {X: -1, Y: -1}, {X: 1, Y: -1}, {X: 1, Y: 1}, {X: -1, Y: 1}, {X: 0, Y: 1}} {
				for k := 9; k > 0; k-- {
					name.Stands = append(name.Stands, draw.Stand{At: drawn[len(drawn)*k/10], Toward: side})
				}
			}
			c.Label(name)
		}
	}
	desc := ""
	if y := of.lines[0].at(b.in[of.x]); draw.Finite(y) && y/unitY <= highY && y/unitY >= lowY {
		at := f.At(b.in[of.x]/unitX, y/unitY)
		c.Segment("commit", "", f.At(b.in[of.x]/unitX, max(lowY, 0)), at)
		c.Circle("peak", "", at, c.Grow(5))
		c.Keep(draw.Around(at, c.Grow(5)))
		text := b.u.Quantity(y, of.dimY, of.way)
		c.Label(draw.Label{Text: text, Class: "label-force", At: at, Toward: draw.Pt{X: 1, Y: -1}, Prio: draw.PrioMust})
		desc = b.Say("%s: %s at %s.", words.Capital(nameY), text, b.u.Quantity(b.in[of.x], in.dim, units.Nearest))
	}
	return c.Finish(b.Say("%s against %s", words.Capital(nameY), nameX), desc)
}

func commaUnit(unit string) string {
	if unit == "" {
		return ""
	}
	return ",\u00a0" + strings.TrimPrefix(unit, "\u00a0")
}
