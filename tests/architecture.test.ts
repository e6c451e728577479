import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { importsOf, importViolations, type SourceFile } from './support/importRules.ts';

const project = fileURLToPath(new URL('../', import.meta.url));

function sourceFiles(folder: string): SourceFile[] {
  return readdirSync(project + folder, { recursive: true, encoding: 'utf8' })
    .map((name) => `${folder}/${name.replaceAll('\\', '/')}`)
    .filter((path) => /\.(ts|tsx)$/.test(path) && !path.startsWith('src/kernels/'))
    .map((path) => ({ path, text: readFileSync(project + path, 'utf8') }));
}

const files = [...sourceFiles('src'), ...sourceFiles('workers')];

test('imports go one way only', () => {
  const imports = files.flatMap(importsOf).length;
  console.log(`architecture: ${files.length} files with ${imports} imports read`);
  expect(files.length).toBeGreaterThan(20);
  expect(imports).toBeGreaterThan(20);
  expect(importViolations(files)).toEqual([]);
});

test.each<[string, string, string]>([
  ['core importing the app', 'src/core/cover/x.ts', "import { y } from '../../app/y.ts';"],
  ['core importing a package', 'src/core/cover/x.ts', "import { z } from 'zod';"],
  ['core importing node', 'src/core/cover/x.ts', "import { readFileSync } from 'node:fs';"],
  ['a worker importing the app', 'workers/x.ts', "export { y } from '../src/app/y.ts';"],
  [
    'a screen naming a worker',
    'src/app/screens/cover/x.tsx',
    "const y = await import('../../../../workers/y.ts');",
  ],
  ['running worker code in the page', 'src/app/measuring/x.ts', "import { y } from '../../../workers/y.ts';"],
  ['one screen importing another', 'src/app/screens/cover/x.tsx', "import { y } from '../photos/y.tsx';"],
  ['opencv.js outside vision', 'src/core/cover/x.ts', "import('@opencvjs/web');"],
  ['anything importing the command line', 'src/storage/x.ts', "import { y } from '../cli/y.ts';"],
])('a planted violation is caught: %s', (_, path, text) => {
  expect(importViolations([...files, { path, text }])).toHaveLength(1);
});

test('a type of a worker may be named where workers are started', () => {
  const path = 'src/app/measuring/x.ts';
  expect(importViolations([{ path, text: "import type { Y } from '../../../workers/y.ts';" }])).toEqual([]);
});
