import { classSchema, type ShopClass } from '../../model/index.ts';
import { didYouMean } from '../../read/index.ts';
import { fail, ok, type Parsed } from '../../time/index.ts';
import { removeYaml, setYaml } from '../../write/index.ts';

/** A change to try on a class, as somebody says it. */
export interface WhatIf {
  readonly attendees?: string;
  /** h:mm */
  readonly slot?: string;
  /** Ids of blocks to leave out. */
  readonly without?: readonly string[];
  /** `ID=TREATMENT`: the block is given, and in this way. */
  readonly with?: readonly string[];
  /** `ID=hh:mm`: the block starts then. */
  readonly at?: readonly string[];
}

/** One value of the class file that changes; without a value the key goes. */
export interface ClassChange {
  readonly path: readonly (string | number)[];
  readonly value?: string | number | boolean;
}

/** A class as it would be, and which values of its file say so. */
export interface Tried {
  readonly shopClass: ShopClass;
  readonly changes: readonly ClassChange[];
}

type Block = ShopClass['blocks'][number];
const BLOCK = classSchema.shape.blocks.element.shape;

/**
 * A class with changes tried on it; nothing is written.
 *
 * @returns refused when a block, a treatment or a value is not one that a class could hold
 */
export function whatIf(shopClass: ShopClass, asked: WhatIf): Parsed<Tried> {
  const changes: ClassChange[] = [];
  let tried = shopClass;

  if (asked.attendees !== undefined) {
    const attendees = classSchema.shape.attendees.safeParse(
      /^\d+$/.test(asked.attendees) ? Number(asked.attendees) : 0,
    );
    if (!attendees.success || attendees.data === undefined)
      return fail(`"${asked.attendees}" is no number of attendees`, 'write a whole number, such as 9');
    tried = { ...tried, attendees: attendees.data };
    changes.push({ path: ['attendees'], value: attendees.data });
  }
  if (asked.slot !== undefined) {
    const slot = classSchema.shape.slot.safeParse(asked.slot);
    if (!slot.success) return fail(`"${asked.slot}" is no slot`, 'a slot reads h:mm, such as 1:45');
    tried = { ...tried, slot: slot.data };
    changes.push({ path: ['slot'], value: slot.data });
  }
  const asks = [
    ...(asked.without ?? []).map((id) => ({ id, value: undefined, change: leaveOut })),
    ...(asked.with ?? []).map((text) => ({ ...pair(text), change: giveAs })),
    ...(asked.at ?? []).map((text) => ({ ...pair(text), change: startAt })),
  ];
  for (const { id, value, change } of asks) {
    const index = tried.blocks.findIndex((block) => block.id === id);
    const block = tried.blocks[index];
    const ids = tried.blocks.map((one) => one.id);
    if (!block) return fail(`no block "${id}" in the class ${shopClass.id}`, didYouMean(id, ids));
    const changed = change(block, value);
    if (!changed.ok) return changed;
    tried = { ...tried, blocks: tried.blocks.map((one, i) => (i === index ? { ...one, ...changed.value } : one)) };
    for (const key of ['leaveOut', 'give', 'at'] as const) {
      if (!(key in changed.value)) continue;
      const to = changed.value[key];
      if (to !== undefined) changes.push({ path: ['blocks', index, key], value: to });
      else if (block[key] !== undefined) changes.push({ path: ['blocks', index, key] });
    }
  }
  return ok({ shopClass: tried, changes });
}

/** The text of a class file with changes written into it, each value at its place, all or none. */
export function textWithChanges(text: string, changes: readonly ClassChange[]): Parsed<string> {
  return changes.reduce<Parsed<string>>(
    (sofar, { path, value }) =>
      !sofar.ok ? sofar : value === undefined ? removeYaml(sofar.value, path) : setYaml(sofar.value, path, value),
    ok(text),
  );
}

/** Values of a block that change; `undefined` takes a key away. */
interface BlockChange {
  readonly leaveOut?: true | undefined;
  readonly give?: string;
  readonly at?: string;
}

function leaveOut(): Parsed<BlockChange> {
  return ok({ leaveOut: true });
}

function giveAs({ id, treatments }: Block, wanted: string | undefined): Parsed<BlockChange> {
  const ids = treatments.map((one) => one.id);
  if (wanted === undefined) return fail(`--with ${id} names no treatment`, `write ${id}=${ids.join(` or ${id}=`)}`);
  if (!ids.includes(wanted)) return fail(`no treatment "${wanted}" of the block "${id}"`, didYouMean(wanted, ids));
  return ok({ leaveOut: undefined, give: wanted });
}

function startAt({ id }: Block, wanted: string | undefined): Parsed<BlockChange> {
  const clock = BLOCK.at.safeParse(wanted);
  return clock.success && clock.data !== undefined
    ? ok({ at: clock.data })
    : fail(`"${wanted ?? ''}" is no time of day for "${id}"`, `write ${id}=10:45, in 24 hours`);
}

function pair(text: string): { id: string; value: string | undefined } {
  const at = text.indexOf('=');
  return at === -1 ? { id: text, value: undefined } : { id: text.slice(0, at), value: text.slice(at + 1) };
}
