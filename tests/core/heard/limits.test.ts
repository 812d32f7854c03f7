import { expect, test } from 'vitest';
import { findQuantities, findTyped } from '../../../src/core/heard/index.ts';
import { label } from '../../support/heard.ts';

// One sentence for each rule by which the side of a limit is told, and a neighbour that it leaves. All invented.
test.each<[string, ...string[]]>([
  // A case told without an `if`, and what only goes on.
  ['Out by more than 0.2 mm, get the file.', 'length ..0.2 mm'],
  ['Fuel over thirty days old goes in the drum.', 'time ..30 day'],
  ['How oval is too oval? Over 2 thou.', 'length ..2 thou'],
  ['Below 4 bar? Then we bleed it again.', 'pressure 4.. bar'],
  ['A cable that is shallower than 50 mm needs a plate.', 'length 50.. mm'],
  ['Over two hundred megohms, so it passes.', 'resistance 200.. MΩ'],
  // What joins the clause, and where a negation stands.
  ["If it isn't over 9 volts, bin it.", 'voltage 9.. V'],
  ["Don't touch it until the meter shows less than 50 volts.", 'voltage ..50 V'],
  ["Don't worry unless it's over 50 volts.", 'voltage ..50 V'],
  ["Don't run it if it's over 50 volts.", 'voltage ..50 V'],
  ['Were it to climb beyond 20 amps, I would stop.', 'current ..20 A'],
  ['The standard forbids it more than 90 m/s.', 'speed ..90 m/s'],
  ["I've got over 200 kΩ.", 'resistance 200.. kΩ'],
  // Behind the value.
  ['Thirteen thousand rpm and not a single rev above.', 'turning-speed ..13000 rpm'],
  ['Leave 1 mm of carbide. Anything less, no more grinding.', 'length 1.. mm'],
  ['Stand 3 m away. Further is fine.', 'length 3.. m'],
  ["Set it to 40 N·m. Below that there's another bolt.", 'torque 40..40 N·m'],
  ['Ten newton metres, no more, no less.', 'torque 10..10 N·m'],
  ["Thirty thou or wider and we're buying rings.", 'length ..30 thou'],
  ['Thirty thou or wider is what I want.', 'length 30.. thou'],
  ["Sixty centimetres, that's as near as it gets.", 'length 60.. cm'],
  ["Two hundred megohms, which is as far as this tester counts, and it's fine.", 'resistance 200..200 MΩ'],
  ['Twelve inches, thirty centimetres, is the shortest piece I would run.', 'length 12.. in', 'length 30.. cm'],
  ['Half a millimetre deep and it is out.', 'length ..0.5 mm'],
  ['Ten minutes and it is dry.', 'time 10..10 min'],
  // Asked, and headed.
  ['How warm may it run? Seventy Celsius.', 'temperature ..70 °C'],
  ['How far does it travel? Eighty millimetres.', 'length 80..80 mm'],
  ['Deepest pass on the jointer, 2 mm.', 'length ..2 mm'],
  ['The longest bolt, 60 mm, goes at the top.', 'length 60..60 mm'],
  // What is kept to, must last, must be done by.
  ['Keep it to eighty percent, so sixteen amps.', 'ratio ..80 %', 'current ..16 A'],
  ['Keep the file flat to 25 degrees.', 'angle 25..25 °'],
  ["It's got to last ninety minutes.", 'time 90.. min'],
  ['The breaker has to trip by thirty milliamps.', 'current ..30 mA'],
  ["Don't open it until forty minutes are up.", 'time 40.. min'],
  // Of time the quicker is less, of a bend the tighter.
  ['Ten seconds flat or quicker.', 'time ..10 s'],
  ['Never bend it sharper than 40 mm.', 'length 40.. mm'],
  // The same amount with its side at last, and another one.
  ['Fifty millimetres, well, fifty millimetres or more.', 'length 50.. mm'],
  ['Minimum ninety psi; 6.2 bar in new money.', 'pressure 90.. psi', 'pressure 6.2.. bar'],
])('%s', (text, ...expected) => {
  expect(findQuantities(text).map(label)).toEqual(expected);
});

// Who looks for a value types its limit next to it; what comes of a thing is not looked for.
test.each<[string, ...string[]]>([
  ['under 4 mm', 'length ..4 mm'],
  ['30 psi or more', 'pressure 30.. psi'],
  ['at least 12 V', 'voltage 12.. V'],
  ['40 Nm', 'torque 40..40 N·m'],
  ['below 4 mm bin it', 'length ..4 mm'],
])('typed: %s', (text, ...expected) => {
  expect(findTyped(text).map(label)).toEqual(expected);
});
