package rigging

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

// Densities.

func fiaDensity(v float64) Figure { return Figure{v, Source{fiaText, Derived}} }
func osuDensity(v float64) Figure { return Figure{v, Source{osuText, Published}} }
func ukDensity(v float64) Figure  { return Figure{v, Source{ukText, FromMemory}} }

// gwddDensity is a basic density made green with the moisture of the species
// itself, or of the one named.
func gwddDensity(basic, moisture float64, of string) Figure {
	text := gwddText
	if of != "" {
		text += " for " + of
	}
	return Figure{GreenDensity(basic, moisture), Source{text, Derived}}
}

// Strengths, from megapascals.

func fplStrength(v float64) Figure    { return Figure{v * MPa, Source{fplText, Published}} }
func clearStrength(v float64) Figure  { return Figure{v * MPa, Source{clearText, Published}} }
func fplRecalled(v float64) Figure    { return Figure{v * MPa, Source{fplText, FromMemory}} }
func laversStrength(v float64) Figure { return Figure{v * MPa, Source{lavText, FromMemory}} }
func recalledStrength(v float64, text string) Figure {
	return Figure{v * MPa, Source{text, FromMemory}}
}

// SpeciesTable is the table of species: conifers, broadleaves, and one
// cautious entry for each where the species is not known. Its last columns
// are the same for most, as little is published.
func SpeciesTable() []Species {
	coniferForm := Figure{0.45, Source{"upper half of the usual 0.35 to 0.50; one Douglas-fir gives 0.424 (Westfall et al. 2024)", FromMemory}}
	broadleafForm := Figure{0.454, Source{wholeText + ", one red maple: (9.427 + 2.155) ft³ over π/4 · (11.1 in)² · 38 ft", GroupFigure}}

	forestCrown := Figure{0.20, Source{"crown about 17 % of the whole tree, of the usual 10 to 20 %; one forest Douglas-fir gives 0.13 of the stem (Westfall et al. 2024)", FromMemory}}
	openCrown := Figure{0.25, Source{"crown 20 % of the whole tree, the upper end of the usual 10 to 20 % for conifers", FromMemory}}
	broadleafCrown := Figure{0.463, Source{wholeText + ", one red maple: (135.0 + 22.8) lb over (288.24 + 52.95) lb dry", GroupFigure}}

	gum := recalledStrength(80, "blue gum, upper end of 75 to 80 MPa in wood-strength literature, used for gums without a figure")
	ash66 := recalledStrength(66, "no figure for this species: the highest recalled for common broadleaves of its kind (European ash, "+lavText+")")

	conifer := func(key, name, botanical string, density, strength, crown Figure) Species {
		return Species{key, name, botanical, true, density, strength, coniferForm, crown}
	}
	broadleaf := func(key, name, botanical string, density, strength Figure) Species {
		return Species{key, name, botanical, false, density, strength, broadleafForm, broadleafCrown}
	}

	douglas := conifer("douglas_fir", "Douglas-fir", "Pseudotsuga menziesii", ukDensity(870), fplRecalled(53), forestCrown)
	douglas.FormFactor = Figure{0.424, Source{wholeText + ", one Douglas-fir: (88.452 + 13.19) ft³ over π/4 · (20.0 in)² · 110 ft", Derived}}

	unknownConifer := conifer("unknown_conifer", "conifer, not known", "",
		Figure{1020, Source{"the heaviest conifer of this table", Derived}},
		Figure{53 * MPa, Source{"the strongest conifer of this table", Derived}}, openCrown)
	unknownConifer.FormFactor = Figure{0.50, Source{"upper end of the usual 0.35 to 0.50", FromMemory}}
	unknownBroadleaf := broadleaf("unknown_broadleaf", "broadleaf, not known", "",
		Figure{1205, Source{"the heaviest broadleaf of this table, rounded up", Derived}},
		Figure{66 * MPa, Source{"the strongest of this table's common broadleaves; gums and robinia reach 80 to 95 MPa", Derived}})
	unknownBroadleaf.FormFactor = Figure{0.50, Source{"upper end of the usual 0.35 to 0.50", FromMemory}}
	unknownBroadleaf.CrownShare = Figure{0.67, Source{"crown 40 % of the whole tree, the upper end of the usual 25 to 40 % for open-grown broadleaves", FromMemory}}

	return []Species{
		unknownConifer,
		unknownBroadleaf,

		conifer("radiata_pine", "radiata pine", "Pinus radiata",
			Figure{1000, Source{"New Zealand log-weight convention of about 1 t/m³ (" + fiaText + " give 800)", FromMemory}},
			Figure{49.4 * MPa, Source{"New Zealand Forest Service figures by region: Auckland North, the highest (Rotorua 37.4 MPa)", Published}}, forestCrown),
		douglas,
		conifer("macrocarpa", "macrocarpa (Monterey cypress)", "Cupressus macrocarpa",
			Figure{930, Source{"upper end of basic density 410 to 490 kg/m³ with 74 to 90 % moisture; no green density published", Derived}},
			Figure{44 * MPa, Source{"upper end of 0.42 to 0.60 of the dry 74 MPa, the green to dry ratios of other conifers", Derived}}, openCrown),
		conifer("lawson_cypress", "Lawson cypress (Port-Orford-cedar)", "Chamaecyparis lawsoniana", gwddDensity(398, 0.74, ""), clearStrength(45.5), openCrown),
		conifer("western_redcedar", "western redcedar", "Thuja plicata", gwddDensity(335, 0.40, ""), fplRecalled(36), openCrown),
		conifer("baldcypress", "baldcypress", "Taxodium distichum", fiaDensity(847), clearStrength(45.8), openCrown),
		conifer("redwood", "redwood", "Sequoia sempervirens", gwddDensity(420, 1.23, ""), fplStrength(52), openCrown),
		conifer("sitka_spruce", "Sitka spruce", "Picea sitchensis", ukDensity(920), fplRecalled(39), forestCrown),
		conifer("norway_spruce", "Norway spruce", "Picea abies", ukDensity(960),
			recalledStrength(39, "no figure for this species: that of Sitka spruce, "+fplText), forestCrown),
		conifer("scots_pine", "Scots pine", "Pinus sylvestris", ukDensity(1020), laversStrength(46), forestCrown),
		conifer("black_pine", "black pine (Corsican, Austrian)", "Pinus nigra", ukDensity(1000),
			recalledStrength(46, "no figure for this species: that of Scots pine, "+lavText), forestCrown),
		conifer("ponderosa_pine", "ponderosa pine", "Pinus ponderosa", gwddDensity(405, 0.90, ""), fplStrength(35), forestCrown),
		conifer("lodgepole_pine", "lodgepole pine", "Pinus contorta", ukDensity(930), clearStrength(37.9), forestCrown),
		conifer("loblolly_pine", "loblolly pine", "Pinus taeda", fiaDensity(849), fplRecalled(50), forestCrown),
		conifer("western_hemlock", "western hemlock", "Tsuga heterophylla", ukDensity(930), clearStrength(45.8), forestCrown),
		conifer("grand_fir", "grand fir", "Abies grandis", osuDensity(753), clearStrength(40.3), forestCrown),
		conifer("western_larch", "western larch", "Larix occidentalis", osuDensity(801), fplRecalled(53), forestCrown),
		conifer("european_larch", "European larch", "Larix decidua", ukDensity(900),
			recalledStrength(53, "no figure for this species: that of western larch, "+fplText), forestCrown),

		broadleaf("blue_gum", "blue gum", "Eucalyptus globulus", gwddDensity(687, 0.75, "eucalypts as a group"),
			recalledStrength(80, "upper end of 75 to 80 MPa in wood-strength literature")),
		broadleaf("shining_gum", "shining gum", "Eucalyptus nitens", gwddDensity(594, 0.75, "eucalypts as a group"), gum),
		broadleaf("mountain_ash", "mountain ash (eucalypt)", "Eucalyptus regnans", gwddDensity(606, 0.75, "eucalypts as a group"), gum),
		broadleaf("messmate", "messmate", "Eucalyptus obliqua", gwddDensity(628, 0.75, "eucalypts as a group"), gum),
		broadleaf("sydney_blue_gum", "Sydney blue gum", "Eucalyptus saligna", gwddDensity(583, 0.75, "eucalypts as a group"), gum),
		broadleaf("southern_mahogany", "southern mahogany", "Eucalyptus botryoides", gwddDensity(684, 0.75, "eucalypts as a group"), gum),
		broadleaf("english_oak", "English oak", "Quercus robur", ukDensity(1050), laversStrength(59)),
		broadleaf("sessile_oak", "sessile oak", "Quercus petraea", gwddDensity(625, 0.75, "English oak"), laversStrength(59)),
		broadleaf("red_oak", "northern red oak", "Quercus rubra", gwddDensity(610, 0.83, ""), fplRecalled(57)),
		broadleaf("white_oak", "white oak", "Quercus alba", gwddDensity(660, 0.68, ""), fplRecalled(57)),
		broadleaf("european_beech", "European beech", "Fagus sylvatica", ukDensity(1000), laversStrength(65)),
		broadleaf("american_beech", "American beech", "Fagus grandifolia", fiaDensity(888), fplRecalled(59)),
		broadleaf("european_ash", "European ash", "Fraxinus excelsior", ukDensity(850), laversStrength(66)),
		broadleaf("white_ash", "white ash", "Fraxinus americana", gwddDensity(595, 0.46, ""), fplRecalled(66)),
		broadleaf("sycamore_maple", "sycamore (maple)", "Acer pseudoplatanus", ukDensity(910), ash66),
		broadleaf("sugar_maple", "sugar maple", "Acer saccharum", fiaDensity(901), fplRecalled(65)),
		broadleaf("silver_birch", "silver birch", "Betula pendula", gwddDensity(545, 0.74, "paper birch"), laversStrength(63)),
		broadleaf("paper_birch", "paper birch", "Betula papyrifera", fiaDensity(835), fplRecalled(44)),
		broadleaf("sweet_chestnut", "sweet chestnut", "Castanea sativa", ukDensity(1000), ash66),
		broadleaf("black_alder", "alder", "Alnus glutinosa",
			Figure{GreenDensity(471, 0.97), Source{"basic density of the Global Wood Density Database v.2 with the sapwood moisture of red alder, USDA Wood Handbook FPL-GTR-190, Table 4-1", Derived}}, ash66),
		broadleaf("lime", "lime (linden)", "Tilia cordata",
			Figure{GreenDensity(418, 1.33), Source{"basic density of the Global Wood Density Database v.2 with the sapwood moisture of American basswood, USDA Wood Handbook FPL-GTR-190, Table 4-1", Derived}}, ash66),
		broadleaf("wych_elm", "wych elm", "Ulmus glabra", gwddDensity(560, 0.94, "American elm"), ash66),
		broadleaf("american_elm", "American elm", "Ulmus americana", fiaDensity(892), fplRecalled(50)),
		broadleaf("london_plane", "plane", "Platanus × acerifolia", gwddDensity(523, 0.81, "American sycamore"),
			recalledStrength(45, "no figure for this species: that of American sycamore, "+fplText)),
		broadleaf("american_sycamore", "American sycamore", "Platanus occidentalis", fiaDensity(853), fplRecalled(45)),
		broadleaf("robinia", "robinia (black locust)", "Robinia pseudoacacia", fiaDensity(929), fplRecalled(95)),
		broadleaf("yellow_poplar", "yellow-poplar (tulip tree)", "Liriodendron tulipifera", fiaDensity(791), fplRecalled(41)),
		broadleaf("eastern_cottonwood", "eastern cottonwood", "Populus deltoides", gwddDensity(402, 1.17, ""), fplRecalled(37)),
		broadleaf("lombardy_poplar", "Lombardy poplar", "Populus nigra", gwddDensity(381, 1.06, ""),
			recalledStrength(37, "no figure for this species: that of eastern cottonwood, "+fplText)),
		broadleaf("black_cottonwood", "black cottonwood", "Populus trichocarpa", gwddDensity(327, 1.17, "eastern cottonwood"), clearStrength(33.7)),
		broadleaf("european_aspen", "European aspen", "Populus tremula", gwddDensity(452, 1.29, "quaking aspen"),
			recalledStrength(35, "no figure for this species: that of quaking aspen, "+fplText)),
		broadleaf("quaking_aspen", "quaking aspen", "Populus tremuloides", fiaDensity(828), fplRecalled(35)),
		broadleaf("white_willow", "white willow", "Salix alba", gwddDensity(382, 1.27, "black willow"),
			recalledStrength(33, "no figure for this species: that of black willow, "+fplText)),
		broadleaf("black_willow", "black willow", "Salix nigra", fiaDensity(842), fplRecalled(33)),
	}
}

// FindSpecies is the species of that key.
func FindSpecies(key string) (Species, bool) {
	for _, s := range SpeciesTable() {
		if s.Key == key {
			return s, true
		}
	}
	return Species{}, false
}
