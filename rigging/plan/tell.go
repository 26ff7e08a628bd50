package plan

import "pullline/rigging/plan/text"

// Tell says everything in the report that is to be read: until then the messages,
// what is accepted, the reasons of what is assumed and the names in the working are
// empty. Nothing in the program goes by them.
func (r *Report) Tell(v *text.Voice) {
	TellProblems(r.Problems, v)
	for i := range r.Why {
		r.Why[i].Message = v.Say(r.Why[i].Saying)
	}
	for i := range r.Cautions {
		c := &r.Cautions[i]
		c.Message, c.Source = v.Say(c.Saying), v.SayKnown("source", c.Source)
	}
	for i := range r.Assumed {
		r.Assumed[i].Why = v.Say(r.Assumed[i].Saying)
	}
	for i := range r.Order.Steps {
		s := &r.Order.Steps[i]
		s.Message = v.Say(s.Saying)
	}
	for i := range r.People {
		p := &r.People[i]
		p.Message, p.Source = v.Say(p.Saying), v.SayKnown("source", p.Source)
	}
	tellWorking(r.Working, v)
}

// tellWorking says the names of steps and letters and where the formulas are from.
func tellWorking(list []Working, v *text.Voice) {
	for i := range list {
		w := &list[i]
		w.Name, w.Source = v.Say(w.Saying), v.Say(text.Saying{Key: "step." + w.From + ".source"})
		for k := range w.Values {
			w.Values[k].Name = v.Say(w.Values[k].Saying)
		}
	}
}

// TellProblems says problems.
func TellProblems(list []Problem, v *text.Voice) {
	for i := range list {
		p := &list[i]
		p.Message, p.Accepted = v.Say(p.Saying), v.Say(p.Takes)
	}
}
