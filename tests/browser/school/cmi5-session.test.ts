import { expect, test } from 'vitest';
import { Cmi5Session } from '../../../src/browser/school/cmi5-session.ts';
import { readLaunch, type SchoolState } from '../../../src/core/school/index.ts';

const ACTOR = { objectType: 'Agent', account: { homePage: 'https://school.example', name: 's1' } };
const REGISTRATION = '7d3c1f0a-0000-4000-8000-000000000001';
const ACTIVITY = 'https://millrace.example/lessons/chain/';
const SESSION = 'https://w3id.org/xapi/cmi5/context/extensions/sessionid';
const CMI5 = 'https://w3id.org/xapi/cmi5/context/categories/cmi5';
const MOVE_ON = 'https://w3id.org/xapi/cmi5/context/categories/moveon';
const QUERY = new URLSearchParams({
  ...{ endpoint: 'https://lrs.example/xapi', fetch: 'https://lrs.example/token?once=1' },
  ...{ actor: JSON.stringify(ACTOR), registration: REGISTRATION, activityId: ACTIVITY },
}).toString();

interface Asked {
  readonly method: string;
  readonly url: URL;
  readonly headers: Headers;
  readonly body: string;
  readonly keepalive: boolean;
}

interface Statement {
  readonly id: string;
  readonly actor: object;
  readonly verb: { readonly id: string };
  readonly object: { readonly id: string; readonly definition?: object };
  readonly result?: {
    readonly duration?: string;
    readonly extensions?: Record<string, number>;
    readonly [more: string]: unknown;
  };
  readonly context: {
    readonly registration: string;
    readonly contextActivities: Record<string, readonly { readonly id: string }[]>;
    readonly extensions: object;
  };
  readonly timestamp: string;
}

/** A school's system that answers as cmi5 8.2, 10.0 and 11.0 have it, and remembers what it was asked. */
function system(launchMode = 'Normal', kept?: string) {
  const asked: Asked[] = [];
  let state = kept;
  let tokens = 0;
  const request: typeof fetch = async (address, options = {}) => {
    const { method = 'GET', body, headers, keepalive = false } = options;
    const url = new URL(String(address));
    asked.push({ method, url, headers: new Headers(headers), body: String(body ?? ''), keepalive });
    if (url.pathname === '/token')
      return Response.json(tokens++ === 0 ? { 'auth-token': 'dTpw' } : { 'error-code': '1' });
    if (url.pathname === '/xapi/statements')
      return Response.json(JSON.parse(String(body)).map(({ id }: Statement) => id));
    if (url.searchParams.get('stateId') === 'LMS.LaunchData')
      return Response.json({
        ...{ launchMode, moveOn: 'Completed', returnURL: 'https://school.example/back' },
        contextTemplate: {
          contextActivities: { grouping: [{ id: 'https://school.example/course/7' }] },
          extensions: { [SESSION]: 'sitting-1' },
        },
      });
    if (url.pathname === '/xapi/activities/state') {
      if (method === 'PUT') state = String(body);
      return state === undefined ? new Response('', { status: 404 }) : new Response(state);
    }
    return new Response('', { status: 404 });
  };
  const statements = () =>
    asked
      .filter(({ url }) => url.pathname === '/xapi/statements')
      .flatMap(({ body }) => JSON.parse(body) as Statement[]);
  return { asked, request, statements, state: () => state };
}

let count = 0;
async function open(request: typeof fetch, at: { now: number } = { now: Date.UTC(2027, 2, 6, 10) }) {
  const launch = readLaunch(`?${QUERY}`);
  if (!launch) throw new Error('no launch');
  return Cmi5Session.open(launch, {
    now: () => new Date(at.now),
    newId: () => `00000000-0000-4000-8000-${String(count++).padStart(12, '0')}`,
    ...{ language: 'en', request },
  });
}

const state = (share: number, complete = false): SchoolState => ({
  ...{ text: `1;x;${share};`, at: 60, share, complete },
  readings: [{ name: 'measure.slack', title: 'Slack', value: 32.5, unit: 'mm', limits: '30 to 40 mm', right: true }],
});
const verbs = (all: readonly Statement[]) =>
  all.map(({ verb }) => verb.id.replace('http://adlnet.gov/expapi/verbs/', ''));

test('a sitting is told as cmi5 and xAPI have it: order, verbs, contexts, results', async () => {
  const at = { now: Date.UTC(2027, 2, 6, 10) };
  const peer = system();
  const session = await open(peer.request, at);
  session.keep(state(0.25));
  session.keep(state(0.25));
  session.keep(state(0.509));
  at.now += 90_000;
  session.keep(state(1, true));
  session.keep(state(1, true));
  await session.end(state(1, true));
  const told = peer.statements();
  // cmi5 Quartz, 7.1.1 first and 7.1.2 last; 9.3.3 completed once. Verbs: 9.3 and the ADL vocabulary.
  expect(verbs(told)).toEqual(['initialized', 'answered', 'progressed', 'progressed', 'completed', 'terminated']);
  const byVerb = new Map(told.map((one) => [verbs([one])[0], one]));
  for (const one of told) {
    // xAPI 1.0.3, Data, 2.4.1 UUID; cmi5 9.2 actor, 9.6.1 registration, 9.6.2 and 9.6.3.1 from the template, 9.7 UTC.
    expect(one.id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-[1-5][0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
    expect(one.actor).toEqual(ACTOR);
    expect(one.context.registration).toBe(REGISTRATION);
    expect(one.context.contextActivities.grouping).toEqual([{ id: 'https://school.example/course/7' }]);
    expect(one.context.extensions).toEqual({ [SESSION]: 'sitting-1' });
    expect(one.timestamp).toMatch(/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}\.\d{3}Z$/);
  }
  expect(new Set(told.map(({ id }) => id)).size).toBe(told.length);
  const categories = (verb: string) => (byVerb.get(verb)?.context.contextActivities.category ?? []).map(({ id }) => id);
  // 9.6.2.1 and 9.6.2.2: the categories stand in what cmi5 itself defines, moveon in completed only.
  expect(categories('initialized')).toEqual([CMI5]);
  expect(categories('completed')).toEqual([CMI5, MOVE_ON]);
  expect(categories('terminated')).toEqual([CMI5]);
  expect([categories('answered'), categories('progressed')]).toEqual([[], []]);
  // 9.4: the object is the activity that was launched.
  for (const verb of ['initialized', 'completed', 'terminated']) expect(byVerb.get(verb)?.object.id).toBe(ACTIVITY);
  // 9.5.3 and 9.5.4.1: completion and durations (ISO 8601), no score.
  expect(byVerb.get('completed')?.result).toEqual({ completion: true, duration: 'PT90.00S' });
  expect(byVerb.get('terminated')?.result).toEqual({ duration: 'PT90.00S' });
  expect(byVerb.get('initialized')?.result).toBeUndefined();
  // 9.5.5.1: whole per cent.
  expect(byVerb.get('progressed')?.result).toEqual({
    extensions: { 'https://w3id.org/xapi/cmi5/result/extensions/progress': 50 },
  });
  // xAPI 1.0.3, Data, 2.4.4.1 and appendix C, numeric.
  expect(byVerb.get('answered')?.object.definition).toMatchObject({
    type: 'http://adlnet.gov/expapi/activities/cmi.interaction',
    interactionType: 'numeric',
  });
  expect(byVerb.get('answered')?.result).toEqual({ response: '32.5', success: true });
});

test('asked as the profile has it: the token once, launch data and preferences before the first statement, all signed', async () => {
  const peer = system();
  const session = await open(peer.request);
  expect(session.back).toBe('https://school.example/back');
  await session.end(state(0));
  const [token, ...rest] = peer.asked;
  // 8.2: POST, once.
  expect([token?.method, token?.url.href]).toEqual(['POST', 'https://lrs.example/token?once=1']);
  const ways = rest.map(
    ({ method, url }) =>
      `${method} ${url.searchParams.get('stateId') ?? url.searchParams.get('profileId') ?? url.pathname}`,
  );
  expect(ways.slice(0, 4)).toEqual([
    'GET LMS.LaunchData',
    'GET cmi5LearnerPreferences',
    'GET liftside.progress',
    'POST /xapi/statements',
  ]);
  for (const { headers, url } of rest) {
    expect(headers.get('authorization')).toBe('Basic dTpw');
    // xAPI 1.0.3, Communication, 1.4.
    expect(headers.get('x-experience-api-version')).toBe('1.0.3');
    if (url.pathname.endsWith('/state')) {
      expect(JSON.parse(url.searchParams.get('agent') ?? '')).toEqual(ACTOR);
      expect([url.searchParams.get('activityId'), url.searchParams.get('registration')]).toEqual([
        ACTIVITY,
        REGISTRATION,
      ]);
    }
  }
  // The end outlives the page.
  expect(peer.asked.at(-1)?.keepalive).toBe(true);
});

test('the next sitting goes on from the last, and completes no second time', async () => {
  const first = system();
  const session = await open(first.request);
  await session.end(state(1, true));
  const second = system('Normal', first.state());
  const again = await open(second.request);
  expect(again.kept).toBe(state(1).text);
  await again.end(state(1, true));
  expect(verbs(second.statements())).not.toContain('completed');
});

test.each(['Browse', 'Review'])('launched to %s, only the beginning and the end are told', async (mode) => {
  const peer = system(mode);
  const session = await open(peer.request);
  expect(session.records).toBe(false);
  session.keep(state(1, true));
  await session.end(state(1, true));
  // cmi5 Quartz, 10.2.2.
  expect(verbs(peer.statements())).toEqual(['initialized', 'terminated']);
  expect(peer.state()).toBeUndefined();
});

test('what did not arrive goes again, once, in its order', async () => {
  const peer = system();
  let cut = false;
  const session = await open(async (address, options) => {
    if (cut) throw new TypeError('the network is gone');
    return peer.request(address, options);
  });
  cut = true;
  session.keep(state(0.25));
  await expect.poll(() => session.trouble).toContain('did not answer');
  cut = false;
  session.keep(state(0.5));
  await expect.poll(() => session.trouble).toBe('');
  await session.end(state(0.5));
  expect(verbs(peer.statements())).toEqual(['initialized', 'answered', 'progressed', 'progressed', 'terminated']);
});

test('a page that was not launched is none; a system that takes no launch is told of', async () => {
  expect(readLaunch('')).toBeUndefined();
  expect(readLaunch(`?${QUERY.replace(/actor=[^&]*/, 'actor=nobody')}`)).toBeUndefined();
  expect(readLaunch('?endpoint=%E0%A4%A')).toBeUndefined();
  await expect(open(async () => Response.json({ 'error-code': '1' }))).rejects.toThrow('no authorization');
});
