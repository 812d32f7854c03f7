import { createServer, type Server } from 'node:http';
import { connect } from 'node:net';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { jsonBody } from '../../../src/node/http/index.ts';

const LIMIT = 64 * 1024;
let server: Server;
let port = 0;
beforeAll(async () => {
  server = createServer((request, response) => {
    void jsonBody(request, LIMIT).then((read) => {
      response.writeHead('problem' in read ? read.status : 200);
      response.end('problem' in read ? read.problem : JSON.stringify(read.value));
    });
  });
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  const address = server.address();
  port = typeof address === 'object' && address ? address.port : 0;
});
afterAll(() => new Promise((done) => server.close(done)));

const headers = { 'content-type': 'application/json' };
const send = (body: BodyInit) =>
  fetch(`http://127.0.0.1:${port}/`, { method: 'POST', headers, body, duplex: 'half' } as RequestInit);

// RFC 9110, 15.5.14: 413. A client that sends all of its body before it listens must still hear it.
test('a client with a body far over the limit hears 413, each of twenty times, and may ask again', async () => {
  for (let i = 0; i < 20; i++) {
    const answer = await send(' '.repeat(LIMIT * 60));
    expect([answer.status, await answer.text()]).toEqual([413, 'more than 64 kB is not taken']);
  }
  expect(await (await send('{"a":1}')).json()).toEqual({ a: 1 });
});

test('a body whose length was not told is refused with 413 as well', async () => {
  const chunk = new Uint8Array(50_000).fill(32);
  const body = new ReadableStream({
    start: (out) => {
      for (let i = 0; i < 80; i++) out.enqueue(chunk);
      out.close();
    },
  });
  expect((await send(body)).status).toBe(413);
});

test('the last byte that fits is taken, one more is not', async () => {
  const text = (length: number) => `"${'x'.repeat(length - 2)}"`;
  expect((await send(text(LIMIT))).status).toBe(200);
  expect((await send(text(LIMIT + 1))).status).toBe(413);
});

test('a client that only sends, slowly, and reads at the end hears it too', async () => {
  const heard = await new Promise<string>((done, failed) => {
    const socket = connect(port, '127.0.0.1');
    let text = '';
    socket.on('error', failed);
    socket.write(
      `POST / HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nContent-Length: ${LIMIT * 4}\r\n\r\n`,
    );
    let left = LIMIT * 4;
    const more = () => {
      const part = Math.min(left, 16 * 1024);
      left -= part;
      socket.write(Buffer.alloc(part, ' '), () => (left > 0 ? setImmediate(more) : listen()));
    };
    const listen = () => {
      socket.on('data', (chunk) => {
        text += chunk.toString();
        socket.destroy();
        done(text);
      });
    };
    more();
  });
  expect(heard).toMatch(/^HTTP\/1\.1 413 /);
});
