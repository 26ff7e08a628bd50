package browser

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// judged waits until how sure the plan is and what would make it right is said.
func judged(t testing.TB, p *Page) {
	t.Helper()
	require.NoError(t, p.WaitUntil(wait, `return !document.getElementById("judgement").dataset.old && document.getElementById("sure").dataset.draws === "2000"`))
}

// The verdict gets no better by counting in what is not known exactly, a change that is
// offered makes the plan right and can be undone, and so can another place.
func TestJudgement(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		s := serve(t, site(t).Site.Handler())
		p := open(t, engine, Options{})
		visit(t, p, s.URL())
		judged(t, p)
		require.NoError(t, p.Await(nil, ownModules+`
			const { edit } = await module("state");
			edit("lines[0].puller.setting_kN", "9"); // within by itself
			document.getElementById("sure").dataset.draws = "0";`))
		judged(t, p)
		var said struct{ Verdict, Sure, Measure string }
		require.NoError(t, p.WaitUntil(wait, `return document.querySelector("[data-verdict]").dataset.verdict === document.querySelector("#sure-mark .mark").dataset.state`))
		require.NoError(t, p.Script(&said, `return { Verdict: document.querySelector("[data-verdict]").dataset.verdict, Sure: document.getElementById("sure-word").textContent, Measure: document.getElementById("sure-measure").textContent }`))
		assert.Equal(t, "near", said.Verdict)
		assert.Contains(t, said.Sure, "Near")
		assert.Contains(t, said.Measure, "Measure this again: ")

		require.NoError(t, p.Await(nil, ownModules+`
			const { edit } = await module("state");
			edit("gear[1].wll_t", "1.5");
			document.getElementById("sure").dataset.draws = "0";`))
		judged(t, p)
		var items, buttons int
		require.NoError(t, p.Script(&items, `return document.querySelectorAll("#right-list li").length`))
		require.NoError(t, p.Script(&buttons, `return document.querySelectorAll("#right-list button").length`))
		assert.Positive(t, items)
		assert.Zero(t, buttons, "a sling that nobody has is told, not written in")

		require.NoError(t, p.Await(nil, ownModules+`
			const { edit, undo } = await module("state");
			undo();
			edit("planned_kN", "40");
			document.getElementById("sure").dataset.draws = "0";`))
		judged(t, p)
		var found struct{ Before, After, Undone string }
		require.NoError(t, p.Await(&found, ownModules+`
			const { state, undo } = await module("state");
			const verdict = () => document.querySelector("[data-verdict]").dataset.verdict;
			const rest = async (done) => { for (let i = 0; i < 200 && !done(); i++) await new Promise((r) => setTimeout(r, 50)); return verdict(); };
			const Before = await rest(() => verdict() === "over");
			document.querySelector("#right-list button").click();
			const After = await rest(() => verdict() !== "over");
			undo();
			const Undone = await rest(() => verdict() === "over");
			return { Before, After, Undone };`))
		assert.Equal(t, "over", found.Before)
		assert.Contains(t, []string{"within", "near"}, found.After)
		assert.Equal(t, "over", found.Undone)

		require.NoError(t, p.Await(nil, `
			const stand = document.getElementById("stand"), select = document.getElementById("stand-point");
			stand.open = true;
			while (select.options.length < 3) await new Promise((r) => setTimeout(r, 50));
			select.value = "M";
			select.dispatchEvent(new Event("change"));`))
		require.NoError(t, p.WaitUntil(wait, `return document.getElementById("stand").dataset.map === "fine"`))
		shot(t, p, "judgement")
		var places int
		require.NoError(t, p.Script(&places, `return document.querySelectorAll("#stand-words li").length`))
		assert.Greater(t, places, 1)
	})
}

// The page answers while a worker draws: no frame waits for long.
func TestJudgementHoldsNothingUp(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		s := serve(t, site(t).Site.Handler())
		p := open(t, engine, Options{})
		visit(t, p, s.URL())
		var apart bool
		require.NoError(t, p.Await(&apart, ownModules+`return (await module("aside")).apart();`))
		assert.True(t, apart, "a worker answers")
		judged(t, p)
	})
}
