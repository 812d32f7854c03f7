import { execFileSync } from 'node:child_process';
import { cp, mkdtemp, readFile, rm } from 'node:fs/promises';
import { createServer, type Server } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, type FrameLocator, type Page, test } from '@playwright/test';
import send from 'send';
import { serveSite } from '../../src/node/site/index.ts';
import { call } from '../support/call.ts';
import { playing } from '../support/lesson-page.ts';
import { CONTENT } from '../support/serve-demo.ts';

const PAGE = 'pages/lessons/chain/index.html';

async function packed(format: string): Promise<{ cwd: string; folder: string }> {
  const cwd = await mkdtemp(join(tmpdir(), 'liftside-school-'));
  await cp(CONTENT, join(cwd, 'content'), { recursive: true, filter: (path) => !path.includes('.liftside') });
  const words = ['pack', 'chain', '--to', format, '--footage', 'uncut', '--without-pdf', '-o', 'chain.zip'];
  const { code, said } = await call(words, { cwd, env: process.env, now: () => new Date() });
  expect([code, said]).toEqual([0, expect.stringContaining('a school’s system takes it as it is')]);
  const folder = join(cwd, 'unzipped');
  execFileSync('unzip', ['-q', join(cwd, 'chain.zip'), '-d', folder]);
  return { cwd, folder };
}

/** A school's server: it frames what it shows, which the server of a site forbids. */
async function serveAnywhere(root: string): Promise<{ address: string; close: () => Promise<void> }> {
  const server = createServer((request, response) => {
    send(request, request.url?.replace(/\?.*$/, '') ?? '', { root }).pipe(response);
  });
  await new Promise<void>((listening) => server.listen(0, '127.0.0.1', listening));
  const address = server.address();
  const port = typeof address === 'object' && address ? address.port : 0;
  return {
    address: `http://127.0.0.1:${port}/`,
    async close() {
      server.closeAllConnections();
      server.close();
    },
  };
}

async function playingIn(lesson: Page | FrameLocator): Promise<void> {
  const seconds = () => lesson.locator('video[data-on-air]').evaluate((video: HTMLVideoElement) => video.currentTime);
  const from = await seconds();
  await expect.poll(seconds).toBeGreaterThan(from + 0.5);
}

/** Watches some of a step, takes a reading. */
async function work(lesson: Page | FrameLocator): Promise<void> {
  await expect(lesson.locator('.school-panel p')).toContainText(
    /^For your school: 0 of \d+ steps watched, 0 of \d+ readings taken\.$/,
  );
  const field = lesson.getByLabel('Chain, length over twenty pitches').first();
  await field.fill('325');
  await expect(lesson.locator('.school-panel p')).toContainText('1 of');
  // By the page itself: what lies where on a small screen is looked at elsewhere.
  const press = (key: string) =>
    lesson
      .locator(key)
      .first()
      .evaluate((element: HTMLElement) => element.click());
  await press('.start');
  await playingIn(lesson);
  await press('[data-action=next]');
  await press('[data-action=next]');
  // The film stands at a step; the clock of its file says nothing of the programme's.
  await expect(lesson.locator('[aria-current=step]')).not.toBeEmpty();
  await playingIn(lesson);
}

test('SCORM 1.2: watched, measured and kept by another run-time, and gone on with @long', async ({ page }) => {
  const { cwd, folder } = await packed('scorm12');
  const around = `<!doctype html><meta charset="utf-8"><script src="/peer.js"></script><script>
    window.API = new (window.Scorm12API?.Scorm12API ?? window.Scorm12API)({ autocommit: false, logLevel: 5 });
    const kept = sessionStorage.getItem('kept');
    if (kept) API.loadFromJSON(JSON.parse(kept), 'cmi');
    API.on('LMSFinish', () => sessionStorage.setItem('kept', JSON.stringify(API.cmi)));
  </script><iframe src="/${PAGE}" style="width:100%;height:1000px;border:0"></iframe>`;
  const served = await serveAnywhere(folder);
  const peer = await readFile('node_modules/scorm-again/dist/scorm12.js', 'utf8');
  try {
    await page.route('**/around.html', (route) => route.fulfill({ contentType: 'text/html', body: around }));
    await page.route('**/peer.js', (route) => route.fulfill({ contentType: 'text/javascript', body: peer }));
    await page.goto(`${served.address}around.html`);
    const lesson = page.frameLocator('iframe');
    await work(lesson);
    await page.locator('iframe').evaluate((frame: HTMLIFrameElement) => frame.setAttribute('src', 'about:blank'));
    const kept = await page.waitForFunction(() => sessionStorage.getItem('kept')).then((handle) => handle.jsonValue());
    const cmi = JSON.parse(String(kept));
    expect(cmi.core.lesson_status).toBe('incomplete');
    expect(cmi.core.exit).toBe('suspend');
    expect(Number(cmi.core.lesson_location)).toBeGreaterThan(20);
    await page.goto(`${served.address}around.html`);
    await expect(lesson.locator('.school-panel p')).toContainText('1 of');
    await expect(lesson.locator('[data-resume] span')).not.toBeEmpty();
    await lesson.getByRole('button', { name: 'End and hand in' }).click();
    await expect(lesson.locator('.school-panel p')).toContainText('Handed in');
  } finally {
    await served.close();
    await rm(cwd, { recursive: true });
  }
});

test('cmi5: statements arrive in order, the last one as the page goes @long', async ({ page }) => {
  const { cwd, folder } = await packed('cmi5');
  const verbs: string[] = [];
  let state: string | undefined;
  const lrs: Server = createServer((request, response) => {
    let body = '';
    request.on('data', (piece) => {
      body += piece;
    });
    request.on('end', () => {
      const url = new URL(request.url ?? '', 'http://x');
      const cors = {
        'access-control-allow-origin': '*',
        'access-control-allow-headers': '*',
        'access-control-allow-methods': '*',
      };
      const answer = (status: number, value?: unknown) =>
        response
          .writeHead(status, { ...cors, 'content-type': 'application/json' })
          .end(value === undefined ? '' : typeof value === 'string' ? value : JSON.stringify(value));
      if (request.method === 'OPTIONS') return answer(204);
      if (url.pathname === '/token') return answer(200, { 'auth-token': 'dTpw' });
      if (url.pathname === '/statements') {
        verbs.push(...JSON.parse(body).map(({ verb }: { verb: { id: string } }) => verb.id.split('/').at(-1)));
        return answer(200, []);
      }
      if (url.searchParams.get('stateId') === 'LMS.LaunchData')
        return answer(200, { launchMode: 'Normal', contextTemplate: {} });
      if (url.pathname === '/activities/state') {
        if (request.method === 'PUT') state = body;
        return state === undefined ? answer(404) : answer(200, state);
      }
      return answer(404);
    });
  });
  await new Promise<void>((listening) => lrs.listen(0, '127.0.0.1', listening));
  const address = lrs.address();
  const port = typeof address === 'object' && address ? address.port : 0;
  const served = await serveSite({ dir: folder });
  const query = new URLSearchParams({
    ...{ endpoint: `http://127.0.0.1:${port}/`, fetch: `http://127.0.0.1:${port}/token` },
    ...{ actor: JSON.stringify({ account: { homePage: 'https://school.example', name: 's1' } }) },
    ...{ registration: '00000000-0000-4000-8000-000000000001', activityId: 'https://millrace.example/lessons/chain/' },
  });
  try {
    await page.goto(`${served.address}${PAGE}?${query}`);
    await work(page);
    await playing(page, true);
    await page.goto('about:blank');
    await expect.poll(() => verbs.at(-1)).toBe('terminated');
    expect(verbs[0]).toBe('initialized');
    expect(verbs.filter((verb) => verb === 'answered').length).toBeGreaterThan(0);
    expect(verbs.filter((verb) => verb === 'terminated')).toHaveLength(1);
    await page.goto(`${served.address}${PAGE}?${query}`);
    await expect(page.locator('.school-panel p')).toContainText('1 of');
    if (process.env.LIFTSIDE_SHOTS)
      for (const width of [390, 1280]) {
        await page.setViewportSize({ width, height: 800 });
        await page.screenshot({ path: join(process.env.LIFTSIDE_SHOTS, `school-${width}.png`) });
      }
  } finally {
    await served.close();
    lrs.close();
    lrs.closeAllConnections();
    await rm(cwd, { recursive: true });
  }
});
