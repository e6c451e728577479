declare module 'virtual:offline-files' {
  /** Changes with every build. */
  export const BUILD: string;
  /** Addresses of all files that the program needs, from its own folder: "./assets/index-1a2b3c.js". */
  export const OFFLINE_FILES: readonly string[];
}
