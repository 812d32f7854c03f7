import type { z } from 'zod';
import {
  type Angle,
  type Diagnostic,
  type FileFacts,
  placeOf,
  type Read,
  type recordingSchema,
} from '../model/index.ts';
import {
  isTimecode,
  type Labelling,
  ok,
  type Parsed,
  parseClockTime,
  parseMoment,
  range,
  ticks,
} from '../time/index.ts';
import { tell } from './faults.ts';

type Entry = NonNullable<z.infer<typeof recordingSchema>['angles']>[number];

/**
 * The further cameras and sound recorders of a recording; one whose offset cannot be read counts as not aligned.
 *
 * @param rateTold that the frame rate is not known has been told elsewhere; timecodes then stay unread in silence
 */
export function readAngles(
  entries: readonly Entry[],
  at: Read,
  labelling: Labelling,
  rateTold: boolean,
  facts: (file: string) => FileFacts,
): { angles: readonly Angle[]; diagnostics: readonly Diagnostic[] } {
  const diagnostics: Diagnostic[] = [];
  const angles = entries.map(({ id, file, offset: text, drift = 0 }, index): Angle => {
    const offset = text === undefined ? undefined : parseOffset(text, labelling);
    if (offset && !offset.ok && !(isTimecode(text ?? '') && rateTold))
      diagnostics.push(tell('time-wrong', placeOf(at, 'angles', index, 'offset'), offset.problem, offset.help));
    const found = facts(file);
    if (!offset?.ok) return { id, file, facts: found, drift };
    const measured = found.state === 'media' ? { span: spanOf(offset.value, found.media.duration, drift) } : {};
    return { id, file, facts: found, offset: offset.value, drift, ...measured };
  });
  return { angles, diagnostics };
}

/** A moment of the recording, or a time before its start with a minus, ticks. */
function parseOffset(text: string, labelling: Labelling): Parsed<number> {
  const before = /^[-−]\s*(.*)$/.exec(text)?.[1];
  if (before === undefined) return parseMoment(text, labelling);
  const time = parseClockTime<'recording'>(before);
  return time.ok ? ok(-time.value) : time;
}

/** Its own clock counts `1 + drift` seconds for each of the recording's. */
function spanOf(offset: number, duration: number, drift: number) {
  const end = Math.max(0, Math.round(offset + duration / (1 + drift / 1e6)));
  return range<'recording'>(ticks(Math.min(end, Math.max(0, offset))), ticks(end));
}
