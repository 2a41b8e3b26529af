/** What is let in: to whom the server answers and with what, and what the page forbids by itself where a host sets no headers. */
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { createServer, get, type IncomingMessage } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { serve } from '../../src/setup/serve.mjs';
import { openDemo, useBrowser } from './browser.ts';

const place = mkdtempSync(join(tmpdir(), 'overbench-served-'));
const app = join(place, 'app');
let own: Awaited<ReturnType<typeof serve>>;
beforeAll(async () => {
  mkdirSync(join(app, 'assets'), { recursive: true });
  writeFileSync(join(app, 'index.html'), '<!doctype html>');
  writeFileSync(join(app, 'assets/a-1234.js'), '1');
  writeFileSync(join(app, 'assets/large.js'), ' '.repeat(4_000_000));
  writeFileSync(join(app, 'notices.txt'), 'notices');
  writeFileSync(join(place, 'secret.txt'), 'secret');
  mkdirSync(join(place, 'inner'));
  writeFileSync(join(place, 'inner/secret.txt'), 'secret');
  symlinkSync('../secret.txt', join(app, 'link.txt'));
  symlinkSync('index.html', join(app, 'again.html'));
  symlinkSync('../inner', join(app, 'door'));
  own = await serve(0, app);
});
afterAll(async () => {
  await own.stop();
  rmSync(place, { recursive: true, force: true });
});

function ask(path: string, headers: Record<string, string> = {}): Promise<{ status: number | undefined; headers: IncomingMessage['headers']; body: string }> {
  return new Promise((done, fail) => {
    const { port } = new URL(own.address);
    get({ host: '127.0.0.1', port, path, headers }, async (response) => {
      let body = '';
      for await (const piece of response.setEncoding('utf8')) body += piece;
      done({ status: response.statusCode, headers: response.headers, body });
    }).on('error', fail);
  });
}

describe('the server', () => {
  it('forbids with every answer, a refusal too, that the page is framed, sends forms away or takes another base', async () => {
    for (const [path, headers] of [
      ['/', {}],
      ['/none', {}],
      ['/', { Host: 'elsewhere.example' }],
    ] as const) {
      const policy = String((await ask(path, headers)).headers['content-security-policy']).split('; ');
      for (const rule of ["default-src 'self'", "frame-ancestors 'none'", "form-action 'none'", "base-uri 'none'", "object-src 'none'"])
        expect(policy).toContain(rule);
    }
  });

  it('answers under the names of this machine, and refuses a foreign one, to which somebody may have bound the address', async () => {
    const { port } = new URL(own.address);
    for (const host of [`127.0.0.1:${port}`, `localhost:${port}`, 'localhost', `[::1]:${port}`, 'LOCALHOST:8080'])
      expect((await ask('/', { Host: host })).status, host).toBe(200);
    for (const host of [
      'elsewhere.example',
      `elsewhere.example:${port}`,
      '127.0.0.1.elsewhere.example',
      'localhost.elsewhere.example',
      '0.0.0.0',
      '127.0.0.2',
      ' ',
      'localhost:1:2',
      'localhost@elsewhere.example',
    ]) {
      const { status, body } = await ask('/', { Host: host });
      expect(status, host).toBe(421);
      expect(body).not.toContain('doctype');
    }
  });

  it('follows no link, neither to a file nor through a folder nor within the app', async () => {
    for (const path of [
      '/link.txt',
      '/door/secret.txt',
      '/again.html',
      '/door/',
      '/door/../../secret.txt',
      '/%2e%2e/secret.txt',
      '/assets/..%2f..%2fsecret.txt',
    ]) {
      const { status, body } = await ask(path);
      expect([status, body.includes('secret')], path).toEqual([404, false]);
    }
    expect((await ask('/index.html')).body).toBe('<!doctype html>');
  });

  it('leaves no file open, however readers go away', async () => {
    const open = (): number => readdirSync('/proc/self/fd').length;
    const { port } = new URL(own.address);
    await ask('/assets/large.js');
    const before = open();
    const gone = Array.from({ length: 60 }, (_, i) => {
      const asked = get({ host: '127.0.0.1', port, path: '/assets/large.js', agent: false }).on('error', () => {});
      if (i % 3 > 0) setTimeout(() => asked.destroy(), i % 3);
      else asked.on('response', (response) => response.destroy());
      return new Promise((closed) => asked.on('close', closed));
    });
    await Promise.all(gone);
    await vi.waitFor(() => expect(open()).toBeLessThanOrEqual(before), { timeout: 10_000 });
  });

  it('lets only what has a hash in its name be kept for good', async () => {
    expect((await ask('/assets/a-1234.js')).headers['cache-control']).toContain('immutable');
    for (const path of ['/', '/notices.txt']) expect((await ask(path)).headers['cache-control']).toBe('no-cache');
  });
});

describe('the page', () => {
  const opened = useBrowser();

  it('says of itself what the server says of it, save what only a header can', async () => {
    const [, said = ''] = /http-equiv="Content-Security-Policy" content="([^"]+)"/u.exec(readFileSync('dist/app/index.html', 'utf8')) ?? [];
    expect(`${said}; frame-ancestors 'none'`).toBe((await ask('/')).headers['content-security-policy']);
  });

  it('keeps to it on a host that sets no headers: nothing foreign is run, fetched or sent to, and the demo works', async () => {
    const bare = createServer((request, response) => {
      const path = new URL(request.url ?? '/', 'http://x').pathname;
      const file = resolve('dist/app', `.${path === '/' ? '/index.html' : path}`);
      const type = { html: 'text/html', js: 'text/javascript', css: 'text/css', json: 'application/json', svg: 'image/svg+xml', woff2: 'font/woff2' }[
        file.split('.').pop() ?? ''
      ];
      try {
        response.writeHead(200, { 'Content-Type': type ?? 'text/plain' }).end(readFileSync(file));
      } catch {
        response.writeHead(404).end();
      }
    });
    await new Promise<void>((listening) => bare.listen(0, '127.0.0.1', listening));
    try {
      const page = await opened.visit();
      await page.goto(`http://127.0.0.1:${(bare.address() as AddressInfo).port}/`);
      page.setDefaultTimeout(80_000);
      await openDemo(page);
      expect(opened.complaints).toEqual([]);
      const broken = await page.evaluate(async (foreign) => {
        const rules: string[] = [];
        document.addEventListener('securitypolicyviolation', ({ effectiveDirective }) => rules.push(effectiveDirective));
        const script = document.createElement('script');
        script.textContent = 'window.ran = true';
        document.head.append(script);
        await fetch(foreign).catch(() => {});
        const form = document.createElement('form');
        form.action = foreign;
        document.body.append(form);
        form.submit();
        const base = document.createElement('base');
        base.href = foreign;
        document.head.append(base);
        // Each is told when the browser comes to it.
        for (let n = 0; n < 100 && new Set(rules).size < 4; n++) await new Promise((later) => setTimeout(later, 200));
        return { rules: [...new Set(rules)].sort(), ran: 'ran' in window, base: document.baseURI };
      }, own.address);
      expect(broken.rules).toEqual(['base-uri', 'connect-src', 'form-action', 'script-src-elem']);
      expect(broken.ran).toBe(false);
      expect(broken.base).not.toContain(own.address);
    } finally {
      opened.complaints.length = 0;
      bare.closeAllConnections();
      bare.close();
    }
  }, 90_000);

  it('is shown in no frame of another page, where a page without the header would be', async () => {
    const outer = createServer((request, response) => {
      const inner = new URL(request.url ?? '/', 'http://x').searchParams.get('inner');
      response.writeHead(200, { 'Content-Type': 'text/html' }).end(inner === null ? '<ob-app></ob-app>' : `<iframe src="${inner}"></iframe>`);
    });
    await new Promise<void>((listening) => outer.listen(0, '127.0.0.1', listening));
    try {
      const at = `http://127.0.0.1:${(outer.address() as AddressInfo).port}/`;
      const page = await opened.visit();
      const shown = async (inner: string): Promise<boolean> => {
        await page.goto(`${at}?inner=${encodeURIComponent(inner)}`);
        return (await page.locator('iframe').contentFrame().locator('ob-app').count()) > 0;
      };
      expect(await shown(at)).toBe(true);
      expect(await shown(opened.address)).toBe(false);
    } finally {
      opened.complaints.length = 0;
      outer.closeAllConnections();
      outer.close();
    }
  }, 90_000);
});
