package brief

import (
	"strings"

	"pullline/rigging/plan"
	"pullline/wasm/draft"
	"pullline/wasm/fields"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// ordered gives the haul of a step of the pull; ok is false where there is none.
func ordered(u *units.System, rep *plan.Report, step string) (haul string, ok bool) {
	for i := range rep.Order.Steps {
		if s := &rep.Order.Steps[i]; s.Step == step && s.HaulKN.Known() {
			return u.Load(float64(s.HaulKN)), true
		}
	}
	return "", false
}

// paidOut tells how much of a hold line, counted among the hold lines, has been let out at which turn of the tree; ""
// where none is.
func paidOut(d *draft.Plan, u *units.System, rep *plan.Report, hold int) string {
	var at []string
	id := ""
	for i := range rep.Order.Stops {
		s := &rep.Order.Stops[i]
		if hold >= len(s.Holds) {
			return ""
		}
		h := &s.Holds[hold]
		id = h.ID
		// As far as the tree has to be pulled and when the line is let go; what an arm's
		// length of rope does not show is left out.
		if h.LetOutM >= 0.05 && (s.KN > 0 || i == len(rep.Order.Stops)-1) {
			at = append(at, d.Say("%s by %s", u.Quantity(float64(h.LetOutM), units.Metres, units.Up), u.Quantity(float64(s.Deg), units.Degrees, units.Nearest)))
		}
	}
	if len(at) == 0 {
		return ""
	}
	return d.Say("Let out of line %s, by the turn of the tree: %s.", id, strings.Join(at, ", "))
}

// people tells where everybody placed on the plan stands, and of the ways out.
func (b *Briefing) people(d *draft.Plan, u *units.System, rep *plan.Report) {
	for i := range rep.People {
		p := &rep.People[i]
		b.Distances = append(b.Distances, Line{Text: words.Join(d.Of(d.Say(words.Verdict[p.Verdict]), p.Message), fields.ClearPlace(d, u, p)), Source: p.Source})
	}
	if len(rep.Escapes) == 2 && rep.Escapes[0].Blocked+rep.Escapes[1].Blocked == "" {
		b.Distances = append(b.Distances, Line{Text: d.Say("Ways out for the {saw operator}, 45° back to either side for at least %s: keep both clear.", u.Quantity(float64(rep.Escapes[0].DistanceM), units.Metres, units.Up)), Source: plan.EscapeSource})
		return
	}
	for i := range rep.Escapes {
		x := &rep.Escapes[i]
		bearing := u.Quantity(float64(x.BearingDeg), units.Degrees, units.Nearest)
		if x.Blocked != "" {
			b.Distances = append(b.Distances, Line{Text: d.Say("Way out for the {saw operator} at a bearing of %s: blocked by %s.", bearing, x.By), Source: plan.EscapeSource})
			continue
		}
		b.Distances = append(b.Distances, Line{Text: d.Say("Way out for the {saw operator} at a bearing of %s, for at least %s: keep it clear.", bearing, u.Quantity(float64(x.DistanceM), units.Metres, units.Up)), Source: plan.EscapeSource})
	}
}
