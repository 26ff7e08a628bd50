package plan

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// A reference works a plan out a second time with plain vectors, from the file
// itself: no function of the code under test. It knows anchors that are rated, a
// machine, a tree or stump, and shared by two legs, and tackles of one stage. What
// the pull itself comes to (peak, commit, planned tension, the hold lines' largest
// tension until the face closes, the weight's side moment and the hinge's side
// hold) it takes from the report; package rigging tests that against closed
// forms. The rest is ours: turned geometry, friction, sums, uses, completeness
// and the verdict, by the project's rules.
type reference struct {
	d      document
	rep    Report
	points map[string]vec
	lines  []refLine
	turns  []float64 // rad, each degree to commit and commit itself
	commit float64
	face   float64
	stump  float64
	axis   vec
	side   float64 // kN·m of the weight, standing
	slices []slice
}

type vec [3]float64

func (v vec) plus(w vec, k float64) vec { return vec{v[0] + k*w[0], v[1] + k*w[1], v[2] + k*w[2]} }
func (v vec) dot(w vec) float64         { return v[0]*w[0] + v[1]*w[1] + v[2]*w[2] }
func (v vec) size() float64             { return math.Sqrt(v.dot(v)) }
func (v vec) level() float64            { return math.Hypot(v[0], v[1]) }
func (v vec) unit() vec                 { return vec{}.plus(v, 1/v.size()) }

// A refLine is a line's own numbers; tensions in kN.
type refLine struct {
	path            string
	hold, tended    bool
	stations, haul  []map[string]any
	parts           float64 // of the tackle, 0 without
	moving          bool
	efficiency      float64
	planned         float64
	most            float64 // haul its puller can make; 0 without a puller, NaN where not known
	rated, setting  float64
	puller          map[string]any
	stretched, peak float64
}

// A refAt is a line at one turn, per kN of its tension.
type refAt struct {
	length, haul, highest, stem float64
	side, arm                   float64        // lever to the left, m
	on                          map[string]vec // what it puts on each point
	ties                        []refTie
	blocks                      map[string]float64
}

// A refTie is where a line meets the stem and its pull there.
type refTie struct {
	height float64 // m along the stem
	pull   vec
}

func number(m map[string]any, key string, otherwise float64) float64 {
	if v, ok := m[key].(float64); ok {
		return v
	}
	return otherwise
}

func objects(v any) (out []map[string]any) {
	list, _ := v.([]any)
	for _, x := range list {
		out = append(out, x.(map[string]any))
	}
	return out
}

func texts(v any) (out []string) {
	list, _ := v.([]any)
	for _, x := range list {
		out = append(out, x.(string))
	}
	return out
}

const radian = math.Pi / 180

func refer(t testing.TB, plan document) *reference {
	t.Helper()
	d := parse(t, plan.raw(t))
	f := &reference{d: d, rep: d.evaluate(t), points: map[string]vec{}}
	require.True(t, f.rep.Pull.PlannedKN.Known(), "%v", f.rep.Problems)
	tree, cut := d["tree"].(map[string]any), d["cut"].(map[string]any)
	f.commit, f.face, f.stump = float64(f.rep.Pull.CommitDeg)*radian, number(cut, "face_opening_deg", 70)*radian, number(cut, "stump_m", 0.4)
	lean, bearing := number(tree, "lean_deg", 0)*radian, number(tree, "lean_bearing_deg", 0)*radian
	f.axis = vec{math.Sin(lean) * math.Cos(bearing), -math.Sin(lean) * math.Sin(bearing), math.Cos(lean)}
	f.side = float64(f.rep.Tree.SideMomentKNm)
	f.turns = degreesTo(f.commit)
	for _, p := range objects(d["points"]) {
		b, far := number(p, "bearing_deg", 0)*radian, number(p, "distance_m", 0)
		f.points[p["id"].(string)] = vec{far * math.Cos(b), -far * math.Sin(b), number(p, "rise_m", 0) - f.stump}
	}
	for i, l := range objects(d["lines"]) {
		r := refLine{hold: l["role"] == "hold", tended: l["tended"] == true, stations: objects(l["path"]), efficiency: 0.9, rated: math.NaN(), setting: math.Inf(1), most: math.NaN()}
		if tackle, ok := l["tackle"].(map[string]any); ok {
			stage := objects(tackle["stages"])[0]
			r.parts, r.moving, r.haul = number(stage, "parts", 0), stage["haul_from"] == "moving", objects(tackle["haul_path"])
			r.efficiency = number(tackle, "efficiency", 0.9)
		}
		r.planned = float64(f.rep.Lines[i].TensionKN)
		if r.puller, _ = l["puller"].(map[string]any); r.puller != nil {
			r.rated, r.setting = number(r.puller, "rated_kN", math.NaN()), number(r.puller, "setting_kN", math.Inf(1))
			stall := number(r.puller, "stall_kN", math.NaN())
			switch r.puller["limited_by"] {
			case "stall":
				r.most = stall
			case "device", "watched":
				r.most = r.setting
			case "grip":
				end := append(r.stations, r.haul...)
				anchor, _ := f.point(end[len(end)-1]["point"].(string))["anchor"].(map[string]any)
				r.most = number(anchor, "mass_kg", math.NaN()) * 9.80665 / 1000
				if math.IsNaN(r.most) || stall < r.most {
					r.most = stall
				}
			}
		} else if r.hold {
			r.most = 0
		}
		f.lines = append(f.lines, r)
	}
	for i := range f.lines {
		f.stretch(&f.lines[i], i)
	}
	f.slices = f.part()
	return f
}

func degreesTo(turn float64) (out []float64) {
	for k := 0.0; k*radian < turn; k++ {
		out = append(out, k*radian)
	}
	return append(out, turn)
}

func (f *reference) point(id string) map[string]any {
	for _, p := range objects(f.d["points"]) {
		if p["id"] == id {
			return p
		}
	}
	return nil
}

// place is a station at a turn: what is on the stem goes round the hinge.
func (f *reference) place(station map[string]any, turn float64) vec {
	height, ok := station["stem_m"].(float64)
	if !ok {
		return f.points[station["point"].(string)]
	}
	p := vec{}.plus(f.axis, height-f.stump)
	return vec{p[0]*math.Cos(turn) + p[2]*math.Sin(turn), p[1], p[2]*math.Cos(turn) - p[0]*math.Sin(turn)}
}

// turned is the tension ratio over a sheave: 1/η at half a turn of wrap, 1 straight
// on, by the friction of the pin under the load on it.
func turned(efficiency float64, in, out vec) float64 {
	wrap := math.Acos(math.Max(-1, math.Min(1, in.dot(out))))
	k := (1 - efficiency) / (1 + efficiency) * math.Sin(wrap/2)
	return (1 + k) / (1 - k)
}

func (f *reference) at(l *refLine, turn float64, free bool) refAt {
	a := refAt{on: map[string]vec{}, blocks: map[string]float64{}}
	eta := func(v float64) float64 {
		if free {
			return 1
		}
		return v
	}
	n, last := len(l.stations), 0
	where, way := make([]vec, n), make([]vec, n-1)
	for k := range l.stations {
		where[k] = f.place(l.stations[k], turn)
		if l.stations[k]["stem_m"] != nil {
			last = k
		}
	}
	for k := range way {
		leg := where[k+1].plus(where[k], -1)
		a.length += leg.size()
		way[k] = leg.unit()
	}
	tension := make([]float64, n-1)
	tension[last] = 1
	for k := last + 1; k < n-1; k++ {
		tension[k] = tension[k-1] * turned(eta(number(l.stations[k], "efficiency", 0.9)), way[k-1], way[k])
	}
	for k := last - 1; k >= 0; k-- {
		tension[k] = tension[k+1] / turned(eta(number(l.stations[k+1], "efficiency", 0.9)), way[k], way[k+1])
	}
	force := make([]vec, n)
	for k := range way {
		force[k] = force[k].plus(way[k], tension[k])
		force[k+1] = force[k+1].plus(way[k], -tension[k])
		a.highest = math.Max(a.highest, tension[k])
	}
	// The tackle, and where its hauling part goes.
	a.haul = tension[n-2]
	var hauls []float64
	var ways []vec
	if l.parts > 0 {
		e, advantage := eta(l.efficiency), 0.0
		for k := range int(l.parts) {
			if l.moving {
				advantage += math.Pow(e, float64(k))
			} else {
				advantage += math.Pow(e, float64(k+1))
			}
		}
		a.haul /= advantage
		from := where[n-1]
		for k, s := range l.haul {
			to := f.place(s, turn)
			ways = append(ways, to.plus(from, -1).unit())
			if k > 0 {
				a.haul *= turned(eta(number(l.haul[k-1], "efficiency", 0.9)), ways[k-1], ways[k])
			}
			hauls = append(hauls, a.haul)
			from = to
		}
		if len(l.haul) == 0 {
			force[n-1] = force[n-1].plus(way[n-2], -a.haul) // led back along the line
		} else {
			force[n-1] = force[n-1].plus(ways[0], hauls[0])
		}
	}
	a.highest = math.Max(a.highest, a.haul)
	put := func(s map[string]any, v vec, block bool) {
		id := s["point"].(string)
		a.on[id] = a.on[id].plus(v, 1)
		if block {
			a.blocks[id] = math.Max(a.blocks[id], v.size())
		}
	}
	for k, s := range l.stations {
		if s["stem_m"] != nil {
			p := where[k]
			a.stem = math.Max(a.stem, force[k].size())
			a.side += p[2]*force[k][1] - p[1]*force[k][2]
			a.arm = math.Max(a.arm, p.size())
			a.ties = append(a.ties, refTie{s["stem_m"].(float64), force[k]})
		} else {
			put(s, force[k], k > 0 && (k < n-1 || l.parts > 0))
		}
	}
	for k, s := range l.haul {
		v := vec{}.plus(ways[k], -hauls[k])
		if k+1 < len(l.haul) {
			v = v.plus(ways[k+1], hauls[k+1])
		}
		put(s, v, k+1 < len(l.haul))
	}
	return a
}

// stretch works out what a hold line made fast takes up as it grows: strain
// times stiffness; and finds its largest tension until the face closes in the
// working.
func (f *reference) stretch(l *refLine, i int) {
	if !l.hold {
		return
	}
	for _, w := range f.rep.Working {
		if w.Path == numbered("lines", i, "tension_kN") {
			for _, v := range w.Values {
				if v.Symbol == "T_f" {
					l.peak = float64(v.Value)
				}
			}
		}
	}
	if l.tended {
		return
	}
	rope, _ := f.d["lines"].([]any)[i].(map[string]any)["rope"].(map[string]any)
	stiffness := number(rope, "stiffness_kN", math.NaN())
	if math.IsNaN(stiffness) {
		for _, g := range objects(f.d["gear"]) {
			if g["line"] == f.d["lines"].([]any)[i].(map[string]any)["id"] && g["place"] == nil {
				breaking := number(g, "mbl_kN", 5*(number(g, "wll_kN", 0)+9.80665*number(g, "wll_t", 0)))
				stiffness = map[string]float64{"wire_rope": 70, "chain": 70, "fibre_rope": 30}[g["kind"].(string)] * breaking
			}
		}
	}
	standing, grown := f.at(l, 0, false).length, 0.0
	for _, turn := range degreesTo(math.Min(f.commit, f.face)) {
		grown = math.Max(grown, f.at(l, turn, false).length-standing)
	}
	if grown > 0 {
		l.stretched = stiffness * grown / standing
	}
}

// asked is what the standing tree asks of the hold lines when the pull lines are
// at tensions: what leaves no side moment, shared alike by those that can give it.
func (f *reference) asked(tensions []float64, free bool) []float64 {
	moment, out := f.side, make([]float64, len(f.lines))
	at := make([]refAt, len(f.lines))
	for i := range f.lines {
		at[i] = f.at(&f.lines[i], 0, free)
		if !f.lines[i].hold {
			moment += tensions[i] * at[i].side
		}
	}
	lever := 0.0
	holds := func(i int) bool {
		return f.lines[i].hold && at[i].side*moment < 0 && math.Abs(at[i].side) >= 0.05*at[i].arm
	}
	for i := range f.lines {
		if holds(i) {
			lever += math.Abs(at[i].side)
		}
	}
	for i := range f.lines {
		if holds(i) {
			out[i] = math.Abs(moment) / lever
		}
	}
	return out
}

// atMost is every line's tension at a turn with the pullers hauling so hard, with
// or without friction.
func (f *reference) atMost(hauls []float64, turn float64, free bool) []float64 {
	out := make([]float64, len(f.lines))
	for i := range f.lines {
		l := &f.lines[i]
		if out[i] = hauls[i] / f.at(l, turn, free).haul; !l.hold {
			continue
		}
		most := number(f.d, "allowance", 1.5) * l.peak
		for _, rubs := range []bool{true, false} {
			for _, side := range []float64{1, -1} { // lines that pull the tree the other way may be slack
				tensions := make([]float64, len(f.lines))
				for k := range f.lines {
					if a := f.at(&f.lines[k], 0, !rubs); !f.lines[k].hold && a.side*side >= 0 {
						tensions[k] = hauls[k] / a.haul
					}
				}
				most = math.Max(most, f.asked(tensions, !rubs)[i])
			}
		}
		out[i] = math.Max(out[i], most+l.stretched)
		for _, haul := range hauls {
			out[i] += 0 * haul // what is not known of one puller is not known of the hold lines
		}
	}
	return out
}

// A refLoads is the greatest there is of everything, in kN; uses are those of
// what holds the points.
type refLoads struct {
	points, uses, gear, pullers map[string]float64
	stem                        float64 // use
}

// A slice is the stem at one height: what bends it there and what that takes.
type slice struct{ height, level, crown, modulus float64 }

// part parts the stem from the cut to the highest tie, with the weight above each
// by summing thin discs. Volume, mass of the crown and low strength are the report's.
func (f *reference) part() (out []slice) {
	tree := f.d["tree"].(map[string]any)
	value := func(key string) float64 {
		for _, a := range f.rep.Assumed {
			if v, ok := a.Number(); ok && a.Path == "tree."+key {
				return v
			}
		}
		return number(tree, key, math.NaN())
	}
	height, thick, form, centre, density := value("height_m"), value("diameter_cm")/100, value("form_factor"), value("crown_centre_m"), value("green_density_kgm3")
	top, at := 0.0, []float64{f.stump, centre} // where the stress has corners, and between
	for _, l := range f.lines {
		for _, s := range l.stations {
			if tie := number(s, "stem_m", 0); tie > 0 {
				top, at = math.Max(top, tie), append(at, tie)
			}
		}
	}
	disc := func(z float64) float64 { return thick * math.Pow(1-z/height, (1/form-1)/2) }
	const heights, discs = 40, 150
	for k := range heights + 1 {
		at = append(at, f.stump+(top-f.stump)*float64(k)/heights)
	}
	for k, z := range at {
		if z < f.stump || z > top {
			continue
		}
		s := slice{height: z}
		dz := (height - z) / discs
		for i := range discs {
			up := (float64(i) + 0.5) * dz
			d := disc(z + up)
			s.level += 9.80665 * density * math.Pi / 4 * d * d * dz * up / 1000
		}
		if z <= centre {
			s.crown = 9.80665 * float64(f.rep.Tree.CrownMassKg) / 1000
			s.level += s.crown * (centre - z)
		}
		d, c := 0.93*disc(z), 0.0
		if k == 0 {
			c = number(tree, "cavity_cm", 0) / 100
		}
		s.modulus = math.Pi * math.Max(0, d*d*d*d-c*c*c*c) / d / 32
		out = append(out, s)
	}
	return out
}

// bend is the use of the stem with the lines pulling so at a turn.
func (f *reference) bend(turn float64, at []refAt, tension []float64) float64 {
	turn3 := func(p vec) vec {
		return vec{p[0]*math.Cos(turn) + p[2]*math.Sin(turn), p[1], p[2]*math.Cos(turn) - p[0]*math.Sin(turn)}
	}
	cross := func(v, w vec) vec {
		return vec{v[1]*w[2] - v[2]*w[1], v[2]*w[0] - v[0]*w[2], v[0]*w[1] - v[1]*w[0]}
	}
	tree := f.d["tree"].(map[string]any)
	bearing, far := number(tree, "crown_offset_bearing_deg", 0)*radian, number(tree, "crown_offset_m", 0)
	axis, offset, worst := turn3(f.axis), turn3(vec{far * math.Cos(bearing), -far * math.Sin(bearing), 0}), 0.0
	for _, s := range f.slices {
		m := cross(axis, vec{0, 0, -s.level}).plus(cross(offset, vec{0, 0, -s.crown}), 1)
		for i := range at {
			for _, tie := range at[i].ties {
				if tie.height > s.height {
					m = m.plus(cross(axis, tie.pull), (tie.height-s.height)*tension[i])
				}
			}
		}
		m = m.plus(axis, -m.dot(axis))
		worst = math.Max(worst, m.size()/s.modulus/1000/float64(f.rep.Stem.StrengthMPa)) // math.Max keeps a NaN
	}
	return worst
}

// greatest goes through turns, friction and every choice of lines.
func (f *reference) greatest(frees []bool, tensions func(turn float64, free bool) []float64) refLoads {
	out := refLoads{map[string]float64{}, map[string]float64{}, map[string]float64{}, map[string]float64{}, 0}
	most := func(m map[string]float64, key string, v float64) {
		if old, ok := m[key]; !ok || v > old || math.IsNaN(v) {
			m[key] = v
		}
	}
	gear := objects(f.d["gear"])
	lines := objects(f.d["lines"])
	for _, free := range frees {
		for _, turn := range f.turns {
			tension := tensions(turn, free)
			at := make([]refAt, len(f.lines))
			blocks := map[string]float64{}
			for i := range f.lines {
				at[i] = f.at(&f.lines[i], turn, free)
				most(out.pullers, lines[i]["id"].(string), at[i].haul*tension[i])
				for id, v := range at[i].blocks {
					blocks[id] = math.Max(blocks[id], v*tension[i])
				}
			}
			out.stem = math.Max(out.stem, f.bend(turn, at, tension))
			loads := map[string]float64{}
			for set := 1; set < 1<<len(f.lines); set++ {
				pulls := map[string]vec{}
				for i := range f.lines {
					if set>>i&1 == 1 {
						for id, v := range at[i].on {
							pulls[id] = pulls[id].plus(v, tension[i])
						}
					}
				}
				for id := range pulls {
					if !f.share(pulls, id) {
						out.uses[id] = math.NaN()
					}
				}
				for id, v := range pulls {
					most(out.points, id, v.size())
					loads[id] = math.Max(loads[id], v.size())
					if v.size() != 0 {
						if u, ok := f.use(id, v); ok {
							most(out.uses, id, u)
						}
					}
				}
			}
			for _, g := range gear {
				id := g["id"].(string)
				if p, ok := g["point"].(string); ok {
					load := loads[p]
					if g["kind"] == "block" {
						load = math.Max(load, blocks[p])
					}
					most(out.gear, id, load)
					continue
				}
				for i, l := range lines {
					if l["id"] == g["line"] {
						per := at[i].highest
						if g["place"] == "stem" {
							per = at[i].stem
						}
						most(out.gear, id, per*tension[i])
					}
				}
			}
		}
	}
	// A shared anchor is as strong as its worst leg.
	for _, p := range objects(f.d["points"]) {
		if anchor, _ := p["anchor"].(map[string]any); anchor["kind"] == "bridle" {
			for _, leg := range objects(anchor["legs"]) {
				if u, ok := out.uses[leg["point"].(string)]; ok {
					most(out.uses, p["id"].(string), u)
				}
			}
		}
	}
	return out
}

// share parts the pull on a shared anchor between its two legs; false where they
// would have to push.
func (f *reference) share(pulls map[string]vec, id string) bool {
	anchor, _ := f.point(id)["anchor"].(map[string]any)
	if anchor["kind"] != "bridle" {
		return true
	}
	legs := objects(anchor["legs"])
	a, b := legs[0]["point"].(string), legs[1]["point"].(string)
	u, v, pull := f.points[a].plus(f.points[id], -1).unit(), f.points[b].plus(f.points[id], -1).unit(), pulls[id]
	ta, tb := 1.0, 1.0
	if anchor["self_adjusting"] == true {
		if u.plus(v, 1).dot(pull) >= 0 {
			return pull.size() == 0
		}
	} else {
		// The normal equations of ta·u + tb·v = −pull; a leg cannot push.
		c, p, q := u.dot(v), -u.dot(pull), -v.dot(pull)
		ta, tb = (p-c*q)/(1-c*c), (q-c*p)/(1-c*c)
		if ta < 0 {
			ta, tb = 0, q
		} else if tb < 0 {
			ta, tb = p, 0
		}
		if ta < 0 || tb < 0 || ta+tb == 0 {
			return pull.size() == 0
		}
	}
	held := vec{}.plus(u, ta).plus(v, tb)
	scale := pull.size() / held.size()
	pulls[a] = pulls[a].plus(u, -ta*scale)
	pulls[b] = pulls[b].plus(v, -tb*scale)
	return true
}

// use is a pull on what holds a point, over what that holds.
func (f *reference) use(id string, pull vec) (float64, bool) {
	anchor, _ := f.point(id)["anchor"].(map[string]any)
	switch anchor["kind"] {
	case "rated":
		return pull.size() / number(anchor, "capacity_kN", 0), true
	case "machine":
		slope, angle := number(anchor, "slope_deg", 0)*radian, math.Atan(number(anchor, "traction", 0))
		weight := number(anchor, "mass_kg", 0)*9.80665/1000 - pull[2]
		holds := math.Min(number(anchor, "rated_kN", 0), weight*math.Tan(angle-slope))
		if weight <= 0 || math.Abs(slope) > angle {
			holds = 0
		}
		return pull.level() / holds, true
	case "tree", "stump":
		d := number(anchor, "diameter_cm", 0) / 100
		mass := number(anchor, "green_density_kgm3", 430) * number(anchor, "form_factor", 0.35) * math.Pi / 4 * d * d * number(anchor, "height_m", 0)
		moment := number(anchor, "turning_Nm_per_kg", 77.4) * mass / number(anchor, "factor", 3) / 1000
		return pull.level() * math.Max(1, number(anchor, "sling_height_m", 0)) / moment, true
	}
	return 0, false
}

func (f *reference) capacity(g map[string]any) float64 {
	limit := math.Inf(1)
	for _, v := range []float64{number(g, "wll_kN", math.Inf(1)), number(g, "wll_t", math.Inf(1)) * 9.80665, number(g, "mbl_kN", math.Inf(1)) / number(g, "design_factor", 1)} {
		limit = math.Min(limit, v)
	}
	hitch := 1.0
	if g["kind"] == "sling" && g["place"] == "stem" {
		hitch = 0.8
	}
	limit *= number(g, "hitch_factor", hitch)
	for _, r := range objects(g["reductions"]) {
		limit *= number(r, "factor", 1)
	}
	return limit
}

func (f *reference) planned() refLoads {
	return f.greatest([]bool{false}, func(float64, bool) []float64 {
		out := make([]float64, len(f.lines))
		for i := range f.lines {
			out[i] = f.lines[i].planned
		}
		return out
	})
}

func (f *reference) most(hauls []float64) refLoads {
	return f.greatest([]bool{false, true}, func(turn float64, free bool) []float64 { return f.atMost(hauls, turn, free) })
}

func (f *reference) mostHauls() (out []float64) {
	for _, l := range f.lines {
		out = append(out, l.most)
	}
	return out
}

// worst is the worst of every piece, every point and the stem, and whether one of them is not
// known.
func (f *reference) worst(l refLoads) (v int, unknown bool) {
	take := func(use float64) {
		v, unknown = max(v, judged(use)), unknown || math.IsNaN(use)
	}
	for _, g := range objects(f.d["gear"]) {
		take(l.gear[g["id"].(string)] / f.capacity(g))
	}
	for _, u := range l.uses {
		take(u)
	}
	take(l.stem)
	return v, unknown
}

// incomplete says whether a link of the chain is missing.
func (f *reference) incomplete() bool {
	gear := objects(f.d["gear"])
	has := func(is func(g map[string]any) bool) bool { return slices.ContainsFunc(gear, is) }
	atPoint := func(id any, block bool) bool {
		return has(func(g map[string]any) bool { return g["point"] == id && (g["kind"] == "block") == block })
	}
	for i, l := range objects(f.d["lines"]) {
		r, id, tied := &f.lines[i], l["id"], texts(l["tied"])
		rope := func(g map[string]any) bool {
			return g["line"] == id && g["place"] == nil && (g["kind"] == "wire_rope" || g["kind"] == "fibre_rope")
		}
		if !has(rope) || len(tied) > 0 && !has(func(g map[string]any) bool { return rope(g) && len(objects(g["reductions"])) > 0 }) {
			return true
		}
		if (r.puller != nil || !r.hold) && (math.IsNaN(r.rated) || r.puller["limited_by"] == nil || math.IsNaN(r.most) || math.IsInf(r.most, 0)) {
			return true
		}
		// The anchor of a tackle is a block's place where sheaves turn there: always
		// with the haul from the fixed block, from three parts on with it from the
		// moving one. Else the tackle's rope is made fast there, which is an end.
		stations := append(slices.Clone(r.stations), r.haul...)
		anchored, sheaves := len(r.stations)-1, r.parts > 0 && (!r.moving || r.parts >= 3)
		for k, s := range stations {
			first, last := k == 0, k == len(stations)-1
			if k == anchored && r.parts > 0 {
				if !atPoint(s["point"], sheaves) && (sheaves || !slices.Contains(tied, s["point"].(string)) && !slices.Contains(tied, "end")) {
					return true
				}
				continue
			}
			switch p := s["point"]; {
			case first && p == nil:
				if !slices.Contains(tied, "stem") && !has(func(g map[string]any) bool { return g["line"] == id && g["place"] == "stem" }) {
					return true
				}
			case !first && !last:
				if p == nil && !has(func(g map[string]any) bool { return g["line"] == id && g["place"] == "stem" && g["kind"] == "block" }) || p != nil && !atPoint(p, true) {
					return true
				}
			default:
				anchor, _ := f.point(p.(string))["anchor"].(map[string]any)
				winch := last && (r.puller != nil || !r.hold) && anchor["kind"] == "machine"
				if !winch && !atPoint(p, false) && !slices.Contains(tied, p.(string)) && !(last && slices.Contains(tied, "end")) {
					return true
				}
			}
		}
		if r.parts > 1 && !has(func(g map[string]any) bool { return g["line"] == id && g["place"] == nil && g["kind"] == "block" }) {
			return true
		}
	}
	for id := range f.planned().points {
		if f.point(id)["anchor"] == nil {
			return true
		}
	}
	for _, g := range gear {
		if g["retired"] == true {
			return true
		}
	}
	return false
}

// unusual says whether anything is out of the ordinary.
func (f *reference) unusual() bool {
	tree, cut := f.d["tree"].(map[string]any), f.d["cut"].(map[string]any)
	height, diameter := number(tree, "height_m", 0), number(tree, "diameter_cm", 0)
	left, right, length := number(cut, "hinge_left_cm", 0), number(cut, "hinge_right_cm", 0), number(cut, "hinge_length_cm", 0)
	found := number(tree, "lean_deg", 0) > 20 || math.Max(left, right) > 0.15*diameter || math.Min(left, right) < 0.05*diameter ||
		height/diameter*100 < 8 || height/diameter*100 > 150 || number(tree, "cavity_cm", 0) > length/3
	for _, g := range objects(f.d["gear"]) {
		found = found || number(g, "design_factor", 2) < 2
	}
	held := false
	for i := range f.lines {
		for _, s := range f.lines[i].stations {
			found = found || number(s, "stem_m", 0) > 0.85*height
		}
		held = held || f.lines[i].hold && f.at(&f.lines[i], 0, false).side*f.axis[1] < 0
	}
	found = found || !held && math.Abs(f.axis[1]/f.axis[2]) > math.Tan(5*radian)
	// All lines together, level, on the standing stem.
	tensions := make([]float64, len(f.lines))
	for i, l := range f.lines {
		if !l.hold {
			tensions[i] = l.planned
		}
	}
	var on vec
	asked := f.asked(tensions, false)
	if f.rep.Pull.PlannedKN == 0 { // they only steer, and count by their shares
		for i, l := range objects(f.d["lines"]) {
			if asked[i] = 0; !f.lines[i].hold {
				tensions[i] = number(l, "share", 1)
			}
		}
	}
	for i, held := range asked { // every line here is tied to the stem at one end
		first := f.place(f.lines[i].stations[1], 0).plus(f.place(f.lines[i].stations[0], 0), -1).unit()
		on = on.plus(first, tensions[i]+held)
	}
	return found || math.Abs(math.Atan2(on[1], on[0])) > 30*radian
}

// Verdicts by their rank.
const (
	isWithin = iota
	isNear
	isUnknown
	isOver
)

func judged(use float64) int {
	switch {
	case math.IsNaN(use):
		return isUnknown
	case use > 1:
		return isOver
	case use > 0.8:
		return isNear
	}
	return isWithin
}

// verdict is what the rules say of the plan.
func (f *reference) verdict() int {
	v, _ := f.worst(f.planned())
	if f.incomplete() {
		v = max(v, isUnknown)
	}
	if f.unusual() {
		v = max(v, isNear)
	}
	v = max(v, judged(float64(f.rep.Tree.SideHoldUse)), judged(f.commit/f.face))
	reach := 1.1 * number(f.d["tree"].(map[string]any), "height_m", 0)
	hauls, planned, stalls := f.mostHauls(), make([]float64, len(f.lines)), f.mostHauls()
	watched, room := false, true
	pulls := f.planned().pullers
	for i, l := range objects(f.d["lines"]) {
		r := &f.lines[i]
		if r.puller == nil && r.hold {
			continue
		}
		haul := pulls[l["id"].(string)]
		v = max(v, judged(haul/math.Min(r.rated, r.setting)))
		stations := append(slices.Clone(r.stations), r.haul...)
		p := f.point(stations[len(stations)-1]["point"].(string))
		if number(p, "distance_m", 0) < reach {
			if math.Cos(number(p, "bearing_deg", 0)*radian) >= math.Cos(45*radian) {
				v = isOver
			}
			v = max(v, isNear)
		}
		if !r.hold {
			planned[i] = f.at(r, 0, false).haul * r.planned
			room = room && !(planned[i] > r.rated)
			if r.most < planned[i] {
				v = max(v, isNear) // it cannot make the haul planned
			}
		}
		if r.puller["limited_by"] == "watched" {
			watched, stalls[i] = true, number(r.puller, "stall_kN", math.NaN())
		}
	}
	most, unknown := f.worst(f.most(hauls))
	if unknown {
		v = max(v, isUnknown)
	}
	held, _ := f.worst(f.most(planned))
	if most == isOver || held == isOver || !room {
		v = max(v, isNear)
	}
	if watched {
		if loose, unknown := f.worst(f.most(stalls)); loose == isOver || unknown {
			v = max(v, isNear)
		}
	}
	return v
}
