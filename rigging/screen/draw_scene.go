package screen

import (
	"math"
	"strconv"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/draw"
	"pullline/wasm/units"
)

// A scene is what of a plan can be drawn: numbers that are present, finite
// and not absurd. It is read from the plan itself, so that a plan that cannot
// be computed still shows what is known; only forces, and values the plan
// leaves to its defaults, come from the report.
type scene struct {
	doc   *draft.Plan // whose words are used
	rep   *plan.Report
	u     *units.System
	tree  bool // height and diameter are known
	h, d  float64
	stump float64
	lean  float64 // rad
	leanB float64 // rad, clockwise from the lay
	leans bool    // lean and bearing are known; else the stem is drawn upright, and said so
	axis  rigging.Vec
	face  float64 // rad, NaN if not known
	// turned is how far the tree has turned toward the lay, rad, and what it
	// does there; both are nothing while it stands.
	turned float64
	now    *fallNow

	sections *rigging.StemSections // nil where the stem was not measured so

	crown     bool
	crownH    float64     // height along the stem
	crownHalf float64     // half its height, along the stem
	crownR    float64     // half its width
	crownAt   rigging.Vec // offset of its centre from the stem's axis
	centre    rigging.Vec // mass centre
	hasCentre bool

	points []scenePoint
	lines  []sceneLine

	steps map[string]*plan.Working // of the report, under their paths
}

type scenePoint struct {
	id    string
	index int // in the plan's list
	at    rigging.Vec
	known bool
	role  pointRole
	rep   *plan.PointReport
	row   int   // of rep in the report
	legs  []int // bridle: the points that hold it
}

// pointRole is how a point is marked; a later one outranks an earlier one.
type pointRole int

const (
	unusedPoint pointRole = iota
	anchorPoint
	blockPoint
	pullerPoint
)

type sceneLine struct {
	id       string
	index    int
	hold     bool
	stations []station
	haul     []station
	tackle   bool
	parts    int // strands drawn between the tackle's blocks
	rep      *plan.LineReport
	row      int // of rep in the report
	legs     []sceneLeg
}

// A station is where a line is made fast, turns or is pulled.
type station struct {
	stem  bool
	h     float64 // height along the stem
	point int     // index in scene.points, -1 on the stem
	at    rigging.Vec
	known bool
	index int // in the path
}

type sceneLeg struct {
	from, to station
	hauling  bool
	tackle   bool    // a tackle hangs at its far end
	tension  float64 // kN, NaN if not known
	more     float64 // m, of rope in it beyond the straight way: it hangs loose
}

func (l sceneLeg) known() bool { return l.from.known && l.to.known }

// elevation is the slope of the leg seen from its lower end, rad.
func (l sceneLeg) elevation() float64 {
	return math.Abs(l.to.at.Sub(l.from.at).Elevation())
}

// What is drawn at all. These are limits of the picture, far outside what
// the plan accepts; beyond them a number is taken as a slip of the finger.
const (
	maxTreeM     = 200
	maxDistanceM = 2000
	maxRiseM     = 500
	maxLeanDeg   = 89
)

func newScene(doc *draft.Plan, rep *plan.Report, u *units.System) *scene {
	if rep == nil {
		rep = &plan.Report{}
	}
	s := &scene{doc: doc, rep: rep, u: u, steps: stepsByPath(rep)}
	s.readTree(doc.Object("tree"), doc.Object("cut"))
	s.readPoints(doc.List("points"))
	s.readLines(doc.List("lines"))
	return s
}

// opens gives the first of the paths that a step of the working, or a number
// that was assumed, stands under; "" if none does.
func (s *scene) opens(paths ...string) string {
	for _, path := range paths {
		if s.steps[path] != nil {
			return path
		}
		for i := range s.rep.Assumed {
			if a := &s.rep.Assumed[i]; a.Path == path {
				if _, ok := takenNumber(a); ok {
					return path
				}
			}
		}
	}
	return ""
}

// legOpens is the step of the tension of a line's leg: its own, or the line's
// or the haul, which stand for one leg each.
func (s *scene) legOpens(l *sceneLine, k int) string {
	if l.rep == nil {
		return ""
	}
	base := draft.Elem("lines", l.row)
	whole := ".tension_kN"
	if l.legs[k].hauling {
		whole = ".haul_kN"
	}
	return s.opens(draft.Elem(base+".legs", k)+".tension_kN", base+whole)
}

// pointOpens is a step of a point.
func (s *scene) pointOpens(p *scenePoint, field string) string {
	if p.rep == nil {
		return ""
	}
	return s.opens(draft.Elem("points", p.row) + field)
}

// value is a number of a part of the plan, or what the report says was taken
// for it, NaN if neither is there.
func (s *scene) value(part map[string]any, name, key string) float64 {
	if raw, ok := part[key]; ok && raw != nil {
		if v, ok := draft.Number(raw); ok {
			return v
		}
		return math.NaN()
	}
	path := name + "." + key
	for i := range s.rep.Assumed {
		if s.rep.Assumed[i].Path != path {
			continue
		}
		if v, ok := takenNumber(&s.rep.Assumed[i]); ok {
			return v
		}
	}
	return math.NaN()
}

// takenNumber is what was assumed, if it is a number.
func takenNumber(a *plan.Assumed) (float64, bool) {
	switch v := a.Value.(type) {
	case float64:
		return v, true
	case plan.Num:
		return float64(v), true
	case int:
		return float64(v), true
	}
	return 0, false
}

// between gives v if it lies in the range, else the fallback.
func between(v, lo, hi, fallback float64) float64 {
	if v >= lo && v <= hi {
		return v
	}
	return fallback
}

func (s *scene) readTree(tree, cut map[string]any) {
	nan := math.NaN()
	s.h = between(s.value(tree, "tree", "height_m"), 0.5, maxTreeM, nan)
	s.d = between(s.value(tree, "tree", "diameter_cm"), 0.1, 2000, nan) * rigging.CM
	s.tree = draw.Finite(s.h)
	if !s.tree {
		s.h = nan
	}
	s.stump = between(s.value(cut, "cut", "stump_m"), 0, s.h*0.9, 0)
	s.face = between(s.value(cut, "cut", "face_opening_deg"), 1, 179, nan) * rigging.Deg
	s.lean = between(s.value(tree, "tree", "lean_deg"), 0, maxLeanDeg, 0) * rigging.Deg
	s.leanB = between(s.value(tree, "tree", "lean_bearing_deg"), -1e6, 1e6, 0) * rigging.Deg
	lean, toward := s.value(tree, "tree", "lean_deg"), s.value(tree, "tree", "lean_bearing_deg")
	s.leans = lean == 0 || lean > 0 && lean <= maxLeanDeg && math.Abs(toward) <= 1e6
	if !s.leans {
		s.lean, s.leanB = 0, 0
	}
	s.axis = rigging.Tree{Lean: s.lean, LeanBearing: s.leanB}.Axis()
	if !s.tree {
		return
	}
	s.readSections(tree)
	if c := s.value(tree, "tree", "crown_centre_m"); c > s.stump && c < s.h {
		s.crown = true
		s.crownH = c
		s.crownHalf = min(s.h-c, c-s.stump)
		area := s.value(tree, "tree", "crown_area_m2")
		// The crown's shape is not known; an ellipse of its area stands
		// for it.
		s.crownR = between(area/(math.Pi*s.crownHalf), 0.03*s.h, 0.4*s.h, 0.12*s.h)
		off := between(s.value(tree, "tree", "crown_offset_m"), -0.5*s.h, 0.5*s.h, 0)
		sin, cos := math.Sincos(between(s.value(tree, "tree", "crown_offset_bearing_deg"), -1e6, 1e6, 0) * rigging.Deg)
		s.crownAt = rigging.Vec{X: off * cos, Y: -off * sin, Z: 0}
	}
	t := &s.rep.Tree
	if t.ForwardM.Known() && t.LeftM.Known() && t.CentreHeightM.Known() {
		s.centre = rigging.Vec{X: float64(t.ForwardM), Y: float64(t.LeftM), Z: s.stump + float64(t.CentreHeightM)}
		s.hasCentre = s.centre.Norm() < 2*s.h
	}
}

// onStem is the place at a height along the stem.
func (s *scene) onStem(h float64) rigging.Vec {
	if h < s.stump {
		return rigging.Vec{X: 0, Y: 0, Z: h}
	}
	return rigging.Vec{X: 0, Y: 0, Z: s.stump}.Add(s.axis.Scale(h - s.stump))
}

// maxDrawn is how many points and lines are drawn of a list.
const maxDrawn = 60

func (s *scene) readPoints(list []any) {
	list = list[:min(len(list), maxDrawn)]
	s.points = make([]scenePoint, len(list))
	for i, raw := range list {
		m, _ := raw.(map[string]any)
		p := &s.points[i]
		p.index = i
		p.id, _ = m["id"].(string)
		bearing, okB := draft.Number(m["bearing_deg"])
		distance, okD := draft.Number(m["distance_m"])
		rise := 0.0
		if r, ok := m["rise_m"]; ok && r != nil {
			var okR bool
			rise, okR = draft.Number(r)
			okD = okD && okR
		}
		p.known = okB && okD && math.Abs(bearing) <= 1e6 &&
			distance >= 0 && distance <= maxDistanceM && math.Abs(rise) <= maxRiseM
		if p.known {
			p.at = rigging.AtBearing(bearing*rigging.Deg, distance, rise)
		}
		for k := range s.rep.Points {
			if s.rep.Points[k].ID == p.id {
				p.rep, p.row = &s.rep.Points[k], k
			}
		}
	}
	for i, raw := range list {
		m, _ := raw.(map[string]any)
		a, _ := m["anchor"].(map[string]any)
		legs, _ := a["legs"].([]any)
		for _, l := range legs {
			leg, _ := l.(map[string]any)
			if k := s.pointIndex(leg["point"]); k >= 0 && k != i {
				s.points[i].legs = append(s.points[i].legs, k)
				s.points[k].role = max(s.points[k].role, anchorPoint)
			}
		}
	}
}

func (s *scene) pointIndex(id any) int {
	name, ok := id.(string)
	if !ok {
		return -1
	}
	for i := range s.points {
		if s.points[i].id == name {
			return i
		}
	}
	return -1
}

func (s *scene) station(raw any, index int) station {
	m, _ := raw.(map[string]any)
	st := station{point: -1, index: index}
	if h, ok := draft.Number(m["stem_m"]); ok {
		st.stem, st.h = true, h
		st.known = s.tree && h >= 0 && h <= s.h
		if st.known {
			st.at = s.onStem(h)
		}
		return st
	}
	if i := s.pointIndex(m["point"]); i >= 0 {
		st.point, st.at, st.known = i, s.points[i].at, s.points[i].known
	}
	return st
}

func (s *scene) readLines(list []any) {
	list = list[:min(len(list), maxDrawn)]
	s.lines = make([]sceneLine, len(list))
	for i, raw := range list {
		m, _ := raw.(map[string]any)
		l := &s.lines[i]
		l.index = i
		l.id, _ = m["id"].(string)
		role, _ := m["role"].(string)
		l.hold = role == "hold"
		for k := range s.rep.Lines {
			if s.rep.Lines[k].ID == l.id {
				l.rep, l.row = &s.rep.Lines[k], k
			}
		}
		path, _ := m["path"].([]any)
		path = path[:min(len(path), maxDrawn)]
		for k, st := range path {
			l.stations = append(l.stations, s.station(st, k))
		}
		tackle, _ := m["tackle"].(map[string]any)
		l.tackle = len(tackle) > 0 && len(path) > 1
		l.parts = tackleParts(tackle)
		haul, _ := tackle["haul_path"].([]any)
		haul = haul[:min(len(haul), maxDrawn)]
		for k, st := range haul {
			l.haul = append(l.haul, s.station(st, k))
		}
		s.addLegs(l)
		_, hasPuller := m["puller"].(map[string]any)
		s.markPoints(l, hasPuller || !l.hold)
	}
}

// tackleParts is the strands drawn for a tackle: those of its last stage, 2
// where none is given, never more than can be told apart.
func tackleParts(tackle map[string]any) int {
	parts := 2.0
	stages, _ := tackle["stages"].([]any)
	if len(stages) > 0 {
		stage, _ := stages[len(stages)-1].(map[string]any)
		if p, ok := draft.Number(stage["parts"]); ok {
			parts = p
		}
	}
	return int(min(max(parts, 1), 5))
}

func (s *scene) addLegs(l *sceneLine) {
	for k := 1; k < len(l.stations); k++ {
		l.legs = append(l.legs, sceneLeg{from: l.stations[k-1], to: l.stations[k], tackle: l.tackle && k == len(l.stations)-1})
	}
	if n := len(l.stations); n > 0 {
		from := l.stations[n-1]
		for _, to := range l.haul {
			l.legs = append(l.legs, sceneLeg{from: from, to: to, hauling: true})
			from = to
		}
	}
	// The report lists the same legs in the same order; where it does not,
	// no tension is written on them.
	for k := range l.legs {
		l.legs[k].tension = math.NaN()
		if l.rep != nil && len(l.rep.Legs) == len(l.legs) && l.rep.Legs[k].Hauling == l.legs[k].hauling {
			l.legs[k].tension = float64(l.rep.Legs[k].TensionKN)
		}
	}
}

func (s *scene) markPoints(l *sceneLine, pulled bool) {
	mark := func(stations []station, last pointRole, first pointRole) {
		for k, st := range stations {
			if st.point < 0 {
				continue
			}
			role := blockPoint
			if k == len(stations)-1 {
				role = last
			} else if k == 0 {
				role = first
			}
			p := &s.points[st.point]
			p.role = max(p.role, role)
		}
	}
	end := anchorPoint
	if pulled && len(l.haul) == 0 && !l.tackle {
		end = pullerPoint
	}
	mark(l.stations, end, anchorPoint)
	mark(l.haul, pullerPoint, blockPoint)
}

// turnsAt calls f for every block on the ground with the places the rope
// comes from and goes to.
func (l *sceneLine) turnsAt(f func(from, block, to station)) {
	for k := 1; k < len(l.legs); k++ {
		a, b := &l.legs[k-1], &l.legs[k]
		// Between the line and the haul path hangs the tackle, not a block
		// the one rope runs over.
		if a.hauling != b.hauling || a.to.point < 0 || !a.known() || !b.known() {
			continue
		}
		f(a.from, a.to, b.to)
	}
}

// bightsAt calls f for every place where rope turns on the ground, also where
// the hauling part leaves a tackle's fixed block.
func (l *sceneLine) bightsAt(f func(from, block, to station)) {
	l.turnsAt(f)
	for k := 1; k < len(l.legs); k++ {
		a, b := &l.legs[k-1], &l.legs[k]
		if !a.hauling && b.hauling && a.to.point >= 0 && a.known() && b.known() {
			f(a.from, a.to, b.to)
		}
	}
}

// included is the angle between the ropes at a block, rad; NaN where they
// meet it from nowhere.
func included(from, block, to rigging.Vec) float64 { return from.Sub(block).Angle(to.Sub(block)) }

func (s *scene) state(p *scenePoint) string {
	if p.rep == nil {
		return rigging.Unknown.String()
	}
	return p.rep.Verdict.String()
}

// names for people: an id left out is a number.
func nameOf(id, kind string, index int) string {
	if id != "" {
		return id
	}
	return kind + " " + strconv.Itoa(index+1)
}

func (s *scene) pointName(p *scenePoint) string { return nameOf(p.id, "point", p.index) }
func (s *scene) lineName(l *sceneLine) string   { return nameOf(l.id, "line", l.index) }

func (s *scene) metres(v float64) string  { return s.u.Quantity(v, units.Metres, units.Nearest) }
func (s *scene) degrees(v float64) string { return s.u.Quantity(v, units.Degrees, units.Nearest) }

// letter puts a letter of the formulas before what it stands for, where the
// drawing is to name them.
func (s *scene) letter(letter, text string) string {
	if !s.doc.Letters || text == "" {
		return text
	}
	return letter + "\u00a0" + text
}

// leanText is the label of the lean.
func (s *scene) leanText() string {
	switch {
	case !s.leans:
		return "lean not known"
	case s.doc.Letters:
		return s.letter("λ", s.angleOf(s.lean))
	}
	return "lean " + s.angleOf(s.lean)
}

// leanWords tell the lean and its bearing.
func (s *scene) leanWords() string {
	switch {
	case !s.leans:
		return "lean not known, drawn upright"
	case s.lean == 0:
		return "upright"
	}
	return "leaning " + s.degrees(s.lean/rigging.Deg) + " toward bearing " + s.bearingText(s.leanB)
}

// bearingText writes a bearing given in rad, from 0 to 360 degrees.
func (s *scene) bearingText(rad float64) string {
	return s.degrees(math.Mod(math.Mod(rad/rigging.Deg, 360)+360, 360))
}

// angleOf writes an angle given in rad as a label: whole degrees, tenths
// below ten.
func (s *scene) angleOf(rad float64) string {
	if !draw.Finite(rad) {
		return units.None
	}
	deg := rad / rigging.Deg
	if deg >= 10 || deg == 0 {
		return units.Decimal(math.Round(deg), 0) + "°"
	}
	return units.Decimal(math.Round(deg*10)/10, -1) + "°"
}
