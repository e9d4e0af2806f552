// A static file server for dist/, for `npm start` and the tests.
import { createReadStream, statSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import path from 'node:path';

const TYPES: Record<string, string> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
};

/** A folder served on localhost. */
export interface Served {
  url: string;
  close(): Promise<void>;
}

/** The file a request names, or null when it is outside the folder or no file. */
function fileOf(folder: string, address: string): string | null {
  const { pathname } = new URL(address, 'http://localhost');
  const file = path.join(folder, decodeURIComponent(pathname), pathname.endsWith('/') ? 'index.html' : '');
  const inside = file.startsWith(folder + path.sep);
  return inside && statSync(file, { throwIfNoEntry: false })?.isFile() ? file : null;
}

const fileServer = (folder: string): Server =>
  createServer((request, response) => {
    const file = fileOf(folder, request.url ?? '/');
    if (!file) {
      response.writeHead(404, { 'content-type': 'text/plain' }).end('not found');
      return;
    }
    const type = TYPES[path.extname(file)] ?? 'application/octet-stream';
    response.writeHead(200, { 'content-type': type, 'cache-control': 'no-cache' });
    createReadStream(file).pipe(response);
  });

/** Listens on this machine only; resolves to false when the port is taken. */
function listen(server: Server, port: number): Promise<boolean> {
  return new Promise((resolve, reject) => {
    server.once('error', (error: NodeJS.ErrnoException) =>
      error.code === 'EADDRINUSE' ? resolve(false) : reject(error),
    );
    server.listen(port, '127.0.0.1', () => resolve(true));
  });
}

/** Serves a folder on the given port, or on any free one when it is taken. Port 0 is any free one. */
export async function serve(folder: string, port = 0): Promise<Served> {
  let server = fileServer(path.resolve(folder));
  if (!(await listen(server, port))) {
    server = fileServer(path.resolve(folder));
    await listen(server, 0);
  }
  const { port: actual } = server.address() as AddressInfo;
  return {
    url: `http://localhost:${actual}/`,
    close: () =>
      new Promise((resolve) => {
        server.closeAllConnections();
        server.close(() => resolve());
      }),
  };
}
