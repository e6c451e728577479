import { dirname, join, normalize } from 'node:path';

/** A source file by its path inside the project, with forward slashes. */
export interface SourceFile {
  readonly path: string;
  readonly text: string;
}

export interface ImportStatement {
  readonly from: string;
  /** Path inside the project for a relative import, else the package's name. */
  readonly to: string;
  readonly typeOnly: boolean;
}

/** What a folder may import: folders of the project (a prefix) and packages. The longest matching folder decides. */
interface Rule {
  readonly folder: string;
  readonly folders: readonly string[];
  readonly packages: readonly string[];
  /** Folders of which only types may be imported, or whose files are named by `new URL`. */
  readonly typesOf?: readonly string[];
}

const RULES: readonly Rule[] = [
  { folder: 'src/core/', folders: ['src/core/'], packages: [] },
  { folder: 'src/core/kernels/', folders: ['src/core/'], packages: ['virtual:kernels'] },
  { folder: 'src/core/trial/', folders: ['src/core/'], packages: ['zod'] },
  { folder: 'src/core/exchange/', folders: ['src/core/'], packages: ['zod', 'papaparse'] },
  { folder: 'src/core/photo-file/', folders: ['src/core/'], packages: ['exifreader'] },
  { folder: 'src/vision/', folders: ['src/core/', 'src/vision/'], packages: ['@opencvjs/web'] },
  { folder: 'src/storage/', folders: ['src/core/', 'src/storage/'], packages: ['dexie', 'zod'] },
  { folder: 'src/zip/', folders: ['src/core/', 'src/zip/'], packages: ['@zip.js/zip.js'] },
  { folder: 'workers/offline.worker.ts', folders: [], packages: ['virtual:offline-files'] },
  {
    folder: 'workers/largeRecords',
    // reads and keeps photos itself: what a database's reading leaves behind goes with the worker only
    folders: ['workers/', 'src/core/', 'src/storage/'],
    packages: ['comlink'],
  },
  {
    folder: 'workers/',
    folders: ['workers/', 'src/core/', 'src/vision/'],
    packages: ['comlink', 'zxing-wasm'],
  },
  {
    folder: 'src/cli/',
    folders: ['src/cli/', 'src/core/', 'src/vision/', 'src/zip/'],
    packages: ['node:', 'commander', 'sharp', 'jimp', '@jimp/'],
  },
  {
    folder: 'src/app/',
    folders: ['src/app/', 'src/core/', 'src/storage/', 'src/zip/', 'sample-images/'],
    packages: ['react', 'react-dom', 'wouter', 'lean-qr', 'd3-scale'],
  },
  {
    folder: 'src/app/measuring/',
    folders: ['src/app/', 'src/core/', 'src/storage/'],
    packages: ['comlink'],
    typesOf: ['workers/'],
  },
];

const IMPORT =
  /(?:^|\n)\s*(import|export)\s+(type\s+)?(?:[\w*${},\s]+?\s+from\s+)?['"]([^'"\n]+)['"]|\bimport\(\s*['"]([^'"\n]+)['"]\s*\)/g;

/** Every static and dynamic import or re-export of a file. */
export function importsOf({ path, text }: SourceFile): ImportStatement[] {
  return [...text.matchAll(IMPORT)].map((match) => {
    const specifier = (match[3] ?? match[4])!.replace(/\?.*$/, '');
    const to = specifier.startsWith('.')
      ? normalize(join(dirname(path), specifier)).replaceAll('\\', '/')
      : specifier;
    return { from: path, to, typeOnly: match[2] !== undefined };
  });
}

const isPackage = (to: string, name: string) =>
  to === name || to.startsWith(`${name}/`) || (/[:/]$/.test(name) && to.startsWith(name));

/** Each import that goes against the directions of the house, as a readable line; empty when all is well. */
export function importViolations(files: readonly SourceFile[]): string[] {
  const violations: string[] = [];
  for (const file of files) {
    const rule = RULES.filter(({ folder }) => file.path.startsWith(folder)).sort(
      (a, b) => b.folder.length - a.folder.length,
    )[0];
    if (!rule) continue;
    for (const { to, typeOnly } of importsOf(file)) {
      const allowed =
        rule.folders.some((folder) => to.startsWith(folder)) ||
        rule.packages.some((name) => isPackage(to, name)) ||
        (typeOnly && (rule.typesOf ?? []).some((folder) => to.startsWith(folder)));
      if (!allowed) violations.push(`${file.path} must not import ${to} (${rule.folder} may not)`);
      const screen = /^src\/app\/screens\/([^/]+)\//;
      const [own, other] = [screen.exec(file.path)?.[1], screen.exec(to)?.[1]];
      if (own && other && own !== other)
        violations.push(`${file.path} must not import another screen: ${to}`);
    }
  }
  return violations;
}
