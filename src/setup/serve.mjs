// Serves the built app on this machine alone, with the headers it is meant to run under. Node built-ins only.
//   node src/setup/serve.mjs [PORT]   prints the address
import { constants } from 'node:fs';
import { open, realpath, stat } from 'node:fs/promises';
import { createServer } from 'node:http';
import { basename, dirname, extname, join, normalize, relative, sep } from 'node:path';
import { pipeline } from 'node:stream';
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

// Nothing from elsewhere, no script in the page itself. Styles set from script need 'unsafe-inline'. The page says the same of itself (src/ui/index.html),
// for hosts that set no headers, save who may frame it, which only a header can say.
const POLICY = "default-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data:; object-src 'none'; base-uri 'none'; form-action 'none'";
const HEADERS = {
  'Content-Security-Policy': `${POLICY}; frame-ancestors 'none'`,
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
};
const PLAIN = { ...HEADERS, 'Content-Type': 'text/plain; charset=utf-8' };

/** This machine by name or number. Another name leads here only where somebody made it do so, to read what is served here from a page of theirs. */
const OWN_HOST = /^(?:localhost|127\.0\.0\.1|\[::1\])(?::\d{1,5})?$/i;

/** The file that a request's path names, open; undefined where it leads out of the folder, by a link too, or to nothing. */
async function fileFor(folder, url) {
  let path;
  try {
    path = decodeURIComponent(new URL(url, 'http://localhost').pathname);
  } catch {
    return undefined;
  }
  const root = await realpath(folder);
  const file = normalize(join(root, path.endsWith('/') ? `${path}index.html` : path));
  if (
    !file.startsWith(root + sep) ||
    file.includes('\0') ||
    relative(root, file)
      .split(sep)
      .some((part) => part.startsWith('.'))
  )
    return undefined;
  // No link on the way to it, and it is none itself.
  if ((await realpath(file).catch(() => undefined)) !== file) return undefined;
  const handle = await open(file, constants.O_RDONLY | (constants.O_NOFOLLOW ?? 0)).catch(() => undefined);
  const found = await handle?.stat();
  if (handle && found?.isFile()) return { file, handle, size: found.size };
  await handle?.close();
  return undefined;
}

async function answer(folder, request, response) {
  if (!OWN_HOST.test(request.headers.host ?? '')) {
    response.writeHead(421, PLAIN).end('This is served under the address that was printed at the start, and no other.\n');
    return;
  }
  if (request.method !== 'GET' && request.method !== 'HEAD') {
    response.writeHead(405, { ...PLAIN, Allow: 'GET, HEAD' }).end();
    return;
  }
  const found = await fileFor(folder, request.url ?? '/');
  if (!found) {
    response.writeHead(404, PLAIN).end('There is no such page here.\n');
    return;
  }
  const { file, handle, size } = found;
  // What lies among the assets carries a hash of its content in its name; anything else may change under its name.
  const hashed = basename(dirname(file)) === 'assets';
  response.writeHead(200, {
    ...HEADERS,
    'Content-Type': TYPES[extname(file)] ?? 'application/octet-stream',
    'Content-Length': size,
    'Cache-Control': hashed ? 'public, max-age=31536000, immutable' : 'no-cache',
  });
  if (request.method === 'HEAD') {
    response.end();
    await handle.close();
  } else {
    // Also where the reader has gone away before it began; the file is closed with the stream.
    pipeline(handle.createReadStream(), response, () => {});
  }
}

/** Starts the server; resolves with its address and the means to stop it. A port of 0 takes any that is free. */
export async function serve(port = FIRST_PORT, folder = app) {
  if (!(await stat(join(folder, 'index.html')).catch(() => undefined))) throw new Error('The app is not built yet: run npm run build first.');
  const server = createServer((request, response) => {
    answer(folder, request, response).catch(() => response.destroy());
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
