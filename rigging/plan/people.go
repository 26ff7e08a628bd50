package plan

import (
	"math"
	"slices"

	"pullline/rigging"
	"pullline/rigging/plan/field"
	"pullline/rigging/plan/text"
)

// Who and what is about is placed like a point:
//
//	"people": [{"id": "class", "kind": "students", "bearing_deg": 200, "distance_m": 70, "needed": false}]
//
// needed says that the pull needs them; everybody else stays two tree lengths away.

// A being is one who, or a thing that, is on the plan.
type being struct {
	id, kind, path    string
	bearing, distance float64
	needed            bool
	at                rigging.Vec // level, from the stump
}

// PowerLine is the kind of thing that is its owner's to judge, never ours.
const PowerLine = field.PowerLine

const sawOperator = field.SawOperator

func (r *reader) people(root *object, m *model) {
	seen := map[string]bool{}
	for i, raw := range root.list(field.People) {
		o := root.entry(field.People, i, raw)
		b := being{path: o.path, id: o.name(field.PersonID), kind: o.kind(field.PersonKind)}
		if b.id != "" && seen[b.id] {
			o.problem(CodeTwice, field.PersonID, takes("other_name"), shorten(b.id), "two_people", quote(b.id))
		}
		seen[b.id] = true
		b.bearing = o.number(field.PersonBearing) * rigging.Deg
		b.distance = o.number(field.PersonDistance)
		b.needed = o.flag(field.PersonNeeded)
		b.at = rigging.AtBearing(b.bearing, b.distance, 0)
		o.done()
		m.people = append(m.people, b)
	}
}

// The dangers, the gravest first; each is a code too.
const (
	dangerLands   = "person_lands"
	dangerBight   = "person_bight"
	dangerFlight  = "person_flight"
	dangerRecoil  = "person_recoil"
	dangerLengths = "person_lengths"
	dangerReach   = "person_reach"
)

// dangerOn is what a danger makes of one who stands in it. Our own rule: what the
// published words forbid to people is over; a winch that is in line with its own rope,
// what stands where nobody need be, and who is in reach of a tree that goes astray are
// near. A tree that is left is asked only whether it is in the way.
func dangerOn(danger string, b *being) rigging.Verdict {
	person := b.kind != "building" && b.kind != "tree" && b.kind != PowerLine
	switch danger {
	case dangerLands:
		if b.kind == "tree" {
			return rigging.Near
		}
		return rigging.Over
	case dangerReach:
		switch b.kind {
		case PowerLine:
			return rigging.Over
		case "tree":
			return rigging.Within
		}
		return rigging.Near
	case dangerLengths:
		switch {
		case b.needed || b.kind == "tree" || b.kind == PowerLine:
			return rigging.Within
		case b.kind == "road" || b.kind == "building":
			return rigging.Near
		}
		return rigging.Over
	case dangerRecoil:
		switch {
		case b.kind == "machine_operator" || b.kind == "building":
			return rigging.Near
		case person:
			return rigging.Over
		}
	case dangerBight, dangerFlight:
		switch {
		case person:
			return rigging.Over
		case b.kind == "building":
			return rigging.Near
		}
	}
	return rigging.Within
}

// A hazard is one zone of the pull.
type hazard struct {
	rigging.Zone
	danger string
	line   int     // of a rope, −1 for the tree
	place  string  // the block's
	leg    float64 // m, of rope
	energy float64 // J stored in it, NaN where not known
}

// hazards lists the zones of a pull.
func (e *evaluation) hazards() []hazard {
	if e.zones == nil {
		e.zones = e.findHazards()
	}
	return e.zones
}

func (e *evaluation) findHazards() (out []hazard) {
	reach := LandingReach * e.m.setup.Tree.Height
	add := func(danger string, line int, place string, leg, energy float64, zones ...rigging.Zone) {
		for _, z := range zones {
			out = append(out, hazard{z, danger, line, place, leg, energy})
		}
	}
	drift := 0.0 // as long as the hinge steers
	if e.solved {
		if v := judgeUse(e.sideHold(e.pull.Side)); v == rigging.Over || v == rigging.Unknown {
			drift = e.pull.Drift
		}
	}
	nan := math.NaN()
	add(dangerLands, -1, "", nan, nan, rigging.Landing(reach, LandingAngle, drift)...)
	add(dangerReach, -1, "", nan, nan, rigging.Circle(rigging.Vec{}, reach))
	add(dangerLengths, -1, "", nan, nan, rigging.Circle(rigging.Vec{}, rigging.KeepOutLengths*e.m.setup.Tree.Height))
	for i := range e.m.lines {
		l := &e.m.lines[i]
		stations, places := l.all(), e.placesOf(l)
		for k := 1; k < len(places); k++ {
			leg, energy := places[k].Sub(places[k-1]).Norm(), nan
			if e.solved {
				energy = rigging.StoredEnergy(e.legTension(i, k-1), leg, l.stiff)
			}
			add(dangerRecoil, i, "", leg, energy, rigging.Recoil(places[k-1], places[k])...)
			if k+1 < len(places) {
				b := rigging.Bight{Block: places[k], From: places[k-1], To: places[k+1]}
				add(dangerBight, i, e.placeName(stations[k]), leg, energy, b.Zones()...)
				add(dangerFlight, i, e.placeName(stations[k]), leg, energy, b.Flight())
			}
		}
	}
	return out
}

// all are a line's stations up to its puller.
func (l *line) all() []station {
	if l.tackle == nil {
		return l.stations
	}
	return append(slices.Clone(l.stations), l.tackle.haul...)
}

// placesOf are the places of a line's stations with the tree standing; one that is not
// known is no number.
func (e *evaluation) placesOf(l *line) []rigging.Vec {
	var out []rigging.Vec
	for _, s := range l.all() {
		at := rigging.Vec{X: math.NaN()}
		if s.onStem {
			at = e.m.setup.Tree.Axis().Scale(s.stem - e.m.setup.Stump)
		} else if s.point >= 0 {
			at = e.m.points[s.point].at
		}
		out = append(out, at)
	}
	return out
}

// legTension is what leg k of line i carries as planned (N), the haul's legs after the
// line's own.
func (e *evaluation) legTension(i, k int) float64 {
	la := &e.loads[i]
	if own := la.state.Multiple; k < len(own) {
		return own[k] * la.tension
	} else if k -= len(own); k < len(la.hauls) {
		return la.hauls[k] * la.tension
	}
	return math.NaN()
}

// A judgedBeing is what is said of one.
type judgedBeing struct {
	verdict rigging.Verdict
	why     string // "" where nothing is
	said    text.Saying
	clear   rigging.Vec
	known   bool // of where it is clear
}

// judgeBeing takes the worst danger; of two as bad the graver.
func (e *evaluation) judgeBeing(b *being, all []hazard) judgedBeing {
	out := judgedBeing{verdict: rigging.Within}
	take := func(v rigging.Verdict, key string, args ...any) {
		if out.verdict.Worse(v) != out.verdict {
			out.verdict, out.why, out.said = v, codeOf(key), text.Saying{Key: "why." + key, Args: args}
		}
	}
	if !e.solved || len(e.r.problemsAt(b.path)) > 0 || math.IsNaN(b.bearing+b.distance) || b.kind == "" {
		take(rigging.Unknown, "person_unknown", quote(b.id))
	}
	if b.kind == PowerLine {
		take(rigging.Unknown, "power_line", quote(b.id))
	}
	if math.IsNaN(b.bearing + b.distance + e.m.setup.Tree.Height) {
		return out
	}
	var zones []rigging.Zone
	for i := range all {
		h := &all[i]
		v := dangerOn(h.danger, b)
		if v == rigging.Within {
			continue
		}
		zones = append(zones, h.Zone)
		if !h.Contains(b.at) {
			continue
		}
		id, away := quote(b.id), metres(b.distance, text.Down)
		switch h.danger {
		case dangerLands, dangerReach, dangerLengths:
			take(v, h.danger, id, away, metres(h.Reach, text.Up))
		case dangerRecoil:
			if line := quote(e.m.lines[h.line].id); math.IsNaN(h.energy) {
				take(v, h.danger, id, line, metres(h.leg, text.Up))
			} else {
				take(v, "person_recoil.stored", id, line, metres(h.leg, text.Up), text.Amount{Value: h.energy / 1000, Unit: "kJ", Round: text.Up})
			}
		default:
			take(v, h.danger, id, quote(e.m.lines[h.line].id), quote(h.place))
		}
	}
	if b.kind == sawOperator && e.noWayOut() {
		take(rigging.Near, "no_escape")
	}
	if b.kind != PowerLine && e.solved { // no place is clear but by its owner's word
		out.clear, out.known = rigging.ClearPlace(b.at, zones), true
	}
	return out
}

// judgePeople says of everybody and everything on the plan whether they are clear.
func (e *evaluation) judgePeople() {
	if len(e.m.people) == 0 {
		return
	}
	all := e.hazards()
	e.people = make([]judgedBeing, len(e.m.people))
	for i := range e.m.people {
		b := &e.m.people[i]
		e.people[i] = e.judgeBeing(b, all)
		if p := &e.people[i]; p.verdict != rigging.Unknown || len(e.r.problems) == 0 {
			e.because(p.verdict, p.why, b.path, p.said)
		}
	}
}

// A PersonReport is who or what is on the plan and whether it is clear of the tree and
// the lines: the worst of where the tree lands, two tree lengths for all the pull does
// not need, and what flies when a rope or block lets go.
//
//codec:members
type PersonReport struct {
	ID      string          `json:"id"`
	Kind    string          `json:"kind"`
	Verdict rigging.Verdict `json:"verdict"`
	Why     string          `json:"why"` // code of the worst danger, "" where there is none
	Message string          `json:"message"`
	Source  string          `json:"source"`
	Clear   *ClearReport    `json:"clear"`  // the nearest clear place; null where none can be named
	MoveM   Num             `json:"move_m"` // how far that is

	Saying text.Saying `json:"-"` // what Message says
}

// A ClearReport is a place, as a point is given.
type ClearReport struct {
	BearingDeg Num `json:"bearing_deg"`
	DistanceM  Num `json:"distance_m"`
}

// Where the rules on people are from, by their codes.
var dangerSources = map[string]string{
	dangerLands: sourceLanding, dangerReach: sourceLanding, dangerLengths: sourceOSHA + "; WAC 296-305-07016(1)", dangerRecoil: RecoilSource,
	dangerBight: sourceMGN308Bight, dangerFlight: sourceMGN308Bight, PowerLine: sourcePractice, "person_unknown": sourceModel, "no_escape": EscapeSource,
}

const (
	sourceMGN308Bight = "UK MCA MGN 308 (M+F), 2.2"
	sourceLanding     = "landing"
)

func (e *evaluation) writePeople(rep *Report) {
	for i := range e.people {
		b, p := &e.m.people[i], &e.people[i]
		out := PersonReport{ID: b.id, Kind: b.kind, Verdict: p.verdict, Why: p.why, Source: dangerSources[p.why], MoveM: None(), Saying: p.said}
		if p.why == "" {
			out.Source, out.Saying = sourceLanding, text.Saying{Key: "why.person_clear", Args: []any{quote(b.id)}}
		}
		if p.known {
			away, bearing := p.clear.Norm(), b.bearing
			if p.clear != b.at {
				bearing = p.clear.Bearing()
			}
			out.Clear = &ClearReport{Num(bearing / rigging.Deg), Num(away)}
			out.MoveM = Num(p.clear.Sub(b.at).Norm())
		}
		rep.People = append(rep.People, out)
	}
}

// A ZoneReport is ground where nobody should stand, a sector seen from above.
type ZoneReport struct {
	Danger     string `json:"danger"` // code, as a person's why
	Line       string `json:"line"`   // of a rope, "" for the tree
	XM         Num    `json:"x_m"`    // its apex, along the lay
	YM         Num    `json:"y_m"`    // and to the left
	BearingDeg Num    `json:"bearing_deg"`
	HalfDeg    Num    `json:"half_deg"` // to either side; 180 all round
	ReachM     Num    `json:"reach_m"`
	EnergyKJ   Num    `json:"energy_kJ"` // stored in the rope as planned
}

// writeZones lists where nobody should stand.
func (e *evaluation) writeZones(rep *Report) {
	if e.r.broken {
		return
	}
	for _, h := range e.hazards() {
		z := ZoneReport{Danger: h.danger, XM: Num(h.Apex.X), YM: Num(h.Apex.Y), BearingDeg: Num(math.Mod(h.Toward/rigging.Deg+720, 360)), HalfDeg: Num(h.Half / rigging.Deg),
			ReachM: Num(h.Reach), EnergyKJ: Num(h.energy / 1000)}
		if h.line >= 0 {
			z.Line = e.m.lines[h.line].id
		}
		if z.ReachM.Known() && z.BearingDeg.Known() && z.XM.Known() {
			rep.Zones = append(rep.Zones, z)
		}
	}
}
