import type { HeardSpeech } from '../media/index.ts';
import type { LessonParts, Machine, Recording, Shop } from '../model/index.ts';
import { type AroundLessons, brokenAmong, lessonParts, namesIn, type OneLesson } from './alone.ts';
import { type Raw, rawOf } from './one-cause.ts';
import type { Rule } from './rule.ts';

/** What was found in a lesson or recording by itself, and all that the rules were given for it. */
interface KeptFindings {
  readonly given: readonly unknown[];
  readonly found: readonly Raw[];
}

/**
 * By the rules, and by the lesson or recording. What is read is never changed, so what was given is the same as long as
 * its parts are the same objects; a text that is read anew makes new ones.
 */
const kept = new WeakMap<readonly Rule[], WeakMap<object, KeptFindings>>();

function keptOr(rules: readonly Rule[], of: object, given: readonly unknown[], find: () => readonly Raw[]) {
  const own = kept.get(rules) ?? new WeakMap<object, KeptFindings>();
  kept.set(rules, own);
  const before = own.get(of);
  if (before?.given.length === given.length && given.every((each, index) => each === before.given[index]))
    return before.found;
  const found = find();
  own.set(of, { given, found });
  return found;
}

/** What the rules find in each lesson by itself. */
export function findingsOfLessons(shop: Shop, rules: readonly Rule[]): Raw[] {
  return [...lessonParts(shop).values()].flatMap((parts) => {
    const { lessons, translations, recordings, machines, corrections, kit } = parts;
    const broken = brokenAmong(namesOf(lessons), shop.broken);
    const all = [lessons, translations, recordings, machines, corrections, [...broken]];
    const [of = translations[0]] = lessons;
    const find = () => inLesson({ ...parts, broken }, rules);
    return of ? keptOr(rules, of, [kit, ...all.flatMap((each) => [each.length, ...each])], find) : find();
  });
}

/** What the rules find in a lesson by itself. */
export function inLesson(one: OneLesson, rules: readonly Rule[]): Raw[] {
  return rules.flatMap((rule) => rawOf(rule, rule.lesson?.(one) ?? []));
}

const names = new WeakMap<object, ReadonlySet<string>>();

function namesOf(lessons: LessonParts['lessons']): ReadonlySet<string> {
  const [lesson] = lessons;
  const before = lesson && names.get(lesson);
  if (before) return before;
  const found = namesIn(lessons);
  if (lesson) names.set(lesson, found);
  return found;
}

/** What the rules find in each recording by itself. */
export function findingsOfRecordings(
  { recordings }: Shop,
  speech: ReadonlyMap<string, HeardSpeech> | undefined,
  rules: readonly Rule[],
): Raw[] {
  return recordings.flatMap((recording) => {
    const heard = speech?.get(recording.id);
    // Speech is read from the disk anew each time; what it says is what counts.
    return keptOr(rules, recording, [JSON.stringify(heard)], () => inRecording(recording, heard, rules));
  });
}

/** What the rules find in a recording by itself. */
export function inRecording(recording: Recording, heard: HeardSpeech | undefined, rules: readonly Rule[]): Raw[] {
  const one = { recordings: [recording] };
  return rules.flatMap((rule) => rawOf(rule, rule.recording?.(one, heard) ?? []));
}

/** What the rules find in the table of each machine by itself. */
export function findingsOfMachines({ machines }: Pick<Shop, 'machines'>, rules: readonly Rule[]): Raw[] {
  return machines.flatMap((machine) => keptOr(rules, machine, [], () => inMachine(machine, rules)));
}

/** What the rules find in the table of a machine by itself. */
export function inMachine(machine: Machine, rules: readonly Rule[]): Raw[] {
  const one = { machines: [machine] };
  return rules.flatMap((rule) => rawOf(rule, rule.machine?.(one) ?? []));
}

/** What the rules find around lessons and recordings. */
export function findingsAround(shop: AroundLessons, today: string, rules: readonly Rule[]): Raw[] {
  const { info, kit, words, wordsIn, collections, broken, ...lists } = shop;
  const { classes, actuals, questions, corrections, machines } = lists;
  const all = [classes, actuals, questions, corrections, machines, [...(wordsIn ?? [])].flat()];
  const given = [today, info.origin, words, ...all.flatMap((each) => [each.length, ...each])];
  const small = JSON.stringify([collections, [...broken]]);
  return [...keptOr(rules, kit, [small, ...given], () => inAround(shop, today, rules))];
}

/** What the rules find around lessons and recordings, anew. */
export function inAround(shop: AroundLessons, today: string, rules: readonly Rule[]): Raw[] {
  return rules.flatMap((rule) => rawOf(rule, rule.around?.(shop, today) ?? []));
}
