package plan

import (
	"math"

	"pullline/rigging"
	"pullline/rigging/plan/field"
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
	kind           field.Anchor
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

func (r *reader) model(root *object) *model {
	m := &model{byID: map[string]int{}}
	root.take(field.Version)
	root.text(field.Name)
	root.text(field.Notes)
	r.tree(root, m)
	r.points(root, m)
	r.linesAndGear(root, m)
	r.stiffness(m)
	m.allowance = root.number(field.Allowance)
	m.planned = orZero(force(root.number(field.Planned)))
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

func (r *reader) tree(root *object, m *model) {
	site := root.part(field.Site)
	m.setup.Wind = site.number(field.Wind)
	site.done()

	if !root.has(field.Tree) {
		root.problem(CodeMissing, field.Tree, takes("object"), nil, "tree_missing")
		r.broken = true
	}
	t := root.part(field.Tree)
	key := t.text(field.Species)
	species, known := rigging.FindSpecies(key)
	allGiven := (t.has(field.FormFactor) || t.has(field.Sections)) && t.has(field.GreenDensity) && t.has(field.BendingStrength) && t.has(field.CrownFraction)
	switch {
	case known:
	case allGiven:
		m.strangeSpecies = key // nothing is taken from the table
	default:
		heaviest, _ := field.Species.Row().Default.Value.(string)
		species, _ = rigging.FindSpecies(heaviest)
		if key != "" {
			r.problem(CodeNoSuch, t.at(field.Species), takes("species"), shorten(key), "no_species", quote(key))
		} else {
			r.assumeField(t.at(field.Species), field.Species, heaviest)
		}
	}
	m.species = species.Key
	figureFor := text.Words(species.Name)
	figure := func(f field.Field, of rigging.Figure, unit float64) float64 {
		return t.optional(f, of.Value/unit, "figure", of.Source, figureFor) * unit
	}
	tree := &m.setup.Tree
	tree.Height = t.number(field.TreeHeight)
	diameter := t.number(field.TreeDiameter)
	tree.Diameter = diameter * rigging.CM
	if r.sections(t, m); tree.Sections == nil || t.has(field.FormFactor) {
		tree.FormFactor = figure(field.FormFactor, species.FormFactor, 1)
	}
	tree.Density = figure(field.GreenDensity, species.Density, 1)
	tree.Strength = figure(field.BendingStrength, species.Strength, rigging.MPa)
	tree.CrownShare = r.crown(t, tree.Diameter, species.Conifer)
	tree.CrownCentre = t.numberOr(field.CrownCentre, round(rigging.CrownMiddle*tree.Height))
	tree.CrownOffset = t.number(field.CrownOffset)
	offsetBearing := t.given(field.CrownOffsetBearing)
	if tree.CrownOffset > 0 {
		t.missingBearing(field.CrownOffsetBearing, "crown_bearing")
	}
	tree.CrownOffsetBearing = offsetBearing * rigging.Deg
	if tree.CrownOffset == 0 {
		tree.CrownOffsetBearing = 0
	}
	if m.setup.Wind > 0 {
		tree.CrownArea = t.numberOr(field.CrownArea, round(rigging.CrownSail*tree.Height*tree.Height))
		tree.DragCoefficient = t.number(field.DragCoefficient)
	} else {
		t.given(field.CrownArea)
		t.given(field.DragCoefficient)
	}
	tree.Lean = t.number(field.Lean) * rigging.Deg
	leanBearing := t.given(field.LeanBearing)
	if tree.Lean > 0 {
		t.missingBearing(field.LeanBearing, "lean_bearing")
	}
	tree.LeanBearing = leanBearing * rigging.Deg
	if tree.Lean == 0 {
		tree.LeanBearing = 0
	}
	tree.Cavity = t.number(field.Cavity) * rigging.CM
	tree.Mass, tree.MassCentre = orZero(t.number(field.TreeMass)), orZero(t.number(field.MassCentre))
	m.volume = tree.StemVolume()
	m.strengthLow = rigging.HingeReliedOn * tree.Strength
	if !t.has(field.BendingStrength) {
		m.strengthLow = species.StrengthLow.Value
	}

	c := root.part(field.Cut)
	m.setup.Stump = c.number(field.StumpHeight)
	m.setup.FaceOpening = c.number(field.FaceOpening) * rigging.Deg
	h := &m.setup.Hinge
	h.Length = c.numberOr(field.HingeLength, round(field.HingeLengthShare*diameter)) * rigging.CM
	h.Left = c.numberOr(field.HingeLeft, round(field.HingeThicknessShare*diameter)) * rigging.CM
	h.Right = c.numberOr(field.HingeRight, round(field.HingeThicknessShare*diameter)) * rigging.CM
	c.done()

	// within holds a length to its ends (m), the lower of them its range's own where
	// it is 0.
	within := func(o *object, f field.Field, value, min, max float64, wrong string) {
		s, unit := f.Row().Range, 1.0
		if s.Unit == "cm" {
			unit = rigging.CM
		}
		if min == 0 {
			min = s.Min * unit
		}
		if value < min || value > max {
			s = s.Within(min/unit, max/unit)
			s.Above = false
			o.problem(CodeRange, f, accepted(s), round(value/unit), wrong, text.Amount{Value: value / unit, Unit: s.Unit}, s.Least(), s.Most())
		}
	}
	stump, height := m.setup.Stump, tree.Height
	within(c, field.StumpHeight, stump, 0, height/2, "stump_high")
	within(t, field.CrownCentre, tree.CrownCentre, stump, height, "crown_centre_off")
	if tree.MassCentre > 0 {
		within(t, field.MassCentre, tree.MassCentre, stump, height, "mass_centre_off")
	}
	r.defects(t, m)
	t.done()
	within(c, field.HingeLength, h.Length, 0, 1.5*tree.Diameter, "hinge_long")
	within(c, field.HingeLeft, h.Left, 0, tree.Diameter, "hinge_thick")
	within(c, field.HingeRight, h.Right, 0, tree.Diameter, "hinge_thick")
	if tree.Cavity >= h.Length {
		t.problem(CodeRange, field.Cavity, takes("below_hinge"), round(tree.Cavity/rigging.CM), "cavity_wide", centimetres(tree.Cavity, text.Nearest), centimetres(h.Length, text.Nearest))
	}
}

// missingBearing is the problem of a bearing that something else asks for.
func (o *object) missingBearing(f field.Field, wrong string) {
	if s := f.Row().Range; !o.has(f) {
		o.problem(CodeMissing, f, accepted(s), nil, wrong, s.Least(), s.Most())
	}
}

func orZero(v float64) float64 {
	if math.IsNaN(v) {
		return 0
	}
	return v
}

func (r *reader) points(root *object, m *model) {
	list := root.list(field.Points)
	objects := make([]*object, len(list))
	for i, raw := range list {
		o := root.entry(field.Points, i, raw)
		objects[i] = o
		p := point{path: o.path, id: o.name(field.PointID)}
		p.bearing = o.number(field.PointBearing) * rigging.Deg
		p.distance = o.number(field.PointDistance)
		p.rise = o.number(field.PointRise)
		if radius := m.setup.Tree.Diameter / 2; p.distance > 0 && p.distance < radius {
			s := field.PointDistance.Row().Range
			s.Min, s.Above = round(radius), false
			o.problem(CodePlace, field.PointDistance, accepted(s), p.distance, "point_in_stem", quote(p.id))
		}
		p.at = rigging.AtBearing(p.bearing, p.distance, p.rise-m.setup.Stump)
		if _, twice := m.byID[p.id]; twice && p.id != "" {
			o.problem(CodeTwice, field.PointID, takes("other_name"), shorten(p.id), "two_points", quote(p.id))
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
func (o *object) pointNamed(m *model, f field.Field) int {
	id := o.text(f)
	if i, ok := m.byID[id]; ok {
		return i
	}
	if id != "" {
		o.problem(CodeNoSuch, f, takes("point"), shorten(id), "no_point", quote(id))
	} else if v, given := o.fields[f.Key()]; !given || v == "" {
		o.problem(CodeMissing, f, takes("point"), nil, "point_missing")
	}
	return -1
}

func (r *reader) lines(root *object, m *model) {
	seen := map[string]bool{}
	for i, raw := range root.list(field.Lines) {
		o := root.entry(field.Lines, i, raw)
		l := line{path: o.path, id: o.name(field.LineID), rated: math.NaN(), stall: math.NaN(), setting: math.NaN(), mass: math.NaN(), stiff: math.NaN()}
		if seen[l.id] && l.id != "" {
			o.problem(CodeTwice, field.LineID, takes("other_name"), shorten(l.id), "two_lines", quote(l.id))
		}
		seen[l.id] = true
		l.hold = o.choice(field.Role) == field.Hold
		l.share = 1
		share := o.number(field.Share)
		if !l.hold && o.has(field.Share) {
			l.share = share
		}
		for k, s := range o.list(field.Stations) {
			l.stations = append(l.stations, o.station(field.Stations, k, s, m))
		}
		if !o.has(field.Stations) {
			o.problem(CodeMissing, field.Stations, takes("stations"), nil, "path_missing")
		}
		for k, s := range l.stations {
			if k > 0 && k < len(l.stations)-1 {
				l.stations[k].efficiency = r.blockEfficiency(s)
			}
		}
		r.tackle(o, m, &l)
		if p := o.child(field.Puller); p != nil {
			r.puller(p, m, &l)
		}
		l.tended = o.flag(field.Tended)
		l.tied = r.tied(o, &l, m)
		if rope := o.child(field.Rope); rope != nil {
			l.mass = rope.number(field.RopeMass)
			l.stiff = force(rope.number(field.RopeStiffness))
			rope.done()
		}
		o.done()
		m.lines = append(m.lines, l)
	}
}

// puller reads what hauls a line and what limits it.
func (r *reader) puller(p *object, m *model, l *line) {
	l.puller = true
	l.rated = force(p.number(field.PullerRated))
	l.limitedBy = p.choice(field.LimitedBy)
	l.stall = force(p.number(field.PullerStall))
	l.setting = force(p.number(field.PullerSetting))
	if l.stall < l.rated {
		p.problem(CodeRange, field.PullerStall, takes("rated"), round(l.stall/rigging.KN), "stall_low", givenKilonewtons(l.stall), givenKilonewtons(l.rated))
		l.stall = math.NaN()
	}
	missing := func(f field.Field, wrong string) {
		if !p.has(f) {
			p.problem(CodeMissing, f, accepted(f.Row().Range), nil, wrong, quote(l.id))
		}
	}
	switch l.limitedBy {
	case field.Stall:
		missing(field.PullerStall, "stall_missing")
	case field.Device:
		missing(field.PullerSetting, "device_missing")
	case field.Watched:
		missing(field.PullerSetting, "watched_missing")
	case field.Grip:
		if _, ok := m.machineOf(l); !ok {
			missing(field.PullerStall, "grip_missing")
		}
	}
	p.done()
}

// tied reads at which ends the rope itself is made fast.
func (r *reader) tied(o *object, l *line, m *model) []string {
	names := r.texts(o, field.Tied)
	for i, name := range names {
		if _, point := m.byID[name]; !point && name != field.AtStem && name != field.LastEnd && name != "" {
			r.problem(CodeNoSuch, o.item(field.Tied, i), takes("tied"), shorten(name), "tied_nowhere", quote(l.id), quote(name))
		}
	}
	return names
}

// force is one of the plan, N.
func force(kN float64) float64 { return kN * rigging.KN }

// station reads an entry of a line's path or of a hauling part's.
func (o *object) station(f field.Field, i int, raw any, m *model) station {
	so := o.entry(f, i, raw)
	s := station{path: so.path, point: -1}
	s.efficiency = so.given(field.StationEfficiency)
	switch {
	case so.has(field.StationStem) && so.has(field.StationPoint):
		so.problem(CodeEither, field.StationStem, takes("stem_or_point"), nil, "place_both")
	case so.has(field.StationStem):
		s.onStem = true
		s.stem = so.number(field.StationStem)
		stump, height := m.setup.Stump, m.setup.Tree.Height
		if math.IsNaN(stump) || math.IsNaN(height) {
			break // there is nothing to hold it against
		}
		if s.stem <= stump || s.stem > height {
			so.problem(CodeRange, field.StationStem, accepted(field.StationStem.Row().Range.Within(stump, height)), s.stem, "stem_height", metres(s.stem, text.Nearest), metres(stump, text.Nearest), metres(height, text.Nearest))
		}
	case so.has(field.StationPoint):
		s.point = so.pointNamed(m, field.StationPoint)
	default:
		so.problem(CodeMissing, field.StationPoint, takes("stem_or_point"), nil, "place_missing")
	}
	so.done()
	return s
}

// blockEfficiency fills in the default of a station that is a block.
func (r *reader) blockEfficiency(s station) float64 {
	if !math.IsNaN(s.efficiency) {
		return s.efficiency
	}
	path := s.path + "." + field.StationEfficiency.Key()
	for _, p := range r.problems {
		if p.Path == path {
			return s.efficiency
		}
	}
	usual := field.StationEfficiency.Row().Default.Number()
	r.assumeField(path, field.StationEfficiency, usual)
	return usual
}

func (r *reader) tackle(o *object, m *model, l *line) {
	to := o.child(field.Tackle)
	if to == nil {
		return
	}
	t := &tackle{path: to.path}
	l.tackle = t
	t.efficiency = to.number(field.TackleEfficiency)
	stages, reeving := to.has(field.Stages), to.has(field.Reeving)
	switch {
	case stages && reeving:
		to.problem(CodeEither, field.Reeving, takes("stages_or_reeving"), nil, "tackle_both")
	case stages:
		r.stages(to, t)
	case reeving:
		r.reeving(to, t)
	default:
		to.problem(CodeMissing, field.Stages, takes("stages_or_reeving"), nil, "tackle_empty")
	}
	t.usable = t.usable && !math.IsNaN(t.efficiency)
	if t.usable {
		result, err := t.reeving.Solve(t.efficiency)
		if err != nil {
			t.usable = false
			given := field.Stages
			if reeving {
				given = field.Reeving
			}
			wrong, args := tackleFault(err)
			to.problem(CodeTackle, given, takes("tackle"), nil, wrong, args...)
		}
		t.result = result
		if t.usable {
			t.free, err = t.reeving.WithoutFriction().Solve(1)
			t.usable = err == nil
		}
	}
	for k, s := range to.list(field.HaulPath) {
		st := to.station(field.HaulPath, k, s, m)
		if st.onStem {
			r.problem(CodePlace, st.path, takes("point"), nil, "haul_on_stem")
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
		r.assumeField(to.at(field.HaulPath), field.HaulPath, nil)
	}
	to.done()
}

func (r *reader) stages(to *object, t *tackle) {
	list := to.list(field.Stages)
	var stages []rigging.TackleStage
	ok := len(list) > 0
	if !ok {
		to.problem(CodeMissing, field.Stages, takes("stage"), nil, "stages_empty")
	}
	for k, raw := range list {
		so := to.entry(field.Stages, k, raw)
		parts := so.number(field.StageParts)
		from := so.choice(field.HaulFrom)
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
		to.problem(CodeTackle, field.Stages, takes("tackle"), nil, key, args...)
		return
	}
	t.reeving, t.stages, t.usable = reeving, stages, true
}

func (r *reader) reeving(to *object, t *tackle) {
	ro := to.child(field.Reeving)
	before := len(r.problems)
	for k, raw := range ro.list(field.Nodes) {
		no := ro.entry(field.Nodes, k, raw)
		node := rigging.ReevingNode{ID: no.name(field.NodeID), Kind: rigging.NodeKind(no.kind(field.NodeKind))}
		node.At = no.number(field.NodeAt)
		no.done()
		t.reeving.Nodes = append(t.reeving.Nodes, node)
	}
	for k, raw := range ro.list(field.Ropes) {
		po := ro.entry(field.Ropes, k, raw)
		rope := rigging.ReevingRope{}
		for j, v := range po.list(field.RopePath) {
			id, ok := v.(string)
			if !ok {
				r.problem(CodeType, po.item(field.RopePath, j), takes("node"), shown(v), "node_name")
				r.broken = true
			}
			rope.Path = append(rope.Path, id)
		}
		rope.Efficiency = orZero(po.number(field.RopeEfficiency))
		po.done()
		t.reeving.Ropes = append(t.reeving.Ropes, rope)
	}
	ro.done()
	t.usable = len(r.problems) == before
}
