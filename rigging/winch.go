package rigging

import "math"

// DrumPull is a drum winch's line pull (N) on a layer of rope (1 is the
// first, on the bare drum) from its pull on the first: the drum's torque is the
// same, so the pull falls as the rope's working diameter grows:
// first·(D0 + d)/(D0 + (2n − 1)·d), D0 the bare drum's diameter and d the
// rope's (m). Statics. A layer below 1 or a measure that is not finite and
// above 0 is a *TableError.
func DrumPull(first, drum, rope float64, layer int) (float64, error) {
	for _, err := range []error{
		positive("the pull on the first layer", first, "N"),
		positive("the diameter of the drum", drum, "m"),
		positive("the diameter of the rope", rope, "m"),
	} {
		if err != nil {
			return 0, err
		}
	}
	if layer < 1 {
		return 0, outsideTable("the layer on the drum", float64(layer), "", "1 (on the bare drum) and more")
	}
	return first * (drum + rope) / (drum + float64(2*layer-1)*rope), nil
}

// DrumRatio is D0/d, the bare drum's diameter over the rope's, that two
// pulls of one winch tell: first (N) on the first layer, pull on a later one.
// A winch plate names only these. A layer below 2 or a pull that is not lower
// than the first is a *TableError.
func DrumRatio(first, pull float64, layer int) (float64, error) {
	if err := positive("the pull on the first layer", first, "N"); err != nil {
		return 0, err
	}
	if layer < 2 {
		return 0, outsideTable("the layer on the drum", float64(layer), "", "2 and more")
	}
	if !(pull > 0 && pull < first) {
		return 0, outsideTable("the pull on the later layer", pull, "N", "above 0 and below that on the first")
	}
	// first/pull = (r + 2n − 1)/(r + 1)
	ratio := (float64(2*layer-1)*pull - first) / (first - pull)
	if !(ratio > 0) {
		return 0, outsideTable("the pull on the later layer", pull, "N", "what a drum with that many layers can give")
	}
	return ratio, nil
}

// LeastWraps is how many turns stay on the drum, so that its rope clamp is
// never loaded. Source: US Army TM 9-2320-279-10-2.
const LeastWraps = 5

// WoundDiameter is the diameter (m) over a length of rope wound on a drum
// of that core diameter and width (all m), taking each turn as a square of the
// rope's diameter: √(D0² + 4·d²·L/(π·w)). NaN unless width is above 0 and the
// others finite and 0 or more.
func WoundDiameter(core, width, rope, length float64) float64 {
	if !(width > 0) {
		return math.NaN()
	}
	return measured(math.Sqrt(core*core+4*rope*rope*length/(math.Pi*width)), core, width, rope, length)
}

// DrumLayer is the layer on which the end of a length of rope comes to lie,
// wound in full, even layers of ⌊width/rope⌋ turns, each a rope's diameter
// higher. All in m. A measure that is not finite and above 0, a rope wider
// than the drum, or more than 100 layers is a *TableError.
func DrumLayer(core, width, rope, length float64) (int, error) {
	for _, err := range []error{
		positive("the diameter of the drum", core, "m"),
		positive("the width of the drum", width, "m"),
		positive("the diameter of the rope", rope, "m"),
		positive("the length of the rope", length, "m"),
	} {
		if err != nil {
			return 0, err
		}
	}
	turns := math.Floor(width/rope + 1e-9)
	if turns < 1 {
		return 0, outsideTable("the diameter of the rope", rope, "m", "no more than the drum's width")
	}
	const most = 100
	for layer := 1; layer <= most; layer++ {
		length -= turns * math.Pi * (core + float64(2*layer-1)*rope)
		if length <= 0 {
			return layer, nil
		}
	}
	return 0, outsideTable("the length of the rope", length, "m more than 100 layers hold", "what the drum holds")
}
