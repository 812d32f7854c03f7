import {
  type Actual,
  actualSchema,
  type Correction,
  classSchema,
  type Diagnostic,
  type FileFacts,
  type Kit,
  kitSchema,
  type Lesson,
  type Machine,
  type Recording,
  type Shop,
  type ShopClass,
  type ShopInfo,
  shopSchema,
  startOf,
} from '../model/index.ts';
import { tell } from './faults.ts';
import { didYouMean } from './nearest.ts';
import { Points } from './points.ts';
import { readCorrections } from './read-corrections.ts';
import { readLesson } from './read-lesson.ts';
import { readMachine } from './read-machine.ts';
import { readRecording } from './read-recording.ts';
import { readYaml } from './read-yaml.ts';

/** Where each kind of content file lives, relative to the content folder. */
export const CONTENT_FILES = {
  shop: 'shop.yaml',
  kit: 'kit.yaml',
  recording: /^recordings\/([^/]+)\.yaml$/,
  lesson: /^lessons\/([^/]+)\.mdx$/,
  machine: /^specs\/([^/]+)\.yaml$/,
  shopClass: /^classes\/([^/.]+)\.yaml$/,
  corrections: /^corrections\/([^/]+)\.yaml$/,
  actual: /^classes\/([^/.]+)\.actual\.yaml$/,
} as const;

/** Looks like something somebody wanted read, but is not where or what it would have to be. */
const ASTRAY = /^(recordings|lessons|specs|classes|corrections)\/[^/]+\.(ya?ml|mdx?|json)$|^[^/]+\.ya?ml$/;

/** A shop, and everything that was found wrong while reading it. */
export interface ShopRead {
  readonly shop: Shop;
  readonly diagnostics: readonly Diagnostic[];
}

/**
 * All texts of a content folder as one typed shop. Every problem of every file is told; what is sound is kept.
 *
 * @param texts by path relative to the content folder, with `/`
 * @param facts what is known of a file the content names; asked for camera files, captions and the pictures of lessons only
 */
export function readShop(texts: ReadonlyMap<string, string>, facts: (file: string) => FileFacts): ShopRead {
  const diagnostics: Diagnostic[] = [];
  const broken = new Set<string>();
  const sources = [...texts]
    .toSorted(([a], [b]) => (a < b ? -1 : 1))
    .map(([file, text]) => ({ file, ...withoutMark(text) }));
  const keep = <T>(read: { diagnostics: readonly Diagnostic[]; broken?: readonly string[] }, value: T): T => {
    diagnostics.push(...read.diagnostics);
    for (const id of read.broken ?? []) broken.add(id);
    return value;
  };
  /** Reads every file of a kind; one that cannot be read is remembered, so that nobody is told it does not exist. */
  const each = <T>(pattern: RegExp, read: (id: string, text: string, points: Points) => T | undefined): T[] =>
    sources.flatMap(({ file, text }) => {
      const id = pattern.exec(file)?.[1];
      if (id === undefined) return [];
      const value = read(id, text, new Points(file, text));
      if (value === undefined) broken.add(id);
      return value === undefined ? [] : [value];
    });
  const only = (file: string) => sources.find((source) => source.file === file)?.text ?? '';

  const info = readYaml(
    only(CONTENT_FILES.shop),
    new Points(CONTENT_FILES.shop, only(CONTENT_FILES.shop)),
    0,
    shopSchema,
    'the shop',
  );
  if (texts.has(CONTENT_FILES.shop)) keep(info, undefined);
  const kit = readYaml(
    only(CONTENT_FILES.kit),
    new Points(CONTENT_FILES.kit, only(CONTENT_FILES.kit)),
    0,
    kitSchema,
    'the kit',
  );
  keep(kit, undefined);
  if (!kit.value) broken.add(CONTENT_FILES.kit);

  const recordings = each<Recording>(CONTENT_FILES.recording, (id, text, points) => {
    const read = readRecording(id, text, points, facts);
    return keep(read, read.recording);
  });
  const byId = new Map(recordings.map((recording) => [recording.id, recording]));
  const lessons = each<Lesson>(CONTENT_FILES.lesson, (id, text, points) => {
    const read = readLesson(id, text, points, byId, facts);
    return keep(read, read.lesson);
  });
  const machines = each<Machine>(CONTENT_FILES.machine, (id, text, points) => {
    const read = readMachine(id, text, points);
    return keep(read, read.machine);
  });
  const classes = each<ShopClass>(CONTENT_FILES.shopClass, (id, text, points) => {
    const read = readYaml(text, points, 0, classSchema, 'a class');
    return keep(read, read.value && { ...read.value, id, origin: read.origin });
  });
  const actuals = each<Actual>(CONTENT_FILES.actual, (id, text, points) => {
    const read = readYaml(text, points, 0, actualSchema, 'what a class took');
    return keep(read, read.value && { ...read.value, id, origin: read.origin });
  });
  const corrections = each<readonly Correction[]>(CONTENT_FILES.corrections, (id, text, points) => {
    const read = readCorrections(id, text, points, lessons, byId);
    return keep(read, read.corrections);
  }).flat();
  for (const { file } of sources) {
    const known = Object.values(CONTENT_FILES).some((kind) =>
      typeof kind === 'string' ? kind === file : kind.test(file),
    );
    if (!known && ASTRAY.test(file))
      diagnostics.push(tell('file-ignored', startOf(file), `${file} is not read`, whereItBelongs(file)));
  }

  const name: ShopInfo = { name: 'This shop', ...info.value, origin: info.origin };
  const stock: Kit = { ...kit.value, origin: kit.origin };
  const shop = { info: name, recordings, lessons, machines, kit: stock, classes, actuals, corrections, broken };
  return { shop, diagnostics };
}

/** Camera files and captions that the content names, to be looked at on disk before reading. */
export function filesNamed(texts: ReadonlyMap<string, string>): { media: string[]; texts: string[] } {
  const media = new Set<string>();
  const captions = new Set<string>();
  // Only recordings name files; reading the lessons for it would double the time of a check.
  const naming = new Map([...texts].filter(([file]) => CONTENT_FILES.recording.test(file)));
  readShop(naming, () => ({ state: 'missing' })).shop.recordings.forEach(({ written }) => {
    for (const { file } of written.files) media.add(file);
    for (const { file } of written.angles ?? []) media.add(file);
    if (written.captions) captions.add(written.captions);
  });
  return { media: [...media], texts: [...captions] };
}

/** The text without a byte order mark, which would shift every offset by one. */
function withoutMark(text: string): { text: string } {
  return { text: text.startsWith('\uFEFF') ? text.slice(1) : text };
}

function whereItBelongs(file: string): string {
  const folder = file.split('/')[0] ?? '';
  if (!file.includes('/'))
    return didYouMean(file, [CONTENT_FILES.shop, CONTENT_FILES.kit], 'at the top stand shop.yaml and kit.yaml');
  return folder === 'lessons' ? 'a lesson ends in .mdx' : `what stands in ${folder}/ ends in .yaml`;
}
