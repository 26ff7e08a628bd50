package survey

import (
	"math"
	"strings"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// A picture tells more than one thing: each has a Use of its own. Up to two
// pictures, best a quarter turn apart, are measured together; the readings of
// the second bear secondPhoto after their keys.

const secondPhoto = "_2"

const (
	eyeName    words.Text = "height of the camera above the base of the pole, if the tilt was not read"
	facingName words.Text = "bearing the camera faced, from the lay"
)

// Readings of a picture besides those that Photo takes.
var (
	photoEye    = rigging.SurveyReading{Key: "eye", Name: string(eyeName), Unit: "m", Least: -20, Most: 50, Accuracy: "tape"}
	photoFacing = rigging.SurveyReading{Key: "facing", Name: string(facingName), Unit: "rad", Least: -2 * math.Pi, Most: 2 * math.Pi, Accuracy: "compass"}
)

// photoPlaces are the marks of a picture: what they are called, where they
// wait to be placed, as shares of its sides, and whether they must be.
var photoPlaces = [...]struct {
	key    string
	label  words.Text
	x, y   float64
	needed bool
}{
	{"pole_bottom", "foot of the pole", 0.66, 0.86, true},
	{"pole_top", "top of the pole", 0.66, 0.68, true},
	{"butt", "foot of the stem", 0.45, 0.86, true},
	{"top", "top of the tree", 0.45, 0.08, true},
	{"stem_low", "middle of the stem, low", 0.45, 0.72, true},
	{"stem_high", "middle of the stem, high", 0.45, 0.4, true},
	{"attachment", "where the rope is to sit", 0.45, 0.52, false},
	{"crown_centre", "middle of the crown", 0.45, 0.28, false},
}

// photoKey is the key of a reading of one of the two pictures; the pole is the
// same in both.
func photoKey(key string, n int) string {
	if n == 0 || key == "pole_length" {
		return key
	}
	return key + secondPhoto
}

// photoReadings are the helper's with the two more.
func (s *measuring) photoReadings() []rigging.SurveyReading {
	r := s.helper.Readings
	return append(r[:len(r):len(r)], photoEye, photoFacing)
}

// markError is the ± of a place marked (px): a finger on a phone does not do
// better than a few thousandths of the picture.
func markError(p photoMarks, usual float64) float64 {
	return math.Max(usual, markShare*math.Max(p.w, p.h))
}

const markShare = 0.0015

// photos measures the pictures there are.
func (s *measuring) photos() {
	for len(s.req.Photos) < 2 {
		s.req.Photos = append(s.req.Photos, photoMarks{})
	}
	now := s.req.Photo
	s.showMarks(s.req.Photos[now])
	var measures [2]*rigging.PhotoMeasures
	for n := range measures {
		rows, missing, wrong := len(s.out.Readings), len(s.missing), s.wrong
		for _, r := range s.photoReadings() {
			s.reading(r, photoKey(r.Key, n), r.Optional || r.Key == photoEye.Key || r.Key == photoFacing.Key)
		}
		if n == now {
			measures[n] = s.photo(n)
			continue
		}
		if p := s.req.Photos[n]; len(s.missing) == missing && s.wrong == wrong && p.w > 0 && s.unmarked(p) == "" {
			measures[n], _ = s.measurePhoto(n)
		}
		// The readings of the picture that is not on the screen are not shown.
		s.out.Readings, s.missing, s.wrong = s.out.Readings[:rows], s.missing[:missing], wrong
	}
	s.photoResults(measures)
}

func (s *measuring) showMarks(p photoMarks) {
	w, h := p.w, p.h
	if !(w > 0 && h > 0) {
		w, h = 3000, 4000 // no picture yet
	}
	s.out.Photo = &Photo{Marks: []Mark{}}
	if p.w > 0 && s.req.Use == "" {
		s.out.Photo.Stored = []float64{p.w, p.h}
	}
	for _, m := range photoPlaces {
		mark := Mark{Key: m.key, Label: words.Capital(s.d.Say(m.label)), X: m.x * w, Y: m.y * h, Needed: m.needed}
		if at, ok := p.marks[m.key]; ok {
			mark.X, mark.Y, mark.Placed = at.X, at.Y, true
		}
		s.out.Photo.Marks = append(s.out.Photo.Marks, mark)
	}
}

// unmarked names the places still to mark.
func (s *measuring) unmarked(p photoMarks) string {
	var names []string
	for _, m := range photoPlaces {
		if _, ok := p.marks[m.key]; m.needed && !ok {
			names = append(names, s.d.Say(m.label))
		}
	}
	return strings.Join(names, "; ")
}

// photo measures the picture on the screen and says what keeps it from that.
func (s *measuring) photo(n int) *rigging.PhotoMeasures {
	p := s.req.Photos[n]
	switch unmarked := s.unmarked(p); {
	case !(p.w > 0 && p.h > 0):
		s.out.Message = s.d.Say("Take or choose a picture of the whole tree with the pole beside it.")
	case unmarked != "":
		s.out.Message = s.d.Say("Still to mark: %s.", unmarked)
	case len(s.missing) > 0 || s.wrong:
	default:
		m, err := s.measurePhoto(n)
		if err != nil {
			s.fault(err)
			return nil
		}
		return m
	}
	return nil
}

// measurePhoto is what one picture tells. Its tilt, where it was not read,
// comes from the height of the camera, if that was.
func (s *measuring) measurePhoto(n int) (*rigging.PhotoMeasures, error) {
	p, taken := rigging.PhotoDefaults(), s.req.Photos[n]
	p.Width, p.Height = taken.w, taken.h
	p.PixelError = markError(taken, p.PixelError)
	for key, into := range map[string]*rigging.Pixel{
		"pole_bottom": &p.PoleBottom, "pole_top": &p.PoleTop, "butt": &p.Butt, "top": &p.Top, "stem_low": &p.StemLow, "stem_high": &p.StemHigh,
	} {
		*into = taken.marks[key]
	}
	if at, ok := taken.marks["attachment"]; ok {
		p.Attachment = &at
	}
	if at, ok := taken.marks["crown_centre"]; ok {
		p.CrownCentre = &at
	}
	for key, into := range map[string]*rigging.Measured{
		"pole_length": &p.PoleLength, "distance": &p.Distance, "beyond": &p.Beyond, "tilt": &p.Tilt, "toward": &p.Toward, "plumb": &p.Plumb,
	} {
		if m, ok := s.given[photoKey(key, n)]; ok {
			*into = m
		}
	}
	eye, ok := s.given[photoKey("eye", n)]
	if _, read := s.given[photoKey("tilt", n)]; ok && !read {
		tilt, err := rigging.MeasurePhotoTilt(p, eye)
		if err != nil {
			return nil, err
		}
		p.Tilt = tilt
		if n == s.req.Photo {
			s.out.Working = append(s.out.Working, s.d.Say("Tilt of the camera from its height: %s ± %s", s.tenths(tilt.Value/rigging.Deg, units.Degrees, units.Nearest), s.tenths(tilt.PlusMinus/rigging.Deg, units.Degrees, units.Up)))
		}
	}
	m, err := rigging.MeasurePhoto(p)
	if err != nil {
		return nil, err
	}
	if n == s.req.Photo {
		for _, part := range m.HeightParts {
			if part.PlusMinus > 0 {
				s.out.Working = append(s.out.Working, s.d.Say("Share of the ± of the height from %s: %s", s.words(part.Name), s.shortText(part.PlusMinus, units.Metres)+s.u.Suffix(units.Metres)))
			}
		}
		s.out.Working = append(s.out.Working, s.d.Say("Each mark is taken as good to ± %s px.", units.Decimal(math.Ceil(p.PixelError), 0)), s.d.Say(plusMinusFormula))
	}
	return &m, nil
}

// photoResults are what the picture on the screen tells, and what both tell
// together.
func (s *measuring) photoResults(measures [2]*rigging.PhotoMeasures) {
	n := s.req.Photo
	m := measures[n]
	if m == nil {
		return
	}
	add := func(key string, name words.Text, unit string, v rigging.Measured, path, use string, label, note words.Text) *outcome {
		s.results = append(s.results, outcome{
			SurveyResult: rigging.SurveyResult{Key: key, Name: string(name), Unit: unit, Measured: v},
			path:         path, use: use, useLabel: s.d.Say(label), note: s.d.Say(note), kept: func() map[string]any { return s.packPhoto(n) },
		})
		return &s.results[len(s.results)-1]
	}
	add("height", "height of the tree, along the stem", "m", m.Length, "tree.height_m", "height", "Use the height", "")
	if m.Attachment != nil {
		path, use := s.attachmentPath(), "attachment"
		if path == "" {
			use = ""
		}
		add("attachment", "height of the rope, along the stem", "m", *m.Attachment, path, use, "Use the rope height", "")
	}
	if m.CrownHeight != nil {
		add("crown_height", "height of the crown's centre, along the stem", "m", *m.CrownHeight, "tree.crown_centre_m", "crown_height", "Use the crown height", "")
	}
	add("lean", "lean seen across the picture, to the right", "rad", m.Lean, "", "", "", "")
	facing, faced := s.given[photoKey("facing", n)]
	_, facedOther := s.given[photoKey("facing", 1-n)]
	both := measures[1-n] != nil && faced && facedOther
	if !both {
		s.results[len(s.results)-1].note = s.d.Say("One picture shows only one component of the {lean}: take a second one a quarter turn around the tree, and type the bearing each camera faced.")
	}
	if both {
		first, second := measures[0], measures[1]
		facing1, facing2 := s.given[photoKey("facing", 0)], s.given[photoKey("facing", 1)]
		lean, err := rigging.MeasureLeanOfPhotos(*first, facing1, *second, facing2)
		if err != nil {
			s.fault(err)
			return
		}
		keep := func() map[string]any { return packViews(first.Lean, facing1, second.Lean, facing2) }
		add("full_lean", "lean from vertical, from both pictures", "rad", lean.Lean, "tree.lean_deg", "lean", "Use the lean", "").kept = keep
		add("full_lean_bearing", "bearing of the lean", "rad", lean.Bearing, "tree.lean_bearing_deg", "lean", "", "").kept = keep
		if first.CrownOffset != nil && second.CrownOffset != nil {
			p, err := rigging.MeasureOffsetTwoViews(*first.CrownOffset, facing1, *second.CrownOffset, facing2)
			if err != nil {
				s.fault(err)
				return
			}
			add("crown_offset", "crown offset, from both pictures", "m", p.Distance, "tree.crown_offset_m", "crown_offset", "Use the crown offset", "")
			add("crown_bearing", "bearing of the crown offset", "rad", p.Bearing, "tree.crown_offset_bearing_deg", "crown_offset", "", "")
			return
		}
	}
	if m.CrownOffset == nil {
		return
	}
	across, use, note := *m.CrownOffset, "", words.Text("To use it, type the bearing the camera faced. Offset toward or away from the camera is not included: a second picture shows it.")
	if faced {
		use, note = "crown_offset", "Offset toward or away from the camera is not included: a second picture shows it."
	}
	turn := math.Pi / 2
	if across.Value < 0 {
		across.Value, turn = -across.Value, -math.Pi/2
	}
	add("crown_offset", "crown offset, across the picture", "m", across, "tree.crown_offset_m", use, "Use the crown offset", note)
	if faced {
		to := rigging.Measured{Value: rigging.AtBearing(facing.Value+turn, 1, 0).Bearing(), PlusMinus: facing.PlusMinus}
		add("crown_bearing", "toward", "rad", to, "tree.crown_offset_bearing_deg", use, "", "")
	}
}

// attachmentPath is the place on the stem that a mark stands for: the one
// measured, or the first of the plan.
func (s *measuring) attachmentPath() string {
	if strings.HasSuffix(s.req.Field, ".stem_m") {
		return s.req.Field
	}
	for i := range s.d.List("lines") {
		path := draft.Elem("lines", i) + ".path"
		for k := range s.d.List(path) {
			if at := draft.Elem(path, k) + ".stem_m"; s.d.Has(at) {
				return at
			}
		}
	}
	return ""
}

// packPhoto is what was read of one picture, as the plan keeps it: the marks,
// not the picture.
func (s *measuring) packPhoto(n int) map[string]any {
	values, pm := map[string]any{}, map[string]any{}
	for _, r := range s.photoReadings() {
		s.packOne(values, pm, r, photoKey(r.Key, n))
	}
	p := s.req.Photos[n]
	values[plan.PictureWidth], values[plan.PictureHeight] = draft.FileNumber(p.w), draft.FileNumber(p.h)
	for _, key := range plan.PhotoMarks {
		if at, ok := p.marks[key]; ok {
			values[key+"_x_px"], values[key+"_y_px"] = draft.FileNumber(at.X), draft.FileNumber(at.Y)
		}
	}
	return packed("photo", values, pm)
}

// packViews keeps the lean of two pictures as that of two views.
func packViews(a, facingA, b, facingB rigging.Measured) map[string]any {
	values, pm := map[string]any{}, map[string]any{}
	for key, m := range map[string]rigging.Measured{"lean_a_deg": a, "facing_a_deg": facingA, "lean_b_deg": b, "facing_b_deg": facingB} {
		values[key] = draft.FileNumber(units.RoundDigits(m.Value/rigging.Deg, 5))
		pm[key] = draft.FileNumber(units.RoundDigits(m.PlusMinus/rigging.Deg, 5))
	}
	return packed("lean_views", values, pm)
}

// unpackMarks turns kept marks back into those of the first picture.
func (s *measuring) unpackMarks(values map[string]any) {
	p := photoMarks{marks: map[string]rigging.Pixel{}}
	p.w, _ = draft.Number(values[plan.PictureWidth])
	p.h, _ = draft.Number(values[plan.PictureHeight])
	for _, key := range plan.PhotoMarks {
		x, okX := draft.Number(values[key+"_x_px"])
		y, okY := draft.Number(values[key+"_y_px"])
		if okX && okY {
			p.marks[key] = rigging.Pixel{X: x, Y: y}
		}
	}
	if len(s.req.Photos) == 0 {
		s.req.Photos = []photoMarks{p}
	} else if !(s.req.Photos[0].w > 0) {
		s.req.Photos[0] = p
	}
}
