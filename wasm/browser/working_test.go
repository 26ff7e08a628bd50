package browser

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// workingShown is what an opened number shows.
type workingShown struct {
	Title, Value, Live, Count string
	Lines                     []string // of the working, those that can be seen
	Focus                     string
	Letters                   []string // labels of the drawings beside it
}

func workingOn(t testing.TB, p *Page) (w workingShown) {
	t.Helper()
	inPage(t, p, &w, `
		await new Promise((r) => setTimeout(r, 100));
		const panel = document.querySelector("dialog[open]");
		if (!panel) return {Lines: [], Letters: []};
		const text = (css) => panel.querySelector(css)?.textContent ?? "";
		return {
			Title: text("h2"), Value: text(".working-value"), Live: text("[aria-live]"), Count: text(".reveal-count"),
			Lines: [...panel.querySelectorAll(".reveal-name, .formula, .step-values li, .reveal-result")].filter((e) => e.checkVisibility()).map((e) => e.textContent),
			Focus: document.activeElement?.textContent ?? "",
			Letters: [...panel.querySelectorAll(".working-drawings text")].map((e) => e.textContent.replaceAll("\u00a0", " ")),
		};`)
	return w
}

// A main number opens its working: hidden, then a line at a time by button,
// Enter and key, on to what its values come from, with the drawings' letters.
func TestNumberOpensItsWorking(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p, _ := fresh(t, engine, Options{Width: 1280, Height: 720})
		press := func(css string) {
			t.Helper()
			require.NoError(t, p.Run(`document.querySelector(arguments[0]).scrollIntoView({block: "center", behavior: "instant"})`, css))
			e, err := p.Find(css)
			require.NoError(t, err, css)
			require.NoError(t, e.Click(), css)
		}
		press(`#facts [data-fact="planned"] button`)
		w := workingOn(t, p)
		assert.Equal(t, "Planned tension", w.Title)
		assert.Equal(t, strings.ReplaceAll(shownLoad(example(t).Pull.PlannedKN), " ", "\u00a0"), w.Value)
		assert.Empty(t, w.Lines, "hidden until asked for")
		assert.Equal(t, "Next line", w.Focus)
		assert.Contains(t, w.Letters, "T₁ "+shownLoad(example(t).Lines[0].TensionKN))
		assert.Contains(t, w.Letters, "γ 75°")
		assert.Contains(t, w.Letters, "T₂")

		press(".reveal-next")
		w = workingOn(t, p)
		assert.Equal(t, []string{"Planned tension"}, w.Lines)
		assert.Equal(t, "Planned tension", w.Live, "and said")
		require.NoError(t, p.Press("\ue007")) // Enter on the button
		require.NoError(t, p.Press("l"))
		w = workingOn(t, p)
		assert.Equal(t, []string{"Planned tension", "T = a·Tpeak", "a = 1.5 (allowance)"}, w.Lines)
		assert.Equal(t, "a = 1.5 (allowance)", w.Live)
		require.NoError(t, p.Press("l"))
		require.NoError(t, p.Press("l"))
		w = workingOn(t, p)
		require.Len(t, w.Lines, 5)
		assert.Equal(t, "= "+strconv.FormatFloat(math.Ceil(float64(example(t).Pull.PlannedKN)*100)/100, 'g', 4, 64)+" kN", strings.ReplaceAll(w.Lines[4], "\u00a0", " "))

		// A value opens the step it comes from.
		press(`[data-step="pull.planned_kN"] .step-values button`)
		w = workingOn(t, p)
		assert.Equal(t, "Greatest pull needed, at the turn φ", w.Focus)
		assert.Contains(t, w.Lines, "k = 12.72\u00a0m (lever of the pull lines)")

		require.NoError(t, p.Press("h"))
		w = workingOn(t, p)
		assert.Empty(t, w.Lines, "hidden again")
		require.NoError(t, p.Press("a"))
		w = workingOn(t, p)
		assert.Greater(t, len(w.Lines), 60)
		assert.Contains(t, w.Lines, "V = f · π/4 · D² · H", "down to what was measured")
		require.NoError(t, p.Press("\ue00c")) // Escape
		assert.Equal(t, "", workingOn(t, p).Title)

		// So do the numbers of the pieces.
		for css, line := range map[string]string{
			`[data-piece="A"] .load button`:                  "R = √(T₂² + S² + 2·T₂·S·cos γ)",
			`[data-piece="pull rope"] .limit button`:         "C = B/ν·n·Π",
			`[data-piece="redirect block"] .use button`:      "u = R/C",
			`[data-piece="stem sling"] .most-load button`:    "Qg = q·T",
			`[data-piece="pull/puller"] .planned-use button`: "u = S/C",
		} {
			press(css)
			require.NoError(t, p.Press("a"))
			assert.Contains(t, workingOn(t, p).Lines, line, css)
			require.NoError(t, p.Press("\ue00c"))
		}
		complaints, err := p.Complaints()
		if engine == "chromium" {
			require.NoError(t, err)
			assert.Empty(t, complaints)
		}
	})
}

// The drawings take the letters of the formulas and give them back.
func TestLettersOnTheDrawings(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p, _ := fresh(t, engine, Options{Width: 1280, Height: 720})
		letters := func() (n int) {
			settle(t, p)
			inPage(t, p, &n, `return [...document.querySelectorAll(".pictures text")].filter((e) => /^(T₁|W|H|γ|R|λ)\u00a0/.test(e.textContent)).length;`)
			return n
		}
		assert.Zero(t, letters())
		require.NoError(t, p.Run(`document.querySelector("#letters").click()`))
		assert.Greater(t, letters(), 6)
		require.NoError(t, p.Run(`document.querySelector("#letters").click()`))
		assert.Zero(t, letters())
	})
}

// The model in words is led to from the job and stands in the region's words.
func TestModelInWords(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p, _ := fresh(t, engine, Options{Width: 1280, Height: 720})
		require.NoError(t, p.Run(`document.querySelector("#working [data-goto=model]").click()`))
		var m struct {
			View, Title, Trust string
			Folded, Sources    int
			Open               bool
			Over               bool
		}
		inPage(t, p, &m, `
			const root = document.querySelector("#view-model");
			const formulas = root.querySelector("#model-formulas-2");
			formulas.querySelector("summary").click();
			await new Promise((r) => setTimeout(r, 50));
			return {
				View: document.body.dataset.view, Title: root.querySelector("h2").textContent, Trust: root.querySelector("#model-trust").textContent,
				Folded: root.querySelectorAll("details").length, Sources: formulas.querySelectorAll(".source").length,
				Open: formulas.querySelector(".formula").checkVisibility(), Over: document.documentElement.scrollWidth > innerWidth,
			};`)
		assert.Equal(t, "model", m.View)
		assert.Equal(t, "The model in words", m.Title)
		assert.Contains(t, m.Trust, "barber chair")
		assert.Greater(t, m.Folded, 12)
		assert.Greater(t, m.Sources, 8)
		assert.True(t, m.Open)
		assert.False(t, m.Over, "nothing runs over the edge")

		if engine == "webkit" { // one window at a time
			return
		}
		p = class(t, engine, Options{Width: 360, Height: 780}, "?view=model&words=uk")
		inPage(t, p, &m, `
			for (const d of document.querySelectorAll("#view-model details")) d.open = true;
			await new Promise((r) => setTimeout(r, 100));
			return {Title: document.querySelector("#model-assumed").textContent, Over: document.documentElement.scrollWidth > innerWidth};`)
		assert.Contains(t, m.Title, "gob")
		assert.False(t, m.Over)
	})
}
