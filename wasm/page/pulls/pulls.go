package pulls

import (
	"maps"
	"math"
	"strconv"

	"pullline/rigging/experience"
	"pullline/rigging/jsontext"
	"pullline/rigging/plan"
	"pullline/rigging/plan/field"
	"pullline/wasm/draft"
	"pullline/wasm/page/form"
	"pullline/wasm/parts"
	"pullline/wasm/request"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// View is what the measured pulls of the crew come to.
type View struct {
	Rows   []Row        `json:"rows"`
	Facts  []parts.Fact `json:"facts"`
	Words  []string     `json:"words"`
	Offers []Offer      `json:"offers"`
}

// A Row is one pull.
type Row struct {
	Name     string `json:"name"`
	Measured string `json:"measured"`
	Computed string `json:"computed"`
	Ratio    string `json:"ratio"`
}

// An Offer is a change to the plan in work, made only when it is asked for.
type Offer struct {
	Words   string         `json:"words"`
	Label   string         `json:"label"`
	Changes []parts.Change `json:"changes"`
}

// An asked is what the page sends: the plan in work, and all plans kept.
//
//codec:request
type asked struct {
	request.Common
	Plans []any `json:"plans" read:"list"`
}

func list(v any) []any {
	l, _ := v.([]any)
	return l
}

const density = "tree.green_density_kgm3"

// leastForSpread is the fewest pulls by which the ± of a plan is widened: with
// fewer the band says more about the few than about the trees. Our own choice.
const leastForSpread = 5

// What is said.
const (
	faulty    words.Text = "The pulls could not be compared: there is a fault in the program."
	none      words.Text = "No measured pull yet. After a pull, enter the greatest tension or haul read, under Brief."
	few       words.Text = "%s measured so far. It takes %s or more to tell a pattern from chance."
	onePull   words.Text = "1 pull"
	manyPulls words.Text = "%s pulls"
	unnamed   words.Text = "Plan without a name"

	meanLabel words.Text = "Measured over computed, on average"
	meanNote  words.Text = "Of %s, half and double counted as equally far off."
	nextLabel words.Text = "Next pull of the same kind"
	nextValue words.Text = "%s to %s"
	nextNote  words.Text = "Of what is computed, 19 times in 20, if tree, crew and measuring are alike."

	heavier words.Text = "With the green density of the table these pulls took %s of what is computed. Your current plan can take its tree as much heavier: %s, not %s. Only this plan changes."
	beyond  words.Text = "With the green density of the table these pulls took %s of what is computed: more than heavy wood explains. Look at lean, {hinge} and how it was measured."
	use     words.Text = "Use %s"
	typed   words.Text = "These pulls took more than computed. In your current plan the green density was typed or the mass is known, so it stays as it is: check it."
	lighter words.Text = "These pulls took no more than computed on average. Nothing is lowered for that: some light pulls do not make the next tree light."
	widen   words.Text = "The pulls spread more widely than one tree's density does. Your current plan can take its green density as known to ± %s only, which widens the range of pull needed."
	useWide words.Text = "Use ± %s"
)

// JSON answers a request {plan, plans, settings}. It answers to any input.
//
//codec:call asked View
func JSON(raw []byte) (out []byte) {
	var req asked
	defer func() {
		if fault := recover(); fault != nil {
			out = jsontext.Encode(&View{Rows: []Row{}, Facts: []parts.Fact{}, Offers: []Offer{}, Words: []string{req.Settings.Locale().Say(faulty)}})
		}
	}()
	err := req.Read(raw, req.Take)
	if err != nil {
		panic(err)
	}
	return jsontext.Encode(compare(&req))
}

func compare(req *asked) *View {
	d, u := req.Settings.Told(req.Plan)
	v := &View{Rows: []Row{}, Facts: []parts.Fact{}, Words: []string{}, Offers: []Offer{}}
	var ratios, byTable []float64
	seen := map[[3]string]bool{} // a plan that was copied after its pull is one pull
	for _, tree := range req.Plans {
		rep := plan.EvaluateTo(tree, 0, plan.ToReport) // its size was limited when it was kept
		of := draft.Of(tree)
		row, ratio, ok := measured(d, u, of, &rep)
		if !ok {
			continue
		}
		if key := [3]string{row.Measured, row.Computed, row.Ratio}; !seen[key] {
			seen[key] = true
			v.Rows = append(v.Rows, row)
			ratios = append(ratios, ratio)
			// What was corrected before must not hide in the ratio.
			if plain, typed := withoutDensity(tree); typed {
				rep := plan.EvaluateTo(plain, 0, plan.ToReport)
				_, ratio, _ = measured(d, u, of, &rep)
			}
			byTable = append(byTable, ratio)
		}
	}
	rec, ok := experience.Of(ratios)
	switch {
	case rec.N == 0:
		v.Words = append(v.Words, d.Say(none))
	case !ok:
		v.Words = append(v.Words, d.Say(few, counted(d, rec.N), strconv.Itoa(experience.Least)))
	default:
		v.Facts = append(v.Facts,
			parts.Fact{ID: "pulls-mean", Label: d.Say(meanLabel), Value: units.Percent(rec.Mean), Note: d.Say(meanNote, counted(d, rec.N))},
			parts.Fact{ID: "pulls-next", Label: d.Say(nextLabel), Value: d.Say(nextValue, units.Percent(rec.Low), units.Percent(rec.High)), Note: d.Say(nextNote)})
		if rec, ok := experience.Of(byTable); ok {
			v.offer(d, u, req, rec)
		}
	}
	return v
}

// measured is a plan's pull, where one was measured that can be set against what
// was computed.
func measured(d *draft.Plan, u *units.System, of *draft.Plan, rep *plan.Report) (Row, float64, bool) {
	a := rep.After
	if a == nil {
		return Row{}, 0, false
	}
	ratio, got, want := a.PeakToComputed, a.PeakKN, a.ComputedKN
	if !ratio.Known() {
		ratio, got, want = a.HaulToComputed, a.HaulKN, a.ComputedHaulKN
	}
	if !ratio.Known() || !(ratio > 0) {
		return Row{}, 0, false
	}
	name := of.Text("name")
	if name == "" {
		name = d.Say(unnamed)
	}
	return Row{name, u.Load(float64(got)), u.Load(float64(want)), units.Percent(float64(ratio))}, float64(ratio), true
}

// withoutDensity is a plan with the green density of the table, where another was
// typed.
func withoutDensity(tree any) (plain any, typed bool) {
	fields, _ := tree.(map[string]any)
	of, _ := fields["tree"].(map[string]any)
	if _, typed = of["green_density_kgm3"]; !typed {
		return tree, false
	}
	fields, of = maps.Clone(fields), maps.Clone(of)
	delete(of, "green_density_kgm3")
	fields["tree"] = of
	return fields, true
}

// offer says what follows for the plan in work. Only what raises the pull needed,
// or its range, is offered.
func (v *View) offer(d *draft.Plan, u *units.System, req *asked, rec experience.Record) {
	used, assumed := usedDensity(req)
	if rec.Mean <= 1 {
		v.Words = append(v.Words, d.Say(lighter))
	} else if !assumed {
		v.Words = append(v.Words, d.Say(typed))
	} else {
		raised := math.Ceil(used*rec.Mean/10-1e-9) * 10
		if raised > field.GreenDensity.Row().Range.Max {
			v.Words = append(v.Words, d.Say(beyond, units.Percent(rec.Mean)))
			return
		}
		text := func(n float64) string { return u.Quantity(n, units.KilogramsPerCubicMetre, units.Up) }
		v.Offers = append(v.Offers, change(d, u, density, raised, d.Say(heavier, units.Percent(rec.Mean), text(raised), text(used)), d.Say(use, text(raised))))
		used = raised
	}
	if spread := rec.High/rec.Mean - 1; assumed && rec.N >= leastForSpread {
		wide := math.Ceil(used*spread/10-1e-9) * 10
		if given, ok := d.Number(draft.PlusMinus + density); (!ok || given < wide) && wide > 0 {
			text := u.Quantity(wide, units.KilogramsPerCubicMetre, units.Up)
			v.Offers = append(v.Offers, change(d, u, draft.PlusMinus+density, wide, d.Say(widen, text), d.Say(useWide, text)))
		}
	}
}

func change(d *draft.Plan, u *units.System, path string, value float64, words, label string) Offer {
	e := form.NewEditor(d, u)
	e.Set(path, draft.FileNumber(value))
	return Offer{Words: words, Label: label, Changes: e.Out.Changes}
}

// usedDensity is the green density that the plan in work takes from the table;
// not where it was typed, or where the mass is known without it.
func usedDensity(req *asked) (kgm3 float64, assumed bool) {
	rep := req.Report()
	for i := range rep.Assumed {
		if a := &rep.Assumed[i]; a.Path == density {
			if n, ok := a.Number(); ok {
				return n, !draft.Of(req.Plan).Has("tree.mass_kg")
			}
		}
	}
	return math.NaN(), false
}

func counted(d *draft.Plan, n int) string {
	if n == 1 {
		return d.Say(onePull)
	}
	return d.Say(manyPulls, strconv.Itoa(n))
}
