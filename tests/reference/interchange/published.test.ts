import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
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
import { done, smallShop } from '../../support/shop.ts';

// interchange.json: columns and events of the sample lists that the OpenTimelineIO organisation publishes with its EDL
// adapter, recomputed; OpenTimelineIO's schema versions; ffmpeg's escapes; schema.org 30.0 as far as it is used.
const published = JSON.parse(readFileSync(join(import.meta.dirname, 'interchange.json'), 'utf8'));

interface Sample {
  readonly fps: number;
  readonly name?: string;
  readonly events: readonly (readonly [string, string, string, string, string, string, number])[];
  readonly totalFrames: number;
}

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
const line = ([number, transition, ...times]: Sample['events'][number]) =>
  `${number}  TAPE  V  ${transition}  ${times.slice(0, 4).join(' ')}`;

test.each(
  (published.editList.samples as Sample[]).map((sample, i) => [sample.name ?? `sample ${i + 1}`, sample] as const),
)('%s: every event is as long as published', (_name, sample) => {
  const rate = rateOf(sample.fps);
  const recording = recordingAt('00:00:00:00', rate);
  for (const event of sample.events) {
    const text = `TITLE: x\nFCM: NON-DROP FRAME\n${line(event)}\n`;
    const read = readEdl(text, recording);
    const frames = read.ok ? runtime(read.value.edit ?? []) / rate.ticksPerFrame : 0;
    expect(frames, line(event)).toBe(event[6]);
  }
  const total = sample.events.reduce((sum, event) => sum + event[6], 0);
  const gaps =
    (published.editList.samples.find((one: { gapsFrames?: number[] }) => one === sample) as { gapsFrames?: number[] })
      .gapsFrames ?? [];
  expect(total + gaps.reduce((a, b) => a + b, 0)).toBe(sample.totalFrames);
});

test('source times map to the record times published, and the ones outside to a cut', () => {
  const rate = FRAME_RATES['24'];
  const sample = (published.editList.samples as Sample[]).find(({ totalFrames }) => totalFrames === 1049)!;
  for (const { event: number, source, record } of published.editList.sourceToRecord as {
    event: string;
    source: string;
    record: string | null;
  }[]) {
    const event = sample.events.find(([id]) => id === number)!;
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

test('an EDL has the columns published, and every out is exclusive: records join without a gap', () => {
  const text = done(writeEdl(base, [])).text;
  const events = text
    .split('\n')
    .filter((one) => /^\d{3} /.test(one))
    .map((one) => one.trim().split(/\s+/));
  expect(events.every((fields) => fields.length === 8)).toBe(true);
  expect(events.every(([, , track]) => (track ?? '') in published.editList.tracks)).toBe(true);
  expect(events.slice(1).every((fields, i) => fields[6] === events[i]?.[7])).toBe(true);
});

test('OpenTimelineIO JSON names the schema versions of its release 0.18.1, and has what they need', () => {
  const { times } = smallShop();
  const timeline = JSON.parse(done(writeOtio(base, [times])).text);
  const versions = published.otio.schemaVersions['0.18.1'] as Record<string, number>;
  const values = new Set(published.otio.valueTypes as string[]);
  const names: string[] = [];
  const visit = (value: unknown): void => {
    if (typeof value !== 'object' || value === null) return;
    if ('OTIO_SCHEMA' in value) names.push(String(value.OTIO_SCHEMA));
    for (const inner of Object.values(value)) visit(inner);
  };
  visit(timeline);
  expect(new Set(names)).toEqual(
    new Set([
      'Timeline.1',
      'Stack.1',
      'Track.1',
      'Clip.2',
      'Marker.2',
      'ExternalReference.1',
      'TimeRange.1',
      'RationalTime.1',
    ]),
  );
  for (const name of names.filter((one) => !values.has(one)))
    expect(name).toBe(`${name.split('.')[0]}.${versions[name.split('.')[0] ?? '']}`);
  expect(timeline.tracks.children.map(({ kind }: { kind: string }) => kind)).toEqual(published.otio.trackKinds);
  const [clip] = timeline.tracks.children[0].children;
  expect(clip.active_media_reference_key).toBe(published.otio.defaultMediaKey);
  expect(published.otio.markerColors).toContain(clip.markers[0].color);
});

test('structured data uses each property only where schema.org 30.0 has it', () => {
  const { times, shop } = smallShop();
  const [video, howTo] = JSON.parse(writeJsonLd(times, shop).text)['@graph'];
  const domains = published.structured.schemaOrg.domains as Record<string, string[]>;
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
  const fits = (type: string, key: string) => domains[key]?.some((one) => one === type || also[type]?.includes(one));
  const wrong = typed.flatMap((item) =>
    Object.keys(item)
      .filter((key) => key in domains && !fits(item['@type'], key))
      .map((key) => `${item['@type']}.${key}`),
  );
  expect(wrong).toEqual([]);
  for (const clip of video.hasPart)
    expect(Object.keys(clip)).toEqual(['@type', 'name', 'startOffset', 'endOffset', 'url']);
});
