import { describe, expect, test } from 'vitest';
import { readMappedTranscript, readTranscriptMapping } from '../../../src/core/interchange/index.ts';

/** Reads by a mapping that has to be sound. */
function read(mapping: string, json: unknown) {
  const { mapping: value, diagnostics, lineOf } = readTranscriptMapping('map.yaml', mapping);
  expect(diagnostics).toEqual([]);
  return readMappedTranscript(JSON.stringify(json), value!, (key) => `map.yaml:${lineOf(key)}`);
}
function words(mapping: string, json: unknown) {
  const found = read(mapping, json);
  if (!found.ok) throw new Error(`${found.problem}; ${found.help}`);
  return found.value.words.map(({ text, start, end }) => [text, Number(start.toFixed(3)), Number(end.toFixed(3))]);
}

// Three shapes, invented for this test.
describe('a transcript of any shape', () => {
  test('entries with words in a list below, in milliseconds; full stops as words of their own', () => {
    const json = {
      job: { id: 7 },
      result: {
        blocks: [
          {
            from: 1200,
            line: 'Crack the nut.',
            parts: [
              { t: 1200, d: 300, w: 'Crack' },
              { t: 1600, d: 200, w: 'the' },
              { t: 1900, d: 400, w: 'nut' },
              { w: '.', kind: 'mark' },
            ],
          },
          { from: 5000, line: 'Now the wheel.', parts: [] },
        ],
      },
    };
    const mapping = [
      'entries: $.result.blocks[*]',
      'start: $.from',
      'text: $.line',
      'unit: milliseconds',
      'words: {each: "$.parts[*]", start: $.t, length: $.d, text: $.w}',
    ].join('\n');
    expect(words(mapping, json)).toEqual([
      ['Crack', 1.2, 1.5],
      ['the', 1.6, 1.8],
      ['nut.', 1.9, 2.3],
      ['Now', 5, 5.448],
      ['the', 5.448, 5.896],
      ['wheel.', 5.896, 6.68],
    ]);
  });

  test('a list of lines with clock times, no words; the speaker is picked by a filter', () => {
    const json = [
      { who: 'crowd', begins: '00:00:01,000', ends: '00:00:02,000', said: 'hello' },
      { who: 'host', begins: '00:01:00,500', ends: '00:01:03,500', said: 'aa bbbbb' },
    ];
    const mapping = `
      entries: $[?@.who == 'host']
      start: $.begins
      end: $.ends
      text: $.said
      unit: clock`;
    expect(words(mapping, json)).toEqual([
      ['aa', 60.5, 61.5],
      ['bbbbb', 61.5, 63.5],
    ]);
  });

  test('words alone, times as text in seconds with their unit, under keys with blanks, out of order', () => {
    const json = {
      channels: [
        {
          best: {
            'the words': [
              { 'start time': '4.5s', said: ['nut'] },
              { 'start time': '4.0s', said: ['axle'] },
            ],
          },
        },
      ],
    };
    const mapping = `
      entries: $.channels[0].best['the words'][*]
      start: $['start time']
      text: $.said[0]
      unit: seconds`;
    expect(words(mapping, json)).toEqual([
      ['axle', 4, 4.48],
      ['nut', 4.5, 4.86],
    ]);
  });

  test('what has no sound time is left out and told; sentences end where they do', () => {
    const json = [
      { at: 1, say: 'Done.' },
      { at: 'later', say: 'Lost' },
      { at: -1, say: 'Lost too' },
    ];
    const found = read('{entries: "$[*]", start: $.at, text: $.say, unit: seconds}', json);
    expect(found).toMatchObject({ ok: true, value: { words: [{ text: 'Done.', ends: true }] } });
    expect(found.ok && found.value.notes).toEqual([
      '"Lost" has no sound start, so it was left out',
      '"Lost too" has no sound start, so it was left out',
    ]);
  });
});

describe('a mapping that is wrong is told with its place and what to do', () => {
  const wrong = (text: string) =>
    readTranscriptMapping('map.yaml', text).diagnostics.map(
      ({ place, message }) => `${place.start.line}:${place.start.column} ${message}`,
    );

  test('a path that is none, with the character', () => {
    const text = 'entries: $.a[\nstart: $.s\ntext: from\nunit: seconds\n';
    const [first, second] = wrong(text);
    expect(first).toMatch(
      /^1:10 .*it is no JSONPath \(RFC 9535\): .* at character 5; one reads like \$\.results\[\*\]/,
    );
    expect(second).toMatch(/^3:7 .*it is no JSONPath/);
    expect(readTranscriptMapping('map.yaml', text).mapping).toBeUndefined();
  });

  test('a key that is missing, misspelt, or has a value that it does not take', () => {
    const found = wrong('entries: $[*]\nstrat: $.s\ntext: $.t\nunit: hours\n').join('\n');
    expect(found).toMatch(/2:1 "strat" is not a key/);
    expect(found).toContain('"start"');
    expect(found).toMatch(/4:7 .*hours.* is none of/);
  });

  const JSON_FILE = { result: { items: [{ s: 1, t: 'nut', w: [{ x: 1 }] }] } };
  test.each([
    ['entries', '$.results[*]', /^map.yaml:1: entries: \$\.results\[\*\] finds nothing.*/, /"result".*ends in \[\*\]/],
    ['start', '$.from', /^map.yaml:2: start: \$\.from finds nothing in any entry/, /an entry holds "s", "t", "w"/],
    ['text', '$.said', /^map.yaml:3: text: \$\.said finds no words/, /an entry holds "s", "t", "w"/],
    ['unit', 'clock', /^map.yaml:4: unit: 1 is no time in clock/, /text such as 0:01:02\.5/],
    ['words', '{each: "$.w[*]", start: $.a, text: $.b}', /^map.yaml:5: no entry has a word/, /leave words out/],
  ])('%s: %s', (key, value, problem, help) => {
    const sound: Record<string, string> = {
      entries: '$.result.items[*]',
      start: '$.s',
      text: '$.t',
      unit: 'seconds',
      words: '{each: "$.w[*]", start: $.x, text: $.y}',
    };
    if (key !== 'words') delete sound.words;
    const mapping = Object.entries({ ...sound, [key]: value }).map(([name, path]) => `${name}: ${path}`);
    const found = read(mapping.join('\n'), JSON_FILE);
    expect(found).toMatchObject({ ok: false, problem: expect.stringMatching(problem) });
    expect(found.ok ? '' : found.help).toMatch(help);
  });

  test('a path that goes down through more levels than can be followed is refused in words', () => {
    let deep: unknown = { t: 'nut', s: 1 };
    for (let i = 0; i < 300; i++) deep = [deep];
    const found = read('{entries: "$..x", start: $.s, text: $.t, unit: seconds}', deep);
    expect(found).toMatchObject({ ok: false, problem: expect.stringContaining('cannot be followed in this file') });
  });

  test('what is no JSON is told as such', () => {
    const { mapping } = readTranscriptMapping('map.yaml', '{entries: "$[*]", start: $.s, text: $.t, unit: seconds}');
    expect(readMappedTranscript('{"a": ', mapping!, (key) => key)).toMatchObject({
      ok: false,
      problem: expect.stringContaining('not sound JSON'),
    });
  });
});
