import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import type { HeardSpeech } from '../../core/media/index.ts';
import type { Recording } from '../../core/model/index.ts';
import { editList, type Range, range, ticks } from '../../core/time/index.ts';
import { fileInside } from '../files/inside.ts';
import { fingerprint } from './fingerprint.ts';

const span = z.tuple([z.number().int(), z.number().int()]);
const angle = z.object({
  id: z.string(),
  file: z.string(),
  /** Where its first picture (first sample, without one) lies on the recording's clock, s; absent where it could not be aligned. */
  offset: z.number().optional(),
  drift: z.number().optional(),
  confidence: z.number().optional(),
  refused: z.string().optional(),
  /** Where it may lie all the same, s: for somebody to hear. */
  candidate: z.number().optional(),
});

/** What is known of a whole recording, in ticks of recording time. */
export const analysisSchema = z.object({
  version: z.literal(2),
  recording: z.string(),
  /** Camera files by content, so that it can be told whether this still holds. */
  inputs: z.array(z.object({ file: z.string(), content: z.string() })),
  length: z.number().int(),
  loudness: z.object({
    integrated: z.number().optional(),
    range: z.number().optional(),
    truePeak: z.number().optional(),
    /** Of speech alone, LUFS; absent where speech was told by loudness. */
    speech: z.number().optional(),
  }),
  /** How speech was found: by a network made for it, or by loudness, which takes tools for speech. */
  speechBy: z.enum(['network', 'loudness']),
  speech: z.array(span),
  /** Where nobody speaks, but something is heard or moves. */
  work: z.array(span),
  /** Where nobody speaks, and nothing is heard or moves. */
  nobody: z.array(span),
  silence: z.array(span),
  scenes: z.array(z.object({ at: z.number().int(), score: z.number() })),
  black: z.array(span),
  freeze: z.array(span),
  keyFrames: z.array(z.number().int()),
  claps: z.array(z.number().int()),
  /** Sheets of small pictures, one picture every so many seconds of its camera file. */
  thumbnails: z.object({
    every: z.number(),
    width: z.number(),
    columns: z.number(),
    rows: z.number(),
    sheets: z.array(z.object({ name: z.string(), at: z.number().int() })),
  }),
  /** Lowest and highest sound as pairs of signed bytes in `peaks.s8`: the finest zoom first, each next half as fine. */
  peaks: z.object({ perSecond: z.number(), bytes: z.array(z.number().int()) }),
  angles: z.array(angle),
});
export type Analysis = z.infer<typeof analysisSchema>;

/** Where a recording's analysis is kept: `analysis.json`, `peaks.s8`, sheets of small pictures. */
export function analysisFolder(content: string, recording: string): string {
  return join(content, '.liftside', 'analysis', recording);
}

/** A recording, as far as its camera files go. */
type OfFiles = Pick<Recording, 'id'> & { readonly files: readonly { readonly file: string }[] };

/**
 * What is known of a recording from an earlier analysis; nothing where there is none, or its camera files are not
 * those that were looked at.
 */
export async function findAnalysis(content: string, recording: OfFiles): Promise<Analysis | undefined> {
  try {
    const text = await readFile(join(analysisFolder(content, recording.id), 'analysis.json'), 'utf8');
    const analysis = analysisSchema.parse(JSON.parse(text));
    for (const [i, { file }] of recording.files.entries())
      if (
        analysis.inputs[i]?.file !== file ||
        analysis.inputs[i]?.content !== (await fingerprint(fileInside(content, file)))
      )
        return undefined;
    return analysis.inputs.length === recording.files.length ? analysis : undefined;
  } catch {
    return undefined;
  }
}

/** Ranges of an analysis, with the clock in their type. */
export function rangesOf(spans: readonly (readonly [number, number])[]): Range<'recording'>[] {
  return spans.map(([start, end]) => range(ticks(start), ticks(end)));
}

/**
 * Where somebody is heard in each recording that was looked through, by its id; without the others.
 *
 * @param content absolute path of the content folder
 */
export async function findSpeech(
  content: string,
  recordings: readonly OfFiles[],
): Promise<ReadonlyMap<string, HeardSpeech>> {
  const found = await Promise.all(
    recordings.map(async (recording) => {
      const analysis = await findAnalysis(content, recording);
      if (!analysis) return [];
      return [[recording.id, { by: analysis.speechBy, stretches: editList(rangesOf(analysis.speech)) }] as const];
    }),
  );
  return new Map(found.flat());
}
