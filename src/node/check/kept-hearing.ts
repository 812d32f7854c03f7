import { deserialize, serialize } from 'node:v8';
import { findQuantities, type Hear, type HeardQuantity } from '../../core/heard/index.ts';
import { type Piece, shortSum } from './pieces.ts';

type Heard = readonly HeardQuantity[];

/** As it is kept: the sums of texts in which nothing is heard, one after the other, and what is heard in the others. */
interface Stored {
  readonly nothing: string;
  readonly heard: readonly (readonly [sum: string, heard: Heard])[];
}

/** What is heard in the texts of a lesson, kept by the sums of the texts: most stay as they are when one is edited. */
export class KeptHearing {
  readonly #before: Piece | undefined;
  #known: ReadonlyMap<string, Heard> | undefined;
  readonly #now = new Map<string, Heard>();

  /** @param before of an earlier check */
  constructor(before: Piece | undefined) {
    this.#before = before;
  }

  /** As `findQuantities`. */
  readonly hear: Hear = (text) => {
    const sum = shortSum(text);
    const heard = this.#now.get(sum) ?? this.#heardBefore.get(sum) ?? findQuantities(text);
    this.#now.set(sum, heard);
    return heard;
  };

  /** All that has been heard now, for the next check; nothing where nothing was asked. */
  get kept(): Uint8Array | undefined {
    if (this.#now.size === 0) return undefined;
    const all = [...this.#now];
    const stored: Stored = {
      nothing: all.flatMap(([sum, heard]) => (heard.length === 0 ? [sum] : [])).join(' '),
      heard: all.filter(([, heard]) => heard.length > 0),
    };
    return serialize(stored);
  }

  get #heardBefore(): ReadonlyMap<string, Heard> {
    if (this.#known) return this.#known;
    const { nothing, heard }: Stored = this.#before ? deserialize(this.#before.bytes()) : { nothing: '', heard: [] };
    this.#known = new Map([...nothing.split(' ').map((sum): [string, Heard] => [sum, []]), ...heard]);
    return this.#known;
  }
}
