import { FIELDS, type Field } from './counted.ts';
import type { SearchFacts, WordPostings } from './search-index.ts';

/** A word in a title says more than one in the text. */
const BOOST: Readonly<Record<Field, number>> = { title: 8, also: 2, context: 2, text: 1 };

/**
 * BM25+, with how soon further uses of a word count for less, how much long fields are marked down, and what a use
 * counts for at least. Source: Lv and Zhai, "Lower-Bounding Term Frequency Normalization", CIKM 2011; the three figures
 * are those of the MiniSearch library, against which a test holds the order of results.
 */
const SATURATION = 1.2;
const LENGTH = 0.7;
const LEAST = 0.5;

/** A word that is looked up for one that was typed: itself, or one that begins with it. */
export interface LookedUp {
  readonly postings: WordPostings;
  /** 1 for the word as typed, less for one that goes on. */
  readonly weight: number;
}

/** What a word that begins as typed counts for. Source: as above. */
export function prefixWeight(typed: string, word: string): number {
  return (0.375 * word.length) / (word.length + 0.3 * (word.length - typed.length));
}

/**
 * Places of the records that hold at least so many of the words typed: the best of them, best first, then the others as
 * they stand. Nobody reads thousands in order, and putting them in order is most of the work.
 *
 * @param typed for each word the words it stands for
 * @param fits says of a place whether it may be among them
 */
export function ranked(
  facts: SearchFacts,
  typed: readonly (readonly LookedUp[])[],
  fewest: number,
  fits: (place: number) => boolean,
): number[] {
  const scores = new Float64Array(facts.records);
  const held = new Uint16Array(facts.records);
  for (const words of typed) {
    const own = new Float64Array(facts.records);
    for (const { postings, weight } of words) addScores(own, facts, postings, weight);
    for (let place = 0; place < own.length; place++) {
      const score = own[place] ?? 0;
      if (score === 0) continue;
      scores[place] = (scores[place] ?? 0) + score;
      held[place] = (held[place] ?? 0) + 1;
    }
  }
  const found: number[] = [];
  for (let place = 0; place < held.length; place++) {
    const count = held[place] ?? 0;
    if (count === 0 || count < fewest || !fits(place)) continue;
    // More words count for more than better ones.
    scores[place] = (scores[place] ?? 0) * count;
    found.push(place);
  }
  return bestFirst(found, held, scores);
}

/** So many are put in order, and those that are as good as the last of them. */
const IN_ORDER = 200;

/** @param found places, ascending; @param scores by place, as are `held` */
function bestFirst(found: readonly number[], held: Uint16Array, scores: Float64Array): number[] {
  const inOrder = (a: number, b: number) =>
    (held[b] ?? 0) - (held[a] ?? 0) || (scores[b] ?? 0) - (scores[a] ?? 0) || a - b;
  if (found.length <= IN_ORDER) return [...found].sort(inOrder);
  const best: number[] = [];
  const others: number[] = [];
  for (let many = Math.max(...new Set(found.map((place) => held[place] ?? 0))); many > 0; many--) {
    const own = found.filter((place) => held[place] === many);
    const room = IN_ORDER - best.length;
    if (own.length <= room) best.push(...own.sort(inOrder));
    else if (room <= 0) others.push(...own);
    else {
      const last = Float64Array.from(own, (place) => scores[place] ?? 0).sort()[own.length - room] ?? 0;
      best.push(...own.filter((place) => (scores[place] ?? 0) >= last).sort(inOrder));
      others.push(...own.filter((place) => (scores[place] ?? 0) < last));
    }
  }
  return [...best, ...others];
}

function addScores(scores: Float64Array, facts: SearchFacts, postings: WordPostings, weight: number): void {
  for (const [f, field] of FIELDS.entries()) {
    const own = postings[f];
    if (!own) continue;
    const matching = own.places.length;
    const average = facts.averages[f] ?? 1;
    const rare = Math.log(1 + (facts.records - matching + 0.5) / (matching + 0.5));
    const boost = weight * BOOST[field];
    for (let i = 0; i < own.places.length; i++) {
      const place = own.places[i] ?? 0;
      const count = own.counts?.[i] ?? 1;
      const long = 1 - LENGTH + (LENGTH * (own.lengths[i] ?? 1)) / average;
      const score = rare * (LEAST + (count * (SATURATION + 1)) / (count + SATURATION * long));
      scores[place] = (scores[place] ?? 0) + boost * score;
    }
  }
}
