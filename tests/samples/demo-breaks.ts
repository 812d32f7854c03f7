import { range, TICKS_PER_SECOND, ticks } from '../../src/core/time/index.ts';
import { unreadId } from '../../src/core/words/index.ts';

/** One change to the demo shop, and where exactly one rule has to speak up. */
export interface Break {
  readonly rule: string;
  readonly file: string;
  readonly from: string;
  readonly to: string;
  /** Text on the line that is told; `to` when left out. */
  readonly toldAt?: string;
  /** The file that is told, when it is not the changed one. */
  readonly toldIn?: string;
  /** The caption file of the chain recording, whole; then nothing else changes, and it is told there. */
  readonly captions?: string;
  /** Where the sound of the chain recording was found to hold speech, s; not looked through when left out. */
  readonly heard?: readonly (readonly [start: number, end: number])[];
}

const CHAIN = 'lessons/chain.mdx';
const BRAKE = 'lessons/front-brake.mdx';
const SPECS = 'specs/tarn-420.yaml';
const RECORDING = 'recordings/chain.yaml';
const CLASS = 'classes/chain-saturday.yaml';
const KIT = 'kit.yaml';

/** Ranges that the chain recording keeps, seconds; each is captioned whole where a break is about captions. */
const KEPT: readonly (readonly [number, number])[] = [
  [91.3, 222.6],
  [285.8, 378.5],
  [403.4, 501.5],
  [593.7, 675.4],
  [699.2, 751.8],
  [824.2, 1040.6],
  [1062.8, 1141.4],
  [1197.3, 1315.6],
  [1422.1, 1634.4],
  [1737.3, 1878.5],
  [1956.2, 2124.6],
  [2144, 2202.3],
  [2317.1, 2440.5],
  [2459.2, 2642.8],
  [2704.1, 2832.6],
  [2859, 2990.7],
  [3085.6, 3220.5],
  [3287, 3507.3],
  [3535.6, 3663.2],
  [3712.1, 3902.3],
];

function stamp(seconds: number, mark = '.'): string {
  const two = (n: number) => String(n).padStart(2, '0');
  const ms = Math.round(seconds * 1000);
  const whole = Math.floor(ms / 1000);
  return `${two(Math.floor(whole / 3600))}:${two(Math.floor(whole / 60) % 60)}:${two(whole % 60)}${mark}${String(ms % 1000).padStart(3, '0')}`;
}

/** A caption from one second to another. */
function caption(start: number, end: number, words: string, mark = '.'): string {
  return `${stamp(start, mark)} --> ${stamp(end, mark)}\n${words}\n`;
}

/** A caption as a machine leaves it. */
function unread(start: number, end: number, words: string): string {
  const at = range(ticks<'recording'>(start * TICKS_PER_SECOND), ticks<'recording'>(end * TICKS_PER_SECOND));
  return `${unreadId({ at, text: words })}\n${caption(start, end, words)}`;
}

/** A caption file: one broken piece within the first half minute that is kept, all the rest sound. */
function captions(piece: string, head = 'WEBVTT\n\n', mark = '.', skipped: readonly number[] = []): string {
  const rest = KEPT.map(([start, end], i) =>
    skipped.includes(i) ? '' : caption(i === 0 ? 120 : start, end, '[working]', mark),
  );
  return `${head}${piece}\n${rest.filter(Boolean).join('\n')}`;
}

const AT_CAPTIONS = { file: RECORDING, from: '', to: '' };

/** For every rule a way to break the demo so that this rule speaks, and no other. */
export const BREAKS: readonly Break[] = [
  // What reading tells.
  { rule: 'yaml-syntax', file: SPECS, from: 'title: Tarn 420\n', to: 'title: "Tarn 420\n' },
  { rule: 'mdx-syntax', file: CHAIN, from: '<Caution>Take your fingers', to: '<Caution><Notice>Take your fingers' },
  { rule: 'key-unknown', file: RECORDING, from: 'start: "01', to: 'strat: "01:00:00;00"\nstart: "01', toldAt: 'strat' },
  { rule: 'key-missing', file: CLASS, from: 'starts: "10:00"\n', to: '', toldAt: 'title: Chain and sprockets' },
  { rule: 'value-wrong', file: RECORDING, from: 'rate: "29.97df"', to: 'rate: "29.79df"' },
  { rule: 'time-wrong', file: BRAKE, from: '<Cue at="0:10:55" />', to: '<Cue at="0:10:95" />' },
  { rule: 'range-reversed', file: RECORDING, from: 'out: "0:03:42.6"', to: 'out: "0:01:02.6"' },
  { rule: 'heading-empty', file: BRAKE, from: '### Feel the lever', to: '###', toldAt: '###\n' },
  { rule: 'heading-level', file: BRAKE, from: '## Change the pads', to: '# Change the pads' },
  {
    rule: 'step-before-chapter',
    file: BRAKE,
    from: '## Before you open anything\n<Cue at="0:01:44.8" />',
    to: '',
    toldAt: '### Cover the paint',
  },
  {
    rule: 'code-in-lesson',
    file: CHAIN,
    from: 'Take your fingers away before you turn the tool.',
    to: 'Take your fingers away <kbd onclick="go()">before</kbd> you turn the tool.',
    toldAt: 'onclick',
  },
  {
    rule: 'address-unsafe',
    file: CHAIN,
    from: 'Take your fingers away before you turn the tool.',
    to: 'Take your fingers away ![so](https://pictures.example/so.jpg) before you turn the tool.',
    toldAt: '![so]',
  },
  {
    rule: 'picture-missing',
    file: CHAIN,
    from: 'Take your fingers away before you turn the tool.',
    to: 'Take your fingers away ![so](../media/so.jpg) before you turn the tool.',
    toldAt: '![so]',
  },
  {
    rule: 'element-unknown',
    file: CHAIN,
    from: '<Caution>Take your fingers away before you turn the tool. It closes slowly and does not stop for skin.</Caution>',
    to: '<Careful>Take your fingers away.</Careful>\n\n<Caution>It does not stop for skin.</Caution>',
    toldAt: '<Careful>',
  },
  {
    rule: 'attribute-wrong',
    file: CHAIN,
    from: '<Uses tool="ring-spanners" count="2" /> <Uses tool="steel-rule" />',
    to: '<Uses tool="ring-spanners" cuont="2" /> <Uses tool="steel-rule" />',
  },
  { rule: 'file-ignored', file: 'lessons/rear-tyre.md', from: '', to: '# Rear tyre\n' },
  // The lesson and its recording.
  { rule: 'lesson-recording-unknown', file: CHAIN, from: 'recording: chain', to: 'recording: chains' },
  { rule: 'lesson-machine-unknown', file: CHAIN, from: 'machine: tarn-420', to: 'machine: tarn-42' },
  { rule: 'footage-missing', file: RECORDING, from: 'captions: media/chain.vtt', to: 'captions: media/chains.vtt' },
  { rule: 'edit-outside-recording', file: RECORDING, from: 'out: "1:05:02.3"', to: 'out: "9:05:02.3"' },
  {
    rule: 'angle-unknown',
    file: RECORDING,
    from: 'out: "0:03:42.6" }',
    to: 'out: "0:03:42.6", angle: side }',
  },
  {
    rule: 'angle-not-aligned',
    file: RECORDING,
    from: 'edit:\n',
    to: 'sound: side\nangles:\n  - { id: side, file: media/front-brake.mp4 }\nedit:\n',
    toldAt: 'id: side',
  },
  {
    rule: 'angle-without-picture',
    file: RECORDING,
    from: 'edit:\n  - { in: "0:01:31.3", out: "0:03:42.6" }',
    to: 'angles:\n  - { id: clip-on, file: media/recorder.wav, offset: "0:00:00" }\nedit:\n  - { in: "0:01:31.3", out: "0:03:42.6", angle: clip-on }',
    toldAt: 'angle: clip-on',
  },
  {
    rule: 'angle-outside-footage',
    file: RECORDING,
    from: 'edit:\n  - { in: "0:01:31.3", out: "0:03:42.6" }',
    to: 'angles:\n  - { id: side, file: media/front-brake.mp4, offset: "0:03:00" }\nedit:\n  - { in: "0:01:31.3", out: "0:03:42.6", angle: side }',
    toldAt: 'angle: side',
  },
  { rule: 'edit-overlap', file: RECORDING, from: 'in: "0:06:43.4"', to: 'in: "0:06:10"' },
  {
    rule: 'release-missing',
    file: RECORDING,
    from: '{ role: helper, release: on-file }',
    to: '{ role: helper, release: missing }',
  },
  {
    rule: 'cue-missing',
    file: CHAIN,
    from: '### Read the teeth\n<Cue at="0:06:43.4" until="0:08:21.5" />\n',
    to: '### Read the teeth\n',
    toldAt: '### Read the teeth',
  },
  {
    rule: 'cue-in-cut',
    file: BRAKE,
    from: '<Cue at="0:07:54.2" until="0:09:28.8" />',
    to: '<Cue at="0:07:00" until="0:07:50" />',
  },
  {
    rule: 'cue-out-of-order',
    file: CHAIN,
    from: '<Cue at="0:17:42.8" until="0:19:01.4" />',
    to: '<Cue at="0:14:00" />',
  },
  {
    rule: 'cue-outside-recording',
    file: CHAIN,
    from: '<Cue at="1:03:33.9" until="1:05:02.3" />',
    to: '<Cue at="1:03:33.9" until="9:05:02.3" />',
  },
  { rule: 'cue-overlap', file: CHAIN, from: 'until="0:06:18.5"', to: 'until="0:06:50"' },
  { rule: 'chapter-without-steps', file: BRAKE, from: '### Bed the pads in', to: '## Bed the pads in' },
  // Values and their table.
  { rule: 'spec-unknown', file: CHAIN, from: '<Spec of="rear-axle-nut" />', to: '<Spec of="rear-axel-nut" />' },
  {
    rule: 'spec-without-source',
    file: SPECS,
    from: '    source: { document: service-manual, section: Frame, page: 9-2 }\n',
    to: '',
    toldAt: 'id: side-stand-pivot',
  },
  { rule: 'min-above-max', file: SPECS, from: 'min: 5.6', to: 'min: 6.5' },
  {
    rule: 'nominal-outside-limits',
    file: SPECS,
    from: 'min: 0.8\n',
    to: 'nominal: 0.7\n    min: 0.8\n',
    toldAt: 'nominal: 0.7\n',
  },
  {
    rule: 'tolerance-without-nominal',
    file: SPECS,
    from: 'nominal: 38\n    plusMinus: 1\n',
    to: 'plusMinus: 1\n',
    toldAt: 'plusMinus: 1\n    unit: °',
  },
  {
    rule: 'tolerance-written-twice',
    file: SPECS,
    from: 'nominal: 38\n    plusMinus: 1\n',
    to: 'nominal: 38\n    plusMinus: 1\n    plus: 2\n',
    toldAt: 'plusMinus: 1\n    plus: 2',
  },
  {
    rule: 'value-missing',
    file: SPECS,
    from: '    nominal: 38\n    plusMinus: 1\n',
    to: '',
    toldAt: 'id: steering-lock',
  },
  { rule: 'value-impossible', file: SPECS, from: 'nominal: 168', to: 'nominal: -168' },
  {
    rule: 'unit-missing',
    file: SPECS,
    from: '    min: 12.6\n    unit: V\n',
    to: '    min: 12.6\n',
    toldAt: 'id: battery-rest',
  },
  { rule: 'unit-unknown', file: SPECS, from: 'unit: kg', to: 'unit: kgram' },
  {
    rule: 'unit-ambiguous',
    file: SPECS,
    from: 'nominal: 45\n    plusMinus: 4\n    unit: N·m',
    to: 'nominal: 45\n    plusMinus: 4\n    unit: pounds',
    toldAt: 'unit: pounds',
  },
  {
    rule: 'unit-of-other-kind',
    file: SPECS,
    from: 'unit: V',
    to: 'unit: kPa',
    toldAt: 'unit: kPa\n    source: { document: owner-handbook, section: Care, page: 66 }',
  },
  {
    rule: 'field-of-other-kind',
    file: SPECS,
    from: '    nominal: 168\n',
    to: '    nominal: 168\n    under: { nominal: 1, unit: N }\n',
    toldAt: 'under: { nominal: 1',
  },
  {
    rule: 'lesson-years-outside',
    file: BRAKE,
    from: 'machine: tarn-420\n',
    to: 'machine: tarn-420\nyears: 2019-2027\n',
    toldAt: 'years: 2019-2027',
  },
  {
    rule: 'row-years-outside',
    file: SPECS,
    from: 'kind: mass\n    nominal: 168\n',
    to: 'kind: mass\n    years: 2019-2026\n    nominal: 168\n',
    toldAt: 'years: 2019-2026',
  },
  {
    rule: 'variant-unknown',
    file: SPECS,
    from: 'kind: mass\n    nominal: 168\n',
    to: 'kind: mass\n    variants: [tall]\n    nominal: 168\n',
    toldAt: 'variants: [tall]',
  },
  {
    rule: 'tolerance-unlikely',
    file: SPECS,
    from: 'nominal: 2.1\n    plusMinus: 0.1\n',
    to: 'nominal: 2.1\n    plusMinus: 1.1\n',
    toldAt: 'plusMinus: 1.1',
  },
  { rule: 'value-unlikely', file: SPECS, from: 'nominal: 225', to: 'nominal: 2250' },
  {
    rule: 'magnitude-unlikely',
    file: SPECS,
    from: 'third edition, nominal: 34, plusMinus: 3,',
    to: 'third edition, nominal: 3.4, plusMinus: 0.3,',
    toldAt: 'nominal: 38\n    plusMinus: 3\n',
  },
  {
    rule: 'unit-unlike-others',
    file: SPECS,
    from: 'min: 0.8\n    unit: mm',
    to: 'min: 0.8\n    unit: in',
    toldAt: 'unit: in',
  },
  {
    rule: 'row-incomplete',
    file: SPECS,
    from: 'page: 80 }\n    checkedBy: lead mechanic\n',
    to: 'page: 80 }\n',
    toldAt: 'id: kerb-mass',
  },
  {
    rule: 'date-impossible',
    file: SPECS,
    from: 'page: 80 }\n    checkedBy: lead mechanic\n    checkedOn: 2026-10-10\n',
    to: 'page: 80 }\n    checkedBy: lead mechanic\n    checkedOn: 2027-10-10\n',
    toldAt: 'checkedOn: 2027-10-10',
  },
  { rule: 'placeholder-left', file: 'shop.yaml', from: 'name: Millrace', to: 'name: FILL IN Millrace' },
  {
    rule: 'tool-kind-missing',
    file: KIT,
    from: '    title: Torque wrench, 3/8 in drive\n    kind: torque-wrench\n',
    to: '    title: Torque wrench, 3/8 in drive\n',
    toldAt: 'title: Torque wrench, 3/8 in drive',
  },
  {
    rule: 'tool-scale-missing',
    file: KIT,
    from: ', kind: measuring-tool, resolution: { nominal: 0.01, unit: mm }, count: 1 }',
    to: ', kind: measuring-tool, count: 1 }',
  },
  {
    rule: 'gauge-too-coarse',
    file: CHAIN,
    from: '<Uses tool="vernier-caliper" /> <Uses protective="safety-glasses" /> Change the tool to its flaring pin.',
    to: '<Uses tool="steel-rule" /> <Uses protective="safety-glasses" /> Change the tool to its flaring pin.',
  },
  // Kit and safety.
  {
    rule: 'kit-unknown',
    file: CHAIN,
    from: '<Uses tool="chain-tool" /> <Uses tool="vernier-caliper" /> <Uses protective="safety-glasses" />',
    to: '<Uses tool="chain-tool" /> <Uses tool="vernier-calliper" /> <Uses protective="safety-glasses" />',
  },
  {
    rule: 'torque-without-wrench',
    file: CHAIN,
    from: '<Uses tool="torque-wrench-large" /> ',
    to: '',
    toldAt: '<Spec of="rear-axle-nut" />',
  },
  {
    rule: 'wrench-out-of-range',
    file: CHAIN,
    from: 'torque-wrench-large',
    to: 'torque-wrench-medium',
    toldAt: '<Spec of="rear-axle-nut" />',
  },
  {
    rule: 'part-not-replaced',
    file: CHAIN,
    from: ' <Uses part="front-sprocket-bolt" />',
    to: '',
    toldAt: '<Spec of="front-sprocket-bolt" />',
  },
  {
    rule: 'signal-word-missing',
    file: KIT,
    from: 'title: Dial gauge with magnetic foot,',
    to: 'title: Dial gauge with magnetic foot, hazard: can pinch, signal: danger,',
    toldAt: '<Uses tool="dial-gauge" />',
    toldIn: BRAKE,
  },
  // Classes.
  { rule: 'class-block-unknown', file: CLASS, from: 'needs: [new-chain]', to: 'needs: [new-chian]' },
  {
    rule: 'class-block-twice',
    file: CLASS,
    from: '  - id: clear-up\n',
    to: '  - id: welcome\n',
    toldAt: '  - id: welcome\n    title: Tools back',
  },
  {
    rule: 'class-order-impossible',
    file: CLASS,
    from: 'kind: welcome\n',
    to: 'kind: welcome\n    after: [clear-up]\n',
    toldAt: 'after: [clear-up]',
  },
  { rule: 'class-time-outside-slot', file: CLASS, from: 'between: ["10:25", "11:15"]', to: 'at: "12:25"' },
  { rule: 'slot-overrun', file: CLASS, from: 'slot: "2:00"', to: 'slot: "1:00"' },
  {
    rule: 'class-estimate-disagrees',
    file: 'classes/chain-saturday.actual.yaml',
    from: '',
    to: 'date: 2027-03-06\nblocks:\n  - { id: welcome, minutes: 14 }\n',
    toldAt: 'minutes: 14',
  },
  {
    rule: 'class-part-unknown',
    file: CLASS,
    from: 'chapter: change-the-sprockets',
    to: 'chapter: change-the-sprokets',
  },
  { rule: 'attendees-over-capacity', file: CLASS, from: 'attendees: 12', to: 'attendees: 15' },
  {
    rule: 'class-clash',
    file: 'classes/second.yaml',
    from: '',
    to: 'title: Brakes\ndate: 2027-03-06\nstarts: "11:30"\nslot: "1:00"\nplace: Millrace Community Garage, bay 1 and the long bench\nblocks:\n  - { id: talk, title: Talk, kind: talk, treatments: [{ id: talk, minutes: 9, worth: 9 }] }\n',
    toldAt: 'date: 2027-03-06',
  },
  {
    rule: 'class-role-unnamed',
    file: 'classes/second.yaml',
    from: '',
    to: 'title: Brakes\ndate: 2027-03-06\nstarts: "11:30"\nslot: "1:00"\nplace: Bay 2\npeople: [{ role: instructor }]\nblocks:\n  - { id: talk, title: Talk, kind: talk, treatments: [{ id: talk, minutes: 9, worth: 9 }] }\n',
    toldAt: 'date: 2027-03-06',
  },
  {
    rule: 'question-unanswered',
    file: 'questions/chain-saturday.yaml',
    from: '',
    to: 'date: 2027-03-06\nquestions:\n  - words: Why no grease?\n',
    toldAt: 'Why no grease?',
  },
  {
    rule: 'minutes-unlikely',
    file: CLASS,
    from: 'worth: 15, minutes: [4, 5, 7]',
    to: 'worth: 15, minutes: [4, 5, 70]',
    toldAt: '[4, 5, 70]',
  },
  { rule: 'class-date-past', file: CLASS, from: 'date: 2027-03-06', to: 'date: 2026-03-07' },
  {
    rule: 'hands-on-before-safety',
    file: CLASS,
    from: 'blocks:\n',
    to: 'blocks:\n  - { id: bleed, title: Bleed, kind: hands-on, about: { lesson: front-brake, chapter: change-the-fluid }, treatments: [{ id: one, minutes: 9, worth: 9 }] }\n',
    toldAt: 'id: bleed',
  },
  {
    rule: 'class-presupposes',
    file: CLASS,
    from: 'date: 2027-03-06\n',
    to: 'date: 2027-03-06\npresupposes: [brake-saturday]\n',
    toldAt: 'brake-saturday',
  },
  {
    rule: 'presenter-unknown',
    file: CLASS,
    from: 'bay: bay 1\n    presenter: instructor',
    to: 'bay: bay 1\n    presenter: instructer',
    toldAt: 'presenter: instructer',
  },
  {
    rule: 'treatment-twice',
    file: CLASS,
    from: '{ id: short, worth: 25, minutes: [4, 5, 7]',
    to: '{ id: long, worth: 25, minutes: [4, 5, 7]',
  },
  {
    rule: 'word-twice',
    file: 'words.yaml',
    from: 'also: [cog, ',
    to: 'also: [toothed wheel, rotor, ',
  },
  {
    rule: 'treatment-unknown',
    file: CLASS,
    from: 'kind: food\n',
    to: 'kind: food\n    give: stew\n',
    toldAt: 'give: stew',
  },
  { rule: 'weekday-wrong', file: CLASS, from: 'date: 2027-03-06', to: 'date: 2027-03-07' },
  {
    rule: 'step-title-twice',
    file: BRAKE,
    from: '### Hold the lever',
    to: '### Spin the wheel',
    toldAt: '### Spin the wheel\n<Cue at="0:50',
  },
  { rule: 'years-ahead', file: SPECS, from: 'years: 2019-2025', to: 'years: 2019-2035' },
  {
    rule: 'stock-short',
    file: KIT,
    from: 'title: Safety glasses, count: 16',
    to: 'title: Safety glasses, count: 11',
    toldIn: CLASS,
    toldAt: '- id: rivet',
  },
  {
    rule: 'actual-times-backwards',
    file: 'classes/chain-saturday.actual.yaml',
    from: '',
    to: 'date: 2027-03-06\nblocks:\n  - { id: soup, starts: "10:51", ends: "10:38" }\n',
    toldAt: 'id: soup',
  },
  // Captions and camera files.
  {
    rule: 'files-overlap',
    file: RECORDING,
    from: '  - file: media/chain-2.mp4\n',
    to: '  - file: media/chain-2.mp4\n    start: "01:00:10;00"\n',
    toldAt: '01:00:10;00',
  },
  {
    rule: 'captions-missing',
    file: RECORDING,
    from: 'captions: media/chain.vtt\n',
    to: '',
    toldAt: '# Drawn and spoken',
  },
  { rule: 'caption-unreadable', ...AT_CAPTIONS, captions: captions('Words without a time\n'), toldAt: 'Words without' },
  {
    rule: 'caption-time-loose',
    ...AT_CAPTIONS,
    captions: captions(caption(100, 104, 'Mind the chain.', ',')),
    toldAt: '00:01:40,000',
  },
  {
    rule: 'caption-not-webvtt',
    ...AT_CAPTIONS,
    captions: captions(caption(100, 104, 'Mind.'), ''),
    toldAt: '00:01:40',
  },
  {
    rule: 'caption-codes-dropped',
    file: RECORDING,
    from: 'captions: media/chain.vtt',
    to: 'captions: media/chain.srt',
    toldIn: 'media/chain.srt',
    toldAt: '00:01:40',
    captions: captions(caption(100, 104, '<font color="red">Mind.</font>', ','), '', ','),
  },
  {
    rule: 'caption-too-fast',
    ...AT_CAPTIONS,
    captions: captions(caption(100, 102, 'one two three four five six seven')),
    toldAt: '00:01:40',
  },
  { rule: 'caption-too-short', ...AT_CAPTIONS, captions: captions(caption(100, 101, 'Mind.')), toldAt: '00:01:40' },
  {
    rule: 'caption-unread',
    ...AT_CAPTIONS,
    captions: captions(unread(100, 104, 'Mind the chain.')),
    toldAt: 'unread-',
  },
  {
    rule: 'heard-unread',
    ...AT_CAPTIONS,
    captions: captions(unread(100, 104, 'The slack is thirty millimetres.')),
    toldAt: 'unread-',
  },
  {
    rule: 'caption-line-long',
    ...AT_CAPTIONS,
    captions: captions(caption(100, 110, 'Hold it with the ring spanner while I crack the nut')),
    toldAt: '00:01:40',
  },
  {
    rule: 'caption-overlap',
    ...AT_CAPTIONS,
    captions: captions(`${caption(100, 104, 'Mind.')}\n${caption(103, 106, 'Slowly.')}`),
    toldAt: '00:01:43',
  },
  { rule: 'caption-cut', ...AT_CAPTIONS, captions: captions(caption(88, 94, 'Mind the chain.')), toldAt: '00:01:28' },
  {
    rule: 'caption-gap',
    ...AT_CAPTIONS,
    captions: captions(caption(100, 104, 'Mind.'), 'WEBVTT\n\n', '.', [1]),
    toldAt: '00:02:00',
  },
  {
    rule: 'caption-gap',
    ...AT_CAPTIONS,
    // Under a minute is kept there, but 40 s of it are spoken.
    captions: captions(caption(100, 104, 'Mind.'), 'WEBVTT\n\n', '.', [4]),
    heard: [
      [100, 200],
      [705, 745],
    ],
    toldAt: '00:09:53.7',
  },
  {
    rule: 'caption-past-end',
    ...AT_CAPTIONS,
    captions: `${captions(caption(100, 104, 'Mind.'))}\n${caption(32_000, 32_004, 'Elsewhere.')}`,
    toldAt: '08:53:20',
  },
  // Spec tables.
  {
    rule: 'spec-hole',
    file: SPECS,
    from: '    years: 2022-2025\n',
    to: '    years: 2023-2025\n',
    toldAt: '- id: rear-axle-nut',
  },
  {
    rule: 'spec-overlap',
    file: SPECS,
    from: '    years: 2022-2025\n',
    to: '    years: 2021-2025\n',
    toldAt: '- id: rear-axle-nut\n    title: Rear axle nut\n    kind: torque\n    nominal: 98',
  },
  {
    rule: 'torque-unlikely',
    file: SPECS,
    from: '    fastener: { size: M10×1.25, class: "10.9" }\n    source: { document: service-manual, section: Frame, page: 9-2 }',
    to: '    fastener: { size: M5, class: "10.9" }\n    source: { document: service-manual, section: Frame, page: 9-2 }',
    toldAt: 'nominal: 45',
  },
  {
    rule: 'thread-unlikely',
    file: SPECS,
    from: 'fastener: { size: M10×1.25, class: "10.9" }\n    source: { document: service-manual, section: Frame',
    to: 'fastener: { size: M10×1.2, class: "10.9" }\n    source: { document: service-manual, section: Frame',
  },
  {
    rule: 'fastener-unknown',
    file: SPECS,
    from: 'fastener: { size: M10×1.25, class: "10.9" }\n    source: { document: service-manual, section: Frame',
    to: 'fastener: { size: M10×1.25, class: "10.7" }\n    source: { document: service-manual, section: Frame',
  },
  {
    rule: 'unit-slip-likely',
    file: SPECS,
    from: 'nominal: 44, plusMinus: 4, unit: N·m }',
    to: 'nominal: 36.9, plusMinus: 4, unit: N·m }',
    toldAt: 'nominal: 50',
  },
  {
    rule: 'review-overdue',
    file: SPECS,
    from: 'checkedOn: 2026-10-03\n    reviewMonths: 12',
    to: 'checkedOn: 2025-10-03\n    reviewMonths: 12',
  },
  {
    rule: 'wrench-low-on-scale',
    file: KIT,
    from: 'range: { min: 0.5, max: 5, unit: N·m }',
    to: 'range: { min: 0.5, max: 25, unit: N·m }',
    toldAt: '<Spec of="reservoir-screw" />',
    toldIn: BRAKE,
  },
  {
    rule: 'wrench-too-coarse',
    file: KIT,
    from: 'resolution: { nominal: 1, unit: N·m }',
    to: 'resolution: { nominal: 10, unit: N·m }',
    toldAt: '<Spec of="rear-axle-nut" />',
    toldIn: CHAIN,
  },
  {
    rule: 'extension-without-lever',
    file: KIT,
    from: '  socket-set: { title: Socket set, count: 4 }',
    to: '  socket-set: { title: Socket set, count: 4, extension: { nominal: 0.5, unit: mm } }',
    toldAt: '<Uses tool="torque-screwdriver" />',
    toldIn: BRAKE,
  },
  {
    rule: 'quantity-in-prose',
    file: CHAIN,
    from: 'Wipe the seat of the carrier',
    to: 'Go to 50 newton metres. Wipe the seat of the carrier',
  },
  {
    rule: 'text-not-read',
    file: CHAIN,
    from: '### Fit the rear sprocket',
    to: `${'*so '.repeat(401)}\n\n### Fit the rear sprocket`,
  },
  {
    rule: 'text-not-searched',
    file: CHAIN,
    from: 'Wipe the seat of the carrier',
    to: `${'98-'.repeat(70)} Wipe the seat of the carrier`,
  },
  {
    rule: 'translation-differs',
    file: 'lessons/front-brake.es.mdx',
    from: '<Cue at="0:10:55" />',
    to: '<Cue at="0:10:56" />',
  },
  {
    rule: 'spoken-value-wrong',
    file: SPECS,
    from: 'nominal: 98\n    plusMinus: 5',
    to: 'nominal: 80\n    plusMinus: 5',
    toldAt: '<Spec of="rear-axle-nut" />',
    toldIn: CHAIN,
  },
  {
    rule: 'shown-value-wrong',
    file: 'recordings/chain.yaml',
    from: 'people:',
    to: 'shows:\n  - { at: "1:00:10", text: 80 N·m }\npeople:',
    toldAt: '<Spec of="rear-axle-nut" />',
    toldIn: CHAIN,
  },
  {
    rule: 'correction-astray',
    file: 'corrections/chain.yaml',
    from: '',
    to: 'corrections:\n  - { step: no-such-step, at: "0:57:00", spec: rear-axle-nut, on: 2026-11-20 }\n',
    toldAt: 'step: no-such-step',
  },
  {
    rule: 'correction-needless',
    file: 'corrections/chain.yaml',
    from: '',
    to: 'corrections:\n  - { step: fit-the-rear-sprocket, at: "0:35:00", spec: rear-sprocket-nut, said: 50 newton metres, on: 2026-11-20 }\n',
    toldAt: 'said: 50',
  },
];
