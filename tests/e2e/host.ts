import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

const project = fileURLToPath(new URL('../../', import.meta.url));
/** The page as it was built. */
export const built = resolve(project, process.env.SWARDBOOK_DIST ?? 'dist');

const TYPES: Readonly<Record<string, string>> = {
  html: 'text/html',
  js: 'text/javascript',
  css: 'text/css',
  svg: 'image/svg+xml',
  wasm: 'application/wasm',
  webmanifest: 'application/manifest+json',
};

/** A static host whose files can be exchanged, as when a new version is put there, or which can go away. */
export interface Host {
  readonly address: string;
  serve(folder: string): void;
  readonly asked: string[];
  goAway(): Promise<void>;
}

export async function startHost(first: string): Promise<Host> {
  let folder = first;
  const asked: string[] = [];
  const server = createServer(async (request, response) => {
    const path = new URL(request.url!, 'http://localhost').pathname.replace(/\/$/, '/index.html');
    asked.push(path);
    const file = join(folder, path);
    if (!(await stat(file).catch(() => null))?.isFile()) return response.writeHead(404).end();
    const type = TYPES[path.split('.').at(-1)!] ?? 'application/octet-stream';
    response.writeHead(200, { 'content-type': type, 'cache-control': 'no-cache', vary: 'Origin' });
    createReadStream(file).pipe(response);
  });
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  const { port } = server.address() as AddressInfo;
  let gone = false;
  return {
    address: `http://localhost:${port}/`,
    asked,
    serve: (next) => {
      folder = next;
    },
    async goAway() {
      if (gone) return;
      gone = true;
      server.closeAllConnections();
      await new Promise((done) => server.close(done));
    },
  };
}
