package screen

import (
	"math"
	"slices"
	"strings"

	"pullline/rigging"
	"pullline/wasm/units"
)

// A tackleFigure lays a tackle out: the places side by side from the anchor
// to the load, the parts of rope one below the other.
type tackleFigure struct {
	*tackleState
	c       *canvas
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

func (s *tackleState) layOut(c *canvas, ghosts []rigging.ReevingNode) *tackleFigure {
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
	g.top = c.font * headLines
	room := c.h - g.top - c.font*footLines
	g.pitch = min(max(c.grow(52), c.h/9), room/float64(g.rows))
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
		return slices.IndexFunc(s.reeving.Nodes, func(m rigging.ReevingNode) bool { return m.ID == s.reeving.Ropes[n-1].Path[0] })
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
	left, right := g.pitch/2+g.c.grow(34), g.c.w-g.pitch/2-g.c.grow(46)
	haul := -1
	for i, p := range g.parts {
		if g.kind(p.to) != rigging.HaulNode {
			continue
		}
		haul = i
		// The haul needs room to run.
		share, room := 0.5, g.c.w/2
		if len(at) > 1 {
			share = float64(slices.Index(at, g.reeving.Nodes[p.from].At)) / float64(len(at)-1)
		}
		least := g.c.grow(54) * float64(len(at)-1)
		if g.side(p) < 0 && share < 1 {
			left = max(left, min((room-share*right)/(1-share), right-least))
		} else if g.side(p) > 0 && share > 0 {
			right = min(right, max(left+(room-left)/share, left+least))
		}
	}
	g.x, g.startX = make([]float64, len(nodes)), make([]float64, len(nodes))
	tight := (right-left)/float64(len(at)) < g.c.grow(72)
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
		g.startX[p.to] = g.startX[p.from] + g.side(p)*(g.pitch/2+g.c.grow(50))
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
// place there is, in the order of their letters, and one at either end to haul.
func (g *tackleFigure) spread(nodes []rigging.ReevingNode) {
	for _, n := range nodes {
		k := strings.Index(buildColumns, n.ID)
		g.x = append(g.x, g.column(k))
		g.high = append(g.high, false)
	}
	g.startX = g.x
}

// buildColumns are the places from the anchor's side to the load's.
const buildColumns = "H" + rigging.ReevingLetters + "R"

func (g *tackleFigure) column(k int) float64 {
	return g.c.w * (float64(k) + 0.5) / float64(len(buildColumns))
}

// ended says whether the last rope is hauled: the next place begins another.
func (s *tackleState) ended() bool {
	n := len(s.parts)
	return n > 0 && s.kind(s.parts[n-1].to) == rigging.HaulNode && s.begun() < 0
}

// drawSpots lights the places to which the rope can go next, each where it
// would come to lie.
func (g *tackleFigure) drawSpots(b *benchWork) {
	from := -1 // column of the rope's end
	var last *tacklePart
	if n := len(g.reeving.Ropes); n > 0 && !g.tiedOff && !g.ended() {
		path := g.reeving.Ropes[n-1].Path
		from = strings.Index(buildColumns, path[len(path)-1])
		if len(path) > 1 {
			last = &g.parts[len(g.parts)-1]
		}
	}
	for _, a := range b.out.Actions {
		letter, ok := strings.CutPrefix(a.Do, doReeveTo)
		if !ok {
			continue
		}
		k, row := strings.Index(buildColumns, letter), g.used
		if last != nil && (g.side(*last) > 0) == (k > from) {
			row-- // it runs straight on
		}
		at := pt{g.column(k), g.y(row)}
		g.c.spots = append(g.c.spots, Spot{Do: a.Do, Mark: letter, Label: a.Label, X: tenth(at.x), Y: tenth(at.y), W: tenth(g.c.w / float64(len(buildColumns)))})
		g.c.solid = append(g.c.solid, around(at, g.c.font)) // its ring
	}
}

// mostHauled is the rope that is hauled at the end of the picture's stroke, m.
const mostHauled = 10

// farthest is how far the load can come in the picture, px.
func (g *tackleFigure) farthest() float64 {
	far := math.Inf(1)
	v := g.result.Velocities
	edge, gap := g.c.grow(36), g.pitch/2+g.c.grow(22)
	for i := range v {
		switch {
		case v[i] > 0:
			far = min(far, (g.c.w-edge-g.startX[i])/v[i])
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

func drawTackle(b *benchWork, c *canvas) (title, desc string) {
	s := b.kept.(*tackleState)
	var ghosts []rigging.ReevingNode
	if !s.works {
		for _, letter := range []byte(rigging.ReevingLetters) {
			n, _ := rigging.LetterNode(letter)
			if !slices.ContainsFunc(s.reeving.Nodes, func(m rigging.ReevingNode) bool { return m.ID == n.ID }) {
				ghosts = append(ghosts, n)
			}
		}
	}
	g := s.layOut(c, ghosts)
	for i, n := range ghosts {
		x := g.x[len(s.reeving.Nodes)+i]
		c.segment("grid", "", pt{x, g.y(0)}, pt{x, g.y(g.rows - 1)})
		g.nameAt(x, n.ID, "label-note", false)
	}
	for n := range s.reeving.Nodes {
		g.drawNode(b, n)
	}
	g.drawRopes(b)
	if !s.works {
		g.drawSpots(b)
		return "A {tackle} being reeved", "A {tackle} that is not finished: " + b.lacks
	}
	g.drawTravel(b)
	return "A {tackle}", "A {tackle} of " + units.Decimal(float64(s.reeving.Sheaves()), -1) + " sheaves with a load of " + b.u.Load(s.load) +
		". The pull on the rope is " + b.secret(b.u.Load(s.pull())) + "."
}

// nameAt writes a place's name over it, higher where another is near.
func (g *tackleFigure) nameAt(x float64, text, class string, high bool) {
	y := g.top - g.c.font*0.75
	if high {
		y -= g.c.font * 1.3
	}
	g.c.label(caption{text: text, class: class, at: pt{x, y}, toward: pt{0, -1}, prio: prioMust,
		spots: []spot{{pt{x, y}, pt{}}, {pt{x, y - g.c.font*1.3}, pt{}}}})
}

func (g *tackleFigure) drawNode(b *benchWork, n int) {
	c, x, letter := g.c, g.x[n], g.letters[n]
	if g.kind(n) == rigging.HaulNode {
		return
	}
	first, last := g.low[n], g.up[n]
	if last < 0 { // named, but no part yet
		first, last = 0, 0
	}
	top, bottom := g.y(first)-g.c.grow(6), g.y(last)+g.c.grow(6)
	carries := ""
	if g.works {
		carries = " " + b.secret(b.u.Load(g.result.NodeLoads[n].Load*g.load))
	}
	switch g.kind(n) {
	case rigging.LoadNode:
		carries = ""
		bottom = g.y(g.rows-1) + g.pitch/2 + c.grow(8)
		tail := pt{x, bottom}
		c.arrow("load", "", tail, tail.plus(pt{c.grow(44), 0}))
		c.label(caption{text: "W = " + b.u.Load(g.load), class: "label-force", at: tail, toward: pt{-1, 0}, prio: prioMust})
	case rigging.AnchorNode:
		side := -1.0
		if letter[0] == 'Z' {
			side = 1
		}
		at := pt{x + side*(g.pitch/2+c.grow(18)), (top + bottom) / 2}
		if !g.works { // beside it the rope can be hauled
			at = pt{x, bottom + c.grow(12)}
		}
		c.segment("bridle", "", pt{x, min(at.y, bottom)}, at)
		c.anchorMark(at)
	}
	c.segment("bridle", "", pt{x, top}, pt{x, bottom})
	if first > 0 && g.kind(n) == rigging.AnchorNode && letter[:1] != letter {
		// One of several on top of each other: its name stands on its own rows.
		c.label(caption{text: letter + carries, class: "label-id", at: pt{x, g.y(first) - g.pitch*0.4}, toward: pt{0, -1}, prio: prioMust})
		return
	}
	g.nameAt(x, letter+carries, "label-id", g.high[n])
}

func (g *tackleFigure) drawRopes(b *benchWork) {
	c, r := g.c, g.pitch/2
	// Sheaves first: the rope lies on them.
	for i := 1; i < len(g.parts); i++ {
		p := g.parts[i]
		if p.first {
			continue
		}
		at := pt{g.x[p.from], (g.y(g.row[i]) + g.y(g.row[i-1])) / 2}
		size := r
		if g.row[i] == g.row[i-1] {
			at.y += c.grow(7)
			size = c.grow(7)
		}
		c.circle("sheave", "", at, size)
		c.circle("point", "", at, c.grow(2))
	}
	for i, p := range g.parts {
		a, z := pt{g.x[p.from], g.y(g.row[i])}, pt{g.x[p.to], g.y(g.row[i])}
		if p.first {
			c.move(a)
		}
		haul := g.kind(p.to) == rigging.HaulNode
		if haul {
			if !p.first {
				c.path("rope", "")
			}
			c.segment("haul", "", a, z)
		} else {
			c.line(z)
			c.avoid(a, z)
			switch {
			case i+1 == len(g.parts) || g.parts[i+1].first:
				c.path("rope", "")
				c.circle("attach", "", z, c.grow(4.5))
			case g.row[i+1] != g.row[i]:
				c.arc(r, r, 0, false, z.x > a.x, pt{z.x, g.y(g.row[i+1])})
			}
		}
		if p.first {
			c.circle("attach", "", a, c.grow(4.5))
		}
		if haul {
			g.drawHaul(b, p, z)
		}
		// The label keeps clear of the sheaves.
		start, end := a, z
		if !p.first {
			start.x += g.side(p) * r
		}
		if i+1 < len(g.parts) && !g.parts[i+1].first {
			end.x -= g.side(p) * r
		}
		if haul {
			end.x -= g.side(p) * c.grow(10)
		}
		text := p.name
		if g.works {
			text += " " + b.secret(b.u.Load(p.tension))
			room := math.Abs(end.x-start.x) - c.grow(4)
			if c.textWidth(text) > room {
				text = p.name + " " + b.secret(b.u.Number(p.tension, units.Kilonewtons, units.Up))
			}
			if c.textWidth(text) > room {
				text = p.name // its tension stands below the picture
			}
		}
		c.label(caption{text: text, class: "label-force", at: start, along: end, slide: true, toward: pt{0, -1}, gap: c.grow(3), prio: prioForce})
	}
	if n := g.begun(); n >= 0 {
		c.circle("peak", "", pt{g.x[n], g.y(g.used)}, c.grow(6))
	}
}

// drawHaul is the end at which the rope is pulled.
func (g *tackleFigure) drawHaul(b *benchWork, p tacklePart, at pt) {
	c := g.c
	if !g.works { // at the picture's edge
		c.arrow("force", "", at.plus(pt{-g.side(p) * c.grow(20), 0}), at.plus(pt{g.side(p) * c.grow(10), 0}))
		return
	}
	c.arrow("force", "", at, at.plus(pt{g.side(p) * c.grow(32), 0}))
	key := "hauled_m"
	if g.side(p) < 0 {
		key = "-" + key
	}
	start, per := g.startX[p.to], g.result.Velocities[p.to]*g.reach/mostHauled
	b.grab(c, "haul", "Where the rope is hauled. Hauled so far: "+b.u.Quantity(g.hauled, units.Metres, units.Nearest), at, key, "", func(q pt) {
		b.set("hauled_m", (q.x-start)/per, false)
	})
}

// drawTravel shows how far load and haul have come, one below the other.
func (g *tackleFigure) drawTravel(b *benchWork) {
	c := g.c
	for n := range g.reeving.Nodes {
		from, to := g.startX[n], g.x[n]
		switch g.kind(n) {
		case rigging.LoadNode:
			y := c.h - c.font*2.3
			if g.hauled > 0 {
				c.arrow("dim", "", pt{from, y}, pt{to, y})
				c.label(caption{text: "load " + b.u.Quantity(g.hauled/g.result.Ideal, units.Metres, units.Nearest), class: "label", at: pt{to, y}, toward: pt{-1, 0}, prio: prioMust})
			}
			key := "-hauled_m"
			per := -g.reach / mostHauled
			at := pt{to + c.grow(44), g.y(g.rows-1) + g.pitch/2 + c.grow(8)}
			start := from + c.grow(44)
			b.grab(c, "load", "The load. It has come "+b.u.Quantity(g.hauled/g.result.Ideal, units.Metres, units.Nearest), at, key, "", func(q pt) {
				b.set("hauled_m", (q.x-start)/per, false)
			})
		case rigging.HaulNode:
			y := c.h - c.font*0.7
			if g.hauled > 0 {
				c.arrow("dim", "", pt{from, y}, pt{to, y})
				c.label(caption{text: "rope " + b.u.Quantity(g.hauled, units.Metres, units.Nearest), class: "label", at: pt{from, y}, toward: pt{from - to, 0}, prio: prioMust})
			}
		}
	}
}
