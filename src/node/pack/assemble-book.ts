import {
  BOOK_DOCUMENT,
  BOOK_FOLDER,
  BOOK_STYLES,
  type BookAbout,
  CONTAINER,
  isBookPicture,
  lessonDocuments,
  navigation,
  packageDocument,
  titlePage,
} from '../../core/book/index.ts';
import {
  type Contents,
  lastDayNamed,
  MANIFEST_FILE,
  manifestText,
  PACKAGE_VERSION,
  type PackageManifest,
  SUMS_FILE,
} from '../../core/pack/index.ts';
import { fileInside, type LoadedShop } from '../files/index.ts';
import { partStills } from '../site/part-stills.ts';
import { type Assembled, holdNames, type PackOptions } from './assemble.ts';
import { entryOf, fileEntry, type PackEntry } from './entry.ts';
import { licenceEntries } from './licences.ts';
import { sourceOf } from './source.ts';
import { uuidOf } from './uuid-of.ts';

interface BookOptions extends Pick<PackOptions, 'content' | 'home' | 'signal' | 'footage'> {
  readonly now: () => Date;
  readonly env: Readonly<Record<string, string | undefined>>;
}

/**
 * A lesson or class as a book: EPUB 3.2, in one zip file that is a package too, with its content and sums.
 *
 * @throws ContentErrors when the content has errors; OutsideFailure when a name cannot travel or ffmpeg fails
 */
export async function assembleBook(loaded: LoadedShop, contents: Contents, options: BookOptions): Promise<Assembled> {
  const { content, home, now, signal, footage, env } = options;
  const { part, source } = await sourceOf(loaded, contents, false);
  const { shop, texts } = part;
  const made = lastDayNamed(texts.values());
  const stillOf = await partStills(part, { now, madeAs: new Date(`${made}T00:00:00Z`), footage, env, signal });
  const picture = (lesson: string, step: string) => `pictures/steps/${lesson}/${step}.jpg`;
  const pictures = contents.lessons.flatMap(({ id, chapters }) =>
    chapters.flatMap(({ steps }) =>
      steps.flatMap((step) => {
        const file = stillOf(id, step.id);
        return file === undefined ? [] : [{ path: picture(id, step.id), file }];
      }),
    ),
  );
  const taken = new Set(pictures.map(({ path }) => path));
  const own = contents.media.filter(isBookPicture);
  const published = shop.info.site;
  const about: BookAbout = {
    identifier:
      published === undefined
        ? uuidOf(JSON.stringify([...texts]))
        : new URL(`${contents.kind === 'class' ? 'classes' : 'lessons'}/${contents.id}/#book`, published).href,
    title: contents.title,
    shop: shop.info.name,
    language: shop.info.language ?? 'en',
    made,
    invented: shop.info.invented ?? false,
  };
  const documents = [
    titlePage(about),
    ...shop.lessons
      .filter(({ id }) => contents.lessons.some((one) => one.id === id))
      .flatMap((lesson) =>
        lessonDocuments(shop, {
          lesson,
          stepPicture: (step) => (taken.has(picture(lesson.id, step)) ? picture(lesson.id, step) : undefined),
          contentPicture: (file) => (own.includes(file) ? `pictures/content/${encodeURI(file)}` : undefined),
          ...(published && { published }),
        }),
      ),
  ];
  const manifest: PackageManifest = {
    format: 'liftside-package',
    version: PACKAGE_VERSION,
    ...{ kind: contents.kind, id: contents.id, title: contents.title, shop: about.shop },
    ...{ language: about.language, invented: about.invented, opens: `${BOOK_FOLDER}/title.xhtml` },
    lessons: contents.lessons.map(({ id }) => id),
    films: shop.recordings.map(({ id }) => ({ recording: id, plays: 'nothing', files: [] })),
  };
  const inBook = (name: string) => `${BOOK_FOLDER}/${name}`;
  const rest: PackEntry[] = [
    entryOf('META-INF/container.xml', CONTAINER),
    ...documents.map(({ name, text }) => entryOf(inBook(name), text)),
    entryOf(inBook('contents.xhtml'), navigation(about, documents)),
    entryOf(inBook('book.css'), BOOK_STYLES),
    ...(await Promise.all(pictures.map(({ path, file }) => fileEntry(inBook(path), file)))),
    ...(await Promise.all(own.map((file) => fileEntry(inBook(`pictures/content/${file}`), fileInside(content, file))))),
    entryOf(MANIFEST_FILE, manifestText(manifest)),
    ...source,
    ...(await licenceEntries(home, [])),
  ];
  const files = [...rest.map(({ path }) => path), SUMS_FILE];
  const entries = [
    entryOf('mimetype', 'application/epub+zip'),
    ...[...rest, entryOf(BOOK_DOCUMENT, packageDocument(about, documents, files))].toSorted((a, b) =>
      a.path < b.path ? -1 : 1,
    ),
  ];
  holdNames(entries);
  return { manifest, entries, notes: [] };
}
