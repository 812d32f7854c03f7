import {
  type CardRun,
  type JobInput,
  type PictureJob,
  type PictureUnit,
  planPicture,
  shownSize,
} from '../../core/media/index.ts';
import { assemblePicture, CannotCopy, type Strip } from './assemble.ts';
import type { CardDesk } from './draw-cards.ts';
import { fingerprint } from './fingerprint.ts';
import { runJobs, type Wanted, type Workplace, want } from './pool.ts';
import { lookOf, type Prepared } from './prepare.ts';
import { blankPicture, encodePicture } from './tasks.ts';

/** Longest piece encoded in one go, s. */
const CHUNK = 20;

/** Cards to be burnt in, and who draws them. */
export interface Burn {
  readonly runs: readonly CardRun[];
  readonly desk: Pick<CardDesk, 'drawing'>;
}

/** The runs of cards as drawings, one a run. */
interface Drawn {
  readonly runs: readonly CardRun[];
  readonly drawings: readonly JobInput[];
}

/**
 * The picture of the programme as jobs, and the way to put their results together.
 *
 * @param refused files that turned out not to be copyable, with the reason
 */
export function planRenderedPicture(
  prepared: Prepared,
  refused: ReadonlyMap<string, string>,
  drawn?: Drawn,
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
    ...(drawn && { changed: drawn.runs }),
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

  /** The drawing over a piece as a further input, and how it has to be turned. */
  function burnt(index: number | undefined): { inputs: readonly JobInput[]; turned: PictureJob['burnt'] } {
    const drawing = index === undefined ? undefined : drawn?.drawings[index];
    return drawing ? { inputs: [drawing], turned: look.rotation } : { inputs: [], turned: null };
  }

  function blank(unit: PictureUnit & { readonly kind: 'blank' }): Wanted {
    const coding = look.files[0]?.coding;
    if (!coding) throw new RangeError('a recording has at least one file');
    const size = { width: look.width, height: look.height };
    const { inputs, turned } = burnt(unit.burnt);
    return want(
      blankPicture,
      inputs,
      { count: unit.count, rate: fraction, size, coding: { ...coding, parameterSet: 31 }, burnt: turned },
      unit.count / fps,
    );
  }

  function encode(unit: PictureUnit & { readonly kind: 'encode' }): Wanted {
    const source = prepared.files[unit.source];
    const how = look.files[unit.source];
    const picture = source?.file.picture;
    if (!source || !picture || !how) throw new RangeError('an encoded piece comes from a file with a picture');
    const { inputs, turned } = burnt(unit.burnt);
    return want(
      encodePicture,
      [{ path: source.file.path, content: source.file.content }, ...inputs],
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
          burnt: turned,
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
    const plan = planRenderedPicture(prepared, refused, burn && (await draw(burn, prepared, refused, place)));
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

/** Draws what is to be burnt in, each set of cards once. */
async function draw(
  { runs, desk }: Burn,
  prepared: Prepared,
  refused: ReadonlyMap<string, string>,
  place: Workplace,
): Promise<Drawn> {
  const size = shownSize(lookOf(prepared, refused).look);
  const paths = await runJobs(
    runs.map(({ cards }) => desk.drawing(cards, size)),
    place,
  );
  const drawings = await Promise.all(paths.map(async (path) => ({ path, content: await fingerprint(path) })));
  return { runs, drawings };
}
