package plan

import (
	"math"

	"pullline/rigging"
	"pullline/rigging/plan/field"
	"pullline/rigging/plan/text"
)

// The part of the plan that is told to the crew before the cut:
//
//	"brief": {"sequence": ["text"], "signals": [{"sign": "text", "means": "text", "by": "text"}],
//	  "stop_haul_kN": 20, "stop_rope_m": 12, "roles": [{"role": "text", "name": "text"}], "notes": "text"}
//
// Texts are the crew's own and are not judged; the two numbers are held
// against what was computed.

type brief struct {
	stopHaul float64 // N at the puller, NaN where not given
	stopRope float64 // m hauled at the puller, NaN where not given
}

// BriefReport holds what the numbers say for the briefing of the first pull
// line. All of it is unknown while the plan has a problem.
//
//codec:members
type BriefReport struct {
	// StopHaulKN is the haul at which to stop: what the puller may be held to. It
	// is null where that is less than the haul planned, since there is then no
	// room between what may be needed and what is too much.
	StopHaulKN Num `json:"stop_haul_kN"`
	// StopRopeM is the rope hauled at the puller by the time the tree falls by
	// itself, its stretch at planned tension included where StretchKnown: if it
	// has not gone by then, something is not as planned.
	StopRopeM    Num  `json:"stop_rope_m"`
	StretchKnown bool `json:"stretch_known"`
	// KeepOutM is two tree lengths.
	KeepOutM Num `json:"keep_out_m"`
}

// Source of the two tree lengths.
const SourceTwoLengths = sourceOSHA

func (r *reader) brief(root *object, m *model) {
	m.brief = brief{stopHaul: math.NaN(), stopRope: math.NaN()}
	o := root.child(field.Brief)
	if o == nil {
		return
	}
	r.texts(o, field.Sequence)
	r.texted(o, field.Signals)
	m.brief.stopHaul = force(o.number(field.StopHaul))
	m.brief.stopRope = o.number(field.StopRope)
	r.texted(o, field.Roles)
	o.text(field.BriefNotes)
	o.done()
}

// longestEntry is how long an entry of a list of texts may be.
var longestEntry = field.Notes.Row().Most

// texts reads a list of texts.
func (r *reader) texts(o *object, f field.Field) []string {
	list := o.list(f)
	out := make([]string, 0, len(list))
	for i, v := range list {
		s, ok := v.(string)
		switch {
		case !ok:
			r.problem(CodeType, o.item(f, i), takes("text"), shown(v), "entry_text")
		case len(s) > longestEntry:
			r.problem(CodeTooLong, o.item(f, i), takes("characters", longestEntry), nil, "entry_long", longestEntry)
		}
		out = append(out, s)
	}
	return out
}

// texted reads a list of objects that hold nothing but texts.
func (r *reader) texted(o *object, f field.Field) {
	texts := f.Children()
	for i, v := range o.list(f) {
		item := o.entry(f, i, v)
		for _, t := range texts {
			item.text(t)
		}
		item.done()
	}
}

// mainHaul is the haul (N) of the first pull line at planned tension, NaN
// where it is not known.
func (e *evaluation) mainHaul() float64 {
	main := e.mainLine()
	if !e.solved || main < 0 {
		return math.NaN()
	}
	return e.loads[main].haul * e.loads[main].tension
}

// ropeAtCommit is the rope hauled (m) at the puller of the first pull line
// until the tree falls by itself, NaN where it is not known, and whether the
// stretch of the line at planned tension is in it. What stretches in a tackle
// itself is left out.
func (e *evaluation) ropeAtCommit(rep *Report) (rope float64, stretched bool) {
	main := e.mainLine()
	if !e.solved || main < 0 {
		return math.NaN(), false
	}
	rope = e.pull.Haul[main]
	line, hauled := 0.0, 0.0
	for _, leg := range rep.Lines[main].Legs {
		if leg.Hauling {
			hauled += float64(leg.StretchM)
		} else {
			line += float64(leg.StretchM)
		}
	}
	stretched = !math.IsNaN(line + hauled)
	if stretched {
		rope += line
	}
	rope *= e.advantage(main)
	if stretched {
		rope += hauled
	}
	return rope, stretched
}

func (e *evaluation) writeBrief(rep *Report) {
	if len(e.r.problems) > 0 || !e.solved {
		return
	}
	rep.Brief.KeepOutM = Num(2 * e.m.setup.Tree.Height)
	rope, stretched := e.ropeAtCommit(rep)
	rep.Brief.StopRopeM, rep.Brief.StretchKnown = Num(rope), stretched
	if !e.noRoom {
		rep.Brief.StopHaulKN = Num(e.holdTo / rigging.KN)
	}
}

// advantage is the rope hauled at a line's puller for each metre the line comes
// in; NaN where its tackle cannot be used.
func (e *evaluation) advantage(i int) float64 {
	switch t := e.m.lines[i].tackle; {
	case t == nil:
		return 1
	case !t.usable:
		return math.NaN()
	default:
		return t.result.Ideal
	}
}

// cautionBrief holds the crew's stop conditions against what was computed.
func (e *evaluation) cautionBrief(rep *Report) {
	main := e.mainLine()
	if !e.solved || main < 0 {
		return
	}
	const slack = 1 + 1e-9 // of rounding
	b, ll := &e.m.brief, &e.loads[main]
	if b.stopHaul > e.holdTo*slack {
		e.caution("stop_above_limit", "brief.stop_haul_kN", sourceStatics,
			kilonewtons(b.stopHaul), heldKilonewtons(e.holdTo))
	}
	if need := ll.haul * e.pull.Peak * e.m.lines[main].share; b.stopHaul*slack < need {
		e.caution("stop_below_need", "brief.stop_haul_kN", sourceStatics,
			heldKilonewtons(b.stopHaul), kilonewtons(need))
	}
	if rope, _ := e.ropeAtCommit(rep); b.stopRope*slack < rope {
		e.caution("stop_rope_short", "brief.stop_rope_m", sourceStatics,
			metres(b.stopRope, text.Down), metres(rope, text.Up))
	}
}
