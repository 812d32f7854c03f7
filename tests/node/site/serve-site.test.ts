import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Served, serveSite } from '../../../src/node/site/serve-site.ts';
import { countAnswers, oddRequests, throwAll, unanswered } from '../../support/odd-requests.ts';

let dir = '';
let served: Served;
const bytes = Buffer.from(Array.from({ length: 1000 }, (_, i) => i % 251));

beforeAll(async () => {
  dir = mkdtempSync(join(tmpdir(), 'liftside-serve-'));
  mkdirSync(join(dir, 'site/steps'), { recursive: true });
  writeFileSync(join(dir, 'secret.txt'), 'no');
  writeFileSync(join(dir, 'site/index.html'), '<h1>front</h1>');
  writeFileSync(join(dir, 'site/steps/index.html'), '<h1>steps</h1>');
  writeFileSync(join(dir, 'site/404.html'), '<h1>none</h1>');
  writeFileSync(join(dir, 'site/film.mp4'), bytes);
  served = await serveSite({ dir: join(dir, 'site'), base: '/garage/' });
});
afterAll(async () => {
  await served.close();
  rmSync(dir, { recursive: true });
});

/** Sends the path as it is: `fetch` would tidy `..` away. */
function get(
  path: string,
  headers: Record<string, string> = {},
): Promise<{ status: number; body: Buffer; headers: NodeJS.Dict<string | string[]> }> {
  return new Promise((resolve, reject) => {
    request({ host: '127.0.0.1', port: new URL(served.address).port, path, headers }, (response) => {
      const parts: Buffer[] = [];
      response.on('data', (part) => parts.push(part));
      response.on('end', () =>
        resolve({ status: response.statusCode ?? 0, body: Buffer.concat(parts), headers: response.headers }),
      );
    })
      .on('error', reject)
      .end();
  });
}

test('listens on this machine only, under the path it was built for', async () => {
  expect(served.address).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/garage\/$/);
  expect(String((await get('/garage/')).body)).toContain('front');
  expect(String((await get('/garage/steps/')).body)).toContain('steps');
  expect((await get('/')).headers.location).toBe('/garage/');
});

test('it says what a page cannot say of itself: no frame of another site, no guessing of types', async () => {
  for (const path of ['/garage/', '/garage/film.mp4', '/garage/nowhere/'])
    expect((await get(path)).headers).toMatchObject({
      'content-security-policy': "frame-ancestors 'none'",
      'x-content-type-options': 'nosniff',
    });
});

test('what is not there is the 404 page', async () => {
  const { status, body } = await get('/garage/nowhere/');
  expect([status, String(body)]).toEqual([404, '<h1>none</h1>']);
});

// Source: RFC 9110, 14.1.2 (byte ranges: first-last, first-, -suffix), 14.4 (Content-Range), 15.5.17 (416).
test.each([
  ['bytes=0-0', 206, bytes.subarray(0, 1), 'bytes 0-0/1000'],
  ['bytes=100-199', 206, bytes.subarray(100, 200), 'bytes 100-199/1000'],
  ['bytes=990-', 206, bytes.subarray(990), 'bytes 990-999/1000'],
  ['bytes=-10', 206, bytes.subarray(990), 'bytes 990-999/1000'],
  ['bytes=990-2000', 206, bytes.subarray(990), 'bytes 990-999/1000'],
])('range %s', async (range, status, body, contentRange) => {
  const got = await get('/garage/film.mp4', { range });
  expect(got.status).toBe(status);
  expect(got.body.equals(body)).toBe(true);
  expect(got.headers['content-range']).toBe(contentRange);
});

test('a range past the end is refused', async () => {
  const { status, headers } = await get('/garage/film.mp4', { range: 'bytes=1000-' });
  expect([status, headers['content-range']]).toEqual([416, 'bytes */1000']);
});

test.each([
  '/garage/../secret.txt',
  '/garage/%2e%2e/secret.txt',
  '/garage/..%2fsecret.txt',
  '/garage//etc/passwd',
  '/garage/%00',
])('nothing outside is given out: %s', async (path) => {
  const { status, body } = await get(path);
  expect(status).toBeGreaterThanOrEqual(300);
  expect(String(body)).not.toBe('no');
});

test('what is no address of a site is answered 4xx, and the next one is served as ever', async () => {
  for (const path of ['//', '//[', '/%', '/garage/%00', '/garage/\\', '*', 'http://[', '/garage/%2e%2e%2f'])
    expect([path, (await get(path)).status]).toEqual([path, 400]);
  expect(String((await get('/garage/')).body)).toContain('front');
});

test('3 000 odd requests as raw bytes: each is answered or its connection closed, none with 5xx, none ends the server', async () => {
  const port = Number(new URL(served.address).port);
  const answers = await throwAll(port, oddRequests(3000, port, 7));
  console.log(`server of the built site: ${countAnswers(answers)}`);
  expect(unanswered(answers)).toEqual([]);
  expect([...answers.values()].flat()).toHaveLength(3000);
  expect(answers.get('400')?.length).toBeGreaterThan(1000);
  expect((await get('/garage/')).status).toBe(200);
}, 60_000);
