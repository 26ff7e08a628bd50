package rigging

// TreeAnchorTurning are critical turning moments of standing trees, in N·m
// for each kg of stem, at which whole living trees were winched over. They are
// mean slopes of scattered tests, pulled high on the stem; a sling near the
// ground loads the roots in shear as well and the moment overstates the hold.
func TreeAnchorTurning() []Entry { return copied(turningTable[:]) }

const (
	turningText = "K. E. Byrne, Critical turning moments and drag equations for British Columbia conifers, MSc thesis, UBC (2005)"
	turningUnit = "The abstract prints no unit; N·m per kg of stem is the convention of such tests."
)

var turningTable = [...]Entry{
	{Key: "unknown_tree", Name: "tree, not listed", Value: 77.4, Low: 77.4, High: 145.6, Note: "The lowest of the four. " + turningUnit,
		Source: Source{turningText, GroupFigure}},
	{Key: "lodgepole_pine", Name: "lodgepole pine", Value: 145.6, Note: turningUnit, Source: Source{turningText, Published}},
	{Key: "hybrid_spruce", Name: "hybrid spruce", Value: 118.6, Note: turningUnit, Source: Source{turningText, Published}},
	{Key: "western_redcedar", Name: "western redcedar", Value: 94.5, Note: turningUnit, Source: Source{turningText, Published}},
	{Key: "western_hemlock", Name: "western hemlock", Value: 77.4, Note: turningUnit, Source: Source{turningText, Published}},
}

// TreeAnchorGuide is what is taken of a tree that holds a line where it was
// not measured, each low, since the tree is relied on: form factor, green
// density (kg/m³), and the factor between what turns it over and what it may
// carry.
func TreeAnchorGuide() []Entry { return copied(treeAnchorGuide[:]) }

var treeAnchorGuide = [...]Entry{
	{Key: "form_factor", Name: "form factor", Value: 0.35, Low: 0.35, High: 0.50, Note: "the low end of forest stems",
		Source: Source{"usual 0.35 to 0.50 for conifer stems", CommonPractice}},
	{Key: "green_density", Name: "green density", Value: 430, Note: "light wood: less stem holds less",
		Source: Source{"the lightest wood of " + fiaText + ": western redcedar with little sapwood, 433 kg/m³", Derived}},
	{Key: "factor", Name: "factor against pulling it over", Value: 3, Note: "a third of what would turn it over",
		Source: Source{"our own, as trees of one kind differ widely", CommonPractice}},
}

// FindTreeAnchorGuide is the figure of that key.
func FindTreeAnchorGuide(key string) (Entry, bool) { return findEntry(treeAnchorGuide[:], key) }

// FindTreeAnchorTurning is the turning moment of that key.
func FindTreeAnchorTurning(key string) (Entry, bool) { return findEntry(turningTable[:], key) }
