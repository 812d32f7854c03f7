/** How the words before a comparison hang together. */
export interface Clause {
  /** What joins its clause to the one before: `if` tells of a case, `until` what is waited for. */
  readonly joint: 'if' | 'until' | undefined;
  /** What is said before the joint. */
  readonly main: string;
  /** The words of the comparison's own clause. */
  readonly inner: string;
}

const JOINT =
  /\b(?:(if|when|once|whenever|where|wherever|as soon as|in case|the moment|any time|were (?:it|they|this|that|the [\w'’-]+) to|(?<=(?:^|[,;] |\band )\W*)should (?:it|they|this|that|the [\w'’-]+))|(until|till|unless))\b((?:[^,;:]|,(?= (?:or|nor|say|like|what) ))*)$/;

/** Parts the words before a comparison at the last word that joins a clause of its own. */
export function clauseOf(lead: string): Clause {
  const found = JOINT.exec(lead);
  if (!found) return { joint: undefined, main: '', inner: lead };
  return {
    joint: found[1] === undefined ? 'until' : 'if',
    main: lead.slice(0, found.index),
    inner: found[3] ?? '',
  };
}

/** A negation in the same clause turns a comparison round: nobody puts more than. */
const NEGATED =
  /\b(no|not|never(?:, ever)?|nothing|nobody|none|without|neither|nor|cannot|\w+n['’]t|(?:do|does|is|ca|wo|should|must|would)nt|avoid|rather than|forbids?|forbidden|prohibits?|prohibited|bans?|banned)\b(?:[^,;:]|,(?= (?:or|nor) )){0,60}$/;

export const isNegated = (clause: string): boolean => NEGATED.test(clause);
