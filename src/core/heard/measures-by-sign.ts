import { FIGURE, figuresIn } from './figures.ts';

/** Signs of units that every language writes alike, after the SI Brochure, and a few of workshops. Single letters, and `in`, are words elsewhere. */
const SIGNS =
  'N[·⋅. ]?m|Nm|mm|cm|km|µm|μm|ml|mL|cl|kg|kPa|MPa|bar|psi|°[ \u00a0]?[CF]|°|kW|kΩ|Ω|mAh|Ah|rpm|lbf?[·⋅. -]ft|ft[·⋅. -]lbf?';
const MEASURE = new RegExp(
  `(?<![\\p{L}\\d.,])${FIGURE}(?:[ \u00a0]?[–±/-][ \u00a0]?${FIGURE})*[ \u00a0]?(?:${SIGNS})(?!\\p{L})`,
  'gu',
);

/** A measure in figures, with the sign of its unit, in a text of any language. */
export interface SignedMeasure {
  readonly text: string;
  /** Each number in it, in every way it may be read. */
  readonly numbers: readonly (readonly number[])[];
}

/** The measures of a text that are written in figures and signs: 98 N·m is the same in every language. */
export function measuresBySign(text: string): SignedMeasure[] {
  return [...text.matchAll(MEASURE)].map(([found]) => ({ text: found, numbers: figuresIn(found) }));
}
