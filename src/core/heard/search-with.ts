import { exact, minus, plus, toNumber } from '../spec/index.ts';
import type { HeardQuantity } from './heard-quantity.ts';
import type { Amount, Side } from './limits/index.ts';
import { Numbers } from './number.ts';
import type { Phrase } from './number-and-unit.ts';
import type { NumberRead } from './number-read.ts';
import { phraseFrom, unitTakenBack } from './phrase.ts';
import { Surroundings } from './said.ts';
import { isRejected, takesBack } from './taken-back.ts';
import type { Talk } from './talk.ts';
import { tokens as split, type Token } from './tokens.ts';
import { behindTheThing, toleranceAfter } from './tolerance.ts';
import { type Trap, trapFor } from './traps/index.ts';
import { isEcho, leastAndMost, limitAtLast, limitForBoth, saidTwice, sameSide, withSideOf } from './two-together.ts';
import { Units } from './units-near.ts';

/** A number with a unit that sets nothing, and the rule of speech that says so. */
export interface LeftOut {
  readonly start: number;
  readonly end: number;
  readonly trap: Trap;
}

/** What a search of a text comes to. */
export interface Searched {
  readonly quantities: readonly HeardQuantity[];
  readonly leftOut: readonly LeftOut[];
  /** From where on the text was not searched, because it holds more numbers than anybody says. */
  readonly stoppedAt?: number;
}

/** So many numbers are looked at in one text, articles counted: a day of talk holds fewer. */
export const MOST_NUMBERS = 25_000;

/** Tells the side of a limit, if an amount is one, and the first token behind the words that say so. */
export type SideOf = (amount: Amount) => { readonly side: Side | undefined; readonly to: number };

/** Finds the quantities of a text, and what was left out and why, by a reading of limits. Takes a time that grows as the text does. */
export function searchWith(sideOf: SideOf, text: string, earlier = ''): Searched {
  const quantities: HeardQuantity[] = [];
  const leftOut: LeftOut[] = [];
  if (!/\S/.test(text)) return { quantities, leftOut };
  const pieces = split(text);
  const numbers = new Numbers(pieces);
  const talk: Talk = { text, pieces, numbers };
  const surroundings = new Surroundings(text, pieces, earlier);
  const units = new Units(talk);
  let looked = 0;
  for (let at = 0; at < pieces.length; ) {
    const number = numbers.at(at);
    if (!number) {
      at++;
      continue;
    }
    if (++looked > MOST_NUMBERS) return { quantities, leftOut, stoppedAt: pieces[at]?.start ?? 0 };
    const said = surroundings.of(at);
    const own = phraseFrom(talk, number, said);
    const phrase = own ?? units.takenFromNeighbour(number, said);
    if (!phrase) {
      // Not into the middle of a number: `twenty five thirty` holds no five hundred and thirty.
      at = Math.max(number.to, at + 1);
      continue;
    }
    const meant = unitTakenBack(talk, phrase, surroundings.of(phrase.low.from));
    const heard = withTolerance(sideOf, talk, meant, surroundings);
    if (heard.found) {
      const before = quantities.at(-1);
      const { start } = heard.found;
      // `about a minute, wait five`: work to do, no interruption.
      const waits =
        heard.found.kind === 'time' &&
        before !== undefined &&
        (!own || /\bwait\s+$/.test(text.slice(before.end, start)));
      const instead =
        before?.kind === heard.found.kind && !waits && takesBack(text.slice(before.end, start)) ? before : undefined;
      if (instead) quantities.pop();
      // `the main bevel is twenty-five, then thirty degrees`: what waited for its unit.
      for (const waiting of units.thoseThatWaited(meant)) {
        const { found } = withTolerance(sideOf, talk, waiting, surroundings);
        if (found && !takesBack(text.slice(found.end, start))) quantities.push(found);
      }
      const last = quantities.at(-1);
      const again = last && limitForBoth(last, heard.found, text);
      if (again) quantities[quantities.length - 1] = again;
      const both = leastAndMost(last, heard.found, text) ?? limitAtLast(last, heard.found, text);
      if (both) quantities[quantities.length - 1] = both;
      else if (!isEcho(last, heard.found, text))
        quantities.push(
          instead ? withSideOf(instead, heard.found) : sameSide(last, saidTwice(last, heard.found, text), text),
        );
      units.keep(meant, heard.found.end);
    } else if (!heard.trap) units.keep(meant, pieces[meant.to - 1]?.end ?? 0);
    if (heard.trap) {
      // `20 amps, no, sorry, it's a 16 amp breaker`: taken back by what is none itself.
      const before = quantities.at(-1);
      if (before?.kind === meant.unit.kind && takesBack(text.slice(before.end, heard.trap.start))) quantities.pop();
      leftOut.push(heard.trap);
      // `a thirty-six volt pack, and forty-one point eight on the meter`: what names a thing says its unit, too.
      if (/^(voltage|current|power)$/.test(meant.unit.kind)) units.keep(meant, pieces[meant.to - 1]?.end ?? 0, true);
      // `plate's 2.2, kerf's 3.2, so a two and a half mil knife`: a decimal is no size to pick from.
      for (const waiting of units.thoseThatWaited(meant)) {
        const { found } = withTolerance(sideOf, talk, waiting, surroundings);
        if (found && !Number.isInteger(waiting.low.value) && waiting.low.denominator === undefined)
          quantities.push(found);
      }
    }
    at = Math.max(heard.to, at + 1);
  }
  return { quantities, leftOut };
}

/** `ten to twelve thousand`: the first number counts in the thousands of the second. */
function sameScale({ low, high }: Phrase): NumberRead {
  const scale = high?.scale ?? 1;
  if (!high || low.scale || scale === 1) return low;
  if (low.value < high.value / scale) return { ...low, value: low.value * scale };
  // `fifty-four to six thousand`: of the hundreds.
  return scale === 1000 && low.value < 100 && low.value * 100 < high.value ? { ...low, value: low.value * 100 } : low;
}

function withTolerance(
  sideOf: SideOf,
  talk: Talk,
  phrase: Phrase,
  surroundings: Surroundings,
): { found?: HeardQuantity; trap?: LeftOut; to: number } {
  const { text, pieces } = talk;
  const { high, unit } = phrase;
  const low = sameScale(phrase);
  const said = surroundings.of(low.from);
  const readTolerance = (from: number | undefined) =>
    from === undefined ? undefined : toleranceAfter(talk, from, low.value, unit);
  const after =
    high || phrase.tolerance
      ? undefined
      : (readTolerance(phrase.to) ?? readTolerance(behindTheThing(pieces, phrase.to)));
  const tolerance = phrase.tolerance ?? after;
  const to = after?.to ?? phrase.to;
  const start = pieces[phrase.high ? openedAt(pieces, low.from) : low.from]?.start ?? 0;
  const end = pieces[to - 1]?.end ?? start;
  if (isRejected(said.before, said.after(phrase.to))) return { to };
  const trap = trapFor({ pieces, number: low, unit, to: phrase.to, said });
  if (trap) return { to, trap: { start, end, trap } };
  const times = unit.times ?? 1;
  const value = (number: number) => (times === 1 ? number : toNumber(exact(String(number * times))));
  const [least, most] = [value(low.value), value(high?.value ?? low.value)];
  const { side, to: past } = sideOf({
    pieces,
    from: low.from,
    to,
    valueTo: phrase.to,
    unit,
    said,
    exact: !(tolerance || high),
  });
  const span = tolerance
    ? { min: sum(least, -tolerance.down), max: sum(least, tolerance.up), nominal: least }
    : {
        ...(side === 'max' && !high ? {} : { min: least }),
        ...(side === 'min' && !high ? {} : { max: most }),
      };
  return {
    found: {
      start,
      end,
      text: text.slice(start, end),
      kind: unit.kind,
      ...span,
      unit: unit.symbol,
      readings: unit.readings,
    },
    to: past,
  };
}

/** `between 25 and 35 mm` is heard from its first word on: without it the two numbers say something else. */
function openedAt(pieces: readonly Token[], from: number): number {
  return pieces[from - 1]?.lower === 'between' ? from - 1 : from;
}

function sum(a: number, b: number): number {
  return toNumber(b < 0 ? minus(exact(a), exact(-b)) : plus(exact(a), exact(b)));
}
