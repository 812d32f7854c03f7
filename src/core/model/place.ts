/** A spot in a text: line and column counted from 1, offset in UTF-16 units from 0. */
export interface Point {
  readonly line: number;
  readonly column: number;
  readonly offset: number;
}

/** A stretch of one content file; the path is relative to the content folder, with `/`. */
export interface Place {
  readonly file: string;
  readonly start: Point;
  readonly end: Point;
}

/**
 * Where a value was written, and where each value inside it was.
 * `places` is keyed by the path of keys and list positions below the value, joined with `/`.
 */
export interface Origin {
  readonly place: Place;
  readonly places: ReadonlyMap<string, Place>;
}

/** Anything that was read from a content file. */
export interface Read {
  readonly origin: Origin;
}

/**
 * Where a value inside a read thing was written; of a value that is not there, the nearest one around it.
 *
 * @param path keys and list positions, such as `('edit', 0, 'in')`; none for the thing itself
 */
export function placeOf({ origin }: Read, ...path: readonly (string | number)[]): Place {
  for (let depth = path.length; depth > 0; depth--) {
    const found = origin.places.get(path.slice(0, depth).join('/'));
    if (found) return found;
  }
  return origin.place;
}

/** The first character of a file, for what has no better place. */
export function startOf(file: string): Place {
  const point = { line: 1, column: 1, offset: 0 };
  return { file, start: point, end: point };
}
