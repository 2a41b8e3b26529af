// Serves the built app on this machine alone, with the headers it is meant to run under. Node built-ins only.
//   node src/setup/serve.mjs [PORT]   prints the address
import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import { createServer } from 'node:http';
import { extname, join, normalize, sep } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const app = fileURLToPath(new URL('../../dist/app/', import.meta.url));
const FIRST_PORT = 4173;
const PORTS_TRIED = 20;

const TYPES = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.woff2': 'font/woff2',
  '.txt': 'text/plain; charset=utf-8',
};

// Nothing from elsewhere, no script in the page itself. Styles set from script need 'unsafe-inline'.
const HEADERS = {
  'Content-Security-Policy':
    "default-src 'self'; script-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; worker-src 'self' blob:; connect-src 'self'; object-src 'none'; base-uri 'none'",
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
};

/** The file that a request's path names, or undefined where it leads out of the app or to nothing. */
async function fileFor(url) {
  let path;
  try {
    path = decodeURIComponent(new URL(url, 'http://localhost').pathname);
  } catch {
    return undefined;
  }
  const file = normalize(join(app, path.endsWith('/') ? `${path}index.html` : path));
  if (!file.startsWith(normalize(app)) || file.includes('\0') || file.split(sep).some((part) => part.startsWith('.'))) return undefined;
  const found = await stat(file).catch(() => undefined);
  return found?.isFile() ? { file, size: found.size } : undefined;
}

async function answer(request, response) {
  if (request.method !== 'GET' && request.method !== 'HEAD') {
    response.writeHead(405, { Allow: 'GET, HEAD' }).end();
    return;
  }
  const found = await fileFor(request.url ?? '/');
  if (!found) {
    response.writeHead(404, { ...HEADERS, 'Content-Type': 'text/plain; charset=utf-8' }).end('There is no such page here.\n');
    return;
  }
  // Built files carry a hash of their content in their name; only the page itself may change under its name.
  const cache = found.file.endsWith('.html') ? 'no-cache' : 'public, max-age=31536000, immutable';
  response.writeHead(200, {
    ...HEADERS,
    'Content-Type': TYPES[extname(found.file)] ?? 'application/octet-stream',
    'Content-Length': found.size,
    'Cache-Control': cache,
  });
  if (request.method === 'HEAD') response.end();
  else
    createReadStream(found.file)
      .on('error', () => response.destroy())
      .pipe(response);
}

/** Starts the server; resolves with its address and the means to stop it. A port of 0 takes any that is free. */
export async function serve(port = FIRST_PORT) {
  if (!(await stat(join(app, 'index.html')).catch(() => undefined))) throw new Error('The app is not built yet: run npm run build first.');
  const server = createServer((request, response) => {
    answer(request, response).catch(() => response.destroy());
  });
  for (let tried = port; ; tried++) {
    try {
      await new Promise((resolve, reject) => {
        server.once('error', reject);
        server.listen(tried, '127.0.0.1', () => {
          server.off('error', reject);
          resolve(undefined);
        });
      });
      break;
    } catch (error) {
      if (error.code !== 'EADDRINUSE' || port === 0 || tried >= port + PORTS_TRIED) throw error;
    }
  }
  const at = server.address();
  return {
    address: `http://127.0.0.1:${typeof at === 'object' && at ? at.port : port}/`,
    stop: () =>
      new Promise((resolve) => {
        server.close(() => resolve(undefined));
        server.closeAllConnections();
      }),
  };
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  const asked = process.argv[2];
  const port = asked === undefined ? FIRST_PORT : Number(asked);
  if (!Number.isInteger(port) || port < 0 || port > 65535) {
    console.error(`${asked} is no port: give a whole number from 0 to 65535, or none.`);
    process.exit(2);
  }
  try {
    const { address } = await serve(port);
    console.log(`Overbench is at ${address}\nStop it with Ctrl C.`);
  } catch (error) {
    console.error(error.message);
    process.exit(1);
  }
}
