import { expect, test } from 'vitest';
import { findQuantities } from '../../../src/core/heard/index.ts';
import { label } from '../../support/heard.ts';

// Values are invented. Each rule of speech with a sentence it hears and a neighbour it leaves.
test.each<[string, ...string[]]>([
  // A number takes the unit of its neighbour.
  ['Thirty psi in the front and thirty-two in the rear.', 'pressure 30..30 psi', 'pressure 32..32 psi'],
  ['Thirty psi in the front and thirty-two riders in the rear.', 'pressure 30..30 psi'],
  ['It drew six amps for two seconds, then four.', 'current 6..6 A', 'time 2..2 s', 'current 4..4 A'],
  ['Intake five to six thou, exhaust eight to ten.', 'length 5..6 thou', 'length 8..10 thou'],
  ['Wait ten minutes, fifteen if it is cold.', 'time 10..10 min', 'time 15..15 min'],
  ['Wait ten minutes at fifteen.', 'time 10..10 min'],
  ['Leave 12 mm at the end of step 14.', 'length 12..12 mm'],
  ['It was 12 V in 2014.', 'voltage 12..12 V'],
  ['Loosen it eight turns, then count to ten.', 'angle 8..8 turn'],
  ['Eight newton metres, eight, no more.', 'torque 8..8 N·m'],
  // The neighbour may come later.
  ['The main bevel is twenty-five, the back one thirty degrees.', 'angle 25..25 °', 'angle 30..30 °'],
  ["He's twenty-five, and the bevel is thirty degrees.", 'angle 30..30 °'],
  ['It goes to twenty, sorry, thirty newton metres.', 'torque 30..30 N·m'],
  // Metric is said without saying of what.
  ['Forty thou, or one point two if you are metric.', 'length 40..40 thou', 'length 1.2..1.2 mm'],
  // What is counted is said first.
  ['Count the teeth, you should get forty.', 'count 40..40 teeth'],
  ['Count the riders, you should get forty.'],
  // What a trade understands.
  ['The wheel is five sixteenths thick.', 'length 0.3125..0.3125 in'],
  ['The wheel is five sixteenths.'],
  ['It idles at twenty-six hundred.', 'turning-speed 2600..2600 rpm'],
  ['It sells at twenty-six hundred.'],
  ['Take a sixteenth off, a thirty-second at most.', 'length 0.0625..0.0625 in', 'length ..0.03125 in'],
  ['Use the five thirty-seconds file.'],
  // Two side by side are a guess with room; more are each a value.
  ['About sixty, sixty-five psi.', 'pressure 60..65 psi'],
  ['Twenty, forty, sixty newton metres.', 'torque 20..20 N·m', 'torque 40..40 N·m', 'torque 60..60 N·m'],
  ['Half a turn, maybe three quarters.', 'angle 0.5..0.75 turn'],
  ['Half a turn, maybe three people.', 'angle 0.5..0.5 turn'],
  ['Thirty minutes to an hour.', 'time 30..60 min'],
  // What each side gets, a number after a rough word, a pronoun after it, a limit far from what was read.
  [
    'The kerf is two millimetres and the plate one point four, so point three a side.',
    'length 2..2 mm',
    'length 1.4..1.4 mm',
    'length 0.3..0.3 mm',
  ],
  ['The kerf is two millimetres, and there are eight a side.', 'length 2..2 mm'],
  ['Take three millimetres in pine, and in oak stay around one.', 'length 3..3 mm', 'length 1..1 mm'],
  ['Take three millimetres, and we meet around one.', 'length 3..3 mm'],
  ['Take three millimetres off the bad one.', 'length 3..3 mm'],
  ["Play is 0.3 mm, and anything over 0.8 I'd send back.", 'length 0.3..0.3 mm', 'length ..0.8 mm'],
  ['It tripped in thirty milliseconds, and the maximum is two hundred.', 'time 30..30 ms', 'time ..200 ms'],
  ['It tripped in thirty milliseconds, and the fee is two hundred.', 'time 30..30 ms'],
  // `this one` is a thing; a range from one on does not go so far.
  ['Cut this one to ninety links.', 'count 90..90 links'],
  ['Leave a gap of one to two millimetres.', 'length 1..2 mm'],
  // Nobody counts thousands above nine hundred and ninety-nine.
  ['Between twelve hundred and four thousand ohms.', 'resistance 1200..4000 Ω'],
  ['Two hundred and four thousand ohms.', 'resistance 204000..204000 Ω'],
  // Looked at again, a value is taken back.
  ['It reads eleven, let me check that again, twelve millimetres.', 'length 12..12 mm'],
  ['It reads eleven, let me see that gauge, twelve millimetres.', 'length 11..11 mm', 'length 12..12 mm'],
  // A limit told in a clause of its own.
  ['Never go past the maximum on the label, which here is forty psi.', 'pressure ..40 psi'],
  ['We looked at the pressure on the label, which here is forty psi.', 'pressure 40..40 psi'],
  // The same limit in another unit leaves the same side.
  ['It is not to exceed 85 psi or 5.9 bar.', 'pressure ..85 psi', 'pressure ..5.9 bar'],
  ['It is not to exceed 85 psi or 3.9 bar.', 'pressure ..85 psi', 'pressure 3.9..3.9 bar'],
  ['It is not to exceed 85 psi, then go to 5.9 bar.', 'pressure ..85 psi', 'pressure 5.9..5.9 bar'],
  // Two numbers too far apart for a guess are hundreds and their rest.
  ['It idles at sixteen fifty rpm.', 'turning-speed 1650..1650 rpm'],
  ['Wait fifteen, twenty minutes.', 'time 15..20 min'],
  ['Leave it fifteen twenty minutes.', 'time 20..20 min'],
  // A range names and counts nothing; a day's hours after one of them.
  ['It trips at five milliamps, in the band of four to six.', 'current 5..5 mA', 'current 4..6 mA'],
  ['It trips at five milliamps in the room of six.', 'current 5..5 mA'],
  ['Let it soak for an hour and leave it alone for twenty-four.', 'time 1..1 h', 'time 24..24 h'],
  // Over is also a way to go; a tighter bend is a smaller one.
  ['Bend each tooth over eight thou.', 'length 8..8 thou'],
  ['Never go over eight thou.', 'length ..8 thou'],
  ['Never bend it tighter than four inches.', 'length 4.. in'],
  ['Never pull it tighter than four newton metres.', 'torque ..4 N·m'],
  // An ounce to a gallon is of what is poured.
  ['An ounce for every two and a half gallons.', 'volume 1..1 oz', 'volume 2.5..2.5 gallon'],
  ['An ounce for every rider and a gallon of tea.', 'mass 1..1 oz', 'volume 1..1 gallon'],
  ['I count twenty-six teeth.', 'count 26..26 teeth'],
  ['Count three teeth and mark it.'],
  // What is thrown away says which side is good.
  ['Below three millimetres, bin it.', 'length 3.. mm'],
  ['Below three millimetres, leave it.', 'length ..3 mm'],
  ['Do not bin it below three millimetres of gap.', 'length 3.. mm'],
  ['A clearance of nine thou is the reject size.', 'length ..9 thou'],
  ['Keep it 40 mm from the edge of the board, minimum.', 'length 40.. mm'],
  ['Keep it 40 mm from the edge of the board, please.', 'length 40..40 mm'],
  // A unit said apart from its numbers, in their sentence or the next.
  ['Five on the stem, six on the post, newton metres that is.', 'torque 5..5 N·m', 'torque 6..6 N·m'],
  ['Five on the stem, six on the post, friends that is.'],
  ['It wants between eight and ten. Newton metres.', 'torque 8..10 N·m'],
  ['It wants eight. Newton was a physicist.'],
  // A list up to its last.
  ['Go to two, then four, then the full five newton metres.', 'torque 2..2 N·m', 'torque 4..4 N·m', 'torque 5..5 N·m'],
  // The sentence before spoke of it.
  ['The gap is ten thou. The limit is twelve.', 'length 10..10 thou', 'length ..12 thou'],
  ['The gap is ten thou. The class has twelve.', 'length 10..10 thou'],
  ['Rake is ten degrees. The crosscut is thirty.', 'angle 10..10 °', 'angle 30..30 °'],
  ['Rake is ten degrees. He is thirty.', 'angle 10..10 °'],
  // A point left unsaid, where what was said before has one.
  ['One point four bar in the front, one six in the back.', 'pressure 1.4..1.4 bar', 'pressure 1.6..1.6 bar'],
  ['Four bar in the front, one six-pack in the back.', 'pressure 4..4 bar'],
  // Trouble begins at a limit; what a thing is made to do there is none.
  ["Anything over two volts and I'd start looking.", 'voltage ..2 V'],
  ['Anything over two volts is fine.', 'voltage 2.. V'],
  ['Anything under thirty volts and the pack shuts off.', 'voltage ..30 V'],
  ['If it is over ten thou, shim it.', 'length ..10 thou'],
  ['If it is over ten thou, so be it.', 'length 10.. thou'],
  ['Scrap the pads at two millimetres.', 'length 2.. mm'],
  ['Fit the pads at two millimetres.', 'length 2..2 mm'],
  // A warning behind a value.
  ["Thirteen thousand rpm, and don't go over it.", 'turning-speed ..13000 rpm'],
  [
    "Thirteen thousand rpm, and don't go over it with a cloth while it runs down to five hundred.",
    'turning-speed ..13000 rpm',
    'turning-speed 500..500 rpm',
  ],
  ['Set it an inch above the work, no higher.', 'length ..1 in'],
  ['Thirty millimetres and not a hair more.', 'length ..30 mm'],
  // What a trade understands: revs, parts of an inch, volts from wire to wire, tyres.
  ['It idles at 1300 revs.', 'turning-speed 1300..1300 rpm'],
  ['Back it off three revs.', 'angle 3..3 turn'],
  ['The blade stands an eighth above the board.', 'length 0.125..0.125 in'],
  ['An eighth of the board is gone.'],
  ['I read two-forty hot to hot.', 'voltage 240..240 V'],
  ['I read two-forty to him.'],
  ['Tires, thirty-three front and thirty-six rear.', 'pressure 33..33 psi', 'pressure 36..36 psi'],
  ['Tires, four of them at the front.'],
  // Horsepower; hertz are in no table.
  ['It makes 6.5 horsepower.', 'power 6.5..6.5 hp'],
  ['I read 229 volts and 50.1 hertz.', 'voltage 229..229 V'],
  // Taken back behind its place.
  ['It is 240 volts between phases, no, sorry, 400.', 'voltage 400..400 V'],
  ['It is 240 volts between phases, 400 at the board.', 'voltage 240..240 V', 'voltage 400..400 V'],
  // Compound units.
  ['Four foot two and three eighths.', 'length 4.19791666667..4.19791666667 ft'],
  ['It holds one pint four ounces.', 'volume 1.25..1.25 US pt'],
  // Shares.
  ['Set the sag to 25 to 30 percent.', 'ratio 25..30 %'],
  ['A hundred watts at most.', 'power ..100 W'],
  ['It trips in forty milliseconds.', 'time 40..40 ms'],
])('%s', (text, ...expected) => {
  expect(findQuantities(text).map(label)).toEqual(expected);
});
