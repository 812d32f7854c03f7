import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { insertYaml, type Plain, removeYaml, setYaml, setYamlList } from '../../../src/core/write/index.ts';

const RECORDING = `# The chain class, second take
title: Chain and sprockets, uncut   # working title
files:
  - file: media/chain-1.mp4            # relative to content/
  - file: media/chain-2.mp4
start: '01:00:00;00'
edit:
  # the good part
  - {in: "0:03:10", out: "0:12:44.5"}   # after the phone rang
  - { in: "0:15:02", out: "0:31:20" }
people:
  - role: instructor
    release: on-file
  - role: helper
`;

/** The lines that differ, as `-old` and `+new`. */
function changed(before: string, after: string): string[] {
  const [a, b] = [before.split('\n'), after.split('\n')];
  let start = 0;
  while (start < Math.min(a.length, b.length) && a[start] === b[start]) start++;
  let end = 0;
  while (end < Math.min(a.length, b.length) - start && a.at(-1 - end) === b.at(-1 - end)) end++;
  return [
    ...a.slice(start, a.length - end).map((line) => `-${line}`),
    ...b.slice(start, b.length - end).map((line) => `+${line}`),
  ];
}

function done(result: { ok: boolean } & ({ ok: true; value: string } | { ok: false; problem: string })): string {
  if (!result.ok) throw new Error(result.problem);
  return result.value;
}

test.each<[string, readonly (string | number)[], Plain, string[]]>([
  [
    'a point',
    ['edit', 0, 'out'],
    '0:12:50',
    [
      '-  - {in: "0:03:10", out: "0:12:44.5"}   # after the phone rang',
      '+  - {in: "0:03:10", out: "0:12:50"}   # after the phone rang',
    ],
  ],
  [
    'a plain title',
    ['title'],
    'Chain: all of it',
    ['-title: Chain and sprockets, uncut   # working title', '+title: "Chain: all of it"   # working title'],
  ],
  ['a text in single quotes', ['start'], '01:00:00;10', ["-start: '01:00:00;00'", "+start: '01:00:00;10'"]],
  ['a value in a block map', ['people', 0, 'release'], 'missing', ['-    release: on-file', '+    release: missing']],
  ['a key that is missing', ['people', 1, 'release'], 'on-file', ['+    release: on-file']],
  ['a key that is missing at the top', ['captions'], 'media/chain.vtt', ['+captions: media/chain.vtt']],
  [
    'a key that is missing in a flow map',
    ['edit', 0, 'angle'],
    'bench',
    [
      '-  - {in: "0:03:10", out: "0:12:44.5"}   # after the phone rang',
      '+  - {in: "0:03:10", out: "0:12:44.5", angle: bench}   # after the phone rang',
    ],
  ],
  [
    'a word YAML would take for something else',
    ['people', 0, 'release'],
    'no',
    ['-    release: on-file', '+    release: "no"'],
  ],
])('setting %s changes one line', (_what, path, value, lines) => {
  const text = done(setYaml(RECORDING, path, value));
  expect(changed(RECORDING, text)).toEqual(lines);
});

test('an entry goes with its line, the others and their comments stay', () => {
  expect(changed(RECORDING, done(removeYaml(RECORDING, ['edit', 1])))).toEqual([
    '-  - { in: "0:15:02", out: "0:31:20" }',
  ]);
  expect(changed(RECORDING, done(removeYaml(RECORDING, ['people', 0])))).toEqual([
    '-  - role: instructor',
    '-    release: on-file',
  ]);
  expect(changed(RECORDING, done(removeYaml(RECORDING, ['start'])))).toEqual(["-start: '01:00:00;00'"]);
  expect(changed(RECORDING, done(removeYaml(RECORDING, ['people', 0, 'release'])))).toEqual(['-    release: on-file']);
});

test('an entry is put in the style of its neighbour', () => {
  const point = { in: '0:40:00', out: '0:41:00' };
  expect(changed(RECORDING, done(insertYaml(RECORDING, ['edit'], 9, point)))).toEqual([
    '+  - { in: "0:40:00", out: "0:41:00" }',
  ]);
  expect(changed(RECORDING, done(insertYaml(RECORDING, ['edit'], 1, point)))).toEqual([
    '+  - {in: "0:40:00", out: "0:41:00"}',
  ]);
  expect(changed(RECORDING, done(insertYaml(RECORDING, ['edit'], 0, point)))).toEqual([
    '+  - {in: "0:40:00", out: "0:41:00"}',
  ]);
  expect(changed(RECORDING, done(insertYaml(RECORDING, ['people'], 1, { role: 'guest', release: 'missing' })))).toEqual(
    ['+  - role: guest', '+    release: missing'],
  );
  expect(changed(RECORDING, done(insertYaml(RECORDING, ['angles'], 0, { id: 'bench' })))).toEqual([
    '+angles:',
    '+  - {id: bench}',
  ]);
});

test('a list is made to hold other entries by the fewest changes', () => {
  const text = done(
    setYamlList(
      RECORDING,
      ['edit'],
      [
        { in: '0:01:00', out: '0:02:00' },
        { in: '0:03:10', out: '0:12:44.5' },
        { in: '0:15:02', out: '0:30:00' },
      ],
    ),
  );
  expect(text).toContain(
    '  # the good part\n  - {in: "0:01:00", out: "0:02:00"}\n  - {in: "0:03:10", out: "0:12:44.5"}   # after the phone rang\n  - { in: "0:15:02", out: "0:30:00" }\n',
  );
});

test('a list can be emptied, and filled again', () => {
  const empty = done(setYamlList(RECORDING, ['edit'], []));
  expect(parse(empty).edit).toEqual([]);
  expect(empty).toContain('# the good part');
  const full = done(setYamlList(empty, ['edit'], [{ in: '0:00:01', out: '0:00:02' }]));
  expect(parse(full)).toEqual({ ...parse(RECORDING), edit: [{ in: '0:00:01', out: '0:00:02' }] });
});

test('carriage returns, a byte order mark and a missing last line end stay as they are', () => {
  const windows = `\uFEFF${RECORDING.trimEnd().replaceAll('\n', '\r\n')}`;
  const text = done(insertYaml(windows, ['people'], 2, { role: 'guest' }));
  expect(text.startsWith(windows)).toBe(true);
  expect(text.slice(windows.length)).toBe('\r\n  - role: guest\r\n');
  const set = done(setYaml(windows, ['edit', 1, 'in'], '0:16:00'));
  expect(set.replace('0:16:00', '0:15:02')).toBe(windows);
});

test('a file that is not sound, or has no such place, is refused in words', () => {
  expect(setYaml('title: "open\n', ['title'], 'x')).toMatchObject({
    ok: false,
    problem: expect.stringContaining('not sound YAML'),
  });
  expect(removeYaml(RECORDING, ['edit', 7])).toMatchObject({ ok: false, problem: 'the file has no place for edit/7' });
  expect(setYaml(RECORDING, ['title', 'short'], 'x')).toMatchObject({ ok: false });
});

const word = fc.stringMatching(/^[a-z]{1,6}$/);
const scalar = fc.oneof(
  word,
  fc.string({ maxLength: 12 }),
  fc.integer(),
  fc.boolean(),
  fc.constantFrom('0:03:10', 'yes', '01:00:00;00', ' x ', "it's", '#', '- a', 'a: b', ''),
);
const entry: fc.Arbitrary<Plain> = fc.oneof(scalar, fc.dictionary(word, scalar, { minKeys: 1, maxKeys: 3 }));
const list = fc.array(entry, { maxLength: 6 });

test('whatever a list held and shall hold, it holds just that afterwards, and nothing else changed', () => {
  fc.assert(
    fc.property(list, list, fc.boolean(), (before, after, flow) => {
      const start = flow
        ? `a: 1 # one\nlist: ${JSON.stringify(before)}\nz: 2\n`
        : done(setYamlList('a: 1 # one\nlist:\nz: 2\n', ['list'], before));
      const text = done(setYamlList(start, ['list'], after));
      expect(parse(text)).toEqual({ a: 1, list: after, z: 2 });
      expect(text.startsWith('a: 1 # one\nlist:')).toBe(true);
      expect(text.endsWith('\nz: 2\n')).toBe(true);
    }),
  );
});

test('whatever is set at a path is read there afterwards', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(['title'], ['edit', 1, 'in'], ['people', 0, 'role'], ['new'], ['files', 0, 'start']),
      scalar,
      (path, value) => {
        const text = done(setYaml(RECORDING, path, value));
        expect(path.reduce((at: never, key) => at[key as never], parse(text) as never)).toEqual(value);
        expect(text).toContain('# the good part');
      },
    ),
  );
});
