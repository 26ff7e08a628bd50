package survey

import (
	"math"

	"pullline/rigging"
	"pullline/wasm/draw"
	"pullline/wasm/keyed"
	"pullline/wasm/words"
)

// picture shows how to stand for a way to measure: a plain picture, not
// to scale, with the readings under the symbols of the formula. Where a reading
// tells that the person stands below or above the tree, so does the picture.
func picture(method string, b draw.Box, given map[string]rigging.Measured, l words.Locale) *draw.Drawing {
	p := &howTo{Canvas: draw.New(b), Locale: l}
	p.unit = math.Min(b.W/32, b.H/22)
	p.origin = draw.Pt{X: b.W/2 - 16*p.unit, Y: b.H/2 + 9.5*p.unit}
	draw, ok := keyed.Find(howToPictures, method)
	if !ok {
		return nil
	}
	title, desc := draw(p, given)
	return p.Finish(title, desc)
}

// A howTo is a picture of 32 by 20 units, x to the right and y up from the
// lower left corner.
type howTo struct {
	*draw.Canvas
	words.Locale
	unit   float64 // px
	origin draw.Pt
}

func (p *howTo) at(x, y float64) draw.Pt {
	return draw.Pt{X: p.origin.X + x*p.unit, Y: p.origin.Y - y*p.unit}
}

func (p *howTo) text(t words.Text, at, toward draw.Pt) {
	p.Label(draw.Label{Text: p.Say(t), Class: "label", At: at, Toward: toward, Prio: draw.PrioMust})
}

func (p *howTo) note(t words.Text, at, toward draw.Pt) {
	p.Label(draw.Label{Text: p.Say(t), Class: "label label-note", At: at, Toward: toward, Prio: draw.PrioNote})
}

// ground is a line through points given by pairs of x and y.
func (p *howTo) ground(xy ...float64) {
	for i := 0; i+1 < len(xy); i += 2 {
		at := p.at(xy[i], xy[i+1])
		if i == 0 {
			p.Move(at)
		} else {
			p.Line(at)
			p.Avoid(p.at(xy[i-2], xy[i-1]), at)
		}
	}
	p.Path("ground", "")
}

// tree stands with its foot at (x, y), h high, its top aside by lean.
func (p *howTo) tree(x, y, h, lean float64) {
	w := h / 26
	crown := p.at(x+0.68*lean, y+0.68*h)
	p.Move(draw.Pt{X: crown.X - 0.17*h*p.unit, Y: crown.Y})
	for _, side := range [...]float64{1, -1} {
		p.Arc(0.17*h*p.unit, 0.34*h*p.unit, lean/h*50, false, true, draw.Pt{X: crown.X + side*0.17*h*p.unit, Y: crown.Y})
	}
	p.Path("crown", "")
	p.Polygon("stem", "", p.at(x-w, y), p.at(x+w, y), p.at(x+lean+0.1, y+h), p.at(x+lean-0.1, y+h))
}

// person stands with the feet at (x, y) and gives the place of the eye.
func (p *howTo) person(x, y, facing float64) draw.Pt {
	const tall = 3.4
	p.Segment("person", "", p.at(x, y), p.at(x, y+tall-1))
	p.Segment("person", "", p.at(x, y+tall-1.5), p.at(x+0.9*facing, y+tall-0.8))
	p.Circle("person-head", "", p.at(x, y+tall-0.45), 0.55*p.unit)
	return p.at(x+0.4*facing, y+tall-0.4)
}

// dim is a dimension line with its text under or beside it.
func (p *howTo) dim(a, b draw.Pt, t words.Text, toward draw.Pt) {
	p.Segment("dim", "", a, b)
	u := b.Minus(a).Unit().Left().Times(0.4 * p.unit)
	for _, end := range [...]draw.Pt{a, b} {
		p.Segment("dim", "", end.Plus(u), end.Minus(u))
	}
	p.text(t, a.Toward(b, 0.5), toward)
}

// sight is a line of sight.
func (p *howTo) sight(a, b draw.Pt) { p.Segment("sight", "", a, b) }

var (
	up    = draw.Pt{X: 0, Y: -1}
	down  = draw.Pt{X: 0, Y: 1}
	right = draw.Pt{X: 1, Y: 0}
	left  = draw.Pt{X: -1, Y: 0}
)

type howToPicture func(*howTo, map[string]rigging.Measured) (title, desc string)

var howToPictures = []keyed.Row[howToPicture]{
	{Key: "height_angles", Value: heightByAngles},
	{Key: "height_slant", Value: heightByRange},
	{Key: "height_stick", Value: heightByStick},
	{Key: "height_arm_stick", Value: heightByStick},
	{Key: "diameter_girth", Value: girth},
	{Key: "lean_offset", Value: leanByOffset},
	{Key: "lean_offsets", Value: leanByOffsets},
	{Key: "lean_views", Value: leanByViews},
	{Key: "offset_plumb", Value: offsetByPlumb},
	{Key: "slope_angle", Value: slopePicture},
	{Key: "slope_rise", Value: slopePicture},
	{Key: "slope_percent", Value: slopePicture},
	{Key: "rise_angle", Value: risePicture},
	{Key: "paced_distance", Value: distanceAlong},
	{Key: "level_distance", Value: distanceAlong},
	{Key: "bearing", Value: bearingPicture},
	{Key: "place_distances", Value: placeByDistances},
	{Key: "place_bearings", Value: placeByBearings},
	{Key: "place_traverse", Value: placeByTraverse},
	{Key: "photo", Value: photoPicture},
}

// stand puts a person before a tree, level with it, above or below, as the
// angle to the foot tells; it gives eye, foot and top.
func (p *howTo) stand(given map[string]rigging.Measured) (eye, foot, top draw.Pt, where words.Text) {
	personY, treeY, h := 2.0, 2.0, 16.5
	where = "level with the base of the tree"
	if m, ok := given["foot"]; ok {
		switch {
		case m.Value > 1*rigging.Deg:
			treeY, personY, h, where = 6.5, 0.6, 12.5, "downhill of the tree, with its base above the eye"
		case m.Value < -12*rigging.Deg:
			treeY, personY, where = 0.8, 5.5, "uphill of the tree"
		}
	}
	p.ground(0, personY, 6, personY, 20, treeY, 32, treeY)
	p.tree(25, treeY, h, 0)
	eye = p.person(3.5, personY, 1)
	foot, top = p.at(25, treeY), p.at(25, treeY+h)
	return eye, foot, top, where
}

func heightByAngles(p *howTo, given map[string]rigging.Measured) (string, string) {
	eye, foot, top, where := p.stand(given)
	level := draw.Pt{X: foot.X, Y: eye.Y}
	p.Segment("far", "", eye, level)
	p.sight(eye, top)
	p.sight(eye, foot)
	mid := p.Angle("angle", eye, right, top.Minus(eye), 5*p.unit)
	p.text("α", eye.Plus(mid.Times(5*p.unit)), mid)
	mid = p.Angle("angle", eye, right, foot.Minus(eye), 8*p.unit)
	p.text("β", eye.Plus(mid.Times(8*p.unit)), right)
	y := math.Max(foot.Y, p.at(0, 0.6).Y) + 0.2*p.unit
	y = math.Min(y+0.6*p.unit, p.H-1.8*p.Font)
	p.dim(draw.Pt{X: eye.X, Y: y}, draw.Pt{X: foot.X, Y: y}, "D, level", down)
	return p.Say("How to stand for two angles"), p.Say("A person stands %s, as far off as the tree is high. From one eye the angle α goes up to the top and the angle β to the base, below level counted negative; D is the level distance to the stem.", p.Say(where))
}

func heightByRange(p *howTo, given map[string]rigging.Measured) (string, string) {
	eye, foot, top, where := p.stand(given)
	p.Segment("far", "", eye, draw.Pt{X: foot.X, Y: eye.Y})
	p.sight(eye, top)
	p.sight(eye, foot)
	p.text("R₁", eye.Toward(top, 0.62), draw.Pt{X: -0.6, Y: -0.8})
	p.text("R₂", eye.Toward(foot, 0.62), draw.Pt{X: -0.3, Y: 0.9})
	mid := p.Angle("angle", eye, right, top.Minus(eye), 5*p.unit)
	p.text("α", eye.Plus(mid.Times(5*p.unit)), mid)
	mid = p.Angle("angle", eye, right, foot.Minus(eye), 8*p.unit)
	p.text("β", eye.Plus(mid.Times(8*p.unit)), right)
	return p.Say("How to stand for a range finder"), p.Say("A person stands %s. From one eye the straight range R₁ goes to the top at the angle α, and the straight range R₂ to the base at the angle β.", p.Say(where))
}

func heightByStick(p *howTo, given map[string]rigging.Measured) (string, string) {
	eye, foot, top, _ := p.stand(nil)
	x := eye.X + 3.2*p.unit
	on := func(q draw.Pt) draw.Pt { return eye.Toward(q, (x-eye.X)/(q.X-eye.X)) }
	p.sight(eye, top)
	p.sight(eye, foot)
	p.Segment("tool", "", on(foot), on(top))
	p.text("L", on(top), draw.Pt{X: -0.3, Y: -1})
	p.note("e", draw.Pt{X: (eye.X + x) / 2, Y: eye.Y}, up)
	y := math.Min(foot.Y+0.8*p.unit, p.H-1.8*p.Font)
	p.dim(draw.Pt{X: eye.X, Y: y}, draw.Pt{X: foot.X, Y: y}, "D, level", down)
	return p.Say("How to hold the stick"), p.Say("A person holds a stick upright at the length e from the eye and has walked to where its length L covers the tree from foot to top; D is the level distance from the eye to the stem.")
}

func girth(p *howTo, _ map[string]rigging.Measured) (string, string) {
	p.ground(2, 2, 19, 2)
	p.tree(14, 2, 40, 0)
	p.Segment("tool", "", p.at(12.3, 8), p.at(15.7, 8))
	p.dim(p.at(11, 2), p.at(11, 8), "breast height", left)
	centre := p.at(25, 9)
	p.Circle("stem-cut", "", centre, 4*p.unit)
	p.Circle("tool", "", centre, 4.5*p.unit)
	p.text("g, once around", draw.Pt{X: centre.X, Y: centre.Y - 4.5*p.unit}, up)
	return p.Say("How to lay the tape"), p.Say("The tape runs once around the stem over the bark, level, at breast height and clear of swellings: g is the girth.")
}

// plumbed draws a stem that leans to one side, with a plumb line from a place
// high up and its offset at the foot.
func (p *howTo) plumbed(x, y, h, lean float64, name words.Text) {
	p.ground(x-6, y, x+6, y)
	p.Polygon("stem", "", p.at(x-0.7, y), p.at(x+0.7, y), p.at(x+lean+0.3, y+h), p.at(x+lean-0.3, y+h))
	high := p.at(x+0.85*lean, y+0.85*h)
	low := p.at(x+0.85*lean, y)
	p.Segment("plumb", "", high, low)
	p.Circle("tool-weight", "", draw.Pt{X: low.X, Y: low.Y - 0.5*p.unit}, 0.5*p.unit)
	p.dim(draw.Pt{X: p.at(x, y).X, Y: p.at(x, y).Y + 0.9*p.unit}, draw.Pt{X: low.X, Y: low.Y + 0.9*p.unit}, name, down)
}

func leanByOffset(p *howTo, _ map[string]rigging.Measured) (string, string) {
	p.plumbed(11, 4, 15, 4.5, "a")
	p.dim(p.at(19, 4), p.at(19, 4+0.85*15), "h", right)
	eye := p.person(28, 4, -1)
	p.ground(17, 4, 32, 4)
	p.Segment("plumb", "", eye.Plus(draw.Pt{X: -p.unit, Y: -1.5 * p.unit}), eye.Plus(draw.Pt{X: -p.unit, Y: 2 * p.unit}))
	p.note("plumb line", eye.Plus(draw.Pt{X: -p.unit, Y: -1.5 * p.unit}), up)
	return p.Say("How to sight the plumb line"), p.Say("A person stands well back, square to the lean, with a plumb line held before the eye against the stem's middle at the height h. At the foot it meets the ground at the offset a from the stem's middle.")
}

func leanByOffsets(p *howTo, _ map[string]rigging.Measured) (string, string) {
	p.plumbed(8, 4, 14, 4, "a")
	p.plumbed(24, 4, 14, -3, "r")
	p.note("from the side", p.at(8, 19.3), up)
	p.note("from behind", p.at(24, 19.3), up)
	return p.Say("How to sight the plumb line twice"), p.Say("Seen square to the {lay}, the plumb line meets the ground at the offset a ahead of the stem's middle; seen from behind along the {lay}, at the offset r to its right. Both are sighted at the same height h.")
}

func leanByViews(p *howTo, _ map[string]rigging.Measured) (string, string) {
	stem := p.at(20, 12)
	p.Circle("stem-cut", "", stem, 1.3*p.unit)
	for i, from := range [...]draw.Pt{p.at(20, 1.5), p.at(6, 12)} {
		p.Circle("person-head", "", from, 0.7*p.unit)
		p.Arrow("sight", "", from, from.Toward(stem, 0.85))
		p.text([]words.Text{"φ₁", "φ₂"}[i], from.Toward(stem, 0.4), []draw.Pt{right, down}[i])
	}
	p.Arrow("lay", "", stem, p.at(20, 20))
	p.note("{lay}", p.at(20, 19), right)
	return p.Say("Where to stand for two views"), p.Say("Seen from above: the lean to the right is read from two places a quarter turn apart around the tree, and each time the bearing faced, φ₁ and φ₂, clockwise from the {lay}.")
}

func offsetByPlumb(p *howTo, _ map[string]rigging.Measured) (string, string) {
	for i, x := range [...]float64{8, 24} {
		hang := []float64{3, -2.5}[i]
		p.ground(x-6, 3, x+6, 3)
		p.Polygon("stem", "", p.at(x-0.6, 3), p.at(x+0.6, 3), p.at(x+0.2, 18), p.at(x-0.2, 18))
		p.Circle("crown", "", p.at(x+hang, 13.5), 4*p.unit)
		p.Segment("plumb", "", p.at(x+hang, 13.5), p.at(x+hang, 3))
		p.dim(p.at(x, 2), p.at(x+hang, 2), []words.Text{"a", "r"}[i], down)
	}
	p.note("from the side", p.at(8, 18.6), up)
	p.note("from behind", p.at(24, 18.6), up)
	return p.Say("How to sight the middle of the crown"), p.Say("Seen square to the {lay}, a plumb line from the middle of the crown meets the ground at a ahead of the stem; seen from behind along the {lay}, at r to its right.")
}

func slopePicture(p *howTo, _ map[string]rigging.Measured) (string, string) {
	p.ground(2, 3, 30, 13)
	a, b := p.at(8, 5.2), p.at(22, 10.2)
	p.Segment("tool", "", b, draw.Pt{X: a.X, Y: b.Y})
	p.Segment("plumb", "", draw.Pt{X: a.X, Y: b.Y}, a)
	p.dim(draw.Pt{X: a.X - p.unit, Y: b.Y}, draw.Pt{X: a.X - p.unit, Y: a.Y}, "z", left)
	p.text("x, level", draw.Pt{X: (a.X + b.X) / 2, Y: b.Y}, up)
	foot := p.at(2, 3)
	p.Segment("far", "", foot, p.at(16, 3))
	mid := p.Angle("angle", foot, right, p.at(30, 13).Minus(foot), 9*p.unit)
	p.text("s", foot.Plus(mid.Times(9*p.unit)), mid)
	return p.Say("How the slope is read"), p.Say("A bar is held level with one end on the ground uphill: x is its length and z the plumb drop from the other end to the ground; s is the slope above level.")
}

func risePicture(p *howTo, _ map[string]rigging.Measured) (string, string) {
	p.ground(0, 3, 6, 3, 24, 9, 32, 9)
	p.tree(2, 3, 14, 0)
	eye := p.person(6, 3, 1)
	mark := p.at(25, 12)
	p.Segment("tool", "", p.at(25, 9), mark)
	p.Segment("far", "", eye, p.at(20, 6))
	p.sight(eye, mark)
	mid := p.Angle("angle", eye, right, mark.Minus(eye), 7*p.unit)
	p.text("α", eye.Plus(mid.Times(7*p.unit)), mid)
	p.dim(p.at(6, 1.8), p.at(25, 1.8), "D, level", down)
	p.note("mark as high as the eye", mark, up)
	return p.Say("How to read the rise"), p.Say("A person at the foot of the tree sights a mark as high over the point as the eye is over the ground: α is the angle above level, D the level distance.")
}

func distanceAlong(p *howTo, _ map[string]rigging.Measured) (string, string) {
	p.ground(0, 3, 32, 11)
	p.tree(5, 4.2, 14, 0)
	for x := 8.0; x < 25; x += 3 {
		p.Circle("person-head", "", p.at(x, 3+x/4+0.6), 0.35*p.unit)
	}
	p.person(26, 9.5, -1)
	p.text("along the ground", p.at(17, 10.5), up)
	p.dim(p.at(5, 2), p.at(26, 2), "D, level", down)
	mid := p.Angle("angle", p.at(0, 3), right, p.at(32, 11).Minus(p.at(0, 3)), 16*p.unit)
	p.Segment("far", "", p.at(0, 3), p.at(20, 3))
	p.text("s", p.at(0, 3).Plus(mid.Times(16*p.unit)), mid)
	return p.Say("Along the slope and level"), p.Say("The tape or the paces go straight along the ground at the slope s; D is the level distance.")
}

// above draws what is seen from above: the stem and the lay.
func (p *howTo) above(x, y float64) draw.Pt {
	stem := p.at(x, y)
	p.Circle("stem-cut", "", stem, 1.1*p.unit)
	p.Arrow("lay", "", stem, p.at(x, y+8))
	p.note("{lay}", p.at(x, y+8), left)
	return stem
}

func bearingPicture(p *howTo, _ map[string]rigging.Measured) (string, string) {
	stem := p.above(12, 6)
	to := p.at(26, 12)
	p.Arrow("sight", "", stem, to)
	p.Circle("point", "", to, 0.6*p.unit)
	mid := p.Angle("angle", stem, up, to.Minus(stem), 5*p.unit)
	p.text("bearing", stem.Plus(mid.Times(5*p.unit)), mid)
	return p.Say("A bearing from the {lay}"), p.Say("Seen from above: with one compass the bearing of the {lay} and that of the thing are read from the stem; their difference is the bearing clockwise from the {lay}.")
}

func placeByDistances(p *howTo, _ map[string]rigging.Measured) (string, string) {
	p.above(6, 4)
	a, b, to := p.at(6, 4), p.at(22, 4), p.at(17, 15)
	p.Circle("point", "", b, 0.6*p.unit)
	p.Segment("far", "", a, b)
	p.sight(a, to)
	p.sight(b, to)
	p.Circle("point", "", to, 0.8*p.unit)
	p.text("a", a.Toward(to, 0.6), left)
	p.text("b", b.Toward(to, 0.5), right)
	return p.Say("A point from two distances"), p.Say("Seen from above: the level distances a and b go to the new point from two points whose places are known, such as the stem and one of the plan's points.")
}

func placeByBearings(p *howTo, _ map[string]rigging.Measured) (string, string) {
	p.above(6, 4)
	a, b, to := p.at(6, 4), p.at(22, 4), p.at(17, 15)
	p.Circle("point", "", b, 0.6*p.unit)
	p.Segment("far", "", a, b)
	p.Arrow("sight", "", a, a.Toward(to, 0.8))
	p.Arrow("sight", "", b, b.Toward(to, 0.8))
	p.Circle("point", "", to, 0.8*p.unit)
	for i, q := range [...]draw.Pt{a, b} {
		mid := p.Angle("angle", q, up, to.Minus(q), 4*p.unit)
		p.text([]words.Text{"a", "b"}[i], q.Plus(mid.Times(4*p.unit)), mid)
	}
	return p.Say("A point from two bearings"), p.Say("Seen from above: the new point is sighted along the bearings a and b, clockwise from the {lay}, from two points whose places are known.")
}

func placeByTraverse(p *howTo, _ map[string]rigging.Measured) (string, string) {
	stem := p.above(6, 4)
	known, to := p.at(18, 9), p.at(27, 3)
	p.sight(stem, known)
	p.Circle("point", "", known, 0.6*p.unit)
	p.Arrow("sight", "", known, to)
	p.Circle("point", "", to, 0.8*p.unit)
	mid := p.Angle("angle", known, up, to.Minus(known), 3.5*p.unit)
	p.text("β", known.Plus(mid.Times(3.5*p.unit)), mid)
	p.text("L", known.Toward(to, 0.7), left)
	return p.Say("A point from a known point"), p.Say("Seen from above: from a point whose place is known the leg L runs along the bearing β, clockwise from the {lay}, to the new point.")
}

func photoPicture(p *howTo, _ map[string]rigging.Measured) (string, string) {
	p.ground(0, 2, 32, 2)
	p.tree(25, 2, 16.5, 0)
	p.Segment("tool", "", p.at(22, 2), p.at(22, 7))
	p.note("pole, upright", p.at(22, 7), up)
	eye := p.person(3.5, 2, 1)
	p.Segment("far", "", eye, p.at(21, 5))
	p.sight(eye, p.at(25, 18.5))
	p.sight(eye, p.at(25, 2))
	p.dim(draw.Pt{X: eye.X, Y: p.at(0, 0.9).Y}, draw.Pt{X: p.at(22, 0).X, Y: p.at(0, 0.9).Y}, "D, level", down)
	return p.Say("How to take the picture"), p.Say("A straight pole of known length stands upright beside the stem. The camera is as far off as the tree is high or farther, held level, with the whole tree in the picture; D is the level distance from the camera to the pole.")
}
