import type { Kit, Passage } from '../model/index.ts';
import { readAmount, valueIn, wrenchSetting } from '../spec/index.ts';
import { type Tool, toolsUsed } from './tools-used.ts';

/** A torque wrench that a step lengthens by an adapter in line. */
export interface LengthenedWrench {
  /** Id of the wrench in the kit. */
  readonly id: string;
  readonly wrench: string;
  readonly adapter: string;
  /** From drive to the middle of the grip, mm. */
  readonly lever: number;
  /** Added in line, mm; negative when it points back. */
  readonly extension: number;
  /** Setting over torque at the fastener, L / (L + E). */
  readonly by: number;
}

/**
 * The first torque wrench of a step with a known lever, where the step uses an adapter; nothing without one, or where the
 * lengthened lever would not be longer than nought.
 */
export function lengthenedWrench(kit: Kit, passage: Passage): LengthenedWrench | undefined {
  const tools = toolsUsed(kit, passage);
  const adapter = tools.find(({ tool }) => tool.extension)?.tool;
  const wrench = tools.find(({ tool }) => tool.kind === 'torque-wrench' && tool.lever);
  const [lever, extension] = [wrench?.tool.lever, adapter?.extension].map(
    (written) => written && inMillimetres(written),
  );
  if (!wrench || !adapter || lever === undefined || extension === undefined) return undefined;
  if (lever <= 0 || lever + extension <= 0) return undefined;
  const by = wrenchSetting(1, lever, extension);
  return { id: wrench.id, wrench: wrench.tool.title, adapter: adapter.title, lever, extension, by };
}

type Written = NonNullable<Tool['lever'] | Tool['extension']>;

/** Every step that uses a tool asks for the same. */
const lengths = new WeakMap<Written, { readonly mm: number | undefined }>();

function inMillimetres(written: Written): number | undefined {
  const known = lengths.get(written) ?? { mm: readInMillimetres(written) };
  lengths.set(written, known);
  return known.mm;
}

function readInMillimetres(written: Written): number | undefined {
  const { amount } = readAmount(written, 'length', []);
  return amount && valueIn(amount, 'length', 'mm');
}
