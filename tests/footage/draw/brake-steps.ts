import { bike, floor, wheel } from './bike.ts';
import { bleedBottle, caliper, disc, drop, hose, master, pads, section, spark } from './brake.ts';
import {
  arrow,
  BRIGHT,
  box,
  circle,
  DAMP,
  DARK,
  type Drawing,
  FLUID,
  label,
  line,
  PAPER,
  path,
  STEEL,
  sway,
  turn,
} from './ink.ts';
import { bottle, dial, hexKey, rule, spanner, torch, torqueWrench, vernier } from './tools.ts';

const fork = (x: number) => box(x, 0, 34, 184, { fill: PAPER }, 2);

/** What each step of the brake lesson looks like, by step id. */
export const BRAKE_STEPS: Readonly<Record<string, Drawing>> = {
  'cover-the-paint': (p) =>
    floor() +
    bike(120, 176) +
    path(`M214 ${84 + sway(p) * 6} Q250 70 300 ${84 + sway(p) * 6} L296 112 Q250 ${104 + sway(p) * 4} 216 112 Z`, {
      fill: DAMP,
    }) +
    path('M400 128 L470 128 L460 176 L410 176 Z', { fill: STEEL }) +
    path('M402 134 Q420 130 436 134 T468 134', { stroke: DAMP, width: 5 }) +
    path('M400 128 Q435 96 470 128'),

  'read-the-fluid': (p) =>
    torch(120, 92, sway(p) * 8 - 4, 110) +
    box(236, 36, 110, 110, { fill: '#fff' }) +
    box(239, 78, 104, 66, { fill: FLUID, stroke: 'none' }, 1) +
    line(
      [
        [246, 62],
        [336, 62],
      ],
      { dash: '4 3', width: 1.5 },
    ) +
    line(
      [
        [246, 122],
        [336, 122],
      ],
      { dash: '4 3', width: 1.5 },
    ) +
    box(230, 20, 122, 18, { fill: DARK }) +
    box(394, 40, 36, 100, { fill: FLUID }) +
    box(446, 40, 36, 100, { fill: '#7a5a2b' }) +
    label(412, 160, 'young') +
    label(464, 160, 'old'),

  'feel-the-lever': (p) =>
    master(110, 40, sway(p) * 9, 0.7) + arrow(400, 160, 392, 130 - sway(p) * 12) + rule(420, 60, 90, 90),

  'loosen-the-pad-pin': (p) =>
    fork(250) + caliper(150, 92, { pin: BRIGHT }) + hexKey(166, 128, 200 - sway(p) * 30) + turn(166, 128, 40, 60, 10),

  'take-the-caliper-off': (p) =>
    disc(150, 110, 118) +
    fork(300) +
    caliper(176 + sway(p) * 46, 84, { bolts: BRIGHT }) +
    arrow(200, 30, 260, 30) +
    path(`M400 0 Q${392} 20 ${330 + sway(p) * 30} 58`, { width: 3, stroke: DARK }),

  'draw-the-old-pads': (p) =>
    section(150, 70, 0, 6) +
    pads(150, 120 + sway(p) * 26, 6, 32) +
    arrow(60, 128, 60, 172) +
    vernier(350, 140, 14) +
    box(350, 100, 8, 74, { fill: STEEL }) +
    box(358, 106, 7, 62, { fill: DARK }),

  'measure-the-disc': (p) =>
    disc(150, 100, 92, p * 30) +
    path('M214 60 Q190 40 206 26 L300 26 Q316 40 290 60', { width: 7, stroke: DARK }) +
    circle(252, 26, 12, { fill: BRIGHT }) +
    dial(400, 84, 52, -20 + sway(p) * 40) +
    line(
      [
        [348, 92],
        [244, 104],
      ],
      { width: 4 },
    ) +
    turn(150, 100, 60, 120, 170),

  'clean-the-caliper-and-press-the-pistons-back': (p) =>
    section(180, 84, 0.9 - sway(p) * 0.9, 4) +
    arrow(140, 166, 98, 166) +
    arrow(220, 166, 262, 166) +
    box(390, 40, 74, 100, { fill: '#fff' }) +
    box(392, 110 - sway(p) * 24, 70, 28 + sway(p) * 24, { fill: FLUID, stroke: 'none' }) +
    arrow(478, 130, 478, 92) +
    label(427, 160, 'reservoir'),

  'fit-the-new-pads': (p) =>
    section(190, 76, 0.1, 13) +
    pads(190, 134 - sway(p) * 40, 13, 34) +
    arrow(330, 170, 330, 110) +
    path('M392 70 q16 -30 32 0 t32 0', { stroke: BRIGHT, width: 4 }) +
    label(424, 100, 'spring, arrow forwards'),

  'bolt-the-caliper-on': (p) =>
    disc(120, 116, 112) +
    fork(280) +
    caliper(170, 90, { bolts: BRIGHT }) +
    torqueWrench(288, 68, -16 + sway(p) * 20, 200) +
    turn(288, 68, 46, -30, 40),

  'tighten-the-pad-pin': (p) =>
    fork(290) +
    caliper(190, 84, { pin: BRIGHT }) +
    torqueWrench(206, 120, 150 - 26 + sway(p) * 26, 190) +
    turn(206, 120, 44, 110, 190) +
    path(`M206 120 m-18 22 q18 16 36 0`, { stroke: BRIGHT, width: 3 }),

  'empty-and-fill-the-reservoir': (p) =>
    master(60, 70, 0, 0.15 + 0.75 * p, false) +
    bottle(250, 20, 1 - 0.4 * p, 'DOT 4') +
    (p > 0.1 ? drop(110, 30 + ((p * 3) % 1) * 20) : '') +
    path('M246 16 Q180 0 112 22', { stroke: FLUID, width: 4 }),

  'hang-the-bottle-on-the-bleed-screw': (p) =>
    caliper(130, 84, { bleed: BRIGHT }) +
    spanner(204, 34 - sway(p) * 3, 20, 110) +
    hose(`M204 ${20 - sway(p) * 10} Q300 -20 400 60 L400 130`) +
    bleedBottle(372, 84, 0.4, p, 0),

  'pump-the-old-fluid-out': (p) =>
    small(master(10, 40, sway(p) * 10, 0.8 - p * 0.2)) +
    caliper(300, 96, { bleed: BRIGHT }) +
    hose('M374 36 Q420 0 446 60 L446 130') +
    bleedBottle(418, 96, 0.3 + p * 0.3, p, 3) +
    label(150, 170, p < 0.5 ? 'down, open' : 'shut, let go', 16),

  'chase-the-last-air': (p) =>
    hose('M120 176 Q160 100 130 20') +
    Array.from({ length: 4 }, (_, i) => circle(140 - i * 2, 160 - ((p + i / 4) % 1) * 130, 3, { stroke: '#fff' })).join(
      '',
    ) +
    caliper(220, 100, {}) +
    box(330 - sway(p) * 10, 130, 60, 22, { fill: BRIGHT }, 10) +
    box(384 - sway(p) * 10, 136, 90, 9, { fill: STEEL }) +
    arrow(80, 150, 80, 50),

  'close-the-screw-and-the-cap': (p) =>
    caliper(120, 100, { bleed: BRIGHT }) +
    torqueWrench(194, 46, -10 + sway(p) * 24, 150) +
    box(380, 70, 84, 70, { fill: '#fff' }) +
    box(382, 82, 80, 56, { fill: FLUID, stroke: 'none' }) +
    box(374, 34 + sway(p) * 20, 96, 14, { fill: DARK }) +
    arrow(484, 30, 484, 66),

  'hold-the-lever': (p) =>
    master(60, 44, 9, 0.9) +
    arrow(310, 172, 300, 136) +
    dial(430, 84, 48, p * 360) +
    label(430, 156, 'it must not sink', 14),

  'spin-the-wheel': (p) =>
    wheel(200, 92, 82, p * 60) +
    disc(200, 92, 44, p * 60) +
    path('M380 176 L400 60 L420 176 Z', { width: 4 }) +
    turn(200, 92, 96, -60, 0) +
    label(400, 40, 'stops, and runs free', 14),

  'wash-down-and-clear-up': (p) =>
    floor() +
    bike(90, 176) +
    Array.from({ length: 6 }, (_, i) => drop(250 + i * 22, 20 + ((p + i / 6) % 1) * 90, DAMP)).join('') +
    box(400, 110, 64, 66, { fill: STEEL }) +
    label(432, 148, 'old fluid', 12) +
    path('M406 110 Q432 86 458 110'),

  'bed-the-pads-in': (p) =>
    floor() +
    bike(60 + p * 160, 176, { spin: p * 720, frontSpin: p * 720 }) +
    (p > 0.6 ? spark(250 + p * 160, 150) : '') +
    Array.from({ length: 5 }, (_, i) =>
      line(
        [
          [20 + i * 100, 182],
          [60 + i * 100, 182],
        ],
        { stroke: BRIGHT, width: 2 },
      ),
    ).join(''),
};

function small(inner: string): string {
  return `<g transform="translate(0 20) scale(0.85)">${inner}</g>`;
}
