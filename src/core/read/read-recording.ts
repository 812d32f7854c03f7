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
  FRAME_RATES,
  type FrameRate,
  type Labelling,
  nearestRate,
  parseTimecode,
  range,
  type Ticks,
  ticks,
} from '../time/index.ts';
import { tell } from './faults.ts';
import type { Points } from './points.ts';
import { readEditList } from './read-edit-list.ts';
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
  const read = written.edit && readEditList(written.edit, at, labelling, !rate && !media);
  diagnostics.push(...(read?.diagnostics ?? []));
  const everything: EditList = [range(ticks(0), length ?? ticks(Number.MAX_SAFE_INTEGER))];
  const recording: Recording = {
    id,
    origin,
    title: written.title,
    files,
    startFrame: labelling.startFrame,
    edit: read?.edit ?? everything,
    edited: read?.edit !== undefined,
    written,
    ...(rate ? { rate } : {}),
    ...(length === undefined ? {} : { length }),
    ...(written.captions ? { captions: { file: written.captions, facts: facts(written.captions) } } : {}),
  };
  return { recording, diagnostics };
}

/** Frame labels for reading the times of a lesson. */
export interface LessonLabelling extends Labelling {
  /** There is no rate, and why is told elsewhere: timecodes then stay unread in silence. */
  readonly rateTold: boolean;
}

/** What a recording says about its frame labels, for reading times that belong to it. */
export function labellingOf(recording: Recording | undefined): LessonLabelling {
  if (!recording) return { startFrame: 0, rateTold: true };
  const { startFrame, rate, files } = recording;
  return rate ? { startFrame, rate, rateTold: false } : { startFrame, rateTold: mediaOf(files[0]) === undefined };
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
