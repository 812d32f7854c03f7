import fc from 'fast-check';
import { READ_FAULTS, RULES, type Sample, SOUND_SHOP } from '../../src/core/check/index.ts';

/** A shop of two lessons that share a machine and the kit, in two languages. Its values are invented. */
export const TWO_LESSONS: Readonly<Record<string, string>> = {
  ...SOUND_SHOP,
  'shop.yaml': `${SOUND_SHOP['shop.yaml']}languages: [en, es]\n`,
  'lessons/brake.mdx': (SOUND_SHOP['lessons/chain.mdx'] ?? '')
    .replace('title: Chain', 'title: Brake')
    .replace('recording: chain', 'recording: brake'),
  'lessons/brake.es.mdx': (SOUND_SHOP['lessons/chain.mdx'] ?? '').replace('recording: chain', 'recording: brake'),
  'recordings/brake.yaml': (SOUND_SHOP['recordings/chain.yaml'] ?? '').replaceAll('media/chain', 'media/brake'),
  'media/brake.vtt': (SOUND_SHOP['media/chain.vtt'] ?? '').replace('[working]', 'tighten it to 89 newton metres'),
  'media/brake.es.vtt': SOUND_SHOP['media/chain.vtt'] ?? '',
  'corrections/chain.yaml':
    'corrections:\n  - {at: "0:07:00", step: tighten-the-nut, spec: axle-nut, said: 90 N·m, by: lead mechanic, on: 2026-11-20}\n',
  'questions/saturday.yaml':
    'date: 2026-12-05\nquestions:\n  - {words: Why no grease?, lesson: brake, step: crack-the-nut}\n',
  'words.yaml': 'words:\n  - {say: axle nut, also: [wheel nut]}\n',
  'words.es.yaml': 'words:\n  - {say: tuerca, also: [rosca]}\n',
  'collections.yaml': 'uses:\n  - {name: tarn-values, from: ../other}\n',
};

/** One change of a shop: files put in place of others, taken away, or given another name. */
export interface ShopChange {
  readonly name: string;
  readonly put: Readonly<Record<string, string>>;
  readonly gone: readonly string[];
  readonly media: Readonly<Record<string, number | 'missing'>>;
}

function ofSample(name: string, { files, without = [], media = {} }: Sample): ShopChange {
  return { name, put: files, gone: without, media };
}

/** The bad example of each rule is a change; every file goes, comes back, and takes another's name. */
export const SHOP_CHANGES: readonly ShopChange[] = [
  ...[...RULES, ...READ_FAULTS].map(({ id, bad }) => ofSample(id, bad)),
  ...Object.entries(TWO_LESSONS).flatMap(([file, text]): ShopChange[] => {
    const renamed = file.replace(/^([^.]*)\./, '$1-two.');
    return [
      { name: `${file} goes`, put: {}, gone: [file], media: {} },
      { name: `${file} comes`, put: { [file]: text }, gone: [], media: {} },
      { name: `${file} gets a line above`, put: { [file]: `\n${text}` }, gone: [], media: {} },
      { name: `${file} gets a line below`, put: { [file]: `${text}\nnote: more\n` }, gone: [], media: {} },
      { name: `${file} becomes ${renamed}`, put: { [renamed]: text }, gone: [file], media: {} },
      { name: `${file} is in UTF-16`, put: { [file]: `\0${[...text].join('\0')}` }, gone: [], media: {} },
    ];
  }),
  { name: 'a camera file goes', put: {}, gone: [], media: { 'media/brake.mp4': 'missing' } },
  { name: 'a camera file is shorter', put: {}, gone: [], media: { 'media/brake.mp4': 300, 'media/chain.mp4': 300 } },
  { name: 'a camera file comes back', put: {}, gone: [], media: { 'media/brake.mp4': 600, 'media/chain.mp4': 600 } },
];

/** A shop between changes: its files, and the seconds of its camera files. */
export interface ShopState {
  readonly files: Readonly<Record<string, string>>;
  readonly media: Readonly<Record<string, number | 'missing'>>;
}

export const START: ShopState = { files: TWO_LESSONS, media: {} };

export function afterChange({ files, media }: ShopState, change: ShopChange): ShopState {
  const left = Object.fromEntries(Object.entries(files).filter(([file]) => !change.gone.includes(file)));
  return { files: { ...left, ...change.put }, media: { ...media, ...change.media } };
}

/** The same as a sample, which the sound small shop has no part in. */
export function sampleOf({ files, media }: ShopState): Sample {
  return { files, media, without: Object.keys(SOUND_SHOP).filter((file) => !(file in files)) };
}

/** Changes one after the other, in any order. */
export const shopChanges = (most: number) =>
  fc.array(fc.constantFrom(...SHOP_CHANGES), { minLength: 2, maxLength: most });
