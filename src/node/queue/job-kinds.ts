import { z } from 'zod';
import { framesRead, type Reading, soundRead } from '../../core/media/index.ts';
import { type AnalyseFileParams, analyseFile } from '../media/analyse-file.ts';
import type { FindVoiceParams } from '../media/find-voice.ts';
import type { Bench, Task } from '../media/pool.ts';
import type { Assembly } from '../media/strips.ts';
import {
  type BlankParams,
  blankPicture,
  encodePicture,
  encodeSound,
  joinPictures,
  lookAtCorners,
  type MeasureParams,
  measureDepth,
  measureSound,
  type PictureParams,
  type PieceParams,
  type SoundParams,
} from '../media/tasks.ts';
import { type HearLooksParams, hearLooks } from '../words/hear-looks.ts';
import type { RecogniseTaskParams } from '../words/recognise.ts';

// What a job may say, value by value: parts of it become arguments of ffmpeg.
const whole = z.number().int().min(-1e12).max(1e12);
const count = z.number().int().min(0).max(1e12);
const seconds = z.number().min(-1e9).max(1e9);
const word = z.string().regex(/^[\w.+-]{1,80}$/);
const fraction = z.string().regex(/^\d{1,9}\/\d{1,9}$/);
const stream = z.number().int().min(0).max(1000);
const pixels = z.number().int().min(1).max(32_768);
const size = z.strictObject({ width: pixels, height: pixels });
const turned = z.union([z.literal(0), z.literal(90), z.literal(180), z.literal(270)]);
const span = z.tuple([seconds, seconds]);

const coding = z.strictObject({
  codec: z.literal('h264'),
  profile: word.nullable(),
  level: word.nullable(),
  parameterSet: z.number().int().min(0).max(31),
  bFrames: z.number().int().min(0).max(16),
  crf: z.number().min(0).max(63),
  preset: word,
  group: count,
});
const picture: z.ZodType<PictureParams> = z.strictObject({
  picture: z.strictObject({
    ...{ first: whole, count, rate: fraction, stream, start: seconds, clock: seconds, lead: seconds, drift: seconds },
    ...{ fit: size.nullable(), turn: z.boolean(), deinterlace: z.boolean(), even: z.boolean() },
    ...{ burnt: turned.nullable(), coding },
  }),
});
const blank: z.ZodType<BlankParams> = z.strictObject({ count, rate: fraction, size, coding, burnt: turned.nullable() });
const strip = z.strictObject({ file: count, first: whole, count, lead: seconds, whole: z.boolean() });
const form = {
  ...{ rate: z.strictObject({ numerator: count, denominator: count }), width: pixels, height: pixels },
  rotation: turned,
};
const piece: z.ZodType<PieceParams> = z.strictObject({
  strips: z.array(strip),
  form: z.strictObject({ ...form, configuration: z.string().regex(/^[0-9a-f]*$/) }),
});
const fades = { count, fadeIn: z.boolean(), fadeOut: z.boolean() };
const level = z.strictObject({ gain: z.number().min(-200).max(200), ceiling: z.number().min(-200).max(0).nullable() });
const sound = {
  pieces: z.array(
    z.union([
      z.strictObject({ ...fades, kind: z.literal('sound'), source: count, from: whole }),
      z.strictObject({ ...fades, kind: z.literal('silence') }),
    ]),
  ),
  inputs: z.array(z.strictObject({ stream, start: seconds, clock: seconds, drift: seconds })),
  channels: z.union([z.literal(1), z.literal(2)]),
};
const measure = z.strictObject({ ...sound, level: level.exactOptional() }) satisfies z.ZodType<MeasureParams>;
const encode: z.ZodType<SoundParams> = z.strictObject({
  ...{ ...sound, skip: count, count, level, bitRate: z.number().int().min(8000).max(1e6) },
});
const analyse: z.ZodType<AnalyseFileParams> = z.strictObject({
  ...{ picture: stream.nullable(), sound: stream.nullable(), framesPerSecond: z.number().min(0).max(10_000) },
  ...{ deinterlace: z.boolean(), length: seconds, soundLate: seconds },
});
const looks: z.ZodType<HearLooksParams> = z.strictObject({ sound: stream, talk: z.array(span) });

export const voiceParams: z.ZodType<FindVoiceParams> = z.strictObject({
  ...{ sound: stream, soundLate: seconds, listener: z.string().max(200), settings: z.record(word, z.number()) },
});
export const recogniseParams: z.ZodType<RecogniseTaskParams> = z.strictObject({
  ...{ sound: stream, pieces: z.array(span), model: z.string().max(10_000), kind: word },
  ...{ language: z.string().regex(/^[a-z]{0,8}$/), hotWords: z.array(z.string().max(200)).max(10_000) },
});
export const assemblyParams: z.ZodType<Omit<Assembly, 'inputs'>> = z.strictObject({
  ...{ pieces: z.array(z.array(strip)), form: z.strictObject(form) },
});

/** A task, and a run of it with parameters that were held against its shape. */
export interface JobKind {
  readonly version: number;
  readonly extension: string;
  /** @throws ZodError when the parameters are of another shape */
  read(params: unknown): { readonly run: Run; readonly parts?: Parts };
}

/** What is read of each input, where that is not all of it. */
export type Parts = ReadonlyMap<number, readonly Reading[]>;

type Run = (inputs: readonly string[], output: string, bench: Bench) => Promise<void>;

/**
 * A task that workers may do, with the shape of what it is told.
 *
 * @param parts what it reads of its inputs, where that is not all of them
 */
export function jobKind<P extends object>(task: Task<P>, shape: z.ZodType<P>, parts?: (params: P) => Parts): JobKind {
  return {
    version: task.version,
    extension: task.extension,
    read: (params) => {
      const told = shape.parse(params);
      return {
        run: (inputs, output, bench) => task.run(told, inputs, output, bench),
        ...(parts && { parts: parts(told) }),
      };
    },
  };
}

function pictureParts({ picture: job }: PictureParams): Parts {
  return new Map([[0, [{ stream: job.stream, stretch: framesRead(job) }]]]);
}

function soundParts({ pieces, inputs }: MeasureParams): Parts {
  const parts = new Map<number, Reading[]>();
  for (const { input, stretch } of soundRead(pieces, inputs)) {
    const reading = { stream: inputs[input]?.stream ?? 0, stretch };
    parts.set(input, [...(parts.get(input) ?? []), reading]);
  }
  return parts;
}

/** One stream from beginning to end. */
export function streamParts({ sound: position }: { readonly sound: number }): Parts {
  return new Map([[0, [{ stream: position, stretch: [0, Number.MAX_SAFE_INTEGER] }]]]);
}

/** What the assembling copies out of camera files; what others have encoded it reads whole. */
export function assemblyParts({ pieces, form: { rate } }: Omit<Assembly, 'inputs'>): Parts {
  const fps = rate.numerator / rate.denominator;
  const parts = new Map<number, Reading[]>();
  for (const { file, first, count: frames, lead, whole: all } of pieces.flat()) {
    if (all) continue;
    const from = (first - lead) / fps;
    const reading: Reading = { fromFirst: true, stretch: [from, from + (frames + 1) / fps] };
    parts.set(file, [...(parts.get(file) ?? []), reading]);
  }
  return parts;
}

/** Every task that ffmpeg and Liftside alone can do, on any machine. */
export const MEDIA_KINDS: ReadonlyMap<string, JobKind> = new Map([
  ['analyse', jobKind(analyseFile, analyse)],
  ['encode-picture', jobKind(encodePicture, picture, pictureParts)],
  ['blank-picture', jobKind(blankPicture, blank)],
  ['look-at-corners', jobKind(lookAtCorners, picture, pictureParts)],
  ['join-pictures', jobKind(joinPictures, piece)],
  ['measure-depth', jobKind(measureDepth, z.strictObject({ fps: z.number().positive() }))],
  ['measure-sound', jobKind(measureSound, measure, soundParts)],
  ['encode-sound', jobKind(encodeSound, encode, soundParts)],
  ['hear-looks', jobKind(hearLooks, looks, streamParts)],
]);

/** The name of the job that puts pictures together. */
export const ASSEMBLE = 'assemble-picture';
