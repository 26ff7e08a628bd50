package words

import (
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
)

func TestSay(t *testing.T) {
	nz, us := Locale{}, In("en-US", US)
	assert.Equal(t, "scarf opening", nz.Say("{scarf} opening"))
	assert.Equal(t, "Face cut opening", us.Say("{Scarf} opening"))
	assert.Equal(t, "{nonsense} and {", nz.Say("{nonsense} and {"))
	assert.Equal(t, "plain", nz.Say("plain"))
	assert.Equal(t, "The rope turns by 40° at block A.", nz.Say("The rope turns by %s at {block} %s.", "40°", "A"))
	assert.Equal(t, "At block A the rope turns by 40°.", nz.Say("At {block} %[2]s the rope turns by %[1]s.", "40°", "A"), "in another order")
	assert.Equal(t, "a, b, b, c", nz.Say("%s, %[2]s, %[2]s, %s", "a", "b", "c"))
	assert.Equal(t, "80 %, 5% %[x] and a", nz.Say("80 %, 5% %[x] and %s", "a"), "a percent sign is one")
	assert.Equal(t, "a and ", nz.Say("%s and %s", "a"), "what is not there is not said")
}

// What somebody typed is never taken for a text of ours.
func TestArgumentsAreSaidAsTheyAre(t *testing.T) {
	for _, typed := range []string{"{block}", "%s", "%[1]s", "{", "%", "", "⟦"} {
		assert.Equal(t, "Point "+typed+"!", Locale{}.Say("Point %s!", typed))
	}
}

func TestCount(t *testing.T) {
	assert.Equal(t, "1 point", Locale{}.Count(1, "1 point", "%s points"))
	assert.Equal(t, "0 points", Locale{}.Count(0, "1 point", "%s points"))
}

func TestLanguageIsKnownOrEnglish(t *testing.T) {
	for _, tag := range []string{"", "en", "en-GB", "xx", "x", "-"} {
		assert.Equal(t, "Tree", In(tag, UK).Say("Tree"), tag)
	}
	assert.Equal(t, UK, In(MadeUp, UK).Region)
}

// The made-up language marks every text, makes it a third longer and keeps
// its arguments and the region's words.
func TestMadeUpLanguage(t *testing.T) {
	l := In(MadeUp, UK)
	for _, text := range []Text{"Tree", "A rope turned by a block pulls on it with both of its legs."} {
		said := l.Say(text)
		assert.Regexp(t, "^"+Opened+string(text)+".*"+Closed+"$", said)
		assert.GreaterOrEqual(t, 3*utf8.RuneCountInString(said), 4*len(text))
	}
	assert.Contains(t, l.Say("{Block} %s", "A"), "Pulley A")
	assert.Empty(t, l.Say(""))
}

func BenchmarkSay(b *testing.B) {
	for b.Loop() {
		Locale{}.Say("The rope turns by %s at {block} %s.", "40°", "A")
	}
}
