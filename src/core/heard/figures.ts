/** A number in figures, with any sign for its decimals, and signs or blanks between groups of three. */
export const FIGURE = '\\d+(?:[.,]\\d+|[\u00a0\u202f ]\\d{3}(?!\\d))*';
const FIGURES = new RegExp(FIGURE, 'g');

/**
 * The numbers in figures of a text, each in every way it may be read: `1,5` and `1.5` are one and a half, `20.000` and
 * `20,000` twenty thousand, or twenty.
 */
export function figuresIn(text: string): number[][] {
  return [...text.matchAll(FIGURES)].map(([figure]) => {
    const tight = figure.replaceAll(/[\u00a0\u202f ]/g, '');
    const point = Number(
      tight
        .replace(/[.,](?=\d+$)/, 'p')
        .replaceAll(/[.,]/g, '')
        .replace('p', '.'),
    );
    const whole = Number(tight.replaceAll(/[.,]/g, ''));
    return /^\d{1,3}(?:[.,]\d{3})+$/.test(tight) ? [whole, point] : [point];
  });
}
