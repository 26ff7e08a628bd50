package survey

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"pullline/rigging"
	"pullline/wasm/fields"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// reading shows one reading and takes its value. An empty one is missing
// unless it is optional.
func (s *measuring) reading(r rigging.SurveyReading, key string, optional bool) {
	dim, size := readingDim(r)
	unit := s.u.Units[dim].Name
	row := Reading{Key: key, Label: words.Capital(s.nameOf(r)), Kind: fields.Number, Unit: unit, Text: s.req.Texts[key], PlusMinus: s.req.PM[key], Phone: parts.Told(s.d.Locale, phoneSights(r)), Signed: r.Least < 0}
	if taken, ok := s.req.Sights[key]; ok {
		s.sighted(&row, taken, dim)
	}
	defer func() {
		s.wrong = s.wrong || row.Problem != ""
		s.out.Readings = append(s.out.Readings, row)
	}()
	accuracy, _ := rigging.FindAccuracy(r.Accuracy)
	row.Usual = s.shortText(r.Read(r.Usual).PlusMinus/size, dim)
	if accuracy.Absolute == 0 && accuracy.Share > 0 {
		row.Usual = units.Significant(accuracy.Share*100, 2) + " %"
	}
	if r.Optional {
		row.Default = s.u.Field(r.Usual/size, dim, units.Nearest)
	}
	text := strings.TrimSpace(row.Text)
	if text == "" {
		if !optional && row.Problem == "" {
			s.missing = append(s.missing, s.nameOf(r))
		}
		return
	}
	v, ok := s.u.Parse(text, dim)
	if !ok {
		row.Problem = s.d.NotANumber(text, unit)
		return
	}
	m := r.Read(v * size)
	if !(m.Value >= r.Least-1e-9 && m.Value <= r.Most+1e-9) {
		row.Problem = s.d.Say("%s is %s; accepted: %s to %s.", words.Capital(s.nameOf(r)), s.exactly(v, dim), s.exactly(r.Least/size, dim), s.exactly(r.Most/size, dim))
		return
	}
	m.Value = math.Max(r.Least, math.Min(r.Most, m.Value))
	row.Usual = s.shortText(m.PlusMinus/size, dim)
	if pm := strings.TrimSpace(row.PlusMinus); pm != "" {
		v, ok := s.u.Parse(strings.TrimSpace(strings.TrimPrefix(pm, "±")), dim)
		if !ok || v < 0 {
			row.Problem = s.d.Say("The uncertainty ± “%s” is not a number of 0 or more. Type one such as %s, or leave it empty.", pm, row.Usual)
			return
		}
		m.PlusMinus = v * size
	}
	s.given[key] = m
}

// exactly writes a number of a range with its unit.
func (s *measuring) exactly(v float64, dim units.Dimension) string {
	return units.Significant(v/s.u.Units[dim].Size, 4) + s.u.Suffix(dim)
}

// shortText writes a ± to two digits, rounded up.
func (s *measuring) shortText(v float64, dim units.Dimension) string {
	shown := v / s.u.Units[dim].Size
	if shown == 0 {
		return "0"
	}
	return units.Decimal(units.RoundDigits(units.Round(shown, units.DigitStep(shown, 2), units.Up), 3), -1)
}

// sighted puts the mean of what the phone took in place of the text.
func (s *measuring) sighted(row *Reading, taken sight, dim units.Dimension) {
	a, err := rigging.MeasureIncline(taken.hold, taken.taken)
	if err != nil {
		row.Problem = s.d.Say("The phone readings give no angle: hold the phone still, or type the angle.")
		return
	}
	row.Text = units.Decimal(units.Round(a.Mean.Value/rigging.Deg, 0.1, units.Nearest), -1)
	row.PlusMinus = units.Decimal(units.Round(a.Mean.PlusMinus/rigging.Deg, 0.1, units.Up), -1)
	row.Sighted = s.d.Say("%s: %s° ± %s°.", s.d.Count(a.Count, "1 sight", "%s sights"), row.Text, row.PlusMinus)
	for _, i := range a.Suspects {
		row.Sighted = words.Join(row.Sighted, s.d.Say("Sight %s is far off the others: check it.", strconv.Itoa(i+1)))
	}
	if a.Count == 1 {
		row.Sighted = words.Join(row.Sighted, s.d.Say("Take two more: put the phone down in between."))
	}
}

// ownPace takes the length of the person's pace, or works it out from a known
// distance walked.
func (s *measuring) ownPace(r rigging.SurveyReading) {
	h, _ := rigging.FindSurveyHelper("pace")
	known := map[string]rigging.Measured{}
	rows := len(s.out.Readings)
	for i, k := range h.Readings {
		key := "known_" + k.Key
		k.Name = string([]words.Text{"pace not known: a known distance", "paces it took"}[i])
		s.reading(k, key, true)
		if m, ok := s.given[key]; ok {
			known[k.Key] = m
			delete(s.given, key) // of the way to the pace, not of the distance
		}
	}
	below := slices.Clone(s.out.Readings[rows:])
	s.out.Readings = s.out.Readings[:rows]
	results, err := h.Work(known)
	s.reading(r, r.Key, err == nil)
	if _, typed := s.given[r.Key]; !typed && err == nil && strings.TrimSpace(s.req.Texts[r.Key]) == "" {
		pace := results[0].Measured
		dim, size := readingDim(r)
		row := &s.out.Readings[len(s.out.Readings)-1]
		row.Default, row.Usual = units.Significant(pace.Value/size/s.u.Units[dim].Size, 3), s.shortText(pace.PlusMinus/size, dim)
		s.given[r.Key] = pace
	}
	s.out.Readings = append(s.out.Readings, below...)
}
