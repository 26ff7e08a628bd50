package words

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Every word is there in every region, and each named once.
func TestEveryRegionHasEveryWord(t *testing.T) {
	seen := map[string]bool{}
	for _, w := range trade {
		assert.False(t, seen[w.key], w.key)
		seen[w.key] = true
		for r := range Regions {
			assert.NotEmpty(t, w.words[r], "%s in %s", w.key, r.Key())
			l := Locale{Region: r}
			assert.Equal(t, w.words[r], l.Say(Text("{"+w.key+"}")))
			assert.Equal(t, Capital(w.words[r]), l.Say(Text("{"+Capital(w.key)+"}")))
		}
	}
	for _, r := range regionTable {
		assert.NotEmpty(t, r.key)
		assert.NotEmpty(t, r.label)
		assert.NotNil(t, r.units)
	}
}

func TestRegionIsChosenOrGuessed(t *testing.T) {
	for language, want := range map[string]Region{
		"": NZ, "en": NZ, "en-NZ": NZ, "en-AU": NZ, "en-GB": UK, "en-ie": UK, "en-US": US, "fr-CA": US, "de-DE": NZ, "-": NZ,
	} {
		assert.Equal(t, want, RegionOf("", language), language)
		assert.Equal(t, UK, RegionOf("uk", language), "what is chosen counts")
		assert.Equal(t, want, RegionOf("mars", language))
	}
}
