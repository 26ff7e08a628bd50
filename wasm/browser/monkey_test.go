package browser

import (
	"fmt"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A monkeyAct is one action of the monkey: Do is type, new, open, bin, copy,
// undo, redo, sheet or rest.
type monkeyAct struct {
	Do   string
	Kind string // for type: of typedKinds
	Text string // what is typed, or the name of a new plan
	Nth  int    // of the other plans, or of the practice sheets
	Ms   int    // for rest
}

// monkeyKept is what the page shows of everything that can be typed.
type monkeyKept struct {
	Plan   any            // in work
	Plans  map[string]any // by id
	Sheets map[string]string
	Boxes  map[string]string
}

const monkeyHands = hands + `
	const sheets = ["1", "2", "3"];
	const plans = await module("plans"), state = await module("state"), place = await module("place");
	const show = async (seed) => {
		place.move({ seed });
		await until(() => document.querySelector("#practice-seed").value === seed);
	};
	const measure = async () => { // readings are of the plan in work
		await click("dialog.measure .measure-close");
		const { openMeasure } = await module("measure");
		openMeasure("tree.height_m", () => {});
		await until(boxes.readings);
	};
	const others = async () => (await plans.listPlans()).filter((r) => r.id !== plans.workId() && r.revision > 0 && !r.binned).sort((a, b) => (a.id < b.id ? -1 : 1));
	const acts = {
		type: async ({ Kind, Text }) => (await type(Kind, Text))(),
		new: async ({ Text }) => {
			await plans.startPlan(state.newPlan(), "own");
			state.edit("name", Text);
			await measure();
		},
		open: async ({ Nth }) => {
			const list = await others();
			if (!list.length) return;
			await plans.openRecord(list[Nth % list.length].id);
			await measure();
		},
		bin: async ({ Nth }) => {
			const list = await others();
			if (list.length > 3) await plans.binPlan(list[Nth % list.length].id);
		},
		copy: async ({ Nth }) => {
			const list = await others();
			if (list.length && list.length < 12) await plans.duplicatePlan(list[Nth % list.length]);
		},
		undo: () => state.undo(),
		redo: () => state.redo(),
		sheet: ({ Nth }) => show(sheets[Nth % sheets.length]),
		rest: ({ Ms }) => new Promise((r) => setTimeout(r, Ms)),
	};
	// all reads what stands everywhere, without storing anything.
	const everything = async () => {
		const { readAll } = await module("storage");
		const stored = (await readAll("plans")).filter((r) => !r.binned);
		const byId = Object.fromEntries(stored.map((r) => [r.id, r.plan]));
		byId[plans.workId()] = state.state.plan; // what is shown counts, stored or not
		const seen = {};
		for (const seed of sheets) {
			await show(seed);
			seen[seed] = boxes.practice().value;
		}
		const { practice, name, after, ...rest } = await kept();
		return { plan: state.state.plan, plans: byId, sheets: seen, boxes: rest };
	};
`

// A monkey types, goes from plan to plan, reloads, leaves, comes back and loses
// the signal; after every return all is as it was shown before.
// PULLLINE_MONKEY sets another seed and PULLLINE_ACTIONS another number of
// actions.
func TestMonkey(t *testing.T) {
	number := func(name string, otherwise int) int {
		if n, err := strconv.Atoi(os.Getenv(name)); err == nil {
			return n
		}
		return otherwise
	}
	seed, actions := number("PULLLINE_MONKEY", 1), number("PULLLINE_ACTIONS", 500)
	each(t, func(t *testing.T, engine string) {
		t.Logf("PULLLINE_MONKEY=%d PULLLINE_ACTIONS=%d", seed, actions)
		r := rand.New(rand.NewPCG(uint64(seed), 500))
		p, s := plansSite(t, engine)
		require.NoError(t, p.Await(nil, "await navigator.serviceWorker.ready"))
		visit(t, p, s.URL())
		require.NoError(t, p.Await(nil, hands+`await ready();`))
		for done, turn := 0, 0; done < actions; turn++ {
			var batch []monkeyAct
			typed := map[string]string{}
			for range 8 + r.IntN(13) {
				a := monkeyAct{Nth: r.IntN(12), Text: strconv.Itoa(100_000 + done), Ms: r.IntN(250)}
				switch n := r.IntN(20); {
				case n < 12:
					a.Do, a.Kind = "type", typedKinds[r.IntN(len(typedKinds))]
				default:
					a.Do = []string{"new", "open", "open", "bin", "copy", "undo", "redo", "sheet", "rest", "rest"}[r.IntN(10)]
				}
				if a.Do == "new" {
					a.Text = fmt.Sprintf("Plan %d (invented)", done)
				}
				typed[a.Kind] = a.Text
				batch = append(batch, a)
				done++
			}
			// The last thing is typed, and the page is left in the same task.
			last := monkeyAct{Do: "type", Kind: typedKinds[r.IntN(len(typedKinds))], Text: strconv.Itoa(200_000 + done)}
			done++
			how := []string{"reload", "reload", "leave", "offline"}[r.IntN(4)]
			var want, got monkeyKept
			require.NoError(t, p.Await(&want, monkeyHands+`
				for (const act of args[0]) await acts[act.Do](act);
				const run = await type(args[1].Kind, args[1].Text);
				const now = await everything();
				run();
				// What the last key changed, and nothing but what is shown at once.
				const { practice, name, after, ...rest } = await kept();
				now.plan = now.plans[plans.workId()] = state.state.plan;
				now.boxes = rest;
				now.sheets[sheets.at(-1)] = practice;
				globalThis.before = true;
				setTimeout(() => {
					if (args[2] === "leave") location.href = "manifest.webmanifest";
					else if (args[2] === "reload") location.reload();
				});
				return now;`, batch, last, how), "turn %d: %v", turn, batch)
			switch how {
			case "offline":
				s.Leave()
				require.NoError(t, p.Reload())
			case "leave":
				require.NoError(t, p.WaitUntil(wait, `return location.pathname.endsWith("manifest.webmanifest")`))
				require.NoError(t, p.Go(s.URL()))
			}
			require.NoError(t, p.WaitUntil(wait, `return !globalThis.before && Boolean(document.querySelector("[data-start=done] [data-verdict]"))`))
			require.NoError(t, p.Await(&got, monkeyHands+`await ready(); return await everything();`), "turn %d", turn)
			if how == "offline" {
				require.NoError(t, s.Return())
			}
			if !assert.Equal(t, want, got, "turn %d, %s after %v and %v", turn, how, batch, last) {
				return
			}
		}
	})
}
