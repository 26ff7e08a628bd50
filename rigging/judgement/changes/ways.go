package changes

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"

	"pullline/rigging"
	"pullline/rigging/jsontext"
	"pullline/rigging/plan"
	"pullline/rigging/plan/text"
)

// A way is something that can be changed, in steps from the least.
type way struct {
	code   string
	effort int
	toFind bool // see Change
	paths  []string
	steps  [][]any // in each a value for each path
	says   func(step []any) []text.Saying
}

// saying is a sentence by the key of what is changed.
func saying(key string, args ...any) []text.Saying { return []text.Saying{{Key: key, Args: args}} }

// Efforts order changes: what is set, cut or written before what is climbed for,
// rigged, moved or has to be found.
const (
	setting = iota + 1
	cutting
	climbing
	fitting
	swapping
	moving
	finding
)

// coarser is the way with at most so many steps, the last among them.
func (w way) coarser(most int) way {
	if n := len(w.steps); n > most {
		some := make([][]any, most)
		for i := range some {
			some[i] = w.steps[(i+1)*n/most-1]
		}
		w.steps = some
	}
	return w
}

// sets says whether both set the same field.
func (w *way) sets(other *way) bool {
	return slices.ContainsFunc(w.paths, func(path string) bool { return slices.Contains(other.paths, path) })
}

// A finder looks for ways in a plan.
type finder struct {
	tree    any
	rep     *plan.Report
	o       Options
	numbers map[string]plan.Number
	ways    []way
}

func waysOf(tree any, rep *plan.Report, o Options) []way {
	f := finder{tree: tree, rep: rep, o: o}
	f.numbers, _ = plan.Numbers(tree)
	f.planned()
	f.cut()
	main := true
	for i := range f.list("lines") {
		line := "lines[" + fmt.Sprint(i) + "]"
		f.tie(line)
		f.parts(line)
		if role := f.text(line + ".role"); main && role != "hold" {
			f.limit(line)
			main = false
		}
	}
	f.pieces()
	f.points()
	return f.ways
}

func (f *finder) list(path string) []any {
	list, _ := plan.ValueAt(f.tree, path).([]any)
	return list
}

func (f *finder) text(path string) string {
	s, _ := plan.ValueAt(f.tree, path).(string)
	return s
}

func (f *finder) add(w way) {
	if len(w.steps) > 0 {
		f.ways = append(f.ways, w)
	}
}

func amount(v any, unit string) text.Amount {
	x, _ := v.(float64)
	return text.Amount{Value: x, Unit: unit}
}

// one adds a way that sets a number of the plan, which its sentence says before the one
// that it was.
func (f *finder) one(code string, effort int, path, unit string, values []float64, before ...any) {
	old := text.Amount{Value: f.numbers[path].Value, Unit: unit}
	var steps [][]any
	for _, v := range values {
		steps = append(steps, []any{v})
	}
	f.add(way{code: code, effort: effort, paths: []string{path}, steps: steps,
		says: func(step []any) []text.Saying {
			return saying("change."+code, append(slices.Clone(before), amount(step[0], unit), old)...)
		}})
}

const tenth = 0.1

func up(v, to float64) float64   { return tidy(math.Ceil(v/to-1e-9) * to) }
func down(v, to float64) float64 { return tidy(math.Floor(v/to+1e-9) * to) }
func tidy(v float64) float64     { return math.Round(v*1e6) / 1e6 }

// planned is the crew's own planned tension where it is more or less than what the
// allowance asks for.
func (f *finder) planned() {
	own, given := f.numbers["planned_kN"]
	least := up(float64(f.rep.Pull.Allowance)*float64(f.rep.Pull.PeakKN), tenth)
	if given && least > 0 && least != own.Value {
		f.one("planned", setting, "planned_kN", "kN", []float64{least})
	}
}

// cut is a thinner hinge, not below the published guide, and a wider face, up to the
// widest of the guide.
func (f *finder) cut() {
	thickness, _ := rigging.FindHingeGuide("hinge_thickness")
	open, _ := rigging.FindHingeGuide("open_face_deg")
	least := up(thickness.Value*f.numbers["tree.diameter_cm"].Value, tenth)
	left, right := f.numbers["cut.hinge_left_cm"].Value, f.numbers["cut.hinge_right_cm"].Value
	const cm = 0.5
	w := way{code: "hinge", effort: cutting, paths: []string{"cut.hinge_left_cm", "cut.hinge_right_cm"}, says: func(step []any) []text.Saying {
		return saying("change.hinge", amount(step[0], "cm"), amount(step[1], "cm"), text.Amount{Value: left, Unit: "cm"}, text.Amount{Value: right, Unit: "cm"})
	}}
	for by := cm; least > 0 && math.Max(left, right)-by > least-cm; by += cm {
		thin := func(t float64) any { return tidy(math.Max(math.Min(t, least), t-by)) }
		w.steps = append(w.steps, []any{thin(left), thin(right)})
	}
	f.add(w)
	var wider []float64
	for deg := up(f.numbers["cut.face_opening_deg"].Value+1, 5); deg <= open.High; deg += 5 {
		wider = append(wider, deg)
	}
	f.one("face", cutting, "cut.face_opening_deg", "°", wider)
}

// tie is every place on the stem, higher.
func (f *finder) tie(line string) {
	most := plan.TopOfTree * f.numbers["tree.height_m"].Value
	if f.o.TieUpTo > 0 {
		most = math.Min(most, f.o.TieUpTo)
	}
	for k := range f.list(line + ".path") {
		path := fmt.Sprintf("%s.path[%d].stem_m", line, k)
		var higher []float64
		if at, there := f.numbers[path]; there {
			for h := up(at.Value+0.25, 0.5); h <= most; h += 0.5 {
				higher = append(higher, h)
			}
		}
		f.one("tie", climbing, path, "m", higher, text.Name(f.text(line+".id")))
	}
}

// parts is another part or two in a tackle.
func (f *finder) parts(line string) {
	for k := range f.list(line + ".tackle.stages") {
		path := fmt.Sprintf("%s.tackle.stages[%d].parts", line, k)
		if now := f.numbers[path].Value; now >= 1 && now <= 5 {
			f.one("part", fitting, path, "", []float64{now + 1, now + 2}, text.Name(f.text(line+".id")))
		}
	}
}

// limit is what limits the first pull line's puller: set otherwise, or a device where
// there is none.
func (f *finder) limit(line string) {
	id, puller := f.text(line+".id"), line+".puller"
	low, high := math.NaN(), float64(f.rep.Pull.HoldPullTo)
	for _, g := range f.rep.Gear {
		if g.ID == id+"/puller" {
			low = float64(g.GreatestKN) / rigging.NearFrom
		}
	}
	low, high = up(low, tenth), down(high, tenth)
	if !(low > 0 && low <= high) {
		return
	}
	var values []float64
	if now, set := f.numbers[puller+".setting_kN"]; set && f.text(puller+".limited_by") != "stall" && f.text(puller+".limited_by") != "grip" {
		if nearest := math.Max(low, math.Min(high, now.Value)); nearest != now.Value {
			values = append(values, nearest)
		}
		f.one("limit", setting, puller+".setting_kN", "kN", append(values, high, low), text.Name(id))
	}
	if f.text(puller+".limited_by") == "device" {
		return
	}
	f.add(way{code: "device", effort: fitting, toFind: true, paths: []string{puller + ".limited_by", puller + ".setting_kN"}, steps: [][]any{{"device", high}, {"device", low}},
		says: func(step []any) []text.Saying {
			return saying("change.device", text.Name(id), amount(step[1], "kN"))
		}})
}

// limits of a piece, as the plan may give them.
var limits = map[string]string{"wll_kN": "kN", "wll_t": "t", "mbl_kN": "kN"}

// pieces are others in place of those that are not within their limits.
func (f *finder) pieces() {
	all := way{code: "rating", effort: finding, toFind: true}
	var stronger []any
	var said []text.Saying
	for i := range f.list("gear") {
		if i >= len(f.rep.Gear) {
			break
		}
		g := &f.rep.Gear[i] // the pieces come first, in the order of the plan
		if g.Verdict == rigging.Within && g.AtMostVerdict != rigging.Over {
			continue
		}
		path := fmt.Sprintf("gear[%d]", i)
		f.swaps(path, g)
		by := math.Max(float64(g.Use)/rigging.NearFrom, float64(g.AtMostUse))
		if !(by > 1) || math.IsInf(by, 1) {
			continue
		}
		w := way{code: "rating", effort: finding, toFind: true, steps: [][]any{nil}}
		var least text.Amount
		for _, key := range slices.Sorted(maps.Keys(limits)) {
			if now, given := f.numbers[path+"."+key]; given {
				to := enough(now.Value * by)
				w.paths, w.steps[0] = append(w.paths, path+"."+key), append(w.steps[0], to)
				least = text.Amount{Value: to, Unit: limits[key]}
			}
		}
		if len(w.paths) == 0 {
			continue
		}
		one := saying("change.rating", text.Name(g.ID), least)
		w.says = func([]any) []text.Saying { return one }
		f.add(w)
		all.paths, stronger, said = append(all.paths, w.paths...), append(stronger, w.steps[0]...), append(said, one...)
	}
	if len(said) > 1 {
		all.effort += len(said)
		all.steps, all.says = [][]any{stronger}, func([]any) []text.Saying { return said }
		f.add(all)
	}
}

// enough is the least rating with two digits that is not below v.
func enough(v float64) float64 {
	return up(v, math.Pow(10, math.Floor(math.Log10(v))-1))
}

// swaps are the pieces of the crew's gear list that may stand in for one, the least
// first.
func (f *finder) swaps(path string, g *plan.GearReport) {
	pieces, _ := plan.ReadInventory(f.o.GearList)
	raw, _ := f.o.GearList["pieces"].([]any)
	old, _ := plan.ValueAt(f.tree, path).(map[string]any)
	w := way{code: "piece", effort: swapping, paths: []string{path}, says: func(step []any) []text.Saying {
		id, _ := step[0].(map[string]any)["id"].(string)
		return saying("change.piece", text.Name(id), text.Name(g.ID))
	}}
	for i := range pieces {
		p := &pieces[i]
		if p.Kind != g.Kind || !p.Sound || p.Retired || p.Outcome == rigging.Retire || p.Outcome == rigging.Judged || f.inUse(p.ID) {
			continue
		}
		step := maps.Clone(raw[i].(map[string]any))
		delete(step, "worksheet")
		for _, key := range []string{"line", "place", "point"} {
			if v, there := old[key]; there {
				step[key] = v
			}
		}
		if hung, there := old["hitch_factor"]; there { // how it is hung is the plan's
			step["hitch_factor"] = hung
		}
		w.steps = append(w.steps, []any{step})
	}
	slices.SortStableFunc(w.steps, func(a, b []any) int { return cmp.Compare(rated(a[0]), rated(b[0])) })
	f.add(w)
}

func (f *finder) inUse(id string) bool {
	return slices.ContainsFunc(f.rep.Gear, func(g plan.GearReport) bool { return g.ID == id })
}

// rated is a piece's limit (kN), for putting pieces in order.
func rated(piece any) float64 {
	number := func(key string) float64 {
		n, _ := piece.(map[string]any)[key].(jsontext.Number)
		v, _ := n.Finite()
		return v
	}
	switch {
	case number("wll_kN") > 0:
		return number("wll_kN")
	case number("wll_t") > 0:
		return number("wll_t") * rigging.TonneForce / rigging.KN
	}
	return number("mbl_kN") / math.Max(1, number("design_factor"))
}

// placed are the kinds of anchor that the crew puts where it likes, if the ground there
// is as good.
var placed = []string{"rated", "machine", "buried_log", "pickets"}

// points are moved, or held by more.
func (f *finder) points() {
	for i := range f.list("points") {
		at := fmt.Sprintf("points[%d]", i)
		id, kind := text.Name(f.text(at+".id")), f.text(at+".anchor.kind")
		k := slices.IndexFunc(f.rep.Points, func(p plan.PointReport) bool { return p.ID == string(id) && p.LoadKN.Known() })
		if k < 0 && f.rep.Pull.PeakKN.Known() { // nothing pulls there
			continue
		}
		if slices.Contains(placed, kind) {
			distance, bearing := f.numbers[at+".distance_m"].Value, f.numbers[at+".bearing_deg"].Value
			var distances, bearings []float64
			for by := 2.0; by <= 40; by += 2 {
				distances = append(distances, up(distance+by, 1))
				if near := down(distance-by, 1); near >= 5 {
					distances = append(distances, near)
				}
			}
			for by := 5.0; by <= 60; by += 5 {
				bearings = append(bearings, up(bearing+by, 1), down(bearing-by, 1))
			}
			f.one("move_distance", moving, at+".distance_m", "m", distances, id)
			f.one("move_bearing", moving, at+".bearing_deg", "°", bearings, id)
		}
		if k < 0 || kind != "rated" {
			continue
		}
		p := &f.rep.Points[k]
		if by := math.Max(float64(p.Use)/rigging.NearFrom, float64(p.AtMostUse)); by > 1 && !math.IsInf(by, 1) {
			f.one("anchor", finding, at+".anchor.capacity_kN", "kN", []float64{enough(f.numbers[at+".anchor.capacity_kN"].Value * by)}, id)
			f.ways[len(f.ways)-1].toFind = true
		}
	}
}
