package survey

import (
	"errors"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"pullline/rigging"
	"pullline/rigging/jsontext"
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/draw"
	"pullline/wasm/fields"
	"pullline/wasm/keyed"
	"pullline/wasm/parts"
	"pullline/wasm/request"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// A View is everything the page shows of one way to measure one field.
type View struct {
	Field    string         `json:"field"`
	Title    string         `json:"title"`
	Methods  []parts.Option `json:"methods"`
	Method   string         `json:"method"`
	HowTo    string         `json:"how_to,omitempty"`
	Watch    string         `json:"watch,omitempty"` // what the ± leaves out
	Source   string         `json:"source,omitempty"`
	Picture  *draw.Drawing  `json:"picture,omitempty"` // how to stand
	Readings []Reading      `json:"readings"`
	Results  []Result       `json:"results"`
	Message  string         `json:"message,omitempty"` // what is still missing, or does not fit together
	Formula  string         `json:"formula,omitempty"`
	Working  []string       `json:"working,omitempty"`
	Kept     string         `json:"kept,omitempty"` // said of readings that the plan has kept
	Live     string         `json:"live,omitempty"` // what the phone shows now
	Photo    *Photo         `json:"photo,omitempty"`
	// Changes put a result into the plan, where the request asks for it.
	Changes []parts.Change `json:"changes,omitempty"`
	Focus   string         `json:"focus,omitempty"`
}

// A Reading is one thing to read, typed like any field.
type Reading struct {
	Key       string         `json:"key"`
	Label     string         `json:"label"`
	Kind      string         `json:"kind"` // number or choice
	Unit      string         `json:"unit,omitempty"`
	Text      string         `json:"text"`
	Default   string         `json:"default,omitempty"`    // what is taken while it is empty
	PlusMinus string         `json:"plus_minus,omitempty"` // as typed
	Usual     string         `json:"usual,omitempty"`      // the ± taken while none is typed
	Options   []parts.Option `json:"options,omitempty"`
	Phone     []parts.Option `json:"phone,omitempty"` // ways in which a phone reads it
	Sighted   string         `json:"sighted,omitempty"`
	Signed    bool           `json:"signed,omitempty"` // it may be below nought
	Problem   string         `json:"problem,omitempty"`
}

// A Result is one thing measured. Use, if there is one, is what to ask
// for to put it, and all results of the same Use, into the plan.
type Result struct {
	Label     string `json:"label"`
	Text      string `json:"text"`
	PlusMinus string `json:"plus_minus"`
	Use       string `json:"use,omitempty"`
	UseLabel  string `json:"use_label,omitempty"` // on the first of each Use
	Note      string `json:"note,omitempty"`
}

// Photo tells where the marks of a picture stand. Stored is the size of
// the picture of marks that the plan has kept; the picture itself is not.
type Photo struct {
	Marks  []Mark    `json:"marks"`
	Stored []float64 `json:"stored,omitempty"`
}

// A Mark is a place to mark in a picture, px. One that is not placed
// stands where it can be taken hold of, and counts for nothing.
type Mark struct {
	Key    string  `json:"key"`
	Label  string  `json:"label"`
	X      float64 `json:"x"`
	Y      float64 `json:"y"`
	Placed bool    `json:"placed"`
	Needed bool    `json:"needed"`
}

// JSON answers a request to measure a field with a View. It answers
// to any input; what cannot be worked out gives no result, and says why.
func JSON(request []byte) (out []byte) {
	nothing := func(message string) []byte {
		return jsontext.Encode(&View{Methods: []parts.Option{}, Readings: []Reading{}, Results: []Result{}, Message: message})
	}
	defer func() {
		if fault := recover(); fault != nil {
			out = nothing("Nothing was measured: there is a fault in the program.")
		}
	}()
	req, err := parse(request)
	if err != nil {
		return nothing("Nothing was measured: " + err.Error())
	}
	return jsontext.Encode(measure(req))
}

// A measuring is the work on one request.
type measuring struct {
	req     *asked
	d       *draft.Plan
	u       *units.System
	fit     *measurable
	helper  rigging.SurveyHelper
	out     *View
	given   map[string]rigging.Measured // by reading, SI
	missing []string
	wrong   bool // a reading has a problem
	results []outcome
}

// An outcome is a result on its way to the page and the plan.
type outcome struct {
	rigging.SurveyResult
	path     string // "" where it goes nowhere
	use      string
	useLabel string
	note     string
	kept     func() map[string]any // readings to keep with it; nil for the ordinary ones
}

func measure(req *asked) *View {
	s := &measuring{req: req, given: map[string]rigging.Measured{}}
	s.d, s.u = req.Settings.Told(req.Plan)
	s.out = &View{Field: req.Field, Methods: []parts.Option{}, Readings: []Reading{}, Results: []Result{}}
	if req.Live != nil {
		s.out.Live = s.live(*req.Live)
		return s.out
	}
	if s.d.Err != nil {
		s.out.Message = "Nothing was measured: " + s.d.Err.Error() + "."
		return s.out
	}
	if s.fit = measurableAt(req.Field); s.fit == nil {
		s.out.Message = "There is no way to measure this field here."
		return s.out
	}
	s.out.Title = "Measure: " + fields.LabelOf(s.d, req.Field)
	for _, key := range s.fit.methods {
		if h, ok := rigging.FindSurveyHelper(key); ok {
			s.out.Methods = append(s.out.Methods, parts.Option{Value: key, Label: s.words(h.Name)})
		}
	}
	fromPlan := s.chooseMethod()
	s.helper, _ = rigging.FindSurveyHelper(s.out.Method)
	s.out.HowTo, s.out.Watch = s.words(s.helper.HowTo), s.words(s.helper.Watch)
	s.out.Source = s.helper.Source.Words()
	if s.helper.Takes == rigging.TakesPhoto {
		s.photos()
	} else {
		s.work()
	}
	s.say()
	s.showResults()
	if fromPlan {
		s.sayKept()
	}
	s.showFormula()
	if box := s.req.Box; box.W > 0 {
		s.out.Picture = picture(s.out.Method, box, s.given, s.d.Words)
	}
	if s.req.Use != "" {
		s.use()
	}
	return s.out
}

// chooseMethod takes the method asked for, the one kept or the first, and
// fills in what is kept where nothing was typed yet.
func (s *measuring) chooseMethod() (fromPlan bool) {
	kept, method := s.kept()
	s.out.Method = s.req.Method
	if !s.fit.takes(s.out.Method) {
		if s.out.Method = s.fit.methods[0]; s.fit.takes(method) {
			s.out.Method = method
		}
	}
	if s.req.Texts != nil {
		return false
	}
	s.req.Texts, s.req.PM = map[string]string{}, map[string]string{}
	if kept == nil || method != s.out.Method {
		return false
	}
	s.unpack(kept)
	return true
}

// Ways that measure several fields at once: what is kept of them with one
// field serves the others.
func servesOthers(method string) bool {
	for _, prefix := range []string{"lean_", "offset_", "place_", "photo"} {
		if strings.HasPrefix(method, prefix) {
			return true
		}
	}
	return false
}

// kept finds what the plan has kept of the readings of this field.
func (s *measuring) kept() (entry map[string]any, method string) {
	all, _ := draft.Member(s.d.Tree, "readings").(map[string]any)
	at := func(path string) (map[string]any, string) {
		entry, _ := all[path].(map[string]any)
		return entry, request.Text(entry["method"])
	}
	if entry, method = at(s.req.Field); entry != nil {
		return entry, method
	}
	owner, _ := draft.LastKey(s.req.Field)
	for _, path := range slices.Sorted(maps.Keys(all)) {
		of, _ := draft.LastKey(path)
		if entry, method := at(path); of == owner && servesOthers(method) && s.fit.takes(method) {
			return entry, method
		}
	}
	return nil, ""
}

// unpack turns kept readings back into texts and marks.
func (s *measuring) unpack(entry map[string]any) {
	values, _ := entry["values"].(map[string]any)
	pm, _ := entry["plus_minus"].(map[string]any)
	h, _ := rigging.FindSurveyHelper(s.out.Method)
	readings := h.Readings
	if h.Takes == rigging.TakesPhoto {
		readings = append(readings[:len(readings):len(readings)], photoEye, photoFacing)
		s.unpackMarks(values)
	}
	for _, r := range readings {
		key, size := plan.ReadingKey(r)
		dim, unit := readingDim(r)
		if v, ok := draft.Number(values[key]); ok {
			s.req.Texts[r.Key] = s.u.Field(units.RoundDigits(v*size/unit, units.ShownDigits), dim, units.Nearest)
		} else if there := draft.Written(values[key]); there != "" {
			s.req.Texts[r.Key] = there // whatever it is, it is shown and named
		}
		if v, ok := draft.Number(pm[key]); ok {
			s.req.PM[r.Key] = s.u.Field(units.RoundDigits(v*size/unit, units.ShownDigits), dim, units.Nearest)
		}
	}
}

// words puts a region's words into the texts of package rigging.
func (s *measuring) words(text string) string {
	text = strings.ReplaceAll(text, "the lay", s.d.Say("the {lay}"))
	return strings.ReplaceAll(text, "centre", s.d.Say("{centre}"))
}

// nameOf is what a reading is called, for the field it is taken for.
func (s *measuring) nameOf(r rigging.SurveyReading) string { return s.words(s.fit.readingName(r)) }

// reading shows one reading and takes its value. An empty one is missing
// unless it is optional.
func (s *measuring) reading(r rigging.SurveyReading, key string, optional bool) {
	dim, size := readingDim(r)
	unit := s.u.Units[dim].Name
	row := Reading{Key: key, Label: words.Capital(s.nameOf(r)), Kind: fields.Number, Unit: unit, Text: s.req.Texts[key], PlusMinus: s.req.PM[key], Phone: phoneSights(r), Signed: r.Least < 0}
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
		row.Problem = words.NotANumber(text, unit)
		return
	}
	m := r.Read(v * size)
	if !(m.Value >= r.Least-1e-9 && m.Value <= r.Most+1e-9) {
		row.Problem = words.Capital(s.nameOf(r)) + " is " + s.exactly(v, dim) + ". Give one from " + s.exactly(r.Least/size, dim) + " to " + s.exactly(r.Most/size, dim) + "."
		return
	}
	m.Value = math.Max(r.Least, math.Min(r.Most, m.Value))
	row.Usual = s.shortText(m.PlusMinus/size, dim)
	if pm := strings.TrimSpace(row.PlusMinus); pm != "" {
		v, ok := s.u.Parse(strings.TrimSpace(strings.TrimPrefix(pm, "±")), dim)
		if !ok || v < 0 {
			row.Problem = "The give or take “" + pm + "” is not a number of 0 or more. Type one such as " + row.Usual + ", or leave it empty."
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
		row.Problem = "The phone's sights give no angle: hold it still, or type the angle."
		return
	}
	row.Text = units.Decimal(units.Round(a.Mean.Value/rigging.Deg, 0.1, units.Nearest), -1)
	row.PlusMinus = units.Decimal(units.Round(a.Mean.PlusMinus/rigging.Deg, 0.1, units.Up), -1)
	row.Sighted = words.CountOf(a.Count, "sight", "sights") + ": " + row.Text + "° ± " + row.PlusMinus + "°."
	for _, i := range a.Suspects {
		row.Sighted += " Sight " + strconv.Itoa(i+1) + " stands far off the others: look again."
	}
	if a.Count == 1 {
		row.Sighted += " Take two more: put the phone down between them."
	}
}

// live says what the phone shows now.
func (s *measuring) live(now sight) string {
	angle := now.hold.Angle(now.taken[len(now.taken)-1])
	if math.IsNaN(angle) {
		return units.None
	}
	return units.Grouped(units.Decimal(units.Round(angle/rigging.Deg, 0.1, units.Nearest), 1)) + "°"
}

// work measures by a way that takes plain readings.
func (s *measuring) work() {
	hidden := s.knownPoints()
	for _, r := range s.helper.Readings {
		for _, prefix := range knownPrefixes {
			if r.Key == prefix+"_bearing" && hidden[prefix] != nil {
				s.out.Readings = append(s.out.Readings, *hidden[prefix])
			}
		}
		if _, filled := s.given[r.Key]; filled {
			continue
		}
		if s.out.Method == "paced_distance" && r.Key == "pace" {
			s.ownPace(r)
			continue
		}
		s.reading(r, r.Key, r.Optional)
	}
	if len(s.missing) > 0 || s.wrong {
		return
	}
	results, err := s.helper.Work(s.given)
	if err != nil {
		s.fault(err)
		return
	}
	owner, _ := draft.LastKey(s.req.Field)
	for _, r := range results {
		if s.fit.along && r.Key == "height" {
			r = s.alongStem(r)
		}
		m := outcome{SurveyResult: r, use: "all", useLabel: "Use it"}
		for _, side := range []string{"left", "right"} {
			if strings.HasPrefix(r.Key, side+"_") {
				m.use, m.useLabel = side, "Use the point on the "+side
			}
		}
		if field, ok := keyed.Find(s.fit.results, r.Key); ok {
			m.path = draft.Sub(owner, field)
		} else {
			m.use = ""
		}
		s.results = append(s.results, m)
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
		k.Name = []string{"if your pace is not known: a distance that is", "and the paces it took"}[i]
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

// alongStem turns a plumb height into the length along the plan's leaning
// stem.
func (s *measuring) alongStem(r rigging.SurveyResult) rigging.SurveyResult {
	lean, ok := s.d.Number("tree.lean_deg")
	if !ok || lean <= 0 {
		return r
	}
	pm, _ := s.d.Number(draft.PlusMinus + "tree.lean_deg")
	along, err := rigging.MeasureAlongStem(r.Measured, rigging.Measured{Value: lean * rigging.Deg, PlusMinus: math.Max(0, pm) * rigging.Deg})
	if err != nil {
		return r // a lean that cannot be is named where it stands
	}
	s.out.Working = append(s.out.Working, "Along the stem, which leans "+s.exactly(lean, units.Degrees)+": "+s.resultText(r)+" / cos "+s.exactly(lean, units.Degrees))
	r.Measured, r.Name = along, r.Name+", along the stem"
	return r
}

// fault puts an error at the reading that it is about.
func (s *measuring) fault(err error) {
	s.wrong = true
	var at *rigging.ReadingError
	if errors.As(err, &at) {
		for i := range s.out.Readings {
			if row := &s.out.Readings[i]; row.Key == at.Key {
				row.Problem = s.words(words.Capital(err.Error())) + "."
				return
			}
		}
	}
	s.out.Message = s.words(words.Capital(err.Error())) + "."
}

// say names what is missing.
func (s *measuring) say() {
	if s.out.Message == "" && len(s.missing) > 0 {
		s.out.Message = "Still to read: " + strings.Join(s.missing, "; ") + "."
	}
}

// Known points of the ways that find a place from others.
var knownPrefixes = []string{"a", "b", "from"}

// knownPoints offers the plan's points where a known point is asked for, and
// fills in those chosen.
func (s *measuring) knownPoints() map[string]*Reading {
	rows := map[string]*Reading{}
	self, _ := draft.LastKey(s.req.Field)
	for _, prefix := range knownPrefixes {
		for _, r := range s.helper.Readings {
			if r.Key != prefix+"_distance" {
				continue
			}
			name := map[string]string{"a": "First known point", "b": "Second known point", "from": "Known point"}[prefix]
			row := &Reading{Key: prefix + "_point", Label: name, Kind: fields.Choice, Text: s.req.Texts[prefix+"_point"],
				Options: []parts.Option{{Value: "", Label: "typed below"}, {Value: "stem", Label: s.d.Say("the {stem} itself")}}}
			for i := range s.d.List("points") {
				path := draft.Elem("points", i)
				bearing, okB := s.d.Number(path + ".bearing_deg")
				distance, okD := s.d.Number(path + ".distance_m")
				if path == self || !okB || !okD {
					continue
				}
				value := "point/" + strconv.Itoa(i)
				row.Options = append(row.Options, parts.Option{Value: value, Label: fields.PointTitle(s.d, i)})
				if row.Text == value {
					s.fill(prefix+"_bearing", bearing*rigging.Deg, path+".bearing_deg", rigging.Deg)
					s.fill(prefix+"_distance", distance, path+".distance_m", 1)
				}
			}
			if row.Text == "stem" {
				s.given[prefix+"_bearing"], s.given[prefix+"_distance"] = rigging.Measured{}, rigging.Measured{}
			}
			rows[prefix] = row
		}
	}
	return rows
}

// fill takes a reading from the plan, with the ± it has there.
func (s *measuring) fill(key string, v float64, path string, size float64) {
	for _, r := range s.helper.Readings {
		if r.Key == key && v >= r.Least && v <= r.Most {
			m := r.Read(v)
			if pm, ok := s.d.Number(draft.PlusMinus + path); ok && pm >= 0 {
				m.PlusMinus = pm * size
			}
			s.given[key] = m
		}
	}
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
		row := Result{Label: words.Capital(s.words(m.Name)), Text: s.tenths(m.Value/size, dim, s.wayOf(m.path)), PlusMinus: "± " + s.tenths(m.PlusMinus/size, dim, units.Up), Use: m.use, Note: m.note}
		if m.PlusMinus == 0 {
			row.PlusMinus = ""
		}
		if dim == units.Degrees && m.PlusMinus >= math.Pi-1e-9 {
			row.PlusMinus = "may point anywhere"
		}
		if m.use != "" && !seen[m.use] {
			row.UseLabel = m.useLabel
			seen[m.use] = true
		}
		s.out.Results = append(s.out.Results, row)
	}
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

// sayKept tells of readings from the plan, and whether the field still says
// what they give.
func (s *measuring) sayKept() {
	s.out.Kept = "These readings are kept in the plan."
	for _, m := range s.results {
		now, ok := s.d.Number(s.req.Field)
		if m.path != s.req.Field {
			continue
		}
		dim, size := resultDim(m.SurveyResult)
		if !ok || math.Abs(s.fileValue(m.Value/size, dim, s.wayOf(m.path))-now) > 1e-9*math.Max(1, math.Abs(now)) {
			s.out.Kept = "These readings are kept in the plan, but its field now says something else."
		}
	}
}

func (s *measuring) showFormula() {
	f, _ := keyed.Find(formulas, s.out.Method)
	s.out.Formula = f.text
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
		lines = append(lines, line+", "+s.nameOf(r))
	}
	s.out.Working = append(append(lines, s.out.Working...), plusMinusFormula)
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
		s.out.Message = "There is nothing yet that could be used."
		return
	}
	if keep == nil {
		keep = s.pack
	}
	add("set", keep(), "readings", first)
	s.out.Focus = first
}

// fileUp is a ± as the plan takes it, never less than it is.
func (s *measuring) fileUp(v float64, dim units.Dimension) float64 {
	u := s.u.Units[dim]
	return u.ToFile(math.Max(resultStep, units.Round(v/u.Size, resultStep, units.Up)))
}

// pack is what was read, as the plan keeps it.
func (s *measuring) pack() map[string]any {
	values, pm := map[string]any{}, map[string]any{}
	for _, r := range s.helper.Readings {
		s.packOne(values, pm, r, r.Key)
	}
	return packed(s.out.Method, values, pm)
}

func (s *measuring) packOne(values, pm map[string]any, r rigging.SurveyReading, key string) {
	m, ok := s.given[key]
	if !ok {
		return
	}
	name, size := plan.ReadingKey(r)
	values[name] = draft.FileNumber(units.RoundDigits(m.Value/size, units.ShownDigits))
	if usual := r.Read(m.Value).PlusMinus; math.Abs(m.PlusMinus-usual) > 1e-12 {
		pm[name] = draft.FileNumber(units.RoundDigits(m.PlusMinus/size, units.ShownDigits))
	}
}

func packed(method string, values, pm map[string]any) map[string]any {
	out := map[string]any{"method": method, "values": values}
	if len(pm) > 0 {
		out["plus_minus"] = pm
	}
	return out
}
