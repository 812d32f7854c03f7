import {
  type CameraFile,
  type Diagnostic,
  type FileFacts,
  type MediaFacts,
  placeOf,
  type Recording,
  recordingSchema,
} from '../model/index.ts';
import {
  type EditList,
  editList,
  FRAME_RATES,
  type FrameRate,
  type Labelling,
  nearestRate,
  parseMoment,
  parseTimecode,
  printClockTime,
  type Range,
  range,
  type Ticks,
  ticks,
} from '../time/index.ts';
import { tell } from './faults.ts';
import type { Points } from './points.ts';
import { readYaml } from './read-yaml.ts';

/** A recording from its YAML and what a probe found out about its files. */
export function readRecording(
  id: string,
  source: string,
  points: Points,
  facts: (file: string) => FileFacts,
): { recording?: Recording; diagnostics: readonly Diagnostic[] } {
  const { value: written, origin, diagnostics: found } = readYaml(source, points, 0, recordingSchema, 'a recording');
  if (!written) return { diagnostics: found };
  const diagnostics = [...found];
  const files = placeFiles(written.files.map(({ file }) => ({ file, facts: facts(file) })));
  const length = lengthOf(files);
  const media = mediaOf(files[0]);
  const startText = written.files[0]?.start ?? written.start ?? media?.startTimecode;
  const rate = written.rate ? FRAME_RATES[written.rate] : measuredRate(media, startText);
  const labelling: Labelling = { startFrame: startFrameOf(startText, rate), ...(rate ? { rate } : {}) };

  const at = { origin };
  if (written.start !== undefined && rate) {
    const start = parseTimecode(written.start, rate);
    if (!start.ok) diagnostics.push(tell('time-wrong', placeOf(at, 'start'), start.problem, start.help));
  }
  const kept: Range<'recording'>[] = [];
  const told = diagnostics.length;
  written.edit?.forEach((entry, index) => {
    const [start, end] = (['in', 'out'] as const).map((key) => {
      const moment = parseMoment(entry[key], labelling);
      if (moment.ok) return moment.value;
      diagnostics.push(tell('time-wrong', placeOf(at, 'edit', index, key), moment.problem, moment.help));
      return undefined;
    });
    if (start === undefined || end === undefined) return;
    if (end > start) kept.push(range(start, end));
    else
      diagnostics.push(
        tell(
          'range-reversed',
          placeOf(at, 'edit', index, 'out'),
          `the out point ${printClockTime(end)} is not after the in point ${printClockTime(start)}`,
          'the in point is the first frame kept, the out point the first frame not kept',
        ),
      );
  });
  const everything: EditList = [range(ticks(0), length ?? ticks(Number.MAX_SAFE_INTEGER))];
  // With one range unread the others would be a programme nobody meant, and every cue in the rest would be told too.
  const edited = written.edit !== undefined && diagnostics.length === told;
  const recording: Recording = {
    id,
    origin,
    title: written.title,
    files,
    startFrame: labelling.startFrame,
    edit: edited ? editList(kept) : everything,
    edited,
    written,
    ...(rate ? { rate } : {}),
    ...(length === undefined ? {} : { length }),
    ...(written.captions ? { captions: { file: written.captions, facts: facts(written.captions) } } : {}),
  };
  return { recording, diagnostics };
}

/** What a recording says about its frame labels, for reading times that belong to it. */
export function labellingOf(recording: Recording | undefined): Labelling {
  return { startFrame: recording?.startFrame ?? 0, ...(recording?.rate ? { rate: recording.rate } : {}) };
}

function placeFiles(files: readonly { file: string; facts: FileFacts }[]): CameraFile[] {
  let from: Ticks<'recording'> = ticks(0);
  return files.map(({ file, facts }) => {
    const end = ticks<'recording'>(from + (facts.state === 'media' ? facts.media.duration : 0));
    const span = range(from, end);
    from = end;
    return { file, facts, span };
  });
}

function lengthOf(files: readonly CameraFile[]): Ticks<'recording'> | undefined {
  return files.every(({ facts }) => facts.state === 'media') ? files.at(-1)?.span.end : undefined;
}

function mediaOf(file: CameraFile | undefined): MediaFacts | undefined {
  return file?.facts.state === 'media' ? file.facts.media : undefined;
}

function measuredRate(media: MediaFacts | undefined, start: string | undefined): FrameRate | undefined {
  return media?.framesPerSecond === undefined
    ? undefined
    : nearestRate(media.framesPerSecond, start?.includes(';') ?? false);
}

function startFrameOf(start: string | undefined, rate: FrameRate | undefined): number {
  if (start === undefined || rate === undefined) return 0;
  const frame = parseTimecode(start, rate);
  return frame.ok ? frame.value : 0;
}
