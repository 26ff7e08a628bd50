package text

// Sources in words. Any other source is a citation, said as it is.
var sources = []row{
	{"source.practice", "common practice, no source"},
	{"source.practice_memory", "common practice, from memory"},
	{"source.statics_of_plan", "statics of this plan"},
	{"source.beam", "beam theory, an estimate"},
	{"source.equilibrium", "equilibrium of the junction"},
	{"source.catenary", "catenary"},
	{"source.plan", "the plan"},
	{"source.model", "what this model covers"},
}
