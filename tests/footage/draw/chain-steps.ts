import { bike, floor, stand, wheel } from './bike.ts';
import { axleEnd, bolt, drive, links, ring, sprocket } from './drive.ts';
import {
  arrow,
  BRIGHT,
  box,
  circle,
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
import { bar, press, rule, spanner, torch, torqueWrench, vernier } from './tools.ts';

/** What each step of the chain lesson looks like, by step id. */
export const CHAIN_STEPS: Readonly<Record<string, Drawing>> = {
  'measure-the-chain-over-twenty-pitches': (p) =>
    links(26, 92, 21, 22, [0, 20]) +
    rule(20, 112, 470) +
    line(
      [
        [26, 60],
        [26, 108],
      ],
      { stroke: BRIGHT, width: 3 },
    ) +
    line(
      [
        [466, 60],
        [466, 108],
      ],
      { stroke: BRIGHT, width: 3 },
    ) +
    arrow(240, 56, 30 + sway(p) * 8, 56) +
    arrow(252, 56, 462 - sway(p) * 8, 56) +
    label(246, 46, '20 pitches', 17),

  'find-the-tight-spot': (p) =>
    drive(110, 74, p * 33, 14 + sway(p) * 14) +
    arrow(232, 176, 232, 152 - sway(p) * 12) +
    rule(262, 100, 80, 90) +
    turn(110, 74, 68, 200, 160),

  'read-the-teeth': (p) =>
    sprocket(130, 92, 78, 15, p * 24) +
    sprocket(382, 92, 78, 15, p * 24, 0.22) +
    label(130, 97, 'good', 13) +
    label(382, 97, 'worn', 13) +
    torch(246, 20, 55 + sway(p) * 12, 90),

  'crack-the-axle-nut': (p) =>
    axleEnd(250, 96, 0, BRIGHT, -sway(p) * 14) + bar(250, 96, 160 - sway(p) * 14, 190) + turn(250, 96, 66, 150, 100),

  'lift-the-rear-on-the-stand': (p) =>
    floor() +
    bike(150, 176 - sway(p) * 7, { lifted: 'rear' }) +
    stand(196, 176, -14 + sway(p) * 14) +
    arrow(96, 110, 96, 148) +
    box(368, 158, 16, 18, { fill: DARK }) +
    box(322, 158, 16, 18, { fill: DARK }),

  'back-off-the-adjusters': (p) =>
    axleEnd(200, 92, -sway(p) * 16, STEEL, p * 60) +
    spanner(288, 92, 60 + p * 60, 90) +
    arrow(172, 150, 118, 150) +
    label(146, 172, 'forward'),

  'lift-the-chain-off-the-teeth': (p) =>
    sprocket(170, 92, 74, 43, -p * 25) +
    path(`M190 ${18 - sway(p) * 12} Q300 ${30 - sway(p) * 12} 480 40`, { width: 9 }) +
    path(`M190 ${18 - sway(p) * 12} Q300 ${30 - sway(p) * 12} 480 40`, { width: 3, stroke: STEEL, dash: '6 6' }) +
    turn(170, 92, 90, 30, -30) +
    arrow(214, 66, 236, 30),

  'draw-the-axle-and-lower-the-wheel': (p) =>
    wheel(330, 84, 80, p * 20) +
    box(306 - sway(p) * 120, 78, 150, 12, { fill: STEEL }, 2) +
    bolt(300 - sway(p) * 120, 84, 15, BRIGHT, p * 60) +
    arrow(180, 46, 120, 46) +
    box(390, 76, 26, 16, { fill: DARK }) +
    path('M270 176 Q320 160 330 168 L400 170 L400 182 L270 182 Z', { fill: PAPER }),

  'open-the-sprocket-cover': (p) =>
    sprocket(160, 96, 46, 15) +
    path('M250 30 Q360 16 392 70 Q420 140 350 160 L266 156 Q232 100 250 30 Z', { fill: DARK }) +
    bolt(272, 44, 9, BRIGHT, p * 60) +
    bolt(372, 66, 9, BRIGHT) +
    bolt(300, 146, 9, BRIGHT) +
    spanner(272, 44 - sway(p) * 8, -30 + p * 60, 100),

  'take-the-front-sprocket-off': (p) =>
    sprocket(200, 96, 76, 15) +
    bolt(200, 96, 20, BRIGHT, -p * 60) +
    bar(200, 96, -10 - sway(p) * 26, 220) +
    turn(200, 96, 104, 20, -30),

  'fit-the-front-sprocket': (p) =>
    sprocket(190, 94, 72, 15) +
    circle(190, 94, 42, { fill: '#fff' }) +
    Array.from({ length: 12 }, (_, i) =>
      line(
        [
          [190 + 36 * Math.cos(i / 1.91), 94 + 36 * Math.sin(i / 1.91)],
          [190 + 42 * Math.cos(i / 1.91), 94 + 42 * Math.sin(i / 1.91)],
        ],
        { width: 1.5 },
      ),
    ).join('') +
    bolt(190, 94, 18, BRIGHT, sway(p) * 60) +
    torqueWrench(190, 94, -20 + sway(p) * 60, 230) +
    turn(190, 94, 88, -20, 40) +
    label(420, 40, '1  torque', 15) +
    label(420, 62, '2  angle', 15),

  'take-the-rear-sprocket-off': (p) =>
    box(60, 150, 90, 24, { fill: DARK }) +
    box(310, 150, 90, 24, { fill: DARK }) +
    box(40, 138, 380, 12, { fill: STEEL }) +
    sprocket(230, 76 - sway(p) * 6, 74, 43) +
    ring(230, 76 - sway(p) * 6, 44, 5, [0, 2]) +
    spanner(230, 32, 10 - sway(p) * 25, 120),

  'fit-the-rear-sprocket': (p) => {
    const order = [0, 2, 4, 1, 3];
    const now = order[Math.floor(p * 5) % 5] ?? 0;
    const a = (now / 5) * 2 * Math.PI - Math.PI / 2;
    const [x, y] = [180 + 50 * Math.cos(a), 94 + 50 * Math.sin(a)];
    return (
      sprocket(180, 94, 84, 43) +
      ring(180, 94, 50, 5, [now]) +
      torqueWrench(x, y, 12, 220) +
      label(450, 150, 'crosswise', 14)
    );
  },

  'push-out-the-old-rivet': (p) =>
    links(40, 96, 8, 34, [4]) + press(194, 96, sway(p) * 22) + turn(320, 96, 50, -40, 40),

  'count-and-cut-the-new-chain': (p) => {
    const at = Math.floor(p * 18);
    return (
      links(30, 60, 20, 22, [at]) +
      links(30, 116, 17, 26) +
      arrow(41 + at * 22, 22, 41 + at * 22, 44) +
      label(60, 160, 'old, stretched', 13, 'start') +
      label(478, 36, 'new', 13, 'end')
    );
  },

  'lead-the-chain-round': (p) =>
    drive(110, 90, p * 16, 16) +
    path('M110 120 L400 96', { width: 10, stroke: DARK }) +
    circle(400, 96, 10, { fill: PAPER }) +
    arrow(190 + sway(p) * 60, 18, 240 + sway(p) * 60, 24) +
    label(420, 130, 'pivot', 13),

  'press-the-rivet-link-together': (p) =>
    links(60, 60, 3, 44) +
    links(280, 60, 3, 44) +
    box(184, 46, 104, 28, { fill: BRIGHT }, 14) +
    box(184, 118 - sway(p) * 26, 104, 22, { fill: STEEL }, 11) +
    circle(206, 60, 5, { fill: PAPER }) +
    circle(266, 60, 5, { fill: PAPER }) +
    [206, 266]
      .map((x) => circle(x, 92, 10, { stroke: DARK, width: 5 }) + circle(x, 36, 10, { stroke: DARK, width: 5 }))
      .join('') +
    arrow(236, 172, 236, 146 - sway(p) * 20) +
    label(350, 134, 'plate', 13) +
    label(336, 98, 'rings', 13),

  'flare-the-rivets': (p) =>
    path('M80 60 L80 130 L220 130 L220 60', { fill: STEEL }) +
    path(
      `M${120 - sway(p) * 10} 46 Q150 ${36 + sway(p) * 10} ${180 + sway(p) * 10} 46 L172 62 L172 130 L128 130 L128 62 Z`,
      { fill: BRIGHT },
    ) +
    box(142, 4 + sway(p) * 22, 16, 24, { fill: DARK }) +
    vernier(330, 150, 34 + sway(p) * 12) +
    circle(355, 156, 18 + sway(p) * 6, { fill: BRIGHT }) +
    label(150, 160, 'flare a little, measure, go on', 14),

  'put-the-wheel-back': (p) =>
    wheel(320, 84 + sway(p) * 8, 76) +
    box(110 + sway(p) * 110, 78, 150, 12, { fill: STEEL }, 2) +
    path(`M${150 + sway(p) * 110} 78 L${230 + sway(p) * 110} 78`, { stroke: FLUID, width: 5 }) +
    bolt(106 + sway(p) * 110, 84, 14, STEEL) +
    arrow(120, 44, 190, 44),

  'set-the-slack': (p) =>
    drive(110, 70, 0, 8 + sway(p) * 16) +
    rule(254, 92, 84, 90) +
    arrow(226, 178, 226, 156 - sway(p) * 10) +
    arrow(272, 116, 272, 140 + sway(p) * 10),

  'line-the-wheel-up': (p) => {
    const skew = (0.5 - sway(p)) * 8;
    return (
      box(60, 76 + skew, 130, 34, { fill: DARK }, 14) +
      line(
        [
          [190, 92 + skew],
          [440, 92],
        ],
        { width: 8 },
      ) +
      line(
        [
          [190, 92 + skew],
          [440, 92],
        ],
        { width: 3, stroke: STEEL, dash: '6 6' },
      ) +
      line(
        [
          [60, 92],
          [480, 92],
        ],
        { stroke: BRIGHT, width: 1.5, dash: '7 5' },
      ) +
      circle(440, 92, 16, { fill: STEEL }) +
      arrow(300, 40, 126, 40) +
      arrow(300, 40, 436, 40) +
      label(290, 30, 'pivot to axle, both sides', 14) +
      arrow(300, 150, 126, 150) +
      arrow(300, 150, 436, 150)
    );
  },

  'tighten-the-axle-nut': (p) =>
    axleEnd(210, 100, 0, BRIGHT, sway(p) * 18) +
    torqueWrench(210, 100, -30 + sway(p) * 20, 240) +
    turn(210, 100, 96, -44, -8) +
    (p > 0.44 && p < 0.6 ? label(420, 150, 'click', 22) : ''),

  'lock-the-adjusters-and-close-the-cover': (p) =>
    axleEnd(180, 92) +
    spanner(268, 92, 100, 80) +
    torqueWrench(268, 92, -20 + sway(p) * 26, 200) +
    turn(268, 92, 46, -20, 40),

  'oil-it-and-write-it-down': (p) =>
    drive(110, 74, -p * 33, 14) +
    path(`M250 ${40} L250 ${128}`, { stroke: FLUID, width: 3, dash: '4 8' }) +
    box(236, 6, 28, 40, { fill: BRIGHT }) +
    circle(250, 142 + p * 12, 3, { fill: FLUID, width: 1.5 }) +
    box(410, 40, 84, 104, { fill: '#fff' }) +
    [62, 80, 98, 116]
      .map((y) =>
        line(
          [
            [420, y],
            [420 + 60 * Math.min(1, p * 2), y],
          ],
          { width: 1.8 },
        ),
      )
      .join(''),
};
