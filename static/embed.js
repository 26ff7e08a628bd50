// A view of the pull-line calculator inside any page:
//
//   <script src="https://the.site.that.has.it/embed.js" async></script>
//   <pull-line-view view="bench" bench="redirect" guess="on"></pull-line-view>
//
// It stands alone: no imports, no style sheet, and it works as a classic
// script and as a module. The attributes are the parameters of the page's
// address (README has the table) and two more: src, the address of
// pullline.html where that does not lie beside this script, and title, what
// the frame is called for those who hear the page.
//
// The view runs in a frame that may run scripts and nothing else: it has no
// store, sees nothing of this page, and tells it only what is listed here.
// Each is an event of the element; they bubble. The element's set(…) asks the
// view for something else; attributes that change do the same.
//
// Version 1 of the messages.

(() => {
  "use strict";

  /**
   * What the view told, as the detail of its event.
   *
   * @typedef {{view: string, bench: string, version: string}} ReadyDetail
   *   pull-line-ready: the view is shown; told again when another one is.
   * @typedef {{height: number}} HeightDetail
   *   pull-line-height: how tall the view is, in CSS pixels. The element has
   *   grown to it.
   * @typedef {{view: string, id: string, text: string,
   *   state: ("right"|"wrong"), seed: string, grade: string}} AnswerDetail
   *   pull-line-answer: an answer was given: the view, the id of the bench or
   *   the question, the text as typed and what was found. The number and the
   *   grade of a practice sheet are "" at a bench.
   * @typedef {{plan: object, verdict: ("within"|"near"|"over"|"unknown")}} PlanDetail
   *   pull-line-plan: the plan as it is now (plan.schema.json says what is in
   *   it) and its verdict. Of the views of a plan only.
   */

  const TEXTS = {
    ready: ["view", "bench", "version"],
    answer: ["view", "id", "text", "state", "seed", "grade"],
  };
  const PARAMETERS = [
    "view", "bench", "values", "plan", "seed", "grade", "units", "words", "theme", "projector", "guess", "handles", "readonly",
  ];
  const OURS = [...PARAMETERS, "src", "title"];
  const ANYWHERE = /^(id|class|style|slot|part|hidden|lang|dir|role|tabindex|nonce|is|aria-.*|data-.*|on.*)$/;
  const NAME = "pull-line-view";
  const FIRST = 480; // CSS px, until the view has told its height
  const TALLEST = 30000; // CSS px; more is no height of a view

  // Where this script came from; a module that another one imports cannot say.
  const script = document.currentScript ??
    [...document.scripts].find(({ src }) => /(^|\/)embed\.js([?#]|$)/.test(src));
  const beside = new URL("pullline.html", script?.src || document.baseURI).href;

  /** The element <pull-line-view>. */
  class PullLineView extends HTMLElement {
    static observedAttributes = OURS;

    #frame = null;
    #ready = false;
    #changed = new Set(); // attributes since the last task
    #listener = (event) => this.#hear(event);

    connectedCallback() {
      for (const { name } of this.attributes) {
        if (!OURS.includes(name) && !ANYWHERE.test(name)) {
          console.warn(`<${NAME}> has no attribute “${name}”. There are ${OURS.join(", ")}.`);
        }
      }
      if (!this.style.display) this.style.display = "block";
      addEventListener("message", this.#listener);
      this.#open();
    }

    disconnectedCallback() {
      removeEventListener("message", this.#listener);
      this.#frame?.remove();
      this.#frame = null;
      this.#ready = false;
      this.#changed.clear();
    }

    attributeChangedCallback(name, before, now) {
      if (!this.#frame || before === now) return;
      if (!this.#changed.size) queueMicrotask(() => this.#follow());
      this.#changed.add(name);
    }

    /**
     * Asks the view to show something else, without loading it again.
     *
     *   view.set({ parameters: { units: "us", values: "included_deg:90" } });
     *   view.set({ plan });
     *
     * @param {{parameters?: Object<string, string>, plan?: object}} what
     *   the parameters by name, as an address gives them, and a plan.
     * @returns {boolean} whether there was a view that could be asked.
     */
    set({ parameters, plan } = {}) {
      if (!this.#ready) return false;
      this.#frame.contentWindow.postMessage({ pullline: 1, kind: "set", parameters, plan }, "*");
      return true;
    }

    // The frame, made anew.
    #open() {
      this.#frame?.remove();
      this.#ready = false;
      const frame = document.createElement("iframe");
      frame.setAttribute("sandbox", "allow-scripts");
      frame.title = this.#title();
      frame.loading = "lazy";
      frame.referrerPolicy = "no-referrer";
      frame.style.cssText = `display: block; width: 100%; height: ${FIRST}px; border: 0`;
      frame.src = this.#address();
      this.#frame = frame;
      this.append(frame);
    }

    #title() {
      return this.getAttribute("title") || `Pull-line calculator${this.hasAttribute("bench") ? `: ${this.getAttribute("bench")}` : ""}`;
    }

    #address() {
      const address = new URL(this.getAttribute("src") || beside, document.baseURI);
      for (const name of PARAMETERS) {
        if (this.hasAttribute(name)) address.searchParams.set(name, this.getAttribute(name));
      }
      return address.href;
    }

    // What attributes say now. An address that changes, a value that is taken
    // away and a view that is not there yet need the frame anew.
    #follow() {
      if (!this.#frame) return;
      const names = [...this.#changed];
      this.#changed.clear();
      if (names.includes("title")) this.#frame.title = this.#title();
      const parameters = {};
      let anew = !this.#ready;
      for (const name of names) {
        if (name === "title") continue;
        if (name === "src" || !this.hasAttribute(name)) anew = true;
        else parameters[name] = this.getAttribute(name);
      }
      if (anew && names.some((name) => name !== "title")) this.#open();
      else if (Object.keys(parameters).length) this.set({ parameters });
    }

    // What the view tells. Only this element's own frame is listened to, and
    // only what is made as it should be goes on.
    #hear({ source, data }) {
      if (!this.#frame || source !== this.#frame.contentWindow || data?.pullline !== 1) return;
      const { kind } = data;
      if (kind === "height") {
        const { height } = data;
        if (!Number.isFinite(height) || height <= 0 || height > TALLEST) return;
        this.#frame.style.height = `${Math.ceil(height)}px`;
        this.#tell(kind, { height });
      } else if (kind === "plan") {
        const { plan, verdict } = data;
        if (plan !== null && typeof plan === "object" && typeof verdict === "string") this.#tell(kind, { plan, verdict });
      } else if (Object.hasOwn(TEXTS, kind)) {
        this.#ready = true;
        this.#tell(kind, Object.fromEntries(TEXTS[kind].map((name) => [name, typeof data[name] === "string" ? data[name] : ""])));
      }
    }

    #tell(kind, detail) {
      this.dispatchEvent(new CustomEvent(`pull-line-${kind}`, { bubbles: true, composed: true, detail }));
    }
  }

  if (!customElements.get(NAME)) customElements.define(NAME, PullLineView);
})();
