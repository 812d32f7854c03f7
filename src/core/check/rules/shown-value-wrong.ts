import { findQuantities } from '../../heard/index.ts';
import { readDesignation } from '../../spec/index.ts';
import { printClockTime } from '../../time/index.ts';
import { rule } from '../rule.ts';
import { replaceIn } from '../sample.ts';
import { valuesWrong } from './value-wrong.ts';

const shows = (text: string) =>
  replaceIn('recordings/chain.yaml', 'people:', `shows:\n  - {at: "0:06:20", text: ${text}}\npeople:`);

export default rule({
  id: 'shown-value-wrong',
  severity: 'warning',
  why: 'Somebody who reads the value off the picture would set one that is not in the spec table.',
  bad: shows('80 N·m'),
  says: '17:75 at 0:06:20 "80 N·m" is shown, but axle-nut is 98 ± 5 N·m: 13 N·m too little',
  good: shows('98 N·m'),

  lesson: (shop) => valuesWrong(shop, 'shown'),

  *recording({ recordings }) {
    for (const { id, shows, length } of recordings)
      for (const { at, text, place } of shows) {
        const moment = printClockTime(at.start);
        if (length !== undefined && at.start >= length)
          yield {
            place,
            message: `"${text}" is shown at ${moment}, past the end of ${id}, which lasts ${printClockTime(length)}`,
            help: 'write the moment of the recording at which the picture shows it',
          };
        else if (findQuantities(text).length === 0 && !isName(text))
          yield {
            place,
            message: `at ${moment} "${text}" is shown, and no value can be read in it, so it is compared with nothing`,
            help: 'write the figure with its unit, as the picture shows it, such as 98 N·m',
          };
      }
  },
});

/** A thread or a grade of oil is shown as a name, and has no value. */
function isName(text: string): boolean {
  return (['thread', 'viscosity-grade'] as const).some((kind) => readDesignation(text, kind).ok);
}
