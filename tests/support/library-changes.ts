/** A change of one file of a large library, and the pages whose sums it changes: `all`, or some of the first lessons. */
export interface LibraryChange {
  readonly what: string;
  readonly file: string;
  readonly change: (text: string) => string;
  readonly touches: 'all' | readonly string[];
}

const OWN = ['lessons/chain-0/', 'steps/rows/0/'] as const;

/** One of each kind of file that a page may be made of. */
export const LIBRARY_CHANGES: readonly LibraryChange[] = [
  {
    what: 'a step of a lesson',
    file: 'lessons/chain-0.mdx',
    change: (text) => text.replace(/^### .*$/m, '$& today'),
    touches: OWN,
  },
  {
    // The lesson after it says its title too.
    what: 'the title of a lesson',
    file: 'lessons/chain-0.mdx',
    change: (text) => text.replace(/^title: .*$/m, '$& again'),
    touches: [...OWN, 'lessons/chain-2/', 'es/lessons/chain-2/'],
  },
  {
    what: 'a cut of a recording',
    file: 'recordings/chain-0.yaml',
    change: (text) => text.replace(/out: "([\d:]+)\.(\d)/, 'out: "$1.0$2').replace(/^title: .*$/m, '$& (cut)'),
    touches: OWN,
  },
  {
    what: 'what is said in a film',
    file: 'media/chain-0.vtt',
    change: (text) => text.replace(/\bthe\b/, 'this'),
    touches: OWN,
  },
  {
    what: 'captions that no longer say anything',
    file: 'media/chain-0.vtt',
    change: () => 'WEBVTT\n',
    touches: OWN,
  },
  {
    what: 'captions in another language, which come',
    file: 'media/chain-0.es.vtt',
    change: () => 'WEBVTT\n\n00:01:35.000 --> 00:01:39.000\nMira la cadena.\n',
    touches: OWN,
  },
  {
    what: 'a value of the spec table',
    file: 'specs/tarn-420.yaml',
    change: (text) => text.replace(/nominal: 98\b/, 'nominal: 97'),
    touches: 'all',
  },
  { what: 'a tool', file: 'kit.yaml', change: (text) => text.replace(/title: (.)/, 'title: Own $1'), touches: 'all' },
  { what: 'a word', file: 'words.yaml', change: (text) => text.replace(/say: (.)/, 'say: own $1'), touches: 'all' },
  {
    what: 'the shop',
    file: 'shop.yaml',
    change: (text) => text.replace(/^name: .*$/m, 'name: Another Garage'),
    touches: 'all',
  },
  {
    what: 'a correction',
    file: 'corrections/chain-0.yaml',
    change: () =>
      'corrections:\n  - { step: tighten-the-axle-nut, at: "0:50:00", spec: rear-axle-nut, said: 80 newton metres, on: 2026-11-20 }\n',
    touches: 'all',
  },
];
