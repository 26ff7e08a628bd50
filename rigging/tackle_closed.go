package rigging

import "math"

// SimpleAdvantage is load ÷ haul of a simple tackle with so many parts on
// its load (1 to 12; 2 or more with HaulMoving), at a sheave efficiency
// (above 0, up to 1):
//
//	haul from the fixed block:  η + η² + … + ηⁿ
//	haul from the moving block: 1 + η + … + ηⁿ⁻¹
//
// The first is the handbook's η(1 − ηⁿ)/(1 − η) (Pipeline Rules of Thumb
// Handbook, "Advantages of block and tackle"), written as the sum so that it
// holds at η = 1 too. Errors are *ReevingError.
func SimpleAdvantage(parts int, haulFrom string, efficiency float64) (float64, error) {
	if err := (TackleStage{parts, haulFrom}).check("stage"); err != nil {
		return 0, err
	}
	if err := checkEfficiency("efficiency", efficiency); err != nil {
		return 0, err
	}
	part := 1.0
	if haulFrom == HaulFixed {
		part = efficiency
	}
	sum := 0.0
	for range parts {
		sum += part
		part *= efficiency
	}
	return sum, nil
}

// CompoundAdvantage is load ÷ haul of stages compounded in order from the
// load (1 to 4 of them): the product of their own. Errors are *ReevingError.
func CompoundAdvantage(stages []TackleStage, efficiency float64) (float64, error) {
	if err := checkStages(stages); err != nil {
		return 0, err
	}
	product := 1.0
	for _, s := range stages {
		a, err := SimpleAdvantage(s.Parts, s.HaulFrom, efficiency)
		if err != nil {
			return 0, err
		}
		product *= a
	}
	return product, nil
}

// FieldLossPerSheave is what the field rule adds to the load for every
// sheave: a tenth of it (Steelworker, volume 2, NAVEDTRA 14251, chapter 6,
// "Allowance for friction").
const FieldLossPerSheave = 0.1

// FieldRulePull is the pull needed by the field rule, in the unit of the
// load: load·(1 + sheaves·lossPerSheave) ÷ ideal advantage (same source).
// It charges every sheave with a share of the whole load, though each turns
// only a part of it; so it asks for more pull than the ratio at each sheave
// gives. Good for a cautious pull, wrong for what an anchor sees: it is no
// substitute for Solve. Errors are *ReevingError.
func FieldRulePull(load float64, sheaves int, advantage, lossPerSheave float64) (float64, error) {
	switch {
	case !(load >= 0) || math.IsInf(load, 0):
		return 0, reevingErrorf("load", "the load is %g; it must be a finite number from 0 up", load)
	case sheaves < 0:
		return 0, reevingErrorf("sheaves", "%d sheaves; it must be 0 or more", sheaves)
	case !(advantage > 0) || math.IsInf(advantage, 0):
		return 0, reevingErrorf("advantage", "the ideal advantage is %g; it must be a finite number above 0", advantage)
	case !(lossPerSheave >= 0 && lossPerSheave <= 1):
		return 0, reevingErrorf("loss per sheave", "the loss is %g of the load; it must be 0 to 1", lossPerSheave)
	}
	return load * (1 + float64(sheaves)*lossPerSheave) / advantage, nil
}
