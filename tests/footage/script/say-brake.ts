/** What is said in the brake recording; written as in `say-chain.ts`. */
export const SAY_BRAKE: Readonly<Record<string, readonly (readonly string[])[]>> = {
  'before-you-open-anything': [
    [
      'Good afternoon. Nothing on this bike forgives less than the front brake, and few jobs are easier to do well.',
      'We start with the lid closed. If the manual for your bike says something else, the manual is right.',
    ],
  ],
  'cover-the-paint': [
    [
      'Bars straight, so that the reservoir stands level.',
      'Wet rags over the tank, the wheel, and the clocks. Wet, because water takes brake fluid away, and a dry rag only spreads it.',
      'A bucket of water, here, where I can reach it without getting up.',
      'This stuff softens paint in the time it takes you to fetch a bucket from the yard.',
      'Gloves. Glasses. They stay on until the last wipe.',
    ],
  ],
  'read-the-fluid': [
    [
      'Shine through the window. Clear, like straw, that is young. Brown and cloudy, that is old.',
      'On the cap it says DOT 4. So that is what goes in. Nothing else, and no mixing.',
      'Fresh from the bottle, it boils at no less than {brake-fluid-dry~}.',
    ],
    [
      'But it drinks water out of the air, through the hoses, year after year. And then it may boil as low as {brake-fluid-wet~}.',
      'Old fluid feels perfect until it boils. Then the lever comes to the bar, on the long hill, where you need it.',
      'So it is changed every {brake-fluid-change}. Whether the pads are worn or not.',
    ],
  ],
  'feel-the-lever': [
    [
      'Pull slowly, and watch the end of the lever. The free play is {lever-play}.',
      'Now pull hard, and hold. It should stop like a wall, and stay there.',
      'If it sinks under a steady hand, it leaks inside. New pads will not cure that. That is a new master cylinder.',
      'Write down how it feels now. You will want to compare.',
    ],
  ],
  'change-the-pads': [
    [
      'The caliper hangs on two bolts, and the pads hang on one pin.',
      'Look at the spring before you touch it. Take a picture. It only works one way round.',
    ],
  ],
  'loosen-the-pad-pin': [
    [
      'Clip out first, with pliers. It goes to the scrap, there is a new one.',
      'Now the pin. Half a turn, no more, while the caliper is still bolted to the fork.',
      'The fork holds it for me. In my hand it would turn with the key, and the hexagon would be round.',
    ],
  ],
  'take-the-caliper-off': [
    [
      'Two bolts. The lower one first. They come with dry lock on the thread, so they creak on the way out. That is fine.',
      'These bolts are scrap too. New ones are in the packet.',
      'Turn the caliper a little, to and fro. That presses the pads back, and it slides off.',
      'And it hangs from a hook. Never from its hose. A hose that has carried a caliper is cracked where you cannot see it.',
      'And from now on nobody touches the lever.',
    ],
  ],
  'draw-the-old-pads': [
    [
      'Pin out, and the pads come out downwards. Lay them on the bench as they sat. Left, right.',
      'Do not blow the dust out. You do not want it in your chest. Wipe it away, damp.',
      'Now measure the lining. Not the plate, only the lining, at its thinnest. The limit is {pad-lining~}.',
      'When both are dirty, the plate looks like lining. So scratch along the edge until you see the line between them.',
      'And compare the two. If one is much thinner, then something in there is stuck.',
    ],
  ],
  'measure-the-disc': [
    [
      'The disc wears in the middle of the track, and leaves a lip at the edge. So we measure inside the lip, with the micrometer.',
      'Eight places, all round. The disc has to be {disc-thickness}.',
      'Lay a rule across it, and you measure the lips. That would be a new disc, every time.',
      'Now the dial gauge, with its foot on the fork. Zero, and turn the wheel once, slowly. Run-out is {disc-runout}.',
      'Ours is good for another set of pads.',
    ],
  ],
  'clean-the-caliper-and-press-the-pistons-back': [
    [
      'First I draw a little fluid out of the reservoir. What we push back down here comes up there.',
      'Doors open. No flame, no hot lamp, nobody welding next door. Brake cleaner burns, and when it gets hot it is poisonous.',
      'A brush, and a rag that is damp with cleaner. Clean all that you can see of the pistons.',
      'Clean first, and then press. Dirt that is pushed in cuts the seal, and the seal is what pulls the piston back.',
      'An old pad across them, the spreader in, and slowly. And watch the reservoir. There it comes.',
      'A smear of rubber grease on the slider pins. They have to move by themselves.',
    ],
  ],
  'fit-the-new-pads': [
    [
      'New gloves. A fingerprint of grease bakes into the lining, and then it squeals for good.',
      'Spring in, with the arrow forwards.',
      'Pads up from below, until both hooks sit. You hear it.',
      'Then the pin, through the first pad, the spring, and the second. By hand, as far as it goes. Tight comes later.',
    ],
  ],
  'bolt-the-caliper-on': [
    [
      'Over the disc, without catching the edges. Wriggle it, do not push.',
      'Two new bolts from the packet, by hand, until they touch.',
      'Upper one first, then the lower one. {caliper-bolt}. Medium wrench.',
      'Click. And the other. Click.',
      'A caliper that comes loose locks the front wheel. So somebody else has watched both clicks.',
      'Why new bolts? The lock on the thread sets once.',
    ],
  ],
  'tighten-the-pad-pin': [
    [
      'Now the fork holds the caliper again, and the pin gets {pad-pin}. Small wrench.',
      'New clip in. And tug it. What you cannot pull out, the road will not shake out.',
    ],
  ],
  'change-the-fluid': [
    [
      'Now the fluid. New in at the top, old out at the bottom, and never any air in between.',
      'Two people, and one of them talks.',
    ],
  ],
  'empty-and-fill-the-reservoir': [
    [
      'Cap off, rubber off. Two small screws. Put them in the lid of the tray.',
      'Syringe in. Draw it down to just above the hole at the bottom, and not lower, or it takes a gulp of air.',
      'Wipe it out with a clean rag. Look at what was lying at the bottom.',
      'A fresh bottle, and I open it now, in front of you. An open bottle drinks water, and it looks no different.',
      'Glasses on. If it gets in an eye, water at once, plenty of it, and then to a doctor.',
      'And fill.',
    ],
  ],
  'hang-the-bottle-on-the-bleed-screw': [
    [
      'Dust cap off. Ring spanner on first, and then the hose over it. The other way round, the spanner never goes on.',
      'The end of the hose stays under the fluid in the bottle, always. And the bottle hangs lower than the screw.',
    ],
  ],
  'pump-the-old-fluid-out': [
    [
      'One of us at the lever, one at the screw. And we talk.',
      'Down. I open, a quarter of a turn. It runs. I close. Shut. And only now do you let go.',
      'Down. Shut. Down. Shut. Both say it aloud, every time.',
    ],
    [
      'If you let go while it is open, it sucks back what it has just pushed out.',
      'Every five strokes, look at the top. Never below the lower mark. One gulp of air, and we start again.',
      'Keep your face away from the screw, it sprays.',
      'It takes {brake-fluid-flush} until it runs clear. See the colour change in the hose?',
    ],
  ],
  'chase-the-last-air': [
    [
      'Air climbs. So I tap from the bottom to the top, with the handle of the mallet. Caliper, hose, hose, union.',
      'Now tiny strokes at the lever. Tiny. And look into the reservoir. There, like in a glass.',
      'The highest corner is the union at the lever. That is where the last bubble sits.',
      'And three more strokes at the bottom. Clear. Clear. Clear. Three in a row, and we stop.',
    ],
  ],
  'close-the-screw-and-the-cap': [
    [
      'Hose off, with a rag under it. And now the smallest wrench we have. The bleed screw gets {bleed-screw}.',
      'It is hollow. At its hole it is no thicker than a pencil lead. Shear it off, and you buy a caliper.',
      'Dust cap on. Fill up to the upper mark. Fold the rubber flat. Cap on.',
      'The two little screws get {reservoir-screw}.',
    ],
  ],
  'prove-the-brake': [
    [
      'A brake is finished when it has been proved, and not when the tools are away.',
      'Nobody pushes the bike out of the bay before that.',
    ],
  ],
  'hold-the-lever': [
    [
      'Pump, until it is hard. The pads have to find the disc first.',
      'And now pull, as hard as in a fright, and hold. And we count, slowly, to sixty.',
      'It must not sink. If it sinks, or if it comes to the bar, nobody rides. A bike that does not stop kills people.',
      'And while you hold, I look. Union, dry. Screw, dry. Pistons, dry.',
      'Fifty-eight, fifty-nine, sixty. And let go. Free play once more, {lever-play}.',
    ],
  ],
  'spin-the-wheel': [
    [
      'Front stand, two people, rear wheel blocked. As with the rear, nobody kneels beside it until we have shaken it.',
      'Spin. And pull. It stops at once. Let go, and spin again.',
      'Hear that? A light whisper. No beat, no drag.',
      'A wheel that drags is hot very soon, and hot fluid boils. Free wheel, hard lever. Both.',
    ],
  ],
  'wash-down-and-clear-up': [
    [
      'Water over everything that the fluid may have touched. Bars first, fork, wheel.',
      'Old fluid into the marked can. Not down the drain, and not into the oil.',
      'Then the card. Date, distance, the batch on the bottle. And both of us sign.',
    ],
  ],
  'bed-the-pads-in': [
    [
      'New pads bite badly, until they have met the disc. So leave twice the room.',
      'A quiet street. From walking pace first, gently, to a stop. Then a dozen gentle stops from town speed, and time to cool in between.',
      'No hard stop, unless a child runs out. One hard stop glazes them, and a glazed pad never bites again.',
      'Gentle, often, cool. And that was the front brake. Thank you.',
    ],
  ],
};

/** First attempts: what went wrong before it was said properly. */
export const RETAKES_BRAKE: Readonly<Record<string, readonly string[]>> = {
  'before-you-open-anything': [
    'Good afternoon. Nothing on this bike forgives less than the front brake.',
    'And the lid is open. Who opened the lid? Right. Again.',
  ],
  'read-the-fluid': ['But it drinks water out of the air.', 'Sorry, I was standing in the light. Once more.'],
  'clean-the-caliper-and-press-the-pistons-back': [
    'First I draw a little fluid out of the reservoir.',
    'With the syringe, which is over there. One moment, please. Again.',
  ],
  'hang-the-bottle-on-the-bleed-screw': [
    'Dust cap off. Hose on.',
    'No, the spanner first. You see how easy it is. Again.',
  ],
  'spin-the-wheel': ['Front stand, two people, rear wheel blocked.', 'It is not blocked. Down again, and once more.'],
};
