/** What an attribute of an element takes. */
export type AttributeKind =
  | 'time'
  | 'words'
  | 'id'
  | 'number'
  | 'flag'
  | 'spec id'
  | 'tool id'
  | 'part id'
  | 'supply id'
  | 'protective id';

/** An element that a lesson may use. */
interface Row {
  readonly name: string;
  readonly attributes: Readonly<Record<string, AttributeKind>>;
  /** Attributes that have to be there. */
  readonly needs: readonly string[];
  /** Of these exactly one is given. */
  readonly oneOf?: readonly string[];
  /** Stands as a block of its own on the page, wherever in a paragraph it was written. */
  readonly block: boolean;
  /** Has words between its tags. */
  readonly words: boolean;
  readonly means: string;
}

const box = { attributes: {}, needs: [], block: true, words: true } as const;

/**
 * The elements of a lesson: the one table that the reader, the help for editors, the docs and the pages go by. The
 * compiler asks for what a new row needs: what it means (`core/read/gathering.ts`), what the page shows
 * (`core/pages/text-shown.ts`) and its component
 * (`components/Body.astro`).
 */
export const VOCABULARY = [
  {
    name: 'Cue',
    attributes: { at: 'time', until: 'time', id: 'id' },
    needs: ['at'],
    block: true,
    words: false,
    means: 'ties the chapter or step to a point or range of the recording',
  },
  {
    name: 'Spec',
    attributes: { of: 'spec id', measured: 'flag' },
    needs: ['of'],
    block: false,
    words: false,
    means: 'shows a row of the spec table',
  },
  {
    name: 'Uses',
    attributes: {
      tool: 'tool id',
      part: 'part id',
      supply: 'supply id',
      protective: 'protective id',
      count: 'number',
    },
    needs: [],
    oneOf: ['tool', 'part', 'supply', 'protective'],
    block: false,
    words: false,
    means: 'names something from the kit that the step takes',
  },
  {
    name: 'KeyPoint',
    attributes: { why: 'words' },
    needs: [],
    block: true,
    words: true,
    means: 'what makes or breaks the step, and the reason',
  },
  { name: 'Danger', ...box, means: 'not avoided, it will kill or seriously injure' },
  { name: 'Warning', ...box, means: 'not avoided, it could kill or seriously injure' },
  { name: 'Caution', ...box, means: 'not avoided, it could injure lightly or moderately' },
  { name: 'Notice', ...box, means: 'something may be damaged; no injury in play' },
  {
    name: 'Discuss',
    attributes: { minutes: 'number' },
    needs: ['minutes'],
    block: true,
    words: true,
    means: 'the class stops the programme to talk',
  },
] as const satisfies readonly Row[];

export type ElementName = (typeof VOCABULARY)[number]['name'];
export interface VocabularyRow extends Row {
  readonly name: ElementName;
}

const byName: ReadonlyMap<string, VocabularyRow> = new Map(VOCABULARY.map((row) => [row.name, row]));

/** The element of that name; nothing when a lesson has none. */
export function elementNamed(name: string): VocabularyRow | undefined {
  return byName.get(name);
}
