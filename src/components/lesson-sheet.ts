import type { Wording } from '../core/locale/index.ts';
import { cssString } from '../core/pages/index.ts';
import { qrPath } from './qr-path.ts';

/** What stands at the foot of each sheet of a printed lesson. */
export interface SheetFoot {
  readonly paper: string;
  readonly shop: string;
  readonly title: string;
  /** Of the lesson's page; nothing while the shop's address is not known. */
  readonly address: string | undefined;
  /** The day the page was made, YYYY-MM-DD. */
  readonly made: string;
}

/** Rules for the sheets of a lesson: whose it is and where it lies, as words and as a QR code, and how old it is. */
export function sheetRules({ paper, shop, title, address, made }: SheetFoot, t: Wording['t']): string {
  const lines = [`${shop} · ${title}`, ...(address === undefined ? [] : [address])].map(cssString).join(' "\\a " ');
  return [
    `@page { size: ${paper};`,
    `@bottom-left { content: ${lines}; }`,
    `@bottom-center { content: ${cssString(t('As of {day}', { day: made }))} "\\a " counter(page) " / " counter(pages); }`,
    ...(address === undefined ? [] : [`@bottom-right { content: url("${qrImage(address)}"); }`]),
    '}',
  ].join(' ');
}

/** Printed so wide, a camera phone reads it from an arm's length. */
const QR_MM = 17;

function qrImage(address: string): string {
  const { path, size } = qrPath(address);
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${QR_MM}mm" height="${QR_MM}mm" viewBox="0 0 ${size} ${size}" shape-rendering="crispEdges"><rect width="${size}" height="${size}" fill="#fff"/><path d="${path}"/></svg>`;
  return `data:image/svg+xml,${encodeURIComponent(svg)}`;
}
