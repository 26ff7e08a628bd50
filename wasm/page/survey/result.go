package survey

import (
	"math"

	"pullline/rigging"
	"pullline/wasm/draft"
	"pullline/wasm/fields"
	"pullline/wasm/keyed"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// An outcome is a result on its way to the page and the plan.
type outcome struct {
	rigging.SurveyResult
	along    bool   // it is a height turned into a length along the leaning stem
	path     string // "" where it goes nowhere
	use      string
	useLabel string
	note     string
	kept     func() map[string]any // readings to keep with it; nil for the ordinary ones
}

// resultDim is the dimension in which a result is shown, and its size in SI.
func resultDim(r rigging.SurveyResult) (units.Dimension, float64) {
	switch {
	case r.Key == "diameter":
		return units.Centimetres, rigging.CM
	case r.Unit == "rad":
		return units.Degrees, rigging.Deg
	}
	return units.Metres, 1
}

// Results are shown and used to a tenth of the user's unit.
const resultStep = 0.1

func (s *measuring) tenths(v float64, dim units.Dimension, way units.Direction) string {
	shown := v / s.u.Units[dim].Size
	return units.Grouped(units.Decimal(units.Round(shown, resultStep, way), 1)) + s.u.Suffix(dim)
}

func (s *measuring) resultText(r rigging.SurveyResult) string {
	dim, size := resultDim(r)
	return s.tenths(r.Value/size, dim, s.wayOf(""))
}

func (s *measuring) wayOf(path string) units.Direction {
	if spec, ok := fields.At(path); ok {
		return spec.Way
	}
	return units.Nearest
}

func (s *measuring) showResults() {
	seen := map[string]bool{}
	for _, m := range s.results {
		dim, size := resultDim(m.SurveyResult)
		name := words.Capital(s.words(m.Name))
		if m.along {
			name = s.d.Say("%s, along the {stem}", name)
		}
		row := Result{Label: name, Text: s.tenths(m.Value/size, dim, s.wayOf(m.path)), PlusMinus: "± " + s.tenths(m.PlusMinus/size, dim, units.Up), Use: m.use, Note: m.note}
		if m.PlusMinus == 0 {
			row.PlusMinus = ""
		}
		if dim == units.Degrees && m.PlusMinus >= math.Pi-1e-9 {
			row.PlusMinus = s.d.Say("may point anywhere")
		}
		if m.use != "" && !seen[m.use] {
			row.UseLabel = m.useLabel
			seen[m.use] = true
		}
		s.out.Results = append(s.out.Results, row)
	}
}

func (s *measuring) showFormula() {
	f, _ := keyed.Find(formulas, s.out.Method)
	s.out.Formula = s.d.Say(f.text)
	if len(s.results) == 0 || s.helper.Takes == rigging.TakesPhoto {
		return
	}
	var lines []string
	for i, r := range s.helper.Readings {
		m, ok := s.given[r.Key]
		if !ok {
			m = r.Read(r.Usual)
		}
		dim, size := readingDim(r)
		line := f.symbols[i] + " = " + units.Significant(m.Value/size/s.u.Units[dim].Size, 5) + s.u.Suffix(dim) + " ± " + s.shortText(m.PlusMinus/size, dim) + s.u.Suffix(dim)
		lines = append(lines, s.d.Say("%s, %s", line, s.nameOf(r)))
	}
	s.out.Working = append(append(lines, s.out.Working...), s.d.Say(plusMinusFormula))
}

// fileValue is a result as the plan takes it: to a tenth in the user's unit.
func (s *measuring) fileValue(v float64, dim units.Dimension, way units.Direction) float64 {
	u := s.u.Units[dim]
	shown := units.Round(v/u.Size, resultStep, way)
	if dim == units.Degrees && shown >= 360 {
		shown -= 360
	}
	return u.ToFile(shown)
}

// fileUp is a ± as the plan takes it, never less than it is.
func (s *measuring) fileUp(v float64, dim units.Dimension) float64 {
	u := s.u.Units[dim]
	return u.ToFile(math.Max(resultStep, units.Round(v/u.Size, resultStep, units.Up)))
}

// use puts the results of one Use into the plan, with their ± and what was
// read.
func (s *measuring) use() {
	var first string
	var keep func() map[string]any
	add := func(op string, value any, at ...any) {
		s.out.Changes = append(s.out.Changes, parts.Change{Op: op, At: at, Value: value})
	}
	all, _ := draft.Member(s.d.Tree, "readings").(map[string]any)
	for _, m := range s.results {
		if m.use != s.req.Use || m.path == "" {
			continue
		}
		at := draft.ParsePath(m.path)
		dim, size := resultDim(m.SurveyResult)
		add("set", draft.FileNumber(s.fileValue(m.Value/size, dim, s.wayOf(m.path))), at...)
		add("set", draft.FileNumber(s.fileUp(m.PlusMinus/size, dim)), "plus_minus", m.path)
		if first == "" || m.path == s.req.Field {
			first = m.path
		}
		if m.kept != nil {
			keep = m.kept
		}
		if _, there := all[m.path]; there {
			add("delete", nil, "readings", m.path)
		}
	}
	if first == "" {
		s.out.Message = s.d.Say("There is nothing to use yet.")
		return
	}
	if keep == nil {
		keep = s.pack
	}
	add("set", keep(), "readings", first)
	s.out.Focus = first
}
