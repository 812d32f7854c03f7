import { BRIGHT, box, circle, DAMP, DARK, FLUID, INK, line, PAPER, path, STEEL, shape, turned } from './ink.ts';

/** A drilled brake disc. */
export function disc(x: number, y: number, r: number, degrees = 0): string {
  const holes = Array.from({ length: 12 }, (_, i) =>
    turned(
      degrees + i * 30,
      x,
      y,
      circle(x, y - r * 0.86, r * 0.045, { fill: PAPER, width: 1.3 }) +
        circle(x + r * 0.05, y - r * 0.73, r * 0.045, { fill: PAPER, width: 1.3 }),
    ),
  );
  return (
    circle(x, y, r, { fill: STEEL, width: 3 }) +
    circle(x, y, r * 0.6, { fill: PAPER, width: 2.5 }) +
    holes.join('') +
    circle(x, y, r * 0.2, { fill: STEEL, width: 2 })
  );
}

/** The caliper from the side with its two bolt lugs, pin and bleed screw. */
export function caliper(
  x: number,
  y: number,
  {
    bolts = STEEL,
    pin = STEEL,
    bleed = STEEL,
  }: { readonly bolts?: string; readonly pin?: string; readonly bleed?: string } = {},
): string {
  return (
    path(
      `M${x} ${y} Q${x + 6} ${y - 34} ${x + 44} ${y - 36} L${x + 84} ${y - 34} Q${x + 104} ${y - 30} ${x + 102} ${y + 4} L${x + 98} ${y + 38} Q${x + 92} ${y + 58} ${x + 60} ${y + 56} L${x + 22} ${y + 50} Q${x - 2} ${y + 40} ${x} ${y} Z`,
      { fill: DARK, width: 3 },
    ) +
    circle(x + 44, y + 10, 20, { fill: STEEL, width: 2 }) +
    circle(x + 118, y - 22, 12, { fill: PAPER }) +
    circle(x + 118, y - 22, 6, { fill: bolts }) +
    circle(x + 112, y + 44, 12, { fill: PAPER }) +
    circle(x + 112, y + 44, 6, { fill: bolts }) +
    circle(x + 16, y + 36, 7, { fill: pin }) +
    shape(
      [
        [x + 66, y - 36],
        [x + 70, y - 58],
        [x + 78, y - 58],
        [x + 82, y - 36],
      ],
      { fill: bleed, width: 2 },
    )
  );
}

/** Both pads edge-on, the lining `thick` px; further apart by `gap`. */
export function pads(x: number, y: number, thick: number, gap: number): string {
  const pad = (left: number, side: 1 | -1) =>
    box(side > 0 ? left - 10 : left, y - 46, 10, 92, { fill: STEEL }) +
    box(side > 0 ? left : left - thick, y - 38, thick, 76, { fill: DARK, width: 2 });
  return pad(x - gap, 1) + pad(x + gap, -1);
}

/** Cut through caliper, pistons, pads and disc; `squeeze` 0 … 1 moves the pistons out. */
export function section(x: number, y: number, squeeze: number, thick = 12): string {
  const gap = 30 - squeeze * 12;
  return (
    path(
      `M${x - 92} ${y - 62} L${x + 92} ${y - 62} L${x + 92} ${y + 62} L${x + 46} ${y + 62} L${x + 46} ${y + 34} L${x + 72} ${y + 34} L${x + 72} ${y - 36} L${x - 72} ${y - 36} L${x - 72} ${y + 34} L${x - 46} ${y + 34} L${x - 46} ${y + 62} L${x - 92} ${y + 62} Z`,
      { fill: STEEL, width: 2.5 },
    ) +
    box(x - 78, y - 20, 28 + squeeze * 12, 40, { fill: DARK }) +
    box(x + 50 - squeeze * 12, y - 20, 28 + squeeze * 12, 40, { fill: DARK }) +
    box(x - 88, y - 20, 11, 40, { fill: FLUID, width: 1.5 }, 0) +
    box(x + 77, y - 20, 11, 40, { fill: FLUID, width: 1.5 }, 0) +
    pads(x, y + 4, thick, gap + 10) +
    box(x - 5, y - 30, 10, 112, { fill: PAPER })
  );
}

/** Grip, lever and reservoir from above; the lever pulled by `pull` degrees, the reservoir filled to `level`. */
export function master(x: number, y: number, pull: number, level: number, lid = true): string {
  return (
    box(x + 60, y + 26, 210, 18, { fill: DARK }, 8) +
    box(x + 150, y + 23, 122, 24, { fill: INK }, 8) +
    turned(
      -pull,
      x + 74,
      y + 62,
      path(
        `M${x + 74} ${y + 56} Q${x + 120} ${y + 62} ${x + 250} ${y + 84} Q${x + 262} ${y + 88} ${x + 252} ${y + 94} Q${x + 120} ${y + 78} ${x + 74} ${y + 70} Z`,
        { fill: STEEL },
      ),
    ) +
    circle(x + 74, y + 62, 6, { fill: PAPER }) +
    box(x, y - 20, 84, 62, { fill: '#fff' }) +
    box(x + 2, y + 40 - 58 * level, 80, 58 * level, { fill: FLUID, stroke: 'none' }, 1) +
    line(
      [
        [x + 10, y + 32],
        [x + 74, y + 32],
      ],
      { width: 1.5, dash: '4 3' },
    ) +
    line(
      [
        [x + 10, y - 6],
        [x + 74, y - 6],
      ],
      { width: 1.5, dash: '4 3' },
    ) +
    (lid ? box(x - 5, y - 32, 94, 14, { fill: INK }) : '')
  );
}

/** A bottle that hangs from a hose, bubbles rising by `phase`. */
export function bleedBottle(x: number, y: number, level: number, phase: number, bubbles: number): string {
  const rising = Array.from({ length: bubbles }, (_, i) =>
    circle(x + 26 + ((i * 13) % 22), y + 68 - ((phase + i / bubbles) % 1) * 60 * level, 2.6, {
      stroke: '#fff',
      width: 1.6,
    }),
  );
  return (
    box(x + 2, y + 78 - 72 * level, 56, 72 * level, { fill: FLUID, stroke: 'none' }, 2) +
    box(x, y, 60, 80, {}, 5) +
    box(x + 8, y - 8, 44, 10, { fill: INK }) +
    rising.join('')
  );
}

export const hose = (d: string) => path(d, { stroke: INK, width: 7 }) + path(d, { stroke: DAMP, width: 3 });
export const drop = (x: number, y: number, colour = FLUID) =>
  path(`M${x} ${y} q7 11 0 15 q-7 -4 0 -15`, { fill: colour, width: 1.5 });
export const spark = (x: number, y: number) =>
  [0, 60, 120]
    .map((a) =>
      turned(
        a,
        x,
        y,
        line(
          [
            [x - 11, y],
            [x + 11, y],
          ],
          { stroke: BRIGHT, width: 3 },
        ),
      ),
    )
    .join('');
