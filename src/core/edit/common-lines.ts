/** One line that three texts share: where each of them has it. */
export interface CommonLine {
  readonly mine: number;
  readonly base: number;
  readonly theirs: number;
}

/**
 * Lines that each of three texts has just once, as many as come in the same order in all of them. Between two of
 * these the texts can be compared apart, in time that grows with their length and not with its square.
 *
 * The idea is known as "patience diff" (common practice, no source).
 */
export function commonLines(mine: readonly string[], base: readonly string[], theirs: readonly string[]): CommonLine[] {
  const [ofMine, ofTheirs] = [linesOnce(mine), linesOnce(theirs)];
  const shared = [...linesOnce(base)].flatMap(([line, at]): CommonLine[] => {
    const [a, b] = [ofMine.get(line), ofTheirs.get(line)];
    return a === undefined || b === undefined ? [] : [{ mine: a, base: at, theirs: b }];
  });
  return rising(
    rising(shared, (one) => one.mine),
    (one) => one.theirs,
  );
}

/** Lines that come only once, in order, and where. */
function linesOnce(lines: readonly string[]): Map<string, number> {
  const once = new Map<string, number>();
  const more = new Set<string>();
  for (const [at, line] of lines.entries()) {
    if (more.has(line)) continue;
    if (once.delete(line)) more.add(line);
    else once.set(line, at);
  }
  return once;
}

/**
 * The most of a row that rises. Source: "On computing the length of longest increasing subsequences", Discrete
 * Mathematics 11 (1975), 29 to 35.
 */
function rising<T>(row: readonly T[], of: (one: T) => number): T[] {
  interface Chain {
    readonly one: T;
    readonly before: Chain | undefined;
  }
  // The chain of each length that ends lowest: those ends rise.
  const ends: Chain[] = [];
  for (const one of row) {
    let low = 0;
    let high = ends.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      const end = ends[middle];
      if (end && of(end.one) < of(one)) low = middle + 1;
      else high = middle;
    }
    ends[low] = { one, before: ends[low - 1] };
  }
  const found: T[] = [];
  for (let chain = ends.at(-1); chain; chain = chain.before) found.push(chain.one);
  return found.reverse();
}
