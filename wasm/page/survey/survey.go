package survey

import (
	"errors"
	"math"
	"strings"

	"pullline/rigging"
	"pullline/rigging/jsontext"
	"pullline/wasm/draft"
	"pullline/wasm/draw"
	"pullline/wasm/fields"
	"pullline/wasm/keyed"
	"pullline/wasm/parts"
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
//
//codec:call asked View
func JSON(request []byte) (out []byte) {
	var l words.Locale
	nothing := func(text words.Text, args ...string) []byte {
		return jsontext.Encode(&View{Methods: []parts.Option{}, Readings: []Reading{}, Results: []Result{}, Message: l.Say(text, args...)})
	}
	defer func() {
		if fault := recover(); fault != nil {
			out = nothing("Nothing was measured: there is a fault in the program.")
		}
	}()
	req, err := parse(request)
	if err != nil {
		return nothing("Nothing was measured: %s", err.Error())
	}
	l = req.Settings.Locale()
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

func measure(req *asked) *View {
	s := &measuring{req: req, given: map[string]rigging.Measured{}}
	s.d, s.u = req.Settings.Told(req.Plan)
	s.out = &View{Field: req.Field, Methods: []parts.Option{}, Readings: []Reading{}, Results: []Result{}}
	if req.Live != nil {
		s.out.Live = s.live(*req.Live)
		return s.out
	}
	if s.d.Err != nil {
		s.out.Message = s.d.Say("Nothing was measured: the plan cannot be read.")
		return s.out
	}
	if s.fit = measurableAt(req.Field); s.fit == nil {
		s.out.Message = s.d.Say("There is no way to measure this field here.")
		return s.out
	}
	s.out.Title = s.d.Say("Measure: %s", fields.LabelOf(s.d, req.Field))
	for _, key := range s.fit.methods {
		if h, ok := rigging.FindSurveyHelper(key); ok {
			s.out.Methods = append(s.out.Methods, parts.Option{Value: key, Label: s.words(h.Name)})
		}
	}
	fromPlan := s.chooseMethod()
	s.helper, _ = rigging.FindSurveyHelper(s.out.Method)
	s.out.HowTo, s.out.Watch = s.words(s.helper.HowTo), s.words(s.helper.Watch)
	s.out.Source = s.d.Source(s.helper.Source)
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
		s.out.Picture = picture(s.out.Method, box, s.given, s.d.Locale)
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

// tradeWords are the words in the texts of package rigging that differ from
// region to region.
var tradeWords = strings.NewReplacer("the lay", "the {lay}", "centre", "{centre}")

// words says a text of package rigging.
func (s *measuring) words(text string) string {
	return s.d.Say(words.Text(tradeWords.Replace(text)))
}

// nameOf is what a reading is called, for the field it is taken for.
func (s *measuring) nameOf(r rigging.SurveyReading) string { return s.words(s.fit.readingName(r)) }

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
		along := false
		if s.fit.along && r.Key == "height" {
			r, along = s.alongStem(r)
		}
		m := outcome{SurveyResult: r, along: along, use: "all", useLabel: s.d.Say("Use this")}
		switch side, _, _ := strings.Cut(r.Key, "_"); side {
		case "left":
			m.use, m.useLabel = side, s.d.Say("Use the point on the left")
		case "right":
			m.use, m.useLabel = side, s.d.Say("Use the point on the right")
		}
		if field, ok := keyed.Find(s.fit.results, r.Key); ok {
			m.path = draft.Sub(owner, field)
		} else {
			m.use = ""
		}
		s.results = append(s.results, m)
	}
}

// alongStem turns a plumb height into the length along the plan's leaning
// stem.
func (s *measuring) alongStem(r rigging.SurveyResult) (along rigging.SurveyResult, changed bool) {
	lean, ok := s.d.Number("tree.lean_deg")
	if !ok || lean <= 0 {
		return r, false
	}
	pm, _ := s.d.Number(draft.PlusMinus + "tree.lean_deg")
	measured, err := rigging.MeasureAlongStem(r.Measured, rigging.Measured{Value: lean * rigging.Deg, PlusMinus: math.Max(0, pm) * rigging.Deg})
	if err != nil {
		return r, false // a lean that cannot be is named where it stands
	}
	s.out.Working = append(s.out.Working, s.d.Say("Along the {stem}, which leans %s: %s / cos %[1]s", s.exactly(lean, units.Degrees), s.resultText(r)))
	r.Measured = measured
	return r, true
}

// fault puts an error at the reading that it is about.
func (s *measuring) fault(err error) {
	s.wrong = true
	message := s.d.Say("%s.", words.Capital(s.d.Error(err)))
	var at *rigging.ReadingError
	if errors.As(err, &at) {
		for i := range s.out.Readings {
			if row := &s.out.Readings[i]; row.Key == at.Key {
				row.Problem = message
				return
			}
		}
	}
	s.out.Message = message
}

// say names what is missing.
func (s *measuring) say() {
	if s.out.Message == "" && len(s.missing) > 0 {
		s.out.Message = s.d.Say("Still to read: %s.", strings.Join(s.missing, "; "))
	}
}
