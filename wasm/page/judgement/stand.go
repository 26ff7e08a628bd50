package judgement

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"pullline/rigging"
	"pullline/rigging/judgement/places"
	"pullline/wasm/draft"
	"pullline/wasm/draw"
	"pullline/wasm/fields"
	"pullline/wasm/keyed"
	"pullline/wasm/parts"
	"pullline/wasm/scene"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// Stand is where a point may stand.
type Stand struct {
	Points  []parts.Option `json:"points"` // to choose from
	Point   string         `json:"point"`
	Sides   []parts.Option `json:"sides"`         // what the crew can reach, to choose from
	Reaches []parts.Option `json:"reaches"`       // and how far
	Map     *draw.Drawing  `json:"map,omitempty"` // the plan view with a mark at each place
	Cells   []Cell         `json:"cells"`
	Places  []Item         `json:"places"` // the best ones
	Words   []string       `json:"words"`  // the map in words
	Message string         `json:"message"`
}

// A Cell is a place of the map, with what is said of it.
type Cell struct {
	X       float64        `json:"x"`
	Y       float64        `json:"y"`
	Label   string         `json:"label"`
	Changes []parts.Change `json:"changes,omitempty"` // none where the point cannot stand
}

const (
	at         words.Text = "%s from the stump, bearing %s"
	cellFits   words.Text = "%s: %s"
	moveTo     words.Text = "Move %s to %s"
	fits       words.Text = "● %s of %s places: within limits as computed."
	nearly     words.Text = "○ %s: near a limit."
	ruledOut   words.Text = "× %s: %s."
	nowhere    words.Text = "None of these places can be recommended."
	noPoint    words.Text = "The plan has no point yet."
	isOver     words.Text = "something is over its limit"
	cannot     words.Text = "the line cannot pull the tree over from there"
	lands      words.Text = "the tree lands on the {puller}"
	inBight    words.Text = "the {puller} stands inside the angle of a rope"
	lifts      words.Text = "the machine is lifted"
	slides     words.Text = "the machine slides"
	noRoom     words.Text = "no room between the haul planned and what is too much"
	notKnown   words.Text = "not known"
	mapTitle   words.Text = "Where %s may stand"
	mapInWords words.Text = "A mark at each place: a disc where the plan is within its limits, a ring where it is near one, a cross where the point cannot stand."
)

var outWords = []keyed.Row[words.Text]{
	{Key: places.Over, Value: isOver}, {Key: places.CannotPull, Value: cannot}, {Key: places.Lands, Value: lands}, {Key: places.InBight, Value: inBight},
	{Key: places.Lifts, Value: lifts}, {Key: places.Slides, Value: slides}, {Key: places.NoRoom, Value: noRoom}, {Key: places.Unknown, Value: notKnown},
}

// StandJSON answers a request for where a point may stand.
//
//codec:call asked Stand
func StandJSON(raw []byte) []byte {
	return answer(raw, func(a *asked, d *draft.Plan, u *units.System) written {
		return tellStand(a, d, u)
	}, func(message string) written {
		s := newStand()
		s.Message = message
		return s
	})
}

func newStand() *Stand {
	return &Stand{Points: []parts.Option{}, Sides: []parts.Option{}, Reaches: []parts.Option{}, Cells: []Cell{}, Places: []Item{}, Words: []string{}}
}

// A side is the bearings from one on, to the right, that the crew can reach.
type side struct {
	label    words.Text
	from, by float64 // °
}

var sides = []keyed.Row[side]{
	{Key: "", Value: side{"All round", 0, 360}}, {Key: "ahead", Value: side{"Ahead, bearing 300° to 60°", 300, 120}}, {Key: "right", Value: side{"To the right, bearing 30° to 150°", 30, 120}},
	{Key: "behind", Value: side{"Behind, bearing 120° to 240°", 120, 120}}, {Key: "left", Value: side{"To the left, bearing 210° to 330°", 210, 120}},
}

const (
	anyDistance words.Text = "As far as drawn"
	noFarther   words.Text = "No farther than %s"
)

// reaches are the distances (m) to choose from.
var reaches = []float64{30, 40, 50, 60, 80, 100, 150}

// reachable leaves out what the crew cannot reach.
func reachable(req *asked, cells []places.Cell) []places.Cell {
	var chosen *side
	for i := range sides {
		if sides[i].Key == req.Side {
			chosen = &sides[i].Value
		}
	}
	return slices.DeleteFunc(slices.Clone(cells), func(c places.Cell) bool {
		return req.Reach > 0 && float64(c.DistanceM) > req.Reach ||
			chosen != nil && math.Mod(float64(c.BearingDeg)-chosen.from+720, 360) > chosen.by
	})
}

// options lists what the crew can say it can reach.
func (s *Stand) options(d *draft.Plan, u *units.System) {
	for i := range sides {
		s.Sides = append(s.Sides, parts.Option{Value: sides[i].Key, Label: d.Say(sides[i].Value.label)})
	}
	s.Reaches = append(s.Reaches, parts.Option{Label: d.Say(anyDistance)})
	for _, m := range reaches {
		s.Reaches = append(s.Reaches, parts.Option{Value: units.Decimal(m, 0), Label: d.Say(noFarther, u.Quantity(m, units.Metres, units.Down))})
	}
}

// The map's places: so far apart, out to where the drawing ends.
const (
	coarseDeg, fineDeg = 15.0, 6.0
	rings, fineRings   = 8, 20
	mostPlaces         = 5
)

func tellStand(req *asked, d *draft.Plan, u *units.System) *Stand {
	s := newStand()
	s.Point = req.Point
	s.options(d, u)
	for i := range d.List("points") {
		if id := d.Text(draft.Sub(draft.Elem("points", i), "id")); id != "" {
			s.Points = append(s.Points, parts.Option{Value: id, Label: fields.PointTitle(d, i)})
		}
	}
	moved := d.PointIndex(req.Point)
	if moved < 0 {
		if len(s.Points) == 0 {
			s.Message = d.Say(noPoint)
		}
		return s
	}
	rep := req.Report()
	rep.Tell(d.Voice(u))
	sc := scene.New(d, &rep, u)
	s.Map = sc.DrawPlan(req.Box)
	if s.Map == nil {
		return s
	}
	s.Map.Title = d.Say(mapTitle, fields.PointTitle(d, moved))
	s.Map.Desc = d.Say(mapInWords)
	l := sc.PlanLayout(req.Box)
	g := grid(l, req.Box, req.Coarse)
	cells := reachable(req, places.On(req.Plan, req.Size, req.Point, g).Cells)
	s.mark(cells, l, req.Box, d, u, moved, req.Coarse)
	s.best(cells, d, u, moved)
	return s
}

// grid reaches to the corner of the drawing that is farthest off.
func grid(l draw.Layout, b draw.Box, coarse bool) (g places.Grid) {
	reach := 0.0
	for _, corner := range []draw.Pt{{}, {X: b.W}, {Y: b.H}, {X: b.W, Y: b.H}} {
		right, up := l.FromPx(corner)
		reach = math.Max(reach, math.Hypot(right, up))
	}
	step, n := fineDeg, fineRings
	if coarse {
		step, n = coarseDeg, rings
	}
	by := math.Max(1, math.Round(reach/float64(n)))
	for k := 1; k <= n && float64(k)*by <= 1000; k++ {
		g.Distances = append(g.Distances, float64(k)*by)
	}
	for bearing := 0.0; bearing < 360; bearing += step {
		g.Bearings = append(g.Bearings, bearing)
	}
	return g
}

// mark puts the places into the drawing, each kind in one path of its own.
func (s *Stand) mark(cells []places.Cell, l draw.Layout, b draw.Box, d *draft.Plan, u *units.System, moved int, coarse bool) {
	var discs, ringsOf, crosses strings.Builder
	counts := map[string]int{}
	all, step := 0, fineDeg
	if coarse {
		step = coarseDeg
	}
	for i := range cells {
		c := &cells[i]
		p := l.Plan(vec(c))
		if !draw.Around(p, 0).Meets(draw.Rect{X0: 0, Y0: 0, X1: b.W, Y1: b.H}) {
			continue
		}
		if n := thin(float64(c.DistanceM)*l.Scale, step); math.Mod(math.Round(float64(c.BearingDeg)/step), n) != 0 {
			continue
		}
		all++
		to, r := &crosses, 2.5
		switch {
		case c.RuledOut != "":
			counts[c.RuledOut]++
		case c.Verdict == rigging.Within:
			to, r = &discs, 3.5
			counts[""]++
		default:
			to, r = &ringsOf, 3.5
			counts["near"]++
		}
		x, y, w := px(p.X-r), px(p.Y), px(2*r)
		if to == &crosses {
			to.WriteString("M" + px(p.X-r) + " " + px(p.Y-r) + "L" + px(p.X+r) + " " + px(p.Y+r) + "M" + px(p.X+r) + " " + px(p.Y-r) + "L" + px(p.X-r) + " " + px(p.Y+r))
		} else {
			to.WriteString("M" + x + " " + y + "a" + px(r) + " " + px(r) + " 0 1 0 " + w + " 0a" + px(r) + " " + px(r) + " 0 1 0 -" + w + " 0")
		}
		cell := Cell{X: p.X, Y: p.Y, Label: said(c, d, u)}
		if c.RuledOut == "" {
			cell.Changes = move(moved, c)
		}
		s.Cells = append(s.Cells, cell)
	}
	// Under all else, so that names and loads can be read.
	s.Map.Shapes = append([]draw.Shape{
		{Kind: "path", Class: "place-out", D: crosses.String()}, {Kind: "path", Class: "place-near", D: ringsOf.String()}, {Kind: "path", Class: "place-fits", D: discs.String()},
	}, s.Map.Shapes...)
	s.Words = append(s.Words, d.Say(fits, strconv.Itoa(counts[""]), strconv.Itoa(all)))
	if n := counts["near"]; n > 0 {
		s.Words = append(s.Words, d.Say(nearly, strconv.Itoa(n)))
	}
	for _, row := range outWords {
		if n := counts[row.Key]; n > 0 {
			s.Words = append(s.Words, d.Say(ruledOut, strconv.Itoa(n), d.Say(row.Value)))
		}
	}
}

// thin is how many bearings go to one mark at a distance (px), so that marks near the
// stem keep apart.
func thin(distance, step float64) float64 {
	const apart = 11.0 // px
	n := 1.0
	for n < 8 && n*step*rigging.Deg*distance < apart {
		n *= 2
	}
	return n
}

func px(v float64) string { return units.Decimal(math.Round(v*10)/10, 1) }

// said is a place and what the plan comes to there.
func said(c *places.Cell, d *draft.Plan, u *units.System) string {
	where := placeOf(c, d, u)
	for _, row := range outWords {
		if row.Key == c.RuledOut {
			return d.Say(cellFits, where, d.Say(row.Value))
		}
	}
	return d.Say(cellFits, where, verdictUse(d.Say(words.Headline[c.Verdict]), c.Use))
}

func vec(c *places.Cell) rigging.Vec {
	return rigging.AtBearing(float64(c.BearingDeg)*rigging.Deg, float64(c.DistanceM), 0)
}

func placeOf(c *places.Cell, d *draft.Plan, u *units.System) string {
	return d.Say(at, u.Quantity(float64(c.DistanceM), units.Metres, units.Nearest), u.Quantity(float64(c.BearingDeg), units.Degrees, units.Nearest))
}

func move(point int, c *places.Cell) []parts.Change {
	path := draft.Elem("points", point)
	return []parts.Change{change(draft.Sub(path, "bearing_deg"), float64(c.BearingDeg)), change(draft.Sub(path, "distance_m"), float64(c.DistanceM))}
}

// best lists the best places, of those as good the nearest to where the point is, and
// no two beside each other.
func (s *Stand) best(cells []places.Cell, d *draft.Plan, u *units.System, moved int) {
	free := slices.DeleteFunc(slices.Clone(cells), func(c places.Cell) bool { return c.RuledOut != "" })
	bearing, _ := d.Number(draft.Sub(draft.Elem("points", moved), "bearing_deg"))
	distance, _ := d.Number(draft.Sub(draft.Elem("points", moved), "distance_m"))
	now := rigging.AtBearing(bearing*rigging.Deg, distance, 0)
	way := func(c *places.Cell) float64 { return vec(c).Sub(now).Norm() }
	percent := func(c *places.Cell) float64 { return math.Ceil(float64(c.Use) * 100) }
	slices.SortStableFunc(free, func(a, b places.Cell) int {
		return cmp.Or(cmp.Compare(a.Verdict, b.Verdict), cmp.Compare(percent(&a), percent(&b)), cmp.Compare(way(&a), way(&b)))
	})
	var taken []rigging.Vec
	for i := range free {
		c := &free[i]
		here := vec(c)
		if len(taken) == mostPlaces || slices.ContainsFunc(taken, func(v rigging.Vec) bool { return v.Sub(here).Norm() < float64(c.DistanceM)/4 }) {
			continue
		}
		taken = append(taken, here)
		s.Places = append(s.Places, Item{Message: d.Say(moveTo, fields.PointTitle(d, moved), placeOf(c, d, u)), After: d.Say(after, verdictUse(d.Say(words.Headline[c.Verdict]), c.Use)), Changes: move(moved, c)})
	}
	if len(free) == 0 {
		s.Words = append(s.Words, d.Say(nowhere))
	}
}
