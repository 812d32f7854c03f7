import { hash } from 'node:crypto';
import { existsSync } from 'node:fs';
import { readFile, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import { anglesUsed } from '../../core/media/index.ts';
import type { Recording } from '../../core/model/index.ts';
import type { PlacedCard } from '../../core/programme/index.ts';
import type { EditList } from '../../core/time/index.ts';
import { insideFolder } from '../files/inside.ts';
import { fingerprint } from './fingerprint.ts';

const span = z.tuple([z.number().int(), z.number().int()]);

/** Of what a probe found out about a camera file, what content is read by: `MediaFacts` of core. */
export const factsSchema = z.object({
  duration: z.number(),
  soundDuration: z.number().optional(),
  framesPerSecond: z.number().optional(),
  pictureStarts: z.array(z.number()).optional(),
  width: z.number().optional(),
  height: z.number().optional(),
  startTimecode: z.string().optional(),
});

/** Beside a rendered programme: from what it was made, and what there is of it. */
export const manifestSchema = z.strictObject({
  version: z.literal(1),
  recording: z.string(),
  /** The edit list, ticks of recording time. */
  edit: z.array(span),
  /** Fingerprint of what is shown and heard of the angles, and of how they are aligned; absent where none is. */
  angles: z.string().optional(),
  /** Camera files with the fingerprint of their content; those of the angles come last. */
  inputs: z.array(z.strictObject({ file: z.string(), content: z.string() })),
  /** Camera files that stayed in the shop where they were taken, when the programme came in a package, as probed there. */
  away: z.record(z.string(), factsSchema).optional(),
  /** Programme length, ticks, and length of a frame. */
  length: z.number().int(),
  frame: z.number().int(),
  /** LUFS, when levelled. */
  loudness: z.number().optional(),
  /** Fingerprint of the cards burnt into the picture; absent where there are none. */
  cards: z.string().optional(),
  /**
   * Where the programme lies in several files: the length of each, ticks. They are of the kinds `part-1`, `part-2` …,
   * and there is none of the kind `programme`.
   */
  parts: z.array(z.number().int()).min(2).optional(),
  /** What was made, by kind: file names in the same folder, and their bytes. */
  files: z.record(z.string(), z.strictObject({ name: z.string(), bytes: z.number().int() })),
});
export type Manifest = z.infer<typeof manifestSchema>;

export const MANIFEST = 'manifest.json';

/** A file of a rendered programme. */
export interface FilmPart {
  /** Absolute path. */
  readonly file: string;
  /** ticks */
  readonly length: number;
}

/** A rendered programme that still is what the content says. */
export interface RenderedFiles {
  /** Absolute path of its folder. */
  readonly folder: string;
  readonly manifest: Manifest;
  /** Its MP4 files, in the order in which they play; nearly always one. */
  readonly parts: readonly FilmPart[];
  readonly poster?: string;
  /** WebVTT with pictures for the seek bar, and the sheet of pictures beside it. */
  readonly seekPictures?: { readonly text: string; readonly sheet: string };
  /** The first playlist of the HLS ladder; segments lie beside it and below. */
  readonly hls?: string;
}

/** Where a recording's programme is rendered to when nothing else is said; the one with cards burnt in lies apart. */
export function renderedFolder(content: string, recording: string, burnt = false): string {
  return join(content, '.liftside', burnt ? 'burnt' : 'rendered', recording);
}

/**
 * The rendered programme of a recording, if there is one made from this very edit list and these camera files, or one
 * that came in a package without them. The
 * site plays the one without burnt-in cards, since the player shows its own.
 *
 * @param content absolute path of the content folder
 * @param cards fingerprint of the cards burnt in; left out: the programme without any
 */
export async function findRendered(
  content: string,
  recording: Recording,
  cards?: string,
): Promise<RenderedFiles | undefined> {
  const folder = renderedFolder(content, recording.id, cards !== undefined);
  const manifest = await readManifest(folder);
  if (!manifest || manifest.cards !== cards || !sameEdit(manifest, recording.edit)) return undefined;
  if (manifest.angles !== anglesKey(recording).angles) return undefined;
  const files = [...recording.files, ...anglesUsed(recording)].map(({ file }) => file);
  if (files.length !== manifest.inputs.length) return undefined;
  for (const [i, { file, content: was }] of manifest.inputs.entries()) {
    const inside = insideFolder(content, file);
    const is = inside.ok ? await fingerprint(inside.path).catch(() => undefined) : undefined;
    const stayedAway = Object.hasOwn(manifest.away ?? {}, file) && inside.ok && !existsSync(inside.path);
    if (file !== files[i] || !(is === was || stayedAway)) return undefined;
  }
  for (const { name, bytes } of Object.values(manifest.files))
    if ((await stat(join(folder, name)).catch(() => undefined))?.size !== bytes) return undefined;
  const path = (kind: string) => {
    const name = manifest.files[kind]?.name;
    return name === undefined ? undefined : join(folder, name);
  };
  const parts = (manifest.parts ?? [manifest.length]).flatMap((length, part, { length: of }) => {
    const file = path(of > 1 ? `part-${part + 1}` : 'programme');
    return file === undefined ? [] : [{ file, length }];
  });
  const [poster, text, sheet, hls] = ['poster', 'seek-pictures', 'sheet', 'hls'].map(path);
  if (parts.length !== (manifest.parts?.length ?? 1)) return undefined;
  return {
    folder,
    manifest,
    parts,
    ...(poster !== undefined && { poster }),
    ...(text !== undefined && sheet !== undefined && { seekPictures: { text, sheet } }),
    ...(hls !== undefined && { hls }),
  };
}

/** What tells one use of angles from another. */
export function anglesKey(recording: Recording): { angles?: string } {
  const used = anglesUsed(recording).map(({ id, file, offset = 0, drift }) => [id, file, offset, drift]);
  if (used.length === 0) return {};
  const shots = recording.shots.map(({ start, end, angle }) => [start, end, angle]);
  const text = JSON.stringify([used, shots, recording.written.sound ?? null]);
  return { angles: hash('sha256', text) };
}

/** What tells one set of cards from another, their times included. */
export function cardsFingerprint(cards: readonly PlacedCard[]): string {
  return hash('sha256', JSON.stringify(cards));
}

/** What lies beside a rendered programme; nothing where there is none or it cannot be understood. */
export async function readManifest(folder: string): Promise<Manifest | undefined> {
  const text = await readFile(join(folder, MANIFEST), 'utf8').catch(() => undefined);
  if (text === undefined) return undefined;
  try {
    return manifestSchema.parse(JSON.parse(text));
  } catch {
    return undefined;
  }
}

function sameEdit({ edit }: Manifest, wanted: EditList): boolean {
  return (
    edit.length === wanted.length && wanted.every(({ start, end }, i) => edit[i]?.[0] === start && edit[i]?.[1] === end)
  );
}
