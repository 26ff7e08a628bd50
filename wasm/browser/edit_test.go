package browser

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What is typed is computed, and the page shows what the same code gives
// natively: words, loads, limits and uses.
func TestTypingANumber(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p, _ := fresh(t, engine, Options{})
		before := read(t, p)
		agrees(t, p, "kN")

		typeInto(t, p, "tree.height_m", "35")
		settle(t, p)
		assert.Equal(t, 35.0, number(t, p, "tree", "height_m"))
		after := read(t, p)
		assert.NotEqual(t, before.Facts, after.Facts, "a taller tree weighs more")
		agrees(t, p, "kN")

		// A comma for the point, and a unit of one's own.
		typeInto(t, p, "tree.height_m", "27,5")
		leave(t, p)
		assert.Equal(t, 27.5, number(t, p, "tree", "height_m"))
		typeInto(t, p, "tree.height_m", "90 ft")
		leave(t, p)
		// The international foot: 0.3048 m exactly (NIST SP 811, appendix B).
		assert.InDelta(t, 90*0.3048, number(t, p, "tree", "height_m"), 1e-9)
		agrees(t, p, "kN")
	})
}

// A wrong value stays as typed, with what to do beside it; until it is right
// nothing on the page looks like a verdict on it.
func TestTypingAWrongValue(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p, _ := fresh(t, engine, Options{})
		before := read(t, p)
		require.NotEqual(t, "unknown", before.Verdict)

		typeInto(t, p, "tree.height_m", "tall")
		// At once: in the next frames, not after the rest that the form takes.
		require.NoError(t, p.Await(nil, "for (let i = 0; i < 3; i++) await new Promise((r) => requestAnimationFrame(r))"))
		now := read(t, p)
		assert.Equal(t, "unknown", now.Verdict)
		assert.NotContains(t, strings.ToLower(now.Word), "within")
		assert.True(t, now.Stale, "the drawings are marked as not updated")

		leave(t, p)
		assert.Equal(t, "tall", fieldText(t, p, "tree.height_m"), "kept as typed")
		var problem string
		var marked bool
		require.NoError(t, p.Script(&problem, `return document.querySelector('.field[data-path="tree.height_m"] .field-problem:not([hidden])').textContent`))
		assert.NotEmpty(t, problem)
		require.NoError(t, p.Script(&marked, `return arguments[0].getAttribute("aria-invalid") === "true"`, inputAt(t, p, "tree.height_m")))
		assert.True(t, marked)
		assert.Positive(t, read(t, p).Problems)
		shot(t, p, "wrong")

		typeInto(t, p, "tree.height_m", "29")
		leave(t, p)
		assert.Equal(t, before, read(t, p), "as it was")
	})
}

// Nothing left out is ever within.
func TestEmptyingAField(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p, _ := fresh(t, engine, Options{})
		typeInto(t, p, "tree.diameter_cm", "")
		leave(t, p)
		assert.Equal(t, "unknown", read(t, p).Verdict)
		agreesInWords(t, p)
	})
}

// agreesInWords compares what is not kept from before while the plan cannot
// be computed.
func agreesInWords(t testing.TB, p *Page) {
	t.Helper()
	want, got := native(t, planOf(t, p), "kN"), read(t, p)
	assert.Equal(t, want.Verdict, got.Verdict)
	assert.Equal(t, want.Word, got.Word)
	assert.Equal(t, want.Sentence, got.Sentence)
	assert.Equal(t, want.Problems, got.Problems)
}

// Parts of the plan come and go with the form's buttons, and undo and redo
// take every step back and forth.
func TestAddingAndRemoving(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p, _ := fresh(t, engine, Options{})
		plans := []string{planOf(t, p)}
		for _, step := range [][2]string{
			{"add", "points"}, {"remove", "points[6]"},
			{"add", "lines[0].path"}, {"remove", "lines[0].path[3]"},
			{"add", "gear"}, {"remove", "gear[9]"},
		} {
			do(t, p, step[0], step[1])
			text := planOf(t, p)
			assert.NotEqual(t, plans[len(plans)-1], text, step)
			plans = append(plans, text)
			agreesInWords(t, p)
		}
		last := len(plans) - 1
		for i := last - 1; i >= 0; i-- {
			press(t, p, "#undo")
			assert.Equal(t, plans[i], planOf(t, p), "undo to %d", i)
		}
		agrees(t, p, "kN")
		for i := 1; i <= last; i++ {
			press(t, p, "#redo")
			assert.Equal(t, plans[i], planOf(t, p), "redo to %d", i)
		}
	})
}

// Units are how numbers are shown; the file stays as it is.
func TestUnitsChangeWhatIsShown(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p, _ := fresh(t, engine, Options{})
		before := planOf(t, p)
		for _, units := range []string{"tf", "us", "kN"} {
			require.NoError(t, p.Run(`const s = document.getElementById("set-units"); s.value = arguments[0]; s.dispatchEvent(new Event("change", {bubbles: true}))`, units))
			settle(t, p)
			assert.Equal(t, before, planOf(t, p), units)
			agrees(t, p, units)
		}
	})
}

// Everything can be reached and changed from the keyboard.
func TestKeyboardOnly(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p, _ := fresh(t, engine, Options{})
		tabTo := func(css string) {
			for range 60 {
				require.NoError(t, p.Press(Tab))
				var there bool
				require.NoError(t, p.Script(&there, "return document.activeElement.matches(arguments[0])", css))
				if there {
					return
				}
			}
			assert.Fail(t, "not reached by Tab", css)
		}
		tabTo(`[data-handle="side/stem/0/0"]`)
		require.NoError(t, p.Press(Up))
		settle(t, p)
		assert.InDelta(t, 14.1, number(t, p, "lines", 0, "path", 0, "stem_m"), 1e-9, "one step up")
		require.NoError(t, p.PressWith(Shift, Down))
		settle(t, p)
		assert.InDelta(t, 14.09, number(t, p, "lines", 0, "path", 0, "stem_m"), 1e-9, "a finer step down")
		agrees(t, p, "kN")
		// Enter goes to the number in the form.
		require.NoError(t, p.Press(Enter))
		var path string
		require.NoError(t, p.Script(&path, `return document.activeElement.closest(".field")?.dataset.path ?? ""`))
		assert.Equal(t, "lines[0].path[0].stem_m", path)
		assert.Equal(t, "14.09", fieldText(t, p, path))

		require.NoError(t, p.Run("document.activeElement.blur(); scrollTo(0, 0)"))
		require.NoError(t, p.Reload())
		_, err := p.WaitFor("[data-start=done] [data-verdict]", wait)
		require.NoError(t, err)
		settle(t, p)
		tabTo(`.field[data-path="tree.height_m"] input`)
	})
}
