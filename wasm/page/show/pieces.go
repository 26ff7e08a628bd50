package show

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/fields"
	"pullline/wasm/parts"
	"pullline/wasm/scene"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// A Piece is a row of the table of all pieces, pullers and points, and the stem.
type Piece struct {
	ID            string  `json:"id"`
	Title         string  `json:"title"`
	Where         string  `json:"where"`
	Verdict       string  `json:"verdict"`
	Word          string  `json:"word"`
	Load          string  `json:"load"`
	Capacity      string  `json:"capacity"`
	Use           string  `json:"use"`
	UseShare      float64 `json:"use_share"` // 0 to 1 of the bar's length; the bar ends at 1.25 of capacity
	AtMostLoad    string  `json:"at_most_load"`
	AtMostUse     string  `json:"at_most_use"`
	AtMostVerdict string  `json:"at_most_verdict"`
	AtMostWord    string  `json:"at_most_word"`
	Path          string  `json:"path"`               // form section to open
	Estimate      string  `json:"estimate,omitempty"` // said beside it: an estimate until a competent person has judged the anchor
	// The paths of the steps of the working that give its numbers.
	LoadWorking     string `json:"load_working,omitempty"`
	CapacityWorking string `json:"capacity_working,omitempty"`
	UseWorking      string `json:"use_working,omitempty"`
	AtMostWorking   string `json:"at_most_working,omitempty"`
}

// barEnd is the use at which the bar of a piece is full.
const barEnd = 1.25

// A ranked is a piece with what it is sorted by.
type ranked struct {
	Piece
	verdict rigging.Verdict
	use     float64
}

// Pieces lists every piece of gear, puller and point and the stem, worst first.
func Pieces(d *draft.Plan, u *units.System, rep *plan.Report) []Piece {
	all := make([]ranked, 0, len(rep.Gear)+len(rep.Points))
	steps := scene.StepsByPath(rep)
	for i := range rep.Gear {
		g := &rep.Gear[i]
		p := judged(d.Locale, u, g.ID, float64(g.GreatestKN), float64(g.CapacityKN), float64(g.Use), float64(g.AtMostKN), float64(g.AtMostUse), g.Verdict, g.AtMostVerdict)
		p.Title = words.Capital(g.ID)
		if k := d.GearIndex(g.ID); k >= 0 {
			p.Path, p.Where = draft.Elem("gear", k), d.GearPlaceWords(draft.Elem("gear", k))
		}
		if line, ok := strings.CutSuffix(g.ID, "/puller"); ok && p.Path == "" {
			p.Title, p.Where = d.Say("{Puller}"), d.Say("line %s", line)
			if len(rep.Lines) > 1 {
				p.Title = d.Say("{Puller} of line %s", line)
			}
			if k := d.LineIndex(line); k >= 0 {
				p.Path = draft.Elem("lines", k) + ".puller"
			}
			// What a puller is set to limits it as planned; at most it is judged by
			// its rating, which is not the limit that stands in its row.
			if p.AtMostUse != units.None && p.AtMostUse != d.Use(rigging.Use(float64(g.AtMostKN), float64(g.CapacityKN))) {
				p.AtMostUse = d.Say("%s of its rating", p.AtMostUse)
			}
		}
		p.opens(steps, draft.Elem("gear", i), "")
		all = append(all, p)
	}
	for i := range rep.Points {
		q := &rep.Points[i]
		k := d.PointIndex(q.ID)
		kind := ""
		if k >= 0 {
			kind = d.Text(draft.Elem("points", k) + ".anchor.kind")
		}
		loadIs := ".greatest_kN"
		if plan.HoldsLevel(kind) {
			loadIs = ".counts_kN"
		}
		p := judged(d.Locale, u, q.ID, float64(q.CountsKN), float64(q.CapacityKN), float64(q.Use), float64(q.AtMostKN), float64(q.AtMostUse), q.Verdict, q.AtMostVerdict)
		if plan.HoldsLevel(kind) && p.Load != units.None {
			p.Load = d.Say("%s level", p.Load)
		}
		p.Title, p.Where = d.Say("Anchor at point %s", q.ID), d.Say("no anchor given")
		if kind != "" {
			p.Where = parts.LabelOf(d.Locale, fields.AnchorKinds, kind)
		}
		if k >= 0 {
			p.Path = draft.Elem("points", k)
		}
		p.Estimate = d.Say(words.AnchorEstimate)
		p.opens(steps, draft.Elem("points", i), loadIs)
		all = append(all, p)
	}
	if rep.Pull.PlannedKN.Known() {
		all = append(all, stemRow(d, u, rep, steps))
	}
	slices.SortStableFunc(all, func(a, b ranked) int {
		switch {
		case a.verdict == b.verdict:
			return cmp.Compare(b.use, a.use)
		case a.verdict.Worse(b.verdict) == a.verdict:
			return -1
		}
		return 1
	})
	out := make([]Piece, len(all))
	for i := range all {
		out[i] = all[i].Piece
	}
	return out
}

// stemRow is how hard the stem is bent: its load is a stress.
func stemRow(d *draft.Plan, u *units.System, rep *plan.Report, steps map[string]*plan.Working) ranked {
	s := &rep.Stem
	strength := float64(s.StrengthMPa)
	p := judged(d.Locale, u, plan.StemRow, float64(s.StressMPa), strength, float64(s.Use), float64(s.AtMostUse)*strength, float64(s.AtMostUse), s.Verdict, s.AtMostVerdict)
	stress := func(v float64, way units.Direction) string { return u.Quantity(v, units.Megapascals, way) }
	p.Load, p.Capacity, p.AtMostLoad = stress(float64(s.StressMPa), units.Up), stress(strength, units.Down), stress(float64(s.AtMostUse)*strength, units.Up)
	p.Title, p.Path = d.Say("{Stem}"), "tree"
	if s.HeightM.Known() {
		p.Where = d.Say("bent the hardest at %s", u.Quantity(float64(s.HeightM), units.Metres, units.Nearest))
	}
	p.Estimate = d.Say("An estimate: it counts on sound wood but for what is entered.")
	p.opens(steps, plan.StemRow, ".stress_MPa")
	if p.UseWorking != "" {
		p.CapacityWorking, p.AtMostWorking = "tree.strength_relied_on_MPa", "stem.at_most_MPa"
	}
	return p
}

// judged writes a load against a capacity, both in kN. A verdict that the
// numbers do not bear out is not shown: without them it is unknown.
func judged(l words.Locale, u *units.System, id string, load, capacity, use, most, mostUse float64, verdict, mostVerdict rigging.Verdict) ranked {
	if math.IsNaN(load) || math.IsNaN(capacity) || math.IsInf(load, 0) || math.IsInf(capacity, 0) {
		verdict = verdict.Worse(rigging.Unknown)
	}
	if math.IsNaN(use) && capacity <= 0 {
		use = rigging.Use(load, math.Max(0, capacity)) // more than nothing on nothing
	}
	if math.IsNaN(most) || math.IsInf(most, 0) {
		mostVerdict = mostVerdict.Worse(rigging.Unknown)
	}
	p := ranked{verdict: verdict, use: use, Piece: Piece{
		ID: id, Verdict: verdict.String(), Word: l.Say(words.Verdict[verdict]),
		Load: u.Load(load), Capacity: u.Capacity(capacity), Use: l.Use(use),
		AtMostLoad: u.Load(most), AtMostUse: l.Use(mostUse),
		AtMostVerdict: mostVerdict.String(), AtMostWord: l.Say(words.Verdict[mostVerdict]),
	}}
	if use > 0 {
		p.UseShare = math.Min(1, use/barEnd)
	}
	if math.IsNaN(p.use) {
		p.use = -1
	}
	return p
}

// opens says which steps give a piece's numbers. The load of a piece of gear
// is that of what it hangs on: the first value of its use.
func (p *Piece) opens(steps map[string]*plan.Working, base, load string) {
	known := func(path string) string {
		if steps[path] == nil {
			return ""
		}
		return path
	}
	p.UseWorking = known(base + ".use")
	p.CapacityWorking = known(base + ".capacity_kN")
	p.AtMostWorking = known(base + ".at_most_kN")
	if load != "" {
		p.LoadWorking = known(base + load)
	} else if use := steps[base+".use"]; use != nil && len(use.Values) > 0 {
		p.LoadWorking = use.Values[0].From
	}
}
