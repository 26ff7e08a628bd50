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
	{"source.snatch", "a mass on a spring, textbook; the speed is assumed"},
	{"source.landing", "our own rule, from the two tree lengths of 29 CFR 1910.266(h)(1)"},
	{"source.model", "what this model covers"},
}
