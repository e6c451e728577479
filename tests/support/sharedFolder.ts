import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const folder = fileURLToPath(new URL('../../../shared/', import.meta.url));

/** Path of a file or folder beside the checkout that is not part of the project, or undefined with a printed line. */
export function sharedPath(relative: string): string | undefined {
  const path = folder + relative;
  if (existsSync(path)) return path;
  console.log(`skipped: ../shared/${relative} is not on this machine`);
  return undefined;
}
