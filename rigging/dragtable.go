package rigging

// DragCoefficients are drag coefficients of crowns, on the frontal area they
// have in still air. They come from young trees in a wind tunnel at 20 m/s,
// where the crown folds away; in the lighter wind in which a tree may be felled
// it folds less and the coefficient is larger, so the entry for a crown of
// unknown kind is above them all.
func DragCoefficients() []Entry { return copied(dragTable[:]) }

var (
	coniferDrag  = Source{"Wind tunnel measurements of crown streamlining, three conifer species, Can. J. For. Res. 34(3) (2004), at 20 m/s", Published}
	hardwoodDrag = Source{"Wind tunnel measurements of crown streamlining, hardwood species, Can. J. For. Res. 35(5) (2005), at 20 m/s", Published}
)

var dragTable = [...]Entry{
	{Key: "unknown_crown", Name: "crown, not listed", Value: 0.6,
		Note:   "above the wind tunnel's 0.47 since the crown folds less in light wind",
		Source: Source{"allowance on the published figures", CommonPractice}},
	{Key: "western_redcedar", Name: "western redcedar", Value: 0.22, Source: coniferDrag},
	{Key: "western_hemlock", Name: "western hemlock", Value: 0.47, Source: coniferDrag},
	{Key: "lodgepole_pine", Name: "lodgepole pine", Value: 0.47, Source: coniferDrag},
	{Key: "hardwood", Name: "black cottonwood, red alder, paper birch", Value: 0.22, Low: 0.15, High: 0.22, Source: hardwoodDrag},
}

// FindDragCoefficient is the drag coefficient of that key.
func FindDragCoefficient(key string) (Entry, bool) { return findEntry(dragTable[:], key) }
