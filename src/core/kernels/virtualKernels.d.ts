/** Served by src/setup/kernelsPlugin.mjs. */
declare module 'virtual:kernels' {
  /** The compiled src/kernels. */
  export const KERNELS_BASE64: string;
}
