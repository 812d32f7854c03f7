import { INK, PAPER } from '../draw/ink.ts';
import { CLOCK, DRAWING_TOP, HEIGHT, STRIP_TOP, WIDTH } from './geometry.ts';

/** What stands in a picture beside the clock and the strip. */
export interface Sheet {
  readonly above: string;
  readonly title: string;
  /** In the corner beside the clock: the recording, and how its timecode counts. */
  readonly corner: readonly [string, string];
  /** Taken at another time of day or by a bumped camera: the paper is a little darker. */
  readonly dim: boolean;
  readonly drawing: string;
}

const safe = (text: string) => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;');

/** The whole picture as SVG, the clock and the strip left black. */
export function sheetSvg({ above, title, corner, dim, drawing }: Sheet): string {
  const right = CLOCK.left + CLOCK.cellWidth * 11 + 14;
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${WIDTH}" height="${HEIGHT}" viewBox="0 0 ${WIDTH} ${HEIGHT}" font-family="DejaVu Sans" stroke-linecap="round" stroke-linejoin="round">
<rect width="${WIDTH}" height="${HEIGHT}" fill="${dim ? '#e2dccf' : PAPER}"/>
<text x="14" y="14" font-size="11" fill="${INK}">${safe(above)}</text>
<text x="14" y="33" font-size="${title.length > 38 ? 15 : 18}" font-weight="bold" fill="${INK}">${safe(title)}</text>
<svg x="0" y="${DRAWING_TOP}" width="${WIDTH}" height="${CLOCK.top - DRAWING_TOP}" viewBox="0 0 512 184">${drawing}</svg>
<rect y="${CLOCK.top}" width="${WIDTH}" height="${HEIGHT - CLOCK.top}" fill="#101010"/>
<g font-size="13" fill="#f0f0f0"><text x="${right}" y="${CLOCK.top + 20}">${safe(corner[0])}</text><text x="${right}" y="${CLOCK.top + 38}">${safe(corner[1])}</text></g>
<rect y="${STRIP_TOP}" width="${WIDTH}" height="${HEIGHT - STRIP_TOP}" fill="#101010"/></svg>`;
}

/** The glyphs of the clock side by side, each in its cell. */
export const GLYPHS = '0123456789:;';
export function glyphsSvg(): string {
  const { cellWidth, cellHeight } = CLOCK;
  const texts = [...GLYPHS].map(
    (glyph, i) => `<text x="${(i + 0.5) * cellWidth}" y="41" text-anchor="middle">${glyph}</text>`,
  );
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${cellWidth * GLYPHS.length}" height="${cellHeight}"><rect width="100%" height="100%" fill="#101010"/><g font-family="DejaVu Sans Mono" font-weight="bold" font-size="48" fill="#fff">${texts.join('')}</g></svg>`;
}
