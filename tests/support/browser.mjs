// Finds a Chromium for the tests: $CHROMIUM_PATH, else one of the system, else one shipped inside an npm package.
import { execFileSync } from 'node:child_process';
import {
  chmodSync,
  createReadStream,
  createWriteStream,
  existsSync,
  mkdirSync,
  renameSync,
  rmSync,
} from 'node:fs';
import { delimiter, join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { fileURLToPath } from 'node:url';
import { createBrotliDecompress } from 'node:zlib';

/** The last line of this package that runs on Node 20. */
const PACKAGED = { name: '@sparticuz/chromium', version: '147.0.0' };
const SYSTEM_NAMES = ['chromium', 'chromium-browser', 'google-chrome-stable', 'google-chrome'];
const CACHE = fileURLToPath(new URL('../../node_modules/.cache/browser/', import.meta.url));

/** What every launch needs: tests run as root in containers, without a graphics card, and never go out. */
export const BROWSER_FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** Whether the program starts at all: it answers its version. */
function answers(executablePath, env) {
  try {
    execFileSync(executablePath, ['--version'], {
      env: { ...process.env, ...env },
      stdio: ['ignore', 'pipe', 'ignore'],
      timeout: 30_000,
    });
    return true;
  } catch {
    return false;
  }
}

function systemBrowser() {
  for (const folder of (process.env.PATH ?? '').split(delimiter)) {
    for (const name of SYSTEM_NAMES) {
      const path = join(folder, name);
      if (existsSync(path) && answers(path, {})) return path;
    }
  }
  return undefined;
}

async function unpack(archive, target) {
  await pipeline(createReadStream(archive), createBrotliDecompress(), createWriteStream(target));
}

/** Installs and unpacks the browser of the npm package once; its last step is the rename, so a broken run is repeated. */
async function packagedBrowser() {
  if (process.platform !== 'linux' || process.arch !== 'x64') {
    throw new Error(
      `No Chromium was found, and the one that can be installed with npm runs on Linux x64 only (this is ` +
        `${process.platform} ${process.arch}). Install Chrome or Chromium and set CHROMIUM_PATH to its program file.`,
    );
  }
  const executablePath = join(CACHE, `chromium-${PACKAGED.version}`);
  if (!existsSync(executablePath)) {
    console.error(`Installing a browser for the tests (${PACKAGED.name} ${PACKAGED.version}, 64 MB, once)…`);
    mkdirSync(CACHE, { recursive: true });
    const wanted = `${PACKAGED.name}@${PACKAGED.version}`;
    const options = ['--no-save', '--no-package-lock', '--no-audit', '--no-fund', '--loglevel=error'];
    execFileSync('npm', ['install', '--prefix', CACHE, ...options, wanted], { stdio: ['ignore', 2, 2] });
    const shipped = join(CACHE, 'node_modules', PACKAGED.name, 'bin');
    for (const part of ['al2023', 'fonts', 'swiftshader']) {
      const tar = join(CACHE, `${part}.tar`);
      await unpack(join(shipped, `${part}.tar.br`), tar);
      execFileSync('tar', ['-xf', tar, '-C', CACHE]);
      rmSync(tar);
    }
    const partial = `${executablePath}.part${process.pid}`;
    await unpack(join(shipped, 'chromium.br'), partial);
    chmodSync(partial, 0o755);
    renameSync(partial, executablePath);
  }
  const fonts = { FONTCONFIG_PATH: join(CACHE, 'fonts') };
  if (answers(executablePath, {})) return { executablePath, env: fonts };
  const env = { ...fonts, LD_LIBRARY_PATH: join(CACHE, 'lib') };
  if (answers(executablePath, env)) return { executablePath, env };
  throw new Error(
    `${executablePath} does not start. Install Chromium, or set CHROMIUM_PATH to a working one.`,
  );
}

/**
 * A Chromium that starts.
 *
 * @param packagedOnly look at the npm package alone
 * @returns its program file and the environment it wants beside the usual one
 * @throws Error that says what to do when there is none
 */
export async function findBrowser({ packagedOnly = false } = {}) {
  const chosen = process.env.CHROMIUM_PATH;
  if (chosen && !packagedOnly) {
    if (answers(chosen, {})) return { executablePath: chosen, env: {} };
    throw new Error(`CHROMIUM_PATH is ${chosen}, which does not answer --version. Correct it or unset it.`);
  }
  const installed = packagedOnly ? undefined : systemBrowser();
  return installed ? { executablePath: installed, env: {} } : packagedBrowser();
}
