import { figuresIn, findQuantities, isSpanish, measuresBySign, measuresInSpanish } from '../heard/index.ts';
import type { Caption, Recording } from '../model/index.ts';
import { printClockTime, TICKS_PER_SECOND } from '../time/index.ts';
import type { Finding } from './rule.ts';

/** A translation may be spoken, or shown, so long before or after the words it translates (common practice, no source). */
const NEAR = 10 * TICKS_PER_SECOND;

/**
 * Measures in translated captions with a number that the recording does not say about then. Numbers are compared, not
 * limits: a translator writes the same figures in other words. In Spanish numbers and units in words are known; in other
 * languages what is found stands in figures, with a sign for its unit.
 */
export function* measuresAstray({ captions, captionsIn = new Map() }: Recording): Generator<Finding> {
  const own = captions?.cues ?? [];
  if (!captions || own.length === 0) return;
  for (const [language, file] of captionsIn) {
    if (file === captions) continue;
    for (const cue of file.cues) {
      const measures = isSpanish(language) ? measuresInSpanish(cue.text) : measuresBySign(cue.text);
      if (measures.length === 0) continue;
      const near = own.filter(({ at }) => at.start <= cue.at.end + NEAR && at.end >= cue.at.start - NEAR);
      const said = numbersIn(near);
      for (const { text, numbers } of measures) {
        if (numbers.every((ways) => ways.some((number) => said.has(number)))) continue;
        yield {
          place: cue.place,
          message: `at ${printClockTime(cue.at.start)} "${text.replaceAll(/\s+/g, ' ')}" holds a number that ${captions.file} does not say there`,
          help: 'compare both captions with the recording: a translation changes words, never values',
          ...(near[0] && { see: { place: near[0].place, note: 'the captions it translates, from here on' } }),
        };
      }
    }
  }
}

/** Every number of some captions: in figures, and in the words of a quantity. */
function numbersIn(cues: readonly Caption[]): ReadonlySet<number> {
  // A sentence goes on from caption to caption.
  const text = cues.map((cue) => cue.text.replaceAll('\n', ' ')).join(' ');
  const heard = findQuantities(text).flatMap(({ min, max, nominal }) => [min, max, nominal]);
  return new Set([...figuresIn(text).flat(), ...heard.filter((value) => value !== undefined)]);
}
