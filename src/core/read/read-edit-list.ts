import type { z } from 'zod';
import {
  type Diagnostic,
  placeOf,
  type Read,
  type recordingSchema,
  type Shot,
  type WrittenEntry,
} from '../model/index.ts';
import { type EditList, editList, isTimecode, type Labelling, parseMoment, printClockTime } from '../time/index.ts';
import { tell } from './faults.ts';

type Entry = NonNullable<z.infer<typeof recordingSchema>['edit']>[number];

/**
 * The edit list of a recording. With one range unread the others would be a programme nobody meant, and every cue in
 * the rest would be told too: then there is none.
 *
 * @returns the list, its entries as written, and of these the ones that name an angle
 * @param at the recording, for places
 * @param rateTold that the frame rate is not known has been told elsewhere; timecodes then stay unread in silence
 */
export function readEditList(
  written: readonly Entry[],
  at: Read,
  labelling: Labelling,
  rateTold: boolean,
): { edit?: EditList; entries: readonly WrittenEntry[]; shots: readonly Shot[]; diagnostics: Diagnostic[] } {
  const entries: WrittenEntry[] = [];
  const diagnostics: Diagnostic[] = [];
  written.forEach((entry, index) => {
    const moment = (key: 'in' | 'out') => {
      const read = parseMoment(entry[key], labelling, key === 'in' ? 'start' : 'end');
      if (read.ok) return read.value;
      if (!(isTimecode(entry[key]) && rateTold))
        diagnostics.push(tell('time-wrong', placeOf(at, 'edit', index, key), read.problem, read.help));
      return undefined;
    };
    const [start, end] = [moment('in'), moment('out')];
    if (start === undefined || end === undefined) return;
    if (end > start) entries.push({ start, end, angle: entry.angle, inText: entry.in, outText: entry.out, index });
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
  entries.sort((a, b) => a.start - b.start);
  if (entries.length < written.length) return { diagnostics, entries, shots: [] };
  return { diagnostics, edit: editList(entries), entries, shots: entries.filter(namesCamera) };
}

function namesCamera(entry: WrittenEntry): entry is Shot {
  return entry.angle !== undefined;
}
