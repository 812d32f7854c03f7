/** Paper, ink and the one bright colour of the drawings. */
export const PAPER = '#f3efe6';
export const INK = '#22303a';
export const STEEL = '#b9c3c9';
export const DARK = '#6b7780';
export const BRIGHT = '#d9822b';
export const FLUID = '#e3c25a';
export const DAMP = '#9fc4d6';

/** A drawing on the sheet of 512 × 184, moved by the phase 0 … 1 of its motion. */
export type Drawing = (phase: number) => string;

type Point = readonly [number, number];
const n = (value: number) => Number(value.toFixed(2));

interface Pen {
  readonly fill?: string;
  readonly stroke?: string;
  readonly width?: number;
  readonly dash?: string;
}

function pen({ fill = 'none', stroke = INK, width = 2.5, dash }: Pen): string {
  return `fill="${fill}" stroke="${stroke}" stroke-width="${width}"${dash ? ` stroke-dasharray="${dash}"` : ''}`;
}

export const line = (points: readonly Point[], style: Pen = {}) =>
  `<polyline points="${points.map(([x, y]) => `${n(x)},${n(y)}`).join(' ')}" ${pen(style)}/>`;

export const shape = (points: readonly Point[], style: Pen = {}) =>
  `<polygon points="${points.map(([x, y]) => `${n(x)},${n(y)}`).join(' ')}" ${pen(style)}/>`;

export const circle = (x: number, y: number, r: number, style: Pen = {}) =>
  `<circle cx="${n(x)}" cy="${n(y)}" r="${n(r)}" ${pen(style)}/>`;

export const box = (x: number, y: number, w: number, h: number, style: Pen = {}, round = 3) =>
  `<rect x="${n(x)}" y="${n(y)}" width="${n(w)}" height="${n(h)}" rx="${round}" ${pen(style)}/>`;

export const path = (d: string, style: Pen = {}) => `<path d="${d}" ${pen(style)}/>`;

export const label = (x: number, y: number, text: string, size = 13, anchor = 'middle') =>
  `<text x="${n(x)}" y="${n(y)}" font-size="${size}" text-anchor="${anchor}" fill="${INK}">${text}</text>`;

export const turned = (degrees: number, x: number, y: number, inner: string) =>
  `<g transform="rotate(${n(degrees)} ${n(x)} ${n(y)})">${inner}</g>`;

export const moved = (x: number, y: number, inner: string, scale = 1) =>
  `<g transform="translate(${n(x)} ${n(y)}) scale(${scale})">${inner}</g>`;

/** An arrow from one point to another. */
export function arrow(x1: number, y1: number, x2: number, y2: number, colour = BRIGHT): string {
  const angle = Math.atan2(y2 - y1, x2 - x1);
  const head = (turn: number): Point => [x2 - 11 * Math.cos(angle + turn), y2 - 11 * Math.sin(angle + turn)];
  const style = { stroke: colour, width: 3 };
  return (
    line(
      [
        [x1, y1],
        [x2, y2],
      ],
      style,
    ) + line([head(0.5), [x2, y2], head(-0.5)], style)
  );
}

/** An arrow round a centre, degrees clockwise from the right. */
export function turn(x: number, y: number, r: number, from: number, to: number): string {
  const at = (degrees: number, radius = r): Point => [
    x + radius * Math.cos((degrees * Math.PI) / 180),
    y + radius * Math.sin((degrees * Math.PI) / 180),
  ];
  const [x1, y1] = at(from);
  const [x2, y2] = at(to);
  const sweep = to > from ? 1 : 0;
  const back = to > from ? -12 : 12;
  const style = { stroke: BRIGHT, width: 3 };
  return (
    path(`M${n(x1)} ${n(y1)} A${r} ${r} 0 ${Math.abs(to - from) > 180 ? 1 : 0} ${sweep} ${n(x2)} ${n(y2)}`, style) +
    line([at(to + back, r - 8), [x2, y2], at(to + back, r + 8)], style)
  );
}

/** There and back over a cycle, 0 … 1 … 0. */
export const sway = (phase: number) => (1 - Math.cos(2 * Math.PI * phase)) / 2;
