package browser

import (
	"bytes"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/wasm/class/practice"
)

// nativeSheet is a sheet made without a browser, with its answers.
func nativeSheet(t testing.TB, seed, grade string) (s practice.Sheet) {
	t.Helper()
	raw, err := json.Marshal(map[string]any{"seed": seed, "grade": grade, "solutions": true, "settings": map[string]string{"units": "kN", "words": "nz"}})
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(practice.JSON(raw), &s))
	return s
}

// openPractice opens a sheet in a window of its own origin.
func openPractice(t testing.TB, engine, query string) *Page {
	t.Helper()
	s := serve(t, site(t).Site.Handler())
	p := open(t, engine, Options{})
	require.NoError(t, p.Go(s.URL()+query))
	_, err := p.WaitFor(".drill", wait)
	require.NoError(t, err)
	return p
}

func texts(t testing.TB, p *Page, css string) (all []string) {
	t.Helper()
	require.NoError(t, p.Script(&all, `return [...document.querySelectorAll(arguments[0])].filter((n) => n.offsetParent).map((n) => n.textContent)`, css))
	return all
}

func text(t testing.TB, p *Page, css string) string {
	t.Helper()
	all := texts(t, p, css)
	require.NotEmpty(t, all, css)
	return all[0]
}

// The page shows the sheet that the same code makes without a browser; it is
// worked from the keyboard alone; wrong answers are answered, and the working
// comes line by line.
func TestPracticeFromTheKeyboard(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p := openPractice(t, engine, "?view=practice&seed=Kauri+7&grade=2&units=kN&words=nz")
		want := nativeSheet(t, "kauri 7", "2")
		var asked []string
		for _, q := range want.Questions {
			asked = append(asked, q.Text)
		}
		assert.Equal(t, asked, texts(t, p, ".drill-text"))
		assert.Equal(t, want.Title, text(t, p, "#view-practice h2"))
		assert.Contains(t, text(t, p, "#view-practice"), "invented")
		assert.Equal(t, "0 of 6 right.", text(t, p, ".practice-score"))
		assert.Empty(t, texts(t, p, ".reveal-next"), "no working before an answer")

		// The first question is a block load; what it says of twice the tension.
		answer := func(id, typed string) {
			require.NoError(t, p.Run(`document.querySelector('[data-question="'+arguments[0]+'"] input').select(); document.querySelector('[data-question="'+arguments[0]+'"] input').focus()`, id))
			require.NoError(t, p.Press(append(strings.Split(typed, ""), Enter)...))
		}
		answer("1", "heavy")
		assert.Contains(t, text(t, p, `[data-question="1"] .said`), "Type a number in")
		answer("1", "60")
		assert.Contains(t, text(t, p, `[data-question="1"] .said`), "as numbers")
		assert.Contains(t, text(t, p, ".practice-score"), "1 wrong")
		var focused string
		require.NoError(t, p.Script(&focused, `return document.activeElement.id`))
		assert.Equal(t, "drill-1-answer", focused, "the focus stays for another try")

		// Tab leads from the box over its button to the working, line by line.
		require.NoError(t, p.Press(Tab, Tab))
		require.NoError(t, p.Run(`document.querySelector('[data-question="1"] .reveal-next').focus()`))
		assert.Empty(t, texts(t, p, `[data-question="1"] .reveal-result`))
		require.NoError(t, p.Press(Enter))
		assert.Len(t, texts(t, p, `[data-question="1"] .reveal-name`), 1)
		assert.Empty(t, texts(t, p, `[data-question="1"] .reveal-result`), "one line only")
		require.NoError(t, p.Press("a"))
		shown := texts(t, p, `[data-question="1"] .reveal-result`)
		require.Len(t, shown, len(want.Questions[0].Solution))
		assert.Equal(t, "= "+want.Questions[0].Right, shown[len(shown)-1])

		answer("1", strings.Fields(want.Questions[0].Right)[0])
		assert.Contains(t, text(t, p, `[data-question="1"] .said`), "Right: "+want.Questions[0].Right)
		assert.Contains(t, text(t, p, ".practice-score"), "1 of 6 right")
		shot(t, p, "answered")

		// Another sheet has another number, in the address as well; back leads to this one.
		require.NoError(t, p.Run(`document.getElementById("practice-another").focus()`))
		require.NoError(t, p.Press(Enter))
		require.NoError(t, p.WaitUntil(wait, `return /seed=\d{4}/.test(location.search) && document.getElementById("practice-seed").value !== "kauri 7"`))
		assert.Equal(t, "0 of 6 right.", text(t, p, ".practice-score"))
		require.NoError(t, p.Run("history.back()"))
		require.NoError(t, p.WaitUntil(wait, `return document.getElementById("practice-seed").value === "kauri 7"`))
		assert.Equal(t, asked, texts(t, p, ".drill-text"))
	})
}

// A choice is answered by keys as well, and a number that is none is said.
func TestPracticeChoicesAndWrongAddresses(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p := openPractice(t, engine, "?view=practice&grade=9&seed="+strings.Repeat("x", 30)+"&units=kN&words=nz")
		assert.Contains(t, text(t, p, ".practice-message"), "the seed")
		assert.Contains(t, text(t, p, "#bars"), "grade")
		var value string
		require.NoError(t, p.Script(&value, `return document.getElementById("practice-grade").value + " " + document.getElementById("practice-seed").value`))
		assert.Equal(t, "1 1", value)

		require.NoError(t, p.Run(`
			const select = document.getElementById("practice-grade");
			select.value = "5";
			select.dispatchEvent(new Event("change", { bubbles: true }));`))
		require.NoError(t, p.WaitUntil(wait, `return document.querySelector('[data-question="1"] input[type=radio]') !== null`))
		want := nativeSheet(t, "1", "5").Questions[0]
		require.Equal(t, "choice", want.Kind)
		at := -1
		for i, o := range want.Options {
			if o.Label == want.Right {
				at = i
			}
		}
		require.NoError(t, p.Run(`
			const option = document.querySelectorAll('[data-question="1"] input[type=radio]')[arguments[0]];
			option.focus(); option.checked = true;`, at))
		require.NoError(t, p.Press(Enter))
		assert.Contains(t, text(t, p, `[data-question="1"] .said`), "Right.")
	})
}

// At a projector keys lead from question to question and through a working.
func TestPracticeAtAProjector(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p := openPractice(t, engine, "?view=practice&seed=3&grade=4&projector=on")
		focused := func() (id string) {
			require.NoError(t, p.Script(&id, `return document.activeElement.closest(".drill")?.dataset.question ?? ""`))
			return id
		}
		require.NoError(t, p.Press("n"))
		assert.Equal(t, "1", focused())
		require.NoError(t, p.Press("n"))
		assert.Equal(t, "2", focused())
		require.NoError(t, p.Run(`
			const drill = document.querySelector('[data-question="2"]');
			const input = drill.querySelector("input");
			if (input.type === "radio") input.checked = true;
			else input.value = "1";
			drill.querySelector("[data-do=check]").click();
			drill.querySelector("h3").focus();`))
		assert.Empty(t, texts(t, p, `[data-question="2"] .reveal-name`))
		require.NoError(t, p.Press("l"))
		assert.Len(t, texts(t, p, `[data-question="2"] .reveal-name`), 1)
	})
}

// printedPages are the pages that a script has the page print.
func printedPages(t testing.TB, p *Page, script string) (pages []struct{ Sheet, Mark, Text string }) {
	t.Helper()
	require.NoError(t, p.Await(&pages, `
		const shown = [];
		window.print = () => {
			dispatchEvent(new Event("beforeprint"));
			for (const page of document.querySelectorAll("#print-sheet .page")) {
				shown.push({ sheet: page.dataset.sheet, mark: page.querySelector(".practice-mark")?.innerText ?? "", text: page.textContent });
			}
			dispatchEvent(new Event("afterprint"));
		};
		`+script+`
		return shown;`))
	return pages
}

// Questions and answers are pages of their own, with the sheet's name and
// their number on every one, and nothing else is printed.
func TestPracticeOnPaper(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p := openPractice(t, engine, "?view=practice&seed=42&grade=3&units=kN&words=nz")
		for _, sheet := range []string{"questions", "answers"} {
			pages := printedPages(t, p, `document.getElementById("print-`+sheet+`").click()`)
			require.NotEmpty(t, pages)
			all := ""
			for i, page := range pages {
				assert.Equal(t, sheet, page.Sheet)
				assert.Contains(t, page.Text, "Sheet 42, grade 3, in kN", i)
				assert.Contains(t, page.Text, fmt.Sprintf("Page %d of %d", i+1, len(pages)))
				all += page.Text
			}
			assert.Contains(t, all, "invented")
			at := 0
			for _, q := range nativeSheet(t, "42", "3").Questions {
				from := strings.Index(all[at:], q.ID+".")
				require.GreaterOrEqual(t, from, 0, "question %s in its place", q.ID)
				at += from
				assert.Contains(t, all[at:], q.Text)
				if sheet == "answers" {
					assert.Contains(t, all[at:], q.Right)
					for _, s := range q.Solution {
						assert.Contains(t, all[at:], s.Formula)
					}
				}
			}
		}
	})
}

// On both usual papers a printed page is one of those the page made, with the
// name of its sheet on it; and a question that asks on is with the one before.
func TestPracticeFitsThePaper(t *testing.T) {
	p := openPractice(t, "chromium", "?view=practice&seed=42&grade=5&units=kN&words=nz")
	for _, grade := range []string{"1", "3", "4", "5", "mixed"} {
		require.NoError(t, p.Run(`
			const select = document.getElementById("practice-grade");
			select.value = arguments[0];
			select.dispatchEvent(new Event("change", { bubbles: true }));`, grade))
		pages := printedPages(t, p, `print()`)
		for _, page := range pages {
			assert.Contains(t, page.Text, "Sheet 42, ")
			if grade == "5" {
				assert.Equal(t, strings.Count(page.Text, "Which piece"), strings.Count(page.Text, "How much of its limit"))
			}
		}
		for name, size := range map[string][2]float64{"A4": {8.27, 11.69}, "Letter": {8.5, 11}} {
			var got struct{ Data string }
			require.NoError(t, p.DevTools("Page.printToPDF", map[string]any{"paperWidth": size[0], "paperHeight": size[1], "preferCSSPageSize": false}, &got))
			pdf, err := base64.StdEncoding.DecodeString(got.Data)
			require.NoError(t, err)
			assert.Equal(t, len(pages), bytes.Count(pdf, []byte("/Type /Page\n"))+bytes.Count(pdf, []byte("/Type /Page ")), "%s, grade %s", name, grade)
		}
	}
}

// sheetState is what stands in the boxes of the open sheet, and its score.
func sheetState(t testing.TB, p *Page) (boxes []string) {
	t.Helper()
	require.NoError(t, p.Script(&boxes, `return [...document.querySelectorAll(".drill")].map((drill) => drill.querySelector(".drill-options")
		? drill.querySelector("input:checked")?.value ?? ""
		: drill.querySelector("input").value).concat(document.querySelector(".practice-score").textContent)`))
	return boxes
}

// toSheet opens another sheet as a person does who types its number.
func toSheet(t testing.TB, p *Page, seed string) {
	t.Helper()
	require.NoError(t, p.Run(`
		const box = document.getElementById("practice-seed");
		box.value = arguments[0];
		box.dispatchEvent(new Event("change", { bubbles: true }));`, seed))
	require.NoError(t, p.WaitUntil(wait, `return new URLSearchParams(location.search).get("seed") === arguments[0] && document.querySelector(".drill") !== null`, seed))
}

// What is typed is kept at once, with and without having it checked: over a
// new start of the page, for every sheet by itself, until it is cleared, and
// that can be undone.
func TestPracticeKeepsWhatIsTyped(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p := openPractice(t, engine, "?view=practice&seed=kauri+7&grade=2&units=kN&words=nz")
		again := func() {
			require.NoError(t, p.Reload())
			_, err := p.WaitFor(".drill", wait)
			require.NoError(t, err)
		}
		into := func(id, typed string, keys ...string) {
			require.NoError(t, p.Run(`document.getElementById("drill-" + arguments[0] + "-answer").focus()`, id))
			require.NoError(t, p.Press(append(strings.Split(typed, ""), keys...)...))
		}
		clean := []string{"", "", "", "", "", "", "0 of 6 right."}
		into("1", "60", Enter)
		into("2", "33,1")
		worked := []string{"60", "33,1", "", "", "", "", "0 of 6 right, 1 wrong, 5 to go."}
		assert.Equal(t, worked, sheetState(t, p))
		again()
		assert.Equal(t, worked, sheetState(t, p))
		assert.Contains(t, text(t, p, `[data-question="1"] .said`), "as numbers")
		assert.Empty(t, texts(t, p, `[data-question="2"] .said`), "it was not given")

		// Another sheet, other units: other questions, without answers.
		toSheet(t, p, "kauri 8")
		assert.Equal(t, clean, sheetState(t, p))
		into("1", "7")
		units := func(key string) {
			require.NoError(t, p.Run(`
				const units = document.getElementById("set-units");
				units.value = arguments[0];
				units.dispatchEvent(new Event("change", { bubbles: true }));`, key))
		}
		toSheet(t, p, "kauri 7")
		assert.Equal(t, worked, sheetState(t, p))
		units("us")
		assert.Equal(t, clean, sheetState(t, p))
		units("kN")
		assert.Equal(t, worked, sheetState(t, p))

		// Cleared, brought back, and cleared for good.
		require.NoError(t, p.Run(`document.getElementById("practice-again").click()`))
		assert.Equal(t, clean, sheetState(t, p))
		require.NoError(t, p.Run(`document.querySelector('[data-bar="practice-cleared"] button').click()`))
		assert.Equal(t, worked, sheetState(t, p))
		assert.Empty(t, texts(t, p, `[data-bar="practice-cleared"]`))
		again()
		assert.Equal(t, worked, sheetState(t, p))
		for _, want := range [][]string{clean, worked, clean} {
			require.NoError(t, p.Run(`document.getElementById("practice-again").click()`))
			assert.Equal(t, want, sheetState(t, p))
		}
		again()
		assert.Equal(t, clean, sheetState(t, p))
		toSheet(t, p, "kauri 8")
		assert.Equal(t, "7", sheetState(t, p)[0])

		// The sheets worked on last are kept, not all there ever were.
		require.NoError(t, p.Run(`
			for (let n = 1; n <= 21; n++) {
				const box = document.getElementById("practice-seed");
				box.value = "k" + n;
				box.dispatchEvent(new Event("change", { bubbles: true }));
				const input = document.getElementById("drill-1-answer");
				input.value = "5";
				input.dispatchEvent(new Event("input", { bubbles: true }));
			}`))
		toSheet(t, p, "kauri 8")
		assert.Equal(t, clean, sheetState(t, p))
		toSheet(t, p, "k2")
		assert.Equal(t, "5", sheetState(t, p)[0])
	})
}

// Choices are kept as well.
func TestPracticeKeepsChoices(t *testing.T) {
	p := openPractice(t, "chromium", "?view=practice&seed=2&grade=5&units=kN&words=nz")
	require.NoError(t, p.Run(`document.querySelectorAll('[data-question="1"] input')[2].click()`))
	before := sheetState(t, p)
	assert.Equal(t, "c", before[0])
	require.NoError(t, p.Reload())
	_, err := p.WaitFor(".drill", wait)
	require.NoError(t, err)
	assert.Equal(t, before, sheetState(t, p))
}

// In a sandboxed frame there is no store: what is typed is kept for the visit.
func TestPracticeWithoutAStore(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		c := openCourse(t, engine, Options{}, `<iframe id="bare" sandbox="allow-scripts" style="width: 800px; height: 700px" src="SRC?view=practice&seed=5&grade=2&units=kN&words=nz"></iframe>`)
		frame, err := c.page.Find("#bare")
		require.NoError(t, err)
		require.NoError(t, c.page.Frame(frame))
		_, err = c.page.WaitFor(".drill", wait)
		require.NoError(t, err)
		require.NoError(t, c.page.Run(`
			const input = document.querySelector('[data-question="1"] input');
			input.value = "1";
			input.dispatchEvent(new Event("input", { bubbles: true }));`))
		to := func(seed string) {
			require.NoError(t, c.page.Run(`
				const box = document.getElementById("practice-seed");
				box.value = arguments[0];
				box.dispatchEvent(new Event("change", { bubbles: true }));`, seed))
		}
		to("6")
		assert.Empty(t, sheetState(t, c.page)[0])
		to("5")
		assert.Equal(t, "1", sheetState(t, c.page)[0])
		require.NoError(t, c.page.Run(`document.getElementById("practice-again").click()`))
		assert.Empty(t, sheetState(t, c.page)[0])
		require.NoError(t, c.page.Run(`document.querySelector('[data-bar="practice-cleared"] button').click()`))
		assert.Equal(t, "1", sheetState(t, c.page)[0])
		assert.Len(t, texts(t, c.page, "#bars .bar"), 0, "nothing is said of the store")
	})
}

// In a frame an answer is told to the page around it.
func TestPracticeTellsItsHost(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		c := openCourse(t, engine, Options{}, `<pull-line-view id="practice" src="SRC" view="practice" seed="kauri 7" grade="2" units="kN" words="nz"></pull-line-view>`)
		c.ready(t, "practice")
		c.inside(t, "practice")
		_, err := c.page.WaitFor(".drill", wait)
		require.NoError(t, err)
		assert.Empty(t, texts(t, c.page, "#print-questions"), "a frame may not print")
		require.NoError(t, c.page.Run(`
			const drill = document.querySelector(".drill");
			drill.querySelector("input").value = "60";
			drill.querySelector("[data-do=check]").click();`))
		require.NoError(t, c.page.Frame())
		var told struct{ View, ID, Text, State, Seed, Grade string }
		require.NoError(t, c.page.WaitUntil(wait, `return told.some((m) => m.kind === "answer")`))
		require.NoError(t, c.page.Script(&told, `return told.find((m) => m.kind === "answer")`))
		assert.Equal(t, "practice", told.View)
		assert.Equal(t, "60", told.Text)
		assert.Equal(t, "wrong", told.State)
		assert.Equal(t, "kauri 7", told.Seed)
		assert.Equal(t, "2", told.Grade)
		assert.Equal(t, "1", told.ID)
	})
}
