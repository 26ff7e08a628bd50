// What browsers have that the library of TypeScript does not tell of.

interface Element {
  checkVisibility(): boolean;
  scrollIntoView(options: { block?: ScrollLogicalPosition; behavior: "instant" }): void;
}

declare function scrollTo(options: { top: number; behavior: "instant" }): void;

/** What its event offers, of browsers that let a page be installed. */
interface BeforeInstallPromptEvent extends Event {
  prompt(): Promise<unknown>;
}

interface WindowEventMap {
  beforeinstallprompt: BeforeInstallPromptEvent;
}

/** Made by wasm_exec.js. */
declare var Go: new () => {
  env: { [name: string]: string };
  importObject: WebAssembly.Imports;
  run(instance: WebAssembly.Instance): Promise<void>;
};

/** Of Node. */
declare var process: { getBuiltinModule?(name: "node:fs"): { readFileSync(url: URL): Uint8Array } } | undefined;

/** The bridge to the program, once it runs. */
declare var pullline: ((call: string, input: string) => string) | undefined;
/** The program that start.js has asked for and had compiled; null where that failed. */
declare var pulllineProgram: Promise<WebAssembly.Module | null> | undefined;

/** What embed.js tells the page that has the view. */
interface DocumentEventMap {
  "pull-line-answer": CustomEvent<{ view: string; id: string; text: string; state: "right" | "wrong"; seed: string; grade: string }> & { target: HTMLElement };
}
