/** The part of WebAssembly that core uses; every engine that runs this has it. */
declare namespace WebAssembly {
  class Module {
    constructor(bytes: Uint8Array);
  }
  class Instance {
    constructor(module: Module);
    readonly exports: unknown;
  }
  interface Memory {
    readonly buffer: ArrayBuffer;
    /** @param pages of 65,536 bytes */
    grow(pages: number): number;
  }
}
