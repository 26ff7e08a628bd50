package rigging

import "math"

// HingeGuide are the usual measures of a felling cut, for a sound stem
// without heavy lean: shares of the stem's diameter, or degrees where the key
// ends in _deg. Good practice, not a standard; local codes go first.
func HingeGuide() []Entry { return copied(hingeTable[:]) }

var (
	hingeSource    = Source{"US OSHA Logging eTool, felling hinge (good practice, no legal standard)", Published}
	faceSource     = Source{"US OSHA Logging eTool, face cut", Published}
	openFaceSource = Source{"US OSHA CPL 2-1.22 on 29 CFR 1910.266(h)(2)(vii)", Published}
)

var hingeTable = [...]Entry{
	{Key: "hinge_length", Name: "hinge length, of the diameter", Value: 0.80, Source: hingeSource},
	{Key: "hinge_thickness", Name: "hinge thickness, of the diameter", Value: 0.10, Source: hingeSource},
	{Key: "face_depth", Name: "face cut depth, of the diameter", Value: 0.25, Low: 0.25, High: 1.0 / 3, Source: faceSource,
		Note: "or until its front is 80 % of the diameter long"},
	{Key: "conventional_face_deg", Name: "opening of a conventional or Humboldt face", Value: 45, Source: faceSource,
		Note: "less is a listed error"},
	{Key: "open_face_deg", Name: "opening of an open face", Value: 70, Low: 70, High: 90, Source: openFaceSource,
		Note: "stays open until the tree is near the ground"},
}

// FindHingeGuide is the measure of that key.
func FindHingeGuide(key string) (Entry, bool) { return findEntry(hingeTable[:], key) }

// GuideHinge is the hinge of those measures for a stem of a diameter (m) at
// the cut; a diameter that is not finite and above 0 gives NaN in every field.
func GuideHinge(diameter float64) Hinge {
	if positive("", diameter, "") != nil {
		return Hinge{math.NaN(), math.NaN(), math.NaN()}
	}
	length, _ := FindHingeGuide("hinge_length")
	thickness, _ := FindHingeGuide("hinge_thickness")
	return Hinge{Length: length.Value * diameter, Left: thickness.Value * diameter, Right: thickness.Value * diameter}
}

// WedgeSegments is how many times the lift of a wedge the top moves: the
// tree's height over the diameter behind it (both m). Source: US OSHA Logging
// eTool, special techniques. NaN unless both are finite and above 0.
func WedgeSegments(height, diameter float64) float64 {
	if positive("", height, "") != nil || positive("", diameter, "") != nil {
		return math.NaN()
	}
	return height / diameter
}
