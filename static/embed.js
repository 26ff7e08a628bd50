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
// Each is an event of the element; they bubble. The element's plan is the
// plan it shows, to be read and to be given another; set(…) asks the view for
// something else, and attributes that change do the same. What stands inside
// the element is seen until the view is there.
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
  const FOUND = ["right", "wrong"];
  const VERDICTS = ["within", "near", "over", "unknown"];
  const PARAMETERS = [
    "view", "bench", "values", "plan", "seed", "grade", "units", "words", "theme", "projector", "guess", "handles", "readonly",
  ];
  const OURS = [...PARAMETERS, "src", "title"];
  // What any element may have; other plain words go to the view, which names
  // what it does not know, where the author sees it.
  const ANYWHERE = /^(id|class|style|slot|part|hidden|lang|dir|role|tabindex|nonce|is|inert|translate|draggable|accesskey|popover|itemprop|xmlns|on.*|.*[^a-z].*)$/;
  const NAME = "pull-line-view";
  const FIRST = 480; // CSS px, until the view has told its height
  const TALLEST = 30000; // CSS px; more is no height of a view
  const LATE = 10000; // ms from when the frame has loaded; then its reader is told
  const LONGEST = 1000; // characters of a text told
  const PLAN_CHARS = 262144; // of a plan told; the calculator reads no longer one

  // Where this script came from; a module that another one imports cannot say.
  const script = document.currentScript ??
    [...document.scripts].find(({ src }) => /(^|\/)embed\.js([?#]|$)/.test(src));
  const beside = new URL("pullline.html", script instanceof HTMLScriptElement && script.src || document.baseURI).href;

  /** @returns {value is { [name: string]: unknown }} */
  const isObject = (/** @type {unknown} */ value) => value !== null && typeof value === "object" && !Array.isArray(value);

  /** The element <pull-line-view>. */
  class PullLineView extends HTMLElement {
    static observedAttributes = OURS;

    /** @type {HTMLIFrameElement | null} */
    #frame = null;
    /** @type {HTMLElement | null} */
    #note = null;
    #ready = false;
    #late = 0;
    /** @type {Set<string>} */
    #changed = new Set(); // attributes since the last task
    /** @type {{ parameters: { [name: string]: string }, plan?: object }} */
    #asked = { parameters: {} }; // what set and plan gave, for a frame made anew
    /** @type {object | null} */
    #told = null; // the plan as the view has it
    #listener = (/** @type {MessageEvent} */ event) => this.#hear(event);

    connectedCallback() {
      if (!this.style.display) this.style.display = "block";
      const early = Object.getOwnPropertyDescriptor(this, "plan"); // given before this script was there
      if (early && Reflect.deleteProperty(this, "plan")) this.plan = early.value;
      addEventListener("message", this.#listener);
      this.#open();
    }

    disconnectedCallback() {
      removeEventListener("message", this.#listener);
      this.#close();
      this.#changed.clear();
    }

    /** @param {string} name @param {string | null} before @param {string | null} now */
    attributeChangedCallback(name, before, now) {
      delete this.#asked.parameters[name];
      if (name === "plan") this.#asked.plan = undefined;
      if (!this.isConnected || before === now) return;
      if (!this.#changed.size) queueMicrotask(() => this.#follow());
      this.#changed.add(name);
    }

    /**
     * The plan of the view as it told it last, null where it has told none. A
     * plan given, or a code of one, is shown as soon as the view is there.
     *
     * @type {object|string|null}
     */
    get plan() {
      return this.#told;
    }

    set plan(plan) {
      if (typeof plan === "string") this.set({ parameters: { plan } });
      else if (isObject(plan)) this.set({ plan });
      else throw new TypeError(`The plan of <${NAME}> is an object or the code of one.`);
    }

    /**
     * Asks the view to show something else, without loading it again; at once,
     * or as soon as it is there.
     *
     *   view.set({ parameters: { units: "us", values: "included_deg:90" } });
     *   view.set({ plan });
     *
     * @param {{parameters?: Object<string, string>, plan?: object}} what
     *   the parameters by name, as an address gives them, and a plan.
     */
    set(what) {
      const { parameters, plan } = structuredClone({ parameters: what?.parameters, plan: what?.plan });
      if (isObject(parameters)) {
        Object.assign(this.#asked.parameters, parameters);
        if ("plan" in parameters) this.#asked.plan = undefined;
      }
      if (isObject(plan)) {
        delete this.#asked.parameters.plan;
        this.#asked.plan = plan;
      }
      if (this.#ready) this.#ask(parameters, plan);
    }

    /** @param {object | undefined} parameters @param {object} [plan] */
    #ask(parameters, plan) {
      this.#frame?.contentWindow?.postMessage({ pullline: 1, kind: "set", parameters, plan }, "*");
    }

    // The frame, made anew.
    #open() {
      this.#close();
      const address = this.#address();
      if (!address) {
        this.#say(`There is no view here: “${this.getAttribute("src")}”, given as src, is no address of pullline.html.`);
        return;
      }
      const frame = document.createElement("iframe");
      frame.setAttribute("sandbox", "allow-scripts");
      frame.title = this.#title();
      frame.setAttribute("loading", "lazy");
      frame.referrerPolicy = "no-referrer";
      // The page's rules for its own frames are not meant for this one.
      for (const [name, value] of Object.entries({
        display: "block", width: "100%", height: `${FIRST}px`, "min-height": "0", "max-height": "none", "aspect-ratio": "auto", border: "0",
      })) frame.style.setProperty(name, value, "important");
      frame.addEventListener("load", () => {
        clearTimeout(this.#late);
        if (!this.#ready) this.#late = setTimeout(() => this.#say("The view has not come up here. ", address), LATE);
      });
      frame.src = address;
      this.#frame = frame;
      this.#say("The view is loading.");
      this.append(frame);
    }

    #close() {
      clearTimeout(this.#late);
      this.#frame?.remove();
      this.#frame = null;
      this.#ready = false;
      this.#told = null;
      this.#say("");
    }

    // A line above the frame, while there is no view to see.
    /** @param {string} text @param {string} [address] */
    #say(text, address) {
      this.#note?.remove();
      this.#note = null;
      if (!text) return;
      const note = document.createElement("p");
      note.textContent = text;
      if (address) {
        const link = document.createElement("a");
        link.href = address;
        link.textContent = "Open it on its own";
        note.append(link, ".");
      }
      this.#note = note;
      this.prepend(note);
    }

    #title() {
      return this.getAttribute("title") || `Pull-line calculator${this.hasAttribute("bench") ? `: ${this.getAttribute("bench")}` : ""}`;
    }

    // The address of the view, "" where src gives none.
    #address() {
      let address;
      try {
        address = new URL(this.getAttribute("src") || beside, document.baseURI);
      } catch {
        return "";
      }
      if (!/^(https?|file):$/.test(address.protocol)) return "";
      for (const { name, value } of this.attributes) {
        if (PARAMETERS.includes(name)) {
          address.searchParams.set(name, value);
        } else if (!OURS.includes(name) && !ANYWHERE.test(name)) {
          address.searchParams.set(name, value);
          console.warn(`<${NAME}> has no attribute “${name}”. There are ${OURS.join(", ")}.`);
        }
      }
      return address.href;
    }

    // What attributes say now. An address that changes, a value that is taken
    // away and a view that is not there yet need the frame anew.
    #follow() {
      const names = [...this.#changed].filter((name) => name !== "title");
      const entitled = this.#changed.has("title");
      this.#changed.clear();
      if (!this.isConnected) return;
      if (entitled && this.#frame) this.#frame.title = this.#title();
      if (!names.length) return;
      if (!this.#ready || names.some((name) => name === "src" || !this.hasAttribute(name))) this.#open();
      else this.#ask(Object.fromEntries(names.map((name) => [name, this.getAttribute(name)])));
    }

    // What the view tells. Only this element's own frame is listened to, and
    // only what is made as it should be goes on.
    /** @param {MessageEvent} event */
    #hear({ source, data }) {
      if (!this.#frame || source !== this.#frame.contentWindow || !isObject(data) || data.pullline !== 1) return;
      const { kind } = data;
      if (kind === "height") {
        const { height } = data;
        if (typeof height !== "number" || !(height > 0 && height <= TALLEST)) return;
        this.#frame.style.setProperty("height", `${Math.ceil(height)}px`, "important");
        this.#tell(kind, { height });
      } else if (kind === "plan") {
        const plan = plain(data.plan);
        const verdict = VERDICTS.find((word) => word === data.verdict);
        if (!plan || !verdict) return;
        this.#told = plan;
        this.#tell(kind, { plan, verdict });
      } else if (kind === "ready" || (kind === "answer" && FOUND.some((word) => word === data.state))) {
        if (kind === "ready") this.#begin();
        const text = (/** @type {unknown} */ value) => (typeof value === "string" ? value.slice(0, LONGEST) : "");
        this.#tell(kind, Object.fromEntries(TEXTS[kind].map((name) => [name, text(data[name])])));
      }
    }

    // The view is there: what was asked before goes to it.
    #begin() {
      if (this.#ready) return;
      this.#ready = true;
      clearTimeout(this.#late);
      this.#say("");
      for (const other of [...this.childNodes]) if (other !== this.#frame) other.remove();
      const { parameters, plan } = this.#asked;
      if (plan || Object.keys(parameters).length) this.#ask(parameters, plan);
    }

    /** @param {string} kind @param {object} detail */
    #tell(kind, detail) {
      this.dispatchEvent(new CustomEvent(`pull-line-${kind}`, { bubbles: true, composed: true, detail }));
    }
  }

  // plain gives a plan as JSON has it, null where it is none.
  /** @param {unknown} plan */
  function plain(plan) {
    if (!isObject(plan)) return null;
    try {
      const text = JSON.stringify(plan);
      return text.length > PLAN_CHARS ? null : JSON.parse(text);
    } catch {
      return null;
    }
  }

  if (!customElements.get(NAME)) customElements.define(NAME, PullLineView);
})();
