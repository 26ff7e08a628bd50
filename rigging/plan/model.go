package plan

import (
	"math"

	"pullline/rigging"
	"pullline/rigging/plan/text"
)

// A model is a plan read, with defaults filled in, in SI. Values that could
// not be read are NaN.
type model struct {
	setup  rigging.Setup
	volume float64
	// strengthLow (Pa) is what the hinge's wood is relied on to bear.
	strengthLow float64
	species     string // key in the table
	defects     []rigging.StemDefect
	people      []being
	points      []point
	byID        map[string]int
	lines       []line
	gear        []piece
	allowance   float64
	planned     float64 // N, 0 where the crew gave none
	uncertain   bool    // the plan gives a ± for some field
	pullDate    Date    // the day the plan is judged for, none where not given or not accepted
	dated       bool    // pull_date was given, accepted or not

	brief brief
	after after
	fork  fork

	strangeSpecies string // a species not in the table, where every figure is given
}

type point struct {
	id, path       string
	bearing        float64     // rad
	distance, rise float64     // m
	at             rigging.Vec // from the hinge
	anchor         rigging.Anchor
	kind           string // of the anchor, "" where there is none
	bridle         *bridle
	slender        bool // a buried log too slender for its length
	lowSling       bool
}

type bridle struct {
	legs          []int // indexes of points
	names         []string
	selfAdjusting bool
}

type station struct {
	path       string
	onStem     bool
	stem       float64 // m
	point      int     // index, −1 where unknown
	efficiency float64
}

type line struct {
	id, path string
	hold     bool
	share    float64
	stations []station
	tackle   *tackle
	puller   bool

	rated     float64 // N, NaN where not given
	limitedBy string  // "" where not given
	stall     float64 // N, NaN where not given
	setting   float64 // N, NaN where not given
	tended    bool
	tied      []string // ends at which the rope itself is made fast
	mass      float64  // kg/m, NaN
	stiff     float64  // N, NaN
}

type tackle struct {
	path       string
	reeving    rigging.Reeving
	stages     []rigging.TackleStage // where it was given by its stages
	efficiency float64
	haul       []station
	result     rigging.TackleResult
	free       rigging.TackleResult // without friction
	usable     bool
}

// solved is the tackle per newton of its load, with friction or without.
func (t *tackle) solved(free bool) *rigging.TackleResult {
	if free {
		return &t.free
	}
	return &t.result
}

type piece struct {
	id, path, kind string
	line, point    int // −1 where not there
	atStem         bool
	limit          float64 // N, before hitch and reductions
	breaking       float64 // N, NaN unless given
	capacity       float64 // N
	hitch          float64
	factors        []float64
	designFactor   float64
	inspection     inspection
	barred         bool // retired, past its inspection or not to be told: not judged to hold
}

// Accepted ranges. They are wide on purpose: what no tree, rope or machine
// has, not what is unusual.
var (
	spanHeight     = Range{Min: 2, Max: 130, Unit: "m"}
	spanDiameter   = Range{Min: 5, Max: 1000, Unit: "cm"}
	spanLean       = Range{Min: 0, Max: 60, Unit: "°"}
	spanBearing    = Range{Min: -360, Max: 360, Unit: "°"}
	spanDistance   = Range{Min: 0, Max: 1000, Unit: "m", Above: true}
	spanRise       = Range{Min: -300, Max: 300, Unit: "m"}
	spanEfficiency = Range{Min: 0.1, Max: 1}
	spanForce      = Range{Min: 0, Max: 10000, Unit: "kN", Above: true}
	spanFactor     = Range{Min: 0, Max: 1, Above: true}
	spanCavity     = Range{Min: 0, Max: 1000, Unit: "cm"}
	spanStem       = Range{Min: 0, Max: 130, Unit: "m", Above: true}
)

func (r *reader) model(root *object) *model {
	m := &model{byID: map[string]int{}}
	root.take("version")
	root.textUpTo("name", maxName)
	root.text("notes")
	r.tree(root, m)
	r.points(root, m)
	r.linesAndGear(root, m)
	r.stiffness(m)
	m.allowance = root.optional("allowance", Range{Min: 1, Max: 10}, 1.5, "allowance", "", basisPractice)
	planned, ok := root.number("planned_kN", spanForce)
	if ok {
		m.planned = planned * rigging.KN
	}
	if r.planned > 0 {
		m.planned = r.planned
	}
	r.people(root, m)
	r.plusMinus(root, m)
	r.readings(root)
	r.brief(root, m)
	r.after(root, m)
	r.fork(root, m)
	root.done()
	m.setup.Allowance = m.allowance
	m.setup.Planned = m.planned
	return m
}

const (
	basisPractice = "common practice, no source"
	basisMemory   = "from memory"
)

func (r *reader) tree(root *object, m *model) {
	site := root.child("site", true)
	if site == nil {
		site = r.newObject("site", nil, true)
	}
	m.setup.Wind = site.optional("wind_mps", Range{Min: 0, Max: 40, Unit: "m/s"}, rigging.UnsaidWind, "wind", "Beaufort scale", basisMemory)
	site.done()

	t := root.child("tree", true)
	if t == nil {
		root.problem(CodeMissing, "tree", takes("object"), nil, "tree_missing")
		r.broken = true
		t = r.newObject("tree", nil, false)
	}
	key := t.text("species")
	species, known := rigging.FindSpecies(key)
	allGiven := (t.has("form_factor") || t.has("sections")) && t.has("green_density_kgm3") && t.has("bending_strength_MPa") && t.has("crown_fraction")
	switch {
	case known:
	case allGiven:
		m.strangeSpecies = key // nothing is taken from the table
	default:
		const heaviest = "unknown_broadleaf"
		species, _ = rigging.FindSpecies(heaviest)
		if key != "" {
			r.problem(CodeNoSuch, "tree.species", takes("species"), shorten(key), "no_species", quote(key))
		} else {
			r.assume("tree.species", heaviest, "species", "", "")
		}
	}
	m.species = species.Key
	figureFor := text.Words(species.Name)
	figure := func(field string, s Range, f rigging.Figure, unit float64) float64 {
		return t.optional(field, s, f.Value/unit, "figure", f.Source.Text, string(f.Source.Basis), figureFor) * unit
	}
	tree := &m.setup.Tree
	tree.Height = t.required("height_m", spanHeight)
	diameter := t.required("diameter_cm", spanDiameter)
	tree.Diameter = diameter * rigging.CM
	if r.sections(t, m); tree.Sections == nil || t.has("form_factor") {
		tree.FormFactor = figure("form_factor", Range{Min: 0.2, Max: 1}, species.FormFactor, 1)
	}
	tree.Density = figure("green_density_kgm3", Range{Min: 200, Max: 1500, Unit: "kg/m³"}, species.Density, 1)
	tree.Strength = figure("bending_strength_MPa", Range{Min: 1, Max: 200, Unit: "MPa"}, species.Strength, rigging.MPa)
	tree.CrownShare = r.crown(t, tree.Diameter, species.Conifer)
	tree.CrownCentre = t.optional("crown_centre_m", spanStem, round(rigging.CrownMiddle*tree.Height), "crown_centre", "", basisPractice)
	tree.CrownOffset = t.optional("crown_offset_m", Range{Min: 0, Max: 30, Unit: "m"}, 0, "crown_even", "", "")
	offsetBearing, ok := t.number("crown_offset_bearing_deg", spanBearing)
	if !ok && tree.CrownOffset > 0 && !t.has("crown_offset_bearing_deg") {
		t.problem(CodeMissing, "crown_offset_bearing_deg", spanBearing.takes(), nil, "crown_bearing", spanBearing.least(), spanBearing.most())
	}
	tree.CrownOffsetBearing = offsetBearing * rigging.Deg
	if tree.CrownOffset == 0 {
		tree.CrownOffsetBearing = 0
	}
	area := Range{Min: 0, Max: 3000, Unit: "m²"}
	drag := Range{Min: 0.05, Max: 2}
	if m.setup.Wind > 0 {
		tree.CrownArea = t.optional("crown_area_m2", area, round(rigging.CrownSail*tree.Height*tree.Height), "crown_area", "", basisPractice)
		of, _ := rigging.FindDragCoefficient("unknown_crown")
		tree.DragCoefficient = t.optional("drag_coefficient", drag, of.Value, "drag", of.Source.Text, string(of.Source.Basis))
	} else {
		t.number("crown_area_m2", area)
		t.number("drag_coefficient", drag)
	}
	tree.Lean = t.required("lean_deg", spanLean) * rigging.Deg
	leanBearing, ok := t.number("lean_bearing_deg", spanBearing)
	if !ok && tree.Lean > 0 && !t.has("lean_bearing_deg") {
		t.problem(CodeMissing, "lean_bearing_deg", spanBearing.takes(), nil, "lean_bearing", spanBearing.least(), spanBearing.most())
	}
	tree.LeanBearing = leanBearing * rigging.Deg
	if tree.Lean == 0 {
		tree.LeanBearing = 0
	}
	tree.Cavity = t.optional("cavity_cm", spanCavity, 0, "cavity", "", "") * rigging.CM
	mass, _ := t.number("mass_kg", Range{Min: 10, Max: 1e6, Unit: "kg"})
	centre, _ := t.number("mass_centre_m", spanStem)
	tree.Mass, tree.MassCentre = orZero(mass), orZero(centre)
	m.volume = tree.StemVolume()
	m.strengthLow = rigging.HingeReliedOn * tree.Strength
	if !t.has("bending_strength_MPa") {
		m.strengthLow = species.StrengthLow.Value
	}

	c := root.child("cut", true)
	if c == nil {
		c = r.newObject("cut", nil, true)
	}
	m.setup.Stump = c.optional("stump_m", Range{Min: 0, Max: 10, Unit: "m"}, 0.4, "stump", "", basisPractice)
	m.setup.FaceOpening = c.optional("face_opening_deg", Range{Min: 1, Max: 120, Unit: "°"}, openFace.Value, "face_opening", openFace.Source.Text, string(openFace.Source.Basis)) * rigging.Deg
	h := &m.setup.Hinge
	length, thickness := Range{Min: 1, Max: 1000, Unit: "cm"}, Range{Min: 0.1, Max: 200, Unit: "cm"}
	h.Length = c.optional("hinge_length_cm", length, round(guideLength.Value*diameter), "hinge_length", hingeGuide, string(guideLength.Source.Basis), text.Percent(guideLength.Value)) * rigging.CM
	h.Left = c.optional("hinge_left_cm", thickness, round(guideThickness.Value*diameter), "hinge_thickness", hingeGuide, string(guideThickness.Source.Basis), text.Percent(guideThickness.Value)) * rigging.CM
	h.Right = c.optional("hinge_right_cm", thickness, round(guideThickness.Value*diameter), "hinge_thickness", hingeGuide, string(guideThickness.Source.Basis), text.Percent(guideThickness.Value)) * rigging.CM
	c.done()

	within := func(o *object, key string, value, min, max float64, unit float64, u, wrong string) {
		if value < min || value > max {
			s := Range{Min: min / unit, Max: max / unit, Unit: u}
			o.problem(CodeRange, key, s.takes(), round(value/unit), wrong, text.Amount{Value: value / unit, Unit: u}, s.least(), s.most())
		}
	}
	stump, height := m.setup.Stump, tree.Height
	within(c, "stump_m", stump, 0, height/2, 1, "m", "stump_high")
	within(t, "crown_centre_m", tree.CrownCentre, stump, height, 1, "m", "crown_centre_off")
	if tree.MassCentre > 0 {
		within(t, "mass_centre_m", tree.MassCentre, stump, height, 1, "m", "mass_centre_off")
	}
	r.defects(t, m)
	t.done()
	within(c, "hinge_length_cm", h.Length, length.Min*rigging.CM, 1.5*tree.Diameter, rigging.CM, "cm", "hinge_long")
	within(c, "hinge_left_cm", h.Left, thickness.Min*rigging.CM, tree.Diameter, rigging.CM, "cm", "hinge_thick")
	within(c, "hinge_right_cm", h.Right, thickness.Min*rigging.CM, tree.Diameter, rigging.CM, "cm", "hinge_thick")
	if tree.Cavity >= h.Length {
		t.problem(CodeRange, "cavity_cm", takes("below_hinge"), round(tree.Cavity/rigging.CM), "cavity_wide", centimetres(tree.Cavity, text.Nearest), centimetres(h.Length, text.Nearest))
	}
}

func orZero(v float64) float64 {
	if math.IsNaN(v) {
		return 0
	}
	return v
}

func (r *reader) points(root *object, m *model) {
	list := root.list("points", maxPoints)
	objects := make([]*object, len(list))
	for i, raw := range list {
		path := item("points", i)
		o := r.object(path, raw, true)
		objects[i] = o
		p := point{path: path, id: o.identifier("id")}
		p.bearing = o.required("bearing_deg", spanBearing) * rigging.Deg
		p.distance = o.required("distance_m", spanDistance)
		p.rise = o.optional("rise_m", spanRise, 0, "level_point", "", "")
		if radius := m.setup.Tree.Diameter / 2; p.distance > 0 && p.distance < radius {
			o.problem(CodePlace, "distance_m", Range{Min: round(radius), Max: spanDistance.Max, Unit: spanDistance.Unit}.takes(), p.distance, "point_in_stem", quote(p.id))
		}
		p.at = rigging.AtBearing(p.bearing, p.distance, p.rise-m.setup.Stump)
		if _, twice := m.byID[p.id]; twice && p.id != "" {
			o.problem(CodeTwice, "id", takes("other_name"), shorten(p.id), "two_points", quote(p.id))
		} else if p.id != "" {
			m.byID[p.id] = i
		}
		m.points = append(m.points, p)
	}
	for i, o := range objects {
		r.anchor(o, m, &m.points[i])
		o.done()
	}
}

// pointNamed reads a reference to a point, −1 where there is none.
func (o *object) pointNamed(m *model, key string) int {
	id := o.text(key)
	if i, ok := m.byID[id]; ok {
		return i
	}
	if id != "" {
		o.problem(CodeNoSuch, key, takes("point"), shorten(id), "no_point", quote(id))
	} else if v, given := o.fields[key]; !given || v == "" {
		o.problem(CodeMissing, key, takes("point"), nil, "point_missing")
	}
	return -1
}

func (r *reader) lines(root *object, m *model) {
	seen := map[string]bool{}
	for i, raw := range root.list("lines", maxLines) {
		path := item("lines", i)
		o := r.object(path, raw, true)
		l := line{path: path, id: o.identifier("id"), rated: math.NaN(), stall: math.NaN(), setting: math.NaN(), mass: math.NaN(), stiff: math.NaN()}
		if seen[l.id] && l.id != "" {
			o.problem(CodeTwice, "id", takes("other_name"), shorten(l.id), "two_lines", quote(l.id))
		}
		seen[l.id] = true
		role := o.choice("role", "pull", "hold")
		if role == "" && !o.has("role") {
			r.assume(o.at("role"), "pull", "pulls", "", "")
		}
		l.hold = role == "hold"
		l.share = 1
		share, _ := o.number("share", Range{Min: 0, Max: 100, Above: true})
		if !l.hold && o.has("share") {
			l.share = share
		}
		for k, s := range o.list("path", maxStations) {
			l.stations = append(l.stations, r.station(o.item("path", k), s, m))
		}
		if !o.has("path") {
			o.problem(CodeMissing, "path", takes("stations"), nil, "path_missing")
		}
		for k, s := range l.stations {
			if k > 0 && k < len(l.stations)-1 {
				l.stations[k].efficiency = r.blockEfficiency(s)
			}
		}
		r.tackle(o, m, &l)
		if p := o.child("puller", false); p != nil {
			r.puller(p, m, &l)
		}
		l.tended = o.flag("tended")
		l.tied = r.tied(o, &l, m)
		if rope := o.child("rope", false); rope != nil {
			l.mass, _ = rope.number("mass_kgpm", Range{Min: 0, Max: 100, Above: true, Unit: "kg/m"})
			l.stiff = force(rope.number("stiffness_kN", Range{Min: 0, Max: 1e7, Above: true, Unit: "kN"}))
			rope.done()
		}
		o.done()
		m.lines = append(m.lines, l)
	}
}

// puller reads what hauls a line and what limits it.
func (r *reader) puller(p *object, m *model, l *line) {
	l.puller = true
	l.rated = force(p.number("rated_kN", spanForce))
	l.limitedBy = p.choice("limited_by", limits...)
	l.stall = force(p.number("stall_kN", spanForce))
	l.setting = force(p.number("setting_kN", spanForce))
	if l.stall < l.rated {
		p.problem(CodeRange, "stall_kN", takes("rated"), round(l.stall/rigging.KN), "stall_low", givenKilonewtons(l.stall), givenKilonewtons(l.rated))
		l.stall = math.NaN()
	}
	missing := func(key, wrong string) {
		if !p.has(key) {
			p.problem(CodeMissing, key, spanForce.takes(), nil, wrong, quote(l.id))
		}
	}
	switch l.limitedBy {
	case limitStall:
		missing("stall_kN", "stall_missing")
	case limitDevice:
		missing("setting_kN", "device_missing")
	case limitWatched:
		missing("setting_kN", "watched_missing")
	case limitGrip:
		if _, ok := m.machineOf(l); !ok {
			missing("stall_kN", "grip_missing")
		}
	}
	p.done()
}

// Ends of a line that are named by what they are.
const (
	endAtStem = "stem"
	lastEnd   = "end"
)

// tied reads at which ends the rope itself is made fast.
func (r *reader) tied(o *object, l *line, m *model) []string {
	names := r.texts(o, "tied", maxStations)
	for i, name := range names {
		if _, point := m.byID[name]; !point && name != endAtStem && name != lastEnd && name != "" {
			r.problem(CodeNoSuch, o.item("tied", i), takes("tied"), shorten(name), "tied_nowhere", quote(l.id), quote(name))
		}
	}
	return names
}

func force(kN float64, _ bool) float64 { return kN * rigging.KN }

func (r *reader) station(path string, raw any, m *model) station {
	o := r.object(path, raw, true)
	s := station{path: path, point: -1}
	s.efficiency, _ = o.number("efficiency", spanEfficiency)
	switch {
	case o.has("stem_m") && o.has("point"):
		o.problem(CodeEither, "stem_m", takes("stem_or_point"), nil, "place_both")
	case o.has("stem_m"):
		s.onStem = true
		s.stem, _ = o.number("stem_m", spanStem)
		if math.IsNaN(m.setup.Stump) || math.IsNaN(m.setup.Tree.Height) {
			break // there is nothing to hold it against
		}
		if s.stem <= m.setup.Stump || s.stem > m.setup.Tree.Height {
			o.problem(CodeRange, "stem_m", Range{Min: m.setup.Stump, Max: m.setup.Tree.Height, Above: true, Unit: "m"}.takes(), s.stem, "stem_height", metres(s.stem, text.Nearest), metres(m.setup.Stump, text.Nearest), metres(m.setup.Tree.Height, text.Nearest))
		}
	case o.has("point"):
		s.point = o.pointNamed(m, "point")
	default:
		o.problem(CodeMissing, "point", takes("stem_or_point"), nil, "place_missing")
	}
	o.done()
	return s
}

// blockEfficiency fills in the default of a station that is a block.
func (r *reader) blockEfficiency(s station) float64 {
	if !math.IsNaN(s.efficiency) {
		return s.efficiency
	}
	for _, p := range r.problems {
		if p.Path == s.path+".efficiency" {
			return s.efficiency
		}
	}
	r.assume(s.path+".efficiency", fieldRule.Value, "sheave", fieldRule.Source.Text, string(fieldRule.Source.Basis))
	return fieldRule.Value
}

// fieldRule is what every sheave is taken to lose that nothing is said of.
var fieldRule, _ = rigging.FindSheave("field_rule")

// The usual cut, for one that nothing is said of.
var (
	guideLength, _    = rigging.FindHingeGuide("hinge_length")
	guideThickness, _ = rigging.FindHingeGuide("hinge_thickness")
	openFace, _       = rigging.FindHingeGuide("open_face_deg")
	hingeGuide        = guideLength.Source.Text
)

func (r *reader) tackle(o *object, m *model, l *line) {
	to := o.child("tackle", true)
	if to == nil {
		return
	}
	t := &tackle{path: to.path}
	l.tackle = t
	t.efficiency = to.optional("efficiency", spanEfficiency, fieldRule.Value, "sheave", fieldRule.Source.Text, string(fieldRule.Source.Basis))
	stages, reeving := to.has("stages"), to.has("reeving")
	switch {
	case stages && reeving:
		to.problem(CodeEither, "reeving", takes("stages_or_reeving"), nil, "tackle_both")
	case stages:
		r.stages(to, t)
	case reeving:
		r.reeving(to, t)
	default:
		to.problem(CodeMissing, "stages", takes("stages_or_reeving"), nil, "tackle_empty")
	}
	t.usable = t.usable && !math.IsNaN(t.efficiency)
	if t.usable {
		result, err := t.reeving.Solve(t.efficiency)
		if err != nil {
			t.usable = false
			key := "stages"
			if reeving {
				key = "reeving"
			}
			wrong, args := tackleFault(err)
			to.problem(CodeTackle, key, takes("tackle"), nil, wrong, args...)
		}
		t.result = result
		if t.usable {
			t.free, err = t.reeving.WithoutFriction().Solve(1)
			t.usable = err == nil
		}
	}
	for k, s := range to.list("haul_path", maxStations) {
		path := to.item("haul_path", k)
		st := r.station(path, s, m)
		if st.onStem {
			r.problem(CodePlace, path, takes("point"), nil, "haul_on_stem")
			r.broken = true
		}
		t.haul = append(t.haul, st)
	}
	for k, s := range t.haul {
		if k < len(t.haul)-1 {
			t.haul[k].efficiency = r.blockEfficiency(s)
		}
	}
	if len(t.haul) == 0 {
		r.assume(to.path+".haul_path", nil, "haul_back", "", "")
	}
	to.done()
}

func (r *reader) stages(to *object, t *tackle) {
	list := to.list("stages", maxList)
	var stages []rigging.TackleStage
	ok := len(list) > 0
	if !ok {
		to.problem(CodeMissing, "stages", takes("stage"), nil, "stages_empty")
	}
	for k, raw := range list {
		so := r.object(to.item("stages", k), raw, true)
		parts := so.required("parts", Range{Min: 1, Max: 12, Whole: true})
		from := so.choice("haul_from", "fixed", "moving")
		if from == "" && !so.has("haul_from") {
			from = "fixed"
			r.assume(so.at("haul_from"), from, "haul_from_fixed", "", "")
		}
		so.done()
		if math.IsNaN(parts) || from == "" {
			ok = false
			continue
		}
		stages = append(stages, rigging.TackleStage{Parts: int(parts), HaulFrom: from})
	}
	if !ok {
		return
	}
	reeving, err := rigging.StagesReeving(stages)
	if err != nil {
		key, args := tackleFault(err)
		to.problem(CodeTackle, "stages", takes("tackle"), nil, key, args...)
		return
	}
	t.reeving, t.stages, t.usable = reeving, stages, true
}

var nodeKinds = []string{string(rigging.AnchorNode), string(rigging.MovingNode), string(rigging.LoadNode), string(rigging.HaulNode)}

func (r *reader) reeving(to *object, t *tackle) {
	ro := to.child("reeving", true)
	before := len(r.problems)
	for k, raw := range ro.list("nodes", maxList) {
		no := r.object(ro.item("nodes", k), raw, true)
		node := rigging.ReevingNode{ID: no.identifier("id"), Kind: rigging.NodeKind(no.choice("kind", nodeKinds...))}
		if node.Kind == "" && !no.has("kind") {
			no.problem(CodeMissing, "kind", oneOf(nodeKinds...), nil, "missing.choice", text.Field("kind"), joined(nodeKinds))
		}
		node.At = no.required("at", Range{Min: -1000, Max: 1000})
		no.done()
		t.reeving.Nodes = append(t.reeving.Nodes, node)
	}
	for k, raw := range ro.list("ropes", maxList) {
		po := r.object(ro.item("ropes", k), raw, true)
		rope := rigging.ReevingRope{}
		for j, v := range po.list("path", maxList) {
			id, ok := v.(string)
			if !ok {
				r.problem(CodeType, po.item("path", j), takes("node"), shown(v), "node_name")
				r.broken = true
			}
			rope.Path = append(rope.Path, id)
		}
		rope.Efficiency, _ = po.number("efficiency", spanEfficiency)
		rope.Efficiency = orZero(rope.Efficiency)
		po.done()
		t.reeving.Ropes = append(t.reeving.Ropes, rope)
	}
	ro.done()
	t.usable = len(r.problems) == before
}
