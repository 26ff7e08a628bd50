package rigging

// SheaveTable are efficiencies of a sheave for a half-turn of rope, by what
// it runs on. A crew that does not know takes the field rule.
func SheaveTable() []Entry { return copied(sheaveTable[:]) }

var (
	leadLineSource    = Source{"Wire Rope Users Manual, lead-line factors", FromMemory}
	craneSheaveSource = Source{"DIN 15020-1", FromMemory}
)

var sheaveTable = [...]Entry{
	{Key: "field_rule", Name: "field rule: a tenth lost at each sheave", Value: 0.90,
		Note:   "The manual adds a tenth of the load for each sheave of a tackle; as a ratio of the two legs at one block that is 0.90 on the cautious side.",
		Source: Source{"US Navy NAVEDTRA 14251, Steelworker vol. 2, ch. 6, allowance for friction", Published}},
	{Key: "plain_bearing", Name: "plain bearing, wire rope", Value: 0.917,
		Source: Source{"Pipeline Rules of Thumb Handbook, p. 6, advantages of block and tackle", Published},
		Note:   "hauling leg 1.09 times the other"},
	{Key: "rolling_bearing", Name: "rolling bearing, wire rope", Value: 1 / 1.04, Source: leadLineSource,
		Note: "hauling leg 1.04 times the other"},
	{Key: "crane_plain_bearing", Name: "crane sheave, plain bearing", Value: 0.96, Source: craneSheaveSource},
	{Key: "crane_rolling_bearing", Name: "crane sheave, rolling bearing", Value: 0.98, Source: craneSheaveSource},
}

// FindSheave is the sheave of that key.
func FindSheave(key string) (Entry, bool) { return findEntry(sheaveTable[:], key) }
