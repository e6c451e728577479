// Tells whether something built is older than what it was built from. No dependencies.
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { projectFolder } from './install.mjs';

/** One hash over path, size and time of every file below the given files and folders. */
export function fingerprint(paths) {
  const hash = createHash('sha256');
  const add = (path) => {
    const full = join(projectFolder, path);
    if (!existsSync(full)) return;
    const stat = statSync(full);
    if (stat.isDirectory()) {
      for (const name of readdirSync(full).sort()) add(join(path, name));
    } else {
      hash.update(`${path} ${stat.size} ${stat.mtimeMs}\n`);
    }
  };
  for (const path of paths) add(path);
  return hash.digest('hex');
}

/**
 * Runs `build` unless `product` exists and was built from exactly these sources.
 *
 * @param product file that the build writes
 * @param sources files and folders it is made from
 * @returns the build's exit code; 0 when nothing had to be done
 */
export async function buildIfStale(product, sources, build) {
  const stamp = join(projectFolder, 'node_modules', '.cache', `${product.replaceAll('/', '-')}.stamp`);
  const before = fingerprint(sources);
  if (existsSync(join(projectFolder, product)) && existsSync(stamp) && readFileSync(stamp, 'utf8') === before)
    return 0;
  const code = await build();
  if (code === 0) {
    mkdirSync(dirname(stamp), { recursive: true });
    writeFileSync(stamp, before);
  }
  return code;
}
