package practice

import (
	"math"
	"strconv"
	"strings"

	"pullline/rigging"
	"pullline/wasm/class/marking"
	"pullline/wasm/draw"
	"pullline/wasm/parts"
	"pullline/wasm/units"
	"pullline/wasm/words"
)

// Questions on friction, tackles and what gear may carry.

const eachSheave words.Text = "efficiency of each sheave: the share of the tension left after it"

// sheave makes up the efficiency of a sheave.
func (q *ask) sheave(of words.Text) float64 {
	e := q.oneOf(0.8, 0.85, 0.9, 0.95)
	q.give("η", e, units.Plain, of)
	return e
}

func askHalfTurn(q *ask) {
	t := q.some(units.Kilonewtons, 8, 40, 2)
	q.give("T₁", t, units.Kilonewtons, "tension toward the tree")
	e := q.sheave("efficiency of its sheave: the share of the tension left after it")
	q.asks("A rope comes back beside itself from a {block} (a half-turn). What tension does the {puller}'s side need to haul it?")
	q.wants(t*rigging.SheaveRatio(e, 0), units.Kilonewtons, marking.Closely)
	q.slip(1, t, sayFriction)
	q.slip(1, t*e, "That multiplies by the efficiency. Friction makes hauling harder, so divide by it.")
	q.slip(1, 2*t, "That is about what the {block} carries, not the rope.")
	q.step("Tension on the {puller}'s side", "T₂ = T₁/η", q.figure(q.want.Value, units.Kilonewtons), "what the efficiency of a sheave means", q.let("T₁", t, units.Kilonewtons), q.let("η", e, units.Plain))
}

// haulWords say where the hauling part leaves, by HaulFixed and HaulMoving.
func haulWords(from string) words.Text {
	if from == rigging.HaulFixed {
		return "The hauling part leaves the fixed {block} at the anchor"
	}
	return "The hauling part leaves the moving {block}, on toward the anchor"
}

// stage makes up a simple tackle.
func (q *ask) stage(least, most int) rigging.TackleStage {
	s := rigging.TackleStage{Parts: least + q.below(most-least+1), HaulFrom: rigging.HaulMoving}
	if q.below(2) == 0 {
		s.HaulFrom = rigging.HaulFixed
	}
	return s
}

func advantage(s rigging.TackleStage, e float64) float64 {
	a, err := rigging.SimpleAdvantage(s.Parts, s.HaulFrom, e)
	if err != nil {
		return math.NaN()
	}
	return a
}

func askTackleCount(q *ask) {
	s := q.stage(2, 5)
	q.asks("Count in the picture: what is the advantage of this {tackle} without friction?")
	q.tell(haulWords(s.HaulFrom))
	r, err := rigging.StagesReeving([]rigging.TackleStage{s})
	q.unfit = err != nil
	solved, err := r.Solve(1)
	q.unfit = q.unfit || err != nil
	n := math.Round(solved.Ideal)
	q.wants(n, units.Plain, marking.Exactly)
	if s.HaulFrom == rigging.HaulFixed {
		q.slip(1, n+1, "That counts the hauling part. It leaves the fixed {block} and does not pull on the moving one.")
		q.slip(1, n-1, "That is one part short: every part between the two {block}s pulls on the moving one.")
	} else {
		q.slip(1, n-1, "That leaves the hauling part out. It leaves the moving {block}, so it pulls on it as well.")
		q.slip(1, n+1, "That is one part too many: count only what pulls on the moving {block}.")
	}
	q.step("Parts of rope that pull on the moving {block}", "advantage = number of parts", q.figure(n, units.Plain), "equilibrium of the moving {block}")
	q.draw = func(c *draw.Canvas) (string, string) { return q.sketchTackle(c, s) }
}

func askTackleHaul(q *ask) {
	s := q.stage(2, 5)
	f := q.some(units.Kilonewtons, 20, 60, 5)
	q.give("F", f, units.Kilonewtons, "tension of the line that the {tackle} hauls")
	q.tell("%s; %s", q.Count(s.Parts, "1 part of rope on the moving {block}", "%s parts of rope on the moving {block}"), q.Say(haulWords(s.HaulFrom)))
	e := q.sheave(eachSheave)
	n := float64(s.Parts)
	q.asks("What haul does this {tackle} need?")
	a := advantage(s, e)
	q.wants(f/a, units.Kilonewtons, marking.Fairly)
	more, less := s, s
	more.Parts++
	less.Parts--
	other := rigging.TackleStage{Parts: s.Parts, HaulFrom: rigging.HaulFixed}
	first, formula := 1.0, words.Text("a = 1 + η + … + ηⁿ⁻¹")
	if s.HaulFrom == rigging.HaulFixed {
		other.HaulFrom, first, formula = rigging.HaulMoving, e, "a = η + η² + … + ηⁿ"
	}
	q.slip(2, f/n, sayFriction)
	q.slip(1, f/advantage(more, e), "That counts one part too many.")
	q.slip(1, f/advantage(less, e), "That counts one part too few.")
	q.slip(2, f/n*e, "That multiplies by the efficiency. Friction makes hauling harder.")
	q.slip(2, f/n/e, "That counts the friction of one sheave only: tension falls again at every sheave.")
	q.slip(2, f/advantage(other, e), "That is for the hauling part leaving the other {block}.")
	q.slip(2, f*a, "That multiplies by the advantage: the haul is the line's tension divided by it.")
	var values []parts.Value
	part := first
	for i := range s.Parts {
		values = append(values, parts.Let("", q.Say("part %s: %s", units.Decimal(float64(i+1), 0), q.figure(part, units.Plain))))
		part *= e
	}
	q.step("Parts on the moving {block}", "n", q.figure(n, units.Plain), "counted")
	q.step("Advantage with friction", formula, q.figure(a, units.Plain), "tension falls by η at every sheave", values...)
	q.step("Haul", "S = F/a", q.figure(q.want.Value, units.Kilonewtons), statics, q.let("F", f, units.Kilonewtons), parts.Let("a", q.figure(a, units.Plain)))
	q.draw = func(c *draw.Canvas) (string, string) { return q.sketchTackle(c, s) }
}

func askCompoundHaul(q *ask) {
	one, two := q.stage(2, 3), q.stage(2, 3)
	one.HaulFrom, two.HaulFrom = rigging.HaulMoving, rigging.HaulMoving
	f := q.some(units.Kilonewtons, 30, 80, 5)
	e := 1.0
	q.give("F", f, units.Kilonewtons, "tension of the line that the {tackle} hauls")
	q.tell("First {tackle}: %s parts on its moving {block}", strconv.Itoa(one.Parts))
	q.tell("Second {tackle}, hauling the first: %s parts", strconv.Itoa(two.Parts))
	q.tell("Both are hauled from the moving {block}")
	e = q.sheave(eachSheave)
	q.asks("One simple {tackle} hauls on another. What haul do both together need?")
	a, err := rigging.CompoundAdvantage([]rigging.TackleStage{one, two}, e)
	q.unfit = err != nil
	q.wants(f/a, units.Kilonewtons, marking.Fairly)
	a1, a2 := advantage(one, e), advantage(two, e)
	q.slip(2, f/float64(one.Parts*two.Parts), sayFriction)
	q.slip(2, f/(a1+a2), "That adds the advantages. One hauls on the other, so they multiply.")
	q.slip(2, f/float64(one.Parts+two.Parts), "That adds the parts. One {tackle} hauls on the other, so their advantages multiply.")
	q.slip(2, f/a1, "That is the haul of the first {tackle} alone.")
	q.slip(1, f/float64(one.Parts*two.Parts)/e, "That counts the friction of one sheave only.")
	sum := func(s rigging.TackleStage) string {
		return strings.Join([]string{"1", "η", "η²"}[:s.Parts], " + ")
	}
	q.stepAs(q.Say("Advantage of the first"), "a₁ = "+sum(one), q.figure(a1, units.Plain), q.Say("tension falls by η at every sheave"), q.let("η", e, units.Plain))
	q.stepAs(q.Say("Advantage of both"), "a = a₁·a₂, a₂ = "+sum(two), q.figure(a, units.Plain), q.Say("the haul of the first is the load of the second"), parts.Let("a₁", q.figure(a1, units.Plain)), parts.Let("a₂", q.figure(a2, units.Plain)))
	q.step("Haul", "S = F/a", q.figure(q.want.Value, units.Kilonewtons), statics, q.let("F", f, units.Kilonewtons), parts.Let("a", q.figure(a, units.Plain)))
}

// tag makes up a working load limit as it is stamped on gear: in tonnes, or
// in pounds where forces are typed in those. It gives it in kN, the slip of
// taking tonnes for kilonewtons (NaN where there are none), and the text.
func (q *ask) tag() (kN, unweighed float64, text string) {
	return q.stamped(q.oneOf(1, 2, 3, 4, 5, 6, 8))
}

// stamped is the limit of so many tonnes, by tag.
func (q *ask) stamped(tonnes float64) (kN, unweighed float64, text string) {
	if q.u == &units.US {
		kN = q.u.Units[units.Kilonewtons].ToFile(units.Round(tonnes*2200, 100, units.Nearest))
		return kN, math.NaN(), q.exact(kN, units.Kilonewtons)
	}
	if q.u == &units.TF {
		kN = tonnes * rigging.TonneForce / rigging.KN
		return kN, math.NaN(), q.exact(tonnes, units.TonnesForce)
	}
	return tonnes * rigging.TonneForce / rigging.KN, tonnes, q.exact(tonnes, units.TonnesForce)
}

// giveTag puts a stamped limit into what is given, and its weight into the
// working where it is in tonnes.
func (q *ask) giveTag(stamped words.Text) (kN, unweighed float64) {
	kN, unweighed, text := q.tag()
	q.tell(stamped, text)
	if !math.IsNaN(unweighed) {
		q.step("Limit as a force", "W = m·g", q.figure(kN, units.Kilonewtons), "weight", parts.Let("m", text), parts.Let("g", "9.81 m/s²"))
	} else {
		q.step("Limit as a force", "W = WLL", q.figure(kN, units.Kilonewtons), "read off the tag", parts.Let("WLL", text))
	}
	return kN, unweighed
}

func askWorkingLimit(q *ask) {
	mbl := q.some(units.Kilonewtons, 60, 240, 10)
	q.give("MBL", mbl, units.Kilonewtons, "minimum breaking load of the rope")
	factor := q.oneOf(3, 4, 5)
	q.give("DF", factor, units.Plain, "design factor")
	entries := []string{"wire_rope_clips", "hand_eye_splice", "wedge_socket"}
	end, ok := rigging.FindTermination(entries[q.below(len(entries))])
	q.unfit = !ok
	q.give("r", end.Value, units.Plain, "share of its strength the end keeps (%s)", q.Say(words.Text(end.Name)))
	q.asks("What working load limit does this rope have, with its end?")
	q.wants(rigging.Capacity(rigging.WorkingLimit(mbl, factor), 1, end.Value), units.Kilonewtons, marking.Closely)
	q.slip(1, mbl*end.Value, "That leaves the design factor out.")
	q.slip(2, mbl/factor, "That leaves out what the end takes off.")
	q.slip(2, mbl/factor/end.Value, "That divides by the share the end keeps: it makes the rope weaker, so multiply.")
	q.slip(2, mbl/factor*(1-end.Value), "That is what the end takes off, not what it leaves.")
	q.step("Working load limit of the rope", "WLL = MBL/DF", q.figure(mbl/factor, units.Kilonewtons), "definition of the design factor", q.let("MBL", mbl, units.Kilonewtons), q.let("DF", factor, units.Plain))
	q.stepAs(q.Say("With its end"), "WLL·r", q.figure(q.want.Value, units.Kilonewtons), q.Source(end.Source), parts.Let("WLL", q.figure(mbl/factor, units.Kilonewtons)), q.let("r", end.Value, units.Plain))
}

func askChokedSling(q *ask) {
	w, unweighed := q.giveTag("WLL = %s, stamped on the {strop}")
	hitch, ok := rigging.FindHitch("choked_textile")
	q.unfit = !ok
	q.give("k", hitch.Value, units.Plain, "factor of a choked round {strop}")
	q.asks("The {strop} is choked round the stem. What load may it carry?")
	q.wants(rigging.Capacity(w, hitch.Value), units.Kilonewtons, marking.Closely)
	q.slip(1, unweighed*hitch.Value, sayMass)
	q.slip(2, w, "That leaves the hitch out: choked, a {strop} holds less.")
	q.slip(2, w/hitch.Value, "That divides by the factor. Choked, a {strop} holds less, so multiply.")
	q.slip(2, w*2, "That is a basket with its legs side by side.")
	q.stepAs(q.Say("Choked"), "W·k", q.figure(q.want.Value, units.Kilonewtons), q.Source(hitch.Source), parts.Let("W", q.figure(w, units.Kilonewtons)), q.let("k", hitch.Value, units.Plain))
}

func askBasketLimit(q *ask) {
	w, unweighed := q.giveTag("WLL = %s, stamped on the {strop}")
	angle, half := q.legs(30, 120, "angle between the two legs of the basket")
	q.asks("The {strop} is a basket round the stem. What load may it carry?")
	k := rigging.BasketFactor(rad(angle))
	q.wants(rigging.Capacity(w, k), units.Kilonewtons, marking.Fairly)
	q.slip(1, unweighed*k, sayMass)
	q.slip(2, w*2, "True only if both legs lie side by side.")
	q.slip(2, w*2*math.Cos(rad(angle)), sayWhole)
	q.slip(2, w*2*math.Sin(rad(half)), saySine)
	q.slip(2, w*k/2, sayOneLeg)
	q.slip(2, w*2*math.Cos(half), sayRadians)
	q.step("Basket factor", "k = 2·cos(γ/2)", q.figure(k, units.Plain), statics, q.let("γ/2", half, units.Degrees))
	q.step("Basket", "W·k", q.figure(q.want.Value, units.Kilonewtons), statics, parts.Let("W", q.figure(w, units.Kilonewtons)), parts.Let("k", q.figure(k, units.Plain)))
	q.draw = func(c *draw.Canvas) (string, string) {
		return q.sketchLegs(c, angle, 1, "", "", "", true)
	}
}

func askChokeAngle(q *ask) {
	w, unweighed := q.giveTag("WLL = %s, stamped on the {strop} for a choke")
	angle := q.some(units.Degrees, 35, 115, 10)
	q.give("α", angle, units.Degrees, "angle of the choke, between the two parts of the {strop} at its eye")
	factor, err := rigging.ChokeFactor(rad(angle))
	q.unfit = err != nil
	bands := rigging.ChokeBands()
	var row []string
	for _, b := range bands {
		row = append(row, q.Of(q.Say(words.Text(b.Name)), q.exact(b.Value, units.Plain)))
	}
	q.tell("Factor by the angle of choke: %s", strings.Join(row, "; "))
	q.asks("The {strop} is choked round the stem at an angle. What load may it carry?")
	q.wants(rigging.Capacity(w, factor), units.Kilonewtons, marking.Fairly)
	q.slip(1, unweighed*factor, sayMass)
	q.slip(2, w, "That leaves the angle of the choke out.")
	for i, b := range bands {
		if b.Value != factor {
			continue
		}
		if i+1 < len(bands) {
			q.slip(2, w*bands[i+1].Value, "That is the next band down: read the band the angle lies in.")
		}
		q.slip(2, w*bands[i-1].Value, "That is the next band up: read the band the angle lies in.")
	}
	q.slip(2, w/factor, "That divides by the factor. A tight choke holds less, so multiply.")
	q.slip(2, w*math.Cos(rad(angle)), "That takes the cosine of the angle: the table has the factors.")
	q.stepAs(q.Say("With the choke"), "W·k", q.figure(q.want.Value, units.Kilonewtons), q.Source(bands[0].Source), parts.Let("W", q.figure(w, units.Kilonewtons)), parts.Let("k", q.exact(factor, units.Plain)))
}
