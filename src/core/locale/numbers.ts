import type { Locale } from './locale.ts';

const signs = new Map<string, string>();

/** The sign before the decimals in a language: a point or a comma (ISO 80000-1:2009, 7.3.2, lets both stand). */
export function decimalSign(tag: string): string {
  const known = signs.get(tag);
  if (known !== undefined) return known;
  const parts = new Intl.NumberFormat(tag, { numberingSystem: 'latn' }).formatToParts(1.5);
  const sign = parts.find(({ type }) => type === 'decimal')?.value ?? '.';
  signs.set(tag, sign);
  return sign;
}

/**
 * Figures written with a decimal point, as a language writes them. No figure is changed, left out or added: the value
 * stays exactly what it was.
 */
export function inFigures(figures: string, { tag }: Locale): string {
  // Asked for only where there is a point: a browser takes longer to make its first format than a page to start.
  return figures.replace('.', () => decimalSign(tag));
}
