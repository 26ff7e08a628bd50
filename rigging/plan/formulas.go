package plan

import "pullline/rigging/plan/text"

// A FormulaGroup is what the model computes of one part of a pull.
type FormulaGroup struct {
	Title string
	Steps []Working // without numbers
}

// The formulas of the model, in the order in which they are worked out.
var formulaGroups = [...]struct {
	key   string
	steps []*step
}{
	{"tree", []*step{&stepVolume, &stepSectionVolume, &stepMass, &stepSectionMass, &stepWeight, &stepCentre, &stepSectionCentre, &stepAhead, &stepLeft, &stepForward, &stepSide, &stepWind, &stepHinge}},
	{"pull", []*step{&stepAttachAhead, &stepAttachAbove, &stepLever, &stepLevers, &stepStart, &stepPeak, &stepCommit, &stepPlanned, &stepOwnTension, &stepDrift, &stepHingeSide, &stepReliedOn, &stepSideHold, &stepClosing}},
	{"stem", []*step{&stepStemMoment, &stepStemStress, &stepStemUse, &stepStemMost}},
	{"lines", []*step{&stepShare, &stepStretched, &stepHoldTension, &stepNext, &stepBefore, &stepSlope, &stepStem, &stepFixed, &stepMoving, &stepTackle, &stepHauled, &stepHaul, &stepTravel, &stepRope, &stepLength}},
	{"points", []*step{&stepAlone, &stepAngle, &stepCorner, &stepSum, &stepLevel, &stepLevelWorst, &stepEqual2, &stepSines, &stepLegs, &stepRated, &stepMachine, &stepTree, &stepLog, &stepPickets, &stepShared, &stepPointUse, &stepLevelUse, &stepJunction}},
	{"gear", []*step{&stepCapacity, &stepBroken, &stepGreatest, &stepAtPoint, &stepPuller, &stepUse}},
	{"most", []*step{&stepMostStall, &stepMostDevice, &stepMostGrip, &stepMost, &stepHoldAtMost, &stepLimit, &stepLimitRated, &stepLimitSought}},
}

// Formulas are all formulas of the model with their letters explained, said.
func Formulas(v *text.Voice) []FormulaGroup {
	out := make([]FormulaGroup, len(formulaGroups))
	for i, g := range formulaGroups {
		w := workings{}
		for _, s := range g.steps {
			x := w.add(s, None(), make([]float64, len(s.quantities))...)
			x.lettered("T₁", "T₂")
		}
		tellWorking(w.list, v)
		out[i] = FormulaGroup{v.Say(text.Saying{Key: "formulas." + g.key}), w.list}
	}
	return out
}
