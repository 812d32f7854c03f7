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
    catches: 'Use the 10 mm deep socket.',
    leaves: 'Leave a 10 mm deep gap.',
    holds: namesAThing,
  },
  {
    rule: 'a measure with its noun left out stands for the thing',
    catches: 'Grab a 17 mm and come back.',
    leaves: 'The hole is 17 mm and deep.',
    holds: standsForTheThing,
  },
  {
    rule: 'a unit spelled out in the singular after more than one is an adjective',
    catches: 'It is a three-inch offcut.',
    leaves: 'It is three inches off.',
    holds: isSpelledSize,
  },
  {
    rule: 'a number behind a label counts pages, parts or steps',
    catches: 'It stands in bay 12 C.',
    leaves: 'It stands at 12 C.',
    holds: numbersALabel,
  },
  {
    rule: 'behind the word size stands a name',
    catches: 'Ask for size 10 mm.',
    leaves: 'Ask for a gap of 10 mm.',
    holds: followsTheWordSize,
  },
  {
    rule: 'a tolerance without its value says nothing of the value',
    catches: 'There is a tolerance of plus or minus two newton metres.',
    leaves: 'It is ten plus or minus two newton metres.',
    holds: isToleranceAlone,
  },
  {
    rule: 'money is paid for a measure, not set',
    catches: 'It costs five dollars a metre.',
    leaves: 'It takes a metre of hose.',
    holds: isPrice,
  },
  {
    rule: 'a measure for each of something is a rate, another kind of quantity',
    catches: 'It loses 3 psi a week.',
    leaves: 'It loses 3 psi as it cools.',
    holds: isRate,
  },
  {
    rule: 'not even one is none',
    catches: 'There is hardly a gram of grease in it.',
    leaves: 'There is a gram of grease in it.',
    holds: isNotEvenOne,
  },
  {
    rule: 'two measures joined by “by” are the size of a thing',
    catches: 'The strip is 10 mm by 20.',
    leaves: 'The strip moves 10 mm by itself.',
    holds: isOneOfTwoSizes,
  },
  {
    rule: 'a way travelled, or still to travel, is told, not set',
    catches: 'The shop is 3 km down the road.',
    leaves: 'Do it again after 3 km.',
    holds: isWayTravelled,
  },
  {
    rule: 'what somebody weighs is told of them',
    catches: 'I am 80 kg.',
    leaves: 'The load is 80 kg.',
    holds: isSomebodysWeight,
  },
  {
    rule: 'clock times, ages, classes and lives last; nothing is to be left so long',
    catches: 'The class lasts ninety minutes.',
    leaves: 'Let it soak for ninety minutes.',
    holds: isTalkOfTime,
  },
  {
    rule: 'a unit that is also a thing needs its own kind of talk: bars of steel',
    catches: 'Lift one bar out of the rack.',
    leaves: 'Inflate it to one bar.',
    holds: isBarOfSteel,
  },
  {
    rule: 'a unit that is also a part of the body',
    catches: 'Keep one foot on the floor.',
    leaves: 'Keep one foot of rope.',
    holds: isFootOfSomebody,
  },
  {
    rule: 'a measure said twice over is a way of speaking',
    catches: 'Move it one inch by inch.',
    leaves: 'Move it one inch by hand.',
    holds: isIdiom,
  },
  {
    rule: 'some picked out of many are not how many there are',
    catches: 'Mark all five links.',
    leaves: 'The chain has 110 links.',
    holds: picksSomeOut,
  },
  {
    rule: 'so many to one is odds in a bet, and a time before one o’clock',
    catches: 'It is a three to one chance.',
    leaves: 'Mix it at fifty to one.',
    holds: isOddsOrClock,
  },
  {
    rule: 'so many in a hundred of many are how often, off a price what is saved',
    catches: 'Ninety percent of punctures are pinches.',
    leaves: 'The sag is thirty percent of the travel.',
    holds: isShareOfMany,
  },
];

/** The rule of speech by which a quantity is no spec; nothing where it may be one. */
export function trapFor(quantity: InContext): Trap | undefined {
  return TRAPS.find(({ holds }) => holds(quantity));
}
