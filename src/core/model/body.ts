import type { ElementName } from './vocabulary.ts';

/** Text that became an HTML element: `*so*` an `em`, a line on its own a `p`. Only names of the allow-list. */
export interface MarkupNode {
  readonly tag: string;
  /** As HTML writes them. The `src` of a picture is its path in the content folder. */
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: Body;
}

/** An element of the vocabulary as written, its attributes complete. */
export interface ElementNode {
  readonly element: ElementName;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: Body;
}

/** What stands in a lesson, in order: words, markup, elements. Data alone: nothing in it can be run. */
export type Body = readonly (string | MarkupNode | ElementNode)[];
