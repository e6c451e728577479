import { readFileSync } from 'node:fs';

/** A file of tests/reference-values, read as the shape the test states. */
export function referenceValues<T>(name: string): T {
  return JSON.parse(readFileSync(new URL(`../reference-values/${name}`, import.meta.url), 'utf8')) as T;
}
