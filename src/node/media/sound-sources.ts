import { SAMPLE_RATE, type SoundSource } from '../../core/media/index.ts';
import { TICKS_PER_SECOND } from '../../core/time/index.ts';
import type { Examined } from './examine.ts';
import type { Prepared } from './prepare.ts';

/** A file that sound is taken from. */
export interface SoundFile {
  readonly file: Examined;
  readonly stream: number;
  /** First sample on the file's clock, s. */
  readonly start: number;
  /** How much faster its clock runs than the recording's, parts per million. */
  readonly drift: number;
}

interface SourceInFile {
  readonly source: SoundSource;
  readonly file: SoundFile;
  readonly channels: number;
}

/**
 * The sound of a recording on its clock, and which file each stretch comes from: that of the angle named for it where
 * it has any, elsewhere that of the camera files.
 */
export function soundSources({ recording, files, sounds }: Prepared): {
  readonly sources: readonly SoundSource[];
  readonly files: readonly SoundFile[];
  readonly channels: number;
} {
  const angle = recording.written.sound;
  const chosen = sounds.flatMap(({ file, offset, drift }): SourceInFile[] => {
    const [sound] = file.sounds;
    if (!sound) return [];
    const speed = 1 + drift / 1e6;
    const late = file.picture ? sound.start - file.picture.start : 0;
    const first = sampleAt(offset) + Math.round((late / speed) * SAMPLE_RATE);
    const samples = Math.floor((sound.length / speed) * SAMPLE_RATE);
    return [
      {
        source: {
          ...{ first, samples, from: Math.max(0, first), until: Math.max(0, first + samples) },
          ...(angle !== undefined && { angle }),
        },
        file: { file, stream: sound.stream, start: sound.start, drift },
        channels: sound.channels,
      },
    ];
  });
  const own = recording.files.flatMap(({ span }, i): SourceInFile[] => {
    const file = files[i]?.file;
    const sound = file?.sounds[0];
    if (!file || !sound) return [];
    const late = file.picture ? sound.start - file.picture.start : 0;
    return [
      {
        source: {
          first: sampleAt(span.start) + Math.round(late * SAMPLE_RATE),
          samples: Math.round(sound.length * SAMPLE_RATE),
          from: sampleAt(span.start),
          until: sampleAt(span.end),
        },
        file: { file, stream: sound.stream, start: sound.start, drift: 0 },
        channels: sound.channels,
      },
    ];
  });
  const found = [...withoutOverlaps(chosen), ...own.flatMap((one) => around(one, chosen))]
    .filter(({ source }) => source.until > source.from)
    .toSorted((a, b) => a.source.from - b.source.from);
  return {
    sources: found.map(({ source }) => source),
    files: found.map(({ file }) => file),
    channels: Math.min(2, Math.max(1, ...found.map(({ channels }) => channels))),
  };
}

function sampleAt(ticks: number): number {
  return Math.round((ticks * SAMPLE_RATE) / TICKS_PER_SECOND);
}

/** Files of one recorder that overlap by a hair: each begins where the one before it ends. */
function withoutOverlaps(chosen: readonly SourceInFile[]): SourceInFile[] {
  let end = 0;
  return chosen
    .toSorted((a, b) => a.source.from - b.source.from)
    .map((one) => {
      const from = Math.max(end, one.source.from);
      end = Math.max(end, one.source.until);
      return { ...one, source: { ...one.source, from } };
    });
}

/** What a camera file answers for where none of the chosen has sound. */
function around(one: SourceInFile, chosen: readonly SourceInFile[]): SourceInFile[] {
  return chosen.reduce<SourceInFile[]>(
    (rest, { source: taken }) =>
      rest.flatMap((part) => {
        const { source } = part;
        return [
          { ...part, source: { ...source, until: Math.min(source.until, taken.from) } },
          { ...part, source: { ...source, from: Math.max(source.from, taken.until) } },
        ].filter((each) => each.source.until > each.source.from);
      }),
    [one],
  );
}
