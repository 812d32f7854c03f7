import type { z } from 'zod';
import { type Diagnostic, placeOf, type Read, type recordingSchema, type Shot } from '../model/index.ts';
import {
  type EditList,
  editList,
  isTimecode,
  type Labelling,
  parseMoment,
  printClockTime,
  type Range,
  range,
} from '../time/index.ts';
import { tell } from './faults.ts';

type Entry = NonNullable<z.infer<typeof recordingSchema>['edit']>[number];

/**
 * The edit list of a recording. With one range unread the others would be a programme nobody meant, and every cue in
 * the rest would be told too: then there is none.
 *
 * @returns the list, and of its ranges those that name an angle
 * @param at the recording, for places
 * @param rateTold that the frame rate is not known has been told elsewhere; timecodes then stay unread in silence
 */
export function readEditList(
  entries: readonly Entry[],
  at: Read,
  labelling: Labelling,
  rateTold: boolean,
): { edit?: EditList; shots: readonly Shot[]; diagnostics: Diagnostic[] } {
  const kept: Range<'recording'>[] = [];
  const shots: Shot[] = [];
  const diagnostics: Diagnostic[] = [];
  entries.forEach((entry, index) => {
    const moment = (key: 'in' | 'out') => {
      const read = parseMoment(entry[key], labelling, key === 'in' ? 'start' : 'end');
      if (read.ok) return read.value;
      if (!(isTimecode(entry[key]) && rateTold))
        diagnostics.push(tell('time-wrong', placeOf(at, 'edit', index, key), read.problem, read.help));
      return undefined;
    };
    const [start, end] = [moment('in'), moment('out')];
    if (start === undefined || end === undefined) return;
    if (end > start) {
      kept.push(range(start, end));
      if (entry.angle !== undefined) shots.push({ at: range(start, end), angle: entry.angle, index });
    } else
      diagnostics.push(
        tell(
          'range-reversed',
          placeOf(at, 'edit', index, 'out'),
          `the out point ${printClockTime(end)} is not after the in point ${printClockTime(start)}`,
          'the in point is the first frame kept, the out point the first frame not kept',
        ),
      );
  });
  if (kept.length < entries.length) return { diagnostics, shots: [] };
  return { diagnostics, edit: editList(kept), shots: shots.toSorted((a, b) => a.at.start - b.at.start) };
}
