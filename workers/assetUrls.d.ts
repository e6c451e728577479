/** Files that the build puts beside the script; the import is their address. */
declare module '*.wasm?url' {
  const url: string;
  export default url;
}
