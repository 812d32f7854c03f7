import { expect, test } from 'vitest';
import {
  openSession,
  openSuggestions,
  printDecisions,
  proposeSteps,
  readDecisions,
  type Session,
} from '../../../src/core/edit/index.ts';
import { titleFromSpeech } from '../../../src/core/edit/step-title.ts';
import { toSeconds } from '../../../src/core/time/index.ts';
import { at, diffLines, keptText, lessonText, open, playheadAt, RECORDING, refusal, run } from './support.ts';

// Sentences as an instructor says them: invented.
test.each([
  ['Okay, now we take the caliper off. It hangs on two bolts.', 'Take the caliper off'],
  ['So, next I am going to measure the lining, because it may be worn.', 'Measure the lining'],
  ["Let's open the two bolts and then pull the caliper up.", 'Open the two bolts'],
  ['The next thing is to push the pistons back.', 'Push the pistons back'],
  ['Well. Um. Right. Draw the old pads from the', 'Draw the old pads from'],
  ['Lay a rule across the disc from the very edge of it.', 'Lay a rule across the disc'],
  ['Good. Which bike have we got?', 'Which bike have we got'],
  ['Jetzt nehmen wir die Zange ab.', 'Jetzt nehmen wir die Zange ab'],
  ['Okay. Now.', undefined],
  ['', undefined],
])('a title from "%s"', (said, title) => {
  expect(titleFromSpeech(said)).toBe(title);
});

const say = (from: number, to: number, text: string) => ({ range: { start: at(from), end: at(to) }, text });
const SPOKEN = [
  say(12, 14, 'Bring the bike in.'),
  say(40, 43, 'We look at the pads, and'),
  say(43.2, 45, 'at nothing else.'),
  say(50, 51, '[clap]'),
  say(52, 54, 'Mind your fingers.'),
  say(100, 103, 'Next, open the two bolts.'),
  say(104, 106, 'Half a turn.'),
  say(130, 133, 'Pull it up.'),
  say(310, 312, 'Once more, please, from here.'),
];

test('steps begin after the longest rests and at words that lead on, half a second before the first word', () => {
  const found = proposeSteps(SPOKEN);
  expect(found.map(({ range, title }) => [toSeconds(range.start), toSeconds(range.end), title])).toEqual([
    [11.5, 14, 'Bring the bike in'],
    [39.5, 54, 'Look at the pads'],
    [99.5, 106, 'Open the two bolts'],
    [129.5, 133, 'Pull it up'],
    [309.5, 312, 'From here'],
  ]);
  expect(found[2]?.reason).toBe('said after 46 s, and to come next');
  expect(proposeSteps([])).toEqual([]);
});

test('two rests near to each other make one step, at the longer one', () => {
  const near = proposeSteps([say(0, 2, 'Gloves on.'), say(40, 42, 'Loosen the nut.'), say(50, 52, 'Hold the axle.')]);
  expect(near.map(({ title }) => title)).toEqual(['Gloves on', 'Loosen the nut']);
});

/** Proposals of the sample: steps from the words, and one cut between them. */
function proposing(session: Session): Session {
  const steps = proposeSteps(SPOKEN).map((step) => ({ ...step, id: `step ${step.range.start}` }));
  const cut = { id: 'cut 60', range: { start: at(60), end: at(90) }, reason: 'nobody speaks' };
  return { ...session, suggestions: [...steps, cut].toSorted((a, b) => a.range.start - b.range.start) };
}
const openTitles = (session: Session) => openSuggestions(session).map(({ title, reason }) => title ?? reason);

test('one key adds the step with title and cue where it belongs in time, and goes on to the next proposal', () => {
  const session = proposing(open());
  // 0:05:09.5 lies in a cut of the sample; at 0:00:11.5 a chapter has its cue already.
  expect(openTitles(session)).toEqual(['Look at the pads', 'nobody speaks', 'Open the two bolts', 'Pull it up']);
  const there = run(session, 'suggestion');
  expect(toSeconds(there.playhead)).toBe(39.48);
  const added = run(there, 'accept');
  expect(diffLines(lessonText(session), lessonText(added)).toSorted()).toEqual([
    '+',
    '+### Look at the pads',
    '+<Cue at="0:00:39.48" />',
  ]);
  expect(added.view.passages.map(({ title }) => title).slice(1, 4)).toEqual([
    'Put the bike on its stand',
    'Look at the pads',
    'Look at the pads',
  ]);
  expect(toSeconds(added.playhead)).toBe(60);
  expect(openTitles(added)).toEqual(['nobody speaks', 'Open the two bolts', 'Pull it up']);
});

test('next and previous go without an answer, round the ends', () => {
  const session = proposing(playheadAt(open(), 70));
  const places = (keys: readonly string[]) => toSeconds(keys.reduce((now, key) => run(now, key), session).playhead);
  expect(places(['suggestion'])).toBe(99.48);
  expect(places(['suggestion-back'])).toBe(60);
  expect(places(['suggestion-back', 'suggestion-back'])).toBe(39.48);
  expect(places(['suggestion-back', 'suggestion-back', 'suggestion-back'])).toBe(129.48);
  expect(openTitles(run(session, 'suggestion'))).toHaveLength(4);
});

test('in an empty lesson the first step brings a chapter, and a proposal may be taken as a chapter', () => {
  const empty = '---\ntitle: Front brake pads\nrecording: pads\nmachine: tarn-420\n---\n';
  const first = run(run(proposing(open(RECORDING, empty)), 'suggestion'), 'accept');
  expect(lessonText(first)).toBe(`${empty}
## Front brake pads
<Cue at="0:00:11.48" />

### Bring the bike in
<Cue at="0:00:11.48" />
`);
  const second = run(first, 'accept-chapter');
  expect(lessonText(second)).toContain('\n## Look at the pads\n<Cue at="0:00:39.48" />\n');
  expect(refusal(proposing(open(RECORDING, null)), 'accept')).toMatch(/no lesson/);
});

test('what was answered is not proposed again: refined afterwards, measured anew, in another visit; undone it is', () => {
  const cut = run(playheadAt(proposing(open()), 60), 'accept');
  expect(keptText(cut)).toMatch(/^0:00:10-0:01:00 0:01:30-/);
  // A hand gives ten seconds of it back.
  const refined = run(playheadAt(cut, 90), 'edge-back');
  expect(openTitles(refined)).not.toContain('nobody speaks');
  const refused = run(playheadAt(refined, 39.48), 'refuse');
  expect(openTitles(refused)).toEqual(['Open the two bolts', 'Pull it up']);
  // The next visit, after the sound was measured anew.
  const kept = readDecisions(printDecisions(refused.content.decided));
  const { desk, content } = open();
  const later = proposing(openSession(desk, content.texts, kept));
  const moved = later.suggestions.map((one) => ({
    ...one,
    range: { start: at(toSeconds(one.range.start) + 0.4), end: at(toSeconds(one.range.end) + 0.4) },
  }));
  expect(openTitles({ ...later, suggestions: moved })).toEqual(['Open the two bolts', 'Pull it up']);
  // Of another lesson's step nothing was said.
  const other = { ...later, desk: { ...later.desk, lessonFile: 'lessons/other.mdx' } };
  expect(openTitles(other)).toContain('Look at the pads');
  // Half of another cut is another cut.
  const longer = [{ id: 'x', range: { start: at(60), end: at(125) }, reason: 'longer' }];
  expect(openTitles({ ...later, suggestions: longer })).toEqual(['longer']);
});

test.each([null, '', '{', '{}', '[1,null]', '[{"kind":"cut","start":2,"end":1}]', '[{"kind":"x","start":1,"end":2}]'])(
  'kept answers that are none are left out: %s',
  (text) => expect(readDecisions(text)).toEqual([]),
);

test('jumping from caption to caption leaves out those in cuts', () => {
  const session = run(
    { ...open(), found: { ...open().found, caption: [at(20), at(310), at(320), at(400)] } },
    'by-caption',
  );
  expect(run(playheadAt(session, 30), 'jump-on').playhead).toBe(at(400));
  expect(run(playheadAt(session, 400), 'jump-back').playhead).toBe(at(20));
});
