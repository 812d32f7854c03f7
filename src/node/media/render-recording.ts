import { cp, readdir, rename, rm, stat, writeFile } from 'node:fs/promises';
import { dirname, join, sep } from 'node:path';
import {
  ENCODERS,
  frameTotal,
  planCards,
  planSeekPictures,
  shownSize,
  usedOf,
  type Version,
} from '../../core/media/index.ts';
import type { PlacedCard } from '../../core/programme/index.ts';
import type { Range } from '../../core/time/index.ts';
import { OutsideFailure } from '../failure.ts';
import { errorCode, type FolderWishes, holdOutput, type OutputFolder, placeFolder } from '../files/index.ts';
import { holdRoom, makeWritable, spaceAt } from './disk.ts';
import { makeHls } from './hls.ts';
import { makePoster, makeSeekPictures, type Reel } from './pictures.ts';
import type { Workplace } from './pool.ts';
import { lookOf, type Prepared } from './prepare.ts';
import { type Inlays, type RenderedProgramme, renderProgramme } from './render.ts';
import type { Burn } from './render-picture.ts';
import { anglesKey, cardsFingerprint, MANIFEST, type Manifest } from './rendered.ts';
import { makeWebm } from './webm.ts';

export interface RenderWishes {
  /** Absolute path of the folder to put everything in. */
  readonly folder: string;
  /** LUFS; nothing: the level stays as it is. */
  readonly target?: number;
  /** Where somebody speaks: comes to the target in place of the whole. */
  readonly speech?: readonly Range<'recording'>[];
  readonly versions: readonly Version[];
  readonly inlays: Inlays;
  /** Cards to burn in, and who draws them. */
  readonly burn?: { readonly cards: readonly PlacedCard[]; readonly desk: Burn['desk'] };
}

export interface RenderOutcome {
  readonly folder: string;
  /** Nothing where all was there already. */
  readonly made?: RenderedProgramme;
  readonly manifest: Manifest;
}

/**
 * Renders a recording's programme with all that belongs to it into a folder, which is new, empty, or holds an earlier
 * one. Everything is made elsewhere, and takes its place at once when it is whole.
 *
 * @throws OutsideFailure before anything is done, when the disk cannot take it or an encoder is lacking
 */
export async function renderRecording(
  prepared: Prepared,
  wishes: RenderWishes,
  place: Workplace,
): Promise<RenderOutcome> {
  for (const version of wishes.versions) encoderFor(version, place);
  if (prepared.kept.length === 0)
    throw new OutsideFailure(
      `the edit list of ${prepared.recording.id} keeps nothing`,
      'keep a range, or leave the edit list out to keep everything',
    );
  await checkRoom(prepared, wishes, place);
  const staging = await place.store.temporaryFolder();
  const fps = prepared.rate.numerator / prepared.rate.denominator;
  const seconds = frameTotal(prepared.kept) / fps;
  const { look } = lookOf(prepared, new Map());
  const size = shownSize(look);

  const programme = join(staging, 'programme.mp4');
  const { inlays, target, speech, burn } = wishes;
  const runs = burn && planCards(burn.cards, prepared.rate, frameTotal(prepared.kept));
  const beside = async (reel: Reel, at: Workplace) => {
    await makePoster(reel, Math.min(seconds / 2, Math.max(1, seconds / 10)), join(staging, 'poster.jpg'), at);
    await makeSeekPictures(
      reel,
      planSeekPictures(seconds, size),
      { path: join(staging, 'seek-pictures.jpg'), name: 'seek-pictures.jpg' },
      join(staging, 'seek-pictures.vtt'),
      at,
    );
  };
  const made = await renderProgramme(
    prepared,
    programme,
    {
      ...{ inlays, beside },
      ...(target !== undefined && { target }),
      ...(speech && { speech }),
      ...(burn && runs && { burn: { runs, desk: burn.desk } }),
    },
    place,
  );
  if (inlays.captions !== undefined) await writeFile(join(staging, 'captions.vtt'), inlays.captions);
  if (inlays.metadata !== undefined) await writeFile(join(staging, 'chapters.ffmeta'), inlays.metadata);
  for (const version of wishes.versions)
    await makeVersion(version, programme, staging, { size, seconds, hasSound: made.sound !== undefined }, place);
  await holdRoom(staging);
  const manifest = await manifestOf(prepared, wishes, staging);
  const { signal } = place;
  await putInPlace(
    staging,
    { ...renderOutput(wishes.folder, place.store.root), what: 'a render', patience: SWAP, signal },
    manifest,
  );
  return { folder: wishes.folder, made, manifest };
}

async function makeVersion(
  version: Version,
  programme: string,
  staging: string,
  about: { readonly size: { width: number; height: number }; readonly seconds: number; readonly hasSound: boolean },
  place: Workplace,
): Promise<void> {
  place.progress.start(version === 'hls' ? 'HLS ladder' : version === 'av1' ? 'AV1' : 'VP9');
  place.progress.expect(about.seconds);
  const step = place.progress.step(about.seconds);
  const watch = { signal: place.signal, onSeconds: (seconds: number) => step.reached(seconds) };
  if (version === 'hls') {
    await makeHls(programme, join(staging, 'hls'), about, place.tools, watch);
  } else {
    const output = join(staging, `programme-${version}.webm`);
    const form = { version, encoder: encoderFor(version, place), hasSound: about.hasSound };
    await makeWebm(programme, form, output, place, watch);
  }
  step.end();
}

function encoderFor(version: Version, { tools }: Workplace): string {
  const found = ENCODERS[version].find((name) => tools.encoders.has(name));
  if (found === undefined)
    throw new OutsideFailure(
      `ffmpeg ${tools.version} was built without ${ENCODERS[version].join(' or ')}, which ${version} needs`,
      `leave ${version} out, or name another ffmpeg in LIFTSIDE_FFMPEG`,
    );
  return found;
}

/** Bytes for each second and pixel of encoded picture, generously. */
const ENCODED_BYTES = 0.02;

/** Told before hours are spent: a folder that cannot be written, a disk that is too full. */
async function checkRoom(prepared: Prepared, wishes: RenderWishes, { store }: Workplace): Promise<void> {
  await holdOutput(renderOutput(wishes.folder, store.root));
  const beside = dirname(wishes.folder);
  await makeWritable(beside, 'say --to with a folder in one you may write to: it is made beside its place');
  const fps = prepared.rate.numerator / prepared.rate.denominator;
  let programme = 0;
  for (const placed of prepared.files) {
    const { file } = placed;
    const used = usedOf(placed, prepared.shown);
    const bytes = (await stat(file.path)).size;
    const { width = 0, height = 0, length = 1 } = file.picture ?? {};
    programme += Math.max(bytes * Math.min(1, used / (length * fps)), ENCODED_BYTES * width * height * (used / fps));
  }
  // The picture once by itself, once joined with the sound; each further version at most once more.
  const wanted = programme * (2 + wishes.versions.length);
  const places = [
    [store.root, 'free some space there, or work on a copy of the content folder on another disk'],
    [beside, 'free some space there, or say --to with a folder on another disk'],
  ] as const;
  for (const [folder, help] of places) {
    const free = await spaceAt(folder);
    if (free < wanted)
      throw new OutsideFailure(
        `rendering takes up to ${gigabytes(wanted)} on the disk of ${folder}, and ${gigabytes(free)} are free`,
        help,
      );
  }
}

function gigabytes(bytes: number): string {
  return bytes < 1e9 ? `${Math.ceil(bytes / 1e6)} MB` : `${(bytes / 1e9).toFixed(1)} GB`;
}

const KINDS: Readonly<Record<string, string>> = {
  'programme.mp4': 'programme',
  'poster.jpg': 'poster',
  'seek-pictures.jpg': 'sheet',
  'seek-pictures.vtt': 'seek-pictures',
  'captions.vtt': 'captions',
  'chapters.ffmeta': 'chapters',
  'programme-vp9.webm': 'vp9',
  'programme-av1.webm': 'av1',
  'hls/hls.m3u8': 'hls',
};

async function manifestOf(prepared: Prepared, wishes: RenderWishes, staging: string): Promise<Manifest> {
  const files: Record<string, { name: string; bytes: number }> = {};
  for (const [name, kind] of Object.entries(KINDS)) {
    const known = await stat(join(staging, name)).catch(() => undefined);
    if (known) files[kind] = { name, bytes: known.size };
  }
  return {
    version: 1,
    recording: prepared.recording.id,
    edit: prepared.recording.edit.map(({ start, end }) => [start, end]),
    inputs: [...prepared.inputs],
    ...anglesKey(prepared.recording),
    length: frameTotal(prepared.kept) * prepared.rate.ticksPerFrame,
    frame: prepared.rate.ticksPerFrame,
    ...(wishes.target !== undefined && { loudness: wishes.target }),
    ...(wishes.burn && { cards: cardsFingerprint(wishes.burn.cards) }),
    files,
  };
}

/** Another render of it that is being put in place is waited for, ms: it only moves files. */
const SWAP = 60_000;

/** Moves what is whole into a folder beside its place, which then takes its place at once; the manifest comes last. */
async function putInPlace(staging: string, output: FolderWishes, manifest: Manifest): Promise<void> {
  await placeFolder(output, async (next) => {
    for (const name of await readdir(staging)) await move(join(staging, name), join(next, name));
    await writeFile(join(next, MANIFEST), `${JSON.stringify(manifest, null, 2)}\n`);
  });
}

/**
 * The folder of a rendered programme, as it is placed. In the content's private part whatever is there was rendered.
 *
 * @param root `.liftside` of the content folder
 */
export function renderOutput(folder: string, root: string): OutputFolder {
  return { target: folder, holds: 'a rendered programme', content: dirname(root), own: folder.startsWith(root + sep) };
}

/** Renames; across disks, copies. */
async function move(from: string, to: string): Promise<void> {
  try {
    await rename(from, to);
  } catch (error) {
    if (errorCode(error) !== 'EXDEV') throw error;
    await cp(from, to, { recursive: true });
    await rm(from, { recursive: true, force: true });
  }
}
