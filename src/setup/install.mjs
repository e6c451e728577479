// Installs the packages of the lockfile when they are missing or the lockfile changed. No dependencies of its own.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const projectFolder = fileURLToPath(new URL('../../', import.meta.url));
const OLDEST_NODE = [20, 19];

/** Runs a command with its output shown; answers its exit code. */
export function run(command, args, options = {}) {
  const { status, error, signal } = spawnSync(command, args, {
    cwd: projectFolder,
    stdio: 'inherit',
    shell: process.platform === 'win32',
    ...options,
  });
  if (error) throw error;
  return signal ? 1 : (status ?? 1);
}

/** Ends the process with a sentence when Node is too old for the packages. */
export function checkNode() {
  const [major, minor] = process.versions.node.split('.').map(Number);
  if (major > OLDEST_NODE[0] || (major === OLDEST_NODE[0] && minor >= OLDEST_NODE[1])) return;
  console.error(
    `Node ${OLDEST_NODE.join('.')} or newer is needed, this is ${process.versions.node}. See https://nodejs.org`,
  );
  process.exit(2);
}

/** `npm ci` once for each state of package-lock.json. */
export function installPackages() {
  const stamp = join(projectFolder, 'node_modules', '.cache', 'installed-lockfile');
  const wanted = createHash('sha256')
    .update(readFileSync(join(projectFolder, 'package-lock.json')))
    .digest('hex');
  const packagesThere = existsSync(join(projectFolder, 'node_modules', 'vite', 'package.json'));
  if (packagesThere && existsSync(stamp) && readFileSync(stamp, 'utf8') === wanted) return;
  console.error('Installing packages (once, about half a minute)…');
  const options = { stdio: ['ignore', 2, 2] }; // standard output belongs to the command's results
  const code = run('npm', ['ci', '--no-audit', '--no-fund', '--loglevel=error'], options);
  if (code !== 0) {
    console.error('The packages could not be installed; npm said why above. Is there a network?');
    process.exit(code);
  }
  mkdirSync(dirname(stamp), { recursive: true });
  writeFileSync(stamp, wanted);
}
