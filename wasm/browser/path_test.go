package browser

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// preparedGear is a gear list of invented pieces, as a crew keeps one.
const preparedGear = "id;kind;wll_t;wll_kN\nwinch rope 14 mm;wire_rope;;50\nstem strop;sling;6;\nstem shackle;shackle;6.5;\nanchor sling;sling;8;\n"

// mostNumbers a leader types from an empty plan to a verdict.
const mostNumbers = 10

// A crew leader with a prepared gear list begins an empty plan on a phone and
// follows the page's own way: the one button that leads to what is missing.
// Every number asked for is typed by keys and counted.
func TestFromAnEmptyPlanToAVerdict(t *testing.T) {
	p, _ := fresh(t, "chromium", Options{Width: 360, Height: 780, Touch: true})
	gear(t, p, nil, `
		await openGear();
		await choose(args[0]);
		await until(() => rows().length === 4);
		await close();`, preparedGear)

	inPage(t, p, nil, `document.getElementById("menu-button").click(); await click("#plan-new");`)
	require.NoError(t, p.WaitUntil(wait, `return document.querySelector("[data-verdict]").dataset.verdict === "unknown"`))
	settle(t, p)
	shot(t, p, "0 new plan")

	// Measured and read off by the crew; all of it invented.
	values := map[string]string{
		"tree.height_m": "24", "tree.diameter_cm": "52", "tree.lean_deg": "3", "tree.lean_bearing_deg": "170",
		"lines[0].path[0].stem_m": "12", "points[0].bearing_deg": "0", "points[0].distance_m": "60",
		"lines[0].puller.rated_kN": "40", "lines[0].puller.setting_kN": "25", "points[0].anchor.capacity_kN": "60",
	}
	numbers, turns := 0, 0
	began := time.Now()
	for ; verdict(t, p) == "unknown"; turns++ {
		require.Less(t, turns, 40, "the way comes to an end")
		var at struct {
			Label, Path, Tag, Step string
			Done                   bool
		}
		require.NoError(t, p.Script(&at, `
			const next = document.getElementById("step-next");
			const label = next.hidden ? "" : next.textContent;
			const done = document.getElementById("step-head").dataset.done === "yes";
			next.click();
			const field = document.activeElement?.closest?.(".field");
			const on = document.activeElement?.closest?.("[data-section]");
			return {label, done, path: field?.dataset.path ?? on?.dataset.section ?? "", tag: document.activeElement?.tagName ?? "", step: document.body.dataset.step};`))
		require.NotEmpty(t, at.Label, "there is always a way on: %+v", at)
		switch {
		case at.Done:
		case at.Path == "gear":
			pickGear(t, p, "winch rope 14 mm", "line/pull")
			pickGear(t, p, "stem strop", "stem/pull")
			pickGear(t, p, "stem shackle", "stem/pull")
			pickGear(t, p, "anchor sling", "point/A")
			shot(t, p, "2 gear")
		case at.Path == "points[0].anchor" || at.Path == "points[0].anchor.kind":
			inPage(t, p, nil, `
				const choice = await until(() => visible('[data-path="points[0].anchor.kind"] select'));
				choice.value = "rated";
				choice.dispatchEvent(new Event("change", {bubbles: true}));`)
		case at.Path == "lines[0].puller.limited_by":
			inPage(t, p, nil, `
				const choice = await until(() => visible('[data-path="lines[0].puller.limited_by"] select'));
				choice.value = "device";
				choice.dispatchEvent(new Event("change", {bubbles: true}));`)
		default:
			value, known := values[at.Path]
			require.True(t, known, "%s asked for %q, which nobody measured", at.Label, at.Path)
			delete(values, at.Path)
			require.Equal(t, "INPUT", at.Tag, "the field is ready to be typed in")
			require.NoError(t, p.Press(strings.Split(value, "")...))
			if numbers == 0 {
				shot(t, p, "1 typing")
			}
			numbers++
		}
		settle(t, p)
	}
	took := time.Since(began).Round(time.Second)
	assert.LessOrEqual(t, numbers, mostNumbers)
	assert.Empty(t, values, "all that was measured was asked for")
	assert.Contains(t, []string{"within", "near"}, verdict(t, p), "near once what is not known exactly is counted in")
	t.Logf("%d numbers typed, %d presses of the button; the run took %v", numbers, turns, took)
	var width int
	require.NoError(t, p.Script(&width, "return document.documentElement.scrollWidth"))
	assert.LessOrEqual(t, width, 360, "no sideways scrolling")
	shot(t, p, "3 verdict")

	// What the machine can pull at most is said, and judged.
	var most string
	require.NoError(t, p.Script(&most, `return document.getElementById("verdict-most").dataset.state`))
	assert.NotEqual(t, "unknown", most)
	for _, step := range []string{"check", "brief"} {
		inPage(t, p, nil, `document.querySelectorAll(".step-button")[args[0] === "check" ? 3 : 4].click();`, step)
		settle(t, p)
		shot(t, p, "4 "+step)
	}
	agreesInWords(t, p)
	quiet(t, p)
}

// pickGear puts a piece of the gear list into the plan.
func pickGear(t testing.TB, p *Page, name, place string) {
	t.Helper()
	gear(t, p, nil, `
		const at = document.querySelector('button[data-do="pick-gear"]');
		at.click();
		await until(() => document.querySelector("dialog.inventory .gear-row"));
		const row = [...document.querySelectorAll(".gear-row")].find((r) => r.querySelector(".gear-title").textContent.toLowerCase() === args[0]);
		row.querySelector(".gear-open").click();
		const where = await until(() => visible(".gear-pick select"));
		where.value = args[1];
		await click("[data-do=pick]");
		await until(() => document.querySelector(".gear-message").textContent.includes("is in the plan"));
		await close();`, name, place)
}

// Step by step or all at once is the user's choice; on a projector everything
// stands there at first.
func TestStepsAreAChoice(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p, _ := fresh(t, engine, Options{Width: 1920, Height: 1080})
		way := func() (way string, open int) {
			require.NoError(t, p.Script(&way, "return document.documentElement.dataset.way"))
			require.NoError(t, p.Script(&open, `return document.querySelectorAll("#form-sections > details:not([hidden])").length`))
			return way, open
		}
		was, all := way()
		assert.Equal(t, "all", was)
		assert.Greater(t, all, 8)
		inPage(t, p, nil, `const choice = document.getElementById("set-way"); choice.value = "steps"; choice.dispatchEvent(new Event("change", {bubbles: true}));`)
		settle(t, p)
		now, some := way()
		assert.Equal(t, "steps", now)
		assert.Less(t, some, all)
		shot(t, p, "steps")
		// A piece's row leads to its field in another step.
		inPage(t, p, nil, `
			document.querySelectorAll(".step-button")[3].click();
			document.querySelector('#pieces-table tr[data-piece="pull rope"] button').click();
			await until(() => document.body.dataset.step === "gear");
			if (!visible('[data-path="gear[0].id"] input')) throw new Error("the piece is not shown");`)
		quiet(t, p)
	})
}

// The words of the trade follow the choice, and the plan stays as it is.
func TestWordsOfTheRegion(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p, _ := fresh(t, engine, Options{Width: 1280, Height: 900})
		before := planOf(t, p)
		label := func() (text string) {
			require.NoError(t, p.Script(&text, `document.querySelector('[data-section="cut"]').open = true; return document.querySelector('[data-section="cut"]').textContent`))
			return text
		}
		choose := func(region string) {
			inPage(t, p, nil, `const choice = document.getElementById("set-words"); choice.value = args[0]; choice.dispatchEvent(new Event("change", {bubbles: true}));`, region)
			settle(t, p)
			settle(t, p)
		}
		label()
		settle(t, p)
		assert.Contains(t, label(), "Scarf opening")
		choose("us")
		assert.Contains(t, label(), "Face cut opening")
		choose("uk")
		assert.Contains(t, label(), "Gob opening")
		assert.Equal(t, before, planOf(t, p))
		quiet(t, p)
	})
}

// pages counts the pages of a PDF as Chromium writes them.
func pages(pdf []byte) int { return strings.Count(string(pdf), "/Type /Page\n") }

// The pull sheet is one page on either usual paper, from a phone as well; what
// was typed in follows on another, and the working where it is asked for.
func TestPullSheet(t *testing.T) {
	for name, o := range map[string]Options{"phone": {Width: 360, Height: 780, Touch: true}, "projector": {Width: 1920, Height: 1080}} {
		t.Run(name, func(t *testing.T) {
			p, _ := fresh(t, "chromium", o)
			a4, err := p.PDF()
			require.NoError(t, err)
			assert.Equal(t, 2, pages(a4), "A4")
			var sheet struct{ Data []byte }
			require.NoError(t, p.DevTools("Page.printToPDF", map[string]any{"paperWidth": 8.5, "paperHeight": 11}, &sheet))
			assert.Equal(t, 2, pages(sheet.Data), "Letter")
			require.NoError(t, p.Run(`document.getElementById("print-working").checked = true`))
			a4, err = p.PDF()
			require.NoError(t, err)
			assert.Greater(t, pages(a4), 2)

			var text string
			require.NoError(t, p.Script(&text, `
				dispatchEvent(new Event("beforeprint"));
				const text = document.querySelector(".crew-page").textContent;
				dispatchEvent(new Event("afterprint"));
				return text;`))
			assert.Regexp(t, "Within limits as computed|Near the limit", text) // before what is not known exactly was counted in, and after
			for _, part := range []string{"Example: back-leaning pine", "Invented example", "Every piece", "Sequence (suggested)", "Signals", "Stop when", "Who stays where",
				"Cautions", "Assumed", "Version", "name, signature"} {
				assert.Contains(t, text, part)
			}
			quiet(t, p)
		})
	}
}
