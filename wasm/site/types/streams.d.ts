// Packing and unpacking in browsers, which the library of TypeScript does not tell of.

declare class CompressionStream {
  constructor(format: "gzip" | "deflate" | "deflate-raw");
  readonly readable: ReadableStream<Uint8Array>;
  readonly writable: WritableStream<Uint8Array>;
}

declare class DecompressionStream extends CompressionStream {}
