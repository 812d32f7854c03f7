import { must } from '../time/index.ts';
import { type Looks, NUMBERS } from './looks.ts';

/** A minute. */
const REACH = 1500;
/**
 * Of what two looks taken at random differ by: what a look costs that belongs to nothing, and what it costs to speak
 * slower or faster than the voice. Chosen on one of the demo's recordings, judged on others and on human speech.
 */
const APART = 0.85;
const PACE = 0.3;
/** Of that, what a look of a piece costs that is passed over: at double pace it could be laid on half as many. */
const OVER = 0.5;

/** So many looks of the sound are laid at a time. */
const OFTEN = 64;

/** Where the looks of a text lie in a sound. */
export interface Laid {
  /** For each look of the text the one of the sound; −1 where it has none. */
  readonly at: Int32Array;
  /** Mean cost of each piece on the path, 1 for what belongs to nothing; NaN where the piece was passed over. */
  readonly costs: Float64Array;
}

/** How the best way came to a state: on the same look, from the one before, from two before, or from a gap. */
const STAYED = 0;
const FROM_GAP = 3;
/** The same for the gap between two pieces: the gap itself, the end of the piece before it, or over that piece. */
const PIECE_ENDED = 1;
const PASSED_OVER = 2;

/** One moment of the sound: how the best way came to each state that was under way then. */
interface Column {
  readonly from: number;
  readonly steps: Uint8Array;
  readonly gapSteps: Uint8Array;
}

/**
 * Lays a spoken text on sound by dynamic time warping: along the way on which both sound most alike. Between two pieces
 * of the text, sound may pass that is not in it; a piece that is not in the sound is passed over.
 *
 * @param text looks of the text as a voice speaks it
 * @param ends of its pieces, each the first look of the next one, the last one `text.count`; no piece is empty
 * @param sound looks of the sound
 * Source: Sakoe and Chiba, "Dynamic programming algorithm optimization for spoken word recognition", 1978.
 */
export function layText(text: Looks, ends: readonly number[], sound: Looks): Laid {
  const laying = layingText(text, ends, sound);
  for (;;) {
    const next = laying.next();
    if (next.done) return next.value;
  }
}

/**
 * As `layText`, and yields now and then how many looks of the sound are done: it may take a minute.
 *
 * @param reach looks of the text that may be under way at once, to either side of the best
 */
export function* layingText(
  text: Looks,
  ends: readonly number[],
  sound: Looks,
  reach = REACH,
): Generator<number, Laid> {
  const starts = Int32Array.from(ends, (_, piece) => ends[piece - 1] ?? 0);
  const lasts = Int32Array.from(ends, (end) => end - 1);
  const pieceAt = new Int32Array(text.count).fill(-1);
  starts.forEach((start, piece) => {
    pieceAt[start] = piece;
  });
  const usual = usualDistance(text, sound);
  const [apart, pace] = [APART * usual, PACE * APART * usual];
  const over = Float64Array.from(
    starts,
    (start, piece) => (must(ends[piece], 'the end of a piece') - start) * OVER * apart,
  );
  const never = () => new Float64Array(text.count).fill(Number.POSITIVE_INFINITY);
  let [before, now] = [never(), never()];
  /** Where each of the two holds costs: outside it is `never`, without being filled anew each time. */
  let [bandBefore, bandNow] = [
    { from: 0, until: 0 },
    { from: 0, until: 0 },
  ];
  let gapsBefore = new Float64Array(ends.length + 1);
  let gapsNow = new Float64Array(ends.length + 1);
  over.forEach((cost, piece) => {
    gapsBefore[piece + 1] = must(gapsBefore[piece], 'the cost of a gap') + cost;
  });
  const columns: Column[] = [];
  const apartness = new Float64Array(text.count);
  let best = 0;
  for (let moment = 0; moment < sound.count; moment++) {
    const from = Math.max(0, best - reach);
    const until = Math.min(text.count, best + reach);
    const steps = new Uint8Array(until - from);
    now.fill(Number.POSITIVE_INFINITY, bandNow.from, bandNow.until);
    bandNow = { from, until };
    let lowest = Number.POSITIVE_INFINITY;
    distancesTo(sound, moment, text, from, until, apartness);
    let two = from > 1 ? must(before[from - 2], 'the cost of a look') : Number.POSITIVE_INFINITY;
    let one = from > 0 ? must(before[from - 1], 'the cost of a look') : Number.POSITIVE_INFINITY;
    for (let look = from; look < until; look++) {
      const same = must(before[look], 'the cost of a look');
      let cost = same + pace;
      let step = STAYED;
      if (one < cost) {
        cost = one;
        step = 1;
      }
      if (two + pace < cost) {
        cost = two + pace;
        step = 2;
      }
      two = one;
      one = same;
      const piece = pieceAt[look] ?? -1;
      if (piece >= 0) {
        const gap = must(gapsBefore[piece], 'the cost of a gap');
        if (gap < cost) {
          cost = gap;
          step = FROM_GAP;
        }
      }
      if (cost === Number.POSITIVE_INFINITY) continue;
      cost += must(apartness[look], 'a distance');
      now[look] = cost;
      steps[look - from] = step;
      if (cost < lowest) {
        lowest = cost;
        best = look;
      }
    }
    const gapSteps = new Uint8Array(ends.length + 1);
    for (let gap = 0; gap <= ends.length; gap++) {
      let cost = must(gapsBefore[gap], 'the cost of a gap') + apart;
      if (gap > 0) {
        const ended = must(now[lasts[gap - 1] ?? 0], 'the cost of a look');
        const passed = must(gapsNow[gap - 1], 'the cost of a gap') + must(over[gap - 1], 'the cost of a piece');
        if (ended < cost) {
          cost = ended;
          gapSteps[gap] = PIECE_ENDED;
        }
        if (passed < cost) {
          cost = passed;
          gapSteps[gap] = PASSED_OVER;
        }
      }
      gapsNow[gap] = cost;
      if (cost < lowest) {
        lowest = cost;
        best = Math.min(text.count - 1, starts[gap] ?? text.count);
      }
    }
    columns.push({ from, steps, gapSteps });
    if (moment % OFTEN === 0) yield moment;
    [before, now] = [now, before];
    [bandBefore, bandNow] = [bandNow, bandBefore];
    [gapsBefore, gapsNow] = [gapsNow, gapsBefore];
  }
  return wayBack(columns, { text, sound, starts, lasts, pieceAt, apart });
}

interface Terms {
  readonly text: Looks;
  readonly sound: Looks;
  readonly starts: Int32Array;
  readonly lasts: Int32Array;
  readonly pieceAt: Int32Array;
  readonly apart: number;
}

/** From the end of the sound, where all pieces are over, back to its beginning. */
function wayBack(columns: readonly Column[], { text, sound, starts, lasts, pieceAt, apart }: Terms): Laid {
  const pieces = starts.length;
  const at = new Int32Array(text.count).fill(-1);
  const sums = new Float64Array(pieces);
  const counts = new Float64Array(pieces);
  let gap = pieces;
  let look = -1;
  let piece = -1;
  for (let moment = columns.length - 1; moment >= 0; ) {
    const column = columns[moment];
    if (!column) break;
    if (look < 0) {
      const step = must(column.gapSteps[gap], 'a step');
      if (step === PIECE_ENDED) {
        piece = gap - 1;
        look = must(lasts[piece], 'the last look of a piece');
      } else if (step === PASSED_OVER) gap--;
      else moment--;
      continue;
    }
    at[look] = moment;
    sums[piece] = must(sums[piece], 'a sum') + distance(text, look, sound, moment) / apart;
    counts[piece] = must(counts[piece], 'a count') + 1;
    const step = must(column.steps[look - column.from], 'a step');
    moment--;
    if (step === FROM_GAP) {
      gap = must(pieceAt[look], 'the piece of a look');
      look = -1;
      continue;
    }
    if (step === 2) at[look - 1] = moment + 1;
    look -= step;
    while (piece > 0 && look < must(starts[piece], 'the start of a piece')) piece--;
  }
  return { at, costs: sums.map((sum, i) => sum / must(counts[i], 'a count')) };
}

/**
 * Distances of a look of the sound from some looks of the text, each put where its look stands. It is most of what
 * laying costs, with hundreds of millions of them, and takes half the time of `distance`: hence written out.
 */
function distancesTo(
  { values: b }: Looks,
  moment: number,
  { values: a }: Looks,
  from: number,
  until: number,
  distances: Float64Array,
): void {
  const of = (n: number) => must(b[moment * NUMBERS + n], 'a number of a look');
  const [b0, b1, b2, b3, b4, b5] = [of(0), of(1), of(2), of(3), of(4), of(5)];
  const [b6, b7, b8, b9, b10, b11] = [of(6), of(7), of(8), of(9), of(10), of(11)];
  for (let look = from; look < until; look++) {
    const at = look * NUMBERS;
    distances[look] = Math.sqrt(
      square(must(a[at], 'a number of a look') - b0) +
        square(must(a[at + 1], 'a number of a look') - b1) +
        square(must(a[at + 2], 'a number of a look') - b2) +
        square(must(a[at + 3], 'a number of a look') - b3) +
        square(must(a[at + 4], 'a number of a look') - b4) +
        square(must(a[at + 5], 'a number of a look') - b5) +
        square(must(a[at + 6], 'a number of a look') - b6) +
        square(must(a[at + 7], 'a number of a look') - b7) +
        square(must(a[at + 8], 'a number of a look') - b8) +
        square(must(a[at + 9], 'a number of a look') - b9) +
        square(must(a[at + 10], 'a number of a look') - b10) +
        square(must(a[at + 11], 'a number of a look') - b11),
    );
  }
}

const square = (value: number) => value * value;

function distance({ values: a }: Looks, i: number, { values: b }: Looks, j: number): number {
  let sum = 0;
  let at = j * NUMBERS;
  for (let x = i * NUMBERS, end = x + NUMBERS; x < end; x++, at++) {
    const apart = must(a[x], 'a number of a look') - must(b[at], 'a number of a look');
    sum += apart * apart;
  }
  return Math.sqrt(sum);
}

/** What looks of both differ by that have nothing to do with each other: of some thousand, spread over both. */
function usualDistance(a: Looks, b: Looks): number {
  const tries = 4000;
  if (a.count === 0 || b.count === 0) return 1;
  let sum = 0;
  for (let i = 0; i < tries; i++) sum += distance(a, (i * 7919) % a.count, b, (i * 104_729) % b.count);
  return sum / tries;
}
