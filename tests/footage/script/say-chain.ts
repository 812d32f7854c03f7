/**
 * What is said in the chain recording, by chapter or step: a list for each scene of it, one entry a stretch of speech.
 * `{row}` is the value of that row of the spec table, spoken; `{row@year}` the one of a model year, `{row~}` its number alone.
 */
export const SAY_CHAIN: Readonly<Record<string, readonly (readonly string[])[]>> = {
  'look-before-you-loosen': [
    [
      'Good morning. Before we loosen anything, we look. A little looking tells you whether this job is needed at all.',
      'Gloves on, please. Chain dirt does not wash out of skin.',
      'And this is our bike. Your own service manual comes before anything that I say.',
    ],
  ],
  'measure-the-chain-over-twenty-pitches': [
    [
      'Front wheel blocked, engine off, key in my pocket. A turning chain can take a finger off before you can pull back.',
      'I push the lower run up with one finger, so that it is straight, and lay the rule along it.',
      'From the middle of this pin, I count twenty pins on. Not the first pin as number one. The first pin is zero.',
      'One pitch of this chain is {chain-pitch}. New, twenty of them make a length you can work out in your head.',
      'The limit in the manual is {chain-twenty-pitches~} over twenty pitches.',
      'I do that at three places, and I believe the longest. A chain never wears evenly.',
      'This one is over the limit. So it goes, and its sprockets go with it.',
    ],
  ],
  'find-the-tight-spot': [
    [
      'Now roll the bike forward, a hand at a time, and lift the chain each time. Feel how it moves less and less, and then more again.',
      'Here. This is where it moves least. That is the tight spot.',
      'A dab of paint on the tyre, so that we find it again.',
      'At this spot the slack has to be {chain-slack}, up and down together.',
      'Why here? If you set it where it hangs loose, it is a bowstring when the tight part comes round, and it eats the bearing behind the sprocket.',
    ],
  ],
  'read-the-teeth': [
    [
      'Take the torch and look at the teeth from the side.',
      'A good tooth is the same on both flanks. A worn one leans, like a wave about to break.',
      'Now pull a link away from the back of the big sprocket. If you can see half a tooth under it, the two have parted company.',
      'The small one wears faster, because each of its teeth works nearly three times as often. And nobody ever looks at it.',
      'Pass these three round. Which of them would you still ride?',
    ],
  ],
  'take-the-rear-wheel-out': [
    [
      'Now the wheel comes out. Everything that is tight gets loosened while both tyres stand on the floor.',
      'Only then does the bike go up.',
    ],
  ],
  'crack-the-axle-nut': [
    [
      'You sit on it, please, and hold the front brake. I hold the head of the axle on the other side with a ring spanner.',
      'Long bar, socket right on, feet apart. And I pull. I do not push.',
      'If it slips while I pull, I sit down on the floor. If it slips while I push, my face meets the exhaust.',
    ],
    [
      'Once more. Socket right on, check it, and pull.',
      'There. A quarter of a turn is enough for now. The nut only has to be willing.',
      'On the stand, that same pull would have had the bike over.',
    ],
  ],
  'lift-the-rear-on-the-stand': [
    [
      'This needs two people, always. One holds the bike upright by the grab rail, and does nothing else.',
      'The other brings the stand under the spools. Look left. Look right. Both have to sit deep in their forks, not on the lip.',
      'When both sit, and only then, press the stand down in one steady movement.',
      'A bike that comes off its stand falls on whoever kneels beside it. It breaks legs.',
      'Wheel blocks, in front and behind. Tie back the front brake.',
      'And now we shake it by the tail, both of us, hard. Better it falls now than with someone beside it.',
    ],
  ],
  'back-off-the-adjusters': [
    [
      'Before I touch the adjusters, I count the marks on both sides, and I write them down. That is our first guess for later.',
      'Lock nuts loose. Now each adjuster in, by the same number of turns. One, two, three. And the other side. One, two, three.',
      'Say it aloud. It feels silly, and it saves you lining up the wheel twice.',
      'Now the wheel can go forward.',
    ],
  ],
  'lift-the-chain-off-the-teeth': [
    [
      'Work gloves now. Push the wheel forward, as far as it goes.',
      'Turn it backwards, by the tyre, and lead the upper run off to the outside. By the tyre, never by the chain.',
      'Turned by hand is quite enough to crush a finger between the two.',
      'It hangs over the swingarm on a rag. It may get dirty, it is going in the scrap.',
    ],
  ],
  'draw-the-axle-and-lower-the-wheel': [
    [
      'Nut right off. I sit down behind the wheel and put my toes under the tyre.',
      'With my toes I lift the weight of the wheel. Now there is no load on the axle, and it comes out with a twist, to the left.',
      'If it sticks, a tap with the soft mallet on the thread end, with the nut screwed on flush to save the thread.',
      'Catch the spacers. The long one lives on the brake side. If you swap them, the wheel stands crooked and the hanger rubs on the disc.',
      'Lay everything on the rag in the order it came out. The rag is your memory.',
    ],
  ],
  'change-the-sprockets': [
    [
      'Now the sprockets. The front one hides behind a cover full of old grease.',
      'It is the smaller of the two, so it wears faster, and it is the one that people skip.',
    ],
  ],
  'open-the-sprocket-cover': [
    [
      'Three bolts, two lengths. Take a piece of card, draw the cover on it, and push each bolt through where it came from.',
      'A long bolt in a short hole goes through into the gear case. I have seen it. Twice.',
      'Tray underneath, and brush. All of this goes into the tray, and not on the floor where you will kneel in it.',
    ],
  ],
  'take-the-front-sprocket-off': [
    [
      'First gear in. My helper steps on the rear brake pedal, or holds the old chain round the sprocket, with both hands well back.',
      'One bolt, in the middle. It is tight, and it stays tight for many turns. Do not be afraid, that is how it should be.',
      'It was stretched on purpose when it was fitted. That is also why it goes in the bin, and not in the tray.',
      'Stretched once, it has nothing more to give.',
      'Off it comes. Look at the splines. Clean and square, that is good.',
    ],
  ],
  'fit-the-front-sprocket': [
    [
      'Clean the splines. New sprocket on, with the stamped side out.',
      'New bolt, two drops of threadlocker, and run it in by hand.',
      'Now in two stages: {front-sprocket-bolt}.',
      'First stage with the torque wrench. Slowly, until it clicks. And stop.',
      'Now take up the slack of the drive, and set the angle gauge to zero.',
      'Second stage. I watch the gauge and not the wrench. From here on the wrench would only tell us about friction. The angle tells us how far the bolt stretches.',
      'Twenty, forty, fifty, and there it is. And that bolt is now used up. It holds, once.',
    ],
  ],
  'take-the-rear-sprocket-off': [
    [
      'The wheel lies on two blocks, with the disc up and clear of the bench. Nothing ever rests on the brake disc.',
      'Five nuts. Crosswise, half a turn each at first, so that the carrier does not twist.',
      'The old nuts are scrap. Their locking ring is worn.',
      'Lift the carrier off, and look at the rubbers while you are there. Cracked ones make the chain jerk.',
    ],
  ],
  'fit-the-rear-sprocket': [
    [
      'Wipe the seat until the rag stays clean. One grain of sand under there, and the sprocket wobbles for the rest of its life.',
      'New sprocket, stamped side out. Five new nuts. All five by hand first, before a tool touches one.',
    ],
    [
      'Now crosswise, in two rounds, to {rear-sprocket-nut}.',
      'First round, about half. Second round, until it clicks.',
      'One, three, five, two, four. Touch each nut and say its number.',
    ],
  ],
  'fit-the-new-chain': [
    [
      'From here on, a mistake is not annoying any more. A chain that opens on the road can lock the wheel.',
      'So we work slowly, glasses on, all of us, and somebody else looks at each link we close.',
    ],
  ],
  'push-out-the-old-rivet': [
    [
      'We press, we do not grind. The tool goes square on one pin of the old chain.',
      'Hand-tight. Look at it from above, look at it from the side. Square? Then lean on it.',
      'Faces out of the line, please. The pin of this tool is hard, and if it stands crooked, it snaps and flies.',
      'There it drops.',
      'And now a piece of wire. I tie the new chain to the end of the old one. That saves us reaching round the swingarm.',
    ],
  ],
  'count-and-cut-the-new-chain': [
    [
      'Old chain and new chain, side by side on the bench. We count.',
      'I count from this end, she counts from the other. The old one is stretched, so do not trust its length. Trust the number.',
      'One hundred and ten. What did you get? One hundred and ten. Good.',
      'Mark the pin. Ask one more time. And only then press it out.',
      'You can make a chain shorter. Nobody has ever made one longer.',
      'A rag round it, glasses on. It leaves the tool faster than you think.',
    ],
  ],
  'lead-the-chain-round': [
    [
      'Now pull the old one, and the new one follows. Over the front sprocket, above the pivot, inside the guard.',
      'Below the pivot, it would saw through the swingarm in an afternoon. So look before you close it.',
      'The two ends meet on the rear sprocket, where the teeth hold them for you.',
    ],
  ],
  'press-the-rivet-link-together': [
    [
      'This little packet has everything in it. The link, four rings, the plate, and a sachet of grease.',
      'Grease on both pins. A ring on each. The link goes in from behind.',
      'A ring on each again, and then the plate. Two behind, two in front. And now the packet is empty, look.',
      'The tool presses the plate on. Fingers away before I turn. A little, then measure. A little, then measure.',
      'We measure across the plates. It has to be {link-plate-width}. Same as the links beside it.',
      'Too far, and the rings are squeezed out, and the link is stiff. You cannot press it apart again.',
    ],
  ],
  'flare-the-rivets': [
    [
      'Change the tool over to the pin with the cone. It spreads the end of the rivet like a flower.',
      'A little, then measure across the head. It has to be {rivet-flare}.',
      'Not yet. Again. Measure. Now it is right. And now the other.',
      'Torch. We look for cracks, all round. A cracked head means that we cut the link out and start again with a new one.',
      'Bend it with two fingers. It folds like its neighbours.',
      'And somebody else measures both heads. Whoever has just made it sees what was meant to be there.',
    ],
  ],
  'put-it-back-and-set-the-slack': [
    ['And now backwards. Wheel in, slack, straight, and tight.', 'The axle nut comes last of all.'],
  ],
  'put-the-wheel-back': [
    [
      'Wipe the axle. A thin film of grease on it, {axle-grease}, no more. And none on the thread.',
      'Grease on the thread would turn the same click into far more pull. The wrench cannot know that.',
      'Toes under the tyre, lift. Brake hanger into its slot. Spacers in, the long one on the brake side.',
      'Axle through from the left. If it stops, do not hit it. Lift a little more, and it goes.',
      'Nut on by hand. With its washer, if yours is an early bike.',
    ],
  ],
  'set-the-slack': [
    [
      'Turn the wheel until the paint is at the bottom. That is our tight spot.',
      'Push the wheel forward, hard against both adjusters. Every time, before you read.',
      'Now lift, and let it down. The slack should be {chain-slack}.',
      'A flat out on this side. A flat out on that side. Push forward. Measure.',
      'When you sit on it, the swingarm rises, and the chain needs more length than it does here. So a bit loose is noisy. A bit tight is a broken gearbox.',
      'That will do nicely.',
    ],
  ],
  'line-the-wheel-up': [
    [
      'The marks on the swingarm bring us near. But they are stamped, and the pivot is drilled. So I trust the pivot.',
      'Measure from the pivot to the axle, this side, and that side. They may differ by {adjuster-difference}.',
      'Then get down and look along the chain from behind. It should run on to the sprocket like a train on to a straight track.',
    ],
  ],
  'tighten-the-axle-nut': [
    [
      'Off the stand, wheels on the floor. Somebody holds the brake.',
      'A rag between the chain and the sprocket, and roll back on to it. Now the axle sits hard against the adjusters.',
      'Which bike have we got? The early ones have a plain nut with a washer. They take {rear-axle-nut@2019}.',
      'From 2022 on there is a nut with a flange, and that takes {rear-axle-nut@2022}. Both fit the thread, so look.',
      'Large wrench. One slow pull. Wait for it.',
      'One click, and stop. Every further click adds a little more.',
      'And my helper has watched it, and signs beside me. If this nut works loose, nobody can hold the bike.',
    ],
  ],
  'lock-the-adjusters-and-close-the-cover': [
    [
      'Hold the adjuster still, and tighten its lock nut to {adjuster-locknut}. Both sides.',
      'Cover back on, with the bolts from the card. They get {sprocket-cover-bolt}. Small wrench. It is only light alloy.',
      'And now measure the slack again. Tightening the axle nearly always moves it.',
      'The slack that counts is this one.',
    ],
  ],
  'oil-it-and-write-it-down': [
    [
      'Oil goes on the inside of the lower run, between the plates, while somebody turns the wheel by its tyre.',
      'Wait. Wipe. Wipe again. What you can see shining only collects dust.',
      'Again after {chain-oiling}. And look at the slack every {chain-check}.',
      'Card, date, distance, and two names. Thank you, that was the chain.',
    ],
  ],
};

/** First attempts: what went wrong before it was said properly. */
export const RETAKES_CHAIN: Readonly<Record<string, readonly string[]>> = {
  'look-before-you-loosen': [
    'Good morning. Before we loosen anything, we look. A little looking tells you.',
    'No. Sorry. Is that phone mine? I will start again.',
  ],
  'read-the-teeth': [
    'Take the torch and look at the teeth from the side.',
    'The torch would help. Where is the torch? Once more.',
  ],
  'lift-the-chain-off-the-teeth': [
    'Work gloves now. Push the wheel forward.',
    'I have the wrong gloves on. Again, please.',
  ],
  'fit-the-front-sprocket': [
    'Clean the splines. New sprocket on, with the stamped side out.',
    'And this is the stamped side, and I have it in. Sorry. From the start.',
  ],
  'fit-the-rear-sprocket': ['Now crosswise, in two rounds.', 'Wait, there is a truck outside. We wait. Again.'],
  'flare-the-rivets': [
    'Change the tool over to the pin with the cone.',
    'It does that better the other way up. Let me do that again.',
  ],
  'tighten-the-axle-nut': [
    'Off the stand, wheels on the floor. Somebody holds the brake.',
    'Somebody did not hold the brake. Back up, and again.',
  ],
};
