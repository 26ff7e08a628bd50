package drag

import (
	"math"
	"strconv"
	"strings"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/rigging/plan/field"
	"pullline/wasm/draft"
	"pullline/wasm/draw"
	"pullline/wasm/parts"
	"pullline/wasm/request"
	"pullline/wasm/scene"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// What dragging sets is rounded so that typing it would not be tedious; fine
// is for the finer of the two, given by the page.
const (
	stemStep, stemFine         = 0.1, 0.01 // m
	distanceStep, distanceFine = 0.1, 0.01 // m
	bearingStep, bearingFine   = 0.5, 0.1  // degrees
	leanStep, leanFine         = 0.1, 0.1  // degrees
)

// One press of an arrow key.
const (
	keyStem, keyStemFine   = 0.1, 0.01 // m along the stem
	keyPoint, keyPointFine = 0.5, 0.1  // m over the ground
	keyLean, keyLeanFine   = 0.5, 0.1  // degrees
)

// mostLean is as far as dragging leans a tree, degrees: as far as the plan accepts.
var mostLean = field.Lean.Row().Range.Max

// asked is what the page sends besides the plan and the settings.
//
//codec:request
type asked struct {
	request.Pointing
	Boxes scene.Boxes `json:"boxes" read:"drawn"` // the drawings as they were when the drag began
}

func drawn(v any) scene.Boxes {
	return scene.Boxes{Side: request.Box(draft.Member(v, "side")), Plan: request.Box(draft.Member(v, "plan"))}
}

// JSON answers a drag of a handle, or a step from the keyboard, with Changes.
//
//codec:call request.Common asked parts.Changes
func JSON(raw []byte) []byte {
	var a asked
	return request.Change(raw, a.Take, func(w *request.Common, d *draft.Plan, u *units.System) parts.Changes {
		rep := w.Report()
		return drag(&a, d, u, &rep)
	})
}

func pick(fine bool, coarse, finer float64) float64 {
	if fine {
		return finer
	}
	return coarse
}

// drag answers a handle being dragged to a place in its drawing, or moved by
// steps from the keyboard. The place is carried back to the ground by the
// layout the drawing was made with, and kept inside what that has in view. The
// page sends the frame of the drawing in which the drag began, lest the scale
// change under the pointer.
func drag(req *asked, d *draft.Plan, u *units.System, rep *plan.Report) parts.Changes {
	s := scene.New(d, rep, u)
	if !draw.Finite(req.X) || !draw.Finite(req.Y) {
		return parts.Changes{Message: d.Say("The place dragged to is not a number.")}
	}
	view, what, _ := strings.Cut(req.Handle, "/")
	g := dragging{Locale: d.Locale, s: s, req: req, keys: req.StepX != 0 || req.StepY != 0}
	switch view + "/" {
	case scene.SideIDs:
		if !req.Boxes.Side.Drawable() && !g.keys {
			return parts.Changes{Message: d.Say("There is no side view to drag in.")}
		}
		g.box = req.Boxes.Side
		g.l = s.SideLayout(g.box)
		g.side = true
	case scene.PlanIDs:
		if !req.Boxes.Plan.Drawable() && !g.keys {
			return parts.Changes{Message: d.Say("There is no plan view to drag in.")}
		}
		g.box = req.Boxes.Plan
		g.l = s.PlanLayout(g.box)
	default:
		return noHandle(d.Locale, req.Handle)
	}
	parts := strings.Split(what, "/")
	switch {
	case what == "lean" && s.Tree:
		return g.lean()
	case len(parts) == 2 && parts[0] == "point":
		if i, err := strconv.Atoi(parts[1]); err == nil && i >= 0 && i < len(s.Points) && s.Points[i].Known {
			return g.point("points", s.Points[i].Index, s.Points[i].At)
		}
	case len(parts) == 2 && parts[0] == "person":
		if i, err := strconv.Atoi(parts[1]); err == nil && i >= 0 && i < len(s.People) && s.People[i].Known && !g.side {
			return g.point("people", s.People[i].Index, s.People[i].At)
		}
	case len(parts) == 3 && parts[0] == "stem" && g.side && s.Tree:
		i, err1 := strconv.Atoi(parts[1])
		k, err2 := strconv.Atoi(parts[2])
		if err1 == nil && err2 == nil && i >= 0 && i < len(s.Lines) && k >= 0 && k < len(s.Lines[i].Stations) && s.Lines[i].Stations[k].Stem && s.Lines[i].Stations[k].Known {
			return g.stem(i, k)
		}
	}
	return noHandle(d.Locale, req.Handle)
}

func noHandle(l words.Locale, id string) parts.Changes {
	return parts.Changes{Message: l.Say("There is nothing to drag called %s.", strconv.Quote(id))}
}

type dragging struct {
	words.Locale
	s    *scene.Scene
	req  *asked
	box  draw.Box
	l    draw.Layout
	side bool
	keys bool
}

// pointer is where the handle is dragged to, metres right and up in the
// view, kept inside what is in view.
func (g dragging) pointer() (right, up float64) {
	right, up = g.l.FromPx(draw.Pt{X: g.req.X, Y: g.req.Y})
	return min(max(right, -g.l.Left), g.l.Right), min(max(up, -g.l.Down), g.l.Up)
}

func set(value float64, at ...any) parts.Change { return parts.Change{Op: "set", At: at, Value: value} }

// stem moves a line's place up and down the stem.
func (g dragging) stem(i, k int) parts.Changes {
	s := g.s
	h := s.Lines[i].Stations[k].H
	step := pick(g.req.Fine, stemStep, stemFine)
	if g.keys {
		h = units.Snap(h+float64(g.req.StepY+g.req.StepX)*pick(g.req.Fine, keyStem, keyStemFine), step)
	} else {
		// The foot of the perpendicular from the pointer to the stem.
		x, z := g.pointer()
		a := draw.Pt{X: s.Axis.X, Y: s.Axis.Z}
		n := a.X*a.X + a.Y*a.Y
		if n < 1e-6 {
			return parts.Changes{Message: g.Say("The {stem} points straight out of the drawing: type the height.")}
		}
		h = units.Snap(s.Stump+(x*a.X+(z-s.Stump)*a.Y)/n, step)
	}
	h = min(max(h, s.Stump), s.Height)
	at := draft.Elem(draft.Elem("lines", i)+".path", k) + ".stem_m"
	return parts.Changes{Changes: []parts.Change{set(h, "lines", i, "path", k, "stem_m")}, Focus: at}
}

// point moves an entry of a list over the ground; in the side view along the lay only.
func (g dragging) point(list string, i int, at rigging.Vec) parts.Changes {
	x, y := at.X, at.Y
	bearingTo, distanceTo := pick(g.req.Fine, bearingStep, bearingFine), pick(g.req.Fine, distanceStep, distanceFine)
	if g.keys {
		step := pick(g.req.Fine, keyPoint, keyPointFine)
		x += step * float64(g.req.StepX)
		if !g.side {
			y += step * float64(g.req.StepY)
		}
		// Bearings fine enough that a step far out is not rounded away.
		bearingTo, distanceTo = 0.1, distanceFine
		if math.Hypot(x, y) > 100 || g.req.Fine {
			bearingTo = 0.01
		}
	} else if g.side {
		x, _ = g.pointer()
		// The side view keeps the lateral offset, so it needs the finer
		// bearing lest the point wander off sideways.
		bearingTo, distanceTo = 0.1, distanceFine
		if y == 0 {
			distanceTo = pick(g.req.Fine, distanceStep, distanceFine)
		}
	} else {
		x, y = g.pointer()
	}
	to := rigging.Vec{X: x, Y: y}
	bearing, distance := to.Bearing()/rigging.Deg, to.Horizontal()
	most := field.PointDistance
	if list == field.People.Key() {
		most = field.PersonDistance
	}
	distance = min(units.Snap(distance, distanceTo), most.Row().Range.Max)
	bearing = math.Mod(units.Snap(bearing, bearingTo), 360)
	if distance == 0 {
		bearing = at.Bearing() / rigging.Deg // on the stem: keep where it came from
		bearing = units.Snap(bearing, bearingTo)
	}
	return parts.Changes{Changes: []parts.Change{
		set(bearing, list, i, "bearing_deg"),
		set(distance, list, i, "distance_m"),
	}, Focus: draft.Elem(list, i)}
}

// lean moves the top of the tree: in the side view forward and back, the
// sideways part kept; seen from above both.
func (g dragging) lean() parts.Changes {
	s := g.s
	step := pick(g.req.Fine, keyLean, keyLeanFine) * rigging.Deg
	length := s.Height - s.Stump
	var lean, bearing float64
	switch {
	case g.side:
		// The lean as seen: the stem's slope in the plane of the lay.
		seen := math.Atan2(s.Axis.X, s.Axis.Z)
		if g.keys {
			seen += step * float64(g.req.StepX)
		} else {
			x, z := g.pointer()
			seen = math.Atan2(x, max(z-s.Stump, 0.05*length))
		}
		seen = units.Snap(seen/rigging.Deg, leanStep) * rigging.Deg
		seen = min(max(seen, -mostLean*rigging.Deg), mostLean*rigging.Deg)
		// With the sideways part y kept, x/z = tan(seen) and x² + z² = 1 − y².
		y := s.Axis.Y
		r := math.Sqrt(max(1-y*y, 0))
		sin, cos := math.Sincos(seen)
		return leanChange(s, rigging.Vec{X: r * sin, Y: y, Z: r * cos}, 0.01, 0.1)
	case g.keys:
		sin := math.Sin(step)
		x, y := s.Axis.X+sin*float64(g.req.StepX), s.Axis.Y+sin*float64(g.req.StepY)
		return leanChange(s, upright(x, y), leanStep, 0.1)
	}
	x, y := g.pointer()
	lean, bearing = pick(g.req.Fine, leanStep, leanFine), pick(g.req.Fine, bearingStep, bearingFine)
	return leanChange(s, upright(x/length, y/length), lean, bearing)
}

// upright completes a direction seen from above to a unit vector, as far
// down as dragging may lean the tree.
func upright(x, y float64) rigging.Vec {
	r := math.Hypot(x, y)
	if most := math.Sin(mostLean * rigging.Deg); r > most {
		x, y, r = x*most/r, y*most/r, most
	}
	return rigging.Vec{X: x, Y: y, Z: math.Sqrt(max(1-r*r, 0))}
}

func leanChange(s *scene.Scene, a rigging.Vec, leanTo, bearingTo float64) parts.Changes {
	bearing, flat := a.Bearing()/rigging.Deg, a.Horizontal()
	lean := min(units.Snap(math.Atan2(flat, a.Z)/rigging.Deg, leanTo), mostLean)
	bearing = math.Mod(units.Snap(bearing, bearingTo), 360)
	out := parts.Changes{Changes: []parts.Change{set(lean, "tree", "lean_deg")}, Focus: "tree.lean_deg"}
	if lean > 0 { // an upright tree keeps the bearing it had
		out.Changes = append(out.Changes, set(bearing, "tree", "lean_bearing_deg"))
	}
	return out
}
