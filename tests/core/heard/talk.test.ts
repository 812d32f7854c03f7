import { expect, test } from 'vitest';
import { findQuantities } from '../../../src/core/heard/index.ts';
import { label } from '../../support/heard.ts';

// Values are invented. Each rule of speech with a sentence it hears and a neighbour it leaves.
test.each<[string, ...string[]]>([
  // Numbers as they are spelled.
  ['It is one comma eight millimetres.', 'length 1.8..1.8 mm'],
  ['It is one, eight millimetres are too many.', 'length 8..8 mm'],
  ['Set it to two-point-two-K-W.', 'power 2.2..2.2 kW'],
  ['The coil has one-two-zero-zero ohms.', 'resistance 1200..1200 Ω'],
  ['The gauge shows oh-two-eight, in inches.', 'length 0.028..0.028 in'],
  ['It drops to thirty-four eighty rpm.', 'turning-speed 3480..3480 rpm'],
  ['The resistor should be four K seven.', 'resistance 4.7..4.7 kΩ'],
  ['Relube it every hundred and fifty K.', 'distance 150..150 km'],
  ['It wants fifty-four to six thousand rpm.', 'turning-speed 5400..6000 rpm'],
  ['It sits one thirty second under the head.', 'length 0.03125..0.03125 in'],
  ['It is six foot two long.', 'length 6.16666666667..6.16666666667 ft'],
  ['Leave a millimetre and a half to two millimetres.', 'length 1.5..2 mm'],
  ['Nine and a bit amps.', 'current 9..9 A'],
  // Limits.
  ['It sits no further than eight millimetres from the teeth.', 'length ..8 mm'],
  ['It sits eight millimetres further than the teeth.', 'length 8..8 mm'],
  ['It is out six thou, and the maker allows eight.', 'length 6..6 thou', 'length ..8 thou'],
  ['It is out six thou, and the maker says eight.', 'length 6..6 thou', 'length 8..8 thou'],
  ["It shouldn't sag past nine volts.", 'voltage 9.. V'],
  ["It shouldn't go past nine volts.", 'voltage ..9 V'],
  ['I want at least one megohm, and this is showing over two hundred.', 'resistance 1.. MΩ', 'resistance 200.. MΩ'],
  ['I want one megohm, and it should be over two hundred.', 'resistance 1..1 MΩ', 'resistance 200.. MΩ'],
  ['No more than eighteen, sorry, eight thou.', 'length ..8 thou'],
  ['About eighteen, sorry, eight thou.', 'length 8..8 thou'],
  ['If it takes less than twenty seconds, you are forcing it.', 'time 20.. s'],
  ['If it takes less than twenty seconds, that is fine.', 'time ..20 s'],
  ['Gas older than thirty days goes in the truck.', 'time ..30 day'],
  ['Take a thirty-second off, no deeper, and flip it.', 'length ..0.03125 in'],
  ['Eight newton metres, no more, and flip it.', 'torque ..8 N·m'],
  [
    'Brushes were eleven mil new, and when there is five left you replace the pair.',
    'length 11..11 mm',
    'length 5.. mm',
  ],
  ["The wear mark's at six millimetres.", 'length 6.. mm'],
  // What is put aside.
  ["I'm not setting this at eighty psi, I'm setting it at sixty-five psi.", 'pressure 65..65 psi'],
  ['An inch and a sixteenth would be silly.'],
  ['An inch and a sixteenth would be right.', 'length 1.0625..1.0625 in'],
  // The same again in a sentence is said once, another thing's not.
  ['Its groove is fifty thou, so the chain has to be fifty thou.', 'length 50..50 thou'],
  ['Half a litre of coolant and half a litre of water.', 'volume 0.5..0.5 L', 'volume 0.5..0.5 L'],
  [
    'Forty newton metres, then ninety degrees, then another ninety.',
    'torque 40..40 N·m',
    'angle 90..90 °',
    'angle 90..90 °',
  ],
  // Degrees of heat.
  ['The housing is fifty-two degrees.', 'temperature 52..52 °'],
  ['The blade is fifty-two degrees.', 'angle 52..52 °'],
  ['I baked the finish: sixty-five degrees.', 'temperature 65..65 °'],
  ['Leave it simmering, ninety-five degrees.', 'temperature 95..95 °'],
  ['I planed the edge: sixty-five degrees.', 'angle 65..65 °'],
  ["It comes back in when it's dropped eight degrees.", 'temperature-difference 8..8 °'],
  // A unit told elsewhere.
  [
    'It measures a hundred and twenty-six, the hub is a hundred and thirty, so we spring it four millimetres.',
    'length 126..126 mm',
    'length 130..130 mm',
    'length 4..4 mm',
  ],
  ['It measures a hundred and twenty-six, and the gap is four millimetres.', 'length 4..4 mm'],
  ['A quarter turn, then maybe another eighth.', 'angle 0.25..0.25 turn', 'angle 0.125..0.125 turn'],
  ['The clamp meter on the tail says twelve point seven.', 'current 12.7..12.7 A'],
  ['The man on the tail says twelve point seven.'],
  ["It's a hundred and forty on the bearing cap Fahrenheit.", 'temperature 140..140 °F'],
  [
    'It was set at a hundred and fifty, bring it down to 120 Fahrenheit.',
    'temperature 150..150 °F',
    'temperature 120..120 °F',
  ],
  ['Thirty-six volt pack, and forty-one point eight on the meter.', 'voltage 41.8..41.8 V'],
  ['Thirty-six volt pack, and forty on the shelf.'],
  // What is talked of says the unit.
  ['Compression is ninety cold.', 'pressure 90..90 psi'],
  ['The coffee is ninety cold.'],
  ['Hone it at thirty.', 'angle 30..30 °'],
  ['Meet me at thirty.'],
  ['The thermostat is set to sixty.', 'temperature 60..60 °'],
  ['The hub spacing is a hundred and forty-eight.', 'length 148..148 mm'],
  ["Wide open we're at thirteen two.", 'turning-speed 13200..13200 rpm'],
  ['The battery sits at thirteen eight to fourteen four.', 'voltage 13.8..14.4 V'],
  ['It moves a litre and a half a minute.', 'flow 1.5..1.5 L/min'],
  ['Ninety volts, floating. Now it drops to two.', 'voltage 90..90 V', 'voltage 2..2 V'],
  ['Inside ten seconds. And there, seven point three.', 'time ..10 s', 'time 7.3..7.3 s'],
  // Names.
  ['It takes half-inch and quarter-inch shanks.'],
  ['The hose is four-inch.'],
  ['The hose is four inches.', 'length 4..4 in'],
  ['Seventy-one teeth on it.', 'count 71..71 teeth'],
  // Lives, and work that lasts.
  ["It took me, I'd say, twenty years to learn."],
  ["It's had eleven years of bad weather."],
  ['After eleven years in a shed.'],
  ['After eleven years in service.', 'time 11..11 year'],
  ['The glue wants a full day.', 'time 1..1 day'],
  ['We temper it at two hundred and thirty Celsius for half an hour.', 'temperature 230..230 °C', 'time 0.5..0.5 h'],
])('%s', (text, ...expected) => {
  expect(findQuantities(text).map(label)).toEqual(expected);
});
