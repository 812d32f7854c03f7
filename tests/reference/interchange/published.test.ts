import { expect, test } from 'vitest';
import { writeFfmetadata } from '../../../src/core/interchange/ffmetadata.ts';
import { writeEdl } from '../../../src/core/interchange/index.ts';
import { writeJsonLd } from '../../../src/core/interchange/jsonld.ts';
import { writeOtio } from '../../../src/core/interchange/otio.ts';
import { readEdl } from '../../../src/core/interchange/read-edl.ts';
import type { Recording } from '../../../src/core/model/index.ts';
import {
  FRAME_RATES,
  type FrameRate,
  frameStart,
  parseTimecode,
  range,
  runtime,
  ticks,
  toProgramme,
} from '../../../src/core/time/index.ts';
import { published } from '../../support/published.ts';
import { done, smallShop } from '../../support/shop.ts';
import copied from './interchange.json' with { type: 'json' };

const reference = published(copied);
const EDL = reference.values['OpenTimelineIO EDL adapter (edition not known), tests/sample_data'];
const VERSIONS = reference.values['OpenTimelineIO 0.18.1, CORE_VERSION_MAP.cpp'];
const OTIO = reference.values['OpenTimelineIO 0.18.1, otio-serialized-schema.md'];
const FFMETADATA = reference.values['ffmpeg documentation, 5.1, metadata.texi'];

type Event = readonly [string, string, string, string, string, string, number];

const { recording: base } = smallShop();

/** A recording of one long file that begins at a label. */
function recordingAt(start: string, rate: FrameRate): Recording {
  const first = parseTimecode(start, rate);
  const startFrame = first.ok ? first.value : 0;
  const length = ticks<'recording'>(24 * 3600 * rate.nominal * rate.ticksPerFrame);
  const file = {
    file: 'media/tape.mp4',
    facts: { state: 'missing' } as const,
    span: range(ticks<'recording'>(0), length),
    overlap: 0,
    startFrame,
  };
  return { ...base, rate, startFrame, files: [file], length, edit: [], edited: true };
}

const rateOf = (fps: number) => (fps === 25 ? FRAME_RATES['25'] : FRAME_RATES['24']);
const line = ([number, transition, ...times]: Event) =>
  `${number}  TAPE  V  ${transition}  ${times.slice(0, 4).join(' ')}`;

test.each(EDL.samples.map((sample, i) => [i + 1, sample] as const))(
  'sample %d: every event is as long as published',
  (_, { fps, events, totalFrames, gapsFrames = [] }) => {
    const rate = rateOf(fps);
    const recording = recordingAt('00:00:00:00', rate);
    let total = gapsFrames.reduce((a, b) => a + b, 0);
    let recordOut: number | undefined;
    let joins = 0;
    for (const event of events as unknown as readonly Event[]) {
      const text = `TITLE: x\nFCM: NON-DROP FRAME\n${line(event)}\n`;
      const read = readEdl(text, recording);
      const frames = read.ok ? runtime(read.value.edit ?? []) / rate.ticksPerFrame : 0;
      expect(frames, line(event)).toBe(event[6]);
      total += frames;
      // Outs are exclusive: without a gap each record in is the record out before it.
      const [recordIn, out] = [event[4], event[5]].map((label) => parseTimecode(label, rate));
      if (recordIn?.ok && recordIn.value === recordOut) joins++;
      recordOut = out?.ok ? out.value : undefined;
    }
    expect(total).toBe(totalFrames);
    expect(joins).toBeGreaterThanOrEqual(events.length - 1 - gapsFrames.length - 1);
  },
);

test('source times map to the record times published, and the ones outside to a cut', () => {
  const rate = FRAME_RATES['24'];
  const events = EDL.samples.find(({ totalFrames }) => totalFrames === 1049)!.events as unknown as readonly Event[];
  for (const { event: number, source, record } of EDL.sourceToRecord) {
    const event = events.find(([id]) => id === number)!;
    const recording = recordingAt('00:00:00:00', rate);
    const { edit = [] } = done(readEdl(`TITLE: x\n${line(event)}\n`, recording));
    const at = parseTimecode(source, rate);
    const placed = toProgramme(edit, frameStart(at.ok ? at.value : -1, rate));
    const recordIn = parseTimecode(event[4], rate);
    const wanted = record === null ? undefined : parseTimecode(record, rate);
    expect(placed.cut === undefined).toBe(record !== null);
    if (wanted?.ok && recordIn.ok) expect(placed.at / rate.ticksPerFrame + recordIn.value, source).toBe(wanted.value);
  }
});

test('an FFMETADATA file has the header and the escapes of ffmpeg’s documentation', () => {
  const { times } = smallShop();
  for (const [plain = '', escaped = ''] of FFMETADATA.escapes) {
    const { text } = writeFfmetadata({ ...times, lesson: { ...times.lesson, title: `a${plain}b` } });
    expect(text.startsWith(`${FFMETADATA.header}\ntitle=a${escaped}b\n`), plain).toBe(true);
  }
});

test('an EDL has the columns published, and every out is exclusive: records join without a gap', () => {
  const text = done(writeEdl(base, [])).text;
  const events = text
    .split('\n')
    .filter((one) => /^\d{3} /.test(one))
    .map((one) => one.trim().split(/\s+/));
  expect(events.every((fields) => fields.length === 8)).toBe(true);
  expect(events.slice(1).every((fields, i) => fields[6] === events[i]?.[7])).toBe(true);
});

test('OpenTimelineIO JSON names the schema versions of its release 0.18.1, and has what they need', () => {
  const { times } = smallShop();
  const timeline = JSON.parse(done(writeOtio(base, [times])).text);
  const names: string[] = [];
  const visit = (value: unknown): void => {
    if (typeof value !== 'object' || value === null) return;
    if ('OTIO_SCHEMA' in value) names.push(String(value.OTIO_SCHEMA));
    for (const inner of Object.values(value)) visit(inner);
  };
  visit(timeline);
  const schemas = Object.entries(VERSIONS).map(([name, version]) => `${name}.${version}`);
  expect(new Set(names)).toEqual(new Set([...schemas, 'TimeRange.1', 'RationalTime.1']));
  expect(timeline.tracks.children.map(({ kind }: { kind: string }) => kind)).toEqual(OTIO.trackKinds);
  const [clip] = timeline.tracks.children[0].children;
  expect(clip.active_media_reference_key).toBe(OTIO.defaultMediaKey);
  expect([...OTIO.markerColors]).toContain(clip.markers[0].color);
});

test('structured data uses each property only where schema.org 30.0 has it', () => {
  const { times, shop } = smallShop();
  const [video, howTo] = JSON.parse(writeJsonLd(times, shop).text)['@graph'];
  const domains: Readonly<Record<string, readonly string[]>> = reference.values['schema.org, release 30.0'].domains;
  const typed = [video, howTo, ...video.hasPart, ...howTo.step, ...howTo.tool, ...howTo.supply];
  // schema.org 30.0: what each type also is.
  const also: Readonly<Record<string, readonly string[]>> = {
    VideoObject: ['MediaObject', 'CreativeWork', 'Thing'],
    HowTo: ['CreativeWork', 'Thing'],
    HowToSection: ['ListItem', 'ItemList', 'CreativeWork', 'Thing'],
    HowToTool: ['HowToItem', 'ListItem', 'Thing'],
    HowToSupply: ['HowToItem', 'ListItem', 'Thing'],
    Clip: ['CreativeWork', 'Thing'],
  };
  const fits = (type: string, key: string) =>
    [...(domains[key] ?? [])].some((one) => one === type || also[type]?.includes(one));
  const wrong = typed.flatMap((item) =>
    Object.keys(item)
      .filter((key) => key in domains && !fits(item['@type'], key))
      .map((key) => `${item['@type']}.${key}`),
  );
  expect(wrong).toEqual([]);
  for (const clip of video.hasPart)
    expect(Object.keys(clip)).toEqual(['@type', 'name', 'startOffset', 'endOffset', 'url']);
});

test('every published value is compared', () => expect(reference.unread()).toEqual([]));
