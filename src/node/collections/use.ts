import type { Collections } from '../../core/model/index.ts';

/** A collection as a shop has written it into `collections.yaml`. */
export type Use = NonNullable<Collections['uses']>[number] & {
  /** Which one it is of those written. */
  readonly at: number;
};

/** What is handed in from outside to fetch with. */
export interface Fetching {
  readonly signal: AbortSignal;
  readonly env: Readonly<Record<string, string | undefined>>;
}
