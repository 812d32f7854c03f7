import type { PictureCoding } from './encode-args.ts';
import type { CopyPoints } from './groups.ts';
import { freeNumber, pictureNumber, readConfiguration, same, sequenceNumber } from './parameter-sets.ts';

/** What decides how the pictures of a camera file can go into one track with others. */
export interface FootageFile {
  /** Name for messages. */
  readonly name: string;
  /** As stored, pixels. */
  readonly width: number;
  readonly height: number;
  readonly rotation: 0 | 90 | 180 | 270;
  /** As ffprobe names it, such as `High`. */
  readonly profile: string;
  /** Ten times the level. */
  readonly level: number;
  readonly bFrames: number;
  readonly interlaced: boolean;
  readonly points: CopyPoints;
  /** Decoder configuration record; absent where nothing may be copied. */
  readonly configuration?: Uint8Array;
  /** Frames that the programme takes from it. */
  readonly used: number;
}

/** The one form that all pictures of a programme take. */
export interface Look {
  /** As stored, pixels. */
  readonly width: number;
  readonly height: number;
  /** What the player has to turn, clockwise. */
  readonly rotation: 0 | 90 | 180 | 270;
  readonly files: readonly FileLook[];
}

/** How one file comes to the look. */
export interface FileLook {
  readonly copy: CopyPoints;
  readonly coding: PictureCoding;
  /** True: turned as the camera asks before it is encoded. */
  readonly turn: boolean;
  readonly fit: { readonly width: number; readonly height: number } | null;
}

/**
 * Quality of a re-encoded end of a copied piece: near the source, since it stands beside it. At this quality a slower
 * preset only makes the few seconds at cuts smaller (measured), and takes twice as long.
 */
const EDGE = { crf: 16, preset: 'veryfast' } as const;
/** Where everything is encoded: speed counts too. */
const WHOLE = { crf: 20, preset: 'veryfast' } as const;

/**
 * Chooses the form of the programme's picture: that of the files most of it comes from, copied where they agree in
 * every parameter set, encoded where they do not.
 *
 * @param framesPerSecond of the recording
 */
export function planLook(files: readonly FootageFile[], framesPerSecond: number, keepCopies = true): Look {
  const used = files.filter((file) => file.used > 0);
  const turnsAgree = used.every((file) => file.rotation === used[0]?.rotation);
  const leading = leadingConfiguration(used);
  const copying = keepCopies && turnsAgree && leading !== undefined;
  const lead = used.find((file) => (copying ? file.configuration && same(file.configuration, leading) : true));
  const rotation = copying && lead ? lead.rotation : 0;
  const { width, height } = lead ? (copying ? lead : shownSize(lead)) : { width: 1280, height: 720 };
  const taken = new Set(copying ? numbersIn(leading) : []);
  return {
    width: even(width),
    height: even(height),
    rotation,
    files: files.map((file): FileLook => {
      const number = freeNumber(taken);
      taken.add(number);
      const own = copying ? file : shownSize(file);
      const fits = own.width === even(width) && own.height === even(height);
      return {
        copy: copyOf(file, copying ? leading : undefined, turnsAgree),
        turn: !copying,
        fit: fits ? null : { width: even(width), height: even(height) },
        coding: {
          codec: 'h264',
          parameterSet: number,
          group: Math.round(framesPerSecond * 2),
          ...(copying && lead
            ? {
                ...EDGE,
                profile: profileName(lead.profile),
                level: levelName(lead.level),
                bFrames: lead.bFrames > 0 ? 2 : 0,
              }
            : { ...WHOLE, profile: 'high', level: null, bFrames: 2 }),
        },
      };
    }),
  };
}

/** The decoder configuration that most frames of the programme come with. */
function leadingConfiguration(files: readonly FootageFile[]): Uint8Array | undefined {
  const shares = files.flatMap(({ configuration, points }) =>
    configuration && Array.isArray(points)
      ? [
          {
            configuration,
            used: files.reduce((n, f) => n + (f.configuration && same(f.configuration, configuration) ? f.used : 0), 0),
          },
        ]
      : [],
  );
  return shares.toSorted((a, b) => b.used - a.used)[0]?.configuration;
}

function copyOf(file: FootageFile, leading: Uint8Array | undefined, turnsAgree: boolean): CopyPoints {
  if (!Array.isArray(file.points)) return file.points;
  if (!turnsAgree) return { refused: 'the cameras were held differently, so that the picture has to be turned' };
  if (!leading || !file.configuration || !same(file.configuration, leading))
    return { refused: 'its picture was coded with other parameters than most of the programme' };
  return file.points;
}

/** How large a picture is shown, from how it is stored. */
export function shownSize({ width, height, rotation }: Pick<FootageFile, 'width' | 'height' | 'rotation'>): {
  readonly width: number;
  readonly height: number;
} {
  return rotation % 180 === 0 ? { width, height } : { width: height, height: width };
}

function numbersIn(configuration: Uint8Array): number[] {
  const sets = readConfiguration(configuration);
  return sets ? [...sets.sequence.map(sequenceNumber), ...sets.picture.map(pictureNumber)] : [];
}

function profileName(told: string): string | null {
  const name = told.toLowerCase();
  if (name.includes('baseline')) return 'baseline';
  if (name === 'main' || name === 'high') return name;
  return null;
}

function levelName(level: number): string | null {
  return level >= 10 && level <= 62 ? (level / 10).toFixed(1) : null;
}

function even(pixels: number): number {
  return pixels - (pixels % 2);
}
