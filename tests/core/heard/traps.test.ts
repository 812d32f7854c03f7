import { expect, test } from 'vitest';
import { searchQuantities } from '../../../src/core/heard/find-quantities.ts';
import { TRAPS } from '../../../src/core/heard/traps/index.ts';

/** Of each rule a sentence that it catches, and its neighbour that it leaves. They stand here, not beside the rules, which every page loads. */
const EXAMPLES = [
  ['a measure in front of a noun says which thing is meant', 'Use the 10 mm deep socket.', 'Leave a 10 mm deep gap.'],
  [
    'a measure with its noun left out stands for the thing',
    'Grab a 17 mm and come back.',
    'The hole is 17 mm and deep.',
  ],
  [
    'a unit spelled out in the singular after more than one is an adjective',
    'It is a three-inch offcut.',
    'It is three inches off.',
  ],
  ['a number behind a label counts pages, parts or steps', 'It stands in bay 12 C.', 'It stands at 12 C.'],
  ['behind the word size stands a name', 'Ask for size 10 mm.', 'Ask for a gap of 10 mm.'],
  [
    'a tolerance without its value says nothing of the value',
    'There is a tolerance of plus or minus two newton metres.',
    'It is ten plus or minus two newton metres.',
  ],
  ['money is paid for a measure, not set', 'It costs five dollars a metre.', 'It takes a metre of hose.'],
  [
    'a measure for each of something is a rate, another kind of quantity',
    'It loses 3 psi a week.',
    'It loses 3 psi as it cools.',
  ],
  ['not even one is none', 'There is hardly a gram of grease in it.', 'There is a gram of grease in it.'],
  [
    'two measures joined by “by” are the size of a thing',
    'The strip is 10 mm by 20.',
    'The strip moves 10 mm by itself.',
  ],
  [
    'a way travelled, or still to travel, is told, not set',
    'The shop is 3 km down the road.',
    'Do it again after 3 km.',
  ],
  ['what somebody weighs is told of them', 'I am 80 kg.', 'The load is 80 kg.'],
  [
    'clock times, ages, classes and lives last; nothing is to be left so long',
    'The class lasts ninety minutes.',
    'Let it soak for ninety minutes.',
  ],
  [
    'a unit that is also a thing needs its own kind of talk: bars of steel',
    'Lift one bar out of the rack.',
    'Inflate it to one bar.',
  ],
  ['a unit that is also a part of the body', 'Keep one foot on the floor.', 'Keep one foot of rope.'],
  ['a measure said twice over is a way of speaking', 'Move it one inch by inch.', 'Move it one inch by hand.'],
  ['some picked out of many are not how many there are', 'Mark all five links.', 'The chain has 110 links.'],
  [
    'so many to one is odds in a bet, and a time before one o’clock',
    'It is a three to one chance.',
    'Mix it at fifty to one.',
  ],
  [
    'so many in a hundred of many are how often, off a price what is saved',
    'Ninety percent of punctures are pinches.',
    'The sag is thirty percent of the travel.',
  ],
] as const;

test.each(EXAMPLES)('%s', (rule, catches, leaves) => {
  const caught = searchQuantities(catches);
  expect(caught.quantities).toEqual([]);
  expect(caught.leftOut.map((each) => each.trap.rule)).toEqual([rule]);
  const left = searchQuantities(leaves);
  expect(left.leftOut).toEqual([]);
  expect(left.quantities).toHaveLength(1);
});

test('a rule of speech is named once, and each has its example', () => {
  const rules = TRAPS.map(({ rule }) => rule);
  expect(new Set(rules).size).toBe(TRAPS.length);
  expect(EXAMPLES.map(([rule]) => rule)).toEqual(rules);
});
