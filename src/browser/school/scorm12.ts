import { type Scorm12Api, Scorm12Session } from '../../core/school/index.ts';
import { keepSchoolRecord } from './keep-school-record.ts';

/** So many windows up it is looked for: ADL, SCORM 1.2 Run-Time Environment, 3.3.6.1. */
const MOST_PARENTS = 7;

type Around = Window & { readonly API?: Scorm12Api };

/** The adapter, in a window around this one, or around the one that opened it. */
function findApi(start: Around | null): Scorm12Api | undefined {
  let around = start;
  for (let n = 0; around && n <= MOST_PARENTS; n++) {
    try {
      if (around.API) return around.API;
    } catch {
      // A page of another site lies around this one.
      return undefined;
    }
    if (around.parent === around) return undefined;
    around = around.parent;
  }
  return undefined;
}

const api = findApi(window) ?? findApi(window.opener);
// Opened from a folder, the lesson is what it is everywhere.
if (api) void keepSchoolRecord(new Scorm12Session(api, () => new Date()));
