import { type PictureUnit, planPicture } from '../../core/media/index.ts';
import { assemblePicture, CannotCopy, type Strip } from './assemble.ts';
import { runJobs, type Wanted, type Workplace, want } from './pool.ts';
import { lookOf, type Prepared } from './prepare.ts';
import { blankPicture, encodePicture } from './tasks.ts';

/** Longest piece encoded in one go, s. */
const CHUNK = 20;

/** Cards to be burnt in: their text for ffmpeg, and the frames of the recording they are shown on. */
export interface Burn {
  readonly cards: string;
  readonly changed: readonly { readonly first: number; readonly count: number }[];
}

/**
 * The picture of the programme as jobs, and the way to put their results together.
 *
 * @param refused files that turned out not to be copyable, with the reason
 */
export function planRenderedPicture(
  prepared: Prepared,
  refused: ReadonlyMap<string, string>,
  burn?: Burn,
): {
  readonly units: readonly PictureUnit[];
  readonly wanted: readonly Wanted[];
  assemble(results: readonly string[], path: string, place: Workplace): Promise<void>;
} {
  const { rate } = prepared;
  const fps = rate.numerator / rate.denominator;
  const fraction = `${rate.numerator}/${rate.denominator}`;
  const { look, sources } = lookOf(prepared, refused);
  const units = planPicture(prepared.kept, sources, {
    chunk: Math.round(fps * CHUNK),
    ...(burn && { changed: burn.changed }),
  });
  const wanted: Wanted[] = [];
  const strips: ((results: readonly string[]) => Strip)[] = [];
  for (const unit of units) {
    if (unit.kind === 'copy') {
      const source = prepared.files[unit.source];
      if (!source) continue;
      strips.push(() => ({
        path: source.file.path,
        first: unit.first - source.first,
        count: unit.count,
        lead: source.lead,
        whole: false,
        at: unit.at,
      }));
      continue;
    }
    const index = wanted.length;
    wanted.push(unit.kind === 'blank' ? blank(unit) : encode(unit));
    strips.push((results) => ({
      path: results[index] ?? '',
      first: 0,
      count: unit.count,
      lead: 0,
      whole: true,
      at: unit.at,
    }));
  }

  function blank(unit: PictureUnit): Wanted {
    const coding = look.files[0]?.coding;
    if (!coding) throw new RangeError('a recording has at least one file');
    const size = { width: look.width, height: look.height };
    return want(
      blankPicture,
      [],
      { count: unit.count, rate: fraction, size, coding: { ...coding, parameterSet: 31 } },
      unit.count / fps,
    );
  }

  function encode(unit: PictureUnit & { readonly kind: 'encode' }): Wanted {
    const source = prepared.files[unit.source];
    const how = look.files[unit.source];
    const picture = source?.file.picture;
    if (!source || !picture || !how) throw new RangeError('an encoded piece comes from a file with a picture');
    return want(
      encodePicture,
      [{ path: source.file.path, content: source.file.content }],
      {
        picture: {
          first: unit.first - source.first,
          count: unit.count,
          rate: fraction,
          stream: picture.stream,
          start: picture.start,
          clock: source.file.clock,
          lead: source.lead / fps,
          fit: how.fit,
          turn: how.turn,
          deinterlace: picture.interlaced,
          cards: null,
          coding: how.coding,
        },
      },
      unit.count / fps,
    );
  }

  return {
    units,
    wanted,
    async assemble(results, path, place) {
      await assemblePicture(
        strips.map((strip) => strip(results)),
        path,
        { rate, width: look.width, height: look.height, rotation: look.rotation },
        place,
      );
    },
  };
}

/** Renders the picture; a file whose groups of pictures are not what its index says is encoded in a second try. */
export async function renderPicture(
  prepared: Prepared,
  path: string,
  place: Workplace,
  beside: readonly Wanted[],
  burn?: Burn,
): Promise<{ readonly units: readonly PictureUnit[]; readonly beside: readonly string[] }> {
  const refused = new Map<string, string>();
  for (;;) {
    const plan = planRenderedPicture(prepared, refused, burn);
    const results = await runJobs([...beside, ...plan.wanted], place);
    try {
      await plan.assemble(results.slice(beside.length), path, place);
      return { units: plan.units, beside: results.slice(0, beside.length) };
    } catch (error) {
      if (!(error instanceof CannotCopy) || refused.has(error.path)) throw error;
      refused.set(error.path, error.message);
    }
  }
}
