import { diff3Merge } from 'node-diff3';
import { commonLines } from './common-lines.ts';

/** A stretch of lines two people changed differently; each side with its line ends. */
export interface Clash {
  readonly base: string;
  readonly mine: string;
  readonly theirs: string;
  /** Line of the first difference in their text, from 1. */
  readonly line: number;
}

/** Text that both agree on (or that only one of them changed), or a clash. */
export type Piece = { readonly same: string } | { readonly clash: Clash };

/** Two changed versions of one text, laid together. */
export interface Merge {
  readonly pieces: readonly Piece[];
  readonly clashes: readonly Clash[];
}

/** Lines of three texts between two lines that all of them share, and the shared line behind them. */
export interface Between {
  readonly mine: readonly string[];
  readonly base: readonly string[];
  readonly theirs: readonly string[];
  /** How many lines of theirs come before. */
  readonly before: number;
  readonly shared: string;
}

/** Three texts cut at the lines that they share. */
export function betweenShared(base: string, mine: string, theirs: string): Between[] {
  const [a, o, b] = [linesWithEnds(mine), linesWithEnds(base), linesWithEnds(theirs)];
  let from = { mine: 0, base: 0, theirs: 0 };
  const end = { mine: a.length, base: o.length, theirs: b.length };
  return [...commonLines(a, o, b), end].map((line): Between => {
    const found = {
      mine: a.slice(from.mine, line.mine),
      base: o.slice(from.base, line.base),
      theirs: b.slice(from.theirs, line.theirs),
      before: from.theirs,
      shared: o[line.base] ?? '',
    };
    from = { mine: line.mine + 1, base: line.base + 1, theirs: line.theirs + 1 };
    return found;
  });
}

/**
 * Lays two changed versions of a text together, line by line. What only one side changed is taken; a change made
 * the same way by both is taken once; the rest is a clash. Line ends are part of the lines, so they survive.
 */
export function mergeTexts(base: string, mine: string, theirs: string): Merge {
  if (mine === theirs || base === mine) return plain(theirs);
  if (base === theirs) return plain(mine);
  const pieces = betweenShared(base, mine, theirs).flatMap((between) => [
    ...mergeLines(between),
    ...(between.shared === '' ? [] : [{ same: between.shared }]),
  ]);
  return { pieces, clashes: clashesOf(pieces) };
}

const clashesOf = (pieces: readonly Piece[]) => pieces.flatMap((piece) => ('clash' in piece ? [piece.clash] : []));

/** What becomes of the lines between two shared ones. */
export function mergeLines({ mine, base, theirs, before }: Between): Piece[] {
  if (mine.length + base.length + theirs.length === 0) return [];
  return diff3Merge([...mine], [...base], [...theirs], { excludeFalseConflicts: true }).flatMap(
    ({ ok, conflict }): Piece[] => {
      if (ok) return [{ same: ok.join('') }];
      if (!conflict) return [];
      const { a, o, b, bIndex } = conflict;
      return [{ clash: { base: o.join(''), mine: a.join(''), theirs: b.join(''), line: before + bIndex + 1 } }];
    },
  );
}

/** The merged text where nothing clashes; nothing where something does. */
export function mergedText({ pieces }: Pick<Merge, 'pieces'>): string | undefined {
  return clashesOf(pieces).length > 0 ? undefined : pieces.map((piece) => ('same' in piece ? piece.same : '')).join('');
}

export type Side = 'mine' | 'theirs' | 'both';

/**
 * The text once each clash was settled.
 *
 * @param sides one choice a clash, in order; `both` puts theirs first, mine after it
 * @throws RangeError when a clash was left unsettled
 */
export function settle({ pieces }: Merge, sides: readonly Side[]): string {
  let next = 0;
  return pieces
    .map((piece) => {
      if ('same' in piece) return piece.same;
      const side = sides[next++];
      if (!side) throw new RangeError(`clash ${next} is not settled`);
      if (side === 'both') return withLineEnd(piece.clash.theirs) + piece.clash.mine;
      return piece.clash[side];
    })
    .join('');
}

function plain(text: string): Merge {
  return { pieces: [{ same: text }], clashes: [] };
}

/** Lines with their line ends; joined again they are the text. */
/** The lines of a text, each with its end. */
function linesWithEnds(text: string): string[] {
  return text.match(/[^\n]*\n|[^\n]+$/g) ?? [];
}

function withLineEnd(text: string): string {
  return text === '' || text.endsWith('\n') ? text : `${text}\n`;
}
