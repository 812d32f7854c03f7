/** An element that a lesson may use, with its attributes; `?` marks one that may be left out. */
interface Element {
  readonly name: string;
  readonly attributes: readonly string[];
  /** Of these exactly one is given. */
  readonly oneOf?: readonly string[];
  readonly means: string;
}

/** The elements of a lesson. The site has a component of the same name for each. */
export const VOCABULARY: readonly Element[] = [
  {
    name: 'Cue',
    attributes: ['at', 'until?', 'id?'],
    means: 'ties the chapter or step to a point or range of the recording',
  },
  { name: 'Spec', attributes: ['of', 'measured?'], means: 'shows a row of the spec table' },
  {
    name: 'Uses',
    attributes: ['tool?', 'part?', 'supply?', 'protective?', 'count?'],
    oneOf: ['tool', 'part', 'supply', 'protective'],
    means: 'names something from the kit that the step takes',
  },
  { name: 'KeyPoint', attributes: ['why?'], means: 'what makes or breaks the step, and the reason' },
  { name: 'Danger', attributes: [], means: 'not avoided, it will kill or seriously injure' },
  { name: 'Warning', attributes: [], means: 'not avoided, it could kill or seriously injure' },
  { name: 'Caution', attributes: [], means: 'not avoided, it could injure lightly or moderately' },
  { name: 'Notice', attributes: [], means: 'something may be damaged; no injury in play' },
  { name: 'Discuss', attributes: ['minutes'], means: 'the class stops the programme to talk' },
];
