import type { Kit, Passage } from '../../model/index.ts';
import { type LengthenedWrench, lengthenedWrench, type Tool, toolsUsed } from '../../programme/index.ts';
import { type Amount, convert, findUnit, readAmount, usableRange } from '../../spec/index.ts';

/** A torque wrench that a step uses, in N·m; what cannot be read in the kit is not known. */
export interface Wrench {
  readonly id: string;
  readonly title: string;
  readonly scale?: { readonly min: number; readonly max: number /** Lowest exact setting. */; readonly from: number };
  /** From one mark of the scale to the next. */
  readonly mark?: number;
  /** The adapter in line with it; then its scale shows less, or more, than the fastener gets. */
  readonly lengthened?: LengthenedWrench;
}

/** The torque wrenches that a step uses. */
export function wrenchesOf(kit: Kit, passage: Passage): Wrench[] {
  const lengthened = lengthenedWrench(kit, passage);
  return toolsUsed(kit, passage)
    .filter(({ tool }) => tool.kind === 'torque-wrench')
    .map(({ id, tool }) => ({
      id,
      title: tool.title,
      ...measuresOf(tool),
      ...(lengthened?.id === id ? { lengthened } : {}),
    }));
}

/** Every step that uses a tool asks for the same, rule after rule. */
const measures = new WeakMap<Tool, Pick<Wrench, 'scale' | 'mark'>>();

function measuresOf(tool: Tool): Pick<Wrench, 'scale' | 'mark'> {
  const known = measures.get(tool) ?? { ...scaleOf(tool), ...markOf(tool) };
  measures.set(tool, known);
  return known;
}

function scaleOf({ range }: Tool): Pick<Wrench, 'scale'> {
  const amount = range && readAmount(range, 'torque', []).amount;
  const usable = amount && usableRange(amount);
  if (!usable) return {};
  const inNm = (value: number) => convert(value, 'torque', usable.unit, 'N·m');
  return { scale: { min: inNm(amount.min ?? 0), max: inNm(usable.to), from: inNm(usable.from) } };
}

function markOf({ resolution }: Tool): Pick<Wrench, 'mark'> {
  const mark = resolution && readAmount(resolution, 'torque', []).amount;
  return mark?.nominal === undefined ? {} : { mark: convert(mark.nominal, 'torque', mark.unit, 'N·m') };
}

/** True for a tool whose scale is one of torque, and of which is not said what it is. */
export function isUnnamedWrench({ kind, range }: Tool): boolean {
  return kind === undefined && range !== undefined && findUnit(range.unit, 'torque').ok;
}

/** Torques in N·m. */
export interface TorqueRange {
  readonly low: number;
  readonly high: number;
}

/** The lowest and highest torque that an amount allows or aims at, N·m; one side alone stands for both. */
export function torqueRange({ nominal, min, max, unit }: Amount): TorqueRange {
  const values = [min, nominal, max]
    .filter((value) => value !== undefined)
    .map((value) => convert(value, 'torque', unit, 'N·m'));
  return { low: Math.min(...values), high: Math.max(...values) };
}

/** What a wrench is set to for a span at the fastener. */
export function settingRange({ lengthened }: Wrench, { low, high }: TorqueRange): TorqueRange {
  const by = lengthened?.by ?? 1;
  return { low: low * by, high: high * by };
}

/** Above and below by so much rounding of decimals is no fault, N·m. */
const ROUNDING_NM = 1e-9;

/** True where the scale holds the whole span that a wrench is set to; also where its scale is not known. */
export function holdsRange(wrench: Wrench, span: TorqueRange): boolean {
  const { low, high } = settingRange(wrench, span);
  return !wrench.scale || (wrench.scale.min <= low + ROUNDING_NM && high <= wrench.scale.max + ROUNDING_NM);
}

/** A span in words, to a tenth, without a needless nought. */
export function torqueInWords({ low, high }: TorqueRange): string {
  const [from, to] = [tenth(low), tenth(high)];
  return from === to ? `${from} N·m` : `${from} to ${to} N·m`;
}

/** To a tenth of a newton metre. */
export function tenth(value: number): string {
  return String(Math.round(value * 10) / 10);
}
