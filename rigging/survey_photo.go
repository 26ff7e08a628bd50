package rigging

import "math"

// A Pixel is a place in a picture, px to the right and down from its upper
// left corner.
type Pixel struct {
	X float64 `json:"x"`
	Y float64 `json:"y"`
}

// A PhotoUpright says what is taken as plumb in a picture.
type PhotoUpright string

// The uprights.
const (
	PoleUpright    PhotoUpright = "pole"    // the pole in the picture
	PictureUpright PhotoUpright = "picture" // the picture's own edges: the camera was not rolled
)

// A Photo is a whole, uncropped picture of a tree with a pole of known length
// standing upright beside it, and the places marked in it.
//
// The camera is a pinhole: a point at depth X, height Z over the lens and Y to
// the right shows at f·(Y, Z·cos τ − X·sin τ)/(X·cos τ + Z·sin τ) from the
// middle of the picture, τ the camera's tilt upward. f comes from the pole.
// A lens that bends straight lines (wide angle) is not in it.
type Photo struct {
	Width, Height       float64 // px, of the whole picture
	PoleBottom, PoleTop Pixel
	Butt, Top           Pixel  // the stem's middle at the ground, and the top
	StemLow, StemHigh   Pixel  // two places on the stem's middle, far apart
	Attachment          *Pixel // where the line is to sit, on the stem's middle; nil if not marked
	CrownCentre         *Pixel // nil if not marked

	PoleLength Measured // m
	Distance   Measured // m, level, from the camera to the pole
	Beyond     Measured // m, how much farther the tree's foot is than the pole, level; nearer is −
	Tilt       Measured // rad, of the camera, upward +
	Toward     Measured // rad, the stem's lean toward the camera, which the picture does not show; away is −
	Plumb      Measured // rad, by which what is taken as plumb leans to the right
	Upright    PhotoUpright
	PixelError float64 // px, ± of each place marked, both ways
}

// PhotoDefaults is a Photo with what is usual where nothing better is known:
// pole level with the tree, camera level, stem upright toward it, pole plumb,
// each with its ± of Accuracies.
func PhotoDefaults() Photo {
	p := Photo{Upright: PoleUpright}
	p.Beyond, p.Tilt = beyondReading.Read(0), tiltReading.Read(0)
	p.Toward, p.Plumb = towardReading.Read(0), plumbReading.Read(0)
	pixel, _ := FindAccuracy("pixel")
	p.PixelError = pixel.Absolute
	return p
}

// PhotoMeasures is what a Photo tells. The parts of the ± of the height say
// where it comes from.
type PhotoMeasures struct {
	Height      Measured    `json:"height"`                 // m, plumb, of the top over the butt
	Length      Measured    `json:"length"`                 // m, straight from butt to top
	Lean        Measured    `json:"lean"`                   // rad, across the picture, to the right +
	Attachment  *Measured   `json:"attachment,omitempty"`   // m along the stem from the butt
	CrownHeight *Measured   `json:"crown_height,omitempty"` // m along the stem from the butt
	CrownOffset *Measured   `json:"crown_offset,omitempty"` // m, level, off the stem's line, to the right +
	HeightParts []ErrorPart `json:"height_parts"`
}

// An ErrorPart is the share of a ± that one cause has.
type ErrorPart struct {
	Key       string  `json:"key"`
	Name      string  `json:"name"`
	PlusMinus float64 `json:"plus_minus"`
}

var (
	pixelReading      = SurveyReading{Key: "pixel", Name: "a place marked in the picture", Unit: "px", Least: -1e5, Most: 1e5, Accuracy: "pixel"}
	poleLengthReading = SurveyReading{Key: "pole_length", Name: "the length of the pole", Unit: "m", Least: 0.3, Most: 20, Accuracy: "rule"}
	cameraReading     = SurveyReading{Key: "distance", Name: "the level distance from the camera to the pole", Unit: "m", Least: 2, Most: 500, Accuracy: "tape"}
	beyondReading     = SurveyReading{Key: "beyond", Name: "how much farther than the pole the tree stands", Unit: "m", Least: -50, Most: 50, Accuracy: "beside", Optional: true}
	tiltReading       = SurveyReading{Key: "tilt", Name: "the camera's tilt (upward is +)", Unit: "rad", Least: -60 * Deg, Most: 60 * Deg, Accuracy: "camera_tilt", Optional: true}
	towardReading     = SurveyReading{Key: "toward", Name: "the stem's lean toward the camera", Unit: "rad", Least: -45 * Deg, Most: 45 * Deg, Accuracy: "toward", Optional: true}
	plumbReading      = SurveyReading{Key: "plumb", Name: "the lean to the right of what is taken as plumb", Unit: "rad", Least: -20 * Deg, Most: 20 * Deg, Accuracy: "pole_plumb", Optional: true}
	eyeReading        = SurveyReading{Key: "eye", Name: "the camera's height over the foot of the pole", Unit: "m", Least: -20, Most: 50, Accuracy: "rule"}
	photoReadings     = []SurveyReading{poleLengthReading, cameraReading, beyondReading, tiltReading, towardReading, plumbReading}
)

// The order of the numbers in a photo's list of readings.
const (
	photoPoleBottom = 2 * iota
	photoPoleTop
	photoButt
	photoTop
	photoStemLow
	photoStemHigh
	photoAttachment
	photoCrown
	photoPixels // the six other readings follow
)

// shortestPole (px) is the least length of the pole in the picture: with
// marks good to 2 px the scale is then good to about 4 %.
const shortestPole = 60

// MeasurePhoto is what a photo tells of a tree, each with the ± that all its
// readings give it.
//
// What the picture does to the scale, for a tree of height H taken with a pole
// of length L at distance D by a camera that is taken as level:
//   - marks: the height is off by about H·√2·±/p for a pole of p px;
//   - a tree Δ farther than the pole shows H·D/(D + Δ), so H is off by H·Δ/D;
//   - a top nearer by x (a lean toward the camera) shows its height over the
//     lens larger by x/D;
//   - a camera tilted up by τ shows H·(D + z_p·tan τ)/(D + z_t·tan τ), z_p and
//     z_t the heights of the pole's and the tree's top over the lens, so H is
//     off by up to about H·(H − L)·tan τ/D and always short. Stand back, use a
//     long pole, or read the tilt;
//   - a pole that leans sideways by δ turns the lean across by δ, one that
//     leans toward the camera by as much changes the scale by up to L·δ/D.
//
// The lean across the picture is that of the stem's line against what is taken
// as plumb. A curved stem has no one lean.
//
// How: stand a straight pole of known length upright beside the stem; go back
// at least the height of the tree, hold the camera level and the whole tree in
// the picture, near its middle; measure the distance to the pole. Take the
// second picture a quarter turn around the tree.
func MeasurePhoto(p Photo) (PhotoMeasures, error) {
	readings, given, err := p.readings()
	if err != nil {
		return PhotoMeasures{}, err
	}
	view := photoView{p.Width / 2, p.Height / 2, p.Upright == PoleUpright}
	first, ok := view.solve(valuesOf(given))
	if !ok || !(first[photoOutHeight] > 0) {
		return PhotoMeasures{}, &ReadingError{"top", "the top in the picture", "not above the butt in what the pole and the tilt make of it", "marks, distance and tilt that fit together"}
	}
	measure := func(out int, what string) (Measured, error) {
		return workOut(what, readings, given, func(v []float64) float64 {
			o, ok := view.solve(v)
			if !ok {
				return math.NaN()
			}
			return o[out]
		})
	}
	var m PhotoMeasures
	for _, o := range []struct {
		into *Measured
		out  int
		what string
	}{{&m.Height, photoOutHeight, "the height"}, {&m.Length, photoOutLength, "the length"}, {&m.Lean, photoOutLean, "the lean"}} {
		if *o.into, err = measure(o.out, o.what); err != nil {
			return PhotoMeasures{}, err
		}
	}
	optional := func(into **Measured, out int, what string) error {
		v, err := measure(out, what)
		*into = &v
		return err
	}
	if p.Attachment != nil {
		if err := optional(&m.Attachment, photoOutAttachment, "the attachment's height"); err != nil {
			return PhotoMeasures{}, err
		}
	}
	if p.CrownCentre != nil {
		if err := optional(&m.CrownHeight, photoOutCrownHeight, "the crown's height"); err != nil {
			return PhotoMeasures{}, err
		}
		if err := optional(&m.CrownOffset, photoOutCrownOffset, "the crown's offset"); err != nil {
			return PhotoMeasures{}, err
		}
	}
	parts, _ := changes(func(v []float64) float64 { o, _ := view.solve(v); return o[photoOutHeight] }, given)
	m.HeightParts = append(m.HeightParts, ErrorPart{"pixels", "the places marked", together(parts[:photoPixels])})
	for i, r := range photoReadings {
		m.HeightParts = append(m.HeightParts, ErrorPart{r.Key, r.Name, parts[photoPixels+i]})
	}
	return m, nil
}

// photoMarks are the places marked, in their order.
var photoMarks = [...]struct{ key, name string }{
	{"pole_bottom", "the pole's foot"}, {"pole_top", "the pole's top"}, {"butt", "the butt"}, {"top", "the top"},
	{"stem_low", "the lower place on the stem"}, {"stem_high", "the upper place on the stem"},
	{"attachment", "the attachment"}, {"crown_centre", "the crown's centre"},
}

// markReading is one way of a place marked in a picture of that size (px).
func markReading(i int, way string, size float64) SurveyReading {
	r := pixelReading
	r.Key, r.Name, r.Least, r.Most = photoMarks[i].key, photoMarks[i].name+way, 0, size
	return r
}

// readings lists all that goes in, checked.
func (p Photo) readings() ([]SurveyReading, []Measured, error) {
	for _, side := range []float64{p.Width, p.Height} {
		if !(side >= 100 && side <= 1e5) {
			return nil, nil, &ReadingError{"picture", "a side of the picture", short(side, 4) + " px", "100 px to 100000 px"}
		}
	}
	if p.Upright != PoleUpright && p.Upright != PictureUpright {
		return nil, nil, &ReadingError{"upright", "what is taken as plumb", `"` + string(p.Upright) + `"`, string(PoleUpright) + " or " + string(PictureUpright)}
	}
	places := [...]*Pixel{&p.PoleBottom, &p.PoleTop, &p.Butt, &p.Top, &p.StemLow, &p.StemHigh, p.Attachment, p.CrownCentre}
	readings := make([]SurveyReading, 0, photoPixels+len(photoReadings)+1)
	given := make([]Measured, 0, cap(readings))
	for i, at := range places {
		pm := p.PixelError
		if at == nil {
			at, pm = &p.StemHigh, 0 // not used
		}
		readings = append(readings, markReading(i, " across the picture", p.Width), markReading(i, " down the picture", p.Height))
		given = append(given, Measured{at.X, pm}, Measured{at.Y, pm})
	}
	readings = append(readings, photoReadings...)
	// The pole's lean toward the camera changes the scale by up to L·δ/D.
	length := p.PoleLength
	if p.Distance.Value > 0 {
		length.PlusMinus = math.Hypot(length.PlusMinus, length.Value*length.Value*p.Plumb.PlusMinus/p.Distance.Value)
	}
	given = append(given, length, p.Distance, p.Beyond, p.Tilt, p.Toward, p.Plumb)
	if err := checkReadings(readings, given); err != nil {
		return nil, nil, err
	}
	for low := photoPoleBottom; low <= photoStemLow; low += 4 {
		mark := &photoMarks[low/2+1] // the upper of the two
		if up := given[low+1].Value - given[low+3].Value; !(up >= shortestPole) {
			return nil, nil, &ReadingError{mark.key, mark.name, short(up, 4) + " px above the lower mark", short(shortestPole, 4) + " px or more: come nearer or take a finer picture"}
		}
	}
	if !(p.Distance.Value+p.Beyond.Value >= 1) {
		return nil, nil, beyondReading.wrong(p.Beyond.Value, "one that leaves 1 m or more from the camera to the tree")
	}
	return readings, given, nil
}

// What photoView.solve gives, in its order.
const (
	photoOutHeight = iota
	photoOutLength
	photoOutLean
	photoOutAttachment
	photoOutCrownHeight
	photoOutCrownOffset
	photoOuts
)

// photoView is the middle of the picture (px) and what is plumb in it.
type photoView struct {
	middleX, middleY float64
	pole             bool
}

// solve turns marks into metres: false where they fit no camera.
func (w photoView) solve(v []float64) (out [photoOuts]float64, ok bool) {
	length, D, beyond, tilt, toward, plumb := v[photoPixels], v[photoPixels+1], v[photoPixels+2], v[photoPixels+3], v[photoPixels+4], v[photoPixels+5]
	sin, cos := math.Sincos(tilt)
	slope := math.Tan(tilt)
	roll := 0.0
	if !w.pole {
		roll = plumb
	}
	mark := func(i int) (x, y float64) {
		s, c := math.Sincos(roll)
		x, y = v[i]-w.middleX, w.middleY-v[i+1]
		return float64(x*c) - float64(y*s), float64(x*s) + float64(y*c)
	}
	// The pole stands in the upright plane at D. With u = k·y, k = 1/f, its
	// ends are seen at tan(τ + atan u), so that
	// q·(1 − k·y_t·t)·(1 − k·y_b·t) = (1 + t²)·k·(y_t − y_b), q = L/D,
	// t = tan τ: a quadratic in k. Pole lean and roll come in by repetition.
	var k, leaning float64
	ray := func(i int) (forward, right, up float64) {
		x, y := mark(i)
		return cos - y*k*sin, x * k, sin + y*k*cos
	}
	for range 30 {
		_, yt := mark(photoPoleTop)
		_, yb := mark(photoPoleBottom)
		q := length * math.Cos(leaning) / D
		a, b := q*yt*yb*slope*slope, q*slope*(yt+yb)+(1+slope*slope)*(yt-yb)
		k = 2 * q / (b + math.Sqrt(b*b-4*a*q)) // the root that stays as a → 0
		ft, rt, ut := ray(photoPoleTop)
		fb, rb, ub := ray(photoPoleBottom)
		seen := math.Atan2(rt/ft-rb/fb, ut/ft-ub/fb)
		if !(k > 0 && ft > 0 && fb > 0) {
			return out, false
		}
		before := leaning
		if leaning = seen; w.pole {
			roll += seen - plumb
			leaning = plumb
		}
		if math.Abs(seen-plumb)+math.Abs(leaning-before) < 1e-13 {
			break
		}
	}
	// The tree: the plane through the butt that leans toward the camera.
	depth, lean := D+beyond, math.Tan(toward)
	fb, rb, ub := ray(photoButt)
	buttUp, buttRight := ub*depth/fb, rb*depth/fb
	place := func(i int) (right, up float64) {
		f, r, u := ray(i)
		s := (depth + buttUp*lean) / (f + u*lean)
		if !(s > 0 && fb > 0) {
			return math.NaN(), math.NaN()
		}
		return r * s, u * s
	}
	topRight, topUp := place(photoTop)
	lowRight, lowUp := place(photoStemLow)
	highRight, highUp := place(photoStemHigh)
	_, attachUp := place(photoAttachment)
	crownRight, crownUp := place(photoCrown)
	across := (highRight - lowRight) / (highUp - lowUp)
	along := math.Sqrt(1 + across*across + lean*lean) // m along the stem for each m up
	h := topUp - buttUp
	out = [photoOuts]float64{
		photoOutHeight:      h,
		photoOutLength:      math.Sqrt(h*h*(1+lean*lean) + (topRight-buttRight)*(topRight-buttRight)),
		photoOutLean:        math.Atan(across),
		photoOutAttachment:  (attachUp - buttUp) * along,
		photoOutCrownHeight: (crownUp - buttUp) * along,
		photoOutCrownOffset: crownRight - (lowRight + across*(crownUp-lowUp)),
	}
	for _, o := range out {
		if !(math.Abs(o) <= math.MaxFloat64) {
			return out, false
		}
	}
	return out, highUp > lowUp
}

// MeasurePhotoTilt is the camera's tilt (rad) from its height (m) over the
// foot of the pole, with the pole's marks, length and distance: with A and B
// the true angles down to the pole's foot and up to its top,
// tan(A + B) = k·(y_t − y_b)/(1 + k²·y_t·y_b) gives k = 1/f, and the tilt is
// B − atan(k·y_t). Pole near the middle of the picture. Its ± is large for a
// pole that is short in the picture: read the phone's own level if you can.
func MeasurePhotoTilt(p Photo, eye Measured) (Measured, error) {
	readings, given, err := p.readings()
	if err != nil {
		return Measured{}, err
	}
	if err := eyeReading.check(eye); err != nil {
		return Measured{}, err
	}
	readings, given = append(readings, eyeReading), append(given, eye)
	return workOut("the tilt", readings, given, func(v []float64) float64 {
		length, D, e := v[photoPixels], v[photoPixels+1], v[len(v)-1]
		upright := math.Atan2(v[photoPoleTop]-v[photoPoleBottom], v[photoPoleBottom+1]-v[photoPoleTop+1])
		sin, cos := math.Sincos(upright)
		up := func(i int) float64 { return (v[i]-p.Width/2)*sin + (p.Height/2-v[i+1])*cos }
		yt, yb := up(photoPoleTop), up(photoPoleBottom)
		top := math.Atan2(length-e, D)
		T := math.Tan(top + math.Atan2(e, D))
		// T·y_t·y_b·k² − (y_t − y_b)·k + T = 0; the root that stays as T → 0.
		root := math.Sqrt((yt-yb)*(yt-yb) - 4*T*T*yt*yb)
		return top - math.Atan(2*T/(yt-yb+root)*yt)
	})
}

// MeasureLeanOfPhotos is the full lean from two photos whose cameras faced
// those bearings (rad, from the lay), best a quarter turn apart:
// MeasureLeanTwoViews. What one shows across is the other's lean toward the
// camera; put it in there (Toward) and measure both again for less ±.
func MeasureLeanOfPhotos(a PhotoMeasures, facingA Measured, b PhotoMeasures, facingB Measured) (MeasuredLean, error) {
	return MeasureLeanTwoViews(a.Lean, facingA, b.Lean, facingB)
}
