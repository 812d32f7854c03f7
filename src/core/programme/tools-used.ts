import type { Kit, Passage, Place } from '../model/index.ts';

/** A tool as the kit describes it. */
export type Tool = NonNullable<Kit['tools']>[string];

/** A tool that a passage uses, and where it says so. */
export interface ToolUsed {
  readonly id: string;
  readonly tool: Tool;
  readonly place: Place;
}

/** The tools that a passage uses, in the order of its text; what the kit does not have is left out. */
export function toolsUsed({ tools = {} }: Kit, { uses }: Passage): readonly ToolUsed[] {
  return uses.flatMap(({ group, id, place }) => {
    const tool = group === 'tool' ? tools[id] : undefined;
    return tool ? [{ id, tool, place }] : [];
  });
}
