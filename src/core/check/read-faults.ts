import { FAULTS, type Fault, type FaultId } from '../read/index.ts';
import { both, lesson, replaceIn, type Sample, SOUND } from './sample.ts';

interface Examples {
  readonly bad: Sample;
  readonly says: string;
  readonly good: Sample;
}

const RECORDING = 'recordings/chain.yaml';
const LESSON = 'lessons/chain.mdx';

/** The sound shop with captions of this text. */
function captions(file: string, text: string): Sample {
  const mark = file.endsWith('.srt') ? ',' : '.';
  const rest = [
    ['00:00:20', '00:04:50'],
    ['00:06:00', '00:09:00'],
  ].map(([start, end]) => `\n${start}${mark}000 --> ${end}${mark}000\n[working]\n`);
  return both(replaceIn(RECORDING, 'media/chain.vtt', file), { files: { [file]: text + rest.join('') } });
}

const EXAMPLES: Readonly<Record<FaultId, Examples>> = {
  'yaml-syntax': {
    bad: replaceIn(RECORDING, 'title: Chain, uncut', 'title: "Chain, uncut'),
    says: '1:21 missing closing "quote',
    good: SOUND,
  },
  'mdx-syntax': {
    bad: replaceIn(LESSON, 'Crack it on the wheels.', '<Warning>Crack it on the wheels.'),
    says: '12:29 expected a closing tag for `<Warning>`',
    good: replaceIn(LESSON, 'Crack it on the wheels.', '<Warning>Crack it on the wheels.</Warning>'),
  },
  'text-not-read': {
    bad: replaceIn(LESSON, 'Crack it on the wheels.', `Crack it on the wheels. ${'*'.repeat(401)}`),
    says: '12:1 this is not read: more than 400 stars, brackets and other marks without an empty line between them',
    good: SOUND,
  },
  'key-unknown': {
    bad: replaceIn(RECORDING, 'title:', 'titel: Chain\ntitle:'),
    says: '1:1 "titel" is not a key of a recording',
    good: SOUND,
  },
  'key-missing': {
    bad: replaceIn(RECORDING, 'title: Chain, uncut\n', ''),
    says: '1:1 "title" is missing',
    good: SOUND,
  },
  'value-wrong': { bad: replaceIn(RECORDING, '29.97', '31'), says: '4:7 rate: "31" is none of 24, 25, ', good: SOUND },
  'placeholder-left': {
    bad: replaceIn('specs/tarn-420.yaml', 'Service manual (invented)', 'FILL IN title'),
    says: '6:19 "FILL IN title" is left from the starting file',
    good: SOUND,
  },
  'time-wrong': {
    bad: replaceIn(RECORDING, '0:05:00', '0:05:75'),
    says: '6:26 "0:05:75": seconds go from 0 to 59',
    good: SOUND,
  },
  'range-reversed': {
    bad: replaceIn(RECORDING, '0:05:00', '0:00:05'),
    says: '6:26 the out point 0:00:05 is not after the in point 0:00:10',
    good: SOUND,
  },
  'element-unknown': {
    bad: replaceIn(LESSON, 'Crack it on the wheels.', '<Warnign>Mind your knuckles.</Warnign>'),
    says: '12:29 <Warnign> is not an element of a lesson',
    good: SOUND,
  },
  'heading-empty': {
    bad: replaceIn(LESSON, '### Crack the nut', '###'),
    says: '9:1 the heading has no words',
    good: SOUND,
  },
  'heading-level': {
    bad: replaceIn(LESSON, '## Rear wheel', '# Rear wheel'),
    says: '6:1 a # heads the page, not a chapter',
    good: SOUND,
  },
  'step-before-chapter': {
    bad: replaceIn(LESSON, '## Rear wheel\n<Cue at="0:00:20" />\n\n', ''),
    says: '6:1 the step "Crack the nut" stands before any chapter, and 1 step after it',
    good: SOUND,
  },
  'code-in-lesson': {
    bad: replaceIn(LESSON, 'Crack it on the wheels.', 'Crack it {1 + 1} times.'),
    says: '12:38 {…} is code',
    good: replaceIn(LESSON, 'Crack it on the wheels.', 'Crack it {/* mind the knuckles */} on the wheels.'),
  },
  'address-unsafe': {
    bad: replaceIn(LESSON, 'Crack it on the wheels.', 'Crack it [so](javascript:alert).'),
    says: '12:38 the link leads to javascript:alert, which is no address of a page',
    good: replaceIn(LESSON, 'Crack it on the wheels.', 'Crack it [so](https://garage.example/crack).'),
  },
  'picture-missing': {
    bad: replaceIn(LESSON, 'Crack it on the wheels.', 'Crack it. ![The nut](nut.jpg)'),
    says: '12:39 there is no picture lessons/nut.jpg',
    good: SOUND,
  },
  'attribute-wrong': {
    bad: replaceIn(LESSON, 'at="0:00:20"', 'form="0:00:20"'),
    says: '7:6 <Cue> has no attribute "form"',
    good: SOUND,
  },
  'caption-unreadable': {
    bad: captions('media/words.vtt', 'WEBVTT\n\n00:12.000 --> 00:61.000\nMind the spring.\n'),
    says: '3:1 "00:61.000" has a minute or second past 59, so "Mind the spring." is left out',
    good: captions('media/words.vtt', 'WEBVTT\n\n00:12.000 --> 00:16.000\nMind the spring.\n'),
  },
  'caption-time-loose': {
    bad: captions('media/words.vtt', 'WEBVTT\n\n00:00:12,000 --> 00:00:16,000\nMind the spring.\n'),
    says: '3:1 "00:00:12,000 --> 00:00:16,000" is not how WebVTT writes times',
    good: captions('media/words.srt', '1\n00:00:12,000 --> 00:00:16,000\nMind the spring.\n'),
  },
  'caption-not-webvtt': {
    bad: captions('media/words.vtt', '00:12.000 --> 00:16.000\nMind the spring.\n'),
    says: '1:1 the file is named .vtt but does not begin with WEBVTT',
    good: captions('media/words.vtt', 'WEBVTT the first take\n\n00:12.000 --> 00:16.000\nMind the spring.\n'),
  },
  'caption-codes-dropped': {
    bad: captions('media/words.srt', '1\n00:00:12,000 --> 00:00:16,000\n<font color="red">Mind</font> the spring.\n'),
    says: '1:1 2 styling tags dropped: <font color="red"> </font>',
    good: captions('media/words.srt', '1\n00:00:12,000 --> 00:00:16,000\n{\\an8}<i>Mind</i> the spring.\n'),
  },
  'file-missing': {
    bad: { files: {}, without: ['shop.yaml'] },
    says: '1:1 there is no shop.yaml',
    good: SOUND,
  },
  'file-empty': {
    bad: { files: { 'classes/sunday.yaml': '' } },
    says: '1:1 there is nothing here, where a class should stand',
    good: SOUND,
  },
  'file-unreadable': {
    bad: { files: {}, unreadable: { 'classes/sunday.yaml': 'this user may not read it' } },
    says: '1:1 classes/sunday.yaml cannot be read: this user may not read it',
    good: SOUND,
  },
  'file-encoding': {
    bad: replaceIn('shop.yaml', 'Garage', 'Garage Se\uFFFDor'),
    says: '1:35 a letter here is not in UTF-8, so it cannot be known which it is',
    good: replaceIn('shop.yaml', 'Garage', 'Garage Señor'),
  },
  'file-ignored': {
    bad: { files: { 'lessons/brakes.md': '# Brakes' } },
    says: '1:1 lessons/brakes.md is not read',
    good: lesson('## Wheel\n<Cue at="0:00:20" />\n\n### Lift\n<Cue at="0:00:30" />'),
  },
};

/** A fault of reading, with its id and an example of each kind. */
export interface ReadFault extends Fault, Examples {
  readonly id: FaultId;
}

/** What reading can tell, in the shape of a rule without a walk. */
export const READ_FAULTS: readonly ReadFault[] = Object.entries(FAULTS).map(([id, fault]) => ({
  id: id as FaultId,
  ...fault,
  ...EXAMPLES[id as FaultId],
}));
