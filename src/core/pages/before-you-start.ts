import { lessonKit, passagesOf, secondsOfDay } from '../fit/index.ts';
import { english } from '../locale/index.ts';
import { type KitGroup, type Lesson, type Shop, SIGNAL_WORDS, type SignalWord } from '../model/index.ts';

/** A chapter or step that something belongs to. */
export interface PassageNamed {
  readonly id: string;
  readonly title: string;
}

/** One thing to lay out. */
export interface ThingToLayOut {
  /** Of one lesson: `tool breaker-bar`. */
  readonly key: string;
  readonly count: number;
  readonly title: string;
  /** The scale of a torque wrench, how much of a supply; as written in the kit. */
  readonly size?: string;
  /** Used once: bought anew for each job. */
  readonly newEachTime: boolean;
}

/** What can hurt: a signal word with its words, and where it is said. */
export interface Hazard {
  readonly word: SignalWord;
  readonly text: string;
  /** The tool or supply that it comes with, by name; else the step that says it. */
  readonly of?: string;
  readonly step?: PassageNamed;
}

/** All that somebody wants to know and to lay out before the first step. */
export interface BeforeYouStart {
  /** Minutes at the bench for somebody who does it for the first time. */
  readonly minutes?: number;
  readonly groups: readonly {
    readonly group: KitGroup;
    readonly name: string;
    readonly things: readonly ThingToLayOut[];
  }[];
  /** The worst first; within a word, in the order of the lesson. */
  readonly hazards: readonly Hazard[];
}

const GROUPS: readonly (readonly [KitGroup, string])[] = [
  ['tool', english('Tools')],
  ['part', english('Parts')],
  ['supply', english('Supplies')],
  ['protective', english('To protect you')],
];

/** What one person needs for a whole lesson, and what can hurt them in it. */
export function beforeYouStart({ kit }: Pick<Shop, 'kit'>, lesson: Lesson): BeforeYouStart {
  const items = lessonKit(lesson, kit);
  return {
    ...(lesson.takes === undefined ? {} : { minutes: secondsOfDay(lesson.takes) / 60 }),
    groups: GROUPS.map(([group, name]) => ({
      group,
      name,
      things: items
        .filter((item) => item.group === group)
        .map(({ id, count, title, range, amount }) => ({
          key: `${group} ${id}`,
          count,
          title,
          ...(range === undefined && amount === undefined ? {} : { size: range ?? amount ?? '' }),
          newEachTime: group === 'part' && kit.parts?.[id]?.replace === 'always',
        })),
    })).filter(({ things }) => things.length > 0),
    hazards: hazards(lesson, { kit }),
  };
}

function hazards(lesson: Lesson, { kit }: Pick<Shop, 'kit'>): Hazard[] {
  const passages = passagesOf({ lesson: lesson.id }, [lesson]);
  const used = new Set(passages.flatMap(({ uses }) => uses.map(({ group, id }) => `${group} ${id}`)));
  const ofThings = (group: 'tool' | 'supply') =>
    Object.entries(kit[group === 'tool' ? 'tools' : 'supplies'] ?? {}).flatMap(([id, { title, hazard, signal }]) =>
      hazard !== undefined && signal !== undefined && used.has(`${group} ${id}`)
        ? [{ word: signal, text: hazard, of: title }]
        : [],
    );
  const ofSteps = passages.flatMap(({ id, title, signals }) =>
    signals.map(({ word, text }) => ({ word, text, step: { id, title } })),
  );
  return (
    [...ofSteps, ...ofThings('tool'), ...ofThings('supply')]
      // ANSI Z535.6: a notice is about practices without injury to anybody.
      .filter(({ word }) => word !== 'notice')
      .toSorted((a, b) => SIGNAL_WORDS.indexOf(a.word) - SIGNAL_WORDS.indexOf(b.word))
  );
}
