import { expect, test } from 'vitest';
import { Flags } from '../../../src/node/cli/command.ts';
import timecode from '../../../src/node/cli/timecode.ts';

async function run(value: string, rate: string | undefined, json = true) {
  const written: string[] = [];
  const said: string[] = [];
  const flags = new Flags(
    new Map<string, string | true>([
      ...(rate ? [['rate', rate] as const] : []),
      ...(json ? [['json', true] as const] : []),
    ]),
  );
  const unused = () => Promise.reject(new Error('a timecode needs no content'));
  const code = await timecode.run([value], flags, {
    content: '/nowhere',
    cwd: '/nowhere',
    home: '/nowhere',
    env: {},
    terminal: false,
    signal: new AbortController().signal,
    now: () => new Date(0),
    commands: async () => [],
    load: unused,
    input: unused,
    out: (text) => written.push(text),
    say: (text) => said.push(text),
  });
  return { code, written: written.join('\n'), said: said.join('\n') };
}

// Values: SMPTE ST 12-1 as in tests/reference/timecode.
test.each([
  ['00:10:00;00', '29.97df', { frame: 17982, seconds: 599.9994, timecode: '00:10:00;00', clock: '0:09:59.999' }],
  ['17982', '29.97df', { frame: 17982, seconds: 599.9994, timecode: '00:10:00;00', clock: '0:09:59.999' }],
  ['0:10:00', '29.97df', { frame: 17982, seconds: 599.9994, timecode: '00:10:00;00', clock: '0:09:59.999' }],
  ['01:00:00:00', '23.976', { frame: 86400, seconds: 3603.6, timecode: '01:00:00:00', clock: '1:00:03.6' }],
])('%s at %s in every notation', async (value, rate, notations) => {
  const { code, written } = await run(value, rate);
  expect([code, JSON.parse(written)]).toEqual([0, notations]);
});

test('for people it prints a table that says when the labels wrapped', async () => {
  const { written } = await run('2589408', '29.97df', false);
  expect(written).toContain('timecode  00:00:00;00  (the labels start again after 24 hours)');
  expect(written).toContain('2589408 × 1001/30000 s');
});

test.each([
  [
    '00:01:00;00',
    '29.97df',
    '"00:01:00;00" is a label that drop-frame leaves out\nthe nearest labels are 00:00:59;29 and 00:01:00;02',
  ],
  ['00:01:00;02', '25', 'write 00:01:00:02; only 29.97 and 59.94 have a drop-frame count'],
  ['soon', '25', '"soon" is no timecode, frame number or clock time'],
  ['99999999999999', '25', 'more than 3 000 hours'],
  ['1', '26', '--rate is one of'],
  ['1', undefined, '--rate is one of'],
])('%s at %s is refused in words', async (value, rate, words) => {
  const { code, said, written } = await run(value, rate);
  expect([code, written]).toEqual([2, '']);
  expect(said).toContain(words);
});
