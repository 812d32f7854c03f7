import * as peer from 'scorm-again/scorm12';
import { expect, test } from 'vitest';
import { type SchoolState, type Scorm12Api, Scorm12Session, timespan } from '../../../src/core/school/index.ts';

const STATE: SchoolState = {
  ...{ text: '1;0badcafe;61.5;ffff;01', at: 61.5, share: 0.5, complete: false },
  readings: [
    { name: 'measure.chain-slack', title: 'Slack', value: 32.5, unit: 'mm', limits: '30 to 40 mm', right: true },
    {
      name: 'measure.twenty pitches',
      title: 'Twenty pitches',
      value: 325,
      unit: 'mm',
      limits: 'at most 322 mm',
      right: false,
    },
  ],
};

/** Its types have it as the default export, its code by name. */
const { Scorm12API } = peer as unknown as { readonly Scorm12API: typeof peer.default };

/** Another run-time of SCORM 1.2 as a school's system, and every call that is made to it. */
function system(data: object = {}) {
  const api = new Scorm12API({ autocommit: false, logLevel: 5 });
  api.loadFromJSON(data as never, 'cmi');
  const calls: string[][] = [];
  const watched = new Proxy(api, {
    get(target, name) {
      const method: unknown = Reflect.get(target, name);
      if (typeof method !== 'function' || !String(name).startsWith('LMS')) return method;
      return (...words: string[]) => {
        const answer: unknown = method.apply(target, words);
        calls.push([String(name), ...words, String(answer)]);
        return answer;
      };
    },
  }) as unknown as Scorm12Api;
  return { api, calls, watched };
}

/** What the peer lets pass: SCORM 1.2 Run-Time Environment, 3.3 (order), 3.4.2 (data types), 3.4.4 (elements). */
function holdRules(calls: readonly (readonly string[])[]): void {
  expect(calls[0]?.[0]).toBe('LMSInitialize');
  expect(calls.at(-1)?.[0]).toBe('LMSFinish');
  expect(calls.filter(([name]) => name === 'LMSInitialize' || name === 'LMSFinish')).toHaveLength(2);
  for (const [name, element = '', value = '', answer] of calls) {
    if (name !== 'LMSSetValue') continue;
    expect([element, answer]).toEqual([element, 'true']);
    if (element === 'cmi.suspend_data') expect(value.length).toBeLessThanOrEqual(4096);
    if (element === 'cmi.core.lesson_location') expect(value.length).toBeLessThanOrEqual(255);
    if (element === 'cmi.core.lesson_status') expect(['incomplete', 'completed']).toContain(value);
    if (element === 'cmi.core.session_time') expect(value).toMatch(/^\d{2,4}:\d{2}:\d{2}(\.\d{1,2})?$/);
    if (/^cmi\.interactions\.\d+\.time$/.test(element))
      expect(value).toMatch(/^([01]\d|2[0-3]):[0-5]\d:[0-5]\d\.\d{2}$/);
    if (/^cmi\.interactions\.\d+\.id$/.test(element)) expect(value).toMatch(/^[A-Za-z0-9._-]{1,255}$/);
    if (/^cmi\.interactions\.\d+\.result$/.test(element)) expect(['correct', 'wrong', 'neutral']).toContain(value);
    if (element === 'cmi.core.exit') expect(['time-out', 'suspend', 'logout', '']).toContain(value);
  }
}

// SCORM 1.2 Run-Time Environment, 3.4.2: CMITimespan HHHH:MM:SS.SS.
test.each([
  [0, '0000:00:00.00'],
  [61_005, '0000:01:01.01'],
  [3_599_999, '0001:00:00.00'],
  [360_000_000, '0100:00:00.00'],
  [1e12, '9999:59:59.99'],
])('%d ms is the timespan %s', (milliseconds, written) => expect(timespan(milliseconds)).toBe(written));

test('a sitting begins, keeps, completes once and ends; the next one goes on from it', async () => {
  let now = Date.UTC(2027, 2, 6, 10);
  const first = system();
  const session = new Scorm12Session(first.watched, () => new Date(now));
  expect([session.kept, session.records, session.trouble]).toEqual(['', true, '']);
  expect(first.api.cmi.core.lesson_status).toBe('incomplete');
  session.keep(STATE);
  session.keep({ ...STATE, at: 70 });
  session.keep({ ...STATE, complete: true, share: 1 });
  now += 90_000;
  await session.end({ ...STATE, complete: true, share: 1 });
  expect(session.trouble).toBe('');
  holdRules(first.calls);
  const sets = first.calls.filter(([name]) => name === 'LMSSetValue');
  expect(sets.filter(([, , value]) => value === 'completed')).toHaveLength(1);
  expect(sets.filter(([, element]) => element === 'cmi.core.session_time').map(([, , value]) => value)).toEqual([
    '0000:01:30.00',
  ]);
  // Each reading once, its type before its response.
  const told = sets
    .filter(([, element = '']) => element.startsWith('cmi.interactions'))
    .map(([, element, value]) => `${element}=${value}`);
  expect(told.filter((line) => !line.includes('.time='))).toEqual([
    'cmi.interactions.0.id=measure.chain-slack',
    'cmi.interactions.0.type=numeric',
    'cmi.interactions.0.student_response=32.5',
    'cmi.interactions.0.result=correct',
    'cmi.interactions.1.id=measure.twenty_pitches',
    'cmi.interactions.1.type=numeric',
    'cmi.interactions.1.student_response=325',
    'cmi.interactions.1.result=wrong',
  ]);

  const { suspend_data, core } = JSON.parse(JSON.stringify(first.api.cmi));
  const second = system({ suspend_data, core: { lesson_status: core.lesson_status, entry: 'resume' } });
  const again = new Scorm12Session(second.watched, () => new Date(now));
  expect(again.kept).toBe(STATE.text);
  await again.end(STATE);
  holdRules(second.calls);
  // What was completed is not made incomplete by coming back.
  expect(second.api.cmi.core.lesson_status).toBe('completed');
});

test('in review nothing is recorded; after the end nothing is said', async () => {
  const { calls, watched } = system({
    core: { lesson_mode: 'review', lesson_status: 'completed' },
    suspend_data: STATE.text,
  });
  const session = new Scorm12Session(watched, () => new Date(0));
  expect([session.records, session.kept]).toEqual([false, STATE.text]);
  session.keep({ ...STATE, text: 'other' });
  await session.end(STATE);
  const count = calls.length;
  session.keep(STATE);
  await session.end(STATE);
  expect(calls).toHaveLength(count);
  expect(calls.filter(([name]) => name === 'LMSSetValue').map(([, element]) => element)).toEqual([
    'cmi.core.session_time',
    'cmi.core.exit',
  ]);
});

test('a system that refuses is told of in words, and a text that is too long is not sent', () => {
  const refusing = {
    ...Object.fromEntries(
      ['LMSInitialize', 'LMSFinish', 'LMSGetValue', 'LMSSetValue', 'LMSCommit'].map((name) => [name, () => 'false']),
    ),
    LMSGetLastError: () => '101',
    LMSGetErrorString: () => 'General Exception',
  };
  const session = new Scorm12Session(refusing as unknown as Scorm12Api, () => new Date(0));
  expect(session.trouble).toBe(
    'The system of your school does not begin (101, General Exception). What you write down stays in this browser.',
  );
  expect(session.records).toBe(false);
  const { calls, watched } = system();
  const long = new Scorm12Session(watched, () => new Date(0));
  long.keep({ ...STATE, text: 'x'.repeat(4097) });
  expect(long.trouble).toContain('too long');
  expect(
    calls.filter(([, element]) => element === 'cmi.suspend_data').filter(([name]) => name === 'LMSSetValue'),
  ).toEqual([]);
});

test.each([[null], [undefined]])('a system that answers %s where nothing is kept is a first visit', (nothing) => {
  const api: Scorm12Api = {
    LMSInitialize: () => 'true',
    LMSFinish: () => 'true',
    LMSGetValue: () => nothing as never,
    LMSSetValue: () => 'true',
    LMSCommit: () => 'true',
    LMSGetLastError: () => '0',
    LMSGetErrorString: () => '',
  };
  expect(new Scorm12Session(api, () => new Date('2027-03-06T10:00:00Z')).kept).toBe('');
});
