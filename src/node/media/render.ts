import { stat, writeFile } from 'node:fs/promises';
import {
  AAC_FRAME,
  frameTotal,
  joinedInput,
  type Levelling,
  ownInput,
  type PictureUnit,
  SAMPLE_RATE,
  type SoundPlan,
  sharesOf,
} from '../../core/media/index.ts';
import type { FrameRate, Range } from '../../core/time/index.ts';
import { runFfmpeg } from './ffmpeg.ts';
import type { Reel } from './pictures.ts';
import type { Workplace } from './pool.ts';
import type { Prepared } from './prepare.ts';
import { inWords } from './progress.ts';
import { type Burn, type PicturePieces, renderPicture } from './render-picture.ts';
import { joinSound, planRenderedSound } from './render-sound.ts';
import { sideBySide } from './side-by-side.ts';

/** Texts that go into the programme's file. */
export interface Inlays {
  /** Chapters and title, as ffmpeg reads them (FFMETADATA1). */
  readonly metadata?: string;
  /** WebVTT in programme time. */
  readonly captions?: string;
  /** ISO 639-2 code of the captions' language. */
  readonly language?: string;
}

export interface RenderedProgramme {
  readonly units: readonly PictureUnit[];
  readonly levelling?: Levelling;
  readonly sound?: SoundPlan;
}

/**
 * Renders the programme into one MP4 file: picture copied where it can be, sound levelled, chapters and captions in.
 *
 * @param output a temporary name; the file is whole when this returns
 * @param target LUFS; nothing: the level stays
 */
export async function renderProgramme(
  prepared: Prepared,
  output: string,
  wishes: {
    readonly target?: number;
    /** Where somebody speaks: comes to the target in place of the whole. */
    readonly speech?: readonly Range<'recording'>[];
    readonly inlays: Inlays;
    readonly burn?: Burn;
    /** Done while the file is written: that keeps the disk busy, and hardly a processor. */
    readonly beside?: (reel: Reel, place: Workplace) => Promise<void>;
  },
  place: Workplace,
): Promise<RenderedProgramme> {
  const sound = await planRenderedSound(prepared, wishes.target, place, wishes.speech);
  place.progress.start('rendering');
  const { pieces, beside } = await renderPicture(prepared, place, sound?.wanted ?? [], wishes.burn);
  const joined = sound && { path: place.store.temporary('aac'), plan: sound.plan };
  if (joined) await joinSound(beside, joined.path, place.signal);
  const tracks = { pieces, rate: prepared.rate, ...(joined && { sound: joined }) };
  place.progress.start('writing the programme');
  const { numerator, denominator } = prepared.rate;
  const reel = { files: pieces.files, fps: numerator / denominator };
  await sideBySide(place.signal, [
    (signal) => joinTracks(tracks, wishes.inlays, output, { ...place, signal }),
    async (signal) => wishes.beside?.(reel, { ...place, signal }),
  ]);
  return { units: pieces.units, ...(sound && { levelling: sound.levelling, sound: sound.plan }) };
}

interface Tracks {
  readonly pieces: PicturePieces;
  readonly rate: FrameRate;
  readonly sound?: { readonly path: string; readonly plan: SoundPlan };
}

async function joinTracks(
  { pieces, rate, sound }: Tracks,
  inlays: Inlays,
  output: string,
  { tools, store, signal, progress }: Workplace,
): Promise<void> {
  const fps = rate.numerator / rate.denominator;
  const list = await writeText(store.temporary('txt'), pieceList(pieces, fps));
  const inputs = joinedInput(list);
  const maps = ['-map', '0:v:0'];
  let count = 1;
  if (sound) {
    // The first packet only sets the decoder up.
    const before = (AAC_FRAME + sound.plan.lead) / SAMPLE_RATE;
    inputs.push('-itsoffset', (-before).toFixed(9), ...ownInput('aac', sound.path));
    maps.push('-map', `${count++}:a:0`);
  }
  if (inlays.captions !== undefined) {
    inputs.push(...ownInput('webvtt', await writeText(store.temporary('vtt'), inlays.captions)));
    maps.push('-map', `${count++}:s:0`, '-c:s', 'mov_text', '-metadata:s:s:0', `language=${inlays.language ?? 'und'}`);
  }
  if (inlays.metadata !== undefined) {
    inputs.push(...ownInput('ffmetadata', await writeText(store.temporary('txt'), inlays.metadata)));
    maps.push('-map_metadata', String(count), '-map_chapters', String(count));
  }
  const frames = frameTotal(pieces.units);
  progress.expect(frames / fps);
  const step = progress.step(frames / fps);
  await runFfmpeg(
    tools,
    [
      ...[...inputs, ...maps, '-c:v', 'copy', '-bsf:v', onTheGrid(rate, pieces.depth), '-c:a', 'copy'],
      ...['-video_track_timescale', String(rate.numerator)],
      ...[...(await indexInFront(pieces, sound?.plan)), '-f', 'mp4', output],
    ],
    { signal, onSeconds: (seconds) => step.reached(seconds) },
  );
  step.end();
}

/** The pieces as ffmpeg's `concat` demuxer reads them: a quote ends the quoted name, stands escaped, and begins it again. */
function pieceList({ files }: PicturePieces, fps: number): string {
  const lines = files.map(
    ({ path, frames }) => `file '${path.replaceAll("'", "'\\''")}'\nduration ${(frames / fps).toFixed(6)}\n`,
  );
  return `ffconcat version 1.0\n${lines.join('')}`;
}

/**
 * A bitstream filter that puts every picture exactly on the frame grid: joined pieces are placed by microseconds.
 * Pictures lie in the order of decoding; `depth` of them are held back.
 */
function onTheGrid({ numerator, denominator }: FrameRate, depth: number): string {
  const shown = `round(PTS*TB*${numerator}/${denominator})*${denominator}`;
  return `setts=time_base=1/${numerator}:pts=${shown}:dts=(N-${depth})*${denominator}:duration=${denominator}`;
}

/** The most an entry of the index takes, bytes: its size, composition offset, chunk and place (ISO/IEC 14496-12). */
const INDEX_ENTRY = 32;
/** Room for chapters, captions and everything else in the index, bytes. */
const INDEX_REST = 2 << 20;
/** Where the room left for the index is no more than this part of the file, it is left. */
const LITTLE = 0.01;

/**
 * The index comes before the pictures, so that playing can begin at once. Large files get room left for it; small ones
 * are written twice, which wastes no space.
 */
async function indexInFront({ files, units }: PicturePieces, sound: SoundPlan | undefined): Promise<string[]> {
  const entries = frameTotal(units) + (sound ? sound.samples / AAC_FRAME : 0);
  const room = INDEX_REST + Math.ceil(entries * INDEX_ENTRY);
  const sizes = await Promise.all(files.map(async ({ path }) => (await stat(path)).size));
  return room < sizes.reduce((sum, size) => sum + size, 0) * LITTLE
    ? ['-moov_size', String(room)]
    : ['-movflags', '+faststart'];
}

async function writeText(path: string, text: string): Promise<string> {
  await writeFile(path, text);
  return path;
}

/** What was done, in a few lines for a person. */
export function renderReport(
  { units, levelling }: RenderedProgramme,
  framesPerSecond: number,
  target: number | undefined,
): string[] {
  const { copied, encoded, blank } = sharesOf(units);
  const time = (frames: number) => inWords(frames / framesPerSecond);
  const reasons = [...new Set(units.flatMap((unit) => (unit.kind === 'encode' ? [unit.why] : [])))];
  const shares = [
    ...(copied > 0 ? [`${time(copied)} copied`] : []),
    ...(encoded > 0 ? [`${time(encoded)} encoded`] : []),
    ...(blank > 0 ? [`${time(blank)} black, where no file has a picture`] : []),
  ];
  const why = reasons.length > 0 ? ` (${reasons.join('; ')})` : '';
  const lines = [`picture: ${shares.join(', ')}${why}`];
  if (!levelling) lines.push('sound: none');
  else if (levelling.loudness === undefined) lines.push('sound: level left as it is');
  else
    lines.push(
      `sound: ${levelling.programme === undefined ? '' : 'speech of '}${levelling.loudness.toFixed(1)} LUFS brought to ${target ?? ''} LUFS by ${levelling.gain} dB${
        levelling.limit ? ', peaks held at -1 dBTP' : ''
      }${levelling.programme === undefined ? '' : `; the whole programme was at ${levelling.programme.toFixed(1)} LUFS`}`,
    );
  return lines;
}
