import { box, circle, DARK, INK, line, moved, PAPER, path, STEEL, shape, turned } from './ink.ts';

/** A spoked wheel with its tyre. */
export function wheel(x: number, y: number, r: number, degrees = 0, spokes = 6): string {
  const spoke = (i: number) =>
    turned(
      degrees + (i * 360) / spokes,
      x,
      y,
      line(
        [
          [x, y - r * 0.16],
          [x, y - r * 0.78],
        ],
        { width: 1.8 },
      ),
    );
  return (
    circle(x, y, r, { width: Math.max(4, r * 0.13), stroke: INK }) +
    circle(x, y, r * 0.8, { width: 1.5 }) +
    circle(x, y, r * 0.14, { fill: STEEL, width: 2 }) +
    Array.from({ length: spokes }, (_, i) => spoke(i)).join('')
  );
}

export const floor = (y = 176) =>
  line(
    [
      [10, y],
      [502, y],
    ],
    { stroke: DARK, width: 2 },
  );

interface Pose {
  readonly rear?: boolean;
  readonly spin?: number;
  readonly frontSpin?: number;
  readonly lifted?: 'rear' | 'front';
}

/** The whole motorcycle from its right side: 230 wide, 130 high, standing on y = 130. */
export function bike(x: number, y: number, { rear = true, spin = 0, frontSpin = 0, lifted }: Pose = {}): string {
  const tilt = lifted === 'rear' ? 3 : lifted === 'front' ? -3 : 0;
  return moved(
    x,
    y - 130,
    turned(
      tilt,
      115,
      130,
      (rear ? wheel(40, 95, 34, spin) : circle(40, 95, 4, { fill: STEEL })) +
        wheel(195, 95, 34, frontSpin) +
        line(
          [
            [40, 95],
            [100, 90],
            [118, 52],
            [165, 42],
          ],
          { width: 4 },
        ) +
        line(
          [
            [165, 30],
            [195, 95],
          ],
          { width: 5 },
        ) +
        line(
          [
            [100, 90],
            [150, 92],
            [165, 42],
          ],
          { width: 3 },
        ) +
        shape(
          [
            [104, 50],
            [118, 34],
            [156, 30],
            [164, 44],
            [128, 54],
          ],
          { fill: STEEL },
        ) +
        path('M48 50 Q70 38 106 48 L112 56 L60 58 Z', { fill: INK }) +
        box(106, 62, 42, 30, { fill: PAPER }) +
        line(
          [
            [108, 70],
            [146, 70],
          ],
          { width: 1.5 },
        ) +
        line(
          [
            [108, 78],
            [146, 78],
          ],
          { width: 1.5 },
        ) +
        line(
          [
            [163, 28],
            [150, 18],
            [142, 20],
          ],
          { width: 3.5 },
        ) +
        circle(178, 38, 9, { fill: PAPER }) +
        path('M60 92 L22 112 L18 104 Z', { fill: STEEL, width: 2 }),
    ),
  );
}

/** A stand under the tail. */
export function stand(x: number, y: number, degrees = 0): string {
  return turned(
    degrees,
    x,
    y,
    line(
      [
        [x, y - 38],
        [x - 22, y],
        [x + 22, y],
        [x, y - 38],
      ],
      { width: 3.5 },
    ) +
      line(
        [
          [x, y - 38],
          [x + 8, y - 44],
        ],
        { width: 4 },
      ) +
      line(
        [
          [x - 22, y],
          [x - 62, y - 22],
        ],
        { width: 4 },
      ),
  );
}
