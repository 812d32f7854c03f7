import { cp, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { stepsShown } from '../../core/search/index.ts';
import type { OutsideFailure } from '../failure.ts';
import { filesBelow, holdOutput, type LoadedShop, placeFolder, sumOf } from '../files/index.ts';
import { type Checked, ContentErrors, errorReport, takeErrors } from './content-errors.ts';
import { writeEditorHelp } from './editor-help.ts';
import { writeKeepLists } from './keep-lists.ts';
import { KeptCounts } from './kept-counts.ts';
import { KeptPages } from './kept-pages.ts';
import { LICENCES, licenceFile, licencesOf } from './licences.ts';
import { makePages } from './make-pages.ts';
import type { Site } from './open-site.ts';
import { type PageProgram, pageProgram } from './page-program.ts';
import { PageSums } from './page-sums.ts';
import { placeFootage } from './place-footage.ts';
import type { ShippedPackages } from './shipped-packages.ts';
import type { SiteOptions } from './site-config.ts';
import { siteOpenings } from './site-openings.ts';
import { type SourceWishes, siteSourceOf } from './site-source.ts';
import { type StillsTaken, siteStills } from './site-stills.ts';

/** Folder of a site being built for what is needed until its pages are made. */
const SCAFFOLD = '.scaffold';

export interface BuildOptions extends SiteOptions {
  /**
   * `rendered` publishes finished programmes only; `uncut` also the camera files of recordings that are not rendered,
   * with all that the edit list cuts out; `camera files` those of every recording, rendered or not; `none` no film at
   * all, where only pages are wanted.
   */
  readonly footage?: 'rendered' | 'uncut' | 'camera files' | 'none';
  /**
   * Only a part of the content is built, to be put elsewhere: films are not placed, and the help for editors, which
   * knows all ids, stays as it is.
   */
  readonly part?: true;
  /** Errors of the content do not stop the build: the pages wanted say themselves what is open. */
  readonly draft?: true;
  /** Told which packages have code in the scripts of a build. */
  readonly shipped?: ShippedPackages;
  /** Absolute path to build into: a new or empty folder, or one that a build has made. */
  readonly out: string;
  /** Absolute path of Liftside itself. */
  readonly home: string;
  readonly now: () => Date;
  /** Reads the content folder, where the caller has read it already or tells what was found; left out, it is read here. */
  readonly load?: () => Promise<LoadedShop>;
  /** Checks the folder on a day; left out, the rules are asked here, and what they find is not kept. */
  readonly check?: (today: string) => Promise<Checked>;
  /** The day that the pages are made as on, so that they are the same whenever they are made; now when left out. */
  readonly madeAs?: Date;
  /** The finished programme of a recording; the one that lies beside the content when left out. */
  readonly programmeOf?: SourceWishes['programmeOf'];
  /** Where ffmpeg is looked for, to take pictures of lessons and steps; left out, none are taken. */
  readonly env?: Readonly<Record<string, string | undefined>>;
  /** The windows of a class day are put into it afterwards, so that its classes can be led from it. */
  readonly led?: boolean;
  /** Asked before the site takes its place. */
  readonly signal?: AbortSignal;
}

export interface Built {
  /** Steps that search finds. */
  readonly steps: number;
  readonly lessons: number;
  readonly classes: number;
  /** Recordings of its lessons that are not rendered. */
  readonly unrendered: readonly string[];
  /** Pictures of lessons, chapters and steps: absolute path, by path below the site's footage. */
  readonly stills: ReadonlyMap<string, string>;
  /** Why no pictures of steps could be taken, and what helps. */
  readonly withoutStills?: OutsideFailure;
}

/**
 * Builds the static site beside its place, and puts it there when it is whole; until then the last one stays.
 *
 * @throws ContentErrors when the content has errors; nothing is written then
 * @throws OutsideFailure when the folder may not be replaced, when the scripts of a page weigh more than they may, when
 *   the disk refuses
 */
export async function buildSite(options: BuildOptions): Promise<Built> {
  const { content, out, home, now, load, signal, madeAs, env, programmeOf, footage = 'rendered' } = options;
  const output = { target: out, holds: 'a site', content } as const;
  const published = isPublished(options);
  // Before the content is read, which may take long.
  await holdOutput(output);
  // And this before all of it is held in memory.
  const checked = await options.check?.(now().toISOString().slice(0, 10));
  let taken: StillsTaken | undefined;
  const source = siteSourceOf(
    content,
    now,
    footage === 'uncut' || footage === 'camera files' ? 'uncut' : 'none',
    load,
    {
      ...(madeAs && { madeAs }),
      ...(programmeOf && { programmeOf }),
      cameraFiles: footage === 'camera files',
      led: options.led === true,
      whole: options.part === true,
      ...(env &&
        footage !== 'none' && {
          takeStills: async (site) => {
            taken = await siteStills(site, { env, signal: signal ?? new AbortController().signal });
            return taken.stills;
          },
        }),
      ...(footage !== 'none' &&
        published && {
          makeOpenings: (site) => siteOpenings(site, signal ?? new AbortController().signal),
        }),
    },
  );
  const site = await source.open();
  if (checked) takeErrors(site, checked);
  const told = options.draft ? undefined : errorReport(site);
  if (told) throw new ContentErrors(told);
  const { shop } = site;
  if (published)
    await writeEditorHelp(content, shop).catch(() => {
      // A content folder that cannot be written to still makes a site.
    });
  await placeFolder({ ...output, what: 'a build', ...(signal && { signal }) }, async (next, last) => {
    const program = await programFor(site, options, join(next, SCAFFOLD));
    const sums = published ? pageSums(site, program, footage) : undefined;
    const kept = sums && (await KeptPages.open(sums, last));
    const counts = sums && (await KeptCounts.open(content, sums));
    await cp(program.assets, next, { recursive: true });
    await makePages({ source, maker: program.maker(), ...(kept && { kept }), ...(counts && { counts }) }, next);
    counts?.close();
    if (footage !== 'none' && !options.part) await placeFootage(site, next, last);
    options.shipped?.see(program.packages);
    await writeFile(join(next, LICENCES), licenceFile(await licencesOf(home, program.packages)));
    await rm(join(next, SCAFFOLD), { recursive: true, force: true });
    if (!kept) return;
    await writeKeepLists({
      ...{ site: next, base: baseOf(options.base), shop, content, kept },
      made: (madeAs ?? now()).toISOString().slice(0, 10),
    });
    kept.write(next);
  });
  const taught = new Set(shop.lessons.filter(({ draft }) => !draft).map(({ recording }) => recording));
  return {
    steps: stepsShown(shop).length,
    lessons: shop.lessons.length,
    classes: shop.classes.length,
    stills: site.stills,
    ...(taken?.without && { withoutStills: taken.without }),
    unrendered: shop.recordings.map(({ id }) => id).filter((id) => taught.has(id) && !site.rendered.has(id)),
  };
}

/** True for the whole site of a shop, which goes to a web server. */
function isPublished({ part, draft }: BuildOptions): boolean {
  return !part && !draft;
}

/** The program of the pages of a site. A draft is printed in the first language of the shop. */
function programFor({ shop, locales }: Site, options: BuildOptions, scratch: string): Promise<PageProgram> {
  const { home, base, address = shop.info.site } = options;
  const wishes = {
    ...{ home, base: baseOf(base), keepable: isPublished(options) },
    languages: options.draft ? [] : locales.slice(1).map(({ tag }) => tag),
    ...(address !== undefined && { address }),
  };
  return pageProgram(wishes, scratch);
}

/** Pages have the same sum only where they name the same scripts and sheets. */
function pageSums(site: Site, { sum, assets }: PageProgram, footage: NonNullable<BuildOptions['footage']>): PageSums {
  const named = filesBelow(assets).toSorted();
  return new PageSums(site, sumOf(JSON.stringify([sum, named, footage])));
}

/** With a slash at its end, as pages write it. */
function baseOf(base = '/'): string {
  return base.endsWith('/') ? base : `${base}/`;
}
