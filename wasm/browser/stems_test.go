package browser

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/wasm/page"
)

// stemRow is a line of the list of plans: the name of a tree, or a plan.
type stemRow struct {
	Head, Caution, Title, Verdict, After, Stem string
	Offers                                     bool // to plan another stem
}

func stemRows(t testing.TB, p *Page) (rows []stemRow) {
	t.Helper()
	inPage(t, p, &rows, `
		const text = (node, css) => node.querySelector(css)?.textContent ?? "";
		await until(() => document.querySelector(".plan-row") && ![...document.querySelectorAll(".plan-verdict")].some((v) => v.textContent.includes("Not calculated")));
		return [...document.querySelectorAll(".plan-list > li")].map((n) => ({
			head: text(n, "h3"), caution: text(n, ".stems-caution"), title: text(n, ".plan-title"), verdict: text(n, ".plan-verdict"),
			after: text(n, ".plan-after"), stem: text(n, ".plan-stem"), offers: n.querySelector("[data-act=stem]")?.hidden === false,
		}));`)
	return rows
}

// lookAt is what the same code says of a plan without a browser.
func lookAt(t testing.TB, plan string) (v page.View) {
	t.Helper()
	require.NoError(t, json.Unmarshal(page.JSON([]byte(`{"plan":`+plan+`,"settings":{"units":"kN"},"light":true}`)), &v))
	return v
}

// Plans of the stems of one tree stand together, each with its own verdict
// and with what its pull took; another stem's plan is made without the lay.
func TestStemsStandTogether(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p, _ := plansSite(t, engine)
		write(t, p, "name", "Alone (invented)")
		var plans map[string]string
		inPage(t, p, &plans, `
			const { addPlan, save, startPlan } = await module("plans");
			const { state } = await module("state");
			state.settings.units = "kN";
			await save();
			const base = structuredClone(state.plan);
			const stem = (n, more) => ({ ...structuredClone(base), name: "Old macrocarpa, stem " + n, fork: { tree: "old macrocarpa", stem: n, of: 4, order: n }, ...more });
			const third = stem(3), first = stem(1, { after: { peak_kN: 10 } });
			delete third.gear;
			await addPlan(first);
			await addPlan(third);
			await startPlan(stem(9, { name: "Between (invented)", fork: undefined }), "own");
			await addPlan({ ...base, name: "Between (invented)" });
			await click("#menu-button"); await click("#plan-list");
			return { first: JSON.stringify(first), third: JSON.stringify(third) };`)
		first, third := lookAt(t, plans["first"]), lookAt(t, plans["third"])
		rows := stemRows(t, p)
		require.Len(t, rows, 5)
		assert.Equal(t, "Between (invented)", rows[0].Title)
		assert.False(t, rows[0].Offers)
		assert.Equal(t, stemRow{Head: "old macrocarpa", Caution: first.Stem.Caution}, rows[1])
		assert.Equal(t, stemRow{Title: "Old macrocarpa, stem 1", Verdict: first.Headline.Word, After: first.After.Line, Stem: first.Stem.Words, Offers: true}, rows[2])
		assert.Equal(t, stemRow{Title: "Old macrocarpa, stem 3", Verdict: third.Headline.Word, Stem: third.Stem.Words, Offers: true}, rows[3])
		assert.NotEqual(t, rows[2].Verdict, rows[3].Verdict, "each is judged alone")
		assert.Equal(t, "Alone (invented)", rows[4].Title)
		shot(t, p, "list")

		inPage(t, p, nil, `
			const row = [...document.querySelectorAll(".plan-row")].find((r) => r.textContent.includes("stem 1"));
			row.querySelector("summary").click();
			await click(".plan-more[open] [data-act=stem]");
			await gone();
			await until(() => document.querySelector("[data-bar=stem]"));`)
		settle(t, p)
		var plan struct {
			Name   string
			Fork   map[string]any
			After  any
			Tree   map[string]any
			Points []map[string]any
		}
		require.NoError(t, json.Unmarshal([]byte(planNow(t, p)), &plan))
		assert.Equal(t, "Old macrocarpa, stem 2", plan.Name, "the next that has no plan")
		assert.Equal(t, map[string]any{"tree": "old macrocarpa", "stem": 2.0, "of": 4.0}, plan.Fork)
		assert.Nil(t, plan.After)
		assert.NotContains(t, plan.Tree, "lean_bearing_deg")
		assert.NotContains(t, plan.Tree, "crown_offset_bearing_deg")
		assert.Contains(t, plan.Tree, "height_m")
		for _, point := range plan.Points {
			assert.NotContains(t, point, "bearing_deg")
		}
		assert.Equal(t, "unknown", read(t, p).Verdict)
		var said string
		require.NoError(t, p.Script(&said, `return document.querySelector("[data-bar=stem] p").textContent`))
		assert.Contains(t, said, "measure tree, hinge and anchors again")
		shot(t, p, "another")

		inPage(t, p, nil, `await click("#menu-button"); await click("#plan-list");`)
		rows = stemRows(t, p)
		require.Len(t, rows, 6)
		for i, title := range []string{"", "Old macrocarpa, stem 1", "Old macrocarpa, stem 2", "Old macrocarpa, stem 3"} {
			assert.Equal(t, title, rows[i].Title, "the tree stands where the last changed of its plans does")
		}
		inPage(t, p, nil, `document.querySelector(".dialog-close").click(); await gone();`)
		quiet(t, p)
	})
}

// That the page is stored is said once, in a line of its own, and the line
// goes by itself.
func TestPassingBarIsSaidOnce(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p := open(t, engine, Options{Width: 500, Height: 740})
		s := serve(t, site(t).Site.Handler())
		visit(t, p, s.URL())
		inPage(t, p, nil, `await until(() => document.getElementById("offline-word").textContent);`)
		bars := func() (list []string) {
			inPage(t, p, &list, `
				await new Promise((r) => setTimeout(r, 200));
				return [...document.querySelectorAll("#bars .bar")].map((b) => b.dataset.bar);`)
			return list
		}
		assert.Equal(t, []string{"example"}, bars(), "one line at a time")
		inPage(t, p, nil, `
			document.querySelector("[data-bar=example] button").click();
			await until(() => document.querySelector("[data-bar=offline]"));`)
		assert.Equal(t, []string{"offline"}, bars(), "closing the other is not what it goes with")
		inPage(t, p, nil, `document.getElementById("menu-button").click();`)
		assert.Empty(t, bars(), "it goes with the first thing done")

		require.NoError(t, p.Run(`localStorage.removeItem("pullline.said")`))
		for _, want := range []int{1, 0} {
			require.NoError(t, p.Reload())
			_, err := p.WaitFor("[data-start=done] [data-verdict]", wait)
			require.NoError(t, err)
			inPage(t, p, nil, `
				await until(() => document.getElementById("offline-word").textContent);
				document.querySelector("[data-bar=example] button")?.click();`)
			assert.Len(t, bars(), want)
			inPage(t, p, nil, `await until(() => !document.querySelector("[data-bar=offline]"));`)
		}
	})
}
