package practice

import (
	"math"
	"strconv"

	"pullline/rigging"
	"pullline/rigging/jsontext"
	"pullline/rigging/plan"
	"pullline/wasm/class/marking"
	"pullline/wasm/draw"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// Questions on a whole set-up: a made-up plan, worked out by package plan.
// Which piece is nearest its limit, and how much of it does it use?

// A part is one piece of a made-up set-up.
type part struct {
	id    string // of the gear or the point in the plan; the puller's is empty
	label words.Text
	limit limitKind
	point string // where gear lies; "" on the line, stemPlace where that meets the stem
	kind  string // of gear in the plan, "" for a point's anchor and the puller

	load, capacity, use float64 // kN, kN, share
	ultimate, factor    float64 // kN and design factor of a rope
	tonnes              float64 // stamped; 0 where the limit is a force
	given               string
}

// limitKind says how a piece's limit is given.
type limitKind int

const (
	limitRope   limitKind = iota // breaking load and design factor
	limitTag                     // working load limit stamped on it
	limitChoked                  // the same, of a sling choked round the stem
	limitRated                   // a force
)

const stemPlace = "stem"

// A setup is a made-up plan.
type setup struct {
	q       *ask
	tension float64 // kN, planned
	stall   float64 // kN, of the puller; judged at most where it is above 0
	tackle  int     // parts of a tackle hauled from its moving block, 0 for none
	// Places seen from above, m ahead and left of the stem: the redirect
	// (none where they are the same as the stem), the end of the line and,
	// with a tackle, the puller.
	redirect, end, puller rigging.Vec
	parts                 []part
	report                *plan.Report
}

// Of the made-up tree: small enough that little takes it over, so that the
// planned tension is what decides, and with a rope so low and long that it
// is as good as level: what is asked can then be worked out in a plane.
const setupRope = 4 // m, height of the rope on the stem

var (
	setupSheave, _ = rigging.FindSheave("field_rule")
	setupChoke, _  = rigging.FindHitch("choked_textile")
	setupEfficient = setupSheave.Value // of the sheaves of a tackle
	setupHitch     = setupChoke.Value
)

// plan writes the plan of the set-up.
func (s *setup) plan() []byte {
	w := jsontext.NewWriter(2 << 10)
	w.Open()
	w.Int("version", 1)
	w.Text("name", "Made up for practice")
	w.Num("planned_kN", s.tension)
	w.Key("tree")
	w.Open()
	w.Text("species", "radiata_pine")
	w.Num("height_m", 20)
	w.Num("diameter_cm", 35)
	w.Num("lean_deg", 0)
	w.Close()
	w.Key("cut")
	w.Open()
	w.Num("stump_m", 0.3)
	w.Num("face_opening_deg", 60)
	w.Num("hinge_length_cm", 28)
	w.Num("hinge_left_cm", 3.5)
	w.Num("hinge_right_cm", 3.5)
	w.Close()
	w.Key("points")
	w.OpenList()
	s.point(w, "R", s.redirect)
	s.point(w, "A", s.end)
	s.point(w, "M", s.puller)
	w.CloseList()
	w.Key("lines")
	w.OpenList()
	w.Open()
	w.Text("id", "pull")
	w.Text("role", "pull")
	w.Key("path")
	w.OpenList()
	w.Open()
	w.Num("stem_m", setupRope)
	w.Close()
	if s.redirect != (rigging.Vec{}) {
		writeStation(w, "R", 1)
	}
	writeStation(w, "A", 0)
	w.CloseList()
	if s.tackle > 0 {
		w.Key("tackle")
		w.Open()
		w.Key("stages")
		w.OpenList()
		w.Open()
		w.Int("parts", s.tackle)
		w.Text("haul_from", rigging.HaulMoving)
		w.Close()
		w.CloseList()
		w.Num("efficiency", setupEfficient)
		w.Key("haul_path")
		w.OpenList()
		writeStation(w, "M", 0)
		w.CloseList()
		w.Close()
	}
	w.Key("puller")
	w.Open()
	rated := s.tension
	for i := range s.parts {
		if p := &s.parts[i]; p.id == "" {
			rated = p.capacity
		}
	}
	w.Num("rated_kN", rated)
	w.Text("limited_by", "stall")
	w.Num("stall_kN", math.Max(rated, s.stall))
	w.Close()
	w.Key("tied")
	w.OpenList()
	w.String("end")
	w.CloseList()
	w.Close()
	w.CloseList()
	w.Key("gear")
	w.OpenList()
	for i := range s.parts {
		if p := &s.parts[i]; p.kind != "" {
			p.gear(w)
		}
	}
	if s.tackle > 0 { // the plan asks for it, the question does not
		(&part{id: "fixed", kind: "block", point: "A", limit: limitRated, capacity: 100 * s.tension}).gear(w)
	}
	w.CloseList()
	w.Close()
	return w.Bytes()
}

func writeStation(w *jsontext.Writer, point string, efficiency float64) {
	w.Open()
	w.Text("point", point)
	w.NumIf("efficiency", efficiency)
	w.Close()
}

func (s *setup) point(w *jsontext.Writer, id string, at rigging.Vec) {
	if at == (rigging.Vec{}) {
		return
	}
	w.Open()
	w.Text("id", id)
	w.Num("bearing_deg", at.Bearing()/rigging.Deg)
	w.Num("distance_m", at.Horizontal())
	w.Num("rise_m", 0)
	w.Key("anchor")
	w.Open()
	w.Text("kind", "rated")
	capacity := 10 * s.tension
	for i := range s.parts {
		if p := &s.parts[i]; p.id == id {
			capacity = p.capacity
		}
	}
	w.Num("capacity_kN", capacity)
	w.Close()
	w.Close()
}

func (p *part) gear(w *jsontext.Writer) {
	w.Open()
	w.Text("id", p.id)
	w.Text("kind", p.kind)
	switch p.point {
	case stemPlace:
		w.Text("line", "pull")
		w.Text("place", stemPlace)
	case "":
		w.Text("line", "pull")
	default:
		w.Text("point", p.point)
	}
	switch {
	case p.ultimate > 0:
		w.Num("mbl_kN", p.ultimate)
		w.Num("design_factor", p.factor)
	case p.tonnes > 0:
		w.Num("wll_t", p.tonnes)
	case p.limit == limitChoked:
		w.Num("wll_kN", p.capacity/setupHitch)
	default:
		w.Num("wll_kN", p.capacity)
	}
	if p.limit == limitChoked {
		w.Num("hitch_factor", setupHitch)
	}
	if p.limit == limitRope { // what its end keeps is left out of the question
		w.Key("reductions")
		w.OpenList()
		w.Open()
		w.Text("why", "its end, left out")
		w.Num("factor", 1)
		w.Close()
		w.CloseList()
	}
	w.Close()
}

// work has the plan worked out and takes what every part carries.
func (s *setup) work() bool {
	rep := plan.Evaluate(s.plan())
	s.report = &rep
	if len(rep.Problems) > 0 {
		return false
	}
	for i := range s.parts {
		p := &s.parts[i]
		id := p.id
		if id == "" {
			id = "pull/puller"
		}
		load, capacity := math.NaN(), math.NaN()
		for k := range rep.Gear {
			if g := &rep.Gear[k]; g.ID == id {
				load, capacity = s.loaded(g.LoadKN, g.AtMostKN), float64(g.CapacityKN)
			}
		}
		for k := range rep.Points {
			if g := &rep.Points[k]; g.ID == id {
				load, capacity = s.loaded(g.LoadKN, g.AtMostKN), float64(g.CapacityKN)
			}
		}
		p.load, p.use = load, rigging.Use(load, capacity)
		if !draw.Finite(p.use) || !(p.load > 0) {
			return false
		}
	}
	return true
}

// workStrong works it out with all of it far too strong, to learn the loads.
func (s *setup) workStrong() bool {
	for i := range s.parts {
		s.parts[i].capacity = 20 * s.tension
	}
	return s.work()
}

func (s *setup) loaded(planned, most plan.Num) float64 {
	if s.stall > 0 {
		return float64(most)
	}
	return float64(planned)
}

// size gives every part a limit that is round in the user's units: one of
// them is to be used most.
func (s *setup) size() {
	weak := s.q.below(len(s.parts))
	for i := range s.parts {
		p := &s.parts[i]
		if i == weak {
			p.size(s.q, p.load/s.q.oneOf(0.75, 0.85, 0.95, 1.05, 1.2), false)
		} else {
			p.size(s.q, p.load/s.q.oneOf(0.35, 0.4, 0.45, 0.5, 0.55, 0.6), true)
		}
	}
}

// Limits that gear is sold with, in tonnes: of shackles as EN 13889 has them
// (in short tons RR-C-271 has the same numbers; both from memory), of slings
// and blocks by common practice, no source.
var (
	shackleSizes = []float64{1, 1.5, 2, 3.25, 4.75, 6.5, 8.5, 9.5, 12, 13.5, 17, 25, 35}
	gearSizes    = []float64{1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30}
)

// sizeNear is the size nearest to so many tonnes, or the next one up.
func sizeNear(sizes []float64, tonnes float64, up bool) float64 {
	for i, t := range sizes {
		switch {
		case t < tonnes:
		case i > 0 && !up && tonnes-sizes[i-1] < t-tonnes:
			return sizes[i-1]
		default:
			return t
		}
	}
	return sizes[len(sizes)-1]
}

// size makes a limit near so many kN, or no less.
func (p *part) size(q *ask, kN float64, up bool) {
	force := func(v, step float64) float64 {
		u := q.u.Units[units.Kilonewtons]
		return u.ToFile(units.RoundDigits(max(units.Round(v/u.Size, step*roundIn(q.u, units.Kilonewtons), units.Nearest), step*roundIn(q.u, units.Kilonewtons)), units.ShownDigits))
	}
	switch p.limit {
	case limitRope:
		p.factor = q.oneOf(3, 4, 5)
		p.ultimate = force(kN*p.factor, 5)
		p.capacity = p.ultimate / p.factor
		p.given = q.Say("MBL %s, design factor %s", q.exact(p.ultimate, units.Kilonewtons), q.exact(p.factor, units.Plain))
	case limitRated:
		p.capacity = force(kN, 1)
		p.given = q.Say("holds %s", q.exact(p.capacity, units.Kilonewtons))
		if p.id == "" {
			p.given = q.Say("rated %s", q.exact(p.capacity, units.Kilonewtons))
		}
	default:
		if p.limit == limitChoked {
			kN /= setupHitch
		}
		sizes := gearSizes
		if p.kind == "shackle" {
			sizes = shackleSizes
		}
		t := sizeNear(sizes, kN/rigging.G, up)
		limit, _, text := q.stamped(t)
		if p.kind == "shackle" && q.u == &units.US {
			limit = 2000 * t * rigging.PoundForce / rigging.KN
			text = q.exact(limit, units.Kilonewtons)
		}
		p.tonnes = 0
		if q.u != &units.US {
			p.tonnes = t
		}
		p.capacity, p.given = limit, q.Say("WLL %s", text)
		if p.limit == limitChoked {
			p.capacity *= setupHitch
			p.given = q.Say("WLL %s, choked: factor %s", text, q.exact(setupHitch, units.Plain))
		}
	}
}

// weakest asks which part of the set-up is used most, and how much.
func (q *ask) weakest(s *setup) {
	if s.report == nil {
		s.workStrong()
	}
	if q.unfit = len(s.report.Problems) > 0; q.unfit {
		return
	}
	s.size()
	if q.unfit = !s.work(); q.unfit {
		return
	}
	first, second := 0, -1
	for i := range s.parts {
		if s.parts[i].use > s.parts[first].use {
			first = i
		}
	}
	for i := range s.parts {
		if i != first && (second < 0 || s.parts[i].use > s.parts[second].use) {
			second = i
		}
	}
	worst, next := &s.parts[first], &s.parts[second]
	q.unfit = !marking.Apart(worst.use, next.use, marking.Roughly) || s.report.Governing == "" // no two that could be taken for each other
	var labels, whys []string
	labels = append(labels, q.Say(worst.label))
	whys = append(whys, q.Say("No other piece is as near its limit."))
	for i := range s.parts {
		p := &s.parts[i]
		q.given = append(q.given, q.Of(q.Say(p.label), p.given))
		if i != first {
			labels = append(labels, q.Say(p.label))
			whys = append(whys, q.Say("That piece uses %s of its limit. Another uses more.", q.figure(100*p.use, units.Percents)))
		}
	}
	q.choose(labels, whys)
	for i := range s.parts {
		q.stepUse(&s.parts[i])
	}
	q.draw = s.sketch
	also := &ask{Locale: q.Locale, u: q.u, follows: true, text: q.Say("How much of its limit does the weakest piece of the set-up above use?")}
	also.wants(100*worst.use, units.Percents, marking.Roughly)
	also.steps = append(also.steps, q.steps...)
	also.steps = append(also.steps[:len(q.steps)-len(s.parts)], q.steps[len(q.steps)-len(s.parts)+first])
	at := len(also.steps)
	also.slip(at, 100*next.use, "That is the use of another piece, which is not the weakest.")
	if worst.tonnes > 0 && q.u != &units.TF {
		also.slip(at, 100*worst.use*rigging.G, "That takes the tonnes on the tag for kilonewtons: a tonne weighs 9.81 kN.")
	}
	also.slip(at, 100/worst.use, "That is limit ÷ load: use is load ÷ limit.")
	if worst.limit == limitChoked {
		also.slip(at, 100*worst.use*setupHitch, "That leaves the choke out: choked, it holds less.")
	}
	if worst.ultimate > 0 {
		also.slip(at, 100*worst.use/worst.factor, "That leaves the design factor out.")
	}
	t := s.lineTension()
	switch {
	case s.tackle > 0:
		rubbed := s.stall * advantage(s.stage(), setupEfficient) // the line's tension
		if worst.load < t*0.999 {
			rubbed -= s.stall
		}
		also.slip(1, 100*worst.use*rubbed/worst.load, sayCountedOn)
	case worst.load != t && s.redirect != (rigging.Vec{}):
		also.slip(1, 100*worst.use*2*t/worst.load, sayNumbers)
	}
	if marking.Apart(worst.load, t, marking.Roughly) {
		also.slip(at-1, 100*worst.use*t/worst.load, "That uses the rope tension in place of the load on this piece.")
	}
	q.also = also
}

// lineTension is the tension of the line the set-up is judged at, kN.
func (s *setup) lineTension() float64 {
	l := &s.report.Lines[0]
	return s.loaded(l.TensionKN, l.AtMostKN)
}

func (q *ask) stepUse(p *part) {
	formula, limit := words.Text("use = load/limit"), words.Text("%s")
	if p.tonnes > 0 && q.u == &units.KN {
		limit = "%s; 1 t weighs 9.81 kN"
	}
	if p.limit == limitRope {
		formula = "use = load/(MBL/DF)"
	}
	q.step(p.label, formula, q.figure(100*p.use, units.Percents), "definition of use", parts.Let(q.Say("load"), q.figure(p.load, units.Kilonewtons)), parts.Let(q.Say("limit"), q.figure(p.capacity, units.Kilonewtons)).Of(limit, p.given))
}

// The pieces every set-up has.
func lineParts() []part {
	return []part{
		{id: "rope", label: "{Pull line}", kind: "wire_rope", limit: limitRope},
		{id: "sling", label: "{Strop} on the stem", kind: "sling", point: stemPlace, limit: limitChoked},
		{id: "shackle", label: "{Shackle} on the stem", kind: "shackle", point: stemPlace, limit: limitTag},
	}
}

func askWeakestStraight(q *ask) {
	s := &setup{q: q, tension: q.some(units.Kilonewtons, 12, 40, 2), end: rigging.Vec{X: 60}}
	q.give("T", s.tension, units.Kilonewtons, "planned tension of the rope")
	q.asks("A {pull line} runs straight to the winch that pulls it. Which piece is nearest its limit?")
	s.parts = append(lineParts(), part{label: "Winch", limit: limitRated}, part{id: "A", label: "Anchor of the winch", limit: limitRated})
	q.weakest(s)
}

func askWeakestRedirect(q *ask) {
	s := &setup{q: q, tension: q.some(units.Kilonewtons, 12, 30, 2), redirect: rigging.Vec{X: 60}}
	turn := rad(q.oneOf(40, 60, 80, 100, 120))
	s.end = s.redirect.Add(rigging.AtBearing(math.Pi-turn, 50, 0))
	q.give("T", s.tension, units.Kilonewtons, "planned tension of the rope")
	q.asks("A {pull line} runs over the {redirect} to a winch; the {block} turns without friction. Which piece is nearest its limit?")
	s.parts = append(lineParts(),
		part{id: "block", label: "{Redirect}", kind: "block", point: "R", limit: limitTag},
		part{id: "R", label: "Anchor of the {block}", limit: limitRated},
		part{label: "Winch", limit: limitRated},
		part{id: "A", label: "Anchor of the winch", limit: limitRated})
	if q.unfit = !s.workStrong(); q.unfit {
		return
	}
	angle := math.Round(float64(s.report.Points[0].IncludedDeg))
	q.give("γ", angle, units.Degrees, "angle between the legs at the {block}")
	q.step("Load on the {block} and its anchor", "R = 2·T·cos(γ/2)", q.figure(float64(s.report.Points[0].LoadKN), units.Kilonewtons), parallelogram, q.let("T", s.tension, units.Kilonewtons), q.let("γ", angle, units.Degrees))
	q.weakest(s)
}

// stage is the tackle.
func (s *setup) stage() rigging.TackleStage {
	return rigging.TackleStage{Parts: s.tackle, HaulFrom: rigging.HaulMoving}
}

func askWeakestAtStall(q *ask) {
	s := &setup{q: q, tackle: 2 + q.below(3), end: rigging.Vec{X: 60}, puller: rigging.Vec{X: 90}}
	haul := q.some(units.Kilonewtons, 8, 16, 1)
	s.stall = haul
	s.tension = haul // planned well below what the stall makes
	q.give("S", haul, units.Kilonewtons, "pull of the winch at stall")
	q.tell("A %s:1 {tackle} with %[1]s parts, hauled from its moving {block}; η = %[2]s at each sheave", strconv.Itoa(s.tackle), q.exact(setupEfficient, units.Plain))
	q.asks("A winch hauls a {pull line} through a {tackle} and stalls. Which piece may then come nearest its limit?")
	s.parts = append(lineParts(), part{id: "block", label: "Moving {block}", kind: "block", limit: limitTag},
		part{id: "A", label: "Anchor of the {tackle}", limit: limitRated})
	if q.unfit = !s.workStrong(); q.unfit {
		return
	}
	q.step("Tension of the line at most, without friction", "T = S·n", q.figure(s.lineTension(), units.Kilonewtons), "friction is not relied on where it would reduce a load", q.let("S", haul, units.Kilonewtons), parts.Let("n", strconv.Itoa(s.tackle)).Of("parts"))
	q.step("Load on the anchor of the {tackle}", "T − S", q.figure(float64(s.report.Points[0].AtMostKN), units.Kilonewtons), "statics: the hauling part runs on past the anchor")
	q.weakest(s)
}
