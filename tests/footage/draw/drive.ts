import { BRIGHT, circle, DARK, INK, line, moved, PAPER, path, STEEL, shape, turned } from './ink.ts';

type Point = readonly [number, number];

/** A toothed wheel; worn teeth lean to one side. */
export function sprocket(x: number, y: number, r: number, teeth: number, degrees = 0, lean = 0): string {
  const depth = Math.min(12, (r * 3) / teeth + 3);
  const at = (tooth: number, radius: number): Point => {
    const a = (tooth / teeth) * 2 * Math.PI;
    return [x + radius * Math.cos(a), y + radius * Math.sin(a)];
  };
  const rim = Array.from({ length: teeth }, (_, i): Point[] => [
    at(i - 0.3, r - depth),
    at(i - 0.1 + lean, r),
    at(i + 0.1 + lean, r),
    at(i + 0.3, r - depth),
  ]).flat();
  return turned(
    degrees,
    x,
    y,
    shape(rim, { fill: STEEL, width: 2 }) + circle(x, y, r * 0.28, { fill: PAPER, width: 2 }),
  );
}

/** Bolt heads round a centre; the ones in `bright` are being worked on. */
export function ring(x: number, y: number, r: number, count: number, bright: readonly number[] = []): string {
  return Array.from({ length: count }, (_, i) => {
    const a = (i / count) * 2 * Math.PI - Math.PI / 2;
    return bolt(x + r * Math.cos(a), y + r * Math.sin(a), 8, bright.includes(i) ? BRIGHT : STEEL);
  }).join('');
}

/** The head of a bolt, or a nut. */
export function bolt(x: number, y: number, r: number, fill: string = STEEL, degrees = 0): string {
  const corners = Array.from({ length: 6 }, (_, i): Point => {
    const a = (i * Math.PI) / 3 + (degrees * Math.PI) / 180;
    return [x + r * Math.cos(a), y + r * Math.sin(a)];
  });
  return shape(corners, { fill, width: 2 }) + circle(x, y, r * 0.45, { width: 1.5 });
}

/** A run of chain seen from the side: plates of `pitch`, rollers at the pins. */
export function links(x: number, y: number, count: number, pitch = 22, bright: readonly number[] = []): string {
  return Array.from({ length: count }, (_, i) => {
    const left = x + i * pitch;
    const fill = bright.includes(i) ? BRIGHT : i % 2 ? PAPER : STEEL;
    const r = pitch * 0.36;
    const plate = path(
      `M${left} ${y - r} Q${left + pitch / 2} ${y - r * 0.45} ${left + pitch} ${y - r} A${r} ${r} 0 0 1 ${left + pitch} ${y + r} Q${left + pitch / 2} ${y + r * 0.45} ${left} ${y + r} A${r} ${r} 0 0 1 ${left} ${y - r} Z`,
      { fill, width: 1.8 },
    );
    return (
      plate +
      circle(left, y, pitch * 0.14, { fill: INK, width: 1 }) +
      circle(left + pitch, y, pitch * 0.14, { fill: INK, width: 1 })
    );
  }).join('');
}

/** Both sprockets with the chain round them; `sag` is how far the lower run hangs, px. */
export function drive(x: number, y: number, degrees: number, sag: number, chainOn = true): string {
  const rear = { x, y, r: 52 };
  const front = { x: x + 230, y: y + 4, r: 24 };
  const middle = (rear.x + front.x) / 2;
  const style = { stroke: INK, width: 7 };
  const inlay = { stroke: STEEL, width: 2.5, dash: '5 5' };
  const run = (d: string) => path(d, style) + path(d, inlay);
  return moved(
    0,
    0,
    sprocket(rear.x, rear.y, rear.r, 43, degrees) +
      sprocket(front.x, front.y, front.r, 15, degrees * 2.87) +
      (chainOn
        ? run(`M${rear.x} ${rear.y - rear.r} L${front.x} ${front.y - front.r}`) +
          run(
            `M${rear.x} ${rear.y + rear.r} Q${middle} ${(rear.y + rear.r + front.y + front.r) / 2 + sag * 2} ${front.x} ${front.y + front.r}`,
          ) +
          path(`M${rear.x} ${rear.y - rear.r} A${rear.r} ${rear.r} 0 0 0 ${rear.x} ${rear.y + rear.r}`, style) +
          path(`M${front.x} ${front.y - front.r} A${front.r} ${front.r} 0 0 1 ${front.x} ${front.y + front.r}`, style)
        : ''),
  );
}

/** The swingarm's end with the axle nut, its slot and the adjuster behind it; `travel` moves the axle. */
export function axleEnd(x: number, y: number, travel = 0, nut: string = STEEL, degrees = 0): string {
  return (
    path(
      `M${x - 190} ${y - 34} L${x + 60} ${y - 30} Q${x + 76} ${y - 30} ${x + 76} ${y - 14} L${x + 76} ${y + 14} Q${x + 76} ${y + 30} ${x + 60} ${y + 30} L${x - 190} ${y + 34} Z`,
      { fill: PAPER, width: 3 },
    ) +
    path(
      `M${x - 34} ${y - 14} L${x + 34} ${y - 14} A14 14 0 0 1 ${x + 34} ${y + 14} L${x - 34} ${y + 14} A14 14 0 0 1 ${x - 34} ${y - 14}`,
      { fill: DARK, width: 2 },
    ) +
    Array.from({ length: 7 }, (_, i) =>
      line(
        [
          [x - 30 + i * 10, y - 28],
          [x - 30 + i * 10, y - 19],
        ],
        { width: 1.5 },
      ),
    ).join('') +
    bolt(x + travel, y, 24, nut, degrees) +
    line(
      [
        [x + 34 + travel / 3, y],
        [x + 112, y],
      ],
      { width: 6, stroke: DARK },
    ) +
    bolt(x + 88, y, 11, STEEL, degrees)
  );
}
