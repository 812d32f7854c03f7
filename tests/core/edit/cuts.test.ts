import { expect, test } from 'vitest';
import { dragEdge, snap } from '../../../src/core/edit/index.ts';
import { ticks } from '../../../src/core/time/index.ts';
import {
  at,
  diffLines,
  facts,
  keptText,
  label,
  open,
  playheadAt,
  RECORDING,
  recordingText,
  refusal,
  run,
} from './support.ts';

const changes = (text: string) => diffLines(RECORDING, text);

test('a cut inside a piece changes its line and adds one that looks like it', () => {
  const marked = run(playheadAt(run(playheadAt(open(), 60), 'in'), 90), 'out');
  const after = run(marked, 'cut');
  expect(keptText(after)).toBe('0:00:10-0:01:00 0:01:30-0:05:00 0:06:00-0:30:00');
  expect(changes(recordingText(after))).toEqual([
    '-  - {in: "0:00:10", out: "0:05:00"}   # from the clap',
    '+  - {in: "0:00:10", out: "0:01:00"}   # from the clap',
    '+  - {in: "0:01:30", out: "0:05:00"}',
  ]);
  expect(label(marked, 'cut')).toBe('cut 0:00:30 out at 0:01:00');
  expect(after.marks).toEqual({});
});

test('a cut over a whole piece takes its line out', () => {
  const after = run(run(playheadAt(run(playheadAt(open(), 5), 'in'), 330), 'out'), 'cut');
  expect(changes(recordingText(after))).toEqual(['-  - {in: "0:00:10", out: "0:05:00"}   # from the clap']);
});

test('keeping a cut again joins its two sides', () => {
  const after = run(playheadAt(open(), 330), 'keep');
  expect(keptText(after)).toBe('0:00:10-0:30:00');
  expect(changes(recordingText(after))).toEqual([
    '-  - {in: "0:00:10", out: "0:05:00"}   # from the clap',
    '-  - {in: "0:06:00", out: "0:30:00"}',
    '+  - {in: "0:00:10", out: "0:30:00"}   # from the clap',
  ]);
});

test('head and tail of the piece under the playhead', () => {
  expect(keptText(run(playheadAt(open(), 20), 'cut-head'))).toBe('0:00:20-0:05:00 0:06:00-0:30:00');
  expect(keptText(run(playheadAt(open(), 20), 'cut-tail'))).toBe('0:00:10-0:00:20 0:06:00-0:30:00');
  expect(refusal(playheadAt(open(), 5), 'cut-head')).toBe('the playhead is in a cut');
});

test('the nearest edge moves by a frame, to the playhead, to a silence, and never over its neighbour', () => {
  const near = playheadAt(open(), 301);
  expect(keptText(run(near, 'edge-on'))).toBe('0:00:10-0:05:00.04 0:06:00-0:30:00');
  expect(keptText(run(near, 'edge-here'))).toBe('0:00:10-0:05:01 0:06:00-0:30:00');
  const heard = { ...near, found: { ...near.found, silence: [at(290), at(310), at(400)] } };
  expect(keptText(run(heard, 'edge-snap-on'))).toBe('0:00:10-0:05:10 0:06:00-0:30:00');
  expect(keptText(run(heard, 'edge-snap-back'))).toBe('0:00:10-0:04:50 0:06:00-0:30:00');
  expect(keptText(run(near, dragEdge, `0 out ${at(1000)}`))).toBe('0:00:10-0:06:00 0:06:00-0:30:00');
});

// A camera's sound outlasts its pictures, or its pictures end where no frame of the rate would.
const ENDS = [1800, 1800.013, 1800.0005, 1800.0395, 1800.02, 1799.9996, 1800.027];
const RATES = ['"25"', '"29.97"', '"59.94"'];
const endings = RATES.flatMap((rate) => ENDS.map((end) => [rate, end] as const));

test.each(endings)(
  'at %s a recording that ends at %s s can be cut up to its very end, and is kept up to it',
  (rate, end) => {
    const bare = `title: Pads\nfiles: [{file: media/pads.mp4}]\nrate: ${rate}\n`;
    const session = open(bare, null, facts(end));
    const last = run(session, 'end');
    const marked = run(run(playheadAt(session, 1700), 'in'), 'end');
    // On the last frame the out point is the end: a frame that nobody wants would be left.
    expect(run(marked, 'out').marks.out).toBe(session.view.length);
    const one = session.view.labels.grid.step(last.playhead, -1);
    expect(run({ ...last, playhead: one }, 'out').marks.out).toBe(one);
    const cut = run(run(marked, 'out'), 'cut');
    expect(cut.view.kept).toHaveLength(1);
    expect(cut.view.kept[0]?.end).toBe(session.view.labels.grid.nearest(at(1700)));
    expect(cut).toMatchObject({ view: { kept: run(playheadAt(session, 1700), 'cut-tail').view.kept } });
    // Back to the end: by the cut that is kept again, and by its edge.
    const twoMilliseconds = at(0.002);
    for (const whole of [
      run(playheadAt(cut, 1750), 'keep'),
      run(cut, dragEdge, `0 out ${session.view.length}`),
      run(playheadAt(session, 1700), 'cut-head'),
    ]) {
      const left = session.view.length - (whole.view.kept.at(-1)?.end ?? 0);
      expect(Math.abs(left)).toBeLessThan(twoMilliseconds);
      expect(whole.playhead).toBeLessThan(session.view.length);
    }
    // What was found up to the end, or up to the last whole frame, is cut.
    for (const until of [session.view.length, last.playhead]) {
      const found = { id: 's', range: { start: at(1750), end: until }, reason: 'dead air' };
      const kept = run({ ...session, suggestions: [found] }, 'accept').view.kept;
      expect(kept[0]?.end).toBe(session.view.labels.grid.shown(at(1750)));
      expect(kept.length).toBe(until === session.view.length ? 1 : kept.length);
    }
  },
);

test('a dragged edge snaps within reach, and lies on a frame without', () => {
  const session = { ...open(), found: { ...open().found, silence: [at(100)], scene: [at(105)] } };
  expect(snap(session, at(100.4), at(0.5))).toBe(at(100));
  expect(snap(session, at(104.7), at(0.5))).toBe(at(105));
  expect(snap(session, at(102.013), at(0.5))).toBe(at(102));
  expect(snap({ ...session, snapping: false }, at(100.4), at(0.5))).toBe(at(100.4));
  expect(snap(session, ticks(at(102) + 1), at(0.5))).toBe(at(102));
});

test('the first cut of a recording without an edit list writes one, and nothing else', () => {
  const bare = 'title: Pads # uncut\nfiles: [{file: media/pads.mp4}]\nrate: "29.97"';
  const session = open(bare);
  const after = run(run(playheadAt(run(playheadAt(session, 60), 'in'), 90), 'out'), 'cut');
  expect(recordingText(after)).toBe(
    `${bare}
edit:
  - {in: "0:00:00", out: "0:00:59.993"}
  - {in: "0:01:29.99", out: "0:30:00"}
`,
  );
  expect(after.view.kept).toHaveLength(2);
});

test('styles: block entries, a flow list, timecode, single quotes, CRLF and a byte order mark', () => {
  const cut = (text: string) => run(run(playheadAt(run(playheadAt(open(text), 20), 'in'), 30), 'out'), 'cut');
  const head = 'title: Pads\nfiles: [{file: media/pads.mp4}]\nrate: "25"\n';
  expect(
    recordingText(
      cut(
        `${head}edit:\n  - in: '0:00:10'\n    out: '0:01:00'\n    angle: bench\nangles: [{id: bench, file: media/b.mp4}]\n`,
      ),
    ),
  ).toBe(
    `${head}edit:\n  - in: '0:00:10'\n    out: '0:00:20'\n    angle: bench\n  - in: "0:00:30"\n    out: "0:01:00"\n    angle: bench\nangles: [{id: bench, file: media/b.mp4}]\n`,
  );
  expect(recordingText(cut(`${head}edit: [{in: "0:00:10", out: "0:01:00"}]\n`))).toBe(
    `${head}edit: [{in: "0:00:10", out: "0:00:20"}, {in: "0:00:30", out: "0:01:00"}]\n`,
  );
  expect(recordingText(cut(`${head}start: "01:00:00:00"\nedit:\n- {in: "01:00:10:00", out: "01:01:00:00"}\n`))).toBe(
    `${head}start: "01:00:00:00"\nedit:\n- {in: "01:00:10:00", out: "01:00:20:00"}\n- {in: "01:00:30:00", out: "01:01:00:00"}\n`,
  );
  const dos = `\uFEFF${RECORDING.replaceAll('\n', '\r\n')}`;
  expect(recordingText(cut(dos))).toBe(
    dos.replace(
      'out: "0:05:00"}   # from the clap\r\n',
      'out: "0:00:20"}   # from the clap\r\n  - {in: "0:00:30", out: "0:05:00"}\r\n',
    ),
  );
});

test('comments between entries stay', () => {
  const text = RECORDING.replace('  - {in: "0:06:00"', '  # the second half\n  - {in: "0:06:00"');
  const after = run(run(playheadAt(run(playheadAt(open(text), 370), 'in'), 380), 'out'), 'cut');
  expect(diffLines(text, recordingText(after))).toEqual([
    '-  - {in: "0:06:00", out: "0:30:00"}',
    '+  - {in: "0:06:00", out: "0:06:10"}',
    '+  - {in: "0:06:20", out: "0:30:00"}',
  ]);
});

test('what cannot be done says why, and nothing changes', () => {
  expect(refusal(open(), 'cut')).toMatch(/set an in and an out point/);
  const all = run(run(playheadAt(run(playheadAt(open(), 0), 'in'), 1799), 'out'), 'in');
  expect(refusal({ ...all, marks: { in: at(0), out: at(1800) } }, 'cut')).toMatch(/leave nothing/);
  expect(refusal(playheadAt(open(), 60), 'keep')).toMatch(/not in a cut/);
  expect(
    refusal(
      open('title: x\nfiles: [{file: a.mp4}]\n', null, () => ({ state: 'missing' })),
      'keep',
    ),
  ).toMatch(/no length/);
});

test('suggested cuts are accepted or refused one by one, and a refused one stays away', () => {
  const session = {
    ...open(),
    suggestions: [
      // Found within a frame; cut are whole frames, and then nothing of it is left to say yes to.
      { id: 's1', range: { start: at(60.013), end: at(80.013) }, reason: 'dead air' },
      { id: 's2', range: { start: at(120), end: at(130) }, reason: 'said twice' },
      { id: 'gone', range: { start: at(310), end: at(320) }, reason: 'cut already' },
    ],
  };
  const first = run(session, 'suggestion');
  expect(first.playhead).toBe(at(60));
  const second = run(first, 'accept');
  expect(keptText(second)).toBe('0:00:10-0:01:00 0:01:20-0:05:00 0:06:00-0:30:00');
  expect(second.playhead).toBe(at(120));
  const none = run(second, 'refuse');
  expect(none.content.decided.map(({ kind, start }) => [kind, start])).toEqual([
    ['cut', at(60.013)],
    ['cut', at(120)],
  ]);
  expect(keptText(none)).toBe(keptText(second));
  expect(refusal(none, 'accept')).toBe('no proposal is left');
});
