package browser

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// labelAt is the middle of a label of a picture and its lower edge, in sight.
func labelAt(t testing.TB, p *Page, figure, text string) (x, y, foot float64) {
	t.Helper()
	var at struct{ X, Y, Foot float64 }
	require.NoError(t, p.Script(&at, `
		const figure = document.querySelector(arguments[0]);
		figure.querySelector("svg").scrollIntoView({block: "center", behavior: "instant"});
		const label = [...figure.querySelectorAll("[data-working]")].find((e) => e.textContent.replaceAll("\u00a0", " ") === arguments[1]);
		if (!label) return {};
		const r = label.getBoundingClientRect();
		return {x: r.x + r.width / 2, y: r.y + r.height / 2, foot: r.bottom};`, figure, text))
	require.NotZero(t, at.X, "%s of %s can be pressed", text, figure)
	return at.X, at.Y, at.Foot
}

// opened waits for the panel and says its title and whether it has all lines.
func opened(t testing.TB, p *Page) (title string) {
	t.Helper()
	require.NoError(t, p.WaitUntil(wait, `return Boolean(document.querySelector("dialog[open] .reveal-next"))`))
	require.NoError(t, p.Script(&title, `return document.querySelector("dialog[open] h2").textContent`))
	return title
}

// closed closes the panel and says what has the focus then.
func closed(t testing.TB, p *Page) (focus string) {
	t.Helper()
	require.NoError(t, p.Press(Escape))
	require.NoError(t, p.WaitUntil(wait, `return !document.querySelector("dialog[open]")`))
	require.NoError(t, p.Script(&focus, `return document.activeElement.textContent.replaceAll("\u00a0", " ")`))
	return focus
}

// The numbers of the verdict are pressed like the rest: by pointer and Enter.
func TestVerdictOpensItsWorking(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p, _ := fresh(t, engine, Options{Width: 1280, Height: 720})
		words, err := p.FindAll("#verdict .number-word")
		require.NoError(t, err)
		require.Len(t, words, 4)
		for i, want := range []string{"Hauling part of line pull", "What pull/puller may haul", "Use of pull/puller", "Number to hold the puller to"} {
			number, err := words[i].Text()
			require.NoError(t, err)
			require.NoError(t, words[i].Click())
			assert.Equal(t, want, opened(t, p))
			assert.Equal(t, strings.ReplaceAll(number, "\u00a0", " "), closed(t, p), "the focus is back")
		}
		require.NoError(t, p.Press(Enter))
		assert.Equal(t, "Number to hold the puller to", opened(t, p))
		require.NoError(t, p.Press("a"))
		assert.Contains(t, workingOn(t, p).Lines, "Smax = Sm/um")
		closed(t, p)

		// What was assumed opens, with what it goes into.
		require.NoError(t, p.Run(`document.querySelector("#assumed .value button").focus()`))
		require.NoError(t, p.Press(Enter))
		opened(t, p)
		require.NoError(t, p.Press("a"))
		lines := workingOn(t, p).Lines
		assert.Contains(t, lines[1], "assumed: a straight pull")
		assert.Contains(t, lines, "C = B/ν·n·Π", "it goes into what the rope may carry")
		closed(t, p)
	})
}

// A label of a drawing opens its working by pointer, by touch next to it and
// from the keyboard; the handles are moved as before.
func TestDrawingsOpenTheirWorking(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p, _ := fresh(t, engine, Options{Width: 1280, Height: 720})
		tap := func(pointer, figure, text string, below float64) string {
			t.Helper()
			x, y, foot := labelAt(t, p, figure, text)
			if below > 0 {
				y = foot + below
			}
			require.NoError(t, p.Drag(pointer, x, y, x, y, 1))
			return opened(t, p)
		}
		assert.Equal(t, "Load on R", tap("mouse", "#figure-plan", shownLoad(example(t).Points[0].LoadKN), 0))
		w := workingOn(t, p)
		assert.Equal(t, strings.ReplaceAll(shownLoad(example(t).Points[0].LoadKN), " ", "\u00a0"), w.Value)
		assert.Contains(t, w.Letters, "R "+shownLoad(example(t).Points[0].LoadKN))
		require.NoError(t, p.Press("a"))
		assert.Contains(t, workingOn(t, p).Lines, "γ = acos(uₓ·vₓ + uy·vy + uz·vz)", "on to the angle")
		assert.Equal(t, shownLoad(example(t).Points[0].LoadKN), closed(t, p), "the focus is back on the label")
		assert.Equal(t, "Tension of line pull", tap("mouse", "#figure-side", shownLoad(example(t).Lines[0].TensionKN), 8), "next to it counts as on it")
		closed(t, p)
		assert.Equal(t, "Turn from which the tree falls by itself", tap("mouse", "#figure-curve", fmt.Sprintf("falls by itself from %.1f°", float64(example(t).Pull.CommitDeg)), 0))
		closed(t, p)
		assert.Equal(t, "Angle between the ropes at R", tap("mouse", "#figure-plan", "75°", 0))
		closed(t, p)

		// One stop of the Tab key in each drawing; arrow keys go on.
		var stops []int
		inPage(t, p, &stops, `return ["side", "plan", "curve"].map((name) => document.querySelectorAll("#figure-" + name + " .shapes [tabindex='0']").length);`)
		assert.Equal(t, []int{1, 1, 1}, stops)
		var first, second struct{ Text, Label, Role string }
		at := `const e = document.activeElement; return {Text: e.textContent.replaceAll("\u00a0", " "), Label: e.getAttribute("aria-label").replaceAll("\u00a0", " "), Role: e.getAttribute("role")};`
		require.NoError(t, p.Run(`document.querySelector("#figure-side .shapes [tabindex='0']").focus()`))
		require.NoError(t, p.Script(&first, at))
		require.NoError(t, p.Press(Right))
		require.NoError(t, p.Script(&second, at))
		assert.NotEqual(t, first, second)
		assert.Equal(t, "button", second.Role)
		for _, key := range []string{Enter, " "} {
			require.NoError(t, p.Press(key))
			assert.Equal(t, opened(t, p)+": "+second.Text, second.Label)
			assert.Equal(t, second.Text, closed(t, p))
		}
		var ring bool
		require.NoError(t, p.Script(&ring, `return document.querySelector("#figure-side .label-focus").checkVisibility()`))
		assert.True(t, ring, "the focus is seen")

		// A handle is moved and opens nothing, and its keys are its own.
		before := number(t, p, "lines", 0, "path", 0, "stem_m")
		x, y := handleAt(t, p, stemHandle)
		require.NoError(t, p.Drag("mouse", x, y, x, y-40, 5))
		settle(t, p)
		raised := number(t, p, "lines", 0, "path", 0, "stem_m")
		assert.Greater(t, raised, before)
		require.NoError(t, p.Press(Up))
		settle(t, p)
		assert.Greater(t, number(t, p, "lines", 0, "path", 0, "stem_m"), raised)
		assert.Empty(t, workingOn(t, p).Title)
	})
}

// On a phone a finger next to a label is enough.
func TestLabelsByTouch(t *testing.T) {
	p, _ := fresh(t, "chromium", Options{Width: 360, Height: 780, Touch: true})
	x, _, foot := labelAt(t, p, "#figure-plan", shownLoad(example(t).Points[0].LoadKN))
	require.NoError(t, p.Drag("touch", x-20, foot+4, x-20, foot+4, 1))
	assert.Equal(t, "Load on R", opened(t, p))
	closed(t, p)
	word, err := p.Find("#verdict-sentence .number-word")
	require.NoError(t, err)
	require.NoError(t, word.Click())
	assert.Equal(t, "Hauling part of line pull", opened(t, p))
	closed(t, p)
	var whole bool
	require.NoError(t, p.Script(&whole, `return document.querySelector("#verdict").classList.contains("whole")`))
	assert.False(t, whole, "the bar is left as it was")
}

// The fall's pictures lead to the working of the turn, or to the plan's.
func TestFallLabels(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p := class(t, engine, Options{Width: 1280, Height: 720}, "?view=fall")
		require.NoError(t, p.WaitUntil(wait, `return document.querySelector(".fall-curve [data-working]") !== null`))
		x, y, _ := labelAt(t, p, ".fall-curve", "planned "+shownLoad(example(t).Pull.PlannedKN))
		require.NoError(t, p.Drag("mouse", x, y, x, y, 1))
		assert.Equal(t, "Planned tension", opened(t, p))
		closed(t, p)
		require.NoError(t, p.Run(`document.querySelector(".fall-picture [data-working='reach']").focus()`))
		require.NoError(t, p.Press(Enter))
		require.NoError(t, p.WaitUntil(wait, `return document.activeElement.textContent === "Where the top lands"`))
	})
}
