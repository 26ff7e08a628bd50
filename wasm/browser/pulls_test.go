package browser

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The measured pulls of the plans kept are set against what was computed, and a
// correction changes the plan in work only when it is taken.
func TestMeasuredAgainstComputed(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p, _ := plansSite(t, engine)
		peak := float64(example(t).Pull.PeakKN)
		for i, ratio := range []float64{1.1, 1.2, 1.15} {
			inPage(t, p, nil, `
				const demo = await (await fetch("demo.json")).json();
				await (await module("plans")).addPlan({ ...demo, name: args[0], after: { peak_kN: args[1] } });`, fmt.Sprintf("Pull %d (invented)", i+1), ratio*peak)
		}
		var got struct {
			Rows, Before, After int
			Facts               string
		}
		inPage(t, p, &got, `
			const { state, newPlan, edit } = await module("state");
			await (await module("plans")).startPlan(newPlan(), "own");
			for (const [path, text] of [["tree.species", "radiata_pine"], ["tree.height_m", "28"], ["tree.diameter_cm", "60"]]) edit(path, text);
			const before = Number(state.plan.tree.green_density_kgm3 ?? 0);
			(await module("planlist")).showPlans(() => {});
			await until(() => document.querySelectorAll(".plan-row").length >= 3);
			await click("[data-do=pulls]");
			const table = await until(() => document.querySelector("table.pulls"));
			const rows = table.tBodies[0].rows.length;
			const facts = document.querySelector("dialog .facts").textContent;
			return { Rows: rows, Facts: facts, Before: before, After: Number(state.plan.tree.green_density_kgm3 ?? 0) };`)
		assert.Equal(t, 3, got.Rows)
		assert.Contains(t, got.Facts, "115\u00a0%")
		assert.Equal(t, got.Before, got.After, "nothing changes by looking")
		shot(t, p, "compared")
		inPage(t, p, &got, `
			const { state } = await module("state");
			document.querySelector("table.pulls").closest("dialog").querySelector("button.main").click();
			await gone();
			return { After: state.plan.tree.green_density_kgm3 };`)
		assert.Greater(t, got.After, 500)
		quiet(t, p)
	})
}
