import { picksSomeOut } from './counted-things.ts';
import { isBarOfSteel, isFootOfSomebody, isIdiom } from './other-senses.ts';
import { isRate } from './rate.ts';
import { isOddsOrClock } from './ratios.ts';
import { isShareOfMany } from './shares.ts';
import { isOneOfTwoSizes, isSpelledSize, namesAThing, standsForTheThing } from './sizes.ts';
import { isSomebodysWeight, isWayTravelled } from './tales.ts';
import { isTalkOfTime } from './talk-of-time.ts';
import type { InContext, Trap } from './trap.ts';
import { followsTheWordSize, isNotEvenOne, isPrice, isToleranceAlone, numbersALabel } from './words-before.ts';

export type { InContext, Trap } from './trap.ts';

/** The rules of speech by which a number with a unit is no spec; the first that holds is the reason. */
export const TRAPS: readonly Trap[] = [
  {
    rule: 'a measure in front of a noun says which thing is meant',
    holds: namesAThing,
  },
  {
    rule: 'a measure with its noun left out stands for the thing',
    holds: standsForTheThing,
  },
  {
    rule: 'a unit spelled out in the singular after more than one is an adjective',
    holds: isSpelledSize,
  },
  {
    rule: 'a number behind a label counts pages, parts or steps',
    holds: numbersALabel,
  },
  {
    rule: 'behind the word size stands a name',
    holds: followsTheWordSize,
  },
  {
    rule: 'a tolerance without its value says nothing of the value',
    holds: isToleranceAlone,
  },
  {
    rule: 'money is paid for a measure, not set',
    holds: isPrice,
  },
  {
    rule: 'a measure for each of something is a rate, another kind of quantity',
    holds: isRate,
  },
  {
    rule: 'not even one is none',
    holds: isNotEvenOne,
  },
  {
    rule: 'two measures joined by “by” are the size of a thing',
    holds: isOneOfTwoSizes,
  },
  {
    rule: 'a way travelled, or still to travel, is told, not set',
    holds: isWayTravelled,
  },
  {
    rule: 'what somebody weighs is told of them',
    holds: isSomebodysWeight,
  },
  {
    rule: 'clock times, ages, classes and lives last; nothing is to be left so long',
    holds: isTalkOfTime,
  },
  {
    rule: 'a unit that is also a thing needs its own kind of talk: bars of steel',
    holds: isBarOfSteel,
  },
  {
    rule: 'a unit that is also a part of the body',
    holds: isFootOfSomebody,
  },
  {
    rule: 'a measure said twice over is a way of speaking',
    holds: isIdiom,
  },
  {
    rule: 'some picked out of many are not how many there are',
    holds: picksSomeOut,
  },
  {
    rule: 'so many to one is odds in a bet, and a time before one o’clock',
    holds: isOddsOrClock,
  },
  {
    rule: 'so many in a hundred of many are how often, off a price what is saved',
    holds: isShareOfMany,
  },
];

/** The rule of speech by which a quantity is no spec; nothing where it may be one. */
export function trapFor(quantity: InContext): Trap | undefined {
  return TRAPS.find(({ holds }) => holds(quantity));
}
