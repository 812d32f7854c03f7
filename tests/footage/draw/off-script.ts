import { bike, floor } from './bike.ts';
import {
  BRIGHT,
  box,
  circle,
  DARK,
  type Drawing,
  INK,
  label,
  line,
  moved,
  PAPER,
  path,
  STEEL,
  shape,
  sway,
  turned,
} from './ink.ts';
import { spanner } from './tools.ts';

/** What the camera sees between the steps, by the kind of scene and what it is of. */
export const IDLE: Readonly<Record<string, Drawing>> = {
  bench: () =>
    box(30, 110, 450, 18, { fill: STEEL }) +
    line(
      [
        [60, 128],
        [60, 184],
      ],
      { width: 6 },
    ) +
    line(
      [
        [450, 128],
        [450, 184],
      ],
      { width: 6 },
    ) +
    box(330, 76, 60, 34, { fill: DARK }) +
    spanner(90, 98, 4, 120),
  door: () =>
    box(190, 10, 120, 174, { fill: '#fff' }) +
    box(196, 16, 108, 168, { fill: '#e9e2d2' }, 0) +
    circle(290, 100, 5, { fill: INK }) +
    line(
      [
        [10, 184],
        [502, 184],
      ],
      { width: 3 },
    ) +
    path('M360 184 L372 120 L430 120 L442 184', { fill: STEEL }),
  camera: (p) => turned((sway(p) - 0.5) * 9, 256, 92, floor(160) + bike(150, 160)),
};

/** The slate of a roll, open or clapped shut. */
export const slateDrawing =
  (roll: string, recording: string): Drawing =>
  (p) =>
    box(136, 60, 240, 116, { fill: INK }) +
    `<g fill="${PAPER}" font-size="17"><text x="152" y="96">${recording}</text><text x="152" y="126">roll ${roll}</text><text x="152" y="156">Millrace Garage</text></g>` +
    turned(
      p < 0.75 ? -16 : 0,
      136,
      58,
      box(136, 34, 240, 22, { fill: PAPER }) +
        [0, 1, 2, 3]
          .map((i) =>
            shape(
              [
                [150 + i * 60, 34],
                [176 + i * 60, 34],
                [162 + i * 60, 56],
                [136 + i * 60, 56],
              ],
              { fill: INK, width: 0 },
            ),
          )
          .join(''),
    );

/** A spanner that falls on the floor. */
export const droppedDrawing: Drawing = (p) =>
  floor() +
  spanner(190 + p * 40, Math.min(166, 20 + p * p * 260), p < 0.75 ? p * 300 : 4, 120) +
  (p > 0.75
    ? moved(
        256,
        160,
        line(
          [
            [-90, -20],
            [-110, -34],
          ],
          { stroke: BRIGHT },
        ) +
          line(
            [
              [90, -20],
              [110, -34],
            ],
            { stroke: BRIGHT },
          ),
      ) + label(256, 60, '!', 40)
    : '');

/** What opens a chapter: its number beside the bike. */
export const chapterDrawing =
  (number: number): Drawing =>
  (p) =>
    `${floor() + bike(40, 176, { spin: p * 30, frontSpin: p * 30 })}<text x="400" y="150" font-size="120" text-anchor="middle" font-weight="bold" fill="${BRIGHT}">${number}</text>`;
