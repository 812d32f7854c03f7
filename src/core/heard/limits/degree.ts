import type { SimpleKind } from '../../spec/index.ts';
import type { Side } from './side.ts';

/** Which way a comparison leads from its value. */
export type Way = 'over' | 'under';

export const otherWay = (way: Way): Way => (way === 'over' ? 'under' : 'over');
/** What is left where a comparison says what is asked for. */
export const sideTowards = (way: Way): Side => (way === 'over' ? 'min' : 'max');

/** Stems of adjectives that tell much of something, and little. */
const MUCH =
  'great larg bigg high long wid thick deep old hott warm fast quick heavi tight strong tall lat furth farth fatt steep proud hard loud coars greedi chunki sharp full broad rough wors dens';
const LITTLE =
  'small low short narrow thinn shallow young new cold cool slow light loos weak earli soon clos near tini skinni lean slack stingi gentl';
const stems = (list: string) => `(?:${list.split(' ').join('|')})`;
/** As part of an expression: `higher`, `worse`; `lower`, `nearer`. */
export const HIGHER = `(?:${stems(MUCH.replace(' wors', ''))}er|worse|further|farther)`;
export const LOWER = `${stems(LITTLE)}er`;
/** `highest`, `tiniest`. */
export const HIGHEST = `(?:${stems(MUCH.replace(' wors', ''))}est|furthest|farthest|most|worst|max(?:imum)?|top (?:speed|revs|whack|limit|figure|temperature|pressure|end))`;
export const LOWEST = `(?:${stems(LITTLE)}est|least|min(?:imum)?|bare minimum)`;
/** `as high as`, `as much as`. */
export const MUCH_OF =
  '(?:much|many|high|far|big|large|wide|deep|hot|warm|fast|tight|heavy|long|thick|old|late|bad|tall|full|loud)';
export const LITTLE_OF =
  '(?:little|few|low|thin|narrow|short|small|slow|cold|cool|near|close|light|loose|shallow|young|early|soon)';

const UNDER = new RegExp(`^(?:less|fewer|under|below|beneath|down|downwards?|short of|shy of|south of|${LOWER})`);
/** Of these kinds some words lead the other way: who is quicker takes less time, what is tighter is a smaller gap. */
const TURNED: Partial<Record<SimpleKind, RegExp>> = {
  time: /^(?:quick|fast|slow)er/,
  length: /^(?:tight|loos|slack|sharp|gentl)er/,
};

/** Which way a word of comparison leads from a value of a kind. */
export function wayOf(comparison: string, kind: SimpleKind): Way {
  const way = UNDER.test(comparison) ? 'under' : 'over';
  return TURNED[kind]?.test(comparison) ? otherWay(way) : way;
}
