import { diff3Merge } from 'node-diff3';

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

/**
 * Lays two changed versions of a text together, line by line. What only one side changed is taken; a change made
 * the same way by both is taken once; the rest is a clash. Line ends are part of the lines, so they survive.
 */
export function mergeTexts(base: string, mine: string, theirs: string): Merge {
  if (mine === theirs || base === mine) return plain(theirs);
  if (base === theirs) return plain(mine);
  const regions = diff3Merge(lines(mine), lines(base), lines(theirs), { excludeFalseConflicts: true });
  const pieces: Piece[] = [];
  let line = 1;
  for (const region of regions) {
    if (region.ok) {
      pieces.push({ same: region.ok.join('') });
      line += region.ok.length;
    } else if (region.conflict) {
      const { a, o, b } = region.conflict;
      pieces.push({ clash: { base: o.join(''), mine: a.join(''), theirs: b.join(''), line } });
      line += b.length;
    }
  }
  return { pieces, clashes: pieces.flatMap((piece) => ('clash' in piece ? [piece.clash] : [])) };
}

/** The merged text where nothing clashes; nothing where something does. */
export function mergedText({ pieces, clashes }: Merge): string | undefined {
  return clashes.length > 0 ? undefined : pieces.map((piece) => ('same' in piece ? piece.same : '')).join('');
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
function lines(text: string): string[] {
  return text.match(/[^\n]*\n|[^\n]+$/g) ?? [];
}

function withLineEnd(text: string): string {
  return text === '' || text.endsWith('\n') ? text : `${text}\n`;
}
