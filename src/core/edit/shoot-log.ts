import { editList, parseTimecode, type Range, TICKS_PER_SECOND, type Ticks, ticks } from '../time/index.ts';
import { cueText } from './commands/cue.ts';
import { editKept } from './commands/cut.ts';
import { editLesson } from './commands/lesson-edit.ts';
import { type Outcome, refuse } from './commands/outcome.ts';
import { withCue } from './lesson-text.ts';
import { type Labels, onFrame } from './moments.ts';
import type { Session } from './session.ts';

type Moment = Ticks<'recording'>;

/** One tap on the phone; `at` is the phone's clock, milliseconds. */
export type Tap = { readonly id: string; readonly at: number } & (
  | { readonly kind: 'begin'; readonly step: string; readonly take: number }
  | { readonly kind: 'good' | 'bad'; readonly step: string; readonly take: number }
  | { readonly kind: 'rest' | 'clap' }
  | { readonly kind: 'camera'; readonly shows: string }
);

/** One attempt at a step. */
export interface Take {
  readonly step: string;
  readonly take: number;
  /** Phone clock, milliseconds; `to` is when the next thing began or the camera rested. */
  readonly from: number;
  readonly to?: number;
  readonly verdict?: 'good' | 'bad';
}

/** Every take in order of time. Taps may come twice or out of order: a phone sends again what it is not sure of. */
export function takesOf(taps: readonly Tap[]): Take[] {
  const once = [...new Map(taps.map((tap) => [tap.id, tap])).values()].toSorted((a, b) => a.at - b.at);
  const breaks = once.filter(({ kind }) => kind === 'begin' || kind === 'rest');
  return once.flatMap((tap): Take[] => {
    if (tap.kind !== 'begin') return [];
    const end = breaks.find(({ at }) => at > tap.at);
    const said = once.findLast(
      (t) => (t.kind === 'good' || t.kind === 'bad') && t.step === tap.step && t.take === tap.take,
    );
    return [
      {
        step: tap.step,
        take: tap.take,
        from: tap.at,
        ...(end ? { to: end.at } : {}),
        ...(said?.kind === 'good' || said?.kind === 'bad' ? { verdict: said.kind } : {}),
      },
    ];
  });
}

/** The take that stands for each step: the last good one, otherwise the last that is not bad. */
export function bestTakes(takes: readonly Take[]): Take[] {
  const steps = [...new Set(takes.map(({ step }) => step))];
  return steps
    .flatMap((step) => {
      const own = takes.filter((take) => take.step === step);
      return (
        own.findLast(({ verdict }) => verdict === 'good') ?? own.findLast(({ verdict }) => verdict !== 'bad') ?? []
      );
    })
    .toSorted((a, b) => a.from - b.from);
}

/** A moment that is known on both clocks: the phone's in milliseconds, the recording's in ticks (which may lie before it). */
export interface Alignment {
  readonly phone: number;
  readonly recording: number;
}

const TICKS_PER_MS = TICKS_PER_SECOND / 1000;

/** By a clap that was tapped on the phone and is heard in the recording. */
export function alignByClap(taps: readonly Tap[], heard: Moment): Alignment | undefined {
  const clap = taps.findLast(({ kind }) => kind === 'clap');
  return clap && { phone: clap.at, recording: heard };
}

/** By the time the camera showed when it was read off and tapped; needs the recording's start timecode. */
export function alignByCamera(
  taps: readonly Tap[],
  { rate, startFrame }: Pick<Labels, 'rate' | 'startFrame'>,
): Alignment | undefined {
  if (!rate) return undefined;
  for (const tap of taps.toReversed()) {
    if (tap.kind !== 'camera') continue;
    const frame = parseTimecode(tap.shows, rate);
    if (frame.ok) return { phone: tap.at, recording: (frame.value - startFrame) * rate.ticksPerFrame };
  }
  return undefined;
}

/** A tap of the phone on the recording's clock; what lies before its start counts as its start. */
export function momentOf(phoneMs: number, { phone, recording }: Alignment): Moment {
  const at = recording + (phoneMs - phone) * TICKS_PER_MS;
  return ticks(Math.min(Math.max(0, Math.round(at)), Number.MAX_SAFE_INTEGER));
}

/**
 * Makes the log the first cues and, where nothing was cut yet, the first edit list: what was not a good take goes.
 * Cues that are set already stay.
 */
export function useShootLog(session: Session, taps: readonly Tap[], alignment: Alignment): Outcome {
  const { view } = session;
  const { labels } = view;
  const best = bestTakes(takesOf(taps)).flatMap((take): { id: string; range: Range<'recording'> }[] => {
    const start = onFrame(momentOf(take.from, alignment), labels);
    const end = take.to === undefined ? view.length : onFrame(momentOf(take.to, alignment), labels);
    return start < end && start < view.length
      ? [{ id: take.step, range: { start, end: end < view.length ? end : view.length } }]
      : [];
  });
  if (best.length === 0) return refuse('no good take of the log lies within the recording; check how it is aligned');
  const open = view.passages.filter(({ id, cue }) => !cue && best.some((take) => take.id === id));
  const label = `took ${open.length} cues from the shoot log`;
  const cued = editLesson(session, label, (text) =>
    open.toReversed().reduce((now, passage) => {
      const take = best.find(({ id }) => id === passage.id);
      return take ? withCue(now, passage, { at: cueText(session, take.range.start) }) : now;
    }, text),
  );
  if ('refused' in cued || view.recording?.edited) return cued;
  const kept = editList(best.map(({ range }) => range));
  const cut = editKept(cued.session, kept, `${label} and ${best.length} takes as the first edit list`);
  return 'refused' in cut ? cued : cut;
}
