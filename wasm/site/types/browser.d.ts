// What browsers have that the library of TypeScript does not tell of.

interface Element {
  checkVisibility(): boolean;
  scrollIntoView(options: { block?: ScrollLogicalPosition; behavior: "instant" }): void;
}

declare function scrollTo(options: { top: number; behavior: "instant" }): void;

declare class CompressionStream {
  constructor(format: "gzip" | "deflate" | "deflate-raw");
  readonly readable: ReadableStream<Uint8Array>;
  readonly writable: WritableStream<Uint8Array>;
}

declare class DecompressionStream extends CompressionStream {}

/** What its event offers, of browsers that let a page be installed. */
interface BeforeInstallPromptEvent extends Event {
  prompt(): Promise<unknown>;
}

interface WindowEventMap {
  beforeinstallprompt: BeforeInstallPromptEvent;
}

/** Made by wasm_exec.js. */
declare class Go {
  env: { [name: string]: string };
  importObject: WebAssembly.Imports;
  run(instance: WebAssembly.Instance): Promise<void>;
}

/** The bridge to the program, once it runs. */
declare var pullline: ((call: string, input: string) => string) | undefined;
/** The program that start.js has asked for and had compiled; null where that failed. */
declare var pulllineProgram: Promise<WebAssembly.Module | null> | undefined;
