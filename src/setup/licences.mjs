// Writes the licences of what others made: a list in docs/third-party.md, and every text in a file that is shipped with
// the page. Run after a change of packages: node src/setup/licences.mjs. A test compares both with what this returns.
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const project = fileURLToPath(new URL('../../', import.meta.url));
const modules = join(project, 'node_modules');

/** Where the page comes from; the command line adds its own. */
const OF_PAGE = ['src/app', 'src/core', 'src/storage', 'src/zip', 'workers'];
const OF_COMMAND_LINE = ['src/cli', 'src/vision'];

/** Types only: nothing of them is in a built file. */
const ONLY_TYPES = /^@types\/|\/types$|^type-fest$/;

/** What packages carry inside as compiled code, with what their own documents say of it. */
const INSIDE = {
  'zxing-wasm':
    'Holds zxing-cpp (Apache-2.0) compiled to WebAssembly. Its README also names zint (BSD-3-Clause), which draws codes; only the part that reads codes is shipped here.',
  exifreader: 'MPL-2.0: used unmodified; its source is the npm package of this name and version.',
};

/** Whatever else stands in quotes after "from" is no package. */
const DEPENDENCIES = new Set(
  Object.keys(JSON.parse(readFileSync(join(project, 'package.json'), 'utf8')).dependencies),
);

const IMPORT = /(?:from\s+|import\s*\(?\s*)'([^'.][^']*)'/g;

/** Names of packages that sources below some folders import. */
function importedBy(folders) {
  const names = new Set();
  for (const folder of folders) {
    for (const entry of readdirSync(join(project, folder), { withFileTypes: true, recursive: true })) {
      if (!entry.isFile() || !/\.tsx?$/.test(entry.name)) continue;
      const text = readFileSync(join(entry.parentPath ?? entry.path, entry.name), 'utf8');
      // types leave nothing behind
      const code = text.replace(/^import type[^;]*;/gm, '');
      for (const [, path] of code.matchAll(IMPORT)) {
        const name = path.split('/', path.startsWith('@') ? 2 : 1).join('/');
        if (DEPENDENCIES.has(name)) names.add(name);
      }
    }
  }
  return names;
}

const manifestOf = (name) => JSON.parse(readFileSync(join(modules, name, 'package.json'), 'utf8'));

/** With everything they need in turn. */
function withDependencies(names) {
  const all = new Set();
  const visit = (name) => {
    if (all.has(name) || ONLY_TYPES.test(name)) return;
    all.add(name);
    for (const next of Object.keys(manifestOf(name).dependencies ?? {})) visit(next);
  };
  for (const name of names) visit(name);
  return all;
}

/** The package's own licence files, LICENSE before NOTICE. */
function textsOf(name) {
  return readdirSync(join(modules, name))
    .filter((file) => /^(licen[cs]e|copying|notice)(\.|$)/i.test(file))
    .sort()
    .map((file) =>
      readFileSync(join(modules, name, file), 'utf8')
        .replace(/\r\n/g, '\n')
        .trim(),
    );
}

const describe = (name) => {
  const { version, license } = manifestOf(name);
  return { name, version, license: license ?? 'not stated in its package file', texts: textsOf(name) };
};

function table(packages) {
  const rows = packages.map(({ name, version, license }) => `| ${name} | ${version} | ${license} |`);
  return ['| Package | Version | Licence |', '|---|---|---|', ...rows].join('\n');
}

/** @returns {{ list: string, texts: string }} the list in Markdown, and the texts of what is shipped with the page */
export function licences() {
  const ofPage = withDependencies(importedBy(OF_PAGE));
  const page = [...ofPage].sort().map(describe);
  const commandLine = [...withDependencies(importedBy(OF_COMMAND_LINE))]
    .filter((name) => !ofPage.has(name))
    .sort()
    .map(describe);
  const inside = page.filter(({ name }) => INSIDE[name]).map(({ name }) => `- **${name}.** ${INSIDE[name]}`);
  const list = `# Work of others

Written by \`node src/setup/licences.mjs\` from the installed packages and the imports of the sources; a unit test fails when it is
out of date. The texts of what is shipped with the page stand in \`src/app/public/licences.txt\`, which the page offers under Keys and help.

## Shipped with the page

${table(page)}

${inside.join('\n')}

## Used by the command line, installed and not shipped

${table(commandLine)}

@opencvjs/web holds OpenCV 4.13 (Apache-2.0) compiled to WebAssembly. sharp installs a prebuilt libvips (LGPL-3.0-or-later) for the machine it runs on, as a library of its own that can be replaced.
`;

  // equal texts once
  const named = new Map();
  for (const { name, version, license, texts } of page) {
    for (const text of texts.length > 0 ? texts : [`${license} (the package brings no text of its own)`]) {
      named.set(text, [...(named.get(text) ?? []), `${name} ${version}`]);
    }
  }
  const line = '='.repeat(80);
  const blocks = [...named].map(([text, names]) => `${line}\n${names.join('\n')}\n${line}\n\n${text}\n`);
  const texts = `Swardbook contains the following work of others, under these licences.\n\n${blocks.join('\n')}`;
  return { list, texts };
}

/** Where the two files stand. */
export const LICENCE_FILES = {
  list: join(project, 'docs/third-party.md'),
  texts: join(project, 'src/app/public/licences.txt'),
};

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const { list, texts } = licences();
  writeFileSync(LICENCE_FILES.list, list);
  writeFileSync(LICENCE_FILES.texts, texts);
}
