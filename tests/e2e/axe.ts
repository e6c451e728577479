import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import type { Page } from '@playwright/test';
import type { AxeResults } from 'axe-core';

const axeSource = readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** Findings of axe on what is on screen now, in words. */
export async function axeFindings(page: Page): Promise<string[]> {
  await page.evaluate(await axeSource);
  const { violations } = await page.evaluate(() =>
    (window as unknown as { axe: { run(): Promise<AxeResults> } }).axe.run(),
  );
  return violations.flatMap(({ id, help, nodes }) =>
    nodes.map(({ target, failureSummary }) => `${id}: ${help} at ${target.join(' ')}: ${failureSummary}`),
  );
}
