import { unitOf } from '../spec/index.ts';
import type { Said } from './said.ts';
import { type UnitHeard, unitHeard } from './unit-spoken.ts';

/** Scales that are named before their number: `Rockwell C 58`. */
const SCALE_BEFORE =
  /\b(rockwell c|hrc|rockwell b|hrb|brinell|hbw|vickers|shore a|shore d)(?: (?:hardness|scale))?\W*(?:(?:of|is|at|about|around|reads?|to|between|from)\W+)*$/;
const SCALES: Readonly<Record<string, string>> = {
  'rockwell c': 'HRC',
  hrc: 'HRC',
  'rockwell b': 'HRB',
  hrb: 'HRB',
  brinell: 'HBW',
  hbw: 'HBW',
  vickers: 'HV',
  'shore a': 'Shore A',
  'shore d': 'Shore D',
};

/** The scale of hardness that the words before a number name. */
export function scaleBefore(to: number, { before }: Said): UnitHeard | undefined {
  const named = SCALES[SCALE_BEFORE.exec(before)?.[1] ?? ''];
  return named === undefined ? undefined : unitHeard(unitOf('hardness', named), to, false);
}
