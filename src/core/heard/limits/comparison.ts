/** Comparatives of adjectives, by the way they lead. */
const UP = '(?:great|larg|bigg|high|long|wid|thick|deep|old|hott|warm|fast|heavi|tight|strong|tall|lat|furth|farth)er';
const DOWN = '(?:small|low|short|narrow|thinn|shallow|young|new|cold|cool|slow|light|loos|weak|earli|soon|clos|near)er';
const THAN = "(?: (?!more\\b|less\\b|fewer\\b)[\\w'’-]+){0,3} than";
const OVER = `more than|in excess of|upwards of|(?<!\\b(?:mile|town|street|road) )north of|over|above|past|beyond|exceed(?:s|ing)?|${UP}${THAN}`;
const UNDER = `less than|fewer than|shy of|south of|under|below|beneath|${DOWN}${THAN}`;
const COMPARED = new RegExp(`\\b(?:(${OVER})|(?:${UNDER}))[^\\w,]*$|(>=?|≥)\\s*$|(?:<=?|≤)\\s*$`);
const VAGUE = /\b(about|around|roughly|approximately|the|a|an|of|only|just|maybe)\s*$/;

/** What compares something with the number behind it: `never over`, `anything thinner than`. */
export interface Comparison {
  /** Which values it speaks of. */
  readonly way: 'over' | 'under';
  /** The words before it. */
  readonly lead: string;
}

/** The words before a number without `about the` and the like at their end. */
export const withoutVague = (before: string): string => before.replace(VAGUE, '').replace(/\s+$/, ' ');

/** The comparison that ends in front of a number, in small letters; nothing where none does. */
export function comparisonBefore(before: string): Comparison | undefined {
  const found = COMPARED.exec(before) ?? COMPARED.exec(withoutVague(before));
  return found
    ? { way: found[1] !== undefined || found[2] !== undefined ? 'over' : 'under', lead: before.slice(0, found.index) }
    : undefined;
}
