import { connect } from 'node:net';
import fc from 'fast-check';

/** Request targets that programs have stumbled over: what is no path, escapes, hidden characters, other servers. */
const TARGETS = [
  ...['//', '///', '//x', '//[', '/\\', '\\', '/\\\\host/share', '*', '', ' ', '?', '#', '/?', '/#', '/??', '/?#'],
  ...['http://[', 'http://', 'http:', 'http://[::1', 'http://a:99999/', 'http://a b/', 'https://[]/', 'ftp://x/', 'x'],
  ...['http://127.0.0.1/', 'http://evil.example/', 'file:///etc/passwd', 'javascript:1', 'data:,x', '[', ']', '::'],
  ...['/%', '/%%', '/%0', '/%zz', '/%00', '/%ff', '/%c0%af', '/%e0%80%af', '/%ed%a0%80', '/%f4%90%80%80', '/%25%'],
  ...[
    '/..',
    '/../',
    '/../../etc/passwd',
    '/%2e%2e/',
    '/%2e%2e%2f',
    '/..%2f..%2fetc%2fpasswd',
    '/..%5c',
    '/.%2e/',
    '/.',
  ],
  ...[
    '/%252e%252e/',
    '/%2563ontent/shop.yaml',
    '/.git/config',
    '/.env',
    '/..;/',
    '/;',
    '/a;b',
    '/a:b',
    '/C:/x',
    '/nul',
  ],
  ...['/@fs/etc/passwd', '/@fs//etc/passwd', '/@fs/../etc/passwd', '/@fs/%2fetc%2fpasswd', '/@fs', '/@fs/', '/@id/'],
  ...['/@id//etc/passwd', '/@id/file:///etc/passwd', '/@id/__x00__', '/@vite', '/@vite/', '/@', '/@/', '/__', '/__x'],
  ...['/__open-in-editor', '/__open-in-editor?file=/etc/passwd', '/__open-in-editor?file=package.json:1:1'],
  ...['/src', '/src/', '/src/node', '/src/x.ts', '/node_modules', '/node_modules/', '/node_modules/.bin/node?raw'],
  ...[
    '/package.json',
    '/package.json?raw',
    '/package.json?import&raw',
    '/package.json?url',
    '/content/shop.yaml?raw??',
  ],
  ...[
    '/cutting-room/%',
    '/cutting-room//',
    '/cutting-room/..',
    '/cutting-room/api/',
    '/cutting-room/api/open/?recording=%',
  ],
  ...[
    '/cutting-room/api/media/%2f',
    '/cutting-room/api/media/.',
    '/cutting-room/api/media/\u0001',
    '/footage/%',
    '/footage/',
  ],
  ...[
    '/cutting-room/api/analysis-file/x/peaks.s8',
    '/cutting-room/api/save/',
    '/cutting-room/__proto__/',
    '/__proto__',
  ],
  ...['/constructor', '/toString/', '/lessons/', '/lessons/%/'],
  ...[
    '/lessons/__proto__/',
    '/_image',
    '/_image?href=http://evil.example/',
    '/_image?href=/etc/passwd',
    '/_astro/',
    '/_x',
  ],
  `/${'a'.repeat(5000)}`,
  `/${'a/'.repeat(3000)}`,
  `/${'%41'.repeat(2000)}`,
  `/?${'a=1&'.repeat(2000)}`,
];
const METHODS = [
  'GET',
  'HEAD',
  'POST',
  'PUT',
  'DELETE',
  'OPTIONS',
  'PATCH',
  'TRACE',
  'PROPFIND',
  'CONNECT',
  'BREW',
  'get',
];
const HEADERS = [
  ...['Range: bytes=9-1', 'Range: bytes=-', 'Range: bytes=0-,0-,0-', 'Range: lines=1', 'If-Modified-Since: never'],
  ...['If-None-Match: "', 'Accept: text/html', 'Accept: \u0001', 'Accept-Encoding: ,,,', 'Content-Length: 5'],
  ...['Content-Length: -1', 'Transfer-Encoding: chunked', 'Transfer-Encoding: x', 'Expect: 100-continue', 'Expect: x'],
  ...['Upgrade: websocket', 'Connection: upgrade', 'Sec-WebSocket-Key: x', 'Sec-WebSocket-Version: 13', 'Cookie: ;;;='],
  ...['Sec-WebSocket-Protocol: vite-hmr', 'Origin: null', 'Origin: http://evil.example', 'Origin: x', 'Referer: %'],
  ...['Sec-Fetch-Site: cross-site', 'Sec-Fetch-Mode: navigate', 'X-Liftside-Token: x', 'X-Forwarded-Host: [', 'X: y'],
  ...['Content-Type: application/json', `X-Long: ${'x'.repeat(9000)}`, 'no colon', ': none', ' folded'],
];
const BODIES = ['', '{', '{}', 'null', '5\r\nhello\r\n0\r\n\r\n', 'zz\r\n', '\0'.repeat(200), '{"changes":[{}]}'];

const target = fc.oneof(
  { weight: 4, arbitrary: fc.constantFrom(...TARGETS) },
  { weight: 2, arbitrary: fc.tuple(fc.constantFrom(...TARGETS), fc.constantFrom(...TARGETS)).map(([a, b]) => a + b) },
  { weight: 1, arbitrary: fc.string({ maxLength: 40 }).map((text) => `/${text}`) },
  { weight: 1, arbitrary: fc.string({ unit: 'binary', maxLength: 30 }) },
);

/** Requests as bytes, the same ones for the same seed; most are odd in one way, many in several. */
export function oddRequests(count: number, port: number, seed: number): Buffer[] {
  const host = fc.oneof(
    { weight: 6, arbitrary: fc.constant(`127.0.0.1:${port}`) },
    { weight: 1, arbitrary: fc.constantFrom('', '[', 'evil.example', '127.0.0.1', ':', `localhost:${port}`, 'a b') },
  );
  const request = fc
    .record({
      method: fc.oneof({ weight: 3, arbitrary: fc.constant('GET') }, fc.constantFrom(...METHODS)),
      target,
      version: fc.oneof({ weight: 8, arbitrary: fc.constant('HTTP/1.1') }, fc.constantFrom('HTTP/1.0', 'HTTP/9', '')),
      host,
      headers: fc.subarray(HEADERS, { maxLength: 3 }),
      body: fc.oneof({ weight: 3, arbitrary: fc.constant('') }, fc.constantFrom(...BODIES)),
    })
    .map(({ method, target: asked, version, host: name, headers, body }) => {
      const head = [`${method} ${asked} ${version}`, `Host: ${name}`, 'Connection: close', ...headers];
      return Buffer.from(`${head.join('\r\n')}\r\n\r\n${body}`, 'utf8');
    });
  return fc.sample(request, { numRuns: count, seed });
}

const MAY_CLOSE = /^CONNECT |\r\n(Content-Length|Transfer-Encoding|Upgrade|Expect):/;

/** @returns the status; `closed` where the connection ended without a word, `open` where nothing came in time */
export function throwAt(port: number, bytes: Buffer, patienceMs = 20_000): Promise<number | 'closed' | 'open'> {
  return new Promise((done) => {
    const socket = connect({ host: '127.0.0.1', port, allowHalfOpen: true });
    let heard = '';
    const end = (answer: number | 'closed' | 'open') => {
      clearTimeout(half);
      clearTimeout(whole);
      socket.destroy();
      done(answer);
    };
    const status = () => Number(/^HTTP\/1\.1 (?!100)(\d{3})/m.exec(heard)?.[1]);
    // A server that waits for the rest of a body hears that there is none; one that still waits then waits for ever.
    const half = setTimeout(() => MAY_CLOSE.test(bytes.toString('utf8')) && socket.end(), 1000);
    const whole = setTimeout(() => end('open'), patienceMs);
    socket.on('connect', () => socket.write(bytes));
    socket.on('data', (chunk) => {
      heard += chunk.toString('latin1').slice(0, 400);
      if (status()) end(status());
    });
    socket.on('error', () => undefined);
    socket.on('close', () => end(status() || 'closed'));
    socket.on('end', () => end(status() || 'closed'));
  });
}

/** Throws all of them, several at a time. @returns how many were answered how */
export async function throwAll(port: number, requests: readonly Buffer[]): Promise<Map<string, Buffer[]>> {
  const answers = new Map<string, Buffer[]>();
  const queue = [...requests];
  await Promise.all(
    Array.from({ length: 8 }, async () => {
      for (let next = queue.pop(); next; next = queue.pop()) {
        const answer = String(await throwAt(port, next));
        answers.set(answer, [...(answers.get(answer) ?? []), next]);
      }
    }),
  );
  return answers;
}

/**
 * Requests that were not answered as they should be: with 5xx, not at all, or by closing the connection where HTTP does
 * not ask for it. That is right for CONNECT (RFC 9110, 9.3.6: only a proxy has a use for it) and where a body or an
 * upgrade was announced and did not come.
 */
export function unanswered(answers: ReadonlyMap<string, readonly Buffer[]>): string[] {
  return [...answers].flatMap(([answer, requests]) =>
    requests
      .map((bytes) => bytes.toString('utf8'))
      .filter((text) => /^5|open/.test(answer) || (answer === 'closed' && !MAY_CLOSE.test(text)))
      .map((text) => `${answer} ${JSON.stringify(text.slice(0, 200))}`),
  );
}

/** How many were answered how, such as `1000 odd requests: 700 × 400, 300 × 404`. */
export function countAnswers(answers: ReadonlyMap<string, readonly Buffer[]>): string {
  const counts = [...answers]
    .map(([answer, { length }]) => ({ answer, length }))
    .toSorted((a, b) => b.length - a.length);
  const all = counts.reduce((sum, { length }) => sum + length, 0);
  return `${all} odd requests: ${counts.map(({ answer, length }) => `${length} × ${answer}`).join(', ')}`;
}
