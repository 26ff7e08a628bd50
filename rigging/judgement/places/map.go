package places

import (
	"slices"
	"strconv"

	"pullline/rigging"
	"pullline/rigging/plan"
)

// On works the places of a grid out for a point of a plan, read from a text of so many
// bytes. Without Cells the plan has no such point, or the grid too many places.
func On(tree any, size int, point string, g Grid) Answer {
	l := layoutOf(tree)
	moved := slices.IndexFunc(l.points, func(p place) bool { return p.id == point && p.id != "" })
	n := len(g.Bearings) * len(g.Distances)
	if moved < 0 || n == 0 || n > plan.MaxVariations {
		return Answer{Problems: []plan.Problem{}}
	}
	at := "points[" + strconv.Itoa(moved) + "]."
	v := plan.Variations{
		Paths:  []string{at + "bearing_deg", at + "distance_m"},
		Values: make([][]any, 0, n),
		Want:   []string{"verdict", "governing_use", "why", "no_room", "points[" + point + "].verdict", "points[" + point + "].uplift_kN", "points[" + point + "].capacity_kN"},
	}
	for _, b := range g.Bearings {
		for _, d := range g.Distances {
			v.Values = append(v.Values, []any{b, d})
		}
	}
	a := Answer{Cells: make([]Cell, n), Problems: []plan.Problem{}}
	rows := plan.Vary(tree, size, &v).Rows
	for i := range a.Cells {
		c := &a.Cells[i]
		b, d := v.Values[i][0].(float64), v.Values[i][1].(float64)
		*c = Cell{BearingDeg: plan.Num(b), DistanceM: plan.Num(d), Verdict: rigging.Unknown, Use: plan.None(), Why: Unknown}
		if i < len(rows) {
			c.read(rows[i])
			l.points[moved].at = rigging.AtBearing(b*rigging.Deg, d, 0)
			c.RuledOut = c.ruledOut(rows[i], &l, moved)
		} else {
			c.RuledOut = Unknown
		}
		if c.RuledOut == "" && (a.Best == nil || c.Verdict != a.Best.Verdict && c.Verdict == rigging.Within || c.Verdict == a.Best.Verdict && c.Use < a.Best.Use) {
			a.Best = &Best{c.BearingDeg, c.DistanceM, c.Verdict, c.Use}
		}
	}
	return a
}

func (c *Cell) read(row []any) {
	word, _ := row[0].(string)
	for _, v := range []rigging.Verdict{rigging.Within, rigging.Near, rigging.Over} {
		if v.String() == word {
			c.Verdict = v
		}
	}
	if use, ok := row[1].(float64); ok {
		c.Use = plan.Num(use)
	}
	c.Why, _ = row[2].(string)
}

// ruledOut is why the point cannot stand there.
func (c *Cell) ruledOut(row []any, l *layout, moved int) string {
	switch c.Why {
	case string(plan.CodeCannotPull):
		return CannotPull
	case plan.WhyItLands:
		return Lands
	}
	if m := l.points[moved].machine; m != nil && row[4] == rigging.Over.String() {
		uplift, _ := row[5].(float64)
		capacity, known := row[6].(float64)
		switch {
		case !m.Stands(uplift*rigging.KN) && m.Stands(0):
			return Lifts
		case known && capacity*rigging.KN < m.Rated:
			return Slides
		}
	}
	switch {
	case c.Verdict == rigging.Over:
		return Over
	case c.Verdict == rigging.Unknown:
		return Unknown
	case row[3] == true:
		return NoRoom
	case l.pullerInBight():
		return InBight
	}
	return ""
}
