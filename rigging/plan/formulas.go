package plan

// A FormulaGroup is what the model computes of one part of a pull.
type FormulaGroup struct {
	Title string
	Steps []Working // without numbers
}

// The formulas of the model, in the order in which they are worked out.
var formulaGroups = [...]struct {
	title string
	steps []*step
}{
	{"The tree", []*step{&stepVolume, &stepSectionVolume, &stepMass, &stepSectionMass, &stepWeight, &stepCentre, &stepSectionCentre, &stepAhead, &stepLeft, &stepForward, &stepSide, &stepWind, &stepHinge}},
	{"The pull", []*step{&stepAttachAhead, &stepAttachAbove, &stepLever, &stepLevers, &stepStart, &stepPeak, &stepCommit, &stepPlanned, &stepOwnTension, &stepDrift, &stepHingeSide, &stepReliedOn, &stepSideHold, &stepClosing}},
	{"Lines, blocks and tackles", []*step{&stepShare, &stepStretched, &stepHoldTension, &stepNext, &stepBefore, &stepSlope, &stepStem, &stepFixed, &stepMoving, &stepTackle, &stepHauled, &stepHaul, &stepTravel, &stepRope, &stepLength}},
	{"Points and anchors", []*step{&stepAlone, &stepAngle, &stepCorner, &stepSum, &stepLevel, &stepLevelWorst, &stepEqual2, &stepSines, &stepLegs, &stepRated, &stepMachine, &stepTree, &stepLog, &stepPickets, &stepShared, &stepPointUse, &stepLevelUse, &stepJunction}},
	{"Gear", []*step{&stepCapacity, &stepBroken, &stepGreatest, &stepAtPoint, &stepPuller, &stepUse}},
	{"What the puller can do at most", []*step{&stepMostStall, &stepMostDevice, &stepMostGrip, &stepMost, &stepHoldAtMost, &stepLimit, &stepLimitRated, &stepLimitSought}},
}

// Formulas are all formulas of the model with their letters explained.
func Formulas() []FormulaGroup {
	out := make([]FormulaGroup, len(formulaGroups))
	for i, g := range formulaGroups {
		w := workings{}
		for _, s := range g.steps {
			x := w.add(s, None(), make([]float64, len(s.quantities))...)
			x.lettered("T₁", "T₂")
		}
		out[i] = FormulaGroup{g.title, w.list}
	}
	return out
}
