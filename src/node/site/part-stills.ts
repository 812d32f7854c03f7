import type { LoadedShop } from '../files/index.ts';
import { ContentErrors, errorReport } from './content-errors.ts';
import { stillPath } from './footage-paths.ts';
import { siteSourceOf } from './site-source.ts';
import { siteStills } from './site-stills.ts';

interface PartWishes {
  readonly now: () => Date;
  /** The day that it is made as on. */
  readonly madeAs: Date;
  /** The film that pictures may be taken from. */
  readonly footage: 'rendered' | 'uncut' | 'none';
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly signal: AbortSignal;
}

/**
 * The pictures of the steps of a part of a shop, out of the film that may be shown.
 *
 * @returns absolute path of the picture of a step; nothing where there is none
 * @throws ContentErrors when the part has errors
 */
export async function partStills(
  part: LoadedShop,
  { now, madeAs, footage, env, signal }: PartWishes,
): Promise<(lesson: string, step: string) => string | undefined> {
  const unrendered = footage === 'uncut' ? 'uncut' : 'none';
  const source = siteSourceOf(part.content, now, unrendered, async () => part, {
    ...{ madeAs, cameraFiles: footage !== 'rendered' },
    ...(footage !== 'none' && { takeStills: async (site) => (await siteStills(site, { env, signal })).stills }),
  });
  const site = await source.open();
  const told = errorReport(site);
  if (told) throw new ContentErrors(told);
  return (lesson, step) => site.stills.get(stillPath(lesson, step));
}
