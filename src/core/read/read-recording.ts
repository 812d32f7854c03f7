import {
  type CameraFile,
  type CaptionFile,
  type Diagnostic,
  type FileFacts,
  type MediaFacts,
  placeOf,
  type Recording,
  type Utterance,
} from '../model/index.ts';
import {
  common,
  type EditList,
  editList,
  FRAME_RATES,
  type FrameGrid,
  type FrameRate,
  filmedGrid,
  isTimecode,
  type Labelling,
  nearestRate,
  parseMoment,
  parseTimecode,
  placeFiles,
  range,
  type Ticks,
  ticks,
} from '../time/index.ts';
import { readCaptions } from './captions.ts';
import { tell } from './faults.ts';
import { readAngles } from './read-angles.ts';
import { readEditList } from './read-edit-list.ts';
import type { YamlRead } from './read-yaml.ts';

/** The name of a file in another language: `media/chain.es.vtt` of `media/chain.vtt`. */
export function fileInLanguage(file: string, language: string): string {
  return file.replace(/(\.[^./]*)?$/, (ending) => `.${language}${ending}`);
}

/** What stands in the YAML of a recording, nothing of it looked up yet. */
export type RecordingYaml = YamlRead<Recording['written']>;

/**
 * A recording from its YAML and what a probe found out about its files.
 *
 * @param languages into which its captions may be translated
 */
export function readRecording(
  id: string,
  { value: written, origin, diagnostics: found }: RecordingYaml,
  facts: (file: string) => FileFacts,
  languages: readonly string[] = [],
): { recording?: Recording; diagnostics: readonly Diagnostic[] } {
  if (!written) return { diagnostics: found };
  const diagnostics = [...found];
  const known = written.files.map(({ file }) => ({ file, facts: facts(file) }));
  const media = mediaOf(known[0]);
  const startText = written.files[0]?.start ?? written.start ?? media?.startTimecode;
  const rate = written.rate ? FRAME_RATES[written.rate] : measuredRate(media, startText);
  const labelling: Labelling = { startFrame: startFrameOf(startText, rate), ...(rate ? { rate } : {}) };

  const at = { origin };
  for (const [text, ...path] of [
    [written.start, 'start'] as const,
    ...written.files.map(({ start }, index) => [start, 'files', index, 'start'] as const),
  ]) {
    const start = text !== undefined && rate ? parseTimecode(text, rate) : undefined;
    if (start && !start.ok) diagnostics.push(tell('time-wrong', placeOf(at, ...path), start.problem, start.help));
  }
  const files = cameraFiles(known, written.files, labelling, startText !== undefined);
  const grid = gridOf(files, rate);
  const read = written.edit && readEditList(written.edit, at, { ...labelling, ...(grid && { grid }) }, !rate && !media);
  diagnostics.push(...(read?.diagnostics ?? []));
  const length = lengthOf(files);
  // Where no camera ran there is nothing to keep.
  const everything: EditList =
    length === undefined ? [range(ticks(0), ticks(Number.MAX_SAFE_INTEGER))] : editList(files.map(({ span }) => span));
  const angles = readAngles(written.angles ?? [], at, labelling, !rate && !media, facts);
  diagnostics.push(...angles.diagnostics);
  const shows = (written.shows ?? []).flatMap(({ at: moment, text }, index): Utterance[] => {
    const read = parseMoment(moment, { ...labelling, ...(grid && { grid }) });
    if (read.ok) return [{ at: range(read.value, read.value), text, place: placeOf(at, 'shows', index, 'text') }];
    if (!(isTimecode(moment) && !rate && !media))
      diagnostics.push(tell('time-wrong', placeOf(at, 'shows', index, 'at'), read.problem, read.help));
    return [];
  });
  const captions = written.captions ? captionFile(written.captions, facts(written.captions)) : undefined;
  if (captions) diagnostics.push(...captions.diagnostics);
  const captionsIn = new Map<string, CaptionFile>();
  for (const language of written.captions === undefined ? [] : languages) {
    const file = fileInLanguage(written.captions ?? '', language);
    const known = facts(file);
    if (known.state !== 'text' && known.state !== 'unreadable') continue;
    const translated = captionFile(file, known);
    diagnostics.push(...translated.diagnostics);
    captionsIn.set(language, translated.captions);
  }
  const recording: Recording = {
    id,
    origin,
    title: written.title,
    files,
    startFrame: labelling.startFrame,
    edit: read?.edit ? common(read.edit, everything) : everything,
    edited: read?.edit !== undefined,
    angles: angles.angles,
    entries: read?.entries ?? [],
    shots: read?.shots ?? [],
    shows,
    written,
    ...(rate ? { rate } : {}),
    ...(grid ? { grid } : {}),
    ...(length === undefined ? {} : { length }),
    ...(captions ? { captions: captions.captions } : {}),
    ...(captionsIn.size > 0 ? { captionsIn } : {}),
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
  const { startFrame, rate, grid, files } = recording;
  const rateTold = rate === undefined && mediaOf(files[0]) === undefined;
  return { startFrame, ...(rate && { rate }), ...(grid && { grid }), rateTold };
}

/** Each file by its start timecode where it has one, or else after the one before. */
function cameraFiles(
  known: readonly { file: string; facts: FileFacts }[],
  written: readonly { start?: string | undefined }[],
  { rate, startFrame }: Labelling,
  labelled: boolean,
): CameraFile[] {
  const measured = known.map(({ facts }, index) => {
    const media = facts.state === 'media' ? facts.media : undefined;
    const label = written[index]?.start ?? media?.startTimecode;
    const frame = label !== undefined && rate ? parseTimecode(label, rate) : undefined;
    const start = index === 0 ? (labelled ? startFrame : undefined) : frame?.ok ? frame.value : undefined;
    return { picture: media?.duration ?? 0, ...(start === undefined ? {} : { startFrame: start }) };
  });
  const placed = placeFiles(measured, rate ?? FRAME_RATES['30']);
  return known.map(({ file, facts }, index) => {
    const { at = range<'recording'>(ticks(0), ticks(0)), overlap = 0 } = placed[index] ?? {};
    const start = measured[index]?.startFrame;
    return { file, facts, span: at, overlap, ...(start === undefined ? {} : { startFrame: start }) };
  });
}

/** Where pictures begin, when a file was found to have an uneven frame rate. */
function gridOf(files: readonly CameraFile[], rate: FrameRate | undefined): FrameGrid<'recording'> | undefined {
  return filmedGrid(
    files.map(({ facts, span }) => {
      const media = facts.state === 'media' ? facts.media : undefined;
      const own = media?.framesPerSecond === undefined ? undefined : nearestRate(media.framesPerSecond);
      const pictures = media?.pictureStarts;
      return { span, frame: (own ?? rate ?? FRAME_RATES['30']).ticksPerFrame, ...(pictures && { pictures }) };
    }),
  );
}

function captionFile(file: string, facts: FileFacts): { captions: CaptionFile; diagnostics: readonly Diagnostic[] } {
  if (facts.state !== 'text') return { captions: { file, facts, cues: [], blocks: [] }, diagnostics: [] };
  const { captions: cues, blocks, diagnostics } = readCaptions(file, facts.text);
  return { captions: { file, facts, cues, blocks }, diagnostics };
}

function lengthOf(files: readonly CameraFile[]): Ticks<'recording'> | undefined {
  return files.every(({ facts }) => facts.state === 'media') ? files.at(-1)?.span.end : undefined;
}

function mediaOf(file: { facts: FileFacts } | undefined): MediaFacts | undefined {
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
