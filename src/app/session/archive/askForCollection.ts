/** Counts as memory in use and takes none: pages of a buffer are there only once they are written to. */
const PRESSURE_BYTES = 128 * 2 ** 20;

/**
 * Has the browser collect its garbage, and leaves it a moment to. A photo read from the database leaves copies behind that
 * no script can reach and that the collector does not count: without this, 200 MB of photos piled up to 95 to 167 MiB.
 */
export async function askForCollection(): Promise<void> {
  new ArrayBuffer(PRESSURE_BYTES);
  await new Promise((resolve) => setTimeout(resolve));
}
