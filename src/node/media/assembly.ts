import { basename } from 'node:path';
import { z } from 'zod';
import type { JobInput } from '../../core/media/index.ts';
import { sharedConfiguration } from './assemble.ts';
import { runJobs, runJsonJobs, type Workplace, want } from './pool.ts';
import type { Assembled, Assembly } from './strips.ts';
import { joinPictures, measureDepth } from './tasks.ts';

/**
 * Puts coded pictures together, piece by piece; pieces that are there are not put together again.
 *
 * @throws CannotCopy when a file cannot be copied from after all
 */
export async function assemble({ inputs, pieces, form }: Assembly, place: Workplace): Promise<Assembled> {
  const fps = form.rate.numerator / form.rate.denominator;
  const file = (index: number): JobInput => {
    const input = inputs[index];
    if (!input) throw new RangeError(`an assembly lacks file ${index}`);
    return input;
  };
  const all = pieces.flatMap((strips) => strips.map((strip) => file(strip.file).path));
  const whole = { ...form, configuration: await sharedConfiguration(all) };
  place.progress.start('putting together');
  const joins = pieces.map((strips) => {
    const own = [...new Map(strips.map((strip) => [file(strip.file).path, file(strip.file)])).values()];
    const moved = strips.map((strip) => ({
      ...strip,
      file: own.findIndex(({ path }) => path === file(strip.file).path),
    }));
    const frames = strips.reduce((n, { count }) => n + count, 0);
    return { frames, job: want(joinPictures, own, { strips: moved, form: whole }, frames / fps) };
  });
  const paths = await runJobs(
    joins.map(({ job }) => job),
    place,
  );
  const files = joins.map(({ frames }, i) => ({ path: paths[i] ?? '', frames }));
  const looks = files.map(({ path }) => want(measureDepth, [{ path, content: basename(path) }], { fps }, 0));
  return { files, depth: Math.max(0, ...(await runJsonJobs(looks, z.number(), place))) };
}
