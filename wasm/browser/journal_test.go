package browser

import (
	"encoding/json"
	"fmt"
	"maps"
	"math/rand/v2"
	"net/http"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/wasm/site/build"
)

// hands are what a person does with everything that can be typed: ready()
// opens it all at once, kinds type into it, and kept() reads what stands there.
const hands = ownModules + until + `
	const all = (css) => [...document.querySelectorAll(css)];
	const click = async (css) => (await until(() => all(css).find((e) => e.checkVisibility() && !e.disabled))).click();
	const fire = (input, text) => {
		input.value = text;
		input.dispatchEvent(new Event(input.localName === "select" ? "change" : "input", { bubbles: true }));
	};
	const field = (path) => document.querySelector('dialog.inventory [data-path="' + path + '"] :is(input, select, textarea)');
	const boxes = {
		practice: () => document.querySelector(".drill-answer input[type=text]"),
		gear: () => field("pieces[0].wll_kN"),
		worksheet: () => field("by"),
		readings: () => document.querySelector("dialog.measure [data-reading] input[type=text]"),
	};
	const ready = async () => {
		await until(() => document.querySelector("[data-start=done] [data-verdict]"));
		const { move } = await module("place");
		move({ view: "practice", seed: "1" });
		await until(boxes.practice);
		const { openInventory } = await module("inventory");
		openInventory(() => {});
		await until(() => document.querySelector("dialog.inventory .gear-part:not([hidden])"));
		if (document.querySelector(".gear-open")) {
			await click(".gear-open");
		} else {
			await click("[data-do=add]");
			await until(() => field("pieces[0].id"));
			fire(field("pieces[0].id"), "red strop");
			fire(field("pieces[0].kind"), "sling");
		}
		await until(boxes.gear);
		await click("dialog.inventory [data-do=sheet]");
		await until(() => {
			for (const section of all("dialog.inventory details.section")) section.open = true;
			return boxes.worksheet();
		});
		const { openMeasure } = await module("measure");
		openMeasure("tree.height_m", () => {});
		await until(boxes.readings);
	};
	const type = async (kind, text) => {
		const state = await module("state");
		return () => {
			if (kind === "name") state.edit("name", text);
			else if (kind === "after") state.edit("after.happened", text);
			else fire(boxes[kind](), text);
		};
	};
	const kept = async () => {
		const { plan } = (await module("state")).state;
		const now = { name: plan.name ?? "", after: plan.after?.happened ?? "" };
		for (const [kind, box] of Object.entries(boxes)) now[kind] = box().value;
		return now;
	};
`

// typedKinds are the kinds of things that can be typed.
var typedKinds = []string{"name", "after", "practice", "gear", "worksheet", "readings"}

// Whatever was typed is there after a reload, at whatever moment it comes: in
// the very task of the key, or up to 600 ms later.
func TestNothingTypedIsLostToAReload(t *testing.T) {
	const (
		reloads = 34 // of everything, 204 edits in all
		longest = 600
	)
	each(t, func(t *testing.T, engine string) {
		p, _ := plansSite(t, engine)
		require.NoError(t, p.Await(nil, hands+`await ready();`))
		r := rand.New(rand.NewPCG(7, 11))
		want := map[string]string{}
		lost := 0
		for n := range reloads {
			type edit struct {
				Kind, Text string
				Before     int // ms before the reload
			}
			var edits []edit
			for i, kind := range typedKinds {
				e := edit{kind, strconv.Itoa(1000 + n*len(typedKinds) + i), r.IntN(longest + 1)}
				if i == n%len(typedKinds) {
					e.Before = 0
				}
				want[kind] = e.Text
				edits = append(edits, e)
			}
			require.NoError(t, p.Await(nil, hands+`
				const jobs = await Promise.all(args[0].map(async ({ Kind, Text, Before }) => ({ run: await type(Kind, Text), Before })));
				globalThis.before = true;
				for (const { run, Before } of jobs) if (Before) setTimeout(run, args[1] - Before);
				setTimeout(() => {
					for (const { run, Before } of jobs) if (!Before) run();
					location.reload();
				}, args[1]);`, edits, longest))
			require.NoError(t, p.WaitUntil(wait, `return !globalThis.before && Boolean(document.querySelector("[data-start=done] [data-verdict]"))`))
			got := map[string]string{}
			require.NoError(t, p.Await(&got, hands+`await ready(); return await kept();`))
			if !assert.Equal(t, want, got, "reload %d after %v", n, edits) {
				for kind := range want {
					if want[kind] != got[kind] {
						lost++
					}
				}
			}
		}
		t.Logf("%d of %d edits lost", lost, reloads*len(typedKinds))
	})
}

// A hand is a browser without a driver, so that it can be killed and started
// anew: a script in its page asks this server what to do and tells what came
// of it.
type hand struct {
	*Server
	t    testing.TB
	todo atomic.Pointer[chan string] // a new one for every browser: nothing goes to a dead one
	said chan json.RawMessage
}

func newHand(t testing.TB) *hand {
	h := &hand{t: t, said: make(chan json.RawMessage)}
	files := build.Files{}
	maps.Copy(files, site(t).Site)
	page := string(files["index.html"])
	files["hand.html"] = []byte(strings.Replace(page, "</head>", `<script type="module" src="hand.js"></script></head>`, 1))
	require.NotEqual(t, page, string(files["hand.html"]))
	files["hand.js"] = []byte(hands + `
		const does = { ready, kept, flushed: async () => (await module("journal")).flushed(), type: async (edits) => {
			for (const [kind, text] of Object.entries(edits)) (await type(kind, text))();
		} };
		let said = null;
		for (;;) {
			const answer = await fetch("hand?said=" + encodeURIComponent(JSON.stringify(said)), { cache: "no-store" });
			const [what, given] = await answer.json();
			try {
				said = { value: (await does[what](given)) ?? null };
			} catch (err) {
				said = { error: String(err) };
			}
		}`)
	rest := files.Handler()
	h.Server = serve(t, http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if !strings.HasSuffix(r.URL.Path, "/hand") {
			rest.ServeHTTP(w, r)
			return
		}
		todo := *h.todo.Load()
		if said := r.FormValue("said"); said != "null" {
			h.said <- json.RawMessage(said)
		}
		select {
		case do := <-todo:
			w.Write([]byte(do))
		case <-r.Context().Done():
		}
	}))
	return h
}

// do has the page do something and waits for what it says.
func (h *hand) do(value any, what string, given any) {
	h.t.Helper()
	text, err := json.Marshal([]any{what, given})
	require.NoError(h.t, err)
	late := time.After(2 * wait)
	select {
	case *h.todo.Load() <- string(text):
	case <-late:
		require.Fail(h.t, "the page does not ask", what)
	}
	select {
	case said := <-h.said:
		var answer struct {
			Value json.RawMessage
			Error string
		}
		require.NoError(h.t, json.Unmarshal(said, &answer))
		require.Empty(h.t, answer.Error)
		if value != nil {
			require.NoError(h.t, json.Unmarshal(answer.Value, value))
		}
	case <-late:
		require.Fail(h.t, "the page does not answer", what)
	}
}

// The whole browser is killed, as with an empty battery, half a second after
// the last key, or once the page has what was typed flushed, if a busy machine
// takes longer for that: everything is there when it starts again.
func TestNothingTypedIsLostToAKilledBrowser(t *testing.T) {
	const kills = 6
	each(t, func(t *testing.T, engine string) {
		h := newHand(t)
		profile := t.TempDir()
		d := driver(t, engine)
		want := map[string]string{}
		for n := range kills + 1 {
			todo := make(chan string)
			h.todo.Store(&todo)
			kill, err := d.Alone(profile, h.URL()+"hand.html")
			require.NoError(t, err)
			t.Cleanup(kill)
			h.do(nil, "ready", nil)
			if n > 0 {
				got := map[string]string{}
				h.do(&got, "kept", nil)
				assert.Equal(t, want, got, "after kill %d", n)
			}
			if n == kills {
				break
			}
			for i, kind := range typedKinds {
				want[kind] = fmt.Sprint(1000 + n*len(typedKinds) + i)
			}
			h.do(nil, "type", want)
			typed := time.Now()
			h.do(nil, "flushed", nil)
			t.Logf("flushed %v after the last key", time.Since(typed).Round(time.Millisecond))
			time.Sleep(time.Until(typed.Add(500 * time.Millisecond))) // the very moment
			kill()
		}
	})
}

// withScript is the site with a copy of its page, at the name, that runs a
// script before all else.
func withScript(t testing.TB, name, script string) build.Files {
	t.Helper()
	files := build.Files{}
	maps.Copy(files, site(t).Site)
	page := string(files["index.html"])
	files[name] = []byte(strings.Replace(page, "<head>", `<head><script src="first.js"></script>`, 1))
	require.NotEqual(t, page, string(files[name]))
	files["first.js"] = []byte(script)
	return files
}

const noDatabase = `Object.defineProperty(globalThis, "indexedDB", { get() { throw new DOMException("denied", "SecurityError"); } });`

// Without a database the local store keeps the plans and the gear, and hands
// them over once there is one.
func TestPlansWithoutADatabase(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		s := serve(t, withScript(t, "denied.html", noDatabase).Handler())
		p := open(t, engine, Options{})
		visit(t, p, s.URL()+"denied.html")
		write(t, p, "name", "One (invented)")
		inPage(t, p, nil, `
			await click("#menu-button"); await click("#plan-new"); await until(async () => !(await module("state")).state.plan.name);
			await (await module("inventory")).addPieces([{ id: "sling 1", kind: "sling", wll_t: 2 }]);`)
		write(t, p, "name", "Two (invented)")
		list := func() []string {
			var got []string
			inPage(t, p, &got, `return (await (await module("plans")).listPlans()).map((r) => r.plan.name).sort();`)
			return got
		}
		for range 2 {
			visit(t, p, s.URL()+"denied.html")
			assert.Contains(t, planNow(t, p), "Two (invented)", "the plan in work")
			assert.Equal(t, []string{"One (invented)", "Two (invented)"}, list())
			var lost bool
			require.NoError(t, p.Script(&lost, `return Boolean(document.querySelector("[data-bar=loss]"))`))
			assert.False(t, lost, "nothing is said to be lost")
		}

		visit(t, p, s.URL())
		assert.Equal(t, []string{"One (invented)", "Two (invented)"}, list(), "the database has them now")
		var left []string
		var gear int
		inPage(t, p, &gear, `return (await (await module("inventory")).gearPieces()).length;`)
		assert.Equal(t, 1, gear)
		require.NoError(t, p.Script(&left, `return Object.keys(localStorage).filter((key) => key.startsWith("pullline.kept."))`))
		assert.Empty(t, left)
		visit(t, p, s.URL())
		assert.Equal(t, []string{"One (invented)", "Two (invented)"}, list())
	})
}

// A damaged record does not hide the others: it goes to a file or away.
func TestDamagedRecords(t *testing.T) {
	damage := map[string]string{
		"index.html": `
			const { transact } = await module("storage");
			await transact("meta", "", () => ({ put: [
				["plans", { id: "damaged 1", plan: 7, revision: 1 }],
				["plans", { id: "damaged 2" }],
				["plans", { id: "damaged 3", plan: { version: 1, name: "Half (invented)" }, revision: "one", changed: NaN }],
				["gear", { id: "list", list: "all of it" }],
			] }));`,
		"denied.html": `
			localStorage.setItem("pullline.kept.plans.1", '{"plan": 7}');
			localStorage.setItem("pullline.kept.plans.2", '{"id": "2", "plan": {"na');
			localStorage.setItem("pullline.kept.plans.3", "[]");
			localStorage.setItem("pullline.kept.gear.list", '{"id": "list", "list": "all of it"}');`,
	}
	each(t, func(t *testing.T, engine string) {
		s := serve(t, withScript(t, "denied.html", noDatabase).Handler())
		for page, script := range damage {
			p := open(t, engine, Options{})
			visit(t, p, s.URL()+page)
			write(t, p, "name", "Whole (invented)")
			inPage(t, p, nil, `await (await module("plans")).save();`+script)
			visit(t, p, s.URL()+page)
			assert.Contains(t, planNow(t, p), "Whole (invented)", page)
			var got struct {
				Names   []string
				Damaged int
				Saved   []string
				Left    int
			}
			gear(t, p, nil, `
				await openGear(); // puts the damaged list aside
				await close();
				await click("#menu-button");
				await click("#plan-list");
				await until(() => document.querySelector("[data-damaged]") && document.querySelector(".plan-row"));`)
			shot(t, p, "list of "+page)
			gear(t, p, &got, `
				const out = { saved: [] };
				const damaged = () => [...document.querySelectorAll("[data-damaged]")];
				out.damaged = damaged().length;
				out.names = [...document.querySelectorAll(".plan-row .plan-title")].map((e) => e.textContent);
				for (const one of damaged()) {
					one.dataset.now = "";
					out.saved.push((await saved("[data-now] [data-act=save-damaged]")).text);
					const many = damaged().length;
					one.querySelector("[data-act=drop-damaged]").click();
					await click("dialog:not(.panel) button.main");
					await until(() => damaged().length < many);
				}
				out.left = (await (await module("plans")).listDamaged()).length;
				return out;`)
			assert.Equal(t, []string{"Whole (invented)"}, got.Names, page)
			assert.Equal(t, 4, got.Damaged, page)
			assert.Contains(t, strings.Join(got.Saved, "\n"), "7", page)
			assert.Contains(t, strings.Join(got.Saved, "\n"), "all of it", page)
			assert.Zero(t, got.Left, page)
			quiet(t, p)
		}
	})
}

// A frame on another page of the same site neither shows nor changes what the
// user keeps: not of the same origin, and not of another one.
func TestAFrameOfTheSameSiteKeepsNothing(t *testing.T) {
	each(t, func(t *testing.T, engine string) {
		files := build.Files{"course.html": []byte(`<!doctype html><html lang="en"><meta charset="utf-8"><title>Course</title><iframe title="view" src="./?units=us" style="width: 900px; height: 700px"></iframe>`)}
		for name, body := range site(t).Site {
			if name != "course.html" {
				files[name] = body
			}
		}
		s := serve(t, files.Handler())
		other := serve(t, build.Files{"index.html": []byte(strings.Replace(string(files["course.html"]), "./", s.URL(), 1))}.Handler())
		p := open(t, engine, Options{})
		visit(t, p, s.URL())
		write(t, p, "name", "Kept (invented)")
		stored := func() (text string) {
			inPage(t, p, &text, `
				await (await module("plans")).save();
				await (await module("journal")).flushed();
				const { readAll } = await module("storage");
				const small = (await readAll("meta")).filter((r) => !String(r.key).startsWith("journal"));
				const plans = (await readAll("plans")).map((r) => [r.id, r.plan.name, r.revision]);
				const said = ["pullline.changed", "pullline.said"]; // changes with every visit
				return JSON.stringify([plans, await readAll("gear"), small, Object.entries(localStorage).filter(([key]) => !said.includes(key)).sort()]);`)
			return text
		}
		before := stored()
		require.Contains(t, before, "Kept (invented)")
		for _, course := range []string{s.URL() + "course.html", other.URL()} {
			require.NoError(t, p.Go(course))
			frame, err := p.WaitFor("iframe", wait)
			require.NoError(t, err)
			require.NoError(t, p.Frame(frame))
			assert.NotEqual(t, "unknown", verdict(t, p))
			assert.NotContains(t, planNow(t, p), "Kept (invented)", course)
			write(t, p, "name", "Of the course (invented)")
			inPage(t, p, nil, `
				await (await module("plans")).save();
				(await module("settings")).choose("theme", "dark");
				await (await module("inventory")).addPieces([{ id: "sling 1", kind: "sling", wll_t: 2 }]);`)
			assert.Contains(t, planNow(t, p), "Of the course (invented)", "it works for this visit")
			require.NoError(t, p.Frame())
			visit(t, p, s.URL())
			assert.Equal(t, before, stored(), course)
		}
	})
}
