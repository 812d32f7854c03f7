import type { FileFacts } from '../model/index.ts';
import type { Unreadable } from '../read/index.ts';
import { TICKS_PER_SECOND } from '../time/index.ts';

/** Content files, by path, laid over the sound small shop; and what a probe says of media files. */
export interface Sample {
  readonly files: Readonly<Record<string, string>>;
  /** Seconds that a camera file lasts; `missing` when it is not there. */
  readonly media?: Readonly<Record<string, number | 'missing'>>;
  /** Seconds of sound in a camera file; as long as the picture where it is not given. */
  readonly sound?: Readonly<Record<string, number>>;
  /** Camera files that hold sound and no picture. */
  readonly soundOnly?: readonly string[];
  /** Files of the sound shop that are not there. */
  readonly without?: readonly string[];
  /** Files that are there and cannot be read, with the reason. */
  readonly unreadable?: Readonly<Record<string, string>>;
  /** The day of the check. */
  readonly today?: string;
}

const FRONT = '---\ntitle: Chain\nrecording: chain\nmachine: tarn-420\n---\n';

/** The smallest shop that has one of everything and nothing wrong. Its values are invented. */
export const SOUND_SHOP: Readonly<Record<string, string>> = {
  'shop.yaml': 'name: Millrace Community Garage\ninvented: true\n',
  'kit.yaml': `tools:
  breaker-bar:
    title: Breaker bar
  torque-wrench:
    title: Torque wrench, large
    kind: torque-wrench
    range: {min: 40, max: 200, unit: N·m}
    resolution: {nominal: 1, unit: N·m}
  grinder:
    title: Angle grinder
    hazard: throws sparks and splinters
    signal: warning
parts:
  cotter-pin:
    title: Cotter pin
    replace: always
supplies:
  brake-fluid:
    title: Brake fluid
    hazard: harms eyes and skin
    signal: caution
protective:
  gloves:
    title: Gloves
`,
  'specs/tarn-420.yaml': `machine:
  title: Tarn 420
  years: 2019-2025
  invented: true
documents:
  manual: {title: Service manual (invented), invented: true}
specs:
  - id: axle-nut
    title: Rear axle nut
    kind: torque
    nominal: 98
    plusMinus: 5
    unit: N·m
    source: {document: manual, page: 41}
    checkedBy: lead mechanic
    checkedOn: 2026-10-03
  - id: chain-slack
    title: Chain slack
    kind: length
    min: 30
    max: 40
    unit: mm
    source: {document: manual, page: 12}
    checkedBy: chain hand
    checkedOn: 2026-10-04
`,
  'recordings/chain.yaml': `title: Chain, uncut
files:
  - file: media/chain.mp4
rate: "29.97"
edit:
  - {in: "0:00:10", out: "0:05:00"}
  - {in: "0:06:00", out: "0:09:00"}
people:
  - {role: instructor, release: on-file}
captions: media/chain.vtt
`,
  'media/chain.vtt': `WEBVTT

00:00:11.000 --> 00:03:00.000
Rear wheel: [working]

00:03:21.000 --> 00:05:00.000
[working]

00:06:00.000 --> 00:09:00.000
[working]
`,
  'lessons/chain.mdx': `${FRONT}## Rear wheel
<Cue at="0:00:20" />

### Crack the nut
<Cue at="0:00:30" until="0:02:00" />

<Uses tool="breaker-bar" /> Crack it on the wheels.

### Tighten the nut
<Cue at="0:06:10" />

<Uses tool="torque-wrench" /> <Uses part="cotter-pin" /> Tighten to <Spec of="axle-nut" />.
`,
  'classes/saturday.yaml': `title: Chain, Saturday
date: 2026-12-05
starts: "10:00"
slot: "2:00"
blocks:
  - id: welcome
    title: Welcome
    kind: welcome
    must: true
    treatments:
      - {id: talk, minutes: [3, 5, 8], worth: 10}
  - id: wheel
    title: Rear wheel
    kind: screen
    treatments:
      - {id: whole, show: {lesson: chain, chapter: rear-wheel}, worth: 60}
`,
};

/** A range of the sound shop's edit list that shows an angle, and the angle; without an offset where it is empty. */
export const ANGLES = (shown: string, offset = '-0:00:03.5') =>
  `  - {in: "0:06:00", out: "0:09:00", angle: ${shown}}\nangles:\n  - {id: side, file: media/side.mp4${offset === '' ? '' : `, offset: "${offset}"`}}\n`;

/** The sample's day of the check, unless it names one. */
export const SAMPLE_TODAY = '2026-11-25';

/** The sound shop's class without its part of the lesson. */
const CLASS_WITHOUT_LESSON = (SOUND_SHOP['classes/saturday.yaml'] ?? '').replace(/ {2}- id: wheel[\s\S]*/, '');

/** A sample of one lesson body in place of the sound shop's; it starts after the front matter, at line 6. */
export function lesson(body: string): Sample {
  return { files: { 'lessons/chain.mdx': `${FRONT}${body}\n`, 'classes/saturday.yaml': CLASS_WITHOUT_LESSON } };
}

/** A sample of the sound shop with one stretch of one file replaced. */
export function replaceIn(file: string, from: string, to: string, more: Omit<Sample, 'files'> = {}): Sample {
  const text = SOUND_SHOP[file] ?? '';
  if (!text.includes(from)) throw new Error(`${file} of the sound shop does not hold "${from}"`);
  return { files: { [file]: text.replace(from, to) }, ...more };
}

/** Two samples at once, of different files. */
export function both(a: Sample, b: Sample): Sample {
  return { ...a, ...b, files: { ...a.files, ...b.files } };
}

/** The sound shop itself. */
export const SOUND: Sample = { files: {} };

/** The files and file facts that a sample makes, for the reader. */
export function sampleContent(sample: Sample): {
  texts: Map<string, string>;
  facts: (file: string) => FileFacts;
  unreadable: Map<string, Unreadable>;
} {
  const texts = new Map(Object.entries({ ...SOUND_SHOP, ...sample.files }));
  const unreadable = new Map(
    Object.entries(sample.unreadable ?? {}).map(([file, reason]) => [file, { reason, help: 'make it readable' }]),
  );
  for (const file of [...(sample.without ?? []), ...unreadable.keys()]) texts.delete(file);
  const facts = (file: string): FileFacts => {
    const text = texts.get(file);
    if (text !== undefined) return { state: 'text', text };
    const seconds = sample.media?.[file] ?? 600;
    if (seconds === 'missing') return { state: 'missing' };
    return {
      state: 'media',
      media: {
        duration: Math.round(seconds * TICKS_PER_SECOND),
        soundDuration: Math.round((sample.sound?.[file] ?? seconds) * TICKS_PER_SECOND),
        ...(sample.soundOnly?.includes(file) ? {} : { framesPerSecond: 30000 / 1001 }),
      },
    };
  };
  return { texts, facts, unreadable };
}
