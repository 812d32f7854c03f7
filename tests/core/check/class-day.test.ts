import { describe, expect, test } from 'vitest';
import {
  check,
  replaceIn,
  SAMPLE_TODAY,
  type Sample,
  SOUND_SHOP,
  sampleContent,
} from '../../../src/core/check/index.ts';
import { readShop } from '../../../src/core/read/index.ts';

/** Messages of one rule over a sample. */
function messages(rule: string, sample: Sample): string[] {
  const { texts, facts } = sampleContent(sample);
  const { shop, diagnostics } = readShop(texts, facts);
  return check(shop, diagnostics, { today: sample.today ?? SAMPLE_TODAY })
    .filter((diagnostic) => diagnostic.rule === rule)
    .map(({ message }) => message);
}

const HEAD = 'title: Chain\ndate: 2026-12-05\nstarts: "10:00"\nslot: "2:00"\n';
const DANGER =
  '---\ntitle: Chain\nrecording: chain\nmachine: tarn-420\n---\n## Wheel\n<Cue at="0:00:20" />\n\n### Crack\n<Cue at="0:00:30" />\nPush.\n<Danger>It can fall and kill.</Danger>\n';

/** A class of these blocks, written `id kind more`; the hands-on ones are about a lesson that tells of a danger. */
function blocks(...lines: readonly (readonly [id: string, kind: string, more?: string])[]): Sample {
  const written = lines.map(
    ([id, kind, more = '']) =>
      `  - {id: ${id}, title: ${id}, kind: ${kind}, ${more}${kind === 'hands-on' ? 'about: {lesson: chain}, ' : ''}treatments: [{id: a, minutes: 5, worth: 5}]}\n`,
  );
  return {
    files: { 'lessons/chain.mdx': DANGER, 'classes/saturday.yaml': `${HEAD}blocks:\n${written.join('')}` },
  };
}

describe('a hands-on block is briefed', () => {
  const must = 'must: true, ';
  test.each([
    ['by the safety block written before it', blocks(['s', 'safety', must], ['h', 'hands-on'])],
    ['by one that it comes after', blocks(['h', 'hands-on', 'after: [s], '], ['s', 'safety', must])],
    ['by one that says it comes before', blocks(['h', 'hands-on'], ['s', 'safety', `${must}before: [h], `])],
    [
      'by one before a block that it comes after',
      blocks(['h', 'hands-on', 'after: [t], '], ['s', 'safety', must], ['t', 'talk', 'after: [s], ']),
    ],
    ['by one that it needs', blocks(['s', 'safety'], ['h', 'hands-on', 'needs: [s], '])],
  ])('%s', (_, sample) => {
    expect(messages('hands-on-before-safety', sample)).toEqual([]);
  });

  test.each([
    ['by a talk', blocks(['s', 'talk', must], ['h', 'hands-on'])],
    ['by one that a plan may leave out', blocks(['s', 'safety'], ['h', 'hands-on'])],
    ['by one at the same time', blocks(['s', 'safety', must], ['h', 'hands-on', 'beside: s, '])],
    ['by one that may stand anywhere', blocks(['s', 'safety', `${must}anywhere: true, `], ['h', 'hands-on'])],
    ['by one after it', blocks(['h', 'hands-on'], ['s', 'safety', must])],
  ])('but not %s', (_, sample) => {
    expect(messages('hands-on-before-safety', sample)).toEqual([
      '"h" has no safety block before it, and its lesson chain tells of a danger',
    ]);
  });
});

/** The sound class and a second one; lines stand after the slot. */
function pair(first: string, second: string, when = ['2026-12-05', '10:00']): Sample {
  const text = SOUND_SHOP['classes/saturday.yaml'] ?? '';
  const slot = 'slot: "2:00"\n';
  const moved = text.replace('2026-12-05', when[0] ?? '').replace('10:00', when[1] ?? '');
  const title = moved.replace('Chain, Saturday', 'Chain again');
  return {
    files: {
      'classes/saturday.yaml': text.replace(slot, slot + first),
      'classes/second.yaml': title.replace(slot, slot + second),
    },
  };
}

describe('two classes at one time', () => {
  const ada = (place: string) => `place: ${place}\npeople: [{role: helper, name: ada B.}]\n`;
  test.each([
    ['share a room', pair('place: Bay 1\n', 'place: bay  1\n'), 'in the same room'],
    ['share the shop, where neither names a room', pair('', ''), 'and neither says where'],
    ['share a person', pair('people: [{role: instructor, name: Ada B.}]\n', ada('Hall')), 'with ada B. in both'],
  ])('%s', (_, sample, what) => {
    expect(messages('class-clash', sample)).toEqual([`takes place while saturday does, ${what}`]);
  });

  test.each([
    ['another room and other people', pair('place: Bay 1\n', ada('Hall'))],
    [
      'a role that both have, without a name',
      pair('people: [{role: helper}]\n', 'place: Hall\npeople: [{role: helper}]\n'),
    ],
    ['another day', pair('', '', ['2026-12-06', '10:00'])],
    ['one ends as the other begins', pair('', '', ['2026-12-05', '12:00'])],
  ])('do not clash: %s', (_, sample) => {
    expect(messages('class-clash', sample)).toEqual([]);
  });

  test.each([
    ['instructor', 'instructor', ['takes place while saturday does, and neither says who its instructor is']],
    ['instructor', ' Instructor', ['takes place while saturday does, and neither says who its Instructor is']],
    ['instructor', 'helper', []],
    ['instructor, name: Ada', 'instructor', []],
    ['instructor, name: Ada', 'instructor, name: Ada', []],
  ])('in two rooms, a %s and a %s', (one, other, told) => {
    const person = (role: string) => `people: [{role: ${role}}]\n`;
    const sample = pair(`place: Bay 1\n${person(one)}`, `place: Hall\n${person(other)}`);
    expect(messages('class-role-unnamed', sample)).toEqual(told);
  });

  test('which share a room, are told to clash, and nothing more', () => {
    const people = 'people: [{role: instructor}]\n';
    expect(messages('class-role-unnamed', pair(people, people))).toEqual([]);
  });

  test('a class goes on past midnight', () => {
    const text = (SOUND_SHOP['classes/saturday.yaml'] ?? '').replace('"10:00"', '"23:00"');
    const files = {
      'classes/saturday.yaml': text,
      'classes/second.yaml': text.replace('12-05', '12-06').replace('23:00', '00:59'),
    };
    expect(messages('class-clash', { files })).toHaveLength(1);
  });
});

// Weekdays: 2026-12-05 is a Saturday (ISO 8601 calendar; RFC 3339, appendix B gives the reckoning).
describe('the weekday of a title', () => {
  const titled = (title: string, language = 'en'): Sample => ({
    files: {
      'shop.yaml': `name: Millrace Community Garage\ninvented: true\nlanguage: ${language}\n`,
      'classes/saturday.yaml': (SOUND_SHOP['classes/saturday.yaml'] ?? '').replace('Chain, Saturday', title),
    },
  });
  test.each([
    ['Chains on Sundays', 'en', 'Sunday'],
    ['Kette am Sonntag', 'de', 'Sonntag'],
    ['Chaîne, le dimanche', 'fr-FR', 'dimanche'],
  ])('%s is told', (title, language, day) => {
    expect(messages('weekday-wrong', titled(title, language))).toEqual([
      `2026-12-05 is a Saturday, the title says ${day}`,
    ]);
  });
  test.each(['Chains on SATURDAYS', 'Moved from Sunday to Saturday', 'Sundayish chains', 'Kette am Samstag'])(
    '%s is right',
    (title) => {
      expect(messages('weekday-wrong', titled(title, 'de'))).toEqual([]);
    },
  );
  // Month names and short forms of days as the Unicode CLDR has them.
  test.each([
    ['Chains, Sun 6 December', 'en', 'a Saturday, the title says Sunday'],
    ['Chains, Sat 6 December', 'en', '5 December, the title says 6 December'],
    ['Chains on December 6th', 'en', '5 December, the title says December 6th'],
    ['Chains, 5 Nov', 'en', '5 December, the title says 5 Nov'],
    ['Kette, 5. November', 'de', '5 December, the title says 5. November'],
    ['Cadena, 6 de diciembre', 'es', '5 December, the title says 6 de diciembre'],
    ['Chaîne, dim. 6 décembre', 'fr', 'a Saturday, the title says dimanche'],
  ])('%s is told', (title, language, says) => {
    expect(messages('weekday-wrong', titled(title, language))).toEqual([`2026-12-05 is ${says}`]);
  });
  test.each([
    ['Chains in the sun', 'en'],
    ['Chains, Sat 5 December', 'en'],
    ['Moved from 28 November to 5 December', 'en'],
    ['Chains that march 12 links', 'en'],
    ['Kette, Sa 5. Dezember', 'de'],
    ['Cadena, 5 de diciembre', 'es'],
    ['15 december mornings of 2025', 'fr'],
  ])('%s is right', (title, language) => {
    expect(messages('weekday-wrong', titled(title, language))).toEqual([]);
  });
});

test('a class is past on the day after, not on its day', () => {
  const on = (today: string) => messages('class-date-past', { files: {}, today });
  expect(on('2026-12-05')).toEqual([]);
  expect(on('2026-12-06')).toEqual(['2026-12-05 is past, and nothing says how the class went']);
});

test('two treatments of a block may share neither id nor title; two without a title may', () => {
  const ways = (second: string) =>
    replaceIn(
      'classes/saturday.yaml',
      '      - {id: talk, minutes: [3, 5, 8], worth: 10}\n',
      `      - {id: talk, title: Round, minutes: 3, worth: 10}\n      - {${second}, minutes: 3, worth: 5}\n      - {id: last, minutes: 2, worth: 1}\n`,
    );
  expect(messages('treatment-twice', ways('id: other, title: Round'))).toEqual([
    'the treatment "Round" is written twice in "Welcome"',
  ]);
  expect(messages('treatment-twice', ways('id: other'))).toEqual([]);
});

test('where the years of a machine are open, its rows and lessons say how far ahead they go', () => {
  const text = (SOUND_SHOP['specs/tarn-420.yaml'] ?? '').replace('2019-2025', '2019-');
  const row = (years: string): Sample => ({
    files: { 'specs/tarn-420.yaml': text.replace('kind: torque\n', `kind: torque\n    years: ${years}\n`) },
  });
  expect(messages('years-ahead', row('2019-2028'))).toEqual(['2028 is beyond the next model year, 2027']);
  expect(messages('years-ahead', row('2019-2027'))).toEqual([]);
  expect(messages('years-ahead', row('2019-'))).toEqual([]);
});

describe('stock against the whole plan', () => {
  /** A hands-on block about the sound shop's lesson, with what the kit counts. */
  const planned = (kit: string, more: string): Sample => ({
    files: {
      'kit.yaml': (SOUND_SHOP['kit.yaml'] ?? '').replace(/title: (Gloves|Cotter pin|Breaker bar)\n/g, (whole, thing) =>
        kit.startsWith(thing) ? `${whole}    count: ${kit.slice(thing.length)}\n` : whole,
      ),
      'lessons/chain.mdx': `${SOUND_SHOP['lessons/chain.mdx']}\n<Uses protective="gloves" /> Gloves on.\n`,
      'classes/saturday.yaml': `${HEAD}attendees: 5\nblocks:\n${more}`,
    },
  });
  const stations = (id: string, more = '') =>
    `  - {id: ${id}, title: ${id}, kind: hands-on, ${more}about: {lesson: chain}, treatments: [{id: a, worth: 10, stations: {count: 2, group: 2, minutes: 10}}]}\n`;
  const told = (kit: string, more: string) => messages('stock-short', planned(kit, more));

  test.each([
    [
      'protective equipment for everybody',
      'Gloves 4',
      stations('a'),
      ['"a" needs 5 of Gloves for 5 attendees, the shop has 4'],
    ],
    ['enough of it', 'Gloves 5', stations('a'), []],
    [
      'tools at every station',
      'Breaker bar 1',
      stations('a'),
      ['"a" needs 2 of Breaker bar at 2 stations, the shop has 1'],
    ],
    ['tools used again later', 'Breaker bar 2', stations('a') + stations('b'), []],
    [
      'tools used at the same time',
      'Breaker bar 3',
      stations('a') + stations('b', 'beside: a, '),
      ['"a" needs 4 of Breaker bar at 2 stations, the shop has 3'],
    ],
    // Five in groups of two are three groups, each with a pin; two blocks take six.
    [
      'parts used up',
      'Cotter pin 5',
      stations('a') + stations('b'),
      ['by "b" the class has used up the 5 of Cotter pin that the shop has; all blocks together need 6'],
    ],
    ['parts enough', 'Cotter pin 6', stations('a') + stations('b'), []],
  ])('%s', (_, kit, more, expected) => {
    expect(told(kit, more)).toEqual(expected);
  });

  test('short protective equipment is an error, short tools are a warning', () => {
    const severities = (kit: string) => {
      const { texts, facts } = sampleContent(planned(kit, stations('a')));
      const { shop, diagnostics } = readShop(texts, facts);
      return check(shop, diagnostics, { today: SAMPLE_TODAY }).map(({ rule, severity }) => `${rule} ${severity}`);
    };
    expect(severities('Gloves 4')).toContain('stock-short error');
    expect(severities('Breaker bar 1')).toContain('stock-short warning');
  });
});

describe('an order that no plan can keep is told once, with the way round', () => {
  const order = (...lines: readonly (readonly [id: string, kind: string, more?: string])[]) =>
    messages('class-order-impossible', blocks(...lines));
  test.each([
    [
      'two that may move, each after the other',
      order(['a', 'talk', 'anywhere: true, after: [b], '], ['b', 'talk', 'anywhere: true, after: [a], ']),
      ['"b" has to come after "a", but "b" before "a"'],
    ],
    [
      'three that may move, in a ring',
      order(
        ['a', 'talk', 'anywhere: true, after: [b], '],
        ['b', 'talk', 'anywhere: true, after: [c], '],
        ['c', 'talk', 'anywhere: true, after: [a], '],
      ),
      ['"c" has to come after "a", but "c" before "b" before "a"'],
    ],
    [
      'one that may move, between two that would have to change places',
      order(['a', 'talk'], ['m', 'talk', 'anywhere: true, after: [b], before: [a], '], ['b', 'talk']),
      ['"a" has to come after "m", but "a" before "b" before "m"'],
    ],
    [
      'one that may move, after itself',
      order(['a', 'talk', 'anywhere: true, after: [a], ']),
      ['"a" has to come after itself'],
    ],
    [
      'one that may move, where there is a place for it',
      order(['a', 'talk'], ['b', 'talk'], ['m', 'talk', 'anywhere: true, after: [a], before: [b], ']),
      [],
    ],
  ])('%s', (_, found, expected) => {
    expect(found).toEqual(expected);
  });
});

describe('minutes-unlikely', () => {
  const minutes = (written: string) =>
    messages('minutes-unlikely', replaceIn('classes/saturday.yaml', 'minutes: [3, 5, 8]', `minutes: ${written}`));

  test.each([
    ['0', 1],
    ['[0, 0, 5]', 0],
    // The slot is two hours.
    ['120', 0],
    ['121', 1],
    // Four times what is likely, and 20 minutes more than it.
    ['[3, 10, 40]', 0],
    ['[3, 10, 41]', 1],
    ['[1, 5, 25]', 0],
    ['[1, 5, 26]', 1],
  ])('minutes: %s is told %d times', (written, count) => expect(minutes(written)).toHaveLength(count));

  test('a turn at stations is looked at too', () => {
    const stations = 'stations: {count: 2, group: 2, minutes: [5, 6, 60]}';
    const sample = replaceIn('classes/saturday.yaml', 'minutes: [3, 5, 8]', stations);
    expect(messages('minutes-unlikely', sample)).toEqual(['"Welcome" as "talk" may take 60 min where 6 are likely']);
  });
});

// The part on screen takes 7:40 (its cues, less what is cut); up to five minutes more are nothing to tell.
test.each([
  [12.6, 0],
  [12.7, 1],
  [70, 1],
])('a block on screen that took %s minutes is told %d times', (minutes, count) => {
  const file = `date: 2026-12-05\nblocks:\n  - {id: wheel, minutes: ${minutes}}\n`;
  expect(messages('class-estimate-disagrees', { files: { 'classes/saturday.actual.yaml': file } })).toHaveLength(count);
});
