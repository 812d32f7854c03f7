import { expect, test } from 'vitest';
import { OutsideFailure } from '../../../src/node/failure.ts';
import { StoreAway } from '../../../src/node/queue/media-store.ts';
import { S3Client, type S3Place, sumOf } from '../../../src/node/queue/s3-client.ts';
import copied from '../../reference/s3-signatures.json' with { type: 'json' };
import { published } from '../../support/published.ts';

const reference = published(copied);
const EXAMPLES =
  reference.values[
    'AWS Signature Version 4 for S3, examples of signature calculation in the Authorization header, API of 2006-03-01, section Examples'
  ];
const MAY = Date.parse('2013-05-24T00:00:00Z');

/** A client whose requests come here; each is answered by the next of these. */
async function asked(answers: readonly Response[], now = MAY) {
  const { id, secret, region, host } = EXAMPLES;
  // Their bucket is part of the name of the host.
  const place: S3Place = { endpoint: `https://${host}`, region, bucket: '', keys: { id, secret } };
  const requests: Request[] = [];
  const client = await S3Client.of(place, 's3://shop', {
    now: () => now,
    fetch: async (request) => {
      requests.push(request);
      const answer = answers[requests.length - 1];
      if (!answer) throw new TypeError('fetch failed', { cause: new Error('connect ECONNREFUSED') });
      return answer;
    },
  });
  return { client, requests };
}

test.each(EXAMPLES.signed)('$asked bears the published signature', async ({ asked: title, query, signature }) => {
  const { id, region, time } = EXAMPLES;
  const { client, requests } = await asked([new Response('')], Date.parse(time));
  await client.ask(title.split(' ')[0] ?? '', '', { query });
  const [told] = requests.map(({ headers }) => headers.get('authorization') ?? '');
  expect(told).toContain(`Credential=${id}/20130524/${region}/s3/aws4_request`);
  expect(told).toMatch(new RegExp(`Signature=${signature}$`));
});

test('the sum of what is sent is signed with it', async () => {
  const { client, requests } = await asked([new Response('')]);
  const body = Buffer.from('Welcome');
  await client.ask('PUT', 'a/b c', { body });
  const [request] = requests;
  expect(request?.url).toBe(`https://${EXAMPLES.host}/a/b%20c`);
  expect(request?.headers.get('x-amz-content-sha256')).toBe(sumOf(body));
  expect(request?.headers.get('authorization')).toContain('x-amz-content-sha256');
});

test.each([
  [503, StoreAway],
  [500, StoreAway],
  [429, StoreAway],
  [400, OutsideFailure],
])('%i is told as what it is', async (status, kind) => {
  const { client } = await asked([new Response('<Error><Code>Words</Code></Error>', { status })]);
  const failed = await client.ask('GET', 'x').catch((error: unknown) => error);
  expect(failed).toBeInstanceOf(kind);
  expect(failed instanceof StoreAway).toBe(kind === StoreAway);
  expect(String(failed instanceof Error && failed.message)).toContain('Words');
});

test('keys that do not fit are told, and not waited for', async () => {
  const date = new Date(MAY).toUTCString();
  const { client, requests } = await asked([
    new Response('<Error><Code>SignatureDoesNotMatch</Code></Error>', { status: 403, headers: { date } }),
  ]);
  const failed = await client.ask('GET', 'x').catch((error: unknown) => error);
  expect(failed).not.toBeInstanceOf(StoreAway);
  expect(failed).toMatchObject({ message: 'the store s3://shop refuses GET: SignatureDoesNotMatch' });
  expect(requests).toHaveLength(1);
});

test.each([-1, 1])('a clock %i hour off asks once more at the time of the server, and keeps to it', async (hours) => {
  const date = new Date(MAY).toUTCString();
  const skewed = new Response('', { status: 403, headers: { date } });
  const answers = [skewed, new Response(''), new Response('')];
  const { client, requests } = await asked(answers, MAY + hours * 3600_000);
  await client.ask('HEAD', 'x');
  await client.ask('HEAD', 'y');
  const times = requests.map(({ headers }) => headers.get('x-amz-date'));
  expect(times).toEqual([
    hours === 1 ? '20130524T010000Z' : '20130523T230000Z',
    '20130524T000000Z',
    '20130524T000000Z',
  ]);
});

test('no answer at all is away, what is not there is nothing', async () => {
  await expect((await asked([])).client.ask('GET', 'x')).rejects.toThrow(StoreAway);
  expect(await (await asked([new Response('', { status: 404 })])).client.ask('GET', 'x')).toBeUndefined();
});

test('every published value is compared', () => expect(reference.unread()).toEqual([]));
