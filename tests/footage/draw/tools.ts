import { BRIGHT, box, circle, DARK, FLUID, INK, label, line, PAPER, path, STEEL, shape, turned } from './ink.ts';

/** A long bar on a socket, its drive at x, y, pointing right before it is turned. */
export function bar(x: number, y: number, degrees: number, length = 170): string {
  return turned(
    degrees,
    x,
    y,
    box(x, y - 6, length, 12, { fill: STEEL }, 6) +
      box(x + length - 52, y - 9, 56, 18, { fill: BRIGHT }, 8) +
      circle(x, y, 13, { fill: DARK }),
  );
}

/** A torque wrench: the bar with a scale at its grip. */
export function torqueWrench(x: number, y: number, degrees: number, length = 180): string {
  const ticks = [0, 1, 2, 3, 4].map((i) =>
    line(
      [
        [x + length - 78 + i * 6, y - 4],
        [x + length - 78 + i * 6, y + 4],
      ],
      { width: 1.2 },
    ),
  );
  return turned(
    degrees,
    x,
    y,
    box(x, y - 7, length - 50, 14, { fill: STEEL }, 7) +
      ticks.join('') +
      box(x + length - 52, y - 10, 60, 20, { fill: INK }, 6) +
      circle(x, y, 16, { fill: STEEL }) +
      circle(x, y, 8, { fill: DARK }),
  );
}

/** A ring spanner, its eye at x, y. */
export function spanner(x: number, y: number, degrees: number, length = 130): string {
  return turned(
    degrees,
    x,
    y,
    box(x + 10, y - 5, length - 20, 10, { fill: STEEL }, 4) +
      circle(x, y, 15, { fill: STEEL }) +
      circle(x, y, 8, { fill: PAPER }) +
      circle(x + length, y, 13, { fill: STEEL }) +
      circle(x + length, y, 7, { fill: PAPER }),
  );
}

/** A hexagon key. */
export function hexKey(x: number, y: number, degrees: number): string {
  return turned(
    degrees,
    x,
    y,
    path(`M${x} ${y} L${x + 26} ${y} Q${x + 34} ${y} ${x + 34} ${y - 8} L${x + 34} ${y - 110}`, {
      width: 7,
      stroke: DARK,
    }),
  );
}

/** A rule with its divisions. */
export function rule(x: number, y: number, length: number, degrees = 0): string {
  const marks = Array.from({ length: Math.floor(length / 8) }, (_, i) =>
    line(
      [
        [x + 4 + i * 8, y],
        [x + 4 + i * 8, y + (i % 5 ? 6 : 11)],
      ],
      { width: 1.2 },
    ),
  );
  return turned(degrees, x, y, box(x, y, length, 22, { fill: '#fff' }, 1) + marks.join(''));
}

/** A sliding calliper, its jaws open by `gap` at x, y. */
export function vernier(x: number, y: number, gap: number, degrees = 0): string {
  return turned(
    degrees,
    x,
    y,
    box(x - 16, y - 62, 190, 16, { fill: STEEL }, 2) +
      shape(
        [
          [x - 16, y - 62],
          [x, y - 62],
          [x, y],
          [x - 16, y - 18],
        ],
        { fill: STEEL },
      ) +
      shape(
        [
          [x + gap, y - 66],
          [x + gap + 46, y - 66],
          [x + gap + 46, y - 42],
          [x + gap + 16, y - 42],
          [x + gap + 16, y - 18],
          [x + gap, y],
        ],
        { fill: BRIGHT },
      ) +
      Array.from({ length: 11 }, (_, i) =>
        line(
          [
            [x + 64 + i * 9, y - 60],
            [x + 64 + i * 9, y - 53],
          ],
          { width: 1.2 },
        ),
      ).join(''),
  );
}

/** A round gauge with its hand at an angle. */
export function dial(x: number, y: number, r: number, degrees: number): string {
  const ticks = Array.from({ length: 12 }, (_, i) =>
    turned(
      i * 30,
      x,
      y,
      line(
        [
          [x, y - r + 3],
          [x, y - r + 8],
        ],
        { width: 1.5 },
      ),
    ),
  );
  return (
    circle(x, y, r, { fill: '#fff', width: 3 }) +
    ticks.join('') +
    turned(
      degrees,
      x,
      y,
      line(
        [
          [x, y + 6],
          [x, y - r + 9],
        ],
        { stroke: BRIGHT, width: 3 },
      ),
    ) +
    circle(x, y, 3, { fill: INK })
  );
}

/** A bottle filled to a share of its height. */
export function bottle(x: number, y: number, level: number, text = ''): string {
  const height = 92 * level;
  return (
    box(x + 2, y + 100 - height, 56, height, { fill: FLUID, stroke: 'none' }, 4) +
    path(
      `M${x + 20} ${y - 16} L${x + 20} ${y} Q${x} ${y + 4} ${x} ${y + 22} L${x} ${y + 96} Q${x} ${y + 102} ${x + 6} ${y + 102} L${x + 54} ${y + 102} Q${x + 60} ${y + 102} ${x + 60} ${y + 96} L${x + 60} ${y + 22} Q${x + 60} ${y + 4} ${x + 40} ${y} L${x + 40} ${y - 16} Z`,
    ) +
    box(x + 17, y - 26, 26, 12, { fill: INK }) +
    (text ? label(x + 30, y + 58, text, 12) : '')
  );
}

/** A torch with its beam to the right. */
export function torch(x: number, y: number, degrees: number, reach = 150): string {
  return turned(
    degrees,
    x,
    y,
    shape(
      [
        [x, y - 10],
        [x + reach, y - 46],
        [x + reach, y + 46],
        [x, y + 10],
      ],
      { fill: '#f7e3a1', stroke: 'none' },
    ) +
      box(x - 58, y - 8, 46, 16, { fill: INK }) +
      shape(
        [
          [x - 14, y - 8],
          [x + 2, y - 14],
          [x + 2, y + 14],
          [x - 14, y + 8],
        ],
        { fill: DARK },
      ),
  );
}

/** The press for pins and rivets, its screw advanced by `travel`; the work sits at x, y. */
export function press(x: number, y: number, travel: number): string {
  return (
    path(
      `M${x - 58} ${y - 30} L${x + 46} ${y - 30} L${x + 46} ${y + 30} L${x - 58} ${y + 30} L${x - 58} ${y + 16} L${x - 22} ${y + 16} M${x - 58} ${y - 30} L${x - 58} ${y - 16} L${x - 22} ${y - 16}`,
      { width: 9, stroke: DARK },
    ) +
    box(x + 20 - travel, y - 8, 110, 16, { fill: STEEL }, 2) +
    Array.from({ length: 7 }, (_, i) =>
      line(
        [
          [x + 52 + i * 9 - travel, y - 8],
          [x + 57 + i * 9 - travel, y + 8],
        ],
        { width: 1.3 },
      ),
    ).join('') +
    shape(
      [
        [x + 20 - travel, y - 4],
        [x + 8 - travel, y - 3],
        [x + 8 - travel, y + 3],
        [x + 20 - travel, y + 4],
      ],
      { fill: BRIGHT, width: 1.5 },
    ) +
    line(
      [
        [x + 126 - travel, y - 34],
        [x + 126 - travel, y + 34],
      ],
      { width: 7, stroke: INK },
    )
  );
}
