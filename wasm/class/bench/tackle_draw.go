package bench

import (
	"math"
	"slices"
	"strings"

	"pullline/rigging"
	"pullline/wasm/draw"
	"pullline/wasm/units"
)

// A tackleFigure lays a tackle out: the places side by side from the anchor
// to the load, the parts of rope one below the other.
type tackleFigure struct {
	*tackleState
	c       *draw.Canvas
	x       []float64 // px, by node; of the haul where it is now
	startX  []float64 // before anything was hauled
	row     []int     // by part
	rows    int       // there is room for
	used    int       // rows with a part
	pitch   float64   // px from row to row
	top     float64
	low, up []int  // first and last row at a node, low > up: none
	high    []bool // its name stands higher, clear of its neighbours'
	reach   float64
}

// Lines of text that the picture has over its rows and under them, and that a
// row takes at least.
const (
	headLines   = 3.0
	footLines   = 5.4
	linesPerRow = 1.9
)

// turns says whether a part begins another row, below the part before.
func (s *tackleState) turns(part int) bool {
	p := s.parts[part]
	return p.first || s.side(p) != s.side(s.parts[part-1])
}

// rows are the rows of parts the picture has room for: one more than there
// are where it is not finished.
func (s *tackleState) rows() int {
	rows := 1
	for i := range s.parts {
		if i > 0 && s.turns(i) {
			rows++
		}
	}
	if !s.works {
		rows = max(rows+1, 5)
	}
	return rows
}

func (s *tackleState) layOut(c *draw.Canvas, ghosts []rigging.ReevingNode) *tackleFigure {
	g := &tackleFigure{tackleState: s, c: c}
	for i := range s.parts {
		if i > 0 && s.turns(i) {
			g.used++
		}
		g.row = append(g.row, g.used)
	}
	if len(s.parts) > 0 {
		g.used++
	}
	g.rows = s.rows()
	g.top = c.Font * headLines
	room := c.H - g.top - c.Font*footLines
	g.pitch = min(max(c.Grow(52), c.H/9), room/float64(g.rows))
	g.top += (room - g.pitch*float64(g.rows)) / 2
	g.columns(ghosts)
	nodes := len(s.reeving.Nodes)
	g.low, g.up = make([]int, nodes), make([]int, nodes)
	for n := range nodes {
		g.low[n], g.up[n] = math.MaxInt, -1
	}
	for i, p := range s.parts {
		for _, n := range [...]int{p.from, p.to} {
			g.low[n], g.up[n] = min(g.low[n], g.row[i]), max(g.up[n], g.row[i])
		}
	}
	if n := g.begun(); n >= 0 {
		g.low[n], g.up[n] = min(g.low[n], g.used), g.used
	}
	return g
}

// begun is the node at which a rope is made fast that goes nowhere yet, -1
// for none.
func (s *tackleState) begun() int {
	if n := len(s.reeving.Ropes); n > 0 && len(s.reeving.Ropes[n-1].Path) == 1 {
		return s.nodeOf(s.reeving.Ropes[n-1].Path[0])
	}
	return -1
}

func (g *tackleFigure) y(row int) float64 { return g.top + (float64(row)+0.5)*g.pitch }

// columns places the nodes as they start and as they have travelled.
func (g *tackleFigure) columns(ghosts []rigging.ReevingNode) {
	nodes := append(slices.Clone(g.reeving.Nodes), ghosts...)
	var at []float64
	for _, n := range nodes {
		if n.Kind != rigging.HaulNode && !slices.Contains(at, n.At) {
			at = append(at, n.At)
		}
	}
	slices.Sort(at)
	if !g.works {
		g.spread(nodes)
		return
	}
	left, right := g.pitch/2+g.c.Grow(34), g.c.W-g.pitch/2-g.c.Grow(46)
	haul := -1
	for i, p := range g.parts {
		if g.kind(p.to) != rigging.HaulNode {
			continue
		}
		haul = i
		// The haul needs room to run.
		share, room := 0.5, g.c.W/2
		if len(at) > 1 {
			share = float64(slices.Index(at, g.reeving.Nodes[p.from].At)) / float64(len(at)-1)
		}
		least := g.c.Grow(54) * float64(len(at)-1)
		if g.side(p) < 0 && share < 1 {
			left = max(left, min((room-share*right)/(1-share), right-least))
		} else if g.side(p) > 0 && share > 0 {
			right = min(right, max(left+(room-left)/share, left+least))
		}
	}
	g.x, g.startX = make([]float64, len(nodes)), make([]float64, len(nodes))
	tight := (right-left)/float64(len(at)) < g.c.Grow(72)
	for i, n := range nodes {
		k := slices.Index(at, n.At)
		g.high = append(g.high, g.works && tight && k%2 == 1)
		if len(at) > 1 {
			g.startX[i] = left + (right-left)*float64(max(k, 0))/float64(len(at)-1)
		} else {
			g.startX[i] = (left + right) / 2
		}
	}
	if haul >= 0 {
		p := g.parts[haul]
		g.startX[p.to] = g.startX[p.from] + g.side(p)*(g.pitch/2+g.c.Grow(50))
	}
	copy(g.x, g.startX)
	if g.works {
		g.reach = g.farthest()
		for i, v := range g.result.Velocities {
			g.x[i] += v * g.reach * g.hauled / mostHauled
		}
	}
}

// spread places the nodes of a tackle that is being reeved: a column for every
// place there is.
func (g *tackleFigure) spread(nodes []rigging.ReevingNode) {
	for _, n := range nodes {
		g.x = append(g.x, g.column(placeOf(n.ID)))
		g.high = append(g.high, false)
	}
	g.startX = g.x
}

// column is where a place's column stands, from the anchor's side to the
// load's.
func (g *tackleFigure) column(place int) float64 {
	before := 0
	for _, p := range places {
		if p.At < places[place].At {
			before++
		}
	}
	return g.c.W * (float64(before) + 0.5) / float64(len(places))
}

// ended says whether the last rope is hauled: the next place begins another.
func (s *tackleState) ended() bool {
	n := len(s.parts)
	return n > 0 && s.kind(s.parts[n-1].to) == rigging.HaulNode && s.begun() < 0
}

// drawSpots lights the places to which the rope can go next, each where it
// would come to lie.
func (g *tackleFigure) drawSpots(b *work) {
	from := -1 // column of the rope's end
	var last *tacklePart
	if n := len(g.reeving.Ropes); n > 0 && !g.tiedOff && !g.ended() {
		path := g.reeving.Ropes[n-1].Path
		from = placeOf(path[len(path)-1])
		if len(path) > 1 {
			last = &g.parts[len(g.parts)-1]
		}
	}
	for _, a := range b.out.Actions {
		id, ok := strings.CutPrefix(a.Do, doReeveTo)
		if !ok {
			continue
		}
		k, row := placeOf(id), g.used
		if last != nil && (g.side(*last) > 0) == (places[k].At > places[from].At) {
			row-- // it runs straight on
		}
		at := draw.Pt{X: g.column(k), Y: g.y(row)}
		g.c.Spot(draw.Spot{Do: a.Do, Mark: placeLetter(places[k]), Label: a.Label, X: at.X, Y: at.Y, W: g.c.W / float64(len(places))})
		g.c.Keep(draw.Around(at, g.c.Font)) // its ring
	}
}

// mostHauled is the rope that is hauled at the end of the picture's stroke, m.
const mostHauled = 10

// farthest is how far the load can come in the picture, px.
func (g *tackleFigure) farthest() float64 {
	far := math.Inf(1)
	v := g.result.Velocities
	edge, gap := g.c.Grow(36), g.pitch/2+g.c.Grow(22)
	for i := range v {
		switch {
		case v[i] > 0:
			far = min(far, (g.c.W-edge-g.startX[i])/v[i])
		case v[i] < 0:
			far = min(far, (g.startX[i]-edge)/-v[i])
		}
	}
	for _, p := range g.parts {
		if g.kind(p.to) == rigging.HaulNode {
			continue
		}
		closing := g.side(p) * (v[p.from] - v[p.to])
		if closing > 0 {
			far = min(far, (math.Abs(g.startX[p.to]-g.startX[p.from])-gap)/closing)
		}
	}
	return max(far, 1)
}

func drawTackle(b *work, c *draw.Canvas) (title, desc string) {
	s := b.kept.(*tackleState)
	var ghosts []rigging.ReevingNode
	if !s.works {
		for _, n := range places {
			if n.Kind != rigging.HaulNode && s.nodeOf(n.ID) < 0 {
				ghosts = append(ghosts, n)
			}
		}
	}
	g := s.layOut(c, ghosts)
	for i, n := range ghosts {
		x := g.x[len(s.reeving.Nodes)+i]
		c.Segment("grid", "", draw.Pt{X: x, Y: g.y(0)}, draw.Pt{X: x, Y: g.y(g.rows - 1)})
		g.nameAt(x, placeLetter(n), "label-note", false)
	}
	for n := range s.reeving.Nodes {
		g.drawNode(b, n)
	}
	g.drawRopes(b)
	if !s.works {
		g.drawSpots(b)
		return b.Say("A {tackle} being reeved"), b.Say("A {tackle} that is not finished: %s", b.lacks)
	}
	g.drawTravel(b)
	return b.Say("A {tackle}"), b.Say("A {tackle} of %s sheaves with a load of %s. The pull on the rope is %s.", units.Decimal(float64(s.reeving.Sheaves()), -1), b.u.Load(s.load), b.secret(b.u.Load(s.pull())))
}

// nameAt writes a place's name over it, higher where another is near.
func (g *tackleFigure) nameAt(x float64, text, class string, high bool) {
	y := g.top - g.c.Font*0.75
	if high {
		y -= g.c.Font * 1.3
	}
	g.c.Label(draw.Label{Text: text, Class: class, At: draw.Pt{X: x, Y: y}, Toward: draw.Pt{X: 0, Y: -1}, Prio: draw.PrioMust,
		Stands: []draw.Stand{{At: draw.Pt{X: x, Y: y}, Toward: draw.Pt{}}, {At: draw.Pt{X: x, Y: y - g.c.Font*1.3}, Toward: draw.Pt{}}}})
}

func (g *tackleFigure) drawNode(b *work, n int) {
	c, x, letter := g.c, g.x[n], g.letters[n]
	if g.kind(n) == rigging.HaulNode {
		return
	}
	first, last := g.low[n], g.up[n]
	if last < 0 { // named, but no part yet
		first, last = 0, 0
	}
	top, bottom := g.y(first)-g.c.Grow(6), g.y(last)+g.c.Grow(6)
	carries := ""
	if g.works {
		carries = " " + b.secret(b.u.Load(g.result.NodeLoads[n].Load*g.load))
	}
	switch g.kind(n) {
	case rigging.LoadNode:
		carries = ""
		bottom = g.y(g.rows-1) + g.pitch/2 + c.Grow(8)
		tail := draw.Pt{X: x, Y: bottom}
		c.Arrow("load", "", tail, tail.Plus(draw.Pt{X: c.Grow(44), Y: 0}))
		c.Label(draw.Label{Text: "W = " + b.u.Load(g.load), Class: "label-force", At: tail, Toward: draw.Pt{X: -1, Y: 0}, Prio: draw.PrioMust})
	case rigging.AnchorNode:
		side := -1.0
		if g.works && g.reeving.Nodes[n].At > g.reeving.Nodes[g.find(rigging.LoadNode)].At {
			side = 1
		}
		at := draw.Pt{X: x + side*(g.pitch/2+c.Grow(18)), Y: (top + bottom) / 2}
		if !g.works { // beside it the rope can be hauled
			at = draw.Pt{X: x, Y: bottom + c.Grow(12)}
		}
		c.Segment("bridle", "", draw.Pt{X: x, Y: min(at.Y, bottom)}, at)
		c.AnchorMark(at)
	}
	c.Segment("bridle", "", draw.Pt{X: x, Y: top}, draw.Pt{X: x, Y: bottom})
	shared := func(m rigging.ReevingNode) bool {
		return m.Kind == rigging.AnchorNode && m.At == g.reeving.Nodes[n].At && m.ID != g.reeving.Nodes[n].ID
	}
	if first > 0 && g.kind(n) == rigging.AnchorNode && slices.ContainsFunc(g.reeving.Nodes, shared) {
		// One of several on top of each other: its name stands on its own rows.
		c.Label(draw.Label{Text: letter + carries, Class: "label-id", At: draw.Pt{X: x, Y: g.y(first) - g.pitch*0.4}, Toward: draw.Pt{X: 0, Y: -1}, Prio: draw.PrioMust})
		return
	}
	g.nameAt(x, letter+carries, "label-id", g.high[n])
}

func (g *tackleFigure) drawRopes(b *work) {
	c, r := g.c, g.pitch/2
	// Sheaves first: the rope lies on them.
	for i := 1; i < len(g.parts); i++ {
		p := g.parts[i]
		if p.first {
			continue
		}
		at := draw.Pt{X: g.x[p.from], Y: (g.y(g.row[i]) + g.y(g.row[i-1])) / 2}
		size := r
		if g.row[i] == g.row[i-1] {
			at.Y += c.Grow(7)
			size = c.Grow(7)
		}
		c.Circle("sheave", "", at, size)
		c.Circle("point", "", at, c.Grow(2))
	}
	for i, p := range g.parts {
		a, z := draw.Pt{X: g.x[p.from], Y: g.y(g.row[i])}, draw.Pt{X: g.x[p.to], Y: g.y(g.row[i])}
		if p.first {
			c.Move(a)
		}
		haul := g.kind(p.to) == rigging.HaulNode
		if haul {
			if !p.first {
				c.Path("rope", "")
			}
			c.Segment("haul", "", a, z)
		} else {
			c.Line(z)
			c.Avoid(a, z)
			switch {
			case i+1 == len(g.parts) || g.parts[i+1].first:
				c.Path("rope", "")
				c.Circle("attach", "", z, c.Grow(4.5))
			case g.row[i+1] != g.row[i]:
				c.Arc(r, r, 0, false, z.X > a.X, draw.Pt{X: z.X, Y: g.y(g.row[i+1])})
			}
		}
		if p.first {
			c.Circle("attach", "", a, c.Grow(4.5))
		}
		if haul {
			g.drawHaul(b, p, z)
		}
		// The label keeps clear of the sheaves.
		start, end := a, z
		if !p.first {
			start.X += g.side(p) * r
		}
		if i+1 < len(g.parts) && !g.parts[i+1].first {
			end.X -= g.side(p) * r
		}
		if haul {
			end.X -= g.side(p) * c.Grow(10)
		}
		text := p.name
		if g.works {
			text += " " + b.secret(b.u.Load(p.tension))
			room := math.Abs(end.X-start.X) - c.Grow(4)
			if c.TextWidth(text) > room {
				text = p.name + " " + b.secret(b.u.Number(p.tension, units.Kilonewtons, units.Up))
			}
			if c.TextWidth(text) > room {
				text = p.name // its tension stands below the picture
			}
		}
		c.Label(draw.Label{Text: text, Class: "label-force", At: start, Along: end, Slide: true, Toward: draw.Pt{X: 0, Y: -1}, Gap: c.Grow(3), Prio: draw.PrioForce})
	}
	if n := g.begun(); n >= 0 {
		c.Circle("peak", "", draw.Pt{X: g.x[n], Y: g.y(g.used)}, c.Grow(6))
	}
}

// drawHaul is the end at which the rope is pulled.
func (g *tackleFigure) drawHaul(b *work, p tacklePart, at draw.Pt) {
	c := g.c
	if !g.works { // at the picture's edge
		c.Arrow("force", "", at.Plus(draw.Pt{X: -g.side(p) * c.Grow(20), Y: 0}), at.Plus(draw.Pt{X: g.side(p) * c.Grow(10), Y: 0}))
		return
	}
	c.Arrow("force", "", at, at.Plus(draw.Pt{X: g.side(p) * c.Grow(32), Y: 0}))
	key := "hauled_m"
	if g.side(p) < 0 {
		key = "-" + key
	}
	start, per := g.startX[p.to], g.result.Velocities[p.to]*g.reach/mostHauled
	b.grab(c, "haul", b.Say("Where the rope is hauled. Hauled so far: %s", b.u.Quantity(g.hauled, units.Metres, units.Nearest)), at, key, "", func(q draw.Pt) {
		b.set("hauled_m", (q.X-start)/per, false)
	})
}

// drawTravel shows how far load and haul have come, one below the other.
func (g *tackleFigure) drawTravel(b *work) {
	c := g.c
	for n := range g.reeving.Nodes {
		from, to := g.startX[n], g.x[n]
		switch g.kind(n) {
		case rigging.LoadNode:
			y := c.H - c.Font*2.3
			if g.hauled > 0 {
				c.Arrow("dim", "", draw.Pt{X: from, Y: y}, draw.Pt{X: to, Y: y})
				c.Label(draw.Label{Text: b.Say("load %s", b.u.Quantity(g.hauled/g.result.Ideal, units.Metres, units.Nearest)), Class: "label", At: draw.Pt{X: to, Y: y}, Toward: draw.Pt{X: -1, Y: 0}, Prio: draw.PrioMust})
			}
			key := "-hauled_m"
			per := -g.reach / mostHauled
			at := draw.Pt{X: to + c.Grow(44), Y: g.y(g.rows-1) + g.pitch/2 + c.Grow(8)}
			start := from + c.Grow(44)
			b.grab(c, "load", b.Say("The load. It has come %s", b.u.Quantity(g.hauled/g.result.Ideal, units.Metres, units.Nearest)), at, key, "", func(q draw.Pt) {
				b.set("hauled_m", (q.X-start)/per, false)
			})
		case rigging.HaulNode:
			y := c.H - c.Font*0.7
			if g.hauled > 0 {
				c.Arrow("dim", "", draw.Pt{X: from, Y: y}, draw.Pt{X: to, Y: y})
				c.Label(draw.Label{Text: b.Say("rope %s", b.u.Quantity(g.hauled, units.Metres, units.Nearest)), Class: "label", At: draw.Pt{X: from, Y: y}, Toward: draw.Pt{X: from - to, Y: 0}, Prio: draw.PrioMust})
			}
		}
	}
}
