import { hash } from 'node:crypto';
import type { Lesson, Recording, Shop } from '../../core/model/index.ts';
import { inLanguage, type ListPart, languagesOf, lessonsParts, stepsParts } from '../../core/pages/index.ts';
import { fileInLanguage } from '../../core/read/index.ts';
import { stepsShown } from '../../core/search/index.ts';
import { FOOTAGE } from './footage-paths.ts';
import { localeOfPath, type Site } from './open-site.ts';
import { ROWS_OF_BLOCK } from './site-search.ts';

/**
 * For each page that is about some lessons, and for the captions of each, the sum of all that goes into it. Two pages
 * with one sum are the same, letter by letter: a page of the last build can stand in for one that would be made anew.
 *
 * Whatever is not the text of a lesson, of its translation, or its recording, goes into every sum: after a change of a
 * spec, of the kit or of a word no page is taken from before.
 */
export class PageSums {
  readonly #site: Site;
  readonly #shared: string;
  readonly #lessons = new Map<string, string>();
  readonly #titles = new Map<string, ReadonlyMap<string, string>>();
  readonly #stillsOf: ReadonlyMap<string, readonly string[]>;
  readonly #steps: readonly string[];

  /**
   * @param made sum of the program that makes the pages and of what it is told
   */
  constructor(site: Site, made: string) {
    this.#site = site;
    const { shop, texts, unrendered, now, led, whole, locales } = site;
    const own = new Set(
      [...shop.lessons, ...shop.recordings, ...shop.translations.map(({ lesson }) => lesson)].map(
        ({ origin }) => origin.place.file,
      ),
    );
    const others = [...texts.keys()].filter((file) => !own.has(file)).toSorted();
    const told = {
      unrendered,
      led,
      whole,
      day: now.toISOString().slice(0, 10),
      languages: locales.map(({ tag }) => tag),
    };
    this.#shared = sumOf([
      made,
      told,
      others.map((file) => [file, this.#text(file)]),
      shop.collections,
      [...shop.broken],
    ]);
    const stills = new Map<string, string[]>();
    for (const path of site.stills.keys()) {
      const [, lesson = ''] = /^stills\/([^/]+?)(?:\.jpg$|\/)/.exec(path) ?? [];
      stills.set(lesson, [...(stills.get(lesson) ?? []), path]);
    }
    this.#stillsOf = stills;
    this.#steps = stepsShown(shop).map(({ lesson, step }) => `${lesson.id}/${step.id}`);
  }

  /**
   * The sum of the page at a path of the site; nothing for one that is made each time.
   *
   * @param path below the base, such as `es/lessons/chain/`
   */
  of(path: string): string | undefined {
    const { locales, whole } = this.#site;
    const locale = localeOfPath(this.#site, path);
    const inFirst = locale === locales[0] ? path : path.slice(locale.tag.length + 1);
    const about = whole ? undefined : this.#about(inFirst, locale.tag);
    if (!about) return undefined;
    const lessons = about.lessons.map((id) => this.#lesson(id));
    return lessons.includes(undefined) ? undefined : sumOf([this.#shared, path, about, lessons]);
  }

  /** The sum of all that pages say of a lesson, in whatever language; nothing where its text is not known. */
  ofLesson(id: string): string | undefined {
    const own = this.#lesson(id);
    return own === undefined ? undefined : sumOf([this.#shared, own]);
  }

  #about(path: string, language: string): { readonly lessons: readonly string[]; readonly more: unknown } | undefined {
    const { shop } = this.#site;
    const [, said] = /^lessons\/([^/]+)\/[^/]+\.vtt$/.exec(path) ?? [];
    if (said !== undefined) return { lessons: [said], more: 'captions' };
    const [, list, name = ''] = /^(lessons\/of|steps\/rows|steps|lessons)\/([^/]+)\/$/.exec(path) ?? [];
    switch (list) {
      case 'lessons':
        return { lessons: [name], more: this.#neighbours(name, language) };
      case 'steps':
        return ofPart(stepsParts(shop), name);
      case 'lessons/of':
        return ofPart(lessonsParts(shop), name);
      case 'steps/rows': {
        const from = Number(name) * ROWS_OF_BLOCK;
        const steps = this.#steps.slice(from, from + ROWS_OF_BLOCK);
        return {
          lessons: [...new Set(steps.map((step) => step.split('/')[0] ?? ''))],
          more: [steps, this.#steps.length],
        };
      }
      default:
        return undefined;
    }
  }

  /** What a lesson says of those before and after it. */
  #neighbours(id: string, language: string): unknown {
    const shown = this.#site.shop.lessons.filter(({ draft }) => !draft);
    const at = shown.findIndex((lesson) => lesson.id === id);
    const titles = this.#titlesIn(language);
    return [shown[at - 1]?.id, shown[at + 1]?.id].map((each) => each && [each, titles.get(each)]);
  }

  #titlesIn(language: string): ReadonlyMap<string, string> {
    const { shop, locales } = this.#site;
    const locale = locales.find(({ tag }) => tag === language) ?? locales[0];
    const known =
      this.#titles.get(language) ?? new Map(inLanguage(shop, locale).lessons.map(({ id, title }) => [id, title]));
    this.#titles.set(language, known);
    return known;
  }

  /** Of all that pages say of a lesson and nothing else does; nothing where its text is not known. */
  #lesson(id: string): string | undefined {
    const known = this.#lessons.get(id);
    if (known !== undefined) return known;
    const { shop, rendered, openings } = this.#site;
    const lesson = shop.lessons.find((each) => each.id === id);
    const text = lesson && this.#text(lesson.origin.place.file);
    if (!lesson || text === undefined) return undefined;
    const sum = sumOf([
      text,
      lesson.pictures.map(({ file, facts }) => [file, facts]),
      translationsOf(shop, lesson).map(({ language, lesson: own }) => [
        language,
        this.#text(own.origin.place.file),
        own.pictures.map(({ file, facts }) => [file, facts]),
      ]),
      shop.recordings.filter(({ id }) => id === lesson.recording).map((recording) => this.#brief(recording)),
      rendered.get(lesson.recording),
      openings.get(lesson.recording),
      (this.#stillsOf.get(id) ?? []).toSorted().map((path) => `${FOOTAGE}/${path}`),
    ]);
    this.#lessons.set(id, sum);
    return sum;
  }

  /** The sum of a text; where the disk tells no changes, the text itself. */
  #text(file: string): string | undefined {
    return this.#site.sums.get(file)?.sum ?? this.#site.texts.get(file);
  }

  /** A recording: the sums of its file and of its captions in the place of all that they say, and what was found of its films. */
  #brief(recording: Recording): unknown {
    const { origin, files, angles, written } = recording;
    const { captions } = written;
    const sumOfFile = (file: string) => this.#site.sums.get(file)?.sum;
    const [, ...further] = languagesOf(this.#site.shop.info);
    const own = sumOfFile(origin.place.file);
    const said = captions === undefined ? [] : [captions, ...further.map((tag) => fileInLanguage(captions, tag))];
    const [first, ...translated] = said.map(sumOfFile);
    // Without its sum a file is not there, or cannot be read, or the disk tells no changes; translations need not be there.
    if (own === undefined || (captions !== undefined && first === undefined)) return recording;
    return [own, first, translated, files, angles];
  }
}

function ofPart(parts: readonly ListPart[], name: string) {
  const part = parts.find((each) => each.name === name);
  if (!part) return undefined;
  const lessons = [...new Set(part.stretches.map(({ lesson }) => lesson))];
  return { lessons, more: [part, parts.map((each) => each.name)] };
}

function translationsOf({ translations }: Shop, { id }: Lesson) {
  return translations.filter(({ lesson }) => lesson.id === id);
}

/** SHA-256 of values, as JSON; maps as lists of their entries. */
function sumOf(values: readonly unknown[]): string {
  const text = JSON.stringify(values, (_key, value: unknown) => {
    if (value instanceof Map || value instanceof Set) return [...value];
    // JSON has no word for these, and would take all of them for one.
    return typeof value === 'number' && !Number.isFinite(value) ? String(value) : value;
  });
  return hash('sha256', text, 'hex');
}
