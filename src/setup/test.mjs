// npm test: installs what is missing (a browser included) and runs types, lint, dead code, unit and browser tests.
// The last line is "N passed, N failed, N skipped" over all of them; a check such as lint counts as one test.
import { spawn } from 'node:child_process';
import { checkNode, installPackages, projectFolder } from './install.mjs';

const VITEST = ['vitest', 'run', '-c', 'tests/vitest.config.ts', '--project'];
const CLOSING_LINE = /^(\d+) passed, (\d+) failed, (\d+) skipped$/;

/** Runs one stage with its output shown; counts its closing line, or itself as one test. */
function stage(title, command, args) {
  return new Promise((resolve) => {
    const started = performance.now();
    console.log(`\n== ${title}`);
    const child = spawn(command, args, {
      cwd: projectFolder,
      stdio: ['ignore', 'pipe', 'inherit'],
      shell: process.platform === 'win32',
    });
    let tail = '';
    child.stdout.on('data', (data) => {
      process.stdout.write(data);
      tail = (tail + data).slice(-4000);
    });
    child.on('error', (error) => console.error(error));
    child.on('close', (code) => {
      console.log(
        `== ${title}: ${code === 0 ? 'ok' : 'failed'}, ${((performance.now() - started) / 1000).toFixed(0)} s`,
      );
      const closing = tail
        .split('\n')
        .map((line) => CLOSING_LINE.exec(line.trim()))
        .findLast(Boolean);
      if (!closing) return resolve({ passed: code === 0 ? 1 : 0, failed: code === 0 ? 0 : 1, skipped: 0 });
      const [passed, failed, skipped] = closing.slice(1).map(Number);
      // a runner that counts no failure and yet ends badly has failed all the same
      resolve({ passed, failed: code !== 0 && failed === 0 ? 1 : failed, skipped });
    });
  });
}

checkNode();
installPackages();
const { findBrowser } = await import('../../tests/support/browser.mjs');
const browser = await findBrowser();
Object.assign(process.env, browser.env, { CHROMIUM_PATH: browser.executablePath });
const { buildApp } = await import('./buildApp.mjs');

const results = [
  await stage('types', 'npx', ['tsc', '-b']),
  await stage('lint', 'npx', ['biome', 'check', '--error-on-warnings']),
  await stage('dead code', 'npx', ['knip']),
  await stage('unit and architecture tests', 'npx', [...VITEST, 'unit']),
  await stage('command line and parity tests', 'npx', [...VITEST, 'processes']),
];
console.log('\n== build of the page');
results.push(
  (await buildApp()) === 0 ? { passed: 1, failed: 0, skipped: 0 } : { passed: 0, failed: 1, skipped: 0 },
);
results.push(
  await stage('browser tests', 'npx', ['playwright', 'test', '-c', 'tests/e2e/playwright.config.ts']),
);

const sum = (key) => results.reduce((total, result) => total + result[key], 0);
console.log(`\n${sum('passed')} passed, ${sum('failed')} failed, ${sum('skipped')} skipped`);
process.exit(sum('failed') === 0 ? 0 : 1);
