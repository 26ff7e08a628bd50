package rigging

import "slices"

// A Figure is one value of a table with where it comes from.
type Figure struct {
	Value  float64 `json:"value"`
	Source Source  `json:"source"`
}

// A Species gives the figures a plan starts from where the crew has none of
// its own. Every one of them is an estimate: trees of one species differ by a
// fifth and more in mass and strength, and a measured value is always better.
type Species struct {
	Key       string `json:"key"`
	Name      string `json:"name"`
	Botanical string `json:"botanical"`
	Conifer   bool   `json:"conifer"`

	// Density is that of the green stem with its bark, kg/m³. Where sources
	// differ it is the highest, since the tree's mass sizes the pull.
	Density Figure `json:"density_kgm3"`

	// Strength is the green wood's mean bending strength, Pa, the highest
	// where sources differ, since it sizes the pull that bends the hinge. How
	// well the hinge holds the stem sideways would want it low; the one figure
	// serves for both, which makes the side hold an estimate on the high side.
	// Single pieces scatter around the mean by 12 to 19 % (standard deviation
	// over mean in the unseasoned clear-wood table cited below).
	Strength Figure `json:"strength_Pa"`

	// FormFactor is the stem's volume over bark over that of a cylinder of
	// its breast-height diameter and its height.
	FormFactor Figure `json:"form_factor"`

	// CrownShare is the mass of branches and leaves over that of the whole
	// stem with bark (not over the whole tree).
	CrownShare Figure `json:"crown_share"`
}

// GreenDensity is the density of green wood, kg/m³: oven-dry mass per green
// volume (basic density, kg/m³) and the water in it, by mass of dry wood
// (moisture 0.8 for 80 %). The definition in the USDA Wood Handbook, ch. 4.
func GreenDensity(basic, moisture float64) float64 { return basic * (1 + moisture) }

// OverBarkDensity is the density of wood and bark together, kg/m³;
// barkShare is the bark's volume over the wood's.
func OverBarkDensity(wood, bark, barkShare float64) float64 {
	return (wood + barkShare*bark) / (1 + barkShare)
}

const (
	fiaText   = "USDA Forest Service, Forest Inventory and Analysis database, table REF_SPECIES (2023): basic density, moisture and bark share"
	gwddText  = "basic density of the Global Wood Density Database v.2 (Fischer et al. 2026) with the moisture of USDA Forest Service table REF_SPECIES"
	osuText   = "Oregon State University, Oregon Wood Innovation Center, relative working and physical properties: green weight"
	ukText    = "UK forestry conversion tables for freshly felled timber"
	fplText   = "USDA Wood Handbook FPL-GTR-190 (2010), Table 5-3a, green"
	clearText = "table of unseasoned clear-wood strength of the kind of ASTM D2555"
	lavText   = "Lavers, The strength properties of timber, FPRL Bulletin 50 (1969), green"
	wholeText = "from the worked example of Westfall et al. (2024), USDA Forest Service GTR-WO-104"
)

// Sources that many lines share.
var (
	fiaSource     = Source{fiaText, Derived}
	osuSource     = Source{osuText, Published}
	ukSource      = Source{ukText, FromMemory}
	gwddSource    = Source{gwddText, Derived} // with the moisture of the species itself
	gwddEucalypts = Source{gwddText + " for eucalypts as a group", Derived}

	fplSource    = Source{fplText, Published}
	fplRecalled  = Source{fplText, FromMemory}
	clearSource  = Source{clearText, Published}
	laversSource = Source{lavText, FromMemory}
)

// Figures that many lines share, as little is published.
var (
	coniferForm   = Figure{0.45, Source{"upper half of the usual 0.35 to 0.50; one Douglas-fir gives 0.424 (Westfall et al. 2024)", FromMemory}}
	broadleafForm = Figure{0.454, Source{wholeText + ", one red maple: (9.427 + 2.155) ft³ over π/4 · (11.1 in)² · 38 ft", GroupFigure}}

	forestCrown    = Figure{0.20, Source{"crown about 17 % of the whole tree, of the usual 10 to 20 %; one forest Douglas-fir gives 0.13 of the stem (Westfall et al. 2024)", FromMemory}}
	openCrown      = Figure{0.25, Source{"crown 20 % of the whole tree, the upper end of the usual 10 to 20 % for conifers", FromMemory}}
	broadleafCrown = Figure{0.463, Source{wholeText + ", one red maple: (135.0 + 22.8) lb over (288.24 + 52.95) lb dry", GroupFigure}}

	gumStrength    = Figure{80 * MPa, Source{"blue gum, upper end of 75 to 80 MPa in wood-strength literature, used for gums without a figure", FromMemory}}
	commonStrength = Figure{66 * MPa, Source{"no figure for this species: the highest recalled for common broadleaves of its kind (European ash, " + lavText + ")", FromMemory}}
)

// SpeciesTable is the table of species: conifers, broadleaves, and one
// cautious entry for each where the species is not known.
func SpeciesTable() []Species { return slices.Clone(speciesTable[:]) }

// speciesTable lists key, name, botanical name, whether it is a conifer,
// density, strength, form factor and crown share. A density written as a
// product is basic density × (1 + moisture), as GreenDensity has it.
var speciesTable = [...]Species{
	{"unknown_conifer", "conifer, not known", "", true,
		Figure{1020, Source{"the heaviest conifer of this table", Derived}},
		Figure{60 * MPa, Source{fplText + ": slash pine, stronger than any conifer of this table", Published}},
		Figure{0.50, Source{"upper end of the usual 0.35 to 0.50", FromMemory}},
		openCrown},
	{"unknown_broadleaf", "broadleaf, not known", "", false,
		Figure{1205, Source{"the heaviest broadleaf of this table, rounded up", Derived}},
		Figure{66 * MPa, Source{"the strongest of this table's common broadleaves; gums and robinia reach 80 to 95 MPa", Derived}},
		Figure{0.50, Source{"upper end of the usual 0.35 to 0.50", FromMemory}},
		Figure{0.67, Source{"crown 40 % of the whole tree, the upper end of the usual 25 to 40 % for open-grown broadleaves", FromMemory}}},

	{"radiata_pine", "radiata pine", "Pinus radiata", true,
		Figure{1000, Source{"New Zealand log-weight convention of about 1 t/m³ (" + fiaText + " give 800)", FromMemory}},
		Figure{49.4 * MPa, Source{"New Zealand Forest Service figures by region: Auckland North, the highest (Rotorua 37.4 MPa)", Published}}, coniferForm, forestCrown},
	{"douglas_fir", "Douglas-fir", "Pseudotsuga menziesii", true,
		Figure{870, ukSource},
		Figure{53 * MPa, fplRecalled},
		Figure{0.424, Source{wholeText + ", one Douglas-fir: (88.452 + 13.19) ft³ over π/4 · (20.0 in)² · 110 ft", Derived}},
		forestCrown},
	{"macrocarpa", "macrocarpa (Monterey cypress)", "Cupressus macrocarpa", true,
		Figure{930, Source{"upper end of basic density 410 to 490 kg/m³ with 74 to 90 % moisture; no green density published", Derived}},
		Figure{44 * MPa, Source{"upper end of 0.42 to 0.60 of the dry 74 MPa, the green to dry ratios of other conifers", Derived}}, coniferForm, openCrown},
	{"lawson_cypress", "Lawson cypress (Port-Orford-cedar)", "Chamaecyparis lawsoniana", true, Figure{398 * (1 + 0.74), gwddSource}, Figure{45.5 * MPa, clearSource}, coniferForm, openCrown},
	{"western_redcedar", "western redcedar", "Thuja plicata", true, Figure{335 * (1 + 0.40), gwddSource}, Figure{36 * MPa, fplRecalled}, coniferForm, openCrown},
	{"baldcypress", "baldcypress", "Taxodium distichum", true, Figure{847, fiaSource}, Figure{45.8 * MPa, clearSource}, coniferForm, openCrown},
	{"redwood", "redwood", "Sequoia sempervirens", true, Figure{420 * (1 + 1.23), gwddSource}, Figure{52 * MPa, fplSource}, coniferForm, openCrown},
	{"sitka_spruce", "Sitka spruce", "Picea sitchensis", true, Figure{920, ukSource}, Figure{39 * MPa, fplRecalled}, coniferForm, forestCrown},
	{"norway_spruce", "Norway spruce", "Picea abies", true,
		Figure{960, ukSource},
		Figure{39 * MPa, Source{"no figure for this species: that of Sitka spruce, " + fplText, FromMemory}}, coniferForm, forestCrown},
	{"scots_pine", "Scots pine", "Pinus sylvestris", true, Figure{1020, ukSource}, Figure{46 * MPa, laversSource}, coniferForm, forestCrown},
	{"black_pine", "black pine (Corsican, Austrian)", "Pinus nigra", true,
		Figure{1000, ukSource},
		Figure{46 * MPa, Source{"no figure for this species: that of Scots pine, " + lavText, FromMemory}}, coniferForm, forestCrown},
	{"ponderosa_pine", "ponderosa pine", "Pinus ponderosa", true, Figure{405 * (1 + 0.90), gwddSource}, Figure{35 * MPa, fplSource}, coniferForm, forestCrown},
	{"lodgepole_pine", "lodgepole pine", "Pinus contorta", true, Figure{930, ukSource}, Figure{37.9 * MPa, clearSource}, coniferForm, forestCrown},
	{"loblolly_pine", "loblolly pine", "Pinus taeda", true, Figure{849, fiaSource}, Figure{50 * MPa, fplRecalled}, coniferForm, forestCrown},
	{"western_hemlock", "western hemlock", "Tsuga heterophylla", true, Figure{930, ukSource}, Figure{45.8 * MPa, clearSource}, coniferForm, forestCrown},
	{"grand_fir", "grand fir", "Abies grandis", true, Figure{753, osuSource}, Figure{40.3 * MPa, clearSource}, coniferForm, forestCrown},
	{"western_larch", "western larch", "Larix occidentalis", true, Figure{801, osuSource}, Figure{53 * MPa, fplRecalled}, coniferForm, forestCrown},
	{"european_larch", "European larch", "Larix decidua", true,
		Figure{900, ukSource},
		Figure{53 * MPa, Source{"no figure for this species: that of western larch, " + fplText, FromMemory}}, coniferForm, forestCrown},

	{"blue_gum", "blue gum", "Eucalyptus globulus", false,
		Figure{687 * (1 + 0.75), gwddEucalypts},
		Figure{80 * MPa, Source{"upper end of 75 to 80 MPa in wood-strength literature", FromMemory}}, broadleafForm, broadleafCrown},
	{"shining_gum", "shining gum", "Eucalyptus nitens", false, Figure{594 * (1 + 0.75), gwddEucalypts}, gumStrength, broadleafForm, broadleafCrown},
	{"mountain_ash", "mountain ash (eucalypt)", "Eucalyptus regnans", false, Figure{606 * (1 + 0.75), gwddEucalypts}, gumStrength, broadleafForm, broadleafCrown},
	{"messmate", "messmate", "Eucalyptus obliqua", false, Figure{628 * (1 + 0.75), gwddEucalypts}, gumStrength, broadleafForm, broadleafCrown},
	{"sydney_blue_gum", "Sydney blue gum", "Eucalyptus saligna", false, Figure{583 * (1 + 0.75), gwddEucalypts}, gumStrength, broadleafForm, broadleafCrown},
	{"southern_mahogany", "southern mahogany", "Eucalyptus botryoides", false, Figure{684 * (1 + 0.75), gwddEucalypts}, gumStrength, broadleafForm, broadleafCrown},
	{"english_oak", "English oak", "Quercus robur", false, Figure{1050, ukSource}, Figure{59 * MPa, laversSource}, broadleafForm, broadleafCrown},
	{"sessile_oak", "sessile oak", "Quercus petraea", false,
		Figure{625 * (1 + 0.75), Source{gwddText + " for English oak", Derived}},
		Figure{59 * MPa, laversSource}, broadleafForm, broadleafCrown},
	{"red_oak", "northern red oak", "Quercus rubra", false, Figure{610 * (1 + 0.83), gwddSource}, Figure{57 * MPa, fplRecalled}, broadleafForm, broadleafCrown},
	{"white_oak", "white oak", "Quercus alba", false, Figure{660 * (1 + 0.68), gwddSource}, Figure{57 * MPa, fplRecalled}, broadleafForm, broadleafCrown},
	{"european_beech", "European beech", "Fagus sylvatica", false, Figure{1000, ukSource}, Figure{65 * MPa, laversSource}, broadleafForm, broadleafCrown},
	{"american_beech", "American beech", "Fagus grandifolia", false, Figure{888, fiaSource}, Figure{59 * MPa, fplRecalled}, broadleafForm, broadleafCrown},
	{"european_ash", "European ash", "Fraxinus excelsior", false, Figure{850, ukSource}, Figure{66 * MPa, laversSource}, broadleafForm, broadleafCrown},
	{"white_ash", "white ash", "Fraxinus americana", false, Figure{595 * (1 + 0.46), gwddSource}, Figure{66 * MPa, fplRecalled}, broadleafForm, broadleafCrown},
	{"sycamore_maple", "sycamore (maple)", "Acer pseudoplatanus", false, Figure{910, ukSource}, commonStrength, broadleafForm, broadleafCrown},
	{"sugar_maple", "sugar maple", "Acer saccharum", false, Figure{901, fiaSource}, Figure{65 * MPa, fplRecalled}, broadleafForm, broadleafCrown},
	{"silver_birch", "silver birch", "Betula pendula", false,
		Figure{545 * (1 + 0.74), Source{gwddText + " for paper birch", Derived}},
		Figure{63 * MPa, laversSource}, broadleafForm, broadleafCrown},
	{"paper_birch", "paper birch", "Betula papyrifera", false, Figure{835, fiaSource}, Figure{44 * MPa, fplRecalled}, broadleafForm, broadleafCrown},
	{"sweet_chestnut", "sweet chestnut", "Castanea sativa", false, Figure{1000, ukSource}, commonStrength, broadleafForm, broadleafCrown},
	{"black_alder", "alder", "Alnus glutinosa", false,
		Figure{471 * (1 + 0.97), Source{"basic density of the Global Wood Density Database v.2 with the sapwood moisture of red alder, USDA Wood Handbook FPL-GTR-190, Table 4-1", Derived}},
		commonStrength, broadleafForm, broadleafCrown},
	{"lime", "lime (linden)", "Tilia cordata", false,
		Figure{418 * (1 + 1.33), Source{"basic density of the Global Wood Density Database v.2 with the sapwood moisture of American basswood, USDA Wood Handbook FPL-GTR-190, Table 4-1", Derived}},
		commonStrength, broadleafForm, broadleafCrown},
	{"wych_elm", "wych elm", "Ulmus glabra", false, Figure{560 * (1 + 0.94), Source{gwddText + " for American elm", Derived}}, commonStrength, broadleafForm, broadleafCrown},
	{"american_elm", "American elm", "Ulmus americana", false, Figure{892, fiaSource}, Figure{50 * MPa, fplRecalled}, broadleafForm, broadleafCrown},
	{"london_plane", "plane", "Platanus × acerifolia", false,
		Figure{523 * (1 + 0.81), Source{gwddText + " for American sycamore", Derived}},
		Figure{45 * MPa, Source{"no figure for this species: that of American sycamore, " + fplText, FromMemory}}, broadleafForm, broadleafCrown},
	{"american_sycamore", "American sycamore", "Platanus occidentalis", false, Figure{853, fiaSource}, Figure{45 * MPa, fplRecalled}, broadleafForm, broadleafCrown},
	{"robinia", "robinia (black locust)", "Robinia pseudoacacia", false, Figure{929, fiaSource}, Figure{95 * MPa, fplRecalled}, broadleafForm, broadleafCrown},
	{"yellow_poplar", "yellow-poplar (tulip tree)", "Liriodendron tulipifera", false, Figure{791, fiaSource}, Figure{41 * MPa, fplRecalled}, broadleafForm, broadleafCrown},
	{"eastern_cottonwood", "eastern cottonwood", "Populus deltoides", false, Figure{402 * (1 + 1.17), gwddSource}, Figure{37 * MPa, fplRecalled}, broadleafForm, broadleafCrown},
	{"lombardy_poplar", "Lombardy poplar", "Populus nigra", false,
		Figure{381 * (1 + 1.06), gwddSource},
		Figure{37 * MPa, Source{"no figure for this species: that of eastern cottonwood, " + fplText, FromMemory}}, broadleafForm, broadleafCrown},
	{"black_cottonwood", "black cottonwood", "Populus trichocarpa", false,
		Figure{327 * (1 + 1.17), Source{gwddText + " for eastern cottonwood", Derived}},
		Figure{33.7 * MPa, clearSource}, broadleafForm, broadleafCrown},
	{"european_aspen", "European aspen", "Populus tremula", false,
		Figure{452 * (1 + 1.29), Source{gwddText + " for quaking aspen", Derived}},
		Figure{35 * MPa, Source{"no figure for this species: that of quaking aspen, " + fplText, FromMemory}}, broadleafForm, broadleafCrown},
	{"quaking_aspen", "quaking aspen", "Populus tremuloides", false, Figure{828, fiaSource}, Figure{35 * MPa, fplRecalled}, broadleafForm, broadleafCrown},
	{"white_willow", "white willow", "Salix alba", false,
		Figure{382 * (1 + 1.27), Source{gwddText + " for black willow", Derived}},
		Figure{33 * MPa, Source{"no figure for this species: that of black willow, " + fplText, FromMemory}}, broadleafForm, broadleafCrown},
	{"black_willow", "black willow", "Salix nigra", false, Figure{842, fiaSource}, Figure{33 * MPa, fplRecalled}, broadleafForm, broadleafCrown},
}

// FindSpecies is the species of that key.
func FindSpecies(key string) (Species, bool) {
	for i := range speciesTable {
		if speciesTable[i].Key == key {
			return speciesTable[i], true
		}
	}
	return Species{}, false
}
