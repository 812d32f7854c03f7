/** What somebody does with one hand: typing something and sending it, a tap, a choice from a list. Scrolling is none. */
export type Action =
  | { readonly find: string }
  | { readonly choose: string }
  | { readonly press: string | RegExp }
  | { readonly unfold: string }
  | { readonly pick: string; readonly of: string | RegExp }
  | { readonly fill: string; readonly with: string };

/** What has to be on screen then: a frame of the step while it plays or stands, or words. */
export type Aim =
  | { readonly frameOf: string; readonly lesson: string }
  | { readonly words: RegExp; readonly in: string };

export interface Task {
  readonly wants: string;
  readonly actions: readonly Action[];
  readonly aim: Aim;
}

const found = (words: RegExp): Aim => ({ words, in: '.results' });
const film = (lesson: string, frameOf: string): Aim => ({ lesson, frameOf });

/**
 * What attendees come for, each from the front page on, as somebody would who has never been here: by the words they
 * have, and by what is written on the page. Chosen by hand for the invented demo shop; common practice, no source.
 */
export const TASKS: readonly Task[] = [
  {
    wants: 'see how the axle nut is tightened',
    actions: [{ find: 'tighten axle nut' }, { choose: 'Tighten the axle nut' }],
    aim: film('chain', 'tighten-the-axle-nut'),
  },
  {
    wants: 'how tight the rear axle nut is',
    actions: [{ find: 'how tight is the rear axle nut' }],
    aim: found(/90 ± 5 N·m.*98 ± 5 N·m/s),
  },
  { wants: 'how slack the chain may be', actions: [{ find: 'chain slack' }], aim: found(/25–35 mm/) },
  {
    wants: 'see the slack being set',
    actions: [{ find: 'set the slack' }, { choose: 'Set the slack' }],
    aim: film('chain', 'set-the-slack'),
  },
  {
    wants: 'watch the brake lesson from its start',
    actions: [{ choose: 'Front brake pads and fluid' }, { press: /^Play/ }],
    aim: film('front-brake', 'cover-the-paint'),
  },
  {
    wants: 'go to the chapter about the new chain',
    actions: [{ choose: 'Fit the new chain' }],
    aim: film('chain', 'push-out-the-old-rivet'),
  },
  {
    wants: 'see again how pads are bedded in, by the list of steps',
    actions: [{ choose: 'Steps' }, { choose: 'Bed the pads in' }],
    aim: film('front-brake', 'bed-the-pads-in'),
  },
  {
    wants: 'how thin pads may get',
    actions: [{ find: 'pad thickness' }],
    aim: found(/at least 1\.5 mm/),
  },
  { wants: 'what goes into the tyres', actions: [{ find: 'tyre pressure' }], aim: found(/225 ± 10 kPa/) },
  {
    wants: 'oil the chain',
    actions: [{ find: 'oil the chain' }, { choose: 'Oil it and write it down' }],
    aim: film('chain', 'oil-it-and-write-it-down'),
  },
  {
    wants: 'new pads, misspelt',
    actions: [{ find: 'fit break pads' }, { choose: 'Fit the new pads' }],
    aim: film('front-brake', 'fit-the-new-pads'),
  },
  { wants: 'what takes 98 Nm', actions: [{ find: '98 Nm' }], aim: found(/Rear axle nut/) },
  {
    wants: 'all torques in one table',
    actions: [{ choose: 'Specs' }, { choose: 'Torque 15' }],
    aim: { words: /Brake hose union bolt.*26 ± 3 N·m/s, in: 'main' },
  },
  {
    wants: 'what to lay out for the chain',
    actions: [{ choose: 'Replace the chain and sprockets' }, { unfold: 'Lay out' }],
    aim: { words: /Torque wrench, 1\/2 in drive.*Chain breaking and riveting tool/s, in: '.before' },
  },
  {
    wants: 'the steps that can hurt most',
    actions: [{ choose: 'Steps' }, { pick: 'Hazard', of: 'warning' }],
    aim: found(/WARNING/),
  },
  {
    wants: 'where the next class is',
    actions: [{ choose: 'Chain and sprockets on a Saturday' }],
    aim: { words: /bay 1 and the long bench/, in: 'main' },
  },
  {
    wants: 'the value for a bike of 2020',
    actions: [{ press: 'Name yours' }, { pick: 'Year', of: '2020' }, { find: 'rear axle nut torque' }],
    aim: found(/^(?!.*98 ± 5).*90 ± 5 N·m/s),
  },
  {
    wants: 'what a word of the trade means',
    actions: [{ choose: 'Replace the chain and sprockets' }, { unfold: 'Words of the trade' }],
    aim: { words: /The link that closes a chain/, in: '.glossary' },
  },
  {
    wants: 'whether a chain that was measured is still good',
    actions: [
      { choose: 'Measure' },
      { pick: 'What', of: /Chain, length over twenty pitches/ },
      { fill: 'Reading', with: '323' },
    ],
    aim: { words: /Out of limits/, in: 'main' },
  },
  {
    wants: 'go to where the brake fluid is changed',
    actions: [{ choose: 'Change the fluid' }],
    aim: film('front-brake', 'empty-and-fill-the-reservoir'),
  },
];
