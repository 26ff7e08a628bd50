package rigging

import "math"

// ForestCrownLeast is the thinnest stem, m, that ForestCrownShare covers.
const ForestCrownLeast = 2.5 * CM

// Where nothing is known of a crown's shape its middle stands at CrownMiddle
// of the tree's height, and the wind finds CrownSail of the height's square: an
// ellipse 0.7 of the height deep and a quarter of it wide. Common practice, no
// source.
const (
	CrownMiddle = 0.65
	CrownSail   = 0.14
)

// A componentRatio is a part's share of a tree's dry mass above ground:
// exp(b0 + b1/d), d the diameter at breast height in cm.
type componentRatio struct{ b0, b1 float64 }

func (r componentRatio) of(diameter float64) float64 { return math.Exp(r.b0 + r.b1/(diameter/CM)) }

// Wood and bark of the stem, hardwood and softwood. Those of the bark are
// from memory.
var (
	hardwoodStem = [2]componentRatio{{-0.3065, -5.4240}, {-2.0129, -1.6805}}
	softwoodStem = [2]componentRatio{{-0.3737, -1.8055}, {-2.0980, -1.1432}}
)

// The crowns of trees grown in the open, for which no figure was found: the
// two ends of what is usual for open-grown broadleaves, 25 to 40 % of the
// tree above ground, the upper end for broadleaves.
var (
	openConiferCrown   = Figure{0.34, Source{"crown 25 % of the whole tree: no figure for conifers in the open, so the lower end of the 25 to 40 % usual for broadleaves there", CommonPractice}}
	openBroadleafCrown = Figure{0.67, Source{"crown 40 % of the whole tree, the upper end of the 25 to 40 % usual for broadleaves in the open", CommonPractice}}
)

const componentText = "component ratios of Jenkins, Chojnacky, Heath and Birdsey (2003), National-scale biomass estimators for United States tree species, Forest Science 49(1):12-35, " +
	"crown = 1 − stem wood − stem bark, over stem wood and bark; dry mass; those of the bark from memory"

var forestCrownSource = Source{componentText, FromMemory}

// ForestCrownShare is the mass of branches and leaves over that of the stem
// with its bark, of a tree grown in a stand, by its diameter at breast height
// (m): (1 − w − k)/(w + k), w and k the shares of stem wood and bark in the
// dry mass above ground, each exp(b0 + b1/d) with d in cm.
//
// Source: Jenkins, Chojnacky, Heath and Birdsey (2003), National-scale biomass
// estimators for United States tree species, Forest Science 49(1):12-35, for
// hardwoods and softwoods as groups; the pair for bark is from memory. The
// share falls as the stem thickens. What is no stem wood or bark counts as
// crown, so it comes out above the branches and leaves of single trees worked
// out in full. Green crowns are taken to hold as much water as green stems.
//
// A diameter that is not finite or is below ForestCrownLeast is a *TableError.
func ForestCrownShare(conifer bool, diameter float64) (float64, error) {
	const hair = 1e-9 // keeps 2.5 cm that has been through a conversion
	if !(diameter >= ForestCrownLeast-hair && diameter <= math.MaxFloat64) {
		return 0, outsideTable("the diameter for the crown's share", diameter/CM, "cm", "2.5 cm and more")
	}
	part := hardwoodStem
	if conifer {
		part = softwoodStem
	}
	stem := part[0].of(diameter) + part[1].of(diameter)
	return (1 - stem) / stem, nil
}

// CrownShare is the figure to take for the crown's mass over the stem's: of
// a tree grown in a stand (forest) by ForestCrownShare, of any other the
// figure for trees in the open, or that of a stand where this is more. More
// crown raises the pull that a tree leaning back needs, and what it puts on the
// hinge to a side, so where nothing is known of the tree the open is to be
// taken. The error is that of ForestCrownShare.
func CrownShare(conifer, forest bool, diameter float64) (Figure, error) {
	stand, err := ForestCrownShare(conifer, diameter)
	if err != nil {
		return Figure{}, err
	}
	open := openBroadleafCrown
	if conifer {
		open = openConiferCrown
	}
	if forest || stand > open.Value {
		return Figure{stand, forestCrownSource}, nil
	}
	return open, nil
}
