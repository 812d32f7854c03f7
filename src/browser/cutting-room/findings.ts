import { captionsOf, type Passage, type Session } from '../../core/edit/index.ts';
import type { Diagnostic } from '../../core/model/index.ts';
import { parseMoment } from '../../core/time/index.ts';

/** The chapter or step a diagnostic of the lesson on the table stands in. */
export function passageOf(diagnostic: Diagnostic, { desk, view }: Session): Passage | undefined {
  if (diagnostic.place.file !== desk.lessonFile) return undefined;
  const { offset } = diagnostic.place.start;
  return view.passages.findLast(({ own }) => own.start <= offset);
}

/** Where in the recording a diagnostic points to, ticks; nothing where it is about no moment. */
export function timeOf(diagnostic: Diagnostic, session: Session): number | undefined {
  const { desk, view } = session;
  if (diagnostic.place.file === desk.recordingFile && view.recording) {
    for (const [path, place] of view.recording.origin.places) {
      const entry = /^edit\/(\d+)$/.exec(path);
      if (
        !entry ||
        place.end.offset < diagnostic.place.start.offset ||
        place.start.offset > diagnostic.place.end.offset
      )
        continue;
      const written = view.recording.written.edit?.[Number(entry[1])]?.in;
      const at = written === undefined ? undefined : parseMoment(written, view.recording);
      if (at?.ok) return at.value;
    }
    return undefined;
  }
  if (diagnostic.place.file === view.recording?.captions?.file) {
    const { offset } = diagnostic.place.start;
    return captionsOf(session).findLast(({ place }) => place.start.offset <= offset)?.at.start;
  }
  return passageOf(diagnostic, session)?.cue?.at;
}

/** The diagnostics that have a moment, for marks beside the strip. */
export function findingTimes(diagnostics: readonly Diagnostic[], session: Session): { at: number; severity: string }[] {
  return diagnostics.flatMap((diagnostic) => {
    const at = timeOf(diagnostic, session);
    return at === undefined ? [] : [{ at, severity: diagnostic.severity }];
  });
}

/** True for what is about the recording, its captions or the lesson on the table. */
export function isOfTable({ place: { file } }: Diagnostic, { desk, view }: Session): boolean {
  return file === desk.lessonFile || file === desk.recordingFile || file === view.recording?.captions?.file;
}

/** Diagnostics of the files on the table first, worst first. */
export function sortFindings(diagnostics: readonly Diagnostic[], session: Session): Diagnostic[] {
  const rank = (diagnostic: Diagnostic) =>
    (isOfTable(diagnostic, session) ? 0 : 10) +
    (diagnostic.severity === 'error' ? 0 : diagnostic.severity === 'warning' ? 1 : 2);
  return diagnostics.toSorted((a, b) => rank(a) - rank(b));
}
