import type { JobSheet, LessonData } from '../../core/pages/index.ts';
import {
  askedOf,
  nothingDone,
  played,
  progressText,
  type ReadingTaken,
  readingName,
  readProgress,
  type SchoolSession,
  type SchoolState,
  sumOf,
} from '../../core/school/index.ts';
import { Scope } from '../page/scope.ts';
import type { LessonPlayer, ProgrammeMoved } from '../player/lesson-player.ts';
import type { LessonRecord } from '../record/lesson-record.ts';
import type { Job } from '../record/schema.ts';

/** What changed is told when so much time has gone by; a pause, a page that goes and the end tell it at once. */
const TELL_MS = 10_000;
/** Moments of the programme further apart than this, seconds, are a jump, not play (at twice the speed it moves by 0.5). */
const JUMP = 3;
/** From the first seconds nobody wants to go on. */
const WORTH_SECONDS = 20;

/**
 * Tells the system of a school what is watched and measured on the page of a lesson, and says so on the page. What
 * stands in the browser itself stays as it is.
 */
export async function keepSchoolRecord(session: SchoolSession): Promise<void> {
  // Their scripts may come after this one; before that nobody takes down what is watched and typed.
  await Promise.all(['lesson-player', 'lesson-record'].map((name) => customElements.whenDefined(name)));
  const player = document.querySelector<LessonPlayer>('lesson-player');
  const record = document.querySelector<LessonRecord>('lesson-record');
  const sheet = islandOf<JobSheet>(record);
  if (!player || !record || !sheet) return;
  const asked = askedOf(sheet, islandOf<LessonData>(player));
  const scope = new Scope();
  let progress = readProgress(asked, session.kept) ?? nothingDone(asked);
  let last: number | undefined;
  let over = false;
  let stop: (() => void) | undefined;
  const words = document.createElement('p');
  words.setAttribute('role', 'status');
  const end = document.createElement('button');
  end.type = 'button';
  end.className = 'key';
  end.textContent = 'End and hand in';
  const panel = document.createElement('section');
  panel.className = 'school-panel no-print';
  panel.setAttribute('aria-label', 'Record for your school');
  panel.append(words, end);
  document.querySelector('main h1')?.after(panel);

  const state = (): SchoolState => {
    const { share, complete } = sumOf(asked, progress);
    return { text: progressText(asked, progress), at: progress.at, share, complete, readings: readingsOf(record.job) };
  };
  const say = () => {
    const { watched, steps, taken, readings, complete } = sumOf(asked, progress);
    const measured = readings === 0 ? '' : `, ${taken} of ${readings} readings taken`;
    words.textContent = over
      ? 'Handed in. This page can be closed.'
      : session.trouble ||
        (session.records
          ? `For your school: ${watched} of ${steps} steps watched${measured}.${complete ? ' Complete.' : ''}`
          : 'Your school’s system shows this lesson to look at; nothing is recorded.');
    end.hidden = over;
  };
  const tell = () => {
    stop?.();
    stop = undefined;
    if (over) return;
    session.keep(state());
    say();
  };
  const changed = () => {
    say();
    stop ??= scope.after(TELL_MS, tell);
  };
  const finish = async () => {
    if (over) return;
    stop?.();
    over = true;
    await session.end(state());
    say();
  };

  scope.listen(player, 'programme-moved', (event) => {
    const { time, playing } = (event as CustomEvent<ProgrammeMoved>).detail;
    const before = sumOf(asked, progress);
    if (last !== undefined && time > last && time - last < JUMP) progress = played(asked, progress, last, time);
    progress = { ...progress, at: time };
    last = playing ? time : undefined;
    if (!playing || sumOf(asked, progress).complete !== before.complete) tell();
    else changed();
  });
  const readRecord = () => {
    const { job } = record;
    const done = new Set(job?.steps.filter(({ done }) => done !== undefined).map(({ id }) => id));
    const names = new Set(readingsOf(job).map(({ name }) => name));
    progress = {
      ...progress,
      // What was ticked or taken in another browser holds too.
      ticked: asked.steps.map(({ id }, i) => done.has(id) || progress.ticked[i] === true),
      taken: asked.readings.map((name, i) => names.has(name) || progress.taken[i] === true),
    };
    changed();
  };
  scope.listen(record, 'job-drawn', readRecord);
  scope.listen(document, 'visibilitychange', () => document.visibilityState === 'hidden' && tell());
  scope.listen(window, 'pagehide', () => void finish());
  scope.listen(end, 'click', async () => {
    await finish();
    if (session.back !== undefined) location.href = session.back;
  });
  readRecord();
  if (progress.at >= WORTH_SECONDS) player.offerToGoOn(progress.at);
}

function readingsOf(job: Job | undefined): ReadingTaken[] {
  return (job?.steps ?? []).flatMap(({ id, readings }) =>
    readings.map(({ spec, title, value, unit, limits, verdict }) => ({
      ...{ name: readingName(id, spec), title, value, unit, limits },
      ...(verdict === undefined ? {} : { right: verdict !== 'out' }),
    })),
  );
}

function islandOf<T>(element: Element | null): T | undefined {
  const island = element?.querySelector(':scope > script[type="application/json"]');
  return (JSON.parse(island?.textContent ?? 'null') as T | null) ?? undefined;
}
