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
const hands = `
	const module = (name) => import(new URL(name + ".js", location.href));
	const until = async (test) => {
		for (let i = 0; i < 800; i++) {
			const found = await test();
			if (found) return found;
			await new Promise((r) => setTimeout(r, 10));
		}
		throw new Error("never came: " + test);
	};
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
		await until(() => document.querySelector("[data-verdict]"));
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
			require.NoError(t, p.WaitUntil(wait, `return !globalThis.before && Boolean(document.querySelector("[data-verdict]"))`))
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
		const does = { ready, kept, type: async (edits) => {
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
// the last key: everything is there when it starts again.
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
			time.Sleep(500 * time.Millisecond) // the very moment
			kill()
		}
	})
}
