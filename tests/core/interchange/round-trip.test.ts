import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { SOUND_SHOP } from '../../../src/core/check/index.ts';
import { writeChapterList } from '../../../src/core/interchange/chapter-list.ts';
import { writeFfmetadata } from '../../../src/core/interchange/ffmetadata.ts';
import {
  FORMATS,
  findImportFormat,
  planImport,
  writeEdl,
  writeVttChapters,
  writeVttMetadata,
} from '../../../src/core/interchange/index.ts';
import { writeMkvChapters } from '../../../src/core/interchange/mkv-chapters.ts';
import { writeOtio } from '../../../src/core/interchange/otio.ts';
import {
  readChapterList,
  readFfmetadata,
  readMkvChapters,
  readVttChapters,
} from '../../../src/core/interchange/read-chapters.ts';
import { readEdl } from '../../../src/core/interchange/read-edl.ts';
import { readOtio } from '../../../src/core/interchange/read-otio.ts';
import type { CameraFile, Recording } from '../../../src/core/model/index.ts';
import {
  common,
  editList,
  FRAME_RATES,
  printTimecode,
  RATE_NAMES,
  range,
  TICKS_PER_SECOND,
  ticks,
} from '../../../src/core/time/index.ts';
import { at } from '../../support/edit.ts';
import { done, smallShop } from '../../support/shop.ts';

const { recording: base, times } = smallShop();

/** Recordings of one to four camera files at any rate, some with labels and gaps, and an edit list on whole frames. */
const recordings: fc.Arbitrary<Recording> = fc
  .record({
    rate: fc.constantFrom(...RATE_NAMES),
    start: fc.nat(2_000_000),
    files: fc.array(
      fc.record({ frames: fc.integer({ min: 1, max: 60_000 }), gap: fc.nat(300), labelled: fc.boolean() }),
      { minLength: 1, maxLength: 4 },
    ),
    kept: fc.array(fc.tuple(fc.nat(240_000), fc.integer({ min: 1, max: 40_000 })), { minLength: 1, maxLength: 10 }),
  })
  .map(({ rate: name, start, files, kept }) => {
    const rate = FRAME_RATES[name];
    const tick = (frames: number) => ticks<'recording'>(frames * rate.ticksPerFrame);
    let at = 0;
    const placed = files.map(({ frames, gap, labelled }, i): CameraFile => {
      const from = at + (i === 0 ? 0 : gap);
      at = from + frames;
      return {
        file: `media/take ${i}.mp4`,
        facts: { state: 'missing' },
        span: range(tick(from), tick(at)),
        overlap: 0,
        ...(labelled || i === 0 ? { startFrame: start + from } : {}),
      };
    });
    const whole = editList(placed.map(({ span }) => span));
    const edit = common(editList(kept.map(([from, frames]) => range(tick(from), tick(from + frames)))), whole);
    return { ...base, rate, startFrame: start, files: placed, length: tick(at), edit, edited: true };
  })
  .filter(({ edit }) => edit.length > 0);

test('an edit list comes back from an EDL as it was', () => {
  fc.assert(
    fc.property(recordings, (recording) => {
      const back = done(readEdl(done(writeEdl(recording, [])).text, recording));
      expect(back.edit).toEqual(recording.edit);
      expect(back.notes).toEqual([]);
    }),
  );
});

test('an edit list comes back from OpenTimelineIO as it was', () => {
  fc.assert(
    fc.property(recordings, (recording) => {
      const back = done(readOtio(done(writeOtio(recording, [])).text, recording));
      expect(back.edit).toEqual(recording.edit);
      expect(back.notes).toEqual([]);
    }),
  );
});

describe('marks', () => {
  const frame = base.rate?.ticksPerFrame ?? 1;
  const wanted = times.chapters.flatMap(({ chapter, recording, steps }) => [
    { kind: 'chapter', title: chapter.title, at: recording.start },
    ...steps.map(({ step, recording: span }) => ({ kind: 'step', title: step.title, at: span.start })),
  ]);
  const onFrames = wanted.map(({ at, ...mark }) => ({ ...mark, frame: Math.floor(at / frame) }));

  test.each([
    ['EDL', () => readEdl(done(writeEdl(base, [times])).text, base)],
    ['OpenTimelineIO', () => readOtio(done(writeOtio(base, [times])).text, base)],
  ] as const)('come back from %s to their frames, with their kinds', (_name, run) => {
    const { marks = [], notes } = done(run());
    expect(marks.map(({ kind, title, at }) => ({ kind, title, frame: Math.round(at / frame) }))).toEqual(onFrames);
    expect(notes).toEqual([]);
  });

  const clock = { clock: 'programme', edit: base.edit } as const;
  test.each([
    ['Matroska XML', () => readMkvChapters(writeMkvChapters(times).text, clock)],
    ['WebVTT metadata', () => readVttChapters('a.vtt', writeVttMetadata(times).text, clock)],
    ['WebVTT chapters with steps', () => readVttChapters('a.vtt', writeVttChapters(times, true).text, clock)],
  ] as const)('come back from %s to the same moments of the recording', (_name, run) => {
    const { marks = [], notes } = done(run());
    expect(marks.map(({ kind, title, at }) => ({ kind, title, at }))).toEqual(wanted);
    expect(notes).toEqual([]);
  });

  test('chapters come back from FFMETADATA and, to the second, from a plain list', () => {
    const [chapter] = wanted;
    const exact = done(readFfmetadata(writeFfmetadata(times).text, clock)).marks ?? [];
    expect(exact).toMatchObject([chapter]);
    const listed = done(readChapterList(writeChapterList(times).text, clock)).marks ?? [];
    expect(listed.map(({ title, at }) => [title, Math.floor(at / TICKS_PER_SECOND)])).toEqual([
      ['Chain', 10],
      [chapter?.title, 20],
    ]);
  });
});

test('what is not a whole frame is told, and comes back no further than a frame away', () => {
  const { text, notes } = done(writeEdl(base, []));
  expect(notes).toHaveLength(1);
  const { edit = [] } = done(readEdl(text, base));
  expect(edit).toHaveLength(base.edit.length);
  edit.forEach(({ start, end }, i) => {
    expect(base.edit[i]!.start - start).toBeLessThan(base.rate!.ticksPerFrame);
    expect(end - base.edit[i]!.end).toBeLessThan(base.rate!.ticksPerFrame);
    // To within the millisecond that clock times are written in.
    const ms = TICKS_PER_SECOND / 1000;
    expect(start <= base.edit[i]!.start + ms && end >= base.edit[i]!.end - ms).toBe(true);
  });
});

test('a list counted with drop-frame is read for a recording counted without, and the other way round', () => {
  const rate = FRAME_RATES['29.97'];
  const df = FRAME_RATES['29.97df'];
  const recording = {
    ...base,
    rate,
    startFrame: 108_000,
    files: base.files.map((file) => ({ ...file, startFrame: 108_000 })),
  };
  // 01:00:00:00 is where the file begins; an hour and ten seconds of labels, in either count, is ten seconds in.
  const labels = [10, 20].map((second) => printTimecode(107_892 + second * 30, df));
  const text = `TITLE: x\nFCM: DROP FRAME\n001  CHAIN V C ${labels.join(' ')} 00:00:00;00 00:00:10;00\n`;
  const { edit = [] } = done(readEdl(text, recording));
  expect(edit.map(({ start, end }) => [start / rate.ticksPerFrame, end / rate.ticksPerFrame])).toEqual([[300, 600]]);
});

describe('what went out comes in again with nothing to change', () => {
  // Steps of one title, one with an id of its own, and points that milliseconds say only nearly: at 29.97 frame 301
  // begins at 10.0433…, frame 8991 at 299.9997 s.
  const lesson = SOUND_SHOP['lessons/chain.mdx'] ?? '';
  const files = {
    'recordings/chain.yaml': (SOUND_SHOP['recordings/chain.yaml'] ?? '')
      .replace('in: "0:00:10", out: "0:05:00"', 'in: "0:00:10.044", out: "0:04:59.999"')
      .replace('in: "0:06:00", out: "0:09:00"', 'in: "0:06:00.027", out: "0:08:59.972"'),
    'lessons/chain.mdx': `${lesson}
### Clean
<Cue at="0:06:30" />

Wipe it.

### Clean
<Cue at="0:07:00" id="clean-again" />

Wipe it once more.

### Clean
<Cue at="0:08:00" />

And the last time.
`,
  };
  const { shop, recording, lesson: read, times: own } = smallShop(files);
  const texts = new Map(Object.entries({ ...SOUND_SHOP, ...files }));

  test('the lesson has what makes it awkward', () => {
    expect(read.chapters[0]?.steps.map(({ id }) => id)).toEqual([
      ...['crack-the-nut', 'tighten-the-nut', 'clean', 'clean-again', 'clean-2'],
    ]);
  });

  test.each(FORMATS.filter(({ of, id }) => of !== 'class' && id !== 'jsonld'))('$id', (format) => {
    const { text, notes } = done(
      format.of === 'recording'
        ? format.write(recording, [own], shop)
        : format.of === 'lesson'
          ? format.write(own, shop)
          : { ok: false, problem: 'a class is not brought in' },
    );
    expect(notes.filter((note) => note.includes('between two frames'))).toEqual([]);
    const reader = done(findImportFormat(`out.${format.extension}`, text));
    const back = done(reader.read('out', text, recording, { clock: 'programme', edit: recording.edit }));
    const plan = done(planImport(back, recording, shop, texts, format.of === 'lesson' ? read : undefined));
    expect([plan.texts, back.notes]).toEqual([[], []]);
    expect(plan.words.join()).toContain('as before');
  });

  test('a step that moved is found by its id, and among those of one title by its time', () => {
    const marks = [
      { kind: 'step', title: 'Clean', id: 'clean-again', at: at(510) },
      { kind: 'step', title: 'Clean', at: at(481) },
      { kind: 'step', title: 'Clean', at: at(391) },
    ] as const;
    const [changed] = done(planImport({ marks, notes: [] }, recording, shop, texts, read)).texts;
    expect([...(changed?.text ?? '').matchAll(/<Cue at="([^"]+)"/g)].map(([, moment]) => moment)).toEqual([
      ...['0:00:20', '0:00:30', '0:06:10', '0:06:31', '0:08:30', '0:08:01'],
    ]);
  });
});
