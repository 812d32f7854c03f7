import type { ShopClass } from '../../model/index.ts';
import { certain, fromMinutes, mean, plus } from './estimate.ts';
import type { LessonPart, PartLength } from './part-times.ts';
import type { Plan, PlanBlock, PlanTreatment } from './plan.ts';
import { rotationsOf, stationTime } from './stations.ts';

type BlockWritten = ShopClass['blocks'][number];
type TreatmentWritten = BlockWritten['treatments'][number];

/** A treatment whose time cannot be known: the part it shows is missing, or its footage was never measured. */
export interface UnknownTime {
  readonly block: string;
  readonly treatment: string;
  readonly lesson: string;
}

/** What a plan is made from: the class without the place it was read from. */
export type PlannedClass = Pick<
  ShopClass,
  'id' | 'starts' | 'slot' | 'buffer' | 'attendees' | 'capacity' | 'limits' | 'blocks'
>;

const DAY = 24 * 3600;
/** Minutes off the screen or on one's feet that count as a break. Common practice, no source. */
const BREAK_MINUTES = 5;

/** `hh:mm` as seconds from midnight. */
export function secondsOfDay(clock: string): number {
  const [hours = 0, minutes = 0] = clock.split(':').map(Number);
  return (hours * 60 + minutes) * 60;
}

/**
 * A class as the planner needs it: every treatment with its time in whole seconds.
 *
 * @param parts what parts of lessons take on screen
 */
export function toPlan(
  shopClass: PlannedClass,
  parts: (part: LessonPart) => PartLength | undefined,
): { plan: Plan; unknown: readonly UnknownTime[] } {
  const startsAt = secondsOfDay(shopClass.starts);
  const unknown: UnknownTime[] = [];
  const blocks = shopClass.blocks.map((written): PlanBlock => {
    const { id, title, kind, at, between, presenter, bay, beside } = written;
    const fromStart = (clock: string) => (secondsOfDay(clock) - startsAt + DAY) % DAY;
    const window = at !== undefined ? ([at, at] as const) : between;
    return {
      id,
      title,
      kind,
      must: !written.leaveOut && (written.must === true || written.give !== undefined),
      after: written.after ?? [],
      before: written.before ?? [],
      needs: written.needs ?? [],
      together: written.together ?? [],
      anywhere: written.anywhere ?? false,
      ...(window && { window: { earliest: fromStart(window[0]), latest: fromStart(window[1]) } }),
      ...(presenter !== undefined && { presenter }),
      ...(bay !== undefined && { bay }),
      ...(beside !== undefined && { beside }),
      treatments: waysLeft(written).flatMap((treatment) => {
        const part = treatment.show && parts(treatment.show);
        if (treatment.show && !part && treatment.minutes === undefined) {
          unknown.push({ block: id, treatment: treatment.id, lesson: treatment.show.lesson });
          return [];
        }
        return [planTreatment(treatment, part, shopClass)];
      }),
    };
  });
  const limits = shopClass.limits ?? {};
  const seconds = (minutes: number | undefined) => (minutes === undefined ? undefined : Math.round(minutes * 60));
  const screenSeconds = seconds(limits.screenMinutes);
  const seatedSeconds = seconds(limits.seatedMinutes);
  return {
    plan: {
      id: shopClass.id,
      startsAt,
      slotSeconds: secondsOfDay(shopClass.slot),
      bufferSeconds: Math.round((shopClass.buffer ?? 0) * 60),
      limits: {
        breakSeconds: (limits.breakMinutes ?? BREAK_MINUTES) * 60,
        ...(screenSeconds !== undefined && { screenSeconds }),
        ...(seatedSeconds !== undefined && { seatedSeconds }),
        ...(limits.handsOnShare !== undefined && { handsOnShare: limits.handsOnShare }),
      },
      blocks,
    },
    unknown,
  };
}

function planTreatment(
  written: TreatmentWritten,
  part: PartLength | undefined,
  shopClass: PlannedClass,
): PlanTreatment {
  const speed = written.show?.speed ?? 1;
  const onScreen = part ? part.programmeSeconds / speed : 0;
  const rotations = written.stations ? rotationsOf(written.stations, headCount(shopClass)) : 0;
  const estimate =
    written.minutes !== undefined
      ? fromMinutes(written.minutes)
      : plus(
          certain(onScreen + (part?.pauseSeconds ?? 0)),
          written.stations ? stationTime(written.stations, rotations) : certain(0),
        );
  return {
    id: written.id,
    title: written.title ?? '',
    worth: written.worth,
    // Up to the whole second: a class is never planned shorter than its footage.
    seconds: wholeSeconds(mean(estimate)),
    estimate,
    screenSeconds: wholeSeconds(onScreen),
    seated: written.seated ?? written.show !== undefined,
    shown: (part?.chapters ?? []).map(({ id, title, seconds }) => ({
      lesson: part?.lesson.id ?? '',
      chapter: id,
      title,
      programmeSeconds: seconds,
      speed,
    })),
    rotations,
  };
}

/** The treatments the plan may choose from: none of a block left out, the one that a block is to be given in. */
function waysLeft({ leaveOut, give, treatments }: BlockWritten): readonly TreatmentWritten[] {
  if (leaveOut) return [];
  const given = treatments.filter(({ id }) => id === give);
  return given.length > 0 ? given : treatments;
}

/** Attendees to plan for: those expected, or else as many as there is room for. */
export function headCount({ attendees, capacity }: Pick<ShopClass, 'attendees' | 'capacity'>): number | undefined {
  return attendees ?? capacity;
}

/** The next whole second, forgiving the last bits of a double. */
function wholeSeconds(seconds: number): number {
  return Math.max(0, Math.ceil(seconds - 1e-6));
}
