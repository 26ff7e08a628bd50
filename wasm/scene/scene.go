package scene

import (
	"math"
	"strconv"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/draw"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// A Scene is what of a plan can be drawn: numbers that are present, finite
// and not absurd. It is read from the plan itself, so that a plan that cannot
// be computed still shows what is known; only forces, and values the plan
// leaves to its defaults, come from the report.
type Scene struct {
	doc       *draft.Plan // whose words are used
	letters   bool        // what is measured is named by the letters of the formulas
	rep       *plan.Report
	u         *units.System
	Tree      bool // height and diameter are known
	Height, d float64
	Stump     float64
	Lean      float64 // rad
	leanB     float64 // rad, clockwise from the lay
	leans     bool    // lean and bearing are known; else the stem is drawn upright, and said so
	Axis      rigging.Vec
	face      float64 // rad, NaN if not known
	// turned is how far the tree has turned toward the lay, rad, and what it
	// does there; both are nothing while it stands.
	turned float64
	now    *Falling

	sections *rigging.StemSections // nil where the stem was not measured so

	crown     bool
	crownH    float64     // height along the stem
	crownHalf float64     // half its height, along the stem
	crownR    float64     // half its width
	crownAt   rigging.Vec // offset of its centre from the stem's axis
	centre    rigging.Vec // mass centre
	hasCentre bool

	Points []Point
	Lines  []sceneLine
	People []Person

	steps map[string]*plan.Working // of the report, under their paths
}

// A Point is one of the plan's.
type Point struct {
	ID    string
	Index int // in the plan's list
	At    rigging.Vec
	Known bool
	role  pointRole
	Rep   *plan.PointReport
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
	ID       string
	index    int
	Hold     bool
	Stations []Station
	haul     []Station
	tackle   bool
	parts    int // strands drawn between the tackle's blocks
	Rep      *plan.LineReport
	row      int // of rep in the report
	Legs     []sceneLeg
}

// A Station is where a line is made fast, turns or is pulled.
type Station struct {
	Stem  bool
	H     float64 // height along the stem
	Point int     // index in scene.points, -1 on the stem
	At    rigging.Vec
	Known bool
	index int // in the path
}

type sceneLeg struct {
	From, To Station
	Hauling  bool
	tackle   bool    // a tackle hangs at its far end
	Tension  float64 // kN, NaN if not known
	more     float64 // m, of rope in it beyond the straight way: it hangs loose
}

func (l sceneLeg) known() bool { return l.From.Known && l.To.Known }

// Elevation is the slope of the leg seen from its lower end, rad.
func (l sceneLeg) Elevation() float64 {
	return math.Abs(l.To.At.Sub(l.From.At).Elevation())
}

// What is drawn at all. These are limits of the picture, far outside what
// the plan accepts; beyond them a number is taken as a slip of the finger.
const (
	maxTreeM     = 200
	maxDistanceM = 2000
	maxRiseM     = 500
	maxLeanDeg   = 89
)

// New reads what can be drawn of a plan; rep is nil where there is no report.
func New(doc *draft.Plan, rep *plan.Report, u *units.System) *Scene {
	if rep == nil {
		rep = &plan.Report{}
	}
	s := &Scene{doc: doc, rep: rep, u: u, steps: StepsByPath(rep)}
	s.readTree(doc.Object("tree"), doc.Object("cut"))
	s.readPoints(doc.List("points"))
	s.readLines(doc.List("lines"))
	s.readPeople(doc.List("people"))
	return s
}

// opens gives the first of the paths that a step of the working, or a number
// that was assumed, stands under; "" if none does.
func (s *Scene) opens(paths ...string) string {
	for _, path := range paths {
		if s.steps[path] != nil {
			return path
		}
		for i := range s.rep.Assumed {
			if a := &s.rep.Assumed[i]; a.Path == path {
				if _, ok := a.Number(); ok {
					return path
				}
			}
		}
	}
	return ""
}

// legOpens is the step of the tension of a line's leg: its own, or the line's
// or the haul, which stand for one leg each.
func (s *Scene) legOpens(l *sceneLine, k int) string {
	if l.Rep == nil {
		return ""
	}
	base := draft.Elem("lines", l.row)
	whole := ".tension_kN"
	if l.Legs[k].Hauling {
		whole = ".haul_kN"
	}
	return s.opens(draft.Elem(base+".legs", k)+".tension_kN", base+whole)
}

// pointOpens is a step of a point.
func (s *Scene) pointOpens(p *Point, field string) string {
	if p.Rep == nil {
		return ""
	}
	return s.opens(draft.Elem("points", p.row) + field)
}

// value is a number of a part of the plan, or what the report says was taken
// for it, NaN if neither is there.
func (s *Scene) value(part map[string]any, name, key string) float64 {
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
		if v, ok := s.rep.Assumed[i].Number(); ok {
			return v
		}
	}
	return math.NaN()
}

// between gives v if it lies in the range, else the fallback.
func between(v, lo, hi, fallback float64) float64 {
	if v >= lo && v <= hi {
		return v
	}
	return fallback
}

func (s *Scene) readTree(tree, cut map[string]any) {
	nan := math.NaN()
	s.Height = between(s.value(tree, "tree", "height_m"), 0.5, maxTreeM, nan)
	s.d = between(s.value(tree, "tree", "diameter_cm"), 0.1, 2000, nan) * rigging.CM
	s.Tree = draw.Finite(s.Height)
	if !s.Tree {
		s.Height = nan
	}
	s.Stump = between(s.value(cut, "cut", "stump_m"), 0, s.Height*0.9, 0)
	s.face = between(s.value(cut, "cut", "face_opening_deg"), 1, 179, nan) * rigging.Deg
	s.Lean = between(s.value(tree, "tree", "lean_deg"), 0, maxLeanDeg, 0) * rigging.Deg
	s.leanB = between(s.value(tree, "tree", "lean_bearing_deg"), -1e6, 1e6, 0) * rigging.Deg
	lean, toward := s.value(tree, "tree", "lean_deg"), s.value(tree, "tree", "lean_bearing_deg")
	s.leans = lean == 0 || lean > 0 && lean <= maxLeanDeg && math.Abs(toward) <= 1e6
	if !s.leans {
		s.Lean, s.leanB = 0, 0
	}
	s.Axis = rigging.Tree{Lean: s.Lean, LeanBearing: s.leanB}.Axis()
	if !s.Tree {
		return
	}
	s.readSections(tree)
	if c := s.value(tree, "tree", "crown_centre_m"); c > s.Stump && c < s.Height {
		s.crown = true
		s.crownH = c
		s.crownHalf = min(s.Height-c, c-s.Stump)
		area := s.value(tree, "tree", "crown_area_m2")
		// The crown's shape is not known; an ellipse of its area stands
		// for it.
		s.crownR = between(area/(math.Pi*s.crownHalf), 0.03*s.Height, 0.4*s.Height, 0.12*s.Height)
		off := between(s.value(tree, "tree", "crown_offset_m"), -0.5*s.Height, 0.5*s.Height, 0)
		sin, cos := math.Sincos(between(s.value(tree, "tree", "crown_offset_bearing_deg"), -1e6, 1e6, 0) * rigging.Deg)
		s.crownAt = rigging.Vec{X: off * cos, Y: -off * sin, Z: 0}
	}
	t := &s.rep.Tree
	if t.ForwardM.Known() && t.LeftM.Known() && t.CentreHeightM.Known() {
		s.centre = rigging.Vec{X: float64(t.ForwardM), Y: float64(t.LeftM), Z: s.Stump + float64(t.CentreHeightM)}
		s.hasCentre = s.centre.Norm() < 2*s.Height
	}
}

// OnStem is the place at a height along the stem.
func (s *Scene) OnStem(h float64) rigging.Vec {
	if h < s.Stump {
		return rigging.Vec{X: 0, Y: 0, Z: h}
	}
	return rigging.Vec{X: 0, Y: 0, Z: s.Stump}.Add(s.Axis.Scale(h - s.Stump))
}

// maxDrawn is how many points and lines are drawn of a list.
const maxDrawn = 60

func (s *Scene) readPoints(list []any) {
	list = list[:min(len(list), maxDrawn)]
	s.Points = make([]Point, len(list))
	for i, raw := range list {
		m, _ := raw.(map[string]any)
		p := &s.Points[i]
		p.Index = i
		p.ID, _ = m["id"].(string)
		bearing, okB := draft.Number(m["bearing_deg"])
		distance, okD := draft.Number(m["distance_m"])
		rise := 0.0
		if r, ok := m["rise_m"]; ok && r != nil {
			var okR bool
			rise, okR = draft.Number(r)
			okD = okD && okR
		}
		p.Known = okB && okD && math.Abs(bearing) <= 1e6 &&
			distance >= 0 && distance <= maxDistanceM && math.Abs(rise) <= maxRiseM
		if p.Known {
			p.At = rigging.AtBearing(bearing*rigging.Deg, distance, rise)
		}
		for k := range s.rep.Points {
			if s.rep.Points[k].ID == p.ID {
				p.Rep, p.row = &s.rep.Points[k], k
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
				s.Points[i].legs = append(s.Points[i].legs, k)
				s.Points[k].role = max(s.Points[k].role, anchorPoint)
			}
		}
	}
}

func (s *Scene) pointIndex(id any) int {
	name, ok := id.(string)
	if !ok {
		return -1
	}
	for i := range s.Points {
		if s.Points[i].ID == name {
			return i
		}
	}
	return -1
}

func (s *Scene) station(raw any, index int) Station {
	m, _ := raw.(map[string]any)
	st := Station{Point: -1, index: index}
	if h, ok := draft.Number(m["stem_m"]); ok {
		st.Stem, st.H = true, h
		st.Known = s.Tree && h >= 0 && h <= s.Height
		if st.Known {
			st.At = s.OnStem(h)
		}
		return st
	}
	if i := s.pointIndex(m["point"]); i >= 0 {
		st.Point, st.At, st.Known = i, s.Points[i].At, s.Points[i].Known
	}
	return st
}

func (s *Scene) readLines(list []any) {
	list = list[:min(len(list), maxDrawn)]
	s.Lines = make([]sceneLine, len(list))
	for i, raw := range list {
		m, _ := raw.(map[string]any)
		l := &s.Lines[i]
		l.index = i
		l.ID, _ = m["id"].(string)
		role, _ := m["role"].(string)
		l.Hold = role == "hold"
		for k := range s.rep.Lines {
			if s.rep.Lines[k].ID == l.ID {
				l.Rep, l.row = &s.rep.Lines[k], k
			}
		}
		path, _ := m["path"].([]any)
		path = path[:min(len(path), maxDrawn)]
		for k, st := range path {
			l.Stations = append(l.Stations, s.station(st, k))
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
		s.markPoints(l, hasPuller || !l.Hold)
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

func (s *Scene) addLegs(l *sceneLine) {
	for k := 1; k < len(l.Stations); k++ {
		l.Legs = append(l.Legs, sceneLeg{From: l.Stations[k-1], To: l.Stations[k], tackle: l.tackle && k == len(l.Stations)-1})
	}
	if n := len(l.Stations); n > 0 {
		from := l.Stations[n-1]
		for _, to := range l.haul {
			l.Legs = append(l.Legs, sceneLeg{From: from, To: to, Hauling: true})
			from = to
		}
	}
	// The report lists the same legs in the same order; where it does not,
	// no tension is written on them.
	for k := range l.Legs {
		l.Legs[k].Tension = math.NaN()
		if l.Rep != nil && len(l.Rep.Legs) == len(l.Legs) && l.Rep.Legs[k].Hauling == l.Legs[k].Hauling {
			l.Legs[k].Tension = float64(l.Rep.Legs[k].TensionKN)
		}
	}
}

func (s *Scene) markPoints(l *sceneLine, pulled bool) {
	mark := func(stations []Station, last pointRole, first pointRole) {
		for k, st := range stations {
			if st.Point < 0 {
				continue
			}
			role := blockPoint
			if k == len(stations)-1 {
				role = last
			} else if k == 0 {
				role = first
			}
			p := &s.Points[st.Point]
			p.role = max(p.role, role)
		}
	}
	end := anchorPoint
	if pulled && len(l.haul) == 0 && !l.tackle {
		end = pullerPoint
	}
	mark(l.Stations, end, anchorPoint)
	mark(l.haul, pullerPoint, blockPoint)
}

// TurnsAt calls f for every block on the ground with the places the rope
// comes from and goes to.
func (l *sceneLine) TurnsAt(f func(from, block, to Station)) {
	for k := 1; k < len(l.Legs); k++ {
		a, b := &l.Legs[k-1], &l.Legs[k]
		// Between the line and the haul path hangs the tackle, not a block
		// the one rope runs over.
		if a.Hauling != b.Hauling || a.To.Point < 0 || !a.known() || !b.known() {
			continue
		}
		f(a.From, a.To, b.To)
	}
}

// bightsAt calls f for every place where rope turns on the ground, also where
// the hauling part leaves a tackle's fixed block.
func (l *sceneLine) bightsAt(f func(from, block, to Station)) {
	l.TurnsAt(f)
	for k := 1; k < len(l.Legs); k++ {
		a, b := &l.Legs[k-1], &l.Legs[k]
		if !a.Hauling && b.Hauling && a.To.Point >= 0 && a.known() && b.known() {
			f(a.From, a.To, b.To)
		}
	}
}

// Included is the angle between the ropes at a block, rad; NaN where they
// meet it from nowhere.
func Included(from, block, to rigging.Vec) float64 { return from.Sub(block).Angle(to.Sub(block)) }

func (s *Scene) state(p *Point) string {
	if p.Rep == nil {
		return rigging.Unknown.String()
	}
	return p.Rep.Verdict.String()
}

// names for people: an id left out is a number.
func (s *Scene) nameOf(id string, byNumber words.Text, index int) string {
	if id != "" {
		return id
	}
	return s.doc.Say(byNumber, strconv.Itoa(index+1))
}

func (s *Scene) pointName(p *Point) string    { return s.nameOf(p.ID, "point %s", p.Index) }
func (s *Scene) lineName(l *sceneLine) string { return s.nameOf(l.ID, "line %s", l.index) }

func (s *Scene) metres(v float64) string  { return s.u.Quantity(v, units.Metres, units.Nearest) }
func (s *Scene) degrees(v float64) string { return s.u.Quantity(v, units.Degrees, units.Nearest) }

// letter puts a letter of the formulas before what it stands for, where the
// drawing is to name them.
func (s *Scene) letter(letter, text string) string {
	if !s.letters || text == "" {
		return text
	}
	return letter + "\u00a0" + text
}

// leanText is the label of the lean.
func (s *Scene) leanText() string {
	switch {
	case !s.leans:
		return s.doc.Say("{lean} not known")
	case s.letters:
		return s.letter("λ", s.AngleOf(s.Lean))
	}
	return s.doc.Say("{lean} %s", s.AngleOf(s.Lean))
}

// leanWords tell the lean and its bearing.
func (s *Scene) leanWords() string {
	switch {
	case !s.leans:
		return s.doc.Say("{lean} not known, drawn upright")
	case s.Lean == 0:
		return s.doc.Say("upright")
	}
	return s.doc.Say("leaning %s toward bearing %s", s.degrees(s.Lean/rigging.Deg), s.bearingText(s.leanB))
}

// bearingText writes a bearing given in rad, from 0 to 360 degrees.
func (s *Scene) bearingText(rad float64) string {
	return s.degrees(math.Mod(math.Mod(rad/rigging.Deg, 360)+360, 360))
}

// AngleOf writes an angle given in rad as a label: whole degrees, tenths
// below ten.
func (s *Scene) AngleOf(rad float64) string {
	if !draw.Finite(rad) {
		return units.None
	}
	deg := rad / rigging.Deg
	if deg >= 10 || deg == 0 {
		return units.Decimal(math.Round(deg), 0) + "°"
	}
	return units.Decimal(math.Round(deg*10)/10, -1) + "°"
}

// Boxes are the sizes in CSS pixels of the drawings; a drawing whose box is
// empty is not made. Letters asks for the letters of the formulas in them.
//
//codec:type { side?: draw.Box, plan?: draw.Box, curve?: draw.Box }
type Boxes struct {
	Side, Plan, Curve draw.Box
	Letters           bool
}
