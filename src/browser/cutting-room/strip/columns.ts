/** The columns of the strip, from the left, CSS pixels. */
export interface Columns {
  readonly whole: Column;
  readonly ruler: Column;
  readonly film: Column;
  readonly sound: Column;
  /** What is said; without room for it, it has no width. */
  readonly words: Column;
  readonly labels: Column;
}
export interface Column {
  readonly x: number;
  readonly w: number;
}

/** What a column needs to be of use, what it reads well with, and what it can make use of at most, CSS pixels. */
interface Need {
  readonly least: number;
  readonly good: number;
  readonly most: number;
}

/** A hand and what it holds can be told apart in pictures of 90 px. */
const FILM: Need = { least: 60, good: 100, most: 190 };
const NO_FILM: Need = { least: 18, good: 18, most: 18 };
const SOUND: Need = { least: 32, good: 44, most: 190 };
const WORDS: Need = { least: 84, good: 110, most: 220 };
const NO_WORDS: Need = { least: 0, good: 0, most: 0 };
/** Two lines of a title, with its balloon. */
const LABELS: Need = { least: 84, good: 130, most: 320 };

const WHOLE: Column = { x: 0, w: 18 };
/** As wide as a timecode with its frames. */
const RULER: Column = { x: 22, w: 84 };
/** What lies between columns: marks of edges, brackets, and the leaders from cues to their labels. */
const BESIDE = { film: 6, sound: 4, words: 14, labels: 26, end: 8 } as const;

/**
 * Where the columns of a strip of some width lie. Pictures, sound, words and labels share what ruler and gaps leave:
 * all of them are the same part of the way from what they need to what they read well with, and from there to the most
 * they can use; labels take what is over. Words need room for the least of all, and have no column without it.
 *
 * @param thumbs there are pictures
 * @param spoken there are words
 */
export function columnsOf(width: number, thumbs: boolean, spoken: boolean): Columns {
  const from = RULER.x + RULER.w + BESIDE.film;
  const room = Math.max(0, width - from - BESIDE.sound - BESIDE.labels - BESIDE.end);
  const pictures = thumbs ? FILM : NO_FILM;
  // As with pictures, so that words do not go when those come.
  const read = spoken && room - BESIDE.words >= sum([FILM, SOUND, WORDS, LABELS].map(({ least }) => least));
  const gap = read ? BESIDE.words : 0;
  const [film = 0, sound = 0, words = 0, labels = 0] = share(room - gap, [
    pictures,
    SOUND,
    read ? WORDS : NO_WORDS,
    LABELS,
  ]);
  const filmAt = { x: from, w: film };
  const soundAt = { x: filmAt.x + film + BESIDE.sound, w: sound };
  const wordsAt = { x: soundAt.x + sound + gap, w: words };
  const labelsAt = { x: wordsAt.x + words + BESIDE.labels, w: labels };
  return { whole: WHOLE, ruler: RULER, film: filmAt, sound: soundAt, words: wordsAt, labels: labelsAt };
}

/**
 * Widths of columns beside one another, which fill the room: the last takes what none can use. With less room than all
 * need, each gets the same part of its need.
 */
function share(room: number, needs: readonly Need[]): number[] {
  const [least, good, most] = [
    sum(needs.map((need) => need.least)),
    sum(needs.map((need) => need.good)),
    sum(needs.map((need) => need.most)),
  ];
  const way = (from: number, to: number) => (to === from ? 0 : Math.min(1, (room - from) / (to - from)));
  const over = Math.max(0, room - most);
  return needs.map((need, i) => {
    const last = i === needs.length - 1 ? over : 0;
    if (room < least) return (need.least * room) / least;
    if (room < good) return need.least + (need.good - need.least) * way(least, good);
    return need.good + (need.most - need.good) * way(good, most) + last;
  });
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((all, one) => all + one, 0);
}
