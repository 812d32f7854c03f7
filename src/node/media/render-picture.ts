import { basename } from 'node:path';
import { z } from 'zod';
import {
  addMovement,
  type CardRun,
  cornerFor,
  type JobInput,
  type Movement,
  type PictureJob,
  type PictureUnit,
  piecesOf,
  planPicture,
  shownSize,
} from '../../core/media/index.ts';
import { CARD_CORNERS, type CardCorner } from '../../core/model/index.ts';
import { CannotCopy } from './assemble.ts';
import { assemble } from './assembly.ts';
import type { CardDesk } from './draw-cards.ts';
import { fingerprint } from './fingerprint.ts';
import { resultPaths, runJobs, runJsonJobs, type Wanted, type Workplace, want } from './pool.ts';
import { lookOf, type Prepared } from './prepare.ts';
import type { Assembled, Assembly, Strip } from './strips.ts';
import { blankPicture, encodePicture, lookAtCorners } from './tasks.ts';

/** Longest run encoded in one go, s. */
const CHUNK = 20;
/** Pieces of the picture end at the first place after each so many seconds of the recording. */
const PIECE = 60;

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
  /** Of the units that cards are burnt into, by run. */
  readonly looks: readonly { readonly run: number; readonly job: Wanted }[];
  /** How the results of `wanted` are put together. @param results where they lie, or will */
  assembly(results: readonly string[]): Assembly;
} {
  const { rate } = prepared;
  const fps = rate.numerator / rate.denominator;
  const fraction = `${rate.numerator}/${rate.denominator}`;
  const { look, sources } = lookOf(prepared, refused);
  const units = planPicture(prepared.shown, sources, {
    chunk: Math.round(fps * CHUNK),
    piece: Math.round(fps * PIECE),
    ...(drawn && { changed: drawn.runs }),
  });
  const wanted: Wanted[] = [];
  const indexes = new Map<PictureUnit, number>();
  for (const unit of units) {
    if (unit.kind === 'copy') continue;
    indexes.set(unit, wanted.length);
    wanted.push(unit.kind === 'blank' ? blank(unit) : encode(unit));
  }

  /** A unit as a strip of a file: of the camera's where it is copied, else of the one encoded for it. */
  function stripOf(unit: PictureUnit, results: readonly string[]): { input: JobInput; strip: Omit<Strip, 'file'> } {
    if (unit.kind === 'copy') {
      const source = prepared.files[unit.source];
      if (!source) throw new RangeError('a copied piece comes from a file');
      const { path, content } = source.file;
      const strip = { first: unit.first - source.first, count: unit.count, lead: source.lead, whole: false };
      return { input: { path, content }, strip };
    }
    const path = results[indexes.get(unit) ?? -1];
    if (path === undefined) throw new RangeError('an encoded piece lacks its result');
    // Results bear the key of their content.
    return { input: { path, content: basename(path) }, strip: { first: 0, count: unit.count, lead: 0, whole: true } };
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
    const { file, picture, inputs } = jobOf(unit);
    return want(encodePicture, [file, ...inputs], { picture }, unit.count / fps);
  }

  /** What has to be seen of a unit to know where nothing moves. */
  function lookAt(unit: PictureUnit & { readonly kind: 'encode' }): Wanted {
    const { file, picture } = jobOf(unit);
    const upright = look.rotation === 0 ? {} : { fit: null };
    return want(lookAtCorners, [file], { picture: { ...picture, ...upright, burnt: null } }, unit.count / fps);
  }

  function jobOf(unit: PictureUnit & { readonly kind: 'encode' }): {
    readonly file: JobInput;
    readonly picture: PictureJob;
    readonly inputs: readonly JobInput[];
  } {
    const source = prepared.files[unit.source];
    const how = look.files[unit.source];
    const picture = source?.file.picture;
    if (!source || !picture || !how) throw new RangeError('an encoded piece comes from a file with a picture');
    const { inputs, turned } = burnt(unit.burnt);
    return {
      file: { path: source.file.path, content: source.file.content },
      inputs,
      picture: {
        first: unit.first - source.first,
        count: unit.count,
        rate: fraction,
        stream: picture.stream,
        start: picture.start,
        clock: source.file.clock,
        lead: source.lead / fps,
        drift: source.drift,
        fit: how.fit,
        turn: how.turn,
        deinterlace: picture.interlaced,
        even: source.copyable.even === true,
        burnt: turned,
        coding: how.coding,
      },
    };
  }

  return {
    units,
    wanted,
    looks: units.flatMap((unit) =>
      unit.kind === 'encode' && unit.burnt !== undefined ? [{ run: unit.burnt, job: lookAt(unit) }] : [],
    ),
    assembly(results) {
      const pieces = piecesOf(units, Math.round(fps * PIECE)).map((piece) =>
        piece.map((unit) => stripOf(unit, results)),
      );
      const inputs = [...new Map(pieces.flat().map(({ input }) => [input.path, input])).values()];
      const { width, height, rotation } = look;
      return {
        inputs,
        pieces: pieces.map((piece) =>
          piece.map(({ input, strip }) => ({ file: inputs.findIndex(({ path }) => path === input.path), ...strip })),
        ),
        form: {
          rate: { numerator: rate.numerator, denominator: rate.denominator },
          ...{ width, height, rotation },
        },
      };
    },
  };
}

/** The picture as files to be shown one after the other. */
export interface PicturePieces extends Assembled {
  readonly units: readonly PictureUnit[];
}

/** Renders the picture; a file whose groups of pictures are not what its index says is encoded in a second try. */
export async function renderPicture(
  prepared: Prepared,
  place: Workplace,
  beside: readonly Wanted[],
  burn?: Burn,
): Promise<{ readonly pieces: PicturePieces; readonly beside: readonly string[] }> {
  const refused = new Map<string, string>();
  for (;;) {
    const plan = planRenderedPicture(prepared, refused, burn && (await draw(burn, prepared, refused, place)));
    const paths = resultPaths([...beside, ...plan.wanted], place);
    const assembly = plan.assembly(paths.slice(beside.length));
    try {
      const assembled = await assembleAll({ pictures: plan.wanted, beside }, assembly, place);
      return { pieces: { units: plan.units, ...assembled }, beside: paths.slice(0, beside.length) };
    } catch (error) {
      if (!(error instanceof CannotCopy) || refused.has(error.path)) throw error;
      refused.set(error.path, error.message);
    }
  }
}

async function assembleAll(
  wanted: { readonly pictures: readonly Wanted[]; readonly beside: readonly Wanted[] },
  assembly: Assembly,
  place: Workplace,
): Promise<Assembled> {
  if (place.crew?.assemble) return place.crew.assemble(wanted, assembly, place);
  await runJobs([...wanted.beside, ...wanted.pictures], place);
  return assemble(assembly, place);
}

/** Draws what is to be burnt in, each set of cards once. */
async function draw(
  { runs, desk }: Burn,
  prepared: Prepared,
  refused: ReadonlyMap<string, string>,
  place: Workplace,
): Promise<Drawn> {
  const { look } = lookOf(prepared, refused);
  const corners = await cornersOf(runs, prepared, refused, place);
  const paths = await runJobs(
    runs.map(({ cards }, i) => desk.drawing(cards, shownSize(look), corners[i] ?? 'top-left')),
    place,
  );
  const drawings = await Promise.all(paths.map(async (path) => ({ path, content: await fingerprint(path) })));
  return { runs, drawings };
}

/** A corner for each run: the recording's own, else one where no hands are while its cards are shown. */
async function cornersOf(
  runs: readonly CardRun[],
  prepared: Prepared,
  refused: ReadonlyMap<string, string>,
  place: Workplace,
): Promise<CardCorner[]> {
  const open = runs.filter(({ corner }) => corner === undefined);
  const drawn = { runs: open, drawings: [] };
  const { looks } = planRenderedPicture(prepared, refused, drawn);
  const found = await runJsonJobs(
    looks.map(({ job }) => job),
    movement,
    place,
  );
  let before: CardCorner | undefined;
  return runs.map(({ corner, at }) => {
    if (corner !== undefined) return corner;
    const own = found.filter((_, i) => open[looks[i]?.run ?? -1]?.at === at);
    before = cornerFor(addMovement(own), before);
    return before;
  });
}

const movement: z.ZodType<Movement> = z.record(z.enum(CARD_CORNERS), z.number());
