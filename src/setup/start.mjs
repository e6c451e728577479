// npm start: installs what is missing, builds the page when its sources changed, serves it and prints the address.
import { createServer } from 'node:net';
import { buildApp } from './buildApp.mjs';
import { checkNode, installPackages, run } from './install.mjs';

const FIRST_PORT = 5170;

/** The first port from FIRST_PORT on that nobody listens to. */
async function freePort() {
  for (let port = FIRST_PORT; port < FIRST_PORT + 50; port += 1) {
    const free = await new Promise((resolve) => {
      const probe = createServer()
        .once('error', () => resolve(false))
        .once('listening', () => probe.close(() => resolve(true)))
        .listen(port, '127.0.0.1');
    });
    if (free) return port;
  }
  throw new Error(`no free port between ${FIRST_PORT} and ${FIRST_PORT + 49}`);
}

checkNode();
installPackages();
const built = await buildApp();
if (built !== 0) process.exit(built);
const port = process.env.PORT ? Number(process.env.PORT) : await freePort();
console.log(
  `\n  Swardbook is at  http://localhost:${port}/\n  Ctrl-C stops it; photos and figures stay in this browser.\n`,
);
process.exit(
  run('npx', [
    'vite',
    'preview',
    '-c',
    'src/vite.config.ts',
    '--host',
    '127.0.0.1',
    '--port',
    String(port),
    '--strictPort',
    '--logLevel',
    'warn',
  ]),
);
