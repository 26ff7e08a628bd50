package browser

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What if: a setting is held, something changed, both seen, and gone back to.
func TestWhatIf(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p, _ := plansSite(t, engine)
		before := planNow(t, p)
		inPage(t, p, nil, `
			await click("#menu-button");
			await click("#plan-compare");
			await click("[data-do=hold]");
			await gone();
			(await module("state")).edit("tree.lean_deg", "9");
			await click("[data-bar=held] button");
			await until(() => document.querySelector(".compared .mark"));`)
		var text string
		inPage(t, p, &text, `return document.querySelector(".compared").textContent;`)
		assert.Contains(t, text, "4°9°")
		shot(t, p, "side by side")
		inPage(t, p, nil, `await click("[data-do=go-back]"); await gone();`)
		assert.JSONEq(t, before, planNow(t, p))
		var undone bool
		inPage(t, p, &undone, `(await module("state")).undo(); return (await module("state")).state.plan.tree.lean_deg === 9;`)
		assert.True(t, undone, "going back is a step like any other")
		quiet(t, p)
	})
}

// The rig of another plan comes into this one, without its places.
func TestRigOfAnotherPlan(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		p, _ := plansSite(t, engine)
		var got struct {
			Gear, Lines  int
			Verdict, Bar string
		}
		inPage(t, p, &got, `
			const { state, newPlan, edit } = await module("state");
			const demo = await (await fetch("demo.json")).json();
			await (await module("plans")).addPlan({ ...demo, name: "Before (invented)" });
			await (await module("plans")).startPlan(newPlan(), "own");
			for (const [path, text] of [["tree.species", "radiata_pine"], ["tree.height_m", "28"], ["tree.diameter_cm", "60"]]) edit(path, text);
			(await module("planlist")).showPlans(() => {});
			await until(() => document.querySelectorAll(".plan-row").length >= 2);
			for (const d of document.querySelectorAll(".plan-more")) d.open = true;
			await click("[data-act=rig]");
			await gone();
			const bar = await until(() => document.querySelector("#bars, .report")?.textContent.includes("anew") && document.querySelector("#verdict"));
			return { Gear: state.plan.gear.length, Lines: state.plan.lines.length, Verdict: document.querySelector("[data-verdict]").dataset.verdict, Bar: bar.textContent };`)
		assert.Positive(t, got.Gear)
		assert.Positive(t, got.Lines)
		assert.Equal(t, "unknown", got.Verdict)
		shot(t, p, "rig")
		quiet(t, p)
	})
}
