import { getHeapStatistics, setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  addEntry,
  begin,
  type Content,
  closeEntry,
  findCommand,
  type History,
  mergedText,
  mergeTexts,
  openSession,
  rebase,
  redo,
  replaceNow,
  undo,
} from '../../../src/core/edit/index.ts';
import { unreadId } from '../../../src/core/words/index.ts';
import { at, facts } from './support.ts';

/** A state in which one file says something. */
const says = (text: string): Content => ({ texts: new Map([['a.mdx', text]]), decided: [] });
const textOf = (content: Content | undefined) => content?.texts.get('a.mdx');

test('undo gives back what was there, redo what was done, each by its name', () => {
  const history = addEntry(addEntry(begin(says('a')), says('b'), 'wrote b'), says('c'), 'wrote c');
  const back = undo(history);
  expect([back?.label, textOf(back?.history.now)]).toEqual(['wrote c', 'b']);
  const again = redo(back?.history ?? history);
  expect([again?.label, textOf(again?.history.now)]).toEqual(['wrote c', 'c']);
});

test('what is chosen and what was answered comes back too, and files that came or went', () => {
  const one: Content = { texts: new Map([['a.mdx', 'a']]), chosen: 'first', decided: [] };
  const cut = { kind: 'cut', start: 1, end: 2 } as const;
  const two: Content = { texts: new Map([['b.vtt', 'b']]), decided: [cut] };
  const history = addEntry(begin(one), two, 'changed');
  const back = undo(history)?.history;
  expect(back?.now).toEqual(one);
  expect(redo(back ?? history)?.history.now).toEqual(two);
  // What was chosen meanwhile is no change of the text.
  const moved = replaceNow(history, { ...two, chosen: 'second' });
  expect(undo(moved)?.history.now).toEqual(one);
});

test('something new after an undo forgets what was undone', () => {
  const back = undo(addEntry(begin(says('a')), says('b'), 'wrote b'))?.history ?? begin(says(''));
  expect(redo(addEntry(back, says('x'), 'wrote x'))).toBeUndefined();
});

test('a row of typing is undone at once, until it is closed', () => {
  const typed = addEntry(begin(says('')), says('h'), 'typed', 'text');
  let history = addEntry(typed, says('hi'), 'typed', 'text');
  expect(textOf(undo(history)?.history.now)).toBe('');
  history = addEntry(closeEntry(history), says('hi!'), 'typed', 'text');
  expect(textOf(undo(history)?.history.now)).toBe('hi');
});

test('there is no limit', () => {
  let history = begin(says('0'));
  for (let n = 1; n <= 5000; n++) history = addEntry(history, says(`${n}`), `counted ${n}`);
  for (let n = 0; n < 5000; n++) history = undo(history)?.history ?? history;
  expect(textOf(history.now)).toBe('0');
  expect(undo(history)).toBeUndefined();
});

/** Somebody else adds a line at the end of a text of three lines; what is one's own stands before it. */
const base = 'one\ntwo\nthree\n';
const outside = { file: 'a.mdx', base, theirs: `${base}four\n` };

test('a change from outside goes into every state; where it clashes the rest is let go', () => {
  const row = ['one\ntwo\nthree!\n', 'one!\ntwo\nthree\n', 'one!!\ntwo\nthree\n'];
  const history = row.reduce((all, text, i) => addEntry(all, says(text), `${i}`), begin(says('one\ntwo\n3\n')));
  const { history: next, lost } = rebase(history, says('one!!\ntwo\nthree\nfour\n'), outside);
  // The state in which the line before theirs was another one.
  expect([textOf(next.now), lost]).toEqual(['one!!\ntwo\nthree\nfour\n', 2]);
  const back = undo(next)?.history;
  expect(textOf(back?.now)).toBe('one!\ntwo\nthree\nfour\n');
  expect(undo(back ?? next)).toBeUndefined();
});

test('what was undone takes the change in too, and is done again with it', () => {
  const done = addEntry(addEntry(begin(says(base)), says(`1${base}`), 'one'), says(`12${base}`), 'two');
  const back = undo(undo(done)?.history ?? done)?.history ?? done;
  const { history, lost } = rebase(back, says(outside.theirs), outside);
  const one = redo(history)?.history;
  const two = redo(one ?? history)?.history;
  expect([lost, textOf(one?.now), textOf(two?.now)]).toEqual([0, `1${outside.theirs}`, `12${outside.theirs}`]);
});

// Files of lines that differ from each other, as those of captions and lessons do: where nothing clashes, each state is the
// one that laying the three texts together gives.
const edits = fc.array(
  fc.record({
    line: fc.nat(11),
    kind: fc.constantFrom('change', 'add', 'remove'),
    file: fc.constantFrom('a.mdx', 'b.vtt'),
  }),
  { minLength: 1, maxLength: 8 },
);
function edited(text: string, { line, kind }: { line: number; kind: string }, word: string): string {
  const lines = text.split('\n');
  const at = line % Math.max(1, lines.length - 1);
  if (kind === 'add') lines.splice(at, 0, `new ${word}`);
  else if (kind === 'remove' && lines.length > 3) lines.splice(at, 1);
  else lines[at] = `${lines[at]} ${word}`;
  return lines.join('\n');
}

test('every state takes a change from outside in as a merge of the whole texts would', () => {
  fc.assert(
    fc.property(edits, edits, fc.nat(8), (own, others, undone) => {
      const first = `${Array.from({ length: 12 }, (_, i) => `line ${i}`).join('\n')}\n`;
      const files = [['a.mdx', first] as const, ['b.vtt', first] as const];
      let history = begin({ texts: new Map(files), decided: [] });
      own.forEach((edit, i) => {
        const text = edited(history.now.texts.get(edit.file) ?? '', edit, `mine ${i}`);
        history = addEntry(history, { ...history.now, texts: new Map(history.now.texts).set(edit.file, text) }, `${i}`);
      });
      for (let i = 0; i < Math.min(undone, own.length); i++) history = undo(history)?.history ?? history;
      const theirs = others.reduce((text, edit, i) => edited(text, edit, `theirs ${i}`), first);
      const taken = ({ texts, ...rest }: Content): Content | undefined => {
        const text = mergedText(mergeTexts(first, texts.get('a.mdx') ?? '', theirs));
        return text === undefined ? undefined : { ...rest, texts: new Map(texts).set('a.mdx', text) };
      };
      const now = taken(history.now);
      fc.pre(now !== undefined);
      if (!now) return;
      const rebased = rebase(history, now, { file: 'a.mdx', base: first, theirs });
      for (const step of [undo, redo]) {
        const wanted: string[] = [];
        for (let next = step(history); next; next = step(next.history)) {
          const state = taken(next.history.now);
          if (state === undefined) break;
          wanted.push(JSON.stringify([...state.texts]));
        }
        const found: string[] = [];
        for (let next = step(rebased.history); next; next = step(next.history))
          found.push(JSON.stringify([...next.history.now.texts]));
        expect(found).toEqual(wanted);
      }
    }),
    { numRuns: 1000 },
  );
});

// Halves of surrogate pairs among them: the stretch that differs may begin between the two.
const words = fc.array(fc.constantFrom('a', 'b', '\n', 'é', '\u{1f527}', '\u{1f528}', '\ud83d'), { maxLength: 9 });
const states = fc.record({
  a: fc.option(words, { nil: undefined }),
  b: fc.option(words, { nil: undefined }),
  chosen: fc.constantFrom('x', 'y'),
});

test('undoing everything and doing it again gives back every state, to the letter', () => {
  fc.assert(
    fc.property(fc.array(states, { minLength: 1, maxLength: 12 }), (row) => {
      const contents = row.map(({ a, b, chosen }): Content => {
        const texts = [['a.mdx', a] as const, ['b.vtt', b] as const];
        return {
          texts: new Map(texts.flatMap(([file, text]) => (text ? [[file, text.join('')] as const] : []))),
          chosen,
          decided: [],
        };
      });
      const [first = says('')] = contents;
      let history: History = begin(first);
      for (const content of contents.slice(1)) history = addEntry(history, content, 'wrote');
      const back = [history.now];
      for (let step = undo(history); step; step = undo(history)) {
        history = step.history;
        back.unshift(history.now);
      }
      expect(back).toEqual(contents);
      const on = [history.now];
      for (let step = redo(history); step; step = redo(history)) {
        history = step.history;
        on.push(history.now);
      }
      expect(on).toEqual(contents);
    }),
  );
});

/** Memory in use once everything that nobody holds is gone, bytes. */
function memoryInUse(): number {
  setFlagsFromString('--expose-gc');
  const collect: unknown = runInNewContext('gc');
  if (typeof collect === 'function') collect();
  return getHeapStatistics().used_heap_size;
}

// Each state by itself would be as long as the file: some 400 MB for a recording of two hours.
test('reading all captions of two hours, undo holds what was changed, not the files', () => {
  const COUNT = 1800;
  const file = 'media/pads.vtt';
  const clock = (s: number) => new Date(s * 1000).toISOString().slice(11, 23);
  const captions = Array.from({ length: COUNT }, (_, i) => {
    const text = `Caption ${i} of the two hours says what is done and why it is,\nin two lines as they come from the sound.`;
    const cue = { at: { start: at(i * 4), end: at(i * 4 + 3) }, text };
    return `${unreadId(cue)}\n${clock(i * 4)} --> ${clock(i * 4 + 3)}\n${text}\n`;
  });
  const recording = `title: Pads\nfiles: [{file: media/pads.mp4}]\nrate: "25"\ncaptions: ${file}\n`;
  const written = `WEBVTT\n\n${captions.join('\n')}`;
  const texts = new Map([
    ['recordings/pads.yaml', recording],
    [file, written],
  ]);
  const read = findCommand('read')?.run;
  const desk = { recordingFile: 'recordings/pads.yaml', facts: facts(COUNT * 4) };
  const open = openSession(desk, texts);
  const first = read?.(open);
  if (!first || 'refused' in first) throw new Error('no caption to read');
  let session = first.session;
  let history = begin(session.content);
  // A few of the captions say how it grows.
  const READ = 40;
  const before = memoryInUse();
  for (let n = 0; n < READ; n++) {
    const outcome = read?.(session);
    if (!outcome || 'refused' in outcome || !outcome.label) throw new Error('not read');
    session = outcome.session;
    history = addEntry(history, session.content, outcome.label);
  }
  expect(history.past).toHaveLength(READ);
  const each = (memoryInUse() - before) / READ;
  // The text of the file is 300 000 letters; the last one read is held once, besides its captions.
  expect(written.length).toBeGreaterThan(200_000);
  expect(each * COUNT).toBeLessThan(20e6);
  expect(JSON.stringify([history.past, history.future]).length / READ).toBeLessThan(400);
  for (let step = undo(history); step; step = undo(history)) history = step.history;
  expect(history.now.texts.get(file)).toBe(written);
  expect(history.future).toHaveLength(READ);
  expect(JSON.stringify(history.future).length / READ).toBeLessThan(400);
});
