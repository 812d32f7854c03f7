import { join } from 'node:path';
import { FORMATS, writeVtt } from '../../core/interchange/index.ts';
import type { Recording, Shop } from '../../core/model/index.ts';
import {
  type Contents,
  lastDayNamed,
  MANIFEST_FILE,
  manifestText,
  nameClashes,
  PACKAGE_FOLDERS,
  PACKAGE_VERSION,
  type PackageManifest,
  packageNameReason,
  READ_ME_FILE,
  readMePage,
} from '../../core/pack/index.ts';
import { type Film, languagesOf } from '../../core/pages/index.ts';
import { finishedSpans, lessonTimes, programmeFile, retimeCaptions } from '../../core/programme/index.ts';
import { type Range, rangeToRecording } from '../../core/time/index.ts';
import { OutsideFailure } from '../failure.ts';
import { type LoadedShop, withScratchFolder } from '../files/index.ts';
import { findRendered, type RenderedFiles } from '../media/rendered.ts';
import { renderedPath } from '../site/footage-paths.ts';
import { buildSite } from '../site/index.ts';
import { ShippedPackages } from '../site/shipped-packages.ts';
import { addDayPages, dayPageOf } from './day-pages.ts';
import { entryOf, fileEntry, type PackEntry } from './entry.ts';
import { licenceEntries } from './licences.ts';
import { pageOf, pagesInFolder, placeStills } from './pages.ts';
import { type Paper, printPapers } from './papers.ts';
import { type SchoolFormat, schoolManifest, schoolScript } from './school.ts';
import { sourceOf } from './source.ts';
import { travellingManifest } from './travelling.ts';

/** What plays in a package: finished programmes, the camera files whole by the edit list, or nothing. */
export type Footage = 'rendered' | 'uncut' | 'none';

export interface PackOptions {
  /** Absolute path of the content folder. */
  readonly content: string;
  /** Absolute path of Liftside itself. */
  readonly home: string;
  readonly now: () => Date;
  readonly signal: AbortSignal;
  readonly footage: Footage;
  /** Absolute path of a Chromium that prints the papers; left out, none is printed. */
  readonly browser?: string;
  /** The open standard by which a school's system is told what is done of it. */
  readonly school?: SchoolFormat;
  /** Where ffmpeg is looked for, to take pictures of lessons and steps; left out, there are none. */
  readonly env?: Readonly<Record<string, string | undefined>>;
  /** The finished programme of a recording; the one that lies beside the content when left out. */
  readonly programmeOf?: (recording: Recording) => Promise<RenderedFiles | undefined>;
}

/** A package that is ready to be written. */
export interface Assembled {
  readonly manifest: PackageManifest;
  /** In the order in which they are written; the list of sums comes last and is not among them. */
  readonly entries: readonly PackEntry[];
  /** What is not in it that might be, and what helps. */
  readonly notes: readonly string[];
}

const { film: FILM, source: SOURCE, pages: PAGES } = PACKAGE_FOLDERS;

/**
 * Everything that goes into a package. The pages are built from its own content alone, so that they say what whoever
 * unpacks it would see.
 *
 * @throws ContentErrors when that content has errors; OutsideFailure when a name cannot travel
 */
export async function assemblePackage(
  loaded: LoadedShop,
  contents: Contents,
  options: PackOptions,
): Promise<Assembled> {
  const { content, home, now, signal, footage, browser, school, env } = options;
  // Small pictures of the whole programme and its poster stay in the shop: a package that was unpacked has none to pack.
  const programmeOf = async (recording: Recording) => {
    const found = await (options.programmeOf?.(recording) ?? findRendered(content, recording));
    if (!found) return undefined;
    const { poster: _poster, seekPictures: _seek, ...rest } = found;
    return rest;
  };
  const { part, source } = await sourceOf(loaded, contents, footage === 'uncut');
  const { texts } = part;
  const films = await filmsOf(part.shop, footage, programmeOf);
  const playing = new Map([
    ...source.map(({ path }) => [path.slice(SOURCE.length + 1), path] as const),
    ...films.flatMap(({ recording, parts }) =>
      parts.map(({ path }, part, { length: of }) => [renderedPath(recording, part, of), path] as const),
    ),
  ]);

  // A school's system records what learners do: they lead no class.
  const led = school ? undefined : part.shop.classes.find(({ id }) => id === contents.shopClass?.id);

  return withScratchFolder('package', async (scratch) => {
    const site = join(scratch, 'site');
    const shipped = new ShippedPackages(home);
    const { stills, withoutStills } = await buildSite({
      ...{ content, out: site, home, now, signal, shipped },
      ...(env && { env }),
      load: async () => part,
      footage: footage === 'uncut' ? 'camera files' : footage,
      programmeOf,
      part: true,
      led: led !== undefined,
      madeAs: new Date(`${lastDayNamed(texts.values())}T00:00:00Z`),
    });
    await placeStills(stills, site);
    const published = part.shop.info.site;
    const [, ...languages] = languagesOf(part.shop.info);
    const keep = `liftside.${contents.kind}.${contents.id}`;
    if (led)
      await addDayPages({
        ...{ site, home, keep, shipped, shop: part.shop, shopClass: led },
        filmOf: (recording) => films.find((film) => film.recording === recording)?.film ?? 'none',
      });
    const pages = await pagesInFolder({
      ...{ site, footage: playing, keep, languages },
      ...(published && { published }),
      ...(school && { school: schoolScript(home, school) }),
    });
    const papers = browser === undefined ? [] : papersOf(contents);
    const printed =
      browser === undefined
        ? []
        : await printPapers(papers, { site, browser, signal, ...(published && { published }) });
    const manifest = manifestOf(contents, part.shop, films);
    const readMe = readMePage({
      manifest,
      ...(led && { leads: `${PAGES}/${dayPageOf(led.id)}index.html` }),
      lessons: contents.lessons.map(({ id, title }) => ({ title, page: pageOf(id) })),
      languages,
      papers: papers.map(({ title, name }) => ({ title, path: `${PACKAGE_FOLDERS.papers}/${name}` })),
      ...looksOf(String(pages.get(`${PAGES}/index.html`))),
      ...(part.shop.info.contact && { contact: part.shop.info.contact }),
      ...(published && { published }),
    });
    const entries = [
      entryOf(READ_ME_FILE, readMe),
      ...[
        entryOf(MANIFEST_FILE, manifestText(manifest)),
        ...[...pages].map(([path, bytes]) => entryOf(path, bytes)),
        ...films.flatMap(({ parts, made }) => [...parts, made ?? []].flat()),
        ...timedTexts(part.shop, films),
        ...printed,
        ...source,
        ...(await licenceEntries(home, shipped.folders)),
      ].toSorted((a, b) => (a.path < b.path ? -1 : 1)),
    ];
    if (school) entries.push(schoolManifest(school, contents, part.shop, entries));
    holdNames(entries);
    const notes = withoutStills ? [`steps have no pictures: ${withoutStills.message}; ${withoutStills.help}`] : [];
    return { manifest, entries, notes };
  });
}

interface FilmOf {
  readonly recording: string;
  readonly plays: PackageManifest['films'][number]['plays'];
  readonly files: readonly string[];
  readonly film: Film;
  /** The files of the finished programme, the stretch of it that each holds, and from what it was made. */
  readonly parts: readonly PackEntry[];
  readonly spans: readonly Range<'programme'>[];
  readonly made?: PackEntry;
}

const NO_PARTS = { parts: [], spans: [] } as const;

/** What plays of each recording. @throws OutsideFailure where a programme is wanted and there is none */
async function filmsOf(
  { recordings }: Shop,
  footage: Footage,
  programmeOf: NonNullable<PackOptions['programmeOf']>,
): Promise<readonly FilmOf[]> {
  return Promise.all(
    recordings.map(async (recording): Promise<FilmOf> => {
      const { id, files } = recording;
      if (footage === 'none') return { recording: id, plays: 'nothing', files: [], film: 'none', ...NO_PARTS };
      if (footage === 'uncut')
        return {
          ...({ recording: id, plays: 'camera files', film: 'uncut', ...NO_PARTS } as const),
          files: files.map(({ file }) => `${SOURCE}/${file}`),
        };
      const rendered = await programmeOf(recording);
      if (!rendered)
        throw new OutsideFailure(
          `${id} is not rendered`,
          `liftside render ${id}, or pack the camera files whole with --footage uncut`,
        );
      const parts = await Promise.all(
        rendered.parts.map(({ file }, part, { length: of }) =>
          fileEntry(`${FILM}/${programmeFile(id, part, of)}`, file),
        ),
      );
      const lengths = rendered.parts.map(({ length }, part) => ({ length, bytes: parts[part]?.bytes ?? 0 }));
      const made = entryOf(`${FILM}/${id}.json`, travellingManifest(recording, rendered.manifest, lengths));
      const spans = finishedSpans({ ...rendered.manifest, parts: lengths });
      const film = { ...rendered.manifest, parts: lengths };
      return { recording: id, plays: 'programme', files: parts.map(({ path }) => path), film, parts, spans, made };
    }),
  );
}

function manifestOf(contents: Contents, { info }: Shop, films: readonly FilmOf[]): PackageManifest {
  const { kind, id, title, lessons } = contents;
  return {
    format: 'liftside-package',
    version: PACKAGE_VERSION,
    ...{ kind, id, title },
    shop: info.name,
    language: info.language ?? 'en',
    invented: info.invented ?? false,
    opens: kind === 'class' ? `${PAGES}/classes/${id}/index.html` : pageOf(id),
    lessons: lessons.map((lesson) => lesson.id),
    films: films.map(({ recording, plays, files }) => ({ recording, plays, files: [...files] })),
  };
}

const CLASS_PAPERS = {
  handout: 'Handout',
  'kit-list': 'Kit list',
  'job-breakdown': 'Job breakdown sheets',
  'run-sheet': 'Run sheet',
} as const;

function papersOf({ lessons, shopClass }: Contents): Paper[] {
  return [
    ...(shopClass
      ? Object.entries(CLASS_PAPERS).map(([paper, title]) => ({
          title,
          page: `classes/${shopClass.id}/${paper}/`,
          name: `${shopClass.id}.${paper}.pdf`,
        }))
      : []),
    ...lessons.map(({ id, title }) => ({ title, page: `lessons/${id}/`, name: `${id}.pdf` })),
  ];
}

/** Captions and chapters of each film in programme time, for any player; of one in several files, captions of each. */
function timedTexts(shop: Shop, films: readonly FilmOf[]): PackEntry[] {
  const made: PackEntry[] = [];
  for (const recording of shop.recordings) {
    const times = shop.lessons
      .filter((one) => one.recording === recording.id)
      .map((one) => lessonTimes(one, recording));
    made.push(...captionsOfParts(recording, films.find((film) => film.recording === recording.id)?.spans ?? []));
    for (const format of FORMATS) {
      if (format.id === 'vtt' && format.of === 'recording') {
        const written = format.write(recording, times, shop);
        if (written.ok) made.push(entryOf(`${FILM}/${recording.id}.captions.vtt`, written.value.text));
      }
      if (format.id !== 'vtt-chapters' || format.of !== 'lesson') continue;
      for (const one of times) {
        const written = format.write(one, shop);
        if (written.ok) made.push(entryOf(`${FILM}/${one.lesson.id}.chapters.vtt`, written.value.text));
      }
    }
  }
  return made;
}

function captionsOfParts({ id, captions, edit }: Recording, spans: readonly Range<'programme'>[]): PackEntry[] {
  if (!captions || captions.cues.length === 0 || spans.length < 2) return [];
  return spans.map((span, part) => {
    const shown = retimeCaptions(captions.cues, rangeToRecording(edit, span)).captions;
    return entryOf(`${FILM}/${id}.${part + 1}.captions.vtt`, writeVtt(shown, captions.blocks));
  });
}

/** Style sheets and policy of a page in the package, for the one that is made here. */
function looksOf(page: string): { styles: string[]; policy: string } {
  const styles = [...page.matchAll(/<link rel="stylesheet" href="([^"]+)">/g)].map(([, path]) => `${PAGES}/${path}`);
  const [, policy = ''] = /http-equiv="content-security-policy" content="([^"]+)"/.exec(page) ?? [];
  return { styles, policy };
}

/** @throws OutsideFailure when a file could not be kept under its name on every disk */
export function holdNames(entries: readonly PackEntry[]): void {
  const help = 'rename the file in the content folder, and where the content names it; nothing was packed';
  for (const { path } of entries) {
    const reason = packageNameReason(path);
    if (reason !== undefined) throw new OutsideFailure(`${path} cannot travel: ${reason}`, help);
  }
  const [clash] = nameClashes(entries.map(({ path }) => path));
  if (clash) throw new OutsideFailure(`${clash[0]} and ${clash[1]} are one file on many disks`, help);
}
